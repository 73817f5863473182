use super::{
    Handout, Page, Paper, SMALLEST,
    flow::wrapped,
    reading::Role,
    sheet::{each_once, figure_name},
};
use crate::dance::{Dance, Dancer};
use crate::motion::Motion;
use crate::picture::{Anchor, Mark, PAPER, Stroke};
use crate::words::{CAUTIONS_IN_SHORT, clauses, standing};

/// The sizes that the words may have, points, how far it is from line to line, in their heights, and whether a figure may go on in the
/// next quarter: the first with which all of it stands on one side of one sheet.
const TRIES: [(f32, f32, bool); 10] = [
    (11.0, 1.32, false),
    (10.5, 1.32, false),
    (10.0, 1.32, false),
    (9.25, 1.32, false),
    (10.0, 1.28, true),
    (9.5, 1.28, true),
    (9.0, 1.26, true),
    (SMALLEST, 1.26, true),
    (SMALLEST, 1.22, true),
    (SMALLEST, 1.18, true),
];
/// Left free round the words of each quarter, points.
const MARGIN: f32 = 17.0;
/// How wide the column of bars is, in heights of the words.
const BARS: f32 = 2.6;
/// Quarters on a side.
const QUARTERS: usize = 4;

/// One number's part for the pocket: a clause a bar for each figure, in four quarters of one side of a sheet, which is folded twice
/// (A4 to A6). A further sheet only where one cannot hold it.
#[must_use]
pub fn pocket_page(dance: &Dance, motion: &Motion, dancer: Dancer, paper: Paper) -> Handout {
    let blocks = blocks(dance, motion, dancer);
    let title = format!("Number {dancer}, {}", dance.title);
    let mut pages: Vec<Page> = Vec::new();
    for tried in TRIES {
        let made = lay(&blocks, paper, tried, &title);
        if pages.is_empty() || made.len() < pages.len() {
            pages = made;
        }
        if pages.len() == 1 {
            break;
        }
    }
    Handout { title, author: dance.author.clone(), pages, bookmarks: Vec::new() }
}

/// A line of the pocket page.
enum Line {
    /// A heading and how deep it is.
    Heading(u16, String),
    Text(String),
    /// A bar, or bars alike in a row, and what is new in it.
    Bar(String, String),
}

/// What stays together where a quarter holds it.
fn blocks(dance: &Dance, motion: &Motion, dancer: Dancer) -> Vec<Vec<Line>> {
    let name = dance.person(dancer.number()).map_or_else(String::new, |name| format!(", {name}"));
    let order: Vec<String> =
        motion.indexed_spans().map(|(index, _)| figure_name(dance, motion, index)).collect();
    let mut all = vec![vec![
        Line::Heading(1, format!("Number {dancer}{name}")),
        Line::Text(format!("{} · {}", dance.title, standing(motion.ground(), dancer))),
        Line::Text(format!("In order: {}.", order.join(", "))),
        Line::Text(CAUTIONS_IN_SHORT.to_owned()),
    ]];
    for index in each_once(motion) {
        let mut block = vec![Line::Heading(2, figure_name(dance, motion, index))];
        let told = clauses(dance, motion, index, dancer);
        for alike in told.chunk_by(|one, other| one.1 == other.1 && one.0 + 1 == other.0) {
            let (Some((first, said)), Some((last, _))) = (alike.first(), alike.last()) else { continue };
            let bars =
                if first == last { (first + 1).to_string() } else { format!("{}–{}", first + 1, last + 1) };
            block.push(Line::Bar(bars, said.clone()));
        }
        all.push(block);
    }
    all
}

/// Lines in quarters of pages.
struct Quarters<'a> {
    paper: Paper,
    title: &'a str,
    size: f32,
    /// From line to line, in heights of the words.
    leading: f32,
    pages: Vec<Page>,
    /// The quarter of the last page that is being filled.
    quarter: usize,
    y: f32,
}

fn lay(
    blocks: &[Vec<Line>],
    paper: Paper,
    (size, leading, parted): (f32, f32, bool),
    title: &str,
) -> Vec<Page> {
    let mut quarters = Quarters { paper, title, size, leading, pages: Vec::new(), quarter: QUARTERS, y: 0.0 };
    quarters.next();
    for block in blocks {
        // A figure that goes on in the next quarter has its name and two bars here at least.
        let together = if parted { 3 } else { block.len() };
        let high: f32 = block.iter().take(together).map(|line| quarters.height(line)).sum();
        let [_, top, _, bottom] = quarters.area();
        if quarters.y > top && quarters.y + high > bottom && high <= bottom - top {
            quarters.next();
        }
        for line in block {
            quarters.put(line);
        }
        quarters.y += size * 0.4;
    }
    quarters.pages
}

impl Quarters<'_> {
    /// Left, top, right and bottom of the quarter, without its margins, points.
    fn area(&self) -> [f32; 4] {
        let [wide, high] = self.paper.points().map(|length| length / 2.0);
        let (column, row) = ((self.quarter % 2) as f32, (self.quarter / 2) as f32);
        let (x, y) = (wide * column, high * row);
        [x + MARGIN, y + MARGIN, x + wide - MARGIN, y + high - MARGIN]
    }

    fn next(&mut self) {
        self.quarter += 1;
        if self.quarter >= QUARTERS {
            self.quarter = 0;
            let (paper, title, words) = (self.paper, self.title.to_owned(), String::new());
            let mut page =
                Page { paper, marks: Vec::new(), parts: Vec::new(), links: Vec::new(), title, words };
            let [wide, high] = paper.points();
            let stroke = Stroke { colour: PAPER.faint, width: 0.6 };
            for points in
                [vec![[wide / 2.0, 0.0], [wide / 2.0, high]], vec![[0.0, high / 2.0], [wide, high / 2.0]]]
            {
                page.marks.push(Mark::Line { points, stroke, dash: Some([3.0, 5.0]) });
            }
            self.pages.push(page);
        }
        self.y = self.area()[1];
    }

    /// The size, whether it is heavy, how far it stands in, and the lines of a line.
    fn set(&self, line: &Line) -> (f32, bool, f32, Vec<String>) {
        let [left, _, right, _] = self.area();
        let wide = right - left;
        let size = self.size;
        match line {
            Line::Heading(1, text) => (size + 6.0, true, 0.0, wrapped(text, (size + 6.0, true), wide)),
            Line::Heading(_, text) => (size + 1.0, true, 0.0, wrapped(text, (size + 1.0, true), wide)),
            Line::Text(text) => (size, false, 0.0, wrapped(text, (size, false), wide)),
            Line::Bar(_, text) => {
                (size, false, size * BARS, wrapped(text, (size, false), wide - size * BARS))
            }
        }
    }

    fn height(&self, line: &Line) -> f32 {
        let (size, _, _, lines) = self.set(line);
        size * self.leading * lines.len() as f32
    }

    fn put(&mut self, line: &Line) {
        if self.y + self.height(line) > self.area()[3] {
            self.next();
        }
        let (size, heavy, inward, lines) = self.set(line);
        let left = self.area()[0];
        let Some(page) = self.pages.last_mut() else { return };
        let middle = |row: usize| self.y + size * self.leading * (row as f32 + 0.5);
        let words = |at: [f32; 2], heavy: bool, text: String| {
            let (anchor, colour) = (Anchor::Left, PAPER.words);
            Mark::Words { at, size, anchor, text, colour, heavy }
        };
        match line {
            Line::Heading(depth, _) => page.begin(Role::Heading(*depth)),
            Line::Text(_) => page.begin(Role::Text),
            Line::Bar(bar, _) => {
                page.begin(Role::Label);
                page.marks.push(words([left, middle(0)], true, bar.clone()));
                page.begin(Role::Item);
            }
        }
        let many = lines.len();
        for (row, text) in lines.into_iter().enumerate() {
            page.words += &format!("{text} ");
            page.marks.push(words([left + inward, middle(row)], heavy, text));
        }
        page.begin(Role::Aside);
        self.y += size * self.leading * many as f32;
    }
}
