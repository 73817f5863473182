//! `bellpad tapping`: what meets on which beat, as a table.

use super::handouts::{PaperName, dancing_of, named, paper_of, write_handout};
use super::{Outcome, Said, VerbError, progress::Progress};
use crate::dance::shown_name;
use crate::handout::{HandoutError, PaperFile, tapping};
use clap::Args;
use std::path::PathBuf;

/// Draw the tapping of each figure as a table of beats.
#[derive(Debug, Args)]
pub struct TappingOf {
    /// The dance file
    pub file: PathBuf,
    /// Only this figure, by id or name
    #[arg(long)]
    pub figure: Option<String>,
    /// Without the names of people
    #[arg(long)]
    pub no_names: bool,
    /// The file to write; pictures of more pages are OUT, OUT-2 and so on
    #[arg(short, value_name = "OUT.pdf|.svg|.png")]
    pub out: PathBuf,
    /// Write numbered pages over files that this program did not write, too
    #[arg(long)]
    pub force: bool,
    /// The size of the paper
    #[arg(long, value_enum, default_value_t)]
    pub paper: PaperName,
    /// The paper on its long side
    #[arg(long)]
    pub landscape: bool,
}

/// Writes the page.
pub(super) fn run(asked: &TappingOf) -> Said<Outcome> {
    let kind = PaperFile::of(&asked.out).ok_or_else(|| VerbError::Ending {
        path: asked.out.clone(),
        what: "the tapping",
        expected: ".pdf, .svg or .png",
    })?;
    let (dance, motion, span) = dancing_of(&asked.file, asked.figure.as_deref())?;
    let dance = named(dance, asked.no_names);
    let handout =
        tapping(&dance, &motion, span, paper_of(asked.paper, asked.landscape)).ok_or_else(|| {
            let figure = span.and_then(|span| dance.figures.get(motion.span(span)?.figure));
            let source = HandoutError::NothingMeets(figure.map(|figure| shown_name(&figure.name)));
            VerbError::Handout { path: asked.file.clone(), source }
        })?;
    write_handout(&asked.out, kind, handout, asked.force, &mut Progress::of("page"))
}
