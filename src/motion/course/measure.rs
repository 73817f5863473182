//! How long a curve is, and a table to travel it by equal lengths.

use super::heading::{heading, unwrap_near};
use lyon::geom::CubicBezierSegment;

/// How many equal lengths a curve's table divides it into, by how slow its slowest part is beside the whole (both
/// as speeds in the curve's parameter). A curve that all but stops, as one that turns back on itself does, needs
/// a finer table to be held to a millimetre, since its parameter runs away there.
const TABLES: [(f64, usize); 3] = [(0.7, 32), (0.25, 256), (0.0, 2048)];

/// Speeds below this, metres for the whole of the parameter, are none.
const NOTHING: f64 = 1e-9;

/// How many parts a curve is measured in.
const MEASURE: usize = 64;
/// One of them.
const PART: f64 = 1.0 / MEASURE as f64;

/// A curve measured in equal parts of its parameter, each by Gauss-Legendre quadrature with three points.
struct Measured<'a> {
    curve: &'a CubicBezierSegment<f64>,
    /// The length up to each part and to the end, metres.
    lengths: [f64; MEASURE + 1],
    /// The length of the shortest part, metres.
    shortest: f64,
}

impl<'a> Measured<'a> {
    fn of(curve: &'a CubicBezierSegment<f64>) -> Self {
        let mut measured = Self { curve, lengths: [0.0; MEASURE + 1], shortest: f64::INFINITY };
        let mut total = 0.0;
        let mut lengths = [0.0; MEASURE + 1];
        for (index, slot) in lengths.iter_mut().skip(1).enumerate() {
            let length = measured.between(index as f64 * PART, (index as f64 + 1.0) * PART);
            measured.shortest = measured.shortest.min(length);
            total += length;
            *slot = total;
        }
        measured.lengths = lengths;
        measured
    }

    fn total(&self) -> f64 {
        self.lengths.last().copied().unwrap_or(0.0)
    }

    fn speed(&self, parameter: f64) -> f64 {
        self.curve.derivative(parameter).length()
    }

    /// The length between two parameters of one part.
    fn between(&self, from: f64, to: f64) -> f64 {
        const NODES: [(f64, f64); 3] =
            [(-0.774_596_669_241_483_4, 5.0 / 9.0), (0.0, 8.0 / 9.0), (0.774_596_669_241_483_4, 5.0 / 9.0)];
        let (middle, half) = (f64::midpoint(from, to), (to - from) / 2.0);
        NODES.iter().map(|(node, weight)| weight * self.speed(middle + node * half)).sum::<f64>() * half
    }

    /// How many equal lengths its table has.
    fn divisions(&self) -> usize {
        let total = self.total();
        let slowest = if total > 0.0 { self.shortest / (total * PART) } else { 1.0 };
        TABLES.iter().find(|(least, _)| slowest >= *least).map_or(32, |&(_, divisions)| divisions)
    }
}

/// The length of a curve, metres.
pub(super) fn length(curve: &CubicBezierSegment<f64>) -> f64 {
    Measured::of(curve).total()
}

/// The table of a curve at equal lengths: its parameter, its change for each metre, and the heading, unwrapped from one to
/// another.
pub(super) fn table(curve: &CubicBezierSegment<f64>, headings: (f64, f64)) -> Vec<[f64; 3]> {
    let measured = Measured::of(curve);
    let (total, divisions, lengths) = (measured.total(), measured.divisions(), &measured.lengths);
    let is_even = divisions == TABLES[0].1;
    let mut table = Vec::with_capacity(divisions + 1);
    let mut index = 0;
    let mut before = Some(headings.0);
    // The last parameter, and how it changes for each metre there.
    let mut last = (0.0, 0.0);
    // On curves of many metres nobody sees a millionth of them.
    let close = (total * 1e-8).max(1e-7);
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
        let mut parameter = ((index as f64 + inside) * PART).clamp(0.0, 1.0);
        if !is_even {
            let begin = index as f64 * PART;
            // What is next to the last one is the better guess, where it is one.
            let next = last.0 + last.1 * total / divisions as f64;
            let guess = if next > begin && next < begin + PART { next } else { parameter };
            parameter = solve((begin, begin + PART), guess, close, |at| {
                (from + measured.between(begin, at) - wanted, measured.speed(at))
            });
        }
        let derivative = curve.derivative(parameter);
        let change = 1.0 / derivative.length().max(total * 1e-3).max(NOTHING);
        let mut heading = heading(derivative);
        before = Some(unwrap_near(&mut heading, before));
        last = (parameter, change);
        table.push([parameter, change, heading]);
    }
    end_in(&mut table, headings.1);
    table
}

/// Has the headings end in one that is known. A curve that all but turns back on itself may turn by more than half a turn
/// between two entries, which unwraps the wrong way: what comes after the greatest step is put right.
fn end_in(table: &mut [[f64; 3]], end: f64) {
    let out = table.last().map_or(0.0, |last| ((end - last[2]) / 360.0).round() * 360.0);
    if out == 0.0 {
        return;
    }
    let step = |pair: &[[f64; 3]]| match pair {
        [one, next] => (next[2] - one[2]).abs(),
        _ => 0.0,
    };
    let steps = table.windows(2).map(step).enumerate();
    let greatest = steps.max_by(|one, other| one.1.total_cmp(&other.1)).map_or(0, |(index, _)| index);
    for entry in table.iter_mut().skip(greatest + 1) {
        entry[2] += out;
    }
}

/// Where a rising function, given with its slope, is nought between two ends: Newton's method, kept between the
/// ends by halving where the slope would lead out of them, until its value is as close to nought as wanted.
fn solve((mut low, mut high): (f64, f64), first: f64, close: f64, rising: impl Fn(f64) -> (f64, f64)) -> f64 {
    let mut at = first;
    for _ in 0..40 {
        let (value, slope) = rising(at);
        if value.abs() < close {
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
