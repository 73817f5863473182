/// A tune as it was pasted, made readable.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CleanedTunes {
    /// The tunes of the text, each from its `X:` or else its first field on; empty where there is none.
    pub tunes: Vec<String>,
    /// What was cleaned, in words, in the order of this list: each once.
    pub said: Vec<&'static str>,
}

/// Signs that writing programs put in place of what is on the keys, and what was meant.
const SIGNS: [(&str, &str); 12] = [
    ("\u{201c}", "\""),
    ("\u{201d}", "\""),
    ("\u{201e}", "\""),
    ("\u{2018}", "'"),
    ("\u{2019}", "'"),
    ("\u{2032}", "'"),
    ("\u{2013}", "-"),
    ("\u{2014}", "-"),
    ("\u{2026}", "..."),
    ("\u{00a0}", " "),
    ("\u{2502}", "|"),
    ("\u{ff5c}", "|"),
];

/// What web pages write for signs that they need themselves (HTML 5, 13.5: the names that music comes to).
const ENTITIES: [(&str, &str); 10] = [
    ("&quot;", "\""),
    ("&#34;", "\""),
    ("&apos;", "'"),
    ("&#39;", "'"),
    ("&lt;", "<"),
    ("&#60;", "<"),
    ("&gt;", ">"),
    ("&#62;", ">"),
    ("&nbsp;", " "),
    // Last, so that what it stands before is not taken for another.
    ("&amp;", "&"),
];

impl CleanedTunes {
    /// Cleans a text pasted from mail, a web page or a file, and parts it into its tunes.
    #[must_use]
    pub fn of(text: &str) -> Self {
        // Each with what it is called where it changed something.
        let steps: [(&'static str, fn(&str) -> String); 7] = [
            ("a mark at the start of the file", without_mark),
            ("line ends of another system", with_line_ends),
            ("signs as a web page writes them", with_entities_read),
            ("curly quotes and long dashes", with_plain_signs),
            ("the > of quoted mail", without_mail_quotes),
            ("spaces before the lines", without_indentation),
            ("text between %%begintext and %%endtext", without_text_blocks),
        ];
        let mut said = Vec::new();
        let mut now = text.to_owned();
        for (words, step) in steps {
            let made = step(&now);
            if made != now {
                said.push(words);
                now = made;
            }
        }
        let (tunes, around) = parted(&now);
        if around {
            said.push("words before the first tune");
        }
        Self { tunes, said }
    }
}

fn without_mark(text: &str) -> String {
    text.trim_start_matches('\u{feff}').to_owned()
}

fn with_line_ends(text: &str) -> String {
    text.replace("\r\n", "\n").replace(['\r', '\u{2028}', '\u{2029}', '\u{85}'], "\n")
}

fn with_entities_read(text: &str) -> String {
    // A chord may be pressed with `&` in a tune of several voices; only whole names are read.
    ENTITIES.iter().fold(
        text.replace("<br>", "\n").replace("<br/>", "\n").replace("<br />", "\n"),
        |text, (from, to)| text.replace(from, to),
    )
}

fn with_plain_signs(text: &str) -> String {
    SIGNS.iter().fold(text.to_owned(), |text, (from, to)| text.replace(from, to))
}

/// Without the `>` before each line of a mail that is answered; where some lines have none, they are the notes' own.
fn without_mail_quotes(text: &str) -> String {
    let is_quoted = |line: &str| line.trim().is_empty() || line.trim_start().starts_with('>');
    let mut now = text.to_owned();
    while now.lines().any(|line| !line.trim().is_empty()) && now.lines().all(is_quoted) {
        let line = |line: &str| {
            let line = line.trim_start();
            let line = line.strip_prefix('>').unwrap_or(line);
            line.strip_prefix(' ').unwrap_or(line).to_owned()
        };
        let made = now.lines().map(line).collect::<Vec<_>>().join("\n");
        if made == now {
            break;
        }
        now = made;
    }
    now
}

fn without_indentation(text: &str) -> String {
    let ends = text.ends_with('\n');
    let mut made = text.lines().map(str::trim_start).collect::<Vec<_>>().join("\n");
    if ends {
        made.push('\n');
    }
    made
}

fn without_text_blocks(text: &str) -> String {
    let mut inside = false;
    let kept = |line: &&str| {
        let begins = line.starts_with("%%begintext");
        let ends = line.starts_with("%%endtext");
        inside = (inside || begins) && !ends;
        !(inside || ends)
    };
    let ends = text.ends_with('\n');
    let mut made = text.lines().filter(kept).collect::<Vec<_>>().join("\n");
    if ends {
        made.push('\n');
    }
    made
}

/// The tunes of a text, and whether there were words before the first.
fn parted(text: &str) -> (Vec<String>, bool) {
    let mut tunes: Vec<String> = Vec::new();
    let mut around = false;
    let has_numbers = text.lines().any(|line| line.starts_with("X:"));
    let is_first_field = |line: &str| {
        let mut letters = line.chars();
        letters.next().is_some_and(|letter| letter.is_ascii_alphabetic()) && letters.next() == Some(':')
    };
    for line in text.lines() {
        let begins =
            if has_numbers { line.starts_with("X:") } else { tunes.is_empty() && is_first_field(line) };
        match tunes.last_mut() {
            _ if begins => tunes.push(format!("{line}\n")),
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
