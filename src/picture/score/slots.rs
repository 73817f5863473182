//! What stands along a stave, and how much room each thing takes: a row of slots, each with what it needs to its left and
//! its right and what it would like to the next.

use super::beams::{beam_groups, has_flag};
use super::digits::digits;
use super::glyphs::{HEAD, WHOLE_HEAD, accidental, rest};
use super::measures::{
    AFTER_BAR, BAR_GAP, DOT, DOT_GAP, FLAT_STEP, GROWTH, LEAST_GAP, LEDGER_REACH, QUAVER, SHARP_STEP, THICK,
    THIN, WORDS,
};
use super::notes::flag_room;
use crate::dance::{BarEnd, Head, Length, ScoreBar, ScoreItem};
use crate::picture::{Face, words_width};

/// What a slot holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SlotKind {
    Clef,
    /// A key signature after another: sharps, flats below 0.
    Key(i32, i32),
    Metre((u64, u64)),
    /// The repeat that begins a bar; whether a thick line stands before it already.
    Begin {
        bar: usize,
        joined: bool,
    },
    Item {
        bar: usize,
        item: usize,
    },
    End {
        bar: usize,
        shape: BarEnd,
    },
}

/// A thing along the stave. Its place is the left of its first head, or of itself.
#[derive(Clone, Copy, Debug)]
pub struct Slot {
    pub what: SlotKind,
    /// What it needs before its place, after it, and as a gap to the next.
    pub before: f32,
    pub after: f32,
    pub gap: f32,
    /// From its place to the next where there is room.
    pub ideal: f32,
}

/// Where the heads of a chord stand beside its stem, and where its accidentals and dots do.
pub struct ChordPlan {
    pub stem_up: bool,
    /// For each head whether it is on the wrong side of the stem.
    pub displaced: Vec<bool>,
    /// For each head how far left of its place its accidental begins.
    pub accidentals: Vec<Option<f32>>,
    /// How far down the dots are.
    pub dots: Vec<f32>,
}

/// The y of a step: 0 on the top line, which is F.
pub fn y_of(step: i32) -> f32 {
    (10 - step) as f32 / 2.0
}

/// Half the width of the heads of an item.
pub fn head_half(item: &ScoreItem) -> f32 {
    if item.value.part == 1 { WHOLE_HEAD } else { HEAD }
}

/// Whether the stem of heads goes up: it does when the one farthest from the middle line is below it.
pub fn goes_up(heads: &[Head]) -> bool {
    let low = heads.iter().map(|head| head.step).min().unwrap_or(6);
    let high = heads.iter().map(|head| head.step).max().unwrap_or(6);
    6 - low > high - 6
}

/// Plans a chord, or a single note, whose stem goes up or down.
pub fn plan(item: &ScoreItem, stem_up: bool) -> ChordPlan {
    let count = item.heads.len();
    let mut displaced = vec![false; count];
    // From the end of the stem where it begins: a second next to a head in its place goes to the other side.
    let order: Vec<usize> = if stem_up { (0..count).collect() } else { (0..count).rev().collect() };
    let mut before: Option<(i32, bool)> = None;
    for index in order {
        let (Some(head), Some(place)) = (item.heads.get(index), displaced.get_mut(index)) else { continue };
        *place = before.is_some_and(|(step, was)| (step - head.step).abs() <= 1 && !was);
        before = Some((head.step, *place));
    }
    let shift = if !stem_up && displaced.contains(&true) { 2.0 * head_half(item) } else { 0.0 };
    let mut accidentals = vec![None; count];
    let mut columns: Vec<i32> = Vec::new();
    for (head, place) in item.heads.iter().zip(&mut accidentals).rev() {
        let Some(semitones) = head.accidental else { continue };
        let free = columns.iter().position(|step| step - head.step >= 6);
        let column = free.unwrap_or(columns.len());
        match columns.get_mut(column) {
            Some(step) => *step = head.step,
            None => columns.push(head.step),
        }
        let wide = accidental(semitones).1;
        *place = Some(shift + 0.26 + wide + column as f32 * 1.24);
    }
    let mut dots: Vec<f32> = Vec::new();
    if item.value.dots > 0 {
        for head in item.heads.iter().rev() {
            let on_line = head.step.rem_euclid(2) == 0;
            let y = y_of(head.step) - if on_line { 0.5 } else { 0.0 };
            let is_taken = dots.iter().any(|dot| (dot - y).abs() < 0.1);
            dots.push(if is_taken { y + 1.0 } else { y });
        }
    }
    ChordPlan { stem_up, displaced, accidentals, dots }
}

/// The room that the dots of an item take.
pub fn dots_width(item: &ScoreItem) -> f32 {
    item.value.dots as f32 * (DOT_GAP + 2.0 * DOT)
}

/// The sharps or flats of a key signature: semitones and steps, each in its usual place under a treble clef.
pub fn signature(sharps: i32) -> impl Iterator<Item = (i32, i32)> {
    const SHARPS: [i32; 7] = [10, 7, 11, 8, 5, 9, 6];
    const FLATS: [i32; 7] = [6, 9, 5, 8, 4, 7, 3];
    let (steps, sign) = if sharps < 0 { (FLATS, -1) } else { (SHARPS, 1) };
    steps.into_iter().take(sharps.unsigned_abs() as usize).map(move |step| (sign, step))
}

/// What a key signature takes after another: naturals where it only takes away.
pub fn key_marks(before: i32, sharps: i32) -> Vec<(i32, i32)> {
    if sharps == 0 {
        signature(before).map(|(_, step)| (0, step)).collect()
    } else {
        signature(sharps).collect()
    }
}

fn fixed(what: SlotKind, after: f32, gap: f32) -> Slot {
    Slot { what, before: 0.0, after, gap, ideal: 0.0 }
}

/// How wide a bar line is.
pub fn end_width(shape: BarEnd) -> f32 {
    match shape {
        BarEnd::Open => 0.0,
        BarEnd::Single => THIN,
        BarEnd::Double => 2.0 * THIN + BAR_GAP,
        BarEnd::Final => THIN + BAR_GAP + THICK,
        BarEnd::Repeat => 2.0 * DOT + BAR_GAP + THIN + BAR_GAP + THICK,
    }
}

/// How wide the beginning of a repeat is.
fn begin_width(joined: bool) -> f32 {
    let lines = BAR_GAP + THIN + BAR_GAP + 2.0 * DOT;
    if joined { lines } else { THICK + lines }
}

fn key_slot(before: i32, sharps: i32) -> Option<Slot> {
    let marks = key_marks(before, sharps);
    let step = if sharps < 0 { FLAT_STEP } else { SHARP_STEP };
    (!marks.is_empty()).then(|| fixed(SlotKind::Key(before, sharps), marks.len() as f32 * step, 0.9))
}

fn metre_slot(metre: (u64, u64)) -> Slot {
    fixed(SlotKind::Metre(metre), digits(metre.0).1.max(digits(metre.1).1), AFTER_BAR)
}

/// The slots of some bars as one system; the bar before them, if any, says what key and metre were there.
pub fn slots(bars: &[ScoreBar], from: usize, to: usize) -> Vec<Slot> {
    let mut made = vec![fixed(SlotKind::Clef, 2.5, 0.8)];
    let mut before = from.checked_sub(1).and_then(|index| bars.get(index));
    let first = bars.get(from);
    made.extend(first.and_then(|bar| key_slot(0, bar.sharps)));
    if let Some(bar) = first.filter(|bar| before.is_none_or(|before| before.metre != bar.metre)) {
        made.push(metre_slot(bar.metre));
    }
    for index in from..to {
        let Some(bar) = bars.get(index) else { break };
        let is_first = index == from;
        if let Some(before) = before.filter(|_| !is_first) {
            if before.sharps != bar.sharps {
                made.extend(key_slot(before.sharps, bar.sharps));
            }
            if before.metre != bar.metre {
                made.push(metre_slot(bar.metre));
            }
        }
        if bar.repeats {
            // The thick line of the repeat that ended serves, unless something stands between.
            let joined = made
                .last()
                .is_some_and(|slot| matches!(slot.what, SlotKind::End { shape: BarEnd::Repeat, .. }));
            if joined && let Some(last) = made.last_mut() {
                last.gap = 0.0;
            }
            made.push(fixed(SlotKind::Begin { bar: index, joined }, begin_width(joined), AFTER_BAR * 0.9));
        }
        push_items(&mut made, bar, index);
        let next = bars.get(index + 1).filter(|_| index + 1 < to);
        let shape = match next {
            // The repeat that begins brings its own line.
            Some(next)
                if next.repeats
                    && bar.end != BarEnd::Repeat
                    && next.sharps == bar.sharps
                    && next.metre == bar.metre =>
            {
                BarEnd::Open
            }
            _ => bar.end,
        };
        made.push(fixed(SlotKind::End { bar: index, shape }, end_width(shape), AFTER_BAR));
        before = Some(bar);
    }
    // What changes at the front of the next system is told at the end of this one.
    if let (Some(last), Some(next)) = (before, bars.get(to)) {
        if last.sharps != next.sharps {
            made.extend(key_slot(last.sharps, next.sharps));
        }
        if last.metre != next.metre {
            made.push(metre_slot(next.metre));
        }
    }
    made
}

/// Whether an item is a rest that fills its bar.
pub fn is_whole_rest(bar: &ScoreBar) -> bool {
    let full = Length::of(bar.metre.0, bar.metre.1);
    matches!(bar.items.as_slice(), [only] if only.heads.is_empty() && Some(only.length) == full)
}

fn push_items(made: &mut Vec<Slot>, bar: &ScoreBar, index: usize) {
    let mut is_beamed = vec![false; bar.items.len()];
    for index in beam_groups(bar).into_iter().flatten() {
        if let Some(beamed) = is_beamed.get_mut(index) {
            *beamed = true;
        }
    }
    for (place, item) in bar.items.iter().enumerate() {
        let quavers = (item.length.wholes() * 8.0).clamp(0.05, 16.0) as f32;
        let ideal = QUAVER * quavers.powf(GROWTH);
        let mut before = 0.0_f32;
        let mut after;
        if item.heads.is_empty() {
            after = rest(item.value.part).1 + dots_width(item);
        } else {
            let stem_up = goes_up(&item.heads);
            let plan = plan(item, stem_up);
            let wide = 2.0 * head_half(item);
            before = plan.accidentals.iter().flatten().copied().fold(0.0, f32::max);
            let is_displaced = plan.displaced.contains(&true);
            if is_displaced && !stem_up {
                before = before.max(wide);
            }
            after = wide + if is_displaced && stem_up { wide } else { 0.0 } + dots_width(item);
            let has_ledger = item.heads.iter().any(|head| !(1..=11).contains(&head.step));
            if has_ledger {
                before = before.max(LEDGER_REACH);
                after = after.max(wide + LEDGER_REACH);
            }
            let is_alone = !is_beamed.get(place).is_some_and(|beamed| *beamed);
            if has_flag(item) && is_alone && stem_up {
                after = after.max(flag_room(item));
            }
        }
        if !item.chord.is_empty() {
            after = after.max(words_width(&item.chord, WORDS, Face::Regular) + 0.4);
        }
        // A beam of a group may turn a stem the other way, and seconds with it.
        if item.heads.len() > 1 {
            let wide = 2.0 * head_half(item);
            before = before.max(plan(item, false).accidentals.iter().flatten().copied().fold(0.0, f32::max));
            if plan(item, false).displaced.contains(&true) {
                before = before.max(wide);
                after = after.max(2.0 * wide + dots_width(item));
            }
        }
        made.push(Slot {
            what: SlotKind::Item { bar: index, item: place },
            before,
            after,
            gap: LEAST_GAP,
            ideal,
        });
    }
}

/// The places of slots when each is stretched so much.
pub fn places(slots: &[Slot], stretch: f32) -> Vec<f32> {
    let mut x = slots.first().map_or(0.0, |slot| slot.before);
    let mut made = vec![x];
    for (slot, next) in slots.iter().zip(slots.iter().skip(1)) {
        x += (slot.after + slot.gap + next.before).max(slot.ideal * stretch);
        made.push(x);
    }
    made
}

/// How wide slots are when each is stretched so much.
pub fn width(slots: &[Slot], stretch: f32) -> f32 {
    places(slots, stretch).last().copied().unwrap_or(0.0) + slots.last().map_or(0.0, |slot| slot.after)
}
