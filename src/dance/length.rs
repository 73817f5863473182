use std::cmp::Ordering;

/// A length of music in whole notes, exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Length {
    top: u64,
    bottom: u64,
}

impl Length {
    /// No length.
    pub const NOTHING: Self = Self { top: 0, bottom: 1 };

    /// So many parts of a whole note; nothing where there are no such parts.
    #[must_use]
    pub fn of(top: u64, bottom: u64) -> Option<Self> {
        let common = common(top, bottom);
        (bottom > 0).then(|| Self { top: top / common, bottom: bottom / common })
    }

    /// Both together; nothing where the numbers grow too large.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        let top = self.top.checked_mul(other.bottom)?.checked_add(other.top.checked_mul(self.bottom)?)?;
        Self::of(top, self.bottom.checked_mul(other.bottom)?)
    }

    /// What is left when another is taken off; nothing where that is more, or the numbers grow too large.
    #[must_use]
    pub fn less(self, other: Self) -> Option<Self> {
        let (one, two) = (self.top.checked_mul(other.bottom)?, other.top.checked_mul(self.bottom)?);
        Self::of(one.checked_sub(two)?, self.bottom.checked_mul(other.bottom)?)
    }

    /// So many times as long; nothing where the numbers grow too large.
    #[must_use]
    pub fn times(self, top: u64, bottom: u64) -> Option<Self> {
        Self::of(self.top.checked_mul(top)?, self.bottom.checked_mul(bottom)?)
    }

    /// As a number, in whole notes.
    #[must_use]
    pub fn wholes(self) -> f64 {
        self.top as f64 / self.bottom as f64
    }

    /// Parts of a whole note, and which parts, as few as say it.
    #[must_use]
    pub fn parts(self) -> (u64, u64) {
        (self.top, self.bottom)
    }

    /// How many of another length it is.
    #[must_use]
    pub fn share_of(self, other: Self) -> f64 {
        (self.top as f64 * other.bottom as f64) / (self.bottom as f64 * other.top.max(1) as f64)
    }
}

impl PartialOrd for Length {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        let one = u128::from(self.top) * u128::from(other.bottom);
        Some(one.cmp(&(u128::from(other.top) * u128::from(self.bottom))))
    }
}

/// The greatest number that divides both.
fn common(mut one: u64, mut other: u64) -> u64 {
    while other > 0 {
        (one, other) = (other, one % other);
    }
    one.max(1)
}
