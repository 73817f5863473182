use super::{
    phrase::Phrase,
    steps::{NextLead, Step},
};
use crate::dance::{Foot, Landing, Lead};

/// What carries a dancer's weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Weight {
    /// The left foot.
    Left,
    /// The right foot.
    Right,
    /// Both feet.
    Both,
    /// Neither: off the ground.
    Air,
}

impl Weight {
    /// The word that `bellpad pose` prints.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
            Self::Both => "both",
            Self::Air => "air",
        }
    }
}

impl From<Foot> for Weight {
    fn from(foot: Foot) -> Self {
        match foot {
            Foot::Left => Self::Left,
            Foot::Right => Self::Right,
        }
    }
}

/// What happens on one count.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footfall {
    /// What lands on it.
    pub weight: Weight,
    /// Whether the foot that lands is the one that carried the weight before.
    pub hop: bool,
    /// The index of the step among the known steps.
    pub step: usize,
    /// Whether a step begins on this count.
    pub begins: bool,
    /// How much of the travelling is done from this count to the next.
    pub travel: f64,
    /// Hand height on this count, 0 down to 1 high.
    pub hands: f64,
}

/// A dancer's footing through a figure, a footfall for each count.
#[derive(Clone, Debug, PartialEq)]
pub struct Footing {
    falls: Vec<Footfall>,
    /// How much of the travelling is done by each count, from the start of the figure.
    travelled: Vec<f64>,
    /// The foot that would lead the step after these; nothing where either may.
    pub next: Option<Foot>,
}

impl Footing {
    /// The footing of a phrase: leads as chosen, elsewhere following from the steps, and right where
    /// nothing says otherwise [MB1].
    #[must_use]
    pub fn of(phrase: &Phrase, known: &[Step], leads: &[Lead], carried: Option<Foot>) -> Self {
        let mut falls: Vec<Footfall> = Vec::new();
        let mut free = carried;
        let mut usual = Foot::Right;
        let mut before: Option<Weight> = None;
        for &(at, index) in &phrase.steps {
            let Some(step) = known.get(index) else { continue };
            let chosen = leads.iter().find(|lead| (lead.at - at as f64).abs() < 0.5).map(|lead| lead.foot);
            if let Some(foot) = chosen {
                usual = foot;
            }
            let lead = chosen.or(free).unwrap_or(usual);
            for (count, landing) in step.feet.iter().enumerate() {
                let weight = match landing {
                    Landing::Lead => lead.into(),
                    Landing::Other => lead.other().into(),
                    Landing::Both => Weight::Both,
                    Landing::Air => Weight::Air,
                };
                let hop = before == Some(weight) && matches!(weight, Weight::Left | Weight::Right);
                falls.push(Footfall {
                    weight,
                    hop,
                    step: index,
                    begins: count == 0,
                    travel: step.travels.get(count).copied().unwrap_or(0.0),
                    hands: step.hands.get(count).copied().unwrap_or(0.0),
                });
                before = Some(weight);
            }
            free = match step.next {
                NextLead::Changes => Some(lead.other()),
                NextLead::Keeps => Some(lead),
                NextLead::Free => None,
            };
        }
        let travelled = std::iter::once(0.0)
            .chain(falls.iter().scan(0.0, |done, fall| {
                *done += fall.travel;
                Some(*done)
            }))
            .collect();
        Self { falls, travelled, next: free }
    }

    /// The footfalls, one a count.
    #[must_use]
    pub fn falls(&self) -> &[Footfall] {
        &self.falls
    }

    /// The weight at a count of the figure, from 0.
    ///
    /// Exactly on a count it is what lands on it. Before a hop or a landing from the air the dancer is off
    /// the ground for the last half count.
    #[must_use]
    pub fn weight(&self, count: f64) -> Weight {
        let index = count.max(0.0) as usize;
        let Some(fall) = self.falls.get(index).or_else(|| self.falls.last()) else {
            return Weight::Both;
        };
        if count - index as f64 > 0.5
            && self.falls.get(index + 1).is_some_and(|next| next.hop || next.weight == Weight::Air)
        {
            return Weight::Air;
        }
        fall.weight
    }

    /// How much travelling the steps do from the start of the figure to a count, in any unit that only rises.
    #[must_use]
    pub fn travelled(&self, count: f64) -> f64 {
        let index = count.max(0.0) as usize;
        let done = self.travelled.get(index).or_else(|| self.travelled.last()).copied().unwrap_or(0.0);
        let step = self.falls.get(index).map_or(0.0, |fall| fall.travel);
        done + step * (count - index as f64).clamp(0.0, 1.0)
    }

    /// Hand height at a count of the figure, 0 down to 1 high.
    #[must_use]
    pub fn hands(&self, count: f64) -> f64 {
        let index = count.max(0.0) as usize;
        let here = self.falls.get(index).or_else(|| self.falls.last()).map_or(0.0, |fall| fall.hands);
        let next = self.falls.get(index + 1).map_or(here, |fall| fall.hands);
        here + (next - here) * (count - index as f64).clamp(0.0, 1.0)
    }

    /// The footfall under way at a count.
    #[must_use]
    pub fn fall(&self, count: f64) -> Option<&Footfall> {
        self.falls.get(count.max(0.0) as usize).or_else(|| self.falls.last())
    }
}
