use super::redraw::TIME_STEP;
use crate::dance::Dancer;
use crate::motion::{Motion, Span};

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

/// What goes less far is no turn, degrees.
const LEAST: f64 = 0.5;

impl RingTurn {
    /// The turn of a dancer at a count of the figure; nothing where they do not turn then.
    #[must_use]
    pub fn at(span: &Span, dancer: Dancer, local: f64) -> Option<Self> {
        let track = span.track(dancer)?;
        let here = |begin: f64, end: f64| begin + TIME_STEP < local && local < end + TIME_STEP;
        // One that goes nowhere holds the facing, and is none to go farther with.
        let mut danced = track.turns().iter().zip(track.amounts());
        let turn = danced.position(|(turn, amount)| here(turn.begin, turn.end) && amount.abs() >= LEAST)?;
        let danced = track.turns().get(turn)?;
        Some(Self {
            turn,
            from: track.stand(danced.begin).2,
            amount: *track.amounts().get(turn)?,
            under_way: local < danced.end - TIME_STEP,
        })
    }

    /// What a facing that is asked for at a count from the start of the dance is about: the finish of a turn under way, or else
    /// what the dancer faces then. Degrees clockwise from up, unwrapped, and the count at which that is faced.
    #[must_use]
    pub fn in_hand(motion: &Motion, dancer: Dancer, count: f64) -> (f64, f64) {
        let finish = motion.span_under(count).and_then(|span| {
            let ring = Self::at(span, dancer, count - span.begin()).filter(|ring| ring.under_way)?;
            let danced = span.track(dancer)?.turns().get(ring.turn)?;
            Some((ring.finish(), span.begin() + danced.end))
        });
        finish.unwrap_or_else(|| (motion.pose(dancer, count).facing, count))
    }

    /// The facing in which it finishes, degrees clockwise from up, unwrapped.
    #[must_use]
    pub fn finish(&self) -> f64 {
        self.from + self.amount
    }
}
