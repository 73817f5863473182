//! The body in space at any moment: hips, shoulders, feet and hands, worked out of steps, the path and the time.
//!
//! A [`Gait`] says when each foot of a dancer is planted where, and when both are in the air; [`Limbs`] is the body at one moment. A foot that
//! bears the weight stays where it is until it is lifted. A hop or a jump ends on the count on which it lands; how long it takes follows
//! from how high it is, h = g t^2 / 8, unless the tempo leaves less time.

mod arms;
mod body;
mod circling;
mod contacts;
mod flight;
mod frame;
mod gait;
mod in_space;
mod meet;
mod node;
mod on_count;
mod on_floor;
mod sides;
mod sizes;
mod stick;
mod struck;
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
pub use meet::{between_two, meeting_at, parted_by, short_by, shoulder_aside};
pub use on_count::OnCount;
pub use sides::on_side;
pub use sizes::{ARM, FOOT, GRAVITY, HEIGHT, LEG};
pub use stick::{STICK, StickAt, from_palm, reach};
