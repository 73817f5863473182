use super::frame::Frame;
use super::in_space::InSpace;

/// A time in which a foot carries weight, or stands ready to, in one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// When it lands and when it is lifted, seconds from the start of the dance.
    pub begin: f64,
    pub end: f64,
    /// Where it is planted.
    pub place: InSpace,
    /// Where the body is meanwhile, on the floor.
    pub(super) middle: InSpace,
    /// How far to the right of the body's middle the foot is, metres.
    pub(super) aside: f64,
    /// Whether the body turns so far meanwhile that the foot has to go round with it.
    pub turns: bool,
}

impl Contact {
    /// Whether it is planted at a time.
    #[must_use]
    pub fn holds(&self, time: f64) -> bool {
        (self.begin..=self.end).contains(&time)
    }

    /// Where it is while the body is so.
    pub(super) fn place(&self, body: &Frame) -> InSpace {
        if self.turns { self.middle + body.way(InSpace::new(self.aside, 0.0, 0.0)) } else { self.place }
    }
}
