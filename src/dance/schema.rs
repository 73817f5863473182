use super::Dance;

/// The JSON Schema (draft 2020-12) of the dance file.
#[must_use]
pub fn schema() -> serde_json::Value {
    schemars::schema_for!(Dance).to_value()
}
