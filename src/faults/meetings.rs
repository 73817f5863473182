//! The meetings of a figure, put together from the stretches of time in which two dancers are found near.

use super::between::Gap;
use super::cut::MOST_OF_A_KIND;

/// Less space than this is none: nought as exactly as it is told, metres.
pub(super) const TOUCH: f64 = 0.000_05;

/// A stretch of time in which two dancers are nearer than a limit. Counts are from the start of the span.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Meeting {
    /// The first dancer.
    pub one: usize,
    /// The second dancer.
    pub other: usize,
    /// Counts between which they are nearer than the limit.
    pub lasts: (f64, f64),
    /// The least space between their bodies, metres, is between these.
    pub least: (f64, f64),
}

/// Two dancers in a stretch of time that is looked at, with the space at its ends where it has been worked out.
#[derive(Clone, Copy)]
pub(super) struct PairLookedAt {
    pub one: usize,
    pub other: usize,
    pub spaces: Option<(Gap, Gap)>,
}

/// What has been found, the last meeting of each pair at hand.
pub(super) struct MeetingsFound {
    many: usize,
    meetings: Vec<Meeting>,
    /// For each pair, the place in the list after that of its last meeting; 0 where it has none.
    last: Vec<u32>,
    /// The count up to which each dancer was looked at beside all others.
    looked: Vec<f64>,
}

impl MeetingsFound {
    pub(super) fn new(many: usize) -> Self {
        Self {
            many,
            meetings: Vec::new(),
            last: vec![0; many * many.saturating_sub(1) / 2],
            looked: vec![0.0; many],
        }
    }

    fn last(&mut self, one: usize, other: usize) -> Option<&mut u32> {
        // The pairs of 0 come first, then those of 1.
        let before = one * (2 * self.many - one - 1) / 2;
        self.last.get_mut(before + (other - one - 1))
    }

    fn last_meeting(&mut self, one: usize, other: usize) -> Option<&mut Meeting> {
        let at = (*self.last(one, other)?).checked_sub(1)?;
        self.meetings.get_mut(at as usize)
    }

    pub(super) fn add(&mut self, entry: &PairLookedAt, (from, to): (f64, f64), least: (f64, f64)) {
        let (one, other) = (entry.one, entry.other);
        match self.last_meeting(one, other).filter(|last| from - last.lasts.1 < 1e-9) {
            Some(last) => {
                last.lasts.1 = to;
                last.least = (last.least.0.min(least.0), last.least.1.min(least.1));
            }
            None => {
                self.meetings.push(Meeting { one, other, lasts: (from, to), least });
                let many = self.meetings.len() as u32;
                if let Some(last) = self.last(one, other) {
                    *last = many;
                }
            }
        }
    }

    /// A pair that was near when it was last looked at has been so since, standing.
    pub(super) fn go_on(&mut self, entry: &PairLookedAt, until: f64) {
        let looked = |dancer: usize| self.looked.get(dancer).copied().unwrap_or(0.0);
        let looked = looked(entry.one).max(looked(entry.other));
        if looked < until
            && let Some(last) = self.last_meeting(entry.one, entry.other)
            && last.lasts.1 >= looked
        {
            last.lasts.1 = until;
        }
    }

    /// Whether two were near at a count, when they were last looked at.
    pub(super) fn lasts_until(&mut self, entry: &PairLookedAt, count: f64) -> bool {
        self.last_meeting(entry.one, entry.other).is_some_and(|last| last.lasts.1 > count - 1e-9)
    }

    /// The pairs of the first meetings at which two touch for certain, of those that are `told`: as many as are told of a
    /// kind; nothing where there are no more than that.
    pub(super) fn first_that_touch(
        &self,
        told: impl Fn(usize, usize) -> bool,
    ) -> Option<Vec<(usize, usize)>> {
        let touch = |met: &&Meeting| met.least.1 < TOUCH && told(met.one, met.other);
        let mut first: Vec<&Meeting> = self.meetings.iter().filter(touch).collect();
        if first.len() <= MOST_OF_A_KIND {
            return None;
        }
        first.sort_by(|a, b| a.lasts.0.total_cmp(&b.lasts.0).then((a.one, a.other).cmp(&(b.one, b.other))));
        let mut pairs: Vec<_> = first.iter().take(MOST_OF_A_KIND).map(|met| (met.one, met.other)).collect();
        pairs.sort_unstable();
        pairs.dedup();
        Some(pairs)
    }

    pub(super) fn looked_at(&mut self, active: &[bool], until: f64) {
        for (looked, active) in self.looked.iter_mut().zip(active) {
            if *active {
                *looked = until;
            }
        }
    }

    pub(super) fn finish(mut self, end: f64) -> Vec<Meeting> {
        for at in 0..self.meetings.len() {
            let Some(&Meeting { one, other, .. }) = self.meetings.get(at) else { continue };
            if self.last(one, other).is_some_and(|last| *last as usize == at + 1) {
                self.go_on(&PairLookedAt { one, other, spaces: None }, end);
            }
        }
        self.meetings.sort_by_key(|meeting| (meeting.one, meeting.other));
        self.meetings
    }
}
