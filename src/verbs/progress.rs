use std::io::{self, IsTerminal, Write};
use std::sync::Mutex;
use std::time::{Duration, Instant};

/// Nothing is said of what takes no longer than this.
const QUIET: Duration = Duration::from_secs(1);
/// How often it is said anew.
const EVERY: Duration = Duration::from_millis(200);

/// How far something has come, on standard error when that is a terminal and it takes over a second.
pub(super) struct Progress {
    what: &'static str,
    begun: Instant,
    said: Option<Instant>,
    shown: bool,
}

impl Progress {
    /// Begins to do something, named by what is counted, such as `sheet`.
    pub(super) fn of(what: &'static str) -> Self {
        Self { what, begun: Instant::now(), said: None, shown: io::stderr().is_terminal() }
    }

    /// So many are done; it goes on.
    pub(super) fn at(&mut self, done: usize, of: usize) -> bool {
        let now = Instant::now();
        let due = self.said.is_none_or(|said| now - said >= EVERY);
        if self.shown && due && now - self.begun > QUIET {
            let _ = write!(io::stderr(), "\rbellpad: {} {done} of {of}\u{1b}[K", self.what);
            self.said = Some(now);
        }
        true
    }
}

/// The same for many threads, each of which does one at a time.
pub(super) struct SharedProgress(Mutex<(usize, Progress)>);

impl SharedProgress {
    /// Begins to do something, named by what is counted.
    pub(super) fn of(what: &'static str) -> Self {
        Self(Mutex::new((0, Progress::of(what))))
    }

    /// One more is done.
    pub(super) fn one_more(&self, of: usize) {
        if let Ok(mut told) = self.0.lock() {
            told.0 += 1;
            let done = told.0;
            told.1.at(done, of);
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.said.is_some() {
            let _ = write!(io::stderr(), "\r\u{1b}[K");
        }
    }
}
