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

/// After a write that failed, it is tried again this much later.
const AGAIN: Duration = Duration::from_secs(5);

/// An [`Autosave`] on a thread of its own, so that the window never waits for the disk.
///
/// The window hands it each new dance. It is written within a second of the last change, and at the latest two
/// seconds after the first that was not written. A write that fails is tried again. Dropping it writes what is left.
#[derive(Debug)]
pub struct AutosaveThread {
    shared: Arc<Shared>,
    errors: Receiver<StoreError>,
    thread: Option<JoinHandle<()>>,
}

/// What the window and the thread share. Where both are locked, `autosave` is locked first.
#[derive(Debug)]
struct Shared {
    autosave: Mutex<Autosave>,
    state: Mutex<State>,
    bell: Condvar,
}

#[derive(Debug, Default)]
struct State {
    waiting: Option<Waiting>,
    closing: bool,
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
    /// Begins to keep the work on a dance, as [`Autosave::begin`] does.
    ///
    /// # Errors
    /// When no place can be made to keep it in, or the system starts no thread.
    pub fn begin(home: &Home, path: Option<&Path>, stamp: Option<&Stamp>) -> Result<Self, StoreError> {
        let autosave = Autosave::begin(home, path, stamp)?;
        let shared = Arc::new(Shared {
            autosave: Mutex::new(autosave),
            state: Mutex::default(),
            bell: Condvar::new(),
        });
        let (sender, errors) = channel();
        let worker = Arc::clone(&shared);
        let thread =
            thread::Builder::new().name("autosave".to_owned()).spawn(move || worker.work(&sender)).map_err(
                |source| StoreError::Autosave { path: home.work_folder().unwrap_or_default(), source },
            )?;
        Ok(Self { shared, errors, thread: Some(thread) })
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
    /// When it cannot be removed; it may be offered again.
    pub fn clear(&self) -> Result<(), StoreError> {
        let autosave = locked(&self.shared.autosave);
        locked(&self.shared.state).waiting = None;
        autosave.clear()
    }

    /// Drops what was kept, and says which file the work is on from now on: after a save, or when another dance
    /// is on the desk.
    ///
    /// # Errors
    /// When what was kept cannot be removed; it may be offered again.
    pub fn now_on(&self, path: Option<&Path>, stamp: Option<&Stamp>) -> Result<(), StoreError> {
        let mut autosave = locked(&self.shared.autosave);
        locked(&self.shared.state).waiting = None;
        autosave.set_file(path, stamp);
        autosave.clear()
    }

    /// Keeps a dance before this returns: work that is taken on from where it will be removed.
    ///
    /// # Errors
    /// When it cannot be written.
    pub fn keep_now(&self, dance: &Dance) -> Result<(), StoreError> {
        let autosave = locked(&self.shared.autosave);
        locked(&self.shared.state).waiting = None;
        autosave.write(dance)
    }

    /// What went wrong since this was asked last. While writing keeps failing in one way that is said once.
    #[must_use]
    pub fn try_recv(&self) -> Option<StoreError> {
        self.errors.try_recv().ok()
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
    /// Writes what is handed over until the window closes.
    fn work(&self, errors: &Sender<StoreError>) {
        let mut said = String::new();
        while self.wait() {
            let autosave = locked(&self.autosave);
            // It may have been dropped or followed by another since.
            let Some(waiting) = locked(&self.state).waiting.take() else { continue };
            match autosave.write(&waiting.dance) {
                Ok(()) => said.clear(),
                Err(error) => {
                    if error.to_string() != said {
                        said = error.to_string();
                        // With nobody to hear it the window is closing.
                        let _ = errors.send(error);
                    }
                    self.put_back(waiting.dance);
                }
            }
        }
    }

    /// Waits until something is to be written; false when all is done.
    fn wait(&self) -> bool {
        let mut state = locked(&self.state);
        loop {
            let now = Instant::now();
            let due = state.waiting.as_ref().map(|waiting| waiting.quiet.min(waiting.latest));
            state = match due {
                _ if state.closing => return due.is_some(),
                Some(due) if due <= now => return true,
                Some(due) => {
                    self.bell.wait_timeout(state, due - now).unwrap_or_else(PoisonError::into_inner).0
                }
                None => self.bell.wait(state).unwrap_or_else(PoisonError::into_inner),
            };
        }
    }

    /// Puts a dance that could not be written back to be tried again, unless there is a newer one.
    fn put_back(&self, dance: Arc<Dance>) {
        let mut state = locked(&self.state);
        if !state.closing && state.waiting.is_none() {
            let again = Instant::now() + AGAIN;
            state.waiting = Some(Waiting { dance, quiet: again, latest: again });
        }
    }
}

/// Locks also after a panic on the other side: what is behind the lock is whole at any moment.
fn locked<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}
