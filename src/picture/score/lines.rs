//! Which bars stand on which system.

use super::slots::{slots, width};
use crate::dance::{BarEnd, Length, ScoreBar, beat};

/// How much slots may be pressed together beside what they would like.
const TIGHT: f32 = 0.72;
/// How much of the width a line of the text must fill to be a system of its own.
const FULL: f32 = 0.5;

/// The systems that some bars make: the first bar of each, and the one after its last. Where the lines of the text fit
/// they are kept (6.1.1 of the ABC standard 2.1), else the bars are shared out evenly.
pub fn systems(bars: &[ScoreBar], room: f32) -> Vec<(usize, usize)> {
    let fits = |from: usize, to: usize| width(&slots(bars, from, to), TIGHT) <= room;
    let mut written = Vec::new();
    let mut from = 0;
    for (index, bar) in bars.iter().enumerate() {
        if bar.breaks || index + 1 == bars.len() {
            written.push((from, index + 1));
            from = index + 1;
        }
    }
    let fills =
        |from: usize, to: usize| to == bars.len() || width(&slots(bars, from, to), 1.0) >= room * FULL;
    if written.iter().all(|&(from, to)| fits(from, to) && fills(from, to)) {
        return written;
    }
    shared_out(bars, room, fits)
}

/// As few systems as hold the bars, as even as may be.
fn shared_out(bars: &[ScoreBar], room: f32, fits: impl Fn(usize, usize) -> bool) -> Vec<(usize, usize)> {
    // For each bar the best way to set all up to it: how many systems, how uneven, and where the last begins.
    let mut best: Vec<(usize, f32, usize)> = vec![(0, 0.0, 0)];
    for to in 1..=bars.len() {
        let mut found: Option<(usize, f32, usize)> = None;
        for from in (0..to).rev() {
            // One bar alone must stand somewhere.
            if to - from > 1 && !fits(from, to) {
                break;
            }
            let Some(&(count, uneven, _)) = best.get(from) else { break };
            let left = room - width(&slots(bars, from, to), 1.0);
            let here = (count + 1, uneven + left * left, from);
            if found.is_none_or(|found| (here.0, here.1) < (found.0, found.1)) {
                found = Some(here);
            }
        }
        best.extend(found);
    }
    let (mut made, mut to) = (Vec::new(), bars.len());
    while to > 0 {
        let from = best.get(to).map_or(0, |(_, _, from)| *from).min(to - 1);
        made.push((from, to));
        to = from;
    }
    made.reverse();
    made
}

/// Bars none of which is wider than a system: one that would be is cut, between beats if it can be.
pub fn cut_wide(bars: &[ScoreBar], room: f32) -> Vec<ScoreBar> {
    let mut made = Vec::with_capacity(bars.len());
    let mut left: Vec<ScoreBar> = bars.iter().rev().cloned().collect();
    while let Some(bar) = left.pop() {
        let alone = width(&slots(std::slice::from_ref(&bar), 0, 1), TIGHT);
        match cut(&bar).filter(|_| alone > room) {
            Some((first, rest)) => left.extend([rest, first]),
            None => made.push(bar),
        }
    }
    made
}

/// A bar in two, between beats near its middle if it can be.
fn cut(bar: &ScoreBar) -> Option<(ScoreBar, ScoreBar)> {
    let beat = beat(bar.metre);
    let on_beat = |at: Length| bar.from.plus(at).is_some_and(|at| (at.share_of(beat) + 1e-9).fract() < 2e-9);
    let middle = bar.items.len() / 2;
    let places = bar.items.iter().enumerate().skip(1);
    let (place, item) = places.min_by_key(|(index, item)| {
        let inside = item.tuplet.is_some_and(|place| !place.is_first);
        (inside, !on_beat(item.begin), index.abs_diff(middle))
    })?;
    let (mut first, mut rest) = (bar.clone(), bar.clone());
    let at = item.begin;
    first.items.truncate(place);
    (first.length, first.end, first.breaks) = (at, BarEnd::Open, false);
    rest.items.drain(..place);
    for item in &mut rest.items {
        item.begin = item.begin.less(at).unwrap_or(Length::NOTHING);
    }
    rest.from = bar.from.plus(at).unwrap_or(at);
    rest.length = bar.length.less(at).unwrap_or(Length::NOTHING);
    (rest.repeats, rest.ending, rest.part) = (false, None, None);
    Some((first, rest))
}
