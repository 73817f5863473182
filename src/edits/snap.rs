//! Where a drag catches: spots, lines, a partner's shoulder, other dancers' paths.

use crate::dance::{Dancer, PlaceNumber};
use crate::motion::{Ground, Motion, wrap_half};

/// Middles of two bodies shoulder to shoulder, metres: a breadth and a hand's width (breadth from memory).
const SHOULDERS: f64 = 0.6;

/// What a drag has caught on, to be drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Guide {
    /// A number's spot (index).
    Spot(usize),
    /// A line across the floor at this y.
    Level(f64),
    /// A line along the floor at this x.
    Upright(f64),
    /// Shoulder to shoulder with a dancer.
    Beside(Dancer),
    /// On the path of a dancer.
    Path(Dancer),
}

/// A place where a drag was let catch.
#[derive(Clone, Debug, PartialEq)]
pub struct Caught {
    /// Metres right.
    pub x: f64,
    /// Metres up.
    pub y: f64,
    /// What it caught on.
    pub guides: Vec<Guide>,
}

/// The place that a dancer dragged near `(x, y)` at a count catches on, if it is within `reach` metres. A spot
/// comes first, then a partner's shoulder, then lines (both may be met at once), then another's path.
#[must_use]
pub fn caught(motion: &Motion, dancer: Dancer, count: f64, (x, y): (f64, f64), reach: f64) -> Caught {
    let free = Caught { x, y, guides: Vec::new() };
    if reach <= 0.0 || !(x.is_finite() && y.is_finite()) {
        return free;
    }
    let ground = motion.ground();
    let near = |px: f64, py: f64| (px - x).hypot(py - y);
    if let Some((index, stand)) =
        nearest(ground.stands.iter().enumerate(), |(_, stand)| near(stand.x, stand.y), reach)
    {
        return Caught { x: stand.x, y: stand.y, guides: vec![Guide::Spot(index)] };
    }
    if let Some(caught) = beside(motion, dancer, count, near, reach) {
        return caught;
    }
    let mut on = free;
    if let Some(line) = nearest(uprights(ground).into_iter(), |line| (line - x).abs(), reach) {
        on.x = line;
        on.guides.push(Guide::Upright(line));
    }
    if let Some(line) = nearest(levels(ground).into_iter(), |line| (line - y).abs(), reach) {
        on.y = line;
        on.guides.push(Guide::Level(line));
    }
    if on.guides.is_empty()
        && let Some(span) = motion.span_under(count)
    {
        let mut best = (reach, None);
        for other in Dancer::all(motion.dancers()).filter(|&other| other != dancer) {
            let Some(track) = span.track(other) else { continue };
            for leg in track.moves() {
                let steps = (leg.course.length() / 0.02).ceil().clamp(1.0, 2_000.0) as u32;
                for step in 0..=steps {
                    let place = leg.course.at(leg.course.length() * f64::from(step) / f64::from(steps));
                    let far = near(place.x, place.y);
                    if far < best.0 {
                        best = (far, Some((other, place.x, place.y)));
                    }
                }
            }
        }
        if let Some((other, x, y)) = best.1 {
            on = Caught { x, y, guides: vec![Guide::Path(other)] };
        }
    }
    on
}

/// Shoulder to shoulder with someone at that count, to their right or left as they face then; the partner first.
fn beside(
    motion: &Motion,
    dancer: Dancer,
    count: f64,
    near: impl Fn(f64, f64) -> f64,
    reach: f64,
) -> Option<Caught> {
    let partner = motion.ground().partner(dancer.home()).map(PlaceNumber::first_dancer);
    let mut others: Vec<Dancer> = Dancer::all(motion.dancers()).filter(|&other| other != dancer).collect();
    others.sort_by_key(|other| Some(*other) != partner);
    let places = others.into_iter().flat_map(|other| {
        let pose = motion.pose(other, count);
        let (sin, cos) = wrap_half(pose.facing).to_radians().sin_cos();
        [1.0, -1.0].map(|side| (other, pose.x + side * SHOULDERS * cos, pose.y - side * SHOULDERS * sin))
    });
    // Of places equally near the partner's comes first.
    let (other, x, y) = nearest(places, |(_, x, y)| near(*x, *y), reach)?;
    Some(Caught { x, y, guides: vec![Guide::Beside(other)] })
}

fn nearest<T>(all: impl Iterator<Item = T>, far: impl Fn(&T) -> f64, reach: f64) -> Option<T> {
    all.map(|one| (far(&one), one))
        .filter(|(far, _)| *far <= reach)
        .min_by(|(one, _), (other, _)| one.total_cmp(other))
        .map(|(_, one)| one)
}

/// The middle line and the files.
fn uprights(ground: &Ground) -> Vec<f64> {
    lines(ground.stands.iter().map(|stand| stand.x))
}

/// The middle rank's line and the ranks.
fn levels(ground: &Ground) -> Vec<f64> {
    lines(ground.stands.iter().map(|stand| stand.y))
}

fn lines(places: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut lines: Vec<f64> = std::iter::once(0.0).chain(places).collect();
    lines.sort_by(f64::total_cmp);
    lines.dedup_by(|one, other| (*one - *other).abs() < 1e-6);
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Dance, Figure, Leg, Part, Set};
    use crate::figures::motion_of;

    fn motion() -> Motion {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let mut figure = Figure::drawn("draw", "Draw", 4);
        let mut part = Part::still(4);
        part.legs.push(Leg::straight(0.0, 4.0, 0.5, -0.9));
        figure.parts.push(part);
        dance.figures.push(figure);
        motion_of(&dance, None).unwrap()
    }

    #[test]
    fn spots_shoulders_lines_and_paths_catch() {
        let motion = motion();
        let at = |x: f64, y: f64| caught(&motion, Dancer(0), 8.0, (x, y), 0.1);
        assert_eq!(at(-1.15, 0.05), Caught { x: -1.2, y: 0.0, guides: vec![Guide::Spot(2)] });
        // 2 stands at 1.2, 1.8 facing left: their right is up.
        let beside = at(1.17, 2.36);
        assert_eq!(beside.guides, [Guide::Beside(Dancer(1))]);
        assert!((beside.x - 1.2).abs() < 1e-9 && (beside.y - 2.4).abs() < 1e-9);
        assert_eq!(at(0.04, 1.3), Caught { x: 0.0, y: 1.3, guides: vec![Guide::Upright(0.0)] });
        let both = at(0.04, 1.76);
        assert_eq!((both.x, both.y), (0.0, 1.8));
        let path = at(0.83, -0.38);
        assert_eq!(path.guides, [Guide::Path(Dancer(3))]);
        assert_eq!(at(-0.6, 1.3).guides, []);
        assert_eq!(caught(&motion, Dancer(0), 8.0, (-1.15, 0.05), 0.0).guides, [], "free");
    }
}
