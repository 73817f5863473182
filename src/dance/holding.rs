use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What the dancers hold in their hands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Holding {
    /// A handkerchief in each hand.
    #[default]
    Handkerchiefs,
    /// A stick in the right hand.
    Sticks,
    /// Empty hands.
    Nothing,
}

impl Holding {
    /// Whether this is what a dance has that does not say.
    #[must_use]
    pub fn is_usual(&self) -> bool {
        *self == Self::default()
    }
}
