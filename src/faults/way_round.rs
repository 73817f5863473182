use crate::dance::{Leg, Shape};
use crate::motion::{Track, wrap_half};

/// Nearer the middle of the set than this, metres, the way round it means nothing.
const MIDDLE: f64 = 0.3;

/// How far a dancer goes round the middle of the set between two counts: degrees, clockwise positive. Nothing where
/// they go through it.
pub(super) fn way_round(track: &Track, begin: f64, end: f64) -> Option<f64> {
    let looks = (end - begin).ceil() as usize;
    let mut before: Option<f64> = None;
    let mut round = 0.0;
    for look in 0..=looks {
        let (x, y, _) = track.stand((begin + look as f64).min(end));
        if x.hypot(y) < MIDDLE {
            return None;
        }
        let bearing = x.atan2(y).to_degrees();
        round += before.map_or(0.0, |before| wrap_half(bearing - before));
        before = Some(bearing);
    }
    Some(round)
}

/// Whether legs from a place may go far round the middle of the set between two counts, as the lines between their
/// points tell.
pub(super) fn may_go_round(start: (f64, f64), legs: &[Leg], begin: f64, end: f64) -> bool {
    let bearing = |(x, y): (f64, f64)| x.atan2(y).to_degrees();
    let (mut at, mut round) = (bearing(start), 0.0);
    for leg in legs {
        let within = leg.begin < end && leg.end > begin;
        if within && leg.shape == Shape::Arc {
            return true;
        }
        let points = leg.through.iter().map(|point| (point.x, point.y));
        for point in points.chain([(leg.to.x, leg.to.y)]) {
            let next = bearing(point);
            if within {
                round += wrap_half(next - at);
            }
            at = next;
        }
    }
    round.abs() > 60.0
}
