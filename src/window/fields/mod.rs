//! Fields to write in: what is typed stays with its place and the focus until it can be, and says what was meant.

mod entry;
mod fixed_field;
mod names_field;
mod number_entry;
mod number_field;
mod offers;
mod path_text;
mod phrase_field;
mod speeds_field;
mod step_words;
mod tune_field;
mod typed_field;
mod wrong;
mod wrong_entry;

pub use entry::{Ending, ending, line, mark_wrong, show_words, show_wrong};
pub use fixed_field::show_fixed;
pub use names_field::show_names;
pub use number_entry::NumberKind;
pub use number_field::{NumberAnswer, NumberField};
pub use path_text::PathText;
pub use phrase_field::show_phrase;
pub use speeds_field::show_speeds;
pub use tune_field::{TuneField, TuneTyped};
pub use typed_field::{Typed, show_typed, show_typed_when_done};
pub use wrong::Wrong;
pub use wrong_entry::{go_to_wrong, take_wrong_back};
