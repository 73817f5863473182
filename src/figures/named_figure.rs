use super::{Choice, Choices, FigureError};
use crate::motion::{Ground, Plan};

/// A figure that is known by name.
pub struct NamedFigure {
    /// The name that files and the command line use.
    pub name: &'static str,
    /// The name that people read.
    pub title: &'static str,
    /// What it is, in a line.
    pub help: &'static str,
    /// What a side can choose about it.
    pub choices: &'static [Choice],
    /// What everybody does in it on a ground.
    pub(super) plan: fn(&Ground, &Choices) -> Result<Plan, FigureError>,
}
