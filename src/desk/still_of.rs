use crate::dance::Dance;
use crate::motion::Motion;
use crate::picture::{Picture, PictureKind, StillLook, still_of};
use crate::store;
use std::path::Path;
use std::sync::Arc;

/// What a still is made of: the dance, its motion, and the count.
#[derive(Clone)]
pub struct StillOf {
    dance: Arc<Dance>,
    motion: Arc<Motion>,
    /// From the start.
    count: f64,
}

impl StillOf {
    /// What a still of a dance is made of, at a count from the start.
    #[must_use]
    pub fn new(dance: Arc<Dance>, motion: Arc<Motion>, count: f64) -> Self {
        Self { dance, motion, count }
    }

    /// The still as it would look.
    #[must_use]
    pub fn picture(&self, look: StillLook) -> Picture {
        still_of(&self.dance, &self.motion, self.count, None, look)
    }

    /// Writes it to a file, as pixels or outlines by the ending of its name, and says so.
    ///
    /// # Errors
    /// Why it cannot be written.
    pub fn write(&self, look: StillLook, path: &Path) -> Result<String, String> {
        let kind = PictureKind::of(path).map_err(|error| error.to_string())?;
        let bytes = kind.bytes(&self.picture(look)).map_err(|error| error.to_string())?;
        store::write_whole(path, &bytes).map_err(|error| error.to_string())?;
        Ok(format!("still written to {}", path.display()))
    }

    /// Whether another is of the same dance at the same count.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.dance, &other.dance)
            && Arc::ptr_eq(&self.motion, &other.motion)
            && self.count.total_cmp(&other.count).is_eq()
    }
}
