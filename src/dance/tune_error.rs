use thiserror::Error;

/// Why a tune cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("line {line}: {wrong}")]
pub struct TuneError {
    /// The line of the ABC text, from 1.
    pub line: usize,
    /// A sentence without its full stop.
    pub wrong: String,
}
