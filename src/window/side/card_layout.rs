//! How high the parts of a dancer's card are.

/// The least height at which a body can be seen at eye level as well as from above, points: one of 1.75 m with its hands up has 50
/// to a metre.
pub const EYE_LEVEL: f32 = 110.0;
/// A picture that keeps so much is roomy, points.
const ROOMY: f32 = 130.0;
/// The most that the picture takes, points.
const MOST: f32 = 240.0;
/// The least, where a window has no room, points.
const LEAST: f32 = 52.0;
/// The height of a row of words, points.
const ROW: f32 = 19.0;
/// The same in a low side.
const LOW_ROW: f32 = 18.0;
/// What stands above the picture, and between it and what is under it, points: the name, a line, and the gaps.
const ROUND: f32 = 64.0;
/// The row of buttons under the words, points.
const BUTTONS: f32 = 30.0;
/// The words of caution at the foot, points.
const CAUTION: f32 = 44.0;

/// What stands above the picture and around it in a low side, points: a name and the line beside it, and the gaps.
const LOW_ROUND: f32 = 37.0;

/// So much of the picture is left where a row of words takes a second line, points.
pub const ENOUGH: f32 = 92.0;
/// Two lines of small words take so much more than a row, points, and so much of the picture is left for them at the least.
const MORE: f32 = 10.0;
const LEAST_LEFT: f32 = 84.0;

/// The heights of a card.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CardLayout {
    /// Of the picture of the body, points.
    pub picture: f32,
    /// Whether there is a row for what to watch for: otherwise it is in the line of where a dancer stands.
    pub watch: bool,
    /// Whether there is room for the words of caution under all else: otherwise they end the line of where a dancer stands.
    pub cautions: bool,
    /// Whether the side is so low that the line under the name stands beside it.
    pub low: bool,
    /// The height of a row of words, points.
    pub row: f32,
    /// By how much the one row of small words is higher, points, so that two lines of them have room.
    pub more: f32,
}

impl CardLayout {
    /// The heights in a side of a height, points, with so many rows of words. The picture comes first, until a body at eye level has
    /// room in it; then the words of caution; then the picture grows, and once it is roomy there is a row of what to watch for.
    #[must_use]
    pub fn of(side: f32, rows: usize) -> Self {
        let rest = side - ROUND - ROW * rows as f32 - BUTTONS;
        let low = rest < EYE_LEVEL;
        if low {
            let rest = side - LOW_ROUND - LOW_ROW * rows as f32 - BUTTONS;
            let picture = rest.clamp(LEAST, MOST);
            return Self { picture, watch: false, cautions: false, low, row: LOW_ROW, more: 0.0 };
        }
        let cautions = rest - CAUTION >= EYE_LEVEL;
        let picture = if cautions { rest - CAUTION } else { rest };
        let watch = cautions && picture - ROW >= ROOMY;
        let picture = if watch { picture - ROW } else { picture };
        Self { picture: picture.clamp(LEAST, MOST), watch, cautions, low, row: ROW, more: 0.0 }
    }

    /// The same with a row of small words on two lines, where that leaves the picture room.
    #[must_use]
    pub fn with_small_row(self, small: bool) -> Self {
        if !small || self.picture - MORE < LEAST_LEFT {
            return self;
        }
        Self { picture: self.picture - MORE, more: MORE, ..self }
    }

    /// The heights where one of so many rows has two lines; nothing where that leaves the picture no room.
    #[must_use]
    pub fn with_long_row(side: f32, rows: usize) -> Option<Self> {
        Some(Self::of(side, rows + 1)).filter(|layout| layout.picture >= ENOUGH)
    }

    /// The height of the whole card with so many rows, points.
    #[cfg(test)]
    fn whole(self, rows: usize) -> f32 {
        let cautions = if self.cautions { CAUTION } else { 0.0 };
        let rows = rows + usize::from(self.watch);
        if self.low {
            return LOW_ROUND + self.picture + self.row * rows as f32 + BUTTONS;
        }
        ROUND + self.picture + ROW * rows as f32 + BUTTONS + cautions
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_picture_comes_first_and_all_of_the_card_fits() {
        let mut before: Option<CardLayout> = None;
        for side in 200..900 {
            let side = side as f32;
            let layout = CardLayout::of(side, 7);
            let fits = layout.whole(7) <= side + 0.01;
            assert!(fits || layout.picture <= LEAST, "{side}: {layout:?} takes {}", layout.whole(7));
            assert!(!layout.cautions || layout.picture >= EYE_LEVEL, "{side}: {layout:?}");
            assert!(!layout.watch || layout.picture >= ROOMY, "{side}: {layout:?}");
            assert!(!layout.watch || layout.cautions, "{side}: {layout:?}");
            if let Some(before) = before {
                assert!(layout.cautions >= before.cautions, "more room takes nothing away");
                assert!(layout.watch >= before.watch, "more room takes nothing away");
            }
            before = Some(layout);
        }
        // At 768 there is room for what is tapped on two lines; in a lower window the body comes first.
        let long = CardLayout::with_long_row(343.0, 8).unwrap();
        assert!(long.picture >= ENOUGH && long.whole(9) <= 343.0, "{long:?}");
        assert_eq!(CardLayout::with_long_row(280.0, 8), None);
        for (side, more) in [(310.0, MORE), (270.0, 0.0)] {
            let small = CardLayout::of(side, 8).with_small_row(true);
            assert!(small.more == more && small.whole(8) + more <= side + 0.01, "{small:?}");
        }
        // What a window of 768 leaves for the card, with tabs over it and the faults under it.
        assert!(CardLayout::of(343.0, 7).picture >= EYE_LEVEL);
        // And one of 768 with the bar of its title taken off.
        assert!(CardLayout::of(306.0, 7).picture >= EYE_LEVEL);
    }
}
