//! `bellpad still`: the floor at a count, or at many.

use super::{
    Outcome, Said, VerbError, numbered_pages, opening::count_in, opening::open_motion,
    progress::SharedProgress,
};
use crate::dance::{Dance, shown_name};
use crate::motion::{Moment, Motion};
use crate::picture::{self, PictureKind, STILL_SIZES, StillLook, still_of};
use crate::store::{self, PageSet, PagesOf};
use clap::{ArgGroup, Args, ValueEnum};
use rayon::prelude::*;
use std::path::PathBuf;

/// The most stills at once.
const MOST: usize = 20_000;

/// Draw the floor.
#[derive(Debug, Args)]
#[command(group = ArgGroup::new("when").required(true))]
pub struct StillAt {
    /// The dance file
    pub file: PathBuf,
    /// Only this figure, by id or name; bars are then its own
    #[arg(long)]
    pub figure: Option<String>,
    /// The moment, BAR:COUNT
    #[arg(long, value_name = "BAR:COUNT", group = "when")]
    pub at: Option<Moment>,
    /// From the start to the end, once in so many counts: OUT-1.png and so on; stills of an earlier run that are no
    /// longer part of them are taken away
    #[arg(long, value_name = "COUNTS", group = "when", allow_negative_numbers = true)]
    pub every: Option<f64>,
    /// The picture to write, .png or .svg
    #[arg(short, value_name = "OUT.png|.svg")]
    pub out: PathBuf,
    /// Write numbered stills over files that this program did not write, too
    #[arg(long)]
    pub force: bool,
    /// Pixels along each side
    #[arg(long, value_name = "PX", default_value_t = 1200, allow_negative_numbers = true)]
    pub size: u32,
    /// Draw the paths as well
    #[arg(long)]
    pub trails: bool,
    /// The colours: chalk on slate, or ink on paper
    #[arg(long, value_enum, default_value_t)]
    pub theme: Theme,
}

/// The colours that a picture is drawn in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum Theme {
    /// Chalk on slate
    #[default]
    Slate,
    /// Ink on paper
    Paper,
}

impl From<Theme> for picture::Theme {
    fn from(theme: Theme) -> Self {
        match theme {
            Theme::Slate => Self::Slate,
            Theme::Paper => Self::Paper,
        }
    }
}

/// Draws what is asked for.
pub(super) fn run(asked: &StillAt) -> Said<Outcome> {
    if !(STILL_SIZES[0]..=STILL_SIZES[1]).contains(&asked.size) {
        return Err(VerbError::Number {
            option: "--size",
            given: asked.size.into(),
            expected: "16 to 8192 pixels",
        });
    }
    let kind = PictureKind::of(&asked.out)?;
    let (dance, motion, name) = open_motion(&asked.file, asked.figure.as_deref())?;
    let look = StillLook { size: asked.size, trails: asked.trails, theme: asked.theme.into() };
    let draw = |count: f64| kind.bytes(&still_of(&dance, &motion, count, name.as_deref(), look));
    if let Some(moment) = asked.at {
        let bytes = draw(count_in(&asked.file, &motion, moment)?)?;
        store::write_whole(&asked.out, &bytes)?;
        return Ok(Outcome::Fine);
    }
    let counts = counts_of(&dance, &motion, asked.every.unwrap_or_default())?;
    let set = PageSet::new(PagesOf::Stills, &asked.out, counts.len());
    let set = numbered_pages::unless_taken(set, asked.force)?;
    let progress = SharedProgress::of("still");
    counts.par_iter().enumerate().try_for_each(|(index, &count)| {
        set.write(index, draw(count)?)?;
        progress.one_more(counts.len());
        Ok::<(), VerbError>(())
    })?;
    numbered_pages::take_old_away(&set)?;
    Ok(Outcome::Fine)
}

/// From the start to the end, once in so many counts.
fn counts_of(dance: &Dance, motion: &Motion, every: f64) -> Said<Vec<f64>> {
    if !(every.is_finite() && every >= 0.001) {
        return Err(VerbError::Number {
            option: "--every",
            given: every,
            expected: "a number of counts, at least 0.001",
        });
    }
    let all = (motion.counts() / every).ceil() as usize + 1;
    if all > MOST {
        return Err(VerbError::Stills { every, title: shown_name(&dance.title), stills: all, most: MOST });
    }
    Ok((0..all).map(|step| (step as f64 * every).min(motion.counts())).collect())
}
