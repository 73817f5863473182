use super::InSpace;

/// A time in which a foot carries weight, or stands ready to, in one place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Contact {
    /// When it lands and when it is lifted, seconds from the start of the dance.
    pub begin: f64,
    pub end: f64,
    /// Where it is planted.
    pub place: InSpace,
    /// Which way it points, degrees clockwise from up.
    pub facing: f64,
}

impl Contact {
    /// Whether it is planted at a time.
    #[must_use]
    pub fn holds(&self, time: f64) -> bool {
        (self.begin..=self.end).contains(&time)
    }
}
