use super::Desk;
use crate::dance::{Dance, Metre, Music, PlayedTune, Tune};
use crate::motion::Clock;
use crate::sound::{Performance, TuneAlone};

/// The tune by itself, played through as it is written.
impl Desk {
    /// What is listened to beside the dance.
    #[must_use]
    pub fn listening(&self) -> Option<&Performance> {
        self.listening.as_ref()
    }

    /// Has the tune heard by itself, or no more.
    pub(super) fn listen(&mut self) {
        self.rest();
        if self.listening.take().is_some() {
            return;
        }
        self.listening = tune_alone(self.now.dance())
            .map(|performance| Performance { speed: performance.speed * self.player.tempo, ..performance });
        if self.listening.is_none() {
            self.notice = Some("There is no tune to listen to that can be read".to_owned());
        }
    }
}

/// The dance's tune once through, at the dance's speed; nothing where it has none that can be read.
fn tune_alone(dance: &Dance) -> Option<Performance> {
    let tune = PlayedTune::read(&dance.music.abc).ok()?;
    let alone = TuneAlone::of(&tune, "");
    // What is told of its speed is what all its speeds go by.
    let own = Tune::read(&dance.music.abc).ok().and_then(|tune| tune.speed).unwrap_or(Music::default().speed);
    // Nobody dances to it: its counts are so many even parts of a second.
    let clock = Clock::of(&Music { metre: Metre::FourFour, speed: 120.0, ..Music::default() });
    let end = clock.counts(alone.seconds_in_all());
    Some(Performance {
        sounds: alone.sounds().into(),
        clock,
        from: 0.0,
        end,
        round: None,
        speed: dance.music.speed / own,
        counted_in: 0,
    })
}
