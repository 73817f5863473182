use crate::dance::{FaultKind, Number};
use crate::motion::SpanIndex;
use serde::Serialize;

/// Something wrong, where, and by how much.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fault {
    pub kind: FaultKind,
    /// From 1, counted from the start of the dance.
    pub bar: u32,
    /// The count in the bar, from 1.
    pub count: f64,
    /// The same moment in counts from the start of the dance.
    #[serde(skip)]
    pub(super) at: f64,
    /// Their numbers, from 1.
    pub dancers: Vec<Number>,
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
    pub span: SpanIndex,
}

impl Fault {
    /// Counts from the start of the dance.
    #[must_use]
    pub fn counts(&self) -> f64 {
        self.at
    }

    /// Whether it is told in one with another: the same of one dancer each, at one moment, such as of two partners; or the same of two pairs
    /// who tap or clap at one moment.
    #[must_use]
    pub fn is_told_with(&self, other: &Self) -> bool {
        let same =
            (self.kind, self.span, self.dancers.len()) == (other.kind, other.span, other.dancers.len());
        same && (self.counts() - other.counts()).abs() < 1e-3
            && (self.dancers.len() == 1
                || self.is_of_reach() && self.of_them().is_some_and(|said| other.of_them() == Some(said)))
    }

    fn is_of_reach(&self) -> bool {
        self.kind == FaultKind::OutOfReach
    }

    /// What is said of one or of two after who they are: `are 0.53 m too far apart for tip on tip`; nothing where it does not begin with them.
    #[must_use]
    pub fn of_them(&self) -> Option<&str> {
        match self.dancers.as_slice() {
            [one] => self.said.strip_prefix(&format!("{one} ")),
            [one, other] => self.said.strip_prefix(&format!("{one} and {other} ")),
            _ => None,
        }
    }
}

/// What may be said where no fault is found.
pub const ALL_CLEAR: &str = "All clear: nobody meets, feet and turns fit, everyone ends where they should";
