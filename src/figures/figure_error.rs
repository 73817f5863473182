use crate::dance::{did_you_mean, quoted, shown_text};
use thiserror::Error;

/// Why a figure cannot be worked out.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum FigureError {
    /// No figure has this name.
    #[error("no figure is named {}{meant}; the figures are {known}", quoted(name))]
    Unknown {
        /// The name asked for.
        name: String,
        /// The figure that may have been meant, as `did_you_mean` puts it.
        meant: String,
        /// The names that there are.
        known: String,
    },
    /// A choice that the figure does not have.
    #[error("{figure} has no choice {}{}; it has {known}", quoted(key), did_you_mean(key, known.split(", ")))]
    NoChoice {
        /// The figure.
        figure: &'static str,
        /// The key.
        key: String,
        /// The keys that it has.
        known: String,
    },
    /// A choice with a value that it cannot have.
    #[error("{figure}: {key} is {}; expected {wanted}", shown_text(value))]
    Value {
        /// The figure.
        figure: &'static str,
        /// The key.
        key: &'static str,
        /// The value as it was given.
        value: String,
        /// What was expected.
        wanted: String,
    },
    /// A set that cannot dance it.
    #[error("{figure} cannot be danced by this set: {why}")]
    Set {
        /// The figure.
        figure: &'static str,
        /// Why not.
        why: String,
    },
}
