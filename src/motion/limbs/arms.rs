use super::circling::{comes_round, round_at};
use super::in_space::InSpace;
use super::sizes::{ARM, HEIGHT, neck};
use crate::motion::cubics::ease;

/// What a hand does at a moment, from what the step says of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct HandAt {
    /// 0 down to 1 high.
    pub height: f64,
    /// Metres in front of the shoulder.
    pub forward: f64,
    /// Circles to the next count, inwards.
    pub circles: f64,
    /// How far round it is already, a share of a circle, where it circled on the count before.
    pub round: f64,
}

impl HandAt {
    /// How far round it is on the next count, a share of a circle.
    pub(super) fn comes_round(&self) -> f64 {
        comes_round((self.round, self.circles))
    }
}

/// A hand that hangs is so far below its shoulder, and one of somebody of the usual height that is high so far above it, metres: then it is
/// 0.10 m above the crown [MB1].
const HANGS: f64 = -0.62;
const HIGH: f64 = 0.393;
/// How far outside of its shoulder a hand is that hangs, and one that is so high, metres (common practice, no source). Of taller and shorter
/// ones the arm is as straight: nearer to the head, or farther from it.
const ASIDE: [f64; 2] = [0.06, 0.42];
/// The radius of a circle of the hand, metres (common practice, no source).
const CIRCLE: f64 = 0.12;

/// How far outside of its shoulder and above it a high hand of somebody so tall is, metres.
fn high_up(tall: f64) -> [f64; 2] {
    let high = HIGH + neck(tall, 0.0) - neck(HEIGHT, 0.0);
    [(HIGH * HIGH + ASIDE[1] * ASIDE[1] - high * high).max(0.0).sqrt(), high]
}

/// Where a hand of somebody so tall is from its shoulder: to its own side, to the front and up, metres; at a share of the way from one count to the next. A
/// hand at rest on each count moves evenly between them. Where it circles it is a share of the circles, which begin and end so fast.
pub(super) fn hand_from_shoulder(
    (from, to): (HandAt, HandAt),
    share: f64,
    (round, goes): (f64, [f64; 2]),
    tall: f64,
) -> InSpace {
    let eased = ease(share);
    let between = |from: f64, to: f64| from + (to - from) * eased;
    let (height, forward) = (between(from.height, to.height), between(from.forward, to.forward));
    let ([hangs, usual], [of_tall, high]) = (ASIDE, high_up(tall));
    // Near the top alone: on its way up the hand passes the shoulder as far from it as anybody's.
    let aside = hangs + (usual - hangs) * ease(height) + (of_tall - usual) * height.powi(4);
    let reach = InSpace::new(aside, forward, HANGS + (high - HANGS) * height);
    let (sin, cos) = round_at((from.round, from.circles), goes, round);
    // From one that is not closed the hand comes back.
    let wide = if from.circles == 0.0 { CIRCLE * (1.0 - ease(round)) } else { CIRCLE };
    // Inwards: up on the outside, and over towards the middle.
    let circle = InSpace::new(wide * -sin, 0.0, wide * (cos - 1.0));
    (reach + circle).within(ARM, 0.94 * ARM)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907): arms back, 45 degrees behind the trunk.
    #[test]
    fn arms_go_back_and_up() {
        let back = HandAt { height: 0.15, forward: -0.447, circles: 0.0, round: 0.0 };
        let hand = hand_from_shoulder((back, back), 0.0, (0.0, [0.0; 2]), HEIGHT);
        let angle = (-hand.y).atan2(-hand.z).to_degrees();
        assert!((angle - 45.0).abs() < 5.0, "{angle}");
        let up = HandAt { height: 1.0, forward: 0.2, circles: 0.0, round: 0.0 };
        let hand = hand_from_shoulder((up, up), 0.5, (0.5, [0.0; 2]), HEIGHT);
        assert!((hand.z - HIGH).abs() < 0.01 && hand.length() < ARM && hand.length() > 0.5, "{hand:?}");
        // A circle comes back to where it began, and goes over towards the middle first.
        let round = HandAt { circles: 1.0, ..up };
        let at = |share: f64| hand_from_shoulder((round, up), share, (share, [0.0; 2]), HEIGHT);
        assert!((at(0.0) - at(1.0)).length() < 1e-9);
        assert!(at(0.3).x < at(0.0).x);
    }
}
