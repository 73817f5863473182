use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Makes the kinds from one table, so that none can be left out of a list: its name, the word that files and the command
/// line use, and what a dancer calls it.
macro_rules! kinds {
    ($($(#[$about:meta])* $kind:ident, $name:literal, $words:literal;)*) => {
        /// A kind of fault that a foreman watches for (common practice, no source).
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
        #[serde(rename_all = "kebab-case")]
        pub enum FaultKind {
            $($(#[$about])* $kind,)*
        }

        impl FaultKind {
            /// Every kind.
            pub const ALL: [Self; [$($name),*].len()] = [$(Self::$kind),*];

            /// The word that files and the command line use.
            #[must_use]
            pub fn name(self) -> &'static str {
                match self {
                    $(Self::$kind => $name,)*
                }
            }

            /// What a dancer calls it.
            #[must_use]
            pub fn words(self) -> &'static str {
                match self {
                    $(Self::$kind => $words,)*
                }
            }
        }
    };
}

kinds! {
    /// Two bodies touch.
    Clash, "clash", "clash";
    /// Two bodies come closer than they should.
    Tight, "tight", "tight";
    /// A step begins on the wrong foot.
    WrongFoot, "wrong-foot", "wrong foot";
    /// Turning too late, or before it is time.
    LateTurn, "late-turn", "late turn";
    /// Turning or going round the wrong way.
    WrongWay, "wrong-way", "wrong way";
    /// Coming home round a curve where the track is straight.
    CurvedHome, "curved-home", "curved home";
    /// Not back in the spot at the end of a figure.
    NotHome, "not-home", "not home";
    /// A step that covers too much ground, or travelling too fast at the speed of the tune.
    OverLong, "over-long", "over-long step";
    /// A turn too fast to dance.
    HurriedTurn, "hurried-turn", "hurried turn";
    /// A jump for which the tempo leaves no time.
    HurriedJump, "hurried-jump", "hurried jump";
    /// A turn of more than half about that nobody asked for.
    NeedlessTurn, "needless-turn", "needless turn";
    /// A stop in the middle of a way.
    Stuck, "stuck", "stuck";
    /// Thrown round by the path, without a turn.
    Wrench, "wrench", "thrown round";
    /// Sticks or hands that do not come to where they should meet.
    OutOfReach, "out-of-reach", "out of reach";
    /// A strike in which the other takes no part.
    OneSided, "one-sided", "one-sided";
    /// A hand that is asked to be in two places at once.
    TwoPlaces, "two-places", "in two places";
    /// The figures and the tune do not fit.
    Music, "music", "music";
    /// Not enough floor.
    Room, "room", "room";
    /// A stick or a hand near another's head: a caution.
    NearHead, "near-head", "near a head";
}

impl FaultKind {
    /// Whether a smaller value is worse, as it is between bodies.
    #[must_use]
    pub fn less_is_worse(self) -> bool {
        matches!(self, Self::Clash | Self::Tight | Self::HurriedJump | Self::NearHead)
    }

    /// Whether it is a caution, and no fault.
    #[must_use]
    pub fn is_caution(self) -> bool {
        self == Self::NearHead
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
