//! What is being worked on, without a window: the dance, where the playhead is, who is chosen, what can be undone, the
//! files, and what is asked of the user.
//!
//! Begin with [`Ask`], all that can be asked for, and [`Desk`], which takes it. May use all rooms below; knows nothing of
//! how it is shown.

mod ask;
mod compare;
mod desk;
mod draw;
mod faults;
mod files;
mod history;
mod keep;
mod keep_ask;
mod keeping;
mod order;
mod order_ask;
mod play;
mod player;
mod what_changed;
mod when;

pub use ask::{Ask, Beats, Grip, Seen};
pub use compare::Compared;
pub use desk::{Desk, SAMPLES};
pub use keep::{Keep, Outside};
pub use keep_ask::KeepAsk;
pub use order_ask::{About, OrderAsk};
pub use player::Player;
pub use what_changed::what_changed;
pub use when::when_words;
