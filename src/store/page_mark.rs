//! The mark by which a page of a run that writes many is known again as this program's own: which page of which set
//! it is, and a checksum of all else in the file, so that a page that somebody has drawn on since is theirs.
//!
//! In a PNG it is a text chunk before the end (ISO/IEC 15948:2004, 11.3.4.3), in an SVG an element `metadata` (SVG 2,
//! 5.9). Nothing in it depends on when or where it is written.

use crc32fast::Hasher;
use std::ops::Range;
use std::path::Path;

/// The chunk that ends a PNG: no bytes, its name and its checksum.
const PNG_END: [u8; 12] = *b"\0\0\0\0IEND\xaeB`\x82";
/// The eight bytes that every PNG begins with (PNG specification, section 5.2).
const PNG_BEGIN: [u8; 8] = *b"\x89PNG\r\n\x1a\n";
/// The name of the text in a PNG, with the nought that ends it.
const KEYWORD: &[u8] = b"Bellpad page\0";

/// How this program's own pictures end.
const SVG_END: &[u8] = b"</svg>\n";
/// What stands round the mark in an SVG.
const SVG_BEFORE: &[u8] = b"<metadata>Bellpad page ";
const SVG_AFTER: &[u8] = b"</metadata>\n";

/// Which page of which set a file is.
#[derive(Clone, Copy, Debug)]
pub(super) struct PageMark<'a> {
    /// What the pages are of, a word.
    pub of: &'static str,
    /// The file that the set is named by.
    pub set: &'a Path,
    /// Which page, from 1.
    pub number: usize,
}

impl PageMark<'_> {
    /// The same file with the mark in it; one that is neither PNG nor SVG stays as it is.
    pub(super) fn put_into(self, mut bytes: Vec<u8>) -> Vec<u8> {
        let text = self.text(checksum([&bytes]));
        if bytes.starts_with(&PNG_BEGIN) && bytes.ends_with(&PNG_END) {
            bytes.truncate(bytes.len() - PNG_END.len());
            let body = [b"tEXt", KEYWORD, text.as_bytes()].concat();
            // A length counts the bytes after the name of the chunk.
            bytes.extend((body.len() as u32 - 4).to_be_bytes());
            bytes.extend(&body);
            bytes.extend(checksum([&body]).to_be_bytes());
            bytes.extend(PNG_END);
        } else if is_svg(&bytes) && bytes.ends_with(SVG_END) {
            bytes.truncate(bytes.len() - SVG_END.len());
            bytes.extend([SVG_BEFORE, text.as_bytes(), SVG_AFTER, SVG_END].concat());
        }
        bytes
    }

    /// Whether a file is just this page, and nothing else of it was changed since.
    pub(super) fn is_in(self, bytes: &[u8]) -> bool {
        let found = if bytes.starts_with(&PNG_BEGIN) { in_png(bytes) } else { in_svg(bytes) };
        let Some((mark, text)) = found else { return false };
        let (Some(before), Some(after)) = (bytes.get(..mark.start), bytes.get(mark.end..)) else {
            return false;
        };
        bytes.get(text) == Some(self.text(checksum([before, after])).as_bytes())
    }

    /// What the mark says: `2 of sheet plan.svg, 1f2e3d4c`. Letters of the name that are not plain are written as %
    /// and two digits, so that any name fits anywhere.
    fn text(self, checksum: u32) -> String {
        let mut name = String::new();
        for byte in self.set.file_name().unwrap_or_default().as_encoded_bytes() {
            match byte {
                b'0'..=b'9' | b'A'..=b'Z' | b'a'..=b'z' | b'.' | b'-' | b'_' => name.push(char::from(*byte)),
                _ => name.push_str(&format!("%{byte:02X}")),
            }
        }
        format!("{} of {} {name}, {checksum:08x}", self.number, self.of)
    }
}

/// CRC-32, as PNG has it (ISO/IEC 15948:2004, Annex D), of parts that follow one another.
fn checksum<const N: usize>(parts: [&[u8]; N]) -> u32 {
    let mut hasher = Hasher::new();
    for part in parts {
        hasher.update(part);
    }
    hasher.finalize()
}

fn is_svg(bytes: &[u8]) -> bool {
    bytes.starts_with(b"<svg")
}

/// Where the chunk of the mark and its text are in a PNG.
fn in_png(bytes: &[u8]) -> Option<(Range<usize>, Range<usize>)> {
    let mut at = PNG_BEGIN.len();
    loop {
        let head = bytes.get(at..)?.first_chunk::<8>()?;
        let [a, b, c, d, ref name @ ..] = *head;
        let length = u32::from_be_bytes([a, b, c, d]) as usize;
        let body = at + 8..(at + 8).checked_add(length)?;
        if name == b"tEXt" && bytes.get(body.clone())?.starts_with(KEYWORD) {
            return Some((at..body.end.checked_add(4)?, body.start + KEYWORD.len()..body.end));
        }
        at = body.end.checked_add(4)?;
    }
}

/// Where the element of the mark and its text are in an SVG: they are the last in it.
fn in_svg(bytes: &[u8]) -> Option<(Range<usize>, Range<usize>)> {
    if !is_svg(bytes) {
        return None;
    }
    let before = bytes.strip_suffix(SVG_END)?.strip_suffix(SVG_AFTER)?;
    let start = before.windows(SVG_BEFORE.len()).rposition(|part| part == SVG_BEFORE)?;
    Some((start..before.len() + SVG_AFTER.len(), start + SVG_BEFORE.len()..before.len()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::picture::{PAPER, marks_to_svg, rgb_to_png};

    fn mark(number: usize) -> PageMark<'static> {
        PageMark { of: "sheet", set: Path::new("plans/the plan.png"), number }
    }

    fn files() -> [Vec<u8>; 2] {
        let size = ["10".to_owned(), "10".to_owned()];
        let svg = marks_to_svg([10.0, 10.0], &size, PAPER.floor, &[], ("Sheet", "Nothing"));
        [svg.into_bytes(), rgb_to_png(&[7; 300], (10, 10), ("Sheet", "Nothing"), None).unwrap()]
    }

    #[test]
    fn a_page_is_known_again_and_no_other() {
        for file in files() {
            assert!(!mark(2).is_in(&file), "a file without a mark");
            let marked = mark(2).put_into(file.clone());
            assert!(marked.len() > file.len());
            assert_eq!(marked, mark(2).put_into(file.clone()), "the same every time");
            assert!(mark(2).is_in(&marked));
            assert!(!mark(3).is_in(&marked), "another page");
            assert!(!PageMark { set: Path::new("the-plan.png"), ..mark(2) }.is_in(&marked), "another set");
            assert!(!PageMark { of: "stills", ..mark(2) }.is_in(&marked), "another kind");
            // The folder may have been moved.
            assert!(PageMark { set: Path::new("elsewhere/the plan.png"), ..mark(2) }.is_in(&marked));
            // Drawn on since, at any place in it.
            for place in [9, file.len() / 2, marked.len() - 3] {
                let mut changed = marked.clone();
                changed[place] ^= 1;
                assert!(!mark(2).is_in(&changed), "byte {place} is otherwise");
            }
            assert!(!mark(2).is_in(&marked[..marked.len() - 1]));
        }
        assert!(!mark(2).is_in(b""));
        assert!(!mark(2).is_in(&PNG_BEGIN));
        assert_eq!(mark(2).put_into(b"%PDF-".to_vec()), b"%PDF-");
    }

    /// The marked files are still what they were to others.
    #[test]
    fn a_marked_page_is_a_picture_still() {
        let [svg, png] = files().map(|file| mark(2).put_into(file));
        let drawn = image::load_from_memory_with_format(&png, image::ImageFormat::Png).unwrap();
        assert_eq!(drawn.to_rgb8().into_raw(), [7; 300]);
        let mut reader = png::Decoder::new(std::io::Cursor::new(&png)).read_info().unwrap();
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        reader.next_frame(&mut pixels).unwrap();
        reader.finish().unwrap();
        let texts = &reader.info().uncompressed_latin1_text;
        assert_eq!(texts.len(), 1);
        assert_eq!(texts[0].keyword, "Bellpad page");
        assert!(texts[0].text.starts_with("2 of sheet the%20plan.png, "), "{}", texts[0].text);
        let text = String::from_utf8(svg).unwrap();
        assert!(text.contains("<metadata>Bellpad page 2 of sheet the%20plan.png, "), "{text}");
        assert!(resvg::usvg::Tree::from_str(&text, &resvg::usvg::Options::default()).is_ok());
    }
}
