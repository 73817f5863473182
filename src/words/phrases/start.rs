//! How a phrase is started.

use super::small::{bar_of, foot_word};
use crate::dance::{BarCounts, Foot, LeadRule};
use crate::motion::{LeadFrom, wrap_half};
use crate::words::{Start, StartTurn};

pub(super) fn start_words(bars: &BarCounts, start: &Start) -> String {
    let foot = foot_word(start.foot);
    let again = match start.turn {
        StartTurn::First if start.at < 1e-6 => String::new(),
        StartTurn::First | StartTurn::Fresh => format!(" {}", start_moment(bars, start.at)),
        StartTurn::Again => format!(" again {}", start_moment(bars, start.at)),
    };
    let rule = start.rule.map(|rule| match (rule, start.foot) {
        (LeadRule::OutsideFoot, _) => "outside foot",
        (LeadRule::LeftThenRight, Foot::Left) if start.half == Some(0) => "left in the first half",
        (LeadRule::LeftThenRight, Foot::Right) if start.half == Some(1) => "right in the second half",
        (LeadRule::LeftThenRight, _) => "left and right by turns",
        (LeadRule::SameWay, _) => "the same foot in both halves",
        (LeadRule::Left, _) => "always left",
        (LeadRule::Right, _) => "always right",
        (LeadRule::ByNumber, Foot::Left) => "odds start left",
        (LeadRule::ByNumber, Foot::Right) => "evens start right",
    });
    let why = match (start.from, rule) {
        (LeadFrom::Step, _) => "the foot that is free".to_owned(),
        (LeadFrom::Usual, _) => "as usual".to_owned(),
        (LeadFrom::Phrase, _) => "as the stepping says".to_owned(),
        (LeadFrom::Dancer, None) => "as drawn".to_owned(),
        (LeadFrom::Dancer, Some(rule)) => format!("{rule}, for you"),
        (LeadFrom::Named | LeadFrom::Figure | LeadFrom::Dance, None) => "as the figure goes".to_owned(),
        (LeadFrom::Named, Some(rule)) => rule.to_owned(),
        (LeadFrom::Figure, Some(rule)) => format!("{rule}, in this figure"),
        (LeadFrom::Dance, Some(rule)) => format!("{rule}, in this dance"),
    };
    // Up and down are what the outside foot is told by; across the set the facing says nothing.
    let facing = match start.facing.map(|facing| wrap_half(facing).abs()) {
        Some(off) if off <= 22.5 => ", as you face up",
        Some(off) if off >= 157.5 => ", as you face down",
        _ => "",
    };
    if start.at_once {
        format!("Start {foot}{again} ({why}{facing}).")
    } else {
        // It springs off, or stands, before a foot lands.
        let foot = if start.foot == Foot::Left { "Left" } else { "Right" };
        format!("{foot} foot first{again} ({why}{facing}).")
    }
}

/// `in bar 2`, or where it is not the bar's first count, `on count 3 of bar 2`.
pub(super) fn start_moment(bars: &BarCounts, count: f64) -> String {
    let inside = bars.at(count).1.round() as u64;
    match inside {
        0 => format!("in bar {}", bar_of(bars, count)),
        inside => format!("on count {} of bar {}", inside + 1, bar_of(bars, count)),
    }
}
