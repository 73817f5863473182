use super::keeper::Keeper;
use super::shared::Shared;
use super::{Heard, Levels, Performance, Server, Sink};
use std::sync::Arc;
use std::time::Instant;

/// Plays the music of a dance, and says what is heard of it now. No call waits for the machine's sound: a thread of its own sees
/// to that, and while there is none the music goes on unheard.
pub struct LivePlayer {
    shared: Arc<Shared>,
}

impl LivePlayer {
    /// A player on the machine's own sound, with a thread that sees to it. Where there can be no thread it plays silently.
    #[must_use]
    pub fn begin(sink: impl Sink) -> Self {
        let begun = Instant::now();
        let player = Self::on(move || begun.elapsed().as_secs_f64());
        let shared = Arc::clone(&player.shared);
        let thread = std::thread::Builder::new().name("sound".to_owned());
        let begun = thread.spawn(move || {
            Keeper::new(Arc::clone(&shared), Box::new(sink)).keep();
        });
        if let Err(error) = begun {
            player.shared.lock().server = Server::Missing(error.to_string());
        }
        player
    }

    /// A player by a clock of one's own, seconds, and what sees to its sink: that has to be called now and then.
    #[must_use]
    pub fn by_hand(sink: impl Sink, now: impl Fn() -> f64 + Send + Sync + 'static) -> (Self, Keeper) {
        let player = Self::on(now);
        let keeper = Keeper::new(Arc::clone(&player.shared), Box::new(sink));
        (player, keeper)
    }

    fn on(now: impl Fn() -> f64 + Send + Sync + 'static) -> Self {
        Self { shared: Arc::new(Shared::new(Box::new(now))) }
    }

    /// Plays this instead of what was played.
    pub fn play(&self, performance: Performance) {
        let now = self.shared.now();
        let mut state = self.shared.lock();
        // What has gone by unheard until now is gone by.
        state.sample(now);
        if state.may_begin() {
            state.clock.wait(now);
        }
        state.band.play(performance);
        state.since = state.band.made();
        drop(state);
        self.shared.tell();
    }

    /// Plays nothing.
    pub fn stop(&self) {
        let mut state = self.shared.lock();
        state.band.stop();
        state.since = state.band.made();
    }

    /// Goes on at another share of the tune's own speed, at the same pitch.
    pub fn set_speed(&self, speed: f64) {
        self.shared.lock().band.set_speed(speed);
    }

    /// Goes round between these counts of the dance, or no more.
    pub fn set_round(&self, round: Option<(f64, f64)>) {
        self.shared.lock().band.set_round(round);
    }

    /// How loud each is.
    pub fn set_levels(&self, levels: Levels) {
        self.shared.lock().band.set_levels(levels);
    }

    /// How much later than the machine says its loudspeakers sound, seconds.
    pub fn set_delay(&self, delay: f64) {
        self.shared.lock().delay = delay;
    }

    /// What is heard now of what was asked for last; nothing until it is heard.
    #[must_use]
    pub fn heard(&self) -> Heard {
        let now = self.shared.now();
        let mut state = self.shared.lock();
        let sample = state.sample(now);
        if sample < state.since { Heard::Nothing } else { state.band.heard(sample) }
    }

    /// Whether there is something to play on.
    #[must_use]
    pub fn server(&self) -> Server {
        self.shared.lock().server.clone()
    }
}

impl Drop for LivePlayer {
    fn drop(&mut self) {
        self.shared.lock().closed = true;
        self.shared.tell();
    }
}
