use std::ops::{Add, Mul, Sub};

/// A place in space, or a way from one to another: metres right and up (towards the music) on the floor, and over it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct InSpace {
    /// Metres to the right of the middle of the set as you face up.
    pub x: f64,
    /// Metres up, towards the music.
    pub y: f64,
    /// Metres over the floor.
    pub z: f64,
}

impl InSpace {
    /// A place.
    #[must_use]
    pub const fn new(x: f64, y: f64, z: f64) -> Self {
        Self { x, y, z }
    }

    /// How far it is, metres.
    #[must_use]
    pub fn length(self) -> f64 {
        // A body is some metres: nothing overflows, and a root is ten times as quick as `hypot`.
        (self.x * self.x + self.y * self.y + self.z * self.z).sqrt()
    }

    /// How far it is over the floor, metres.
    #[must_use]
    pub fn across(self) -> f64 {
        (self.x * self.x + self.y * self.y).sqrt()
    }

    /// Some share of the way to another.
    #[must_use]
    pub fn toward(self, other: Self, share: f64) -> Self {
        self + (other - self) * share
    }

    /// What is so far to the right, to the front and up of a body, as the floor has it; the facing in degrees clockwise from up.
    #[must_use]
    pub fn of_body(self, facing: f64) -> Self {
        let (sin, cos) = facing.to_radians().sin_cos();
        Self::new(self.x * cos + self.y * sin, self.y * cos - self.x * sin, self.z)
    }

    /// What is so on the floor, as the body has it: the inverse of [`of_body`](Self::of_body).
    #[must_use]
    pub fn as_body_has_it(self, facing: f64) -> Self {
        self.of_body(-facing)
    }

    /// The same, no longer than so much: what is longer than some length that is free is drawn in gently, so that nothing moves in jerks.
    #[must_use]
    pub fn within(self, most: f64, free: f64) -> Self {
        let length = self.length();
        if length <= free {
            return self;
        }
        let rest = most - free;
        self * ((free + rest * ((length - free) / rest).tanh()) / length)
    }
}

impl Add for InSpace {
    type Output = Self;

    fn add(self, other: Self) -> Self {
        Self::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl Sub for InSpace {
    type Output = Self;

    fn sub(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl Mul<f64> for InSpace {
    type Output = Self;

    fn mul(self, by: f64) -> Self {
        Self::new(self.x * by, self.y * by, self.z * by)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_body_has_in_front_is_where_it_faces() {
        let front = InSpace::new(0.2, 1.0, 0.5);
        // Facing right: in front is to the right, and its right hand is towards the bottom.
        let there = front.of_body(90.0);
        assert!((there - InSpace::new(1.0, -0.2, 0.5)).length() < 1e-12);
        assert!((there.as_body_has_it(90.0) - front).length() < 1e-12);
        let far = InSpace::new(3.0, 4.0, 0.0).within(1.0, 0.94);
        assert!(far.length() <= 1.0 && far.length() > 0.99);
        assert_eq!(InSpace::new(0.3, 0.4, 0.0).within(1.0, 0.94).length(), 0.5);
    }
}
