use super::{Extra, clear_floor::is_nought};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Where a foot is while the other one carries the weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FreePlace {
    /// In front: its heel one foot's length before the other toe, as [MB1] has the ordinary step.
    Front,
    /// Beside the other foot.
    Beside,
    /// Crossed over, before the other shin.
    CrossedBefore,
    /// Crossed over, behind the other heel.
    CrossedBehind,
    /// Against the other shin.
    Shin,
}

/// The foot that carries no weight, on a count of a step.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FreeFoot {
    /// Where it is.
    pub at: FreePlace,
    /// How high its sole is over the floor, metres.
    #[schemars(range(min = 0, max = 1.2))]
    pub height: f64,
    /// How many small circles the lower leg makes from this count to the next, outwards; inwards below 0.
    #[serde(default, skip_serializing_if = "is_nought")]
    #[schemars(range(min = -3, max = 3))]
    pub circles: f64,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl FreePlace {
    /// Every one of them.
    pub const ALL: [Self; 5] =
        [Self::Front, Self::Beside, Self::CrossedBefore, Self::CrossedBehind, Self::Shin];
}

impl FreeFoot {
    /// A place, and a height in metres.
    #[must_use]
    pub fn new(at: FreePlace, height: f64) -> Self {
        Self { at, height, circles: 0.0, extra: Extra::new() }
    }
}
