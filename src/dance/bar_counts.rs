use super::Metre;

/// How counts fall into the bars of a figure, or of a whole running order, one after another. Bars are told from 0 here.
///
/// This is the one place that says how many counts a bar has, and that turns bars into counts and back.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BarCounts {
    /// Bars of one metre, each run of another than the one before it.
    runs: Vec<Run>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Run {
    metre: Metre,
    bars: u32,
}

impl Run {
    fn in_bar(self) -> u32 {
        self.metre.counts()
    }

    fn counts(self) -> f64 {
        f64::from(self.bars) * f64::from(self.in_bar())
    }
}

impl BarCounts {
    /// The most counts that any bar has.
    pub const MOST: u32 = 6;

    /// So many bars of which nothing else is said: 1 2 3 4, two counts to each of two strong beats [MB1].
    #[must_use]
    pub fn usual(bars: u32) -> Self {
        Self::of(bars, Metre::default())
    }

    /// So many bars of one metre.
    #[must_use]
    pub fn of(bars: u32, metre: Metre) -> Self {
        let mut counts = Self::default();
        counts.add(metre, bars);
        counts
    }

    /// Adds bars at the end.
    pub fn add(&mut self, metre: Metre, bars: u32) {
        match self.runs.last_mut() {
            _ if bars == 0 => {}
            Some(last) if last.metre == metre => last.bars += bars,
            _ => self.runs.push(Run { metre, bars }),
        }
    }

    /// These bars and then others.
    #[must_use]
    pub fn then(&self, others: &Self) -> Self {
        let mut counts = self.clone();
        for run in &others.runs {
            counts.add(run.metre, run.bars);
        }
        counts
    }

    /// Bars of one metre, one run after another: the metre and how many.
    #[must_use]
    pub fn runs(&self) -> impl ExactSizeIterator<Item = (Metre, u32)> {
        self.runs.iter().map(|run| (run.metre, run.bars))
    }

    /// How many bars there are.
    #[must_use]
    pub fn bars(&self) -> u32 {
        self.runs.iter().map(|run| run.bars).sum()
    }

    /// The metre of a bar. Beyond the last one bars go on as that.
    #[must_use]
    pub fn metre(&self, bar: u32) -> Metre {
        let mut end = 0;
        let run = self.runs.iter().find(|run| {
            end += run.bars;
            bar < end
        });
        run.or(self.runs.last()).map_or_else(Metre::default, |run| run.metre)
    }

    /// How many counts a bar has. Beyond the last one bars go on as that.
    #[must_use]
    pub fn in_bar(&self, bar: u32) -> u32 {
        self.metre(bar).counts()
    }

    /// Whether every bar has as many counts as one of which nothing else is said.
    #[must_use]
    pub fn are_usual(&self) -> bool {
        self.runs.iter().all(|run| run.in_bar() == Metre::default().counts())
    }

    /// The counts of all bars together.
    #[must_use]
    pub fn counts(&self) -> f64 {
        self.runs.iter().map(|run| run.counts()).sum()
    }

    /// Counts from the start at which a bar begins.
    #[must_use]
    pub fn begin_of(&self, bar: u32) -> f64 {
        let (mut left, mut counts) = (bar, 0.0);
        for run in &self.runs {
            if left <= run.bars {
                return counts + f64::from(left) * f64::from(run.in_bar());
            }
            left -= run.bars;
            counts += run.counts();
        }
        counts + f64::from(left) * f64::from(self.in_bar(u32::MAX))
    }

    /// The bar under way at a count from the start, and the counts since it began. Before the start it is the first bar.
    #[must_use]
    pub fn at(&self, count: f64) -> (u32, f64) {
        let count = if count.is_finite() { count.max(0.0) } else { 0.0 };
        let (mut begin, mut first) = (0.0, 0);
        for run in &self.runs {
            if count < begin + run.counts() {
                return in_bars(run.in_bar(), first, count - begin);
            }
            begin += run.counts();
            first += run.bars;
        }
        in_bars(self.in_bar(u32::MAX), first, count - begin)
    }

    /// The counts from one count to the same place of the next bar, or to its last count where it has not so many.
    #[must_use]
    pub fn to_next_bar(&self, count: f64) -> f64 {
        let (bar, _) = self.at(count);
        self.to_bar(count, bar + 1)
    }

    /// The counts from the same place of the bar before to a count; from a bar's last count where it has not so many. In the first
    /// bar they are as in any before it.
    #[must_use]
    pub fn from_bar_before(&self, count: f64) -> f64 {
        match self.at(count) {
            (0, _) => f64::from(self.in_bar(0)),
            (bar, _) => -self.to_bar(count, bar - 1),
        }
    }

    /// The counts from one count to the same place in a bar.
    fn to_bar(&self, count: f64, bar: u32) -> f64 {
        let inside = self.at(count).1.min(f64::from(self.in_bar(bar) - 1));
        self.begin_of(bar) + inside - count
    }

    /// Whether a bar begins just at a count from the start.
    #[must_use]
    pub fn is_begin(&self, count: f64) -> bool {
        self.at(count).1 == 0.0
    }

    /// How many bars have begun before a count from the start: one that begins just there has not.
    #[must_use]
    pub fn begun_before(&self, count: f64) -> u32 {
        match self.at(count) {
            (bar, 0.0) => bar,
            (bar, _) => bar + 1,
        }
    }
}

/// The bar under way, and the counts since it began, where bars of so many counts follow a first one.
fn in_bars(in_bar: u32, first: u32, count: f64) -> (u32, f64) {
    let bars = (count / f64::from(in_bar)).floor();
    (first.saturating_add(bars as u32), count - bars * f64::from(in_bar))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bars_and_counts_are_turned_into_each_other() {
        let bars = BarCounts::usual(3);
        assert_eq!((bars.bars(), bars.counts()), (3, 12.0));
        for (count, bar, inside) in
            [(0.0, 0, 0.0), (3.5, 0, 3.5), (4.0, 1, 0.0), (11.25, 2, 3.25), (-1.0, 0, 0.0)]
        {
            assert_eq!(bars.at(count), (bar, inside));
        }
        assert_eq!([0.0, 0.5, 4.0, 4.5].map(|count| bars.begun_before(count)), [0, 1, 1, 2]);
        assert_eq!(bars.at(f64::NAN), (0, 0.0));
        let whole = bars.then(&BarCounts::usual(2));
        assert_eq!(whole, BarCounts::usual(5));
        for bar in 0..7 {
            assert_eq!(whole.at(whole.begin_of(bar)), (bar, 0.0));
            assert_eq!(whole.begin_of(bar + 1) - whole.begin_of(bar), f64::from(whole.in_bar(bar)));
        }
    }

    /// The tune of a dibbing dance has five bars of 6/8 and one of 9/8, twice [MB1].
    #[test]
    fn a_bar_of_three_strong_beats_has_six_counts() {
        let mut bars = BarCounts::of(5, Metre::SixEight);
        bars.add(Metre::NineEight, 1);
        let twice = bars.then(&bars);
        assert_eq!((twice.bars(), twice.counts()), (12, 52.0));
        assert_eq!([4, 5, 6, 11, 12].map(|bar| twice.in_bar(bar)), [4, 6, 4, 6, 6]);
        assert_eq!((twice.at(19.5), twice.at(25.5), twice.at(26.0)), ((4, 3.5), (5, 5.5), (6, 0.0)));
        for bar in 0..14 {
            assert_eq!(twice.at(twice.begin_of(bar)), (bar, 0.0));
            assert_eq!(twice.begin_of(bar + 1) - twice.begin_of(bar), f64::from(twice.in_bar(bar)));
        }
        assert!(!twice.are_usual() && BarCounts::of(3, Metre::SixEight).are_usual());
        // From 4:1 to 5:1 there are four counts, from 6:1 to 7:1 six; the last two counts of six have no place in a bar of four.
        let on = [12.0, 20.0, 23.0, 25.0].map(|count| twice.to_next_bar(count));
        assert_eq!(on, [4.0, 6.0, 6.0, 4.0]);
        let back = [0.0, 16.0, 20.0, 25.0, 26.0, 29.0].map(|count| twice.from_bar_before(count));
        assert_eq!(back, [4.0, 4.0, 4.0, 6.0, 6.0, 6.0]);
    }
}
