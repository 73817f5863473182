use crate::dance::{BarCounts, Metre, Music};

/// Where the counts of a bar fall in real time, as shares of the bar.
///
/// In 6/8 they fall on quavers 1, 3, 4 and 6: 0, 1/3, 1/2 and 5/6 [MB1, the 6-time step diagrams].
const SIX_TIME: [f64; 5] = [0.0, 1.0 / 3.0, 0.5, 5.0 / 6.0, 1.0];
const EVEN_TIME: [f64; 5] = [0.0, 0.25, 0.5, 0.75, 1.0];

/// Counts to seconds and back, for a tune at its full speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clock {
    bar_seconds: f64,
    shares: [f64; 5],
}

impl Clock {
    /// The clock of a tune.
    #[must_use]
    pub fn of(music: &Music) -> Self {
        Self {
            bar_seconds: 2.0 * 60.0 / music.speed,
            shares: if music.metre == Metre::SixEight { SIX_TIME } else { EVEN_TIME },
        }
    }

    /// Seconds from the start at a number of counts from the start.
    #[must_use]
    pub fn seconds(&self, counts: f64) -> f64 {
        self.bars_of_counts(counts) * self.bar_seconds
    }

    /// The time in bars from the start, as the tune's notes have it, at a number of counts from the start.
    #[must_use]
    pub fn bars_of_counts(&self, counts: f64) -> f64 {
        let per_bar = counts_in_bar();
        let bar = (counts / per_bar).floor();
        let inside = counts - bar * per_bar;
        let index = (inside as usize).min(3);
        let [from, to] = self.share_pair(index);
        bar + from + (to - from) * (inside - index as f64)
    }

    /// Counts from the start at a number of seconds from the start.
    #[must_use]
    pub fn counts(&self, seconds: f64) -> f64 {
        self.counts_of_bars(seconds / self.bar_seconds)
    }

    /// Counts from the start at a time in bars from the start, as the tune's notes have it.
    #[must_use]
    pub fn counts_of_bars(&self, bars: f64) -> f64 {
        let bar = bars.floor();
        let share = bars - bar;
        let index = (0..4).rev().find(|&index| share >= self.share_pair(index)[0]).unwrap_or(0);
        let [from, to] = self.share_pair(index);
        bar * counts_in_bar() + index as f64 + (share - from) / (to - from)
    }

    fn share_pair(&self, index: usize) -> [f64; 2] {
        match self.shares.get(index..index + 2) {
            Some(&[from, to]) => [from, to],
            _ => [0.0, 1.0],
        }
    }
}

/// A clock knows the tune and no figure, so every bar is a usual one to it; what it reckons with may be before the start.
fn counts_in_bar() -> f64 {
    f64::from(BarCounts::default().in_bar(0))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The Morris Book, Part I (1907) [MB1], 6-time diagrams: at 100 strong beats a minute a bar lasts 1.2 s,
    /// so count 2 comes 0.4 s after count 1 and count 3 0.6 s after it.
    #[test]
    fn six_eight_swings() {
        let clock = Clock::of(&Music { metre: Metre::SixEight, ..Music::default() });
        for (counts, seconds) in [(0.0, 0.0), (1.0, 0.4), (2.0, 0.6), (3.0, 1.0), (4.0, 1.2), (9.0, 2.8)] {
            assert!((clock.seconds(counts) - seconds).abs() < 1e-12);
            assert!((clock.counts(seconds) - counts).abs() < 1e-9);
        }
    }

    #[test]
    fn even_time_is_even() {
        let clock = Clock::of(&Music::default());
        assert!((clock.seconds(3.0) - 0.9).abs() < 1e-12);
    }
}
