use crate::dance::{Dance, Dancer};
use crate::handout::{HandoutChoice, HandoutError, Made, OnProgress, make_handout};
use crate::motion::{Motion, SpanIndex};
use std::sync::Arc;

/// What a handout is made of: the dance, its motion, and which figure and which dancer are meant.
#[derive(Clone)]
pub struct HandoutOf {
    dance: Arc<Dance>,
    motion: Arc<Motion>,
    of: Option<(SpanIndex, Option<Dancer>)>,
}

impl HandoutOf {
    /// What a handout of a dance is made of: `of` is the line of the running order and the dancer that are meant, where there are any.
    #[must_use]
    pub fn new(dance: Arc<Dance>, motion: Arc<Motion>, of: Option<(SpanIndex, Option<Dancer>)>) -> Self {
        Self { dance, motion, of }
    }

    /// Makes it.
    ///
    /// # Errors
    /// When there is nothing to hand out.
    pub fn make(&self, choice: HandoutChoice, progress: OnProgress) -> Result<Made, HandoutError> {
        let of = self.of.ok_or(HandoutError::NoFigures)?;
        make_handout(&self.dance, &self.motion, of, choice, progress)
    }
}
