use super::Dancer;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};
use std::{borrow::Cow, fmt};

/// The number that a dancer is called by, from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(transparent)]
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

    /// Whether a set of so many has it.
    #[must_use]
    pub fn is_in(self, many: u32) -> bool {
        (1..=many).contains(&self.0)
    }

    /// Whether it is even: in a longways set they are the file on the right as you face up.
    #[must_use]
    pub fn is_even(self) -> bool {
        self.0.is_multiple_of(2)
    }
}

/// In a file it is a plain number, and what it means is said where it stands.
impl JsonSchema for Number {
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

impl fmt::Display for Number {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl From<u32> for Number {
    fn from(number: u32) -> Self {
        Self(number)
    }
}

impl PartialEq<u32> for Number {
    fn eq(&self, other: &u32) -> bool {
        self.0 == *other
    }
}
