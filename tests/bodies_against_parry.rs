//! Clash and tight against the collision library parry2d, which knows nothing of dancing, on random dances: bodies as
//! polygons of 64 corners, looked at each 256th of a count.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Extra, FaultKind, Figure, Leg, LegFacing, Part, Set, SetKind, Spot, Turn, Way, check_rules,
};
use bellpad::faults::{Fault, find_faults};
use bellpad::figures::motion_of;
use bellpad::motion::Motion;
use parry2d_f64::math::{Pose, Vector};
use parry2d_f64::query::contact;
use parry2d_f64::shape::ConvexPolygon;

/// How far the two may differ, metres.
const WITHIN: f64 = 0.002;
/// How much nearer two may be at another moment than at the one that is told, once they overlap, metres.
const OVERLAP: f64 = 0.01;
/// Samples in a count.
const PER_COUNT: u32 = 256;

/// Numbers by chance, the same in each run (G. Marsaglia, "Xorshift RNGs", 2003).
struct Chance(u64);

impl Chance {
    fn next(&mut self) -> f64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.next()
    }

    fn one_in(&mut self, many: u32) -> bool {
        self.next() * f64::from(many) < 1.0
    }
}

/// A figure in which a few dancers go anywhere, turning, in a space too small for them.
fn random_dance(chance: &mut Chance) -> Dance {
    let dancers = 2 + (chance.next() * 3.0) as u32;
    let bars = 1 + (chance.next() * 3.0) as u32;
    let counts = f64::from(bars * 4);
    let wide = chance.between(0.8, 2.2);
    let mut set = Set::longways(2, 2.0, 2.0);
    (set.kind, set.dancers) = (SetKind::Spots, dancers);
    let place = |chance: &mut Chance| (chance.between(-wide, wide), chance.between(-wide, wide));
    for _ in 0..dancers {
        let (x, y) = place(chance);
        set.spots.push(Spot { x, y, facing: chance.between(0.0, 360.0), extra: Extra::new() });
    }
    let mut dance = Dance::new("Random", set);
    let mut figure = Figure::drawn("any", "Any", bars);
    figure.phrase.push_str("ds");
    for number in 1..=dancers {
        let mut part = Part::still(number);
        let mut at = 0.0;
        while at < counts - 0.5 {
            let begin = at + if chance.one_in(3) { chance.between(0.0, 1.5) } else { 0.0 };
            let end = (begin + chance.between(1.0, 5.0)).min(counts);
            if end - begin < 0.5 {
                break;
            }
            let (x, y) = place(chance);
            let mut leg = match (chance.next() * 3.0) as u32 {
                0 => Leg::straight(begin, end, x, y),
                1 => {
                    let through: Vec<_> = (0..=(chance.next() * 3.0) as u32).map(|_| place(chance)).collect();
                    Leg::smooth(begin, end, &through, x, y)
                }
                _ => Leg {
                    shape: bellpad::dance::Shape::Arc,
                    sweep: Some(chance.between(20.0, 300.0) * if chance.one_in(2) { 1.0 } else { -1.0 }),
                    ..Leg::straight(begin, end, x, y)
                },
            };
            leg.facing = [LegFacing::Held, LegFacing::Forwards, LegFacing::Backwards, LegFacing::Left]
                [(chance.next() * 4.0) as usize];
            part.legs.push(leg);
            at = end;
        }
        at = 0.0;
        while at < counts - 1.0 && chance.one_in(2) {
            let begin = at + chance.between(0.0, 2.0);
            let end = (begin + chance.between(0.5, 3.0)).min(counts);
            if end - begin < 0.5 {
                break;
            }
            let way = if chance.one_in(2) { Way::Left } else { Way::Right };
            part.turns.push(Turn::to_face(begin, end, way, chance.between(0.0, 360.0)));
            at = end;
        }
        figure.parts.push(part);
    }
    dance.figures.push(figure);
    check_rules(&dance).unwrap();
    dance
}

fn body() -> ConvexPolygon {
    let corners = (0..64).map(|corner| {
        let (sin, cos) = (f64::from(corner) / 64.0 * std::f64::consts::TAU).sin_cos();
        Vector::new(0.25 * cos, 0.14 * sin)
    });
    ConvexPolygon::from_convex_hull(&corners.collect::<Vec<_>>()).unwrap()
}

/// The space between two bodies at a count as the library finds it; nothing where they are well apart.
fn reference(body: &ConvexPolygon, motion: &Motion, (one, other): (usize, usize), count: f64) -> Option<f64> {
    let (a, b) = (motion.pose(Dancer(one), count), motion.pose(Dancer(other), count));
    if (a.x - b.x).hypot(a.y - b.y) > 0.62 {
        return None;
    }
    // The library turns anticlockwise.
    let pose =
        |pose: &bellpad::motion::Pose| Pose::new(Vector::new(pose.x, pose.y), -pose.facing.to_radians());
    contact(&pose(&a), body, &pose(&b), body, 0.2).unwrap().map(|contact| contact.dist)
}

fn is_of(fault: &Fault, (one, other): (usize, usize)) -> bool {
    matches!(fault.kind, FaultKind::Clash | FaultKind::Tight)
        && fault.dancers == [one as u32 + 1, other as u32 + 1]
}

#[test]
fn no_meeting_is_missed_and_none_invented() {
    let mut chance = Chance(0x9E37_79B9_7F4A_7C15);
    let body = body();
    let (mut clashes, mut tights, mut clear, mut fast) = (0, 0, 0, 0);
    for index in 0..2000 {
        let dance = random_dance(&mut chance);
        let motion = motion_of(&dance, None).unwrap();
        let faults = find_faults(&dance, &motion);
        let dancers = motion.dancers();
        for pair in (0..dancers).flat_map(|one| (one + 1..dancers).map(move |other| (one, other))) {
            let told: Vec<&Fault> = faults.iter().filter(|fault| is_of(fault, pair)).collect();
            let place = |count: f64| format!("dance {index}, {pair:?} at {count}: {told:?}");
            // None invented, and each as near as it says, when it says.
            for fault in &told {
                // The count is told to a thousandth: the moment is within half of one of it, and where bodies go
                // fast, the space goes through many values in that time.
                let about = |samples: i32| {
                    (-samples..=samples)
                        .map(|part| fault.counts() + f64::from(part) * 0.000_5 / f64::from(samples))
                        .filter_map(|count| reference(&body, &motion, pair, count))
                        .fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), space| {
                            (least.min(space), most.max(space))
                        })
                };
                let (mut least, mut most) = about(50);
                if !(least - WITHIN..most + WITHIN).contains(&fault.value) {
                    (least, most) = about(5000);
                }
                assert!(
                    (least - WITHIN..most + WITHIN).contains(&fault.value),
                    "{least} to {most}: {}",
                    place(fault.counts())
                );
                fast += u32::from(most - least > WITHIN);
                match fault.kind {
                    FaultKind::Clash => clashes += 1,
                    _ => {
                        assert!(fault.value > 0.0 && fault.value < 0.1);
                        tights += 1;
                    }
                }
            }
            if told.is_empty() {
                clear += 1;
            }
            // None missed, and none nearer than the nearest that is told.
            for sample in 0..=(motion.counts() as u32 * PER_COUNT) {
                let count = f64::from(sample) / f64::from(PER_COUNT);
                let Some(space) = reference(&body, &motion, pair, count) else { continue };
                if space < 0.1 - WITHIN {
                    let fault = told.iter().find(|fault| fault.lasts.0 <= count && count <= fault.lasts.1);
                    let fault = fault.unwrap_or_else(|| panic!("missed, {space}: {}", place(count)));
                    let nearer = if fault.value < 0.0 { OVERLAP + WITHIN } else { WITHIN };
                    assert!(fault.value < space + nearer, "{space} is nearer: {}", place(count));
                    assert!(
                        space > 0.0 || fault.kind == FaultKind::Clash || space > -WITHIN,
                        "{}",
                        place(count)
                    );
                }
            }
        }
    }
    println!("{clashes} clashes, {tights} tight, {clear} pairs clear, {fast} while bodies go fast");
    // Paths by chance are long for their time; still nine in ten are told against one value.
    assert!(fast < (clashes + tights) / 10, "{fast}");
    assert!(clashes > 1000 && tights > 300 && clear > 1000, "{clashes} {tights} {clear}");
}
