//! What a moving picture is to be.

use super::MovingError;
use crate::picture::{Ink, SLATE};
use serde::{Deserialize, Serialize};
use std::path::Path;

/// The smallest and the largest side, pixels.
pub const SIZES: [u32; 2] = [64, 1080];

/// The fewest and the most pictures a second.
pub const RATES: [u32; 2] = [1, 30];

/// The slowest and the fastest, percent of the tune's speed.
pub const SPEEDS: [u32; 2] = [10, 200];

/// The kinds of file that a moving picture is written as.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum MovingKind {
    Png,
    Gif,
}

impl MovingKind {
    /// The kind that the ending of a file's name says, in any case.
    ///
    /// # Errors
    /// When it is neither.
    pub fn of(path: &Path) -> Result<Self, MovingError> {
        let ending = path.extension().and_then(|ending| ending.to_str()).unwrap_or_default().to_lowercase();
        match ending.as_str() {
            "png" | "apng" => Ok(Self::Png),
            "gif" => Ok(Self::Gif),
            _ => Err(MovingError::Ending(path.to_owned())),
        }
    }
}

/// How a figure is to move.
#[derive(Clone, Debug)]
pub struct MovingChoice {
    /// Pixels along each side.
    pub size: u32,
    /// Percent of the tune's own speed.
    pub speed: u32,
    /// Pictures a second.
    pub rate: u32,
    /// What the figure is called.
    pub figure: String,
    pub ink: Ink,
}

impl Default for MovingChoice {
    fn default() -> Self {
        Self { size: 360, speed: 100, rate: 12, figure: String::new(), ink: SLATE }
    }
}
