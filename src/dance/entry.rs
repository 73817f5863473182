use super::Extra;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One line of the running order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Entry {
    /// The id of the figure danced here.
    pub figure: String,
    /// The strain of the tune it is danced to, such as `A`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub strain: String,
    /// What the foreman calls, if not the figure's name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub call: String,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Entry {
    /// A line that dances a figure, with no strain and no call of its own.
    #[must_use]
    pub fn of(figure: &str) -> Self {
        Self { figure: figure.to_owned(), strain: String::new(), call: String::new(), extra: Extra::new() }
    }
}
