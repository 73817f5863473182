use super::{
    Page, Paper, SMALLEST,
    reading::{Head, Role, Starts},
};
use crate::picture::{Anchor, Colour, Face, Mark, PAPER, Stroke, words_width};

/// The height of the footer, points.
const FOOTER: f32 = 20.0;

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
}

impl Flow {
    /// A first page with a title, the side on its right and a line under it.
    pub fn new(paper: Paper, title: &str, side: &str, under: &str) -> Self {
        let (title, side, under) = (title.to_owned(), side.to_owned(), under.to_owned());
        let mut flow = Self { paper, title, side, under, pages: Vec::new(), y: 0.0 };
        flow.turn_over();
        flow
    }

    /// The same, begun on a page that is filled down to a height, points.
    pub fn beneath((page, y): (Page, f32), title: &str, side: &str, under: &str) -> Self {
        let (title, side, under) = (title.to_owned(), side.to_owned(), under.to_owned());
        let mut flow = Self { paper: page.paper, title, side, under, pages: vec![page], y: y + 14.0 };
        if let Some(page) = flow.pages.last_mut() {
            page.title = format!("{}, {}", page.title, flow.title);
        }
        flow.put_title(&flow.title.clone(), 22.0, true);
        flow
    }

    /// As much of a page as this one has left, to try what it holds.
    pub fn trial(&self) -> Self {
        let (title, side) = (self.title.clone(), self.side.clone());
        Self { paper: self.paper, title, side, under: String::new(), pages: vec![self.blank()], y: self.y }
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
        self.put_head(title, 22.0);
    }

    /// The left and the right edge of what may be printed on.
    pub fn edges(&self) -> [f32; 2] {
        let [left, _, right, _] = self.paper.inside();
        [left, right]
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
            self.put_head(&self.title.clone(), 22.0);
        } else {
            let (role, begun) = self.pages.last_mut().map_or((Role::Aside, false), Page::break_off);
            self.put_head(&format!("{}, continued", self.title), 14.0);
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

    /// A new page with its title.
    fn put_head(&mut self, title: &str, size: f32) {
        let first = self.pages.is_empty();
        self.pages.push(self.blank());
        self.y = self.paper.inside()[1];
        self.put_title(title, size, first);
    }

    /// The title, the side on its right and, where it is the first, the line under it.
    fn put_title(&mut self, title: &str, size: f32, first: bool) {
        let [left, _, right, _] = self.paper.inside();
        let side = cut(&self.side, (10.0, false), (right - left) * 0.4);
        let side_width = words_width(&side, 10.0, Face::Regular);
        let titles = wrapped(title, (size, true), (right - left - side_width - 16.0).max(120.0));
        let again = size < 20.0;
        let top = self.y;
        self.begin(if again { Role::Aside } else { Role::Heading(1) });
        for line in titles.iter().take(3) {
            self.words([left, self.y + size * 0.5], (size, true), Anchor::Left, line, PAPER.words);
            self.y += size * 1.2;
        }
        self.begin(if again { Role::Aside } else { Role::Text });
        self.words([right, top + size * 0.62], (10.0, false), Anchor::Right, &side, PAPER.quiet);
        if first && !self.under.is_empty() {
            self.y += 2.0;
            self.begin(Role::Text);
            for line in wrapped(&self.under, (9.5, false), right - left).into_iter().take(3) {
                self.line(&line, (9.5, false), left, PAPER.quiet);
            }
        }
        self.end();
        self.y += 5.0;
        let points = vec![[left, self.y], [right, self.y]];
        let stroke = Stroke { colour: PAPER.words, width: 1.2 };
        self.mark(Mark::Line { points, stroke, dash: None });
        self.y += 11.0;
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
                self.need(line_height(kind.0));
                self.begin(Role::Text);
            }
            for line in wrapped(paragraph, kind, edges[1] - edges[0]) {
                self.need(line_height(kind.0));
                self.line(&line, kind, edges[0], colour);
            }
            if loose {
                self.end();
            }
        }
    }

    /// One line at the left edge given, and down by its height.
    pub fn line(&mut self, text: &str, kind: Type, left: f32, colour: Colour) {
        let height = line_height(kind.0);
        self.words([left, self.y + height / 2.0], kind, Anchor::Left, text, colour);
        self.y += height;
    }

    /// A heading that stays with so much of what follows it.
    pub fn heading(&mut self, text: &str, with: f32) {
        self.need(24.0 + with);
        let [left, right] = self.edges();
        self.y += 4.0;
        self.begin(Role::Heading(2));
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
        for (at, anchor, text) in
            [([left, y], Anchor::Left, cut(words, (SMALLEST, false), room)), ([right, y], Anchor::Right, number)]
        {
            let (size, colour, heavy) = (SMALLEST, PAPER.quiet, false);
            page.marks.push(Mark::Words { at, size, anchor, text, colour, heavy });
        }
    }
}
