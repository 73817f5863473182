//! A figure in a diagram that is too small for bodies: where each begins, by number, and the way from there.

use super::{
    SMALLEST,
    clear_place::Taken,
    diagram::{Shown, passing, spot_marks},
    path_line::path_line_marks,
    teach_marks::{first_foot_mark, hue, letter_hue, pass_marks},
};
use crate::dance::Dancer;
use crate::motion::Motion;
use crate::picture::{Anchor, Frame, Mark, PAPER, Stroke};

/// How large the mark of a place is, from its middle, points.
const PLACE: f32 = 5.8;
/// Without its number.
const DOT: f32 = 2.0;
/// How wide the ways are, points.
const WAY: f32 = 1.2;

/// A small diagram in its box (left, top, right, bottom, points) through a frame: where each begins, round or square with the
/// number where there is room for it, the ways from there, and the shoulders and first feet that have a clear place.
pub(super) fn small_diagram_marks(
    marks: &mut Vec<Mark>,
    motion: &Motion,
    shown: &Shown,
    area: [f32; 4],
    frame: &Frame,
) {
    let [left, top, right, bottom] = area;
    marks.push(Mark::Line {
        points: vec![[left, top], [right, top], [right, bottom], [left, bottom], [left, top]],
        stroke: Stroke { colour: PAPER.faint, width: 0.8 },
        dash: None,
    });
    spot_marks(marks, motion, frame);
    let Some(span) = motion.span(shown.span) else { return };
    let (from, to) = shown.counts;
    let begins = |dancer: Dancer| {
        let (x, y, facing) = span.track(dancer)?.stand(from);
        Some((frame.to_picture(x, y), facing))
    };
    let places: Vec<(Dancer, [f32; 2], f64)> = Dancer::all(motion.dancers())
        .filter_map(|dancer| begins(dancer).map(|(at, facing)| (dancer, at, facing)))
        .collect();
    let apart = |one: &[f32; 2], other: &[f32; 2]| (one[0] - other[0]).hypot(one[1] - other[1]);
    let numbered = places.iter().enumerate().all(|(index, (_, at, _))| {
        places.iter().skip(index + 1).all(|(_, other, _)| apart(at, other) > 2.0 * PLACE + 1.0)
    });
    let size = if numbered { PLACE } else { DOT };
    let mut taken = Taken::only_clear(area);
    for dancer in Dancer::all(motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        path_line_marks(marks, frame, &PAPER, (track, dancer), shown.counts, WAY);
        let steps = ((to - from) * 3.0).ceil().clamp(1.0, 400.0) as u32;
        for step in 0..=steps {
            let (x, y, _) = track.stand(from + (to - from) * f64::from(step) / f64::from(steps));
            taken.take(frame.to_picture(x, y), 0.3);
        }
    }
    for (dancer, at, facing) in &places {
        taken.take(*at, size + 1.0);
        place_mark(marks, *dancer, (*at, *facing), size, numbered);
    }
    if !numbered {
        return;
    }
    pass_marks(marks, frame, span, &passing(motion, shown), &mut taken);
    for dancer in Dancer::all(motion.dancers()) {
        first_foot_mark(marks, frame, span, motion.known(), (dancer, from), &[], &mut taken);
    }
}

/// Where a dancer begins, and which way they face.
fn place_mark(marks: &mut Vec<Mark>, dancer: Dancer, (at, facing): ([f32; 2], f64), size: f32, number: bool) {
    let (sin, cos) = facing.to_radians().sin_cos();
    let (sin, cos) = (sin as f32, cos as f32);
    // The nose.
    let far = |along: f32, aside: f32| [at[0] + sin * along + cos * aside, at[1] - cos * along + sin * aside];
    marks.push(Mark::Area {
        points: vec![far(size + 3.0, 0.0), far(size * 0.6, -2.6), far(size * 0.6, 2.6)],
        fill: Some(hue(dancer)),
        stroke: None,
    });
    let stroke = Some(Stroke { colour: hue(dancer), width: 1.0 });
    let (radii, turn) = ([size; 2], 0.0);
    let fill = Some(if number { PAPER.floor } else { hue(dancer) });
    marks.push(if dancer.is_even() {
        Mark::Block { at, radii: radii.map(|radius| radius * 0.92), corner: 1.0, turn, fill, stroke }
    } else {
        Mark::Oval { at, radii, turn, fill, stroke }
    });
    if number {
        let (text, colour) = (dancer.to_string(), letter_hue(dancer));
        marks.push(Mark::Words { at, size: SMALLEST, anchor: Anchor::Middle, text, colour, heavy: true });
    }
}
