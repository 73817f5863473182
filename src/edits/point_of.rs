/// One of the points of a dancer's path.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct PointOf {
    /// The index of its leg.
    pub leg: usize,
    /// The index of the point on the way; nothing for the leg's end.
    pub point: Option<usize>,
}

impl PointOf {
    /// A point on the way of a leg, both by index.
    #[must_use]
    pub fn through(leg: usize, point: usize) -> Self {
        Self { leg, point: Some(point) }
    }

    /// Where a leg ends, by index.
    #[must_use]
    pub fn end(leg: usize) -> Self {
        Self { leg, point: None }
    }
}
