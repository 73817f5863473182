use super::{
    desk::Desk,
    keep::{Keep, Outside},
    keep_ask::KeepAsk,
    what_changed::what_changed,
    when::when_words,
};
use crate::picture::{PAPER, SLATE};
use crate::store::{Backup, Home, Saved, Settings, Stamp, StoreError, WindowSize, open, open_with_stamp};
use crate::window::{After, Dialog, KeepDialog, LeftWork, Meanwhile, PathField, Purpose};
use std::path::{Path, PathBuf};
use std::sync::Arc;

/// Keeping work from being lost.
impl Desk {
    /// The desk, with work kept in a home and with what is remembered there.
    #[must_use]
    pub fn at_home(mut self, home: Home) -> Self {
        self.keep = Keep::at(home);
        if self.keep.settings.paper {
            self.ink = PAPER;
        }
        self
    }

    /// What is remembered about the window.
    #[must_use]
    pub fn settings(&self) -> &Settings {
        &self.keep.settings
    }

    /// Remembers how large the window is.
    pub fn remember_window(&mut self, size: WindowSize) {
        self.keep.remember(|settings| settings.window = Some(size));
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

    /// Sees to the keeping of work once a frame: what has changed is handed over, without waiting for the disk.
    /// Gives whether there is another thing to tell than before.
    pub fn keep_up(&mut self) -> bool {
        if self.may_close {
            self.keep.give_up();
            return false;
        }
        let told = self.keep.line.clone();
        if self.dialog.is_none() {
            // Nobody asks about it any more: other windows may.
            self.keep.left.clear();
            if std::mem::take(&mut self.keep.to_look) {
                self.show_left(false);
            }
        }
        let paper = self.ink != SLATE;
        self.keep.remember(|settings| settings.paper = paper);
        self.keep.hear();
        let (never, saved) = (self.never_saved, &self.saved);
        let dance = &self.dance;
        let unsaved = || never || (!Arc::ptr_eq(dance, saved) && dance != saved);
        self.keep.see_to(dance, unsaved);
        self.keep.line != told
    }

    /// Has the window woken when something is to be told about keeping work.
    pub fn wake_with(&self, wake: impl Fn() + Send + Sync + 'static) {
        self.keep.wake_with(wake);
    }

    /// The window has the focus again: somebody may have changed the file meanwhile, or filled the disk.
    pub fn look_outside(&mut self) {
        self.keep.look();
        if let Some(path) = &self.path {
            self.keep.look_outside(path);
        }
    }

    /// What someone else has made of the file, unless the user has said to leave that.
    #[must_use]
    pub fn outside(&self) -> Option<Outside> {
        self.keep.outside.filter(|outside| self.keep.left_alone != Some(*outside))
    }

    /// What did not go well in keeping work, until it is put away.
    #[must_use]
    pub fn keep_line(&self) -> Option<&str> {
        self.keep.line.as_deref()
    }

    /// Takes what is asked for about keeping work.
    pub(super) fn take_keep_ask(&mut self, ask: KeepAsk) {
        match ask {
            KeepAsk::SaveOver => {
                if let Some((path, then)) = self.take_meanwhile() {
                    self.save_expecting(&path, None, then);
                }
            }
            KeepAsk::SaveElsewhere => {
                let then = self.take_meanwhile().and_then(|(_, then)| then);
                self.ask_path(Purpose::SaveAs, then);
            }
            KeepAsk::OpenTheirs => {
                let then = self.take_meanwhile().and_then(|(_, then)| then);
                self.open_theirs();
                if let Some(after) = then.filter(|_| self.dialog.is_none() && !self.unsaved()) {
                    self.go_on(after);
                }
            }
            KeepAsk::LeaveTheirs => self.keep.left_alone = self.keep.outside,
            KeepAsk::AskLeft => self.show_left(true),
            KeepAsk::OpenLeft(index) => self.unless_unsaved(After::OpenLeft(index)),
            KeepAsk::PutLeftAway(index) => {
                if index < self.keep.left.len() {
                    let done = self.keep.left.remove(index).discard();
                    self.keep.say(Some(done));
                }
                self.list_left();
            }
            KeepAsk::AskEarlier => {
                if let Some(path) = &self.path {
                    self.dialog = Some(Dialog::Keep(KeepDialog::Earlier(self.keep.home.backups(path))));
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
        }
    }

    /// Saves to a file, and then goes on with what waited for that.
    pub(super) fn save_to(&mut self, path: &Path, then: Option<After>) {
        // Another file than this dance's own was asked about when it was chosen.
        let expected = self.keep.stamp.filter(|_| self.path.as_deref() == Some(path));
        self.save_expecting(path, expected, then);
    }

    fn save_expecting(&mut self, path: &Path, expected: Option<Stamp>, then: Option<After>) {
        self.end_drag();
        match self.keep.home.save_checked(path, &self.dance, expected.as_ref()) {
            Ok(saved) => {
                self.has_saved(path, saved);
                if let Some(after) = then {
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
                self.dialog = Some(Dialog::Keep(KeepDialog::Meanwhile(Box::new(Meanwhile {
                    path: path.to_owned(),
                    gone,
                    said,
                    readable,
                    then,
                    focused: false,
                }))));
            }
            Err(error) => {
                // The path stays, to be put right or to be another one.
                let field = PathField::new(Purpose::SaveAs, path, then);
                self.dialog = Some(Dialog::Path(field.again(error.to_string())));
            }
        }
    }

    fn has_saved(&mut self, path: &Path, saved: Saved) {
        self.saved = Arc::clone(&self.dance);
        self.never_saved = false;
        // What comes after a save is another step than what came before it.
        self.part_steps();
        self.path = Some(path.to_owned());
        self.keep.now_on(Some(path), Some(saved.stamp));
        self.recent.add(path);
        self.notice = Some(match saved.warning {
            Some(warning) => warning.to_string(),
            None => format!("saved as {}", self.file_name()),
        });
    }

    /// Puts the dialog about a file that was changed meanwhile away; gives the file, and what waits for its save.
    fn take_meanwhile(&mut self) -> Option<(PathBuf, Option<After>)> {
        match self.dialog.take() {
            Some(Dialog::Keep(KeepDialog::Meanwhile(meanwhile))) => Some((meanwhile.path, meanwhile.then)),
            other => {
                self.dialog = other;
                None
            }
        }
    }

    /// Takes on what someone else has saved, as a step to undo; the work here is kept among the versions.
    fn open_theirs(&mut self) {
        self.end_drag();
        let Some(path) = self.path.clone() else { return };
        let (dance, stamp) = match open_with_stamp(&path) {
            Ok(theirs) => theirs,
            Err(error) => return self.dialog = Some(Dialog::Trouble(error.to_string())),
        };
        if self.unsaved()
            && let Err(error) = self.keep.home.keep_version(&path, &self.dance)
        {
            return self.dialog = Some(Dialog::Trouble(error.to_string()));
        }
        self.edit("open what was saved meanwhile".to_owned(), dance.clone());
        if *self.dance == dance {
            self.saved = Arc::clone(&self.dance);
            self.never_saved = false;
            self.keep.now_on(Some(&path), Some(stamp));
            self.notice =
                Some(format!("{} as it is on the disk; undo has the work before it", self.file_name()));
        }
    }

    /// Looks for work of windows that are gone and shows it, if there is any.
    fn show_left(&mut self, asked: bool) {
        self.end_drag();
        // What is held here is offered to nobody, not even to this window.
        self.keep.left.clear();
        self.keep.left = self.keep.home.recover();
        self.list_left();
        if self.keep.left.is_empty() && asked {
            self.notice = Some("no work is left that was not saved when a window ended".to_owned());
        }
    }

    /// Shows the list of such work, or puts it away when nothing is left of it.
    fn list_left(&mut self) {
        let works: Vec<_> = self.keep.left.iter().map(LeftWork::of).collect();
        self.dialog = (!works.is_empty()).then_some(Dialog::Keep(KeepDialog::Left {
            works,
            asking: None,
            focused: false,
        }));
    }

    /// Takes on work of a window that is gone. It is kept anew before it is removed where it was.
    pub(super) fn open_left(&mut self, index: usize) {
        if index >= self.keep.left.len() {
            return;
        }
        let work = self.keep.left.remove(index);
        if !self.put_on_desk(work.dance.clone(), work.path.clone(), work.stamp) {
            return;
        }
        match work.path.as_deref().map(open) {
            Some(Ok(dance)) => self.saved = Arc::new(dance),
            _ => self.never_saved = true,
        }
        let when = when_words(work.when);
        if self.keep.take_on(&self.dance) {
            let done = work.discard();
            self.keep.say(Some(done));
        }
        let more = match self.keep.left.len() {
            0 => "",
            _ => "; the rest is in the menu File, Unsaved work",
        };
        self.notice = Some(format!("the work of {when}, not saved yet{more}"));
    }

    /// Goes back to an earlier save, as a step to undo.
    fn go_back_to(&mut self, backup: &Backup) {
        self.dialog = None;
        let when = when_words(backup.when());
        match backup.open() {
            Ok(dance) if dance == *self.dance => {
                self.notice = Some(format!("the save of {when} is just what is on the desk"));
            }
            Ok(dance) => {
                self.edit(format!("go back to the save of {when}"), dance.clone());
                if *self.dance == dance {
                    self.notice = Some(format!("the save of {when}; undo has the work before it"));
                }
            }
            Err(error) => self.dialog = Some(Dialog::Trouble(error.to_string())),
        }
    }
}
