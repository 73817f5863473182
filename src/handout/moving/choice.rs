//! What a moving picture is to be.

use super::MovingError;
use crate::dance::Dancer;
use crate::picture::{EyeSide, Ink, SLATE};
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

/// From where a moving picture is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum SeenFrom {
    /// The floor, from above.
    #[default]
    Above,
    /// Bodies at eye level that face you.
    Front,
    /// Bodies at eye level, from behind.
    Behind,
    /// Bodies at eye level, from their right side.
    Side,
}

impl SeenFrom {
    /// Each of them.
    pub const ALL: [Self; 4] = [Self::Above, Self::Front, Self::Behind, Self::Side];

    /// From where bodies are seen at eye level; nothing where the floor is seen.
    #[must_use]
    pub fn eye(self) -> Option<EyeSide> {
        match self {
            Self::Above => None,
            Self::Front => Some(EyeSide::Front),
            Self::Behind => Some(EyeSide::Behind),
            Self::Side => Some(EyeSide::Side),
        }
    }

    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        self.eye().map_or("above", EyeSide::word)
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
    /// From where it is seen.
    pub seen: SeenFrom,
    /// Who is seen alone at eye level, and ringed on the floor; nobody for everyone alike.
    pub dancer: Option<Dancer>,
    pub ink: Ink,
}

impl Default for MovingChoice {
    fn default() -> Self {
        Self {
            size: 360,
            speed: 100,
            rate: 12,
            figure: String::new(),
            seen: SeenFrom::Above,
            dancer: None,
            ink: SLATE,
        }
    }
}
