use crate::dance::{Foot, Landing, OwnStep};

/// A step: what lands on each count, and what goes with it.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// The short name that phrases use.
    pub short: String,
    /// The name in full.
    pub name: String,
    /// What lands, one for each count.
    pub feet: Vec<Landing>,
    /// How much of the travelling is done from each count to the next; 0 for none.
    pub travels: Vec<f64>,
    /// The height of the left hand on each count, 0 down to 1 high.
    pub left_hand: Vec<f64>,
    /// The height of the right hand on each count.
    pub right_hand: Vec<f64>,
}

impl Step {
    pub(super) fn built_in(
        short: &str,
        name: &str,
        feet: &[Landing],
        travels: &[f64],
        hands: &[f64],
    ) -> Self {
        Self {
            short: short.to_owned(),
            name: name.to_owned(),
            feet: feet.to_vec(),
            travels: travels.to_vec(),
            left_hand: hands.to_vec(),
            right_hand: hands.to_vec(),
        }
    }

    /// The foot that may lead the step after this one when a foot leads this: the one that does not carry the weight
    /// at its end. Nothing after both feet or the air: then either may.
    #[must_use]
    pub fn next_lead(&self, lead: Foot) -> Option<Foot> {
        match self.feet.iter().rev().find(|landing| **landing != Landing::Stay) {
            Some(Landing::Lead) => Some(lead.other()),
            // Where nothing lands at all the foot that was free still is.
            Some(Landing::Other) | None => Some(lead),
            Some(Landing::Both | Landing::Air | Landing::Upbeat | Landing::Stay) => None,
        }
    }

    /// Whether it is standing while others dance, with the jump before one's own turn or without.
    #[must_use]
    pub fn is_wait(&self) -> bool {
        [super::STAND, super::STAND_A_BEAT, super::STAND_AND_JUMP].contains(&self.short.as_str())
    }

    /// Whether it is standing and nothing else.
    #[must_use]
    pub fn is_stand(&self) -> bool {
        [super::STAND, super::STAND_A_BEAT].contains(&self.short.as_str())
    }

    /// How many counts it takes.
    #[must_use]
    pub fn counts(&self) -> usize {
        self.feet.len()
    }
}

impl From<&OwnStep> for Step {
    fn from(own: &OwnStep) -> Self {
        let fill = |list: &[f64], otherwise: &[f64], value: f64| match (list.is_empty(), otherwise.is_empty())
        {
            (false, _) => list.to_vec(),
            (true, false) => otherwise.to_vec(),
            (true, true) => vec![value; own.feet.len()],
        };
        Self {
            short: own.short.clone(),
            name: own.name.clone(),
            feet: own.feet.clone(),
            travels: fill(&own.travels, &[], 1.0),
            left_hand: fill(&own.left_hand, &own.hands, 0.0),
            right_hand: fill(&own.right_hand, &own.hands, 0.0),
        }
    }
}
