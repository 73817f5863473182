//! How sure a floor is that marks give: how far it gives way when they are off by as little as a hand is.

use super::fit::Place;
use super::least_squares::LeastSquares;

/// How far off a hand puts a mark, in the mean distance of the marks from their middle: some one pixel of a screen. It is one
/// pixel of the picture at the least.
const HAND: f64 = 1.0 / 500.0;
/// So flat is what counts as a line: its breadth over its length.
const FLAT: f64 = 0.01;

/// How far what lies between marks may be off when each is off by a hand's breadth, in the marks' mean distance from their
/// middle on the floor; nothing where they leave it open. Marks and rows are in these measures, and so is a pixel.
pub(super) fn unsure(marks: &[(Place, Place)], rows: &[[f64; 3]; 3], pixel: f64) -> Option<f64> {
    let hand = HAND.max(pixel);
    let still = rows[2][2];
    let mut equations = LeastSquares::new();
    for (place, _) in marks {
        let [one, other] = factors(rows, *place)?;
        // A pixel is the same to each mark, however many metres it is there.
        let grain = grain(rows, *place)?;
        for factors in [one, other] {
            let [a, b, c, d, e, f, g, h] = factors.map(|value| value / (grain * hand));
            equations.add([a, b, c, d, e, f, g, h, 0.0]);
        }
    }
    let mut most = 0.0_f64;
    for (index, (one, _)) in marks.iter().enumerate() {
        for (other, _) in marks.iter().skip(index) {
            let between = [f64::midpoint(one[0], other[0]), f64::midpoint(one[1], other[1])];
            let [x, y] = factors(rows, between)?.map(|factors| equations.give(factors));
            most = most.max(x?.hypot(y?));
        }
    }
    (still.abs() > 0.0 && most.is_finite()).then_some(most)
}

/// How a place on the floor goes with each of the eight numbers of the rows, right and up, where the ninth is one.
fn factors(rows: &[[f64; 3]; 3], [u, v]: Place) -> Option<[[f64; 8]; 2]> {
    let [x, y, depth] = rows.map(|[one, other, still]| (one * u + other * v + still) / rows[2][2]);
    let w = 1.0 / depth;
    let (x, y) = (x * w, y * w);
    w.is_finite().then(|| {
        [
            [u * w, v * w, w, 0.0, 0.0, 0.0, -u * x * w, -v * x * w],
            [0.0, 0.0, 0.0, u * w, v * w, w, -u * y * w, -v * y * w],
        ]
    })
}

/// How far on the floor one is from the next at a place of the picture, the longest way.
fn grain(rows: &[[f64; 3]; 3], [u, v]: Place) -> Option<f64> {
    let [x, y, depth] = rows.map(|[one, other, still]| one * u + other * v + still);
    let (x, y) = (x / depth, y / depth);
    let along = |axis: usize| {
        let [right, up, far] = rows.map(|row| row.get(axis).copied().unwrap_or_default());
        ((right - x * far) / depth).hypot((up - y * far) / depth)
    };
    let grain = along(0).hypot(along(1));
    (grain > 0.0 && grain.is_finite()).then_some(grain)
}

/// Whether places lie in a line, or nearly, all of them but one at the most.
pub(super) fn are_nearly_in_line(places: &[Place]) -> bool {
    (0..places.len()).any(|without| {
        let others =
            || places.iter().enumerate().filter(|(index, _)| *index != without).map(|(_, place)| place);
        let many = others().count().max(1) as f64;
        let mean = |axis: fn(&Place) -> f64| others().map(axis).sum::<f64>() / many;
        let (x, y) = (mean(|place| place[0]), mean(|place| place[1]));
        let sum =
            |of: &dyn Fn(f64, f64) -> f64| others().map(|place| of(place[0] - x, place[1] - y)).sum::<f64>();
        let (xx, yy, xy) = (sum(&|x, _| x * x), sum(&|_, y| y * y), sum(&|x, y| x * y));
        // The squares of how far they spread along their line, and off it.
        let (half, turned) = (f64::midpoint(xx, yy), (0.5 * (xx - yy)).hypot(xy));
        half - turned < FLAT * FLAT * (half + turned)
    })
}
