//! The way over to the opposite, past them by the right shoulder: what both forms of corners have.

use crate::motion::Stand;

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

    /// The points that its line goes through, with a bow of so many metres.
    pub(super) fn points(&self, bow: f64) -> [(f64, f64); 3] {
        [self.at(0.32, 0.0), self.at(0.5, bow), self.at(0.68, 0.0)]
    }
}
