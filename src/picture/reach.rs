//! Hands and sticks on their way to what they strike, seen from above.

use super::BODY;
use super::strike::{SEEN, share};
use crate::dance::{Dancer, StrikeEnd, StrikePart};
use crate::motion::limbs::{ARM, from_palm, meeting_at};
use crate::motion::{BlowOn, Motion, Pose};

/// A hand that strikes or is struck about a moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// Where it meets, metres on the floor.
    pub place: (f64, f64),
    /// How far along the stick what meets is from the palm, metres: towards the tip, below 0 towards the butt; of a hand itself nothing.
    pub end: f64,
    /// The butt and the tip from the palm, metres.
    pub stick: [f64; 2],
    /// How much of the way it has gone: 1 as they meet.
    pub share: f64,
}

/// Everybody's hands, left and right, that strike or are struck about a moment.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Reaches(Vec<[Option<Reach>; 2]>);

impl Reaches {
    /// Those about a count of the dance.
    #[must_use]
    pub fn at(motion: &Motion, count: f64) -> Self {
        let Some(span) = motion.span_under(count) else { return Self::default() };
        let grip = motion.held().grip;
        let stick = [StrikeEnd::Butt, StrikeEnd::Tip].map(|end| from_palm(end, grip));
        let mut all: Vec<[Option<Reach>; 2]> = Vec::new();
        for blow in motion.blows_between(span.begin().min(count - SEEN), count + SEEN) {
            let seen = share(blow, count);
            if seen <= 0.0 || matches!(blow.on, BlowOn::Nobody(_)) {
                continue;
            }
            if matches!(blow.on, BlowOn::Own(part) if part != StrikePart::Hands) {
                // Beside, over or behind the body there is no star from above that it could go to.
                continue;
            }
            let place = meeting_at(motion, blow, count);
            for dancer in blow.hands().into_iter().flatten().map(|hand| hand.dancer) {
                all.resize(all.len().max(dancer.index() + 1), [None; 2]);
                for (hand, known) in all.get_mut(dancer.index()).into_iter().flatten().enumerate() {
                    let Some(end) = blow.end_of(dancer, hand) else { continue };
                    if known.is_none_or(|known| known.share < seen) {
                        *known = Some(Reach {
                            place,
                            end: from_palm(end, grip),
                            stick,
                            share: seen * seen * (3.0 - 2.0 * seen),
                        });
                    }
                }
            }
        }
        Self(all)
    }

    /// Those of a dancer.
    #[must_use]
    pub fn of(&self, dancer: Dancer) -> [Option<Reach>; 2] {
        self.0.get(dancer.index()).copied().unwrap_or_default()
    }
}

/// A hand and what is in it as they are drawn, metres to the dancer's right and in front.
#[derive(Clone, Copy)]
pub(super) struct Held {
    pub hand: [f64; 2],
    /// The butt and the tip.
    pub stick: [[f64; 2]; 2],
}

impl Reach {
    /// A hand that is held some way otherwise, on its way to what it strikes; `side` is -1 for the left and 1 for the right.
    pub(super) fn from(&self, pose: &Pose, side: f64, held: Held) -> Held {
        let (sin, cos) = pose.facing.to_radians().sin_cos();
        let (dx, dy) = (self.place.0 - pose.x, self.place.1 - pose.y);
        let shoulder = side * BODY.arm_from;
        let (right, front) = (dx * cos - dy * sin - shoulder, dx * sin + dy * cos);
        let far = right.hypot(front).max(1e-6);
        let along = [right / far, front / far];
        let end = self.end.abs();
        // The palm is as far behind as the stick is long, or nearer where the arm or the place leaves it no room: it is then held up.
        let palm = (far - end).max(0.35 * far).min(ARM);
        let flat = if end > 0.0 { ((far - palm) / end).min(1.0) * self.end.signum() } else { 0.0 };
        let at = |metres: f64| {
            let [right, front] = along;
            [shoulder + right * metres, front * metres]
        };
        let mix = |from: [f64; 2], to: [f64; 2]| {
            let [x, y] = from;
            let [right, front] = to;
            [x + (right - x) * self.share, y + (front - y) * self.share]
        };
        let [butt, tip] = self.stick.map(|metres| at(palm + metres * flat));
        let [from_butt, from_tip] = held.stick;
        // Of a stick that meets with nothing of its own, only the hand moves.
        let stick = if end > 0.0 {
            [mix(from_butt, butt), mix(from_tip, tip)]
        } else {
            let [x, y] = held.hand;
            let [to_x, to_y] = mix(held.hand, at(palm));
            held.stick.map(|[right, front]| [right + to_x - x, front + to_y - y])
        };
        Held { hand: mix(held.hand, at(palm)), stick }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Dance, Figure, Holding, Set};
    use crate::figures::motion_of;
    use crate::picture::{Frame, Mark, PAPER, dancer_marks};

    fn danced(strike: &str) -> Motion {
        let mut dance = Dance::new("Test", Set::longways(4, 1.2, 1.4));
        dance.holding = Holding::Sticks;
        dance.figures.push(Figure::drawn("one", "One", 4));
        dance.figures[0].strikes.push(serde_json::from_str(strike).unwrap());
        motion_of(&dance, None).unwrap()
    }

    /// As they meet, the end that strikes is drawn where the star is, and half a count away as it is carried; out of reach it is not.
    #[test]
    fn an_end_is_drawn_where_it_strikes() {
        for (end, their) in [("tip", "butt"), ("butt", "tip"), ("tip", "tip")] {
            let strike =
                format!(r#"{{"at": 6, "by": "odds", "with": "{end}", "on": "partner", "their": "{their}"}}"#);
            let motion = danced(&strike);
            let ends = |dancer: Dancer, count: f64| -> Vec<[f32; 2]> {
                let pose = motion.pose(dancer, count);
                let mut marks = Vec::new();
                let frame = Frame { centre: (0.0, 0.0), middle: [0.0; 2], scale: 100.0, up: 0.0 };
                let reaches = Reaches::at(&motion, count).of(dancer);
                dancer_marks(&mut marks, &frame, &PAPER, &pose, (false, Holding::Sticks), 0.0, reaches);
                let sticks = marks.iter().filter_map(|mark| match mark {
                    Mark::Line { points, stroke, .. } if stroke.colour == PAPER.linen => Some(points.clone()),
                    _ => None,
                });
                sticks.flatten().collect()
            };
            let (x, y) = meeting_at(&motion, &motion.blows()[0], 6.0);
            let star = [x as f32 * 100.0, y as f32 * -100.0];
            let far = |at: &[f32; 2]| (at[0] - star[0]).hypot(at[1] - star[1]);
            let away = |places: &[[f32; 2]]| places.iter().map(far).fold(f32::INFINITY, f32::min);
            for dancer in [0, 1].map(Dancer) {
                assert!(away(&ends(dancer, 6.0)) < 1.0, "{end} on {their}: {}", away(&ends(dancer, 6.0)));
                assert!(away(&ends(dancer, 5.4)) > 10.0, "{end} on {their}: {}", away(&ends(dancer, 5.4)));
                // It goes there without a jump.
                let places: Vec<f32> =
                    (0..=60).map(|step| ends(dancer, 5.4 + f64::from(step) * 0.02)[0][0]).collect();
                let most = places.windows(2).map(|two| (two[1] - two[0]).abs()).fold(0.0, f32::max);
                assert!(most < 8.0, "{end} on {their}: {most} pixels in 0.02 of a count");
            }
        }
    }
}
