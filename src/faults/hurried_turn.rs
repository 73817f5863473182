use super::{
    found::Found,
    halves::is_drawn,
    look::Look,
    stretch::{Stretch, join},
};
use crate::dance::{Dancer, FaultKind, Turn};
use crate::motion::{Span, Track};

/// How far above its limit a turn may be before it is a fault, degrees a count: amounts are worked out, not drawn.
const SLACK: f64 = 0.5;

/// Turns too fast to dance, degrees a count: a turn as a whole, whatever its amount, and within any one count a facing
/// that goes with the path. A named figure's own turns may be fast, spins among them (common practice, no source); so
/// they may where a dancer is redrawn and turns as the named figure has it.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    let limit = look.limits.turn();
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        let mut fast: Vec<Stretch> = Vec::new();
        if is_drawn(span, dancer) {
            fast.extend(fast_turns(look, span, dancer, track));
        }
        if track.fastest_following() > limit {
            fast.extend(track.followed().filter_map(|(begin, end)| fast_corner(track, begin, end, limit)));
        }
        fast.sort_by(|one, other| one.begin.total_cmp(&other.begin));
        let mut hurried = Vec::new();
        for stretch in fast {
            join(&mut hurried, stretch);
        }
        for turn in hurried {
            let (x, y, _) = track.stand(turn.at);
            found.push(Found {
                kind: FaultKind::HurriedTurn,
                at: turn.at,
                lasts: (turn.begin, turn.end),
                dancers: vec![dancer],
                value: turn.value,
                limit,
                text: format!("{dancer} has to turn {:.0} degrees in a count", turn.value),
                spot: Some((x, y)),
            });
        }
    }
}

/// The turns of a dancer who is drawn that are too fast, but for those that the named figure beneath asks for: at the
/// same counts, the same way and as fast.
fn fast_turns(look: &Look, span: &Span, dancer: Dancer, track: &Track) -> Vec<Stretch> {
    let limit = look.limits.turn();
    let too_fast = |turn: &&Turn| speed(track, turn).abs() > limit + SLACK;
    if !track.turns().iter().any(|turn| too_fast(&turn)) {
        return Vec::new();
    }
    let named = span.named_track(dancer, look.motion.known());
    let asked_for = |turn: &Turn| {
        let now = speed(track, turn);
        named.iter().any(|named| {
            named.turns().iter().any(|known| {
                let then = speed(named, known);
                (known.begin - turn.begin).abs() < 1e-6
                    && (known.end - turn.end).abs() < 1e-6
                    && now * then > 0.0
                    && now.abs() <= then.abs() + SLACK
            })
        })
    };
    track
        .turns()
        .iter()
        .filter(too_fast)
        .filter(|turn| !asked_for(turn))
        .map(|turn| {
            let value = speed(track, turn).abs();
            Stretch { begin: turn.begin, end: turn.end, at: turn.begin, value }
        })
        .collect()
}

/// Degrees clockwise a count, over a turn as a whole.
fn speed(track: &Track, turn: &Turn) -> f64 {
    (track.stand(turn.end).2 - track.stand(turn.begin).2) / (turn.end - turn.begin)
}

/// The fastest turning with the path between two counts, looked at over a count from each half count.
fn fast_corner(track: &Track, begin: f64, end: f64, limit: f64) -> Option<Stretch> {
    let mut worst: Option<Stretch> = None;
    let windows = (((end - begin - 1.0) * 2.0).ceil().max(0.0)) as usize;
    for window in 0..=windows {
        let from = begin + window as f64 / 2.0;
        // Within this stretch alone: what comes after the end may turn otherwise.
        let to = (from + 1.0).min(end - 1e-9);
        let value = (track.stand(to).2 - track.stand(from).2).abs();
        if value > limit + SLACK {
            match &mut worst {
                Some(known) => {
                    known.end = to;
                    if value > known.value {
                        (known.at, known.value) = (from, value);
                    }
                }
                None => worst = Some(Stretch { begin: from, end: to, at: from, value }),
            }
        }
    }
    worst
}
