use super::Place;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

/// A place in the set by the number whose spot it is, from 1, as files write it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
#[schemars(transparent)]
pub struct PlaceNumber(pub u32);

impl PlaceNumber {
    /// As it is written.
    #[must_use]
    pub fn get(self) -> u32 {
        self.0
    }

    /// The place itself. Nought is no place: no list has one at that index.
    #[must_use]
    pub fn place(self) -> Place {
        Place((self.0 as usize).wrapping_sub(1))
    }
}

impl fmt::Display for PlaceNumber {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl PartialEq<u32> for PlaceNumber {
    fn eq(&self, other: &u32) -> bool {
        self.0 == *other
    }
}
