//! Text from a file or a person as it stands in a message: on one line, cut where it is long, and with letters that
//! nobody can see written out.
//!
//! An error says where and what is wrong; a name of ten thousand letters in it would hide both, and a letter that
//! turns the writing round would show something else than the file holds.

use unicode_segmentation::UnicodeSegmentation;

/// The most letters of a name that a message repeats.
const MOST_OF_NAME: usize = 60;

/// The most letters of a longer text, and of a list of names.
const MOST_OF_TEXT: usize = 200;

/// A name in quotation marks.
#[must_use]
pub fn quoted(name: &str) -> String {
    format!("\"{}\"", cut(name, MOST_OF_NAME))
}

/// A name without quotation marks.
#[must_use]
pub fn shown_name(name: &str) -> String {
    cut(name, MOST_OF_NAME)
}

/// A longer text, such as what is said of a value.
#[must_use]
pub fn shown_text(text: &str) -> String {
    cut(text, MOST_OF_TEXT)
}

/// Names with commas between, as many as can be read, and how many more there are.
pub fn shown_list<'a>(names: impl IntoIterator<Item = &'a str>) -> String {
    let mut names = names.into_iter();
    let mut list = String::new();
    let mut letters = 0;
    while letters < MOST_OF_TEXT
        && let Some(name) = names.next()
    {
        if !list.is_empty() {
            list.push_str(", ");
        }
        let name = shown_name(name);
        letters += name.chars().count() + 2;
        list.push_str(&name);
    }
    match names.count() {
        0 if list.is_empty() => "none".to_owned(),
        0 => list,
        more => format!("{list} and {more} more"),
    }
}

/// One letter: as it is where it can be seen, and in words with its number where it cannot.
#[must_use]
pub fn letter_words(letter: char) -> String {
    let number = u32::from(letter);
    if letter.is_control() {
        return format!("a control character (U+{number:04X})");
    }
    if is_unseen(letter) {
        return format!("an invisible control character (U+{number:04X})");
    }
    // What the language itself would not print as it is: no character yet, one for private use, or a mark that
    // belongs on a letter before it.
    if !matches!(letter, '\'' | '"' | '\\') && letter.escape_debug().count() > 1 {
        return format!("a character that cannot be shown by itself (U+{number:04X})");
    }
    format!("'{letter}'")
}

/// Text on one line, with what cannot be seen written out, and no more than so many letters of it: a letter keeps
/// its accents, unless they alone are too many.
fn cut(text: &str, most: usize) -> String {
    let mut short = String::new();
    let mut letters = 0;
    for letter in text.graphemes(true) {
        // Letters are counted as they are written: one that is written out is several.
        let mut seen = String::new();
        letter.chars().for_each(|part| push_seen(&mut seen, part));
        let more = seen.chars().count();
        if letters + more > most {
            if letters == 0 {
                short.extend(seen.chars().take(most));
            }
            short.push('…');
            break;
        }
        short.push_str(&seen);
        letters += more;
    }
    short
}

fn push_seen(text: &mut String, letter: char) {
    if letter.is_control() {
        text.push(' ');
    } else if is_unseen(letter) {
        text.push_str(&format!("(U+{:04X})", u32::from(letter)));
    } else {
        text.push(letter);
    }
}

/// Whether a letter has no shape of its own and says how the letters round it are written: which way they run, where
/// a line may break, or nothing at all. The two that join letters are left out, since words and emblems need them.
/// (The Unicode Standard, chapter 23, "Special Areas and Format Characters".)
#[must_use]
pub fn is_unseen(letter: char) -> bool {
    matches!(letter,
        '\u{00ad}' | '\u{034f}' | '\u{061c}' | '\u{115f}' | '\u{1160}' | '\u{17b4}' | '\u{17b5}'
        | '\u{180b}'..='\u{180e}' | '\u{200b}' | '\u{200e}' | '\u{200f}' | '\u{2028}'..='\u{202e}'
        | '\u{2060}'..='\u{206f}' | '\u{3164}' | '\u{feff}' | '\u{ffa0}' | '\u{fff9}'..='\u{fffb}'
        | '\u{1d173}'..='\u{1d17a}' | '\u{e0000}'..='\u{e007f}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_short_name_stands_as_it_is() {
        assert_eq!(quoted("Once to yourself"), "\"Once to yourself\"");
        assert_eq!(quoted("Ferryman's \"Candle\" ß 鵝"), "\"Ferryman's \"Candle\" ß 鵝\"");
        assert_eq!(quoted(""), "\"\"");
        assert_eq!(quoted("a\nb\tc\u{7}"), "\"a b c \"");
    }

    #[test]
    fn a_long_name_is_cut_between_letters_and_never_inside_one() {
        assert_eq!(quoted(&"x".repeat(60)), format!("\"{}\"", "x".repeat(60)));
        assert_eq!(quoted(&"x".repeat(61)), format!("\"{}…\"", "x".repeat(60)));
        // Each letter here is an e and an accent of its own: the cut comes after a whole one.
        let accented = "e\u{301}".repeat(40);
        assert_eq!(shown_name(&accented), format!("{}…", "e\u{301}".repeat(30)));
        let odd = format!("x{accented}");
        assert_eq!(shown_name(&odd), format!("x{}…", "e\u{301}".repeat(29)));
        // One letter under ten thousand accents is no more to be read.
        let tower = format!("e{}", "\u{301}".repeat(10_000));
        assert_eq!(shown_name(&tower).chars().count(), 61);
        assert!(shown_text(&"word ".repeat(1000)).chars().count() <= 201);
    }

    #[test]
    fn lists_end_where_nobody_reads_on() {
        assert_eq!(shown_list([]), "none");
        assert_eq!(shown_list(["hey", "rounds"]), "hey, rounds");
        let many: Vec<String> = (0..1000).map(|number| format!("figure-{number}")).collect();
        let list = shown_list(many.iter().map(String::as_str));
        assert!(
            list.chars().count() < 260 && list.starts_with("figure-0, ") && list.ends_with(" more"),
            "{list}"
        );
        let long = "y".repeat(10_000);
        let list = shown_list([long.as_str(), long.as_str(), long.as_str(), long.as_str(), long.as_str()]);
        assert!(list.chars().count() < 300 && list.ends_with("and 1 more"), "{list}");
    }

    #[test]
    fn what_cannot_be_seen_is_said_in_words() {
        assert_eq!(letter_words('x'), "'x'");
        assert_eq!(letter_words('\''), "'''");
        assert_eq!(letter_words('\u{202e}'), "an invisible control character (U+202E)");
        assert_eq!(letter_words('\u{7}'), "a control character (U+0007)");
        assert_eq!(letter_words('\u{e000}'), "a character that cannot be shown by itself (U+E000)");
        assert_eq!(letter_words('\u{301}'), "a character that cannot be shown by itself (U+0301)");
        assert_eq!(quoted("ab\u{202e}cd"), "\"ab(U+202E)cd\"");
        // An emblem of a family is one letter, joined by what cannot be seen.
        assert_eq!(quoted("\u{1f468}\u{200d}\u{1f467}"), "\"\u{1f468}\u{200d}\u{1f467}\"");
    }
}
