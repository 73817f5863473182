//! What there is to watch for in a figure, as it stands on a handout: the sentences that `bellpad watch` prints.

use super::flow::{Flow, line_height, text_height};
use super::reading::Role;
use crate::dance::{Dance, Dancer};
use crate::faults::{MOST_WATCHED, ToWatch};
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Mark, PAPER};
use crate::words::phrases::sheet::watch;

/// The size of the words, points.
const SIZE: f32 = 9.5;
/// How high the heading is, points.
const HEAD: f32 = 24.0;
/// How far in they stand, behind their dots, points.
const INWARD: f32 = 12.0;

/// What to watch for in a figure in its place in the order; nothing in a set that is too large for it.
fn list(dance: &Dance, motion: &Motion, index: SpanIndex) -> Option<ToWatch> {
    let few = motion.dancers() <= MOST_WATCHED;
    if few { ToWatch::of_span(dance, motion, index, &mut || true) } else { None }
}

/// What the side has to watch in a figure, at most three sentences; none where it is not wanted.
pub(super) fn side_watch(dance: &Dance, motion: &Motion, index: SpanIndex, wanted: bool) -> Vec<String> {
    let list = if wanted { list(dance, motion, index) } else { None };
    list.map(|list| side_lines(&list)).unwrap_or_default()
}

/// What one dancer has to watch in a figure, as a line of their own page.
pub(super) fn own_watch(
    dance: &Dance,
    motion: &Motion,
    index: SpanIndex,
    dancer: Dancer,
    wanted: bool,
) -> Option<String> {
    let list = if wanted { list(dance, motion, index) } else { None };
    list?.line_for(dancer).map(watch)
}

/// What a list has for the side, a sentence each.
pub(super) fn side_lines(list: &ToWatch) -> Vec<String> {
    list.for_side().into_iter().map(|watched| watched.text).collect()
}

/// How high the lines are with their heading, points.
pub(super) fn watch_height(flow: &Flow, lines: &[String]) -> f32 {
    if lines.is_empty() {
        return 0.0;
    }
    HEAD + lines_height(flow, lines) + 4.0
}

/// The same without the heading.
fn lines_height(flow: &Flow, lines: &[String]) -> f32 {
    let [left, right] = flow.edges();
    lines.iter().map(|line| text_height(line, (SIZE, false), right - left - INWARD) + 1.5).sum()
}

/// The lines under their heading; nothing where there are none.
pub(super) fn put_watch(flow: &mut Flow, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    flow.heading("Watch for", lines_height(flow, lines));
    let [left, right] = flow.edges();
    for line in lines {
        flow.need(line_height(SIZE));
        let (at, radii) = ([left + 3.0, flow.y + line_height(SIZE) / 2.0], [1.6; 2]);
        flow.mark(Mark::Oval { at, radii, turn: 0.0, fill: Some(PAPER.words), stroke: None });
        flow.begin(Role::Item);
        flow.text(line, (SIZE, false), [left + INWARD, right], PAPER.words);
        flow.end();
        flow.y += 1.5;
    }
    flow.y += 4.0;
}
