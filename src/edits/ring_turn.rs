use super::redraw::TIME_STEP;
use crate::dance::Dancer;
use crate::motion::Span;

/// The turn that the ring about a dancer is for at a moment: one under way, or one that ends then.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RingTurn {
    /// Its place among the turns of the dancer, from 0.
    pub turn: usize,
    /// The facing in which it begins, degrees clockwise from up, unwrapped.
    pub from: f64,
    /// How far it goes, degrees, clockwise positive.
    pub amount: f64,
    /// Whether it goes on after that moment: it is its finish, then, that the ring has in hand.
    pub under_way: bool,
}

impl RingTurn {
    /// The turn of a dancer at a count of the figure; nothing where they do not turn then.
    #[must_use]
    pub fn at(span: &Span, dancer: Dancer, local: f64) -> Option<Self> {
        let track = span.track(dancer)?;
        let here = |begin: f64, end: f64| begin + TIME_STEP < local && local < end + TIME_STEP;
        let turn = track.turns().iter().position(|turn| here(turn.begin, turn.end))?;
        let danced = track.turns().get(turn)?;
        Some(Self {
            turn,
            from: track.stand(danced.begin).2,
            amount: *track.amounts().get(turn)?,
            under_way: local < danced.end - TIME_STEP,
        })
    }

    /// The facing in which it finishes, degrees clockwise from up, unwrapped.
    #[must_use]
    pub fn finish(&self) -> f64 {
        self.from + self.amount
    }
}
