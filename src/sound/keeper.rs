use super::shared::Shared;
use super::{Server, Sink, SinkError, Source, Stream};
use std::sync::Arc;
use std::time::Duration;

/// How often a stream is asked what is heard of it: at first, and once it goes evenly.
const SOON: Duration = Duration::from_millis(10);
const OFTEN: Duration = Duration::from_millis(100);
/// Answers after which it goes evenly.
const EVEN: u32 = 8;
/// When it is tried again where there is nothing to play on; each time later, up to the second.
const AGAIN: Duration = Duration::from_millis(500);
const LATEST: Duration = Duration::from_secs(4);
/// A stream that is silent for so long, seconds, is closed.
const LINGERS: f64 = 1.0;
/// A stream that does not go on for so long, seconds, is given up: one that did before, and one that never has.
const STUCK: f64 = 0.6;
const NEVER: f64 = 4.0;
/// A stream is waited for until no more than this lies ready ahead of what is heard, seconds; but no longer than so long.
const NEAR: f64 = 0.5;
const SETTLES: f64 = 2.5;
/// Where nothing is asked for.
const IDLE: Duration = Duration::from_hours(1);

/// Sees to a sink: opens it when something is played, asks it what is heard, and lets go of it when it is silent or gone.
pub struct Keeper {
    shared: Arc<Shared>,
    sink: Box<dyn Sink>,
    open: Option<Open>,
    again: Duration,
}

/// A stream that is open.
struct Open {
    stream: Box<dyn Stream>,
    answers: u32,
    /// When it first went on, seconds, if it has.
    begun: Option<f64>,
    /// When it last went on, and when something was last to be heard, seconds.
    moved: f64,
    loud: f64,
}

impl Keeper {
    pub(super) fn new(shared: Arc<Shared>, sink: Box<dyn Sink>) -> Self {
        Self { shared, sink, open: None, again: AGAIN }
    }

    /// Looks after it for as long as there is a player.
    pub(super) fn keep(mut self) {
        let shared = Arc::clone(&self.shared);
        loop {
            let wait = self.look();
            let state = shared.lock();
            if state.closed {
                return;
            }
            // What was asked for since it looked is not slept over.
            if wait < IDLE || !state.is_playing() {
                shared.wait(state, wait);
            }
        }
    }

    /// Does what there is to do; gives how long until there may be more, unless something is asked for.
    pub fn look(&mut self) -> Duration {
        let now = self.shared.now();
        match self.open.take() {
            None if self.shared.lock().is_playing() => self.begin(now),
            None => IDLE,
            Some(open) => self.look_at(open, now),
        }
    }

    /// Opens a stream.
    fn begin(&mut self, now: f64) -> Duration {
        let number = self.shared.lock().begin_stream();
        let source = Source::new(Arc::clone(&self.shared), number);
        match self.sink.open(source) {
            Ok(stream) => {
                let now = now.max(self.shared.now());
                self.open = Some(Open { stream, answers: 0, begun: None, moved: now, loud: now });
                SOON
            }
            Err(error) => self.fail(error),
        }
    }

    /// Asks a stream that is open what is heard.
    fn look_at(&mut self, mut open: Open, now: f64) -> Duration {
        let shared = Arc::clone(&self.shared);
        let timing = match open.stream.timing(&|| shared.now()) {
            Ok(timing) => timing,
            Err(error) => {
                // It is gone: perhaps there is another already.
                self.again = AGAIN;
                drop(open);
                return self.fail(error);
            }
        };
        let mut state = self.shared.lock();
        if let Some(timing) = timing {
            // A server that has rendered silence far ahead plays it first; meanwhile the dance goes on.
            let goes_since = timing.moves.then(|| *open.begun.get_or_insert(now));
            let settled = goes_since.is_some_and(|since| now - since > SETTLES) || state.lag(timing) < NEAR;
            state.take(timing, settled);
            if timing.moves {
                open.moved = now;
                open.answers += 1;
                if state.server != Server::There {
                    state.server = Server::There;
                }
                self.again = AGAIN;
            }
        }
        if !state.is_silent() {
            open.loud = now;
        }
        if now - open.loud > LINGERS {
            state.end_stream(now);
            drop(state);
            return IDLE;
        }
        if now - open.moved > if open.answers > 0 { STUCK } else { NEVER } {
            drop(state);
            return self.fail(SinkError("this computer's sound plays nothing".to_owned()));
        }
        drop(state);
        let wait = if open.answers < EVEN { SOON } else { OFTEN };
        self.open = Some(open);
        wait
    }

    /// There is nothing to play on.
    fn fail(&mut self, error: SinkError) -> Duration {
        let now = self.shared.now();
        let mut state = self.shared.lock();
        state.end_stream(now);
        state.server = Server::Missing(error.0);
        let again = self.again;
        self.again = (again * 2).min(LATEST);
        again
    }
}
