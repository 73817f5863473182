//! The named figures, each in its own file: choices in, legs and turns out.
//!
//! A new figure is one new file, its name here and one line in `list.rs`; what else goes with it is in DEVELOPERS.md, under
//! *To add*. [`plan_of()`] turns a figure of a dance, named or drawn
//! or both, into the plan that the movement engine dances; [`motion_of()`] does so for a whole dance.
//!
//! May use `motion` and `dance`. Begin with `cross_over.rs`, a short figure, and the [`NamedFigure`] that it is.
//!
//! ```
//! use bellpad::dance::{Dance, Set};
//! let mut dance = Dance::new("Small dance", Set::longways(6, 2.4, 1.8));
//! let figure = bellpad::figures::named_figure("cross-and-turn", Default::default(), &dance.set);
//! dance.figures.push(figure.unwrap());
//! let motion = bellpad::figures::motion_of(&dance, None).unwrap();
//! assert_eq!(motion.bars(), 8);
//! ```

mod back_to_back;
mod back_to_back_backing;
mod by_numbers;
mod calls;
mod choices;
mod corners;
mod corners_of_the_book;
mod cross_and_turn;
mod cross_over;
mod down_and_back;
mod figure_error;
mod foot_up_and_down;
mod gip;
mod go_and_come;
mod half_gip;
mod half_hey;
mod half_rounds;
mod hey;
mod hey_roles;
mod hey_timing;
mod hey_track;
mod into_line;
mod kept_plans;
mod laid_over;
mod list;
mod mirror;
mod motion_of;
mod named_figure;
mod partners;
mod plan_of;
mod rounds;
mod solos;
mod step_alone;
mod usual_choices;
mod way_over;
mod whole_gip;
mod whole_rounds;

pub use by_numbers::{by_numbers, told_by};
pub use calls::{Call, calls};
pub use choices::{Choice, Choices, Kind};
pub use figure_error::FigureError;
pub use list::{all, find, names};
pub use mirror::{Mirror, mate, mirrored};
pub use motion_of::{figure_name_at, motion_after, motion_of, motion_of_figure};
pub use named_figure::NamedFigure;
pub use plan_of::{named_figure, plan_named, plan_of};
pub use step_alone::{StepAlone, one_on_the_spot};
