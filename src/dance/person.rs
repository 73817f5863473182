use super::{Extra, Number};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

#[allow(clippy::trivially_copy_pass_by_ref)] // the shape that serde asks for
fn is_no(value: &bool) -> bool {
    !*value
}

/// Who dances a number.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Person {
    /// The number in the set, from 1.
    #[schemars(range(min = 1, max = 400))]
    pub number: Number,
    /// The person's name.
    pub name: String,
    /// Whether they hold a stick in the left hand.
    #[serde(default, skip_serializing_if = "is_no")]
    pub left_handed: bool,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}
