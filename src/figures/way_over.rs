//! The way over to the opposite, past them by the right shoulder: what both forms of corners have.

use crate::motion::Stand;

/// At how many places the way is looked at for those who stand.
const LOOKS: u32 = 16;
/// How far the middle of whoever stands has to be from the way, metres: two bodies however they face, and the room that is not
/// tight (0.25 + 0.25 + 0.10 m, worked out from the usual limits), and a little for what the bow is more than a parabola.
const ROOM: f64 = 0.65;

/// Straight over but for a short bow to the dancer's own left, so that those who stand are given room.
pub(super) struct WayOver {
    from: (f64, f64),
    over: (f64, f64),
    /// How long it is, metres.
    pub length: f64,
    /// Facing the opposite, degrees clockwise from up.
    pub facing: f64,
}

impl WayOver {
    /// From one place to another.
    pub(super) fn between(from: &Stand, to: &Stand) -> Self {
        let over @ (dx, dy) = (to.x - from.x, to.y - from.y);
        Self { from: (from.x, from.y), over, length: dx.hypot(dy), facing: dx.atan2(dy).to_degrees() }
    }

    /// The place at a share of the way over, and so many metres to the left of it.
    pub(super) fn at(&self, share: f64, left: f64) -> (f64, f64) {
        let ((x, y), (dx, dy)) = (self.from, self.over);
        (x + dx * share - dy / self.length * left, y + dy * share + dx / self.length * left)
    }

    /// The points that its line goes through, with a bow of so many metres: one bow all the way where that leaves room to those who
    /// stand, and else a short one in the midst.
    pub(super) fn points<'a>(&self, bow: f64, standing: impl Iterator<Item = &'a Stand>) -> Vec<(f64, f64)> {
        // A bow through its middle is near a parabola.
        let looks: Vec<(f64, f64)> = (1..LOOKS)
            .map(|look| f64::from(look) / f64::from(LOOKS))
            .map(|share| self.at(share, 4.0 * bow * share * (1.0 - share)))
            .collect();
        let mut standing = standing;
        let is_clear =
            standing.all(|stand| looks.iter().all(|(x, y)| (stand.x - x).hypot(stand.y - y) >= ROOM));
        if is_clear {
            vec![self.at(0.5, bow)]
        } else {
            vec![self.at(0.32, 0.0), self.at(0.5, bow), self.at(0.68, 0.0)]
        }
    }
}
