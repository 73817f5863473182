//! A tune as notes on staves: pure layout, from a [`Score`](crate::dance::Score) to marks.
//!
//! [`engrave()`] breaks a tune into systems that fit a width, spaces each by how long its notes are, and draws it. The
//! signs are outlines of this program's own (`glyphs.rs`, `digits.rs`), and `measures.rs` says how large everything is.

mod beams;
mod brush;
mod digits;
mod engrave;
mod glyphs;
mod lines;
mod measures;
mod notes;
mod over;
mod pen;
mod slots;
mod system;

pub use beams::beam_groups;
pub use engrave::engrave;
pub use system::System;
