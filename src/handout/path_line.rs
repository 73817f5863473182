use crate::dance::Dancer;
use crate::motion::Track;
use crate::picture::{Frame, Ink, Mark, Stroke};

/// Dash and gap of the paths of evens, points; those of odds are unbroken, so that both stay apart without colour.
pub const EVEN_DASH: [f32; 2] = [4.2, 2.6];

/// Samples of a path in each count.
const PER_COUNT: f64 = 12.0;
/// A path ends this far before its dancer's middle, metres, so that its arrowhead is seen.
const SHORT_OF_BODY: f64 = 0.34;
/// A way home that lies so near the way out, metres, is drawn beside it, each so far to its own right.
const BESIDE: (f64, f64) = (0.14, 0.085);

/// A dancer's path between two counts of a figure, with an arrowhead at its end; a way home lies beside the way out.
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
    let Some(last) = stands.last() else { return };
    let length: f64 = stands.windows(2).map(|pair| between(pair.first(), pair.last())).sum();
    if length < 0.05 {
        return;
    }
    // Where the path comes under the body for the last time.
    let shown = stands.iter().rposition(|stand| between(Some(stand), Some(last)) >= SHORT_OF_BODY);
    let shown = shown.unwrap_or(stands.len() / 2).max(1);
    let mut points: Vec<[f32; 2]> =
        beside(&stands).iter().take(shown + 1).map(|(x, y)| frame.to_picture(*x, *y)).collect();
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
pub(super) fn head_marks(marks: &mut Vec<Mark>, tail: [f32; 2], tip: [f32; 2], head: f32, stroke: Stroke) {
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

/// The places of a way, metres right and up, where it comes back along itself each to its own right, so that the way out and the way home
/// lie beside each other.
fn beside(stands: &[(f64, f64, f64)]) -> Vec<(f64, f64)> {
    let place = |index: usize| stands.get(index).map_or((0.0, 0.0), |stand| (stand.0, stand.1));
    let last = stands.len().saturating_sub(1);
    let ways: Vec<(f64, f64)> = (0..=last)
        .map(|index| {
            let (one, other) = (place(index.saturating_sub(1)), place((index + 1).min(last)));
            let (dx, dy) = (other.0 - one.0, other.1 - one.1);
            let long = dx.hypot(dy);
            if long < 1e-4 { (0.0, 0.0) } else { (dx / long, dy / long) }
        })
        .collect();
    let way = |index: usize| ways.get(index).copied().unwrap_or_default();
    // Long ways are looked at here and there, so that this takes no time to speak of.
    let stride = (stands.len() / 400).max(1);
    let again = |index: usize| {
        let ((x, y), (dx, dy)) = (place(index), way(index));
        (0..=last).step_by(stride).any(|other| {
            let ((a, b), (ax, ay)) = (place(other), way(other));
            (a - x).hypot(b - y) < BESIDE.0 && dx * ax + dy * ay < -0.8
        })
    };
    let aside: Vec<(f64, f64)> = (0..=last)
        .map(
            |index| {
                if again(index) { (way(index).1 * BESIDE.1, -way(index).0 * BESIDE.1) } else { (0.0, 0.0) }
            },
        )
        .collect();
    (0..=last)
        .map(|index| {
            let near = aside.get(index.saturating_sub(3)..(index + 4).min(aside.len())).unwrap_or_default();
            let many = near.len().max(1) as f64;
            let (right, up) = near.iter().fold((0.0, 0.0), |sum, of| (sum.0 + of.0, sum.1 + of.1));
            (place(index).0 + right / many, place(index).1 + up / many)
        })
        .collect()
}
