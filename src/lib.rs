//! Bellpad: draw, scrub, check and hand out the figures of a Cotswold morris side.
#![forbid(unsafe_code)]
pub mod dance;
pub mod figures;
pub mod motion;
