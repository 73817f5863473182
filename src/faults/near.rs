//! Which bodies come near each other, proved between samples.
//!
//! Between two moments a dancer keeps near the place where even travelling in a straight line would have them: who goes
//! a length L from one place to another, a chord c apart, is never farther from it than half the root of L² − c² (by
//! Stewart's theorem, in the ellipse that has these places as its foci and L as its longer axis) and what their pace is
//! uneven by. So the space between two bodies along any one direction lies near the straight line between what it is
//! at the two moments, to second order in the time between, whatever they do together. What such bounds do not settle
//! is halved, for everyone at once. So nothing between samples is missed, and dancers who go the same way at the same
//! time cost no more than those who stand.

use super::body::{Body, Direction, unit};
use crate::motion::{Span, Track};
use std::cell::Cell;

/// Stretches are not halved below this, counts.
pub(super) const SHORTEST: f64 = 1.0 / 2048.0;
/// How well the ends of a meeting are found, counts.
const ENDS: f64 = 1.0 / 64.0;
/// Halvings from a count to below that.
const HALVINGS: usize = 12;
/// Spaces are told from their limit to this, metres.
pub(super) const SLACK: f64 = 0.001;

/// A stretch of time in which two dancers (indices) are nearer than a limit. Counts are from the start of the span.
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

/// A dancer at a moment.
#[derive(Clone, Copy)]
pub(super) struct Mark {
    x: f64,
    y: f64,
    facing: f64,
    faces: Direction,
    travelled: f64,
}

impl Mark {
    pub(super) fn of(track: &Track, count: f64) -> Self {
        let ((x, y, facing), travelled) = track.stand_and_travelled(count);
        Self { x, y, facing, faces: unit(facing), travelled }
    }

    /// Metres from one to another, to the right and up.
    fn to(&self, other: &Self) -> (f64, f64) {
        (other.x - self.x, other.y - self.y)
    }
}

/// How near even travelling in a straight line and even turning a dancer keeps, between two moments.
#[derive(Clone, Copy, Default)]
pub(super) struct Stretch {
    /// The farthest from it, metres.
    off: f64,
    /// What it leaves open about the reach of the body in any direction, metres.
    reach: f64,
    /// The most that the reach can change in any direction, metres.
    change: f64,
}

impl Stretch {
    pub(super) fn of(body: Body, track: &Track, from: (f64, &Mark), to: (f64, &Mark)) -> Self {
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
pub(super) type Space = (f64, Direction);

/// Two dancers over a stretch of time: where they are at its ends and how evenly they go between.
pub(super) struct Both<'a> {
    pub body: Body,
    pub from: (&'a Mark, &'a Mark),
    pub to: (&'a Mark, &'a Mark),
    pub between: (&'a Stretch, &'a Stretch),
}

impl Both<'_> {
    /// The space at a moment.
    pub(super) fn space(body: Body, (one, other): (&Mark, &Mark)) -> Space {
        body.space_facing(one.to(other), one.faces, other.faces)
    }

    /// How far they can be from even going, as they see each other, metres.
    fn off(&self) -> f64 {
        self.between.0.off + self.between.1.off
    }

    /// No less space than this at any moment, by what lies along a direction.
    fn least(&self, n: Direction) -> f64 {
        let along = |(x, y): (f64, f64)| x * n.0 + y * n.1;
        let (begin, end) = (along(self.from.0.to(self.from.1)), along(self.to.0.to(self.to.1)));
        let reach = |mark: &Mark| self.body.support(n, mark.faces);
        let (a, b) = (reach(self.from.0), reach(self.from.1));
        let (c, d) = (reach(self.to.0), reach(self.to.1));
        let together = (begin - a - b).min(end - c - d) - self.between.0.reach - self.between.1.reach;
        let most = |from: f64, to: f64, open: f64| (from.max(to) + open).min(self.body.reach());
        let reaches = most(a, c, self.between.0.reach) + most(b, d, self.between.1.reach);
        // One on top of the other are parted, one way or the other, by what both reach.
        (together.max(begin.min(end) - reaches) - self.off()).max(-reaches)
    }

    /// No less space than this at any moment, by the spaces at both ends.
    pub(super) fn floor(&self, begin: &Space, end: &Space) -> f64 {
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
    fn ceiling(&self, begin: &Space, end: &Space) -> f64 {
        begin.0.max(end.0) + self.off() + self.between.0.change + self.between.1.change
    }
}

/// The direction half-way between two; nothing where they are opposite.
fn middle(one: Direction, other: Direction) -> Option<Direction> {
    let (x, y) = (one.0 + other.0, one.1 + other.1);
    let long = (x * x + y * y).sqrt();
    (long > 1e-9).then(|| (x / long, y / long))
}

/// The least and the most distance from the middle of a straight line that is gone along evenly.
fn distances((ax, ay): (f64, f64), (bx, by): (f64, f64)) -> (f64, f64) {
    let (one, other) = (ax * ax + ay * ay, bx * bx + by * by);
    let (x, y) = (bx - ax, by - ay);
    let long = x * x + y * y;
    let share = if long > 0.0 { (-(ax * x + ay * y) / long).clamp(0.0, 1.0) } else { 0.0 };
    let (nx, ny) = (ax + x * share, ay + y * share);
    ((nx * nx + ny * ny).sqrt(), one.max(other).sqrt())
}

/// Two dancers in a stretch of time that is looked at, with the space at its ends where it has been worked out.
#[derive(Clone, Copy)]
struct Entry {
    one: usize,
    other: usize,
    spaces: Option<(Space, Space)>,
}

/// What is known of two dancers all through a stretch of time.
enum Verdict {
    /// No nearer than the limit.
    Apart,
    /// Nearer than the limit; the least space is between these.
    Below(f64, f64),
    /// It has to be halved.
    Open,
}

/// A stretch of time, and where dancers (by index) are at its ends.
#[derive(Clone, Copy)]
struct Node<'a> {
    from: f64,
    before: &'a [Option<Mark>],
    to: f64,
    after: &'a [Option<Mark>],
}

/// What is worked out of dancers (by index) and pairs in a stretch of time, for those who are asked for.
#[derive(Default)]
struct Level {
    /// Half-way through it.
    marks: Vec<Option<Mark>>,
    stretches: Vec<Option<Stretch>>,
    /// The pairs that are open.
    open: Vec<Entry>,
    /// The same for the first half of it.
    half: Vec<Entry>,
}

impl Level {
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
}

impl<'a> Search<'a> {
    pub(super) fn new(body: Body, limit: f64, span: &'a Span) -> Self {
        let mut tracks = Vec::new();
        while let Some(track) = span.track(tracks.len()) {
            tracks.push(track);
        }
        Self { body, limit: limit - SLACK, tracks, looks: Cell::new(0) }
    }

    /// How often two dancers were looked at so far.
    pub(super) fn looks(&self) -> u64 {
        self.looks.get()
    }

    /// What is known of a pair between two moments; the spaces at its ends are worked out only where they can tell.
    fn judge(&self, entry: &mut Entry, both: &Both, long: f64) -> Verdict {
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
    fn sort(&self, node: &Node, level: &mut Level, mut entry: Entry, found: &mut Found) {
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
        node: &Node<'n>,
        stretches: &mut [Option<Stretch>],
        dancer: usize,
    ) -> Option<((&'n Mark, &'n Mark), Stretch)> {
        let (begin, end) = (node.before.get(dancer)?.as_ref()?, node.after.get(dancer)?.as_ref()?);
        let slot = stretches.get_mut(dancer)?;
        let stretch = match slot {
            Some(stretch) => *stretch,
            None => {
                let track = self.tracks.get(dancer)?;
                *slot.insert(Stretch::of(self.body, track, (node.from, begin), (node.to, end)))
            }
        };
        Some(((begin, end), stretch))
    }

    /// Halves a stretch of time for the pairs that are open in it.
    fn halve(&self, levels: &mut [Level], node: &Node, found: &mut Found) {
        let Some((level, deeper)) = levels.split_first_mut() else { return };
        let Level { marks, open, half, .. } = level;
        if open.is_empty() {
            return;
        }
        let middle = f64::midpoint(node.from, node.to);
        marks.clear();
        marks.resize(self.tracks.len(), None);
        for dancer in open.iter().flat_map(|entry| [entry.one, entry.other]) {
            if let (Some(slot @ None), Some(track)) = (marks.get_mut(dancer), self.tracks.get(dancer)) {
                *slot = Some(Mark::of(track, middle));
            }
        }
        let space = |entry: &Entry| {
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
            half.push(Entry { spaces: middle.map(|((begin, _), here)| (begin, here)), ..*entry });
            entry.spaces = middle.map(|((_, end), here)| (here, end));
        }
        let earlier = Node { to: middle, after: marks, ..*node };
        let later = Node { from: middle, before: marks, ..*node };
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

    /// Every meeting of the span, of those that `wanted` asks for, in the order of dancers and of time.
    pub(super) fn meetings(&self, counts: usize, wanted: impl Fn(usize, usize) -> bool) -> Vec<Meeting> {
        let many = self.tracks.len();
        let mut found = Found::new(many);
        let mut levels: Vec<Level> = (0..HALVINGS + 1).map(|_| Level::default()).collect();
        let marks_at = |count: f64| -> Vec<Option<Mark>> {
            self.tracks.iter().map(|track| Some(Mark::of(track, count))).collect()
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
            let node = Node { from, before: &before, to, after: &after };
            if let Some(level) = levels.first_mut() {
                level.begin(many);
                near_pairs(&mut balls, 2.0 * self.body.reach() + self.limit, |one, other| {
                    let is_active = |dancer: usize| active.get(dancer).copied().unwrap_or(true);
                    if (is_active(one) || is_active(other)) && wanted(one, other) {
                        let entry = Entry { one, other, spaces: None };
                        found.go_on(&entry, from);
                        self.sort(&node, level, entry, &mut found);
                    }
                });
            }
            self.halve(&mut levels, &node, &mut found);
            found.looked_at(&active, to);
            (before, at) = (after, to);
        }
        found.finish(counts as f64)
    }
}

fn unit_of((x, y): (f64, f64)) -> Direction {
    let long = (x * x + y * y).sqrt();
    if long > 0.0 { (x / long, y / long) } else { (0.0, 0.0) }
}

/// What has been found, the last meeting of each pair at hand.
struct Found {
    many: usize,
    meetings: Vec<Meeting>,
    /// For each pair, the place in the list after that of its last meeting; 0 where it has none.
    last: Vec<u32>,
    /// The count up to which each dancer was looked at beside all others.
    looked: Vec<f64>,
}

impl Found {
    fn new(many: usize) -> Self {
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

    fn add(&mut self, entry: &Entry, (from, to): (f64, f64), least: (f64, f64)) {
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
    fn go_on(&mut self, entry: &Entry, until: f64) {
        let looked = |dancer: usize| self.looked.get(dancer).copied().unwrap_or(0.0);
        let looked = looked(entry.one).max(looked(entry.other));
        if looked < until
            && let Some(last) = self.last_meeting(entry.one, entry.other)
            && last.lasts.1 >= looked
        {
            last.lasts.1 = until;
        }
    }

    fn looked_at(&mut self, active: &[bool], until: f64) {
        for (looked, active) in self.looked.iter_mut().zip(active) {
            if *active {
                *looked = until;
            }
        }
    }

    fn finish(mut self, end: f64) -> Vec<Meeting> {
        for at in 0..self.meetings.len() {
            let Some(&Meeting { one, other, .. }) = self.meetings.get(at) else { continue };
            if self.last(one, other).is_some_and(|last| *last as usize == at + 1) {
                self.go_on(&Entry { one, other, spaces: None }, end);
            }
        }
        self.meetings.sort_by(|a, b| (a.one, a.other).cmp(&(b.one, b.other)));
        self.meetings
    }
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
fn near_pairs(balls: &mut [Ball], distance: f64, mut near: impl FnMut(usize, usize)) {
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
                near(one.dancer.min(other.dancer), one.dancer.max(other.dancer));
            }
        }
    }
}
