use std::ops::Range;

/// What is wrong with something that was typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Wrong {
    /// What it is, and what was expected or may have been meant.
    pub said: String,
    /// Where in the text, letters from its start; all of it where there is no such place.
    pub place: Option<Range<usize>>,
    /// Whether it could become right by typing on, so that nobody is told before they are done.
    pub unfinished: bool,
}

impl Wrong {
    /// Something about the text as a whole that typing on will not put right.
    #[must_use]
    pub fn whole(said: String) -> Self {
        Self { said, place: None, unfinished: false }
    }
}
