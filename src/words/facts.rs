//! What there is to say of a dancer in a phrase, before it is put into words.

use crate::dance::{Foot, Holding, LeadRule, Number, PlaceNumber, Way};
use crate::motion::LeadFrom;

/// What a dancer does in one phrase of a figure. Counts are of the figure, from 0.
#[derive(Clone, Debug, PartialEq)]
pub struct PhraseFacts {
    /// The count at which the phrase begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    /// What there is to say, in the order in which it is danced; then where it ends, the steps and the hands.
    pub facts: Vec<Fact>,
}

/// One thing to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Fact {
    /// The foot that starts.
    Start(Start),
    /// Standing still; nothing where it is the whole phrase, or else the count until which.
    Stand(Option<f64>),
    /// Dancing on the spot; nothing where it is the whole phrase, or else the count until which.
    OnTheSpot(Option<f64>),
    /// From one place to another.
    Go(Going),
    /// A turn of the dancer's own, in its place between the others.
    Turn(Turning),
    /// Somebody goes past while the dancer stands.
    Passed(Pass),
    /// Where the phrase ends and which way the dancer faces.
    End(PlaceSaid, Facing),
    /// The steps, as how many of which, and the foot of the hop on the upbeat that ends them.
    Steps(Vec<StepRun>, Option<Foot>),
    /// The steps in which the hands are high.
    Hands(Holding, Vec<StepRun>),
}

/// The foot that starts and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Start {
    /// The count of the figure that the foot lands on.
    pub at: f64,
    /// Where in the phrase it is.
    pub turn: StartTurn,
    /// The foot that lands first.
    pub foot: Foot,
    /// Whether it lands on that count; a caper springs off first.
    pub at_once: bool,
    /// The half of the figure that it starts, where it is one of two starts that do.
    pub half: Option<u8>,
    /// Where that was chosen.
    pub from: LeadFrom,
    /// The rule that chose it, if one did.
    pub rule: Option<LeadRule>,
    /// The way the dancer faces, degrees clockwise from up, where the rule looks at it.
    pub facing: Option<f64>,
}

/// Where in its phrase a start is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum StartTurn {
    /// The phrase begins with it.
    First,
    /// It is a fresh start within the phrase, on another foot than the start before it, or the first there.
    Fresh,
    /// It is a fresh start within the phrase, on the same foot as the start before it.
    Again,
}

/// A stretch of travelling.
#[derive(Clone, Debug, PartialEq)]
pub struct Going {
    /// The count at which it begins.
    pub begin: f64,
    /// The count by which it is done.
    pub end: f64,
    pub course: CourseSaid,
    /// How far, metres along the way.
    pub metres: f64,
    /// Who is passed on the way, in order.
    pub passes: Vec<Pass>,
    /// Who is alongside for most of a count or more, and on which side.
    pub beside: Option<(Number, Way)>,
    /// Where it ends, where that is worth saying.
    pub to: Option<PlaceSaid>,
    /// Degrees clockwise that the way itself turns the dancer.
    pub turned: f64,
    /// The part of that which is a turn to go that way at first.
    pub set_off: f64,
    /// Degrees clockwise that the way bends over the floor.
    pub bend: f64,
}

/// How a stretch of travelling goes over the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CourseSaid {
    /// Straight or nearly, as the dancer faces: eighths of a turn clockwise from forward; and the side that it bears
    /// to.
    Straight(u8, Option<Way>),
    /// Straight or nearly, while turning, so that there is no one way as the dancer faces.
    Turning,
    /// Round the middle of the set, degrees; right is clockwise seen from above.
    Round(Way, f64),
    /// Round another, facing them all the way, degrees; right is clockwise seen from above, which is to the dancer's left.
    RoundOther(Way, f64, Number),
    /// A curve of the dancer's own, degrees; right is clockwise seen from above.
    Curve(Way, f64),
    /// Along the set.
    Lane(Along, Lane),
}

/// Which way along the set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// Towards the music.
    Up,
    /// Away from the music.
    Down,
    /// Neither: across it.
    Across,
}

impl Along {
    /// The other way along; across is across.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Up => Self::Down,
            Self::Down => Self::Up,
            Self::Across => Self::Across,
        }
    }
}

/// Where across the set.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lane {
    /// The middle line.
    Middle,
    /// Between the files.
    Inside,
    /// On the line that a file stands on.
    File,
    /// Outside the files.
    Outside,
}

/// Going past somebody, or being gone past.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pass {
    pub number: Number,
    /// The shoulder that they are at.
    pub shoulder: Way,
    /// The count at which they are nearest.
    pub at: f64,
    /// How near, metres between middles.
    pub apart: f64,
}

/// A turn of the dancer's own.
#[derive(Clone, Debug, PartialEq)]
pub struct Turning {
    /// The count at which it begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    pub way: Way,
    /// Degrees, whichever way.
    pub degrees: f64,
    /// When, by the steps.
    pub when: TurnWhen,
    /// Whether it is done while travelling.
    pub moving: bool,
    /// What it ends facing; nothing where the way over the floor says so.
    pub to: Option<Facing>,
}

/// When a turn is danced.
#[derive(Clone, Debug, PartialEq)]
pub enum TurnWhen {
    /// As the phrase starts.
    Start,
    /// On the hop of a double step.
    Hop,
    /// On a run of one kind of step: which.
    Steps(StepRun),
    /// None of these: it is told by its counts.
    Counts,
}

/// So many of a step in a row.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StepRun {
    /// From 1 up.
    pub many: usize,
    /// The short name.
    pub short: String,
    /// The name in full.
    pub name: String,
}

/// A place on the floor, as the dancer would say it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum PlaceSaid {
    /// The dancer's own spot.
    Home,
    /// Another place.
    Spot(PlaceNumber),
    /// Side by side with a number: the shoulder they are at, and whether it is on the middle line.
    Beside(Number, Way, bool),
    /// Back to back with a number.
    BackToBack(Number),
    /// Face to face with a number.
    FaceToFace(Number),
    /// The middle of the set.
    Middle,
    /// In a longways set.
    Lane(Lane, Level),
    /// So far from the dancer's own spot, metres; and the way there, eighths of a turn clockwise from up.
    FromHome(f64, u8),
}

impl PlaceSaid {
    /// Whether it is the dancer's own spot or another.
    #[must_use]
    pub fn is_spot(self) -> bool {
        matches!(self, Self::Home | Self::Spot(_))
    }
}

/// Where along a longways set; ranks from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Level {
    /// Above the first rank.
    Above,
    /// Level with a rank: its two numbers.
    With(PlaceNumber, PlaceNumber),
    /// Between two ranks: the odd numbers of both.
    Between(PlaceNumber, PlaceNumber),
    /// Below the last rank.
    Below,
}

/// What a dancer faces.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Facing {
    /// Whoever stands across the set at the start.
    Partner,
    /// Someone else, by their number.
    Number(Number),
    /// Up, towards the music.
    Up,
    /// Away from the music.
    Down,
    /// Across the set or in to its middle.
    In,
    /// Away from the set.
    Out,
    /// Eighths of a turn clockwise from up.
    Eighth(u8),
}
