//! Taps and claps as people say them, and a figure's pattern of them in a line a bar. What is written so, `read_taps` reads.

use super::phrases::list;
use crate::dance::{BarCounts, Foot, Strike, StrikeEnd, StrikePart, Striker, Struck};
use crate::motion::{Blow, BlowHand, BlowOn};

/// What it is called: a tap where a stick strikes, a clap of hands.
#[must_use]
pub fn strike_noun(strike: &Strike) -> &'static str {
    if strike.end.is_of_stick() { "tap" } else { "clap" }
}

/// What strikes or is struck: `tip`, `right hand`.
#[must_use]
pub fn strike_end_words(end: StrikeEnd) -> &'static str {
    match end {
        StrikeEnd::Tip => "tip",
        StrikeEnd::Butt => "butt",
        StrikeEnd::Middle => "middle",
        StrikeEnd::Right => "right hand",
        StrikeEnd::Left => "left hand",
        StrikeEnd::Both => "both hands",
    }
}

/// A part of oneself after who strikes it with what: `behind`, `on right knee`.
#[must_use]
pub fn strike_part_words(part: StrikePart) -> &'static str {
    match part {
        StrikePart::Hands => "on own hands",
        StrikePart::Behind => "behind",
        StrikePart::Overhead => "overhead",
        StrikePart::RightKnee => "on right knee",
        StrikePart::LeftKnee => "on left knee",
        StrikePart::UnderRightKnee => "under right knee",
        StrikePart::UnderLeftKnee => "under left knee",
    }
}

/// Who strikes: `odds`, `3`.
#[must_use]
pub fn striker_words(by: Striker) -> String {
    match by {
        Striker::Place(place) => place.to_string(),
        Striker::Odds => "odds".to_owned(),
        Striker::Evens => "evens".to_owned(),
        Striker::All => "all".to_owned(),
    }
}

/// Who or what is struck: `partner`, `neighbour up`, `5`.
#[must_use]
pub fn struck_words(on: Struck) -> String {
    match on {
        Struck::Partner => "partner".to_owned(),
        Struck::Opposite => "opposite".to_owned(),
        Struck::Up => "neighbour up".to_owned(),
        Struck::Down => "neighbour down".to_owned(),
        Struck::Ground => "ground".to_owned(),
        Struck::Own => "self".to_owned(),
        Struck::Place(place) => place.to_string(),
    }
}

/// A number without more digits than people write: thousandths.
pub(super) fn short(number: f64) -> f64 {
    (number * 1e3).round() / 1e3
}

/// A strike without when it is: `odds tip on partner's butt, at 1.3 m, stay`.
#[must_use]
pub fn strike_said(strike: &Strike) -> String {
    let mut said = format!("{} {}", striker_words(strike.by), strike_end_words(strike.end));
    if let Some(hand) = strike.hand {
        said += if hand == Foot::Left { " of left stick" } else { " of right stick" };
    }
    said += " ";
    said += &match (strike.on, strike.their, strike.part) {
        (Struck::Own, _, Some(part)) => strike_part_words(part).to_owned(),
        (Struck::Own, _, None) if strike.end == StrikeEnd::Both => "together".to_owned(),
        (Struck::Ground | Struck::Own, ..) => format!("on {}", struck_words(strike.on)),
        (on, None, _) => format!("on {}", struck_words(on)),
        (on, Some(their), _) => format!("on {}'s {}", struck_words(on), strike_end_words(their)),
    };
    if let Some(hand) = strike.their_hand {
        said += if strike.their.is_some() { " of " } else { "'s " };
        said += if hand == Foot::Left { "left stick" } else { "right stick" };
    }
    if let Some(height) = strike.height {
        said += &format!(", at {} m", short(height));
    }
    if strike.stay {
        said += ", stay";
    }
    said
}

/// Two ends that meet, as they are danced: `1's tip on 2's butt`.
#[must_use]
pub fn blow_said(blow: &Blow) -> String {
    let hand = |hand: BlowHand| format!("{}'s {}", hand.dancer, strike_end_words(hand.end));
    let by = hand(blow.by);
    match blow.on {
        BlowOn::Other(other) => format!("{by} on {}", hand(other)),
        BlowOn::Nobody(on) => format!("{by} on {}, and there is none", struck_words(on)),
        BlowOn::Ground => format!("{by} on the ground"),
        BlowOn::Own(StrikePart::Hands) => format!("{}'s own hands", blow.by.dancer),
        BlowOn::Own(part) if part.is_of_hands() => {
            format!("{}'s hands {}", blow.by.dancer, strike_part_words(part))
        }
        BlowOn::Own(part) => format!("{by} {}", strike_part_words(part)),
    }
}

/// When a strike is: bars from 1, counts from 1 in each of them; and more moments, where it is not at the same counts of each bar.
struct When {
    bars: Vec<u32>,
    counts: Vec<f64>,
    again: Vec<(u32, f64)>,
}

impl When {
    fn of(strike: &Strike, bars: &BarCounts) -> Self {
        let moment = |count: f64| {
            let (bar, inside) = bars.at(count + 1e-9);
            let last = f64::from(bars.in_bar(bar)) + 0.999;
            (bar + 1, short((inside + 1.0 - 1e-9).max(1.0)).min(last))
        };
        let all: Vec<(u32, f64)> = strike.counts().map(moment).collect();
        let mut of_bars: Vec<u32> = all.iter().map(|(bar, _)| *bar).collect();
        of_bars.dedup();
        let mut counts: Vec<f64> = all.iter().map(|(_, count)| *count).collect();
        counts.sort_by(f64::total_cmp);
        counts.dedup();
        let product = of_bars.iter().flat_map(|bar| counts.iter().map(move |count| (*bar, *count)));
        if product.eq(all.iter().copied()) {
            return Self { bars: of_bars, counts, again: Vec::new() };
        }
        let mut all = all.into_iter();
        let (bar, count) = all.next().unwrap_or((1, 1.0));
        Self { bars: vec![bar], counts: vec![count], again: all.collect() }
    }
}

/// The strikes of a figure as they are typed, a line for each bar, or for several in which the same is done.
#[must_use]
pub fn taps_written(strikes: &[Strike], bars: &BarCounts) -> String {
    let mut strikes: Vec<&Strike> = strikes.iter().collect();
    strikes.sort_by(|one, other| one.at.total_cmp(&other.at));
    let mut lines: Vec<String> = Vec::new();
    let mut before: Option<When> = None;
    for strike in strikes {
        let when = When::of(strike, bars);
        let on_line = before.as_ref().filter(|before| before.bars == when.bars);
        let same_counts = on_line.is_some_and(|before| before.counts == when.counts);
        let counts: Vec<String> = when.counts.iter().map(f64::to_string).collect();
        let counts = match counts.as_slice() {
            _ if same_counts => String::new(),
            [one] => format!("count {one}, "),
            many => format!("counts {}, ", list(many)),
        };
        let mut said = format!("{counts}{}", strike_said(strike));
        if !when.again.is_empty() {
            let again: Vec<String> = when.again.iter().map(|(bar, count)| format!("{bar}:{count}")).collect();
            said += &format!(", again at {}", list(&again));
        }
        match lines.last_mut().filter(|_| on_line.is_some()) {
            Some(line) => *line += &format!("; {said}"),
            None => {
                let numbers: Vec<String> = when.bars.iter().map(u32::to_string).collect();
                let word = if numbers.len() == 1 { "bar" } else { "bars" };
                lines.push(format!("{word} {}: {said}", list(&numbers)));
            }
        }
        before = Some(when);
    }
    lines.join("\n")
}
