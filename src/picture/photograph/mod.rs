//! A photograph or a sketch that lies under the floor: reading it, finding from its marks where on the floor each of its
//! pixels belongs, and laying it flat.
//!
//! [`Photograph::read`] takes the bytes of a file; [`FloorFit::of`] takes the marks; [`Flat::lay`] draws the one by the other.

mod fit;
mod flat;
mod jpeg;
mod least_squares;
mod read;
mod shrink;
mod sureness;

pub use fit::{FloorFit, NotTrue};
pub use flat::Flat;
pub use read::{MOST_PHOTO_BYTES, MOST_PHOTO_PIXELS, Photograph, fingerprint_of, is_photograph_name};
