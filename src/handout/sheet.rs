use super::{
    Bookmark, Handout, OnProgress, Page, Paper, SMALLEST,
    caption::{Caption, caption},
    diagram::{Shown, diagram_marks, has_numbers},
    flow::{Flow, line_height, put_feet, wrapped},
    moments::{is_still, moments},
    reading::Role,
    spoken::DiagramWords,
    told::{put_told, told_height},
    watching::{put_watch, side_watch, watch_height},
};
use crate::dance::Dance;
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Anchor, Frame, PAPER, span_bounds};
use crate::words::{CAUTIONS_IN_SHORT, speeds_said};

/// Floor round where the middles of bodies go that a diagram shows: a body with its hands, metres.
const ROUND: f64 = 0.66;
/// Between diagrams, across and down, points.
const GAP: [f32; 2] = [9.0, 10.0];
/// A metre of floor on paper, points: at least, as long as more pages give it, and at most.
const METRE: (f64, f64) = (28.0, 80.0);

/// How a sheet is laid out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetChoice {
    pub paper: Paper,
    /// Counts from one diagram to the next; left out, one for each bar, however many counts it has.
    pub every: Option<f64>,
    /// Whether what each number does stands under the diagrams in words.
    pub words: bool,
    /// Whether the tune's ABC text, to be copied, stands under its notes in a notebook.
    pub abc: bool,
    /// Whether what there is to watch for in a figure stands on its sheet, and on a dancer's page.
    pub watch: bool,
}

impl Default for SheetChoice {
    fn default() -> Self {
        Self { paper: Paper::default(), every: None, words: true, abc: false, watch: true }
    }
}

/// The first line of the running order in which a figure (index in the dance) is danced.
#[must_use]
pub fn first_span(motion: &Motion, figure: usize) -> Option<SpanIndex> {
    motion.spans().iter().position(|span| span.figure == figure).map(SpanIndex)
}

/// The sheet of the figure danced in a line of the running order.
#[must_use]
pub fn figure_sheet(dance: &Dance, motion: &Motion, span: SpanIndex, choice: &SheetChoice) -> Handout {
    let watch = side_watch(dance, motion, span, choice.watch);
    let pages = sheet_on(dance, motion, span, (choice, &watch), None).pages;
    let title = format!("{}, {}", figure_name(dance, motion, span), dance.title);
    let mut handout = Handout { title, author: dance.author.clone(), pages, bookmarks: Vec::new() };
    put_feet(&mut handout.pages, CAUTIONS_IN_SHORT);
    handout
}

/// The sheets of every figure of the running order, each once; `progress` hears how many are done, of how many,
/// and says whether to go on.
#[must_use]
pub fn sheets(dance: &Dance, motion: &Motion, choice: &SheetChoice, progress: OnProgress) -> Handout {
    let spans = each_once(motion);
    let mut filled = Filled::default();
    let mut handout =
        Handout { title: dance.title.clone(), author: dance.author.clone(), ..Handout::default() };
    for (done, span) in spans.iter().enumerate() {
        if !progress(done, spans.len()) {
            break;
        }
        let page = filled.add(dance, motion, *span, choice);
        handout.bookmarks.push(Bookmark {
            text: figure_name(dance, motion, *span),
            page,
            inside: Vec::new(),
        });
    }
    handout.pages = filled.pages;
    put_feet(&mut handout.pages, CAUTIONS_IN_SHORT);
    handout
}

/// The first span of each figure that is danced, in the order they are danced.
pub(super) fn each_once(motion: &Motion) -> Vec<SpanIndex> {
    let spans = motion.indexed_spans();
    let firsts = spans.filter(|(index, span)| first_span(motion, span.figure) == Some(*index));
    firsts.map(|(index, _)| index).collect()
}

pub(super) fn figure_name(dance: &Dance, motion: &Motion, span: SpanIndex) -> String {
    let figure = motion.span(span).and_then(|span| dance.figures.get(span.figure));
    figure.map_or_else(String::new, |figure| figure.name.clone())
}

/// Sheets one after another, each begun on the page that the one before has left room on where that saves a page.
#[derive(Default)]
pub(super) struct Filled {
    pub pages: Vec<Page>,
    /// How far down the last of them is filled, points.
    y: f32,
}

impl Filled {
    /// Adds the sheet of a figure, and gives the index of the page on which it begins.
    pub fn add(&mut self, dance: &Dance, motion: &Motion, span: SpanIndex, choice: &SheetChoice) -> usize {
        let watch = side_watch(dance, motion, span, choice.watch);
        let mut made = sheet_on(dance, motion, span, (choice, &watch), None);
        let mut begins = self.pages.len();
        let room = choice.paper.inside()[3] - self.y;
        if let Some(last) = self.pages.last().filter(|_| room > LEAST_ROOM) {
            let under = sheet_on(dance, motion, span, (choice, &watch), Some((last.clone(), self.y)));
            if under.pages.len() <= made.pages.len() && under.metre >= made.metre * SMALLER_BENEATH {
                made = under;
                self.pages.pop();
                begins -= 1;
            }
        }
        self.y = made.y;
        self.pages.extend(made.pages);
        begins
    }
}

/// A sheet begins on a page that has so much room left, points, and where its diagrams are not smaller than such a share.
const LEAST_ROOM: f32 = 220.0;
const SMALLER_BENEATH: f64 = 0.62;

/// The sheet of a figure as it is laid out.
struct Sheet {
    pages: Vec<Page>,
    /// How far down the last page is filled, points.
    y: f32,
    /// A metre of floor, points.
    metre: f64,
}

/// A sheet without the feet of its pages, on pages of its own or on one that is filled down to a height.
fn sheet_on(
    dance: &Dance,
    motion: &Motion,
    index: SpanIndex,
    (choice, watch): (&SheetChoice, &[String]),
    beneath: Option<(Page, f32)>,
) -> Sheet {
    let nothing = || Sheet { pages: Vec::new(), y: 0.0, metre: 0.0 };
    let Some(span) = motion.span(index) else { return nothing() };
    let bars = if span.bars == 1 { "1 bar".to_owned() } else { format!("{} bars", span.bars) };
    let speeds =
        dance.figures.get(span.figure).and_then(|figure| speeds_said(&figure.speeds, span.bar_counts()));
    let speeds = speeds.map_or_else(String::new, |said| format!("the music {said}"));
    let top = "the music is at the top of each diagram";
    let under = [dance.title.as_str(), &bars, &span.plan().phrase, &speeds, top];
    let under = under.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ");
    let (name, alone) = (figure_name(dance, motion, index), beneath.is_none());
    let mut flow = match beneath {
        Some(page) => Flow::beneath(page, &name, &dance.side, &under),
        None => Flow::new(choice.paper, &name, &dance.side, &under),
    };
    let mut captions: Vec<((f64, f64), Caption)> =
        moments(motion, span, choice.every).into_iter().map(|counts| (counts, Caption::default())).collect();
    for (counts, made) in &mut captions {
        *made = caption(dance, motion, span, *counts);
    }
    let bounds = span_bounds(motion, span, ROUND);
    let told = if choice.words { told_height(&flow, dance, motion, index) } else { 0.0 };
    let under = KEY + watch_height(&flow, watch);
    // Where nobody goes anywhere small diagrams tell it all.
    let still = captions.iter().all(|((from, to), _)| is_still(motion, span, (*from, *to)));
    let grid = choose_grid(&captions, bounds, &flow, (under, told, if still { METRE.0 } else { METRE.1 }));
    let metre = f64::from(grid.high) / (bounds[3] - bounds[1]);
    let [left, _] = flow.edges();
    let spoken = DiagramWords::of(dance, motion, index);
    for (number, row) in captions.chunks(grid.across).enumerate() {
        if number > 0 && number.is_multiple_of(grid.down) {
            flow.turn_over();
        }
        flow.need(grid.high + grid.caption);
        for (column, (counts, caption)) in row.iter().enumerate() {
            let x = left + column as f32 * (grid.wide + GAP[0]);
            let area = [x, flow.y, x + grid.wide, flow.y + grid.high];
            let frame = Frame::fit(bounds, [x, flow.y, grid.wide, grid.high], 0.0);
            let shown = Shown { span: index, counts: *counts, own: None, holding: dance.holding };
            flow.begin(Role::Picture(spoken.at(*counts), area));
            if let Some(page) = flow.pages.last_mut() {
                diagram_marks(&mut page.marks, motion, &shown, area, &frame);
                page.words += &format!("{}: {}. ", caption.when, caption.what);
            }
            let under = [x, area[3]];
            put_caption(&mut flow, caption, under, grid.wide);
        }
        flow.y += grid.high + grid.caption + GAP[1];
    }
    put_key(
        &mut flow,
        alone,
        has_numbers(&Frame::fit(bounds, [0.0, 0.0, grid.wide, grid.high], 0.0), motion.dancers()),
        !motion.blows_between(span.begin(), span.end()).is_empty(),
    );
    put_watch(&mut flow, watch);
    if let Some(figure) = dance.figures.get(span.figure).filter(|figure| !figure.notes.trim().is_empty()) {
        flow.heading("Notes", 24.0);
        let edges = flow.edges();
        flow.text(&figure.notes, (9.5, false), edges, PAPER.words);
        flow.y += 4.0;
    }
    if choice.words {
        put_told(&mut flow, dance, motion, index);
    }
    Sheet { pages: flow.pages, y: flow.y, metre }
}

/// The grid that has room for the words on the same page, where diagrams are then not much smaller.
fn choose_grid(
    captions: &[((f64, f64), Caption)],
    bounds: [f64; 4],
    flow: &Flow,
    (under, words, most): (f32, f32, f64),
) -> Grid {
    let without = Grid::of(captions, bounds, flow, (under, most));
    let with = Grid::of(captions, bounds, flow, (under + words, most));
    let pages = |grid: &Grid| captions.len().div_ceil(grid.across * grid.down);
    if pages(&with) == 1 && with.high >= without.high * 0.75 { with } else { without }
}

/// Room for what says how diagrams are read, points.
const KEY: f32 = 54.0;

/// How diagrams are read.
fn put_key(flow: &mut Flow, alone: bool, numbers: bool, taps: bool) {
    let key = "Odds are round and go along whole lines, evens are square and go along broken ones. An arrow is the \
               way since the diagram before. An arc is a turn, its number how much of a whole one. A letter alone is \
               the first foot of a half; in a lozenge, the shoulder by which two pass. The filled foot carries the weight.";
    // Once on a page is enough.
    let mut key = if alone { key.to_owned() } else { String::new() };
    if taps {
        key += " A star is where sticks meet, aslant where hands do.";
    }
    if !numbers {
        key += " The set is too large for numbers to be read on this paper.";
    }
    let edges = flow.edges();
    flow.text(&key, (SMALLEST, false), edges, PAPER.quiet);
    flow.y += 5.0;
}

fn put_caption(flow: &mut Flow, caption: &Caption, [x, y]: [f32; 2], wide: f32) {
    flow.begin(Role::Text);
    flow.words([x, y + 8.5], (9.5, true), Anchor::Left, &caption.when, PAPER.words);
    for (row, line) in wrapped(&caption.what, SMALLEST, wide).iter().take(MOST_LINES).enumerate() {
        let y = y + CAPTION_HEAD + line_height(SMALLEST) * (row as f32 + 0.5);
        flow.words([x, y], (SMALLEST, false), Anchor::Left, line, PAPER.words);
    }
    flow.end();
}

/// The most diagrams in a row.
const MOST_ACROSS: usize = 8;
/// The most lines under the first one of a caption.
const MOST_LINES: usize = 6;
/// How high the first line of a caption is, points.
const CAPTION_HEAD: f32 = 15.0;

/// Diagrams in columns and rows.
struct Grid {
    across: usize,
    /// Rows on a page.
    down: usize,
    wide: f32,
    high: f32,
    caption: f32,
}

impl Grid {
    /// The grid in which diagrams are largest on one page, or on as few pages as make them large enough to read.
    fn of(
        captions: &[((f64, f64), Caption)],
        bounds: [f64; 4],
        flow: &Flow,
        (under, largest): (f32, f64),
    ) -> Self {
        let [left, right] = flow.edges();
        let (width, height) = (right - left, flow.room_below() - under);
        let (floor_wide, floor_high) = (bounds[2] - bounds[0], bounds[3] - bounds[1]);
        let all = captions.len().max(1);
        let wide = |across: usize| (width - GAP[0] * (across - 1) as f32) / across as f32;
        // How high the captions are hangs on how many diagrams there are across alone.
        let lines = |across: usize| {
            let lines =
                captions.iter().map(|(_, caption)| wrapped(&caption.what, SMALLEST, wide(across)).len());
            lines.max().unwrap_or(0).min(MOST_LINES)
        };
        let highest: Vec<usize> = (1..=all.min(MOST_ACROSS)).map(lines).collect();
        let mut best: Option<(f64, Self)> = None;
        for pages in 1..=all {
            let each = all.div_ceil(pages);
            if pages > 1 && each == all.div_ceil(pages - 1) {
                continue;
            }
            for (across, lines) in (1..=each.min(MOST_ACROSS)).zip(&highest) {
                let down = each.div_ceil(across);
                let wide = wide(across);
                let caption = CAPTION_HEAD + line_height(SMALLEST) * *lines as f32;
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
                    best = Some((scale, Self { across, down, wide, high, caption }));
                }
            }
            if best.as_ref().is_some_and(|(scale, _)| *scale >= METRE.0) {
                break;
            }
        }
        best.map_or(
            Self { across: 1, down: 1, wide: width, high: height * 0.8, caption: 40.0 },
            |(_, grid)| grid,
        )
    }
}
