//! What is wrong with a dance, each kind of fault in its own file. A new kind is one new file, its name here, one line
//! in `finders.rs` and one in [`FaultKind`]; what else goes with it is in DEVELOPERS.md, under *To add*.
//!
//! May use `words`, `figures`, `motion` and `dance`. Begin with `over_long.rs`, a short finder: it gets a `Look` at the
//! dance and a span of it, and gives what it has `Found`.
//!
//! ```
//! use bellpad::dance::{Dance, Figure, Leg, Part, Set};
//! let mut dance = Dance::new("Strays", Set::longways(2, 2.4, 1.8));
//! let mut figure = Figure::drawn("stray", "Stray", 4);
//! let mut part = Part::still(1);
//! part.legs.push(Leg::straight(0.0, 4.0, -1.2, 1.0));
//! figure.parts.push(part);
//! dance.figures.push(figure);
//! let motion = bellpad::figures::motion_of(&dance, None).unwrap();
//! let faults = bellpad::faults::find_faults(&dance, &motion);
//! assert_eq!(faults[0].dancers, [1]);
//! ```

mod aside;
mod between;
mod bodies;
mod body;
mod curved_home;
mod cut;
mod fault;
mod finders;
mod found;
mod goes_on;
mod halves;
mod heard;
mod hurried_jump;
mod hurried_turn;
mod late_turn;
mod list;
mod look;
mod meetings;
mod metre;
mod music;
mod near;
mod near_head;
mod near_pairs;
mod needless_turn;
mod not_home;
mod numbers;
mod one_sided;
mod out_of_reach;
mod over_long;
mod place_words;
mod room;
mod slack;
mod space;
mod stretch;
mod strikes;
mod struck;
mod stuck;
mod told;
mod two_places;
mod watch;
mod watched;
mod way_round;
mod what_if;
mod worst;
mod wrench;
mod wrong_foot;
mod wrong_shoulder;
mod wrong_way;

pub use crate::dance::FaultKind;
pub use aside::{Aside, asides};
pub use bodies::times_met;
pub use body::Body;
pub use cut::{MOST_OF_A_KIND, More};
pub use fault::{ALL_CLEAR, Fault};
pub use heard::Heard;
pub use list::{Faults, find_faults};
pub use place_words::place_words;
pub use slack::{MOST_SHIFT, MOST_WATCHED, Slack, slacks};
pub use space::{SPACE_CAUTION, Space, space_needed};
pub use watch::{Eyes, ToWatch, watch_dance};
pub use watched::{WatchKind, Watched};
pub use what_if::{WhatIf, WouldMeet};
