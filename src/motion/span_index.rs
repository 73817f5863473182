/// Which figure of the running order as it is danced: the index of its [`Span`](super::Span), from 0.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct SpanIndex(pub usize);

impl SpanIndex {
    /// Where a list of one for each span has it.
    #[must_use]
    pub fn index(self) -> usize {
        self.0
    }
}
