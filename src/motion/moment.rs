use crate::dance::{BarCounts, quoted};
use std::{fmt, str::FromStr};
use thiserror::Error;

/// A moment written `BAR:COUNT`: bars from 1, counts from 1 up to, not including, the bar's last and one more.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// From 1.
    pub bar: u32,
    /// The count in the bar, from 1.
    pub count: f64,
    /// How many counts the bar has; as many as any has, where the moment was written and no dance was asked.
    in_bar: u32,
}

/// A moment that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error(
    "{} is not a moment; write BAR:COUNT, such as 3:2.5, with bars from 1 and counts from 1 to below 5, or to below {} in \
     a bar of three strong beats",
    quoted(.0),
    BarCounts::MOST + 1
)]
pub struct MomentError(String);

impl Moment {
    /// The moment at a number of counts from the start of the dance or figure whose bars these are.
    #[must_use]
    pub fn at(bars: &BarCounts, counts: f64) -> Self {
        let (bar, inside) = bars.at(counts);
        Self { bar: bar.saturating_add(1), count: inside + 1.0, in_bar: bars.in_bar(bar) }
    }

    /// Whether its bar has its count, in the dance or figure whose bars these are.
    #[must_use]
    pub fn is_in(self, bars: &BarCounts) -> bool {
        self.count < f64::from(bars.in_bar(self.bar.saturating_sub(1)) + 1)
    }

    /// Counts from the start of the dance or figure whose bars these are.
    #[must_use]
    pub fn counts(self, bars: &BarCounts) -> f64 {
        bars.begin_of(self.bar.saturating_sub(1)) + self.count - 1.0
    }
}

impl FromStr for Moment {
    type Err = MomentError;

    fn from_str(text: &str) -> Result<Self, MomentError> {
        let wrong = || MomentError(text.to_owned());
        let (bar, count) = text.trim().split_once(':').ok_or_else(wrong)?;
        let bar: u32 = bar.trim().parse().map_err(|_| wrong())?;
        let count: f64 = count.trim().parse().map_err(|_| wrong())?;
        if bar == 0 || !(1.0..f64::from(BarCounts::MOST + 1)).contains(&count) {
            return Err(wrong());
        }
        Ok(Self { bar, count, in_bar: BarCounts::MOST })
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let count = (self.count * 100.0).round() / 100.0;
        // What comes to the next bar once it is rounded is told as its start: a bar of four has no count 5.
        if count >= f64::from(self.in_bar + 1) {
            write!(f, "{}:1", self.bar.saturating_add(1))
        } else {
            write!(f, "{}:{count}", self.bar)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_read_and_print() {
        let bars = BarCounts::usual(8);
        for (text, counts) in [("1:1", 0.0), ("3:2.5", 9.5), ("9:1", 32.0), ("2:4.75", 7.75)] {
            let moment: Moment = text.parse().unwrap();
            assert_eq!(moment.counts(&bars), counts);
            assert_eq!(Moment::at(&bars, counts).to_string(), text);
        }
        assert_eq!(Moment::at(&bars, 3.998).to_string(), "2:1");
        assert!(
            "1:4.9".parse::<Moment>().unwrap().is_in(&bars) && !"1:5".parse::<Moment>().unwrap().is_in(&bars)
        );
        for bad in ["", "3", "0:1", "1:0.5", "1:7", "a:b", "1:NaN", "-1:2", "1:inf"] {
            assert!(bad.parse::<Moment>().is_err(), "{bad}");
        }
    }
}
