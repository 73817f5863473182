use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A kind of fault that a foreman watches for (common practice, no source).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum FaultKind {
    /// Two bodies touch.
    Clash,
    /// Two bodies come closer than they should.
    Tight,
    /// A step begins on the wrong foot.
    WrongFoot,
    /// Turning too late, or before it is time.
    LateTurn,
    /// Turning or going round the wrong way.
    WrongWay,
    /// Coming home round a curve where the track is straight.
    CurvedHome,
    /// Not back in the spot at the end of a figure.
    NotHome,
    /// A step that covers too much ground.
    OverLong,
    /// A turn too fast to dance.
    HurriedTurn,
    /// The figures and the tune do not fit.
    Music,
    /// Not enough floor.
    Room,
}

impl FaultKind {
    /// Every kind.
    pub const ALL: [Self; 11] = [
        Self::Clash,
        Self::Tight,
        Self::WrongFoot,
        Self::LateTurn,
        Self::WrongWay,
        Self::CurvedHome,
        Self::NotHome,
        Self::OverLong,
        Self::HurriedTurn,
        Self::Music,
        Self::Room,
    ];

    /// The word that files and the command line use.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Clash => "clash",
            Self::Tight => "tight",
            Self::WrongFoot => "wrong-foot",
            Self::LateTurn => "late-turn",
            Self::WrongWay => "wrong-way",
            Self::CurvedHome => "curved-home",
            Self::NotHome => "not-home",
            Self::OverLong => "over-long",
            Self::HurriedTurn => "hurried-turn",
            Self::Music => "music",
            Self::Room => "room",
        }
    }

    /// What a dancer calls it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Clash => "clash",
            Self::Tight => "tight",
            Self::WrongFoot => "wrong foot",
            Self::LateTurn => "late turn",
            Self::WrongWay => "wrong way",
            Self::CurvedHome => "curved home",
            Self::NotHome => "not home",
            Self::OverLong => "over-long step",
            Self::HurriedTurn => "hurried turn",
            Self::Music => "music",
            Self::Room => "room",
        }
    }

    /// Whether a smaller value is worse, as it is between bodies.
    #[must_use]
    pub fn less_is_worse(self) -> bool {
        matches!(self, Self::Clash | Self::Tight)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_what_files_say() {
        for kind in FaultKind::ALL {
            assert_eq!(serde_json::to_value(kind).unwrap(), kind.name());
        }
    }
}
