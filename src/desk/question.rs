use super::ask::About;
use super::purpose::Purpose;
use crate::dance::Dance;
use crate::store::{Backup, FileSince, Recovered};
use std::path::PathBuf;
use std::time::SystemTime;

/// Something that is asked of the user, as plain data. How it is asked, with what fields, pictures and threads, is the
/// window's own affair; the answers are asks.
#[derive(Clone, Debug, PartialEq)]
pub enum Question {
    /// Which file.
    Path(PathQuestion),
    /// Whether work that no file has may be put away.
    Unsaved(After),
    /// Something could not be done: to be read.
    Trouble(String),
    /// Keys and mouse: to be read.
    Help,
    /// What a new dance is to be.
    NewDance,
    /// Why the side means a fault: its place in the list, and what it says.
    Allow(usize, String),
    /// All that is said of the dance as a whole, and the tunes that were read for it.
    ThisDance(Option<String>),
    /// The steps of the dance's own and the built-in ones, and which is shown first, by its letters.
    Steps(Option<String>),
    /// The limits of what is a fault.
    Limits,
    /// The file was changed by someone else before a save.
    Meanwhile(Meanwhile),
    /// Work of windows that are gone.
    Recovered(Vec<RecoveredWork>),
    /// The earlier saves of the file, the newest first.
    Earlier(Vec<Backup>),
    /// A call, bars or notes to write.
    Write(Written),
    /// The taps and claps of a figure, to write.
    Taps(TapsQuestion),
    /// The marks of a photograph under the floor, by its index, and where they belong.
    Photo(usize),
    /// How a still of this moment is to look.
    Still,
    /// What is to be handed out.
    Handout,
    /// A handout is being written to this file; these files, if any, are in the way of its further pages.
    Writing(PathBuf, Vec<PathBuf>),
}

/// Which file something is to be read from or written to.
#[derive(Clone, Debug, PartialEq)]
pub struct PathQuestion {
    /// What for.
    pub purpose: Purpose,
    /// The path that is suggested; empty for none.
    pub path: PathBuf,
    /// What to go on with after a save.
    pub then: Option<After>,
    /// Why the path that was chosen could not be used.
    pub wrong: Option<String>,
    /// The number of the question: the same while it is asked again about what was typed.
    pub number: u64,
}

/// What waits until unsaved work has been seen to.
#[derive(Clone, Debug, PartialEq)]
pub enum After {
    /// Choosing a file to open.
    AskOpen,
    /// Opening this file.
    Open(PathBuf),
    /// Opening a dance that is part of the program.
    OpenSample(usize),
    /// Taking on work of a window that is gone, by its place in the list.
    OpenRecovered(usize),
    /// Putting this new dance on the desk.
    PutNew(Box<Dance>),
    /// Closing the window.
    Close,
}

/// What someone else did to a file before it was saved here.
#[derive(Clone, Debug, PartialEq)]
pub struct Meanwhile {
    /// The file.
    pub path: PathBuf,
    /// Whether it is no longer there.
    pub gone: bool,
    /// What is otherwise in it.
    pub said: Vec<String>,
    /// Whether it is a dance that can be opened.
    pub readable: bool,
    /// What waits for the save.
    pub then: Option<After>,
}

/// Work of a window that is gone, as it is listed.
#[derive(Clone, Debug, PartialEq)]
pub struct RecoveredWork {
    /// The dance's title.
    pub title: String,
    /// The file that it was on, if it had one.
    pub path: Option<PathBuf>,
    /// When it was kept.
    pub when: SystemTime,
    /// What became of that file since.
    pub since: FileSince,
}

impl RecoveredWork {
    /// How some work is listed.
    #[must_use]
    pub fn of(work: &Recovered) -> Self {
        Self {
            title: work.dance.title.clone(),
            path: work.path.clone(),
            when: work.when,
            since: work.file_since(),
        }
    }
}

/// The taps and claps of a figure, to write.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TapsQuestion {
    /// The figure, by its index, from 0.
    pub figure: usize,
    /// What it is called.
    pub name: String,
    /// What there is now, a line for each bar.
    pub text: String,
}

/// Something to write about a line or a figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Written {
    /// What about.
    pub about: About,
    /// What the figure is called.
    pub name: String,
    /// What is written now, of a call or notes.
    pub text: String,
    /// How many bars there are now.
    pub bars: u32,
}
