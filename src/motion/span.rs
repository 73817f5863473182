use super::played::Played;
use super::steps::Step;
use super::{Footfall, Footing, Moment, Plan, Track, fill_phrase, turn_times};
use crate::dance::{BarCounts, Dancer, Foot, Part, PlaceNumber};
use std::sync::Arc;

/// One figure in its place in the running order.
#[derive(Clone, Debug)]
pub struct Span {
    /// The index of the figure in the dance's list of figures.
    pub figure: usize,
    /// The bar it begins at, from 0.
    pub first_bar: u32,
    pub bars: u32,
    /// The count it begins at, from the start of the dance.
    pub(super) begin: f64,
    /// How its counts fall into its bars.
    pub(super) bar_counts: BarCounts,
    /// Whole turns, in degrees, that each dancer had turned through before it.
    pub(super) turned: Vec<f64>,
    /// The foot on which each dancer hops on the upbeat at its end, which follows from the next figure.
    pub(super) hops: Vec<Option<Foot>>,
    pub(super) played: Arc<Played>,
}

impl Span {
    /// The count it begins at, from the start.
    #[must_use]
    pub fn begin(&self) -> f64 {
        self.begin
    }

    /// The count it ends at, from the start.
    #[must_use]
    pub fn end(&self) -> f64 {
        self.begin + self.bar_counts.counts()
    }

    /// How its counts fall into its bars, from its own start.
    #[must_use]
    pub fn bar_counts(&self) -> &BarCounts {
        &self.bar_counts
    }

    /// The moment at a count from the start of the dance, with the bar as the figure counts it.
    #[must_use]
    pub fn moment(&self, count: f64) -> Moment {
        Moment::at(&self.bar_counts, count - self.begin)
    }

    /// The moment at a count from the start of the dance as it is said: `bar 3:2`, or `the end`.
    #[must_use]
    pub fn moment_said(&self, count: f64) -> String {
        if count >= self.end() - 1e-6 { "the end".to_owned() } else { format!("bar {}", self.moment(count)) }
    }

    /// The way of a dancer through it, with counts from its own start.
    #[must_use]
    pub fn track(&self, dancer: Dancer) -> Option<&Track> {
        self.played.tracks.get(dancer.index()).map(Arc::as_ref)
    }

    /// The ways of all through it, in the order of dancers.
    pub(super) fn tracks(&self) -> &[Arc<Track>] {
        &self.played.tracks
    }

    /// The foot on which a dancer hops on the upbeat at its very end: the one opposite to the foot that begins the next
    /// figure, where the last step has that hop (common practice, no source).
    #[must_use]
    pub fn hop(&self, dancer: Dancer) -> Option<Foot> {
        self.hops.get(dancer.index()).copied().flatten()
    }

    /// The footfalls of a dancer through it, one a count.
    #[must_use]
    pub fn falls(&self, dancer: Dancer) -> Vec<Footfall> {
        self.track(dancer).map_or_else(Vec::new, |track| track.footing().falls_with(self.hop(dancer)))
    }

    /// How a dancer's weight falls on one count (from 0) of it; nothing where it has no such count.
    #[must_use]
    pub fn fall(&self, dancer: Dancer, at: usize) -> Option<Footfall> {
        self.track(dancer)?.footing().fall_with(at, self.hop(dancer))
    }

    /// The place that a dancer begins it in.
    #[must_use]
    pub fn place(&self, dancer: Dancer) -> PlaceNumber {
        self.played.before.get(dancer.index()).map_or(dancer.home(), |state| state.place)
    }

    /// The dancer who begins it in a place.
    #[must_use]
    pub fn dancer_in(&self, place: PlaceNumber) -> Option<Dancer> {
        self.played.before.iter().position(|state| state.place == place).map(Dancer)
    }

    /// The way that a dancer would go through it if the named figure were not drawn over: nothing where it is not.
    #[must_use]
    pub fn named_track(&self, dancer: Dancer, known: &[Step]) -> Option<Track> {
        let (plan, state) = (self.plan(), self.played.before.get(dancer.index())?);
        let part = plan.named_part(state.place)?;
        let phrase = if part.phrase.is_empty() { &plan.phrase } else { &part.phrase };
        let phrase = fill_phrase(phrase, known, plan.counts() as usize).ok()?;
        let part = turn_times::with_turn_times(part, &phrase, known);
        Some(Track::of(&part, (state.x, state.y, state.facing), Footing::of(&phrase, known)))
    }

    /// The way that a dancer would go through it with another part, to the feet that they have in it.
    #[must_use]
    pub fn track_with(&self, dancer: Dancer, part: &Part, known: &[Step]) -> Option<Track> {
        let (plan, state) = (self.plan(), self.played.before.get(dancer.index())?);
        let phrase = if part.phrase.is_empty() { &plan.phrase } else { &part.phrase };
        let phrase = fill_phrase(phrase, known, plan.counts() as usize).ok()?;
        let leads = self.track(dancer)?.footing().leads();
        let part = turn_times::with_turn_times(part, &phrase, known);
        let part = turn_times::with_turn_ways(&part, leads, &turn_times::half_starts(&phrase, known));
        Some(Track::of(&part, (state.x, state.y, state.facing), Footing::of(&phrase, known)))
    }

    /// Whether it is another one danced over again: the same figure from the same state of the set. What follows may
    /// differ, and with it the hop on the upbeat at the end: see [`hop`](Self::hop).
    #[must_use]
    pub fn repeats(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.played, &other.played)
    }

    /// What is the same for every span that [`repeats`](Self::repeats) this one, and for no other.
    #[must_use]
    pub fn identity(&self) -> u64 {
        self.played.number
    }

    #[must_use]
    pub fn plan(&self) -> &Plan {
        &self.played.plan
    }

    /// The same, to share.
    #[must_use]
    pub fn shared_plan(&self) -> &Arc<Plan> {
        &self.played.plan
    }

    /// The part that a dancer dances in it.
    #[must_use]
    pub fn part(&self, dancer: Dancer) -> Option<&Part> {
        self.played.plan.part(self.place(dancer))
    }
}
