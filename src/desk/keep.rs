use super::wake::Wake;
use crate::dance::Dance;
use crate::store::{AutosaveThread, Home, Recovered, Settings, Stamp, StoreError};
use std::path::Path;
use std::sync::Arc;

/// How the window keeps work from being lost, and what it remembers of itself.
///
/// The usual one keeps nothing anywhere.
#[derive(Default)]
pub struct Keep {
    pub(super) home: Home,
    /// What the file of the dance was like when it was opened or last saved.
    pub(super) stamp: Option<Stamp>,
    autosave: Option<AutosaveThread>,
    /// The dance that was seen to last.
    seen: Option<Arc<Dance>>,
    /// What the thread has of it.
    kept: Kept,
    /// Work of windows that are gone, while a dialog is about it.
    pub(super) recovered: Vec<Recovered>,
    /// Whether such work is still to be looked for.
    pub(super) to_look: bool,
    /// What someone else has made of the file.
    pub(super) outside: Option<Outside>,
    /// What of that the user has said to leave.
    pub(super) accepted: Option<Outside>,
    /// What did not go well, to be read and put away.
    pub(super) line: Option<String>,
    /// Whether work cannot be kept now, also when that has been read and put away.
    failing: bool,
    /// What is remembered.
    pub settings: Settings,
    /// Whether the card of the first minute is shown.
    pub(super) welcome: bool,
}

/// What has been handed over to be kept.
#[derive(Clone, Copy, Default, PartialEq, Eq)]
enum Kept {
    /// Nothing since what was kept was last dropped.
    #[default]
    Nothing,
    /// Work that is not saved.
    Work,
    /// Nothing, nor will anything be: the window closes.
    GivenUp,
}

/// What someone else has made of a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outside {
    /// It has other content.
    Changed(Stamp),
    /// It is no longer there.
    Gone,
}

impl Keep {
    /// Begins to keep work in a home.
    pub(super) fn at(home: Home) -> Self {
        let settings = Settings::kept_in(&home);
        let mut keep = Self { settings, to_look: !home.is_nowhere(), ..Self::default() };
        keep.welcome = !keep.settings.welcomed;
        if !home.is_nowhere() {
            match AutosaveThread::begin(&home, None, None) {
                Ok(autosave) => keep.autosave = Some(autosave),
                Err(error) => keep.line = Some(error.to_string()),
            }
        }
        keep.home = home;
        keep
    }

    /// Whether unsaved work is kept for the case that the program ends.
    pub(super) fn works(&self) -> bool {
        self.autosave.is_some() && !self.failing
    }

    /// Has the window woken when keeping work begins to fail, or works again.
    pub(super) fn wake_with(&self, wake: Wake) {
        if let Some(autosave) = &self.autosave {
            autosave.wake_with(move || wake.wake());
        }
    }

    /// Looks whether work can still be kept; what has come of that is heard later.
    pub(super) fn look(&self) {
        if let Some(autosave) = &self.autosave {
            autosave.look();
        }
    }

    /// The work is on another file or another dance from now on; what was kept is safe, or was given up.
    pub(super) fn begin_on(&mut self, path: Option<&Path>, stamp: Option<Stamp>) {
        self.stamp = stamp;
        (self.outside, self.accepted, self.seen, self.kept) = (None, None, None, Kept::Nothing);
        let done = self.autosave.as_ref().map(|autosave| autosave.work_is_on(path, stamp.as_ref()));
        self.note(done);
    }

    /// Hands the dance over after a change. With nothing unsaved, what was kept is dropped.
    pub(super) fn hand_over(&mut self, dance: &Arc<Dance>, unsaved: impl Fn() -> bool) {
        if self.kept == Kept::GivenUp || self.seen.as_ref().is_some_and(|seen| Arc::ptr_eq(seen, dance)) {
            return;
        }
        self.seen = Some(Arc::clone(dance));
        let Some(autosave) = &self.autosave else { return };
        if unsaved() {
            autosave.hand(Arc::clone(dance));
            self.kept = Kept::Work;
        } else if std::mem::take(&mut self.kept) == Kept::Work {
            let done = autosave.clear();
            self.note(Some(done));
        }
    }

    /// Keeps work that was taken on from elsewhere, before it is removed there; gives whether it is kept.
    pub(super) fn take_on(&mut self, dance: &Dance) -> bool {
        let done = self.autosave.as_ref().map(|autosave| autosave.keep_now(dance));
        let kept = matches!(done, Some(Ok(())));
        self.note(done);
        if kept {
            self.kept = Kept::Work;
        }
        kept
    }

    /// Drops what was kept: the window closes with nothing to keep.
    pub(super) fn give_up(&mut self) {
        if std::mem::replace(&mut self.kept, Kept::GivenUp) != Kept::GivenUp {
            let done = self.autosave.as_ref().map(AutosaveThread::clear);
            self.note(done);
        }
    }

    /// Hears whether keeping work fails or works again.
    pub(super) fn take_news(&mut self) {
        while let Some(news) = self.autosave.as_ref().and_then(AutosaveThread::try_recv) {
            if news.is_ok() {
                (self.line, self.failing) = (None, false);
                // They could not be kept meanwhile either.
                self.settings.keep(&self.home);
            }
            self.note(Some(news));
        }
    }

    /// Notes what came of keeping work.
    fn note(&mut self, done: Option<Result<(), StoreError>>) {
        self.failing |= matches!(done, Some(Err(_)));
        self.warn(done);
    }

    /// Says what went wrong, if anything did.
    pub(super) fn warn(&mut self, done: Option<Result<(), StoreError>>) {
        if let Some(Err(error)) = done {
            self.line = Some(error.to_string());
        }
    }

    /// Looks at what a file is like now.
    pub(super) fn look_outside(&mut self, path: &Path) {
        let Some(stamp) = self.stamp else { return };
        self.outside = match stamp.now(path) {
            Ok(now) if now == stamp => None,
            Ok(now) => Some(Outside::Changed(now)),
            Err(error) if error.kind() == std::io::ErrorKind::NotFound => Some(Outside::Gone),
            // A disk that is away for a moment is told of when it is saved to.
            Err(_) => None,
        };
        if self.outside.is_none() {
            self.accepted = None;
        }
    }

    /// Remembers what was chosen.
    pub(super) fn remember(&mut self, change: impl FnOnce(&mut Settings)) {
        let before = self.settings.clone();
        change(&mut self.settings);
        if self.settings != before {
            self.settings.keep(&self.home);
        }
    }
}
