use super::keep_ask::KeepAsk;
use crate::dance::{ClearFloor, Dance, FaultLimits, LeadRule, Set};
use std::path::PathBuf;

/// Something that a panel asks for. Panels read the desk and push these; the desk takes them in one place.
#[derive(Clone, Debug, PartialEq)]
pub enum Ask {
    /// Go to a count from the start of the dance.
    Seek(f64),
    /// Go on or back by counts, to a whole count when off one.
    StepCounts(f64),
    /// Play or stop.
    TogglePlay,
    /// Play at a share of the tune's speed.
    Tempo(f64),
    /// Loop, or no longer.
    ToggleLoop,
    /// Loop from the bar at the playhead.
    LoopFrom,
    /// Loop to the end of the bar at the playhead.
    LoopTo,
    /// Choose a dancer by index, or nobody.
    Choose(Option<usize>),
    /// Begin to drag.
    BeginDrag(Grip),
    /// Drag what is held to a place on the floor, metres.
    DragTo(f64, f64),
    /// Turn what is held by degrees, clockwise, from where the drag began.
    DragBy(f64),
    /// Let go: the drag is one step to undo.
    EndDrag,
    /// Let go and have everything as it was.
    CancelDrag,
    /// Take a point away: span, dancer, leg and point.
    DropPoint(usize, usize, (usize, Option<usize>)),
    /// Have a redrawn dancer as the named figure has them: figure, place.
    RestoreNamed(usize, u32),
    /// Put a named figure into the running order, after the one at the playhead.
    InsertFigure(&'static str),
    /// Take a line out of the running order.
    TakeOut(usize),
    /// Change a choice of a named figure: figure, key, value.
    SetChoice(usize, &'static str, serde_json::Value),
    /// Give a figure a rule for its leads, or take it away.
    SetLead(usize, Option<LeadRule>),
    /// Give a figure its stepping; empty for what it has of itself.
    SetPhrase(usize, String),
    /// Dance it with another set.
    ChangeSet(Box<Set>),
    /// Give a number's dancer a name.
    NamePerson(u32, String),
    /// Go to a fault, by its place in the list, and show it.
    GoToFault(usize),
    /// Work out a mend for a fault and show it as a ghost.
    MakeRoom(usize),
    /// Take the mend that is shown.
    TakeMend,
    /// Put the mend that is shown away.
    LeaveMend,
    /// Ask why the side means a fault.
    AskMean(usize),
    /// The side means a fault, with a reason.
    Mean(usize, String),
    /// The side no longer means something: figure, and which of what it allows.
    NoLongerMean(usize, usize),
    /// Show the limits of what is a fault.
    AskLimits,
    /// Have other limits.
    SetLimits(Box<FaultLimits>),
    /// Show the floor that the dance needs, or no longer.
    ToggleSpace,
    /// Say how much clear floor there is, or that it does not matter.
    SetFloor(Option<Box<ClearFloor>>),
    /// Undo a step.
    Undo,
    /// Redo a step.
    Redo,
    /// Make a dance anew: shows what to choose.
    AskNew,
    /// Open a file: shows where to choose it.
    AskOpen,
    /// Open this file.
    Open(PathBuf),
    /// Open a dance that is part of the program, by index.
    OpenSample(usize),
    /// Put this new dance on the desk.
    PutNew(Box<Dance>),
    /// Save to the file it came from, or ask for one.
    Save,
    /// Save to a file still to be chosen.
    AskSaveAs,
    /// Save to this file.
    SaveTo(PathBuf),
    /// Draw a still to a file still to be chosen.
    AskStill,
    /// Draw a still to this file.
    StillTo(PathBuf),
    /// See the floor so that this direction is up.
    See(Seen),
    /// Zoom the floor by a factor about a place in the picture.
    Zoom(f32, [f32; 2]),
    /// Move the floor by points.
    Pan([f32; 2]),
    /// See the whole floor again.
    FitFloor,
    /// Paths on or off.
    ToggleTrails,
    /// Slate or paper.
    ToggleTheme,
    /// Show or put away the help.
    ToggleHelp,
    /// Put away whatever dialog is open.
    PutAway,
    /// Go on with what an unsaved dance held up, without saving.
    GoOnUnsaved,
    /// Save, then go on with what was held up.
    SaveAndGoOn,
    /// Close the window.
    Close,
    /// Something about keeping work, or about the window itself.
    Keep(KeepAsk),
}

/// What a drag holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grip {
    /// A dancer, at the playhead.
    Dancer(usize),
    /// The facing of a dancer, at the playhead.
    Facing(usize),
    /// A point of a path: span, dancer, leg and point.
    Point(usize, usize, (usize, Option<usize>)),
}

/// Which way the floor is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Seen {
    /// With the music at the top.
    #[default]
    FromBottom,
    /// As the musicians see it.
    FromTop,
    /// As the chosen dancer faces.
    OwnFacing,
}
