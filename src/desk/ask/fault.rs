use crate::dance::{ClearFloor, FaultLimits};

/// Something asked for about faults. Faults are told by their place in the list, from 0.
#[derive(Clone, Debug, PartialEq)]
pub enum FaultAsk {
    /// Go to a fault and show it.
    GoTo(usize),
    /// Work out a mend for a fault and show it as a ghost.
    MakeRoom(usize),
    /// Take the mend that is shown.
    TakeMend,
    /// Put the mend that is shown away, or look for one no longer.
    LeaveMend,
    /// Ask why the side means a fault.
    AskAllow(usize),
    /// The side means a fault, with a reason.
    Allow(usize, String),
    /// The side no longer means something: which of what a figure allows.
    NoLongerAllow { figure: usize, which: usize },
    /// Show the limits of what is a fault.
    AskLimits,
    /// Have other limits.
    SetLimits(Box<FaultLimits>),
    /// Say how much clear floor there is, or that it does not matter.
    SetFloor(Option<Box<ClearFloor>>),
}
