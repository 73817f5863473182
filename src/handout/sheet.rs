use super::{
    Bookmark, Handout, OnProgress, Paper, SMALLEST,
    caption::{Caption, caption},
    diagram::{Shown, diagram_marks, has_numbers},
    flow::{Flow, line_height, put_feet, text_height, wrapped},
    grid::{CAPTION_HEAD, GAP, Grid, METRE, MOST_LINES},
    moments::{is_still, moments},
    reading::Role,
    spoken::DiagramWords,
    told::{put_told, told_height},
    watching::{put_watch, side_watch, watch_height},
};
use crate::dance::Dance;
use crate::motion::{Motion, Span, SpanIndex};
use crate::picture::{Anchor, Frame, PAPER, span_bounds};
use crate::words::{CAUTIONS_IN_SHORT, speeds_said};

/// Floor round where the middles of bodies go that a diagram shows: a body with its hands, metres.
const ROUND: f64 = 0.66;
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
    let sheet = Sheet::of(dance, motion, span, choice);
    let pages = sheet.map_or_else(Vec::new, |sheet| sheet.alone(choice).pages);
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
    let moving = first_moving(motion, &spans);
    let mut flow: Option<Flow> = None;
    let mut handout =
        Handout { title: dance.title.clone(), author: dance.author.clone(), ..Handout::default() };
    for (done, span) in spans.iter().enumerate() {
        if !progress(done, spans.len()) {
            break;
        }
        let page = match &mut flow {
            Some(flow) => {
                let whence = Whence { first: Some(done) == moving, last: done + 1 == spans.len() };
                put_sheet(flow, dance, motion, *span, choice, whence)
            }
            None => {
                flow = Sheet::of(dance, motion, *span, choice).map(|sheet| sheet.begun(Some(done) == moving));
                0
            }
        };
        let text = figure_name(dance, motion, *span);
        handout.bookmarks.push(Bookmark { text, page, inside: Vec::new() });
    }
    handout.pages = flow.map_or_else(Vec::new, |flow| flow.pages);
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

/// Where a sheet stands among others: the first in which somebody goes says how diagrams are read, the last leaves no page with a few lines.
#[derive(Clone, Copy, Debug)]
pub(super) struct Whence {
    pub first: bool,
    pub last: bool,
}

/// Which of some figures (spans) is the first that needs its diagrams explained: in which somebody goes somewhere, or else the first.
pub(super) fn first_moving(motion: &Motion, spans: &[SpanIndex]) -> Option<usize> {
    let goes = |index: &SpanIndex| {
        motion.span(*index).is_some_and(|span| !is_still(motion, span, (0.0, span.bar_counts().counts())))
    };
    spans.iter().position(goes).or((!spans.is_empty()).then_some(0))
}

/// Puts the sheet of a figure as a section of something longer; gives the index of the page on which it begins.
pub(super) fn put_sheet(
    flow: &mut Flow,
    dance: &Dance,
    motion: &Motion,
    span: SpanIndex,
    choice: &SheetChoice,
    whence: Whence,
) -> usize {
    let Some(sheet) = Sheet::of(dance, motion, span, choice) else { return flow.pages.len() - 1 };
    let notes = sheet.notes_height(flow.edges());
    let under = sheet.under(true);
    let rooms = flow.rooms(&sheet.name, &under);
    let rooms = [rooms[0] - notes, rooms[1] - notes, rooms[2]];
    let [left, right] = flow.edges();
    let grid = sheet.filling(rooms, right - left);
    let least = notes + if grid.here { grid.high + grid.caption } else { f32::INFINITY };
    flow.section(&sheet.name, &under, least);
    let page = flow.pages.len() - 1;
    sheet.put(flow, &grid, whence);
    page
}

/// The sheet of a figure, before it is laid out.
struct Sheet<'a> {
    dance: &'a Dance,
    motion: &'a Motion,
    index: SpanIndex,
    span: &'a Span,
    paper: Paper,
    /// Whether each number's words are on it.
    words: bool,
    name: String,
    /// What is written under each diagram, and the counts between which that shows the ways.
    captions: Vec<((f64, f64), Caption)>,
    /// The floor that the diagrams show: left, bottom, right, top, metres.
    bounds: [f64; 4],
    /// Whether nobody goes anywhere: then small diagrams tell it all.
    still: bool,
    /// What the side has to watch.
    watch: Vec<String>,
}

impl<'a> Sheet<'a> {
    fn of(dance: &'a Dance, motion: &'a Motion, index: SpanIndex, choice: &SheetChoice) -> Option<Self> {
        let span = motion.span(index)?;
        let captions: Vec<((f64, f64), Caption)> = moments(motion, span, choice.every)
            .into_iter()
            .map(|counts| (counts, caption(dance, motion, span, counts)))
            .collect();
        let still = captions.iter().all(|((from, to), _)| is_still(motion, span, (*from, *to)));
        let (bounds, name) = (span_bounds(motion, span, ROUND), figure_name(dance, motion, index));
        let (paper, words) = (choice.paper, choice.words);
        let watch = side_watch(dance, motion, index, choice.watch);
        Some(Self { dance, motion, index, span, paper, words, name, captions, bounds, still, watch })
    }

    /// The line under its name; on pages of its own, with the dance.
    fn under(&self, inside: bool) -> String {
        let Self { dance, span, .. } = self;
        let bars = if span.bars == 1 { "1 bar".to_owned() } else { format!("{} bars", span.bars) };
        let figure = dance.figures.get(span.figure);
        let speeds = figure.and_then(|figure| speeds_said(&figure.speeds, span.bar_counts()));
        let speeds = speeds.map_or_else(String::new, |said| format!("the music {said}"));
        let top = if inside { "" } else { "the music is at the top of each diagram" };
        let under = [dance.title.as_str(), &bars, &span.plan().phrase, &speeds, top];
        under.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" · ")
    }

    fn notes(&self) -> &str {
        self.dance.figures.get(self.span.figure).map_or("", |figure| figure.notes.trim())
    }

    /// How high its notes are with what is free under them, points.
    fn notes_height(&self, [left, right]: [f32; 2]) -> f32 {
        let high = text_height(self.notes(), (NOTES, false), right - left);
        if high > 0.0 { high + NOTES_UNDER } else { 0.0 }
    }

    /// How large a metre of floor is best on paper, points: smaller where nobody goes anywhere.
    fn ideal(&self) -> (f64, f64) {
        if self.still { (STILL, STILL) } else { (IDEAL, METRE.1) }
    }

    /// On pages of its own, with diagrams as large as fit beside the words on one page where they are then not much smaller.
    fn alone(&self, choice: &SheetChoice) -> Flow {
        let mut flow = Flow::new(choice.paper, &self.name, &self.dance.side, &self.under(false));
        let told = if self.words { told_height(&flow, self.dance, self.motion, self.index) } else { 0.0 };
        let room = flow.room_below() - self.notes_height(flow.edges());
        let most = if self.still { STILL } else { METRE.1 };
        let [left, right] = flow.edges();
        let under = KEY + watch_height(&flow, &self.watch);
        let grid = Grid::alone(&self.captions, self.bounds, (right - left, room), (under, told), most);
        let grid = if self.beside(&grid) { grid.narrowed(&self.captions, self.bounds) } else { grid };
        let alone = Whence { first: true, last: true };
        self.put(&mut flow, &grid, alone);
        // Where diagrams that are not as large save a page, that is better.
        if flow.pages.len() > 1 {
            let mut other = Flow::new(choice.paper, &self.name, &self.dance.side, &self.under(false));
            let grid = self.filling([other.room_below() - self.notes_height([left, right]); 3], right - left);
            self.put(&mut other, &grid, alone);
            if other.pages.len() < flow.pages.len() {
                return other;
            }
        }
        flow
    }

    fn filling(&self, rooms: [f32; 3], width: f32) -> Grid {
        let grid = Grid::filling(&self.captions, self.bounds, (width, rooms), self.ideal());
        if self.beside(&grid) { grid.narrowed(&self.captions, self.bounds) } else { grid }
    }

    /// Whether the words stand beside the diagrams: of one row of small ones, where nobody goes anywhere.
    fn beside(&self, grid: &Grid) -> bool {
        self.still && self.words && self.captions.len() <= 2 && grid.across >= self.captions.len()
    }

    /// As the first of more.
    fn begun(&self, key: bool) -> Flow {
        let mut flow = Flow::new(self.paper, &self.name, &self.dance.side, &self.under(false));
        let room = flow.room_below() - self.notes_height(flow.edges());
        let [left, right] = flow.edges();
        let grid = self.filling([room; 3], right - left);
        self.put(&mut flow, &grid, Whence { first: key, last: false });
        flow
    }

    /// What stands under its name.
    fn put(&self, flow: &mut Flow, grid: &Grid, whence: Whence) {
        let Self { dance, motion, index, span, .. } = *self;
        let [left, right] = flow.edges();
        if !self.notes().is_empty() {
            flow.text(self.notes(), (NOTES, false), [left, right], PAPER.words);
            flow.y += NOTES_UNDER;
        }
        let spoken = DiagramWords::of(dance, motion, index);
        let mut top = flow.y;
        for (number, row) in self.captions.chunks(grid.across).enumerate() {
            if number > 0 && number.is_multiple_of(grid.down) {
                flow.turn_over();
            }
            flow.need(grid.high + grid.caption);
            top = flow.y;
            for (column, (counts, caption)) in row.iter().enumerate() {
                let x = left + column as f32 * (grid.wide + GAP[0]);
                let area = [x, flow.y, x + grid.wide, flow.y + grid.high];
                let frame = Frame::fit(self.bounds, [x, flow.y, grid.wide, grid.high], 0.0);
                let shown = Shown { span: index, counts: *counts, own: None, holding: dance.holding };
                flow.begin(Role::Picture(spoken.at(*counts), area));
                if let Some(page) = flow.pages.last_mut() {
                    diagram_marks(&mut page.marks, motion, &shown, area, &frame);
                    page.words += &format!("{}: {}. ", caption.when, caption.what);
                }
                let under = [x, area[3]];
                put_caption(flow, caption, under, grid.wide);
            }
            flow.y += grid.high + grid.caption + GAP[1];
        }
        let frame = Frame::fit(self.bounds, [0.0, 0.0, grid.wide, grid.high], 0.0);
        let taps = !motion.blows_between(span.begin(), span.end()).is_empty();
        let numbers = has_numbers(&frame, motion.dancers());
        if self.beside(grid) {
            let under = std::mem::replace(&mut flow.y, top);
            flow.inset = (grid.wide + GAP[0]) * grid.across.min(self.captions.len()) as f32 + 8.0;
            let page = flow.pages.len();
            put_told(flow, dance, motion, index, false);
            flow.inset = 0.0;
            if flow.pages.len() == page {
                flow.y = flow.y.max(under);
            }
            put_key(flow, whence.first, numbers, taps);
            put_watch(flow, &self.watch);
            return;
        }
        put_key(flow, whence.first, numbers, taps);
        put_watch(flow, &self.watch);
        if self.words {
            put_told(flow, dance, motion, index, whence.last);
        }
    }
}

/// Room for what says how diagrams are read, points.
const KEY: f32 = 54.0;
/// The size of the notes, and what is free under them, points.
const NOTES: f32 = 9.5;
const NOTES_UNDER: f32 = 6.0;
/// A metre of floor on paper where there is room for as much as is wanted, points.
const IDEAL: f64 = 37.0;
/// The same of a figure in which all stand: as small as numbers can be read.
const STILL: f64 = 23.0;

/// How diagrams are read.
fn put_key(flow: &mut Flow, wanted: bool, numbers: bool, taps: bool) {
    let key = "Odds are round and go along whole lines, evens are square and go along broken ones. An arrow is the \
               way since the diagram before. An arc is a turn, its number how much of a whole one. A letter alone is \
               the first foot of a half; in a lozenge, the shoulder by which two pass. The filled foot carries the weight.";
    // Once in a handout is enough.
    let mut key = if wanted { key.to_owned() } else { String::new() };
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
    for (row, line) in wrapped(&caption.what, (SMALLEST, false), wide).iter().take(MOST_LINES).enumerate() {
        let y = y + CAPTION_HEAD + line_height(SMALLEST) * (row as f32 + 0.5);
        flow.words([x, y], (SMALLEST, false), Anchor::Left, line, PAPER.words);
    }
    flow.end();
}
