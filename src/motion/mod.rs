//! The movement engine: where everyone is, which way they face, on which foot and with hands where, at any
//! count.
//!
//! A [`Plan`] says what the dancer in each place does in a figure: legs (travelling), turns and leads.
//! [`Motion::compile`] joins the plans of a running order into one [`Motion`], which answers for any real
//! count and never changes: an edit makes a new one, and figures that did not change are shared with the
//! one before.
//!
//! Each leg begins wherever its dancer is, so positions have no jumps whatever the plans say. Facing is
//! unwrapped: a turn of 270 degrees to the left is not 90 to the right.
//!
//! May use `dance`. Begin with [`Plan`] and [`Track`], one dancer's way through one figure; [`Motion`] is many of them.
//!
//! ```
//! use bellpad::dance::{Dancer, Leg, Set};
//! use bellpad::motion::{Ground, Motion, Plan, USUAL_PHRASE};
//! use std::sync::Arc;
//!
//! let ground = Ground::of(&Set::longways(2, 2.4, 1.8));
//! let mut plan = Plan::still(4, USUAL_PHRASE, 2);
//! plan.parts[0].legs.push(Leg::straight(0.0, 4.0, 0.0, 0.5));
//! let motion = Motion::compile(&ground, &[], &[(0, Arc::new(plan))], None).unwrap();
//! let pose = motion.pose(Dancer(0), 4.0);
//! assert_eq!((pose.x, pose.y), (0.0, 0.5));
//! assert_eq!(motion.pose(Dancer(1), 4.0).x, 1.2);
//! ```

mod amount;
mod angles;
mod blows;
mod clock;
mod course;
mod cubics;
mod footing;
mod ground;
mod held;
mod in_bars;
mod leads;
pub mod limbs;
mod moment;
mod pace;
mod passing;
mod phrase;
mod phrase_in_bars;
mod plan;
mod played;
mod pose;
mod span;
mod span_index;
mod speeds;
pub mod steps;
mod track;
mod track_of;
mod turn_times;
mod up_to;
mod whole_motion;

pub use amount::amount;
pub use angles::{wrap_half, wrap_whole};
pub use blows::{Blow, BlowHand, BlowOn};
pub use clock::Clock;
pub use course::{Course, OnCourse};
pub use cubics::ease;
pub use footing::{Footfall, Footing, Weight};
pub use ground::{Ground, Stand};
pub use held::Held;
pub use in_bars::InBars;
pub use leads::{LeadChoices, LeadFrom, LeadMade, by_rule, choose_leads};
pub use moment::{Moment, MomentError};
pub use pace::{EndSpeed, Pace};
pub use passing::{Passing, passing};
pub use phrase::{Phrase, PhraseError, TRAVELLING_PHRASE, USUAL_PHRASE, fill_phrase, known_steps};
pub use phrase_in_bars::in_other_bars;
pub use plan::Plan;
pub use pose::Pose;
pub use span::Span;
pub use span_index::SpanIndex;
pub use steps::STAND;
pub use track::{Move, Track};
pub use track_of::track_of;
pub use turn_times::{hops, turn_times_on, with_amount, with_amounts};
pub use whole_motion::Motion;
