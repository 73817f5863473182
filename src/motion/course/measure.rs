//! How long a curve is, and a table to travel it by equal lengths.

use super::heading::{heading, unwrap_near};
use crate::motion::cubics::hermite;
use lyon::geom::CubicBezierSegment;

/// How many equal lengths a curve's table divides it into, by how slow its slowest part is beside the whole (both
/// as speeds in the curve's parameter). A curve that all but stops, as one that turns back on itself does, needs
/// a finer table to be held to a millimetre, since its parameter runs away there.
const TABLES: [(f64, usize); 3] = [(0.7, 32), (0.25, 256), (0.0, 2048)];

/// Gentle curves: how much of its fastest speed one has at the least along its chord, how many parts it is measured in (which
/// finds it to a billionth of its length), and how many equal lengths its table has.
const GENTLE: [(f64, usize, usize); 2] = [(0.9, 8, 16), (0.5, 16, 32)];

/// Speeds below this, metres for the whole of the parameter, are none.
const NOTHING: f64 = 1e-9;

/// How many parts a curve is measured in, at the most.
const MEASURE: usize = 64;

/// A curve measured in equal parts of its parameter, each by Gauss-Legendre quadrature with three points.
struct Measured<'a> {
    curve: &'a CubicBezierSegment<f64>,
    /// How many equal lengths its table has, where it is gentle.
    gentle: Option<usize>,
    /// How many parts there are.
    parts: usize,
    /// The length up to each part and to the end, metres.
    lengths: [f64; MEASURE + 1],
    /// The length of the shortest part, metres.
    shortest: f64,
    /// Metres.
    total: f64,
}

impl<'a> Measured<'a> {
    fn of(curve: &'a CubicBezierSegment<f64>) -> Self {
        let even = evenness(curve);
        let gentle = GENTLE.iter().find(|(least, ..)| even >= *least);
        let (parts, gentle) = gentle.map_or((MEASURE, None), |&(_, parts, table)| (parts, Some(table)));
        let lengths = [0.0; MEASURE + 1];
        let mut measured = Self { curve, gentle, parts, lengths, shortest: f64::INFINITY, total: 0.0 };
        let part = measured.part();
        for index in 0..parts {
            let length = measured.between(index as f64 * part, (index as f64 + 1.0) * part);
            measured.shortest = measured.shortest.min(length);
            measured.total += length;
            if let Some(slot) = measured.lengths.get_mut(index + 1) {
                *slot = measured.total;
            }
        }
        measured
    }

    /// How much of the parameter one part is.
    fn part(&self) -> f64 {
        1.0 / self.parts as f64
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
        if let Some(divisions) = self.gentle {
            return divisions;
        }
        let slowest = if self.total > 0.0 { self.shortest / (self.total * self.part()) } else { 1.0 };
        TABLES.iter().find(|(least, _)| slowest >= *least).map_or(32, |&(_, divisions)| divisions)
    }
}

/// How much of its fastest speed a curve has at the least along its chord: how it goes is at no parameter outside the triangle
/// of its three control vectors.
fn evenness(curve: &CubicBezierSegment<f64>) -> f64 {
    let along = curve.to - curve.from;
    let long = along.length();
    let vectors = [curve.ctrl1 - curve.from, curve.ctrl2 - curve.ctrl1, curve.to - curve.ctrl2];
    let fastest = vectors.iter().map(|vector| vector.length()).fold(0.0, f64::max);
    let slowest = vectors.iter().map(|vector| vector.dot(along)).fold(f64::INFINITY, f64::min);
    if long > NOTHING { slowest / (fastest * long) } else { 0.0 }
}

/// The length of a curve, metres.
pub(super) fn length(curve: &CubicBezierSegment<f64>) -> f64 {
    Measured::of(curve).total
}

/// The table of a curve at equal lengths: its parameter, its change for each metre, and the heading, unwrapped from one to
/// another.
pub(super) fn table(curve: &CubicBezierSegment<f64>, headings: (f64, f64)) -> Vec<[f64; 3]> {
    let measured = Measured::of(curve);
    let (total, divisions, lengths) = (measured.total, measured.divisions(), &measured.lengths);
    let (parts, part) = (measured.parts, measured.part());
    let is_even = measured.gentle.is_none() && divisions == TABLES[0].1;
    let mut table = Vec::with_capacity(divisions + 1);
    let mut index = 0;
    let mut before = Some(headings.0);
    // The part of a gentle curve that was looked at last, and the speeds at its two ends.
    let mut speeds: Option<(usize, f64, f64)> = None;
    // The last parameter, and how it changes for each metre there.
    let mut last = (0.0, 0.0);
    // On curves of many metres nobody sees a millionth of them.
    let close = (total * 1e-8).max(1e-7);
    for entry in 0..=divisions {
        let wanted = total * entry as f64 / divisions as f64;
        while index + 1 < parts && lengths.get(index + 1).is_some_and(|&length| length < wanted) {
            index += 1;
        }
        let (from, to) = match lengths.get(index..index + 2) {
            Some(&[from, to]) => (from, to),
            _ => (0.0, total),
        };
        let inside = if to > from { (wanted - from) / (to - from) } else { 0.0 };
        let mut parameter = ((index as f64 + inside) * part).clamp(0.0, 1.0);
        if measured.gentle.is_some() {
            // How the parameter changes with the length is known at both ends of the part.
            if speeds.is_none_or(|(known, ..)| known != index) {
                let at_end = |end: usize| measured.speed(end as f64 * part);
                let leave = speeds.filter(|(known, ..)| known + 1 == index).map(|(_, _, arrive)| arrive);
                speeds = Some((index, leave.unwrap_or_else(|| at_end(index)), at_end(index + 1)));
            }
            if let Some((_, leave, arrive)) = speeds {
                let long = to - from;
                let begin = index as f64 * part;
                parameter = hermite(begin, long / leave, begin + part, long / arrive, inside).clamp(0.0, 1.0);
            }
        } else if !is_even {
            let begin = index as f64 * part;
            // What is next to the last one is the better guess, where it is one.
            let next = last.0 + last.1 * total / divisions as f64;
            let guess = if next > begin && next < begin + part { next } else { parameter };
            parameter = solve((begin, begin + part), guess, close, |at| {
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
