//! What each dancer does, in words, worked out from the motion.

mod cautions;
mod now;
mod tell;

pub use cautions::{CAUTIONS, CAUTIONS_IN_SHORT};
pub use now::{facing_words, lead_words, now, standing};
pub use tell::{Told, tell};
