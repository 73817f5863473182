use super::{Extra, FreeFoot, TurnOn};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What lands on a count of a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Landing {
    /// The foot that leads this step.
    Lead,
    /// The other foot.
    Other,
    /// Both feet together.
    Both,
    /// Neither: the dancer is off the ground.
    Air,
    /// The hop on the upbeat: on the foot opposite to the one about to step; both feet where no one foot is.
    Upbeat,
    /// Nothing lands: the weight stays where it was.
    Stay,
}

/// Whether a phrase and a turn can name a step by these letters: letters and figures, the first of them a letter, and none of the words that
/// stand for something else there: left, right, start and hop.
#[must_use]
pub fn are_letters_of_a_step(short: &str) -> bool {
    let lower = short.to_lowercase();
    short.chars().next().is_some_and(char::is_alphabetic)
        && short.chars().all(char::is_alphanumeric)
        && !["left", "right"].contains(&lower.as_str())
        && !TurnOn::WORDS.contains(&lower.as_str())
}

/// A step of a dance's own.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OwnStep {
    /// Its name in full.
    pub name: String,
    /// The short name that phrases use, such as `ds`.
    pub short: String,
    /// What lands, one for each count of the step.
    #[schemars(length(min = 1, max = 64))]
    pub feet: Vec<Landing>,
    /// How much of the travelling is done on each count, from 0; empty means evenly.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub travels: Vec<f64>,
    /// Hand height on each count, 0 down to 1 high; empty means down.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub hands: Vec<f64>,
    /// The left hand alone, where it differs from `hands`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub left_hand: Vec<f64>,
    /// The right hand alone, where it differs from `hands`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub right_hand: Vec<f64>,
    /// Where the free foot is on each count; empty means beside the other, off the floor.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub free: Vec<FreeFoot>,
    /// How high the body rises in the hop that lands on a count, or in the jump that is in the air on it, metres; empty means the
    /// usual hops and jumps.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub rise: Vec<f64>,
    /// How far the left hand is in front of its shoulder on each count, metres, behind it below 0; empty means as hands swing.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub left_forward: Vec<f64>,
    /// The same of the right hand.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub right_forward: Vec<f64>,
    /// Whether the hands go with the leading foot: as written when the right foot leads, left and right changed when the left does. Without
    /// it left is left.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub hands_follow_lead: bool,
    /// How many circles each hand makes from each count to the next, inwards; outwards below 0; empty means none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub circles: Vec<f64>,
    /// Keys not known to this version.
    #[serde(flatten)]
    pub extra: Extra,
}
