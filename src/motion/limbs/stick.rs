use super::in_space::InSpace;
use super::sizes::ARM;
use crate::dance::{Grip, StrikeEnd};

/// How long a stick is, metres (common practice, no source).
pub const STICK: f64 = 0.6;
/// Held by its end, so much of it is below the hand, metres (from memory).
const BELOW: f64 = 0.05;

/// How far along the stick an end is from the palm that holds it, metres: towards the tip, below 0 towards the butt. Of a hand itself nothing.
#[must_use]
pub fn from_palm(end: StrikeEnd, grip: Grip) -> f64 {
    let butt = match grip {
        Grip::Middle => -STICK / 2.0,
        Grip::End => -BELOW,
    };
    match end {
        StrikeEnd::Tip => butt + STICK,
        StrikeEnd::Butt => butt,
        StrikeEnd::Middle => butt + STICK / 2.0,
        StrikeEnd::Right | StrikeEnd::Left | StrikeEnd::Both => 0.0,
    }
}

/// How far an end reaches from the shoulder at the most, metres: an arm, and what of the stick is beyond the palm.
#[must_use]
pub fn reach(end: StrikeEnd, grip: Grip) -> f64 {
    ARM + from_palm(end, grip).abs()
}

/// A stick in a hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StickAt {
    /// Towards its tip, one metre.
    pub along: InSpace,
    pub grip: Grip,
}

impl StickAt {
    /// Its butt and its tip, from the palm that holds it.
    #[must_use]
    pub fn ends(&self) -> [InSpace; 2] {
        [StrikeEnd::Butt, StrikeEnd::Tip].map(|end| self.along * from_palm(end, self.grip))
    }
}

/// Which way a stick is held that strikes nothing, as a body has it: up, and a little to the front (common practice, no source).
pub(super) const CARRIED: InSpace = InSpace::new(0.0, 0.447, 0.894);

#[cfg(test)]
mod tests {
    use super::*;

    /// The working of the reach of two bodies: two shoulders 0.4 m apart aside, as right hands of partners who face each other are, and
    /// each an arm (0.65 m) and what of a stick (0.6 m) is beyond the hand: 1.86 m held by the middle, 2.37 m tip to tip held by the
    /// end, 1.24 m hand to hand [CALC].
    #[test]
    fn two_bodies_reach_each_other_so_far_apart() {
        let apart = |end: StrikeEnd, grip: Grip| ((2.0 * reach(end, grip)).powi(2) - 0.4_f64.powi(2)).sqrt();
        for (end, grip, metres) in [
            (StrikeEnd::Tip, Grip::Middle, 1.86),
            (StrikeEnd::Butt, Grip::Middle, 1.86),
            (StrikeEnd::Tip, Grip::End, 2.37),
            (StrikeEnd::Right, Grip::Middle, 1.24),
        ] {
            assert!((apart(end, grip) - metres).abs() < 0.005, "{end:?} {grip:?}: {}", apart(end, grip));
        }
    }
}
