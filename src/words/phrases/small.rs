//! The small words of every sentence: when, how many, which foot and side, and lists.

use crate::dance::{BarCounts, Foot, Way};

/// Counts this near to a bar's beginning are at it.
const NEAR: f64 = 4e-6;

/// `by the end of bar 2`, `by half-way through bar 2`, `by count 4 of bar 2`.
pub(super) fn by_words(bars: &BarCounts, count: f64) -> String {
    format!("by {}", moment_words(bars, count))
}

pub(super) fn until_words(bars: &BarCounts, count: f64) -> String {
    format!("until {}", moment_words(bars, count))
}

pub(super) fn moment_words(bars: &BarCounts, count: f64) -> String {
    let (bar, inside) = bars.at(count.round());
    match inside as u32 {
        0 if bar == 0 => "the start".to_owned(),
        0 => format!("the end of bar {bar}"),
        half if 2 * half == bars.in_bar(bar) => format!("half-way through bar {}", bar + 1),
        inside => format!("count {} of bar {}", inside + 1, bar + 1),
    }
}

pub(super) fn during_words(bars: &BarCounts, begin: f64, end: f64) -> String {
    let (first, last) = (bar_of(bars, begin), bars.at(end - NEAR).0 + 1);
    match last.saturating_sub(first) {
        0 if bars.at(begin).1 >= 1.0 && bars.at(end).1 < 0.01 => format!("at the end of bar {first}"),
        0 => format!("in bar {first}"),
        1 => format!("in bars {first} and {last}"),
        _ => format!("in bars {first} to {last}"),
    }
}

/// The bar, from 1, in which a count lies.
pub(super) fn bar_of(bars: &BarCounts, count: f64) -> u32 {
    bars.at(count + NEAR).0 + 1
}

/// A number in a word, as far as twelve.
pub(super) fn number_word(number: u64) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    WORDS.get(number as usize).map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn list(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// With a capital letter.
pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

pub(super) fn way_word(way: Way) -> &'static str {
    match way {
        Way::Left => "left",
        Way::Right => "right",
    }
}

pub(super) fn foot_word(foot: Foot) -> &'static str {
    match foot {
        Foot::Left => "left",
        Foot::Right => "right",
    }
}
