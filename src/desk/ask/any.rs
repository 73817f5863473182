use super::{
    AboutAsk, CompareAsk, DrawAsk, FaultAsk, FileAsk, KeepAsk, OrderAsk, PhotoAsk, PlayAsk, StepAsk,
    StrikeAsk, ViewAsk,
};

/// Something that a panel asks for. Panels read the desk and push these; [`Desk::apply`](crate::desk::Desk::apply) takes them.
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
    /// What is said of the dance as a whole, and its tune.
    About(AboutAsk),
    /// The steps of the dance's own.
    Step(StepAsk),
    /// The taps and claps of a figure.
    Strike(StrikeAsk),
    /// Faults, mends, and what the side means.
    Fault(FaultAsk),
    /// Photographs under the floor.
    Photo(PhotoAsk),
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
