use super::Dancer;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::fmt;

/// The number that a dancer is called by, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(transparent)]
#[schemars(transparent)]
pub struct Number(pub u32);

impl Number {
    /// As it is written.
    #[must_use]
    pub fn get(self) -> u32 {
        self.0
    }

    /// The dancer who is called so. Nought is nobody's: no list has one at that dancer's index.
    #[must_use]
    pub fn dancer(self) -> Dancer {
        Dancer((self.0 as usize).wrapping_sub(1))
    }
}

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl PartialEq<u32> for Number {
    fn eq(&self, other: &u32) -> bool {
        self.0 == *other
    }
}
