use super::file_words::file_words;
use super::{
    Desk,
    handout_of::HandoutOf,
    question::{PathQuestion, Question},
    still_of::StillOf,
    wake::Wake,
    work::Work,
};
use crate::handout::{HandoutChoice, Made, OnProgress, PaperFile};
use crate::picture::StillLook;
use crate::store::{self, Over, PageSet, PagesOf};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// A handout or a still that is being written to its file, beside the window.
pub struct FileWriting {
    what: What,
    path: PathBuf,
    /// The question that the path answered, to be asked again if nothing comes of it.
    question: PathQuestion,
    /// Nothing while it is asked about files that are in the way.
    work: Option<Work<WritingEnd>>,
}

/// What is written.
#[derive(Clone)]
enum What {
    Handout(HandoutOf, HandoutChoice),
    Still(StillOf, StillLook),
}

/// What came of it.
enum WritingEnd {
    /// All is written; says what.
    Done(String),
    /// Nothing is: these files are not pages of an earlier handout of this name.
    InTheWay(Vec<PathBuf>),
}

impl FileWriting {
    /// Begins to write it to a path that answers a question.
    fn begin(what: What, path: PathBuf, question: PathQuestion, wake: &Wake) -> Self {
        let mut writing = Self { what, path, question, work: None };
        writing.begin_work(false, wake);
        writing
    }

    fn begin_work(&mut self, may_replace: bool, wake: &Wake) {
        let (what, path) = (self.what.clone(), self.path.clone());
        self.work = Some(Work::begin(self.word(), wake, move |progress| match what {
            What::Handout(of, choice) => write(&of, choice, &path, may_replace, progress),
            What::Still(of, look) => of.write(look, &path).map(WritingEnd::Done),
        }));
    }

    /// What is written, in a word.
    #[must_use]
    pub fn word(&self) -> &'static str {
        match self.what {
            What::Handout(..) => "handout",
            What::Still(..) => "still",
        }
    }

    /// How much of it is done, 0 to 1, once that is known.
    #[must_use]
    pub fn share(&self) -> Option<f32> {
        self.work.as_ref().and_then(Work::share)
    }

    /// Whether it takes so long that it should be shown, or something is to be asked.
    #[must_use]
    pub fn is_to_be_shown(&self) -> bool {
        self.work.as_ref().is_none_or(Work::is_long)
    }
}

/// Writing handouts, and stills that somebody waits for.
impl Desk {
    /// The handout or the still that is being written.
    #[must_use]
    pub fn writing(&self) -> Option<&FileWriting> {
        self.writing.as_ref()
    }

    /// What a handout would be made of now.
    #[must_use]
    pub fn handout_of(&self) -> HandoutOf {
        let of = self.span().map(|span| (span, self.chosen));
        HandoutOf::new(self.dance_to_keep(), Arc::clone(self.motion()), of)
    }

    /// Begins to write the handout that is chosen to a path that answers a question.
    pub(super) fn write_handout(&mut self, path: PathBuf, question: PathQuestion) {
        let what = What::Handout(self.handout_of(), self.handout());
        self.begin_writing(what, path, question);
    }

    /// The same with a still.
    pub(super) fn write_still_beside(&mut self, path: PathBuf, question: PathQuestion) {
        let what = What::Still(self.still_made_of(), self.still_look());
        self.begin_writing(what, path, question);
    }

    fn begin_writing(&mut self, what: What, path: PathBuf, question: PathQuestion) {
        self.asked.ask(Question::Writing(path.clone(), Vec::new()));
        self.writing = Some(FileWriting::begin(what, path, question, &self.wake));
    }

    /// Writes it although other files are in the way of its further pages.
    pub(super) fn replace_pages(&mut self) {
        if let Some(writing) = &mut self.writing {
            writing.begin_work(true, &self.wake);
            self.asked.ask(Question::Writing(writing.path.clone(), Vec::new()));
        }
    }

    /// Takes what came of the writing, once there is something.
    pub(super) fn hear_of_writing(&mut self) {
        let Some(writing) = &mut self.writing else { return };
        match writing.work.as_ref().and_then(Work::answer) {
            None => {}
            Some(Ok(WritingEnd::Done(said))) => {
                self.writing = None;
                self.asked.put_away();
                self.notice = Some(said);
            }
            Some(Ok(WritingEnd::InTheWay(files))) => {
                writing.work = None;
                self.asked.ask(Question::Writing(writing.path.clone(), files));
            }
            Some(Err(said)) => {
                if let Some(writing) = self.writing.take() {
                    self.ask_again(writing.question, said);
                }
            }
        }
    }
}

/// Makes it and writes it, nothing of it where it is stopped before it is made or something is in the way; says what
/// was written.
fn write(
    of: &HandoutOf,
    choice: HandoutChoice,
    path: &Path,
    may_replace: bool,
    progress: OnProgress,
) -> Result<WritingEnd, String> {
    let stopped = std::cell::Cell::new(false);
    let mut told = |done: usize, of: usize| {
        let goes_on = progress(done, of);
        stopped.set(stopped.get() || !goes_on);
        goes_on
    };
    let made = of.make(choice.for_file(path), &mut told).map_err(|error| error.to_string())?;
    let is_numbered = matches!(&made, Made::Pages(_, PaperFile::Png | PaperFile::Svg));
    let files = made.files(&mut told).map_err(|error| error.to_string())?;
    if stopped.get() {
        return Err("It was stopped.".to_owned());
    }
    if !is_numbered {
        for bytes in &files {
            store::write_whole(path, bytes).map_err(|error| error.to_string())?;
        }
        return Ok(WritingEnd::Done(format!("handout written to {}", path.display())));
    }
    // The file that was chosen has been asked about already.
    let over = if may_replace { Over::Anything } else { Over::Chosen };
    let set = PageSet::new(PagesOf::Sheet, path, files.len()).over(over);
    let in_the_way: Vec<PathBuf> = set.in_the_way().into_iter().map(Path::to_owned).collect();
    if !in_the_way.is_empty() {
        return Ok(WritingEnd::InTheWay(in_the_way));
    }
    for (index, bytes) in files.into_iter().enumerate() {
        set.write(index, bytes).map_err(|error| error.to_string())?;
    }
    let old = set.take_old_away().map_err(|error| error.to_string())?;
    let old = match old.len() {
        0 => String::new(),
        1 => "; a page of an earlier one is taken away".to_owned(),
        many => format!("; {many} pages of an earlier one are taken away"),
    };
    Ok(WritingEnd::Done(match set.pages() {
        [_, .., last] => {
            let many = set.pages().len();
            format!("handout written, {many} pages: {} to {}{old}", path.display(), file_words(last))
        }
        _ => format!("handout written to {}{old}", path.display()),
    }))
}
