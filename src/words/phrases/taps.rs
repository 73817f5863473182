//! The words of taps and claps: who, with what, and on which beat.

use super::small::{capital, list};
use crate::dance::{StrikeEnd, StrikePart};
use crate::words::strike_said::strike_end_words;
use crate::words::taps::{TapBar, TapFact, Tapping};

/// Counts this near to a whole one are on it.
const NEAR: f64 = 1e-3;

/// What a dancer does in a bar: `Tap 2, tip on butt, on the second beat.`
#[must_use]
pub fn sentence(bar: &TapBar) -> String {
    format!("{}.", capital(&words(bar)))
}

/// The same within a sentence: `tap 2, tip on butt, on the second beat; sticks stay crossed`.
#[must_use]
pub fn words(bar: &TapBar) -> String {
    let mut parts = Vec::new();
    let mut before = String::new();
    for fact in &bar.facts {
        let (who, how) = action(fact.what);
        let when = when_words(&fact.at, bar.counts);
        // Whom is said once where the next is on the same.
        let shown = if who == before && !how.is_empty() { String::new() } else { who.clone() };
        parts.push(match (shown.is_empty(), how.is_empty()) {
            (true, _) => format!("{how} {when}"),
            (_, true) => format!("{shown} {when}"),
            (false, false) => format!("{shown}, {how}, {when}"),
        });
        before = who;
        if fact.stays {
            parts.push(stays(fact).to_owned());
        }
    }
    if parts.is_empty() {
        parts.push(if bar.wood { CROSSED } else { TOGETHER }.to_owned());
    }
    parts.join("; ")
}

/// What a dancer does in a later bar, from 0, of the figure.
#[must_use]
pub fn later(bar: u32, said: &TapBar) -> String {
    format!("in bar {}: {}", bar + 1, words(said))
}

const CROSSED: &str = "sticks stay crossed";
const TOGETHER: &str = "hands stay together";

fn stays(fact: &TapFact) -> &'static str {
    let wood = match fact.what {
        Tapping::On(_, one, other) | Tapping::By(_, one, other) => one.is_of_stick() || other.is_of_stick(),
        Tapping::BothHands(_) => false,
        Tapping::Ground(end) if end.is_of_stick() => return "the stick stays down",
        Tapping::Ground(_) => return "the hand stays down",
        Tapping::Own(..) => return "stay so",
    };
    if wood { CROSSED } else { TOGETHER }
}

/// What is done to whom, and how.
fn action(what: Tapping) -> (String, String) {
    match what {
        Tapping::On(other, own, their) => (format!("{} {other}", verb(own, their)), ends(own, their, "")),
        // Where both do the same nobody is the one who strikes.
        Tapping::By(other, their, own) if their == own => {
            (format!("{} {other}", verb(own, their)), ends(own, their, ""))
        }
        Tapping::By(other, their, own) => {
            (format!("{other} {}s you", verb(own, their)), ends(their, own, "your "))
        }
        Tapping::BothHands(other) => (format!("clap {other}"), "both hands".to_owned()),
        Tapping::Ground(end) if end.is_of_stick() => {
            (format!("dib the ground with the {}", end.key()), String::new())
        }
        Tapping::Ground(StrikeEnd::Both) => ("slap the ground with both hands".to_owned(), String::new()),
        Tapping::Ground(end) => {
            (format!("slap the ground with the {}", strike_end_words(end)), String::new())
        }
        Tapping::Own(end, part) => (own_words(end, part), String::new()),
    }
}

/// What meets oneself: `clap own hands`, `right hand on right knee`.
#[must_use]
pub fn own_words(end: StrikeEnd, part: StrikePart) -> String {
    let place = match part {
        StrikePart::Hands => "",
        StrikePart::Behind => " behind",
        StrikePart::Overhead => " overhead",
        StrikePart::UnderRightKnee => " under the right knee",
        StrikePart::UnderLeftKnee => " under the left knee",
        StrikePart::RightKnee => return format!("{} on right knee", strike_end_words(end)),
        StrikePart::LeftKnee => return format!("{} on left knee", strike_end_words(end)),
    };
    if end.is_of_stick() {
        return format!("tap own hand with the {}{place}", end.key());
    }
    format!("clap own hands{place}")
}

fn verb(one: StrikeEnd, other: StrikeEnd) -> &'static str {
    if one.is_of_stick() || other.is_of_stick() { "tap" } else { "clap" }
}

/// Which end meets which: `tip on butt`, `right on left`, `tip on right hand`.
#[must_use]
pub fn ends(one: StrikeEnd, other: StrikeEnd, whose: &str) -> String {
    let hands = !one.is_of_stick() && !other.is_of_stick();
    let word = |end: StrikeEnd| if hands { end.key() } else { strike_end_words(end) };
    format!("{} on {whose}{}", word(one), word(other))
}

/// On which beats of a bar of so many counts something is done, counts from 0: `on the second beat`, `on both beats`, `after the first
/// beat`. A count is half a strong beat.
#[must_use]
pub fn when_words(at: &[f64], counts: u32) -> String {
    let is = |count: &f64, wanted: u32| (count - f64::from(wanted)).abs() < NEAR;
    let all = |mut wanted: Vec<u32>| {
        wanted.len() == at.len() && at.iter().zip(wanted.drain(..)).all(|(count, wanted)| is(count, wanted))
    };
    if all((0..counts).step_by(2).collect()) && at.len() > 1 {
        return if counts == 4 { "on both beats" } else { "on all three beats" }.to_owned();
    }
    if all((0..counts).collect()) {
        return "on every count".to_owned();
    }
    let mut words: Vec<String> = Vec::new();
    let mut before: Option<u32> = None;
    for count in at {
        let near = count.round().max(0.0) as u32;
        let beat = ordinal(near / 2);
        words.push(match () {
            () if !is(count, near) => format!("at count {}", ((count + 1.0) * 100.0).round() / 100.0),
            () if near.is_multiple_of(2) => format!("on the {beat} beat"),
            () if before == Some(near - 1) => "after it".to_owned(),
            () => format!("after the {beat} beat"),
        });
        before = is(count, near).then_some(near);
    }
    list(&words)
}

fn ordinal(beat: u32) -> &'static str {
    match beat {
        0 => "first",
        1 => "second",
        _ => "third",
    }
}

/// Bars, from 0 and in order: `Bar 1`, `Bars 1 and 3`, `Bars 1 to 4 and 6`.
#[must_use]
pub fn bars(bars: &[u32]) -> String {
    let runs = bars.chunk_by(|one, other| one + 1 == *other);
    let words = runs.flat_map(|run| match run {
        [first, _, .., last] => vec![format!("{} to {}", first + 1, last + 1)],
        few => few.iter().map(|bar| (bar + 1).to_string()).collect(),
    });
    format!("{} {}", if bars.len() == 1 { "Bar" } else { "Bars" }, list(&words.collect::<Vec<_>>()))
}
