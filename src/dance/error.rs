use std::fmt;

/// Where in a file something is wrong.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum InFile {
    /// The file as a whole.
    Whole,
    /// A line and a column, both from 1.
    Line {
        /// From 1.
        line: usize,
        /// From 1, in bytes.
        column: usize,
    },
    /// A key, such as `figures[2].bars`, and where the reader was.
    Key {
        /// Such as `figures[2].bars`.
        path: String,
        /// From 1, where it is known.
        line: Option<usize>,
    },
}

/// What is wrong with a dance, and where: one sentence.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{place}{message}")]
pub struct DanceError {
    pub place: InFile,
    /// What is wrong and what was expected.
    pub message: String,
}

impl fmt::Display for InFile {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Whole => Ok(()),
            Self::Line { line, column } => write!(f, "line {line}, column {column}: "),
            Self::Key { path, line: Some(line) } => write!(f, "{path} (line {line}): "),
            Self::Key { path, line: None } => write!(f, "{path}: "),
        }
    }
}

impl DanceError {
    /// An error about the whole file.
    #[must_use]
    pub fn whole(message: impl Into<String>) -> Self {
        Self { place: InFile::Whole, message: message.into() }
    }

    /// An error about a key.
    #[must_use]
    pub fn key(path: impl Into<String>, message: impl Into<String>) -> Self {
        Self { place: InFile::Key { path: path.into(), line: None }, message: message.into() }
    }
}
