use super::beams::beam_groups;
use super::digits::digits;
use super::glyphs::{accidental, clef, rest};
use super::measures::{BAR_GAP, BAR_NUMBER, DOT, FLAT_STEP, MARGIN, SHARP_STEP, STAVE_LINE, THICK, THIN};
use super::notes::{Placed, put_beams, put_heads, put_stem};
use super::over::{BarPlace, put_chords, put_endings, put_parts, put_ties, put_tuplets};
use super::pen::Pen;
use super::slots::{
    Slot, SlotKind, end_width, goes_up, is_whole_rest, key_marks, places, slots, width, y_of,
};
use crate::dance::{BarEnd, Head, ScoreBar, ScoreItem};
use crate::picture::{Anchor, Colour, Mark};

/// A line of the tune: a stave with what stands on it. Lengths are those of its marks, from its top left corner.
#[derive(Clone, Debug, PartialEq)]
pub struct System {
    pub marks: Vec<Mark>,
    /// How wide and how high it is.
    pub size: [f32; 2],
    /// The stave: left, top, right and bottom.
    pub stave: [f32; 4],
    /// The first bar, and the one after the last.
    pub bars: (usize, usize),
    /// The boxes round heads, accidentals and rests, each with its bar and its place in that.
    pub boxes: Vec<(usize, usize, [f32; 4])>,
    /// Where the bar lines end, from the left; the last is the end of the stave.
    pub bar_lines: Vec<f32>,
}

/// What one system hands on to the next.
#[derive(Default)]
pub(super) struct Carried {
    /// The steps whose tie leads on.
    tied: Vec<i32>,
    /// Whether an ending goes on.
    ending: bool,
}

/// The most that the last system is stretched, where that does not fill it.
const LAST_STRETCH: f32 = 2.4;
/// How much it is stretched then.
const LOOSE: f32 = 1.25;

/// Draws the bars from one on up to another as a system so many spaces wide.
pub(super) fn system(
    bars: &[ScoreBar],
    (from, to): (usize, usize),
    room: f32,
    colour: Colour,
    carried: &mut Carried,
) -> (System, f32) {
    let slots = slots(bars, from, to);
    let stretch = stretch_to(&slots, room, to == bars.len());
    let at = places(&slots, stretch);
    let right = width(&slots, stretch).min(room);
    let mut pen = Pen::new(colour);
    for line in 0..5 {
        let y = line as f32;
        pen.line([STAVE_LINE / 2.0, y], [right - STAVE_LINE / 2.0, y], STAVE_LINE);
    }
    put_number(&mut pen, bars, from);
    let mut bar_places: Vec<BarPlace> = Vec::new();
    let mut bar_lines = Vec::new();
    let mut notes: Vec<(usize, Placed)> = Vec::new();
    let mut begin = 0.0;
    for (slot, x) in slots.iter().zip(&at) {
        match slot.what {
            SlotKind::Clef => {
                pen.outline(&clef(), [*x + 0.1, 3.0], 1.0);
            }
            SlotKind::Key(before, sharps) => put_key(&mut pen, *x, before, sharps),
            SlotKind::Metre((beats, each)) => put_metre(&mut pen, *x, slot.after, beats, each),
            SlotKind::Begin { joined, .. } => {
                put_begin(&mut pen, *x, joined);
            }
            SlotKind::Item { bar, item } => {
                if let Some(item_here) = bars.get(bar).and_then(|bar| bar.items.get(item)) {
                    notes.push((item, Placed::new(bar, item_here, *x, goes_up(&item_here.heads))));
                }
            }
            SlotKind::End { bar, shape } => {
                put_end(&mut pen, *x, shape);
                let end = *x + end_width(shape);
                bar_places.push(BarPlace { bar, left: begin, right: end });
                bar_lines.push(end);
                begin = end;
            }
        }
        if matches!(slot.what, SlotKind::Clef | SlotKind::Key(..) | SlotKind::Metre(_)) {
            begin = *x + slot.after;
        }
    }
    centre_rests(bars, &mut notes, &bar_places);
    let (items, mut placed): (Vec<usize>, Vec<Placed>) = notes.into_iter().unzip();
    let groups = put_notes(&mut pen, bars, &mut placed);
    let mut boxes = Vec::new();
    for (note, item) in placed.iter().zip(&items) {
        boxes.extend(put_heads(&mut pen, note).into_iter().map(|area| (note.bar, *item, area)));
        put_stem(&mut pen, note);
    }
    put_ties(&mut pen, &placed, &carried.tied, right);
    put_tuplets(&mut pen, &placed, &groups);
    put_chords(&mut pen, &placed);
    carried.ending = put_endings(&mut pen, bars, &bar_places, carried.ending);
    put_parts(&mut pen, bars, &bar_places);
    let tied = |item: &ScoreItem| -> Vec<i32> {
        item.heads.iter().filter(|head| head.is_tied).map(|head: &Head| head.step).collect()
    };
    carried.tied = placed.last().map(|last| tied(last.item)).unwrap_or_default();
    let top = pen.top_over(f32::NEG_INFINITY, f32::INFINITY) - MARGIN;
    let bottom = pen.bottom_under(f32::NEG_INFINITY, f32::INFINITY) + MARGIN;
    let made = System {
        marks: pen.marks,
        size: [right, bottom - top],
        stave: [0.0, 0.0, right, 4.0],
        bars: (from, to),
        boxes,
        bar_lines,
    };
    (made, top)
}

impl System {
    /// The same so many times as large, its top at 0.
    pub(super) fn scaled(self, scale: f32, top: f32) -> Self {
        let down = [0.0, -top * scale];
        let area = |[left, up, right, bottom]: [f32; 4]| {
            [left * scale, (up - top) * scale, right * scale, (bottom - top) * scale]
        };
        Self {
            marks: self.marks.into_iter().map(|mark| mark.placed(scale, down)).collect(),
            size: self.size.map(|length| length * scale),
            stave: area(self.stave),
            bars: self.bars,
            boxes: self.boxes.into_iter().map(|(bar, item, edge)| (bar, item, area(edge))).collect(),
            bar_lines: self.bar_lines.into_iter().map(|x| x * scale).collect(),
        }
    }
}

/// How much slots are stretched to fill the width.
fn stretch_to(slots: &[Slot], room: f32, is_last: bool) -> f32 {
    let (mut low, mut high) = (0.0, 60.0);
    for _ in 0..40 {
        let middle = f32::midpoint(low, high);
        if width(slots, middle) <= room {
            low = middle;
        } else {
            high = middle;
        }
    }
    if is_last && low > LAST_STRETCH { LOOSE } else { low }
}

/// The number of the first bar, over the clef; the first system has none.
fn put_number(pen: &mut Pen, bars: &[ScoreBar], from: usize) {
    let Some(bar) = bars.get(from).filter(|bar| from > 0 && bar.number > 0) else { return };
    // Over the clef, which rises so far above the stave.
    pen.words([0.2, -2.5], BAR_NUMBER, Anchor::Left, &bar.number.to_string(), false);
}

fn put_key(pen: &mut Pen, x: f32, before: i32, sharps: i32) {
    let step = if sharps < 0 { FLAT_STEP } else { SHARP_STEP };
    for (place, (semitones, at)) in key_marks(before, sharps).into_iter().enumerate() {
        pen.outline(&accidental(semitones).0, [x + place as f32 * step, y_of(at)], 1.0);
    }
}

fn put_metre(pen: &mut Pen, x: f32, wide: f32, beats: u64, each: u64) {
    for (number, y) in [(beats, 1.0), (each, 3.0)] {
        let (figures, own) = digits(number);
        pen.outline(&figures, [x + (wide - own) / 2.0, y], 1.0);
    }
}

fn put_upright(pen: &mut Pen, x: f32, wide: f32) {
    pen.block([x, -STAVE_LINE / 2.0, x + wide, 4.0 + STAVE_LINE / 2.0]);
}

fn put_repeat_dots(pen: &mut Pen, x: f32) {
    pen.dot([x, 1.5], DOT);
    pen.dot([x, 2.5], DOT);
}

fn put_begin(pen: &mut Pen, mut x: f32, joined: bool) {
    if !joined {
        put_upright(pen, x, THICK);
        x += THICK;
    }
    put_upright(pen, x + BAR_GAP, THIN);
    put_repeat_dots(pen, x + BAR_GAP + THIN + BAR_GAP + DOT);
}

fn put_end(pen: &mut Pen, x: f32, shape: BarEnd) {
    match shape {
        BarEnd::Open => {}
        BarEnd::Single => put_upright(pen, x, THIN),
        BarEnd::Double => {
            put_upright(pen, x, THIN);
            put_upright(pen, x + THIN + BAR_GAP, THIN);
        }
        BarEnd::Final => {
            put_upright(pen, x, THIN);
            put_upright(pen, x + THIN + BAR_GAP, THICK);
        }
        BarEnd::Repeat => {
            put_repeat_dots(pen, x + DOT);
            put_end(pen, x + 2.0 * DOT + BAR_GAP, BarEnd::Final);
        }
    }
}

/// A rest that fills its bar stands in the middle of it.
fn centre_rests(bars: &[ScoreBar], notes: &mut [(usize, Placed)], places: &[BarPlace]) {
    for (_, note) in notes {
        let place = places.iter().find(|place| place.bar == note.bar);
        if let Some(place) = place.filter(|_| bars.get(note.bar).is_some_and(is_whole_rest)) {
            let wide = rest(note.item.value.part).1;
            note.x = f32::midpoint(place.left, place.right) - wide / 2.0;
        }
    }
}

/// Sets the stems of beamed notes and draws their beams; gives the groups as stretches of the notes.
fn put_notes(pen: &mut Pen, bars: &[ScoreBar], notes: &mut [Placed]) -> Vec<(usize, usize)> {
    let mut groups = Vec::new();
    let mut first = 0;
    while let Some(bar) = notes.get(first).map(|note| note.bar) {
        let count = notes.iter().skip(first).take_while(|note| note.bar == bar).count();
        for group in bars.get(bar).map(beam_groups).unwrap_or_default() {
            let (Some(begin), Some(end)) = (group.first(), group.last()) else { continue };
            let (begin, end) = (first + begin, first + end + 1);
            let Some(held) = notes.get_mut(begin..end) else { continue };
            let heads: Vec<Head> = held.iter().flat_map(|note| note.item.heads.iter().copied()).collect();
            let up = goes_up(&heads);
            for note in held.iter_mut() {
                *note = Placed::new(note.bar, note.item, note.x, up);
            }
            put_beams(pen, held);
            groups.push((begin, end));
        }
        first += count;
    }
    groups
}
