//! How evenly a course turns, found from its lines and tables themselves, so that nothing is missed between samples.

use super::{Course, PieceLine};
use crate::motion::up_to::up_to;

impl Course {
    /// How far, degrees, the heading is at the most from what even turning between two places, metres along, would
    /// make it, and how far it turns between them; nothing where they are not on one piece of the course.
    pub(in crate::motion) fn wavering(&self, from: f64, to: f64) -> Option<(f64, f64)> {
        let index = up_to(&self.starts, from, |start| *start).checked_sub(1)?;
        let (piece, start) = (self.pieces.get(index)?, self.starts.get(index)?);
        let share = |metres: f64| (metres - start) / piece.length;
        let (from, to) = (share(from), share(to));
        if to > 1.0 + 1e-9 {
            return None;
        }
        let (begin, end) = (piece.at(from).heading, piece.at(to).heading);
        let off = match &piece.line {
            PieceLine::Straight { .. } | PieceLine::Arc { .. } => 0.0,
            // The table is joined by straight lines, so it is farthest from its chord at one of its entries.
            PieceLine::Curve(curve) => curve.entries(from, to).fold(0.0, |most: f64, (share, heading)| {
                let even = begin + (end - begin) * (share - from) / (to - from);
                most.max((heading - even).abs())
            }),
        };
        Some((off, end - begin))
    }
}
