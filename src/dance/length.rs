use std::cmp::Ordering;

/// A length of music in whole notes, exactly.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Length {
    top: u64,
    bottom: u64,
}

impl Length {
    /// No length.
    pub(super) const NOTHING: Self = Self { top: 0, bottom: 1 };

    /// So many parts of a whole note; nothing where there are no such parts.
    pub(super) fn of(top: u64, bottom: u64) -> Option<Self> {
        let common = common(top, bottom);
        (bottom > 0).then(|| Self { top: top / common, bottom: bottom / common })
    }

    /// Both together; nothing where the numbers grow too large.
    pub(super) fn plus(self, other: Self) -> Option<Self> {
        let top = self.top.checked_mul(other.bottom)?.checked_add(other.top.checked_mul(self.bottom)?)?;
        Self::of(top, self.bottom.checked_mul(other.bottom)?)
    }

    /// So many times as long; nothing where the numbers grow too large.
    pub(super) fn times(self, top: u64, bottom: u64) -> Option<Self> {
        Self::of(self.top.checked_mul(top)?, self.bottom.checked_mul(bottom)?)
    }

    /// How many of another length it is.
    pub(super) fn share_of(self, other: Self) -> f64 {
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
