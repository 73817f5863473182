//! What meets in the whole set, for pages that are for everybody.

use super::phrases::met as phrases;
use super::phrases::taps::when_words;
use crate::dance::{Dancer, StrikeEnd, StrikePart};
use crate::motion::{Blow, BlowOn, Motion, Span};

/// Counts this near are one moment.
const SAME: f64 = 1e-6;

/// What meets what.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Met {
    /// One dancer's end on another's.
    Ends(StrikeEnd, StrikeEnd),
    /// Both hands of one on both of another.
    BothHands,
    Ground(StrikeEnd),
    Own(StrikeEnd, StrikePart),
}

/// All who meet in one way at one moment.
#[derive(Clone, Debug, PartialEq)]
pub struct MetSaid {
    /// Counts of the figure.
    pub at: f64,
    /// Who, on whom: `odds on evens`, `partners`, `1 on 3`.
    pub who: String,
    /// How: `tip on butt`, `dib, tip`, `own hands`.
    pub how: String,
    /// For how many counts they stay together; 0 where they part at once.
    pub stays: f64,
}

impl MetSaid {
    /// All of it: `odds on evens, tip on butt`.
    #[must_use]
    pub fn words(&self) -> String {
        let stay = if self.stays > SAME { ", stay" } else { "" };
        format!("{}, {}{stay}", self.who, self.how)
    }
}

/// What meets in a figure from one count of it until before another, in order of time; those who do the same at once together.
#[must_use]
pub fn met_said(motion: &Motion, span: &Span, (from, to): (f64, f64)) -> Vec<MetSaid> {
    let blows = motion.blows_between(span.begin() + from, span.begin() + to);
    let mut said = Vec::new();
    for moment in blows.chunk_by(|one, other| other.count - one.count < SAME) {
        let Some(first) = moment.first() else { continue };
        let at = ((first.count - span.begin()) * 1e4).round() / 1e4;
        for (met, stays, pairs) in groups(moment) {
            let who = who(motion, span, met, &pairs);
            said.push(MetSaid { at, who, how: phrases::how(met), stays });
        }
    }
    said
}

/// The same for a line: `odds on evens, tip on butt, on the second beat of bar 3`; without the bar where all is in one.
#[must_use]
pub fn met_line(motion: &Motion, span: &Span, (from, to): (f64, f64)) -> String {
    let bars = span.bar_counts();
    let one_bar = bars.at(from + SAME).0 == bars.at(to - SAME).0;
    let mut lines: Vec<(String, u32, Vec<f64>)> = Vec::new();
    for met in met_said(motion, span, (from, to)) {
        let (bar, inside) = bars.at(met.at + SAME);
        let inside = (inside * 1e4).round() / 1e4;
        let words = met.words();
        match lines.iter_mut().find(|(known, there, _)| *known == words && *there == bar) {
            Some((.., at)) => at.push(inside),
            None => lines.push((words, bar, vec![inside])),
        }
    }
    let said = lines.into_iter().map(|(words, bar, at)| {
        let when = when_words(&at, bars.in_bar(bar));
        let bar = if one_bar { String::new() } else { format!(" of bar {}", bar + 1) };
        format!("{words}, {when}{bar}")
    });
    said.collect::<Vec<_>>().join("; ")
}

/// Who meets whom; nobody where it is the ground or oneself.
type Pairs = Vec<(Dancer, Option<Dancer>)>;

/// The blows of one moment by what meets and for how many counts, in the order in which they first come.
fn groups(moment: &[Blow]) -> Vec<(Met, f64, Pairs)> {
    use StrikeEnd::{Both, Left, Right};
    let both = |one: StrikeEnd, other: StrikeEnd| matches!((one, other), (Left, Right) | (Right, Left));
    let mut single: Vec<(Met, f64, Dancer, Option<Dancer>)> = Vec::new();
    for blow in moment {
        let (met, other) = match blow.on {
            BlowOn::Other(other) => (Met::Ends(blow.by.end, other.end), Some(other.dancer)),
            BlowOn::Ground => (Met::Ground(blow.by.end), None),
            BlowOn::Own(part) => (Met::Own(blow.by.end, part), None),
            BlowOn::Nobody(_) => continue,
        };
        let same = single.iter_mut().find_map(|(known, _, by, on)| {
            let same = *by == blow.by.dancer && *on == other;
            let turned = *on == Some(blow.by.dancer) && other == Some(*by);
            let together = match (*known, met) {
                (Met::Ends(a, x), Met::Ends(b, y))
                    if same && both(a, b) && both(x, y) || turned && both(a, y) && both(x, b) =>
                {
                    Met::BothHands
                }
                (Met::Ground(a), Met::Ground(b)) if same && both(a, b) => Met::Ground(Both),
                (Met::Own(a, x), Met::Own(b, y)) if same && both(a, b) && x == y => Met::Own(Both, x),
                _ => return None,
            };
            *known = together;
            Some(())
        });
        if same.is_none() {
            // To a thousandth, as counts are told.
            let stays = ((blow.until - blow.count) * 1e3).round() / 1e3;
            single.push((met, stays, blow.by.dancer, other));
        }
    }
    let mut groups: Vec<(Met, f64, Pairs)> = Vec::new();
    for (met, stays, by, on) in single {
        match groups.iter_mut().find(|(known, stay, _)| *known == met && (*stay - stays).abs() < SAME) {
            Some((.., pairs)) => pairs.push((by, on)),
            None => groups.push((met, stays, vec![(by, on)])),
        }
    }
    groups
}

/// Who does it, as short as it can be said.
fn who(motion: &Motion, span: &Span, met: Met, pairs: &Pairs) -> String {
    let dancers = motion.dancers();
    let mut strikers: Vec<Dancer> = pairs.iter().map(|(by, _)| *by).collect();
    let mut struck: Vec<Dancer> = pairs.iter().filter_map(|(_, on)| *on).collect();
    strikers.sort_unstable();
    struck.sort_unstable();
    let is_file = |who: &[Dancer], even: bool| {
        Dancer::all(dancers)
            .filter(|dancer| span.place(*dancer).get().is_multiple_of(2) == even)
            .eq(who.iter().copied())
    };
    if struck.is_empty() {
        return match () {
            () if strikers.len() == dancers && dancers > 1 => phrases::ALL.to_owned(),
            () if is_file(&strikers, false) && dancers > 2 => phrases::ODDS.to_owned(),
            () if is_file(&strikers, true) && dancers > 2 => phrases::EVENS.to_owned(),
            () => phrases::numbers(&strikers),
        };
    }
    let ground = motion.ground();
    let across = pairs
        .iter()
        .all(|(by, on)| on.is_some_and(|on| ground.pair(span.place(*by)) == Some(span.place(on))));
    let all_in = strikers.len() + struck.len() == dancers && dancers > 2;
    let even_handed = match met {
        Met::Ends(one, other) => one == other,
        _ => true,
    };
    match () {
        () if across && all_in && even_handed => phrases::PARTNERS.to_owned(),
        () if across && all_in && is_file(&strikers, false) => phrases::on(phrases::ODDS, phrases::EVENS),
        () if across && all_in && is_file(&strikers, true) => phrases::on(phrases::EVENS, phrases::ODDS),
        () => phrases::pairs(pairs, even_handed),
    }
}
