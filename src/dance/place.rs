use super::{Dancer, PlaceNumber};
use std::fmt;

/// A place in the set, by index: from 0, in the order of the numbers whose spots they are. Said by its [`PlaceNumber`].
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place(pub usize);

impl Place {
    /// All places of a set of so many, in order.
    #[must_use]
    pub fn all(many: usize) -> impl DoubleEndedIterator<Item = Self> + ExactSizeIterator + Clone {
        (0..many).map(Self)
    }

    /// Where a list of one for each place has it.
    #[must_use]
    pub fn index(self) -> usize {
        self.0
    }

    /// The number whose spot it is.
    #[must_use]
    pub fn number(self) -> PlaceNumber {
        PlaceNumber((self.0 as u32).wrapping_add(1))
    }

    /// The dancer who has it at the start of the dance.
    #[must_use]
    pub fn at_home(self) -> Dancer {
        Dancer(self.0)
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.number().fmt(f)
    }
}
