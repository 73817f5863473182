use super::in_space::InSpace;

/// Where a body is on the floor, and which way it faces.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub middle: InSpace,
    /// Degrees clockwise from up.
    pub facing: f64,
    sin: f64,
    cos: f64,
}

impl Frame {
    pub fn new(middle: InSpace, facing: f64) -> Self {
        let (sin, cos) = facing.to_radians().sin_cos();
        Self { middle, facing, sin, cos }
    }

    /// What is so far to the right, to the front and up of a body, as the floor has it.
    pub fn way(&self, InSpace { x, y, z }: InSpace) -> InSpace {
        InSpace::new(x * self.cos + y * self.sin, y * self.cos - x * self.sin, z)
    }

    /// The place that is so far to the right, to the front and over the floor.
    pub fn place(&self, own: InSpace) -> InSpace {
        self.middle + self.way(own)
    }

    /// A place as the body has it: the inverse of [`place`](Self::place).
    pub fn own(&self, place: InSpace) -> InSpace {
        let InSpace { x, y, z } = place - self.middle;
        InSpace::new(x * self.cos - y * self.sin, x * self.sin + y * self.cos, z)
    }
}
