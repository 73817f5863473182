use super::in_space::InSpace;
use super::sides::on_side;
use super::sizes::FOOT;
use super::stick::{StickAt, from_palm};
use crate::dance::StrikeEnd;

/// A body at a moment. Of two the left is the first.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Limbs {
    /// The joints of the hips.
    pub hips: [InSpace; 2],
    pub knees: [InSpace; 2],
    /// The soles, under the ankles.
    pub feet: [InSpace; 2],
    /// Which way the body faces and the feet point, degrees clockwise from up.
    pub facing: f64,
    pub shoulders: [InSpace; 2],
    pub elbows: [InSpace; 2],
    /// The palms.
    pub hands: [InSpace; 2],
    /// The crown of the head.
    pub crown: InSpace,
    /// How far the trunk leans forward, degrees.
    pub lean: f64,
    /// Which feet are planted.
    pub planted: [bool; 2],
    /// The sticks in the hands.
    pub sticks: [Option<StickAt>; 2],
    /// What a hand strikes with just now, or is struck on, and how much it is that moment: 1 at it, and nothing half a count away.
    pub strikes: [Option<(StrikeEnd, f64)>; 2],
}

impl Limbs {
    /// How far the toe of a foot, left (0) or right (1), is turned up, radians: it is at a right angle to the leg [MB1], and flat near the floor.
    #[must_use]
    pub fn toes_up(&self, side: usize) -> f64 {
        let sole = on_side(self.feet, side);
        let shin = (sole - on_side(self.knees, side)).as_body_has_it(self.facing);
        // So near to the floor it is flat.
        shin.y.atan2(-shin.z).clamp(-1.0, 1.0) * (sole.z / 0.1).clamp(0.0, 1.0)
    }

    /// The end of the toe of a foot, left (0) or right (1), at the sole.
    #[must_use]
    pub fn toe(&self, side: usize) -> InSpace {
        let ((sin, cos), [_, toe]) = (self.toes_up(side).sin_cos(), FOOT);
        on_side(self.feet, side) + InSpace::new(0.0, toe * cos, toe * sin).of_body(self.facing)
    }

    /// Where an end is of the stick in a hand, left (0) or right (1), or the hand itself.
    #[must_use]
    pub fn end(&self, hand: usize, end: StrikeEnd) -> InSpace {
        let stick = on_side(self.sticks, hand).map(|stick| stick.along * from_palm(end, stick.grip));
        on_side(self.hands, hand) + stick.unwrap_or_default()
    }

    /// This body with the arms of another, and what is in their hands, from its own shoulders.
    #[must_use]
    pub fn with_arms_of(&self, other: &Self) -> Self {
        let moved = |places: [InSpace; 2]| {
            [0, 1].map(|side| {
                on_side(self.shoulders, side) + (on_side(places, side) - on_side(other.shoulders, side))
            })
        };
        let (elbows, hands) = (moved(other.elbows), moved(other.hands));
        Self { elbows, hands, sticks: other.sticks, strikes: other.strikes, ..*self }
    }

    /// The middle between the hips.
    #[must_use]
    pub fn middle(&self) -> InSpace {
        self.hips[0].toward(self.hips[1], 0.5)
    }
}
