//! Which bodies come near each other, proved between samples.
//!
//! Between two moments a dancer keeps near the place where even travelling in a straight line would have them: who goes
//! a length L from one place to another, a chord c apart, is never farther from it than half the root of L² − c² (by
//! Stewart's theorem, in the ellipse that has these places as its foci and L as its longer axis) and what their pace is
//! uneven by. So the space between two bodies along any one direction lies near the straight line between what it is
//! at the two moments, to second order in the time between, whatever they do together. What such bounds do not settle
//! is halved, for everyone at once. So nothing between samples is missed, and dancers who go the same way at the same
//! time cost no more than those who stand.

use super::between::{BodyMark, Both, EvenStretch, distances, middle};
use super::body::{Body, Direction};
use super::goes_on::Goes;
use super::meetings::{Meeting, MeetingsFound, PairLookedAt};
use super::near_pairs::{Ball, near_pairs};
use crate::dance::Dancer;
use crate::motion::{Span, Track};
use std::cell::Cell;

/// Stretches are not halved below this, counts.
pub(super) const SHORTEST: f64 = 1.0 / 2048.0;

/// How well the ends of a meeting are found, counts.
const ENDS: f64 = 1.0 / 64.0;

/// Halvings from a count to below that.
const HALVINGS: usize = 12;

/// After so many looks at the dancers of a figure, more who touch than are told are enough.
const ENOUGH: u64 = 250_000;

/// Spaces are told from their limit to this, metres.
pub(super) const SLACK: f64 = 0.001;

/// What is known of two dancers all through a stretch of time.
enum Verdict {
    /// No nearer than the limit.
    Apart,
    /// Nearer than the limit; the least space is between these.
    Below(f64, f64),
    /// It has to be halved.
    Open,
}

/// A stretch of time, and where dancers are at its ends.
#[derive(Clone, Copy)]
struct NearNode<'a> {
    from: f64,
    before: &'a [Option<BodyMark>],
    to: f64,
    after: &'a [Option<BodyMark>],
}

/// What is worked out of dancers and pairs in a stretch of time, for those who are asked for.
#[derive(Default)]
struct Depth {
    /// Half-way through it.
    marks: Vec<Option<BodyMark>>,
    stretches: Vec<Option<EvenStretch>>,
    /// The pairs that are open.
    open: Vec<PairLookedAt>,
    /// The same for the first half of it.
    half: Vec<PairLookedAt>,
}

impl Depth {
    fn begin(&mut self, dancers: usize) {
        self.stretches.clear();
        self.stretches.resize(dancers, None);
        self.open.clear();
    }
}

/// What is looked for in a span.
pub(super) struct Search<'a> {
    body: Body,
    limit: f64,
    tracks: Vec<&'a Track>,
    /// How often two dancers were looked at.
    looks: Cell<u64>,
    goes_on: &'a dyn Goes,
}

impl<'a> Search<'a> {
    pub(super) fn new(body: Body, limit: f64, span: &'a Span, goes_on: &'a dyn Goes) -> Self {
        let mut tracks = Vec::new();
        while let Some(track) = span.track(Dancer(tracks.len())) {
            tracks.push(track);
        }
        Self { body, limit: limit - SLACK, tracks, looks: Cell::new(0), goes_on }
    }

    /// How often two dancers were looked at so far.
    pub(super) fn looks(&self) -> u64 {
        self.looks.get()
    }

    /// What is known of a pair between two moments; the spaces at its ends are worked out only where they can tell.
    fn judge(&self, entry: &mut PairLookedAt, both: &Both, long: f64) -> Verdict {
        self.looks.set(self.looks.get() + 1);
        let (begin, end) = (both.from.0.to(both.from.1), both.to.0.to(both.to.1));
        let (nearest, farthest) = distances(begin, end);
        let (reach, core, off) = (2.0 * self.body.reach(), 2.0 * self.body.core(), both.off());
        let floor = nearest - off - reach;
        if floor >= self.limit {
            return Verdict::Apart;
        }
        if farthest + off - core < self.limit {
            return Verdict::Below(floor, nearest + off - core);
        }
        if let Some(n) = middle(unit_of(begin), unit_of(end))
            && both.least(n) >= self.limit
        {
            return Verdict::Apart;
        }
        if entry.spaces.is_none() {
            // Whether they could tell, whatever they are.
            let open = both.between.0.reach + both.between.1.reach + off;
            let change = both.between.0.change + both.between.1.change + off;
            let could_clear = nearest - core >= self.limit + open;
            let could_meet = farthest - reach + change < self.limit;
            if !could_clear && !could_meet {
                return Verdict::Open;
            }
        }
        let space = |marks| Both::space(self.body, marks);
        let (begin, end) = *entry.spaces.get_or_insert_with(|| (space(both.from), space(both.to)));
        let floor = floor.max(both.floor(&begin, &end));
        if floor >= self.limit {
            return Verdict::Apart;
        }
        let least = begin.0.min(end.0);
        if both.ceiling(&begin, &end) < self.limit || (least < self.limit && long <= ENDS) {
            return Verdict::Below(floor, least);
        }
        Verdict::Open
    }

    /// Puts a pair where it belongs all through a stretch of time: nowhere, with what is found, or with what is open.
    fn sort(&self, node: &NearNode, level: &mut Depth, mut entry: PairLookedAt, found: &mut MeetingsFound) {
        if !self.goes_on.looked() {
            return;
        }
        let Some(((a, b), one)) = self.stretch(node, &mut level.stretches, entry.one) else { return };
        let Some(((c, d), other)) = self.stretch(node, &mut level.stretches, entry.other) else { return };
        let both = Both { body: self.body, from: (a, c), to: (b, d), between: (&one, &other) };
        match self.judge(&mut entry, &both, node.to - node.from) {
            Verdict::Apart => {}
            Verdict::Below(floor, ceiling) => found.add(&entry, (node.from, node.to), (floor, ceiling)),
            Verdict::Open => level.open.push(entry),
        }
    }

    /// A dancer's stretch, worked out once for all their pairs.
    fn stretch<'n>(
        &self,
        node: &NearNode<'n>,
        stretches: &mut [Option<EvenStretch>],
        dancer: usize,
    ) -> Option<((&'n BodyMark, &'n BodyMark), EvenStretch)> {
        let (begin, end) = (node.before.get(dancer)?.as_ref()?, node.after.get(dancer)?.as_ref()?);
        let slot = stretches.get_mut(dancer)?;
        let stretch = match slot {
            Some(stretch) => *stretch,
            None => {
                let track = self.tracks.get(dancer)?;
                *slot.insert(EvenStretch::of(self.body, track, (node.from, begin), (node.to, end)))
            }
        };
        Some(((begin, end), stretch))
    }

    /// Halves a stretch of time for the pairs that are open in it.
    fn halve(&self, levels: &mut [Depth], node: &NearNode, found: &mut MeetingsFound) {
        let Some((level, deeper)) = levels.split_first_mut() else { return };
        let Depth { marks, open, half, .. } = level;
        if open.is_empty() || self.goes_on.stopped() {
            return;
        }
        let middle = f64::midpoint(node.from, node.to);
        marks.clear();
        marks.resize(self.tracks.len(), None);
        for dancer in open.iter().flat_map(|entry| [entry.one, entry.other]) {
            if let (Some(slot @ None), Some(track)) = (marks.get_mut(dancer), self.tracks.get(dancer)) {
                *slot = Some(BodyMark::of(track, middle));
            }
        }
        let space = |entry: &PairLookedAt| {
            let mark = |dancer: usize| marks.get(dancer)?.as_ref();
            Some(Both::space(self.body, (mark(entry.one)?, mark(entry.other)?)))
        };
        if node.to - node.from <= SHORTEST {
            for entry in open.iter() {
                if let Some((space, _)) = space(entry).filter(|(space, _)| *space < self.limit) {
                    found.add(entry, (node.from, node.to), (f64::NEG_INFINITY, space));
                }
            }
            return;
        }
        // The spaces in the middle, where those at the ends are known.
        half.clear();
        for entry in open.iter_mut() {
            let middle = entry.spaces.and_then(|ends| Some((ends, space(entry)?)));
            half.push(PairLookedAt { spaces: middle.map(|((begin, _), here)| (begin, here)), ..*entry });
            entry.spaces = middle.map(|((_, end), here)| (here, end));
        }
        let earlier = NearNode { to: middle, after: marks, ..*node };
        let later = NearNode { from: middle, before: marks, ..*node };
        for (node, entries) in [(earlier, half), (later, open)] {
            if let Some(next) = deeper.first_mut() {
                next.begin(self.tracks.len());
                for entry in entries.iter() {
                    self.sort(&node, next, *entry, found);
                }
            }
            self.halve(deeper, &node, found);
        }
    }

    /// Every meeting of the span (or some, where the search is stopped), of those that `wanted` asks for, in the order of
    /// dancers and of time.
    pub(super) fn meetings(&self, counts: usize, wanted: impl Fn(usize, usize) -> bool) -> Vec<Meeting> {
        self.meetings_until_enough(counts, wanted, |_, _| false).0
    }

    /// The same, and whether they are all. Once more of those that `told` names have touched than are told, and that took
    /// many looks, only the first of them are looked at until they are apart again.
    pub(super) fn meetings_until_enough(
        &self,
        counts: usize,
        wanted: impl Fn(usize, usize) -> bool,
        told: impl Fn(usize, usize) -> bool,
    ) -> (Vec<Meeting>, bool) {
        let mut going_on: Option<Vec<(usize, usize)>> = None;
        let many = self.tracks.len();
        let mut found = MeetingsFound::new(many);
        let mut levels: Vec<Depth> = (0..=HALVINGS).map(|_| Depth::default()).collect();
        let marks_at = |count: f64| -> Vec<Option<BodyMark>> {
            self.tracks.iter().map(|track| Some(BodyMark::of(track, count))).collect()
        };
        let (mut before, mut at) = (marks_at(0.0), 0.0);
        // Until when each is known to stand.
        let mut stands = vec![0.0; many];
        let (mut active, mut balls) = (vec![false; many], Vec::with_capacity(many));
        for count in 0..counts {
            let (from, to) = (count as f64, count as f64 + 1.0);
            let mut anyone = false;
            for ((active, stands), track) in active.iter_mut().zip(&mut stands).zip(&self.tracks) {
                if *stands < to {
                    *stands = track.stands_until(from);
                }
                *active = count == 0 || *stands < to;
                anyone |= *active;
            }
            if self.goes_on.stopped() {
                break;
            }
            // Between those who stand all is as it was.
            if !anyone {
                continue;
            }
            if at < from {
                before = marks_at(from);
            }
            let after = marks_at(to);
            balls.clear();
            balls.extend(before.iter().zip(&after).enumerate().filter_map(|(dancer, (begin, end))| {
                let (begin, end) = ((*begin)?, (*end)?);
                let (x, y) = (f64::midpoint(begin.x, end.x), f64::midpoint(begin.y, end.y));
                Some(Ball { dancer, x, y, radius: (end.travelled - begin.travelled).max(0.0) / 2.0 })
            }));
            let node = NearNode { from, before: &before, to, after: &after };
            if let Some(level) = levels.first_mut() {
                level.begin(many);
                let is_active = |dancer: usize| active.get(dancer).copied().unwrap_or(true);
                match &mut going_on {
                    None => near_pairs(&mut balls, 2.0 * self.body.reach() + self.limit, |one, other| {
                        if (is_active(one) || is_active(other)) && wanted(one, other) {
                            let entry = PairLookedAt { one, other, spaces: None };
                            found.go_on(&entry, from);
                            self.sort(&node, level, entry, &mut found);
                        }
                    }),
                    Some(pairs) => pairs.retain(|&(one, other)| {
                        if !is_active(one) && !is_active(other) {
                            return true;
                        }
                        let entry = PairLookedAt { one, other, spaces: None };
                        found.go_on(&entry, from);
                        let goes_on = found.lasts_until(&entry, from);
                        if goes_on {
                            self.sort(&node, level, entry, &mut found);
                        }
                        goes_on
                    }),
                }
            }
            self.halve(&mut levels, &node, &mut found);
            found.looked_at(&active, to);
            match &going_on {
                None if self.looks.get() > ENOUGH => going_on = found.first_that_touch(&told),
                Some(pairs) if pairs.is_empty() => break,
                _ => {}
            }
            (before, at) = (after, to);
        }
        (found.finish(counts as f64), going_on.is_none())
    }
}

fn unit_of((x, y): (f64, f64)) -> Direction {
    let long = (x * x + y * y).sqrt();
    if long > 0.0 { (x / long, y / long) } else { (0.0, 0.0) }
}
