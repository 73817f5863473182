//! The steps that a turn is danced on.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// The steps that a turn is danced on.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "String", into = "String")]
pub enum TurnOn {
    /// The first count of a step.
    Start,
    /// The hop that comes where the turn begins; where none does, that of the step under way then but for single steps, or of the next double
    /// step.
    Hop,
    /// The single steps, finished before the jump.
    SingleSteps,
    /// The first step with these letters that begins where the turn does or later, all of its counts: `hl` a hook-leg.
    Step(String),
}

impl TurnOn {
    const START: &str = "start";
    const HOP: &str = "hop";
    const SINGLE_STEPS: &str = "single-steps";

    /// The words of it that are no letters of a step; a step with such letters cannot be named by a turn.
    pub const WORDS: [&str; 3] = [Self::START, Self::HOP, Self::SINGLE_STEPS];

    /// The letters of the step, where it is one that is named.
    #[must_use]
    pub fn step(&self) -> Option<&str> {
        match self {
            Self::Step(short) => Some(short),
            Self::Start | Self::Hop | Self::SingleSteps => None,
        }
    }
}

impl From<String> for TurnOn {
    fn from(word: String) -> Self {
        match word.as_str() {
            Self::START => Self::Start,
            Self::HOP => Self::Hop,
            Self::SINGLE_STEPS => Self::SingleSteps,
            _ => Self::Step(word),
        }
    }
}

impl From<TurnOn> for String {
    fn from(on: TurnOn) -> Self {
        match on {
            TurnOn::Start => TurnOn::START.to_owned(),
            TurnOn::Hop => TurnOn::HOP.to_owned(),
            TurnOn::SingleSteps => TurnOn::SINGLE_STEPS.to_owned(),
            TurnOn::Step(short) => short,
        }
    }
}

impl JsonSchema for TurnOn {
    fn schema_name() -> Cow<'static, str> {
        "TurnOn".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "The steps that a turn is danced on: `start`, the first count of a step; `hop`; `single-steps`, \
        finished before the jump; or the letters of a step, built in or the side's own, such as `hl`.",
            "type": "string",
            "minLength": 1
        })
    }
}
