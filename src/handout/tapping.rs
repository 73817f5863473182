//! The tapping page: for each figure in which something meets a table, a row a bar and a column a count.

use super::{
    Bookmark, Handout, Page, Paper, SMALLEST,
    flow::{Flow, line_height, put_feet, wrapped},
    reading::{Head, Starts},
    sheet::{each_once, figure_name},
    tapping_rows::{Row, rows},
};
use crate::dance::{Dance, Holding};
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Anchor, Mark, PAPER, Stroke};
use crate::words::{CAUTIONS_IN_SHORT, STICK_CAUTION};

/// The sizes that the words in the cells may have, points, to be read at arm's length: the largest that takes no more pages.
const SIZES: [f32; 3] = [15.0, 13.5, 12.0];
/// How wide the column of bars is, points.
const BARS: f32 = 62.0;
/// The title.
const TITLE: &str = "The tapping";
/// Round the words of a cell, points.
const INSIDE: f32 = 5.0;

/// The tapping page of a dance, or of one figure: the lines (indices) of the running order that are asked for, or of each figure the
/// first. `None` where nothing meets in them.
#[must_use]
pub fn tapping(dance: &Dance, motion: &Motion, only: Option<SpanIndex>, paper: Paper) -> Option<Handout> {
    let spans = only.map_or_else(|| each_once(motion), |span| vec![span]);
    let tables = tables(dance, motion, &spans);
    if tables.is_empty() {
        return None;
    }
    let made = |size: f32| {
        let mut flow = Flow::new(paper, TITLE, &dance.side, &under(dance));
        let bookmarks = put_tables(&mut flow, dance, &tables, size);
        (flow.pages, bookmarks)
    };
    let all: Vec<(Vec<Page>, Vec<Bookmark>)> = SIZES.into_iter().map(made).collect();
    let (pages, bookmarks) = all.into_iter().min_by_key(|(pages, _)| pages.len()).unwrap_or_default();
    let title = format!("The tapping, {}", dance.title);
    let mut handout = Handout { title, author: dance.author.clone(), pages, bookmarks };
    put_feet(&mut handout.pages, CAUTIONS_IN_SHORT);
    Some(handout)
}

/// The same as a section of something longer: the index of the page on which it begins; none where nothing meets.
pub(super) fn put_tapping(flow: &mut Flow, dance: &Dance, motion: &Motion) -> Option<usize> {
    let tables = tables(dance, motion, &each_once(motion));
    let (_, rows) = tables.first()?;
    let under = under(dance);
    // The first two rows with their heads, at the most.
    let least = |size: f32, edges: [f32; 2]| {
        let columns = Columns::of(rows, edges, size);
        32.0 + head(size).1 + rows.iter().take(2).map(|row| columns.height(row)).sum::<f32>()
    };
    let pages = |size: &f32| {
        let mut trial = flow.trial();
        trial.section(TITLE, &under, least(*size, trial.edges()));
        put_tables(&mut trial, dance, &tables, *size);
        trial.pages.len()
    };
    let size = SIZES.into_iter().min_by_key(pages)?;
    flow.section(TITLE, &under, least(size, flow.edges()));
    let page = flow.pages.len() - 1;
    put_tables(flow, dance, &tables, size);
    Some(page)
}

/// A figure (span) in which something meets, and the rows of its table.
type Table = (String, Vec<Row>);

fn tables(dance: &Dance, motion: &Motion, spans: &[SpanIndex]) -> Vec<Table> {
    let rows =
        |index: &SpanIndex| Some((figure_name(dance, motion, *index), rows(motion, motion.span(*index)?)));
    spans.iter().filter_map(rows).filter(|(_, rows)| !rows.is_empty()).collect()
}

/// The line under the title.
fn under(dance: &Dance) -> String {
    let held = match dance.holding {
        Holding::Sticks => "tip and butt are the ends of the stick",
        Holding::Handkerchiefs | Holding::Nothing => "right and left are hands",
    };
    let under = [dance.title.as_str(), "counts from left to right, the strong beats heavy", held];
    under.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
}

/// The tables with words of a size, and what is to be minded.
fn put_tables(flow: &mut Flow, dance: &Dance, tables: &[Table], size: f32) -> Vec<Bookmark> {
    let mut bookmarks = Vec::new();
    for (name, rows) in tables {
        put_table(flow, name, rows, size);
        let (text, page) = (name.clone(), flow.pages.len() - 1);
        bookmarks.push(Bookmark { text, page, inside: Vec::new() });
    }
    put_cautions(flow, dance);
    bookmarks
}

/// The columns of a table: where each count begins, and where the last one ends, points.
struct Columns {
    /// Of the words in them, points.
    size: f32,
    left: f32,
    edges: Vec<f32>,
}

impl Columns {
    /// Of rows of as many counts each: all are as wide, so that the beats can be seen.
    fn of(rows: &[Row], [left, right]: [f32; 2], size: f32) -> Self {
        let counts = rows.first().map_or(0, |row| row.cells.len());
        let each = (right - left - BARS) / counts.max(1) as f32;
        let edges = (0..=counts).map(|count| left + BARS + each * count as f32).collect();
        Self { size, left, edges }
    }

    fn cell(&self, count: usize) -> [f32; 2] {
        let edge = |index: usize| self.edges.get(index).copied().unwrap_or_default();
        [edge(count), edge(count + 1)]
    }

    fn right(&self) -> f32 {
        self.edges.last().copied().unwrap_or(self.left)
    }

    /// The lines of the words in a cell, and whether each is heavy.
    fn lines(&self, row: &Row, count: usize) -> Vec<(String, bool)> {
        let [from, to] = self.cell(count);
        let wide = to - from - 2.0 * INSIDE;
        let size = self.size;
        let mut lines = Vec::new();
        for said in row.cells.get(count).into_iter().flatten() {
            lines.extend(wrapped(&said.who, (size, true), wide).into_iter().map(|line| (line, true)));
            lines.extend(wrapped(&said.how, (size, false), wide).into_iter().map(|line| (line, false)));
        }
        lines
    }

    fn height(&self, row: &Row) -> f32 {
        let most = (0..row.cells.len()).map(|count| self.lines(row, count).len()).max().unwrap_or(0);
        let bars = wrapped(&row.bars, (self.size, true), BARS - INSIDE).len();
        line_height(self.size) * most.max(bars) as f32 + 2.0 * INSIDE
    }
}

/// The size of the counts over words of a size, and how high they are, points.
fn head(size: f32) -> (f32, f32) {
    let counts = size + 2.0;
    (counts, line_height(counts) + 6.0)
}

fn put_table(flow: &mut Flow, name: &str, rows: &[Row], size: f32) {
    let edges = flow.edges();
    // Bars of another number of counts have columns of their own.
    let parts: Vec<&[Row]> = rows.chunk_by(|one, other| one.cells.len() == other.cells.len()).collect();
    let tables: Vec<(Columns, &[Row])> =
        parts.into_iter().map(|part| (Columns::of(part, edges, size), part)).collect();
    let high: f32 = tables
        .iter()
        .map(|(columns, rows)| head(size).1 + rows.iter().map(|row| columns.height(row)).sum::<f32>() + 4.0)
        .sum();
    // A table stays together where a page holds it.
    let least = tables.first().map_or(0.0, |(columns, rows)| {
        head(size).1 + rows.iter().take(2).map(|row| columns.height(row)).sum::<f32>()
    });
    flow.heading(name, if high < flow.bottom() * 0.3 { high } else { least });
    if let Some(page) = flow.pages.last_mut() {
        page.words += &format!("{name}. ");
    }
    for (columns, rows) in &tables {
        put_head(flow, columns, rows, false);
        for row in *rows {
            let high = columns.height(row);
            if flow.room_below() < high {
                flow.turn_over();
                put_head(flow, columns, rows, true);
            }
            put_row(flow, columns, row, high);
        }
        flow.y += 4.0;
    }
    flow.y += 8.0;
}

/// The counts over a table; over its rest on a further page they are not read again.
fn put_head(flow: &mut Flow, columns: &Columns, rows: &[Row], again: bool) {
    let counts = rows.first().map_or(0, |row| row.cells.len());
    let (size, high) = head(columns.size);
    let y = flow.y + line_height(size) / 2.0;
    let cell =
        |flow: &mut Flow, starts: Starts| if again { flow.end() } else { flow.cell(starts, Head::Column) };
    cell(flow, Starts::Table);
    flow.words([columns.left, y], (columns.size, false), Anchor::Left, "Bar", PAPER.quiet);
    for count in 0..counts {
        let strong = count.is_multiple_of(2);
        let x = columns.cell(count)[0] + INSIDE;
        cell(flow, Starts::Cell);
        flow.words([x, y], (size, strong), Anchor::Left, &(count + 1).to_string(), PAPER.words);
    }
    flow.end();
    flow.y += high;
    rule(flow, columns, 1.2);
}

fn put_row(flow: &mut Flow, columns: &Columns, row: &Row, high: f32) {
    let (top, size) = (flow.y, columns.size);
    let at = |line: usize| top + INSIDE + line_height(size) * (line as f32 + 0.5);
    flow.cell(Starts::Row, Head::Row);
    for (line, text) in wrapped(&row.bars, (size, true), BARS - INSIDE).iter().enumerate() {
        flow.words([columns.left, at(line)], (size, true), Anchor::Left, text, PAPER.words);
    }
    for count in 0..row.cells.len() {
        let [from, _] = columns.cell(count);
        flow.cell(Starts::Cell, Head::None);
        for (line, (text, heavy)) in columns.lines(row, count).into_iter().enumerate() {
            flow.words([from + INSIDE, at(line)], (size, heavy), Anchor::Left, &text, PAPER.words);
        }
        flow.end();
        // A line before each strong beat.
        let stroke = Stroke { colour: PAPER.faint, width: if count.is_multiple_of(2) { 0.9 } else { 0.4 } };
        flow.mark(Mark::Line { points: vec![[from, top], [from, top + high]], stroke, dash: None });
    }
    if let Some(page) = flow.pages.last_mut() {
        page.words += &format!("{} ", row.told());
    }
    flow.y = top + high;
    rule(flow, columns, 0.6);
}

fn rule(flow: &mut Flow, columns: &Columns, width: f32) {
    let points = vec![[columns.left, flow.y], [columns.right(), flow.y]];
    let stroke = Stroke { colour: if width > 1.0 { PAPER.words } else { PAPER.faint }, width };
    flow.mark(Mark::Line { points, stroke, dash: None });
}

/// What is to be minded where sticks or hands meet.
fn put_cautions(flow: &mut Flow, dance: &Dance) {
    let [left, right] = flow.edges();
    let mut lines = vec![if dance.holding == Holding::Sticks {
        "Walk the pattern slowly before you tap it to the tune."
    } else {
        "Walk the pattern slowly before you clap it to the tune."
    }];
    if dance.holding == Holding::Sticks {
        lines.push(STICK_CAUTION);
    }
    let wide = right - left;
    let high: f32 =
        lines.iter().map(|line| super::flow::text_height(line, (SMALLEST.max(10.0), false), wide)).sum();
    flow.need(high);
    for line in lines {
        flow.text(line, (10.0, false), [left, right], PAPER.words);
        if let Some(page) = flow.pages.last_mut() {
            page.words += &format!("{line} ");
        }
    }
}
