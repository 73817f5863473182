use crate::motion::Track;
use crate::motion::wrap_half;

/// Nearer the middle of the set than this, metres, the way round it means nothing.
const MIDDLE: f64 = 0.3;

/// How far a dancer goes round the middle of the set between two counts: degrees, clockwise positive. Nothing where
/// they go through it.
pub(super) fn way_round(track: &Track, begin: f64, end: f64) -> Option<f64> {
    let looks = ((end - begin) * 2.0).ceil() as usize;
    let mut before: Option<f64> = None;
    let mut round = 0.0;
    for look in 0..=looks {
        let (x, y, _) = track.stand((begin + look as f64 / 2.0).min(end));
        if x.hypot(y) < MIDDLE {
            return None;
        }
        let bearing = x.atan2(y).to_degrees();
        round += before.map_or(0.0, |before| wrap_half(bearing - before));
        before = Some(bearing);
    }
    Some(round)
}
