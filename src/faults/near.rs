//! Which bodies come near each other, and how near, proved between samples.
//!
//! Over a stretch of time a dancer who travels a length L from one place to another stays in the ellipse that has these
//! places as its foci and L as its longer axis, and the facing stays in a range that the track knows. Along any fixed
//! direction that bounds the space between two bodies from below for the whole stretch, to second order in its length;
//! a stretch that the bound does not clear is halved. So nothing between samples is missed.

use super::body::{Body, Direction};
use crate::motion::{Span, Track};
use std::collections::BTreeMap;

/// Stretches are not halved below this, counts.
const SHORTEST: f64 = 1.0 / 2048.0;
/// How exactly the least space is found, metres.
const EXACT: f64 = 0.000_4;
/// Spaces are told from their limit to this, metres.
pub(super) const SLACK: f64 = 0.001;

/// A stretch of time in which two dancers (indices) are nearer than a limit, and their nearest moment in it. Counts are
/// from the start of the span.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meeting {
    /// The first dancer.
    pub one: usize,
    /// The second dancer.
    pub other: usize,
    /// Counts between which they are nearer than the limit.
    pub lasts: (f64, f64),
    /// When they are nearest; the first such moment.
    pub at: f64,
    /// The space between their bodies then, metres; below nought they overlap.
    pub space: f64,
}

/// Where a dancer is at a moment and how far they have travelled.
#[derive(Clone, Copy)]
struct Mark {
    x: f64,
    y: f64,
    travelled: f64,
}

impl Mark {
    fn of(track: &Track, count: f64) -> Self {
        let (x, y, _) = track.stand(count);
        Self { x, y, travelled: track.travelled(count) }
    }
}

/// A dancer over a stretch of time.
#[derive(Clone, Copy)]
struct Stretch {
    begin: Mark,
    end: Mark,
}

impl Stretch {
    fn travelled(&self) -> f64 {
        (self.end.travelled - self.begin.travelled).max(0.0)
    }

    fn middle(&self) -> (f64, f64) {
        (f64::midpoint(self.begin.x, self.end.x), f64::midpoint(self.begin.y, self.end.y))
    }

    /// How far along a direction, from its middle, the dancer can come within the stretch.
    fn spread(&self, (nx, ny): Direction) -> f64 {
        let half = self.travelled() / 2.0;
        let (x, y) = ((self.end.x - self.begin.x) / 2.0, (self.end.y - self.begin.y) / 2.0);
        let along = x * nx + y * ny;
        let chord = x.hypot(y);
        let aside = (half * half - chord * chord).max(0.0);
        // The ellipse with half axes `half` along the chord and the root of `aside` across it.
        (along * along + aside).sqrt()
    }
}

/// Two dancers of a span.
struct Pair<'a> {
    body: Body,
    limit: f64,
    tracks: (&'a Track, &'a Track),
}

/// Stretches of time, from a count to a count.
type Stretches = Vec<(f64, f64)>;

/// The marks of two dancers at a moment.
type Both = (Mark, Mark);

impl Pair<'_> {
    fn marks(&self, count: f64) -> Both {
        (Mark::of(self.tracks.0, count), Mark::of(self.tracks.1, count))
    }

    /// The space between the bodies at a moment, and the direction it lies in.
    fn space(&self, count: f64) -> (f64, Direction) {
        let (ax, ay, one) = self.tracks.0.stand(count);
        let (bx, by, other) = self.tracks.1.stand(count);
        self.body.space((bx - ax, by - ay), one, other)
    }

    /// No less space than this between two moments, by what lies along a direction.
    fn least(&self, from: (f64, Both), to: (f64, Both), n: Direction) -> f64 {
        let one = Stretch { begin: from.1.0, end: to.1.0 };
        let other = Stretch { begin: from.1.1, end: to.1.1 };
        let ((ax, ay), (bx, by)) = (one.middle(), other.middle());
        let back = (-n.0, -n.1);
        (bx - ax) * n.0 + (by - ay) * n.1
            - one.spread(n)
            - other.spread(n)
            - self.body.most(n, self.tracks.0.facings(from.0, to.0))
            - self.body.most(back, self.tracks.1.facings(from.0, to.0))
    }

    /// No more space than this anywhere between two moments, from that at one moment between them.
    fn most(&self, from: (f64, Both), to: (f64, Both), space: f64) -> f64 {
        let travelled = (to.1.0.travelled - from.1.0.travelled) + (to.1.1.travelled - from.1.1.travelled);
        let turned = |track: &Track| {
            let (least, most) = track.facings(from.0, to.0);
            (most - least).to_radians()
        };
        space + travelled + self.body.change() * (turned(self.tracks.0) + turned(self.tracks.1))
    }

    /// The parts of a stretch of time in which the bodies are nearer than the limit, in order.
    fn below(&self, from: (f64, Both), to: (f64, Both), found: &mut Stretches) {
        let middle = f64::midpoint(from.0, to.0);
        let (space, n) = self.space(middle);
        if self.least(from, to, n) >= self.limit {
            return;
        }
        let short = to.0 - from.0 <= SHORTEST;
        if space < self.limit && (short || self.most(from, to, space) < self.limit) {
            match found.last_mut() {
                Some(last) if from.0 - last.1 < 1e-9 => last.1 = to.0,
                _ => found.push((from.0, to.0)),
            }
            return;
        }
        if short {
            return;
        }
        let there = (middle, self.marks(middle));
        self.below(from, there, found);
        self.below(there, to, found);
    }

    /// The first moment between two at which the space is least, to the exactness wanted.
    fn nearest(&self, from: f64, to: f64) -> (f64, f64) {
        let mut best = (from, self.space(from).0);
        let at_end = self.space(to).0;
        if at_end < best.1 - EXACT {
            best = (to, at_end);
        }
        let mut width = SHORTEST;
        let mut stack = vec![((to, self.marks(to)), (from, self.marks(from)))];
        while let Some((to, from)) = stack.pop() {
            let middle = f64::midpoint(from.0, to.0);
            let (space, n) = self.space(middle);
            if space < best.1 - EXACT || (space < best.1 && middle < best.0) {
                (best, width) = ((middle, space), to.0 - from.0);
            }
            if to.0 - from.0 <= SHORTEST || self.least(from, to, n) >= best.1 - EXACT {
                continue;
            }
            let there = (middle, self.marks(middle));
            // The earlier half is looked at first.
            stack.push((to, there));
            stack.push((there, from));
        }
        // Narrowed down by golden sections (J. Kiefer, "Sequential minimax search for a maximum", 1953).
        let (mut low, mut high) = ((best.0 - width).max(from), (best.0 + width).min(to));
        let golden = (5.0_f64.sqrt() - 1.0) / 2.0;
        while high - low > 1e-5 {
            let width = high - low;
            let (a, b) = (high - golden * width, low + golden * width);
            if self.space(a).0 <= self.space(b).0 {
                high = b;
            } else {
                low = a;
            }
        }
        let middle = f64::midpoint(low, high);
        let space = self.space(middle).0;
        let (at, space) = if space < best.1 - 1e-9 { (middle, space) } else { best };
        (self.still_since(from, at), space)
    }

    /// Since when the two have stood as they do at a moment: where they stand in each other's way for long, it is as
    /// bad from then on. Not before `from`.
    fn still_since(&self, from: f64, at: f64) -> f64 {
        let still = |since: f64| {
            [self.tracks.0, self.tracks.1].into_iter().all(|track| {
                let (least, most) = track.facings(since, at);
                Mark::of(track, at).travelled - Mark::of(track, since).travelled < 1e-6 && most - least < 1e-6
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

/// Every meeting of a span, of those that `wanted` asks for: the stretches in which two bodies are nearer than a limit.
pub fn meetings(body: Body, limit: f64, span: &Span, wanted: impl Fn(usize, usize) -> bool) -> Vec<Meeting> {
    let limit = limit - SLACK;
    let counts = (span.end() - span.begin()) as usize;
    let mut tracks = Vec::new();
    while let Some(track) = span.track(tracks.len()) {
        tracks.push(track);
    }
    let mut below: BTreeMap<(usize, usize), Stretches> = BTreeMap::new();
    let mut begin: Vec<Mark> = tracks.iter().map(|track| Mark::of(track, 0.0)).collect();
    let mut end: Vec<Mark> = Vec::with_capacity(begin.len());
    let mut balls: Vec<Ball> = Vec::with_capacity(begin.len());
    let mut near: Vec<(usize, usize)> = Vec::new();
    for count in 0..counts {
        let (from, to) = (count as f64, count as f64 + 1.0);
        end.clear();
        end.extend(tracks.iter().map(|track| Mark::of(track, to)));
        balls.clear();
        balls.extend(begin.iter().zip(&end).enumerate().map(|(dancer, (begin, end))| {
            let stretch = Stretch { begin: *begin, end: *end };
            let (x, y) = stretch.middle();
            Ball { dancer, x, y, radius: stretch.travelled() / 2.0 }
        }));
        near_pairs(&mut balls, 2.0 * body.reach() + limit, &mut near);
        for &(one, other) in &near {
            let (Some(a), Some(b)) = (tracks.get(one), tracks.get(other)) else { continue };
            if !wanted(one, other) {
                continue;
            }
            let pair = Pair { body, limit, tracks: (a, b) };
            let marks = |list: &[Mark]| Some((*list.get(one)?, *list.get(other)?));
            let (Some(before), Some(after)) = (marks(&begin), marks(&end)) else { continue };
            let mut found = Vec::new();
            pair.below((from, before), (to, after), &mut found);
            if found.is_empty() {
                continue;
            }
            let list = below.entry((one, other)).or_default();
            for (from, to) in found {
                match list.last_mut() {
                    Some(last) if from - last.1 < 1e-9 => last.1 = to,
                    _ => list.push((from, to)),
                }
            }
        }
        std::mem::swap(&mut begin, &mut end);
    }
    let mut meetings = Vec::new();
    for ((one, other), list) in below {
        let (Some(a), Some(b)) = (tracks.get(one), tracks.get(other)) else { continue };
        let pair = Pair { body, limit, tracks: (a, b) };
        for lasts in list {
            let (at, space) = pair.nearest(lasts.0, lasts.1);
            meetings.push(Meeting { one, other, lasts, at, space });
        }
    }
    meetings
}

/// A disc that holds the middle of a dancer's body for a whole count.
struct Ball {
    dancer: usize,
    x: f64,
    y: f64,
    radius: f64,
}

/// The pairs (the lower index first) whose discs come nearer than a distance. They are sorted along the longer way of
/// the floor, so that only neighbours are looked at.
fn near_pairs(balls: &mut [Ball], distance: f64, near: &mut Vec<(usize, usize)>) {
    near.clear();
    let range = |place: fn(&Ball) -> f64| {
        let (low, high) = balls
            .iter()
            .map(place)
            .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| (low.min(value), high.max(value)));
        high - low
    };
    let along: fn(&Ball) -> f64 =
        if range(|ball| ball.y) >= range(|ball| ball.x) { |ball| ball.y } else { |ball| ball.x };
    if balls.len() > 12 {
        balls.sort_by(|one, other| along(one).total_cmp(&along(other)));
    }
    let sorted = balls.len() > 12;
    let widest = balls.iter().map(|ball| ball.radius).fold(0.0, f64::max);
    for (index, one) in balls.iter().enumerate() {
        for other in balls.iter().skip(index + 1) {
            if sorted && along(other) - along(one) > one.radius + widest + distance {
                break;
            }
            let room = one.radius + other.radius + distance;
            let (x, y) = (other.x - one.x, other.y - one.y);
            if x * x + y * y < room * room {
                near.push((one.dancer.min(other.dancer), one.dancer.max(other.dancer)));
            }
        }
    }
}
