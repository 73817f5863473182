//! Heads, stems, flags and beams.

use super::beams::{has_flag, levels, runs};
use super::brush::Loop;
use super::glyphs::{HEAD, accidental, flag, further_flag, head, rest};
use super::measures::{
    BEAM, BEAM_RISE, BEAM_SLOPE, BEAM_STEP, DOT, DOT_GAP, LEDGER_LINE, LEDGER_REACH, STEM, STEM_LEAST,
    STEM_LENGTH, STUB,
};
use super::pen::Pen;
use super::slots::{ChordPlan, dots_width, head_half, plan, y_of};
use crate::dance::{Dancer, ScoreItem};

/// A note or rest in its place.
pub struct Placed<'a> {
    pub bar: usize,
    pub item: &'a ScoreItem,
    /// The left of its head.
    pub x: f32,
    pub plan: ChordPlan,
    /// Where its stem ends.
    pub tip: f32,
    /// Whether a beam holds it.
    pub is_beamed: bool,
}

impl<'a> Placed<'a> {
    pub fn new(bar: usize, item: &'a ScoreItem, x: f32, stem_up: bool) -> Self {
        let mut placed = Self { bar, item, x, plan: plan(item, stem_up), tip: 2.0, is_beamed: false };
        let more = BEAM_STEP * levels(item).saturating_sub(2) as f32;
        placed.tip = placed.natural_tip(STEM_LENGTH + more);
        placed
    }

    /// The y of the head nearest to the end of the stem.
    pub fn near(&self) -> f32 {
        let steps = self.item.heads.iter().map(|head| head.step);
        y_of(if self.plan.stem_up { steps.max() } else { steps.min() }.unwrap_or(6))
    }

    /// Where a stem of a length ends: it reaches the middle line at the least.
    fn natural_tip(&self, length: f32) -> f32 {
        if self.plan.stem_up { (self.near() - length).min(2.0) } else { (self.near() + length).max(2.0) }
    }

    pub fn stem_x(&self) -> f32 {
        if self.plan.stem_up { self.x + 2.0 * HEAD - STEM / 2.0 } else { self.x + STEM / 2.0 }
    }

    /// The middle of its head.
    pub fn middle(&self) -> f32 {
        self.x + head_half(self.item)
    }
}

/// Draws a rest or the heads of a note, its accidentals, dots and ledger lines; gives the boxes of what it drew.
pub fn put_heads(pen: &mut Pen, placed: &Placed) -> Vec<[f32; 4]> {
    let item = placed.item;
    let mut boxes = Vec::new();
    if item.heads.is_empty() {
        if !item.is_hidden {
            let (loops, wide) = rest(item.value.part);
            boxes.push(pen.outline(&loops, [placed.x, 2.0], 1.0));
            put_dots(pen, item.value.dots, placed.x + wide, &[1.5]);
        }
        return boxes;
    }
    let half = head_half(item);
    let aside = (2.0 * half - STEM) * if placed.plan.stem_up { 1.0 } else { -1.0 };
    put_ledgers(pen, placed, half, aside);
    let loops = head(item.value.part);
    for ((head, displaced), at) in item.heads.iter().zip(&placed.plan.displaced).zip(&placed.plan.accidentals)
    {
        let x = placed.middle() + if *displaced { aside } else { 0.0 };
        let y = y_of(head.step);
        boxes.push(pen.outline(&loops, [x, y], 1.0));
        if let (Some(semitones), Some(left)) = (head.accidental, at) {
            let (loops, _) = accidental(semitones);
            boxes.push(pen.outline(&loops, [placed.x - left, y], 1.0));
        }
    }
    let is_wide = placed.plan.stem_up && placed.plan.displaced.contains(&true);
    let right = placed.x + 2.0 * half + if is_wide { 2.0 * half } else { 0.0 };
    put_dots(pen, item.value.dots, right + dot_shift(placed), &placed.plan.dots);
    boxes
}

/// How far dots keep clear of a flag that hangs beside them.
fn dot_shift(placed: &Placed) -> f32 {
    let hangs = has_flag(placed.item) && !placed.is_beamed && placed.plan.stem_up;
    if hangs { FLAG_ROOM } else { 0.0 }
}

/// What a flag takes beside its stem, and its dots after it.
const FLAG_ROOM: f32 = 0.62;

/// The room to the right that a note with a flag takes from the left of its head.
pub fn flag_room(item: &ScoreItem) -> f32 {
    2.0 * HEAD + (FLAG_ROOM + dots_width(item)).max(1.05)
}

fn put_dots(pen: &mut Pen, dots: u32, right: f32, rows: &[f32]) {
    for y in rows {
        for dot in 0..dots {
            let x = right + DOT_GAP + DOT + dot as f32 * (DOT_GAP * 0.7 + 2.0 * DOT);
            pen.dot([x, *y], DOT);
        }
    }
}

fn put_ledgers(pen: &mut Pen, placed: &Placed, half: f32, aside: f32) {
    for (head, displaced) in placed.item.heads.iter().zip(&placed.plan.displaced) {
        let x = placed.middle() + if *displaced { aside } else { 0.0 };
        let (left, right) = (x - half - LEDGER_REACH, x + half + LEDGER_REACH);
        let above = (12..=head.step).step_by(2);
        let below = (head.step..=0).rev().filter(|step| step % 2 == 0);
        for step in above.chain(below) {
            pen.line([left, y_of(step)], [right, y_of(step)], LEDGER_LINE);
        }
    }
}

/// Draws the stem of a note, and its flags where it stands alone.
pub fn put_stem(pen: &mut Pen, placed: &Placed) {
    let item = placed.item;
    if item.heads.is_empty() || item.value.part < 2 {
        return;
    }
    let steps = item.heads.iter().map(|head| head.step);
    let up = placed.plan.stem_up;
    // It leaves the head a little off its middle, where the slanting oval is widest.
    let root = y_of(if up { steps.min() } else { steps.max() }.unwrap_or(6)) + if up { -0.18 } else { 0.18 };
    let x = placed.stem_x();
    pen.block([x - STEM / 2.0, placed.tip.min(root), x + STEM / 2.0, placed.tip.max(root)]);
    pen.taken.push([x - STEM / 2.0, placed.tip.min(root), x + STEM / 2.0, placed.tip.max(root)]);
    if has_flag(item) && !placed.is_beamed {
        let way = if up { 1.0 } else { -1.0 };
        for level in 0..levels(item) {
            let outline = if level == 0 { flag() } else { further_flag() };
            let turned: Loop = outline.into_iter().map(|[x, y]| [x, y * way]).collect();
            let turned = if up { turned } else { turned.into_iter().rev().collect() };
            pen.outline(&[turned], [x, placed.tip + way * BEAM_STEP * level as f32], 1.0);
        }
    }
}

/// Sets the stems of a group to its beam, and draws the beams.
pub fn put_beams(pen: &mut Pen, group: &mut [Placed]) {
    let (Some(first), Some(last)) = (group.first(), group.last()) else { return };
    let up = first.plan.stem_up;
    // Down is up in a mirror.
    let way = if up { 1.0 } else { -1.0 };
    let (left, right) = (first.stem_x(), last.stem_x());
    let near: Vec<(f32, f32)> =
        group.iter().map(|placed| (placed.stem_x() - left, placed.near() * way)).collect();
    let most = group.iter().map(|placed| levels(placed.item)).max().unwrap_or(1);
    let least = STEM_LEAST + 0.25 + 0.25 * f32::from(most > 1) + BEAM_STEP * most.saturating_sub(2) as f32;
    let ends = (first.near() * way, last.near() * way);
    let inner = near.iter().skip(1).take(near.len().saturating_sub(2));
    let is_hollow = inner.map(|(_, y)| *y).fold(f32::INFINITY, f32::min) < ends.0.min(ends.1);
    let long = (right - left).max(0.1);
    let slope = if is_hollow {
        0.0
    } else {
        let rise = ((ends.1 - ends.0) * 0.5).clamp(-BEAM_RISE, BEAM_RISE);
        (rise / long).clamp(-BEAM_SLOPE, BEAM_SLOPE)
    };
    // As near to the heads as the shortest stem allows, and never short of the middle line.
    let reach = |(along, y): &(f32, f32)| (y - least).min(2.0 * way) - slope * along;
    let mut base = near.iter().map(reach).fold(f32::INFINITY, f32::min);
    // On a line or hanging from one, so that no sliver of white is left.
    base = (base * 4.0).floor() / 4.0;
    if slope == 0.0 {
        base = (base * 2.0).floor() / 2.0;
    }
    for (placed, (along, _)) in group.iter_mut().zip(&near) {
        placed.tip = (base + slope * along) * way;
        placed.is_beamed = true;
    }
    let items: Vec<&ScoreItem> = group.iter().map(|placed| placed.item).collect();
    for run in runs(&items) {
        let along = |index: usize| near.get(index).map_or(0.0, |(along, _)| *along);
        let (mut from, mut to) = (along(run.from) - STEM / 2.0, along(run.to) + STEM / 2.0);
        if run.from == run.to {
            let gap = |other: Dancer| (along(other.index()) - along(run.from)).abs() * 0.6;
            if run.points_right {
                to = from + STUB.min(gap(Dancer(run.from + 1))).max(0.4);
            } else {
                from = to - STUB.min(gap(Dancer(run.from.saturating_sub(1)))).max(0.4);
            }
        }
        let top = |along: f32| base + slope * along + BEAM_STEP * (run.level as f32 - 1.0);
        let corner = |along: f32, down: f32| [left + along, (top(along) + down) * way];
        pen.area(&[corner(from, 0.0), corner(to, 0.0), corner(to, BEAM), corner(from, BEAM)]);
    }
}
