use super::{Extra, Number};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Who dances a number.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Person {
    /// The number in the set, from 1.
    #[schemars(range(min = 1, max = 400))]
    pub number: Number,
    /// The person's name.
    pub name: String,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}
