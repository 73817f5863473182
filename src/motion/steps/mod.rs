//! The steps that are built in, each in its own file. A new step is one new file and one line here.

mod double_step;
mod feet_together_jump;
mod half_bar_jump;
mod plain_caper;
mod running_step;
mod single_step;
mod stand;
mod step_and_hops;

use crate::dance::{Landing, OwnStep};

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
    /// Hand height on each count, 0 down to 1 high.
    pub hands: Vec<f64>,
    /// Which foot may lead the step after it.
    pub next: NextLead,
}

/// Which foot leads the step after a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NextLead {
    /// The foot that did not lead this one.
    Changes,
    /// The foot that led this one.
    Keeps,
    /// Either.
    Free,
}

impl Step {
    fn built_in(
        short: &str,
        name: &str,
        feet: &[Landing],
        travels: &[f64],
        hands: &[f64],
        next: NextLead,
    ) -> Self {
        Self {
            short: short.to_owned(),
            name: name.to_owned(),
            feet: feet.to_vec(),
            travels: travels.to_vec(),
            hands: hands.to_vec(),
            next,
        }
    }

    /// How many counts it takes.
    #[must_use]
    pub fn counts(&self) -> usize {
        self.feet.len()
    }
}

impl From<&OwnStep> for Step {
    fn from(own: &OwnStep) -> Self {
        let fill = |list: &[f64], value: f64| {
            if list.is_empty() { vec![value; own.feet.len()] } else { list.to_vec() }
        };
        Self {
            short: own.short.clone(),
            name: own.name.clone(),
            feet: own.feet.clone(),
            travels: fill(&own.travels, 1.0),
            hands: fill(&own.hands, 0.0),
            next: if own.keeps_lead { NextLead::Keeps } else { NextLead::Changes },
        }
    }
}

/// The steps that every dance knows.
#[must_use]
pub fn built_in() -> Vec<Step> {
    vec![
        double_step::step(),
        single_step::step(),
        running_step::step(),
        step_and_hops::step(),
        feet_together_jump::step(),
        plain_caper::step(),
        half_bar_jump::step(),
        stand::step(),
    ]
}
