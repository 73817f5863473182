use super::Extra;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How the set stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SetKind {
    /// Two files, odds on the left as you face up, evens on the right; or one dancer alone.
    Longways,
    /// A ring, evenly spaced, facing the middle, 1 at the top and numbers going clockwise.
    Ring,
    /// Spots of the dance's own.
    Spots,
}

/// A place to stand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Spot {
    /// Metres to the right of the middle as you face up.
    #[schemars(range(min = -1000, max = 1000))]
    pub x: f64,
    /// Metres up from the middle, towards the music.
    #[schemars(range(min = -1000, max = 1000))]
    pub y: f64,
    /// Degrees clockwise from up.
    #[serde(default)]
    pub facing: f64,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The set: how many dancers and where they stand.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Set {
    /// How the set stands.
    pub kind: SetKind,
    /// One to each spot.
    #[schemars(range(min = 1, max = 400))]
    pub dancers: u32,
    /// Metres between the two files (longways).
    #[serde(default = "default_across")]
    #[schemars(range(min = 0.1, max = 1000))]
    pub across: f64,
    /// Metres from rank to rank (longways).
    #[serde(default = "default_along")]
    #[schemars(range(min = 0.1, max = 1000))]
    pub along: f64,
    /// Metres from the middle to each dancer (ring).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[schemars(range(min = 0.1, max = 1000))]
    pub radius: Option<f64>,
    /// Where each number stands (spots).
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spots: Vec<Spot>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

fn default_across() -> f64 {
    Set::DEFAULT_ACROSS
}

fn default_along() -> f64 {
    Set::DEFAULT_ALONG
}

impl Set {
    /// How many dance longways, or one alone.
    pub const USUAL_SIZES: [u32; 7] = [1, 2, 4, 6, 8, 10, 12];
    /// Metres between the files where nothing else is said.
    pub const DEFAULT_ACROSS: f64 = 2.4;
    /// Metres from rank to rank where nothing else is said.
    pub const DEFAULT_ALONG: f64 = 1.8;

    /// Metres from the middle to each dancer of a ring where nothing else is said: a little more room than arms.
    #[must_use]
    pub fn usual_radius(dancers: u32) -> f64 {
        (0.25 * f64::from(dancers)).max(1.5)
    }

    /// A longways set: metres across the files and along from rank to rank.
    #[must_use]
    pub fn longways(dancers: u32, across: f64, along: f64) -> Self {
        Self {
            kind: SetKind::Longways,
            dancers,
            across,
            along,
            radius: None,
            spots: Vec::new(),
            extra: Extra::new(),
        }
    }
}
