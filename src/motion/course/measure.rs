//! How long a curve is, and a table to travel it by equal lengths.

use super::{NOTHING, heading};
use lyon::geom::CubicBezierSegment;

/// How many equal lengths a curve's table divides it into, by how slow its slowest part is beside the whole (both
/// as speeds in the curve's parameter). A curve that all but stops, as one that turns back on itself does, needs
/// a finer table to be held to a millimetre, since its parameter runs away there.
const TABLES: [(f64, usize); 3] = [(0.7, 32), (0.25, 256), (0.0, 2048)];

/// How many parts a curve is measured in.
const MEASURE: usize = 64;

/// The length of a curve and its table at equal lengths.
///
/// Each part is measured by Gauss-Legendre quadrature with three points.
pub(super) fn measure(curve: &CubicBezierSegment<f64>) -> (f64, Vec<[f64; 3]>) {
    const NODES: [(f64, f64); 3] =
        [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];
    let speed = |parameter: f64| curve.derivative(parameter).length();
    let between = |from: f64, to: f64| {
        let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
        NODES.iter().map(|(node, weight)| weight * speed(middle + node * half)).sum::<f64>() * half
    };
    let part = 1.0 / MEASURE as f64;
    let mut lengths = Vec::with_capacity(MEASURE + 1);
    lengths.push(0.0);
    let mut total = 0.0;
    let mut shortest = f64::INFINITY;
    for index in 0..MEASURE {
        let length = between(index as f64 * part, (index as f64 + 1.0) * part);
        shortest = shortest.min(length);
        total += length;
        lengths.push(total);
    }
    let slowest = if total > 0.0 { shortest / (total * part) } else { 1.0 };
    let divisions =
        TABLES.iter().find(|(least, _)| slowest >= *least).map_or(32, |&(_, divisions)| divisions);
    let is_even = divisions == TABLES[0].1;
    let mut table = Vec::with_capacity(divisions + 1);
    let mut index = 0;
    for entry in 0..=divisions {
        let wanted = total * entry as f64 / divisions as f64;
        while index + 1 < MEASURE && lengths.get(index + 1).is_some_and(|&length| length < wanted) {
            index += 1;
        }
        let (from, to) = match lengths.get(index..index + 2) {
            Some(&[from, to]) => (from, to),
            _ => (0.0, total),
        };
        let inside = if to > from { (wanted - from) / (to - from) } else { 0.0 };
        let mut parameter = ((index as f64 + inside) * part).clamp(0.0, 1.0);
        if !is_even {
            let begin = index as f64 * part;
            parameter =
                solve(begin, begin + part, parameter, |at| (from + between(begin, at) - wanted, speed(at)));
        }
        let derivative = curve.derivative(parameter);
        let change = 1.0 / derivative.length().max(total * 1e-3).max(NOTHING);
        table.push([parameter, change, heading(derivative)]);
    }
    (total, table)
}

/// Where a rising function, given with its slope, is nought between two ends: Newton's method, kept between the
/// ends by halving where the slope would lead out of them.
fn solve(mut low: f64, mut high: f64, first: f64, rising: impl Fn(f64) -> (f64, f64)) -> f64 {
    let mut at = first;
    for _ in 0..40 {
        let (value, slope) = rising(at);
        if value.abs() < 1e-7 {
            break;
        }
        if value < 0.0 {
            low = at;
        } else {
            high = at;
        }
        let next = at - value / slope;
        at = if next > low && next < high { next } else { f64::midpoint(low, high) };
    }
    at
}
