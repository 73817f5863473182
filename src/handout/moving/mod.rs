//! A figure as a moving picture for a group of people who chat: an animated PNG or a GIF that goes round for ever.
//!
//! Begin with [`moving`], a whole one, and [`moving_picture`], one picture of it.

mod apng;
mod at_eye_level;
mod changed;
mod choice;
mod drawing;
mod error;
mod gif_out;
mod one_picture;
mod palette;
mod times;
mod whole_picture;

pub use choice::{MovingChoice, MovingKind, RATES, SIZES, SPEEDS, SeenFrom};
pub use error::MovingError;
pub use one_picture::moving_picture;
pub use times::picture_counts;
pub use whole_picture::{moving, moving_and_drawn};
