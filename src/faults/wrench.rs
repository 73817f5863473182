use super::{
    found::Found,
    look::Look,
    stretch::{Stretch, join},
};
use crate::dance::{Dancer, FaultKind};
use crate::motion::{Span, Track};

/// The most that a facing may go round in a quarter of a count without a turn, degrees: more than that throws a dancer
/// about (chosen for this program; half a turn in a count, the fastest turn, is 45 in a quarter).
const LIMIT: f64 = 60.0;
/// How far above its limit it may be before it is a fault, degrees: headings are worked out, not drawn.
const SLACK: f64 = 0.5;
/// Counts over which a facing is looked at.
const QUARTER: f64 = 0.25;
/// Looks in a quarter of a count.
const LOOKS: usize = 4;

/// Dancers whose path throws them round: where facing goes with the path, outside turns. The value is in degrees in a
/// quarter of a count.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        for wrench in wrenches(track) {
            let (x, y, _) = track.stand(wrench.at);
            found.push(Found {
                kind: FaultKind::Wrench,
                at: wrench.at,
                lasts: (wrench.begin, wrench.end),
                dancers: vec![dancer],
                value: wrench.value,
                limit: LIMIT,
                text: format!(
                    "{dancer} is thrown round {:.0} degrees in a quarter of a count, without a turn",
                    wrench.value
                ),
                spot: Some((x, y)),
            });
        }
    }
}

/// The stretches in which a facing goes round too fast, outside turns.
fn wrenches(track: &Track) -> Vec<Stretch> {
    let mut wrenches = Vec::new();
    if track.fastest_following() * QUARTER <= LIMIT {
        return wrenches;
    }
    for (begin, end) in together(track) {
        let quarters = ((end - begin) / QUARTER).ceil() as usize;
        let mut steady_until = begin;
        for quarter in 0..quarters {
            let from = begin + quarter as f64 * QUARTER;
            if from + 2.0 * QUARTER <= steady_until {
                continue;
            }
            // Nothing in a count and a half can be too fast where all of it is not.
            let ahead = (from + 6.0 * QUARTER).min(end);
            let (least, most) = track.facings(from, ahead);
            if most - least <= LIMIT + SLACK {
                steady_until = ahead;
                continue;
            }
            // Nothing that begins in this quarter can be too fast where both quarters together are not.
            let (least, most) = track.facings(from, (from + 2.0 * QUARTER).min(end));
            if most - least <= LIMIT + SLACK {
                continue;
            }
            for look in 0..LOOKS {
                let at = from + QUARTER * look as f64 / LOOKS as f64;
                let value = swing(track, at, end);
                if value > LIMIT + SLACK {
                    join(&mut wrenches, Stretch { begin: at, end: (at + QUARTER).min(end), at, value });
                }
            }
        }
    }
    wrenches
}

/// The counts between which the path turns a dancer, legs that follow each other at once together.
fn together(track: &Track) -> Vec<(f64, f64)> {
    let mut stretches: Vec<(f64, f64)> = Vec::new();
    for (begin, end) in track.followed() {
        match stretches.last_mut().filter(|last| begin <= last.1 + 1e-6) {
            Some(last) => last.1 = end,
            None => stretches.push((begin, end)),
        }
    }
    stretches
}

/// How far the facing goes from one side to the other in the quarter of a count from a count, degrees.
fn swing(track: &Track, from: f64, end: f64) -> f64 {
    // Within this stretch alone: what comes after the end may turn otherwise.
    let facings =
        (0..=LOOKS).map(|look| track.stand((from + QUARTER * look as f64 / LOOKS as f64).min(end - 1e-9)).2);
    let (least, most) = facings.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), facing| {
        (least.min(facing), most.max(facing))
    });
    most - least
}
