//! Where a dance goes wrong first: for each figure what takes least, for the side and for each dancer.

mod eyes;
mod feet;
mod figure_look;
mod in_time;
mod short;
mod spoken;
mod turns;

use super::body::Body;
use super::slack::slacks;
use super::watched::{WatchKind, Watched};
use crate::dance::{Dance, Dancer};
use crate::motion::{Motion, SpanIndex};
use figure_look::FigureLook;
use std::collections::HashMap;
use std::sync::Arc;

pub use eyes::Eyes;

/// The most that is told of a figure for the whole side.
const MOST: usize = 3;

/// What there is to watch for in a figure, all of it, what takes least first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ToWatch {
    /// Each dancer's own.
    pub all: Vec<Watched>,
    /// Whom each dancer should have an eye on.
    pub eyes: Vec<Eyes>,
    /// How late (first) and how early each dancer may be, counts, in the order of dancers: [`MOST_SHIFT`](super::MOST_SHIFT) where nobody
    /// is touched.
    pub bands: Vec<[f64; 2]>,
}

impl ToWatch {
    /// What to watch for in a figure in its place in the order, as long as it is to go on; nothing where it was stopped.
    #[must_use]
    pub fn of_span(
        dance: &Dance,
        motion: &Motion,
        index: SpanIndex,
        goes_on: &mut dyn FnMut() -> bool,
    ) -> Option<Self> {
        let span = motion.span(index)?;
        let body = Body::of(&dance.limits);
        let slacks = slacks(body, span, motion.dancers(), goes_on);
        if !goes_on() {
            return None;
        }
        let look = FigureLook { motion, span, index, body, slacks: &slacks };
        let mut all = in_time::find(&look);
        all.extend(short::find(&look));
        all.extend(feet::find(&look));
        all.extend(turns::find(&look));
        all.sort_by(|one, other| {
            one.rank()
                .total_cmp(&other.rank())
                .then(one.at.total_cmp(&other.at))
                .then(one.dancers.cmp(&other.dancers))
        });
        Some(Self { all, eyes: eyes::find(&look), bands: in_time::bands(&look) })
    }

    /// For the whole side: at most three things, mates told together, of two who touch one thing.
    #[must_use]
    pub fn for_side(&self) -> Vec<Watched> {
        let mut told: Vec<Watched> = Vec::new();
        let mut seen: Vec<&Watched> = Vec::new();
        for watched in &self.all {
            // That one is late is told, and not that the other is then early.
            let same_meeting = |known: &&Watched| {
                let pair = |one: &Watched| one.dancers.iter().take(2).copied().collect::<Vec<_>>();
                let (one, two) = (pair(known), pair(watched));
                known.kind != WatchKind::Foot
                    && one.len() == 2
                    && one.iter().all(|dancer| two.contains(dancer))
            };
            if let Some(known) = told.iter_mut().find(|known| spoken::alike(known, watched)) {
                spoken::join(known, watched, self.bands.len());
                seen.push(watched);
                continue;
            }
            if seen.iter().any(same_meeting) || told.len() == MOST {
                continue;
            }
            // Of feet and turns the first is enough: the others are as like as not its other half.
            let enough = if matches!(watched.kind, WatchKind::Foot | WatchKind::Turn) { 1 } else { 2 };
            if told.iter().filter(|known| known.kind == watched.kind).count() == enough {
                continue;
            }
            seen.push(watched);
            told.push(watched.clone());
        }
        told
    }

    /// For one dancer: what takes least.
    #[must_use]
    pub fn for_dancer(&self, dancer: Dancer) -> Option<&Watched> {
        self.all.iter().find(|watched| watched.watchers().contains(&dancer))
    }
}

/// What to watch for in a whole dance: a list for each line of the running order, worked out once for those that are danced alike.
#[must_use]
pub fn watch_dance(
    dance: &Dance,
    motion: &Motion,
    goes_on: &mut dyn FnMut() -> bool,
) -> Option<Vec<Arc<ToWatch>>> {
    let mut seen: HashMap<u64, Arc<ToWatch>> = HashMap::new();
    motion
        .indexed_spans()
        .map(|(index, span)| {
            if let Some(known) = seen.get(&span.identity()) {
                return Some(Arc::clone(known));
            }
            let made = Arc::new(ToWatch::of_span(dance, motion, index, goes_on)?);
            seen.insert(span.identity(), Arc::clone(&made));
            Some(made)
        })
        .collect()
}
