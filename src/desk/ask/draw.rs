use crate::dance::{Dancer, PlaceNumber};
use crate::edits::{
    LegChange, LegFrom, PointOf, SecondHalf, StrikeAt, TimePoint, Together, Toward, TurnEdit, TurnTime,
};
use crate::motion::SpanIndex;

/// Something asked for about drawing. Spans and legs are indices, from 0; places are metres right and up.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawAsk {
    /// Say who follows when a dancer is drawn.
    Together(Together),
    /// Say where a leg begins that a drag makes anew.
    LegFrom(LegFrom),
    /// Take hold of something: what comes until the end of the drag is one step to undo.
    BeginDrag(Grip),
    /// Drag what is held to a place on the floor, which catches on what lies within `reach` metres.
    DragTo { x: f64, y: f64, reach: f64 },
    /// Drag a moment of a path or of a turn to a count from the start of the dance; of a whole turn its beginning.
    DragToCount(f64),
    /// Turn what is held by degrees, clockwise, from where the drag began.
    DragBy(f64),
    /// Let go: the drag is one step to undo.
    EndDrag,
    /// Let go and have everything as it was.
    CancelDrag,
    /// A control has been let go: what comes next is another step to undo.
    PartSteps,
    /// Move those picked by metres to the right and up, as the floor is seen.
    Nudge { right: f64, up: f64 },
    /// Move a point of a path by metres to the right and up, as the floor is seen.
    NudgePoint { span: SpanIndex, dancer: Dancer, point: PointOf, right: f64, up: f64 },
    /// Move a turn, or an end of it, by counts.
    NudgeTurn { span: SpanIndex, dancer: Dancer, turn: usize, of: TurnTime, counts: f64 },
    /// Put a dancer at a place at the playhead, metres.
    PlaceAt { dancer: Dancer, x: f64, y: f64 },
    /// Have a dancer face this way at the playhead, degrees.
    FaceAt { dancer: Dancer, degrees: f64 },
    /// Put a dancer at a place, metres, by a count of the figure at the playhead, counted from the start of the dance.
    GoBy { dancer: Dancer, x: f64, y: f64, count: f64 },
    /// Have a dancer, and all picked with them, home by a count of the figure at the playhead.
    HomeBy { dancer: Dancer, count: f64 },
    /// Have a dancer, and all picked with them, stand from the playhead until a count of its figure.
    StandUntil { dancer: Dancer, count: f64 },
    /// Have a dancer, and all picked with them, face something at the playhead.
    Face { dancer: Dancer, toward: Toward },
    /// Turn a dancer, and all picked with them, at the playhead: degrees, clockwise.
    TurnBy { dancer: Dancer, degrees: f64 },
    /// Change a turn of a dancer in a span, by its place among them.
    ChangeTurn { span: SpanIndex, dancer: Dancer, turn: usize, edit: TurnEdit },
    /// Put a point of a path at a place, metres.
    PointAt { span: SpanIndex, dancer: Dancer, point: PointOf, x: f64, y: f64 },
    /// Put a point into a dancer's path at the playhead.
    InsertPoint(Dancer),
    /// Take a point of a path away.
    DropPoint { span: SpanIndex, dancer: Dancer, point: PointOf },
    /// Make two legs of a dancer's one at the playhead.
    SplitLeg(Dancer),
    /// Make one of a dancer's leg and the next, in the figure at the playhead.
    JoinLegs { dancer: Dancer, leg: usize },
    /// Change a leg of a dancer as a whole, in the figure at the playhead.
    ChangeLeg { dancer: Dancer, leg: usize, change: LegChange },
    /// Copy what a dancer does in the figure at the playhead to another.
    CopyPart { dancer: Dancer, together: Together, other: Dancer },
    /// Copy what a dancer does in the figure at the playhead to every mate.
    CopyToMates { dancer: Dancer, together: Together },
    /// Take away all that is drawn for a dancer, and all picked with them, in the figure at the playhead.
    Clear(Dancer),
    /// Copy the first half of the figure at the playhead to the second, for those picked.
    CopyHalf(SecondHalf),
    /// Have a redrawn dancer as the named figure has them.
    RestoreNamed { figure: usize, place: PlaceNumber },
}

/// What a drag holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Grip {
    /// A dancer, at the playhead.
    Dancer(Dancer),
    /// The facing of a dancer, at the playhead.
    Facing(Dancer),
    /// A point of a path.
    Point { span: SpanIndex, dancer: Dancer, point: PointOf },
    /// A moment of a path, in time.
    Time { span: SpanIndex, dancer: Dancer, point: TimePoint },
    /// A turn or an end of it, by its place among the dancer's, in time.
    Turn { span: SpanIndex, dancer: Dancer, turn: usize, of: TurnTime },
    /// A tap or a clap, in time.
    Strike { span: SpanIndex, at: StrikeAt },
}
