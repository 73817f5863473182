use crate::dance::OwnStep;

/// Something asked for about the steps of the dance's own, by their indices, from 0.
#[derive(Clone, Debug, PartialEq)]
pub enum StepAsk {
    /// Show the steps, and this one first, by its letters.
    Show(Option<String>),
    /// Make one of the dance's own from a known step, by its letters.
    Copy(String),
    /// Change one. What is changed is named, so that what follows it is one step to undo with it.
    Set {
        /// Which.
        index: usize,
        /// As it is to be.
        step: Box<OwnStep>,
        /// What is changed of it, such as `count 3`.
        what: String,
    },
    /// What is changed next is a step to undo by itself.
    Part,
    /// Take one away.
    TakeAway(usize),
}
