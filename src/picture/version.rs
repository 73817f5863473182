use super::{Anchor, BODY_BREADTH, BODY_DEPTH, Frame, Ink, Mark, Stroke};
use crate::motion::{Span, Track, wrap_half};

/// Looks at a path in each count.
const PER_COUNT: u32 = 6;
/// Nearer than this, metres, the two are in one place.
const SAME: f64 = 0.03;

/// Another version of the figure under way: the ways of the dancers in some places (by number) where they differ from
/// those here, in long dashes, and hollow bodies with a broken outline where they would be.
pub fn version_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    (here, there): (&Span, &Span),
    places: &[u32],
    count: f64,
) {
    let thin = Stroke { colour: ink.quiet, width: frame.length(0.016).clamp(1.2, 2.2) };
    let local = (count - here.begin()).max(0.0);
    let ways = |place: u32| {
        let index = (place as usize).checked_sub(1)?;
        let (dancer, other) = (here.dancer_in(index)?, there.dancer_in(index)?);
        Some((dancer, here.track(dancer)?, there.track(other)?))
    };
    let counts = (here.end() - here.begin()).min(there.end() - there.begin());
    for (_, mine, theirs) in places.iter().filter_map(|&place| ways(place)) {
        way_marks(marks, frame, thin, (mine, theirs), counts);
    }
    if local > counts {
        return;
    }
    for (dancer, mine, theirs) in places.iter().filter_map(|&place| ways(place)) {
        let ((x, y, facing), (to_x, to_y, to_facing)) = (mine.stand(local), theirs.stand(local));
        if (x - to_x).hypot(y - to_y) > SAME || wrap_half(facing - to_facing).abs() > 2.0 {
            body_marks(marks, frame, ink, dancer, (to_x, to_y, to_facing));
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

/// A hollow body with a broken outline, an open nose, and its number behind it.
fn body_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    dancer: usize,
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
    let outline = if dancer % 2 == 1 {
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
    marks.push(Mark::Line { points: outline, stroke: pen, dash: Some([5.0, 3.0]) });
    marks.push(Mark::Line {
        points: vec![place(-0.08, 0.17), place(0.0, 0.28), place(0.08, 0.17)],
        stroke: pen,
        dash: None,
    });
    marks.push(Mark::Words {
        at: middle,
        size: frame.length(0.18).clamp(10.0, 17.0),
        anchor: Anchor::Middle,
        text: (dancer + 1).to_string(),
        colour: ink.quiet,
        heavy: false,
    });
}
