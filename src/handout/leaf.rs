use super::{Paper, reading::Part};
use crate::picture::{Mark, PAPER, PictureError, marks_to_rgb, marks_to_svg, rgb_to_png};

/// Pixels in an inch of a page that is drawn as PNG.
const PER_INCH: f32 = 200.0;

/// A page: marks in points, x to the right and y down.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    pub paper: Paper,
    /// The marks, from the bottom up.
    pub marks: Vec<Mark>,
    /// What of them is read together, and as what, in the order it is read.
    pub parts: Vec<Part>,
    /// The places that lead to other pages.
    pub links: Vec<Link>,
    /// A title for the file and for those who cannot see it.
    pub title: String,
    /// What it shows, in words.
    pub words: String,
}

/// A place on a page that leads to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Link {
    /// Left, top, right and bottom, points.
    pub area: [f32; 4],
    /// The index of the page it leads to.
    pub page: usize,
    /// What it leads to, in words.
    pub words: String,
}

/// A line of the outline that a reader of the PDF shows beside it.
#[derive(Clone, Debug, PartialEq)]
pub struct Bookmark {
    /// What it says.
    pub text: String,
    /// The index of the page.
    pub page: usize,
    /// What lies under it.
    pub inside: Vec<Self>,
}

/// Pages that belong together.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Handout {
    /// What a reader shows over its window.
    pub title: String,
    /// Who wrote it, where that is known.
    pub author: String,
    pub pages: Vec<Page>,
    /// The lines of the outline that a reader shows beside the pages, in order.
    pub bookmarks: Vec<Bookmark>,
}

impl Page {
    /// The words on it, one line for each run of them.
    #[must_use]
    pub fn text(&self) -> String {
        let lines = self.marks.iter().filter_map(|mark| match mark {
            Mark::Words { text, .. } => Some(text.as_str()),
            _ => None,
        });
        lines.collect::<Vec<_>>().join("\n")
    }
}

/// A page as SVG text, as large as its paper.
#[must_use]
pub fn page_to_svg(page: &Page) -> String {
    let size = page.paper.millimetres().map(|length| format!("{length}mm"));
    marks_to_svg(page.paper.points(), &size, PAPER.floor, &page.marks, (&page.title, &page.words))
}

/// A page as pixels, so many across and down: red, green and blue of each, row by row from the top.
///
/// # Errors
/// When there are no pixels, or more than fit in memory.
pub fn page_to_rgb(page: &Page, size: (u32, u32)) -> Result<Vec<u8>, PictureError> {
    marks_to_rgb(page.paper.points(), size, PAPER.floor, &page.marks)
}

/// A page as the bytes of a PNG file, 200 pixels to the inch.
///
/// # Errors
/// When it cannot be drawn.
pub fn page_to_png(page: &Page) -> Result<Vec<u8>, PictureError> {
    let [across, down] = page.paper.points().map(|length| (length / 72.0 * PER_INCH).round() as u32);
    let per_metre = (PER_INCH / 25.4 * 1000.0).round() as u32;
    let rgb = page_to_rgb(page, (across, down))?;
    rgb_to_png(&rgb, (across, down), (&page.title, &page.words), Some(per_metre))
}
