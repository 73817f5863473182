use crate::dance::Dancer;
use crate::motion::SpanIndex;
use serde::Serialize;

/// Of what kind something is that goes wrong first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum WatchKind {
    /// Somebody who is late touches another.
    Late,
    /// Somebody who is early does.
    Early,
    /// Somebody whose way is a tenth short does.
    Short,
    /// The wrong foot at a start leaves the needed one not free later.
    Foot,
    /// A turn that may be danced between two moments only.
    Turn,
}

impl WatchKind {
    /// The word that the command line prints.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Late => "late",
            Self::Early => "early",
            Self::Short => "short",
            Self::Foot => "foot",
            Self::Turn => "turn",
        }
    }
}

/// Who taps or claps is never told after those who have more than this to spare, counts (chosen for this program).
const MOST_RANK: f64 = 1.25;

/// Where a figure goes wrong first: what to watch for.
#[derive(Clone, Debug, PartialEq)]
pub struct Watched {
    pub kind: WatchKind,
    /// The line of the running order in which it is.
    pub span: SpanIndex,
    /// The count of the figure, from 0, by which it must be right, or at which it shows.
    pub at: f64,
    /// Whoever has to watch it first, then those whom they touch.
    pub dancers: Vec<Dancer>,
    /// How many of these have to watch it: more than one where mates do the same.
    pub who: usize,
    /// How little it takes, in counts, or in metres where a way is short; of a foot 1.
    pub slack: f64,
    /// Whether it is of a tap or a clap that misses, and not of bodies.
    pub of_blow: bool,
    /// What is said of them, with `{who}`, `{other}`, `{is}` and `{meets}` where those are named.
    pub(super) said: String,
    /// One sentence.
    pub text: String,
}

impl Watched {
    /// What its slack is in.
    #[must_use]
    pub fn unit(&self) -> &'static str {
        match self.kind {
            WatchKind::Late | WatchKind::Early | WatchKind::Turn => "counts",
            WatchKind::Short => "metres",
            WatchKind::Foot => "feet",
        }
    }

    /// Those who have to watch it.
    #[must_use]
    pub fn watchers(&self) -> &[Dancer] {
        self.dancers.get(..self.who).unwrap_or_default()
    }

    /// How little it takes beside others: a wrong foot as much as a count and a half, a way a tenth short as much as one
    /// (chosen for this program).
    pub(super) fn rank(&self) -> f64 {
        match self.kind {
            // Ends that miss are what a tapping is about.
            WatchKind::Late | WatchKind::Early if self.of_blow => self.slack.min(MOST_RANK),
            WatchKind::Late | WatchKind::Early | WatchKind::Turn => self.slack,
            WatchKind::Foot => 1.5,
            WatchKind::Short => 1.0,
        }
    }
}
