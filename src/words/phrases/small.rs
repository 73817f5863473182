//! The small words of every sentence: when, how many, which foot and side, and lists.

use crate::dance::{COUNTS_PER_BAR, Foot, Way};

/// `by the end of bar 2`, `by half-way through bar 2`, `by count 4 of bar 2`.
pub(super) fn by_words(count: f64) -> String {
    format!("by {}", moment_words(count))
}

pub(super) fn until_words(count: f64) -> String {
    format!("until {}", moment_words(count))
}

pub(super) fn moment_words(count: f64) -> String {
    let per_bar = u64::from(COUNTS_PER_BAR);
    let whole = count.round().max(0.0) as u64;
    let (bar, inside) = (whole / per_bar, whole % per_bar);
    match inside {
        0 if bar == 0 => "the start".to_owned(),
        0 => format!("the end of bar {bar}"),
        2 => format!("half-way through bar {}", bar + 1),
        inside => format!("count {} of bar {}", inside + 1, bar + 1),
    }
}

pub(super) fn during_words(begin: f64, end: f64) -> String {
    let per_bar = f64::from(COUNTS_PER_BAR);
    let (first, last) = (bar_of(begin), (end / per_bar - 1e-6).max(0.0) as u64 + 1);
    match last.saturating_sub(first) {
        0 if begin % per_bar >= 1.0 && end % per_bar < 0.01 => format!("at the end of bar {first}"),
        0 => format!("in bar {first}"),
        1 => format!("in bars {first} and {last}"),
        _ => format!("in bars {first} to {last}"),
    }
}

/// The bar, from 1, in which a count lies.
pub(super) fn bar_of(count: f64) -> u64 {
    (count.max(0.0) / f64::from(COUNTS_PER_BAR) + 1e-6) as u64 + 1
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
