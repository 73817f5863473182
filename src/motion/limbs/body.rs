use super::in_space::InSpace;

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
}

impl Limbs {
    /// The middle between the hips.
    #[must_use]
    pub fn middle(&self) -> InSpace {
        self.hips[0].toward(self.hips[1], 0.5)
    }
}
