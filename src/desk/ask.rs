use super::keep_ask::KeepAsk;
use super::order_ask::OrderAsk;
use crate::dance::{ClearFloor, Dance, FaultLimits, LeadRule, Set};
use crate::edits::{LegChange, SecondHalf, TimePoint, Together};
use crate::handout::HandoutChoice;
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
    /// Pick dancers, by index: what is drawn next is drawn for all of them.
    Pick(Vec<usize>),
    /// Pick a dancer as well, or no longer.
    AlsoPick(usize),
    /// Choose a dancer by index, unless they are picked already.
    ChooseFor(usize),
    /// Say who follows when a dancer is drawn.
    DrawTogether(Together),
    /// Drag what is held to a place on the floor, which catches on what lies within so many metres.
    DragTo(f64, f64, f64),
    /// Drag a moment of a path to a count from the start of the dance.
    DragToCount(f64),
    /// Move those picked by metres to the right and up, as the floor is seen.
    Nudge(f64, f64),
    /// Move a point of a path so: span, dancer, leg and point, metres.
    NudgePoint(usize, usize, (usize, Option<usize>), f64, f64),
    /// Put a dancer at a place at the playhead, metres.
    PlaceAt(usize, f64, f64),
    /// Have a dancer face this way at the playhead, degrees.
    FaceAt(usize, f64),
    /// Put a point into a dancer's path at the playhead.
    InsertPoint(usize),
    /// Make two legs of a dancer's one at the playhead.
    SplitLeg(usize),
    /// Make one of a dancer's leg and the next, in the figure at the playhead.
    JoinLegs(usize, usize),
    /// Change a leg of a dancer as a whole, in the figure at the playhead.
    ChangeLeg(usize, usize, LegChange),
    /// Copy what a dancer does in the figure at the playhead to another.
    CopyPart(usize, Together, usize),
    /// Copy the first half of the figure at the playhead to the second, for those picked.
    CopyHalf(SecondHalf),
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
    /// Change the running order, or a figure as it stands there.
    Order(OrderAsk),
    /// Change a choice of a named figure: figure, key, value.
    SetChoice(usize, &'static str, serde_json::Value),
    /// Give a figure a rule for its leads, or take it away.
    SetLead(usize, Option<LeadRule>),
    /// Give a figure its stepping; empty for what it has of itself.
    SetPhrase(usize, String),
    /// Dance it with another set.
    ChangeSet(Box<Set>),
    /// Say whether the side hops on the upbeat.
    SetHops(bool),
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
    /// Show what can be handed out.
    AskHandout,
    /// Choose what is handed out, and how.
    ChooseHandout(HandoutChoice),
    /// Write the handout chosen to a file still to be chosen.
    AskHandoutPath,
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
    /// Bodies at the strong beats on or off.
    ToggleBeats,
    /// Compare with another version: shows where to choose its file.
    AskCompare,
    /// Compare with this file.
    CompareWith(PathBuf),
    /// Compare no longer.
    StopComparing,
    /// Fold the list of differences, or open it.
    FoldDifferences,
    /// Go to a difference of the other version, by its place in the list.
    GoToDifference(usize),
    /// Take a dancer's part from the other version, by its place in the list of differences.
    TakePart(usize),
    /// Take the whole figure of a difference from the other version.
    TakeFigure(usize),
    /// Slate or paper.
    ToggleTheme,
    /// What was said at the foot of the floor has been read.
    DropNotice,
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
    /// A moment of a path, in time: span, dancer, which.
    Time(usize, usize, TimePoint),
}

/// Whether bodies are drawn at the strong beats round the playhead.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Beats {
    /// They are not.
    #[default]
    Hidden,
    /// They are.
    Shown,
}

impl Beats {
    /// The other of the two.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Hidden => Self::Shown,
            Self::Shown => Self::Hidden,
        }
    }
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
