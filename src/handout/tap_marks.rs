use crate::motion::limbs::meeting_at;
use crate::motion::{BlowOn, Motion, Span};
use crate::picture::{Frame, Mark, PAPER, star};

/// How large a mark is, points from its middle.
const SIZE: f32 = 5.5;

/// The stars of what meets in a figure from one count until before another, where it meets: upright for sticks, aslant for hands.
pub(super) fn tap_marks(
    marks: &mut Vec<Mark>,
    motion: &Motion,
    span: &Span,
    (from, to): (f64, f64),
    frame: &Frame,
) {
    let mut put: Vec<([f32; 2], bool)> = Vec::new();
    for blow in motion.blows_between(span.begin() + from, span.begin() + to) {
        if matches!(blow.on, BlowOn::Nobody(_)) {
            continue;
        }
        let (x, y) = meeting_at(motion, blow, blow.count);
        let [x, y] = frame.to_picture(x, y);
        let wood = blow.is_of_wood();
        // What meets again in the same place is one mark.
        let known = |(at, kind): &([f32; 2], bool)| *kind == wood && (at[0] - x).hypot(at[1] - y) < SIZE;
        if put.iter().any(known) {
            continue;
        }
        put.push(([x, y], wood));
        star(marks, [x, y], (SIZE, wood), &PAPER, u8::MAX);
    }
}
