use super::{Bookmark, Handout, Page};
use crate::picture::{Colour, FONT_FILES, HALF_CAPITAL, Mark, Stroke, place_glyphs, words_width};
use krilla::Document;
use krilla::annotation::{Annotation, LinkAnnotation, Target};
use krilla::color::rgb;
use krilla::destination::{Destination, XyzDestination};
use krilla::geom::{Path, PathBuilder, Point, Rect};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, GlyphId, KrillaGlyph};
use thiserror::Error;

/// How far the handles of a quarter of a circle reach, as a share of its radius.
const QUARTER: f32 = 0.552_284_8;

/// Why a PDF could not be made.
#[derive(Debug, Error)]
pub enum PdfError {
    /// A page without a size.
    #[error("page {0} of the PDF has no size")]
    Size(usize),
    /// A font of the program's own could not be read.
    #[error("a font could not be put into the PDF")]
    Font,
    /// The writer gave up.
    #[error("the PDF could not be written: {0}")]
    Writing(String),
}

/// A handout as the bytes of a PDF file, with real text, its fonts inside, links and an outline.
///
/// # Errors
/// When it cannot be written, which no handout of this program should come to.
pub fn handout_to_pdf(handout: &Handout) -> Result<Vec<u8>, PdfError> {
    let fonts: Vec<Font> = FONT_FILES.into_iter().filter_map(|bytes| Font::new(bytes.into(), 0)).collect();
    if fonts.len() < FONT_FILES.len() {
        return Err(PdfError::Font);
    }
    let mut document = Document::new();
    for (index, page) in handout.pages.iter().enumerate() {
        let [across, down] = page.paper.points();
        let settings = PageSettings::from_wh(across, down).ok_or(PdfError::Size(index + 1))?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        for mark in &page.marks {
            draw_mark(&mut surface, &fonts, mark);
        }
        surface.finish();
        for annotation in links(page, handout.pages.len()) {
            sheet.add_annotation(annotation);
        }
        sheet.finish();
    }
    let mut outline = Outline::new();
    for bookmark in &handout.bookmarks {
        outline.push_child(node(bookmark));
    }
    document.set_outline(outline);
    let mut metadata = Metadata::new()
        .title(handout.title.clone())
        .language("en-GB".to_owned())
        .creator("Bellpad".to_owned());
    if !handout.author.trim().is_empty() {
        metadata = metadata.authors(vec![handout.author.clone()]);
    }
    document.set_metadata(metadata);
    document.finish().map_err(|error| PdfError::Writing(error.to_string()))
}

fn links(page: &Page, pages: usize) -> Vec<Annotation> {
    let links = page.links.iter().filter(|link| link.page < pages).filter_map(|link| {
        let [left, top, right, bottom] = link.area;
        let area = Rect::from_ltrb(left, top, right, bottom)?;
        let there = XyzDestination::new(link.page, Point::from_xy(0.0, 0.0));
        let target = Target::Destination(Destination::Xyz(there));
        Some(Annotation::new_link(LinkAnnotation::new(area, target), Some(link.words.clone())))
    });
    links.collect()
}

fn node(bookmark: &Bookmark) -> OutlineNode {
    let there = XyzDestination::new(bookmark.page, Point::from_xy(0.0, 0.0));
    let mut made = OutlineNode::new(bookmark.text.clone(), there).with_open(true);
    for inside in &bookmark.inside {
        made.push_child(node(inside));
    }
    made
}

fn draw_mark(surface: &mut Surface, fonts: &[Font], mark: &Mark) {
    match mark {
        Mark::Oval { at, radii, turn, fill, stroke } => {
            paint(surface, *fill, *stroke, None);
            draw(surface, rounded(*at, *radii, *radii, *turn));
        }
        Mark::Block { at, radii, corner, turn, fill, stroke } => {
            paint(surface, *fill, *stroke, None);
            draw(surface, rounded(*at, *radii, [*corner; 2], *turn));
        }
        Mark::Area { points, fill, stroke } => {
            paint(surface, *fill, *stroke, None);
            draw(surface, through(&[points], true));
        }
        Mark::Outline { loops, fill } => {
            paint(surface, Some(*fill), None, None);
            draw(surface, through(loops, true));
        }
        Mark::Line { points, stroke, dash } => {
            paint(surface, None, Some(*stroke), *dash);
            draw(surface, through(&[points], false));
        }
        Mark::Words { at: [x, y], size, anchor, text, colour, heavy } => {
            let stroke = heavy.then(|| Stroke { colour: *colour, width: size * 0.06 });
            paint(surface, Some(*colour), stroke, None);
            let left = anchor.left_end(*x, words_width(text, *size));
            put_words(surface, fonts, text, *size, [left, y + size * HALF_CAPITAL]);
        }
    }
}

/// Words in runs of one font each.
fn put_words(surface: &mut Surface, fonts: &[Font], text: &str, size: f32, [mut x, base]: [f32; 2]) {
    let glyphs = place_glyphs(text);
    for run in glyphs.chunk_by(|one, other| one.font == other.font && one.bytes.end == other.bytes.start) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else { continue };
        let (Some(font), Some(words)) = (fonts.get(first.font), text.get(first.bytes.start..last.bytes.end))
        else {
            continue;
        };
        let start = first.bytes.start;
        let placed: Vec<KrillaGlyph> = run
            .iter()
            .map(|glyph| {
                let bytes = glyph.bytes.start - start..glyph.bytes.end - start;
                KrillaGlyph::new(GlyphId::new(glyph.glyph), glyph.advance, 0.0, 0.0, 0.0, bytes, None)
            })
            .collect();
        surface.draw_glyphs(Point::from_xy(x, base), &placed, font.clone(), words, size, false);
        x += run.iter().map(|glyph| glyph.advance * size).sum::<f32>();
    }
}

fn draw(surface: &mut Surface, path: Option<Path>) {
    if let Some(path) = path {
        surface.draw_path(&path);
    }
}

fn paint(surface: &mut Surface, fill: Option<Colour>, stroke: Option<Stroke>, dash: Option<[f32; 2]>) {
    let ink = |colour: Colour| rgb::Color::new(colour.0, colour.1, colour.2).into();
    let opacity =
        |colour: Colour| NormalizedF32::new(f32::from(colour.3) / 255.0).unwrap_or(NormalizedF32::ONE);
    surface.set_fill(fill.map(|colour| Fill {
        paint: ink(colour),
        opacity: opacity(colour),
        rule: FillRule::NonZero,
    }));
    surface.set_stroke(stroke.map(|Stroke { colour, width }| krilla::paint::Stroke {
        paint: ink(colour),
        width,
        opacity: opacity(colour),
        line_join: LineJoin::Round,
        line_cap: if dash.is_some() { LineCap::Butt } else { LineCap::Round },
        dash: dash.map(|dash| StrokeDash { array: dash.to_vec(), offset: 0.0 }),
        ..krilla::paint::Stroke::default()
    }));
}

fn through(lines: &[impl AsRef<[[f32; 2]]>], closed: bool) -> Option<Path> {
    let mut path = PathBuilder::new();
    for points in lines {
        for (index, [x, y]) in points.as_ref().iter().enumerate() {
            if index == 0 {
                path.move_to(*x, *y);
            } else {
                path.line_to(*x, *y);
            }
        }
        if closed {
            path.close();
        }
    }
    path.finish()
}

/// A rectangle with round corners, turned about its middle; with corners as large as it is, an ellipse.
fn rounded(at: [f32; 2], [rx, ry]: [f32; 2], [cx, cy]: [f32; 2], turn: f32) -> Option<Path> {
    let (sin, cos) = turn.to_radians().sin_cos();
    let place = |x: f32, y: f32| [at[0] + x * cos - y * sin, at[1] + x * sin + y * cos];
    let (hx, hy) = (cx * (1.0 - QUARTER), cy * (1.0 - QUARTER));
    let mut path = PathBuilder::new();
    let [x, y] = place(-rx + cx, -ry);
    path.move_to(x, y);
    // Each side and the corner after it: where the side ends, both handles, and where the corner ends.
    let corners = [
        [(rx - cx, -ry), (rx - hx, -ry), (rx, -ry + hy), (rx, -ry + cy)],
        [(rx, ry - cy), (rx, ry - hy), (rx - hx, ry), (rx - cx, ry)],
        [(-rx + cx, ry), (-rx + hx, ry), (-rx, ry - hy), (-rx, ry - cy)],
        [(-rx, -ry + cy), (-rx, -ry + hy), (-rx + hx, -ry), (-rx + cx, -ry)],
    ];
    for corner in corners {
        let [side, one, other, end] = corner.map(|(x, y)| place(x, y));
        path.line_to(side[0], side[1]);
        path.cubic_to(one[0], one[1], other[0], other[1], end[0], end[1]);
    }
    path.close();
    path.finish()
}
