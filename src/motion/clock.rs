use super::{Motion, speeds::paced};
use crate::dance::{Dance, Metre, Music};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::Arc;

/// Counts to seconds and back, for a tune at its full speed.
///
/// Within a count time is even. The counts of a bar fall where the metre has them, and each takes as long as the speed of
/// the music there says.
#[derive(Clone, Debug, PartialEq)]
pub struct Clock {
    /// Before the start.
    before: EvenTime,
    /// From the start on, or after the last of the counts that are known one by one.
    after: EvenTime,
    /// When each count falls, from the start to the end of the dance; none where the music is of one metre and one speed throughout.
    counts: Arc<[CountTime]>,
}

/// Music of one metre and one speed.
#[derive(Clone, Copy, Debug, PartialEq)]
struct EvenTime {
    metre: Metre,
    /// Strong beats a minute.
    speed: f64,
}

/// When a count falls, from the start of the dance.
#[derive(Clone, Copy, Debug, PartialEq)]
struct CountTime {
    /// In bars, as the notes of the tune have it.
    bars: f64,
    /// Strong beats.
    beats: f64,
    seconds: f64,
}

impl Clock {
    /// The clock of a tune of whose speed nothing else is said.
    #[must_use]
    pub fn of(music: &Music) -> Self {
        let even = EvenTime { metre: music.metre, speed: music.speed };
        Self { before: even, after: even, counts: [].into() }
    }

    /// The clock of a dance, whose strains and figures may have speeds of their own.
    #[must_use]
    pub fn of_dance(dance: &Dance, motion: &Motion) -> Self {
        let bar_counts = motion.bar_counts();
        let metres = bar_counts.runs().any(|(metre, _)| metre != dance.music.metre);
        let paced = paced(dance, motion, metres);
        let [Some(first), Some(last)] = [paced.first(), paced.last()] else { return Self::of(&dance.music) };
        let (mut counts, mut beats, mut seconds, mut next) = (Vec::new(), 0.0, 0.0, 0);
        for bar in 0..bar_counts.bars() {
            let (begin, metre) = (bar_counts.begin_of(bar), bar_counts.metre(bar));
            for (index, share) in metre.shares().windows(2).enumerate() {
                let &[from, to] = share else { continue };
                counts.push(CountTime { bars: f64::from(bar) + from, beats, seconds });
                beats += (to - from) * metre.strong_beats();
                let count = (begin + index as f64, begin + index as f64 + 1.0);
                while paced.get(next).is_some_and(|paced| paced.end <= count.0) {
                    next += 1;
                }
                let under = paced.iter().skip(next).take_while(|paced| paced.begin < count.1);
                seconds +=
                    under.map(|paced| paced.seconds(count, (to - from) * metre.strong_beats())).sum::<f64>();
            }
        }
        counts.push(CountTime { bars: f64::from(bar_counts.bars()), beats, seconds });
        let even = |bar, speed| EvenTime { metre: bar_counts.metre(bar), speed };
        Self {
            before: even(0, first.speeds[0]),
            after: even(u32::MAX, last.speeds[1]),
            counts: counts.into(),
        }
    }

    /// Seconds from the start at a number of counts from the start.
    #[must_use]
    pub fn seconds(&self, counts: f64) -> f64 {
        self.at(counts, EvenTime::seconds, |time| time.seconds)
    }

    /// The time in bars from the start, as the tune's notes have it, at a number of counts from the start.
    #[must_use]
    pub fn bars_of_counts(&self, counts: f64) -> f64 {
        self.at(counts, EvenTime::bars, |time| time.bars)
    }

    /// Counts from the start at a number of seconds from the start.
    #[must_use]
    pub fn counts(&self, seconds: f64) -> f64 {
        self.when(seconds, EvenTime::counts_of_seconds, |time| time.seconds)
    }

    /// Counts from the start at a time in bars from the start, as the tune's notes have it.
    #[must_use]
    pub fn counts_of_bars(&self, bars: f64) -> f64 {
        self.when(bars, EvenTime::counts_of_bars, |time| time.bars)
    }

    /// How fast the music is at a count, strong beats a minute: over the count that is under way.
    #[must_use]
    pub fn speed(&self, count: f64) -> f64 {
        match self.counts.get(count.max(0.0) as usize..).and_then(<[_]>::first_chunk::<2>) {
            Some([from, to]) if count >= 0.0 => 60.0 * (to.beats - from.beats) / (to.seconds - from.seconds),
            _ if count < 0.0 => self.before.speed,
            _ => self.after.speed,
        }
    }

    /// Whether the music is of one metre and one speed from beginning to end.
    #[must_use]
    pub fn is_even(&self) -> bool {
        self.counts.is_empty()
    }

    /// Seconds from the start of each count and of the end, where the music has speeds of its own.
    #[must_use]
    pub fn known(&self) -> impl ExactSizeIterator<Item = f64> {
        self.counts.iter().map(|time| time.seconds)
    }

    /// The greatest speed between two counts, strong beats a minute.
    #[must_use]
    pub fn fastest(&self, begin: f64, end: f64) -> f64 {
        self.each(begin, end).map(|count| self.speed(count)).fold(self.speed(begin), f64::max)
    }

    /// A number that is the same for stretches that take the same time, each count of them, and hardly for others.
    #[must_use]
    pub fn pattern(&self, begin: f64, end: f64) -> u64 {
        let mut hasher = DefaultHasher::new();
        for count in self.each(begin, end) {
            // To the millionth of a second: sums are not the same to the last bit.
            let micros = (self.seconds(count + 1.0) - self.seconds(count)) * 1e6;
            (micros.round() as i64).hash(&mut hasher);
        }
        hasher.finish()
    }

    /// The counts of a stretch that are known one by one.
    fn each(&self, begin: f64, end: f64) -> impl Iterator<Item = f64> + use<> {
        let last = if self.is_even() { begin } else { end };
        (begin.max(0.0).floor() as u64..last.max(0.0).ceil() as u64).map(|count| count as f64)
    }

    /// What is at a count: before the start, after the end, or between two counts that are known.
    fn at(&self, counts: f64, even: impl Fn(EvenTime, f64) -> f64, known: impl Fn(&CountTime) -> f64) -> f64 {
        if counts < 0.0 {
            return even(self.before, counts);
        }
        let Some((last, _)) = self.counts.split_last() else { return even(self.after, counts) };
        let index = counts as usize;
        match self.counts.get(index..).and_then(<[_]>::first_chunk::<2>) {
            Some([from, to]) => known(from) + (known(to) - known(from)) * (counts - index as f64),
            None => known(last) + even(self.after, counts - (self.counts.len() - 1) as f64),
        }
    }

    /// The count at which something that grows with time is: the inverse of [`Self::at`].
    fn when(
        &self,
        value: f64,
        even: impl Fn(EvenTime, f64) -> f64,
        known: impl Fn(&CountTime) -> f64,
    ) -> f64 {
        if value < 0.0 {
            return even(self.before, value);
        }
        let Some((last, _)) = self.counts.split_last() else { return even(self.after, value) };
        if value >= known(last) {
            return (self.counts.len() - 1) as f64 + even(self.after, value - known(last));
        }
        let index = self.counts.partition_point(|time| known(time) <= value).saturating_sub(1);
        match self.counts.get(index..).and_then(<[_]>::first_chunk::<2>) {
            Some([from, to]) => index as f64 + (value - known(from)) / (known(to) - known(from)),
            None => index as f64,
        }
    }
}

impl EvenTime {
    fn bar_seconds(self) -> f64 {
        self.metre.strong_beats() * 60.0 / self.speed
    }

    fn seconds(self, counts: f64) -> f64 {
        self.bars(counts) * self.bar_seconds()
    }

    fn counts_of_seconds(self, seconds: f64) -> f64 {
        self.counts_of_bars(seconds / self.bar_seconds())
    }

    fn bars(self, counts: f64) -> f64 {
        let per_bar = f64::from(self.metre.counts());
        let bar = (counts / per_bar).floor();
        let inside = counts - bar * per_bar;
        let [index, from, to] = self.share_pair(inside as usize);
        bar + from + (to - from) * (inside - index)
    }

    fn counts_of_bars(self, bars: f64) -> f64 {
        let bar = bars.floor();
        bar * f64::from(self.metre.counts()) + self.metre.count_of_share(bars - bar)
    }

    /// A count of the bar from 0, and where it begins and ends, shares of the bar.
    fn share_pair(self, index: usize) -> [f64; 3] {
        let index = index.min(self.metre.counts() as usize - 1);
        match self.metre.shares().get(index..index + 2) {
            Some(&[from, to]) => [index as f64, from, to],
            _ => [0.0, 0.0, 1.0],
        }
    }
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
