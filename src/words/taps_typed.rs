//! A figure's taps and claps as they are typed: a line for each bar, such as `bar 1: count 3, odds tip on partner's butt`.

use super::taps_item::Item;
use super::taps_tokens::{Token, tokens_of};
use crate::dance::{BarCounts, Strike};
use std::ops::Range;
use thiserror::Error;

/// Taps that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{said}")]
pub struct TypedTapsError {
    /// In which line, what is wrong, and what was expected.
    pub said: String,
    /// Where, letters from the start of the text.
    pub place: Range<usize>,
    /// Whether typing on could put it right.
    pub unfinished: bool,
}

/// What is wrong with a line, and where.
pub(super) struct WrongWord {
    pub said: String,
    pub place: Range<usize>,
    pub unfinished: bool,
}

impl WrongWord {
    /// A word that typing on does not put right.
    pub fn at(place: Range<usize>, said: impl Into<String>) -> Self {
        Self { said: said.into(), place, unfinished: false }
    }
}

/// Reads taps as [`taps_written`](super::taps_written) writes them. `bars` are those of the figure, `dancers` how many there are.
///
/// # Errors
/// When it is none of these, or names a bar, a count or a place that there is not; with the line and the word.
pub fn read_taps(text: &str, bars: &BarCounts, dancers: u32) -> Result<Vec<Strike>, TypedTapsError> {
    let mut strikes = Vec::new();
    let mut begin = 0;
    for (index, line) in text.split('\n').enumerate() {
        let length = line.chars().count();
        let tokens = tokens_of(line, begin);
        if !tokens.is_empty() {
            read_line(&tokens, (bars, dancers), &mut strikes).map_err(|wrong| TypedTapsError {
                said: format!("Line {}: {}", index + 1, wrong.said),
                place: wrong.place,
                unfinished: wrong.unfinished,
            })?;
        }
        begin += length + 1;
    }
    Ok(strikes)
}

fn read_line(
    tokens: &[Token],
    of: (&BarCounts, u32),
    strikes: &mut Vec<Strike>,
) -> Result<(), WrongWord> {
    let mut line = Line { tokens };
    let in_bars = line.bars(of.0)?;
    let mut counts: Vec<f64> = Vec::new();
    loop {
        let end = line.tokens.iter().position(|token| token.is(";")).unwrap_or(line.tokens.len());
        let (item, rest) = line.tokens.split_at(end);
        let last = item.last().or(tokens.last()).map_or(0..1, |token| token.place.clone());
        let mut item = Item { tokens: item, last, bars: of.0, dancers: of.1 };
        strikes.push(item.read(&in_bars, &mut counts)?);
        let Some((_, after)) = rest.split_first() else { return Ok(()) };
        line.tokens = after;
        if after.is_empty() {
            // A semicolon at the end of a line is no mistake.
            return Ok(());
        }
    }
}

/// What is left of a line.
struct Line<'a> {
    tokens: &'a [Token],
}

impl Line<'_> {
    /// The bars that a line is about, from 1, in order.
    fn bars(&mut self, bars: &BarCounts) -> Result<Vec<u32>, WrongWord> {
        const SUCH: &str = "a line begins with its bar and a colon, such as bar 2:";
        let first = self.tokens.first().map_or(0..1, |token| token.place.clone());
        let colon = self.tokens.iter().position(|token| token.is(":"));
        let Some(colon) = colon else {
            let begun = self.tokens.iter().all(|token| {
                token.number().is_some() || ["bar", "bars", "and", ",", "to"].contains(&token.text.as_str())
            });
            return Err(WrongWord { said: SUCH.to_owned(), place: first, unfinished: begun });
        };
        let (head, rest) = self.tokens.split_at(colon);
        self.tokens = rest.get(1..).unwrap_or_default();
        let mut found: Vec<u32> = Vec::new();
        let mut to = false;
        for (index, token) in head.iter().enumerate() {
            match token.text.as_str() {
                "bar" | "bars" if index == 0 => {}
                "and" | "," if !found.is_empty() => {}
                "to" if !found.is_empty() => to = true,
                _ => {
                    let number = token.number().filter(|number| number.fract() == 0.0 && *number >= 1.0);
                    let Some(bar) = number.map(|number| number as u32) else {
                        return Err(WrongWord::at(token.place.clone(), format!("{} is no bar; {SUCH}", token.quoted())));
                    };
                    if bar > bars.bars() {
                        let said = format!("the figure has {} bars, and no bar {bar}", bars.bars());
                        return Err(WrongWord::at(token.place.clone(), said));
                    }
                    let from = found.last().copied().filter(|_| std::mem::take(&mut to)).unwrap_or(bar);
                    found.extend(from.min(bar)..=bar);
                }
            }
        }
        found.sort_unstable();
        found.dedup();
        if found.is_empty() {
            return Err(WrongWord::at(first, SUCH));
        }
        Ok(found)
    }
}
