//! Signs that a text picks up on its way through mail, web pages and writing programs, and what was meant.

use super::is_unseen;

/// Signs that writing programs put in place of what is on the keys, and what was meant.
const SIGNS: [(&str, &str); 30] = [
    ("\u{201c}", "\""),
    ("\u{201d}", "\""),
    ("\u{201e}", "\""),
    ("\u{201f}", "\""),
    ("\u{00ab}", "\""),
    ("\u{00bb}", "\""),
    ("\u{2033}", "\""),
    ("\u{2018}", "'"),
    ("\u{2019}", "'"),
    ("\u{201a}", ","),
    ("\u{201b}", "'"),
    ("\u{2032}", "'"),
    ("\u{02bc}", "'"),
    ("\u{00b4}", "'"),
    ("\u{2010}", "-"),
    ("\u{2011}", "-"),
    ("\u{2012}", "-"),
    ("\u{2013}", "-"),
    ("\u{2014}", "-"),
    ("\u{2015}", "-"),
    ("\u{2212}", "-"),
    ("\u{2026}", "..."),
    ("\u{2044}", "/"),
    ("\u{2502}", "|"),
    ("\u{2503}", "|"),
    ("\u{2223}", "|"),
    ("\u{00a6}", "|"),
    ("\u{2236}", ":"),
    ("\u{266f}", "#"),
    ("\u{266d}", "b"),
];

/// What web pages write for signs that they need themselves (HTML 5, 13.5: the names that music comes to).
const ENTITIES: [(&str, &str); 18] = [
    ("&quot;", "\""),
    ("&apos;", "'"),
    ("&lt;", "<"),
    ("&gt;", ">"),
    ("&nbsp;", " "),
    ("&lsquo;", "'"),
    ("&rsquo;", "'"),
    ("&ldquo;", "\""),
    ("&rdquo;", "\""),
    ("&ndash;", "-"),
    ("&mdash;", "-"),
    ("&hellip;", "..."),
    ("&shy;", ""),
    ("&vert;", "|"),
    ("&colon;", ":"),
    ("&lbrack;", "["),
    ("&rbrack;", "]"),
    // Last, so that what it stands before is not taken for another.
    ("&amp;", "&"),
];

/// Letters with marks, as web pages may write them (HTML 5, 13.5), and their small ones' names without the mark's own.
const MARKED: [(&str, &[(char, char)]); 8] = [
    ("acute", &[('a', 'á'), ('e', 'é'), ('i', 'í'), ('o', 'ó'), ('u', 'ú'), ('y', 'ý')]),
    ("grave", &[('a', 'à'), ('e', 'è'), ('i', 'ì'), ('o', 'ò'), ('u', 'ù')]),
    ("circ", &[('a', 'â'), ('e', 'ê'), ('i', 'î'), ('o', 'ô'), ('u', 'û'), ('w', 'ŵ'), ('y', 'ŷ')]),
    ("uml", &[('a', 'ä'), ('e', 'ë'), ('i', 'ï'), ('o', 'ö'), ('u', 'ü'), ('y', 'ÿ')]),
    ("tilde", &[('a', 'ã'), ('n', 'ñ'), ('o', 'õ')]),
    ("ring", &[('a', 'å'), ('u', 'ů')]),
    ("cedil", &[('c', 'ç'), ('s', 'ş')]),
    ("slash", &[('o', 'ø')]),
];

/// A letter with a mark at the front, such as `&eacute;` or `&Eacute;`, and what comes after.
fn marked(from: &str) -> Option<(String, &str)> {
    let (name, after) = from.strip_prefix('&')?.split_once(';')?;
    let letter = name.chars().next()?;
    let mark = name.get(letter.len_utf8()..)?;
    let (_, letters) = MARKED.iter().find(|(known, _)| *known == mark)?;
    let (_, made) = letters.iter().find(|(plain, _)| *plain == letter.to_ascii_lowercase())?;
    let made = if letter.is_ascii_uppercase() { made.to_uppercase().collect() } else { made.to_string() };
    Some((made, after))
}

/// The tags of a web page after which a line ends, and others that stand round text.
const TAGS: [&str; 22] = [
    "br",
    "p",
    "div",
    "li",
    "tr",
    "pre",
    "code",
    "span",
    "html",
    "body",
    "head",
    "table",
    "tbody",
    "td",
    "ul",
    "ol",
    "font",
    "tt",
    "blockquote",
    "article",
    "section",
    "samp",
];
/// How many of those end a line.
const ENDING: usize = 5;

pub(super) fn without_mark(text: &str) -> String {
    // Bytes of a mark that were no letters, as files of two bytes a letter begin.
    text.trim_start_matches(['\u{feff}', '\u{fffe}', '\u{fffd}']).to_owned()
}

/// Mail that may not send every sign writes `=3D` for `=`, `=20` for a space before the end of a line, and `=` where it has broken one
/// (RFC 2045, 6.7). No accidental of a tune is followed by a number.
pub(super) fn without_mail_signs(text: &str) -> String {
    let is_mail = text.contains("=3D") || text.lines().any(|line| line.trim_end().ends_with("=20"));
    if !is_mail {
        return text.to_owned();
    }
    let text = text.replace("=\r\n", "").replace("=\n", "");
    text.replace("=20", " ").replace("=09", "\t").replace("=3D", "=")
}

pub(super) fn without_web_signs(text: &str) -> String {
    let mut made = String::with_capacity(text.len());
    let mut rest = text;
    // A close tag is nothing that notes could be, so that where there is one `<b>` is a tag as well.
    let is_page = ["</b>", "</i>", "</a>"].iter().any(|tag| text.contains(tag));
    while let Some(at) = rest.find(['<', '&']) {
        let (before, from) = rest.split_at(at);
        made.push_str(before);
        let (kept, after) =
            tag(from, is_page).or_else(|| numbered(from)).or_else(|| marked(from)).unwrap_or_else(|| {
                let after = from.get(1..).unwrap_or_default();
                (from.get(..1).unwrap_or_default().to_owned(), after)
            });
        made.push_str(&kept);
        rest = after;
    }
    made.push_str(rest);
    // `&` lays voices over each other in a tune; only whole names are read.
    ENTITIES.iter().fold(made, |text, (from, to)| text.replace(from, to))
}

/// A tag at the front: what stands for it, and what comes after.
fn tag(from: &str, is_page: bool) -> Option<(String, &str)> {
    let inside = from.strip_prefix('<')?;
    let (inside, after) = inside.split_once('>')?;
    let closes = inside.starts_with('/');
    let name = inside.trim_start_matches('/');
    let name = name.split([' ', '/', '\n']).next()?.to_ascii_lowercase();
    let place = TAGS.iter().position(|tag| *tag == name);
    let is_small = is_page && matches!(name.as_str(), "b" | "i" | "a" | "em");
    if place.is_none() && !is_small {
        return None;
    }
    // Of what ends a line the start or the end does, and not where the line ends anyway.
    let ends = place.is_some_and(|place| place < ENDING) && (closes || name == "br");
    let is_ended = after.trim_start_matches([' ', '\r']).starts_with('\n');
    Some((if ends && !is_ended { "\n".to_owned() } else { String::new() }, after))
}

/// A sign by its number at the front, such as `&#34;` or `&#x22;`, and what comes after.
fn numbered(from: &str) -> Option<(String, &str)> {
    let (number, after) = from.strip_prefix("&#")?.split_once(';')?;
    let code = match number.strip_prefix(['x', 'X']) {
        Some(sixteens) => u32::from_str_radix(sixteens, 16).ok()?,
        None => number.parse().ok()?,
    };
    Some((char::from_u32(code)?.to_string(), after))
}

/// Without what has no width, turns the writing round or is nothing at all: soft hyphens, marks, and joiners where they join nothing
/// that needs them.
pub(super) fn without_unseen(text: &str) -> String {
    let mut before = ' ';
    let is_kept = |letter: &char| {
        let joins_nothing = matches!(letter, '\u{200c}' | '\u{200d}') && before.is_ascii();
        let is_unseen = joins_nothing || letter.is_control() || is_unseen(*letter);
        before = *letter;
        letter.is_ascii_whitespace() || !is_unseen
    };
    text.chars().filter(is_kept).collect()
}

/// Wide letters (Unicode, Halfwidth and Fullwidth Forms) as those on the keys, and every space as one.
pub(super) fn with_plain_widths(text: &str) -> String {
    let plain = |letter: char| match letter {
        '\u{ff01}'..='\u{ff5e}' => char::from_u32(u32::from(letter) - 0xfee0).unwrap_or(letter),
        letter if letter.is_whitespace() && !letter.is_ascii() => ' ',
        letter => letter,
    };
    text.chars().map(plain).collect()
}

pub(super) fn with_plain_signs(text: &str) -> String {
    SIGNS.iter().fold(text.to_owned(), |text, (from, to)| text.replace(from, to))
}
