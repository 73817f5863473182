use crate::motion::{Track, wrap_half};

/// Looks in a count.
const LOOKS: f64 = 16.0;
/// A turn smaller than this, degrees, is not drawn.
pub const LEAST_TURN: f64 = 45.0;
/// Who does not turn for so long has finished, counts.
const PAUSE: f64 = 0.3;

/// A turn of a dancer's own: not what the bend of the way itself brings.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OwnTurn {
    /// The count of the figure at which it begins.
    pub begin: f64,
    /// The count of the figure at which it ends.
    pub end: f64,
    /// Degrees, clockwise positive.
    pub amount: f64,
}

/// A dancer's own turns of at least [`LEAST_TURN`] between two counts of a figure, in order. Whoever keeps the same side to a way
/// that bends, as round a circle, does not turn.
#[must_use]
pub fn own_turns(track: &Track, (from, to): (f64, f64)) -> Vec<OwnTurn> {
    let steps = ((to - from) * LOOKS).ceil().clamp(1.0, 100_000.0) as u32;
    let at = |step: u32| from + (to - from) * f64::from(step) / f64::from(steps);
    let mut turns: Vec<OwnTurn> = Vec::new();
    let mut before = track.stand(from);
    let mut heading: Option<f64> = None;
    for step in 1..=steps {
        let now = track.stand(at(step));
        let (dx, dy, turned) = (now.0 - before.0, now.1 - before.1, now.2 - before.2);
        let goes = dx.hypot(dy) > 0.004;
        let way = goes.then(|| dx.atan2(dy).to_degrees());
        let bent = heading.zip(way).map_or(0.0, |(one, other)| wrap_half(other - one));
        before = now;
        heading = way;
        // With the way: the way bends as much as the dancer turns.
        let follows = goes && bent.abs() < 60.0 && (turned - bent).abs() < 0.4 * turned.abs();
        if turned.abs() < 0.25 || follows {
            continue;
        }
        let begin = at(step - 1);
        match turns.last_mut() {
            Some(turn) if turn.amount * turned > 0.0 && begin - turn.end <= PAUSE => {
                turn.amount += turned;
                turn.end = at(step);
            }
            _ => turns.push(OwnTurn { begin, end: at(step), amount: turned }),
        }
    }
    turns.retain(|turn| turn.amount.abs() >= LEAST_TURN);
    turns
}

/// How much a turn is, in quarters: `¼`, `½`, `¾`, `1`, `1¼`; never nothing.
#[must_use]
pub fn quarters(amount: f64) -> String {
    let all = (amount.abs() / 90.0).round().max(1.0) as u32;
    let part = ["", "¼", "½", "¾"].get(all as usize % 4).copied().unwrap_or_default();
    match all / 4 {
        0 => part.to_owned(),
        whole => format!("{whole}{part}"),
    }
}
