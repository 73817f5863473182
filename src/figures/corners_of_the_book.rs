//! Corners as the Morris Book has them [MB1]: eight bars for a pair of opposites.

use super::partners::lead;
use crate::dance::{Leg, Part, Turn, Way};
use crate::motion::{Stand, wrap_half};

/// Bars in which one pair changes.
pub(super) const BARS: u32 = 8;
/// What a pair steps, in the travelling steps of the book with a jump on the last half-bar (worked out from [MB1]).
pub(super) const PHRASE: &str = "6 ds, 3 ss, hj";
/// What a pair steps who stand and dance next: whoever is about to move jumps on the half-bar before [MB1].
pub(super) const WAIT_AND_JUMP: &str = "7 st, sj";
/// What a pair steps who stand [MB1].
pub(super) const WAIT: &str = "8 st";
/// How far from the middle each comes as the pair meets, metres, so that they meet and do not touch.
const MEETING: f64 = 0.4;

/// One dancer's way from a count: change places with the opposite in bars 1 to 3, turn to face them in bar 4, meet in bars 5
/// and 6, back away in 7 and 8 [MB1]; and as they come to place, turn as the place faces.
pub(super) fn change(part: &mut Part, begin: f64, from: &Stand, to: &Stand, bow: f64) {
    let (dx, dy) = (to.x - from.x, to.y - from.y);
    let length = dx.hypot(dy);
    let facing = dx.atan2(dy).to_degrees();
    let off = wrap_half(facing - from.facing);
    if off.abs() > 1.0 {
        let way = if off < 0.0 { Way::Left } else { Way::Right };
        part.turns.push(Turn::shorter(begin, begin + 1.5, way, facing));
    }
    // By the right shoulder, with the bow short, so that those who stand are given room.
    let along = |share: f64, left: f64| {
        (from.x + dx * share - dy / length * left, from.y + dy * share + dx / length * left)
    };
    let points = [along(0.32, 0.0), along(0.5, bow), along(0.68, 0.0)];
    part.legs.push(Leg::smooth(begin, begin + 12.0, &points, to.x, to.y));
    part.turns.push(Turn::to_face(begin + 12.0, begin + 15.0, Way::Right, facing + 180.0));
    let (x, y) = along(0.5 + MEETING / length, 0.0);
    part.legs.push(Leg::straight(begin + 16.0, begin + 24.0, x, y));
    part.legs.push(Leg::straight(begin + 24.0, begin + 30.0, to.x, to.y));
    let home = wrap_half(to.facing - facing - 180.0);
    if home.abs() > 1.0 {
        let way = if home < 0.0 { Way::Left } else { Way::Right };
        part.turns.push(Turn::shorter(begin + 28.0, begin + 30.0, way, to.facing));
    }
    part.leads.push(lead(begin, Way::Right));
}
