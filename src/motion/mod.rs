//! The movement engine: where everyone is, which way they face, on which foot and with hands where, at any
//! count.
//!
//! A [`Plan`] says what the dancer in each place does in a figure: legs (travelling), turns and leads.
//! [`Motion::compile`] joins the plans of a running order into one [`Motion`], which answers for any real
//! count and never changes: an edit makes a new one, and figures that did not change are shared with the
//! one before.
//!
//! Each leg begins wherever its dancer is, so positions have no jumps whatever the plans say. Facing is
//! unwrapped: a turn of 270 degrees to the left is not 90 to the right.
//!
//! ```
//! use bellpad::dance::{Leg, Set};
//! use bellpad::motion::{Ground, Motion, Plan, USUAL_PHRASE};
//! use std::sync::Arc;
//!
//! let ground = Ground::of(&Set::longways(2, 2.4, 1.8));
//! let mut plan = Plan::still(4, USUAL_PHRASE, 2);
//! plan.parts[0].legs.push(Leg::straight(0.0, 4.0, 0.0, 0.5));
//! let motion = Motion::compile(&ground, &[], &[(0, Arc::new(plan))], None).unwrap();
//! let pose = motion.pose(0, 4.0);
//! assert_eq!((pose.x, pose.y), (0.0, 0.5));
//! assert_eq!(motion.pose(1, 4.0).x, 1.2);
//! ```

mod clock;
mod course;
mod footing;
mod ground;
mod leads;
mod moment;
mod pace;
mod passing;
mod phrase;
mod plan;
pub mod steps;
mod track;
mod turn_times;

pub use clock::Clock;
pub use course::{Course, OnCourse};
pub use footing::{Footfall, Footing, Weight};
pub use ground::{Ground, Stand};
pub use leads::{LeadChoices, LeadFrom, LeadMade, by_rule, choose_leads};
pub use moment::{Moment, MomentError};
pub use pace::{EndSpeed, Pace};
pub use passing::{Passing, passing};
pub use phrase::{Phrase, PhraseError, TRAVELLING_PHRASE, USUAL_PHRASE, fill_phrase, known_steps};
pub use plan::Plan;
pub use track::{Move, Pose, Track, amount, wrap_half, wrap_whole};
pub use turn_times::{with_amount, with_amounts};

use crate::dance::{COUNTS_PER_BAR, Foot, LeadRule, OwnStep, Part};
use std::sync::Arc;
pub use steps::STAND;
use steps::Step;

/// A whole running order, ready to answer where everyone is at any count.
#[derive(Clone, Debug)]
pub struct Motion {
    ground: Ground,
    known: Arc<[Step]>,
    spans: Vec<Span>,
    bars: u32,
}

/// One figure in its place in the running order.
#[derive(Clone, Debug)]
pub struct Span {
    /// The index of the figure in the dance's list of figures.
    pub figure: usize,
    /// The bar it begins at, from 0.
    pub first_bar: u32,
    /// How many bars it takes.
    pub bars: u32,
    /// Whole turns, in degrees, that each dancer had turned through before it.
    turned: Vec<f64>,
    /// The foot on which each dancer hops on the upbeat at its end, which follows from the next figure.
    hops: Vec<Option<Foot>>,
    played: Arc<Played>,
}

/// A figure danced from a given state of the set.
#[derive(Debug)]
struct Played {
    plan: Arc<Plan>,
    before: Vec<State>,
    after: Vec<State>,
    tracks: Vec<Track>,
}

/// A dancer between two figures. The facing is from 0 to below 360.
#[derive(Clone, Copy, Debug, PartialEq)]
struct State {
    x: f64,
    y: f64,
    facing: f64,
    place: usize,
    next: Option<Foot>,
}

impl Motion {
    /// Joins figures (index in the dance, plan) in their running order. `before` is an earlier motion of the
    /// same dance, whose unchanged figures are shared.
    ///
    /// # Errors
    /// When a phrase of steps cannot be read or does not fill its figure.
    pub fn compile(
        ground: &Ground,
        own: &[OwnStep],
        plans: &[(usize, Arc<Plan>)],
        before: Option<&Self>,
    ) -> Result<Self, PhraseError> {
        let known: Arc<[Step]> = known_steps(own).into();
        let same_steps = before.filter(|before| before.known == known);
        let mut states: Vec<State> = ground
            .stands
            .iter()
            .enumerate()
            .map(|(place, stand)| State { x: stand.x, y: stand.y, facing: stand.facing, place, next: None })
            .collect();
        let mut turned = vec![0.0; states.len()];
        let mut spans: Vec<Span> = Vec::with_capacity(plans.len());
        let mut bars = 0;
        for (figure, plan) in plans {
            let reused = spans
                .iter()
                .chain(same_steps.iter().flat_map(|motion| &motion.spans))
                .find(|span| {
                    span.figure == *figure
                        && span.bars == plan.bars
                        && span.played.before == states
                        && (Arc::ptr_eq(&span.played.plan, plan) || span.played.plan == *plan)
                })
                .map(|span| Arc::clone(&span.played));
            let played = match reused {
                Some(played) => played,
                None => Arc::new(Played::of(ground, &known, plan, &states)?),
            };
            spans.push(Span {
                figure: *figure,
                first_bar: bars,
                bars: plan.bars,
                turned: turned.clone(),
                hops: Vec::new(),
                played: Arc::clone(&played),
            });
            bars += plan.bars;
            for ((state, total), track) in played.after.iter().zip(&mut turned).zip(&played.tracks) {
                *total += ((track.end().2 - state.facing) / 360.0).round() * 360.0;
            }
            states.clone_from(&played.after);
        }
        let hops: Vec<Vec<Option<Foot>>> = spans
            .iter()
            .enumerate()
            .map(|(index, span)| {
                spans.get(index + 1).map_or_else(Vec::new, |next| span.played.hops_into(&next.played))
            })
            .collect();
        for (span, hops) in spans.iter_mut().zip(hops) {
            span.hops = hops;
        }
        Ok(Self { ground: ground.clone(), known, spans, bars })
    }

    /// Nobody dancing: everyone on their spot.
    #[must_use]
    pub fn still(ground: &Ground) -> Self {
        Self { ground: ground.clone(), known: known_steps(&[]).into(), spans: Vec::new(), bars: 0 }
    }

    /// The spots.
    #[must_use]
    pub fn ground(&self) -> &Ground {
        &self.ground
    }

    /// The steps that phrases may use.
    #[must_use]
    pub fn known(&self) -> &[Step] {
        &self.known
    }

    /// How many bars there are.
    #[must_use]
    pub fn bars(&self) -> u32 {
        self.bars
    }

    /// How many counts there are.
    #[must_use]
    pub fn counts(&self) -> f64 {
        f64::from(self.bars * COUNTS_PER_BAR)
    }

    /// How many dancers there are.
    #[must_use]
    pub fn dancers(&self) -> usize {
        self.ground.dancers()
    }

    /// The figures in the order they are danced.
    #[must_use]
    pub fn spans(&self) -> &[Span] {
        &self.spans
    }

    /// The index of the span under way at a count; the last one at the very end.
    #[must_use]
    pub fn span_at(&self, count: f64) -> Option<usize> {
        self.spans.partition_point(|span| span.begin() <= count).checked_sub(1)
    }

    /// The pose of a dancer (index from 0) at a count from the start.
    #[must_use]
    pub fn pose(&self, dancer: usize, count: f64) -> Pose {
        let count = if count.is_nan() { 0.0 } else { count.clamp(0.0, self.counts()) };
        self.pose_in(self.span_at(count), dancer, count)
    }

    /// The poses of all dancers at a count, put into `poses`.
    pub fn pose_all(&self, count: f64, poses: &mut Vec<Pose>) {
        poses.clear();
        let count = if count.is_nan() { 0.0 } else { count.clamp(0.0, self.counts()) };
        let span = self.span_at(count);
        poses.extend((0..self.dancers()).map(|dancer| self.pose_in(span, dancer, count)));
    }

    /// The poses of all dancers at a count.
    #[must_use]
    pub fn poses(&self, count: f64) -> Vec<Pose> {
        let mut poses = Vec::with_capacity(self.dancers());
        self.pose_all(count, &mut poses);
        poses
    }

    fn pose_in(&self, span: Option<usize>, dancer: usize, count: f64) -> Pose {
        let number = dancer as u32 + 1;
        let found = span.and_then(|index| self.spans.get(index)).and_then(|span| {
            Some((span, span.played.tracks.get(dancer)?, span.turned.get(dancer).copied().unwrap_or(0.0)))
        });
        match found {
            Some((span, track, turned)) => {
                let mut pose = track.pose(number, count - span.begin(), span.hop(dancer));
                pose.facing += turned;
                pose
            }
            None => {
                let stand = self.ground.stands.get(dancer);
                Pose {
                    number,
                    x: stand.map_or(0.0, |stand| stand.x),
                    y: stand.map_or(0.0, |stand| stand.y),
                    facing: stand.map_or(0.0, |stand| stand.facing),
                    weight: Weight::Both,
                    step: 0,
                    hands: 0.0,
                    each_hand: [0.0; 2],
                }
            }
        }
    }
}

impl Span {
    /// The count it begins at, from the start.
    #[must_use]
    pub fn begin(&self) -> f64 {
        f64::from(self.first_bar * COUNTS_PER_BAR)
    }

    /// The count it ends at, from the start.
    #[must_use]
    pub fn end(&self) -> f64 {
        f64::from((self.first_bar + self.bars) * COUNTS_PER_BAR)
    }

    /// The way of a dancer (index from 0) through it, with counts from its own start.
    #[must_use]
    pub fn track(&self, dancer: usize) -> Option<&Track> {
        self.played.tracks.get(dancer)
    }

    /// The foot on which a dancer hops on the upbeat at its very end: the one opposite to the foot that begins the next
    /// figure, where the last step has that hop (common practice, no source).
    #[must_use]
    pub fn hop(&self, dancer: usize) -> Option<Foot> {
        self.hops.get(dancer).copied().flatten()
    }

    /// The footfalls of a dancer through it, one a count.
    #[must_use]
    pub fn falls(&self, dancer: usize) -> Vec<Footfall> {
        self.track(dancer).map_or_else(Vec::new, |track| track.footing().falls_with(self.hop(dancer)))
    }

    /// The place (index from 0) that a dancer begins it in.
    #[must_use]
    pub fn place(&self, dancer: usize) -> usize {
        self.played.before.get(dancer).map_or(dancer, |state| state.place)
    }

    /// The dancer (index from 0) who begins it in a place.
    #[must_use]
    pub fn dancer_in(&self, place: usize) -> Option<usize> {
        self.played.before.iter().position(|state| state.place == place)
    }

    /// The way that a dancer would go through it if the named figure were not drawn over: nothing where it is not.
    #[must_use]
    pub fn named_track(&self, dancer: usize, known: &[Step]) -> Option<Track> {
        let (plan, state) = (self.plan(), self.played.before.get(dancer)?);
        let part = plan.named_parts.get(state.place)?.as_ref()?;
        let phrase = if part.phrase.is_empty() { &plan.phrase } else { &part.phrase };
        let phrase = fill_phrase(phrase, known, plan.counts() as usize).ok()?;
        let part = turn_times::with_turn_times(part, &phrase, known);
        Some(Track::of(&part, (state.x, state.y, state.facing), Footing::of(&phrase, known)))
    }

    /// Whether it is another one danced over again: the same figure from the same state of the set. What follows may
    /// differ, and with it the hop on the upbeat at the end: see [`hop`](Self::hop).
    #[must_use]
    pub fn repeats(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.played, &other.played)
    }

    /// What is the same for every span that [`repeats`](Self::repeats) this one, and for no other while this one lives.
    #[must_use]
    pub fn identity(&self) -> usize {
        Arc::as_ptr(&self.played) as usize
    }

    /// The plan it follows.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        &self.played.plan
    }

    /// The part that a dancer dances in it.
    #[must_use]
    pub fn part(&self, dancer: usize) -> Option<&Part> {
        self.played.plan.parts.get(self.place(dancer))
    }
}

/// The way of a part from a stand, danced to a phrase, with nobody's feet on it.
///
/// # Errors
/// When the phrase cannot be read or does not fill the time.
pub fn track_of(
    part: &Part,
    stand: &Stand,
    phrase: &str,
    known: &[Step],
    counts: usize,
) -> Result<Track, PhraseError> {
    let phrase = fill_phrase(if part.phrase.is_empty() { phrase } else { &part.phrase }, known, counts)?;
    let timed = turn_times::with_turn_times(part, &phrase, known);
    Ok(Track::of(&timed, (stand.x, stand.y, stand.facing), Footing::of(&phrase, known)))
}

impl Played {
    fn of(ground: &Ground, known: &[Step], plan: &Arc<Plan>, before: &[State]) -> Result<Self, PhraseError> {
        let counts = (plan.bars * COUNTS_PER_BAR) as usize;
        let common = fill_phrase(&plan.phrase, known, counts)?;
        let mut tracks = Vec::with_capacity(before.len());
        for (dancer, state) in before.iter().enumerate() {
            let still = Part::still(state.place as u32 + 1);
            let part = plan.parts.get(state.place).unwrap_or(&still);
            let own;
            let phrase = if part.phrase.is_empty() {
                &common
            } else {
                own = fill_phrase(&part.phrase, known, counts)?;
                &own
            };
            let part = &turn_times::with_turn_times(part, phrase, known);
            let start = (state.x, state.y, state.facing);
            let mut track = Track::of(part, start, Footing::of(phrase, known));
            let rules: Vec<(LeadRule, LeadFrom)> = [
                (part.lead, LeadFrom::Dancer),
                (plan.lead, LeadFrom::Figure),
                (plan.dance_lead, LeadFrom::Dance),
            ]
            .into_iter()
            .filter_map(|(rule, from)| Some((rule?, from)))
            .collect();
            let drawn = plan.drawn.get(state.place).copied().unwrap_or(false);
            let named_leads = plan.named_leads.get(state.place).map_or(&[][..], Vec::as_slice);
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
            tracks.push(track);
        }
        let after = ends(ground, before, &tracks);
        Ok(Self { plan: Arc::clone(plan), before: before.to_vec(), after, tracks })
    }

    /// The foot on which each dancer hops at the end when another figure is danced next.
    fn hops_into(&self, next: &Self) -> Vec<Option<Foot>> {
        self.tracks
            .iter()
            .zip(&next.tracks)
            .map(|(track, next)| track.footing().hop_into(next.footing()))
            .collect()
    }
}

/// Where everyone is after a figure. A dancer's place becomes the spot nearest to where they ended, as long as
/// no two share one; otherwise everyone keeps the place they had.
fn ends(ground: &Ground, before: &[State], tracks: &[Track]) -> Vec<State> {
    let nearest: Vec<usize> = tracks
        .iter()
        .map(|track| {
            let (x, y, _) = track.end();
            let far = |index: &usize| {
                ground.stands.get(*index).map_or(f64::INFINITY, |stand| (stand.x - x).hypot(stand.y - y))
            };
            (0..ground.dancers()).min_by(|one, other| far(one).total_cmp(&far(other))).unwrap_or(0)
        })
        .collect();
    let mut taken = vec![false; ground.dancers()];
    let one_each = nearest
        .iter()
        .all(|&place| taken.get_mut(place).is_some_and(|taken| !std::mem::replace(taken, true)));
    before
        .iter()
        .zip(tracks)
        .zip(&nearest)
        .map(|((state, track), &place)| {
            let (x, y, facing) = track.end();
            State {
                x,
                y,
                facing: wrap_whole(facing),
                place: if one_each { place } else { state.place },
                next: track.footing().next,
            }
        })
        .collect()
}
