//! What each dancer does, in words, worked out from the motion.

mod now;

pub use now::{facing_words, lead_words, now, standing};
