//! What a dancer taps and claps, bar by bar.

use super::phrases::taps as phrases;
use crate::dance::{Dancer, Number, StrikeEnd, StrikePart};
use crate::motion::{Blow, BlowOn, Motion, Span, SpanIndex};

/// Counts this near are one moment.
const SAME: f64 = 1e-6;

/// What a dancer does when something meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tapping {
    /// Strikes another: with what of one's own, on what of theirs.
    On(Number, StrikeEnd, StrikeEnd),
    /// Is struck by another: with what of theirs, on what of one's own.
    By(Number, StrikeEnd, StrikeEnd),
    /// Both hands on both of another's.
    BothHands(Number),
    /// Strikes the ground.
    Ground(StrikeEnd),
    /// Strikes a part of oneself.
    Own(StrikeEnd, StrikePart),
}

/// One thing that a dancer does in a bar, once or again and again.
#[derive(Clone, Debug, PartialEq)]
pub struct TapFact {
    pub what: Tapping,
    /// When: counts from the beginning of the bar, in order.
    pub at: Vec<f64>,
    /// Whether they stay together after the last of them.
    pub stays: bool,
}

/// What a dancer does in one bar, in order.
#[derive(Clone, Debug, PartialEq)]
pub struct TapBar {
    /// How many counts the bar has.
    pub counts: u32,
    /// What is struck in it; empty where what met before stays together all through it.
    pub facts: Vec<TapFact>,
    /// Whether it is sticks that meet or stay together, and not hands alone.
    pub wood: bool,
}

/// What a dancer taps and claps in bars of a figure that are alike.
#[derive(Clone, Debug, PartialEq)]
pub struct TapsTold {
    /// The bars, from 0, in order.
    pub bars: Vec<u32>,
    /// A sentence, without its bars.
    pub text: String,
}

impl TapsTold {
    /// The sentence with its bars: `Bars 1 and 3: Tap 2, tip on butt, on the second beat.`
    #[must_use]
    pub fn line(&self) -> String {
        format!("{}: {}", phrases::bars(&self.bars), self.text)
    }
}

/// What a dancer taps and claps in a span (index) of a motion, a sentence for each bar, and one for bars that are alike,
/// where the first of them is.
#[must_use]
pub fn taps_told(motion: &Motion, span: SpanIndex, dancer: Dancer) -> Vec<TapsTold> {
    let Some(span) = motion.span(span) else { return Vec::new() };
    let mut told: Vec<(TapBar, TapsTold)> = Vec::new();
    for (bar, here) in tap_bars(motion, span, dancer) {
        match told.iter_mut().find(|(known, _)| *known == here) {
            Some((_, said)) => said.bars.push(bar),
            None => {
                let text = phrases::sentence(&here);
                told.push((here, TapsTold { bars: vec![bar], text }));
            }
        }
    }
    told.into_iter().map(|(_, told)| told).collect()
}

/// What a dancer taps in the bar under a count of the dance, or when they do so next in the figure: `tap 2, tip on butt, on the second
/// beat`. Nothing where nobody taps anything in the dance.
#[must_use]
pub fn tap_now(motion: &Motion, dancer: Dancer, count: f64) -> Option<String> {
    if motion.blows().is_empty() {
        return None;
    }
    let Some(span) = motion.span_under(count) else { return Some(String::new()) };
    let here = span.bar_counts().at(count - span.begin()).0;
    let bars = tap_bars(motion, span, dancer);
    let next = bars.into_iter().find(|(bar, said)| *bar == here || *bar > here && !said.facts.is_empty());
    Some(match next {
        Some((bar, said)) if bar == here => phrases::words(&said),
        Some((bar, said)) => phrases::later(bar, &said),
        None => String::new(),
    })
}

/// The bars of a figure, from 0, in which a dancer strikes or is struck, or stays together with another.
#[must_use]
pub fn tap_bars(motion: &Motion, span: &Span, dancer: Dancer) -> Vec<(u32, TapBar)> {
    let bars = span.bar_counts();
    let own: Vec<&Blow> = motion
        .blows_between(span.begin(), span.end())
        .iter()
        .filter(|blow| blow.has(dancer) && !matches!(blow.on, BlowOn::Nobody(_)))
        .collect();
    let (Some(first), Some(last)) = (own.first(), own.last()) else { return Vec::new() };
    let bar_of = |count: f64| bars.at(count + SAME - span.begin()).0;
    let until = own.iter().fold(last.count, |until, blow| until.max(blow.until - 2.0 * SAME));
    let mut found = Vec::new();
    for bar in bar_of(first.count)..=bar_of(until).min(bars.bars().saturating_sub(1)) {
        let (begin, end) = (span.begin() + bars.begin_of(bar), span.begin() + bars.begin_of(bar + 1));
        let here: Vec<&Blow> =
            own.iter().copied().filter(|blow| (begin - SAME..end - SAME).contains(&blow.count)).collect();
        let counts = bars.in_bar(bar);
        let stays = own.iter().find(|blow| blow.count < begin - SAME && blow.until >= end - SAME);
        if here.is_empty() {
            // What met before is still together.
            if let Some(stays) = stays {
                found.push((bar, TapBar { counts, facts: Vec::new(), wood: stays.is_of_wood() }));
            }
            continue;
        }
        let wood = here.iter().any(|blow| blow.is_of_wood());
        found.push((bar, TapBar { counts, facts: facts(&here, dancer, begin), wood }));
    }
    found
}

/// The blows of a dancer in a bar that begins at a count, in order, as what is said of them.
fn facts(blows: &[&Blow], dancer: Dancer, begin: f64) -> Vec<TapFact> {
    let mut facts: Vec<TapFact> = Vec::new();
    for moment in blows.chunk_by(|one, other| other.count - one.count < SAME) {
        let Some(count) = moment.first().map(|blow| blow.count) else { continue };
        let at = ((count - begin) * 1e4).round() / 1e4;
        for (what, stays) in at_once(moment, dancer) {
            match facts.last_mut() {
                Some(last) if last.what == what && !last.stays => {
                    last.at.push(at);
                    last.stays = stays;
                }
                _ => facts.push(TapFact { what, at: vec![at], stays }),
            }
        }
    }
    facts
}

/// With whom both hands meet both of theirs, where they do so in these two, whoever strikes.
fn both_hands(one: Tapping, other: Tapping) -> Option<Number> {
    use StrikeEnd::{Left, Right};
    let hands = |what: Tapping| match what {
        Tapping::On(with, own, their) | Tapping::By(with, their, own) => Some((with, own, their)),
        _ => None,
    };
    let (one, other) = hands(one).zip(hands(other))?;
    let differ = |one: StrikeEnd, other: StrikeEnd| matches!((one, other), (Left, Right) | (Right, Left));
    (one.0 == other.0 && differ(one.1, other.1) && differ(one.2, other.2)).then_some(one.0)
}

/// What a dancer does in the blows of one moment; two hands that do the same are said together.
fn at_once(moment: &[&Blow], dancer: Dancer) -> Vec<(Tapping, bool)> {
    use StrikeEnd::{Both, Left, Right};
    let mut all: Vec<(Tapping, bool)> = Vec::new();
    for blow in moment {
        let (own, stays) = (blow.by.dancer == dancer, blow.until > blow.count + SAME);
        let what = match blow.on {
            BlowOn::Other(other) if own => Tapping::On(other.dancer.number(), blow.by.end, other.end),
            BlowOn::Other(other) => Tapping::By(blow.by.dancer.number(), blow.by.end, other.end),
            BlowOn::Ground => Tapping::Ground(blow.by.end),
            BlowOn::Own(part) => Tapping::Own(blow.by.end, part),
            BlowOn::Nobody(_) => continue,
        };
        let both = |one: StrikeEnd, other: StrikeEnd| matches!((one, other), (Left, Right) | (Right, Left));
        let joined = all.iter_mut().find_map(|(known, _)| {
            let together = match (*known, what) {
                (one, other) if both_hands(one, other).is_some() => {
                    Tapping::BothHands(both_hands(one, other)?)
                }
                (Tapping::Ground(a), Tapping::Ground(b)) if both(a, b) => Tapping::Ground(Both),
                (Tapping::Own(a, one), Tapping::Own(b, other)) if one == other && both(a, b) => {
                    Tapping::Own(Both, one)
                }
                _ => return None,
            };
            *known = together;
            Some(())
        });
        // With two sticks on two it is said once.
        if joined.is_none() && all.iter().all(|(known, _)| *known != what) {
            all.push((what, stays));
        }
    }
    all
}
