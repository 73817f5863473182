//! The moment at which two bodies that meet are nearest.

use super::{
    between::{BodyMark, Both, EvenStretch, Gap},
    body::Body,
    near::SHORTEST,
};

use crate::motion::Track;
use std::cell::Cell;

/// How exactly the least space is found, metres.
const EXACT: f64 = 0.000_4;
/// How exactly where bodies overlap, metres: nobody parts them by less.
const OVERLAP: f64 = 0.01;
/// How well the moment is found, counts.
const MOMENT: f64 = 1e-5;
/// How far about a count that was looked at first it may be, counts.
const AROUND: f64 = 0.25;
/// How often it is narrowed down where bodies overlap: to a hundredth of what it is known to lie in.
const NARROWED: u32 = 10;
/// After so many moments looked at, an overlap is told as bad as was found.
const MOST_LOOKS: u32 = 4096;

/// Two dancers at a moment, and the space between them.
#[derive(Clone, Copy)]
struct MarkedMoment {
    count: f64,
    marks: (BodyMark, BodyMark),
    space: Gap,
}

/// Two dancers who meet.
pub(super) struct Two<'a> {
    pub body: Body,
    pub tracks: (&'a Track, &'a Track),
    /// How often they are looked at.
    pub looks: &'a Cell<u64>,
}

impl Two<'_> {
    fn at(&self, count: f64) -> MarkedMoment {
        self.looks.set(self.looks.get() + 1);
        let marks = (BodyMark::of(self.tracks.0, count), BodyMark::of(self.tracks.1, count));
        MarkedMoment { count, marks, space: Both::space(self.body, (&marks.0, &marks.1)) }
    }

    /// No less space than this between two moments.
    fn floor(&self, from: &MarkedMoment, to: &MarkedMoment) -> f64 {
        let stretch =
            |track, begin, end| EvenStretch::of(self.body, track, (from.count, begin), (to.count, end));
        let one = stretch(self.tracks.0, &from.marks.0, &to.marks.0);
        let other = stretch(self.tracks.1, &from.marks.1, &to.marks.1);
        let both = Both {
            body: self.body,
            from: (&from.marks.0, &from.marks.1),
            to: (&to.marks.0, &to.marks.1),
            between: (&one, &other),
        };
        both.floor(&from.space, &to.space)
    }

    /// Whether there is less space than so much at some moment between two.
    pub(super) fn meet(&self, from: f64, to: f64, space: f64) -> bool {
        let marked = self.marked(from, to);
        if marked.iter().any(|here| here.space.0 < space) {
            return true;
        }
        let mut stack: Vec<(MarkedMoment, MarkedMoment)> =
            marked.iter().copied().zip(marked.iter().skip(1).copied()).collect();
        while let Some((from, to)) = stack.pop() {
            if to.count - from.count >= SHORTEST && self.floor(&from, &to) < space {
                let here = self.at(f64::midpoint(from.count, to.count));
                if here.space.0 < space {
                    return true;
                }
                stack.push((here, to));
                stack.push((from, here));
            }
        }
        false
    }

    /// The first moment between two at which the space is least, and that space, to the exactness wanted.
    pub(super) fn worst(&self, from: f64, to: f64) -> (f64, f64) {
        let marked = self.marked(from, to);
        let mut best = (from, f64::INFINITY);
        for here in &marked {
            if here.space.0 < best.1 - EXACT {
                best = (here.count, here.space.0);
            }
        }
        let mut width = if self.stand_until(best.0) > best.0 { 0.0 } else { AROUND };
        let mut looked = 0;
        let mut stack: Vec<(MarkedMoment, MarkedMoment)> =
            marked.iter().copied().zip(marked.iter().skip(1).copied()).collect();
        // The earlier is looked at first.
        stack.reverse();
        while let Some((from, to)) = stack.pop() {
            let long = to.count - from.count;
            let slack = if best.1 < 0.0 { OVERLAP } else { EXACT };
            if long < SHORTEST || self.floor(&from, &to) >= best.1 - slack {
                continue;
            }
            let here = self.at(f64::midpoint(from.count, to.count));
            let space = here.space.0;
            if space < best.1 - EXACT || (space < best.1 && here.count < best.0) {
                (best, width) = ((here.count, space), long);
            }
            looked += 1;
            if best.1 < 0.0 && looked > MOST_LOOKS {
                break;
            }
            stack.push((here, to));
            stack.push((from, here));
        }
        let (at, space) = self.narrowed(best, ((best.0 - width).max(from), (best.0 + width).min(to)));
        (self.still_since(from, at), space)
    }

    /// The count until which both go on standing as at a count.
    fn stand_until(&self, count: f64) -> f64 {
        self.tracks.0.stands_until(count).min(self.tracks.1.stands_until(count))
    }

    /// The moments from one to another by which paces are smooth: each count, but for those through which both stand.
    fn marked(&self, from: f64, to: f64) -> Vec<MarkedMoment> {
        let mut marked = vec![self.at(from)];
        let mut count = from;
        while count < to {
            count = (count + 1e-9).floor().max(self.stand_until(count).min(to).floor() - 1.0) + 1.0;
            marked.push(self.at(count.min(to)));
        }
        marked
    }

    /// The least space about a moment, narrowed down by golden sections (J. Kiefer, "Sequential minimax search for a
    /// maximum", 1953).
    fn narrowed(&self, best: (f64, f64), (mut low, mut high): (f64, f64)) -> (f64, f64) {
        if high - low <= MOMENT {
            return best;
        }
        let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
        let most = if best.1 < -OVERLAP { NARROWED } else { u32::MAX };
        let mut times = 0;
        let space = |count: f64| (count, self.at(count).space.0);
        let mut early = space(high - golden * (high - low));
        let mut late = space(low + golden * (high - low));
        while high - low > MOMENT && times < most {
            times += 1;
            if early.1 <= late.1 {
                high = late.0;
                late = early;
                early = space(high - golden * (high - low));
            } else {
                low = early.0;
                early = late;
                late = space(low + golden * (high - low));
            }
        }
        let found = if early.1 <= late.1 { early } else { late };
        if found.1 < best.1 - 1e-9 { found } else { best }
    }

    /// Since when the two have stood as they do at a moment: where they stand in each other's way for long, it is as
    /// bad from then on. Not before `from`.
    fn still_since(&self, from: f64, at: f64) -> f64 {
        let still = |since: f64| {
            [self.tracks.0, self.tracks.1].into_iter().all(|track| {
                let (least, most) = track.facings(since, at);
                track.travelled(at) - track.travelled(since) < 1e-6 && most - least < 1e-6
            })
        };
        let (mut moving, mut standing) = (from, at);
        if still(from) {
            return from;
        }
        while standing - moving > 1e-3 {
            let middle = f64::midpoint(moving, standing);
            *(if still(middle) { &mut standing } else { &mut moving }) = middle;
        }
        // The last millimetres before a turn back take a moment too, in which nobody stands. Counts are told to
        // hundredths.
        let since = (standing * 100.0).ceil() / 100.0;
        if at - since > 0.1 { since } else { at }
    }
}
