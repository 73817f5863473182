//! Everything that can be asked of the desk, by what it is about. Each kind is taken in one place, by one `match` that
//! names every ask, so that one that nobody handles does not compile.

mod compare;
mod draw;
mod fault;
mod file;
mod keep;
mod order;
mod play;
mod view;

pub use compare::CompareAsk;
pub use draw::{DrawAsk, Grip};
pub use fault::FaultAsk;
pub use file::FileAsk;
pub use keep::KeepAsk;
pub use order::{About, OrderAsk};
pub use play::PlayAsk;
pub use view::{Beats, Seen, ViewAsk};

/// Something that a panel asks for. Panels read the desk and push these; [`Desk::apply`](super::Desk::apply) takes them.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// Where in the dance, playing, the loop.
    Play(PlayAsk),
    /// What is looked at and how: who is chosen, the floor, the colours.
    View(ViewAsk),
    /// Drawing: dragging dancers, paths, facings.
    Draw(DrawAsk),
    /// What is danced: the running order, figures, the set and who dances.
    Order(OrderAsk),
    /// Faults, mends, and what the side means.
    Fault(FaultAsk),
    /// Opening, saving, stills and handouts.
    File(FileAsk),
    /// Another version beside this one.
    Compare(CompareAsk),
    /// Keeping work from being lost, and what is remembered.
    Keep(KeepAsk),
    /// Undo a step.
    Undo,
    /// Redo a step.
    Redo,
}
