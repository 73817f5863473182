//! Bellpad: draw, scrub, check and hand out the figures of a Cotswold morris side.
#![forbid(unsafe_code)]
pub mod dance;
pub mod desk;
pub mod edits;
pub mod faults;
pub mod figures;
pub mod handout;
pub mod motion;
pub mod picture;
pub mod sound;
pub mod store;
pub mod verbs;
pub mod versions;
#[cfg(feature = "window")]
pub mod window;
pub mod words;
