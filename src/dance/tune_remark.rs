use std::fmt;

/// What is told of a tune that is read all the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TuneRemark {
    /// The line of the ABC text, from 1.
    pub line: usize,
    /// A sentence without its full stop.
    pub said: String,
    /// Whether something is wrong with the tune; otherwise the tune is in order, and something of it is neither played nor drawn.
    pub is_odd: bool,
}

impl fmt::Display for TuneRemark {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        write!(formatter, "line {}: {}", self.line, self.said)
    }
}
