use super::{Desk, work::Work};
use crate::dance::{Dancer, FaultLimits};
use crate::faults::{Body, MOST_WATCHED, ToWatch, WhatIf, WouldMeet};
use crate::motion::{Held, Span, SpanIndex};
use std::sync::Arc;

/// So many figures are kept of which it is known what to watch for.
const MOST_KEPT: usize = 64;

/// What to watch for in the figures that have been looked at: worked out beside the window, for the figure at the playhead, and anew only for one
/// that has changed.
#[derive(Default)]
pub(super) struct Watching {
    /// What is the same for figures danced alike, and what to watch for in them; the last is the newest.
    known: Vec<(u64, Arc<ToWatch>)>,
    /// The limits by which they were looked over, and what everybody held, on which it hangs how far a blow reaches.
    by: (FaultLimits, Held),
    /// The figure that is being looked over.
    work: Option<(u64, Work<ToWatch>)>,
    /// The figure of which that could not be done: it is not tried again until it, or another, has changed.
    failed: Option<u64>,
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

    /// Whether what to watch for in the figure at the playhead could not be worked out.
    #[must_use]
    pub fn cannot_watch(&self) -> bool {
        self.watching.failed.is_some() && self.watching.failed == self.span_here().map(Span::identity)
    }

    /// How late and how early a dancer may be from the playhead on, as it is said, or in few words; nothing until it is known, and of those who
    /// stand still.
    #[must_use]
    pub fn band_from_words(&self, dancer: Dancer, few: bool) -> Option<String> {
        let (list, span) = (self.to_watch()?, self.span_here()?);
        let body = Body::of(&self.dance().limits);
        list.band_from_words((body, span), dancer, self.player.count - span.begin(), few)
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
                Some(answer) => self.watching.hear(of, answer),
            }
        }
        let by = (&self.now.dance().limits, self.now.motion().held());
        if (&self.watching.by.0, &self.watching.by.1) != by {
            self.watching = Watching { by: (by.0.clone(), by.1.clone()), ..Watching::default() };
        }
        let (Some(index), Some(span)) = (self.span(), self.span_here()) else { return };
        let identity = span.identity();
        let waits = self.drag.is_some() || self.now.motion().dancers() > MOST_WATCHED;
        if waits || self.to_watch().is_some() || self.looks_for_watch() || self.cannot_watch() {
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
            self.watching.hear(identity, find(&mut || true).ok_or_else(String::new));
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
    /// Takes what came of looking a figure over. What could not be worked out is no answer: nothing is told of it.
    fn hear(&mut self, of: u64, answer: Result<ToWatch, String>) {
        match answer {
            Ok(list) => self.keep(of, list),
            Err(_) => self.failed = Some(of),
        }
    }

    fn keep(&mut self, of: u64, list: ToWatch) {
        self.failed = None;
        self.known.push((of, Arc::new(list)));
        if self.known.len() > MOST_KEPT {
            self.known.remove(0);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_could_not_be_worked_out_is_no_list_with_nothing_in_it() {
        let mut watching = Watching::default();
        watching.hear(3, Err("It ended before it was done.".to_owned()));
        assert_eq!((watching.known.len(), watching.failed), (0, Some(3)));
        watching.hear(4, Ok(ToWatch::default()));
        assert_eq!((watching.known.len(), watching.failed), (1, None));
    }
}
