use super::{Desk, work::Work};
use crate::dance::{Dancer, FaultLimits};
use crate::faults::{MOST_WATCHED, ToWatch, WhatIf, WouldMeet};
use crate::motion::{Span, SpanIndex};
use std::sync::Arc;

/// So many figures are kept of which it is known what to watch for.
const MOST_KEPT: usize = 64;

/// What to watch for in the figures that have been looked at: worked out beside the window, for the figure at the playhead, and anew only for one
/// that has changed.
#[derive(Default)]
pub(super) struct Watching {
    /// What is the same for figures danced alike, and what to watch for in them; the last is the newest.
    known: Vec<(u64, Arc<ToWatch>)>,
    /// The limits by which they were looked over.
    limits: FaultLimits,
    /// The figure that is being looked over.
    work: Option<(u64, Work<ToWatch>)>,
}

/// What to watch for, and what would be.
impl Desk {
    /// What to watch for in the figure at the playhead, once that is known.
    #[must_use]
    pub fn to_watch(&self) -> Option<&ToWatch> {
        let identity = self.span_here()?.identity();
        self.watching.known.iter().rev().find(|(known, _)| *known == identity).map(|(_, list)| list.as_ref())
    }

    /// Whether what to watch for in the figure at the playhead is being worked out.
    #[must_use]
    pub fn looks_for_watch(&self) -> bool {
        let identity = self.span_here().map(Span::identity);
        self.watching.work.as_ref().is_some_and(|(of, _)| Some(*of) == identity)
    }

    /// How the chosen dancer is to be shown otherwise than drawn, where that is asked.
    #[must_use]
    pub fn what_if(&self) -> Option<WhatIf> {
        self.view.what_if
    }

    /// Whom the chosen dancer would then meet in the figure at the playhead, in order of time.
    #[must_use]
    pub fn would_meet(&self) -> Vec<WouldMeet> {
        let met = || {
            let (what_if, dancer) = (self.view.what_if?, self.chosen?);
            let motion = self.now.motion();
            let few = motion.dancers() <= MOST_WATCHED && !what_if.is_nothing();
            let span = self.span_here().filter(|_| few)?;
            Some(what_if.would_meet(&self.dance().limits, motion.ground(), span, dancer))
        };
        met().unwrap_or_default()
    }

    /// Where a dancer would be at the playhead, and which way they would face: metres right and up, degrees.
    #[must_use]
    pub fn would_stand(&self, dancer: Dancer) -> Option<(f64, f64, f64)> {
        let (what_if, span) = (self.view.what_if?, self.span_here()?);
        let counts = span.end() - span.begin();
        Some(what_if.stand(span.track(dancer)?, self.player.count - span.begin(), counts))
    }

    /// Takes what was worked out, and begins with the figure at the playhead where it is not known yet.
    pub(super) fn hear_of_watch(&mut self) {
        if let Some((of, work)) = self.watching.work.take() {
            match work.answer() {
                None => self.watching.work = Some((of, work)),
                // What could not be worked out is not told: nothing is lost by it.
                Some(answer) => self.watching.keep(of, answer.unwrap_or_default()),
            }
        }
        if self.watching.limits != self.now.dance().limits {
            self.watching = Watching { limits: self.now.dance().limits.clone(), ..Watching::default() };
        }
        let (Some(index), Some(span)) = (self.span(), self.span_here()) else { return };
        let identity = span.identity();
        let waits = self.drag.is_some() || self.now.motion().dancers() > MOST_WATCHED;
        if waits || self.to_watch().is_some() || self.looks_for_watch() {
            return;
        }
        self.begin_watching(identity, index);
    }

    fn begin_watching(&mut self, identity: u64, index: SpanIndex) {
        let now = Arc::clone(&self.now);
        let find = move |goes_on: &mut dyn FnMut() -> bool| {
            ToWatch::of_span(now.dance(), now.motion(), index, goes_on)
        };
        if !self.wake.is_there() {
            self.watching.keep(identity, find(&mut || true).unwrap_or_default());
            return;
        }
        let work = Work::begin("watch", &self.wake, move |step| {
            find(&mut || step(0, 0)).ok_or_else(|| "It was stopped.".to_owned())
        });
        // One for another figure is stopped.
        self.watching.work = Some((identity, work));
    }
}

impl Watching {
    fn keep(&mut self, of: u64, list: ToWatch) {
        self.known.push((of, Arc::new(list)));
        if self.known.len() > MOST_KEPT {
            self.known.remove(0);
        }
    }
}
