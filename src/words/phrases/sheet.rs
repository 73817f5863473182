//! The words around what each number does, on paper.

use super::small::foot_word;
use crate::dance::{BarCounts, Foot, Number};
use crate::motion::Moment;

/// The bars of a figure in its dance, counted from 0, and how many there are.
#[must_use]
pub fn bars(first: u32, many: u32) -> String {
    match many {
        1 => format!("bar {}", first + 1),
        _ => format!("bars {} to {}", first + 1, first + many),
    }
}

/// The bars of a phrase in its figure, from its counts.
#[must_use]
pub fn phrase_bars(bars: &BarCounts, begin: f64, end: f64) -> String {
    let (first, last) = (bars.at(begin).0 + 1, bars.at(end).0);
    if first >= last { format!("Bar {first}") } else { format!("Bars {first} to {last}") }
}

/// The heading over a number.
#[must_use]
pub fn number(number: Number, name: Option<&str>, standing: &str) -> String {
    let name = name.map_or_else(String::new, |name| format!(", {name}"));
    let standing = if standing.is_empty() { String::new() } else { format!(" ({standing})") };
    format!("Number {number}{name}{standing}")
}

/// What the foreman calls.
#[must_use]
pub fn call(call: &str) -> String {
    format!("call: {call}")
}

/// When the foreman calls a figure by its name.
#[must_use]
pub fn called(when: &str) -> String {
    format!("called {when}")
}

/// When the foreman calls: at a moment, or so many bars before the dancing.
#[must_use]
pub fn call_moment(moment: Result<Moment, f64>) -> String {
    match moment {
        Ok(moment) => format!("at bar {moment}"),
        Err(bars) => format!("{} before the dancing", many_bars(bars)),
    }
}

/// How many bars before its figure begins something is called.
#[must_use]
pub fn call_before(bars: f64) -> String {
    if bars > 0.0 { format!("{} before", many_bars(bars)) } else { "as it begins".to_owned() }
}

/// So many bars, and parts of one: `1 bar`, `1.5 bars`.
fn many_bars(bars: f64) -> String {
    let bars = (bars * 100.0).round() / 100.0;
    format!("{bars} {}", if bars == 1.0 { "bar" } else { "bars" })
}

/// The hop on the upbeat that ends a figure danced before, where it is on the other foot this time; `who` where it is not everybody's.
#[must_use]
pub fn hop_instead(who: &str, foot: Foot) -> String {
    let foot = foot_word(foot);
    match who {
        "" => format!("Here hop {foot} at the end."),
        one if one.bytes().all(|letter| letter.is_ascii_digit()) => {
            format!("Here {one} hops {foot} at the end.")
        }
        who => format!("Here {who} hop {foot} at the end."),
    }
}

/// Over what is said of each step.
#[must_use]
pub fn steps() -> &'static str {
    "The steps"
}

/// Which foot hops on an upbeat.
#[must_use]
pub fn upbeats() -> &'static str {
    "On the upbeat before each start hop on the other foot."
}

/// What is said of steps, hands and endings that are those of the figure told before.
#[must_use]
pub fn once_again() -> &'static str {
    "Steps and hands as before."
}

/// A figure danced before, in a gist.
#[must_use]
pub fn as_before() -> &'static str {
    "as before."
}

/// Over what some tap and clap.
#[must_use]
pub fn taps_of(who: &str) -> String {
    format!("Taps and claps of {who}:")
}

/// What a dancer has to watch for in a figure, as a line of their own.
#[must_use]
pub fn watch(line: &str) -> String {
    format!("Watch for: {line}.")
}

/// What it means to mirror another, and to dance the same turned about, where either is said.
#[must_use]
pub fn images(mirror: bool, about: bool) -> String {
    let mut said = Vec::new();
    if mirror {
        said.push("Who mirrors has left for right, and their partner's number for each number.");
    }
    if about {
        said.push("Turned half about: up for down, and their opposite's number for each number.");
    }
    said.join(" ")
}

/// What a figure danced before is said to be.
#[must_use]
pub fn again(first: u32, many: u32) -> String {
    format!("As in {}.", bars(first, many))
}

/// What is said of a dance with no figures.
#[must_use]
pub fn empty() -> &'static str {
    "No figures yet."
}
