use super::{
    Handout, Page, Paper, SMALLEST, SheetChoice,
    caption::bars_of,
    dance_pages::about,
    diagram::{Shown, diagram_marks},
    flow::{Flow, line_height, put_feet, text_height, wrapped},
    moments::is_still,
    reading::{Head, Role, Starts},
    sheet::{each_once, figure_name},
    spoken::DiagramWords,
};
use crate::dance::{Dance, Holding, Score};
use crate::motion::{Motion, Span, SpanIndex};
use crate::picture::{Anchor, Frame, PAPER, engrave, span_bounds};
use crate::words::{CAUTIONS, CAUTIONS_IN_SHORT, STICK_CAUTION, all_steps_told, calls_said, gist};

/// The size of the words and how high a figure's diagram may be, points: the first with which the whole stands on one page.
const TRIES: [(f32, f32); 8] = [
    (10.5, 150.0),
    (10.0, 128.0),
    (10.0, 108.0),
    (10.0, 94.0),
    (9.5, 84.0),
    (9.0, 84.0),
    (9.0, 72.0),
    (SMALLEST, 64.0),
];
/// Between columns, points.
const GAP: f32 = 14.0;
/// The share of the width that the running order takes.
const ORDER: f32 = 0.58;
/// Diagrams no higher than this stand three beside each other, points.
const THREE: f32 = 80.0;
/// From one line of a stave to the next, points.
const STAVE_SPACE: f32 = 4.1;
/// Bars that the diagram of a figure covers: half of a usual one.
const HALF: u32 = 4;
/// Floor round where middles go, metres.
const ROUND: f64 = 0.66;

/// A dance on one sheet: its running order with strains and calls, the stepping and the cautions, each figure in a small diagram and a
/// line, and the tune. A second page only where one cannot hold it.
#[must_use]
pub fn whole_sheet(dance: &Dance, motion: &Motion, choice: &SheetChoice) -> Handout {
    let mut pages: Vec<Page> = Vec::new();
    for tried in TRIES {
        let made = lay(dance, motion, choice.paper, tried);
        let fewer = pages.is_empty() || made.len() < pages.len();
        if fewer {
            pages = made;
        }
        if pages.len() == 1 {
            break;
        }
    }
    let author = dance.author.clone();
    let mut handout = Handout { title: dance.title.clone(), author, pages, bookmarks: Vec::new() };
    put_feet(&mut handout.pages, CAUTIONS_IN_SHORT);
    handout
}

fn lay(dance: &Dance, motion: &Motion, paper: Paper, (size, high): (f32, f32)) -> Vec<Page> {
    let mut flow = Flow::new(paper, &dance.title, &dance.side, &about(dance));
    let [left, right] = flow.edges();
    let top = flow.y;
    let middle = left + (right - left) * ORDER;
    put_order(&mut flow, dance, motion, [left, middle - GAP], size);
    // Beside the running order, as long as that is on one page.
    if flow.pages.len() == 1 {
        let lowest = flow.y;
        flow.y = top;
        put_beside(&mut flow, dance, motion, [middle, right], size);
        if flow.pages.len() == 1 {
            flow.y = flow.y.max(lowest);
        }
    } else {
        put_beside(&mut flow, dance, motion, [left, right], size);
    }
    put_figures(&mut flow, dance, motion, (size, high));
    put_tune(&mut flow, dance, size);
    flow.pages
}

/// A heading between two edges.
fn heading(flow: &mut Flow, text: &str, left: f32, with: f32) {
    flow.need(20.0 + with);
    flow.begin(Role::Heading(2));
    flow.line(text, (11.5, true), left, PAPER.words);
    flow.end();
    flow.y += 2.0;
}

fn put_order(flow: &mut Flow, dance: &Dance, motion: &Motion, [left, right]: [f32; 2], size: f32) {
    let columns = [left, left + 28.0, right - 88.0, right - 52.0, right];
    heading(flow, "Running order", left, 30.0);
    let put = |flow: &mut Flow, texts: [&str; 4], head: bool| {
        let lines: Vec<Vec<String>> = texts
            .into_iter()
            .zip(columns.windows(2))
            .map(|(text, edges)| {
                wrapped(text, (size, head), edges.last().unwrap_or(&right) - edges.first().unwrap_or(&left) - 5.0)
            })
            .collect();
        let most = lines.iter().map(Vec::len).max().unwrap_or(1).max(1);
        flow.need(line_height(size) * most as f32);
        for (place, (lines, x)) in lines.iter().zip(columns).enumerate() {
            let starts = match (place, head) {
                (0, true) => Starts::Table,
                (0, false) => Starts::Row,
                _ => Starts::Cell,
            };
            let of = if head { Head::Column } else { Head::None };
            flow.cell(starts, if place == 0 && !head { Head::Row } else { of });
            for (line, words) in lines.iter().enumerate() {
                let y = flow.y + line_height(size) * (line as f32 + 0.5);
                flow.words([x, y], (size, head), Anchor::Left, words, PAPER.words);
            }
        }
        flow.end();
        flow.y += line_height(size) * most as f32;
    };
    put(flow, ["Line", "Figure, and its call", "Strain", "Bars"], true);
    let called = calls_said(dance, motion);
    for (index, span) in motion.indexed_spans() {
        let name = figure_name(dance, motion, index);
        let call = called.get(index.index()).and_then(Option::as_ref);
        let text = call.map_or_else(|| name.clone(), |call| format!("{name} — {}", call.words()));
        let strain = dance.order.get(index.index()).map_or("", |entry| entry.strain.as_str());
        let bars = format!("{}–{}", span.first_bar + 1, span.first_bar + span.bars);
        put(flow, [&index.next().index().to_string(), &text, strain, &bars], false);
    }
    flow.y += 8.0;
}

/// The stepping and the cautions.
fn put_beside(flow: &mut Flow, dance: &Dance, motion: &Motion, edges: [f32; 2], size: f32) {
    let steps = all_steps_told(motion);
    if !steps.is_empty() {
        heading(flow, "Stepping", edges[0], 20.0);
        for line in &steps {
            flow.text(line, (size, false), edges, PAPER.words);
            flow.y += 1.5;
        }
        flow.y += 5.0;
    }
    heading(flow, "Before you dance", edges[0], 20.0);
    let cautions = if dance.holding == Holding::Sticks && !CAUTIONS.contains("Sticks") {
        format!("{CAUTIONS} {STICK_CAUTION}")
    } else {
        CAUTIONS.to_owned()
    };
    flow.text(&cautions, (SMALLEST.max(size - 1.0), false), edges, PAPER.words);
    flow.y += 8.0;
}

/// Each figure in which somebody goes somewhere once, in columns: a diagram of its first half, its name and its line.
fn put_figures(flow: &mut Flow, dance: &Dance, motion: &Motion, (size, high): (f32, f32)) {
    let [left, right] = flow.edges();
    let columns = if high > THREE { 2 } else { 3 };
    let wide = (right - left - GAP * (columns - 1) as f32) / columns as f32;
    heading(flow, "Figures", left, high);
    let mut filled = vec![flow.y; columns];
    for index in each_once(motion) {
        let still = |span: &Span| is_still(motion, span, (0.0, span.bar_counts().counts()));
        if motion.dancers() > 1 && motion.span(index).is_some_and(still) {
            continue;
        }
        let Some(cell) = Cell::of(dance, motion, index, (size, high, wide)) else { continue };
        // The next one goes where there is most room.
        let least = filled.iter().copied().fold(f32::INFINITY, f32::min);
        flow.y = least;
        let pages = flow.pages.len();
        flow.need(cell.high);
        if flow.pages.len() > pages {
            filled.fill(flow.y);
        }
        let column = filled.iter().position(|y| *y <= flow.y).unwrap_or(0);
        let top = flow.y;
        cell.put(flow, dance, motion, left + column as f32 * (wide + GAP));
        if let Some(y) = filled.get_mut(column) {
            *y = top + cell.high + 7.0;
        }
    }
    flow.y = filled.into_iter().fold(0.0, f32::max);
}

/// A figure as it stands on the sheet.
struct Cell {
    index: SpanIndex,
    size: f32,
    /// Of all of it, points.
    wide: f32,
    high: f32,
    /// Of the diagram, points.
    drawn: [f32; 2],
    bounds: [f64; 4],
    counts: (f64, f64),
    name: String,
    told: String,
}

impl Cell {
    fn of(
        dance: &Dance,
        motion: &Motion,
        index: SpanIndex,
        (size, high, wide): (f32, f32, f32),
    ) -> Option<Self> {
        let span = motion.span(index)?;
        let bounds = span_bounds(motion, span, ROUND);
        let floor = [(bounds[2] - bounds[0]) as f32, (bounds[3] - bounds[1]) as f32];
        let scale = (high / floor[1]).min(wide * 0.5 / floor[0]).min(60.0);
        let drawn = [floor[0] * scale, floor[1] * scale];
        let bars = span.bar_counts();
        let to = if span.bars > HALF { bars.begin_of(HALF) } else { bars.counts() };
        let (name, told) = (figure_name(dance, motion, index), gist(dance, motion, index, None));
        let room = wide - drawn[0] - 8.0;
        let words = wrapped(&name, (size + 1.0, true), room).len() as f32 * line_height(size + 1.0)
            + text_height(&told, (size, false), room)
            + line_height(SMALLEST);
        let high = words.max(drawn[1]);
        Some(Self { index, size, wide, high, drawn, bounds, counts: (0.0, to), name, told })
    }

    fn put(&self, flow: &mut Flow, dance: &Dance, motion: &Motion, x: f32) {
        let Some(span) = motion.span(self.index) else { return };
        let edges = [x + self.drawn[0] + 8.0, x + self.wide];
        let top = flow.y;
        flow.begin(Role::Heading(3));
        flow.text(&self.name, (self.size + 1.0, true), edges, PAPER.words);
        flow.end();
        flow.text(&self.told, (self.size, false), edges, PAPER.words);
        let when =
            format!("drawn: {}", bars_of(span.bar_counts(), self.counts.0, self.counts.1).to_lowercase());
        flow.text(&when, (SMALLEST, false), edges, PAPER.quiet);
        let area = [x, top, x + self.drawn[0], top + self.drawn[1]];
        flow.begin(Role::Picture(DiagramWords::of(dance, motion, self.index).at(self.counts), area));
        let frame = Frame::fit(self.bounds, [x, top, self.drawn[0], self.drawn[1]], 0.0);
        let shown = Shown { span: self.index, counts: self.counts, own: None, holding: dance.holding };
        if let Some(page) = flow.pages.last_mut() {
            diagram_marks(&mut page.marks, motion, &shown, area, &frame);
            page.words += &format!("{}: {} ", self.name, self.told);
        }
        flow.end();
    }
}

/// How fast the tune is, how it is played, and its notes.
fn put_tune(flow: &mut Flow, dance: &Dance, size: f32) {
    let music = &dance.music;
    let [left, right] = flow.edges();
    let systems =
        Score::read(&music.abc).map(|score| engrave(&score, right - left, STAVE_SPACE, PAPER.words));
    let systems = systems.unwrap_or_default();
    heading(flow, "Tune", left, 20.0 + systems.first().map_or(0.0, |system| system.size[1]));
    let mut said = format!("{} · {} strong beats a minute", music.metre, music.speed);
    if !music.played.is_empty() {
        said += &format!(" · played {}", music.played.join(" "));
    }
    flow.text(&said, (size, false), [left, right], PAPER.words);
    flow.y += 3.0;
    let lines = systems.len();
    for (system, line) in systems.into_iter().zip(1..) {
        flow.need(system.size[1]);
        let at = [left, flow.y];
        let area = [left, flow.y, right, flow.y + system.size[1]];
        flow.begin(Role::Picture(super::dance_pages::notes_words(music, (line, lines), false), area));
        system.marks.into_iter().for_each(|mark| flow.mark(mark.placed(1.0, at)));
        flow.end();
        flow.y += system.size[1] + STAVE_SPACE;
    }
}
