use super::{
    Handout, Page, Paper, SMALLEST, SheetChoice,
    dance_pages::about,
    flow::{Flow, line_height, put_feet, text_height, wrapped},
    moments::is_still,
    reading::{Head, Role, Starts},
    sheet::{each_once, figure_name},
    small_figure::{BETWEEN, Cell, filled_by, share_out},
};
use crate::dance::{Dance, Holding, Score};
use crate::motion::{Motion, Span, SpanIndex};
use crate::picture::{Anchor, Face, Mark, PAPER, engrave, words_width};
use crate::words::{CAUTIONS, CAUTIONS_IN_SHORT, STICK_CAUTION, all_steps_told, calls_said};

/// A way to lay it out.
#[derive(Clone, Copy, Debug)]
struct Try {
    /// The size of the words, points, and how near their lines lie, as a share of what is usual.
    size: f32,
    tight: f32,
    /// How high a figure's diagram may be and how far the lines of a stave lie apart, points.
    high: f32,
    stave: f32,
}

impl Try {
    const fn of(size: f32, tight: f32, high: f32, stave: f32) -> Self {
        Self { size, tight, high, stave }
    }

    /// How high a line of its words is, points.
    fn line(self) -> f32 {
        line_height(self.size) * self.tight
    }
}

/// The first of them with which the whole stands on one page is taken.
const TRIES: [Try; 14] = [
    Try::of(10.5, 1.0, 132.0, 4.4),
    Try::of(10.0, 1.0, 116.0, 4.2),
    Try::of(10.0, 1.0, 104.0, 4.0),
    Try::of(9.5, 1.0, 96.0, 3.8),
    Try::of(9.5, 1.0, 88.0, 3.6),
    Try::of(9.0, 1.0, 82.0, 3.5),
    Try::of(9.0, 1.0, 76.0, 3.3),
    Try::of(SMALLEST, 1.0, 72.0, 3.2),
    Try::of(SMALLEST, 1.0, 64.0, 3.0),
    Try::of(SMALLEST, 0.96, 64.0, 2.6),
    Try::of(SMALLEST, 0.92, 61.0, 2.6),
    Try::of(SMALLEST, 0.92, 61.0, 2.5),
    Try::of(SMALLEST, 0.9, 54.0, 2.5),
    Try::of(SMALLEST, 0.9, 46.0, 2.5),
];
/// Between columns, points.
const GAP: f32 = 14.0;
/// The share of the width that the running order takes.
const ORDER: f32 = 0.655;
/// So many figures stand in two columns, and more in three, but so many in four where the diagrams are lower than this, points.
const TWO_COLUMNS: usize = 4;
const FOUR_COLUMNS: usize = 9;
const LOW: f32 = 62.0;
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

fn lay(dance: &Dance, motion: &Motion, paper: Paper, tried: Try) -> Vec<Page> {
    let size = tried.size;
    let mut flow = Flow::new(paper, &dance.title, &dance.side, &about(dance));
    flow.tight = tried.tight;
    let [left, right] = flow.edges();
    let top = flow.y;
    let middle = left + (right - left) * ORDER;
    put_order(&mut flow, dance, motion, [left, middle - GAP], tried);
    // Beside the running order, as long as that is on one page; the cautions where there is room for them.
    let cautions = cautions(dance);
    let mut put = false;
    if flow.pages.len() == 1 {
        let order = flow.y;
        flow.y = top;
        put_steps(&mut flow, motion, [middle, right], size);
        if flow.pages.len() == 1 {
            let steps = flow.y;
            let under = |edges: [f32; 2]| {
                26.0 + text_height(&cautions, (SMALLEST.max(size - 1.0), false), edges[1] - edges[0])
            };
            for (edges, here, there) in
                [([middle, right], steps, order), ([left, middle - GAP], order, steps)]
            {
                if !put && here + under(edges) <= there + 12.0 {
                    flow.y = here;
                    put_cautions(&mut flow, &cautions, edges, size);
                    put = true;
                }
            }
            flow.y = flow.y.max(order).max(steps);
        }
    } else {
        put_steps(&mut flow, motion, [left, right], size);
    }
    put_figures(&mut flow, dance, motion, tried);
    put_tune(&mut flow, dance, tried);
    if !put {
        put_cautions(&mut flow, &cautions, [left, right], size);
    }
    flow.pages
}

/// The smallest words on staves, points.
const ON_STAVES: f32 = 8.0;

/// A heading between two edges.
fn heading(flow: &mut Flow, text: &str, left: f32, with: f32) {
    flow.need(20.0 + with);
    flow.begin(Role::Heading(2));
    flow.line(text, (11.5, true), left, PAPER.words);
    flow.end();
    flow.y += 2.0;
}

/// The heads of the running order.
const HEADS: [&str; 4] = ["Line", "Figure, and its call", "Strain", "Bars"];

fn put_order(flow: &mut Flow, dance: &Dance, motion: &Motion, [left, right]: [f32; 2], tried: Try) {
    let size = tried.size;
    let columns = [left, left + size * 2.9, right - size * 9.4, right - size * 5.3, right];
    heading(flow, "Running order", left, 30.0);
    // On a further page the heads stand again without being read again.
    let again = |flow: &mut Flow| {
        let y = flow.y + tried.line() / 2.0;
        for (text, x) in HEADS.into_iter().zip(columns) {
            flow.words([x, y], (size, true), Anchor::Left, text, PAPER.words);
        }
        flow.y += tried.line();
    };
    let put = |flow: &mut Flow, texts: [&str; 4], head: bool| {
        let lines: Vec<Vec<String>> = texts
            .into_iter()
            .zip(columns.windows(2))
            .map(|(text, edges)| {
                wrapped(
                    text,
                    (size, head),
                    edges.last().unwrap_or(&right) - edges.first().unwrap_or(&left) - 5.0,
                )
            })
            .collect();
        let most = lines.iter().map(Vec::len).max().unwrap_or(1).max(1);
        let high = tried.line() * most as f32;
        if flow.room_below() < high && !head {
            flow.turn_over();
            again(flow);
        }
        for (place, (lines, x)) in lines.iter().zip(columns).enumerate() {
            let starts = match (place, head) {
                (0, true) => Starts::Table,
                (0, false) => Starts::Row,
                _ => Starts::Cell,
            };
            let of = if head { Head::Column } else { Head::None };
            flow.cell(starts, if place == 0 && !head { Head::Row } else { of });
            for (line, words) in lines.iter().enumerate() {
                let y = flow.y + tried.line() * (line as f32 + 0.5);
                flow.words([x, y], (size, head), Anchor::Left, words, PAPER.words);
            }
        }
        flow.end();
        flow.y += high;
    };
    put(flow, HEADS, true);
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

/// The stepping.
fn put_steps(flow: &mut Flow, motion: &Motion, edges: [f32; 2], size: f32) {
    let steps = all_steps_told(motion);
    if steps.is_empty() {
        return;
    }
    heading(flow, "Stepping", edges[0], 20.0);
    for line in &steps {
        flow.text(line, (size, false), edges, PAPER.words);
        flow.y += 1.5;
    }
    flow.y += 5.0;
}

fn cautions(dance: &Dance) -> String {
    if dance.holding == Holding::Sticks && !CAUTIONS.contains("Sticks") {
        format!("{CAUTIONS} {STICK_CAUTION}")
    } else {
        CAUTIONS.to_owned()
    }
}

fn put_cautions(flow: &mut Flow, cautions: &str, edges: [f32; 2], size: f32) {
    heading(flow, "Before you dance", edges[0], 20.0);
    flow.text(cautions, (SMALLEST.max(size - 1.0), false), edges, PAPER.words);
    flow.y += 8.0;
}

/// Each figure in which somebody goes somewhere once, in columns over the whole width: its name, a diagram of its first half, and its
/// line.
fn put_figures(flow: &mut Flow, dance: &Dance, motion: &Motion, tried: Try) {
    let [left, right] = flow.edges();
    let moves = |index: &SpanIndex| {
        let still = |span: &Span| is_still(motion, span, (0.0, span.bar_counts().counts()));
        motion.dancers() == 1 || !motion.span(*index).is_some_and(still)
    };
    let figures: Vec<SpanIndex> = each_once(motion).into_iter().filter(moves).collect();
    let columns = match figures.len() {
        0..=TWO_COLUMNS => 2,
        FOUR_COLUMNS.. if tried.high < LOW => 4,
        _ => 3,
    };
    let wide = (right - left - GAP * (columns - 1) as f32) / columns as f32;
    let cells: Vec<Cell> = figures
        .into_iter()
        .filter_map(|index| Cell::of(dance, motion, index, (tried.size, tried.tight), [wide, tried.high]))
        .collect();
    heading(flow, "Figures", left, cells.first().map_or(0.0, |cell| cell.high));
    let halves = "The first half of each is drawn, from the numbers on; a lozenge is the shoulder by which two pass, a \
                  letter the first foot.";
    flow.text(halves, (SMALLEST, false), [left, right], PAPER.quiet);
    flow.y += 4.0;
    let mut filled = vec![flow.y; columns];
    let shared = share_out(&cells, columns);
    let highest = filled_by(&cells, &shared).into_iter().fold(0.0, f32::max);
    let together = highest <= flow.room_below();
    for (cell, column) in cells.iter().zip(shared) {
        let column = if together {
            flow.y = filled.get(column).copied().unwrap_or(flow.y);
            column
        } else {
            // The next one goes where there is most room.
            flow.y = filled.iter().copied().fold(f32::INFINITY, f32::min);
            let pages = flow.pages.len();
            flow.need(cell.high);
            if flow.pages.len() > pages {
                filled.fill(flow.y);
            }
            filled.iter().position(|y| *y <= flow.y).unwrap_or(0)
        };
        let top = flow.y;
        cell.put(flow, dance, motion, left + column as f32 * (wide + GAP));
        if let Some(y) = filled.get_mut(column) {
            *y = top + cell.high + BETWEEN;
        }
    }
    flow.y = filled.into_iter().fold(0.0, f32::max);
}

/// How fast the tune is, how it is played, and its notes.
fn put_tune(flow: &mut Flow, dance: &Dance, Try { size, stave, .. }: Try) {
    let music = &dance.music;
    let [left, right] = flow.edges();
    let systems = Score::read(&music.abc).map(|score| engrave(&score, right - left, stave, PAPER.words));
    let systems = systems.unwrap_or_default();
    heading(flow, "Tune", left, 20.0 + systems.first().map_or(0.0, |system| system.size[1]));
    // Beside the heading.
    let title = words_width("Tune", 11.5, Face::Bold) + 10.0;
    let mut said = format!("{} · {} strong beats a minute", music.metre, music.speed);
    if !music.played.is_empty() {
        said += &format!(" · played {}", music.played.join(" "));
    }
    flow.y -= line_height(11.5) + 2.0;
    flow.y += (line_height(11.5) - line_height(size)) / 2.0 + 0.5;
    flow.text(&said, (size, false), [left + title, right], PAPER.words);
    flow.y += 5.0;
    let lines = systems.len();
    for (system, line) in systems.into_iter().zip(1..) {
        flow.need(system.size[1]);
        let at = [left, flow.y];
        let area = [left, flow.y, right, flow.y + system.size[1]];
        flow.begin(Role::Picture(super::dance_pages::notes_words(music, (line, lines), false), area));
        for mut mark in system.marks {
            // The numbers of bars and the letters of parts are still read on small staves.
            if let Mark::Words { size, .. } = &mut mark {
                *size = size.max(ON_STAVES);
            }
            flow.mark(mark.placed(1.0, at));
        }
        flow.end();
        flow.y += system.size[1] + stave;
    }
}
