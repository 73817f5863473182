//! Where two ends meet, and how an arm and a trunk bring one there.

use super::frame::Frame;
use super::in_space::InSpace;
use super::sides::on_side;
use super::sizes::{ARM, HEIGHT, REACH, SHOULDER_ASIDE, SIDES, trunk};
use super::stick::{from_palm, reach};
use crate::dance::{Grip, StrikeEnd};
use crate::motion::{Blow, BlowHand, BlowOn, Motion};

/// Before the chest, a share of the way from the hips to the shoulders: where sticks and hands meet that are not told how high, 1.3 m over the
/// floor for those of the usual height (from memory).
const CHEST: f64 = 0.731;
/// An arm that strikes is not quite straight where it need not be: a share of it.
const BENT: f64 = 0.97;
/// Lower than this, metres, a trunk stoops to what it strikes.
const STOOPS_BELOW: f64 = 1.1;
/// The farthest that a trunk leans forward, degrees.
const LOWEST_STOOP: f64 = 130.0;
/// Those who stoop bend their knees by so much at the most, metres, and have their hips so far back, to stand.
const KNEES: f64 = 0.09;
const BACK: f64 = 0.14;

/// The shoulder of a hand of somebody who stands upright where a dancer is at a count.
pub(super) fn upright_shoulder(motion: &Motion, of: BlowHand, count: f64) -> InSpace {
    let pose = motion.pose(of.dancer, count);
    shoulder_where(of.hand, (pose.x, pose.y, pose.facing), motion.held().tall)
}

/// The same of somebody so tall who stands upright in a place and faces some way: metres right and up, degrees.
fn shoulder_where(hand: usize, (x, y, facing): (f64, f64, f64), tall: f64) -> InSpace {
    let body = Frame::new(InSpace::new(x, y, 0.0), facing);
    body.place(InSpace::new(on_side(SIDES, hand) * SHOULDER_ASIDE, 0.0, REACH + trunk(tall)))
}

/// How far the ends of two who meet would be apart with both arms straight, standing upright, metres: more than 0 is out of reach.
#[must_use]
pub fn short_by(motion: &Motion, blow: &Blow, count: f64) -> Option<f64> {
    let BlowOn::Other(other) = blow.on else { return None };
    let grip = motion.held().grip;
    let [one, two] = [blow.by, other].map(|hand| upright_shoulder(motion, hand, count));
    Some((one - two).across() - reach(blow.by.end, grip) - reach(other.end, grip))
}

/// The same of two who stand anywhere: each metres right and up, and degrees.
#[must_use]
pub fn parted_by(blow: &Blow, grip: Grip, own: (f64, f64, f64), their: (f64, f64, f64)) -> Option<f64> {
    let BlowOn::Other(other) = blow.on else { return None };
    let (one, two) = (shoulder_where(blow.by.hand, own, HEIGHT), shoulder_where(other.hand, their, HEIGHT));
    Some((one - two).across() - reach(blow.by.end, grip) - reach(other.end, grip))
}

/// How far a shoulder is from the middle of the body, metres: it goes no farther than that for each radian of a turn.
#[must_use]
pub fn shoulder_aside() -> f64 {
    SHOULDER_ASIDE
}

/// Where two dancers' ends meet, were they to meet at a count: between their shoulders, as far from each as they reach.
#[must_use]
pub fn between_two(motion: &Motion, blow: &Blow, count: f64) -> Option<InSpace> {
    let BlowOn::Other(other) = blow.on else { return None };
    let grip = motion.held().grip;
    let [one, two] = [blow.by, other].map(|hand| upright_shoulder(motion, hand, count));
    let [own, their] = [blow.by.end, other.end].map(|end| reach(end, grip));
    let mut place = one.toward(two, own / (own + their));
    place.z = blow.height.unwrap_or_else(|| {
        // Farther away they meet as high as the shoulders.
        let most = [(one, own), (two, their)].map(|(shoulder, reach)| {
            let (across, reach) = ((place - shoulder).across(), reach - 0.01);
            (reach * reach - across * across).max(0.0).sqrt()
        });
        let trunk = trunk(motion.held().tall);
        REACH + trunk - (trunk * (1.0 - CHEST)).min(on_side(most, 0)).min(on_side(most, 1))
    });
    Some(place)
}

/// How far before a body the ground or oneself is struck, metres.
const BEFORE: f64 = 0.35;

/// Where two ends meet on the floor, seen from above, metres: between the two, as far as each reaches, or before the one.
#[must_use]
pub fn meeting_at(motion: &Motion, blow: &Blow, count: f64) -> (f64, f64) {
    if let Some(place) = between_two(motion, blow, count) {
        return (place.x, place.y);
    }
    let by = motion.pose(blow.by.dancer, count);
    let (sin, cos) = by.facing.to_radians().sin_cos();
    (by.x + sin * BEFORE, by.y + cos * BEFORE)
}

/// A trunk on its hips.
#[derive(Clone, Copy)]
pub(super) struct Trunk<'a> {
    pub body: &'a Frame,
    /// The height of the hips of who stands upright, metres.
    pub hips: f64,
    /// From the hips to the shoulders, metres.
    pub long: f64,
    /// How far it leans when it strikes nothing, degrees.
    pub upright: f64,
    /// 1 with the feet on the floor, 0 well in the air.
    pub stands: f64,
}

impl Trunk<'_> {
    /// The middle of the hips, as the body has it, of who leans so far.
    pub fn middle(&self, lean: f64) -> InSpace {
        if lean <= self.upright {
            return InSpace::new(0.0, 0.0, self.hips);
        }
        let share = ((lean - self.upright) / 60.0).min(1.0) * self.stands;
        let bend = (self.hips - 0.86).clamp(0.0, KNEES);
        InSpace::new(0.0, -BACK * share, self.hips - bend * share)
    }

    /// A shoulder, left (0) or right (1), of who leans so far.
    pub fn shoulder(&self, side: usize, lean: f64) -> InSpace {
        let (sin, cos) = lean.to_radians().sin_cos();
        let own = InSpace::new(on_side(SIDES, side) * SHOULDER_ASIDE, self.long * sin, self.long * cos);
        self.body.place(self.middle(lean) + own)
    }

    /// How far it leans so that an end in a hand comes to a place, degrees, were it on the floor.
    pub fn lean_to(&self, side: usize, place: InSpace, end: f64, own: bool) -> f64 {
        let wanted = BENT * (ARM + end.abs());
        let off = |lean: f64| (self.shoulder(side, lean) - place).length() - wanted;
        if !(own || place.z < STOOPS_BELOW) || off(self.upright) <= 0.0 {
            return self.upright;
        }
        let most = LOWEST_STOOP;
        let step = (most - self.upright) / 16.0;
        let at = |index: usize| self.upright + step * index as f64;
        let nearest = (0..=16).min_by(|one, two| off(at(*one)).total_cmp(&off(at(*two)))).unwrap_or(0);
        // As near as it comes, between its neighbours (golden sections: J. Kiefer, "Sequential minimax search for a maximum", 1953).
        let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
        let (mut low, mut high) = (at(nearest.saturating_sub(1)), at((nearest + 1).min(16)));
        for _ in 0..24 {
            let (one, two) = (high - golden * (high - low), low + golden * (high - low));
            if off(one) <= off(two) { high = two } else { low = one }
        }
        let best = f64::midpoint(low, high);
        let reaches = (1..=16).map(at).chain([best]).filter(|lean| off(*lean) <= 0.0).min_by(f64::total_cmp);
        let Some(mut to) = reaches else { return best };
        // The least lean that reaches.
        let mut from =
            (0..=16).map(at).filter(|lean| *lean < to && off(*lean) > 0.0).fold(self.upright, f64::max);
        for _ in 0..20 {
            let middle = f64::midpoint(from, to);
            if off(middle) <= 0.0 { to = middle } else { from = middle }
        }
        to
    }
}

/// Where a palm is and which way its stick points, from its shoulder, so that an end comes to a place; where it does not reach, as near as it
/// comes.
pub(super) fn palm_at(
    shoulder: InSpace,
    place: InSpace,
    (end, grip): (StrikeEnd, Grip),
    carried: InSpace,
) -> (InSpace, InSpace) {
    let off = from_palm(end, grip);
    let way = place - shoulder;
    let far = way.length();
    if off == 0.0 {
        let palm = if far > ARM { shoulder + way * (ARM / far) } else { place };
        return (palm, carried);
    }
    let straight = way * (1.0 / far.max(1e-9));
    // A tip comes from below and a butt from above; what is far below is struck from above.
    let tilt = if place.z < 0.4 {
        InSpace::new(0.0, 0.0, -1.5)
    } else {
        InSpace::new(0.0, 0.0, if off > 0.0 { 0.9 } else { -1.6 })
    };
    let palm = |share: f64| {
        let along = straight + tilt * share;
        let along = along * (1.0 / along.length().max(1e-9));
        (place - along * off.abs(), along)
    };
    let within = |(palm, _): &(InSpace, InSpace)| (*palm - shoulder).length() <= BENT * ARM;
    let tilted = palm(1.0);
    let (found, along) = if within(&tilted) {
        tilted
    } else {
        let (mut from, mut to) = (0.0, 1.0);
        for _ in 0..24 {
            let middle = f64::midpoint(from, to);
            if within(&palm(middle)) { from = middle } else { to = middle }
        }
        palm(from)
    };
    let reached = found - shoulder;
    let length = reached.length();
    let found = if length > ARM { shoulder + reached * (ARM / length) } else { found };
    (found, along * off.signum())
}
