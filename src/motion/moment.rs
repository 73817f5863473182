use crate::dance::{COUNTS_PER_BAR, quoted};
use std::{fmt, str::FromStr};
use thiserror::Error;

/// A moment written `BAR:COUNT`: bars from 1, counts from 1 up to, not including, 5.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moment {
    /// From 1.
    pub bar: u32,
    /// The count in the bar, 1 <= count < 5.
    pub count: f64,
}

/// A moment that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error(
    "{} is not a moment; write BAR:COUNT, such as 3:2.5, with bars from 1 and counts from 1 to below 5",
    quoted(.0)
)]
pub struct MomentError(String);

impl Moment {
    /// The moment at a number of counts from the start of the dance or figure.
    #[must_use]
    pub fn at(counts: f64) -> Self {
        let per_bar = f64::from(COUNTS_PER_BAR);
        let counts = if counts.is_finite() { counts.max(0.0) } else { 0.0 };
        let bar = (counts / per_bar).floor();
        Self { bar: bar as u32 + 1, count: counts - bar * per_bar + 1.0 }
    }

    /// Counts from the start.
    #[must_use]
    pub fn counts(self) -> f64 {
        f64::from(self.bar.saturating_sub(1)) * f64::from(COUNTS_PER_BAR) + self.count - 1.0
    }
}

impl FromStr for Moment {
    type Err = MomentError;

    fn from_str(text: &str) -> Result<Self, MomentError> {
        let wrong = || MomentError(text.to_owned());
        let (bar, count) = text.trim().split_once(':').ok_or_else(wrong)?;
        let bar: u32 = bar.trim().parse().map_err(|_| wrong())?;
        let count: f64 = count.trim().parse().map_err(|_| wrong())?;
        if bar == 0 || !(1.0..5.0).contains(&count) {
            return Err(wrong());
        }
        Ok(Self { bar, count })
    }
}

impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        // Rounded before it is parted, so that it never reads as count 5.
        let whole = Self::at((self.counts() * 100.0).round() / 100.0);
        write!(f, "{}:{}", whole.bar, (whole.count * 100.0).round() / 100.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn moments_read_and_print() {
        for (text, counts) in [("1:1", 0.0), ("3:2.5", 9.5), ("9:1", 32.0), ("2:4.75", 7.75)] {
            let moment: Moment = text.parse().unwrap();
            assert_eq!(moment.counts(), counts);
            assert_eq!(Moment::at(counts).to_string(), text);
        }
        assert_eq!(Moment::at(3.998).to_string(), "2:1");
        for bad in ["", "3", "0:1", "1:0.5", "1:5", "a:b", "1:NaN", "-1:2", "1:inf"] {
            assert!(bad.parse::<Moment>().is_err(), "{bad}");
        }
    }
}
