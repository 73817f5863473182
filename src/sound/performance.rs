use super::{Sound, sounds};
use crate::motion::Clock;
use std::sync::Arc;

/// What is played: a dance's music, from where, how fast, and round what.
#[derive(Clone)]
pub struct Performance {
    /// All that sounds in the dance, in order, with seconds from its start.
    pub sounds: Arc<[Sound]>,
    /// Counts to seconds at the tune's own speed.
    pub clock: Clock,
    /// The counts at which it begins and ends.
    pub from: f64,
    pub end: f64,
    /// The counts between which it goes round, where it does.
    pub round: Option<(f64, f64)>,
    /// The share of the tune's own speed.
    pub speed: f64,
    /// Counts of clicks before it begins.
    pub counted_in: u32,
}

/// Where the music is, as it is heard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heard {
    /// Nothing is played.
    Nothing,
    /// The clicks before it; so many counts are still to come.
    CountingIn(f64),
    /// The music at a count of the dance.
    Count(f64),
    /// It has come to its end.
    Ended,
}

/// A round shorter than this, seconds, is none.
pub(super) const SHORTEST: f64 = 0.01;

/// Counting in before a count: what is before it goes as the bars do that begin there, at their metre and speed.
#[derive(Clone, Copy)]
pub(super) struct CountIn {
    /// From that count to the same place in a later bar: counts, and seconds at the tune's own speed.
    counts: f64,
    seconds: f64,
}

impl CountIn {
    /// Counting in of so many counts before `from`.
    pub fn before(clock: &Clock, from: f64, counts: f64) -> Self {
        let bars = clock.bars_of_counts(from);
        let mut whole = 1.0;
        loop {
            let later = clock.counts_of_bars(bars + whole) - from;
            // No bar has less than a count.
            if later >= counts - 1e-9 || whole > counts {
                return Self { counts: later, seconds: clock.seconds(from + later) - clock.seconds(from) };
            }
            whole += 1.0;
        }
    }

    /// Its clicks, with seconds from the start of the dance.
    pub fn clicks(self, clock: &Clock, from: f64, counts: f64) -> Vec<Sound> {
        let last = from + self.counts;
        let mut clicks = sounds(None, &[], clock, (last - counts, last));
        let first = clock.seconds(last - counts) - self.seconds;
        for click in &mut clicks {
            click.begin += first;
        }
        clicks
    }

    /// How many counts of it are to come at a time, where it ends at another: seconds from the start of the dance.
    pub fn left(self, clock: &Clock, now: f64, end: f64) -> f64 {
        clock.counts(end + self.seconds) - clock.counts(now + self.seconds)
    }
}

/// The seconds between which music goes round.
pub(super) fn round(playing: &Performance) -> Option<(f64, f64)> {
    let (from, to) = playing.round?;
    let round = (playing.clock.seconds(from), playing.clock.seconds(to.min(playing.end)));
    Some(round).filter(|(from, to)| to - from > SHORTEST)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Metre, Music};
    use crate::sound::{Band, Levels, SoundKind};

    const RATE: u32 = 8_000;

    fn count_in(clock: &Clock, from: f64, counts: f64) -> Vec<Sound> {
        CountIn::before(clock, from, counts).clicks(clock, from, counts)
    }

    /// [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907), 6-time diagrams: counts fall on quavers 1, 3, 4 and
    /// 6; at 100 strong beats a minute before count 2 at 0.4 s are 1 at 0, and those of the bar before at -0.2, -0.6 and -0.8 s.
    #[test]
    fn counting_in_goes_as_the_bars_do() {
        let clock = Clock::of(&Music { metre: Metre::SixEight, ..Music::default() });
        let found: Vec<(f64, SoundKind)> =
            count_in(&clock, 1.0, 4.0).iter().map(|click| (click.begin, click.kind)).collect();
        let expected = [
            (-0.8, SoundKind::Count),
            (-0.6, SoundKind::Beat),
            (-0.2, SoundKind::Count),
            (0.0, SoundKind::Beat),
        ];
        for ((begin, kind), (at, expected)) in found.iter().zip(expected) {
            assert!((begin - at).abs() < 1e-9 && *kind == expected, "{found:?}");
        }
        assert_eq!(found.len(), 4);
        let mut band = Band::new(RATE, Levels { tune: 0.0, click: 1.0, taps: 0.0 });
        let sounds = sounds(None, &[], &clock, (0.0, 8.0)).into();
        band.play(Performance { sounds, clock, from: 0.0, end: 8.0, round: None, speed: 1.0, counted_in: 4 });
        // A sixth of a bar before the start one count is left.
        let left = match band.heard((1.0 * f64::from(RATE)) as u64) {
            Heard::CountingIn(left) => left,
            _ => f64::NAN,
        };
        assert!((left - 1.0).abs() < 1e-6, "{left}");
    }
}
