//! `bellpad moving`: a figure as a moving picture.

use super::{Outcome, Said, opening::open_motion, progress::Progress};
use crate::handout::moving::{MovingChoice, MovingKind, moving};
use crate::store;
use clap::Args;
use std::path::PathBuf;

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
    /// Pixels along each side
    #[arg(long, value_name = "PX", default_value_t = 360, allow_negative_numbers = true)]
    pub size: u32,
    /// Percent of the tune's speed
    #[arg(long, value_name = "PERCENT", default_value_t = 100, allow_negative_numbers = true)]
    pub speed: u32,
    /// Pictures a second
    #[arg(long, value_name = "N", default_value_t = 12, allow_negative_numbers = true)]
    pub fps: u32,
}

/// Writes the moving picture.
pub(super) fn run(asked: &Moving) -> Said<Outcome> {
    let kind = MovingKind::of(&asked.out)?;
    let (dance, motion, name) = open_motion(&asked.file, Some(&asked.figure))?;
    let choice = MovingChoice {
        size: asked.size,
        speed: asked.speed,
        rate: asked.fps,
        figure: name.unwrap_or_default(),
        ..MovingChoice::default()
    };
    let mut progress = Progress::of("picture");
    let bytes = moving(&dance, &motion, kind, &choice, &mut |done, of| progress.at(done, of));
    drop(progress);
    store::write_whole(&asked.out, &bytes?)?;
    Ok(Outcome::Fine)
}
