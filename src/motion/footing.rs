use super::{leads::LeadMade, phrase::Phrase, steps::Step};
use crate::dance::{Foot, Landing};

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
    /// The heights of the left and the right hand on this count, 0 down to 1 high.
    pub hands: [f64; 2],
}

/// A dancer's footing through a figure, a footfall for each count.
#[derive(Clone, Debug, PartialEq)]
pub struct Footing {
    falls: Vec<Footfall>,
    /// How much of the travelling is done by each count, from the start of the figure.
    travelled: Vec<f64>,
    leads: Vec<LeadMade>,
    /// The foot that would lead the step after these; nothing where either may.
    pub next: Option<Foot>,
}

impl Footing {
    /// The steps of a phrase, with nobody's feet on them yet: how they travel and where the hands are.
    #[must_use]
    pub fn of(phrase: &Phrase, known: &[Step]) -> Self {
        let mut falls: Vec<Footfall> = Vec::new();
        for &(_, index) in &phrase.steps {
            let Some(step) = known.get(index) else { continue };
            for count in 0..step.counts() {
                let hand = |hands: &[f64]| hands.get(count).copied().unwrap_or(0.0);
                falls.push(Footfall {
                    weight: Weight::Both,
                    hop: false,
                    step: index,
                    begins: count == 0,
                    travel: step.travels.get(count).copied().unwrap_or(0.0),
                    hands: [hand(&step.left_hand), hand(&step.right_hand)],
                });
            }
        }
        let travelled = std::iter::once(0.0)
            .chain(falls.iter().scan(0.0, |done, fall| {
                *done += fall.travel;
                Some(*done)
            }))
            .collect();
        Self { falls, travelled, leads: Vec::new(), next: None }
    }

    /// Puts feet to the steps: the lead of each, in order, and the foot that they leave free.
    pub fn put_feet(&mut self, known: &[Step], leads: Vec<LeadMade>, next: Option<Foot>) {
        let mut before: Option<Weight> = None;
        let mut begun = leads.iter();
        let (mut lead, mut count) = (Foot::Right, 0);
        for fall in &mut self.falls {
            if fall.begins {
                lead = begun.next().map_or(Foot::Right, |made| made.foot);
                count = 0;
            }
            let landing = known.get(fall.step).and_then(|step| step.feet.get(count));
            fall.weight = match landing {
                Some(Landing::Lead) => lead.into(),
                Some(Landing::Other) => lead.other().into(),
                Some(Landing::Air) => Weight::Air,
                Some(Landing::Both) | None => Weight::Both,
            };
            fall.hop = before == Some(fall.weight) && matches!(fall.weight, Weight::Left | Weight::Right);
            before = Some(fall.weight);
            count += 1;
        }
        self.leads = leads;
        self.next = next;
    }

    /// The lead of each step and why it is so, in order.
    #[must_use]
    pub fn leads(&self) -> &[LeadMade] {
        &self.leads
    }

    /// The lead of the step under way at a count.
    #[must_use]
    pub fn lead(&self, count: f64) -> Option<&LeadMade> {
        let index = self.leads.partition_point(|made| made.at as f64 <= count + 1e-9);
        self.leads.get(index.checked_sub(1)?)
    }

    /// The foot of the hop on the upbeat before these steps: the one opposite to the foot about to step (common
    /// practice, no source). Nothing where they begin on both feet or in the air.
    #[must_use]
    pub fn upbeat(&self) -> Option<Foot> {
        match self.falls.first()?.weight {
            Weight::Left => Some(Foot::Right),
            Weight::Right => Some(Foot::Left),
            Weight::Both | Weight::Air => None,
        }
    }

    /// The footfalls, one a count.
    #[must_use]
    pub fn falls(&self) -> &[Footfall] {
        &self.falls
    }

    /// The weight at a count of the figure, from 0.
    ///
    /// Exactly on a count it is what lands on it. Before a hop, and before a count in the air, the dancer
    /// is off the ground for the last half count.
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

    /// The heights of the left and the right hand at a count of the figure, 0 down to 1 high.
    #[must_use]
    pub fn each_hand(&self, count: f64) -> [f64; 2] {
        let index = count.max(0.0) as usize;
        let here = self.falls.get(index).or_else(|| self.falls.last()).map_or([0.0; 2], |fall| fall.hands);
        let next = self.falls.get(index + 1).map_or(here, |fall| fall.hands);
        let inside = (count - index as f64).clamp(0.0, 1.0);
        let between = |from: f64, to: f64| from + (to - from) * inside;
        let ([left, right], [next_left, next_right]) = (here, next);
        [between(left, next_left), between(right, next_right)]
    }

    /// The height of the higher hand at a count of the figure, 0 down to 1 high.
    #[must_use]
    pub fn hands(&self, count: f64) -> f64 {
        let [left, right] = self.each_hand(count);
        left.max(right)
    }

    /// The footfall under way at a count.
    #[must_use]
    pub fn fall(&self, count: f64) -> Option<&Footfall> {
        self.falls.get(count.max(0.0) as usize).or_else(|| self.falls.last())
    }
}
