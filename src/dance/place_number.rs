use super::Dancer;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};
use std::{borrow::Cow, fmt};

/// A place: a spot of the set, by the number of the dancer who stands there at the start of the dance, from 1. Figures are
/// danced by place, so who has changed ends has another place than their own [`Number`](super::Number) says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub struct PlaceNumber(pub u32);

impl PlaceNumber {
    /// All places of a set of so many, in order.
    #[must_use]
    pub fn all(many: usize) -> impl DoubleEndedIterator<Item = Self> + ExactSizeIterator + Clone {
        (0..many).map(Self::from_index)
    }

    /// The two places of a rank (from 0 at the top) of a longways set: the odd one on the left as you face up, and the even
    /// one [MB1].
    #[must_use]
    pub fn of_rank(rank: usize) -> [Self; 2] {
        [Self::from_index(2 * rank), Self::from_index(2 * rank + 1)]
    }

    /// The place that a list of one for each place has at this index.
    #[must_use]
    pub fn from_index(index: usize) -> Self {
        Self((index as u32).wrapping_add(1))
    }

    /// Where a list of one for each place has this one's. Nought is no place: no list has one at its index.
    #[must_use]
    pub fn index(self) -> usize {
        (self.0 as usize).wrapping_sub(1)
    }

    /// Whether a set of so many has it.
    #[must_use]
    pub fn is_in(self, many: u32) -> bool {
        (1..=many).contains(&self.0)
    }

    /// As it is written.
    #[must_use]
    pub fn get(self) -> u32 {
        self.0
    }

    /// The dancer who stands there at the start.
    #[must_use]
    pub fn first_dancer(self) -> Dancer {
        Dancer(self.index())
    }
}

/// In a file it is a plain number, and what it means is said where it stands.
impl JsonSchema for PlaceNumber {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        u32::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        u32::json_schema(generator)
    }
}

impl fmt::Display for PlaceNumber {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl From<u32> for PlaceNumber {
    fn from(number: u32) -> Self {
        Self(number)
    }
}

impl PartialEq<u32> for PlaceNumber {
    fn eq(&self, other: &u32) -> bool {
        self.0 == *other
    }
}
