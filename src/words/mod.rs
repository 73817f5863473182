//! What each dancer does, in words, worked out from the motion.

mod now;
mod tell;

pub use now::{facing_words, lead_words, now, standing};
pub use tell::{Told, tell};
