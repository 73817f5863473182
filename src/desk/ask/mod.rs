//! Everything that can be asked of the desk, by what it is about. Each kind is taken in one place, by one `match` that
//! names every ask, so that one that nobody handles does not compile: `apply_play` in the desk's `play.rs`, and so on, but for
//! `FileAsk` in `files.rs`, `KeepAsk` in `keeping.rs` and `OrderAsk` in `change_order` of `order.rs`.

mod about;
mod any;
mod compare;
mod draw;
mod fault;
mod file;
mod keep;
mod order;
mod photo;
mod play;
mod step;
mod strike;
mod view;

pub use about::AboutAsk;
pub use any::Ask;
pub use compare::CompareAsk;
pub use draw::{DrawAsk, Grip};
pub use fault::FaultAsk;
pub use file::FileAsk;
pub use keep::KeepAsk;
pub use order::{About, OrderAsk};
pub use photo::{Pasted, PhotoAsk};
pub use play::PlayAsk;
pub use step::StepAsk;
pub use strike::StrikeAsk;
pub use view::{Beats, Seen, ViewAsk};
