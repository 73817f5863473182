use crate::dance::{did_you_mean, quoted, shown_text};
use thiserror::Error;

/// Why a figure cannot be worked out.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum FigureError {
    /// No figure has this name.
    #[error("no figure is named {}{meant}; the figures are {known}", quoted(name))]
    Unknown {
        /// As it was given.
        name: String,
        /// The figure that may have been meant, as `did_you_mean` puts it.
        meant: String,
        /// The names that there are.
        known: String,
    },
    /// A choice that the figure does not have.
    #[error("{figure} has no choice {}{}; it has {known}", quoted(key), did_you_mean(key, known.split(", ")))]
    NoChoice {
        figure: &'static str,
        /// As it was given.
        key: String,
        /// The keys that it has.
        known: String,
    },
    /// A choice with a value that it cannot have.
    #[error("{figure}: {key} is {}; expected {wanted}", shown_text(value))]
    Value {
        figure: &'static str,
        /// As it was given.
        key: &'static str,
        /// The value as it was given.
        value: String,
        /// Such as `0.4 to 2 m`.
        wanted: String,
    },
    /// A set that cannot dance it.
    #[error("{figure} cannot be danced by this set: {why}")]
    Set {
        figure: &'static str,
        /// Such as `it needs six dancers`, to go after a colon.
        why: String,
    },
}
