//! What is wrong with a dance, each kind of fault in its own file. A new kind is one new file, one line in
//! [`SPAN_FINDERS`] or [`DANCE_FINDERS`], and one name in [`FaultKind`].
//!
//! ```
//! use bellpad::dance::{Dance, Figure, Leg, Part, Set};
//! let mut dance = Dance::new("Strays", Set::longways(2, 2.4, 1.8));
//! let mut figure = Figure::drawn("stray", "Stray", 4);
//! let mut part = Part::still(1);
//! part.legs.push(Leg::straight(0.0, 4.0, -1.2, 1.0));
//! figure.parts.push(part);
//! dance.figures.push(figure);
//! let motion = bellpad::figures::motion_of(&dance, None).unwrap();
//! let faults = bellpad::faults::find_faults(&dance, &motion);
//! assert_eq!(faults[0].dancers, [1]);
//! ```

mod bodies;
mod body;
mod curved_home;
mod cut;
mod halves;
mod hurried_turn;
mod late_turn;
mod list;
mod music;
mod near;
mod not_home;
mod over_long;
mod place_words;
mod room;
mod space;
mod stretch;
mod way_round;
mod worst;
mod wrong_foot;
mod wrong_shoulder;
mod wrong_way;

pub use crate::dance::FaultKind;
pub use bodies::times_met;
pub use body::Body;
pub use cut::{MOST_OF_A_KIND, More};
pub use list::Faults;
pub use place_words::place_words;
pub use space::{SPACE_CAUTION, Space, space_needed};

use crate::dance::{Dance, FaultLimits, Figure, shown_name};
use crate::motion::{Moment, Motion, Span};
use cut::Cut;
use serde::Serialize;

/// Something wrong, where, and by how much.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fault {
    /// The kind.
    pub kind: FaultKind,
    /// The bar, from 1.
    pub bar: u32,
    /// The count in the bar, from 1 to below 5.
    pub count: f64,
    /// The numbers concerned.
    pub dancers: Vec<u32>,
    /// What was measured.
    pub value: f64,
    /// The most that is allowed, or between bodies the least, in the same unit.
    pub limit: f64,
    /// A sentence that a dancer understands, with the figure and its own bar.
    pub text: String,
    /// The same without the figure and the bar, for where they are shown already.
    #[serde(skip)]
    pub said: String,
    /// Why the side means it, where it does; then it is no fault of theirs.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub allowed: Option<String>,
    /// Counts from the start of the dance between which it lasts.
    #[serde(skip)]
    pub lasts: (f64, f64),
    /// Where on the floor it is, metres right and up.
    #[serde(skip)]
    pub spot: Option<(f64, f64)>,
    /// The index of the span it is in.
    #[serde(skip)]
    pub span: usize,
}

impl Fault {
    /// Counts from the start of the dance.
    #[must_use]
    pub fn counts(&self) -> f64 {
        Moment { bar: self.bar, count: self.count }.counts()
    }
}

/// What may be said where no fault is found.
pub const ALL_CLEAR: &str = "All clear: nobody meets, feet and turns fit, everyone ends where they should";

/// What the finders look at.
struct Look<'a> {
    dance: &'a Dance,
    motion: &'a Motion,
    limits: &'a FaultLimits,
}

impl Look<'_> {
    /// The figure of a span.
    fn figure(&self, span: &Span) -> Option<&Figure> {
        self.dance.figures.get(span.figure)
    }

    /// Why the side means what was found of dancers (indices) in a span; nothing where it does not.
    fn allowed(&self, span: &Span, kind: FaultKind, dancers: &[usize], value: f64) -> Option<&str> {
        let place = |dancer: &usize| span.place(*dancer) as u32 + 1;
        let meant = self.figure(span)?.allow.iter().find(|allow| {
            let far_enough = allow
                .up_to
                .is_none_or(|up_to| if kind.less_is_worse() { value >= up_to } else { value <= up_to });
            allow.kind == kind
                && far_enough
                && (allow.places.is_empty()
                    || dancers.iter().all(|dancer| allow.places.contains(&place(dancer))))
        })?;
        Some(&meant.reason)
    }
}

/// A fault as its finder tells it. Dancers are indices and counts are from the start of the span.
#[derive(Clone, Debug)]
struct Found {
    kind: FaultKind,
    at: f64,
    lasts: (f64, f64),
    dancers: Vec<usize>,
    value: f64,
    limit: f64,
    text: String,
    spot: Option<(f64, f64)>,
}

/// Looks at one figure in its place in the order.
type SpanFinder = fn(&Look, &Span, &mut Vec<Found>);

/// The finders that look at one figure in its place in the order; a figure danced again from the same state of the
/// set is looked at once. [`bodies`], which goes on from one figure into the next, is beside them.
const SPAN_FINDERS: [SpanFinder; 7] = [
    wrong_foot::find,
    wrong_way::find,
    late_turn::find,
    curved_home::find,
    over_long::find,
    hurried_turn::find,
    room::find,
];

/// Looks at the order as a whole.
type DanceFinder = fn(&Look, &mut Vec<(usize, Found)>);

/// The finders that look at the order as a whole: each gives the index of the span with what it finds.
const DANCE_FINDERS: [DanceFinder; 2] = [not_home::find, music::find];

/// The faults of a dance and its motion that are told one by one, in order of time: see [`Faults`].
#[must_use]
pub fn find_faults(dance: &Dance, motion: &Motion) -> Vec<Fault> {
    Faults::of(dance, motion).into_told()
}

/// A fault told with its place in the dance.
fn told(look: &Look, index: usize, found: Found) -> Option<Fault> {
    let span = look.motion.spans().get(index)?;
    let begin = span.begin();
    let moment = Moment::at(thousandths(begin + found.at));
    let allowed = look.allowed(span, found.kind, &found.dancers, found.value).map(str::to_owned);
    let own = Moment::at((found.at * 10.0).round() / 10.0);
    let text = match look.figure(span).filter(|_| found.kind != FaultKind::Music) {
        Some(figure) if begin + found.at >= span.end() - 1e-6 => {
            format!("At the end of {}: {}", shown_name(&figure.name), found.text)
        }
        Some(figure) => {
            format!(
                "In {}, bar {} count {}: {}",
                shown_name(&figure.name),
                own.bar,
                (own.count * 10.0).round() / 10.0,
                found.text
            )
        }
        None => found.text.clone(),
    };
    Some(Fault {
        kind: found.kind,
        bar: moment.bar,
        count: thousandths(moment.count),
        dancers: found.dancers.iter().map(|&dancer| dancer as u32 + 1).collect(),
        value: rounded(found.value, 10_000.0),
        limit: found.limit,
        text,
        said: found.text,
        allowed,
        lasts: (begin + found.lasts.0, begin + found.lasts.1),
        spot: found.spot,
        span: index,
    })
}

fn thousandths(value: f64) -> f64 {
    rounded(value, 1000.0)
}

/// A number to so many parts of one, with no negative nought.
fn rounded(value: f64, parts: f64) -> f64 {
    let rounded = (value * parts).round() / parts;
    if rounded == 0.0 { 0.0 } else { rounded }
}
