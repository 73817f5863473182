use crate::dance::{Dance, Dancer};
use crate::motion::Motion;
use std::collections::HashSet;
use std::f64::consts::TAU;

/// The caution that belongs where space is shown.
pub const SPACE_CAUTION: &str =
    "Keep clear floor beyond the reach of arms and sticks, and spectators outside it.";

/// How far the corners of the hull may lie inside the curves that they stand for, metres; the outline is so much
/// wider instead.
const CLOSE: f64 = 0.001;
/// Corners closer than this are one, metres: between them there is no direction.
const NOTHING: f64 = 1e-6;
/// The most that a point of a round corner is from the next, degrees.
const CORNER: f64 = 10.0;
/// How many points are kept before those inside are dropped.
const MANY: usize = 8192;

/// The floor that a whole dance takes, with the reach of what the dancers hold.
#[derive(Clone, Debug, PartialEq)]
pub struct Space {
    /// Metres across the set.
    pub across: f64,
    /// Metres along the set.
    pub along: f64,
    /// Left, bottom, right and top, metres from the middle of the set.
    pub edges: [f64; 4],
    /// The line round all of it, anticlockwise on a page with up at the top; at corners a little outside, nowhere
    /// inside.
    pub outline: Vec<(f64, f64)>,
}

impl Space {
    /// The space in words, rounded up to a tenth of a metre.
    #[must_use]
    pub fn words(&self) -> String {
        // A thousandth of a tenth is what a computer loses on the way.
        let up = |metres: f64| (metres * 10.0 - 1e-3).ceil() / 10.0;
        format!("needs a clear floor of {:.1} m across and {:.1} m along", up(self.across), up(self.along))
    }
}

/// The floor that a whole dance takes.
#[must_use]
pub fn space_needed(dance: &Dance, motion: &Motion) -> Space {
    let reach = dance.limits.reach(dance.holding);
    let mut edges = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    let mut points: Vec<(f64, f64)> = Vec::new();
    let mut widen = |[left, bottom, right, top]: [f64; 4]| {
        edges = [edges[0].min(left), edges[1].min(bottom), edges[2].max(right), edges[3].max(top)];
    };
    for stand in &motion.ground().stands {
        widen([stand.x, stand.y, stand.x, stand.y]);
        points.push((stand.x, stand.y));
    }
    let mut seen = HashSet::new();
    for span in motion.spans().iter().filter(|span| seen.insert(span.identity())) {
        for track in Dancer::all(motion.dancers()).filter_map(|dancer| span.track(dancer)) {
            let (x, y, _) = track.stand(0.0);
            points.push((x, y));
            widen([x, y, x, y]);
            for leg in track.moves() {
                widen(leg.course.bounds());
                leg.course.each_corner(CLOSE, |x, y| points.push((x, y)));
            }
            if points.len() > MANY {
                points = hull(points);
            }
        }
    }
    if points.is_empty() {
        return Space { across: 0.0, along: 0.0, edges: [0.0; 4], outline: Vec::new() };
    }
    let [left, bottom, right, top] = edges;
    let edges = [left - reach, bottom - reach, right + reach, top + reach];
    Space {
        across: edges[2] - edges[0],
        along: edges[3] - edges[1],
        edges,
        outline: widened(&apart(hull(points)), reach + CLOSE + NOTHING),
    }
}

/// The corners of the least convex shape round some points, anticlockwise (A. M. Andrew, "Another efficient
/// algorithm for convex hulls in two dimensions", Information Processing Letters 9, 1979).
fn hull(mut points: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    points.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.total_cmp(&other.1)));
    points.dedup();
    if points.len() < 3 {
        return points;
    }
    let mut corners = half(points.iter());
    let back = half(points.iter().rev());
    corners.pop();
    corners.extend(back);
    corners.pop();
    corners
}

/// One side of the hull.
fn half<'a>(points: impl Iterator<Item = &'a (f64, f64)>) -> Vec<(f64, f64)> {
    let mut side: Vec<(f64, f64)> = Vec::new();
    for &(x, y) in points {
        while let [.., (x0, y0), (x1, y1)] = side.as_slice() {
            if (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) > 0.0 {
                break;
            }
            side.pop();
        }
        side.push((x, y));
    }
    side
}

/// Corners without those that lie on top of the one before.
fn apart(mut corners: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    let near = |one: &(f64, f64), other: &(f64, f64)| (one.0 - other.0).hypot(one.1 - other.1) < NOTHING;
    corners.dedup_by(|later, before| near(later, before));
    while corners.len() > 1 && corners.first().zip(corners.last()).is_some_and(|(one, last)| near(one, last))
    {
        corners.pop();
    }
    corners
}

/// A convex shape made wider all round, with round corners: the flat sides that stand for a corner touch its circle
/// from outside.
fn widened(corners: &[(f64, f64)], by: f64) -> Vec<(f64, f64)> {
    // The way out of the side from each corner to the next, as an angle from the right, anticlockwise.
    let out = |from: &(f64, f64), to: &(f64, f64)| (-(to.0 - from.0)).atan2(to.1 - from.1);
    let mut outline = Vec::new();
    for (index, corner) in corners.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|before| corners.get(before)).or(corners.last());
        let after = corners.get(index + 1).or(corners.first());
        let (from, turn) = match (before, after) {
            (Some(before), Some(after)) if corners.len() > 1 => {
                let from = out(before, corner);
                let turn = (out(corner, after) - from).rem_euclid(TAU);
                // A corner turns half way round at most; all but a whole turn is none, lost in the arithmetic.
                (from, if turn > 0.75 * TAU { 0.0 } else { turn })
            }
            _ => (0.0, TAU),
        };
        let steps = (turn.to_degrees() / CORNER).ceil().max(1.0);
        let step = turn / steps;
        let mut corner_at = |angle: f64, far: f64| {
            outline.push((corner.0 + far * angle.cos(), corner.1 + far * angle.sin()));
        };
        corner_at(from, by);
        for index in 0..steps as u32 {
            corner_at(from + step * (f64::from(index) + 0.5), by / (step / 2.0).cos());
        }
        corner_at(from + turn, by);
    }
    outline
}
