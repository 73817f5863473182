//! How late or early a dancer may be before two bodies touch, proved.
//!
//! One of two is shifted in time, the other dances as drawn: for a way of `s` counts late the pairs of moments are (u, u + s), the one's
//! own and the other's. A stretch of both is clear where the space in its middle is more than what either can go and turn in it
//! (a body's reach along any direction changes by no more than [`Body::change`] for each radian). What is not is halved, the least
//! shift first; so the first touch is found, and no touch deeper than a few millimetres is missed, but between two who are within millimetres of one
//! another almost throughout: of these no more than [`MOST_LOOKS`] stretches are looked at.

use super::between::{BodyMark, Both};
use super::body::Body;
use super::what_if::room;
use crate::dance::Dancer;
use crate::motion::{Span, Track};
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// The most that somebody is shifted, counts.
pub const MOST_SHIFT: f64 = 2.0;
/// In a set of more than this nobody can watch everybody: it is not worked out.
pub const MOST_WATCHED: usize = 24;
/// Those who come no nearer than this do not meet, metres from middle to middle.
pub(super) const MEETS: f64 = 1.2;
/// Stretches are not halved below this, counts.
const FINEST: f64 = 1.0 / 256.0;
/// How well a shift is found, counts.
const FOUND: f64 = 1.0 / 512.0;
/// After so many stretches of two who are near touching throughout, what has been found is told.
const MOST_LOOKS: u32 = 20_000;
/// How often two are looked at for when they are nearest, in a count.
const LOOKS: f64 = 4.0;

/// How far out of time a dancer may be before they touch another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slack {
    /// Who is out of time.
    pub dancer: Dancer,
    /// Whom they touch.
    pub other: Dancer,
    /// After how many counts: late above 0, early below.
    pub counts: f64,
    /// The count of the figure at which they touch.
    pub at: f64,
    /// The count of the figure at which whoever is out of time should have been where they are then.
    pub due: f64,
}

/// A stretch of one dancer's counts and of shifts.
#[derive(Clone, Copy)]
struct Cell {
    from: f64,
    to: f64,
    least: f64,
    most: f64,
}

impl PartialEq for Cell {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Cell {}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Cell {
    /// The least shift is looked at first.
    fn cmp(&self, other: &Self) -> Ordering {
        other.least.total_cmp(&self.least).then(other.from.total_cmp(&self.from))
    }
}

/// Two dancers in a figure, the first of whom is late by some shift.
pub(super) struct Shifted<'a> {
    pub body: Body,
    /// Whoever is late, and the other.
    pub tracks: (&'a Track, &'a Track),
    pub counts: f64,
}

impl Shifted<'_> {
    /// The least shift at which they touch between two counts of the other's, with the count at which: nothing where it is more than the
    /// most. Nought is no shift: whoever touches as drawn is told as a clash.
    pub fn first_touch(&self, (begin, end): (f64, f64), most: f64) -> Option<(f64, f64)> {
        let mut heap = BinaryHeap::new();
        let mut from = (begin - most).max(0.0).floor();
        while from < end {
            let to = (from + 1.0).min(self.counts);
            let mut least = (begin - to).max(0.0).floor();
            while least < most && from + least < end {
                heap.push(Cell { from, to, least, most: (least + 1.0).min(most) });
                least += 1.0;
            }
            from += 1.0;
        }
        let mut best: Option<(f64, f64)> = None;
        let mut looks = 0;
        while let Some(cell) = heap.pop() {
            looks += 1;
            if looks > MOST_LOOKS || best.is_some_and(|(shift, _)| cell.least >= shift - FOUND) {
                break;
            }
            let Cell { from, to, least, most } = cell;
            let (own, shift) = (f64::midpoint(from, to), f64::midpoint(least, most));
            let there = (own + shift).min(self.counts);
            let one = BodyMark::of(self.tracks.0, own);
            let two = BodyMark::of(self.tracks.1, there);
            let others = [(from + least).min(there), there, (to + most).min(self.counts)];
            let room = room(self.body, self.tracks.0, [from, own, to], 1.0)
                + room(self.body, self.tracks.1, others, 1.0);
            let (x, y) = one.to(&two);
            if x.hypot(y) - 2.0 * self.body.reach() > room {
                continue;
            }
            let Some(touch) = Both::touch(self.body, (&one, &two), room) else { continue };
            let within = (begin - 1e-9..=end + 1e-9).contains(&there) && shift > 0.0;
            if touch && within && best.is_none_or(|(known, _)| shift < known) {
                best = Some((shift, there));
            }
            let (wide, high) = (to - from, most - least);
            if wide.max(high) < FINEST {
                continue;
            }
            if wide >= high {
                heap.push(Cell { to: own, ..cell });
                heap.push(Cell { from: own, ..cell });
            } else {
                heap.push(Cell { most: shift, ..cell });
                heap.push(Cell { least: shift, ..cell });
            }
        }
        best
    }
}

/// The stretches of a figure about each time that two come near each other: counts between the moments at which they are farthest apart.
pub(super) fn meetings(tracks: (&Track, &Track), counts: f64) -> Vec<(f64, f64)> {
    let looks = (counts * LOOKS) as usize;
    let apart: Vec<f64> = (0..=looks)
        .map(|look| {
            let count = look as f64 / LOOKS;
            let ((ax, ay, _), (bx, by, _)) = (tracks.0.stand(count), tracks.1.stand(count));
            (ax - bx).hypot(ay - by)
        })
        .collect();
    let mut ends = vec![0.0];
    // From one time they are near to the next, the moment at which they are farthest apart.
    let mut farthest: Option<(usize, f64)> = None;
    let mut met = false;
    for (look, &metres) in apart.iter().enumerate() {
        if metres < MEETS {
            if let (true, Some((far, _))) = (met, farthest.take()) {
                ends.push(far as f64 / LOOKS);
            }
            (met, farthest) = (true, None);
        } else if met && farthest.is_none_or(|(_, known)| metres > known) {
            farthest = Some((look, metres));
        }
    }
    ends.push(counts);
    ends.windows(2).filter_map(|pair| <[f64; 2]>::try_from(pair).ok()).map(|[from, to]| (from, to)).collect()
}

/// How far out of time each dancer may be in a figure before they touch somebody, both ways up to [`MOST_SHIFT`] counts, for each time that
/// two come near each other; in the order of dancers, of others, and of time.
#[must_use]
pub fn slacks(body: Body, span: &Span, dancers: usize, goes_on: &mut dyn FnMut() -> bool) -> Vec<Slack> {
    let counts = span.end() - span.begin();
    let mut found = Vec::new();
    for late in Dancer::all(dancers) {
        for other in Dancer::all(dancers).filter(|other| *other != late) {
            let (Some(one), Some(two)) = (span.track(late), span.track(other)) else { continue };
            if !goes_on() {
                return found;
            }
            // Who stand throughout never touch later than they do at once.
            if one.moves().is_empty() && two.moves().is_empty() {
                continue;
            }
            let shifted = Shifted { body, tracks: (one, two), counts };
            for window in meetings((one, two), counts) {
                if let Some((by, at)) = shifted.first_touch(window, MOST_SHIFT) {
                    found.push(Slack { dancer: late, other, counts: by, at, due: at - by });
                    // One of two who is late leaves the other early.
                    found.push(Slack { dancer: other, other: late, counts: -by, at: at - by, due: at });
                }
            }
        }
    }
    found.sort_by(|one, two| {
        (one.dancer, one.other).cmp(&(two.dancer, two.other)).then(one.at.total_cmp(&two.at))
    });
    found
}
