use crate::dance::Dancer;
use crate::faults::body::Body;
use crate::faults::slack::Slack;
use crate::motion::{Moment, Motion, Span, SpanIndex, Track};

/// A figure that is looked over for what goes wrong first.
pub(super) struct FigureLook<'a> {
    pub motion: &'a Motion,
    pub span: &'a Span,
    pub index: SpanIndex,
    pub body: Body,
    /// How much of a turn may be left at a jump, degrees.
    pub late_turn: f64,
    /// How far out of time everybody may be.
    pub slacks: &'a [Slack],
}

impl<'a> FigureLook<'a> {
    pub fn counts(&self) -> f64 {
        self.span.end() - self.span.begin()
    }

    /// Everybody with their way.
    pub fn tracks(&self) -> impl Iterator<Item = (Dancer, &'a Track)> + use<'a> {
        let span = self.span;
        Dancer::all(self.motion.dancers()).filter_map(move |dancer| Some((dancer, span.track(dancer)?)))
    }

    /// Whether somebody neither goes nor turns.
    pub fn is_still(&self, track: &Track) -> bool {
        let (least, most) = track.facings(0.0, self.counts());
        track.travelled(self.counts()) < 1e-6 && most - least < 1e-6
    }

    /// A count of the figure as it is said: `bar 2 count 3`.
    pub fn moment(&self, at: f64) -> String {
        let moment = Moment::at(self.span.bar_counts(), (at * 4.0).round() / 4.0);
        format!("bar {} count {}", moment.bar, moment.count)
    }
}
