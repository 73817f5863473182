//! Choices that several figures have.

use super::{Choice, Choices, Kind};
use crate::dance::Stance;

/// How far apart partners pass.
pub const PASS: Choice = Choice {
    key: "pass",
    label: "apart as they pass",
    help: "how far apart partners' middles are as they pass",
    kind: Kind::Number { usual: 0.7, least: 0.4, most: 2.0, unit: "m" },
};

/// How many bars the way out takes, for figures that usually take one.
pub const ONE_BAR: Choice = Choice {
    key: "bars",
    label: "bars out",
    help: "how many bars they travel out over",
    kind: Kind::Number { usual: 1.0, least: 1.0, most: 2.0, unit: "" },
};

/// How many bars the way out takes, for figures that usually take two.
pub const TWO_BARS: Choice = Choice {
    key: "bars",
    label: "bars out",
    help: "how many bars they travel out over",
    kind: Kind::Number { usual: 2.0, least: 1.0, most: 2.0, unit: "" },
};

/// Which shoulder first.
pub const FIRST: Choice = Choice {
    key: "first",
    label: "first shoulder",
    help: "the shoulder passed in the first half",
    kind: Kind::Word(&["right", "left"]),
};

/// Which way the set faces at the end: partners facing, in column, or in column reversed, as [MB1] has all three.
pub const FINISH: Choice = Choice {
    key: "finish",
    label: "they end",
    help: "how they face at the end: partners facing, in column facing up, or in column reversed, facing down",
    kind: Kind::Word(&["front", "column", "reversed"]),
};

/// The way that [`FINISH`] says the set faces.
pub(super) fn finish(choices: &Choices) -> Stance {
    let known = |stance: &Stance| stance.key() == choices.word("finish");
    Stance::ALL.into_iter().find(known).unwrap_or(Stance::Front)
}
