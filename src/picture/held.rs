use super::eye_level::{EyeBody, EyeFrame, dot, of_facing};
use super::{Colour, EYE, Ink, Mark, Stroke, star};
use crate::dance::Holding;
use crate::motion::limbs::{InSpace, Limbs, on_side};

const CLOTH: f64 = EYE.cloth;
const STICK: f64 = EYE.stick;
/// From the middle of the star of a strike to its points, metres.
const STAR: f64 = 0.12;

/// Which way a handkerchief hangs from a hand that has moved so far of late, metres: it trails behind the hand. However fast the hand falls
/// it lifts no higher than this, metres for each that it hangs down, so that it never flies round from one moment to the next.
fn hangs(trail: InSpace) -> InSpace {
    const DOWN: f64 = 0.1;
    const LIFTS: f64 = 0.02;
    let lag = trail * -0.9;
    let up = if lag.z > 0.0 { LIFTS * (lag.z / LIFTS).tanh() } else { lag.z };
    let hangs = InSpace::new(lag.x, lag.y, up - DOWN);
    hangs * (1.0 / hangs.length())
}

/// What a hand holds.
pub(super) fn held(
    marks: &mut Vec<Mark>,
    frame: &EyeFrame,
    ink: &Ink,
    seen: &EyeBody,
    side: usize,
    hue: Colour,
) {
    let hand = on_side(seen.limbs.hands, side);
    match seen.holding {
        Holding::Handkerchiefs => {
            let along = hangs(on_side(seen.trails, side));
            let side = InSpace::new(0.0, 0.0, 1.0);
            // Across it, in the plane that is seen.
            let (sin, cos) = frame.looks.to_radians().sin_cos();
            let right = InSpace::new(cos, -sin, 0.0);
            let in_plane = along.x * right.x + along.y * right.y;
            let across = right * along.z - side * in_plane;
            let at = |down: f64, wide: f64| {
                frame.to_picture(hand + along * (CLOTH * down) + across * (CLOTH * wide)).0
            };
            let edge: Vec<[f32; 2]> = EYE.edge.iter().map(|&[down, wide]| at(down, wide)).collect();
            marks.push(Mark::Outline { loops: vec![edge.clone()], fill: ink.linen });
            let stroke = Stroke { colour: ink.outline, width: frame.length(0.008) };
            marks.push(Mark::Line { points: edge, stroke, dash: None });
        }
        Holding::Sticks if side == seen.stick_in || on_side(seen.limbs.sticks, side).is_some() => {
            let ends = on_side(seen.limbs.sticks, side).map_or_else(
                || {
                    let along = of_facing(seen.limbs.facing) * 0.45 + InSpace::new(0.0, 0.0, 0.9);
                    [along * (-STICK / 2.0), along * (STICK / 2.0)]
                },
                |stick| stick.ends(),
            );
            let points: Vec<[f32; 2]> = ends.iter().map(|end| frame.to_picture(hand + *end).0).collect();
            for (colour, width) in [(ink.outline, 0.05), (ink.linen, 0.03)] {
                let stroke = Stroke { colour, width: frame.length(width) };
                marks.push(Mark::Line { points: points.clone(), stroke, dash: None });
            }
        }
        Holding::Sticks | Holding::Nothing => dot(marks, frame, hand, 0.04, hue),
    }
}

/// The moment of a strike: the star that is on the floor from above as well.
pub(super) fn struck(marks: &mut Vec<Mark>, frame: &EyeFrame, ink: &Ink, limbs: &Limbs, side: usize) {
    let Some((end, share)) = on_side(limbs.strikes, side) else { return };
    let at = frame.to_picture(limbs.end(side, end)).0;
    star(marks, at, (frame.length(STAR), end.is_of_stick()), ink, (255.0 * share) as u8);
}

#[cfg(test)]
mod tests {
    use super::super::eye_level::{EyeSide, eye_level_marks};
    use super::*;

    /// From one moment to the next a handkerchief goes round by little, however the hand moves: here as fast as 4 m a second round about,
    /// 0.07 s behind, at 60 pictures a second.
    #[test]
    fn a_handkerchief_does_not_flip() {
        let mut most = 0.0_f64;
        for speed in [0.5, 1.0, 2.0, 4.0] {
            let mut before = None;
            for frame in 0..240 {
                let angle = f64::from(frame) / 60.0 * speed / 0.3;
                let trail = InSpace::new(0.0, angle.cos(), angle.sin()) * (speed * 0.07);
                let now = hangs(trail);
                assert!((now.length() - 1.0).abs() < 1e-9 && now.z < 0.0);
                let turned = before.map_or(0.0, |before: InSpace| {
                    (before.x * now.x + before.y * now.y + before.z * now.z).clamp(-1.0, 1.0).acos()
                });
                most = most.max(turned.to_degrees());
                before = Some(now);
            }
        }
        assert!(most < 40.0, "{most} degrees from one picture to the next");
    }

    /// The stick is in the left hand of who is left-handed.
    #[test]
    fn a_stick_is_in_the_hand_that_holds_it() {
        use crate::dance::{Dance, Dancer, Figure, Set};
        use crate::figures::motion_of;
        use crate::motion::{Clock, limbs::Gait};
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        dance.figures.push(Figure::drawn("one", "One", 4));
        let person = r#"{"number": 1, "name": "Wren", "left_handed": true}"#;
        dance.people.push(serde_json::from_str(person).unwrap());
        assert_eq!([dance.stick_hand(Dancer(0).number()), dance.stick_hand(Dancer(1).number())], [0, 1]);
        let motion = motion_of(&dance, None).unwrap();
        let clock = Clock::of_dance(&dance, &motion);
        let gait = Gait::of(&motion, &clock, Dancer(0));
        let limbs = gait.limbs(&motion, &clock, 2.0);
        let looks = EyeSide::Front.looks(limbs.facing);
        let middle = limbs.middle();
        let frame = EyeFrame { centre: (middle.x, middle.y), floor: [0.0; 2], scale: 100.0, looks };
        let across = |stick_in: usize| {
            let mut marks = Vec::new();
            let seen = EyeBody {
                limbs: &limbs,
                carries: [true; 2],
                trails: [InSpace::default(); 2],
                number: Dancer(0).number(),
                holding: Holding::Sticks,
                stick_in,
                numbered: false,
            };
            eye_level_marks(&mut marks, &frame, &crate::picture::PAPER, seen);
            // The longest straight line is the stick.
            let long = |mark: &Mark| match mark {
                Mark::Line { points, .. } if points.len() == 2 => {
                    Some((points[1][1] - points[0][1], points[0][0]))
                }
                _ => None,
            };
            let lines = marks.iter().filter_map(long);
            lines.min_by(|one, other| one.0.total_cmp(&other.0)).unwrap().1
        };
        // Facing you, their left is on your right.
        assert!(across(0) > 10.0 && across(1) < -10.0, "{} {}", across(0), across(1));
    }
}
