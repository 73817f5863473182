//! The practice page: one HTML file that plays a dance on a phone, off line.
//!
//! The page holds the dance as JSON: names and words as text, and what everyone does as packed bytes (see
//! [`pack_moves`] and [`pack_feet`]), each kind of dancing once however often it is danced. Its script, the
//! modules in `assets/practice/` joined (see `script`), unpacks them with the arithmetic that `tests/page.rs` follows.

mod bodies;
mod feet;
mod in_short;
mod moves;
mod script;
mod taps;
mod tune;
mod watching;
mod whole_page;

pub use bodies::{BODY_FINEST, BODY_PARTS, TOP_PARTS};
pub use feet::{HAND_PARTS, pack_feet};
pub use moves::{FACING_PARTS, FACING_WITHIN, FINEST, PLACE_PARTS, PLACE_WITHIN, pack_moves};
pub use whole_page::{PageError, page, page_with};
