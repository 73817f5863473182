//! What a strict look at the body in space measured, a test each.
//!
//! Sources: [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907) for heights, legs and arms; CALC for flights, with
//! g = 9.81 m/s^2.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, FaultKind, Figure, FreeFoot, FreePlace, Landing, Leg, Metre, OwnStep, Part, Set,
};
use bellpad::faults::{Fault, find_faults};
use bellpad::figures::motion_of;
use bellpad::motion::limbs::{GRAVITY, Gait, InSpace, Limbs};
use bellpad::motion::{Clock, Motion, Weight};

/// A dance of some figures on the spot, each a phrase and its bars.
fn danced_on(figures: &[(&str, u32)], speed: f64) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
    dance.music.speed = speed;
    for (index, (phrase, bars)) in figures.iter().enumerate() {
        let mut figure = Figure::drawn(&format!("part {index}"), &format!("Part {index}"), *bars);
        (*phrase).clone_into(&mut figure.phrase);
        dance.figures.push(figure);
    }
    dance
}

fn own_step(short: &str, feet: &[Landing]) -> OwnStep {
    OwnStep { name: short.to_owned(), short: short.to_owned(), feet: feet.to_vec(), ..OwnStep::default() }
}

struct Danced {
    motion: Motion,
    clock: Clock,
    gait: Gait,
}

impl Danced {
    fn of(dance: &Dance) -> Self {
        let motion = motion_of(dance, None).unwrap();
        let clock = Clock::of_dance(dance, &motion);
        let gait = Gait::of(&motion, &clock, Dancer(0));
        Self { motion, clock, gait }
    }

    fn at(&self, count: f64) -> Limbs {
        self.gait.limbs(&self.motion, &self.clock, count)
    }

    /// A foot from the middle of the body, as the body has it.
    fn foot(&self, side: usize, count: f64) -> InSpace {
        let body = self.at(count);
        let middle = body.middle();
        let own = (body.feet[side] - InSpace::new(middle.x, middle.y, 0.0)).as_body_has_it(body.facing);
        InSpace::new(if side == 0 { -own.x } else { own.x }, own.y, own.z)
    }

    fn hand(&self, side: usize, count: f64) -> InSpace {
        let body = self.at(count);
        let own = (body.hands[side] - body.shoulders[side]).as_body_has_it(body.facing);
        InSpace::new(if side == 0 { -own.x } else { own.x }, own.y, own.z)
    }
}

/// How far a leg is from straight, degrees.
fn bent(body: &Limbs, side: usize) -> f64 {
    let (upper, lower) = (body.knees[side] - body.hips[side], body.feet[side] - body.knees[side]);
    let dot = upper.x * lower.x + upper.y * lower.y + upper.z * lower.z;
    (dot / upper.length() / lower.length()).clamp(-1.0, 1.0).acos().to_degrees()
}

/// The free lower leg goes half round where the step says 0.5, and comes back on the next count.
#[test]
fn half_a_circle_of_the_foot_is_half_a_circle() {
    let mut dance = danced_on(&[("right, 4 hx", 4)], 100.0);
    let free = |circles: f64| FreeFoot { circles, ..FreeFoot::new(FreePlace::Beside, 0.35) };
    let feet = [Landing::Lead, Landing::Stay, Landing::Stay, Landing::Stay];
    for circles in [0.5, -0.5] {
        dance.steps =
            vec![OwnStep { free: [0.0, circles, 0.0, 0.0].map(free).to_vec(), ..own_step("hx", &feet) }];
        let danced = Danced::of(&dance);
        let [from, half, quarter, back] = [1.0, 2.0, 1.5, 3.0].map(|count| danced.foot(0, count));
        assert!(
            (half.x - from.x).abs() < 1e-6 && (half.y - from.y + 0.16).abs() < 0.005,
            "{from:?} {half:?}"
        );
        let out = (quarter.x - from.x) * circles.signum();
        assert!((out - 0.08).abs() < 0.005, "outwards: {from:?} {quarter:?}");
        assert!((back - from).length() < 1e-6, "{from:?} {back:?}");
    }
    // On the last count before it lands it goes half round as well, and still lands where it is planted.
    dance.steps = vec![OwnStep { free: [0.0, 0.0, 0.0, 0.5].map(free).to_vec(), ..own_step("hx", &feet) }];
    let danced = Danced::of(&dance);
    let from = danced.foot(0, 3.0);
    let wide = (300..400).map(|look| danced.foot(0, f64::from(look) / 100.0).x - from.x).fold(0.0, f64::max);
    let behind =
        (300..400).map(|look| danced.foot(0, f64::from(look) / 100.0).y - from.y).fold(0.0, f64::min);
    assert!(wide > 0.06 && behind < -0.12, "{wide} {behind}");
    assert!((danced.foot(0, 3.999) - danced.foot(0, 4.001)).length() < 0.01, "and lands");
}

/// Circles on counts one after the other go on evenly: nothing comes to rest between them.
#[test]
fn circles_do_not_stop_from_count_to_count() {
    let feet = [Landing::Lead, Landing::Stay, Landing::Stay, Landing::Stay];
    for metre in [Metre::TwoFour, Metre::SixEight] {
        let mut dance = danced_on(&[("right, 4 cc", 4)], 100.0);
        dance.music.metre = metre;
        dance.steps = vec![OwnStep {
            hands: vec![1.0; 4],
            left_forward: vec![0.0; 4],
            right_forward: vec![0.0; 4],
            circles: vec![1.0; 4],
            free: vec![FreeFoot { circles: 1.0, ..FreeFoot::new(FreePlace::Beside, 0.35) }; 4],
            ..own_step("cc", &feet)
        }];
        let danced = Danced::of(&dance);
        let speed = |at: &dyn Fn(f64) -> InSpace, count: f64| {
            let time = danced.clock.seconds(count);
            let [from, to] = [time - 0.002, time + 0.002].map(|time| at(danced.clock.counts(time)));
            (to - from).length() / 0.004
        };
        for count in 2..4 {
            let count = f64::from(count);
            let hand = speed(&|count| danced.hand(0, count), count);
            let foot = speed(&|count| danced.foot(0, count), count);
            let [long, short] = [count - 1.0, count]
                .map(|from| danced.clock.seconds(from + 1.0) - danced.clock.seconds(from));
            // Round 0.12 m and 0.08 m once in a count.
            let slowest = std::f64::consts::TAU / long.max(short);
            assert!(hand > 0.8 * 0.12 * slowest, "a hand goes {hand} m/s at {count}, {metre}");
            assert!(foot > 0.8 * 0.08 * slowest, "a foot goes {foot} m/s at {count}, {metre}");
        }
    }
}

/// Legs are straight in those who stand, and in the air [MB1].
#[test]
fn legs_are_straight_standing_and_in_the_jump() {
    let danced = Danced::of(&danced_on(&[("st, ds, ss, ss, ftj", 4)], 100.0));
    let jump = danced.gait.flights().iter().find(|flight| flight.is_jump).unwrap();
    for time in [0.6, f64::midpoint(jump.begin, jump.end), jump.begin + 0.25 * (jump.end - jump.begin)] {
        let body = danced.at(danced.clock.counts(time));
        for side in 0..2 {
            assert!(bent(&body, side) < 7.0, "at {time} s bent by {} degrees", bent(&body, side));
        }
    }
}

/// The hands are as high as the air count has them until the jump is at its top, whatever the metre.
/// In the jump on the half-bar as well, whatever foot the step before it has left free: legs straight and together in the air [MB1].
#[test]
fn legs_are_together_in_the_jump_after_a_step() {
    for phrase in ["3 ss, hj", "ds, ss, hj", "rs, rs, hj", "pc, hj", "hc, hj", "2 ds, 3 ss, hj"] {
        for speed in [80.0, 100.0, 120.0] {
            let danced = Danced::of(&danced_on(&[(phrase, 4)], speed));
            for jump in danced.gait.flights().iter().filter(|flight| flight.is_jump) {
                let lands = danced.clock.counts(jump.end);
                let on = danced.gait.on_count(lands.round() as usize).unwrap();
                if on.weight != Weight::Both {
                    continue;
                }
                let top = danced.at(danced.clock.counts(jump.top()));
                let apart = (top.feet[0] - top.feet[1]).length();
                assert!(apart < 0.2, "{phrase} at {speed}: {apart}");
                for side in 0..2 {
                    assert!(bent(&top, side) < 12.0, "{phrase} at {speed}: bent {}", bent(&top, side));
                }
            }
        }
    }
}

#[test]
fn hands_are_up_at_the_top_of_the_jump() {
    for metre in [Metre::TwoFour, Metre::SixEight] {
        for phrase in ["2 ds, 2 ss, ftj", "2 ds, 2 ss, ss, hj"] {
            for speed in [60.0, 80.0, 100.0] {
                let mut dance = danced_on(&[(phrase, 4)], speed);
                dance.music.metre = metre;
                let danced = Danced::of(&dance);
                let jump = danced.gait.flights().iter().find(|flight| flight.is_jump).unwrap();
                let body = danced.at(danced.clock.counts(f64::midpoint(jump.begin, jump.end)));
                for hand in body.hands {
                    let over = hand.z - body.crown.z;
                    assert!(
                        (over - 0.10).abs() < 0.03,
                        "{phrase} in {metre} at {speed}: {over} over the crown"
                    );
                }
            }
        }
    }
}

/// A jump is as high as its step says at a slow speed as well: it is on the ground for the time that is left, and lands on its count.
#[test]
fn a_jump_is_no_higher_where_there_is_more_time() {
    for (phrase, height) in
        [("2 ds, 2 ss, ftj", 0.25), ("2 ds, 2 ss, 2 pc", 0.15), ("2 ds, 2 ss, 2 pl", 0.20)]
    {
        for speed in [60.0, 65.0, 70.0, 80.0, 100.0] {
            let danced = Danced::of(&danced_on(&[(phrase, 4)], speed));
            let jumps: Vec<_> = danced.gait.flights().iter().filter(|flight| flight.is_jump).collect();
            assert!(!jumps.is_empty());
            for jump in jumps {
                assert!((jump.height - height).abs() < 0.01, "{phrase} at {speed}: {jump:?}");
                let lands = danced.clock.counts(jump.end);
                assert!((lands - lands.round()).abs() < 1e-6);
                // Both feet go up with the body, and over no step on the way.
                let rises = |share: f64| {
                    let time = jump.begin + share * (jump.end - jump.begin);
                    let body = danced.at(danced.clock.counts(time));
                    (body.middle().z, body.feet.map(|foot| foot.z))
                };
                if phrase.ends_with("ftj") {
                    let (_, feet) = rises(0.5);
                    assert!(feet.iter().all(|foot| (foot - height).abs() < 0.01), "{speed}: {feet:?}");
                }
            }
        }
    }
}

fn told(dance: &Dance) -> Vec<Fault> {
    find_faults(dance, &motion_of(dance, None).unwrap())
}

/// A jump is the same jump wherever a figure begins: [CALC] at 100 strong beats a minute there are 0.6 s from floor to floor.
#[test]
fn a_jump_is_looked_at_over_the_end_of_a_figure() {
    let hurried =
        |dance: &Dance| told(dance).iter().filter(|fault| fault.kind == FaultKind::HurriedJump).count();
    // On the first counts of a figure, with a whole bar of standing before it.
    for phrase in ["8 pc", "2 hj, 3 st", "2 pl, 3 st"] {
        let dance = danced_on(&[("4 st", 4), (phrase, 4)], 110.0);
        assert_eq!(
            hurried(&dance),
            hurried(&danced_on(&[(&format!("4 st, {phrase}"), 8)], 110.0)),
            "{phrase}"
        );
        assert_eq!(hurried(&danced_on(&[("4 st", 4), ("hj, sb, 3 st", 4)], 110.0)), 0);
    }
    // Off the ground at the end of a figure, down on the first count of the next: 0.4 s at 150, 0.08 m.
    let mut dance = danced_on(&[("3 st, jj", 4), ("4 st", 4)], 150.0);
    dance.steps = vec![own_step("jj", &[Landing::Both, Landing::Both, Landing::Both, Landing::Air])];
    let found = told(&dance);
    let jumps: Vec<_> = found.iter().filter(|fault| fault.kind == FaultKind::HurriedJump).collect();
    assert_eq!(jumps.len(), 1, "{found:?}");
    assert!((jumps[0].value - 0.0766).abs() < 0.001 && jumps[0].dancers.len() == 2, "{jumps:?}");
    dance.music.speed = 100.0;
    assert_eq!(hurried(&dance), 0);
}

/// Travel while the weight stays is seen over the end of a figure, and where it goes out and back.
#[test]
fn travel_while_the_weight_stays_is_seen() {
    let over_long = |dance: &Dance| -> Vec<f64> {
        let mut told = told(dance);
        told.retain(|fault| fault.kind == FaultKind::OverLong);
        told.iter().map(|fault| fault.value).collect()
    };
    let legs = |legs: Vec<Leg>| {
        let mut part = Part::still(1);
        part.legs = legs;
        part
    };
    // 0.7 m on the last count of one figure, and 0.7 m on the first of the next, on which nothing lands.
    let mut dance = danced_on(&[("16 rs", 4), ("4 sl", 4)], 60.0);
    dance.steps = vec![own_step("sl", &[Landing::Stay, Landing::Lead, Landing::Other, Landing::Lead])];
    dance.figures[0].parts.push(legs(vec![Leg::straight(15.0, 16.0, -1.2, 0.6)]));
    dance.figures[1].parts.push(legs(vec![Leg::straight(0.0, 1.0, -1.2, 1.2)]));
    let start = motion_of(&dance, None).unwrap().pose(Dancer(0), 0.0);
    dance.figures[0].parts[0].legs[0] = Leg::straight(15.0, 16.0, start.x, start.y - 0.7);
    dance.figures[1].parts[0].legs[0] = Leg::straight(0.0, 1.0, start.x, start.y - 1.4);
    let values = over_long(&dance);
    assert!(values.iter().any(|value| (value - 1.4).abs() < 0.01), "{values:?}");
    // A step on that count, and all is well.
    dance.steps = vec![own_step("sl", &[Landing::Lead, Landing::Other, Landing::Lead, Landing::Other])];
    assert_eq!(over_long(&dance), Vec::<f64>::new());
    // Out and back while the weight stays for three counts.
    let mut dance = danced_on(&[("4 rs, 3 so", 4)], 60.0);
    dance.steps = vec![own_step("so", &[Landing::Lead, Landing::Stay, Landing::Stay, Landing::Stay])];
    dance.figures[0].parts.push(legs(vec![
        Leg::straight(4.0, 6.0, start.x, start.y - 0.9),
        Leg::straight(6.0, 8.0, start.x, start.y),
    ]));
    let values = over_long(&dance);
    assert!(values.iter().any(|value| *value > 1.0), "{values:?}");
}

/// Nothing lands for the first two bars, in which the body goes off; a jump to slow music leaves the floor late.
#[test]
fn travel_before_the_first_landing_of_the_dance_is_seen() {
    let mut dance = danced_on(&[("2 own, 2 pl, 2 pc", 4)], 60.0);
    dance.steps = vec![own_step("own", &[Landing::Stay; 4])];
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(4.0, 12.0, 0.266 * 6.0 - 1.2, 0.0));
    dance.figures[0].parts.push(part);
    let far = told(&dance);
    assert!(far.iter().any(|fault| fault.kind == FaultKind::OverLong), "{far:?}");
}

/// The weight is in the air while a flight lasts and at no other time; exactly on a count it is what the step has there.
#[test]
fn the_weight_is_in_the_air_exactly_while_a_flight_lasts() {
    for phrase in [
        "2 ds, 2 ss, ftj",
        "ds, sh, 4 rs, 2 rb",
        "2 pc, 2 pl, 2 hc, sc",
        "os, cs, 2 ga, 2 hl",
        "st, sj, ds, ss, hj",
    ] {
        for speed in [60.0, 100.0, 130.0] {
            let danced = Danced::of(&danced_on(&[(phrase, 4)], speed));
            let (mut air, mut floor) = (0, 0);
            for look in 0..=1600 {
                let count = f64::from(look) / 100.0;
                let weight = danced.gait.weight(&danced.clock, count);
                if look % 100 == 0 {
                    let on = danced.gait.on_count(look as usize / 100).unwrap();
                    assert_eq!(weight, on.weight, "{phrase} at {count}");
                    continue;
                }
                // Where a flight begins or ends it is either.
                let time = danced.clock.seconds(count);
                let ends = danced.gait.flights().iter().flat_map(|flight| [flight.begin, flight.end]);
                if ends.into_iter().any(|end| (end - time).abs() < 1e-6) {
                    continue;
                }
                let body = danced.at(count);
                let flies = !body.planted[0] && !body.planted[1];
                assert_eq!(
                    weight == Weight::Air,
                    flies,
                    "{phrase} at {count} of {speed}: {weight:?} {body:?}"
                );
                match weight {
                    Weight::Left => assert!(body.planted[0], "{phrase} at {count}"),
                    Weight::Right => assert!(body.planted[1], "{phrase} at {count}"),
                    Weight::Both => assert!(body.planted[0] && body.planted[1], "{phrase} at {count}"),
                    Weight::Air => {}
                }
                if flies { air += 1 } else { floor += 1 }
            }
            assert!(floor > 300 && (air > 30 || phrase.starts_with("ds, sh")), "{phrase}: {air} {floor}");
        }
    }
}

/// What `pose` prints: in the air between two counts is both feet off the floor.
#[test]
fn pose_prints_the_weight_of_the_body_it_prints() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("one.dance.json");
    std::fs::write(&file, serde_json::to_string(&danced_on(&[("2 ds, 2 ss, ftj", 4)], 100.0)).unwrap())
        .unwrap();
    let out = std::process::Command::new(env!("CARGO_BIN_EXE_bellpad"))
        .args(["pose", file.to_str().unwrap(), "--every", "0.05"])
        .output()
        .unwrap();
    let printed: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
    let (mut air, mut seen) = (0, 0);
    for pose in printed["poses"].as_array().unwrap() {
        let count = pose["count"].as_f64().unwrap();
        if (count - count.round()).abs() < 1e-6 {
            continue;
        }
        for dancer in pose["dancers"].as_array().unwrap() {
            let off =
                ["left_foot", "right_foot"].iter().all(|foot| dancer[foot]["z"].as_f64().unwrap() > 0.0);
            assert_eq!(dancer["weight"] == "air", off, "at {count}: {dancer}");
            seen += 1;
            air += u32::from(off);
        }
    }
    assert!(seen > 500 && air > 50, "{air} of {seen}");
}

/// The foot that carries the weight, or hops, is the one that is filled: one in a hop, none in a jump.
#[test]
fn the_foot_that_hops_is_filled() {
    let danced = Danced::of(&danced_on(&[("left, 2 ds, 2 ss, ftj", 4)], 100.0));
    let filled = |count: f64| danced.gait.carries(&danced.clock, danced.gait.shown_at(&danced.clock, count));
    let (left, right, both, none) = ([true, false], [false, true], [true; 2], [false; 2]);
    let row: Vec<[bool; 2]> = (0..15).map(|count| filled(f64::from(count))).collect();
    assert_eq!(
        row,
        [left, right, left, left, right, left, right, right, left, left, right, right, both, none, both]
    );
}

/// A body that leaves the ground for t seconds rises g t^2 / 8 [CALC]: both measured from the limbs, to 1 cm.
#[test]
fn bodies_fall_as_bodies_do() {
    let mut seen = 0;
    for phrase in ["2 ds, 2 ss, ftj", "2 pc, 2 pl, 2 hc, sc", "os, cs, 2 ga, 2 hl", "st, sj, ds, ss, hj"] {
        for speed in [60.0, 75.0, 90.0, 100.0, 110.0, 120.0, 130.0] {
            let danced = Danced::of(&danced_on(&[(phrase, 4)], speed));
            let step = 0.001;
            let end = (danced.clock.seconds(16.0) / step) as u32;
            let body = |look: u32| danced.at(danced.clock.counts(f64::from(look) * step));
            let mut begun: Option<(u32, f64)> = None;
            let (mut highest, mut flies) = (0.0_f64, false);
            for look in 0..end {
                let now = body(look);
                let before = std::mem::replace(&mut flies, !now.planted[0] && !now.planted[1]);
                match begun {
                    None if flies && look > 0 && !before => {
                        (begun, highest) = (Some((look, now.middle().z)), 0.0);
                    }
                    Some((_, from)) if flies => highest = highest.max(now.middle().z - from),
                    Some((first, _)) => {
                        let time = f64::from(look - first) * step;
                        let rise = GRAVITY * time * time / 8.0;
                        assert!(
                            (highest - rise).abs() < 0.01,
                            "{phrase} at {speed}: {highest} m in {time} s, {rise}"
                        );
                        begun = None;
                        seen += 1;
                    }
                    None => {}
                }
            }
        }
    }
    assert!(seen > 80, "{seen}");
}

/// Turns tied `on` the first count or the hop of any step, built in or a side's own, are danced there, wherever nearby they are written.
#[test]
fn turns_are_tied_on_any_step() {
    use bellpad::dance::{Turn, TurnOn, Way};
    let own = [Landing::Lead, Landing::Other, Landing::Stay, Landing::Other];
    // The count of its hop in each step; none in the split caper.
    for (step, hop) in [
        ("os", Some(3.0)),
        ("cs", Some(3.0)),
        ("ga", Some(1.0)),
        ("hl", Some(1.0)),
        ("hc", Some(1.0)),
        ("sc", Some(2.0)),
        ("ow", Some(3.0)),
        ("pl", None),
    ] {
        let mut dance = danced_on(&[(&format!("ds, {step}, ds, st"), 4)], 60.0);
        if ["ga", "hl", "hc", "pl"].contains(&step) {
            dance.figures[0].phrase = format!("ds, 2 {step}, ds, st");
        }
        dance.steps = vec![own_step("ow", &own)];
        for (on, at, written) in
            [(TurnOn::Start, Some(4.0), 3.4), (TurnOn::Hop, hop.map(|hop| hop + 4.0), 4.4)]
        {
            let Some(at) = at else { continue };
            let mut part = Part::still(1);
            let turn = Turn {
                by: Some(180.0),
                face: None,
                ..Turn::to_face(written, written + 0.2, Way::Right, 0.0)
            };
            part.turns.push(turn.on(on.clone()));
            dance.figures[0].parts = vec![part];
            let danced = Danced::of(&dance);
            let facing = |count: f64| danced.motion.pose(Dancer(0), count).facing;
            let turned = |from: f64, to: f64| facing(to) - facing(from);
            assert!(turned(0.0, at).abs() < 1e-6, "{step} {on:?}: {} before", turned(0.0, at));
            assert!((turned(at, at + 1.0) - 180.0).abs() < 1e-6, "{step} {on:?}: {}", turned(at, at + 1.0));
            assert!(turned(at + 1.0, 16.0).abs() < 1e-6, "{step} {on:?}: after");
            // And the body is whole meanwhile.
            for look in 300..1000 {
                let body = danced.at(f64::from(look) / 100.0);
                for side in 0..2 {
                    let leg = (body.feet[side] - body.hips[side]).length();
                    assert!(leg < 0.95 + 1e-6, "{step} at {look}: a leg of {leg}");
                }
            }
        }
    }
}

/// Mirroring the lead mirrors the body, whatever the step.
#[test]
fn any_step_on_the_other_foot_is_the_mirror() {
    for phrase in ["2 os, 2 cs", "2 ga, 2 hl, 2 hc, 2 pl", "sc, 2 pc, sh, ds"] {
        let side = |lead: &str| {
            let mut dance = danced_on(&[(&format!("{lead}, {phrase}"), 4)], 100.0);
            dance.set = Set::longways(1, 2.4, 1.8);
            Danced::of(&dance)
        };
        let (right, left) = (side("right"), side("left"));
        for look in 0..320 {
            let count = f64::from(look) / 20.0;
            for side in 0..2 {
                let foot = right.foot(side, count) - left.foot(1 - side, count);
                let hand = right.hand(side, count) - left.hand(1 - side, count);
                assert!(
                    foot.length() < 1e-9 && hand.length() < 1e-9,
                    "{phrase} at {count}: {foot:?} {hand:?}"
                );
            }
        }
    }
}
