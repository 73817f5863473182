use std::fmt;

/// What is told of a tune that is read all the same.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TuneRemark {
    /// The line of the ABC text, from 1.
    pub line: usize,
    /// A sentence without its full stop.
    pub said: String,
}

impl fmt::Display for TuneRemark {
    fn fmt(&self, formatter: &mut fmt::Formatter) -> fmt::Result {
        write!(formatter, "line {}: {}", self.line, self.said)
    }
}
