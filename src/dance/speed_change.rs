use super::Extra;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Another speed of the music, from a count of a figure or of a strain on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpeedChange {
    /// Counts from the start of the figure, or of the strain each time it is played.
    #[schemars(range(min = 0, max = 12000))]
    pub count: f64,
    /// Strong beats a minute.
    #[schemars(range(min = 10, max = 400))]
    pub speed: f64,
    /// Whether the music comes to it little by little, from the change before it or from the start, instead of at once.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub ease: bool,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl SpeedChange {
    /// A speed, strong beats a minute, that begins at once at a count.
    #[must_use]
    pub fn at(count: f64, speed: f64) -> Self {
        Self { count, speed, ease: false, extra: Extra::new() }
    }

    /// The same, come to little by little.
    #[must_use]
    pub fn eased(self) -> Self {
        Self { ease: true, ..self }
    }
}
