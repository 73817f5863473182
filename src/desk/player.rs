use crate::motion::Clock;

/// Playing: where the playhead is and how it moves on.
#[derive(Clone, Debug, PartialEq)]
pub struct Player {
    /// Counts from the start of the dance.
    pub count: f64,
    /// Whether it is playing.
    pub playing: bool,
    /// The share of the tune's own speed, 0.3 to 1.3.
    pub tempo: f64,
    /// From and to, counts from the start, for the loop.
    pub loop_counts: Option<(f64, f64)>,
    /// Whether the loop is on.
    pub looping: bool,
    /// Counts that are still counted in before it moves, where it is counted in.
    pub counting_in: Option<f64>,
    /// Why nothing is heard, where there is nothing to play on; and whether that was told.
    pub silent: Option<String>,
    pub(super) told_of_silence: bool,
}

impl Default for Player {
    fn default() -> Self {
        Self {
            count: 0.0,
            playing: false,
            tempo: 1.0,
            loop_counts: None,
            looping: false,
            counting_in: None,
            silent: None,
            told_of_silence: false,
        }
    }
}

impl Player {
    /// The slowest and the fastest share of the tune's speed.
    pub const TEMPOS: std::ops::RangeInclusive<f64> = 0.3..=1.3;

    /// The counts between which it goes round, where it does.
    #[must_use]
    pub fn round(&self) -> Option<(f64, f64)> {
        self.loop_counts.filter(|_| self.looping)
    }

    /// Moves on by real seconds through a dance of a number of counts. Stops at the end.
    pub fn advance(&mut self, seconds: f64, clock: &Clock, end: f64) {
        if !self.playing || seconds <= 0.0 {
            return;
        }
        let before = self.count;
        let now = clock.counts(clock.seconds(self.count) + seconds * self.tempo);
        self.count = now.min(end);
        if let Some((from, to)) = self.round()
            && before < to
            && now >= to
        {
            let length = clock.seconds(to) - clock.seconds(from);
            let over = if length > 1e-6 { (clock.seconds(now) - clock.seconds(to)) % length } else { 0.0 };
            self.count = clock.counts(clock.seconds(from) + over);
        } else if now >= end {
            self.playing = false;
        }
    }

    /// Goes on or back by counts, landing on whole counts.
    #[must_use]
    pub fn stepped(&self, counts: f64, end: f64) -> f64 {
        let near = self.count.round();
        let from = if (self.count - near).abs() < 1e-3 {
            near
        } else if counts > 0.0 {
            self.count.floor()
        } else {
            self.count.ceil()
        };
        (from + counts).clamp(0.0, end)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Music;

    #[test]
    fn it_plays_stops_and_loops() {
        let clock = Clock::of(&Music::default());
        let mut player = Player { playing: true, ..Player::default() };
        player.advance(1.2, &clock, 32.0);
        assert!((player.count - 4.0).abs() < 1e-9, "a bar lasts 1.2 s at 100 strong beats a minute");
        player.tempo = 0.5;
        player.advance(1.2, &clock, 32.0);
        assert!((player.count - 6.0).abs() < 1e-9);
        player.loop_counts = Some((4.0, 8.0));
        player.looping = true;
        player.tempo = 1.0;
        player.advance(0.9, &clock, 32.0);
        assert!((player.count - 5.0).abs() < 1e-9, "{}", player.count);
        player.looping = false;
        player.advance(1000.0, &clock, 32.0);
        assert_eq!((player.count, player.playing), (32.0, false));
    }

    #[test]
    fn steps_land_on_counts() {
        let mut player = Player { count: 2.3, ..Player::default() };
        assert_eq!(player.stepped(1.0, 32.0), 3.0);
        assert_eq!(player.stepped(-1.0, 32.0), 2.0);
        player.count = 3.0;
        assert_eq!(player.stepped(4.0, 32.0), 7.0);
        assert_eq!(player.stepped(-4.0, 32.0), 0.0);
    }
}
