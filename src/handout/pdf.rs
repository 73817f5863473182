use super::{
    Bookmark, Handout, Link, Page,
    reading::Role,
    tags::{Written, tag_tree},
};
use crate::picture::{
    Colour, FONT_FILES, Face, HALF_CAPITAL, Mark, Stroke, THICKENED, place_glyphs, words_width,
};
use krilla::annotation::{Annotation, LinkAnnotation, Target};
use krilla::color::rgb;
use krilla::configure::{Accessibility, ConfigurationBuilder};
use krilla::destination::{Destination, XyzDestination};
use krilla::error::KrillaError;
use krilla::geom::{Path, PathBuilder, Point, Rect};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{Artifact, ArtifactType, ContentTag, Identifier, SpanTag};
use krilla::text::{Font, GlyphId, KrillaGlyph};
use krilla::{Document, SerializeSettings};
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
    /// It cannot be read aloud as PDF/UA-1 asks.
    #[error("the PDF cannot be read aloud: {0}")]
    NotForAll(String),
    /// The writer gave up.
    #[error("the PDF could not be written: {0}")]
    Writing(String),
}

/// A handout as the bytes of a PDF file: real text, its fonts inside, links, an outline, and what each part is in the order it
/// is read. It is PDF/UA-1 ([`accessible_pdf`]), but where the user's own text cannot be read aloud, such as a letter that no font of this
/// program has: then it is the same file without that promise.
///
/// # Errors
/// When it cannot be written.
pub fn handout_to_pdf(handout: &Handout) -> Result<Vec<u8>, PdfError> {
    match accessible_pdf(handout) {
        Err(PdfError::NotForAll(_)) => written(handout, ConfigurationBuilder::new()).and_then(finished),
        made => made,
    }
}

/// The same, held to PDF/UA-1 (ISO 14289-1).
///
/// # Errors
/// When it cannot be written, or does not hold to it.
pub fn accessible_pdf(handout: &Handout) -> Result<Vec<u8>, PdfError> {
    let held = ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1);
    written(handout, held).and_then(finished)
}

fn finished(document: Document) -> Result<Vec<u8>, PdfError> {
    document.finish().map_err(|error| match error {
        KrillaError::Validation(_) => PdfError::NotForAll(error.to_string()),
        error => PdfError::Writing(error.to_string()),
    })
}

fn written(handout: &Handout, configuration: ConfigurationBuilder) -> Result<Document, PdfError> {
    let fonts: Vec<Font> = FONT_FILES.into_iter().filter_map(|bytes| Font::new(bytes.into(), 0)).collect();
    if fonts.len() < FONT_FILES.len() {
        return Err(PdfError::Font);
    }
    let configuration = configuration.finish().map_err(|error| PdfError::Writing(format!("{error:?}")))?;
    let mut document =
        Document::new_with(SerializeSettings { configuration, ..SerializeSettings::default() });
    let mut read: Vec<Written> = Vec::new();
    for (index, page) in handout.pages.iter().enumerate() {
        let [across, down] = page.paper.points();
        let settings = PageSettings::from_wh(across, down).ok_or(PdfError::Size(index + 1))?;
        let mut sheet = document.start_page_with(settings);
        let mut surface = sheet.surface();
        let first = read.len();
        let mut here = Vec::new();
        for (role, goes_on, marks) in parts(page) {
            let drawn = draw_part(&mut surface, &fonts, &role, marks);
            let Some((identifier, text)) = drawn else { continue };
            let goes_on = goes_on && read.len() == first && here.is_empty();
            let written = match read.last_mut().filter(|last| goes_on && last.role == role) {
                Some(last) => {
                    last.marks.push(identifier);
                    last.text.push_str(&text);
                    read.len() - 1
                }
                None => {
                    let (marks, links) = (vec![identifier], Vec::new());
                    read.push(Written { role, text, page: index, marks, links });
                    read.len() - 1
                }
            };
            here.push((written, marks));
        }
        surface.finish();
        for link in page.links.iter().filter(|link| link.page < handout.pages.len()) {
            let Some((annotation, written)) = annotation(link).zip(leads(link, &here)) else { continue };
            let identifier = sheet.add_tagged_annotation(annotation);
            read.get_mut(written).into_iter().for_each(|found| found.links.push(identifier));
        }
        sheet.finish();
    }
    document.set_tag_tree(tag_tree(read));
    let mut outline = Outline::new();
    if handout.bookmarks.is_empty() {
        outline.push_child(node(&Bookmark { text: handout.title.clone(), page: 0, inside: Vec::new() }));
    }
    for bookmark in &handout.bookmarks {
        outline.push_child(node(bookmark));
    }
    document.set_outline(outline);
    let mut metadata = Metadata::new()
        .title(as_xml_has_it(&handout.title))
        .language("en-GB".to_owned())
        .creator("Bellpad".to_owned());
    if !handout.author.trim().is_empty() {
        metadata = metadata.authors(vec![as_xml_has_it(&handout.author)]);
    }
    document.set_metadata(metadata);
    Ok(document)
}

/// A text without the letters that XML cannot have (XML 1.0, 2.2): what is said of the file stands in it as XML.
fn as_xml_has_it(text: &str) -> String {
    text.chars().filter(|letter| *letter >= ' ' && !matches!(letter, '\u{fffe}' | '\u{ffff}')).collect()
}

/// The parts of a page: what each is, whether it goes on from the page before, and its marks.
fn parts(page: &Page) -> impl Iterator<Item = (Role, bool, &[Mark])> {
    let ends = page.parts.iter().skip(1).map(|part| part.begin).chain([page.marks.len()]);
    let before = page.parts.first().map_or(page.marks.len(), |part| part.begin);
    let loose = page.marks.get(..before).map(|marks| (Role::Aside, false, marks));
    let parts =
        page.parts.iter().zip(ends).filter_map(|(part, end)| {
            Some((part.role.clone(), part.goes_on, page.marks.get(part.begin..end)?))
        });
    loose.into_iter().chain(parts)
}

/// Draws a part: what stands for it in the file, and its words; nothing where it is not read.
fn draw_part(
    surface: &mut Surface,
    fonts: &[Font],
    role: &Role,
    marks: &[Mark],
) -> Option<(Identifier, String)> {
    if marks.is_empty() && !matches!(role, Role::Cell(..)) {
        return None;
    }
    let tag = match role {
        Role::Aside => ContentTag::Artifact(Artifact::with_kind(ArtifactType::Other)),
        Role::Picture(..) => ContentTag::Other,
        _ => ContentTag::Span(SpanTag::empty()),
    };
    let identifier = surface.start_tagged(tag);
    let last = marks.iter().rposition(|mark| matches!(mark, Mark::Words { .. }));
    let mut said = String::new();
    for (index, mark) in marks.iter().enumerate() {
        draw_mark(surface, fonts, mark);
        let Mark::Words { at, size, text, anchor, colour, heavy } = mark else { continue };
        said.push_str(text);
        if last != Some(index) {
            // From one line to the next there is a space, for those who hear it.
            said.push(' ');
            let wide = words_width(text, *size, Face::of(*heavy));
            let right = anchor.left_end(at[0], wide) + wide;
            let base = [right, at[1] + size * HALF_CAPITAL];
            put_words(surface, fonts, " ", (*size, *heavy, *colour), base);
        }
    }
    surface.end_tagged();
    (*role != Role::Aside).then_some((identifier, said))
}

fn annotation(link: &Link) -> Option<Annotation> {
    let [left, top, right, bottom] = link.area;
    let area = Rect::from_ltrb(left, top, right, bottom)?;
    let there = XyzDestination::new(link.page, Point::from_xy(0.0, 0.0));
    let target = Target::Destination(Destination::Xyz(there));
    Some(Annotation::new_link(LinkAnnotation::new(area, target), Some(link.words.clone())))
}

/// The part that a place which leads elsewhere belongs to, of those on its page: the one with the most words in it.
fn leads(link: &Link, parts: &[(usize, &[Mark])]) -> Option<usize> {
    let [left, top, right, bottom] = link.area;
    let letters = |marks: &[Mark]| {
        let inside = marks.iter().filter_map(|mark| match mark {
            Mark::Words { at: [x, y], text, .. }
                if (left..=right).contains(x) && (top..=bottom).contains(y) =>
            {
                Some(text.chars().count())
            }
            _ => None,
        });
        inside.sum::<usize>()
    };
    let found = parts.iter().map(|(written, marks)| (letters(marks), *written));
    found.filter(|(letters, _)| *letters > 0).max_by_key(|(letters, _)| *letters).map(|(_, written)| written)
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
            let left = anchor.left_end(*x, words_width(text, *size, Face::of(*heavy)));
            put_words(surface, fonts, text, (*size, *heavy, *colour), [left, y + size * HALF_CAPITAL]);
        }
    }
}

/// Words in runs of one font each, in a size, heavy or not, in a colour.
fn put_words(
    surface: &mut Surface,
    fonts: &[Font],
    text: &str,
    (size, heavy, colour): (f32, bool, Colour),
    [mut x, base]: [f32; 2],
) {
    let face = Face::of(heavy);
    let glyphs = place_glyphs(text, face);
    for run in glyphs.chunk_by(|one, other| one.font == other.font && one.bytes.end == other.bytes.start) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else { continue };
        let (Some(font), Some(words)) = (fonts.get(first.font), text.get(first.bytes.start..last.bytes.end))
        else {
            continue;
        };
        let stroke = face.thickens(first.font).then_some(Stroke { colour, width: size * THICKENED });
        paint(surface, Some(colour), stroke, None);
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
