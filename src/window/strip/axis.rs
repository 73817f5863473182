use crate::dance::BarCounts;
use crate::window::keys::goes_free;
use egui::Ui;
use std::ops::RangeInclusive;

/// From counts to places along the bar strip and back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BarAxis {
    /// Where the first count is, points.
    pub left: f32,
    /// Where the last count is, points.
    pub right: f32,
    /// The first count shown, from the start of the dance.
    pub from: f64,
    /// The last count shown.
    pub to: f64,
}

/// A count to the nearest quarter of one.
pub fn quarter(count: f64) -> f64 {
    (count * 4.0).round() / 4.0
}

/// Where something that is dragged or clicked to a count goes: to the nearest quarter of one, and with Alt or Ctrl anywhere.
pub fn to_quarter(ui: &Ui, count: f64) -> f64 {
    if goes_free(ui) { count } else { quarter(count) }
}

impl BarAxis {
    /// Where a count is.
    #[must_use]
    pub fn place(&self, count: f64) -> f32 {
        let share = (count - self.from) / (self.to - self.from).max(1e-9);
        self.left + (self.right - self.left) * share as f32
    }

    /// The count at a place; beyond the ends it goes on.
    #[must_use]
    pub fn count(&self, place: f32) -> f64 {
        let share = f64::from((place - self.left) / (self.right - self.left).max(1e-3));
        self.from + (self.to - self.from) * share
    }

    /// The points that one count takes.
    #[must_use]
    pub fn count_width(&self) -> f32 {
        self.place(self.from + 1.0) - self.left
    }

    /// The bars shown of those of the dance, from 0, as far as they begin before the end.
    #[must_use]
    pub fn bars(&self, bars: &BarCounts) -> RangeInclusive<u32> {
        bars.at(self.from).0..=bars.begun_before(self.to).max(1) - 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn there_and_back() {
        let axis = BarAxis { left: 100.0, right: 900.0, from: 32.0, to: 64.0 };
        assert_eq!(axis.place(32.0), 100.0);
        assert_eq!(axis.place(64.0), 900.0);
        assert_eq!(axis.count(500.0), 48.0);
        assert_eq!(axis.count_width(), 25.0);
        assert_eq!(axis.bars(&BarCounts::usual(16)), 8..=15);
    }
}
