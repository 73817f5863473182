use super::{Autosave, Home, Stamp, StoreError};
use crate::dance::Dance;
use std::path::Path;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Condvar, Mutex, MutexGuard, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::{Duration, Instant};

/// A change is written when none has followed it for this long: half of the second that is promised, so that the
/// write itself has the other half.
const QUIET: Duration = Duration::from_millis(500);

/// A change waits no longer than this while others follow it: half of the two seconds that are promised.
const LONGEST: Duration = Duration::from_secs(1);

/// After something that failed, it is tried again this much later.
const AGAIN: Duration = Duration::from_secs(1);

/// An [`Autosave`] on a thread of its own, so that the window never waits for the disk.
///
/// The window hands it each new dance. It is written within a second of the last change, and at the latest two
/// seconds after the first that was not written. What fails is tried again until it succeeds. It looks by itself
/// whether work can be kept, as soon as it begins and when it is [asked to](Self::look), so that nobody hears of a
/// full disk only once there is work to keep. Dropping it writes what is left.
#[derive(Debug)]
pub struct AutosaveThread {
    shared: Arc<Shared>,
    news: Receiver<Result<(), StoreError>>,
    thread: Option<JoinHandle<()>>,
}

/// What the window and the thread share. Where both are locked, `autosave` is locked first.
#[derive(Debug)]
struct Shared {
    autosave: Mutex<Autosave>,
    state: Mutex<ThreadState>,
    bell: Condvar,
}

#[derive(Debug, Default)]
struct ThreadState {
    waiting: Option<Waiting>,
    /// When to look whether work can be kept; nothing when that is known.
    look: Option<Instant>,
    /// Whether what is kept is to be dropped, which has failed before.
    to_clear: bool,
    /// Whether what was tried last failed, so that it is news when it works again.
    failing: bool,
    closing: bool,
    wake: Option<WakeWindow>,
}

/// What wakes the window when there is news.
#[derive(Clone)]
struct WakeWindow(Arc<dyn Fn() + Send + Sync>);

impl std::fmt::Debug for WakeWindow {
    fn fmt(&self, formatter: &mut std::fmt::Formatter) -> std::fmt::Result {
        formatter.write_str("Wake")
    }
}

/// A dance that is to be written.
#[derive(Debug)]
struct Waiting {
    dance: Arc<Dance>,
    /// When it is written if no other follows.
    quiet: Instant,
    /// When it, or what followed it, is written at the latest.
    latest: Instant,
}

impl AutosaveThread {
    /// Begins to keep the work on a dance, as [`Autosave::begin`] does; where no place can be made to keep it in, that
    /// is news, and tried again.
    ///
    /// # Errors
    /// When the system starts no thread.
    pub fn begin(home: &Home, path: Option<&Path>, stamp: Option<&Stamp>) -> Result<Self, StoreError> {
        let mut autosave = Autosave::waiting(home);
        autosave.set_file(path, stamp);
        let state = ThreadState { look: Some(Instant::now()), ..ThreadState::default() };
        let shared = Arc::new(Shared {
            autosave: Mutex::new(autosave),
            state: Mutex::new(state),
            bell: Condvar::new(),
        });
        let (sender, news) = channel();
        let worker = Arc::clone(&shared);
        let thread =
            thread::Builder::new().name("autosave".to_owned()).spawn(move || worker.work(&sender)).map_err(
                |source| StoreError::Autosave { path: home.work_folder().unwrap_or_default(), source },
            )?;
        Ok(Self { shared, news, thread: Some(thread) })
    }

    /// Has the window woken when there is news.
    pub fn wake_with(&self, wake: impl Fn() + Send + Sync + 'static) {
        locked(&self.shared.state).wake = Some(WakeWindow(Arc::new(wake)));
    }

    /// Looks whether work can be kept now. This never waits for the disk.
    pub fn look(&self) {
        let mut state = locked(&self.shared.state);
        // What fails is looked at soon enough.
        if !state.failing {
            state.look = Some(Instant::now());
        }
        drop(state);
        self.shared.bell.notify_one();
    }

    /// Hands over the dance as it is after a change. This never waits for the disk.
    pub fn hand(&self, dance: Arc<Dance>) {
        let now = Instant::now();
        let mut state = locked(&self.shared.state);
        let latest = state.waiting.as_ref().map_or(now + LONGEST, |waiting| waiting.latest);
        state.waiting = Some(Waiting { dance, quiet: now + QUIET, latest });
        drop(state);
        self.shared.bell.notify_one();
    }

    /// Drops what was kept and what waits: the work is safe in a file, or was given up by the user.
    ///
    /// # Errors
    /// When it cannot be removed, which is tried again; until then it may be offered again.
    pub fn clear(&self) -> Result<(), StoreError> {
        let autosave = locked(&self.shared.autosave);
        locked(&self.shared.state).waiting = None;
        self.cleared(autosave.clear())
    }

    /// Drops what was kept, and says which file the work is on from now on: after a save, or when another dance
    /// is on the desk.
    ///
    /// # Errors
    /// When what was kept cannot be removed, which is tried again; until then it may be offered again.
    pub fn work_is_on(&self, path: Option<&Path>, stamp: Option<&Stamp>) -> Result<(), StoreError> {
        let mut autosave = locked(&self.shared.autosave);
        locked(&self.shared.state).waiting = None;
        autosave.set_file(path, stamp);
        self.cleared(autosave.clear())
    }

    fn cleared(&self, done: Result<(), StoreError>) -> Result<(), StoreError> {
        locked(&self.shared.state).to_clear = done.is_err();
        self.shared.tried_outside(done.is_ok());
        done
    }

    /// Keeps a dance before this returns: work that is taken on from where it will be removed.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn keep_now(&self, dance: &Dance) -> Result<(), StoreError> {
        let mut autosave = locked(&self.shared.autosave);
        locked(&self.shared.state).waiting = None;
        let done = autosave.settle().and_then(|()| autosave.write(dance));
        self.shared.tried_outside(done.is_ok());
        done
    }

    /// What has come of keeping work since this was asked last: that it fails, which is said once as long as it fails
    /// in one way, or that it works again.
    #[must_use]
    pub fn try_recv(&self) -> Option<Result<(), StoreError>> {
        self.news.try_recv().ok()
    }
}

impl Drop for AutosaveThread {
    fn drop(&mut self) {
        locked(&self.shared.state).closing = true;
        self.shared.bell.notify_one();
        if let Some(thread) = self.thread.take() {
            let _ = thread.join();
        }
    }
}

impl Shared {
    /// Writes what is handed over, and looks whether that can be done, until the window closes.
    fn work(&self, news: &Sender<Result<(), StoreError>>) {
        // With nobody to hear it the window is closing.
        let tell = |what: Result<(), StoreError>| {
            let _ = news.send(what);
            // Whoever is woken may want the state.
            let wake = locked(&self.state).wake.clone();
            if let Some(WakeWindow(wake)) = wake {
                wake();
            }
        };
        let mut said = String::new();
        while self.wait() {
            let mut autosave = locked(&self.autosave);
            // What waits may have been dropped or followed by another since.
            let (waiting, to_clear) = {
                let mut state = locked(&self.state);
                state.look = None;
                (state.waiting.take(), state.to_clear)
            };
            let done = match &waiting {
                // What was kept before is written over.
                Some(waiting) => autosave.settle().and_then(|()| autosave.write(&waiting.dance)),
                None if to_clear => autosave.clear(),
                None => autosave.look(),
            };
            let failed = self.tried(done.is_ok(), waiting);
            drop(autosave);
            match done {
                Ok(()) if failed => {
                    said.clear();
                    tell(Ok(()));
                }
                Ok(()) => {}
                Err(error) if error.to_string() == said => {}
                Err(error) => {
                    said = error.to_string();
                    tell(Err(error));
                }
            }
        }
    }

    /// Notes whether something was done, and tries it again after a while where it was not, unless a newer dance waits.
    /// Gives whether what was tried before had failed.
    fn tried(&self, done: bool, waiting: Option<Waiting>) -> bool {
        let mut state = locked(&self.state);
        let failed = std::mem::replace(&mut state.failing, !done);
        if done {
            state.to_clear = false;
        } else if state.waiting.is_none() && !state.closing {
            let again = Instant::now() + AGAIN;
            match waiting {
                Some(Waiting { dance, .. }) => {
                    state.waiting = Some(Waiting { dance, quiet: again, latest: again });
                }
                None => state.look = Some(again),
            }
        }
        failed
    }

    /// Notes whether something was done that the thread did not do. Where it was not, the thread sees to it; where it
    /// was, although what was tried before had failed, the thread looks whether all works again.
    fn tried_outside(&self, done: bool) {
        let mut state = locked(&self.state);
        let now = Instant::now();
        if !done {
            (state.failing, state.look) = (true, Some(now + AGAIN));
        } else if state.failing {
            state.look = Some(now);
        }
        drop(state);
        self.bell.notify_one();
    }

    /// Waits until something is to be done; false when all is.
    fn wait(&self) -> bool {
        let mut state = locked(&self.state);
        loop {
            let now = Instant::now();
            let written = state.waiting.as_ref().map(|waiting| waiting.quiet.min(waiting.latest));
            let due = written.into_iter().chain(state.look).min();
            state = match due {
                _ if state.closing => return written.is_some(),
                Some(due) if due <= now => return true,
                Some(due) => {
                    self.bell.wait_timeout(state, due - now).unwrap_or_else(PoisonError::into_inner).0
                }
                None => self.bell.wait(state).unwrap_or_else(PoisonError::into_inner),
            };
        }
    }
}

/// Locks also after a panic on the other side: what is behind the lock is whole at any moment.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
