use super::{Motion, wrap_half};
use crate::dance::{Dancer, Way};

/// How two dancers pass each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Passing {
    /// When they are nearest, counts from the start.
    pub count: f64,
    /// How far apart their middles are then, metres.
    pub apart: f64,
    /// The shoulder of the first dancer that the second passes.
    pub shoulder: Way,
}

/// How the second dancer passes the first between two counts: which side they are on when
/// nearest, as the first one faces then.
///
/// The nearest moment is found by looking at each 32nd of a count and then narrowing down by golden sections
/// (J. Kiefer, "Sequential minimax search for a maximum", 1953).
#[must_use]
pub fn passing(motion: &Motion, one: Dancer, other: Dancer, from: f64, to: f64) -> Passing {
    let apart = |count: f64| {
        let (a, b) = (motion.pose(one, count), motion.pose(other, count));
        (a.x - b.x).hypot(a.y - b.y)
    };
    let steps = ((to - from) * 32.0).ceil().max(1.0) as u32;
    let step = (to - from) / f64::from(steps);
    let nearest = (0..=steps)
        .map(|index| from + step * f64::from(index))
        .min_by(|a, b| apart(*a).total_cmp(&apart(*b)))
        .unwrap_or(from);
    let (mut low, mut high) = ((nearest - step).max(from), (nearest + step).min(to));
    let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
    for _ in 0..40 {
        let width = high - low;
        let (a, b) = (high - golden * width, low + golden * width);
        if apart(a) < apart(b) {
            high = b;
        } else {
            low = a;
        }
    }
    let count = f64::midpoint(low, high);
    let (a, b) = (motion.pose(one, count), motion.pose(other, count));
    let side = wrap_half((b.x - a.x).atan2(b.y - a.y).to_degrees() - a.facing);
    Passing { count, apart: apart(count), shoulder: if side < 0.0 { Way::Left } else { Way::Right } }
}
