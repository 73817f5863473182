use super::{Extra, FaultKind, PlaceNumber};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Something that would be a fault and that this side means.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Allow {
    /// The kind of fault.
    pub kind: FaultKind,
    /// The places whose dancers it is meant for, by number; empty for anyone.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub places: Vec<PlaceNumber>,
    /// How bad it may be, in the unit of the fault; left out, however bad.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub up_to: Option<f64>,
    /// Why the side means it.
    #[schemars(length(min = 1))]
    pub reason: String,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}
