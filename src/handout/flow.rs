use super::{
    Page, Paper, SMALLEST,
    reading::{Head, Role, Starts},
};
use crate::picture::{Anchor, Colour, Face, Mark, PAPER, Stroke, words_width};

/// The height of the footer, points.
const FOOTER: f32 = 20.0;

/// The size of the title of a section and of one that is said again, points; what is free over a section, and under a title with its
/// line.
const SECTION: f32 = 18.0;
const AGAIN: f32 = 14.0;
const BETWEEN: f32 = 16.0;
const RULE: f32 = 16.0;

/// How words are set: the height of the font, and whether they are heavy.
pub(super) type Type = (f32, bool);

/// Pages that are filled from the top down, each with the same heading.
pub(super) struct Flow {
    paper: Paper,
    title: String,
    side: String,
    /// The line under the title on the first page.
    under: String,
    pub pages: Vec<Page>,
    /// How far down the last page is filled, points.
    pub y: f32,
    /// How deep the titles are that are put, as headings, from 1; the headings under them are one deeper.
    pub depth: u16,
    /// How near the lines of words lie, as a share of what is usual.
    pub tight: f32,
    /// How far words stand in from the left edge, points.
    pub inset: f32,
}

impl Flow {
    /// A first page with a title, the side on its right and a line under it.
    pub fn new(paper: Paper, title: &str, side: &str, under: &str) -> Self {
        let (title, side, under) = (title.to_owned(), side.to_owned(), under.to_owned());
        let mut flow =
            Self { paper, title, side, under, pages: Vec::new(), y: 0.0, depth: 1, tight: 1.0, inset: 0.0 };
        flow.turn_over();
        flow
    }

    /// A part with a title of its own and a line under it: on this page, where so much of what follows fits under them, points, or
    /// else on a new one.
    pub fn section(&mut self, title: &str, under: &str, least: f32) {
        let here = self.room_below() >= BETWEEN + self.title_height(title, under, SECTION) + least;
        title.clone_into(&mut self.title);
        under.clone_into(&mut self.under);
        if !here {
            self.put_head(title, SECTION, false);
            return;
        }
        self.y += BETWEEN;
        if let Some(page) = self.pages.last_mut() {
            page.title = format!("{}, {title}", page.title);
        }
        self.put_title(title, SECTION, false);
    }

    /// How much room a section has under its title, points: here, on a new page, and on each page after that.
    pub fn rooms(&self, title: &str, under: &str) -> [f32; 3] {
        let high = self.title_height(title, under, SECTION);
        let [_, top, ..] = self.paper.inside();
        let page = self.bottom() - top;
        [self.room_below() - BETWEEN - high, page - high, page - AGAIN * 1.2 - RULE]
    }

    /// How high a title with the line under it is, points.
    fn title_height(&self, title: &str, under: &str, size: f32) -> f32 {
        let [left, right] = self.edges();
        let titles = wrapped(title, (size, true), self.title_width(left, right)).len().clamp(1, 3);
        let lines = wrapped(under, (9.5, false), right - left).len().min(3);
        let under = if lines > 0 { 2.0 + line_height(9.5) * lines as f32 } else { 0.0 };
        size * 1.2 * titles as f32 + under + RULE
    }

    /// How wide a title may be beside the name of the side.
    fn title_width(&self, left: f32, right: f32) -> f32 {
        let side = cut(&self.side, (10.0, false), (right - left) * 0.4);
        (right - left - words_width(&side, 10.0, Face::Regular) - 16.0).max(120.0)
    }

    /// As much of a page as this one has left, to try what it holds.
    pub fn trial(&self) -> Self {
        let (title, side) = (self.title.clone(), self.side.clone());
        let (pages, under) = (vec![self.blank()], String::new());
        Self {
            paper: self.paper,
            title,
            side,
            under,
            pages,
            y: self.y,
            depth: self.depth,
            tight: self.tight,
            inset: self.inset,
        }
    }

    fn blank(&self) -> Page {
        Page {
            paper: self.paper,
            marks: Vec::new(),
            parts: Vec::new(),
            links: Vec::new(),
            title: self.title.clone(),
            words: String::new(),
        }
    }

    /// What follows has a title of its own, on a new page.
    pub fn begin_anew(&mut self, title: &str) {
        title.clone_into(&mut self.title);
        self.under.clear();
        self.put_head(title, 22.0, false);
    }

    /// The left and the right edge of what may be printed on.
    pub fn edges(&self) -> [f32; 2] {
        let [left, _, right, _] = self.paper.inside();
        [left + self.inset, right]
    }

    /// How far down may be printed on.
    pub fn bottom(&self) -> f32 {
        self.paper.inside()[3] - FOOTER
    }

    /// How much of the page is still free below, points.
    pub fn room_below(&self) -> f32 {
        self.bottom() - self.y
    }

    /// Goes on to a new page unless so much is left of this one.
    pub fn need(&mut self, height: f32) {
        if self.room_below() < height {
            self.turn_over();
        }
    }

    /// Goes on to a new page.
    pub fn turn_over(&mut self) {
        if self.pages.is_empty() {
            self.put_head(&self.title.clone(), 22.0, false);
        } else {
            let (role, begun) = self.pages.last_mut().map_or((Role::Aside, false), Page::break_off);
            self.put_head(&format!("{}, continued", self.title), AGAIN, true);
            if let Some(page) = self.pages.last_mut().filter(|_| role != Role::Aside) {
                if begun {
                    page.go_on(role);
                } else {
                    page.begin(role);
                }
            }
        }
    }

    /// What is put from here on is read so.
    pub fn begin(&mut self, role: Role) {
        if let Some(page) = self.pages.last_mut() {
            page.begin(role);
        }
    }

    /// What is put from here on is not read.
    pub fn end(&mut self) {
        self.begin(Role::Aside);
    }

    /// What is put from here on is a cell of a table.
    pub fn cell(&mut self, starts: Starts, head: Head) {
        self.begin(Role::Cell(starts, head));
    }

    /// A new page with its title, for the first time or again.
    fn put_head(&mut self, title: &str, size: f32, again: bool) {
        self.pages.push(self.blank());
        self.y = self.paper.inside()[1];
        self.put_title(title, size, again);
    }

    /// The title, the side on its right at the top of a page and, where it is not said again, the line under it.
    fn put_title(&mut self, title: &str, size: f32, again: bool) {
        let [left, top, right, _] = self.paper.inside();
        let at_top = self.y <= top;
        let titles = wrapped(title, (size, true), self.title_width(left, right));
        let begin = self.y;
        self.begin(if again { Role::Aside } else { Role::Heading(self.depth) });
        for line in titles.iter().take(3) {
            self.words([left, self.y + size * 0.5], (size, true), Anchor::Left, line, PAPER.words);
            self.y += size * 1.2;
        }
        if at_top {
            self.begin(if again { Role::Aside } else { Role::Text });
            let side = cut(&self.side, (10.0, false), (right - left) * 0.4);
            self.words([right, begin + size * 0.62], (10.0, false), Anchor::Right, &side, PAPER.quiet);
        }
        if !again && !self.under.is_empty() {
            self.y += 2.0;
            self.begin(Role::Text);
            for line in wrapped(&self.under, (9.5, false), right - left).into_iter().take(3) {
                self.line(&line, (9.5, false), left, PAPER.quiet);
            }
        }
        self.end();
        self.y += 5.0;
        let points = vec![[left, self.y], [right, self.y]];
        let stroke = Stroke { colour: PAPER.words, width: if at_top { 1.2 } else { 0.8 } };
        self.mark(Mark::Line { points, stroke, dash: None });
        self.y += RULE - 5.0;
    }

    /// Goes on to a new page in the middle of an item, whose label stands there again without being read again.
    pub fn turn_over_under(&mut self, label: &str, kind: Type) {
        self.turn_over();
        let left = self.edges()[0];
        let role = self.pages.last_mut().map_or(Role::Aside, |page| page.break_off().0);
        self.end();
        self.words([left, self.y + line_height(kind.0) / 2.0], kind, Anchor::Left, label, PAPER.words);
        if let Some(page) = self.pages.last_mut() {
            page.go_on(role);
        }
    }

    /// Puts a mark on the last page.
    pub fn mark(&mut self, mark: Mark) {
        if let Some(page) = self.pages.last_mut() {
            page.marks.push(mark);
        }
    }

    /// Puts words at a place of the last page, half-way up.
    pub fn words(&mut self, at: [f32; 2], (size, heavy): Type, anchor: Anchor, text: &str, colour: Colour) {
        if !text.trim().is_empty() {
            let (text, size) = (text.to_owned(), size.max(SMALLEST));
            self.mark(Mark::Words { at, size, anchor, text, colour, heavy });
        }
    }

    /// A paragraph between two edges, on as many pages as it takes.
    pub fn text(&mut self, text: &str, kind: Type, edges: [f32; 2], colour: Colour) {
        let loose = self.pages.last().is_none_or(|page| page.role() == Role::Aside);
        for paragraph in text.lines() {
            if loose {
                self.need(line_height(kind.0) * self.tight);
                self.begin(Role::Text);
            }
            for line in wrapped(paragraph, kind, edges[1] - edges[0]) {
                self.need(line_height(kind.0) * self.tight);
                self.line(&line, kind, edges[0], colour);
            }
            if loose {
                self.end();
            }
        }
    }

    /// One line at the left edge given, and down by its height.
    pub fn line(&mut self, text: &str, kind: Type, left: f32, colour: Colour) {
        let height = line_height(kind.0) * self.tight;
        self.words([left, self.y + height / 2.0], kind, Anchor::Left, text, colour);
        self.y += height;
    }

    /// A heading that stays with so much of what follows it.
    pub fn heading(&mut self, text: &str, with: f32) {
        self.need(24.0 + with);
        let [left, right] = self.edges();
        self.y += 4.0;
        self.begin(Role::Heading(self.depth + 1));
        self.line(&cut(text, (12.0, true), right - left), (12.0, true), left, PAPER.words);
        self.end();
        self.y += 3.0;
    }
}

/// The height of a line of words in a size.
pub(super) fn line_height(size: f32) -> f32 {
    size.max(SMALLEST) * 1.32
}

/// How high a paragraph is.
pub(super) fn text_height(text: &str, kind: Type, width: f32) -> f32 {
    let lines: usize = text.lines().map(|line| wrapped(line, kind, width).len()).sum();
    lines as f32 * line_height(kind.0)
}

/// A paragraph as lines that are no wider than this; a word that is too long is broken.
pub(super) fn wrapped(text: &str, (size, heavy): Type, width: f32) -> Vec<String> {
    let (size, face) = (size.max(SMALLEST), Face::of(heavy));
    let space = words_width(" ", size, face);
    let mut lines = Vec::new();
    let (mut line, mut long) = (String::new(), 0.0_f32);
    for word in text.split_whitespace() {
        let wide = words_width(word, size, face);
        if !line.is_empty() && long + space + wide > width {
            lines.push(std::mem::take(&mut line));
            long = 0.0;
        }
        if !line.is_empty() {
            line.push(' ');
            long += space;
        }
        if wide <= width {
            line.push_str(word);
            long += wide;
            continue;
        }
        for letter in word.chars() {
            let wide = words_width(letter.encode_utf8(&mut [0; 4]), size, face);
            if long + wide > width && !line.is_empty() {
                lines.push(std::mem::take(&mut line));
                long = 0.0;
            }
            line.push(letter);
            long += wide;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// A paragraph as lines beside something that is so many lines high, and as those under it, which have more room.
pub(super) fn wrapped_around(
    text: &str,
    kind: Type,
    (narrow, lines): (f32, usize),
    wide: f32,
) -> (Vec<String>, Vec<String>) {
    let mut beside = wrapped(text, kind, narrow);
    if beside.len() <= lines {
        return (beside, Vec::new());
    }
    beside.truncate(lines);
    let letters = |text: &str| text.chars().filter(|letter| !letter.is_whitespace()).count();
    let used: usize = beside.iter().map(|line| letters(line)).sum();
    let solid = text.char_indices().filter(|(_, letter)| !letter.is_whitespace());
    let rest = solid.map(|(at, _)| at).nth(used).and_then(|at| text.get(at..)).unwrap_or_default();
    (beside, wrapped(rest, kind, wide))
}

/// Words cut to a width, with an ellipsis where something is left out.
pub(super) fn cut(text: &str, (size, heavy): Type, width: f32) -> String {
    let face = Face::of(heavy);
    if words_width(text, size, face) <= width {
        return text.to_owned();
    }
    let mut out = String::new();
    let mut long = words_width("…", size, face);
    for letter in text.chars() {
        long += words_width(letter.encode_utf8(&mut [0; 4]), size, face);
        if long > width {
            break;
        }
        out.push(letter);
    }
    out.trim_end().to_owned() + "…"
}

/// Puts the foot of each page: a word of caution, and its number of how many.
pub(super) fn put_feet(pages: &mut [Page], words: &str) {
    let count = pages.len();
    for (index, page) in pages.iter_mut().enumerate() {
        let [left, _, right, bottom] = page.paper.inside();
        let y = bottom - 5.0;
        page.begin(Role::Aside);
        let number = if count > 1 { format!("page {} of {count}", index + 1) } else { "page 1".to_owned() };
        let room = right - left - words_width(&number, SMALLEST, Face::Regular) - 12.0;
        for (at, anchor, text) in [
            ([left, y], Anchor::Left, cut(words, (SMALLEST, false), room)),
            ([right, y], Anchor::Right, number),
        ] {
            let (size, colour, heavy) = (SMALLEST, PAPER.quiet, false);
            page.marks.push(Mark::Words { at, size, anchor, text, colour, heavy });
        }
    }
}
