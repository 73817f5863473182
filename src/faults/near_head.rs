use super::found::Found;
use super::struck::Struck;
use crate::dance::{Dancer, FaultKind};
use crate::motion::limbs::InSpace;
use crate::motion::{Blow, Motion, Span};

/// An end so near to somebody's head is a caution, metres (from memory).
const NEAR: f64 = 0.3;
/// The middle of a head is so far under its crown, metres (from memory).
const UNDER: f64 = 0.12;
/// Nobody farther off than this is looked at, metres: a head within it of an end of a stick that meets.
const ABOUT: f64 = 1.6;

/// Where everybody is at a moment, in order along the longer way of the floor.
#[derive(Default)]
struct Bodies {
    count: Option<f64>,
    upright: bool,
    /// Each place, metres, and whose it is.
    places: Vec<([f64; 2], Dancer)>,
}

impl Bodies {
    fn stand_at(&mut self, motion: &Motion, count: f64) {
        if self.count == Some(count) {
            return;
        }
        let place = |dancer: Dancer| {
            let pose = motion.pose(dancer, count);
            ([pose.x, pose.y], dancer)
        };
        self.count = Some(count);
        self.places = Dancer::all(motion.dancers()).map(place).collect();
        let range = |axis: fn(&[f64; 2]) -> f64| {
            let all = self.places.iter().map(|(place, _)| axis(place));
            let ends =
                all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)));
            ends.1 - ends.0
        };
        self.upright = range(|place| place[1]) >= range(|place| place[0]);
        let upright = self.upright;
        self.places.sort_by(|(one, _), (other, _)| along(upright, *one).total_cmp(&along(upright, *other)));
    }

    /// Those no farther from a place than so many metres, seen from above.
    fn about(&self, at: InSpace, far: f64) -> impl Iterator<Item = Dancer> {
        let here = [at.x, at.y];
        let line = along(self.upright, here);
        let from = self.places.partition_point(|(place, _)| along(self.upright, *place) < line - far);
        let near = self.places.iter().skip(from);
        let near = near.take_while(move |(place, _)| along(self.upright, *place) <= line + far);
        near.filter(move |([x, y], _)| (x - here[0]).hypot(y - here[1]) <= far).map(|(_, dancer)| *dancer)
    }
}

/// How far along the longer way of the floor a place is.
fn along(upright: bool, [x, y]: [f64; 2]) -> f64 {
    if upright { y } else { x }
}

/// An end of a stick, or a hand, near another's head as it strikes: a caution. Of two who meet, and of all who stand by, the nearest is told.
pub(super) fn find(struck: &Struck, span: &Span, blows: &[Blow], found: &mut Vec<Found>) {
    let motion = struck.look.motion;
    let mut bodies = Bodies::default();
    for blow in blows {
        bodies.stand_at(motion, blow.count);
        let mut worst: Option<(f64, Dancer, Dancer, InSpace)> = None;
        for own in blow.hands().into_iter().flatten() {
            let limbs = struck.limbs(own.dancer, blow.count);
            let palm = limbs.end(own.hand, own.end);
            let stick = limbs.sticks.get(own.hand).copied().flatten().filter(|_| own.end.is_of_stick());
            let hand = limbs.hands.get(own.hand).copied().unwrap_or(palm);
            let ends = stick.map_or([palm; 2], |stick| stick.ends().map(|end| hand + end));
            for other in bodies.about(palm, ABOUT).filter(|other| *other != own.dancer) {
                let head = struck.limbs(other, blow.count).crown - InSpace::new(0.0, 0.0, UNDER);
                for end in ends {
                    let far = (end - head).length();
                    if far < worst.map_or(NEAR, |(far, ..)| far) {
                        worst = Some((far, own.dancer, other, end));
                    }
                }
            }
        }
        let Some((far, who, whose, end)) = worst else { continue };
        let at = blow.count - span.begin();
        found.push(Found {
            kind: FaultKind::NearHead,
            at,
            lasts: (at, at),
            dancers: vec![who, whose],
            value: far,
            limit: NEAR,
            text: format!("{who} strikes {far:.2} m from the head of {whose}: agree where, and how high"),
            spot: Some((end.x, end.y)),
        });
    }
}
