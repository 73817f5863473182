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
    /// Whether the dancer hops onto it: on the foot that carried the weight before, or on the upbeat after a jump.
    pub hop: bool,
    /// Whether nothing lands, and the weight stays where it was.
    pub stays: bool,
    /// Whether the step has the hop on the upbeat here; where no one foot is about to step it is on both feet.
    pub upbeat: bool,
    /// The index of the step among the known steps.
    pub step: usize,
    /// Whether a step begins on this count.
    pub begins: bool,
    /// How much of the travelling is done from this count to the next.
    pub travel: f64,
    /// The heights of the left and the right hand on this count, 0 down to 1 high.
    pub hands: [f64; 2],
    /// What is written of which hand, left (0) or right (1), each of the two does: they change where hands go with the lead.
    pub as_written: [usize; 2],
}

impl Footfall {
    /// The foot opposite to the one foot that lands here.
    fn opposite(&self) -> Option<Foot> {
        match self.weight {
            _ if self.stays || self.hop => None,
            Weight::Left => Some(Foot::Right),
            Weight::Right => Some(Foot::Left),
            Weight::Both | Weight::Air => None,
        }
    }

    /// Hops on a foot here, if it is here that the step has the hop on the upbeat.
    fn hop_on(&mut self, foot: Foot) {
        if self.upbeat {
            (self.weight, self.hop) = (foot.into(), true);
        }
    }
}

/// A dancer's footing through a figure, a footfall for each count.
#[derive(Clone, Debug, PartialEq)]
pub struct Footing {
    falls: Vec<Footfall>,
    /// How much of the travelling is done by each count, from the start of the figure.
    travelled: Vec<f64>,
    leads: Vec<LeadMade>,
    hops: bool,
    /// The foot that would lead the step after these; nothing where either may.
    pub next: Option<Foot>,
}

impl Footing {
    /// Bytes that it holds beside itself.
    #[must_use]
    pub fn bytes(&self) -> usize {
        size_of_val(self.falls.as_slice())
            + size_of_val(self.travelled.as_slice())
            + size_of_val(self.leads.as_slice())
    }

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
                    stays: false,
                    upbeat: false,
                    step: index,
                    begins: count == 0,
                    travel: step.travels.get(count).copied().unwrap_or(0.0),
                    hands: [hand(&step.left_hand), hand(&step.right_hand)],
                    as_written: [0, 1],
                });
            }
        }
        let travelled = std::iter::once(0.0)
            .chain(falls.iter().scan(0.0, |done, fall| {
                *done += fall.travel;
                Some(*done)
            }))
            .collect();
        Self { falls, travelled, leads: Vec::new(), hops: true, next: None }
    }

    /// Puts feet to the steps: the lead of each, in order, the foot that they leave free, and the weight before them.
    /// `hops` says whether the side hops on the upbeat.
    pub fn put_feet(
        &mut self,
        known: &[Step],
        leads: Vec<LeadMade>,
        next: Option<Foot>,
        weight: Weight,
        hops: bool,
    ) {
        let mut before = weight;
        let mut first = true;
        let mut begun = leads.iter();
        let (mut lead, mut count) = (Foot::Right, 0);
        for fall in &mut self.falls {
            if fall.begins {
                lead = begun.next().map_or(Foot::Right, |made| made.foot);
                count = 0;
            }
            let step = known.get(fall.step);
            let as_written = step.map_or([0, 1], |step| step.hands_as_written(lead));
            if as_written != fall.as_written {
                fall.hands.swap(0, 1);
                fall.as_written = as_written;
            }
            let landing = step.and_then(|step| step.feet.get(count));
            fall.weight = match landing {
                Some(Landing::Lead) => lead.into(),
                Some(Landing::Other) => lead.other().into(),
                Some(Landing::Air) => Weight::Air,
                Some(Landing::Stay) => before,
                Some(Landing::Both | Landing::Upbeat) | None => Weight::Both,
            };
            fall.stays = landing == Some(&Landing::Stay);
            fall.upbeat = hops && landing == Some(&Landing::Upbeat);
            fall.hop = !first
                && !fall.stays
                && before == fall.weight
                && matches!(fall.weight, Weight::Left | Weight::Right);
            (before, first) = (fall.weight, false);
            count += 1;
        }
        // What is hopped on follows from what lands next: inside the figure that is known here.
        for index in 0..self.falls.len() {
            let foot = self.falls.get(index + 1).and_then(Footfall::opposite);
            if let (Some(fall), Some(foot)) = (self.falls.get_mut(index), foot) {
                fall.hop_on(foot);
            }
        }
        self.hops = hops;
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
    /// practice, no source). Nothing where they begin on both feet, in the air or standing, nor where the side does not
    /// hop.
    #[must_use]
    pub fn upbeat(&self) -> Option<Foot> {
        self.falls.first().filter(|_| self.hops)?.opposite()
    }

    /// The footfalls, one a count. A hop on the upbeat at the very end, which follows from the next figure, is not among
    /// them: see [`Span::falls`](super::Span::falls).
    #[must_use]
    pub fn falls(&self) -> &[Footfall] {
        &self.falls
    }

    /// The weight at a count of the figure, from 0, when it ends with a hop on the upbeat on a foot.
    ///
    /// Exactly on a count it is what lands on it. Before a hop, and before a count in the air, the dancer
    /// is off the ground for the last half count.
    #[must_use]
    pub fn weight(&self, count: f64, hop: Option<Foot>) -> Weight {
        let index = count.max(0.0) as usize;
        let last = self.falls.len().saturating_sub(1);
        self.falls.get(index.min(last)).map_or(Weight::Both, |fall| {
            weight_of((fall, self.falls.get(index + 1)), (index, last), count - index as f64, hop)
        })
    }

    /// The weight as [`weight`](Self::weight) has it, the index of the step, and the heights of both hands, looked up once.
    pub(super) fn moment(&self, count: f64, hop: Option<Foot>) -> (Weight, usize, [f64; 2]) {
        let index = count.max(0.0) as usize;
        let last = self.falls.len().saturating_sub(1);
        let Some(fall) = self.falls.get(index.min(last)) else { return (Weight::Both, 0, [0.0; 2]) };
        let (next, inside) = (self.falls.get(index + 1), count - index as f64);
        let hands = hands_between(fall.hands, next.map_or(fall.hands, |next| next.hands), inside);
        (weight_of((fall, next), (index, last), inside, hop), fall.step, hands)
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
        hands_between(here, next, count - index as f64)
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

    /// The footfalls, when the figure ends with a hop on the upbeat on a foot.
    #[must_use]
    pub(super) fn falls_with(&self, hop: Option<Foot>) -> Vec<Footfall> {
        let mut falls = self.falls.clone();
        if let (Some(last), Some(foot)) = (falls.last_mut(), hop) {
            last.hop_on(foot);
        }
        falls
    }

    /// The fall on a count (from 0) of these steps, with the hop on the upbeat at their end.
    pub(super) fn fall_with(&self, at: usize, hop: Option<Foot>) -> Option<Footfall> {
        let mut fall = self.falls.get(at).copied()?;
        if let Some(foot) = hop.filter(|_| at + 1 == self.falls.len()) {
            fall.hop_on(foot);
        }
        Some(fall)
    }

    /// The foot of the hop on the upbeat at the very end of these steps, when these are danced next.
    #[must_use]
    pub(super) fn hop_into(&self, next: &Self) -> Option<Foot> {
        self.falls.last().filter(|fall| fall.upbeat)?;
        next.falls.first()?.opposite()
    }
}

/// The weight so far into a footfall, with the one after it; the index of it and that of the last; before a hop on a foot.
fn weight_of(
    (fall, next): (&Footfall, Option<&Footfall>),
    (index, last): (usize, usize),
    inside: f64,
    hop: Option<Foot>,
) -> Weight {
    if inside > 0.5
        && let Some(next) = next
        && (next.hop || next.weight == Weight::Air || (index + 1 == last && hop.is_some()))
    {
        return Weight::Air;
    }
    match hop {
        Some(foot) if index >= last => foot.into(),
        _ => fall.weight,
    }
}

/// The heights of both hands so far between two counts.
fn hands_between([left, right]: [f64; 2], [next_left, next_right]: [f64; 2], inside: f64) -> [f64; 2] {
    let inside = inside.clamp(0.0, 1.0);
    [left + (next_left - left) * inside, right + (next_right - right) * inside]
}
