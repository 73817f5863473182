use super::{Band, HeardClock, Levels, Timing};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// Samples a second of what is played: what most machines have.
pub const LIVE_RATE: u32 = 48_000;

/// Whether there is something to play on.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum Server {
    /// Nothing has been played yet.
    #[default]
    Unknown,
    /// It plays.
    There,
    /// There is nothing to play on, and why: it plays silently, at the right speed, and looks again.
    Missing(String),
}

/// What the player and its thread share.
pub(super) struct Shared {
    state: Mutex<State>,
    changed: Condvar,
    now: Box<dyn Fn() -> f64 + Send + Sync>,
}

/// What is played, and where it is heard.
pub(super) struct State {
    pub(super) band: Band,
    pub(super) clock: HeardClock,
    /// How much later than the machine says it is heard, seconds.
    pub(super) delay: f64,
    /// The sample from which on what was asked for last is played.
    pub(super) since: u64,
    stream: Option<Listened>,
    next: u64,
    pub(super) server: Server,
    pub(super) closed: bool,
}

/// The stream that is listened to.
struct Listened {
    number: u64,
    /// Whether it goes on. Until it does it has silence, so that nothing waits for one that never does.
    goes: bool,
    /// Whether it has the music.
    begun: bool,
    /// Samples that it has drawn.
    drawn: u64,
}

impl Shared {
    /// With a band that plays nothing yet, by a clock that gives seconds.
    pub(super) fn new(now: Box<dyn Fn() -> f64 + Send + Sync>) -> Self {
        let state = State {
            band: Band::new(LIVE_RATE, Levels::default()),
            clock: HeardClock::new(f64::from(LIVE_RATE), now()),
            delay: 0.0,
            since: 0,
            stream: None,
            next: 0,
            server: Server::default(),
            closed: false,
        };
        Self { state: Mutex::new(state), changed: Condvar::new(), now }
    }

    /// Something was asked for.
    pub(super) fn tell(&self) {
        self.changed.notify_all();
    }

    /// Seconds of a clock that never runs back.
    pub(super) fn now(&self) -> f64 {
        (self.now)()
    }

    /// Held for as long as some samples take to be made, at the most.
    pub(super) fn lock(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Waits until something is asked for, or for so long.
    pub(super) fn wait(&self, state: MutexGuard<'_, State>, most: Duration) {
        let _ = self.changed.wait_timeout(state, most);
    }
}

impl State {
    /// Whether a stream is wanted.
    pub(super) fn is_playing(&self) -> bool {
        self.band.is_playing()
    }

    /// Whether all that was played has died away.
    pub(super) fn is_silent(&self) -> bool {
        !self.band.is_sounding()
    }

    /// A stream is about to begin: its number.
    pub(super) fn begin_stream(&mut self) -> u64 {
        self.next += 1;
        self.stream = Some(Listened { number: self.next, goes: false, begun: false, drawn: 0 });
        self.next
    }

    /// The stream is no more.
    pub(super) fn end_stream(&mut self, now: f64) {
        self.stream = None;
        self.sample(now);
        self.clock.go_alone(now, self.late());
        // What was never made was never heard: it goes on from where it stood, and does not leap.
        self.clock.no_further(self.band.made() as f64);
        self.clock.go_alone(now, 0.0);
    }

    /// Makes samples of a stream; whether there are any for it.
    pub(super) fn fill(&mut self, number: u64, out: &mut [f32], now: f64) -> bool {
        let goes = self.stream.as_ref().is_some_and(|stream| stream.number == number && stream.goes);
        if goes && self.clock.is_alone() {
            // Nobody may have asked for a while where the dance has come to: the window may be hidden.
            self.sample(now);
        }
        let made = self.band.made();
        let Some(stream) = self.stream.as_mut().filter(|stream| stream.number == number) else {
            return false;
        };
        let drawn = stream.drawn;
        stream.drawn += out.len() as u64;
        if !stream.goes {
            return false;
        }
        if !std::mem::replace(&mut stream.begun, true) {
            self.clock.begin(made as f64 - drawn as f64, now);
        }
        self.band.fill(out);
        true
    }

    /// How much of the stream has been drawn and is not heard yet, seconds.
    pub(super) fn lag(&self, timing: Timing) -> f64 {
        let drawn = self.stream.as_ref().map_or(0, |stream| stream.drawn);
        (drawn as f64 - timing.heard) / f64::from(LIVE_RATE)
    }

    /// Takes what the stream says; once it goes on, and has settled, it has the music.
    pub(super) fn take(&mut self, timing: Timing, settled: bool) {
        if let Some(stream) = &mut self.stream {
            stream.goes |= timing.moves && settled;
        }
        self.clock.take(timing);
    }

    /// Whether what is heard is about to come from a stream, though it does not yet.
    pub(super) fn may_begin(&self) -> bool {
        let begun = self.stream.as_ref().is_some_and(|stream| stream.begun);
        !begun && !matches!(self.server, Server::Missing(_))
    }

    /// How much later than the stream says it is heard, seconds; without one nothing is.
    fn late(&self) -> f64 {
        if self.clock.is_alone() { 0.0 } else { self.delay }
    }

    /// The sample that is heard.
    pub(super) fn sample(&mut self, now: f64) -> u64 {
        let sample = self.clock.heard(now - self.late()) as u64;
        if self.clock.is_alone() {
            self.band.pass(sample.saturating_sub(self.band.made()));
        }
        self.clock.no_further(self.band.made() as f64);
        sample.min(self.band.made())
    }
}
