use super::{
    Fault, Heard, More, bodies,
    cut::Cut,
    finders::{DANCE_FINDERS, SPAN_FINDERS},
    found::Found,
    goes_on::{Goes, GoesOn},
    look::Look,
    told::told,
};
use crate::dance::{Air, Dance, FaultKind, tune_of};
use crate::motion::{Clock, Motion, Span, SpanIndex};
use std::collections::HashMap;
use std::ops::Deref;
use std::sync::Arc;

/// The faults of a dance in order of time, at most [`MOST_OF_A_KIND`](super::MOST_OF_A_KIND) of each kind, and how many
/// more there are. Those that the side means are among them, with the reason.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Faults {
    told: Vec<Fault>,
    more: Vec<More>,
    /// For each span, how many are at their worst in it that the side does not mean, and how many of these are left out.
    spans: Vec<(usize, usize)>,
    looks: u64,
}

impl Faults {
    /// No faults at all, as of a dance that nobody has looked over.
    pub const NONE: Self = Self { told: Vec::new(), more: Vec::new(), spans: Vec::new(), looks: 0 };

    /// Every fault of a dance and its motion.
    #[must_use]
    pub fn of(dance: &Dance, motion: &Motion) -> Self {
        Self::search(dance, motion, &mut || true).unwrap_or(Self::NONE)
    }

    /// The same, as long as it is to go on, which is asked again and again; nothing where it was stopped.
    pub fn search(dance: &Dance, motion: &Motion, goes_on: &mut dyn FnMut() -> bool) -> Option<Self> {
        let (tune, clock) = (tune_of(&dance.music), Clock::of_dance(dance, motion));
        let danced = motion.spans().iter().map(|span| (span.first_bar, span.bars));
        let read = tune.as_ref().and_then(|tune| tune.as_ref().ok());
        let air = read.map(|tune| Air::with(Arc::clone(tune), dance, motion.bar_counts(), danced));
        let heard = Heard { tune: &tune, air: air.as_ref(), clock: &clock };
        Self::search_heard((dance, motion), heard, goes_on)
    }

    /// The same where it is known how the dance is heard.
    pub fn search_heard(
        (dance, motion): (&Dance, &Motion),
        Heard { tune, air, clock }: Heard,
        goes_on: &mut dyn FnMut() -> bool,
    ) -> Option<Self> {
        let goes_on = &GoesOn::new(goes_on);
        let look = Look { dance, motion, clock, tune, air, limits: &dance.limits, goes_on };
        let mut found: Vec<(SpanIndex, Found)> = Vec::new();
        // A figure that is danced again has the same faults, unless the music goes at another speed.
        let mut seen: HashMap<(u64, u64), Vec<Found>> = HashMap::new();
        for (index, span) in motion.indexed_spans() {
            let key = (span.identity(), clock.pattern(span.begin(), span.end()));
            let here = seen.entry(key).or_insert_with(|| {
                let mut here = Vec::new();
                for find in SPAN_FINDERS.iter().take_while(|_| goes_on.asked()) {
                    find(&look, span, &mut here);
                }
                here
            });
            found.extend(here.iter().map(|found| (index, found.clone())));
        }
        if goes_on.stopped() {
            return None;
        }
        for find in DANCE_FINDERS {
            find(&look, &mut found);
        }
        let (mut cut, looks) = bodies::find(&look);
        if goes_on.stopped() {
            return None;
        }
        put_in(&look, found, &mut cut);
        let Cut { found, mut more, left_out } = cut;
        let mut faults: Vec<Fault> =
            found.into_iter().filter_map(|(index, found)| told(&look, index, found)).collect();
        faults
            .sort_by(|one, other| one.at.total_cmp(&other.at).then_with(|| one.dancers.cmp(&other.dancers)));
        let mut spans = vec![(0, 0); motion.spans().len()];
        for fault in faults.iter().filter(|fault| fault.allowed.is_none() && !fault.kind.is_caution()) {
            if let Some((many, _)) = spans.get_mut(fault.span.index()) {
                *many += 1;
            }
        }
        for span in left_out {
            if let Some((many, left_out)) = spans.get_mut(span.index()) {
                (*many, *left_out) = (*many + 1, *left_out + 1);
            }
        }
        more.sort_by_key(|more| FaultKind::ALL.iter().position(|kind| *kind == more.kind));
        Some(Self { told: faults, more, spans, looks })
    }

    /// How many cautions there are that the side does not mean: they are told, and are no faults.
    #[must_use]
    pub fn cautions(&self) -> usize {
        self.told.iter().filter(|fault| fault.allowed.is_none() && fault.kind.is_caution()).count()
    }

    /// Those that are not told one by one: for each kind of which there are too many.
    #[must_use]
    pub fn more(&self) -> &[More] {
        &self.more
    }

    /// How many there are that the side does not mean, told or not.
    #[must_use]
    pub fn many(&self) -> usize {
        self.spans.iter().map(|(many, _)| many).sum()
    }

    /// How many of them are at their worst in a line of the running order, and how many of these are left out.
    #[must_use]
    pub fn in_span(&self, index: SpanIndex) -> (usize, usize) {
        self.spans.get(index.index()).copied().unwrap_or_default()
    }

    /// The worst that the side does not mean, with its place in the list: the first of the kind that stands first in
    /// [`FaultKind::ALL`].
    #[must_use]
    pub fn worst(&self) -> Option<(usize, &Fault)> {
        let rank = |fault: &Fault| FaultKind::ALL.iter().position(|kind| *kind == fault.kind);
        let told = self.told.iter().enumerate().filter(|(_, fault)| fault.allowed.is_none());
        told.min_by_key(|(index, fault)| (rank(fault), *index))
    }

    /// How often two bodies were looked at: the measure of the work it took.
    #[must_use]
    pub fn looks(&self) -> u64 {
        self.looks
    }

    /// Those that are told.
    #[must_use]
    pub fn into_told(self) -> Vec<Fault> {
        self.told
    }
}

impl Deref for Faults {
    type Target = [Fault];

    fn deref(&self) -> &[Fault] {
        &self.told
    }
}

/// The index of a span, whether the side means it, and what is found there.
type InSpan = (SpanIndex, bool, Found);

/// Puts in what is found besides bodies, the first of each kind.
fn put_in(look: &Look, found: Vec<(SpanIndex, Found)>, cut: &mut Cut) {
    let mut kinds: Vec<(FaultKind, Vec<InSpan>)> = Vec::new();
    for (index, found) in found {
        let span = look.motion.span(index);
        let meant = found.kind.is_caution()
            || span.is_some_and(|span| look.allowed(span, found.kind, &found.dancers, found.value).is_some());
        let at = kinds.iter().position(|(kind, _)| *kind == found.kind).unwrap_or_else(|| {
            kinds.push((found.kind, Vec::new()));
            kinds.len() - 1
        });
        if let Some((_, list)) = kinds.get_mut(at) {
            list.push((index, meant, found));
        }
    }
    let begin = |index: SpanIndex| look.motion.span(index).map_or(0.0, Span::begin);
    for (kind, list) in kinds {
        let span = |(index, ..): &InSpan| *index;
        let list = cut.first(
            kind,
            list,
            |(_, meant, _)| *meant,
            span,
            |(a, _, one), (b, _, other)| {
                let (a, b) = (begin(*a) + one.at, begin(*b) + other.at);
                a.total_cmp(&b).then_with(|| one.dancers.cmp(&other.dancers))
            },
        );
        cut.found.extend(list.into_iter().map(|(index, _, found)| (index, found)));
    }
}

/// The faults of a dance and its motion that are told one by one, in order of time: see [`Faults`].
#[must_use]
pub fn find_faults(dance: &Dance, motion: &Motion) -> Vec<Fault> {
    Faults::of(dance, motion).into_told()
}
