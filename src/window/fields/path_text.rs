use std::ffi::{OsStr, OsString};
use std::path::{Path, PathBuf};

/// A path as it is typed: text to show and to change, and behind it the path without loss.
///
/// A name of a file need not be text: it is bytes on one system and sixteen-bit units on another, any of them. What is
/// no letter is shown as U+FFFD, and stays what it is for as long as that is not typed over.
#[derive(Clone, Debug, Default)]
pub struct PathText {
    /// What is shown. After a change to it, [`follow`](Self::follow) is called.
    pub text: String,
    /// A piece for each letter that is shown.
    pieces: Vec<Piece>,
    /// The path as it was given, for as long as nothing is typed.
    given: Option<PathBuf>,
}

/// What is shown as one letter.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Piece {
    /// A letter.
    Letter(char),
    /// What is no letter, shown as U+FFFD.
    Raw(Vec<Unit>),
}

/// What the system makes names of.
#[cfg(unix)]
type Unit = u8;
#[cfg(not(unix))]
type Unit = u16;

impl Piece {
    fn shown(&self) -> char {
        match self {
            Self::Letter(letter) => *letter,
            Self::Raw(_) => char::REPLACEMENT_CHARACTER,
        }
    }
}

impl PathText {
    /// A path that is proposed.
    #[must_use]
    pub fn of(path: &Path) -> Self {
        let pieces = pieces(path.as_os_str());
        let text = pieces.iter().map(Piece::shown).collect();
        Self { text, pieces, given: Some(path.to_owned()) }
    }

    /// Takes in what was typed: what is the same before and after it stays what it was.
    pub fn follow(&mut self) {
        let typed: Vec<char> = self.text.chars().collect();
        let same = |(piece, letter): &(&Piece, &char)| piece.shown() == **letter;
        let before = self.pieces.iter().zip(&typed).take_while(same).count();
        if before == typed.len() && before == self.pieces.len() {
            return;
        }
        let most = self.pieces.len().min(typed.len()) - before;
        let after = self.pieces.iter().rev().zip(typed.iter().rev()).take(most).take_while(same).count();
        let new = typed.iter().take(typed.len() - after).skip(before).map(|letter| Piece::Letter(*letter));
        self.pieces.splice(before..self.pieces.len() - after, new);
        self.given = None;
    }

    /// Whether nothing is written.
    #[must_use]
    pub fn is_blank(&self) -> bool {
        self.text.trim().is_empty()
    }

    /// The path: as it was given, or what was typed without the blanks round it.
    #[must_use]
    pub fn path(&self) -> PathBuf {
        if let Some(given) = &self.given {
            return given.clone();
        }
        let is_blank = |piece: &&Piece| matches!(piece, Piece::Letter(letter) if letter.is_whitespace());
        let before = self.pieces.iter().take_while(is_blank).count();
        let after = self.pieces.iter().skip(before).rev().take_while(is_blank).count();
        let written = self.pieces.iter().take(self.pieces.len() - after).skip(before);
        name_of(written).into()
    }
}

#[cfg(unix)]
fn pieces(name: &OsStr) -> Vec<Piece> {
    let mut pieces = Vec::new();
    for chunk in std::os::unix::ffi::OsStrExt::as_bytes(name).utf8_chunks() {
        pieces.extend(chunk.valid().chars().map(Piece::Letter));
        if !chunk.invalid().is_empty() {
            pieces.push(Piece::Raw(chunk.invalid().to_owned()));
        }
    }
    pieces
}

#[cfg(unix)]
fn name_of<'a>(pieces: impl Iterator<Item = &'a Piece>) -> OsString {
    let mut bytes = Vec::new();
    for piece in pieces {
        match piece {
            Piece::Letter(letter) => bytes.extend(letter.encode_utf8(&mut [0; 4]).as_bytes()),
            Piece::Raw(units) => bytes.extend(units),
        }
    }
    std::os::unix::ffi::OsStringExt::from_vec(bytes)
}

#[cfg(windows)]
fn pieces(name: &OsStr) -> Vec<Piece> {
    let units = std::os::windows::ffi::OsStrExt::encode_wide(name);
    char::decode_utf16(units)
        .map(|read| read.map_or_else(|error| Piece::Raw(vec![error.unpaired_surrogate()]), Piece::Letter))
        .collect()
}

#[cfg(windows)]
fn name_of<'a>(pieces: impl Iterator<Item = &'a Piece>) -> OsString {
    let mut units = Vec::new();
    for piece in pieces {
        match piece {
            Piece::Letter(letter) => units.extend(letter.encode_utf16(&mut [0; 2]).iter()),
            Piece::Raw(raw) => units.extend(raw),
        }
    }
    std::os::windows::ffi::OsStringExt::from_wide(&units)
}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use std::os::unix::ffi::{OsStrExt, OsStringExt};

    fn path(bytes: &[u8]) -> PathBuf {
        OsString::from_vec(bytes.to_owned()).into()
    }

    fn typed(field: &mut PathText, text: &str) -> Vec<u8> {
        text.clone_into(&mut field.text);
        field.follow();
        field.path().as_os_str().as_bytes().to_owned()
    }

    #[test]
    fn what_is_no_letter_stays_what_it_is() {
        let mut field = PathText::of(&path(b"/d\xe9p\xc3\xa9t/caf\xe9.dance.json"));
        assert_eq!(field.text, "/d\u{fffd}p\u{e9}t/caf\u{fffd}.dance.json");
        assert_eq!(field.path(), path(b"/d\xe9p\xc3\xa9t/caf\xe9.dance.json"));
        let new = typed(&mut field, "/d\u{fffd}p\u{e9}t/caf\u{fffd}-2.dance.json");
        assert_eq!(new, b"/d\xe9p\xc3\xa9t/caf\xe9-2.dance.json");
        // The name typed over: the folder is still itself.
        let new = typed(&mut field, "/d\u{fffd}p\u{e9}t/new.dance.json");
        assert_eq!(new, b"/d\xe9p\xc3\xa9t/new.dance.json");
        assert_eq!(typed(&mut field, "here.json"), b"here.json");
        assert_eq!(typed(&mut field, ""), b"");
        assert!(field.is_blank());
        // Typed as such it is a letter like any other.
        assert_eq!(typed(&mut field, "\u{fffd}"), "\u{fffd}".as_bytes());
    }

    #[test]
    fn blanks_round_what_is_typed_are_left_out_and_those_of_a_name_kept() {
        let mut field = PathText::of(Path::new(" odd "));
        assert_eq!(field.path(), Path::new(" odd "));
        field.follow();
        assert_eq!(field.path(), Path::new(" odd "), "nothing was typed");
        assert_eq!(typed(&mut field, " odder "), b"odder");
    }

    #[test]
    fn letters_of_more_bytes_are_cut_nowhere() {
        let mut field = PathText::of(Path::new("鵝鵝鵝"));
        assert_eq!(typed(&mut field, "鵝鵝"), "鵝鵝".as_bytes());
        assert_eq!(typed(&mut field, "鵝x鵝"), "鵝x鵝".as_bytes());
    }
}
