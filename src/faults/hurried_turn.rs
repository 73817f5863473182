use super::{
    FaultKind, Found, Look,
    halves::is_drawn,
    stretch::{Stretch, join},
};
use crate::motion::{Span, Track};

/// How far above its limit a turn may be before it is a fault, degrees a count: amounts are worked out, not drawn.
const SLACK: f64 = 0.5;

/// Turns too fast to dance, degrees a count: a turn as a whole, and within any one count a facing that goes with the
/// path. Spins that a figure asks for may be fast (common practice, no source), and so may a named figure's own turns.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    let limit = look.limits.turn();
    for dancer in 0..look.motion.dancers() {
        let Some(track) = span.track(dancer) else { continue };
        let mut fast: Vec<Stretch> = Vec::new();
        if is_drawn(span, dancer) {
            fast.extend(fast_turns(track, limit));
        }
        fast.extend(track.followed().filter_map(|(begin, end)| fast_corner(track, begin, end, limit)));
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
                text: format!("{} has to turn {:.0} degrees in a count", dancer + 1, turn.value),
                spot: Some((x, y)),
            });
        }
    }
}

fn fast_turns(track: &Track, limit: f64) -> impl Iterator<Item = Stretch> {
    track.turns().iter().filter(|turn| turn.spins == 0).filter_map(move |turn| {
        let amount = track.stand(turn.end).2 - track.stand(turn.begin).2;
        let value = amount.abs() / (turn.end - turn.begin);
        (value > limit + SLACK).then_some(Stretch { begin: turn.begin, end: turn.end, at: turn.begin, value })
    })
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
