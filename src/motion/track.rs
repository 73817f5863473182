mod steadiness;

use super::{
    course::{Course, OnCourse},
    footing::{Footing, Weight},
    pace::{EndSpeed, Pace},
};
use crate::dance::{Foot, Leg, LegFacing, Part, Turn};

/// One dancer's way through one figure.
#[derive(Clone, Debug)]
pub struct Track {
    /// The turns as they are danced, with their times and ways worked out.
    turns: Vec<Turn>,
    /// How far each of them goes, degrees, clockwise positive.
    amounts: Vec<f64>,
    start: (f64, f64),
    moves: Vec<Move>,
    pieces: Vec<TurnPiece>,
    footing: Footing,
    end: (f64, f64, f64),
}

/// A leg as it is danced.
#[derive(Clone, Debug)]
pub struct Move {
    /// Count at which it begins.
    pub begin: f64,
    /// Count at which it ends.
    pub end: f64,
    /// Its line over the floor.
    pub course: Course,
    /// How far along that line at each count.
    pub pace: Pace,
    /// Metres travelled in the figure before it.
    pub before: f64,
}

/// A stretch of facing, from its count until the next one's.
#[derive(Clone, Copy, Debug)]
struct TurnPiece {
    begin: f64,
    kind: TurnKind,
}

#[derive(Clone, Copy, Debug)]
enum TurnKind {
    /// Facing one way, degrees.
    Hold(f64),
    /// Turning by an amount, degrees clockwise, over a number of counts.
    Turn { from: f64, amount: f64, over: f64 },
    /// Facing with the path: `shift` is added to its heading, and `off` dies away over `over` counts.
    Follow { shift: f64, off: f64, over: f64 },
}

/// A dancer at a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pose {
    /// The number, from 1.
    pub number: u32,
    /// Metres to the right of the middle as you face up.
    pub x: f64,
    /// Metres up, towards the music.
    pub y: f64,
    /// Degrees clockwise from up, unwrapped: turning on makes it grow past 360.
    pub facing: f64,
    /// What carries the weight.
    pub weight: Weight,
    /// The index of the step among the known steps.
    pub step: usize,
    /// The height of the higher hand, 0 down to 1 high.
    pub hands: f64,
    /// The heights of the left and the right hand.
    pub each_hand: [f64; 2],
}

impl Track {
    /// Works out a part danced from a place and a facing (metres right, metres up, degrees).
    #[must_use]
    pub fn of(part: &Part, start: (f64, f64, f64), footing: Footing) -> Self {
        let (x, y, facing) = start;
        let mut at = (x, y);
        let mut courses = Vec::with_capacity(part.legs.len());
        for leg in &part.legs {
            courses.push(Course::of(leg, at));
            at = (leg.to.x, leg.to.y);
        }
        let mut moves = Vec::with_capacity(part.legs.len());
        let mut travelled = 0.0;
        for (index, (leg, course)) in part.legs.iter().zip(&courses).enumerate() {
            let first = index
                .checked_sub(1)
                .and_then(|before| Some((part.legs.get(before)?, courses.get(before)?)))
                .map_or(EndSpeed::Still, |before| joint(before, (leg, course)));
            let last = part
                .legs
                .get(index + 1)
                .zip(courses.get(index + 1))
                .map_or(EndSpeed::Still, |after| joint((leg, course), after));
            moves.push(Move {
                begin: leg.begin,
                end: leg.end,
                pace: Pace::through(&knots(leg, course, &footing), first, last),
                course: course.clone(),
                before: travelled,
            });
            travelled += course.length();
        }
        let mut track = Self {
            turns: part.turns.clone(),
            amounts: vec![0.0; part.turns.len()],
            start: (x, y),
            moves,
            pieces: Vec::new(),
            footing,
            end: (at.0, at.1, facing),
        };
        track.face(part, facing);
        track
    }

    /// The footing, to put feet to its steps.
    pub(super) fn footing_mut(&mut self) -> &mut Footing {
        &mut self.footing
    }

    /// The moves, in order.
    #[must_use]
    pub fn moves(&self) -> &[Move] {
        &self.moves
    }

    /// The turns as they are danced, with their times and ways worked out.
    #[must_use]
    pub fn turns(&self) -> &[Turn] {
        &self.turns
    }

    /// How far each turn goes, degrees, clockwise positive; in the order of [`turns`](Self::turns).
    #[must_use]
    pub fn amounts(&self) -> &[f64] {
        &self.amounts
    }

    /// The footing.
    #[must_use]
    pub fn footing(&self) -> &Footing {
        &self.footing
    }

    /// Metres right, metres up and unwrapped facing at the end of the figure.
    #[must_use]
    pub fn end(&self) -> (f64, f64, f64) {
        self.end
    }

    /// The move under way at a count, if the dancer is travelling then.
    #[must_use]
    pub fn move_at(&self, count: f64) -> Option<(usize, &Move)> {
        let index = self.moves.partition_point(|leg| leg.begin <= count).checked_sub(1)?;
        self.moves.get(index).filter(|leg| count < leg.end).map(|leg| (index, leg))
    }

    /// The counts between which the path turns the dancer, in order.
    pub fn followed(&self) -> impl Iterator<Item = (f64, f64)> {
        self.pieces.windows(2).filter_map(|pair| match pair {
            [piece, next] if matches!(piece.kind, TurnKind::Follow { .. }) => Some((piece.begin, next.begin)),
            _ => None,
        })
    }

    /// The place and, while a leg is under way, its heading; and the metres travelled in the figure.
    fn place(&self, count: f64) -> (OnCourse, f64) {
        let start = OnCourse { x: self.start.0, y: self.start.1, heading: 0.0 };
        let index = self.moves.partition_point(|leg| leg.begin <= count).checked_sub(1);
        index.and_then(|index| self.moves.get(index)).map_or((start, 0.0), |leg| {
            let length = leg.course.length();
            let metres = if count >= leg.end { length } else { leg.pace.at(count) };
            (leg.course.at(metres), leg.before + metres.clamp(0.0, length))
        })
    }

    /// Metres right, metres up and unwrapped facing at a count of the figure.
    #[must_use]
    pub fn stand(&self, count: f64) -> (f64, f64, f64) {
        self.stand_and_travelled(count).0
    }

    /// The same, and the metres travelled in the figure by then: between two counts the dancer is never farther from
    /// where they were than what they travelled.
    #[must_use]
    pub fn stand_and_travelled(&self, count: f64) -> ((f64, f64, f64), f64) {
        let (place, travelled) = self.place(count);
        let index = self.pieces.partition_point(|piece| piece.begin <= count).saturating_sub(1);
        let facing = self.pieces.get(index).map_or(self.end.2, |piece| {
            let inside = count - piece.begin;
            match piece.kind {
                TurnKind::Hold(facing) => facing,
                TurnKind::Turn { from, amount, over } => from + amount * ease(inside / over),
                TurnKind::Follow { shift, off, over } => {
                    place.heading + shift + off * (1.0 - ease(inside / over))
                }
            }
        });
        ((place.x, place.y, facing), travelled)
    }

    /// Metres travelled in the figure by a count.
    #[must_use]
    pub fn travelled(&self, count: f64) -> f64 {
        match self.moves.partition_point(|leg| leg.begin <= count).checked_sub(1) {
            None => 0.0,
            Some(index) => self.moves.get(index).map_or(0.0, |leg| {
                let length = leg.course.length();
                leg.before + if count >= leg.end { length } else { leg.pace.at(count).clamp(0.0, length) }
            }),
        }
    }

    /// The least and the most of the unwrapped facing between two counts, degrees.
    #[must_use]
    pub fn facings(&self, from: f64, to: f64) -> (f64, f64) {
        let mut range = (f64::INFINITY, f64::NEG_INFINITY);
        let mut add = |facing: f64| range = (range.0.min(facing), range.1.max(facing));
        let first = self.pieces.partition_point(|piece| piece.begin <= from).saturating_sub(1);
        for (index, piece) in self.pieces.iter().enumerate().skip(first) {
            if index > first && piece.begin > to {
                break;
            }
            let end = self.pieces.get(index + 1).map_or(to, |next| next.begin.min(to));
            let (from, to) = (from.max(piece.begin), end.max(piece.begin));
            match piece.kind {
                TurnKind::Hold(facing) => add(facing),
                TurnKind::Turn { from: facing, amount, over } => {
                    for count in [from, to] {
                        add(facing + amount * ease((count - piece.begin) / over));
                    }
                }
                TurnKind::Follow { shift, off, over } => {
                    let (least, most) = self.headings(from, to);
                    let off = |count: f64| off * (1.0 - ease((count - piece.begin) / over));
                    let (before, after) = (off(from), off(to));
                    add(least + shift + before.min(after));
                    add(most + shift + before.max(after));
                }
            }
        }
        range
    }

    /// The least and the most of the heading between two counts of one leg.
    fn headings(&self, from: f64, to: f64) -> (f64, f64) {
        let index = self.moves.partition_point(|leg| leg.begin <= from).saturating_sub(1);
        self.moves.get(index).map_or((0.0, 0.0), |leg| {
            let metres = |count: f64| {
                if count >= leg.end { leg.course.length() } else { leg.pace.at(count) }
            };
            leg.course.headings(metres(from), metres(to))
        })
    }

    /// The pose at a count of the figure, from 0, when it ends with a hop on the upbeat on a foot.
    #[must_use]
    pub fn pose(&self, number: u32, count: f64, hop: Option<Foot>) -> Pose {
        let (x, y, facing) = self.stand(count);
        let [left, right] = self.footing.each_hand(count);
        Pose {
            number,
            x,
            y,
            facing,
            weight: self.footing.weight(count, hop),
            step: self.footing.fall(count).map_or(0, |fall| fall.step),
            hands: left.max(right),
            each_hand: [left, right],
        }
    }

    /// Works out the facing: turns come first, then legs that turn the dancer, and between them it holds.
    fn face(&mut self, part: &Part, start: f64) {
        let mut facing = start;
        let mut now = 0.0;
        self.pieces.push(TurnPiece { begin: 0.0, kind: TurnKind::Hold(facing) });
        for stretch in stretches(part) {
            if stretch.begin > now + 1e-9 {
                self.pieces.push(TurnPiece { begin: now, kind: TurnKind::Hold(facing) });
            }
            let over = stretch.end - stretch.begin;
            match stretch.what {
                What::Turn(turn, index) => {
                    let amount = amount(turn, facing);
                    if let Some(slot) = self.amounts.get_mut(index) {
                        *slot = amount;
                    }
                    self.pieces.push(TurnPiece {
                        begin: stretch.begin,
                        kind: TurnKind::Turn { from: facing, amount, over },
                    });
                    facing += amount;
                }
                What::Follow(offset, index) => {
                    let Some(leg) = self.moves.get(index).filter(|leg| leg.course.length() > 1e-6) else {
                        continue;
                    };
                    let heading = |count: f64| leg.course.at(leg.pace.at(count)).heading;
                    let first = heading(stretch.begin);
                    let off = wrap_half(facing - first - offset);
                    let shift = facing - off - first;
                    let over = (off.abs() / 100.0).clamp(0.25, 2.5).min(over);
                    facing = heading(stretch.end) + shift;
                    self.pieces.push(TurnPiece {
                        begin: stretch.begin,
                        kind: TurnKind::Follow { shift, off, over },
                    });
                }
            }
            now = stretch.end;
        }
        self.pieces.push(TurnPiece { begin: now, kind: TurnKind::Hold(facing) });
        self.end.2 = facing;
    }
}

/// A stretch of time in which the facing changes.
struct Stretch<'a> {
    begin: f64,
    end: f64,
    what: What<'a>,
}

enum What<'a> {
    /// The turn, and which of them.
    Turn(&'a Turn, usize),
    /// Degrees from the heading to the facing, and which move.
    Follow(f64, usize),
}

/// The turns of a part and what is left of its legs that turn the dancer, in order.
fn stretches(part: &Part) -> Vec<Stretch<'_>> {
    let mut stretches: Vec<Stretch> = part
        .turns
        .iter()
        .enumerate()
        .map(|(index, turn)| Stretch { begin: turn.begin, end: turn.end, what: What::Turn(turn, index) })
        .collect();
    for (index, leg) in part.legs.iter().enumerate() {
        let offset = match leg.facing {
            LegFacing::Held => continue,
            LegFacing::Forwards => 0.0,
            LegFacing::Backwards => 180.0,
            LegFacing::Left => 90.0,
            LegFacing::Right => -90.0,
        };
        let mut from = leg.begin;
        for turn in &part.turns {
            if turn.end <= from || turn.begin >= leg.end {
                continue;
            }
            if turn.begin > from + 1e-9 {
                stretches.push(Stretch { begin: from, end: turn.begin, what: What::Follow(offset, index) });
            }
            from = from.max(turn.end);
        }
        if leg.end > from + 1e-9 {
            stretches.push(Stretch { begin: from, end: leg.end, what: What::Follow(offset, index) });
        }
    }
    stretches.sort_by(|one, other| one.begin.total_cmp(&other.begin));
    stretches
}

/// Degrees clockwise that a turn goes through when it begins in a facing.
#[must_use]
pub fn amount(turn: &Turn, facing: f64) -> f64 {
    let sign = turn.way.sign();
    let by = match (turn.by, turn.face) {
        (Some(by), Some(face)) => {
            // The whole turns that bring it nearest to what was chosen; half-way between two, the way it goes. Nearest
            // to less than half a turn may be a little the other way: the direction is never left unmet.
            let round = (face - facing) * sign;
            round + 360.0 * ((by - round) / 360.0 + 0.5 + 1e-9).floor()
        }
        (Some(by), None) => by,
        (None, Some(face)) => {
            let round = ((face - facing) * sign).rem_euclid(360.0);
            let round = if (1e-6..=360.0 - 1e-6).contains(&round) { round } else { 0.0 };
            round + 360.0 * f64::from(turn.spins)
        }
        (None, None) => 0.0,
    };
    sign * by
}

/// An angle moved by whole turns to lie above -180 and up to 180 degrees.
#[must_use]
pub fn wrap_half(degrees: f64) -> f64 {
    let wrapped = degrees.rem_euclid(360.0);
    if wrapped > 180.0 { wrapped - 360.0 } else { wrapped }
}

/// An angle moved by whole turns to lie from 0 to below 360 degrees.
#[must_use]
pub fn wrap_whole(degrees: f64) -> f64 {
    let wrapped = degrees.rem_euclid(360.0);
    if wrapped < 360.0 { wrapped } else { 0.0 }
}

/// Gently from 0 to 1.
fn ease(u: f64) -> f64 {
    let u = u.clamp(0.0, 1.0);
    u * u * (3.0 - 2.0 * u)
}

/// How two legs meet: running on where one follows the other at once in nearly the same direction.
fn joint((before, first): (&Leg, &Course), (after, second): (&Leg, &Course)) -> EndSpeed {
    if after.begin - before.end > 1e-6 || first.length() < 1e-6 || second.length() < 1e-6 {
        return EndSpeed::Still;
    }
    let bend = second.at(0.0).heading - first.at(first.length()).heading;
    if wrap_half(bend).abs() > 30.0 {
        return EndSpeed::Still;
    }
    let one = first.length() / (before.end - before.begin);
    let other = second.length() / (after.end - after.begin);
    EndSpeed::Running(2.0 * one * other / (one + other))
}

/// The counts and metres that a leg's pace goes through: its points that have a time of their own, and in
/// between each count as the steps travel or as the leg's own pace says.
fn knots(leg: &Leg, course: &Course, footing: &Footing) -> Vec<(f64, f64)> {
    let share = |count: f64| progress(leg, footing, count);
    let mut pins = vec![(leg.begin, 0.0)];
    for (waypoint, metres) in leg.through.iter().zip(course.point_lengths()) {
        if let Some(at) = waypoint.at {
            pins.push((at, *metres));
        }
    }
    pins.push((leg.end, course.length()));
    let divisions: Vec<f64> = if leg.pace.is_empty() {
        let first = leg.begin.floor() as i64 + 1;
        (first..(leg.end.ceil() as i64)).map(|count| count as f64).collect()
    } else {
        let each = (leg.end - leg.begin) / leg.pace.len() as f64;
        (1..leg.pace.len()).map(|index| leg.begin + each * index as f64).collect()
    };
    let mut knots = Vec::with_capacity(divisions.len() + pins.len());
    let mut divisions = divisions.into_iter().peekable();
    for pair in pins.windows(2) {
        let [(t0, s0), (t1, s1)] = *pair else { continue };
        knots.push((t0, s0));
        let (p0, p1) = (share(t0), share(t1));
        while let Some(count) = divisions.next_if(|count| *count < t1 - 1e-6) {
            if count > t0 + 1e-6 {
                let done =
                    if p1 - p0 > 1e-9 { (share(count) - p0) / (p1 - p0) } else { (count - t0) / (t1 - t0) };
                knots.push((count, s0 + (s1 - s0) * done));
            }
        }
    }
    knots.push((leg.end, course.length()));
    knots
}

/// How much of a leg's travelling is done by a count, in any unit that only rises.
fn progress(leg: &Leg, footing: &Footing, count: f64) -> f64 {
    if leg.pace.is_empty() {
        footing.travelled(count)
    } else {
        let place = (count - leg.begin) / (leg.end - leg.begin) * leg.pace.len() as f64;
        let index = (place.max(0.0) as usize).min(leg.pace.len() - 1);
        let from = index.checked_sub(1).and_then(|before| leg.pace.get(before)).copied().unwrap_or(0.0);
        let to = leg.pace.get(index).copied().unwrap_or(1.0);
        from + (to - from) * (place - index as f64).clamp(0.0, 1.0)
    }
}
