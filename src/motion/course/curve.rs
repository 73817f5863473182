use super::OnCourse;
use super::heading::{heading, unwrap_near};
use super::measure::{length, table};
use super::turning::{Turning, turning};
use crate::motion::cubics::hermite;
use lyon::geom::CubicBezierSegment;
use std::sync::OnceLock;

/// A curve that is travelled by its length. A leg may have a thousand of them, and few are ever looked at closely, so the
/// table that finds a place on one is made when one is first asked for.
#[derive(Clone, Debug)]
pub(super) struct Curve {
    pub line: CubicBezierSegment<f64>,
    /// The heading at its start, degrees clockwise from up, unwrapped along the course.
    begin: f64,
    turning: Turning,
    /// At equal lengths: the curve's parameter, its change for each metre, and the heading.
    table: OnceLock<Vec<[f64; 3]>>,
}

impl Curve {
    pub(super) fn of(line: CubicBezierSegment<f64>) -> Self {
        let begin = heading(line.derivative(0.0));
        Self { line, begin, turning: turning(&line), table: OnceLock::new() }
    }

    /// Metres.
    pub(super) fn length(&self) -> f64 {
        length(&self.line)
    }

    /// Bytes of its table, where it has been made.
    pub(super) fn bytes(&self) -> usize {
        self.table.get().map_or(0, |table| size_of_val(table.as_slice()))
    }

    /// Moves its headings by whole turns to go on from the one before it, and gives the last of them.
    pub(super) fn unwrap_headings(&mut self, before: Option<f64>) -> f64 {
        self.table = OnceLock::new();
        unwrap_near(&mut self.begin, before) + self.turning.whole
    }

    /// The headings at its start and at its end.
    pub(super) fn end_headings(&self) -> (f64, f64) {
        (self.begin, self.begin + self.turning.whole)
    }

    /// The least and the most of its headings.
    pub(super) fn headings(&self) -> (f64, f64) {
        (self.begin + self.turning.least, self.begin + self.turning.most)
    }

    pub(super) fn table(&self) -> &[[f64; 3]] {
        self.table.get_or_init(|| table(&self.line, self.end_headings()))
    }

    /// The most that the heading turns anywhere, degrees for the whole of the length.
    pub(super) fn sharpest(&self) -> f64 {
        let table = self.table();
        let steps = table.windows(2).map(|pair| match pair {
            [one, next] => (next[2] - one[2]).abs(),
            _ => 0.0,
        });
        steps.fold(0.0, f64::max) * table.len().saturating_sub(1) as f64
    }

    /// The entries of the table between two shares of the length: the share and the heading of each.
    pub(super) fn entries(&self, from: f64, to: f64) -> impl Iterator<Item = (f64, f64)> {
        let table = self.table();
        let divisions = table.len().saturating_sub(1) as f64;
        let (low, high) = ((from * divisions).ceil() as usize, (to * divisions).floor() as usize);
        let entries = table.get(low..=high).unwrap_or_default().iter().zip(low..);
        entries.map(move |([_, _, heading], entry)| (entry as f64 / divisions, *heading))
    }

    /// The place at a share of the length, which is so many metres.
    pub(super) fn at(&self, length: f64, share: f64) -> OnCourse {
        let table = self.table();
        let divisions = table.len().saturating_sub(1).max(1);
        let place = (share * divisions as f64).clamp(0.0, divisions as f64);
        let index = (place as usize).min(divisions - 1);
        let inside = place - index as f64;
        let (Some(&[p0, d0, h0]), Some(&[p1, d1, h1])) = (table.get(index), table.get(index + 1)) else {
            return OnCourse { x: self.line.to.x, y: self.line.to.y, heading: self.end_headings().1 };
        };
        let step = length / divisions as f64;
        let place = self.line.sample(hermite(p0, d0 * step, p1, d1 * step, inside));
        OnCourse { x: place.x, y: place.y, heading: h0 + (h1 - h0) * inside }
    }

    /// The share of the length, which is so many metres, at which a parameter is reached.
    pub(super) fn share_at(&self, length: f64, parameter: f64) -> f64 {
        let table = self.table();
        let divisions = table.len().saturating_sub(1).max(1);
        let index = table.partition_point(|row| row[0] <= parameter).saturating_sub(1).min(divisions - 1);
        let (Some(&[p0, d0, _]), Some(&[p1, d1, _])) = (table.get(index), table.get(index + 1)) else {
            return 1.0;
        };
        let step = length / divisions as f64;
        let (mut low, mut high) = (0.0, 1.0);
        for _ in 0..40 {
            let middle = f64::midpoint(low, high);
            if hermite(p0, d0 * step, p1, d1 * step, middle) < parameter {
                low = middle;
            } else {
                high = middle;
            }
        }
        (index as f64 + high) / divisions as f64
    }
}
