/// Keys that this version does not know, kept as they were.
pub type Extra = serde_json::Map<String, serde_json::Value>;
