use super::{Frame, Ink, Mark, Stroke};
use crate::dance::Dancer;
use crate::faults::Fault;
use crate::motion::Motion;

/// How long before and after it a fault is marked on the floor, counts.
pub const ABOUT: f64 = 0.5;
/// Counts of path that are marked before and after a fault that lasts no time.
const STRETCH: f64 = 1.0;
/// Round a body, metres.
const RING: f64 = 0.38;

/// A fault on the floor at a count: rings round the bodies, the place, and the stretch of path.
pub fn fault_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    motion: &Motion,
    fault: &Fault,
    count: f64,
) {
    let pen = Stroke { colour: ink.fault, width: frame.length(0.03).clamp(2.0, 4.0) };
    let span = motion.span(fault.span);
    let (begin, end) = span.map_or((0.0, motion.counts()), |span| (span.begin(), span.end()));
    let mut from = fault.lasts.0.max(begin);
    let mut to = fault.lasts.1.min(end);
    if to - from < STRETCH {
        let middle = f64::midpoint(from, to);
        (from, to) = ((middle - STRETCH).max(begin), (middle + STRETCH).min(end));
    }
    let near = count >= fault.lasts.0 - ABOUT && count <= fault.lasts.1 + ABOUT;
    for number in &fault.dancers {
        let dancer = number.dancer();
        // The end of a figure is seen just before it.
        let points = (0..=24).map(|step| {
            let at = from + (to - from) * f64::from(step) / 24.0;
            let pose = motion.pose(dancer, at.min(end - 1e-6).max(begin));
            frame.to_picture(pose.x, pose.y)
        });
        let points: Vec<[f32; 2]> = points.collect();
        let moves = points.iter().any(|point| points.first().is_some_and(|first| first != point));
        if moves {
            let stroke = Stroke { colour: ink.fault.faded(150), width: frame.length(0.07).clamp(3.0, 9.0) };
            marks.push(Mark::Line { points, stroke, dash: None });
        }
        if near {
            let pose = motion.pose(dancer, count);
            let at = frame.to_picture(pose.x, pose.y);
            let radius = frame.length(RING);
            marks.push(Mark::Oval { at, radii: [radius; 2], turn: 0.0, fill: None, stroke: Some(pen) });
        }
    }
    if let Some((x, y)) = fault.spot {
        let [x, y] = frame.to_picture(x, y);
        let arm = frame.length(0.09).clamp(4.0, 10.0);
        for points in
            [vec![[x - arm, y - arm], [x + arm, y + arm]], vec![[x - arm, y + arm], [x + arm, y - arm]]]
        {
            marks.push(Mark::Line { points, stroke: pen, dash: None });
        }
    }
}

/// What is proposed, as a ghost: the ways of the dancers that it moves, where they are other than now, and where they
/// would be at a count.
pub fn ghost_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    (now, proposed): (&Motion, &Motion),
    dancers: &[Dancer],
    count: f64,
) {
    let Some(span) = proposed.span_under(count) else { return };
    let pen = Stroke { colour: ink.well, width: frame.length(0.03).clamp(1.8, 4.0) };
    let steps = ((span.end() - span.begin()) * 12.0) as u32;
    for &dancer in dancers {
        let mut run: Vec<[f32; 2]> = Vec::new();
        let mut last = None;
        let mut end_run = |run: &mut Vec<[f32; 2]>| {
            let points = std::mem::take(run);
            if points.len() > 1 {
                marks.push(Mark::Line { points, stroke: pen, dash: Some([7.0, 5.0]) });
            }
        };
        for step in 0..=steps {
            let at = (span.begin() + f64::from(step) / 12.0).min(span.end() - 1e-6);
            let (was, would) = (now.pose(dancer, at), proposed.pose(dancer, at));
            let point = frame.to_picture(would.x, would.y);
            if (was.x - would.x).hypot(was.y - would.y) > 0.02 {
                run.extend(last.take());
                run.push(point);
            } else {
                end_run(&mut run);
                last = Some(point);
            }
        }
        end_run(&mut run);
    }
    for &dancer in dancers {
        let (was, pose) = (now.pose(dancer, count), proposed.pose(dancer, count));
        if (was.x - pose.x).hypot(was.y - pose.y) < 0.02 {
            continue;
        }
        let turn = frame.turn(pose.facing);
        let at = frame.to_picture(pose.x, pose.y);
        let radii = [frame.length(0.25), frame.length(0.14)];
        marks.push(Mark::Oval { at, radii, turn, fill: Some(ink.floor.faded(160)), stroke: Some(pen) });
        let (sin, cos) = pose.facing.to_radians().sin_cos();
        let nose = frame.to_picture(pose.x + 0.26 * sin, pose.y + 0.26 * cos);
        marks.push(Mark::Line { points: vec![at, nose], stroke: pen, dash: None });
        marks.push(Mark::Words {
            at,
            size: frame.length(0.2).clamp(10.0, 18.0),
            anchor: super::Anchor::Middle,
            text: pose.number.to_string(),
            colour: ink.words,
            heavy: true,
        });
    }
}
