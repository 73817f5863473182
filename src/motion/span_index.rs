/// Which line of the running order is danced: the index of its [`Span`](super::Span) in a motion, from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SpanIndex(pub usize);

impl SpanIndex {
    /// Where a list of one for each line of the running order has this one's.
    #[must_use]
    pub fn index(self) -> usize {
        self.0
    }

    /// The one danced after it, whether there is one or not.
    #[must_use]
    pub fn next(self) -> Self {
        Self(self.0 + 1)
    }

    /// The one danced before it; nothing before the first.
    #[must_use]
    pub fn before(self) -> Option<Self> {
        self.0.checked_sub(1).map(Self)
    }
}
