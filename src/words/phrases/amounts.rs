//! How far: turns in eighths, distances in paces.

use super::small::{number_word, way_word};
use crate::dance::Way;

/// A pace, metres: chosen for this program.
pub const PACE: f64 = 0.75;

/// A turn's way and amount, such as `Turn left three quarters`.
#[must_use]
pub fn turn_words(way: Way, degrees: f64) -> String {
    let amount = match eighths(degrees) {
        4 => "half round".to_owned(),
        many => amount(many),
    };
    format!("Turn {} {amount}", way_word(way))
}

/// A distance in paces and half paces, or in metres where it is short.
#[must_use]
pub fn distance(metres: f64) -> String {
    if metres < PACE / 2.0 {
        return format!("{metres:.1} m");
    }
    let halves = (metres / PACE * 2.0).round().max(1.0) as u64;
    match (halves / 2, halves % 2) {
        (0, _) => "half a pace".to_owned(),
        (1, 0) => "one pace".to_owned(),
        (many, 0) => format!("{} paces", number_word(many)),
        (many, _) => format!("{} and a half paces", number_word(many)),
    }
}

/// Eighths of a turn, for amounts.
pub(super) fn eighths(degrees: f64) -> u32 {
    (degrees.abs() / 45.0).round() as u32
}

/// An amount in eighths of a whole turn.
pub(super) fn amount(eighths: u32) -> String {
    let (whole, rest) = (eighths / 8, eighths % 8);
    let part = match rest {
        0 => "",
        1 => "an eighth",
        2 => "a quarter",
        3 => "three eighths",
        4 => "a half",
        5 => "five eighths",
        6 => "three quarters",
        _ => "seven eighths",
    };
    let times = match whole {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        many => format!("{} times", number_word(u64::from(many))),
    };
    match (whole, rest) {
        (0, 0) => "a little".to_owned(),
        (0, _) => part.to_owned(),
        (1, 0) => "once round".to_owned(),
        (_, 0) => format!("{times} round"),
        _ => format!("{times} and {part}"),
    }
}
