//! Corners as the Morris Book has them [MB1]: eight bars for a pair of opposites.

use super::{partners::lead, way_over::WayOver};
use crate::dance::{Leg, Part, Turn, Way};
use crate::motion::{Stand, wrap_half};

/// Bars in which one pair changes.
pub(super) const BARS: u32 = 8;
/// What a pair steps: the book's 4/3 and 4/2 with its jump on the last half-bar. Its travelling figures take 4/2 and jump at the end
/// of each four bars [MB1]; here the turn of bar 4 has that time (chosen for this program).
pub(super) const PHRASE: &str = "6 ds, 3 ss, hj";
/// What a pair steps who stand and dance next: whoever is about to move jumps on the half-bar before [MB1].
pub(super) const WAIT_AND_JUMP: &str = "7 st, sj";
/// What a pair steps who stand [MB1].
pub(super) const WAIT: &str = "8 st";
/// How far from the middle each comes as the pair meets, metres, so that they meet and do not touch (chosen for this program).
const MEETING: f64 = 0.4;

/// One dancer's way from a count: change places with the opposite in bars 1 to 3, turn right to face them in bar 4, meet in bars 5
/// and 6, back away in 7 and 8 [MB1]; and as they come to place, turn as the place faces.
pub(super) fn change(part: &mut Part, begin: f64, from: &Stand, to: &Stand, bow: f64) {
    let over = WayOver::between(from, to);
    let facing = over.facing;
    turn_if_need_be(part, (begin, begin + 1.5), wrap_half(facing - from.facing), facing);
    part.legs.push(Leg::smooth(begin, begin + 12.0, &over.points(bow), to.x, to.y));
    part.turns.push(Turn::to_face(begin + 12.0, begin + 15.0, Way::Right, facing + 180.0));
    let (x, y) = over.at(0.5 + MEETING / over.length, 0.0);
    part.legs.push(Leg::straight(begin + 16.0, begin + 24.0, x, y));
    part.legs.push(Leg::straight(begin + 24.0, begin + 30.0, to.x, to.y));
    let home = wrap_half(to.facing - facing - 180.0);
    turn_if_need_be(part, (begin + 28.0, begin + 30.0), home, to.facing);
    part.leads.push(lead(begin, Way::Right));
}

/// Turns to face by the shorter way, where that is any turn at all.
fn turn_if_need_be(part: &mut Part, (begin, end): (f64, f64), off: f64, facing: f64) {
    if off.abs() > 1.0 {
        let way = if off < 0.0 { Way::Left } else { Way::Right };
        part.turns.push(Turn::shorter(begin, end, way, facing));
    }
}
