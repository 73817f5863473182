//! The body in space at any moment: hips, shoulders, feet and hands, worked out of steps, the path and the time.
//!
//! A [`Gait`] says when each foot of a dancer is planted where, and when both are in the air; [`Limbs`] is the body at one moment. A foot that
//! bears the weight stays where it is until it is lifted. A hop or a jump ends on the count on which it lands; how long it takes follows
//! from how high it is, h = g t^2 / 8, unless the tempo leaves less time.

mod arms;
mod body;
mod contacts;
mod flight;
mod frame;
mod gait;
mod in_space;
mod node;
mod on_count;
mod on_floor;
mod swing;
mod two_bones;
mod walk;
mod whole_body;

pub use arms::HandAt;
pub use body::Limbs;
pub use contacts::Contact;
pub use flight::Flight;
pub use gait::Gait;
pub use in_space::InSpace;
pub use on_count::OnCount;

/// The fall of bodies, metres a second for each second.
pub const GRAVITY: f64 = 9.81;
/// From a hip to the sole under it, metres; a knee is never quite straight.
pub const LEG: f64 = 0.95;
/// From a shoulder to the palm, metres.
pub const ARM: f64 = crate::dance::limits::ARM;
/// How tall a body is, metres.
pub const HEIGHT: f64 = 1.72;

/// Before the dance and after it everybody stands for so long, seconds.
const STANDS: f64 = 10.0;
/// How far aside of the middle a foot is planted, and a joint of the hips and of the shoulders is, metres (from memory).
const FOOT_ASIDE: f64 = 0.08;
const HIP_ASIDE: f64 = 0.09;
const SHOULDER_ASIDE: f64 = 0.2;
/// From the hips to the shoulders, and how high the hips of somebody who stands are, metres (from memory).
const TRUNK: f64 = 0.48;
const REACH: f64 = LEG - 0.008;
/// How far the trunk leans forward, degrees (common practice, no source).
const LEAN: f64 = 3.0;
/// Thigh and shin, together a little longer than a leg is stretched, so that a knee is never quite straight; upper arm and forearm, metres (from memory).
const LEG_BONES: [f64; 2] = [0.4625, 0.4925];
const ARM_BONES: [f64; 2] = [0.31, 0.345];
/// Left, then right: to which side of the middle each is.
const SIDES: [f64; 2] = [-1.0, 1.0];

/// How high a body has risen at a time, metres, of the flights of a dancer in order of time.
fn rise(flights: &[Flight], time: f64) -> f64 {
    let next = flights.partition_point(|flight| flight.end < time);
    flights.get(next).map_or(0.0, |flight| flight.rise(time))
}
