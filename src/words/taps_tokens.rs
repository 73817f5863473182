use crate::dance::quoted;
use std::ops::Range;

/// The words that may stand for who strikes, what with, on whom or what, before that, and after a comma.
pub(super) const STRIKERS: [&str; 3] = ["odds", "evens", "all"];
pub(super) const ENDS: [&str; 6] = ["tip", "butt", "middle", "right", "left", "both"];
pub(super) const STRUCK: [&str; 12] = [
    "partner",
    "opposite",
    "neighbour",
    "up",
    "down",
    "ground",
    "self",
    "own",
    "right",
    "left",
    "under",
    "behind",
];
pub(super) const PLACES: [&str; 5] = ["on", "together", "behind", "overhead", "under"];
pub(super) const CLAUSES: [&str; 3] = ["at", "stay", "again"];

/// A word or a sign of what is typed of taps.
pub(super) struct Token {
    /// In small letters, without the sign of whose it is.
    pub text: String,
    /// Where it stands, letters from the start of the text.
    pub place: Range<usize>,
}

impl Token {
    pub fn is(&self, text: &str) -> bool {
        self.text == text
    }

    /// What it is as a number; nothing for a word.
    pub fn number(&self) -> Option<f64> {
        let is_one = self.text.chars().all(|letter| letter.is_ascii_digit() || letter == '.');
        if is_one { self.text.parse().ok() } else { None }
    }

    /// As it is told in an error.
    pub fn quoted(&self) -> String {
        quoted(&self.text)
    }
}

/// The words and signs of a line that begins at a letter of the text.
pub(super) fn tokens_of(line: &str, begin: usize) -> Vec<Token> {
    let mut tokens: Vec<Token> = Vec::new();
    let mut open = false;
    for (index, letter) in line.chars().enumerate() {
        let place = begin + index..begin + index + 1;
        let is_sign = matches!(letter, ',' | ';' | ':');
        match tokens.last_mut().filter(|_| open) {
            Some(last) if !is_sign && !letter.is_whitespace() => {
                last.text.extend(letter.to_lowercase());
                last.place.end = place.end;
            }
            _ if letter.is_whitespace() => {}
            _ => tokens.push(Token { text: letter.to_lowercase().collect(), place }),
        }
        open = !is_sign && !letter.is_whitespace();
    }
    for token in &mut tokens {
        let bare = token.text.strip_suffix("'s").or_else(|| token.text.strip_suffix("’s"));
        let bare = bare.or_else(|| token.text.strip_suffix(['\'', '’']));
        if let Some(bare) = bare.filter(|bare| !bare.is_empty()) {
            token.text = bare.to_owned();
        }
    }
    tokens
}
