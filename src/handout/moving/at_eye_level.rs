//! Bodies at eye level in a moving picture: one dancer, or everybody side by side.

use super::MovingChoice;
use crate::dance::{Dance, Dancer, Holding};
use crate::motion::limbs::Gait;
use crate::motion::{Clock, Motion};
use crate::picture::{EyeBody, EyeFrame, EyeSide, Mark, Stroke, eye_level_marks, room_for};

/// How wide a body is with its arms out to both sides, metres.
const WIDE: f64 = 1.5;
/// The least that a body in a row has, metres: arms out may go over the edge of it, where nobody else's are.
const CLOSE: f64 = 1.15;
/// From the middle of a body to the star of what it strikes at its side: an arm and the half of a stick out from the shoulder, and the star,
/// metres (worked out from the sizes of bodies). At the edge of a picture there is room for that.
const STRIKES: f64 = 1.27;
/// Where the bodies are, shares of the picture's height.
const ROOM: [f64; 2] = [0.02, 0.895];
/// A tick on the floor each so many metres, so that travelling is seen.
const TICKS: f64 = 0.5;

/// Who is seen at eye level, and how they are laid out.
pub(super) struct AtEyeLevel {
    side: EyeSide,
    clock: Clock,
    /// Each, and the hand that a stick would be in.
    bodies: Vec<(Dancer, Gait, usize)>,
    columns: usize,
    rows: usize,
    /// Whether anything is struck in the dance.
    strikes: bool,
    holding: Holding,
    /// How high a body has room for, metres.
    room: f64,
}

impl AtEyeLevel {
    pub(super) fn of(dance: &Dance, motion: &Motion, choice: &MovingChoice) -> Option<Self> {
        let side = choice.seen.eye()?;
        let clock = Clock::of_dance(dance, motion);
        let who = choice.dancer.map_or_else(|| Dancer::all(motion.dancers()).collect(), |one| vec![one]);
        let bodies: Vec<_> = who
            .into_iter()
            .map(|dancer| (dancer, Gait::of(motion, &clock, dancer), dance.stick_hand(dancer.number())))
            .collect();
        let room = room_for(dance.height);
        let (columns, rows) = laid_out(bodies.len(), room);
        let strikes = !motion.blows().is_empty();
        Some(Self { side, clock, bodies, columns, rows, strikes, holding: dance.holding, room })
    }

    /// How many pixels a metre has, in a picture of a size.
    fn scale(&self, size: f64) -> f64 {
        let wide = if self.bodies.len() == 1 { WIDE } else { CLOSE } * self.columns as f64;
        let strikes = CLOSE * (self.columns - 1) as f64 + 2.0 * STRIKES;
        (size / if self.strikes { wide.max(strikes) } else { wide })
            .min(size * (ROOM[1] - ROOM[0]) / self.rows as f64 / (self.room + 0.05))
    }

    /// From one body of a row to the next, pixels, in a picture of a size.
    fn apart(&self, size: f64) -> f64 {
        let each = size / self.columns as f64;
        if !self.strikes || self.columns < 2 {
            return each;
        }
        each.min((size - 2.0 * STRIKES * self.scale(size)) / (self.columns - 1) as f64)
    }

    /// Where the floor under a body is, its middle: of two rows odds are in the upper and evens under their partners.
    fn ground(&self, index: usize, size: f64) -> [f32; 2] {
        let (column, row) = if self.rows == 2 {
            (index / 2, index % 2)
        } else {
            (index % self.columns, index / self.columns)
        };
        let high = size * (ROOM[1] - ROOM[0]) / self.rows as f64;
        let x = size / 2.0 + self.apart(size) * (column as f64 - (self.columns - 1) as f64 / 2.0);
        let y = size * ROOM[0] + high * (row as f64 + 1.0);
        [x as f32, y as f32]
    }

    /// Everybody at a count.
    pub(super) fn marks(&self, motion: &Motion, count: f64, choice: &MovingChoice) -> Vec<Mark> {
        let size = f64::from(choice.size);
        let mut marks = Vec::new();
        for (index, (dancer, gait, stick_in)) in self.bodies.iter().enumerate() {
            let limbs = gait.limbs(motion, &self.clock, count);
            let middle = limbs.middle();
            let frame = EyeFrame {
                centre: (middle.x, middle.y),
                floor: self.ground(index, size),
                scale: self.scale(size),
                looks: self.side.looks(limbs.facing),
            };
            // Each has a floor of their own, since each goes their own way over it.
            floor(&mut marks, &frame, self.apart(size) * 0.92, choice);
            let seen = EyeBody {
                limbs: &limbs,
                carries: gait.carries(&self.clock, count),
                trails: gait.trails(motion, &self.clock, count),
                number: dancer.number(),
                holding: self.holding,
                stick_in: *stick_in,
                numbered: true,
            };
            eye_level_marks(&mut marks, &frame, &choice.ink, seen);
        }
        marks
    }
}

/// The floor under a body, with ticks that stay where they are on it.
fn floor(marks: &mut Vec<Mark>, frame: &EyeFrame, wide: f64, choice: &MovingChoice) {
    let stroke = Stroke { colour: choice.ink.quiet, width: choice.size as f32 / 360.0 };
    let [x, y] = frame.floor;
    let half = (wide / 2.0) as f32;
    marks.push(Mark::Line { points: vec![[x - half, y], [x + half, y]], stroke, dash: None });
    let (sin, cos) = frame.looks.to_radians().sin_cos();
    let along = frame.centre.0 * cos - frame.centre.1 * sin;
    let reach = wide / 2.0 / frame.scale;
    let first = ((along - reach) / TICKS).ceil() as i64;
    let last = ((along + reach) / TICKS).floor() as i64;
    for tick in first..=last {
        let right = x + ((tick as f64 * TICKS - along) * frame.scale) as f32;
        let points = vec![[right, y], [right, y + frame.length(0.05)]];
        marks.push(Mark::Line { points, stroke, dash: None });
    }
}

/// How many columns and rows so many bodies stand in, each with room for so many metres, each as large as it can be.
fn laid_out(bodies: usize, room: f64) -> (usize, usize) {
    let bodies = bodies.max(1);
    let rows = |columns: usize| bodies.div_ceil(columns);
    let scale = |columns: usize| {
        (1.0 / (columns as f64 * CLOSE)).min((ROOM[1] - ROOM[0]) / (rows(columns) as f64 * room))
    };
    let columns = (1..=bodies).max_by(|one, other| scale(*one).total_cmp(&scale(*other))).unwrap_or(1);
    // As many rows need no more columns than that.
    (bodies.div_ceil(rows(columns)), rows(columns))
}

#[cfg(test)]
mod tests {
    use super::super::SeenFrom;
    use super::*;
    use crate::dance::{Figure, PlaceNumber, Set, Strike, StrikeEnd, Striker, Struck};
    use crate::figures::motion_of;

    /// Who taps along the file, seen from the front, does so at their sides: stick and star are in the picture, in every column.
    #[test]
    fn what_is_struck_at_the_side_is_within_the_picture() {
        let mut dance = Dance::new("Edge", Set::longways(6, 1.2, 1.4));
        dance.holding = Holding::Sticks;
        let mut figure = Figure::drawn("one", "One", 4);
        let tap = |by: u32, on: u32| {
            let on = Struck::Place(PlaceNumber(on));
            Strike::new(2.0, Striker::Place(PlaceNumber(by)), StrikeEnd::Tip, on)
        };
        figure.strikes = vec![tap(1, 3), tap(4, 6)];
        dance.figures.push(figure);
        let motion = motion_of(&dance, None).unwrap();
        for seen in [SeenFrom::Front, SeenFrom::Behind, SeenFrom::Side] {
            let choice = MovingChoice { seen, size: 400, ..MovingChoice::default() };
            let marks = AtEyeLevel::of(&dance, &motion, &choice).unwrap().marks(&motion, 2.0, &choice);
            let stars = marks.iter().filter_map(|mark| match mark {
                Mark::Outline { loops, .. } => Some(loops.concat()),
                Mark::Line { points, .. } => Some(points.clone()),
                _ => None,
            });
            for [x, _] in stars.flatten() {
                assert!((-0.5..400.5).contains(&x), "{seen:?}: {x}");
            }
        }
    }

    #[test]
    fn bodies_stand_in_rows() {
        let all = [1, 2, 4, 6, 8, 12].map(|bodies| laid_out(bodies, 2.2));
        assert_eq!(all, [(1, 1), (2, 1), (4, 1), (3, 2), (4, 2), (6, 2)]);
        for bodies in 1..60 {
            let (columns, rows) = laid_out(bodies, 2.2);
            assert!(columns * rows >= bodies && columns * (rows - 1) < bodies, "{bodies}");
        }
    }
}
