use crate::motion::{Blow, BlowOn, Motion, Span};
use crate::picture::{Frame, Mark, PAPER, Stroke};

/// How large a mark is, points from its middle.
const SIZE: f32 = 4.2;
/// How far before a dancer's middle the ground is struck, and own hands meet, metres.
const BEFORE: [f64; 2] = [0.5, 0.3];

/// The marks of what meets in a figure from one count until before another, where it meets: a cross for sticks, a ring for hands.
pub(super) fn tap_marks(
    marks: &mut Vec<Mark>,
    motion: &Motion,
    span: &Span,
    (from, to): (f64, f64),
    frame: &Frame,
) {
    let mut put: Vec<([f32; 2], bool)> = Vec::new();
    for blow in motion.blows_between(span.begin() + from, span.begin() + to) {
        let Some((x, y)) = meeting_at(motion, blow) else { continue };
        let [x, y] = frame.to_picture(x, y);
        let wood = blow.is_of_wood();
        // What meets again in the same place is one mark.
        let known = |(at, kind): &([f32; 2], bool)| *kind == wood && (at[0] - x).hypot(at[1] - y) < SIZE;
        if put.iter().any(known) {
            continue;
        }
        put.push(([x, y], wood));
        let stroke = Stroke { colour: PAPER.words, width: 1.3 };
        if !wood {
            let radii = [SIZE * 0.75; 2];
            marks.push(Mark::Oval {
                at: [x, y],
                radii,
                turn: 0.0,
                fill: Some(PAPER.floor),
                stroke: Some(stroke),
            });
            continue;
        }
        for (colour, width) in [(PAPER.floor, 3.6), (PAPER.words, 1.5)] {
            for way in [1.0, -1.0] {
                let points = vec![[x - SIZE, y - SIZE * way], [x + SIZE, y + SIZE * way]];
                marks.push(Mark::Line { points, stroke: Stroke { colour, width }, dash: None });
            }
        }
    }
}

/// Where on the floor something meets: half-way between the two dancers, or before the one who does it alone; metres. Nowhere
/// where there is nobody to meet.
pub(super) fn meeting_at(motion: &Motion, blow: &Blow) -> Option<(f64, f64)> {
    let pose = motion.pose(blow.by.dancer, blow.count);
    let before = |far: f64| {
        let (sin, cos) = pose.facing.to_radians().sin_cos();
        Some((pose.x + far * sin, pose.y + far * cos))
    };
    let [ground, own] = BEFORE;
    match blow.on {
        BlowOn::Other(other) => {
            let other = motion.pose(other.dancer, blow.count);
            Some((f64::midpoint(pose.x, other.x), f64::midpoint(pose.y, other.y)))
        }
        BlowOn::Ground => before(ground),
        BlowOn::Own(_) => before(own),
        BlowOn::Nobody(_) => None,
    }
}
