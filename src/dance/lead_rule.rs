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
    /// Every rule.
    pub const ALL: [Self; 6] =
        [Self::OutsideFoot, Self::LeftThenRight, Self::SameWay, Self::Left, Self::Right, Self::ByNumber];

    /// The word that files and the command line use.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::OutsideFoot => "outside-foot",
            Self::LeftThenRight => "left-then-right",
            Self::SameWay => "same-way",
            Self::Left => "left",
            Self::Right => "right",
            Self::ByNumber => "by-number",
        }
    }

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_what_files_say() {
        for rule in LeadRule::ALL {
            assert_eq!(serde_json::to_value(rule).unwrap(), rule.key());
        }
    }
}
