mod by_steps;
mod facing;
mod pacing;
mod steadiness;

use super::cubics::ease;
use super::up_to::up_to;
use super::{Course, EndSpeed, Footing, OnCourse, Pace, Pose};
use crate::dance::{Foot, Number, Part, Turn};
use facing::{TurnKind, TurnPiece};
use pacing::{joint, pace};

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

impl Track {
    /// Bytes that it holds, with itself.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let moves = self.moves.iter().map(|leg| leg.course.bytes() + leg.pace.bytes());
        size_of::<Self>()
            + size_of_val(self.turns.as_slice())
            + size_of_val(self.amounts.as_slice())
            + size_of_val(self.moves.as_slice())
            + moves.sum::<usize>()
            + size_of_val(self.pieces.as_slice())
            + self.footing.bytes()
    }

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
        let mut paces = Vec::with_capacity(part.legs.len());
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
            paces.push(pace(leg, course, &footing, first, last));
        }
        let mut moves = Vec::with_capacity(part.legs.len());
        let mut travelled = 0.0;
        for ((leg, course), pace) in part.legs.iter().zip(courses).zip(paces) {
            let before = travelled;
            travelled += course.length();
            moves.push(Move { begin: leg.begin, end: leg.end, course, pace, before });
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

    /// In order of time; where none is under way the dancer stands.
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

    /// What lands on each count.
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
        let index = up_to(&self.moves, count, |leg| leg.begin).checked_sub(1)?;
        self.moves.get(index).filter(|leg| count < leg.end).map(|leg| (index, leg))
    }

    /// The counts between which the path turns the dancer, in order.
    pub fn followed(&self) -> impl Iterator<Item = (f64, f64)> {
        self.pieces.windows(2).filter_map(|pair| match pair {
            [piece, next] if matches!(piece.kind, TurnKind::Follow { .. }) => Some((piece.begin, next.begin)),
            _ => None,
        })
    }

    /// The fastest that the path turns the dancer at any moment between two of [`followed`](Self::followed), degrees a count; not
    /// finite where that is not known.
    #[must_use]
    pub fn fastest_following(&self) -> f64 {
        self.pieces.iter().fold(0.0, |fastest: f64, piece| match piece.kind {
            TurnKind::Follow { off, over, .. } => {
                let easing = 1.5 * off.abs() / over;
                let Some((_, leg)) = self.move_at(piece.begin) else { return f64::INFINITY };
                let speed = leg.pace.fastest();
                // Where nobody goes anywhere the path turns nobody.
                let turns = if speed > 0.0 { leg.course.sharpest() * speed } else { 0.0 };
                fastest.max(turns + easing)
            }
            TurnKind::Hold(_) | TurnKind::Turn { .. } => fastest,
        })
    }

    /// The place and, while a leg is under way, its heading; and the metres travelled in the figure.
    fn place(&self, count: f64) -> (OnCourse, f64) {
        let start = OnCourse { x: self.start.0, y: self.start.1, heading: 0.0 };
        let index = up_to(&self.moves, count, |leg| leg.begin).checked_sub(1);
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
        let index = up_to(&self.pieces, count, |piece| piece.begin).saturating_sub(1);
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
        match up_to(&self.moves, count, |leg| leg.begin).checked_sub(1) {
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
        let first = up_to(&self.pieces, from, |piece| piece.begin).saturating_sub(1);
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
        let index = up_to(&self.moves, from, |leg| leg.begin).saturating_sub(1);
        self.moves.get(index).map_or((0.0, 0.0), |leg| {
            let metres = |count: f64| {
                if count >= leg.end { leg.course.length() } else { leg.pace.at(count) }
            };
            leg.course.headings(metres(from), metres(to))
        })
    }

    /// The pose at a count of the figure, from 0, when it ends with a hop on the upbeat on a foot: of who holds a stick in the right hand.
    #[must_use]
    pub fn pose(&self, number: Number, count: f64, hop: Option<Foot>) -> Pose {
        let (x, y, facing) = self.stand(count);
        let (weight, step, [left, right]) = self.footing.moment(count, hop);
        Pose {
            number,
            x,
            y,
            facing,
            weight,
            step,
            hands: left.max(right),
            each_hand: [left, right],
            stick_hand: 1,
        }
    }
}
