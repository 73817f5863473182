use crate::dance::{did_you_mean, quoted};
use std::ops::Range;
use thiserror::Error;

/// A cell that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{said}")]
pub struct CellError {
    /// What is wrong, and what was expected.
    pub said: String,
    /// Where, letters from the start of the text.
    pub place: Range<usize>,
    /// Whether typing on could put it right.
    pub unfinished: bool,
}

/// The words of a cell that are still to be read.
pub(super) struct Words {
    all: Vec<(String, Range<usize>)>,
    at: usize,
    /// Where the text ends.
    end: usize,
}

impl Words {
    pub(super) fn of(text: &str) -> Self {
        let mut words: Vec<(String, Range<usize>)> = Vec::new();
        let mut open = false;
        // A unit that stands at its number is a word of its own.
        let kind = |letter: char| letter.is_ascii_digit() || matches!(letter, '.' | ',' | '-' | '\u{2212}');
        // A comma before a blank parts what is said; within a number it is its point.
        let after = text.chars().skip(1).map(Some).chain([None]);
        for (index, (letter, after)) in text.chars().zip(after).enumerate() {
            let parts = letter == ',' && after.is_some_and(char::is_whitespace);
            let letter = if parts { ' ' } else { letter };
            let goes_on = open
                && words
                    .last()
                    .and_then(|(word, _)| word.chars().last())
                    .is_some_and(|last| kind(last) == kind(letter));
            open = !letter.is_whitespace();
            if !open {
                continue;
            }
            let letter = match letter {
                ',' => '.',
                '\u{2212}' => '-',
                letter => letter,
            };
            match words.last_mut().filter(|_| goes_on) {
                Some((word, place)) => {
                    word.extend(letter.to_lowercase());
                    place.end = index + 1;
                }
                None => words.push((letter.to_lowercase().collect(), index..index + 1)),
            }
        }
        let end = text.chars().count();
        Self { all: words, at: 0, end }
    }

    pub(super) fn is_empty(&self) -> bool {
        self.all.is_empty()
    }

    pub(super) fn peek(&self) -> Option<&str> {
        self.all.get(self.at).map(|(word, _)| word.as_str())
    }

    pub(super) fn peek_second(&self) -> Option<&str> {
        self.all.get(self.at + 1).map(|(word, _)| word.as_str())
    }

    pub(super) fn skip(&mut self, many: usize) {
        self.at += many;
    }

    pub(super) fn take_any<'a>(&mut self, names: &[&'a str]) -> Option<&'a str> {
        let word = self.peek()?;
        let found = names.iter().find(|name| **name == word).copied()?;
        self.at += 1;
        Some(found)
    }

    pub(super) fn is_number(&self) -> bool {
        self.peek().is_some_and(|word| word.parse::<f64>().is_ok())
    }

    /// That something else was wanted here.
    pub(super) fn wanted(&self, what: &str, known: &[&str]) -> CellError {
        match self.all.get(self.at) {
            Some((word, place)) => {
                let last = self.at + 1 == self.all.len();
                let unfinished = last && known.iter().any(|name| name.starts_with(word.as_str()));
                let meant = did_you_mean(word, known.iter().copied());
                CellError {
                    said: format!("{} is none of these{meant}; expected {what}", quoted(word)),
                    place: place.clone(),
                    unfinished,
                }
            }
            None => CellError { said: format!("expected {what}"), place: 0..self.end, unfinished: true },
        }
    }

    /// A number between two.
    pub(super) fn number(&mut self, what: &str, between: [f64; 2]) -> Result<f64, CellError> {
        self.number_or(what, between, &[])
    }

    /// A number between two, where one of some words would do as well.
    fn number_or(&mut self, what: &str, [least, most]: [f64; 2], known: &[&str]) -> Result<f64, CellError> {
        let wanted = format!("{what} from {least} to {most}");
        let Some((word, place)) = self.all.get(self.at) else { return Err(self.wanted(&wanted, &[])) };
        let Some(value) = word.parse::<f64>().ok().filter(|value| value.is_finite()) else {
            let begun = matches!(word.as_str(), "-" | "." | "-.");
            return Err(CellError { unfinished: begun, ..self.wanted(&wanted, known) });
        };
        if !(least..=most).contains(&value) {
            let said = format!("{value} is out of range; expected {wanted}");
            return Err(CellError { said, place: place.clone(), unfinished: false });
        }
        self.at += 1;
        Ok(value)
    }

    /// A share of a whole, from none to so much of it: a number, or percent; or one of some words, which are taken before it.
    pub(super) fn share(&mut self, what: &str, most: f64, known: &[&str]) -> Result<f64, CellError> {
        if self.peek_second() != Some("%") {
            return self.number_or(what, [0.0, most], known);
        }
        let percent = self.number("percent", [0.0, most * 100.0])?;
        self.at += 1;
        Ok(crate::dance::rounded(percent / 100.0, 1e6))
    }

    /// A length in centimetres, or with another unit, metres; between two, metres.
    pub(super) fn length(&mut self, [least, most]: [f64; 2]) -> Result<f64, CellError> {
        let begin = self.at;
        let in_metres = self.peek_second() == Some("m");
        let share = if in_metres { 1.0 } else { 0.01 };
        let unit = if in_metres { "metres" } else { "centimetres" };
        let between = [least, most].map(|end| crate::dance::rounded(end / share, 1e6));
        let value = self.number(unit, between)?;
        self.at = begin + 1;
        let _ = self.take_any(&["cm", "m"]);
        Ok(crate::dance::rounded(value * share, 1e6))
    }

    pub(super) fn end(&self) -> Result<(), CellError> {
        match self.all.get(self.at) {
            Some((word, place)) => {
                let said = format!("{} is one word too many", quoted(word));
                let begun = ["cm", "circle", "forward", "back", "up", "%"]
                    .iter()
                    .any(|name| name.starts_with(word.as_str()));
                let unfinished = begun && self.at + 1 == self.all.len();
                Err(CellError { said, place: place.clone(), unfinished })
            }
            None => Ok(()),
        }
    }
}
