use crate::dance::Dancer;
use crate::motion::Track;
use crate::picture::{Frame, Ink, Mark, Stroke};

/// Dash and gap of the paths of evens, points; those of odds are unbroken, so that both stay apart without colour.
pub const EVEN_DASH: [f32; 2] = [4.2, 2.6];

/// Samples of a path in each count.
const PER_COUNT: f64 = 12.0;
/// A path ends this far before its dancer's middle, metres, so that its arrowhead is seen.
const SHORT_OF_BODY: f64 = 0.34;
/// A dancer who goes no farther than this and turns so much is turning on the spot: metres and degrees.
const ON_THE_SPOT: (f64, f64) = (0.3, 40.0);

/// A dancer's path between two counts of a figure, with an arrowhead at its end, or a turn on the spot as an arc.
pub fn path_line_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    (track, dancer): (&Track, Dancer),
    (from, to): (f64, f64),
    width: f32,
) {
    let even = dancer.is_even();
    let hue = if even { ink.even } else { ink.odd };
    let stroke = Stroke { colour: hue, width };
    let dash = even.then_some(EVEN_DASH.map(|length| length * (width / 1.5).max(0.9)));
    let steps = ((to - from) * PER_COUNT).ceil().clamp(1.0, 20_000.0) as u32;
    let at = |step: u32| from + (to - from) * f64::from(step) / f64::from(steps);
    let stands: Vec<(f64, f64, f64)> = (0..=steps).map(|step| track.stand(at(step))).collect();
    let (Some(first), Some(last)) = (stands.first(), stands.last()) else { return };
    let length: f64 = stands.windows(2).map(|pair| between(pair.first(), pair.last())).sum();
    if length <= ON_THE_SPOT.0 {
        let turned = last.2 - first.2;
        if turned.abs() >= ON_THE_SPOT.1 {
            turn_marks(marks, frame, *last, turned, (stroke, dash));
        }
        if length < 0.05 {
            return;
        }
    }
    // Where the path comes under the body for the last time.
    let shown = stands.iter().rposition(|stand| between(Some(stand), Some(last)) >= SHORT_OF_BODY);
    let shown = shown.unwrap_or(stands.len() / 2).max(1);
    let mut points: Vec<[f32; 2]> =
        stands.iter().take(shown + 1).map(|(x, y, _)| frame.to_picture(*x, *y)).collect();
    points.dedup();
    let Some(tip) = points.last().copied() else { return };
    let head = 3.2 + width * 1.9;
    // The head points along the last of the path that is as long as it.
    let tail = points.iter().rev().find(|point| (point[0] - tip[0]).hypot(point[1] - tip[1]) >= head * 0.8);
    let Some(tail) = tail.or(points.first()).copied().filter(|tail| *tail != tip) else { return };
    // The line stops inside the head.
    while points.len() > 2
        && points.last().is_some_and(|point| (point[0] - tip[0]).hypot(point[1] - tip[1]) < head * 0.5)
    {
        points.pop();
    }
    marks.push(Mark::Line { points, stroke, dash });
    head_marks(marks, tail, tip, head, stroke);
}

fn between(one: Option<&(f64, f64, f64)>, other: Option<&(f64, f64, f64)>) -> f64 {
    one.zip(other).map_or(0.0, |(one, other)| (one.0 - other.0).hypot(one.1 - other.1))
}

/// An arrowhead with its tip at a place.
fn head_marks(marks: &mut Vec<Mark>, tail: [f32; 2], tip: [f32; 2], head: f32, stroke: Stroke) {
    let (dx, dy) = (tip[0] - tail[0], tip[1] - tail[1]);
    let long = dx.hypot(dy).max(1e-6);
    let (dx, dy) = (dx / long, dy / long);
    let (back, side) = ([tip[0] - dx * head, tip[1] - dy * head], head * 0.42);
    marks.push(Mark::Area {
        points: vec![
            tip,
            [back[0] - dy * side, back[1] + dx * side],
            [back[0] + dy * side, back[1] - dx * side],
        ],
        fill: Some(stroke.colour),
        stroke: None,
    });
}

/// A turn on the spot: an arc round the body that ends where the dancer faces.
fn turn_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    (x, y, facing): (f64, f64, f64),
    turned: f64,
    (stroke, dash): (Stroke, Option<[f32; 2]>),
) {
    let shown = turned.clamp(-340.0, 340.0);
    let radius = 0.46;
    let place = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        frame.to_picture(x + radius * sin, y + radius * cos)
    };
    let steps = (shown.abs() / 6.0).ceil().max(3.0) as u32;
    let angle = |step: u32| facing - shown * (1.0 - f64::from(step) / f64::from(steps));
    let points: Vec<[f32; 2]> = (0..steps).map(|step| place(angle(step))).collect();
    let tip = place(angle(steps));
    let head = 3.0 + stroke.width * 1.6;
    let tail = points.iter().rev().find(|point| (point[0] - tip[0]).hypot(point[1] - tip[1]) >= head * 0.8);
    let tail = tail.or(points.first()).copied();
    let stroke = Stroke { width: stroke.width * 0.8, ..stroke };
    marks.push(Mark::Line { points, stroke, dash });
    if let Some(tail) = tail {
        head_marks(marks, tail, tip, head, stroke);
    }
}
