use crate::dance::{Dance, DanceError, TuneError, did_you_mean, quoted, shown_list};
use crate::figures::FigureError;
use crate::handout::{HandoutError, MOST_DIAGRAMS, moving::MovingError, page::PageError};
use crate::motion::Moment;
use crate::picture::PictureError;
use crate::sound::SoundError;
use crate::store::StoreError;
use std::io;
use std::path::{Path, PathBuf};
use thiserror::Error;

/// Why a verb could not be done: one line that says where, what is wrong and what was expected. It keeps the path, the key
/// and the option that it is about.
#[derive(Debug, Error)]
pub enum VerbError {
    /// A file cannot be opened, read or written; it says which.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// The dance of a file cannot be worked out.
    #[error("{}: {source}", path.display())]
    Dance { path: PathBuf, source: DanceError },
    /// A dance that was asked for on the command line breaks a rule of files.
    #[error(transparent)]
    Asked(#[from] DanceError),
    /// The dance of a file has no figures.
    #[error("{}: the dance has no figures to draw", path.display())]
    NoFigures { path: PathBuf },
    /// The dance of a file has no figure of a name.
    #[error("{}: no figure is called {}{meant}; the figures are {known}", path.display(), quoted(wanted))]
    NoFigure {
        path: PathBuf,
        /// As it was given.
        wanted: String,
        /// The figure that may have been meant, as `did_you_mean` puts it.
        meant: String,
        /// The figures that there are.
        known: String,
    },
    /// The dance of a file has no dancer of a number.
    #[error("{}: --dancer {number}: there is no number {number}; the numbers are 1 to {last}", path.display())]
    NoDancer { path: PathBuf, number: u32, last: usize },
    /// A set in which nobody can watch everybody.
    #[error("{}: a set of {dancers}; what to watch for is worked out for at most {most}", path.display())]
    TooMany { path: PathBuf, dancers: usize, most: usize },
    /// A moment that the dance of a file does not come to.
    #[error("{}: {moment} is after the end; there are {bars} bars, so the end is {}:1", path.display(), bars + 1)]
    AfterTheEnd { path: PathBuf, moment: Moment, bars: u32 },
    /// A moment at a count that its bar has not.
    #[error("{}: {moment}: bar {} has counts 1 to {counts}", path.display(), moment.bar)]
    NotInBar { path: PathBuf, moment: Moment, counts: u32 },
    /// A figure with more diagrams than anyone would print.
    #[error(
        "{}: a figure of {bars} bars would have {diagrams} diagrams; ask for fewer than {MOST_DIAGRAMS} with a larger \
         --every",
        path.display()
    )]
    Diagrams { path: PathBuf, bars: u32, diagrams: usize },
    /// More stills than anyone would look at.
    #[error("--every {every}: {title} would have {stills} stills; expected {most} at most")]
    Stills {
        /// Counts from one to the next.
        every: f64,
        /// The title of the dance, as it can be shown.
        title: String,
        stills: usize,
        most: usize,
    },
    /// A file to write whose name ends otherwise than what is written in it.
    #[error("{}: {what} is written as {expected}", path.display())]
    Ending {
        path: PathBuf,
        /// Such as `a page`.
        what: &'static str,
        /// Such as `.html`.
        expected: &'static str,
    },
    /// An option with a number that it cannot have.
    #[error("{option} {given}: expected {expected}")]
    Number {
        option: &'static str,
        given: f64,
        /// Such as `16 to 8192 pixels`.
        expected: &'static str,
    },
    /// A figure that was asked for on the command line and cannot be made.
    #[error("--figure {asked}: {source}")]
    Figure {
        /// As it was given, so far as it can be shown.
        asked: String,
        source: FigureError,
    },
    /// A choice for such a figure that cannot be read.
    #[error("--figure {asked}: {wrong}")]
    Choice {
        /// As it was given, so far as it can be shown.
        asked: String,
        /// What is wrong with it and what was expected.
        wrong: String,
    },
    /// Where numbered pages would be written there is what this program did not write.
    #[error(
        "{}; nothing was written; use another name, or --force to write over {}",
        in_the_way(first, *more),
        if *more == 0 { "it" } else { "them" }
    )]
    InTheWay {
        first: PathBuf,
        /// How many others are in the way.
        more: usize,
    },
    /// A still cannot be drawn.
    #[error(transparent)]
    Picture(#[from] PictureError),
    /// A moving picture cannot be made.
    #[error(transparent)]
    Moving(#[from] MovingError),
    /// A practice page cannot be made of a file.
    #[error("{}: {source}", path.display())]
    Page { path: PathBuf, source: PageError },
    /// A handout cannot be made as a file.
    #[error("{}: {source}", path.display())]
    Handout { path: PathBuf, source: HandoutError },
    /// A figure has no tune because nobody dances it.
    #[error("{}: {} is not in the running order, so no tune is played to it", path.display(), quoted(wanted))]
    NotDanced {
        path: PathBuf,
        /// As it was given.
        wanted: String,
    },
    /// A file that should be a tune has none in it.
    #[error("{}: there is no tune in it; a tune in ABC notation has lines such as M:6/8 and K:G", path.display())]
    NoTune { path: PathBuf },
    /// The tune of a file in ABC notation cannot be read.
    #[error("{}: {source}", path.display())]
    Tune { path: PathBuf, source: TuneError },
    /// A figure was asked for of a tune without a dance.
    #[error("{}: it is a tune by itself, without the figure {}; expected a dance file", path.display(), quoted(wanted))]
    TuneHasNoFigures {
        path: PathBuf,
        /// As it was given.
        wanted: String,
    },
    /// The tune cannot be written.
    #[error("{}: {source}", path.display())]
    Sound { path: PathBuf, source: SoundError },
    /// A user without a folder of their own.
    #[error("there is no home folder to put the program's menu entry into")]
    NoHome,
    /// The program cannot tell where it is.
    #[error("this program's own file cannot be found: {0}")]
    Program(io::Error),
    /// A machine whose desktop keeps its menu otherwise.
    #[error(
        "bellpad desktop is for the desktops of Linux and BSD, which keep their menus in a user's own folder"
    )]
    OtherDesktop,
    /// Standard output cannot be written.
    #[error("standard output: cannot be written: {0}")]
    Output(io::Error),
}

impl VerbError {
    /// That the dance of a file has no figure of a name, and which it has.
    pub(super) fn no_figure(path: &Path, dance: &Dance, wanted: &str) -> Self {
        let names = dance.figures.iter().flat_map(|figure| [figure.id.as_str(), figure.name.as_str()]);
        Self::NoFigure {
            path: path.to_owned(),
            wanted: wanted.to_owned(),
            meant: did_you_mean(wanted, names),
            known: shown_list(dance.figures.iter().map(|figure| figure.id.as_str())),
        }
    }
}

fn in_the_way(first: &Path, more: usize) -> String {
    let first = first.display();
    match more {
        0 => format!("{first}: is in the way: it is no page of an earlier run, or changed since"),
        more => format!(
            "{first} and {more} more: are in the way: they are no pages of an earlier run, or changed since"
        ),
    }
}
