//! Two dancers between two moments: how near even travelling and even turning they keep, and so how near each other.

use super::body::{Body, Direction, unit};
use crate::motion::Track;

/// A dancer at a moment.
#[derive(Clone, Copy)]
pub(super) struct BodyMark {
    pub(super) x: f64,
    pub(super) y: f64,
    facing: f64,
    faces: Direction,
    pub(super) travelled: f64,
}

impl BodyMark {
    pub(super) fn of(track: &Track, count: f64) -> Self {
        let ((x, y, facing), travelled) = track.stand_and_travelled(count);
        Self { x, y, facing, faces: unit(facing), travelled }
    }

    /// Metres from one to another, to the right and up.
    pub(super) fn to(&self, other: &Self) -> (f64, f64) {
        (other.x - self.x, other.y - self.y)
    }
}

/// How near even travelling in a straight line and even turning a dancer keeps, between two moments.
#[derive(Clone, Copy, Default)]
pub(super) struct EvenStretch {
    /// The farthest from it, metres.
    off: f64,
    /// What it leaves open about the reach of the body in any direction, metres.
    pub(super) reach: f64,
    /// The most that the reach can change in any direction, metres.
    pub(super) change: f64,
}

impl EvenStretch {
    pub(super) fn of(body: Body, track: &Track, from: (f64, &BodyMark), to: (f64, &BodyMark)) -> Self {
        let (begin, end) = (from.1, to.1);
        let half = (end.travelled - begin.travelled).max(0.0) / 2.0;
        let (x, y) = begin.to(end);
        let bow = (half * half - (x * x + y * y) / 4.0).max(0.0).sqrt();
        let (uneven, unsteady) = track.strays((from.0, begin.travelled), (to.0, end.travelled));
        let turned = (end.facing - begin.facing).abs().to_radians();
        let unsteady = body.change() * unsteady.to_radians();
        Self {
            off: bow + uneven,
            reach: body.off_even(turned) + unsteady,
            change: body.change() * turned + 2.0 * unsteady,
        }
    }
}

/// The space between two bodies at a moment, metres, and the direction it lies in.
pub(super) type Gap = (f64, Direction);

/// Two dancers over a stretch of time: where they are at its ends and how evenly they go between.
pub(super) struct Both<'a> {
    pub body: Body,
    pub from: (&'a BodyMark, &'a BodyMark),
    pub to: (&'a BodyMark, &'a BodyMark),
    pub between: (&'a EvenStretch, &'a EvenStretch),
}

impl Both<'_> {
    /// The space at a moment.
    pub(super) fn space(body: Body, (one, other): (&BodyMark, &BodyMark)) -> Gap {
        body.space_facing(one.to(other), one.faces, other.faces)
    }

    /// No less space than this at a moment: what lies along a direction.
    pub(super) fn along(body: Body, (one, other): (&BodyMark, &BodyMark), n: Direction) -> f64 {
        let (x, y) = one.to(other);
        x * n.0 + y * n.1 - body.support(n, one.faces) - body.support(n, other.faces)
    }

    /// How far they can be from even going, as they see each other, metres.
    pub(super) fn off(&self) -> f64 {
        self.between.0.off + self.between.1.off
    }

    /// No less space than this at any moment, by what lies along a direction.
    pub(super) fn least(&self, n: Direction) -> f64 {
        let along = |(x, y): (f64, f64)| x * n.0 + y * n.1;
        let (begin, end) = (along(self.from.0.to(self.from.1)), along(self.to.0.to(self.to.1)));
        let reach = |mark: &BodyMark| self.body.support(n, mark.faces);
        let (a, b) = (reach(self.from.0), reach(self.from.1));
        let (c, d) = (reach(self.to.0), reach(self.to.1));
        let together = (begin - a - b).min(end - c - d) - self.between.0.reach - self.between.1.reach;
        let most = |from: f64, to: f64, open: f64| (from.max(to) + open).min(self.body.reach());
        let reaches = most(a, c, self.between.0.reach) + most(b, d, self.between.1.reach);
        // One on top of the other are parted, one way or the other, by what both reach.
        (together.max(begin.min(end) - reaches) - self.off()).max(-reaches)
    }

    /// No less space than this at any moment, by the spaces at both ends.
    pub(super) fn floor(&self, begin: &Gap, end: &Gap) -> f64 {
        let (n, m) = (begin.1, end.1);
        if n.0 * m.0 + n.1 * m.1 > 0.5 {
            return self.least(middle(n, m).unwrap_or(n));
        }
        // On top of each other they part in two opposite ways alike, or now in one way and now in another.
        let between = middle(n, (-m.0, -m.1)).unwrap_or(n);
        self.least(n).max(self.least(m)).max(self.least(between))
    }

    /// No more space than this at any moment, from the spaces at both ends: with the same facings, the space grows
    /// and shrinks no more than evenly as two go evenly, since it is the most of what is even along each direction.
    pub(super) fn ceiling(&self, begin: &Gap, end: &Gap) -> f64 {
        begin.0.max(end.0) + self.off() + self.between.0.change + self.between.1.change
    }
}

/// The direction half-way between two; nothing where they are opposite.
pub(super) fn middle(one: Direction, other: Direction) -> Option<Direction> {
    let (x, y) = (one.0 + other.0, one.1 + other.1);
    let long = (x * x + y * y).sqrt();
    (long > 1e-9).then(|| (x / long, y / long))
}

/// The least and the most distance from the middle of a straight line that is gone along evenly.
pub(super) fn distances((ax, ay): (f64, f64), (bx, by): (f64, f64)) -> (f64, f64) {
    let (one, other) = (ax * ax + ay * ay, bx * bx + by * by);
    let (x, y) = (bx - ax, by - ay);
    let long = x * x + y * y;
    let share = if long > 0.0 { (-(ax * x + ay * y) / long).clamp(0.0, 1.0) } else { 0.0 };
    let (nx, ny) = (ax + x * share, ay + y * share);
    ((nx * nx + ny * ny).sqrt(), one.max(other).sqrt())
}
