/// The counts of a bar of which nothing else is said: 1 2 3 4, two to each strong beat [MB1].
const USUAL: u32 = 4;

/// How counts fall into the bars of a figure, or of a whole running order, one after another. Bars are told from 0 here.
///
/// This is the one place that says how many counts a bar has, and that turns bars into counts and back.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BarCounts {
    bars: u32,
}

impl BarCounts {
    /// The most counts that any bar has.
    pub const MOST: u32 = USUAL;

    /// So many bars of which nothing else is said.
    #[must_use]
    pub fn usual(bars: u32) -> Self {
        Self { bars }
    }

    /// These bars and then others.
    #[must_use]
    pub fn then(&self, others: &Self) -> Self {
        Self { bars: self.bars + others.bars }
    }

    /// How many bars there are.
    #[must_use]
    pub fn bars(&self) -> u32 {
        self.bars
    }

    /// How many counts a bar has. Beyond the last one bars go on as usual.
    #[must_use]
    pub fn in_bar(&self, _bar: u32) -> u32 {
        USUAL
    }

    /// The counts of all bars together.
    #[must_use]
    pub fn counts(&self) -> f64 {
        self.begin_of(self.bars)
    }

    /// Counts from the start at which a bar begins.
    #[must_use]
    pub fn begin_of(&self, bar: u32) -> f64 {
        f64::from(bar) * f64::from(USUAL)
    }

    /// The bar under way at a count from the start, and the counts since it began. Before the start it is the first bar.
    #[must_use]
    pub fn at(&self, count: f64) -> (u32, f64) {
        let count = if count.is_finite() { count.max(0.0) } else { 0.0 };
        let bar = (count / f64::from(USUAL)).floor() as u32;
        (bar, count - self.begin_of(bar))
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
}
