use super::facts::CourseSaid;
use super::look::{OneDancer, way_of};
use super::travel::WayMoment;
use crate::motion::{Track, wrap_half};

/// How far a dancer may look aside of whom they face, degrees, and how near and far that one is, metres.
const ASIDE: f64 = 30.0;
const NEAR_AND_FAR: std::ops::RangeInclusive<f64> = 0.3..=2.5;

/// Going round one's partner, facing them all the way.
pub(super) fn round_partner(look: &OneDancer, steps: &[WayMoment]) -> Option<CourseSaid> {
    let partner = look.span.dancer_in(look.ground.pair(look.span.place(look.dancer))?)?;
    let track = look.span.track(partner)?;
    let mut bearings = Vec::with_capacity(steps.len());
    for step in steps {
        let (x, y, _) = track.stand(step.count);
        let (dx, dy) = (x - step.x, y - step.y);
        let bearing = dx.atan2(dy).to_degrees();
        if !NEAR_AND_FAR.contains(&dx.hypot(dy)) || wrap_half(bearing - step.facing).abs() > ASIDE {
            return None;
        }
        bearings.push(bearing);
    }
    let sweeps = bearings.windows(2).map(|pair| match pair {
        [one, next] => wrap_half(next - one),
        _ => 0.0,
    });
    let degrees: f64 = sweeps.clone().sum();
    let back: f64 = sweeps.map(|sweep| (-sweep * degrees.signum()).max(0.0)).sum();
    (degrees.abs() >= 100.0 && back <= 10.0)
        .then(|| CourseSaid::RoundOther(way_of(degrees), degrees.abs(), partner.number()))
}

/// Going round the middle of the set.
pub(super) fn round(look: &OneDancer, steps: &[WayMoment]) -> Option<CourseSaid> {
    let far = steps.iter().map(|step| step.x.hypot(step.y));
    let (least, most) = (far.clone().fold(f64::INFINITY, f64::min), far.fold(0.0, f64::max));
    // A track that comes near the middle does not go round it, unless it is a small circle.
    if look.ground.dancers() < 2 || least < 0.2 || (least < 0.6 && least < 0.8 * most) {
        return None;
    }
    let sweeps = || {
        steps.windows(2).filter_map(|pair| match pair {
            [one, other] => Some(wrap_half((other.x.atan2(other.y) - one.x.atan2(one.y)).to_degrees())),
            _ => None,
        })
    };
    let degrees: f64 = sweeps().sum();
    let back: f64 = sweeps().map(|sweep| (-sweep * degrees.signum()).max(0.0)).sum();
    let bends = steps.windows(2).map(|pair| match pair {
        [one, other] => other.heading - one.heading,
        _ => 0.0,
    });
    let bend: f64 = bends.clone().sum();
    let weaves = bends.map(f64::abs).sum::<f64>() - bend.abs() > 60.0;
    let over = match (steps.first(), steps.last()) {
        (Some(first), Some(last)) => first.x * last.x < 0.0 || degrees.abs() > 200.0,
        _ => false,
    };
    // To the other side or more, never back, and curving that way: so a long set goes round too, where those who join
    // the oval from their file weave a little. A hey comes back towards where it began, and stays on its own side, as a
    // cast down the outside does.
    // In the longest sets those near an end set off outwards and bend back to the oval, the other way about.
    let all_round = over && degrees.abs() >= 150.0 && back <= 10.0 && bend.abs() >= 100.0;
    let near_circle = degrees.abs() > 100.0 && least >= 0.55 * most && !weaves;
    (all_round || near_circle).then(|| CourseSaid::Round(way_of(degrees), degrees.abs()))
}

/// Degrees clockwise that a way goes round the middle of the set between two counts.
pub(super) fn swept(track: &Track, begin: f64, end: f64) -> f64 {
    let many = ((end - begin) * 2.0).ceil().clamp(1.0, 20_000.0) as u32;
    let angle = |index: u32| {
        let (x, y, _) = track.stand(begin + (end - begin) * f64::from(index) / f64::from(many));
        x.atan2(y).to_degrees()
    };
    (0..many).map(|index| wrap_half(angle(index + 1) - angle(index))).sum()
}
