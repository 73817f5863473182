use super::held::{held, struck};
use super::{Anchor, Colour, EYE, Ink, Mark, Stroke};
use crate::dance::{Holding, Number};
use crate::motion::limbs::{FOOT, HEIGHT, InSpace, Limbs, on_side};

/// From where a body is seen at eye level.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum EyeSide {
    /// From its right side, so that it faces to the right.
    #[default]
    Side,
    /// Facing you.
    Front,
    /// From behind.
    Behind,
}

impl EyeSide {
    /// Each of them.
    pub const ALL: [Self; 3] = [Self::Side, Self::Front, Self::Behind];

    /// The next one, round and round.
    #[must_use]
    pub fn next(self) -> Self {
        match self {
            Self::Side => Self::Front,
            Self::Front => Self::Behind,
            Self::Behind => Self::Side,
        }
    }

    /// What it is called.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Side => "side",
            Self::Front => "front",
            Self::Behind => "behind",
        }
    }

    /// In a sentence, such as `seen from the right side`.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Side => "from the right side",
            Self::Front => "from the front",
            Self::Behind => "from behind",
        }
    }

    /// Which way the eye looks at a body that faces so, degrees clockwise from up.
    #[must_use]
    pub fn looks(self, facing: f64) -> f64 {
        match self {
            Self::Side => facing - 90.0,
            Self::Front => facing + 180.0,
            Self::Behind => facing,
        }
    }
}

/// From space to a picture at eye level: what is farther is no smaller.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EyeFrame {
    /// The place on the floor that lies at `floor`, metres.
    pub centre: (f64, f64),
    /// Where that is in the picture, pixels.
    pub floor: [f32; 2],
    /// Pixels a metre.
    pub scale: f64,
    /// Which way the eye looks, degrees clockwise from up.
    pub looks: f64,
}

impl EyeFrame {
    /// Where a place in space is in the picture, and how far away it is, metres: more is farther.
    #[must_use]
    pub fn to_picture(&self, place: InSpace) -> ([f32; 2], f64) {
        let (sin, cos) = self.looks.to_radians().sin_cos();
        let (dx, dy) = (place.x - self.centre.0, place.y - self.centre.1);
        let right = dx * cos - dy * sin;
        let away = dx * sin + dy * cos;
        let [x, y] = self.floor;
        ([x + (right * self.scale) as f32, y - (place.z * self.scale) as f32], away)
    }

    /// A length, metres, as pixels.
    #[must_use]
    pub fn length(&self, metres: f64) -> f32 {
        (metres * self.scale) as f32
    }
}

/// A body at eye level, and what is seen of it.
#[derive(Clone, Copy, Debug)]
pub struct EyeBody<'a> {
    pub limbs: &'a Limbs,
    /// Which foot, left and right, carries the weight or hops: it is filled.
    pub carries: [bool; 2],
    /// How far each hand, left and right, has moved of late, metres: what it holds trails behind it.
    pub trails: [InSpace; 2],
    pub number: Number,
    pub holding: Holding,
    /// In which hand the stick is, left (0) or right (1).
    pub stick_in: usize,
    /// Whether the number is written on it.
    pub numbered: bool,
}

/// How high a body so tall, metres, is with its hands up in a jump, metres: what a picture has room for. Shorter ones are drawn as large.
#[must_use]
pub fn room_for(tall: f64) -> f64 {
    EYE.tall + (tall - HEIGHT).max(0.0)
}

const LEG: f64 = EYE.leg;
const ARM: f64 = EYE.arm;
const HEAD: f64 = EYE.head;
const HAND: f64 = EYE.hand;
const SOLE: f64 = EYE.sole;
/// How broad the edge is that parts an arm from the head, metres.
const EDGE: f64 = 0.014;

/// A body seen at eye level: head, trunk, arms and legs; the far leg and arm fainter; the foot that carries the weight filled; bells on the
/// shins, and handkerchiefs or a stick in the hands.
pub fn eye_level_marks(marks: &mut Vec<Mark>, frame: &EyeFrame, ink: &Ink, seen: EyeBody) {
    let EyeBody { limbs, number, .. } = seen;
    let front = of_facing(limbs.facing);
    let middle = limbs.middle();
    let chest = limbs.shoulders[0].toward(limbs.shoulders[1], 0.5);
    let (_, away) = frame.to_picture(middle);
    let far = |place: InSpace| frame.to_picture(place).1 - away > 0.03;
    let hue = if number.is_even() { ink.even } else { ink.odd };
    let limb =
        |side: usize| if far(on_side(limbs.hips, side)) { between(ink.words, ink.floor) } else { ink.words };
    // The one farther away first.
    let order =
        if frame.to_picture(limbs.hips[0]).1 > frame.to_picture(limbs.hips[1]).1 { [0, 1] } else { [1, 0] };
    // An arm that hangs behind the trunk, or on the far side of it, goes under it.
    let under = |side: usize| far(on_side(limbs.elbows, side).toward(on_side(limbs.hands, side), 0.5));
    let arm = |marks: &mut Vec<Mark>, side: usize| {
        let points =
            [on_side(limbs.shoulders, side), on_side(limbs.elbows, side), on_side(limbs.hands, side)];
        held(marks, frame, ink, &seen, side, hue);
        if !under(side) && before_head(frame, limbs, side) {
            // Both are of one colour: an edge of the floor's parts them.
            let [_, elbow, hand] = points;
            bones(marks, frame, &[elbow, hand], ARM + 2.0 * EDGE, ink.floor);
            dot(marks, frame, hand, HAND + EDGE, ink.floor);
        }
        bones(marks, frame, &points, ARM, limb(side));
        if frame.length(HAND) >= 1.6 {
            dot(marks, frame, on_side(limbs.hands, side), HAND, limb(side));
        }
    };
    for side in order.into_iter().filter(|&side| under(side)) {
        arm(marks, side);
    }
    // What is struck on the far side is hidden by the body.
    let beyond = |side: usize| on_side(limbs.strikes, side).is_some_and(|(end, _)| far(limbs.end(side, end)));
    for side in order.into_iter().filter(|&side| beyond(side)) {
        struck(marks, frame, ink, limbs, side);
    }
    for side in order {
        let colour = limb(side);
        bones(
            marks,
            frame,
            &[on_side(limbs.hips, side), on_side(limbs.knees, side), ankle(limbs, side)],
            LEG,
            colour,
        );
        bells(marks, frame, ink, limbs, side);
        foot(marks, frame, ink, &seen, (side, front), colour);
    }
    trunk(marks, frame, ink, (middle, chest, limbs), hue);
    head(marks, frame, ink, limbs, front);
    for side in order.into_iter().filter(|&side| !under(side)) {
        arm(marks, side);
    }
    for side in order.into_iter().filter(|&side| !beyond(side)) {
        struck(marks, frame, ink, limbs, side);
    }
    if seen.numbered {
        let at = frame.to_picture(middle.toward(chest, 0.6)).0;
        let radius = frame.length(0.085);
        marks.push(Mark::Oval { at, radii: [radius; 2], turn: 0.0, fill: Some(ink.outline), stroke: None });
        marks.push(Mark::Words {
            at,
            size: radius * if number.0 > 9 { 1.1 } else { 1.5 },
            anchor: Anchor::Middle,
            text: number.to_string(),
            colour: ink.number,
            heavy: true,
        });
    }
}

/// Whether the forearm or the hand on a side is seen before the head.
fn before_head(frame: &EyeFrame, limbs: &Limbs, side: usize) -> bool {
    let middle = limbs.crown - InSpace::new(0.0, 0.0, HEAD);
    let [x, y] = frame.to_picture(middle).0;
    let (elbow, hand) = (on_side(limbs.elbows, side), on_side(limbs.hands, side));
    (0..=8).any(|part| {
        let [right, down] = frame.to_picture(elbow.toward(hand, f64::from(part) / 8.0)).0;
        (right - x).hypot(down - y) < frame.length(HEAD * 1.08 + HAND)
    })
}

/// The colour of what is on the far side.
fn between(one: Colour, other: Colour) -> Colour {
    let mix = |one: u8, other: u8| (f32::from(one) * 0.55 + f32::from(other) * 0.45).round() as u8;
    Colour(mix(one.0, other.0), mix(one.1, other.1), mix(one.2, other.2), 255)
}

/// One metre to the front.
pub(super) fn of_facing(facing: f64) -> InSpace {
    InSpace::new(0.0, 1.0, 0.0).of_body(facing)
}

fn ankle(limbs: &Limbs, side: usize) -> InSpace {
    on_side(limbs.feet, side) + InSpace::new(0.0, 0.0, SOLE)
}

pub(super) fn dot(marks: &mut Vec<Mark>, frame: &EyeFrame, at: InSpace, radius: f64, colour: Colour) {
    let (at, radii) = (frame.to_picture(at).0, [frame.length(radius); 2]);
    marks.push(Mark::Oval { at, radii, turn: 0.0, fill: Some(colour), stroke: None });
}

/// Bones with round ends and joints.
fn bones(marks: &mut Vec<Mark>, frame: &EyeFrame, joints: &[InSpace], width: f64, colour: Colour) {
    let points = joints.iter().map(|joint| frame.to_picture(*joint).0).collect();
    let stroke = Stroke { colour, width: frame.length(width) };
    marks.push(Mark::Line { points, stroke, dash: None });
    // So thin a line has no ends to see.
    for joint in joints.iter().filter(|_| frame.length(width) >= 4.0) {
        dot(marks, frame, *joint, width / 2.0, colour);
    }
}

fn bells(marks: &mut Vec<Mark>, frame: &EyeFrame, ink: &Ink, limbs: &Limbs, side: usize) {
    let shares: &[f64] = if frame.length(0.02) >= 1.0 { &[0.42, 0.56, 0.7] } else { &[0.56] };
    for share in shares.iter().copied().filter(|_| frame.length(0.02) >= 1.0) {
        let at = frame.to_picture(on_side(limbs.knees, side).toward(ankle(limbs, side), share)).0;
        marks.push(Mark::Oval {
            at,
            radii: [frame.length(0.02); 2],
            turn: 0.0,
            fill: Some(EYE.bell),
            stroke: (frame.length(0.006) >= 0.5)
                .then_some(Stroke { colour: ink.outline, width: frame.length(0.006) }),
        });
    }
}

/// A foot: the toe at a right angle to the leg [MB1], flat where it stands.
fn foot(
    marks: &mut Vec<Mark>,
    frame: &EyeFrame,
    ink: &Ink,
    seen: &EyeBody,
    (side, front): (usize, InSpace),
    colour: Colour,
) {
    let sole = on_side(seen.limbs.feet, side);
    let (sin, cos) = seen.limbs.toes_up(side).sin_cos();
    let along =
        |metres: f64| sole + front * (metres * cos) + InSpace::new(0.0, 0.0, metres * sin + SOLE / 2.0);
    let (heel, toe) = (along(FOOT[0] + SOLE / 2.0), along(FOOT[1] - SOLE / 2.0));
    bones(marks, frame, &[heel, toe], SOLE, colour);
    if !on_side(seen.carries, side) {
        bones(marks, frame, &[heel, toe], SOLE - 0.03, ink.floor);
    }
}

fn trunk(
    marks: &mut Vec<Mark>,
    frame: &EyeFrame,
    ink: &Ink,
    (middle, chest, limbs): (InSpace, InSpace, &Limbs),
    hue: Colour,
) {
    let (top, low) = (frame.to_picture(chest).0, frame.to_picture(middle).0);
    let [left, right] = limbs.shoulders.map(|shoulder| frame.to_picture(shoulder).0);
    let across = f64::from((left[0] - right[0]).abs()) / frame.scale;
    // From 0.18 m seen from the side to 0.36 m seen from the front.
    let half = 0.09 + across / 0.4 * 0.09;
    let (dx, dy) = (top[0] - low[0], low[1] - top[1]);
    marks.push(Mark::Block {
        at: [f32::midpoint(top[0], low[0]), f32::midpoint(top[1], low[1])],
        radii: [frame.length(half), dx.hypot(dy) / 2.0 + frame.length(0.06)],
        corner: frame.length(0.085),
        turn: dx.atan2(dy).to_degrees(),
        fill: Some(hue),
        stroke: Some(Stroke { colour: ink.outline, width: frame.length(0.008) }),
    });
}

fn head(marks: &mut Vec<Mark>, frame: &EyeFrame, ink: &Ink, limbs: &Limbs, front: InSpace) {
    let middle = limbs.crown - InSpace::new(0.0, 0.0, HEAD);
    let (at, away) = frame.to_picture(middle);
    let nose = |metres: f64, up: f64| frame.to_picture(middle + front * metres + InSpace::new(0.0, 0.0, up));
    let (tip, tip_away) = nose(HEAD + 0.055, -0.01);
    let oval = Mark::Oval {
        at,
        radii: [frame.length(HEAD), frame.length(HEAD * 1.08)],
        turn: 0.0,
        fill: Some(ink.words),
        stroke: None,
    };
    let points = vec![nose(HEAD * 0.8, 0.035).0, tip, nose(HEAD * 0.8, -0.05).0];
    let nose = Mark::Area { points, fill: Some(ink.words), stroke: None };
    marks.extend([nose, oval]);
    // Towards you it is before the face, and away from you out of sight.
    if tip_away < away - 0.06 {
        let eye = |aside: f64| {
            let aside = InSpace::new(aside, 0.0, 0.0).of_body(limbs.facing);
            middle + front * (HEAD * 0.9) + aside + InSpace::new(0.0, 0.0, 0.025)
        };
        for aside in [-0.042, 0.042] {
            dot(marks, frame, eye(aside), 0.014, ink.floor);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Arms over the head are parted from it by an edge, on each ground, and eyes are seen in the face.
    #[test]
    fn hands_before_the_head_and_eyes_in_the_face_are_seen() {
        use crate::dance::{Dance, Dancer, Figure, Set};
        use crate::motion::{Clock, limbs::Gait};
        use crate::picture::{PAPER, SLATE};
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("one", "One", 4);
        figure.phrase = "2 ds, 2 ss, ftj".to_owned();
        dance.figures.push(figure);
        let motion = crate::figures::motion_of(&dance, None).unwrap();
        let clock = Clock::of_dance(&dance, &motion);
        let gait = Gait::of(&motion, &clock, Dancer(0));
        let limbs = gait.limbs(&motion, &clock, gait.top_at(&clock, 13.0));
        for ink in [PAPER, SLATE] {
            let marks = |side: EyeSide| {
                let middle = limbs.middle();
                let looks = side.looks(limbs.facing);
                let frame = EyeFrame { centre: (middle.x, middle.y), floor: [0.0; 2], scale: 200.0, looks };
                let mut marks = Vec::new();
                let seen = EyeBody {
                    limbs: &limbs,
                    carries: [true; 2],
                    trails: [InSpace::default(); 2],
                    number: Dancer(0).number(),
                    holding: Holding::Nothing,
                    stick_in: 1,
                    numbered: false,
                };
                eye_level_marks(&mut marks, &frame, &ink, seen);
                marks
            };
            // Before the head, which is the largest oval, there is an edge of the floor's colour, and an arm on it.
            let from_the_side = marks(EyeSide::Side);
            let large = |mark: &Mark| matches!(mark, Mark::Oval { radii, .. } if radii[0] > 20.0);
            let head = from_the_side.iter().position(large).unwrap();
            let edge = |mark: &Mark| matches!(mark, Mark::Line { stroke, .. } if stroke.colour == ink.floor);
            let edge = head + from_the_side.iter().skip(head).position(edge).unwrap();
            let arm = |mark: &Mark| matches!(mark, Mark::Line { stroke, .. } if stroke.colour == ink.words);
            assert!(from_the_side.iter().skip(edge).any(arm));
            // The last small dots after the head from the front are the eyes.
            let eyes = marks(EyeSide::Front).into_iter().filter(|mark| {
                matches!(mark, Mark::Oval { radii, fill, .. } if radii[0] < 3.0 && *fill == Some(ink.floor))
            });
            assert_eq!(eyes.count(), 2);
        }
    }

    #[test]
    fn seen_from_the_side_they_face_to_the_right_and_from_the_front_their_right_is_on_your_left() {
        for facing in [0.0, 90.0, 217.0] {
            let frame = |side: EyeSide| EyeFrame {
                centre: (0.0, 0.0),
                floor: [0.0; 2],
                scale: 100.0,
                looks: side.looks(facing),
            };
            let front = InSpace::new(0.0, 1.0, 1.0).of_body(facing);
            let right = InSpace::new(1.0, 0.0, 0.0).of_body(facing);
            let ([x, y], away) = frame(EyeSide::Side).to_picture(front);
            assert!((x - 100.0).abs() < 1e-3 && (y + 100.0).abs() < 1e-3 && away.abs() < 1e-9);
            assert!(frame(EyeSide::Side).to_picture(right).1 < -0.9, "the right side is nearer");
            assert!(frame(EyeSide::Front).to_picture(right).0[0] < -99.0);
            assert!(frame(EyeSide::Front).to_picture(front).1 < -0.9, "they come towards you");
            assert!(frame(EyeSide::Behind).to_picture(right).0[0] > 99.0);
        }
    }
}
