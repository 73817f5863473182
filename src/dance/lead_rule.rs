use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// How a tradition chooses the foot that starts (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum LeadRule {
    /// The foot farther from your partner.
    OutsideFoot,
    /// Left in the first half, right in the second.
    LeftThenRight,
    /// Right in both halves, as in rounds.
    SameWay,
    /// Always left.
    Left,
    /// Always right; the Morris Book does so unless told otherwise [MB1].
    Right,
    /// Odd numbers left, even numbers right.
    ByNumber,
}

impl LeadRule {
    /// What a dancer calls it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::OutsideFoot => "outside foot",
            Self::LeftThenRight => "left then right",
            Self::SameWay => "same way both halves",
            Self::Left => "always left",
            Self::Right => "always right",
            Self::ByNumber => "odds left, evens right",
        }
    }
}
