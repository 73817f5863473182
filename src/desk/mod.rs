//! What is being worked on, without a window: the dance and all that follows from it, where the playhead is, who is
//! chosen, what can be undone, the files, and what is asked of the user.
//!
//! A [`Desk`] is read with its methods and changed by [`Desk::apply`] with an [`Ask`], so that everything that changes a dance
//! goes through one door. [`Question`] is what it asks in its turn. Slow work goes on beside it ([`Work`]); whoever shows it is
//! woken and has it catch up.
//!
//! May use every room below it; knows nothing of how it is shown. Begin with `ask/`, all that can be asked for, then `whole_desk.rs`.

mod about;
mod aloud;
mod ask;
mod asked;
mod compare;
mod compiled;
mod drag;
mod draw;
mod draw_there;
mod edit;
mod fault;
mod file_words;
mod files;
mod handout_of;
mod history;
mod keep;
mod keeping;
mod listen;
mod looking;
mod meant_file;
mod new_dance;
mod numbers;
mod open_words;
mod order;
mod photo;
mod photo_lay;
mod photo_read;
mod photo_telling;
mod photo_told;
mod photos;
mod play;
mod player;
mod purpose;
mod question;
mod refused;
mod room;
mod steps;
mod still_of;
mod stills;
mod strike_name;
mod strikes;
mod view;
mod wake;
mod watching;
mod what_changed;
mod when;
mod whole_desk;
mod work;
mod writing;

pub use ask::{
    About, AboutAsk, Ask, Beats, CompareAsk, DrawAsk, FaultAsk, FileAsk, Grip, KeepAsk, OrderAsk, Pasted,
    PhotoAsk, PlayAsk, Seen, StepAsk, StrikeAsk, ViewAsk,
};
pub use compare::Compared;
pub use compiled::Compiled;
pub use file_words::file_words;
pub use handout_of::HandoutOf;
pub use keep::{Keep, Outside};
pub use new_dance::{NEW_DANCE, NewDance};
pub use photos::PhotoUnder;
pub use player::Player;
pub use purpose::Purpose;
pub use question::{After, Meanwhile, PathQuestion, Question, RecoveredWork, TapsQuestion, Written};
pub use still_of::StillOf;
pub use wake::Wake;
pub use what_changed::what_changed;
pub use when::when_words;
pub use whole_desk::{Desk, SAMPLES};
pub use work::{OFTEN, Work};
pub use writing::FileWriting;
