//! `bellpad moving`: a figure as a moving picture.

use super::{Outcome, Said, VerbError, opening::open_motion, progress::Progress, still::Theme};
use crate::dance::Number;
use crate::handout::moving::{MovingChoice, MovingKind, SeenFrom, moving};
use crate::picture;
use crate::store;
use clap::{Args, ValueEnum};
use std::path::PathBuf;

/// From where a moving picture is seen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Seen {
    /// The floor, from above
    #[default]
    Above,
    /// Bodies at eye level, facing you
    Front,
    /// Bodies at eye level, from behind
    Behind,
    /// Bodies at eye level, from their right side
    Side,
}

impl From<Seen> for SeenFrom {
    fn from(seen: Seen) -> Self {
        match seen {
            Seen::Above => Self::Above,
            Seen::Front => Self::Front,
            Seen::Behind => Self::Behind,
            Seen::Side => Self::Side,
        }
    }
}

/// Write a figure as a moving picture.
#[derive(Debug, Args)]
pub struct Moving {
    /// The dance file
    pub file: PathBuf,
    /// The figure, by id or name
    #[arg(long)]
    pub figure: String,
    /// The moving picture to write, .png or .gif
    #[arg(short, value_name = "OUT.png|.gif")]
    pub out: PathBuf,
    /// From above, or at eye level
    #[arg(long, value_enum, default_value_t)]
    pub seen: Seen,
    /// This number alone at eye level; from above, with a ring round it
    #[arg(long, value_name = "N")]
    pub dancer: Option<u32>,
    /// Pixels along each side
    #[arg(long, value_name = "PX", default_value_t = 360, allow_negative_numbers = true)]
    pub size: u32,
    /// Percent of the tune's speed
    #[arg(long, value_name = "PERCENT", default_value_t = 100, allow_negative_numbers = true)]
    pub speed: u32,
    /// Pictures a second
    #[arg(long, value_name = "N", default_value_t = 12, allow_negative_numbers = true)]
    pub fps: u32,
    /// The colours: chalk on slate, or ink on paper
    #[arg(long, value_enum, default_value_t)]
    pub theme: Theme,
}

/// Writes the moving picture.
pub(super) fn run(asked: &Moving) -> Said<Outcome> {
    let kind = MovingKind::of(&asked.out)?;
    let (dance, motion, name) = open_motion(&asked.file, Some(&asked.figure))?;
    let dancers = motion.dancers();
    if let Some(number) = asked.dancer.filter(|number| !Number(*number).is_in(dancers as u32)) {
        return Err(VerbError::NoDancer { path: asked.file.clone(), number, last: dancers });
    }
    let choice = MovingChoice {
        size: asked.size,
        speed: asked.speed,
        rate: asked.fps,
        figure: name.unwrap_or_default(),
        seen: asked.seen.into(),
        ink: picture::Theme::from(asked.theme).ink(),
        dancer: asked.dancer.map(|number| Number(number).dancer()),
    };
    let mut progress = Progress::of("picture");
    let bytes = moving(&dance, &motion, kind, &choice, &mut |done, of| progress.at(done, of));
    drop(progress);
    store::write_whole(&asked.out, &bytes?)?;
    Ok(Outcome::Fine)
}
