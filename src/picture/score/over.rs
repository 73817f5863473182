//! What stands over and under the notes: ties, tuplets, chord symbols, endings, the letters of parts.

use super::brush::curves;
use super::digits::digits;
use super::measures::{BRACKET, PART, SMALL_FIGURE, TIE, TIE_END, WORDS};
use super::notes::Placed;
use super::pen::Pen;
use super::slots::{dots_width, y_of};
use crate::dance::{BarEnd, ScoreBar};
use crate::picture::{Anchor, Face, words_width};

/// A bar of a system: its index, where it begins and where its line is.
#[derive(Clone, Copy)]
pub struct BarPlace {
    pub bar: usize,
    pub left: f32,
    pub right: f32,
}

/// Ties to the next note of the same step; `led` are the steps that a tie leads on from the system before.
pub fn put_ties(pen: &mut Pen, notes: &[Placed], led: &[i32], right: f32) {
    if let Some(first) = notes.first() {
        for (index, head) in first.item.heads.iter().enumerate() {
            if led.contains(&head.step) {
                let above = is_above(first, index);
                put_tie(pen, [first.x - 1.9, first.middle() - 0.35], y_of(head.step), above);
            }
        }
    }
    for (index, placed) in notes.iter().enumerate() {
        let next = notes.get(index + 1);
        for (place, head) in placed.item.heads.iter().enumerate().filter(|(_, head)| head.is_tied) {
            let to = match next {
                Some(next) if next.item.heads.iter().any(|other| other.step == head.step) => {
                    next.middle() - 0.35
                }
                Some(_) => continue,
                None => right - 0.3,
            };
            let above = is_above(placed, place);
            // Over a note on a line it begins after the dots, which stand in the space above.
            let dots = if above && head.step % 2 == 0 { dots_width(placed.item) * 1.4 } else { 0.0 };
            put_tie(pen, [placed.middle() + 0.35 + dots, to], y_of(head.step), above);
        }
    }
}

/// Whether the tie of a head lies over it: away from the stem, and in a chord away from its middle.
fn is_above(placed: &Placed, head: usize) -> bool {
    let count = placed.item.heads.len();
    if count == 1 { !placed.plan.stem_up } else { head >= count.div_ceil(2) }
}

fn put_tie(pen: &mut Pen, [from, to]: [f32; 2], y: f32, above: bool) {
    let way = if above { -1.0 } else { 1.0 };
    let to = to.max(from + 0.8);
    let long = to - from;
    let start = y + way * 0.68;
    let high = (0.28 + 0.06 * long).clamp(0.4, 1.1);
    let at = |share: f32, out: f32| [from + long * share, start + way * out];
    let outline = curves(
        at(0.0, 0.0),
        &[
            [at(0.2, high * 1.33), at(0.8, high * 1.33), at(1.0, 0.0)],
            [at(1.0, 0.0), at(1.0, -TIE_END), at(1.0, -TIE_END)],
            [at(0.8, high * 1.33 - TIE * 1.33), at(0.2, high * 1.33 - TIE * 1.33), at(0.0, -TIE_END)],
        ],
    );
    pen.outline(&[outline], [0.0, 0.0], 1.0);
}

/// The figures of tuplets, with a bracket where no beam holds just their notes.
pub fn put_tuplets(pen: &mut Pen, notes: &[Placed], groups: &[(usize, usize)]) {
    let mut from = None;
    for (index, placed) in notes.iter().enumerate() {
        let Some(place) = placed.item.tuplet else {
            from = None;
            continue;
        };
        if place.is_first {
            from = Some(index);
        }
        let ends = place.is_last
            || notes.get(index + 1).is_none_or(|next| next.item.tuplet.is_none_or(|next| next.is_first));
        if let Some(begin) = from.filter(|_| ends) {
            let held = groups.contains(&(begin, index + 1));
            put_tuplet(pen, notes.get(begin..=index).unwrap_or_default(), place.number, held);
            from = None;
        }
    }
}

fn put_tuplet(pen: &mut Pen, notes: &[Placed], number: u64, is_held: bool) {
    let (Some(first), Some(last)) = (notes.first(), notes.last()) else { return };
    let stems_down =
        notes.iter().filter(|placed| !placed.item.heads.is_empty() && !placed.plan.stem_up).count();
    let above = 2 * stems_down <= notes.len();
    let (left, right) =
        if is_held { (first.stem_x(), last.stem_x()) } else { (first.x - 0.1, last.x + 1.35) };
    let (figures, wide) = digits(number);
    let wide = wide * SMALL_FIGURE;
    let middle = f32::midpoint(left, right);
    let y = if above {
        pen.top_over(left, right).min(-0.2) - 0.95
    } else {
        pen.bottom_under(left, right).max(4.2) + 0.95
    };
    pen.outline(&figures, [middle - wide / 2.0, y], SMALL_FIGURE);
    if !is_held {
        let hook = if above { 0.6 } else { -0.6 };
        for (end, inside) in [(left, middle - wide / 2.0 - 0.35), (right, middle + wide / 2.0 + 0.35)] {
            pen.line([end, y + hook], [end, y], BRACKET);
            pen.line([end, y], [inside, y], BRACKET);
        }
        pen.taken.push([left, y - 0.1, right, y + 0.1]);
    }
}

/// The chord symbols, in one row.
pub fn put_chords(pen: &mut Pen, notes: &[Placed]) {
    let named = || notes.iter().filter(|placed| !placed.item.chord.trim().is_empty());
    let over = |placed: &Placed| {
        pen.top_over(placed.x, placed.x + words_width(&placed.item.chord, WORDS, Face::Regular))
    };
    let y = named().map(over).fold(-0.6, f32::min) - 1.3;
    for placed in named() {
        pen.words([placed.x, y], WORDS, Anchor::Left, &placed.item.chord, false);
    }
}

/// The brackets of the endings, in one row. An ending goes on to the end of its repeat, a double line or the next ending;
/// `open` says that one is open from the system before, and what comes back that one is left open.
pub fn put_endings(pen: &mut Pen, bars: &[ScoreBar], places: &[BarPlace], mut open: bool) -> bool {
    let mut spans: Vec<(f32, f32, Option<String>, bool)> = Vec::new();
    for place in places {
        let Some(bar) = bars.get(place.bar) else { continue };
        let closes = matches!(bar.end, BarEnd::Repeat | BarEnd::Final);
        if let Some(text) = &bar.ending {
            spans.push((place.left, place.right, Some(text.clone()), closes));
        } else if open && bar.repeats {
            open = false;
            continue;
        } else if open {
            match spans.last_mut() {
                Some(last) => (last.1, last.3) = (place.right, closes),
                None => spans.push((place.left, place.right, None, closes)),
            }
        } else {
            continue;
        }
        let next_ends = bars.get(place.bar + 1).is_none_or(|next| next.ending.is_some());
        open = !closes && bar.end != BarEnd::Double && !next_ends;
    }
    let y = spans.iter().map(|(left, right, ..)| pen.top_over(*left, *right)).fold(-0.6, f32::min) - 2.4;
    for (left, right, text, closes) in spans {
        let (left, right) = (left + 0.15, right - if closes { 0.5 } else { 0.1 });
        pen.line([left, y], [right, y], BRACKET);
        if let Some(text) = text {
            pen.line([left, y], [left, y + 1.9], BRACKET);
            let words = text.replace(',', ", ").replace('-', "–") + ".";
            pen.words([left + 0.55, y + 1.2], WORDS, Anchor::Left, &words, false);
        }
        if closes {
            pen.line([right, y], [right, y + 1.9], BRACKET);
        }
        pen.taken.push([left, y, right, y + 1.9]);
    }
    open
}

/// The letters of the parts that begin in a system.
pub fn put_parts(pen: &mut Pen, bars: &[ScoreBar], places: &[BarPlace]) {
    for place in places {
        let Some(part) = bars.get(place.bar).and_then(|bar| bar.part.as_ref()) else { continue };
        let wide = words_width(part, PART, Face::Bold);
        let y = pen.top_over(place.left, place.left + wide + 0.6).min(-0.6) - 1.5;
        pen.words([place.left, y], PART, Anchor::Left, part, true);
    }
}
