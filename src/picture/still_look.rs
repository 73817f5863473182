use super::{Ink, PAPER, Picture, SLATE, StillChoice, still};
use crate::dance::Dance;
use crate::figures::figure_name_at;
use crate::motion::Motion;
use serde::{Deserialize, Serialize};

/// The smallest and the largest side of a still, pixels.
pub const STILL_SIZES: [u32; 2] = [16, 8192];

/// The colours that a picture is drawn in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Theme {
    /// Chalk on slate.
    #[default]
    Slate,
    /// Ink on paper.
    Paper,
}

impl Theme {
    /// Each of them.
    pub const ALL: [Self; 2] = [Self::Slate, Self::Paper];

    /// Its colours.
    #[must_use]
    pub fn ink(self) -> Ink {
        match self {
            Self::Slate => SLATE,
            Self::Paper => PAPER,
        }
    }

    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Slate => "slate",
            Self::Paper => "paper",
        }
    }

    /// How it looks, in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Slate => "chalk on slate",
            Self::Paper => "ink on paper",
        }
    }
}

/// What a person chooses about a still.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct StillLook {
    /// Pixels along each side.
    pub size: u32,
    /// Whether paths are drawn.
    pub trails: bool,
    pub theme: Theme,
}

impl Default for StillLook {
    fn default() -> Self {
        Self { size: 1200, trails: false, theme: Theme::default() }
    }
}

impl StillLook {
    /// The nearest that can be drawn.
    #[must_use]
    pub fn sane(self) -> Self {
        Self { size: self.size.clamp(STILL_SIZES[0], STILL_SIZES[1]), ..self }
    }
}

/// The picture of a dance at a count from the start of its motion. Under it stands `figure`, or left out, the figure that is danced then.
#[must_use]
pub fn still_of(
    dance: &Dance,
    motion: &Motion,
    count: f64,
    figure: Option<&str>,
    look: StillLook,
) -> Picture {
    let figure = figure.map_or_else(|| figure_name_at(dance, motion, count), ToOwned::to_owned);
    let choice = StillChoice {
        size: look.size,
        trails: look.trails,
        ink: look.theme.ink(),
        title: dance.title.clone(),
        holding: dance.holding,
        figure,
    };
    still(motion, count, &choice)
}
