use super::Extra;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The clear floor that there is to dance on: a rectangle, its sides along and across the set.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClearFloor {
    /// Metres across the set.
    #[schemars(range(min = 0.1, max = 2000))]
    pub across: f64,
    /// Metres along the set.
    #[schemars(range(min = 0.1, max = 2000))]
    pub along: f64,
    /// How far its middle is to the right of the middle of the set, metres.
    #[serde(default, skip_serializing_if = "is_nought")]
    #[schemars(range(min = -1000, max = 1000))]
    pub x: f64,
    /// How far its middle is up from the middle of the set, metres.
    #[serde(default, skip_serializing_if = "is_nought")]
    #[schemars(range(min = -1000, max = 1000))]
    pub y: f64,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the shape that serde asks for
pub(super) fn is_nought(value: &f64) -> bool {
    *value == 0.0
}

impl ClearFloor {
    /// Its edges: left, bottom, right, top, metres from the middle of the set.
    #[must_use]
    pub fn edges(&self) -> [f64; 4] {
        [
            self.x - self.across / 2.0,
            self.y - self.along / 2.0,
            self.x + self.across / 2.0,
            self.y + self.along / 2.0,
        ]
    }
}
