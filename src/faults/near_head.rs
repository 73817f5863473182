use super::found::Found;
use super::struck::Struck;
use crate::dance::{Dancer, FaultKind};
use crate::motion::limbs::InSpace;
use crate::motion::{Blow, Span};

/// An end so near to somebody's head is a caution, metres (from memory).
const NEAR: f64 = 0.3;
/// The middle of a head is so far under its crown, metres (from memory).
const UNDER: f64 = 0.12;
/// Nobody farther off than this is looked at, metres: a head within it of an end of a stick that meets.
const ABOUT: f64 = 1.6;

/// An end of a stick, or a hand, near another's head as it strikes: a caution. Of two who meet, and of all who stand by, the nearest is told.
pub(super) fn find(struck: &Struck, span: &Span, blows: &[Blow], found: &mut Vec<Found>) {
    let motion = struck.look.motion;
    for blow in blows {
        let mut worst: Option<(f64, Dancer, Dancer, InSpace)> = None;
        for own in blow.hands().into_iter().flatten() {
            let limbs = struck.limbs(own.dancer, blow.count);
            let palm = limbs.end(own.hand, own.end);
            let stick = limbs.sticks.get(own.hand).copied().flatten().filter(|_| own.end.is_of_stick());
            let hand = limbs.hands.get(own.hand).copied().unwrap_or(palm);
            let ends = stick.map_or([palm; 2], |stick| stick.ends().map(|end| hand + end));
            for other in Dancer::all(motion.dancers()).filter(|other| *other != own.dancer) {
                let pose = motion.pose(other, blow.count);
                if (pose.x - palm.x).hypot(pose.y - palm.y) > ABOUT {
                    continue;
                }
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
