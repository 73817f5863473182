mod curve;
mod extent;
mod heading;
mod measure;
mod tangents;
mod turning;
mod wavering;

use super::up_to::up_to;
use crate::dance::{Leg, Shape};
use curve::Curve;
use heading::{heading, unwrap_near};
use lyon::geom::{CubicBezierSegment, Point, Vector, euclid::default::Point2D, point};
use tangents::tangents;

/// A course of more pieces than this has very many.
const MANY: usize = 200;

/// Lengths below this, metres, are no length at all.
const NOTHING: f64 = 1e-9;

/// The line that a leg follows over the floor, travelled by arc length.
///
/// Straight stretches are exactly straight. A smooth course is a chain of cubic curves through its points
/// whose tangents come from the chords on both sides (a Catmull-Rom spline with chordal spacing: P. J. Barry
/// and R. N. Goldman, "A recursive evaluation algorithm for a class of Catmull-Rom splines", 1988).
#[derive(Clone, Debug)]
pub struct Course {
    pieces: Vec<CoursePiece>,
    /// Metres from the start of the course to the start of each piece.
    starts: Vec<f64>,
    length: f64,
    start: Point2D<f64>,
    end: Point2D<f64>,
    /// Metres from the start of the course to each point on the way.
    points: Vec<f64>,
}

/// A place on a course.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnCourse {
    /// Metres to the right.
    pub x: f64,
    /// Metres up.
    pub y: f64,
    /// The way the course goes here: degrees clockwise from up, unwrapped along the course.
    pub heading: f64,
}

#[derive(Clone, Debug)]
struct CoursePiece {
    length: f64,
    line: PieceLine,
}

#[derive(Clone, Debug)]
enum PieceLine {
    Straight {
        from: Point<f64>,
        to: Point<f64>,
        heading: f64,
    },
    Curve(Curve),
    /// Angles in degrees clockwise from up, seen from the centre.
    Arc {
        centre: Point<f64>,
        radius: f64,
        from: f64,
        sweep: f64,
        turned: f64,
    },
}

impl Course {
    /// Bytes that it holds beside itself, those of the tables that have been made among them.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let tables = self.pieces.iter().map(|piece| match &piece.line {
            PieceLine::Curve(curve) => curve.bytes(),
            PieceLine::Straight { .. } | PieceLine::Arc { .. } => 0,
        });
        size_of_val(self.pieces.as_slice())
            + size_of_val(self.starts.as_slice())
            + size_of_val(self.points.as_slice())
            + tables.sum::<usize>()
    }

    /// The course of a leg that begins at a place (metres right and up).
    #[must_use]
    pub fn of(leg: &Leg, (x, y): (f64, f64)) -> Self {
        let start = point(x, y);
        let end = point(leg.to.x, leg.to.y);
        let mut points = vec![start];
        points.extend(leg.through.iter().map(|waypoint| point(waypoint.x, waypoint.y)));
        points.push(end);
        let mut course =
            Self { pieces: Vec::new(), starts: Vec::new(), length: 0.0, start, end, points: Vec::new() };
        match leg.shape {
            Shape::Straight => course.join_straight(&points),
            Shape::Smooth => course.join_smooth(&points),
            Shape::Arc => course.sweep(leg.sweep.unwrap_or(0.0)),
        }
        course.unwrap_headings();
        course
    }

    /// The whole length, metres.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.length
    }

    /// Metres from the start of the course to each of the leg's points on the way, in order.
    #[must_use]
    pub fn point_lengths(&self) -> &[f64] {
        &self.points
    }

    /// Where the course ends.
    #[must_use]
    pub fn end(&self) -> (f64, f64) {
        (self.end.x, self.end.y)
    }

    /// The place a number of metres along, kept within the course; `heading` is 0 on a course of no length.
    #[must_use]
    pub fn at(&self, metres: f64) -> OnCourse {
        if metres <= 0.0 || self.pieces.is_empty() {
            return end_place(self.start, self.pieces.first().map(|piece| piece.end_headings().0));
        }
        if metres >= self.length {
            return end_place(self.end, self.pieces.last().map(|piece| piece.end_headings().1));
        }
        let index = up_to(&self.starts, metres, |start| *start).saturating_sub(1);
        match (self.pieces.get(index), self.starts.get(index)) {
            (Some(piece), Some(start)) => piece.at((metres - start) / piece.length),
            _ => end_place(self.end, None),
        }
    }

    /// The least and the most of the unwrapped heading between two places, metres along.
    #[must_use]
    pub fn headings(&self, from: f64, to: f64) -> (f64, f64) {
        let (from, to) = (from.clamp(0.0, self.length), to.clamp(0.0, self.length));
        let mut range = (f64::INFINITY, f64::NEG_INFINITY);
        let mut add = |heading: f64| range = (range.0.min(heading), range.1.max(heading));
        let first = up_to(&self.starts, from, |start| *start).saturating_sub(1);
        for (piece, start) in self.pieces.iter().zip(&self.starts).skip(first) {
            if *start > to {
                break;
            }
            let share = |metres: f64| ((metres - start) / piece.length).clamp(0.0, 1.0);
            let (from, to) = (share(from), share(to));
            match &piece.line {
                PieceLine::Curve(curve) if from <= 0.0 && to >= 1.0 => {
                    let (least, most) = curve.headings();
                    add(least);
                    add(most);
                }
                line => {
                    add(piece.at(from).heading);
                    add(piece.at(to).heading);
                    if let PieceLine::Curve(curve) = line {
                        curve.entries(from, to).for_each(|(_, heading)| add(heading));
                    }
                }
            }
        }
        if range.0 > range.1 { (0.0, 0.0) } else { range }
    }

    /// The most that the heading turns in a metre anywhere, degrees; not finite where it turns on the spot, or where nobody has
    /// looked as closely, as on a course of very many points.
    #[must_use]
    pub fn sharpest(&self) -> f64 {
        if self.pieces.len() > MANY {
            return f64::INFINITY;
        }
        let corners = self.pieces.windows(2).map(|pair| match pair {
            [one, next] if (next.end_headings().0 - one.end_headings().1).abs() > 1e-3 => f64::INFINITY,
            _ => 0.0,
        });
        let bends = self.pieces.iter().map(|piece| match &piece.line {
            PieceLine::Straight { .. } => 0.0,
            PieceLine::Arc { sweep, .. } => sweep.abs() / piece.length,
            PieceLine::Curve(curve) => curve.sharpest() / piece.length,
        });
        corners.chain(bends).fold(0.0, f64::max)
    }

    fn push(&mut self, length: f64, line: PieceLine) {
        if length > NOTHING {
            self.starts.push(self.length);
            self.length += length;
            self.pieces.push(CoursePiece { length, line });
        }
    }

    fn join_straight(&mut self, points: &[Point<f64>]) {
        for pair in points.windows(2) {
            if let [from, to] = *pair {
                let along = to - from;
                self.push(along.length(), PieceLine::Straight { from, to, heading: heading(along) });
                self.points.push(self.length);
            }
        }
        self.points.pop();
    }

    fn join_smooth(&mut self, points: &[Point<f64>]) {
        // Points on top of each other have no direction between them: the curve goes through them once.
        let mut apart: Vec<Point<f64>> = Vec::with_capacity(points.len());
        let mut index_of = Vec::with_capacity(points.len());
        for &place in points {
            if apart.last().is_none_or(|last| (place - *last).length() > 1e-6) {
                apart.push(place);
            }
            index_of.push(apart.len() - 1);
        }
        if apart.len() == 2 {
            self.join_straight(&apart);
        } else {
            let tangents = tangents(&apart);
            for (pair, tangent) in apart.windows(2).zip(tangents.windows(2)) {
                if let ([from, to], [leave, arrive]) = (pair, tangent) {
                    let third = (*to - *from).length() / 3.0;
                    let curve = CubicBezierSegment {
                        from: *from,
                        ctrl1: *from + *leave * third,
                        ctrl2: *to - *arrive * third,
                        to: *to,
                    };
                    let curve = Curve::of(curve);
                    self.push(curve.length(), PieceLine::Curve(curve));
                }
            }
        }
        let mut ends = self.starts.clone();
        ends.push(self.length);
        self.points = index_of
            .iter()
            .take(points.len() - 1)
            .skip(1)
            .map(|&index| ends.get(index).copied().unwrap_or(self.length))
            .collect();
    }

    /// A circle's arc from start to end that turns through `sweep` degrees, clockwise positive.
    fn sweep(&mut self, sweep: f64) {
        let chord = self.end - self.start;
        let half = sweep.to_radians() / 2.0;
        let across = half.sin();
        if chord.length() < NOTHING || across.abs() < 1e-6 {
            self.join_straight(&[self.start, self.end]);
            return;
        }
        let radius = (chord.length() / 2.0 / across).abs();
        // Clockwise travel has its centre to the right of the chord while the sweep is under half a turn.
        let right = Vector::new(chord.y, -chord.x) / chord.length();
        let centre = self.start + chord / 2.0 + right * (chord.length() / 2.0 * half.cos() / across);
        let from = heading(self.start - centre);
        let turned = from + 90.0 * sweep.signum();
        self.push(radius * sweep.to_radians().abs(), PieceLine::Arc { centre, radius, from, sweep, turned });
    }

    /// Makes headings run on from piece to piece without jumps of a whole turn.
    fn unwrap_headings(&mut self) {
        let mut before: Option<f64> = None;
        for piece in &mut self.pieces {
            match &mut piece.line {
                PieceLine::Straight { heading, .. } => before = Some(unwrap_near(heading, before)),
                PieceLine::Arc { sweep, turned, .. } => before = Some(unwrap_near(turned, before) + *sweep),
                PieceLine::Curve(curve) => before = Some(curve.unwrap_headings(before)),
            }
        }
    }
}

impl CoursePiece {
    /// The place at a share of this piece's length, 0 to 1.
    fn at(&self, share: f64) -> OnCourse {
        match &self.line {
            PieceLine::Straight { from, to, heading } => OnCourse {
                x: from.x + (to.x - from.x) * share,
                y: from.y + (to.y - from.y) * share,
                heading: *heading,
            },
            PieceLine::Arc { centre, radius, from, sweep, turned } => {
                let (sin, cos) = (from + sweep * share).to_radians().sin_cos();
                OnCourse {
                    x: centre.x + radius * sin,
                    y: centre.y + radius * cos,
                    heading: turned + sweep * share,
                }
            }
            PieceLine::Curve(curve) => curve.at(self.length, share),
        }
    }

    /// The headings at its start and at its end.
    fn end_headings(&self) -> (f64, f64) {
        match &self.line {
            PieceLine::Straight { heading, .. } => (*heading, *heading),
            PieceLine::Arc { sweep, turned, .. } => (*turned, turned + sweep),
            PieceLine::Curve(curve) => curve.end_headings(),
        }
    }
}

/// An exact end of a course, with the heading there.
fn end_place(place: Point<f64>, heading: Option<f64>) -> OnCourse {
    OnCourse { x: place.x, y: place.y, heading: heading.unwrap_or(0.0) }
}
