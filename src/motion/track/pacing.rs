//! How a leg is paced: through its points that have a time of their own, and in between as the steps travel.

use super::by_steps::by_steps;
use crate::dance::Leg;
use crate::motion::{Course, EndSpeed, Footing, Pace, wrap_half};

/// How much faster than the mean of the slower of two legs a dancer may be where they meet (chosen for this program).
const SLOWER: f64 = 1.15;
/// How much faster than the mean of both: each has its other end to set off or to stop at (chosen for this program).
const BOTH: f64 = 1.1;

/// How two legs meet: running on where one follows the other at once in nearly the same direction.
pub(super) fn joint((before, first): (&Leg, &Course), (after, second): (&Leg, &Course)) -> EndSpeed {
    if after.begin - before.end > 1e-6 || first.length() < 1e-6 || second.length() < 1e-6 {
        return EndSpeed::Still;
    }
    let bend = second.at(0.0).heading - first.at(first.length()).heading;
    if wrap_half(bend).abs() > 30.0 {
        return EndSpeed::Still;
    }
    let one = first.length() / (before.end - before.begin);
    let other = second.length() / (after.end - after.begin);
    // The slower is not hurried by the faster.
    EndSpeed::Running((BOTH * 2.0 * one * other / (one + other)).min(SLOWER * one.min(other)))
}

/// How far along a leg is at each count: as the steps travel, or as the leg's own pace says.
pub(super) fn pace(leg: &Leg, course: &Course, footing: &Footing, first: EndSpeed, last: EndSpeed) -> Pace {
    if leg.pace.is_empty() {
        by_steps(leg, course, footing, first, last)
    } else {
        Pace::through(&knots(leg, course), first, last)
    }
}

/// The counts and metres that the pace of a leg goes through which has one of its own: its points that have a time of
/// their own, and in between each share of its time.
fn knots(leg: &Leg, course: &Course) -> Vec<(f64, f64)> {
    let mut pins = vec![(leg.begin, 0.0)];
    for (waypoint, metres) in leg.through.iter().zip(course.point_lengths()) {
        if let Some(at) = waypoint.at {
            pins.push((at, *metres));
        }
    }
    pins.push((leg.end, course.length()));
    let each = (leg.end - leg.begin) / leg.pace.len() as f64;
    let mut divisions = (1..leg.pace.len()).map(|index| leg.begin + each * index as f64).peekable();
    let mut knots = Vec::with_capacity(leg.pace.len() + pins.len());
    for pair in pins.windows(2) {
        let [(t0, s0), (t1, s1)] = *pair else { continue };
        knots.push((t0, s0));
        let (p0, p1) = (progress(leg, t0), progress(leg, t1));
        while let Some(count) = divisions.next_if(|count| *count < t1 - 1e-6) {
            if count > t0 + 1e-6 {
                let done = if p1 - p0 > 1e-9 {
                    (progress(leg, count) - p0) / (p1 - p0)
                } else {
                    (count - t0) / (t1 - t0)
                };
                knots.push((count, s0 + (s1 - s0) * done));
            }
        }
    }
    knots.push((leg.end, course.length()));
    knots
}

/// How much of a leg is done by a count, as its own pace says, from 0 to 1.
fn progress(leg: &Leg, count: f64) -> f64 {
    let place = (count - leg.begin) / (leg.end - leg.begin) * leg.pace.len() as f64;
    let index = (place.max(0.0) as usize).min(leg.pace.len() - 1);
    let from = index.checked_sub(1).and_then(|before| leg.pace.get(before)).copied().unwrap_or(0.0);
    let to = leg.pace.get(index).copied().unwrap_or(1.0);
    from + (to - from) * (place - index as f64).clamp(0.0, 1.0)
}
