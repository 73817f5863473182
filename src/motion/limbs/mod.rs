//! The body in space at any moment: hips, shoulders, feet and hands, worked out of steps, the path and the time.
//!
//! A [`Gait`] says when each foot of a dancer is planted where, and when both are in the air; [`Limbs`] is the body at one moment. A foot that
//! bears the weight stays where it is until it is lifted. A hop or a jump ends on the count on which it lands; how long it takes follows
//! from how high it is, h = g t^2 / 8, unless the tempo leaves less time.

mod arms;
mod body;
mod contacts;
mod flight;
mod gait;
mod in_space;
mod swing;
mod two_bones;

pub use body::Limbs;
pub use contacts::Contact;
pub use flight::Flight;
pub use gait::Gait;
pub use in_space::InSpace;

/// The fall of bodies, metres a second for each second.
pub const GRAVITY: f64 = 9.81;
/// From a hip to the sole under it, metres; a knee is never quite straight.
pub const LEG: f64 = 0.95;
/// From a shoulder to the palm, metres.
pub const ARM: f64 = crate::dance::limits::ARM;
/// How tall a body is, metres.
pub const HEIGHT: f64 = 1.72;
