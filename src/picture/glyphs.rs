use skrifa::{
    FontRef, GlyphId, MetadataProvider,
    instance::{LocationRef, Size},
    outline::{DrawSettings, OutlinePen},
};
use std::collections::HashMap;
use std::sync::{LazyLock, RwLock};
use vello_cpu::kurbo::{BezPath, PathEl, Point, flatten};

/// The fonts of [`FONT_FILES`], read.
static FONTS: LazyLock<Vec<FontRef<'static>>> =
    LazyLock::new(|| FONT_FILES.into_iter().filter_map(|bytes| FontRef::new(bytes).ok()).collect());

/// The bytes of the fonts that words are drawn with: the regular and the bold cut of what is handed out, and the two that the window
/// is drawn with.
pub const FONT_FILES: [&[u8]; 4] = [
    include_bytes!("../../assets/fonts/Ubuntu-Regular.ttf"),
    include_bytes!("../../assets/fonts/Ubuntu-Bold.ttf"),
    epaint_default_fonts::UBUNTU_LIGHT,
    epaint_default_fonts::HACK_REGULAR,
];

/// Indices into [`FONT_FILES`].
const REGULAR: usize = 0;
const BOLD: usize = 1;
const LIGHT: usize = 2;
const HACK: usize = 3;

/// A cut of the letters.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// The window's own.
    Light,
    /// On paper and in pictures.
    Regular,
    /// Heavy words on paper and in pictures.
    Bold,
}

impl Face {
    /// That of words on paper, heavy or not.
    #[must_use]
    pub fn of(heavy: bool) -> Self {
        if heavy { Self::Bold } else { Self::Regular }
    }

    /// The fonts that are looked in for a letter, in this order, as indices into [`FONT_FILES`].
    fn fonts(self) -> &'static [usize] {
        match self {
            Self::Light => &[LIGHT, HACK],
            Self::Regular => &[REGULAR, LIGHT, HACK],
            Self::Bold => &[BOLD, REGULAR, LIGHT, HACK],
        }
    }

    /// Whether a letter from a font (index) has to be made heavy by a line round it.
    #[must_use]
    pub fn thickens(self, font: usize) -> bool {
        self == Self::Bold && font != BOLD
    }
}

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
pub fn place_glyphs(text: &str, face: Face) -> Vec<PlacedGlyph> {
    let placed = text.char_indices().filter_map(|(start, letter)| {
        let (font, glyph, advance) = find_glyph(letter, face)?;
        Some(PlacedGlyph { font, glyph, advance, bytes: start..start + letter.len_utf8() })
    });
    placed.collect()
}

/// How wide words are in a size and a cut.
#[must_use]
pub fn words_width(text: &str, size: f32, face: Face) -> f32 {
    text.chars().filter_map(|letter| find_glyph(letter, face)).map(|(_, _, advance)| advance * size).sum()
}

/// The font, the number and the advance of a letter; nothing where no font has it.
type LetterGlyph = Option<(usize, u32, f32)>;

/// Other letters than those of plain English that are kept at the most.
const MOST_KEPT: usize = 4096;

/// What a letter is drawn with; each is looked up once.
fn find_glyph(letter: char, face: Face) -> LetterGlyph {
    type Plain = LazyLock<Vec<LetterGlyph>>;
    static LIGHT: Plain = LazyLock::new(|| plain(Face::Light));
    static REGULAR: Plain = LazyLock::new(|| plain(Face::Regular));
    static BOLD: Plain = LazyLock::new(|| plain(Face::Bold));
    static OTHERS: LazyLock<RwLock<HashMap<(Face, char), LetterGlyph>>> = LazyLock::new(RwLock::default);
    let known = match face {
        Face::Light => &LIGHT,
        Face::Regular => &REGULAR,
        Face::Bold => &BOLD,
    };
    if let Some(found) = known.get(letter as usize) {
        return *found;
    }
    if let Some(found) = OTHERS.read().ok().and_then(|others| others.get(&(face, letter)).copied()) {
        return found;
    }
    let found = look_up(letter, face);
    if let Ok(mut others) = OTHERS.write()
        && others.len() < MOST_KEPT
    {
        others.insert((face, letter), found);
    }
    found
}

/// The letters of plain English in a cut.
fn plain(face: Face) -> Vec<LetterGlyph> {
    ('\0'..'\u{180}').map(|letter| look_up(letter, face)).collect()
}

fn look_up(letter: char, face: Face) -> LetterGlyph {
    face.fonts().iter().find_map(|index| {
        let font = FONTS.get(*index)?;
        let glyph = font.charmap().map(letter)?;
        let advance =
            font.glyph_metrics(Size::new(1.0), LocationRef::default()).advance_width(glyph).unwrap_or(0.0);
        Some((*index, glyph.to_u32(), advance))
    })
}

/// How far the base line lies below the middle of a capital, as a share of the font's height.
pub const HALF_CAPITAL: f32 = 0.347;

/// How wide the line round letters is that have no bold cut, as a share of the font's height.
pub const THICKENED: f32 = 0.06;

/// Words as the outline of their letters, so that a picture looks the same on every machine.
pub(super) struct Outlined {
    /// A path with its origin at the left end of the base line. Letters that no font here has are left out.
    pub letters: BezPath,
    /// Those of them that a line round them makes heavy, [`THICKENED`]; mostly none.
    pub thickened: BezPath,
}

/// The outline of words in a size and a cut.
pub(super) fn outline(text: &str, size: f32, face: Face) -> Outlined {
    let mut pen = LetterPen { path: BezPath::new(), offset: 0.0 };
    let mut thickened = BezPath::new();
    for letter in text.chars() {
        let Some((font, glyph, advance)) = find_glyph(letter, face) else { continue };
        let begin = pen.path.elements().len();
        if let Some(outline) = FONTS.get(font).and_then(|font| font.outline_glyphs().get(GlyphId::new(glyph)))
        {
            // Only a font that is broken cannot be drawn, and these are part of the program.
            let _ = outline.draw(DrawSettings::unhinted(Size::new(size), LocationRef::default()), &mut pen);
        }
        if face.thickens(font) {
            thickened.extend(pen.path.elements().iter().skip(begin).copied());
        }
        pen.offset += f64::from(advance * size);
    }
    Outlined { letters: pen.path, thickened }
}

/// The outline of the window's letters as closed loops of straight lines, each corner in pixels right and down from the left end of
/// the base line, nowhere farther than a tenth of a pixel from the letters.
#[must_use]
pub fn letter_loops(text: &str, size: f32) -> Vec<Vec<[f32; 2]>> {
    let mut loops: Vec<Vec<[f32; 2]>> = Vec::new();
    flatten(outline(text, size, Face::Light).letters, 0.1, |element| match element {
        PathEl::MoveTo(to) => loops.push(vec![[to.x as f32, to.y as f32]]),
        PathEl::LineTo(to) => {
            if let Some(last) = loops.last_mut() {
                last.push([to.x as f32, to.y as f32]);
            }
        }
        _ => {}
    });
    loops
}

struct LetterPen {
    path: BezPath,
    offset: f64,
}

impl LetterPen {
    fn point(&self, x: f32, y: f32) -> Point {
        Point::new(f64::from(x) + self.offset, -f64::from(y))
    }
}

impl OutlinePen for LetterPen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to(self.point(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to(self.point(x, y));
    }

    fn quad_to(&mut self, cx0: f32, cy0: f32, x: f32, y: f32) {
        self.path.quad_to(self.point(cx0, cy0), self.point(x, y));
    }

    fn curve_to(&mut self, cx0: f32, cy0: f32, cx1: f32, cy1: f32, x: f32, y: f32) {
        self.path.curve_to(self.point(cx0, cy0), self.point(cx1, cy1), self.point(x, y));
    }

    fn close(&mut self) {
        self.path.close_path();
    }
}
