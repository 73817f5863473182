use super::{Extra, LeadRule, Leg, PlaceNumber, Turn, Way};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// The dancer's own left or right foot.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Foot {
    Left,
    Right,
}

impl Foot {
    /// The way to its side.
    #[must_use]
    pub fn way(self) -> Way {
        match self {
            Self::Left => Way::Left,
            Self::Right => Way::Right,
        }
    }

    /// The foot on the other side.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// The foot that a step is begun on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Lead {
    /// The count of the figure, from 0, at which the step begins.
    #[schemars(range(min = 0))]
    pub at: f64,
    /// The one that lands first in the step.
    pub foot: Foot,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

/// What the dancer in one place does in a figure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Part {
    /// The place in which the dancer begins, by the number whose spot it is.
    #[schemars(range(min = 1, max = 400))]
    pub place: PlaceNumber,
    /// The travelling, in order of time.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub legs: Vec<Leg>,
    /// The turning, in order of time.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub turns: Vec<Turn>,
    /// The feet chosen to lead, in order of time; elsewhere the lead follows from the steps.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub leads: Vec<Lead>,
    /// Which foot starts, where this dancer differs from the figure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lead: Option<LeadRule>,
    /// This dancer's own stepping, where it differs from the figure's.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub phrase: String,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Part {
    /// Changes left and right about: the facings of legs, the ways of turns and the feet chosen. Where it goes stays.
    pub fn swap_sides(&mut self) {
        for leg in &mut self.legs {
            leg.facing = leg.facing.other_side();
        }
        for turn in &mut self.turns {
            turn.way = turn.way.other();
        }
        for lead in &mut self.leads {
            lead.foot = lead.foot.other();
        }
    }

    /// Standing still in a place.
    #[must_use]
    pub fn still(place: impl Into<PlaceNumber>) -> Self {
        Self {
            place: place.into(),
            legs: Vec::new(),
            turns: Vec::new(),
            leads: Vec::new(),
            lead: None,
            phrase: String::new(),
            extra: Extra::new(),
        }
    }
}
