use super::reach::{Held, Reach};
use super::{Anchor, BODY, Colour, Frame, Ink, Mark, Stroke};
use crate::dance::Holding;
use crate::motion::{Pose, Weight};

/// Below so many pixels a metre a body is a dot, and what it stands on and holds is less than an eye sees.
const DOT: f32 = 5.0;
/// The most that a number is made larger to, metres of floor.
const MOST_NUMBER: f64 = 0.7;

/// A body seen from above: shoulders, a head with a nose, two feet with the one that carries the weight filled,
/// two handkerchiefs that grow as they rise or a stick, and the number. `least` is the least size of the number, pixels: a
/// smaller one has a head as large as it takes, which shows hue, shape and facing as the body does. `reaches` are the hands, left and
/// right, that strike about now.
pub fn dancer_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    pose: &Pose,
    (chosen, holding): (bool, Holding),
    least: f32,
    reaches: [Option<Reach>; 2],
) {
    let middle = frame.to_picture(pose.x, pose.y);
    let turn = frame.turn(pose.facing);
    let (sin, cos) = turn.to_radians().sin_cos();
    // A place by metres to the dancer's right and metres in front.
    let place = |right: f64, front: f64| {
        let (right, front) = (frame.length(right), frame.length(front));
        [middle[0] + right * cos + front * sin, middle[1] + right * sin - front * cos]
    };
    let px = |metres: f64| frame.length(metres);
    let line = |metres: f64| px(metres).clamp(0.6, 3.0);
    let hue = if pose.number.is_even() { ink.even } else { ink.odd };
    let edge = Stroke { colour: ink.outline, width: line(BODY.outline) };
    if chosen {
        let points = (0..=72)
            .map(|step| {
                let angle = (f64::from(step) * 5.0).to_radians();
                let (sin, cos) = angle.sin_cos();
                [middle[0] + px(BODY.ring) * sin as f32, middle[1] - px(BODY.ring) * cos as f32]
            })
            .collect();
        let stroke = Stroke { colour: ink.words, width: line(0.016) };
        marks.push(Mark::Line { points, stroke, dash: Some([px(0.02), px(0.045)]) });
    }
    let radii = [px(BODY.breadth / 2.0), px(BODY.depth / 2.0)];
    if px(1.0) < DOT {
        marks.push(body(pose, middle, radii, px(BODY.corner), turn, (hue, None)));
        return;
    }
    let standing = |foot: Weight| pose.weight == foot || pose.weight == Weight::Both;
    for (side, foot) in [(-1.0, Weight::Left), (1.0, Weight::Right)] {
        marks.push(Mark::Oval {
            at: place(side * BODY.foot_aside, BODY.foot_front),
            radii: BODY.foot_radii.map(px),
            turn,
            fill: standing(foot).then_some(ink.words),
            stroke: Some(Stroke { colour: ink.words, width: line(BODY.foot_line) }),
        });
    }
    marks.push(body(pose, middle, radii, px(BODY.corner), turn, (hue, Some(edge))));
    let in_hand = if pose.stick_hand == 0 { -1.0 } else { 1.0 };
    let each = [-1.0, 1.0].into_iter().zip(pose.each_hand).zip(hands(pose)).zip(reaches);
    for (((side, raised), [right, front]), reach) in each {
        let raised: f64 = raised.clamp(0.0, 1.0);
        // A stick is held at its middle, across the front as it rises: half of it to each side of the hand.
        let [aside, butt_front] = BODY.stick_butt;
        let across = (BODY.hand_aside - BODY.stick_over * raised - aside) / 2.0;
        let along = (front + BODY.stick_front - butt_front) / 2.0;
        let end = |way: f64| [right + way * side * across, front + way * along];
        let carried = Held { hand: [right, front], stick: [end(-1.0), end(1.0)] };
        let held = reach.map_or(carried, |reach| reach.from(pose, side, carried));
        let [right, front] = held.hand;
        let hand = place(right, front);
        let arm = Stroke { colour: hue, width: px(BODY.arm_line).max(1.0) };
        marks.push(Mark::Line {
            points: vec![place(side * BODY.arm_from, 0.0), hand],
            stroke: arm,
            dash: None,
        });
        let edge = Some(Stroke { colour: ink.outline, width: line(BODY.hand_line) });
        match holding {
            Holding::Handkerchiefs => marks.push(Mark::Oval {
                at: hand,
                radii: [px(BODY.kerchief + BODY.kerchief_rise * raised); 2],
                turn: 0.0,
                fill: Some(ink.linen),
                stroke: edge,
            }),
            Holding::Sticks if side == in_hand => {
                let [butt, tip] = held.stick.map(|[right, front]| place(right, front));
                for (colour, width) in [(ink.outline, BODY.stick_edge), (ink.linen, BODY.stick_wood)] {
                    let stroke = Stroke { colour, width: px(width).max(1.4) };
                    marks.push(Mark::Line { points: vec![tip, butt], stroke, dash: None });
                }
            }
            Holding::Sticks | Holding::Nothing => marks.push(Mark::Oval {
                at: hand,
                radii: [px(BODY.hand_radius); 2],
                turn: 0.0,
                fill: Some(hue),
                stroke: edge,
            }),
        }
    }
    let text = pose.number.to_string();
    let [one, two, three] = BODY.numbers;
    let size = match text.len() {
        1 => one,
        2 => two,
        _ => three,
    };
    // Never so large that two who stand apart as in a set lie over one another.
    let larger = (least.min(px(MOST_NUMBER)) / px(one)).max(1.0);
    let (head, larger_by) = (px(BODY.head) * larger, f64::from(larger));
    let nose = |aside: f64, front: f64| place(aside * larger_by, front * larger_by);
    let is_larger = larger > 1.0;
    if is_larger {
        let rim = head + (head * 0.2).max(1.5);
        marks.push(body(pose, middle, [rim; 2], rim * 0.3, turn, (hue, Some(edge))));
    }
    marks.push(Mark::Area {
        points: vec![
            nose(-BODY.nose_aside, BODY.nose_from),
            nose(0.0, BODY.nose_tip + if is_larger { 0.03 } else { 0.0 }),
            nose(BODY.nose_aside, BODY.nose_from),
        ],
        // Beyond the body a dark nose would be lost on the floor.
        fill: Some(if is_larger { hue } else { ink.outline }),
        stroke: is_larger.then_some(edge),
    });
    marks.push(Mark::Oval { at: middle, radii: [head; 2], turn: 0.0, fill: Some(ink.outline), stroke: None });
    marks.push(Mark::Words {
        at: middle,
        size: px(size) * larger,
        anchor: Anchor::Middle,
        text,
        colour: ink.number,
        heavy: true,
    });
}

/// Where the hands are, metres to the dancer's right and in front: the left one first.
fn hands(pose: &Pose) -> [[f64; 2]; 2] {
    let [left, right] = pose.each_hand.map(|raised| BODY.hand_swing * (raised.clamp(0.0, 1.0) - 0.5));
    [[-BODY.hand_aside, left], [BODY.hand_aside, right]]
}

/// Whose hand is drawn at a place, metres: the nearest of those that are so near; nobody's where bodies are dots. Gives a place
/// among the poses.
#[must_use]
pub fn hand_near(frame: &Frame, poses: &[Pose], (x, y): (f64, f64), near: f64) -> Option<usize> {
    if frame.length(1.0) < DOT {
        return None;
    }
    let far = |pose: &Pose| {
        let (sin, cos) = pose.facing.to_radians().sin_cos();
        let from = hands(pose).map(|[right, front]| {
            (pose.x + right * cos + front * sin - x).hypot(pose.y - right * sin + front * cos - y)
        });
        from.into_iter().fold(f64::INFINITY, f64::min)
    };
    let all = poses.iter().map(far).enumerate().filter(|(_, far)| *far < near);
    all.min_by(|(_, one), (_, other)| one.total_cmp(other)).map(|(index, _)| index)
}

/// The shoulders: odds are round and evens are square.
fn body(
    pose: &Pose,
    at: [f32; 2],
    radii: [f32; 2],
    corner: f32,
    turn: f32,
    (hue, stroke): (Colour, Option<Stroke>),
) -> Mark {
    let fill = Some(hue);
    if pose.number.is_even() {
        Mark::Block { at, radii, corner, turn, fill, stroke }
    } else {
        Mark::Oval { at, radii, turn, fill, stroke }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::motion::Motion;

    /// A stick is one straight line with its middle in the hand that holds it: the left one of who is left-handed.
    #[test]
    fn a_stick_is_straight_and_in_the_hand_that_holds_it() {
        use crate::dance::{Dance, Dancer, Figure, Set};
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        dance.figures.push(Figure::drawn("one", "One", 4));
        dance.figures[0].phrase = "2 ds, 2 ss, ftj".to_owned();
        let person = r#"{"number": 1, "name": "Wren", "left_handed": true}"#;
        dance.people.push(serde_json::from_str(person).unwrap());
        let motion: Motion = crate::figures::motion_of(&dance, None).unwrap();
        for count in [0.0, 1.5, 13.0] {
            for (dancer, side) in [(Dancer(0), -1.0), (Dancer(1), 1.0)] {
                let pose = motion.pose(dancer, count);
                let frame =
                    Frame { centre: (pose.x, pose.y), middle: [0.0; 2], scale: 100.0, up: pose.facing };
                let mut marks = Vec::new();
                let ink = crate::picture::PAPER;
                dancer_marks(&mut marks, &frame, &ink, &pose, (false, Holding::Sticks), 0.0, [None; 2]);
                let sticks: Vec<_> = marks
                    .iter()
                    .filter_map(|mark| match mark {
                        Mark::Line { points, stroke, .. } if stroke.colour == ink.linen => Some(points),
                        _ => None,
                    })
                    .collect();
                assert_eq!(sticks.len(), 1);
                assert_eq!(sticks[0].len(), 2, "a kink: {:?}", sticks[0]);
                let [tip, butt] = [sticks[0][0], sticks[0][1]];
                let middle = f64::from(f32::midpoint(tip[0], butt[0]));
                assert!(
                    (middle - side * 100.0 * BODY.hand_aside).abs() < 0.1,
                    "{dancer:?} {count}: {middle}"
                );
                assert!((tip[0] - butt[0]).hypot(tip[1] - butt[1]) > 40.0);
            }
        }
    }
}
