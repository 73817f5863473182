use super::{Anchor, BODY_BREADTH, BODY_DEPTH, Frame, Ink, Mark, Stroke};
use crate::dance::{Dancer, Number, PlaceNumber};
use crate::motion::{Span, Track, wrap_half};

/// Looks at a path in each count.
const PER_COUNT: u32 = 6;
/// Nearer than this, metres, the two are in one place.
const SAME: f64 = 0.03;

/// A figure here, the same one there, the places that differ, and the count of the dance here.
#[derive(Clone, Copy)]
pub struct Beside<'a> {
    pub here: &'a Span,
    pub there: &'a Span,
    /// The places to draw.
    pub places: &'a [PlaceNumber],
    /// The count from the start, here.
    pub count: f64,
}

impl<'a> Beside<'a> {
    /// The dancers in the places, with their ways here and there.
    fn ways(self) -> impl Iterator<Item = (Dancer, &'a Track, &'a Track)> {
        self.places.iter().filter_map(move |place| {
            let (dancer, other) = (self.here.dancer_in(*place)?, self.there.dancer_in(*place)?);
            Some((dancer, self.here.track(dancer)?, self.there.track(other)?))
        })
    }

    /// The counts that both have.
    fn counts(self) -> f64 {
        (self.here.end() - self.here.begin()).min(self.there.end() - self.there.begin())
    }
}

/// The ways of another version where they lie elsewhere than those here, in long dashes.
pub fn version_ways(marks: &mut Vec<Mark>, frame: &Frame, ink: &Ink, beside: Beside) {
    let thin = Stroke { colour: ink.quiet, width: frame.length(0.016).clamp(1.2, 2.2) };
    for (_, mine, theirs) in beside.ways() {
        way_marks(marks, frame, thin, (mine, theirs), beside.counts());
    }
}

/// Hollow bodies with a broken outline where another version has the dancers elsewhere than here.
pub fn version_bodies(marks: &mut Vec<Mark>, frame: &Frame, ink: &Ink, beside: Beside) {
    let local = (beside.count - beside.here.begin()).max(0.0);
    if local > beside.counts() {
        return;
    }
    for (dancer, mine, theirs) in beside.ways() {
        let ((x, y, facing), (to_x, to_y, to_facing)) = (mine.stand(local), theirs.stand(local));
        let apart = (x - to_x).hypot(y - to_y);
        if apart > SAME || wrap_half(facing - to_facing).abs() > 2.0 {
            // Over the dancer the number would only cover theirs.
            let number = (apart > 0.3).then_some(dancer.number());
            body_marks(marks, frame, ink, (dancer.is_even(), number), (to_x, to_y, to_facing));
        }
    }
}

/// The stretches of a way that lie elsewhere than the one here.
fn way_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    stroke: Stroke,
    (mine, theirs): (&Track, &Track),
    counts: f64,
) {
    let mut run: Vec<[f32; 2]> = Vec::new();
    let mut last = None;
    let mut end_run = |run: &mut Vec<[f32; 2]>| {
        let points = std::mem::take(run);
        if points.len() > 1 {
            marks.push(Mark::Line { points, stroke, dash: Some([12.0, 6.0]) });
        }
    };
    for step in 0..=(counts * f64::from(PER_COUNT)) as u32 {
        let at = (f64::from(step) / f64::from(PER_COUNT)).min(counts - 1e-6);
        let ((x, y, _), (to_x, to_y, _)) = (mine.stand(at), theirs.stand(at));
        let point = frame.to_picture(to_x, to_y);
        if (x - to_x).hypot(y - to_y) > SAME {
            run.extend(last.take());
            if run.last() != Some(&point) {
                run.push(point);
            }
        } else {
            end_run(&mut run);
            last = Some(point);
        }
    }
    end_run(&mut run);
}

/// A hollow body with a broken outline, an open nose, and its number where that is wanted.
pub(super) fn body_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    (even, number): (bool, Option<Number>),
    (x, y, facing): (f64, f64, f64),
) {
    let middle = frame.to_picture(x, y);
    let (sin, cos) = frame.turn(facing).to_radians().sin_cos();
    let place = |right: f64, front: f64| {
        let (right, front) = (frame.length(right), frame.length(front));
        [middle[0] + right * cos + front * sin, middle[1] + right * sin - front * cos]
    };
    let pen = Stroke { colour: ink.quiet, width: frame.length(0.022).clamp(1.6, 3.0) };
    let (breadth, depth) = (BODY_BREADTH / 2.0, BODY_DEPTH / 2.0);
    let outline = if even {
        vec![
            place(-breadth, depth),
            place(breadth, depth),
            place(breadth, -depth),
            place(-breadth, -depth),
            place(-breadth, depth),
        ]
    } else {
        (0..=36)
            .map(|step| {
                let (sin, cos) = (f64::from(step) * 10.0).to_radians().sin_cos();
                place(breadth * sin, depth * cos)
            })
            .collect()
    };
    let nose = vec![place(-0.08, 0.17), place(0.0, 0.28), place(0.08, 0.17)];
    // On a rim of bare floor, so that it shows over a body as well.
    let rim = Stroke { colour: ink.floor.faded(200), width: pen.width + 2.0 };
    for (stroke, dash) in [(rim, None), (pen, Some([5.0, 3.0]))] {
        marks.push(Mark::Line { points: outline.clone(), stroke, dash });
        marks.push(Mark::Line { points: nose.clone(), stroke, dash: None });
    }
    if let Some(number) = number {
        marks.push(Mark::Words {
            at: middle,
            size: frame.length(0.18).clamp(10.0, 17.0),
            anchor: Anchor::Middle,
            text: number.to_string(),
            colour: ink.quiet,
            heavy: false,
        });
    }
}
