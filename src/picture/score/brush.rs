//! Outlines: closed loops of points in spaces of the stave, x to the right and y down, all turning the same way, so
//! that what any of them holds is inked.

/// A closed outline.
pub type Loop = Vec<[f32; 2]>;

/// Points on each piece of a curve.
const FINE: usize = 10;

/// What a brush leaves that goes smoothly through places, each x, y and how wide the brush is there.
pub fn brush(through: &[[f32; 3]]) -> Loop {
    let mut line: Vec<[f32; 3]> = Vec::with_capacity(through.len() * FINE);
    let at = |index: isize| {
        let last = through.len().saturating_sub(1);
        through.get(index.clamp(0, last.cast_signed()).cast_unsigned()).copied().unwrap_or_default()
    };
    let pieces = through.len().saturating_sub(1);
    for piece in 0..pieces.cast_signed() {
        let [before, from, to, after] = [at(piece - 1), at(piece), at(piece + 1), at(piece + 2)];
        for part in 0..FINE {
            let share = part as f32 / FINE as f32;
            line.push(std::array::from_fn(|axis| {
                let pick = |place: [f32; 3]| place.get(axis).copied().unwrap_or_default();
                spline([pick(before), pick(from), pick(to), pick(after)], share)
            }));
        }
    }
    line.extend(through.last());
    let (mut there, mut back) = (Loop::new(), Loop::new());
    let last = line.len().saturating_sub(1);
    for (index, [x, y, wide]) in line.iter().enumerate() {
        let near = |index: usize| line.get(index.min(last)).copied().unwrap_or_default();
        let (one, other) = (near(index.saturating_sub(1)), near(index + 1));
        let (dx, dy) = (other[0] - one[0], other[1] - one[1]);
        let long = dx.hypot(dy).max(1e-6);
        let half = wide.max(0.0) / 2.0;
        let (nx, ny) = (-dy / long * half, dx / long * half);
        if index == 0 {
            there.extend(cap([*x, *y], [-nx, -ny]));
        }
        there.push([x + nx, y + ny]);
        back.push([x - nx, y - ny]);
        if index == last {
            there.extend(cap([*x, *y], [nx, ny]));
        }
    }
    back.reverse();
    there.extend(back);
    one_way(there)
}

/// The round end of a brush, from one side of it to the other.
fn cap([x, y]: [f32; 2], [nx, ny]: [f32; 2]) -> impl Iterator<Item = [f32; 2]> {
    (1..6).map(move |step| {
        let (sin, cos) = (-(step as f32) / 6.0 * std::f32::consts::PI).sin_cos();
        [x + nx * cos - ny * sin, y + nx * sin + ny * cos]
    })
}

/// The Catmull-Rom spline through the middle two of four places.
fn spline([before, from, to, after]: [f32; 4], share: f32) -> f32 {
    let (two, three) = (share * share, share * share * share);
    0.5 * (2.0 * from
        + (to - before) * share
        + (2.0 * before - 5.0 * from + 4.0 * to - after) * two
        + (3.0 * from - before - 3.0 * to + after) * three)
}

/// An outline from a place on through cubic Bézier curves, each two handles and its end.
pub fn curves(from: [f32; 2], pieces: &[[[f32; 2]; 3]]) -> Loop {
    let (mut made, mut at) = (vec![from], from);
    for [one, other, end] in pieces {
        for step in 1..=FINE {
            let share = step as f32 / FINE as f32;
            let left = 1.0 - share;
            let weights = [left * left * left, 3.0 * left * left * share, 3.0 * left * share * share];
            let axis = |axis: usize| {
                let pick = |place: &[f32; 2]| place.get(axis).copied().unwrap_or_default();
                weights[0] * pick(&at)
                    + weights[1] * pick(one)
                    + weights[2] * pick(other)
                    + share * share * share * pick(end)
            };
            made.push([axis(0), axis(1)]);
        }
        at = *end;
    }
    one_way(made)
}

/// An outline with corners.
pub fn corners(points: &[[f32; 2]]) -> Loop {
    one_way(points.to_vec())
}

/// An ellipse with its half width and half height, turned clockwise by degrees.
pub fn oval([x, y]: [f32; 2], [rx, ry]: [f32; 2], turn: f32) -> Loop {
    let (sin, cos) = turn.to_radians().sin_cos();
    let points = (0..4 * FINE).map(|step| {
        let (up, right) = (step as f32 / (4 * FINE) as f32 * std::f32::consts::TAU).sin_cos();
        [x + rx * right * cos - ry * up * sin, y + rx * right * sin + ry * up * cos]
    });
    one_way(points.collect())
}

/// The same outline as a hole.
pub fn hole(mut outline: Loop) -> Loop {
    outline.reverse();
    outline
}

/// The outline turned so that its area is positive.
fn one_way(mut outline: Loop) -> Loop {
    let next = outline.iter().skip(1).chain(outline.first());
    let twice: f32 = outline.iter().zip(next).map(|(one, two)| one[0] * two[1] - two[0] * one[1]).sum();
    if twice < 0.0 {
        outline.reverse();
    }
    outline
}
