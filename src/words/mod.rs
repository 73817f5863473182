//! What each dancer does, in words, worked out from the motion.
//!
//! May use `figures`, `motion` and `dance`. Begin with [`Fact`], what there is to say, and [`tell`] a phrase of it.
//!
//! [`facts`] picks what there is to say of a dancer, the same way for named and for drawn figures; `phrases.rs`, with
//! what is under it, alone puts facts into words; [`tell`] joins the two.

mod alike;
mod calls;
mod cautions;
mod cell_words;
mod clauses;
mod eye_level;
mod facts;
mod feet;
mod full;
mod gather;
mod gist;
mod hover;
mod look;
mod met;
mod mirrored;
mod now;
mod passes;
pub mod phrases;
mod read_cell;
mod round;
mod speeds;
mod step_cells;
mod steps_told;
mod strike_said;
mod taps;
mod taps_item;
mod taps_tokens;
mod taps_typed;
mod tell;
mod travel;
mod typed_speeds;

pub use alike::{Alike, alike};
pub use calls::{CallSaid, call_before_said, calls_said};
pub use cautions::{CAUTIONS, CAUTIONS_IN_SHORT, STICK_CAUTION};
pub use cell_words::CellError;
pub use clauses::{Clause, MOST_WORDS, Short, clauses, clauses_told, side_clauses};
pub use eye_level::{between_words, body_words, free_words, landing_words, standing_words};
pub use facts::{
    Along, CourseSaid, Facing, Fact, Going, Lane, Level, Pass, PhraseFacts, PlaceSaid, Start, StartTurn,
    StepRun, TurnWhen, Turning,
};
pub use feet::first_foot;
pub use full::{FigureTold, figure_told, side_told, told_bars};
pub use gather::facts;
pub use gist::{Gist, gist, gist_said};
pub use hover::{
    StepSaid, bars_said, dancer_words, fall_words, hands_words, how_many_bars, note_words, step_said,
    turn_words, turned_words, upbeat_words,
};
pub use met::{Met, MetSaid, met_line, met_said};
pub use mirrored::Image;
pub use now::{facing_words, lead_words, now, standing};
pub use passes::passes_between;
pub use read_cell::{land, with_cell};
pub use speeds::speeds_said;
pub use step_cells::{StepRow, carries, step_cell};
pub use steps_told::{all_steps_told, step_told, steps_of, steps_told};
pub use strike_said::{
    blow_said, strike_end_words, strike_noun, strike_part_words, strike_said, striker_words, struck_words,
    taps_written,
};
pub use taps::{TapBar, TapFact, Tapping, TapsTold, tap_bars, tap_now, taps_told};
pub use taps_typed::{TypedTapsError, read_taps};
pub use tell::{Told, partner, tell};
pub use typed_speeds::{TypedSpeedsError, read_speeds};
