//! A figure on the sheet of a whole dance: its name, a small diagram and its line.

use super::{
    diagram::Shown,
    flow::{Flow, line_height, wrapped, wrapped_around},
    reading::Role,
    sheet::figure_name,
    small_diagram::small_diagram_marks,
    spoken::DiagramWords,
};
use crate::dance::Dance;
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Frame, PAPER, span_bounds};
use crate::words::gist;

/// A metre of floor in a small diagram, points, at most.
const METRE: f32 = 40.0;
/// Bars that the diagram of a figure covers: half of a usual one.
const HALF: u32 = 4;
/// Floor round where middles go, metres.
const ROUND: f64 = 0.66;

/// The column of each figure, so that all columns are about as high: the highest figures are shared out first. Columns are in the order of
/// the first figure in them, which are read one after the other.
pub(super) fn share_out(cells: &[Cell], columns: usize) -> Vec<usize> {
    let mut order: Vec<usize> = (0..cells.len()).collect();
    let high = |index: &usize| cells.get(*index).map_or(0.0, |cell| cell.high);
    order.sort_by(|one, other| high(other).total_cmp(&high(one)));
    let mut filled = vec![0.0_f32; columns];
    let mut shared = vec![0; cells.len()];
    for index in order {
        let least = filled.iter().copied().fold(f32::INFINITY, f32::min);
        let column = filled.iter().position(|high| *high <= least).unwrap_or(0);
        if let (Some(of), Some(to)) = (shared.get_mut(index), filled.get_mut(column)) {
            *of = column;
            *to += high(&index) + BETWEEN;
        }
    }
    let mut firsts: Vec<usize> = Vec::new();
    for column in &shared {
        if !firsts.contains(column) {
            firsts.push(*column);
        }
    }
    shared.iter().map(|column| firsts.iter().position(|first| first == column).unwrap_or(0)).collect()
}

/// How high the columns are, points.
pub(super) fn filled_by(cells: &[Cell], shared: &[usize]) -> Vec<f32> {
    let columns = shared.iter().max().map_or(0, |most| most + 1);
    let of = |column: usize| {
        let inside = cells.iter().zip(shared).filter(move |(_, of)| **of == column);
        inside.map(|(cell, _)| cell.high + BETWEEN).sum::<f32>() - BETWEEN
    };
    (0..columns).map(of).collect()
}

/// Between a figure and the one under it, points.
pub(super) const BETWEEN: f32 = 7.0;

/// A figure as it stands on the sheet.
pub(super) struct Cell {
    index: SpanIndex,
    size: f32,
    /// Of all of it, points.
    pub high: f32,
    /// Of the diagram, points.
    drawn: [f32; 2],
    bounds: [f64; 4],
    counts: (f64, f64),
    told: String,
    /// The lines of its name, of its words beside the diagram and of those under it.
    name: Vec<String>,
    beside: Vec<String>,
    under: Vec<String>,
}

/// Between a diagram and the words beside it, and under it, points.
const BESIDE: f32 = 8.0;
const UNDER: f32 = 3.0;

impl Cell {
    /// Of the figure of a span, with words of a size and lines that lie so near, as a share of what is usual; in a column of a width, with
    /// a diagram of a height, points.
    pub fn of(
        dance: &Dance,
        motion: &Motion,
        index: SpanIndex,
        (size, tight): (f32, f32),
        [wide, high]: [f32; 2],
    ) -> Option<Self> {
        let span = motion.span(index)?;
        let bounds = span_bounds(motion, span, ROUND);
        let floor = [(bounds[2] - bounds[0]) as f32, (bounds[3] - bounds[1]) as f32];
        let scale = (high / floor[1]).min(wide * 0.5 / floor[0]).min(METRE);
        let drawn = [floor[0] * scale, floor[1] * scale];
        let bars = span.bar_counts();
        let to = if span.bars > HALF { bars.begin_of(HALF) } else { bars.counts() };
        let told = gist(dance, motion, index, None);
        let name = wrapped(&figure_name(dance, motion, index), (size + 1.0, true), wide);
        let lines = ((drawn[1] + UNDER) / (line_height(size) * tight)).ceil() as usize;
        let (beside, under) = wrapped_around(&told, (size, false), (wide - drawn[0] - BESIDE, lines), wide);
        let words = line_height(size) * tight * beside.len() as f32;
        let high = line_height(size + 1.0) * tight * name.len() as f32
            + words.max(drawn[1] + UNDER)
            + line_height(size) * tight * under.len() as f32;
        Some(Self { index, size, high, drawn, bounds, counts: (0.0, to), told, name, beside, under })
    }

    /// Puts it at the left end of its column.
    pub fn put(&self, flow: &mut Flow, dance: &Dance, motion: &Motion, x: f32) {
        let size = self.size;
        flow.begin(Role::Heading(3));
        for line in &self.name {
            flow.line(line, (size + 1.0, true), x, PAPER.words);
        }
        let top = flow.y;
        flow.begin(Role::Text);
        for line in &self.beside {
            flow.line(line, (size, false), x + self.drawn[0] + BESIDE, PAPER.words);
        }
        flow.y = flow.y.max(top + self.drawn[1] + UNDER);
        for line in &self.under {
            flow.line(line, (size, false), x, PAPER.words);
        }
        let area = [x, top, x + self.drawn[0], top + self.drawn[1]];
        flow.begin(Role::Picture(DiagramWords::of(dance, motion, self.index).at(self.counts), area));
        let frame = Frame::fit(self.bounds, [x, top, self.drawn[0], self.drawn[1]], 0.0);
        let shown = Shown { span: self.index, counts: self.counts, own: None, holding: dance.holding };
        if let Some(page) = flow.pages.last_mut() {
            small_diagram_marks(&mut page.marks, motion, &shown, area, &frame);
            page.words += &format!("{}: {} ", self.name.join(" "), self.told);
        }
        flow.end();
    }
}
