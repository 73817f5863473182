//! What a step says once a foot, a hand or the body in the picture has been dragged.

use crate::dance::{Foot, FreePlace, Landing, limits, rounded};
use crate::motion::steps::{Step, usual_rise};
use crate::picture::EyeSide;
use crate::words::{StepRow, carries, land};

/// A part of the body that can be dragged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Grip {
    Foot(usize),
    Hand(usize),
    /// Both hands, where they are one behind the other and do the same.
    Hands,
    /// How high it rises.
    Body,
}

impl Grip {
    /// Each of them; of two the left is the first. Those that lie over others come last.
    pub const ALL: [Self; 6] =
        [Self::Body, Self::Foot(0), Self::Foot(1), Self::Hand(0), Self::Hand(1), Self::Hands];

    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Foot(0) => StepRow::LeftFoot.word(),
            Self::Foot(_) => StepRow::RightFoot.word(),
            Self::Hand(0) => StepRow::LeftHand.word(),
            Self::Hand(_) => StepRow::RightHand.word(),
            Self::Hands => "hands",
            Self::Body => StepRow::Body.word(),
        }
    }
}

/// How far a hand goes from down to high, metres: from 0.62 below the shoulder to 0.40 above it.
const HANDS_GO: f64 = 1.02;
/// A hand is dragged so far in front of its shoulder or behind it, metres.
const FORWARD: f64 = 0.6;
/// A free foot so far before the other one, or behind it, is in front or behind, metres.
const IN_FRONT: f64 = 0.2;
const BEHIND: f64 = -0.08;
/// One so far over to the other's side is crossed, metres.
const CROSSED: f64 = -0.02;
/// A foot that carries the weight lets go of it when it is lifted so far, metres.
const LET_GO: f64 = 0.02;

/// Where a part was as a drag began, and what the step said then.
#[derive(Clone, Debug)]
pub struct Held {
    pub grip: Grip,
    pub step: Step,
    /// The count of the step, from 0, and the foot that leads.
    pub count: usize,
    pub lead: Foot,
    /// Of a foot: how far it is before the other, and to its own side of it, metres.
    pub from_other: [f64; 2],
}

impl Held {
    /// Whether the drag raises the whole body: by its ring, or by the foot that hops.
    #[must_use]
    pub fn raises(&self) -> bool {
        match self.grip {
            Grip::Body => true,
            Grip::Foot(foot) => {
                carried_by(&self.step, self.count, self.lead, foot)
                    && usual_rise(&self.step.feet, self.count) > 0.0
            }
            Grip::Hand(_) | Grip::Hands => false,
        }
    }
}

/// The landing of the foot that is not the left (0) or the right (1) one, where a foot leads.
fn other_than(lead: Foot, foot: usize) -> Landing {
    let moved = if foot == 0 { Foot::Left } else { Foot::Right };
    if moved == lead { Landing::Other } else { Landing::Lead }
}

/// Whether a foot, left (0) or right (1), carries the weight on a count of a step.
fn carried_by(step: &Step, count: usize, lead: Foot, foot: usize) -> bool {
    match step.feet.get(count) {
        Some(Landing::Both) => true,
        _ => carries(step, count).is_some_and(|landing| landing != other_than(lead, foot)),
    }
}

/// The step once the part has been dragged so far to the right and up in the picture, metres.
#[must_use]
pub fn dragged(held: &Held, side: EyeSide, [right, up]: [f64; 2]) -> Step {
    let mut step = held.step.clone();
    let count = held.count;
    match held.grip {
        Grip::Body => {
            if let Some(rise) = step.rise.get_mut(count) {
                *rise = within(*rise + up, [0.0, limits::HIGHEST_RISE]);
            }
        }
        Grip::Hand(hand) => drag_hand(&mut step, held, hand, side, [right, up]),
        Grip::Hands => {
            for hand in 0..2 {
                drag_hand(&mut step, held, hand, side, [right, up]);
            }
        }
        Grip::Foot(foot) => drag_foot(&mut step, held, foot, side, [right, up]),
    }
    step
}

/// A length or a height between two, as fine as it can be dragged.
fn within(value: f64, [least, most]: [f64; 2]) -> f64 {
    rounded(value.clamp(least, most), 100.0)
}

/// Whether both hands do the same on a count of a step.
#[must_use]
pub fn hands_alike(step: &Step, count: usize) -> bool {
    let [left, right] = &step.forward;
    step.left_hand.get(count) == step.right_hand.get(count) && left.get(count) == right.get(count)
}

fn drag_hand(step: &mut Step, held: &Held, hand: usize, side: EyeSide, [right, up]: [f64; 2]) {
    let [left_is, right_is] = step.hands_as_written(held.lead);
    let written = if hand == 0 { left_is } else { right_is };
    let heights = if written == 0 { &mut step.left_hand } else { &mut step.right_hand };
    let Some(height) = heights.get_mut(held.count) else { return };
    *height = within(*height + up / HANDS_GO, [0.0, 1.0]);
    let forward = if side == EyeSide::Side { right } else { 0.0 };
    if let Some(slot) = step.forward.get_mut(written).and_then(|list| list.get_mut(held.count)) {
        *slot = within(*slot + forward, [-FORWARD, FORWARD]);
    }
}

fn drag_foot(step: &mut Step, held: &Held, foot: usize, side: EyeSide, [right, up]: [f64; 2]) {
    let count = held.count;
    let carries = carried_by(step, count, held.lead, foot);
    if held.raises() {
        // The foot that hops takes the body with it.
        if let Some(rise) = step.rise.get_mut(count) {
            *rise = within(*rise + up, [0.0, limits::HIGHEST_RISE]);
        }
        return;
    }
    if carries && up < LET_GO {
        return;
    }
    if carries {
        land(step, count, other_than(held.lead, foot));
    }
    let Some(free) = step.free.get_mut(count) else { return };
    let height = if carries { 0.0 } else { free.height };
    free.height = rounded((height + up).clamp(0.0, limits::HIGHEST_FOOT), 100.0);
    let [before, aside] = held.from_other;
    free.at = match side {
        EyeSide::Side => match before + right {
            far if far > IN_FRONT => FreePlace::Front,
            far if far < BEHIND => FreePlace::CrossedBehind,
            _ if matches!(free.at, FreePlace::Front | FreePlace::CrossedBehind) => FreePlace::Beside,
            _ => free.at,
        },
        EyeSide::Front | EyeSide::Behind => {
            // Seen from the front the dancer's left is to the right.
            let left_is = if side == EyeSide::Front { 1.0 } else { -1.0 };
            let out = if foot == 0 { left_is } else { -left_is };
            match aside + right * out {
                over if over < CROSSED => match (free.at, side) {
                    (FreePlace::CrossedBehind, _) => FreePlace::CrossedBehind,
                    (FreePlace::CrossedBefore, _) | (_, EyeSide::Front) => FreePlace::CrossedBefore,
                    _ => FreePlace::CrossedBehind,
                },
                _ if matches!(free.at, FreePlace::CrossedBefore | FreePlace::CrossedBehind) => {
                    FreePlace::Beside
                }
                _ => free.at,
            }
        }
    };
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::motion::known_steps;

    fn held(grip: Grip, count: usize, from_other: [f64; 2]) -> Held {
        let step = known_steps(&[]).into_iter().find(|step| step.short == "ds").unwrap();
        Held { grip, step, count, lead: Foot::Left, from_other }
    }

    #[test]
    fn a_free_foot_is_put_where_it_is_dragged() {
        // On the first count of a double step the left foot lands.
        let free = held(Grip::Foot(1), 0, [0.0, 0.16]);
        let high = free.step.free[0].height;
        let step = dragged(&free, EyeSide::Side, [0.3, 0.1]);
        assert_eq!(step.free[0].at, FreePlace::Front);
        assert!((step.free[0].height - rounded(high + 0.1, 100.0)).abs() < 1e-9);
        assert_eq!(dragged(&free, EyeSide::Side, [-0.2, 0.0]).free[0].at, FreePlace::CrossedBehind);
        // From the front the right foot is on the left of the picture, and crosses to the right.
        assert_eq!(dragged(&free, EyeSide::Front, [0.3, 0.0]).free[0].at, FreePlace::CrossedBefore);
        assert_eq!(dragged(&free, EyeSide::Behind, [-0.3, 0.0]).free[0].at, FreePlace::CrossedBehind);
        assert_eq!(step.feet, free.step.feet);
    }

    #[test]
    fn a_foot_that_is_lifted_gives_the_weight_to_the_other() {
        let lands = held(Grip::Foot(0), 0, [0.0, 0.16]);
        assert_eq!(
            dragged(&lands, EyeSide::Side, [0.3, 0.0]),
            lands.step,
            "along the floor it stays planted"
        );
        let step = dragged(&lands, EyeSide::Side, [0.3, 0.2]);
        assert_eq!(
            (step.feet[0], step.free[0].at, step.free[0].height),
            (Landing::Other, FreePlace::Front, 0.2)
        );
    }

    #[test]
    fn the_foot_that_hops_takes_the_body_with_it() {
        let hops = held(Grip::Foot(0), 3, [0.0, 0.16]);
        let step = dragged(&hops, EyeSide::Side, [0.3, 0.1]);
        assert_eq!((&step.feet, &step.free), (&hops.step.feet, &hops.step.free));
        assert!((step.rise[3] - hops.step.rise[3] - 0.1).abs() < 1e-9);
    }

    #[test]
    fn hands_and_the_hop() {
        let hand = held(Grip::Hand(0), 0, [0.0; 2]);
        let step = dragged(&hand, EyeSide::Side, [-0.3, 0.51]);
        assert!((step.left_hand[0] - (hand.step.left_hand[0] + 0.5)).abs() < 1e-9);
        assert!(step.forward[0][0] < hand.step.forward[0][0] - 0.29);
        assert_eq!(step.right_hand, hand.step.right_hand);
        let front = dragged(&hand, EyeSide::Front, [-0.3, 9.0]);
        assert_eq!((front.left_hand[0], front.forward[0][0]), (1.0, hand.step.forward[0][0]));
        let both = dragged(&held(Grip::Hands, 0, [0.0; 2]), EyeSide::Side, [-0.3, 0.51]);
        assert!(
            hands_alike(&both, 0) && both.left_hand == step.left_hand && both.forward[0] == step.forward[0]
        );
        assert!(!hands_alike(&step, 0));
        let body = held(Grip::Body, 3, [0.0; 2]);
        assert_eq!(dragged(&body, EyeSide::Side, [0.0, 9.0]).rise[3], limits::HIGHEST_RISE);
        assert_eq!(dragged(&body, EyeSide::Side, [0.0, -9.0]).rise[3], 0.0);
    }
}
