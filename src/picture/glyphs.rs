use skrifa::{
    FontRef, MetadataProvider,
    instance::{LocationRef, Size},
    outline::{DrawSettings, OutlinePen},
};
use std::fmt::Write;
use std::sync::LazyLock;

/// The fonts that are looked in for a letter, in this order: the ones that the window is drawn with.
static FONTS: LazyLock<Vec<FontRef<'static>>> =
    LazyLock::new(|| FONT_FILES.into_iter().filter_map(|bytes| FontRef::new(bytes).ok()).collect());

/// The bytes of those fonts.
pub const FONT_FILES: [&[u8]; 2] = [epaint_default_fonts::UBUNTU_LIGHT, epaint_default_fonts::HACK_REGULAR];

/// A letter as a font draws it.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedGlyph {
    /// Which of [`FONT_FILES`] it is from.
    pub font: usize,
    /// Its number in that font.
    pub glyph: u32,
    /// How far it is to the next letter, as a share of the font's height.
    pub advance: f32,
    /// The bytes of the text that it stands for.
    pub bytes: std::ops::Range<usize>,
}

/// The letters of a line of words. Letters that no font here has are left out.
#[must_use]
pub fn place_glyphs(text: &str) -> Vec<PlacedGlyph> {
    let placed = text.char_indices().filter_map(|(start, letter)| {
        let (font, glyph, advance) = find_glyph(letter)?;
        Some(PlacedGlyph { font, glyph, advance, bytes: start..start + letter.len_utf8() })
    });
    placed.collect()
}

/// How wide words are in a size.
#[must_use]
pub fn words_width(text: &str, size: f32) -> f32 {
    text.chars().filter_map(find_glyph).map(|(_, _, advance)| advance * size).sum()
}

/// The font, the number and the advance of a letter; those of plain English are looked up once.
fn find_glyph(letter: char) -> Option<(usize, u32, f32)> {
    static PLAIN: LazyLock<Vec<Option<(usize, u32, f32)>>> =
        LazyLock::new(|| ('\0'..'\u{180}').map(look_up).collect());
    PLAIN.get(letter as usize).copied().unwrap_or_else(|| look_up(letter))
}

fn look_up(letter: char) -> Option<(usize, u32, f32)> {
    FONTS.iter().enumerate().find_map(|(index, font)| {
        let glyph = font.charmap().map(letter)?;
        let advance =
            font.glyph_metrics(Size::new(1.0), LocationRef::default()).advance_width(glyph).unwrap_or(0.0);
        Some((index, glyph.to_u32(), advance))
    })
}

/// Words as the outline of their letters, so that a picture looks the same on every machine.
pub(super) struct Outline {
    /// An SVG path with its origin at the left end of the base line.
    pub path: String,
    /// How wide the words are, pixels.
    pub width: f32,
}

/// How far the base line lies below the middle of a capital, as a share of the font's height.
pub const HALF_CAPITAL: f32 = 0.347;

/// The outline of words in a size. Letters that no font here has are left out.
pub(super) fn outline(text: &str, size: f32) -> Outline {
    let mut pen = SvgPen { path: String::new(), offset: 0.0 };
    for letter in text.chars() {
        for font in FONTS.iter() {
            let Some(glyph) = font.charmap().map(letter) else { continue };
            let at = Size::new(size);
            if let Some(outline) = font.outline_glyphs().get(glyph) {
                // Only a font that is broken cannot be drawn, and these two are part of the program.
                let _ = outline.draw(DrawSettings::unhinted(at, LocationRef::default()), &mut pen);
            }
            pen.offset += font.glyph_metrics(at, LocationRef::default()).advance_width(glyph).unwrap_or(0.0);
            break;
        }
    }
    Outline { path: pen.path, width: pen.offset }
}

struct SvgPen {
    path: String,
    offset: f32,
}

impl SvgPen {
    fn put(&mut self, letter: char, points: &[(f32, f32)]) {
        self.path.push(letter);
        for (index, (x, y)) in points.iter().enumerate() {
            let space = if index == 0 { "" } else { " " };
            // Writing to a string does not fail.
            let _ = write!(self.path, "{space}{:.2} {:.2}", x + self.offset, -y);
        }
    }
}

impl OutlinePen for SvgPen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.put('M', &[(x, y)]);
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.put('L', &[(x, y)]);
    }

    fn quad_to(&mut self, cx0: f32, cy0: f32, x: f32, y: f32) {
        self.put('Q', &[(cx0, cy0), (x, y)]);
    }

    fn curve_to(&mut self, cx0: f32, cy0: f32, cx1: f32, cy1: f32, x: f32, y: f32) {
        self.put('C', &[(cx0, cy0), (cx1, cy1), (x, y)]);
    }

    fn close(&mut self) {
        self.path.push('Z');
    }
}
