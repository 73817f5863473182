use super::blows::{Blow, blows_of};
use super::played::{DancerState, Played};
use super::steps::Step;
use super::{Ground, Held, Moment, PhraseError, Plan, Pose, Span, SpanIndex, Track, Weight, known_steps};
use crate::dance::{BarCounts, Dancer, Foot, OwnStep};
use std::collections::{HashMap, HashSet};
use std::sync::{Arc, OnceLock};

/// A whole running order, ready to answer where everyone is at any count.
#[derive(Clone, Debug)]
pub struct Motion {
    ground: Ground,
    known: Arc<[Step]>,
    spans: Vec<Span>,
    bar_counts: BarCounts,
    held: Held,
    /// Worked out when they are first asked for.
    blows: OnceLock<Arc<[Blow]>>,
}

impl Motion {
    /// Bytes that it holds more than another: what both share is not counted, nor is what a figure holds that is danced
    /// again.
    #[must_use]
    pub fn bytes_beside(&self, other: Option<&Self>) -> usize {
        let shared = other.map_or(&[][..], |other| &other.spans).iter().map(Span::identity);
        let mut known: HashSet<u64> = shared.collect();
        let own = self.spans.iter().filter(|span| known.insert(span.identity()));
        let mut shared: HashSet<*const Track> = other
            .map_or(&[][..], |other| &other.spans)
            .iter()
            .flat_map(Span::tracks)
            .map(Arc::as_ptr)
            .collect();
        let mut plans: HashSet<*const Plan> = other
            .map_or(&[][..], |other| &other.spans)
            .iter()
            .map(|span| Arc::as_ptr(span.shared_plan()))
            .collect();
        let mut bytes = size_of_val(self.spans.as_slice());
        for span in own {
            let tracks = span.tracks().iter().filter(|track| shared.insert(Arc::as_ptr(track)));
            bytes += tracks.map(|track| track.bytes()).sum::<usize>() + span.played.states_bytes();
            if plans.insert(Arc::as_ptr(span.shared_plan())) {
                bytes += span.shared_plan().bytes();
            }
        }
        bytes
    }

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
        let same_steps = before.filter(|before| before.known == known && before.ground == *ground);
        let mut states: Vec<DancerState> = ground
            .places()
            .zip(&ground.stands)
            .map(|(place, stand)| DancerState {
                x: stand.x,
                y: stand.y,
                facing: stand.facing,
                place,
                next: None,
            })
            .collect();
        let mut turned = vec![0.0; states.len()];
        let mut spans: Vec<Span> = Vec::with_capacity(plans.len());
        let mut bar_counts = BarCounts::default();
        // What has been worked out of each figure, each once.
        let mut worked_out: HashMap<usize, Vec<&Arc<Played>>> = HashMap::new();
        for span in same_steps.iter().flat_map(|motion| &motion.spans) {
            let of_figure = worked_out.entry(span.figure).or_default();
            if !of_figure.iter().any(|played| Arc::ptr_eq(played, &span.played)) {
                of_figure.push(&span.played);
            }
        }
        let mut made: HashMap<usize, Vec<Arc<Played>>> = HashMap::new();
        for (figure, plan) in plans {
            let earlier = worked_out.get(figure);
            let before = earlier.into_iter().flatten().copied();
            let reused = made.get(figure).into_iter().flatten().chain(before).find(|played| {
                played.before == states && (Arc::ptr_eq(&played.plan, plan) || played.plan == *plan)
            });
            let reused = reused.map(Arc::clone);
            let played = match reused {
                Some(played) => played,
                None => {
                    let made_already = made.get(figure).into_iter().flatten();
                    let of_this = made_already.chain(earlier.into_iter().flatten().copied());
                    let played = Arc::new(Played::of(ground, &known, plan, &states, of_this)?);
                    made.entry(*figure).or_default().push(Arc::clone(&played));
                    played
                }
            };
            spans.push(Span {
                figure: *figure,
                first_bar: bar_counts.bars(),
                bars: plan.bars,
                begin: bar_counts.counts(),
                bar_counts: plan.bar_counts.clone(),
                turned: turned.clone(),
                hops: Vec::new(),
                played: Arc::clone(&played),
            });
            bar_counts = bar_counts.then(&plan.bar_counts);
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
        let (held, blows) = (Held::default(), OnceLock::new());
        Ok(Self { ground: ground.clone(), known, spans, bar_counts, held, blows })
    }

    /// Nobody dancing: everyone on their spot.
    #[must_use]
    pub fn still(ground: &Ground) -> Self {
        Self {
            ground: ground.clone(),
            known: known_steps(&[]).into(),
            spans: Vec::new(),
            bar_counts: BarCounts::default(),
            held: Held::default(),
            blows: OnceLock::new(),
        }
    }

    /// The same with this in the hands.
    #[must_use]
    pub fn holding(mut self, held: Held) -> Self {
        if self.held != held {
            (self.held, self.blows) = (held, OnceLock::new());
        }
        self
    }

    /// What everybody holds.
    #[must_use]
    pub fn held(&self) -> &Held {
        &self.held
    }

    /// The taps and claps in order of time.
    #[must_use]
    pub fn blows(&self) -> &[Blow] {
        self.blows.get_or_init(|| blows_of(&self.spans, &self.ground, &self.held).into())
    }

    /// Those from one count of the dance until before another.
    #[must_use]
    pub fn blows_between(&self, from: f64, to: f64) -> &[Blow] {
        let blows = self.blows();
        let [from, to] = [from, to].map(|count| blows.partition_point(|blow| blow.count < count - 1e-6));
        blows.get(from..to.max(from)).unwrap_or_default()
    }

    /// Where everyone is at home.
    #[must_use]
    pub fn ground(&self) -> &Ground {
        &self.ground
    }

    /// The steps that phrases may use.
    #[must_use]
    pub fn known(&self) -> &[Step] {
        &self.known
    }

    #[must_use]
    pub fn bars(&self) -> u32 {
        self.bar_counts.bars()
    }

    /// How its counts fall into its bars.
    #[must_use]
    pub fn bar_counts(&self) -> &BarCounts {
        &self.bar_counts
    }

    /// The moment at a count from the start.
    #[must_use]
    pub fn moment(&self, count: f64) -> Moment {
        Moment::at(&self.bar_counts, count)
    }

    /// The moment at a count from the start, with the bar as its figure counts it.
    #[must_use]
    pub fn moment_in_figure(&self, count: f64) -> Moment {
        let span = self.span_under(count);
        span.map_or_else(|| self.moment(count), |span| span.moment(count))
    }

    /// Counts from the start to the end of the last bar.
    #[must_use]
    pub fn counts(&self) -> f64 {
        self.bar_counts.counts()
    }

    #[must_use]
    pub fn dancers(&self) -> usize {
        self.ground.dancers()
    }

    /// The figures in the order they are danced.
    #[must_use]
    pub fn spans(&self) -> &[Span] {
        &self.spans
    }

    /// The line of the running order under way at a count; the last one at the very end.
    #[must_use]
    pub fn span_at(&self, count: f64) -> Option<SpanIndex> {
        self.spans.partition_point(|span| span.begin() <= count).checked_sub(1).map(SpanIndex)
    }

    /// The span under way at a count; the last one at the very end.
    #[must_use]
    pub fn span_under(&self, count: f64) -> Option<&Span> {
        self.span(self.span_at(count)?)
    }

    /// What is danced in a line of the running order.
    #[must_use]
    pub fn span(&self, index: SpanIndex) -> Option<&Span> {
        self.spans.get(index.index())
    }

    /// The figures in the order they are danced, each with its line.
    #[must_use]
    pub fn indexed_spans(
        &self,
    ) -> impl DoubleEndedIterator<Item = (SpanIndex, &Span)> + ExactSizeIterator + Clone {
        self.spans.iter().enumerate().map(|(index, span)| (SpanIndex(index), span))
    }

    /// The pose of a dancer at a count from the start.
    #[must_use]
    pub fn pose(&self, dancer: Dancer, count: f64) -> Pose {
        let count = if count.is_nan() { 0.0 } else { count.clamp(0.0, self.counts()) };
        self.pose_in(self.span_under(count), dancer, count)
    }

    /// The poses of all dancers at a count, put into `poses`.
    pub fn pose_all(&self, count: f64, poses: &mut Vec<Pose>) {
        poses.clear();
        let count = if count.is_nan() { 0.0 } else { count.clamp(0.0, self.counts()) };
        let span = self.span_under(count);
        poses.extend(Dancer::all(self.dancers()).map(|dancer| self.pose_in(span, dancer, count)));
    }

    /// The poses of all dancers at a count.
    #[must_use]
    pub fn poses(&self, count: f64) -> Vec<Pose> {
        let mut poses = Vec::with_capacity(self.dancers());
        self.pose_all(count, &mut poses);
        poses
    }

    fn pose_in(&self, span: Option<&Span>, dancer: Dancer, count: f64) -> Pose {
        let number = dancer.number();
        let stick_hand = self.held.stick_hand(dancer);
        let found = span.and_then(|span| {
            Some((
                span,
                span.played.tracks.get(dancer.index())?,
                span.turned.get(dancer.index()).copied().unwrap_or(0.0),
            ))
        });
        match found {
            Some((span, track, turned)) => {
                let mut pose = track.pose(number, count - span.begin(), span.hop(dancer));
                pose.facing += turned;
                pose.stick_hand = stick_hand;
                pose
            }
            None => {
                let stand = self.ground.stand(dancer.home());
                Pose {
                    number,
                    x: stand.map_or(0.0, |stand| stand.x),
                    y: stand.map_or(0.0, |stand| stand.y),
                    facing: stand.map_or(0.0, |stand| stand.facing),
                    weight: Weight::Both,
                    step: 0,
                    hands: 0.0,
                    each_hand: [0.0; 2],
                    stick_hand,
                }
            }
        }
    }
}
