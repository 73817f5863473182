//! The diagrams of a figure in columns and rows.

use super::{
    SMALLEST,
    caption::Caption,
    flow::{line_height, wrapped},
};

/// Between diagrams, across and down, points.
pub(super) const GAP: [f32; 2] = [9.0, 10.0];
/// A metre of floor on paper, points: at least, as long as more pages give it, and at most.
pub(super) const METRE: (f64, f64) = (28.0, 80.0);
/// The most diagrams in a row.
const MOST_ACROSS: usize = 8;
/// The most lines under the first one of a caption.
pub(super) const MOST_LINES: usize = 6;
/// How high the first line of a caption is, points.
pub(super) const CAPTION_HEAD: f32 = 15.0;

/// The diagrams, each with what is written under it and the counts between which it shows the ways.
type Captions = [((f64, f64), Caption)];

/// Diagrams in columns and rows.
pub(super) struct Grid {
    pub across: usize,
    /// Rows on a page at the most.
    pub down: usize,
    /// Of each diagram and of what is written under it, points.
    pub wide: f32,
    pub high: f32,
    pub caption: f32,
    /// Whether it begins in the room that was left on a page, and not on a new one.
    pub here: bool,
}

impl Grid {
    /// On pages of its own, of a width and a height: the grid that has room for the words on the same page as well, where diagrams
    /// are then not much smaller. Under them comes what says how they are read, and the words, points; a metre of floor is no larger
    /// than `most`.
    pub fn alone(
        captions: &Captions,
        bounds: [f64; 4],
        (width, height): (f32, f32),
        (key, words): (f32, f32),
        most: f64,
    ) -> Self {
        let without = Self::largest(captions, bounds, (width, height - key), most);
        let with = Self::largest(captions, bounds, (width, height - key - words), most);
        let pages = |grid: &Self| captions.len().div_ceil(grid.across * grid.down);
        if pages(&with) == 1 && with.high >= without.high * 0.75 { with } else { without }
    }

    /// The grid that wastes least of the paper, of a width, in rooms that are filled one after the other: what is left of a page, a new
    /// page, and those after it, points; with a metre of floor near one size, and no larger than another.
    pub fn filling(
        captions: &Captions,
        bounds: [f64; 4],
        (width, [here, new, next]): (f32, [f32; 3]),
        (ideal, most): (f64, f64),
    ) -> Self {
        let floor = [bounds[2] - bounds[0], bounds[3] - bounds[1]];
        let all = captions.len().max(1);
        let mut best: Option<(f64, Self)> = None;
        for across in 1..=all.min(MOST_ACROSS) {
            let wide = (width - GAP[0] * (across - 1) as f32) / across as f32;
            let caption = caption_height(captions, wide);
            let rows = all.div_ceil(across);
            let widest = (f64::from(wide) / floor[0]).min(most);
            for step in 0..SIZES_TRIED {
                let scale = widest * SMALLER.powi(step);
                if scale < least_metre(floor).min(ideal) * 0.999 {
                    break;
                }
                let high = (floor[1] * scale) as f32;
                let row = high + caption + GAP[1];
                let fit = |room: f32| ((room + GAP[1]).max(0.0) / row) as usize;
                for (here_too, first, before) in [(true, here, 0.0), (false, new, here.max(0.0))] {
                    if fit(first) == 0 || (rows > fit(first) && fit(next) == 0) {
                        continue;
                    }
                    let left = |room: f32| room + GAP[1] - fit(room) as f32 * row;
                    let more = rows.saturating_sub(fit(first));
                    let turned = if more > 0 { left(first) } else { 0.0 };
                    let full = more.saturating_sub(1) / fit(next).max(1);
                    let lost = before + turned + full as f32 * left(next);
                    let blank = (rows * across - all) as f32 / across as f32 * row;
                    let beside = 1.0 - floor[0] * scale / f64::from(wide);
                    let size = (scale / ideal).ln().abs();
                    let whole = rows as f32 * row;
                    let paper = f64::from((lost + 1.4 * blank + 0.2 * whole) / new.max(1.0));
                    let cost = paper + 0.8 * beside + 0.6 * size;
                    if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                        let down = usize::MAX;
                        best = Some((cost, Self { across, down, wide, high, caption, here: here_too }));
                    }
                }
            }
        }
        let largest = || Self::largest(captions, bounds, (width, new), most);
        best.map_or_else(largest, |(_, grid)| grid)
    }

    /// The same with diagrams no wider than their floor, for words to stand beside them.
    pub fn narrowed(self, captions: &Captions, bounds: [f64; 4]) -> Self {
        let floor = ((bounds[2] - bounds[0]) / (bounds[3] - bounds[1])) as f32 * self.high;
        let wide = self.wide.min(floor.max(NARROWEST));
        Self { wide, caption: caption_height(captions, wide), ..self }
    }

    /// The grid in which diagrams are largest on one page, of a width and a height, or on as few pages as make them large enough to
    /// read.
    fn largest(captions: &Captions, bounds: [f64; 4], (width, height): (f32, f32), largest: f64) -> Self {
        let (floor_wide, floor_high) = (bounds[2] - bounds[0], bounds[3] - bounds[1]);
        let all = captions.len().max(1);
        let wide = |across: usize| (width - GAP[0] * (across - 1) as f32) / across as f32;
        // How high the captions are hangs on how many diagrams there are across alone.
        let highest: Vec<f32> =
            (1..=all.min(MOST_ACROSS)).map(|across| caption_height(captions, wide(across))).collect();
        let mut best: Option<(f64, Self)> = None;
        for pages in 1..=all {
            let each = all.div_ceil(pages);
            if pages > 1 && each == all.div_ceil(pages - 1) {
                continue;
            }
            for (across, caption) in (1..=each.min(MOST_ACROSS)).zip(highest.iter().copied()) {
                let down = each.div_ceil(across);
                let wide = wide(across);
                // The first page has the least room, so what fits there fits everywhere.
                let most = (height - GAP[1] * (down - 1) as f32) / down as f32 - caption;
                let scale = (f64::from(wide) / floor_wide).min(f64::from(most) / floor_high).min(largest);
                let high = (floor_high * scale) as f32;
                if scale > 0.0
                    && best.as_ref().is_none_or(|(other, grid)| {
                        let fewer_rows = all.div_ceil(across) < all.div_ceil(grid.across);
                        scale > other * 1.001 || (fewer_rows && scale > other * 0.999)
                    })
                {
                    best = Some((scale, Self { across, down, wide, high, caption, here: false }));
                }
            }
            if best.as_ref().is_some_and(|(scale, _)| *scale >= least_metre([floor_wide, floor_high])) {
                break;
            }
        }
        best.map_or(
            Self { across: 1, down: 1, wide: width, high: height * 0.8, caption: 40.0, here: false },
            |(_, grid)| grid,
        )
    }
}

/// A metre of a floor, points, as long as more pages give it: a little less where the floor is large.
fn least_metre(floor: [f64; 2]) -> f64 {
    if floor[0].max(floor[1]) > LARGE { METRE.0 * 0.86 } else { METRE.0 }
}

/// A large floor, metres.
const LARGE: f64 = 6.5;

/// The narrowest diagram that has words under it, points.
const NARROWEST: f32 = 84.0;

/// How many sizes are tried, and how much smaller each is than the one before.
const SIZES_TRIED: i32 = 14;
const SMALLER: f64 = 0.95;

/// How high the highest caption is under diagrams of a width, points.
fn caption_height(captions: &Captions, wide: f32) -> f32 {
    let lines = captions.iter().map(|(_, caption)| wrapped(&caption.what, (SMALLEST, false), wide).len());
    CAPTION_HEAD + line_height(SMALLEST) * lines.max().unwrap_or(0).min(MOST_LINES) as f32
}
