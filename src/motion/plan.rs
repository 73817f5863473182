use super::in_bars::InBars;
use super::phrase_in_bars::in_other_bars;
use super::steps::Step;
use crate::dance::{BarCounts, EndsIn, Lead, LeadRule, Part, PlaceNumber, Stance, Strike};

/// What everybody does in a figure, by place: the same whether the figure was named or drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// How many bars it takes.
    pub bars: u32,
    /// How its counts fall into them.
    pub bar_counts: BarCounts,
    /// What everyone steps whose part has no phrase of its own, such as `2 ds, 2 ss, ftj`.
    pub phrase: String,
    /// The part of the dancer who begins in each place, in order.
    pub parts: Vec<Part>,
    /// The place in which the dancer who begins in each place ends.
    pub ends_in: Vec<PlaceNumber>,
    /// Where everyone is to be at its end: home is what `ends_in` says.
    pub spots: EndsIn,
    /// Whether everyone comes straight home in each half, not round a curve.
    pub straight_home: bool,
    /// Which way the set faces when it ends.
    pub ends: Stance,
    /// The rule by which a named figure made its leads.
    pub named_lead: Option<LeadRule>,
    /// The leads that a named figure made for each place; they stay beneath what is drawn over it.
    pub named_leads: Vec<Vec<Lead>>,
    /// What the named figure made for each place that is drawn over it.
    pub named_parts: Vec<Option<Part>>,
    /// The rule that this figure has in this dance.
    pub lead: Option<LeadRule>,
    /// The rule of the dance.
    pub dance_lead: Option<LeadRule>,
    /// Whether the side hops on the upbeat.
    pub hops: bool,
    /// Which places were drawn.
    pub drawn: Vec<bool>,
    /// The taps and claps.
    pub strikes: Vec<Strike>,
}

impl Plan {
    /// Everybody standing still.
    #[must_use]
    pub fn still(bars: u32, phrase: &str, places: usize) -> Self {
        Self {
            bars,
            bar_counts: BarCounts::usual(bars),
            phrase: phrase.to_owned(),
            parts: PlaceNumber::all(places).map(Part::still).collect(),
            ends_in: PlaceNumber::all(places).collect(),
            spots: EndsIn::Home,
            straight_home: false,
            ends: Stance::Front,
            named_lead: None,
            named_leads: Vec::new(),
            named_parts: Vec::new(),
            lead: None,
            dance_lead: None,
            hops: true,
            drawn: vec![false; places],
            strikes: Vec::new(),
        }
    }

    /// Bytes that it holds, with itself; unknown keys of a file apart.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let part = |part: &Part| {
            let legs = part.legs.iter().map(|leg| size_of_val(leg) + size_of_val(leg.through.as_slice()));
            size_of_val(part)
                + legs.sum::<usize>()
                + size_of_val(part.turns.as_slice())
                + size_of_val(part.leads.as_slice())
                + part.phrase.len()
        };
        let all = self.parts.iter().chain(self.named_parts.iter().flatten());
        let strikes =
            self.strikes.iter().map(|strike| size_of_val(strike) + size_of_val(strike.again.as_slice()));
        size_of::<Self>() + strikes.sum::<usize>() + all.map(part).sum::<usize>()
    }

    /// The part of the dancer who begins in a place.
    #[must_use]
    pub fn part(&self, place: PlaceNumber) -> Option<&Part> {
        self.parts.get(place.index())
    }

    /// What the named figure made for a place that is drawn over it.
    #[must_use]
    pub fn named_part(&self, place: PlaceNumber) -> Option<&Part> {
        self.named_parts.get(place.index())?.as_ref()
    }

    /// Whether a place was drawn.
    #[must_use]
    pub fn is_drawn(&self, place: PlaceNumber) -> bool {
        self.drawn.get(place.index()).copied().unwrap_or(false)
    }

    /// How many counts it takes.
    #[must_use]
    pub fn counts(&self) -> f64 {
        self.bar_counts.counts()
    }

    /// The same in other bars, as many: what falls some part into a bar falls as far into it, but for what goes with a jump, which goes
    /// with it still; and a bar of three strong beats has a single step more than one of two. `known` are the steps that it is danced in.
    #[must_use]
    pub fn in_bars(mut self, bars: BarCounts, known: &[Step]) -> Self {
        let before = std::mem::replace(&mut self.bar_counts, bars);
        let after = &self.bar_counts;
        if before.are_usual() && after.are_usual() {
            return self;
        }
        let whole = InBars::danced_to(&self.phrase, known, &before, after);
        self.phrase = in_other_bars(&self.phrase, known, &before, after);
        for part in &mut self.parts {
            if part.phrase.is_empty() {
                whole.have_part(part);
            } else {
                InBars::danced_to(&part.phrase, known, &before, after).have_part(part);
                part.phrase = in_other_bars(&part.phrase, known, &before, after);
            }
        }
        self
    }
}
