use super::{
    Desk, SAMPLES,
    ask::FileAsk,
    compiled::Compiled,
    meant_file::meant_file,
    open_words::{damaged, open_words},
    purpose::Purpose,
    question::{After, PathQuestion, Question},
    view::View,
};
use crate::dance::{Dance, read};
use crate::figures::figure_name_at;
use crate::handout::{HandoutChoice, HandoutKind};
use crate::motion::{Motion, Span};
use crate::store::{self, Stamp};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Opening and saving: the part of the desk that touches the disk.
impl Desk {
    pub(super) fn apply_file(&mut self, ask: FileAsk) {
        match ask {
            FileAsk::AskNew => self.asked.ask(Question::NewDance),
            FileAsk::AskOpen => self.unless_unsaved(After::AskOpen),
            FileAsk::Open(path) => self.unless_unsaved(After::Open(path)),
            FileAsk::OpenSample(index) => self.unless_unsaved(After::OpenSample(index)),
            FileAsk::PutNew(dance) => self.unless_unsaved(After::PutNew(dance)),
            FileAsk::Save => self.save(None),
            FileAsk::AskSaveAs => self.ask_path(Purpose::SaveAs, None),
            FileAsk::SaveTo(path) => self.save_to(&path, None),
            FileAsk::AskStill => self.ask_still(),
            FileAsk::ChooseStill(look) => self.choose_still(look),
            FileAsk::AskStillPath => {
                self.rest();
                self.ask_path(Purpose::Still, None);
            }
            FileAsk::StillTo(path) => {
                let done = self.write_still(&path);
                self.tell_trouble(done);
            }
            FileAsk::AskHandout => {
                self.rest();
                self.asked.ask(Question::Handout);
            }
            FileAsk::ChooseHandout(choice) => self.keep.remember(|settings| settings.handout = choice),
            FileAsk::AskHandoutPath => {
                self.writing = None;
                self.ask_path(Purpose::Handout(self.handout().endings()), None);
            }
            FileAsk::ReplacePages => self.replace_pages(),
            FileAsk::Choose(path) => self.take_file(&path),
            FileAsk::GoOnUnsaved => {
                if let Some(after) = self.take_unsaved() {
                    self.go_on(after);
                }
            }
            FileAsk::SaveAndGoOn => {
                if let Some(after) = self.take_unsaved() {
                    self.save(Some(after));
                }
            }
            FileAsk::Close => self.unless_unsaved(After::Close),
        }
    }

    /// Lets go of what is held and stops playing: something is asked.
    pub(super) fn rest(&mut self) {
        self.end_drag();
        self.player.playing = false;
    }

    fn take_unsaved(&mut self) -> Option<After> {
        self.asked.take_if(|question| match question {
            Question::Unsaved(after) => Ok(after),
            other => Err(other),
        })
    }

    fn save(&mut self, then: Option<After>) {
        match self.path.clone() {
            Some(path) => self.save_to(&path, then),
            None => self.ask_path(Purpose::SaveAs, then),
        }
    }

    /// Does something that puts this dance away, or asks first if there is work that no file has.
    pub(super) fn unless_unsaved(&mut self, after: After) {
        self.end_drag();
        if self.unsaved() {
            self.player.playing = false;
            self.asked.ask(Question::Unsaved(after));
        } else {
            self.go_on(after);
        }
    }

    pub(super) fn go_on(&mut self, after: After) {
        match after {
            After::AskOpen => self.ask_path(Purpose::Open, None),
            After::Open(path) => {
                let done = self.open(&path);
                self.tell_trouble(done);
            }
            After::OpenRecovered(index) => self.open_recovered(index),
            After::OpenSample(index) => {
                let sample = SAMPLES.get(index).and_then(|(_, text)| read(text.as_bytes()).ok());
                if let Some(dance) = sample {
                    self.put_on_desk(dance, None, None);
                }
            }
            After::PutNew(dance) => {
                self.never_saved = self.put_on_desk(*dance, None, None);
            }
            After::Close => self.may_close = true,
        }
    }

    fn open(&mut self, path: &Path) -> Result<(), String> {
        let (dance, stamp) = store::open_with_stamp(path).map_err(|error| open_words(&error))?;
        self.take_on_desk(dance, Some(path.to_owned()), Some(stamp))?;
        self.recent.add(path);
        Ok(())
    }

    /// Takes another dance onto the desk; the one before it stays if this one's figures cannot be worked out.
    pub(super) fn put_on_desk(&mut self, dance: Dance, path: Option<PathBuf>, stamp: Option<Stamp>) -> bool {
        let done = self.take_on_desk(dance, path, stamp);
        self.tell_trouble(done)
    }

    fn take_on_desk(
        &mut self,
        dance: Dance,
        path: Option<PathBuf>,
        stamp: Option<Stamp>,
    ) -> Result<(), String> {
        let place = path.as_ref().map_or_else(String::new, |path| format!("{}: ", path.display()));
        let made = Compiled::read(Arc::new(dance), None)
            .map_err(|error| damaged(path.as_deref(), &format!("{place}{error}")))?;
        let mut desk = Self::on(made, path, std::mem::take(&mut self.recent));
        let View { trails, beats, ink, fitted, .. } = self.view;
        desk.view = View { trails, beats, ink, fitted: fitted + 1, ..View::default() };
        desk.wake = self.wake.clone();
        desk.keep = std::mem::take(&mut self.keep);
        desk.player.tempo = self.player.tempo;
        (desk.player.silent, desk.player.told_of_silence) =
            (self.player.silent.take(), self.player.told_of_silence);
        desk.keep.begin_on(desk.path.as_deref(), stamp);
        desk.keep.welcome = false;
        desk.asked = std::mem::take(&mut self.asked);
        desk.asked.put_away();
        *self = desk;
        self.look_for_faults();
        Ok(())
    }

    /// Tells why something could not be done, where it was not; gives whether it was.
    pub(super) fn tell_trouble(&mut self, done: Result<(), String>) -> bool {
        match done {
            Ok(()) => true,
            Err(said) => {
                self.asked.ask(Question::Trouble(said));
                false
            }
        }
    }

    /// What was chosen for a handout.
    #[must_use]
    pub fn handout(&self) -> HandoutChoice {
        self.settings().handout
    }

    /// Shows where to choose a file. The desktop's own dialog is asked as well, by the window.
    pub(super) fn ask_path(&mut self, purpose: Purpose, then: Option<After>) {
        // A file goes beside the dance's own, or else with this user's documents.
        let folder = self.path.as_deref().and_then(Path::parent).map(Path::to_owned).or_else(|| {
            let user = directories::UserDirs::new()?;
            Some(user.document_dir().unwrap_or_else(|| user.home_dir()).to_owned())
        });
        let beside =
            |name: &str| folder.as_ref().map_or_else(|| PathBuf::from(name), |folder| folder.join(name));
        let path = match purpose {
            Purpose::Open | Purpose::Compare | Purpose::Tune | Purpose::Photo => PathBuf::new(),
            Purpose::SaveAs => self
                .path
                .clone()
                .unwrap_or_else(|| beside(&format!("{}.dance.json", slug(&self.now.dance().title)))),
            Purpose::Handout(endings) => {
                let figure = figure_name_at(self.now.dance(), self.now.motion(), self.player.count);
                let ending = endings.first().copied().unwrap_or_default();
                let number = format!("number-{}", self.chosen.map_or(0, |dancer| dancer.number().get()));
                let what = match self.handout().kind {
                    HandoutKind::Figure => slug(&figure),
                    HandoutKind::Dance => "sheets".to_owned(),
                    HandoutKind::Whole => "whole".to_owned(),
                    HandoutKind::Dancer => number,
                    HandoutKind::Pocket => format!("{number}-pocket"),
                    HandoutKind::Stepping => "stepping".to_owned(),
                    HandoutKind::Tapping => "tapping".to_owned(),
                    HandoutKind::Notebook => "notebook".to_owned(),
                    HandoutKind::PracticePage => "practice".to_owned(),
                    HandoutKind::Moving => format!("{}-moving", slug(&figure)),
                };
                beside(&format!("{}-{what}.{ending}", slug(&self.now.dance().title)))
            }
            Purpose::Still => {
                // By the figure and its own bars, as the clock has them.
                let (motion, count) = (self.now.motion(), self.player.count);
                let moment = motion.moment_in_figure(count).to_string().replace(':', "-");
                let figure = slug(&figure_name_at(self.now.dance(), motion, count));
                let figure =
                    if figure.is_empty() { figure } else { format!("{figure}-{}", time_at(motion, count)) };
                beside(&format!("{}-{figure}bar-{moment}.png", slug(&self.now.dance().title)))
            }
        };
        let number = self.asked.next();
        self.asked.ask(Question::Path(PathQuestion { purpose, path, then, wrong: None, number }));
    }

    /// Takes the file that was asked for. Where nothing can be done with it, it is asked again and says why.
    fn take_file(&mut self, path: &Path) {
        let taken = self.asked.take_if(|question| match question {
            Question::Path(question) => Ok(question),
            other => Err(other),
        });
        let Some(question) = taken else { return };
        let done = match question.purpose {
            Purpose::Open => self.open(path),
            Purpose::Compare => self.compare_with(path),
            Purpose::Tune => self.read_tunes(path),
            Purpose::Photo => return self.lay_file(path, Some(question)),
            Purpose::SaveAs => return self.save_answering(path, question),
            Purpose::Still => return self.write_still_answering(path, question),
            Purpose::Handout(_) => return self.write_handout(path.to_owned(), question),
        };
        if let Err(said) = done {
            let meant = if question.purpose.reads() { meant_file(path) } else { String::new() };
            self.ask_again(question, format!("{said}{meant}"));
        }
    }

    /// Asks for a path again, after the one that was chosen could not be used.
    pub(super) fn ask_again(&mut self, question: PathQuestion, said: String) {
        self.asked.ask(Question::Path(PathQuestion { wrong: Some(said), ..question }));
    }
}

/// `time-2-`: for which time a figure is danced at a count, in a file name; nothing where it is danced but once.
fn time_at(motion: &Motion, count: f64) -> String {
    let Some(here) = motion.span_under(count) else { return String::new() };
    let same = |span: &&Span| span.figure == here.figure;
    match motion.spans().iter().filter(same).count() {
        0 | 1 => String::new(),
        _ => {
            let time = motion.spans().iter().filter(same).filter(|span| span.begin() <= here.begin()).count();
            format!("time-{time}-")
        }
    }
}

/// A title as part of a file name: small letters, figures and hyphens.
fn slug(title: &str) -> String {
    let mut slug = String::new();
    for letter in title.chars().flat_map(char::to_lowercase).take(60) {
        if letter.is_alphanumeric() {
            slug.push(letter);
        } else if !slug.is_empty() && !slug.ends_with('-') {
            slug.push('-');
        }
    }
    let slug = slug.trim_end_matches('-');
    if slug.is_empty() { "dance".to_owned() } else { slug.to_owned() }
}
