use super::{
    Outcome, Said, VerbError, numbered_pages, opening::open_motion, printing::print_path, progress::Progress,
};
use crate::dance::{Dance, Dancer, Number};
use crate::figures::motion_of_figure;
use crate::handout::{
    Handout, MOST_DIAGRAMS, Made, Paper, PaperFile, PaperSize, SheetChoice, dancer_page, figure_sheet,
    first_span, notebook, pocket_page, sheets, stepping, whole_sheet, without_names,
};
use crate::motion::{Motion, SpanIndex};
use crate::store::{self, PageSet, PagesOf};
use clap::{Args, ValueEnum};
use std::path::{Path, PathBuf};

/// A size of paper by name.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub enum PaperName {
    /// 210 by 297 mm
    #[default]
    A4,
    /// 8.5 by 11 inches
    Letter,
}

/// Draw sheets of diagrams.
#[derive(Debug, Args)]
pub struct SheetOf {
    /// The dance file
    pub file: PathBuf,
    /// Only this figure, by id or name
    #[arg(long)]
    pub figure: Option<String>,
    /// Instead, the page of one number, with that dancer's own way and words
    #[arg(long, value_name = "N", conflicts_with = "every", allow_negative_numbers = true)]
    pub dancer: Option<u32>,
    /// Put what each number does under the diagrams, in words
    #[arg(long, conflicts_with = "dancer")]
    pub words: bool,
    /// Instead, the whole dance on one sheet: running order, figures in a line and a small diagram each, tune, stepping
    #[arg(long, conflicts_with_all = ["figure", "dancer", "words", "every"])]
    pub whole: bool,
    /// With --dancer, that number's part for the pocket: a clause a bar, on a sheet that is folded twice
    #[arg(long, requires = "dancer", conflicts_with_all = ["figure", "whole"])]
    pub pocket: bool,
    /// Without the names of people
    #[arg(long)]
    pub no_names: bool,
    /// Without what there is to watch for in each figure, which stands on sheets and on a dancer's page
    #[arg(long)]
    pub no_watch: bool,
    /// The file to write; pictures of more pages are OUT, OUT-2 and so on, and pages of an earlier run that are no
    /// longer part of them are taken away
    #[arg(short, value_name = "OUT.png|.svg|.pdf")]
    pub out: PathBuf,
    /// Write numbered pages over files that this program did not write, too
    #[arg(long)]
    pub force: bool,
    /// Counts from one diagram to the next; left out, one for each bar
    #[arg(long, value_name = "COUNTS", allow_negative_numbers = true)]
    pub every: Option<f64>,
    /// The size of the paper
    #[arg(long, value_enum, default_value_t)]
    pub paper: PaperName,
    /// The paper on its long side
    #[arg(long)]
    pub landscape: bool,
}

/// Draw each step that a dance uses, count by count, at eye level.
#[derive(Debug, Args)]
pub struct SteppingOf {
    /// The dance file
    pub file: PathBuf,
    /// Only the steps of one number
    #[arg(long, value_name = "N", allow_negative_numbers = true)]
    pub dancer: Option<u32>,
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

pub(super) fn write_stepping(asked: &SteppingOf) -> Said<Outcome> {
    let kind = PaperFile::of(&asked.out).ok_or_else(|| VerbError::Ending {
        path: asked.out.clone(),
        what: "the stepping",
        expected: ".pdf, .svg or .png",
    })?;
    let choice = choice(asked.paper, asked.landscape, None)?;
    let (dance, motion) = open_whole(&asked.file)?;
    let dance = named(dance, asked.no_names);
    if motion.spans().is_empty() {
        return Err(VerbError::NoFigures { path: asked.file.clone() });
    }
    let dancer = asked.dancer.map(|number| dancer_of(&asked.file, &motion, number)).transpose()?;
    let handout = stepping(&dance, &motion, dancer, choice.paper);
    write_handout(&asked.out, kind, handout, asked.force, &mut Progress::of("page"))
}

/// A dancer by number.
fn dancer_of(path: &Path, motion: &Motion, number: u32) -> Said<Dancer> {
    let dancer = Some(Number(number).dancer()).filter(|dancer| dancer.index() < motion.dancers());
    dancer.ok_or_else(|| VerbError::NoDancer { path: path.to_owned(), number, last: motion.dancers() })
}

/// Make a notebook.
#[derive(Debug, Args)]
pub struct NotebookOf {
    /// The dance files
    #[arg(required = true)]
    pub files: Vec<PathBuf>,
    /// The file to write
    #[arg(short, value_name = "OUT.pdf")]
    pub out: PathBuf,
    /// Counts from one diagram to the next; left out, one for each bar
    #[arg(long, value_name = "COUNTS", allow_negative_numbers = true)]
    pub every: Option<f64>,
    /// The size of the paper
    #[arg(long, value_enum, default_value_t)]
    pub paper: PaperName,
    /// The paper on its long side
    #[arg(long)]
    pub landscape: bool,
    /// Without the names of people
    #[arg(long)]
    pub no_names: bool,
    /// Without what there is to watch for in each figure
    #[arg(long)]
    pub no_watch: bool,
    /// With the ABC text of each tune under its notes, to be copied
    #[arg(long)]
    pub abc: bool,
}

pub(super) fn write_sheet(asked: &SheetOf) -> Said<Outcome> {
    let kind = PaperFile::of(&asked.out).ok_or_else(|| VerbError::Ending {
        path: asked.out.clone(),
        what: "a sheet",
        expected: ".png, .svg or .pdf",
    })?;
    let choice = SheetChoice {
        words: asked.words,
        watch: !asked.no_watch,
        ..choice(asked.paper, asked.landscape, asked.every)?
    };
    let (dance, motion, span) = dancing_of(&asked.file, asked.figure.as_deref())?;
    let dance = named(dance, asked.no_names);
    let mut progress = Progress::of("figure");
    let handout = match (asked.dancer, span) {
        (Some(number), span) => {
            let dancer = dancer_of(&asked.file, &motion, number)?;
            if asked.pocket {
                pocket_page(&dance, &motion, dancer, choice.paper)
            } else {
                dancer_page(&dance, &motion, span.as_ref().map(std::slice::from_ref), dancer, &choice)
            }
        }
        (None, _) if asked.whole => whole_sheet(&dance, &motion, &choice),
        (None, Some(span)) => {
            check_diagrams(&asked.file, &motion, choice.every)?;
            figure_sheet(&dance, &motion, span, &choice)
        }
        (None, None) => {
            check_diagrams(&asked.file, &motion, choice.every)?;
            sheets(&dance, &motion, &choice, &mut |done, of| progress.at(done, of))
        }
    };
    let mut progress = Progress::of("page");
    write_handout(&asked.out, kind, handout, asked.force, &mut progress)
}

pub(super) fn write_notebook(asked: &NotebookOf) -> Said<Outcome> {
    if PaperFile::of(&asked.out) != Some(PaperFile::Pdf) {
        return Err(VerbError::Ending { path: asked.out.clone(), what: "a notebook", expected: ".pdf" });
    }
    let choice = SheetChoice {
        abc: asked.abc,
        watch: !asked.no_watch,
        ..choice(asked.paper, asked.landscape, asked.every)?
    };
    let mut dances = Vec::with_capacity(asked.files.len());
    for file in &asked.files {
        let (dance, motion) = open_whole(file)?;
        check_diagrams(file, &motion, choice.every)?;
        dances.push((named(dance, asked.no_names), motion));
    }
    let mut progress = Progress::of("sheet");
    let handout = notebook(&dances, &choice, &mut |done, of| progress.at(done, of));
    write_handout(&asked.out, PaperFile::Pdf, handout, false, &mut progress)
}

/// A dance as it is handed out: with the names of people, or without.
pub(super) fn named(dance: Dance, no_names: bool) -> Dance {
    if no_names { without_names(dance) } else { dance }
}

fn choice(paper: PaperName, landscape: bool, every: Option<f64>) -> Said<SheetChoice> {
    if let Some(given) = every.filter(|every| !(every.is_finite() && (0.25..=8_000.0).contains(every))) {
        return Err(VerbError::Number {
            option: "--every",
            given,
            expected: "a number of counts, 0.25 to 8000",
        });
    }
    Ok(SheetChoice { paper: paper_of(paper, landscape), every, ..SheetChoice::default() })
}

/// Paper of a size, on its long side or its short one.
pub(super) fn paper_of(name: PaperName, landscape: bool) -> Paper {
    let size = match name {
        PaperName::A4 => PaperSize::A4,
        PaperName::Letter => PaperSize::Letter,
    };
    Paper { size, landscape }
}

/// A dance as it is danced, and where in it the figure that is asked for is first danced; one that is not in the running order is
/// danced by itself, from home.
pub(super) fn dancing_of(path: &Path, figure: Option<&str>) -> Said<(Dance, Motion, Option<SpanIndex>)> {
    let (dance, motion) = open_whole(path)?;
    let (motion, span) = match figure {
        None => (motion, None),
        Some(wanted) => {
            let (figure, alone) = find(path, &dance, wanted)?;
            match first_span(&motion, figure) {
                Some(span) => (motion, Some(span)),
                None => (alone()?, Some(SpanIndex(0))),
            }
        }
    };
    if motion.spans().is_empty() {
        return Err(VerbError::NoFigures { path: path.to_owned() });
    }
    Ok((dance, motion, span))
}

fn open_whole(path: &Path) -> Said<(Dance, Motion)> {
    open_motion(path, None).map(|(dance, motion, _)| (dance, motion))
}

/// A figure by id or name, and how to work it out by itself.
fn find<'a>(
    path: &'a Path,
    dance: &'a Dance,
    wanted: &str,
) -> Said<(usize, impl Fn() -> Said<Motion> + use<'a>)> {
    let index = dance.find_figure(wanted).ok_or_else(|| VerbError::no_figure(path, dance, wanted))?;
    let alone = move || {
        motion_of_figure(dance, index).map_err(|source| VerbError::Dance { path: path.to_owned(), source })
    };
    Ok((index, alone))
}

/// So many diagrams that nobody would print them are refused.
fn check_diagrams(path: &Path, motion: &Motion, every: Option<f64>) -> Said<()> {
    let longest = motion.spans().iter().max_by_key(|span| span.bars);
    let (longest, counts) = longest.map_or((0, 0.0), |span| (span.bars, span.bar_counts().counts()));
    let diagrams = every.map_or(longest as usize, |every| (counts / every) as usize);
    if diagrams < MOST_DIAGRAMS {
        return Ok(());
    }
    Err(VerbError::Diagrams { path: path.to_owned(), bars: longest, diagrams })
}

/// Writes a handout; further pages of pictures are numbered, and which there are is printed.
pub(super) fn write_handout(
    out: &Path,
    kind: PaperFile,
    handout: Handout,
    force: bool,
    progress: &mut Progress,
) -> Said<Outcome> {
    let many = if kind == PaperFile::Pdf { 1 } else { handout.pages.len() };
    let set = numbered_pages::unless_taken(PageSet::new(PagesOf::Sheet, out, many), force)?;
    let files = Made::Pages(handout, kind)
        .files(&mut |done, of| progress.at(done, of))
        .map_err(|source| VerbError::Handout { path: out.to_owned(), source })?;
    if kind == PaperFile::Pdf {
        for bytes in &files {
            store::write_whole(out, bytes)?;
        }
        return Ok(Outcome::Fine);
    }
    for (index, bytes) in files.into_iter().enumerate() {
        set.write(index, bytes)?;
    }
    numbered_pages::take_old_away(&set)?;
    if let pages @ [_, _, ..] = set.pages() {
        pages.iter().try_for_each(|page| print_path(page))?;
    }
    Ok(Outcome::Fine)
}
