use super::steps::Step;
use super::{
    Footing, Ground, LeadChoices, LeadFrom, Phrase, PhraseError, Plan, Track, Weight, choose_leads,
    fill_phrase, turn_times, wrap_whole,
};
use crate::dance::{Dancer, Foot, LeadRule, Part, PlaceNumber};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

/// A figure danced from a given state of the set.
#[derive(Debug)]
pub(super) struct Played {
    pub plan: Arc<Plan>,
    pub before: Vec<DancerState>,
    pub after: Vec<DancerState>,
    /// Shared with what was worked out before of a figure in which others do something else.
    pub tracks: Vec<Arc<Track>>,
    /// Another for each that is worked out.
    pub number: u64,
}

/// How many others are looked at for what can be shared.
const MOST_EARLIER: usize = 16;

/// The number of the next one that is worked out.
static NEXT: AtomicU64 = AtomicU64::new(0);

/// A dancer between two figures. The facing is from 0 to below 360.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct DancerState {
    pub x: f64,
    pub y: f64,
    pub facing: f64,
    pub place: PlaceNumber,
    pub next: Option<Foot>,
}

impl Played {
    /// Dances a figure. What was worked out of it before for a dancer of whom nothing has changed is shared: `earlier` are
    /// others of the same ground and the same steps.
    pub fn of<'a>(
        ground: &Ground,
        known: &[Step],
        plan: &Arc<Plan>,
        before: &[DancerState],
        earlier: impl Iterator<Item = &'a Arc<Self>>,
    ) -> Result<Self, PhraseError> {
        let counts = plan.counts() as usize;
        let common = fill_phrase(&plan.phrase, known, counts)?;
        let earlier: Vec<&Arc<Self>> =
            earlier.filter(|other| dances_alike(&other.plan, plan)).take(MOST_EARLIER).collect();
        let mut tracks = Vec::with_capacity(before.len());
        for (dancer, state) in Dancer::all(before.len()).zip(before.iter()) {
            let same = earlier.iter().find(|other| {
                other.before.get(dancer.index()) == Some(state)
                    && has_same_part(&other.plan, plan, state.place)
            });
            if let Some(track) = same.and_then(|same| same.tracks.get(dancer.index())) {
                tracks.push(Arc::clone(track));
                continue;
            }
            let still = Part::still(state.place);
            let part = plan.part(state.place).unwrap_or(&still);
            let own;
            let phrase = if part.phrase.is_empty() {
                &common
            } else {
                own = fill_phrase(&part.phrase, known, counts)?;
                &own
            };
            tracks.push(Arc::new(danced(ground, known, plan, phrase, (dancer, state), part)));
        }
        let after = ends(ground, before, &tracks);
        Ok(Self {
            plan: Arc::clone(plan),
            before: before.to_vec(),
            after,
            tracks,
            number: NEXT.fetch_add(1, Ordering::Relaxed),
        })
    }

    /// Bytes that it holds of where everyone is before and after it.
    pub fn states_bytes(&self) -> usize {
        size_of_val(self.before.as_slice()) + size_of_val(self.after.as_slice())
    }

    /// The foot on which each dancer hops at the end when another figure is danced next.
    pub fn hops_into(&self, next: &Self) -> Vec<Option<Foot>> {
        self.tracks
            .iter()
            .zip(&next.tracks)
            .map(|(track, next)| track.footing().hop_into(next.footing()))
            .collect()
    }
}

/// Whether two plans are the same for a dancer whose part in them is: all that a track is made of beside that.
fn dances_alike(one: &Plan, other: &Plan) -> bool {
    (one.bars, &one.phrase, one.named_lead, one.lead, one.dance_lead, one.hops)
        == (other.bars, &other.phrase, other.named_lead, other.lead, other.dance_lead, other.hops)
}

/// Whether the dancer in a place has the same part in two plans, drawn or named in both.
fn has_same_part(one: &Plan, other: &Plan, place: PlaceNumber) -> bool {
    one.part(place) == other.part(place)
        && one.is_drawn(place) == other.is_drawn(place)
        && one.named_leads.get(place.index()) == other.named_leads.get(place.index())
}

/// One dancer's part, danced.
fn danced(
    ground: &Ground,
    known: &[Step],
    plan: &Plan,
    phrase: &Phrase,
    (dancer, state): (Dancer, &DancerState),
    part: &Part,
) -> Track {
    let part = &turn_times::with_turn_times(part, phrase, known);
    let start = (state.x, state.y, state.facing);
    let mut track = Track::of(part, start, Footing::of(phrase, known));
    let rules: Vec<(LeadRule, LeadFrom)> =
        [(part.lead, LeadFrom::Dancer), (plan.lead, LeadFrom::Figure), (plan.dance_lead, LeadFrom::Dance)]
            .into_iter()
            .filter_map(|(rule, from)| Some((rule?, from)))
            .collect();
    let drawn = plan.is_drawn(state.place);
    let named_leads = plan.named_leads.get(state.place.index()).map_or(&[][..], Vec::as_slice);
    let (leads, next) = choose_leads(
        phrase,
        known,
        &LeadChoices {
            dancer,
            place: state.place,
            drawn: if drawn { &part.leads } else { &[] },
            made: if drawn { named_leads } else { &part.leads },
            rules: &rules,
            named: plan.named_lead,
            carried: state.next,
            ground,
            stand: &|count| track.stand(count),
        },
    );
    if part.turns.iter().any(|turn| turn.by_lead) {
        let starts = turn_times::half_starts(phrase, known);
        let part = turn_times::with_turn_ways(part, &leads, &starts);
        track = Track::of(&part, start, Footing::of(phrase, known));
    }
    let weight = state.next.map_or(Weight::Both, |free| free.other().into());
    track.footing_mut().put_feet(known, leads, next, weight, plan.hops);
    track
}

/// Where everyone is after a figure. A dancer's place becomes the spot nearest to where they ended, as long as
/// no two share one; otherwise everyone keeps the place they had.
fn ends(ground: &Ground, before: &[DancerState], tracks: &[Arc<Track>]) -> Vec<DancerState> {
    let nearest: Vec<PlaceNumber> = tracks
        .iter()
        .map(|track| {
            let (x, y, _) = track.end();
            let far = |place: &PlaceNumber| {
                ground.stand(*place).map_or(f64::INFINITY, |stand| (stand.x - x).hypot(stand.y - y))
            };
            ground.places().min_by(|one, other| far(one).total_cmp(&far(other))).unwrap_or(PlaceNumber(1))
        })
        .collect();
    let mut taken = vec![false; ground.dancers()];
    let one_each = nearest
        .iter()
        .all(|&place| taken.get_mut(place.index()).is_some_and(|taken| !std::mem::replace(taken, true)));
    before
        .iter()
        .zip(tracks)
        .zip(&nearest)
        .map(|((state, track), &place)| {
            let (x, y, facing) = track.end();
            DancerState {
                x,
                y,
                facing: wrap_whole(facing),
                place: if one_each { place } else { state.place },
                next: track.footing().next,
            }
        })
        .collect()
}
