use super::pasted_signs as signs;

/// A tune as it was pasted, made readable.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CleanedTunes {
    /// The tunes of the text, each from its `X:` or else its first field on; empty where there is none.
    pub tunes: Vec<String>,
    /// What was cleaned, in words, in the order of this list: each once.
    pub said: Vec<&'static str>,
}

/// Cleans a text of one thing.
type Step = fn(&str) -> String;

/// What is cleaned, with what it is called where it changes something, in the order in which it is done.
const STEPS: [(&str, Step); 12] = [
    ("a mark at the start of the file", signs::without_mark),
    ("signs as mail sends them", signs::without_mail_signs),
    ("line ends of another system", with_line_ends),
    ("signs as a web page writes them", signs::without_web_signs),
    ("signs that cannot be seen", signs::without_unseen),
    ("wide letters and odd spaces", signs::with_plain_widths),
    ("curly quotes and long dashes", signs::with_plain_signs),
    ("the > of quoted mail", without_mail_quotes),
    ("spaces before the lines", without_indentation),
    ("fences round the text", without_fences),
    ("text between %%begintext and %%endtext", without_text_blocks),
    ("empty lines between all lines", without_double_spacing),
];

impl CleanedTunes {
    /// Cleans a text pasted from mail, a web page or a file, and parts it into its tunes.
    #[must_use]
    pub fn of(text: &str) -> Self {
        let mut said = Vec::new();
        let mut now = text.to_owned();
        for (words, step) in STEPS {
            let made = step(&now);
            if made != now {
                said.push(words);
                now = made;
            }
        }
        let (mut tunes, around) = parted(&now);
        if around {
            said.push("words before the first tune");
        }
        let mut keyed = false;
        for tune in &mut tunes {
            if let Some(made) = with_key(tune) {
                (*tune, keyed) = (made, true);
            }
        }
        if keyed {
            said.push("no key, so K:C was put before the notes");
        }
        Self { tunes, said }
    }
}

fn with_line_ends(text: &str) -> String {
    let ends = ['\r', '\u{2028}', '\u{2029}', '\u{85}', '\u{b}', '\u{c}'];
    text.replace("\r\n", "\n").replace(ends, "\n")
}

/// The letter of a field that a line is.
fn field_of(line: &str) -> Option<char> {
    let mut letters = line.chars();
    letters.next().filter(|letter| letter.is_ascii_alphabetic() && letters.next() == Some(':'))
}

/// The text line by line, its last line ended as it was.
fn by_lines<'a>(text: &str, lines: impl Iterator<Item = &'a str>) -> String {
    let mut made = lines.collect::<Vec<_>>().join("\n");
    if text.ends_with('\n') && !made.is_empty() {
        made.push('\n');
    }
    made
}

/// Without the `>` before the lines of a mail that is answered. No line of a tune begins with one, but notes may go on with one, so
/// a field must have it too.
fn without_mail_quotes(text: &str) -> String {
    let is_quoted = |line: &str| line.trim_start().starts_with('>');
    // Each with the blank that a mail puts after it; other blanks are the line's own.
    let bare = |line: &str| {
        let mut rest = line.trim_start();
        let indent = line.strip_suffix(rest).unwrap_or_default();
        while let Some(after) = rest.strip_prefix('>') {
            let after = after.strip_prefix(' ').unwrap_or(after);
            rest = if is_quoted(after) { after.trim_start() } else { after };
        }
        format!("{indent}{rest}")
    };
    if !text.lines().any(|line| is_quoted(line) && field_of(bare(line).trim_start()).is_some()) {
        return text.to_owned();
    }
    let lines: Vec<String> =
        text.lines().map(|line| if is_quoted(line) { bare(line) } else { line.to_owned() }).collect();
    by_lines(text, lines.iter().map(String::as_str))
}

fn without_indentation(text: &str) -> String {
    by_lines(text, text.lines().map(str::trim_start))
}

/// Without the lines of three back quotes or tildes that chats put round what is to stay as it is.
fn without_fences(text: &str) -> String {
    let is_fence = |line: &&str| {
        let name = line.strip_prefix("```").or_else(|| line.strip_prefix("~~~"));
        name.is_some_and(|name| name.trim().chars().all(|letter| letter.is_ascii_alphanumeric()))
    };
    by_lines(text, text.lines().filter(|line| !is_fence(line)))
}

fn without_text_blocks(text: &str) -> String {
    let mut inside = false;
    let kept = |line: &&str| {
        let begins = line.starts_with("%%begintext");
        let ends = line.starts_with("%%endtext");
        inside = (inside || begins) && !ends;
        !(inside || ends)
    };
    by_lines(text, text.lines().filter(kept))
}

/// Without the empty lines of a text in which every line is followed by one: an empty line would end the tune.
fn without_double_spacing(text: &str) -> String {
    let is_empty = |line: &str| line.trim().is_empty();
    let lines: Vec<&str> = text.lines().collect();
    let many = lines.iter().filter(|line| !is_empty(line)).count();
    let are_together = lines.windows(2).any(|pair| !pair.iter().any(|line| is_empty(line)));
    if many < 3 || are_together {
        return text.to_owned();
    }
    by_lines(text, lines.into_iter().filter(|line| !is_empty(line)))
}

/// The tunes of a text, and whether there were words before the first.
fn parted(text: &str) -> (Vec<String>, bool) {
    let mut tunes: Vec<String> = Vec::new();
    let mut around = false;
    let has_numbers = text.lines().any(|line| line.starts_with("X:"));
    for line in text.lines() {
        let begins =
            if has_numbers { line.starts_with("X:") } else { tunes.is_empty() && field_of(line).is_some() };
        match tunes.last_mut() {
            _ if begins => tunes.push(format!("{line}\n")),
            // What signs a mail follows two dashes (RFC 3676, 4.3); nothing of a tune is written so.
            Some(_) if line.trim_end() == "--" => break,
            Some(tune) => {
                tune.push_str(line);
                tune.push('\n');
            }
            None => around |= !line.trim().is_empty() && !line.starts_with('%'),
        }
    }
    for tune in &mut tunes {
        tune.truncate(tune.trim_end().len());
        tune.push('\n');
    }
    (tunes, around)
}

/// A tune with a key before its notes, where it has notes and none.
fn with_key(tune: &str) -> Option<String> {
    let is_head = |line: &&str| field_of(line).is_some() || line.starts_with('%') || line.trim().is_empty();
    let begins: usize = tune.split_inclusive('\n').take_while(is_head).map(str::len).sum();
    let (head, notes) = tune.split_at_checked(begins)?;
    let has = |letter: char| tune.lines().any(|line| field_of(line) == Some(letter));
    let is_tune = notes.lines().next()?.contains('|') && has('M');
    (is_tune && !has('K')).then(|| format!("{head}K:C\n{notes}"))
}
