//! Corners as the Morris Book has them [MB1], in its notation of *Laudnum Bunches*: eight bars for a pair of opposites.
//!
//! Bars 1 to 3 cross to each other's place, bar 4 turn about inwards till they face each other, bars 5 and 6 come to the centre until
//! they are face to face, without touching or passing, bars 7 and 8 back to the corners; all of it by the 4/3 step (6/3 in 6-time)
//! but for the backing, which has 4/2 with a jump on the half-bar of bar 8. Bar 4 has no jump. Where the same dance crosses with
//! capers, the turn is to the right and inwards, with right shoulders level on the way: so it is here. How near they come, and
//! that they turn to look at each other before they set off, was chosen for this program.

use super::{partners::lead, way_over::WayOver};
use crate::dance::{Leg, Part, Turn, Way};
use crate::motion::{Stand, wrap_half};

/// Bars in which one pair changes [MB1].
pub(super) const BARS: u32 = 8;
/// What a pair steps: 4/3 for six bars, then 4/2, and the jump on the last half-bar [MB1].
pub(super) const PHRASE: &str = "6 ds, 3 ss, hj";
/// What they step who stand and dance next, or with the whole side: whoever is about to move jumps on the half-bar before [MB1].
pub(super) const WAIT_AND_JUMP: &str = "7 st, sj";
/// What a pair steps who stand [MB1].
pub(super) const WAIT: &str = "8 st";
/// How far from the middle each comes as the pair meets, metres: face to face, and not touching (chosen for this program).
const MEETING: f64 = 0.4;

/// One dancer's way from a count, among others who stand; and as they come to place, turn as the place faces.
pub(super) fn change(
    part: &mut Part,
    begin: f64,
    over: &WayOver,
    (from, to): (&Stand, &Stand),
    way: &[(f64, f64)],
) {
    let facing = over.facing;
    turn_if_need_be(part, (begin, begin + 1.5), wrap_half(facing - from.facing), facing);
    part.legs.push(Leg::smooth(begin, begin + 12.0, way, to.x, to.y));
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
