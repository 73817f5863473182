//! How far a course goes, found from its lines and curves themselves, so that nothing is missed between samples.

use super::{Course, CoursePiece, PieceLine};
use crate::motion::cubics::roots;
use lyon::geom::{CubicBezierSegment, Point};

impl Course {
    /// The left, bottom, right and top that the course keeps within and touches, metres.
    #[must_use]
    pub fn bounds(&self) -> [f64; 4] {
        let mut bounds = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
        widen(&mut bounds, self.start);
        widen(&mut bounds, self.end);
        for piece in &self.pieces {
            match &piece.line {
                PieceLine::Straight { from, to, .. } => {
                    widen(&mut bounds, *from);
                    widen(&mut bounds, *to);
                }
                PieceLine::Arc { .. } => piece.turning_shares(|share| widen(&mut bounds, piece.place(share))),
                PieceLine::Curve(curve) => {
                    let curve = &curve.line;
                    widen(&mut bounds, curve.from);
                    widen(&mut bounds, curve.to);
                    // A curve keeps within its control points.
                    if !(holds(&bounds, curve.ctrl1) && holds(&bounds, curve.ctrl2)) {
                        turning_parameters(curve, |parameter| widen(&mut bounds, curve.sample(parameter)));
                    }
                }
            }
        }
        bounds
    }

    /// Metres along, rising, from nought to the length: between two that follow each other the course only goes
    /// left or only right, and only up or only down.
    #[must_use]
    pub fn turning_lengths(&self) -> Vec<f64> {
        let mut lengths = vec![0.0];
        for (piece, start) in self.pieces.iter().zip(&self.starts) {
            piece.turning_shares(|share| lengths.push(start + share * piece.length));
            lengths.push(start + piece.length);
        }
        lengths.push(self.length);
        lengths.sort_by(f64::total_cmp);
        lengths.dedup();
        lengths
    }

    /// Points along the course, so close that none of it lies farther than `within` metres from the straight lines
    /// that join them.
    pub fn each_corner(&self, within: f64, mut corner: impl FnMut(f64, f64)) {
        corner(self.start.x, self.start.y);
        for piece in &self.pieces {
            let parts = match &piece.line {
                PieceLine::Straight { .. } => 1.0,
                // A chord over an angle of a circle is radius (1 - cos(angle / 2)) from it at most.
                PieceLine::Arc { radius, sweep, .. } => {
                    let angle = 2.0 * (1.0 - within / radius).clamp(0.0, 1.0).acos();
                    (sweep.to_radians().abs() / angle.max(1e-3)).ceil()
                }
                // A chord over a stretch u of a curve's parameter is u^2 / 8 times its greatest second derivative
                // from it at most.
                PieceLine::Curve(curve) => {
                    let curve = &curve.line;
                    let (first, second, third) =
                        (curve.ctrl1 - curve.from, curve.ctrl2 - curve.ctrl1, curve.to - curve.ctrl2);
                    let bend = (second - first).length().max((third - second).length());
                    (6.0 * bend / (8.0 * within)).sqrt().ceil()
                }
            };
            let parts = parts.clamp(1.0, 4096.0) as u32;
            for part in 1..=parts {
                let share = f64::from(part) / f64::from(parts);
                let place = match &piece.line {
                    PieceLine::Curve(curve) => curve.line.sample(share),
                    _ => piece.place(share),
                };
                corner(place.x, place.y);
            }
        }
        corner(self.end.x, self.end.y);
    }
}

impl CoursePiece {
    fn place(&self, share: f64) -> Point<f64> {
        let place = self.at(share);
        Point::new(place.x, place.y)
    }

    /// The shares of the length at which it turns from one way to another, across or along the floor.
    fn turning_shares(&self, mut turning: impl FnMut(f64)) {
        match &self.line {
            PieceLine::Straight { .. } => {}
            PieceLine::Arc { from, sweep, .. } => {
                let (low, high) = if *sweep < 0.0 { (from + sweep, *from) } else { (*from, from + sweep) };
                let mut angle = (low / 90.0).ceil() * 90.0;
                while angle <= high {
                    turning(((angle - from) / sweep).clamp(0.0, 1.0));
                    angle += 90.0;
                }
            }
            PieceLine::Curve(curve) => {
                turning_parameters(&curve.line, |parameter| turning(curve.share_at(self.length, parameter)));
            }
        }
    }
}

fn widen(bounds: &mut [f64; 4], place: Point<f64>) {
    *bounds =
        [bounds[0].min(place.x), bounds[1].min(place.y), bounds[2].max(place.x), bounds[3].max(place.y)];
}

fn holds(bounds: &[f64; 4], place: Point<f64>) -> bool {
    place.x >= bounds[0] && place.y >= bounds[1] && place.x <= bounds[2] && place.y <= bounds[3]
}

/// The parameters inside a curve at which it goes neither across nor along.
fn turning_parameters(curve: &CubicBezierSegment<f64>, mut turning: impl FnMut(f64)) {
    let along = |of: fn(Point<f64>) -> f64| {
        let [p0, p1, p2, p3] = [curve.from, curve.ctrl1, curve.ctrl2, curve.to].map(of);
        let (d0, d1, d2) = (p1 - p0, p2 - p1, p3 - p2);
        roots(d0 - 2.0 * d1 + d2, 2.0 * (d1 - d0), d0)
    };
    for parameter in along(|place| place.x).into_iter().chain(along(|place| place.y)) {
        if parameter > 0.0 && parameter < 1.0 {
            turning(parameter);
        }
    }
}
