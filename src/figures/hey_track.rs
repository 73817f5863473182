//! The track that a file dances a hey on.

use crate::dance::{Leg, LegFacing};

/// How much of a wave three times as narrow is laid over the track of four along the file, so that the loops at the ends are
/// as long as the one in the middle (chosen for this program).
const EVEN_LOOPS: f64 = 0.1;
/// The same across the file where loops are deep and narrow, so that nobody has to spin at the tip of one.
const BLUNT: f64 = 0.075;
/// Loops that are this deep for their length begin to be made blunt, and are wholly so where they are so much deeper.
const DEEP: (f64, f64) = (0.85, 0.3);

/// The track of the left file, metres. An angle goes once round it, degrees: 0 at the top of the file, down one
/// strand of each loop to 180 at the bottom, and up the other.
pub(super) struct Eight {
    /// x of the file.
    pub file: f64,
    /// How far the inside strand comes in from the file.
    pub inside: f64,
    /// How far the outside strand goes out from it.
    pub outside: f64,
    /// From the middle to the end of the file.
    pub half: f64,
    /// How many stand in the file, three or four.
    pub ranks: usize,
    /// Whether those at the top go outside first.
    pub tops_out: bool,
}

impl Eight {
    /// Loops that the two strands make from end to end of the file.
    fn loops(&self) -> f64 {
        self.ranks.saturating_sub(1) as f64
    }

    fn place(&self, angle: f64) -> (f64, f64) {
        let angle = angle.to_radians();
        let deep = self.inside.max(self.outside) * self.loops() / (2.0 * self.half).max(1e-6);
        let blunt = BLUNT * ((deep - DEEP.0) / DEEP.1).clamp(0.0, 1.0);
        let wave = self.loops() * angle;
        let across = (wave.sin() + blunt * (3.0 * wave).sin()) / (1.0 - blunt);
        let across = if self.tops_out { -across } else { across };
        let width = if across > 0.0 { self.inside } else { self.outside };
        let even = if self.ranks == 4 { EVEN_LOOPS } else { 0.0 };
        let along = (angle.cos() + even * (3.0 * angle).cos()) / (1.0 + even);
        // Whole micrometres: a sine can differ in its last place from build to build, and the timing would as well.
        let whole = |metres: f64| (metres * 1e6).round() / 1e6;
        (whole(self.file + width * across), whole(self.half * along))
    }

    /// Half the track between two counts, from an angle through points so far on, to a place along the file.
    pub(super) fn leg(&self, (begin, end): (f64, f64), from: f64, points: &[f64], to: f64) -> Leg {
        let points: Vec<(f64, f64)> = points.iter().map(|point| self.place(from + point)).collect();
        Leg::smooth(begin, end, &points, self.file, to).facing(LegFacing::Forwards)
    }
}
