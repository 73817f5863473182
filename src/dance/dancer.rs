use super::{Number, PlaceNumber};
use std::fmt;

/// A dancer, by index: from 0, in the order of their numbers. Said by their [`Number`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Dancer(pub usize);

impl Dancer {
    /// All dancers of a set of so many, in order.
    #[must_use]
    pub fn all(many: usize) -> impl DoubleEndedIterator<Item = Self> + ExactSizeIterator + Clone {
        (0..many).map(Self)
    }

    /// Where a list of one for each dancer has theirs.
    #[must_use]
    pub fn index(self) -> usize {
        self.0
    }

    /// The number that the dancer is called by.
    #[must_use]
    pub fn number(self) -> Number {
        Number((self.0 as u32).wrapping_add(1))
    }

    /// The place in which the dancer stands at the start.
    #[must_use]
    pub fn home(self) -> PlaceNumber {
        PlaceNumber::from_index(self.0)
    }

    /// Whether the number is even: in a longways set they are the file on the right as you face up.
    #[must_use]
    pub fn is_even(self) -> bool {
        self.number().is_even()
    }
}

impl fmt::Display for Dancer {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.number().fmt(f)
    }
}
