//! Two versions of a dance side by side: where they differ, how that is said, and taking a part or a figure over.
//!
//! Nothing here changes either version: what is taken over gives a new dance.
//!
//! May use `edits`, `faults`, `words`, `figures`, `motion` and `dance`. Begin with [`compare()`].

mod compare;
mod compare_words;
mod take_over;

pub use compare::{APART, ASKEW, Comparison, PartDifference, compare};
pub use compare_words::WholeDifference;
pub use take_over::{TakeError, with_figure_of, with_part_of, with_strikes_of};
