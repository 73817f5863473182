//! Any text at all: words of many scripts, and what is no word; tunes as musicians write them.

use super::draws::Draws;

/// Words of the trade, of other scripts, and what a text may have in it that no word has.
pub const WORDS: [&str; 30] = [
    "Hey",
    "Once to yourself",
    "Nell Quickthorn",
    "Möwe",
    "O'Dowd & Sons",
    "гуси",
    "χήνες",
    "אווזים",
    "إوز",
    "鵝回家",
    "がちょう",
    "거위",
    "ห่าน",
    "हंस",
    "🪿",
    "👩‍👩‍👧",
    "e\u{301}e\u{301}",
    "\u{301}",
    "\u{202e}esrever\u{202c}",
    "\u{2066}a\u{2069}",
    "a\u{200b}b",
    "\u{feff}",
    "\u{0}",
    "\u{7}\u{1b}[31m",
    "two\nlines",
    "tab\there",
    "<b>&amp;\"'",
    "\u{fffe}\u{ffff}",
    "\u{e000}\u{10ffff}",
    "ﷺ",
];

/// A few words, or none.
pub fn text(draws: &mut Draws) -> String {
    if draws.once_in(40) {
        return draws.one_of(&WORDS).repeat(200);
    }
    let words = draws.many(0, 3, |draws| draws.one_of(&WORDS));
    words.join(" ")
}

/// A text that is not empty.
pub fn name(draws: &mut Draws) -> String {
    let said = text(draws);
    if said.trim().is_empty() { "N".to_owned() } else { said }
}

/// Metres that music here has, and in which the bar below is written.
const METRES: [(&str, u32); 9] = [
    ("4/4", 8),
    ("2/4", 4),
    ("2/2", 8),
    ("C|", 8),
    ("C", 8),
    ("6/8", 6),
    ("9/8", 9),
    ("3/4", 6),
    ("3/2", 12),
];

/// A tune with a pickup, repeats, endings, parts, chords, words and other voices, each bar as long as its metre.
pub fn abc(draws: &mut Draws) -> String {
    let (metre, eighths) = draws.one_of(&METRES);
    let key = draws.one_of(&["G", "D", "Am", "Bb", "Ador", "Emix", "none", "F#m", "Cb"]);
    let mut tune = format!("X:1\nT:{}\nM:{metre}\nL:1/8\n", text(draws).replace('\n', " "));
    if let Some(speed) = draws.maybe(3, |draws| draws.whole(20, 240)) {
        tune += &format!("Q:1/4={speed}\n");
    }
    let parts = draws.whole(1, 3) as usize;
    if draws.once_in(4) {
        tune += &format!("P:{}\n", ["A", "AAB", "ABAC"][parts - 1]);
    }
    tune += &format!("K:{key}\n");
    for part in 0..parts {
        if draws.once_in(2) {
            tune += &format!("P:{}\n", ["A", "B", "C"][part]);
        }
        if part == 0 && draws.once_in(3) {
            tune += "d";
        }
        tune += draws.one_of(&["|", "|:", ""]);
        let bars = draws.whole(1, 8);
        for bar in 0..bars {
            tune += &bar_of(draws, eighths);
            if bar + 1 < bars {
                tune += draws.one_of(&["|", "|", "|", "|\n"]);
            }
        }
        tune += draws.one_of(&["|\n", ":|\n", "|]\n", "||\n", ":|2 G4|]\n"]);
        if draws.once_in(6) {
            tune += "w: la la- la_\n";
        }
    }
    tune
}

/// A bar of so many eighths.
fn bar_of(draws: &mut Draws, eighths: u32) -> String {
    let (mut bar, mut left) = (String::new(), eighths);
    if draws.once_in(12) {
        bar += "\"Am7\"";
    }
    while left > 0 {
        let long = draws.whole(1, left.min(4));
        let note = draws.one_of(&["G", "A", "B", "c", "d", "^f", "=g", "_B", "e'", "D,", "z", "x", "[GBd]"]);
        match draws.below(10) {
            0 if long == 2 => bar += "(3GAB",
            1 if long == 2 => bar += "c>d",
            2 => bar += &format!("{{a}}{note}{long}"),
            3 => bar += &format!("!trill!{note}{long} "),
            4 if left > long => bar += &format!("{note}{long}-"),
            _ => bar += &format!("{note}{long}"),
        }
        left -= long;
    }
    bar
}
