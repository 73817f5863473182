use super::error::VerbError;

/// How a verb ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// All is well.
    Fine,
    /// Faults were found.
    Faults,
    /// Something could not be done and has been said.
    Undone,
}

impl Outcome {
    /// The exit code.
    #[must_use]
    pub fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Faults => 1,
            Self::Undone => 2,
        }
    }
}

/// What a verb gives, or why it could not be done.
pub type Said<T> = Result<T, VerbError>;
