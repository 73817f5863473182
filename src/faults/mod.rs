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

mod music;
mod not_home;
mod place_words;
mod room;
mod space;

pub use crate::dance::FaultKind;
pub use place_words::place_words;
pub use space::{SPACE_CAUTION, Space, space_needed};

use crate::dance::{Dance, FaultLimits, Figure};
use crate::motion::{Moment, Motion, Span};
use serde::Serialize;
use std::collections::HashMap;

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
    /// A sentence that a dancer understands.
    pub text: String,
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
pub const ALL_CLEAR: &str = "All clear: nobody meets, feet and turns fit, everyone comes home";

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

/// The finders that look at one figure in its place in the order; a figure danced again from the same state of the
/// set is looked at once.
const SPAN_FINDERS: [fn(&Look, &Span, &mut Vec<Found>); 1] = [room::find];

/// Looks at the order as a whole.
type DanceFinder = fn(&Look, &mut Vec<(usize, Found)>);

/// The finders that look at the order as a whole: each gives the index of the span with what it finds.
const DANCE_FINDERS: [DanceFinder; 2] = [not_home::find, music::find];

/// Every fault of a dance and its motion, in order of time. Those that the side means are among them, with the reason.
#[must_use]
pub fn find_faults(dance: &Dance, motion: &Motion) -> Vec<Fault> {
    let look = Look { dance, motion, limits: &dance.limits };
    let mut found: Vec<(usize, Found)> = Vec::new();
    let mut seen: HashMap<usize, Vec<Found>> = HashMap::new();
    for (index, span) in motion.spans().iter().enumerate() {
        let here = seen.entry(span.identity()).or_insert_with(|| {
            let mut here = Vec::new();
            for find in SPAN_FINDERS {
                find(&look, span, &mut here);
            }
            here
        });
        found.extend(here.iter().map(|found| (index, found.clone())));
    }
    for find in DANCE_FINDERS {
        find(&look, &mut found);
    }
    let mut faults: Vec<Fault> =
        found.into_iter().filter_map(|(index, found)| told(&look, index, found)).collect();
    faults.sort_by(|one, other| {
        one.counts().total_cmp(&other.counts()).then_with(|| one.dancers.cmp(&other.dancers))
    });
    faults
}

/// A fault told with its place in the dance.
fn told(look: &Look, index: usize, found: Found) -> Option<Fault> {
    let span = look.motion.spans().get(index)?;
    let begin = span.begin();
    let moment = Moment::at(thousandths(begin + found.at));
    let places: Vec<u32> = found.dancers.iter().map(|&dancer| span.place(dancer) as u32 + 1).collect();
    let allowed = look.figure(span).and_then(|figure| {
        let meant = figure.allow.iter().find(|allow| {
            let far_enough = allow.up_to.is_none_or(|up_to| {
                if found.kind.less_is_worse() { found.value >= up_to } else { found.value <= up_to }
            });
            allow.kind == found.kind
                && far_enough
                && (allow.places.is_empty() || places.iter().all(|place| allow.places.contains(place)))
        })?;
        Some(meant.reason.clone())
    });
    Some(Fault {
        kind: found.kind,
        bar: moment.bar,
        count: thousandths(moment.count),
        dancers: found.dancers.iter().map(|&dancer| dancer as u32 + 1).collect(),
        value: thousandths(found.value * 10.0) / 10.0,
        limit: found.limit,
        text: found.text,
        allowed,
        lasts: (begin + found.lasts.0, begin + found.lasts.1),
        spot: found.spot,
        span: index,
    })
}

fn thousandths(value: f64) -> f64 {
    let rounded = (value * 1000.0).round() / 1000.0;
    if rounded == 0.0 { 0.0 } else { rounded }
}
