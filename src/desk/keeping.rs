use super::{
    Desk,
    ask::KeepAsk,
    keep::{Keep, Outside},
    open_words::open_words,
    purpose::Purpose,
    question::{After, Meanwhile, PathQuestion, Question, RecoveredWork},
    what_changed::what_changed,
    when::when_words,
};
use crate::picture::{PAPER, SLATE};
use crate::store::{Backup, Home, Saved, Settings, Stamp, StoreError, open, open_with_stamp};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Keeping work from being lost.
impl Desk {
    /// The desk, with work kept in a home and with what is remembered there.
    #[must_use]
    pub fn at_home(mut self, home: Home) -> Self {
        self.keep = Keep::at(home);
        if self.keep.settings.paper {
            self.view.ink = PAPER;
        }
        self.player.tempo = f64::from(self.keep.settings.sound.speed) / 100.0;
        self
    }

    /// The dance that was open last, where the window is to open on it.
    #[must_use]
    pub fn last_dance(&self) -> Option<PathBuf> {
        self.recent.files.first().filter(|_| self.keep.settings.open_last).cloned()
    }

    /// What is remembered about the window.
    #[must_use]
    pub fn settings(&self) -> &Settings {
        &self.keep.settings
    }

    /// Whether the card of the first minute is to be shown.
    #[must_use]
    pub fn welcomes(&self) -> bool {
        self.keep.welcome && self.path.is_none() && self.undo_name().is_none() && self.held().is_none()
    }

    /// Whether work that is not saved would be offered again if the program ended now.
    #[must_use]
    pub fn work_is_kept(&self) -> bool {
        self.keep.works()
    }

    /// A frame is over: what has changed is handed over to be kept, without waiting for the disk, and what was done
    /// beside the window is taken.
    fn catch_up(&mut self) {
        if self.may_close {
            self.keep.give_up();
            return;
        }
        self.hear_of_writing();
        self.hear_of_faults();
        self.hear_of_room();
        self.hear_of_watch();
        self.hear_of_photos();
        if self.asked.question().is_none() {
            // Nobody asks about it any more: other windows may.
            self.keep.recovered.clear();
            if std::mem::take(&mut self.keep.to_look) {
                self.show_recovered(false);
            }
        }
        let paper = self.view.ink != SLATE;
        let speed = (self.player.tempo * 100.0).round() as u32;
        self.keep.remember(|settings| (settings.paper, settings.sound.speed) = (paper, speed));
        self.keep.take_news();
        let (dance, never, saved) = (self.now.dance(), self.never_saved, &self.saved);
        let unsaved = || never || (!Arc::ptr_eq(dance, saved) && dance != saved);
        self.keep.hand_over(dance, unsaved);
    }

    /// Somebody may have changed the file, or filled the disk.
    fn look_outside(&mut self) {
        self.keep.look();
        self.look_for_lost_photos();
        if let Some(path) = &self.path {
            self.keep.look_outside(path);
        }
    }

    /// What someone else has made of the file, unless the user has said to leave that.
    #[must_use]
    pub fn outside(&self) -> Option<Outside> {
        self.keep.outside.filter(|outside| self.keep.accepted != Some(*outside))
    }

    /// What did not go well in keeping work, until it is put away.
    #[must_use]
    pub fn keep_line(&self) -> Option<&str> {
        self.keep.line.as_deref()
    }

    pub(super) fn apply_keep(&mut self, ask: KeepAsk) {
        match ask {
            KeepAsk::SaveOver => {
                if let Some((path, then)) = self.take_meanwhile() {
                    let number = self.asked.next();
                    let question = PathQuestion {
                        purpose: Purpose::SaveAs,
                        path: path.clone(),
                        then,
                        wrong: None,
                        number,
                    };
                    self.save_expecting(&path, None, question);
                }
            }
            KeepAsk::SaveElsewhere => {
                let then = self.take_meanwhile().and_then(|(_, then)| then);
                self.ask_path(Purpose::SaveAs, then);
            }
            KeepAsk::OpenTheirs => {
                let then = self.take_meanwhile().and_then(|(_, then)| then);
                self.open_theirs();
                if let Some(after) = then.filter(|_| self.asked.question().is_none() && !self.unsaved()) {
                    self.go_on(after);
                }
            }
            KeepAsk::LeaveTheirs => self.keep.accepted = self.keep.outside,
            KeepAsk::AskRecovered => self.show_recovered(true),
            KeepAsk::OpenRecovered(index) => self.unless_unsaved(After::OpenRecovered(index)),
            KeepAsk::DiscardRecovered(index) => {
                if index < self.keep.recovered.len() {
                    let done = self.keep.recovered.remove(index).discard();
                    self.keep.warn(Some(done));
                }
                self.list_recovered();
            }
            KeepAsk::AskEarlier => {
                if let Some(path) = &self.path {
                    self.asked.ask(Question::Earlier(self.keep.home.backups(path)));
                }
            }
            KeepAsk::GoBackTo(backup) => self.go_back_to(&backup),
            KeepAsk::PutLineAway => self.keep.line = None,
            KeepAsk::ShutWelcome(for_good) => {
                self.keep.welcome = false;
                if for_good {
                    self.keep.remember(|settings| settings.welcomed = true);
                }
            }
            KeepAsk::TextSize(size) => {
                self.keep.remember(|settings| settings.text_size = Settings::text_size_near(size));
            }
            KeepAsk::WindowSize(size) => self.keep.remember(|settings| settings.window = Some(size)),
            KeepAsk::Arrange(to) => self.keep.remember(|settings| settings.arrangement = to.sane()),
            KeepAsk::Sound(choice) => self.keep.remember(|settings| settings.sound = choice.sane()),
            KeepAsk::OpenLast(so) => self.keep.remember(|settings| settings.open_last = so),
            KeepAsk::LookOutside => self.look_outside(),
            KeepAsk::CatchUp => self.catch_up(),
        }
    }

    /// Saves to a file, and then goes on with what waited for that.
    pub(super) fn save_to(&mut self, path: &Path, then: Option<After>) {
        // The path stays if it fails, to be put right or to be another one.
        let number = self.asked.next();
        let question =
            PathQuestion { purpose: Purpose::SaveAs, path: path.to_owned(), then, wrong: None, number };
        self.save_answering(path, question);
    }

    /// Saves to a file that answers a question, and then goes on with what waited for that.
    pub(super) fn save_answering(&mut self, path: &Path, question: PathQuestion) {
        // Another file than this dance's own was asked about when it was chosen.
        let expected = self.keep.stamp.filter(|_| self.path.as_deref() == Some(path));
        self.save_expecting(path, expected, question);
    }

    fn save_expecting(&mut self, path: &Path, expected: Option<Stamp>, question: PathQuestion) {
        self.end_drag();
        self.tell_photos_from(path);
        match self.keep.home.save_checked(path, self.now.dance(), expected.as_ref()) {
            Ok(saved) => {
                self.has_saved(path, saved);
                if let Some(after) = question.then {
                    self.go_on(after);
                }
            }
            Err(StoreError::ChangedOutside { gone, .. }) => {
                let theirs = if gone { None } else { Some(open(path)) };
                let (said, readable) = match theirs {
                    None => (Vec::new(), false),
                    Some(Ok(dance)) => (what_changed(&self.saved, &dance), true),
                    Some(Err(error)) => (vec![error.to_string()], false),
                };
                let (path, then) = (path.to_owned(), question.then);
                self.asked.ask(Question::Meanwhile(Meanwhile { path, gone, said, readable, then }));
            }
            Err(error) => self.ask_again(question, error.to_string()),
        }
    }

    fn has_saved(&mut self, path: &Path, saved: Saved) {
        self.saved = Arc::clone(self.now.dance());
        self.never_saved = false;
        // What comes after a save is another step than what came before it.
        self.history.part_steps();
        self.path = Some(path.to_owned());
        self.keep.begin_on(Some(path), Some(saved.stamp));
        self.recent.add(path);
        self.notice = Some(match saved.warning {
            Some(warning) => warning.to_string(),
            None => format!("saved as {}", self.file_name()),
        });
    }

    /// Puts the dialog about a file that was changed meanwhile away; gives the file, and what waits for its save.
    fn take_meanwhile(&mut self) -> Option<(PathBuf, Option<After>)> {
        self.asked.take_if(|question| match question {
            Question::Meanwhile(Meanwhile { path, then, .. }) => Ok((path, then)),
            other => Err(other),
        })
    }

    /// Takes on what someone else has saved, as a step to undo; the work here is kept among the versions.
    fn open_theirs(&mut self) {
        self.end_drag();
        let Some(path) = self.path.clone() else { return };
        let (dance, stamp) = match open_with_stamp(&path) {
            Ok(theirs) => theirs,
            Err(error) => return self.asked.ask(Question::Trouble(open_words(&error))),
        };
        if self.unsaved()
            && let Err(error) = self.keep.home.keep_version(&path, self.now.dance())
        {
            return self.asked.ask(Question::Trouble(error.to_string()));
        }
        self.edit("open what was saved meanwhile".to_owned(), dance.clone());
        if **self.now.dance() == dance {
            self.saved = Arc::clone(self.now.dance());
            self.never_saved = false;
            self.keep.begin_on(Some(&path), Some(stamp));
            self.notice =
                Some(format!("{} as it is on the disk; undo has the work before it", self.file_name()));
        }
    }

    /// Looks for work of windows that are gone and shows it, if there is any.
    fn show_recovered(&mut self, asked: bool) {
        self.end_drag();
        // What is held here is offered to nobody, not even to this window.
        self.keep.recovered.clear();
        self.keep.recovered = self.keep.home.recover();
        self.list_recovered();
        if self.keep.recovered.is_empty() && asked {
            self.notice = Some("no work is left that was not saved when a window ended".to_owned());
        }
    }

    /// Shows the list of such work, or puts it away when nothing is left of it.
    fn list_recovered(&mut self) {
        let works: Vec<RecoveredWork> = self.keep.recovered.iter().map(RecoveredWork::of).collect();
        if works.is_empty() {
            self.asked.put_away();
        } else {
            self.asked.ask(Question::Recovered(works));
        }
    }

    /// Takes on work of a window that is gone. It is kept anew before it is removed where it was.
    pub(super) fn open_recovered(&mut self, index: usize) {
        if index >= self.keep.recovered.len() {
            return;
        }
        let work = self.keep.recovered.remove(index);
        if !self.put_on_desk(work.dance.clone(), work.path.clone(), work.stamp) {
            return;
        }
        match work.path.as_deref().map(open) {
            Some(Ok(dance)) => self.saved = Arc::new(dance),
            _ => self.never_saved = true,
        }
        let when = when_words(work.when);
        if self.keep.take_on(self.now.dance()) {
            let done = work.discard();
            self.keep.warn(Some(done));
        }
        let more = match self.keep.recovered.len() {
            0 => "",
            _ => "; the rest is in the menu File, Unsaved work",
        };
        self.notice = Some(format!("the work of {when}, not saved yet{more}"));
    }

    /// Goes back to an earlier save, as a step to undo.
    fn go_back_to(&mut self, backup: &Backup) {
        self.asked.put_away();
        let when = when_words(backup.when());
        match backup.open() {
            Ok(dance) if dance == **self.now.dance() => {
                self.notice = Some(format!("the save of {when} is just what is on the desk"));
            }
            Ok(dance) => {
                self.edit(format!("go back to the save of {when}"), dance.clone());
                if **self.now.dance() == dance {
                    self.notice = Some(format!("the save of {when}; undo has the work before it"));
                }
            }
            Err(error) => self.asked.ask(Question::Trouble(error.to_string())),
        }
    }
}
