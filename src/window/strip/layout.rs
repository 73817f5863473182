//! Which rows the bar strip has, and where they lie.

use crate::dance::Holding;
use crate::desk::Desk;
use crate::store::HiddenRows;
use egui::{Rect, pos2};

/// Where the rows lie: from the top of the strip down, each that is shown.
pub struct Rows {
    /// The whole dance in one line.
    pub whole: Rect,
    pub tune: Option<Rect>,
    pub bars: Rect,
    pub path: Option<Rect>,
    pub feet: Option<Rect>,
    pub turn: Option<Rect>,
    pub hands: Option<Rect>,
    pub taps: Option<Rect>,
    pub faults: Rect,
}

/// Where the bars begin.
pub const MARGIN: f32 = 232.0;

/// The heights of the rows, points: the whole dance, the bars and the faults are always there.
const WHOLE: f32 = 34.0;
const TUNE: f32 = 40.0;
const BARS: f32 = 38.0;
const PATH: f32 = 20.0;
const FEET: f32 = 34.0;
const TURN: f32 = 32.0;
const HANDS: f32 = 34.0;
const TAPS: f32 = 22.0;
const FAULTS: f32 = 28.0;
/// The controls at the left need this much.
const CONTROLS: f32 = 146.0;
/// Before one of them goes, all are as much lower as this at the most.
const LOWER: f32 = 0.86;
/// The strip takes no more of the window than this, unless its edge is dragged; and never more than that.
const SHARE: f32 = 0.36;
const MOST_SHARE: f32 = 0.7;

/// The most that the strip takes of a window of a height: as it was dragged, or else its usual share.
fn most(desk: &Desk, window: f32, wished: Option<f32>) -> f32 {
    let wished = wished.or(desk.settings().arrangement.strip);
    wished.unwrap_or(window * SHARE).min(window * MOST_SHARE).max(CONTROLS)
}

/// Whether the bars have a row of taps: where sticks are held or hands are empty to clap, or anything is struck in any figure, so that
/// it stays from one figure to the next.
fn has_taps(desk: &Desk) -> bool {
    let dance = desk.dance();
    dance.holding != Holding::Handkerchiefs || dance.figures.iter().any(|figure| !figure.strikes.is_empty())
}

/// Which of the rows that can be left out are not shown in a window of a height: those that were put away, and those that
/// there is no room for.
fn hidden(desk: &Desk, window: f32, wished: Option<f32>) -> HiddenRows {
    let mut hidden = desk.settings().arrangement.hidden;
    hidden.tune |= desk.air().is_none();
    hidden.taps |= !has_taps(desk);
    let most = most(desk, window, wished);
    // The ones that a dancer misses least go first.
    for row in 0..6 {
        if height_of(hidden) * LOWER <= most {
            break;
        }
        match row {
            0 => hidden.tune = true,
            1 => hidden.hands = true,
            2 => hidden.path = true,
            3 => hidden.turn = true,
            4 => hidden.taps = true,
            _ => hidden.feet = true,
        }
    }
    hidden
}

/// The rows of the arrangement for which a window of a height has no room.
pub fn without_room(desk: &Desk, window: f32) -> HiddenRows {
    let (now, chosen) = (hidden(desk, window, None), desk.settings().arrangement.hidden);
    HiddenRows {
        tune: now.tune && !chosen.tune && desk.air().is_some(),
        path: now.path && !chosen.path,
        feet: now.feet && !chosen.feet,
        turn: now.turn && !chosen.turn,
        hands: now.hands && !chosen.hands,
        taps: now.taps && !chosen.taps && has_taps(desk),
    }
}

/// Why the row of taps is not among those that are shown. It is among the last that lose their room.
pub fn no_taps_row(desk: &Desk) -> Option<NoTapsRow> {
    if has_taps(desk) {
        desk.settings().arrangement.hidden.taps.then_some(NoTapsRow::PutAway)
    } else {
        Some(NoTapsRow::NoTaps)
    }
}

/// Why the row of taps is not shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NoTapsRow {
    /// It was put away.
    PutAway,
    /// Nothing is struck in the dance, nor held to strike with.
    NoTaps,
}

fn height_of(hidden: HiddenRows) -> f32 {
    let HiddenRows { tune, path, feet, turn, hands, taps } = hidden;
    let rows = [(tune, TUNE), (path, PATH), (feet, FEET), (turn, TURN), (hands, HANDS), (taps, TAPS)];
    let shown: f32 = rows.iter().filter(|(hidden, _)| !hidden).map(|(_, height)| height).sum();
    WHOLE + BARS + FAULTS + shown
}

/// The height of the strip in a window of a height, points.
pub fn height(desk: &Desk, window: f32, wished: Option<f32>) -> f32 {
    let hidden = hidden(desk, window, wished);
    (height_of(hidden) * scale(hidden, most(desk, window, wished))).max(CONTROLS)
}

/// How high the rows are of what they are where there is room.
fn scale(hidden: HiddenRows, most: f32) -> f32 {
    (most / height_of(hidden)).clamp(LOWER, 1.0)
}

impl Rows {
    /// The rows of a strip in a window of a height.
    pub fn of(desk: &Desk, rect: Rect, window: f32, wished: Option<f32>) -> Self {
        let hidden = hidden(desk, window, wished);
        let scale = scale(hidden, most(desk, window, wished));
        let (left, right) = (rect.left() + MARGIN, rect.right() - 24.0);
        let mut top = rect.top();
        let mut row = |height: f32, above: f32, under: f32| {
            let [height, above, under] = [height, above, under].map(|points| points * scale);
            let place = Rect::from_min_max(pos2(left, top + above), pos2(right, top + height - under));
            top += height;
            place
        };
        let whole = row(WHOLE, 9.0, 9.0);
        let tune = (!hidden.tune).then(|| row(TUNE, 4.0, 6.0));
        let bars = row(BARS, 3.0, 3.0);
        let path = (!hidden.path).then(|| row(PATH, 0.0, 0.0));
        let feet = (!hidden.feet).then(|| row(FEET, 0.0, 0.0));
        let turn = (!hidden.turn).then(|| row(TURN, 0.0, 0.0));
        let hands = (!hidden.hands).then(|| row(HANDS, 3.0, 3.0));
        let taps = (!hidden.taps).then(|| row(TAPS, 0.0, 1.0));
        let faults = row(FAULTS, 0.0, 0.0);
        Self { whole, tune, bars, path, feet, turn, hands, taps, faults }
    }

    /// Where the playhead begins, under the whole dance.
    pub fn top(&self) -> f32 {
        self.tune.map_or(self.bars.top(), |tune| tune.top())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn at_768_there_is_room_for_every_row() {
        let all = height_of(HiddenRows::default());
        assert!(all * LOWER <= 768.0 * SHARE, "{all} points");
    }
}
