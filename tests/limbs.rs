//! The body in space: what a body can do, whatever the steps, the tempo and the path.
//!
//! Sources: [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907) for heights and arms; CALC for flights, with
//! g = 9.81 m/s^2.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Dance, Dancer, Extra, Figure, Landing, Leg, OwnStep, Part, Set, Shape, Turn, Way};
use bellpad::faults::find_faults;
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::limbs::{Gait, InSpace, Limbs};
use bellpad::motion::{Clock, Motion};
use proptest::prelude::*;

/// A leg and an arm, metres, and the fall of bodies, metres a second for each second: as the program's design has them (from memory, but
/// for the last).
const LEG: f64 = 0.95;
const ARM: f64 = 0.65;
const GRAVITY: f64 = 9.81;

/// A dance of one figure on the spot.
fn on_the_spot(phrase: &str, bars: u32, speed: f64) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
    dance.music.speed = speed;
    let mut figure = Figure::drawn("one", "One", bars);
    phrase.clone_into(&mut figure.phrase);
    dance.figures.push(figure);
    dance
}

struct Danced {
    motion: Motion,
    clock: Clock,
    gait: Gait,
}

impl Danced {
    fn of(dance: &Dance, dancer: usize) -> Self {
        let motion = motion_of(dance, None).unwrap();
        let clock = Clock::of_dance(dance, &motion);
        let gait = Gait::of(&motion, &clock, Dancer(dancer));
        Self { motion, clock, gait }
    }

    fn at(&self, count: f64) -> Limbs {
        self.gait.limbs(&self.motion, &self.clock, count)
    }
}

#[test]
fn the_ordinary_step_puts_the_heel_a_foots_length_before_the_toe() {
    let danced = Danced::of(&on_the_spot("ds", 4, 100.0), 0);
    let body = danced.at(3.0);
    let (standing, free) = (0..2).partition::<Vec<usize>, _>(|side| body.planted[*side]);
    let (standing, free) = (standing[0], free[0]);
    let facing = danced.motion.pose(Dancer(0), 3.0).facing;
    let way = (body.feet[free] - body.feet[standing]).as_body_has_it(facing);
    // From sole to sole it is a foot's length more than from toe to heel: 0.27 m each.
    assert!((way.y - 0.54).abs() < 0.03, "{way:?}");
    assert!((0.05..0.2).contains(&way.z), "{way:?}");
}

#[test]
fn a_jump_is_a_quarter_of_a_metre_at_100_and_less_where_the_tempo_leaves_less_time() {
    // At 60 a count is half a second: it is on the ground for the time that is left.
    for (speed, height) in [(60.0, 0.25), (80.0, 0.25), (100.0, 0.25), (120.0, 0.15), (130.0, 0.12)] {
        let danced = Danced::of(&on_the_spot("2 ds, 2 ss, ftj", 4, speed), 0);
        let jumps: Vec<_> = danced.gait.flights().iter().filter(|flight| flight.is_jump).collect();
        assert_eq!(jumps.len(), 1);
        let jump = jumps[0];
        let time = jump.end - jump.begin;
        assert!((jump.height - height).abs() < 0.01, "{speed}: {jump:?}");
        assert!((jump.height - GRAVITY * time * time / 8.0).abs() < 0.01);
        // In the middle of it both feet are as high as the body has risen.
        let body = danced.at(danced.clock.counts(f64::midpoint(jump.begin, jump.end)));
        assert!(body.feet.iter().all(|foot| foot.z > 0.8 * height && foot.z < height + 0.15), "{body:?}");
    }
}

/// Hands 0.10 m above the crown as the jump leaves the ground, to 3 cm [MB1].
#[test]
fn hands_are_above_the_crown_in_the_jump() {
    let danced = Danced::of(&on_the_spot("2 ds, 2 ss, ftj", 4, 100.0), 0);
    let body = danced.at(13.0);
    for hand in body.hands {
        assert!((hand.z - body.crown.z - 0.10).abs() < 0.03, "{} over {}", hand.z, body.crown.z);
    }
}

/// The free foot and the standing one at a count: which side each is.
fn free_and_standing(body: &Limbs) -> (usize, usize) {
    if body.planted[0] { (1, 0) } else { (0, 1) }
}

/// What a step says of the free foot holds on the counts on which it is lifted as well: the sidesteps are not a double step.
#[test]
fn the_free_foot_is_where_the_step_has_it_on_every_count() {
    let own = |phrase: &str, count: f64| {
        let danced = Danced::of(&on_the_spot(phrase, 4, 100.0), 0);
        let body = danced.at(count);
        let (free, standing) = free_and_standing(&body);
        let way = (body.feet[free] - body.feet[standing]).as_body_has_it(body.facing);
        (if free == 0 { -way.x } else { way.x }, way.y)
    };
    let [(_, open), (_, closed), (_, double)] =
        ["left, os", "left, cs", "left, ds"].map(|phrase| own(phrase, 0.4));
    assert!(open < -0.15, "crossed behind: {open}");
    assert!(closed > 0.15, "crossed before: {closed}");
    assert!(double.abs() < 0.05, "beside: {double}");
    // The lower leg of a galley goes round twice: the foot is aside of where it is held, to the outside, twice.
    let looks: Vec<f64> = (40..200).map(|look| own("left, 2 ga", f64::from(look) / 100.0).0).collect();
    let out = looks.windows(3).filter(|at| at[1] > at[0] && at[1] > at[2] && at[1] > 0.2).count();
    assert_eq!(out, 2, "{looks:?}");
}

/// A picture of a whole count has the free foot as high as the step says, on the spot and travelling: it is told so. Hands are where the count
/// has them, whatever comes after it.
#[test]
fn a_picture_of_a_count_has_what_the_count_says() {
    let mut looked = 0;
    for short in bellpad::motion::steps::built_in().iter().map(|step| step.short.as_str()) {
        for travels in [0.0, 1.2] {
            for lead in ["left", "right"] {
                let mut dance = on_the_spot(&format!("{lead}, 8 {short}"), 8, 100.0);
                let fills = motion_of(&dance, None).is_ok();
                if !fills {
                    dance.figures[0].phrase = format!("{lead}, 16 {short}");
                }
                let mut part = Part::still(1);
                part.legs.push(Leg::straight(0.0, 16.0, -1.2, 0.6 + travels));
                dance.figures[0].parts.push(part);
                if motion_of(&dance, None).is_err() {
                    continue;
                }
                let danced = Danced::of(&dance, 0);
                for count in 4..24 {
                    let on = danced.gait.on_count(count).unwrap();
                    let (seen, legs) = danced.gait.seen_on(&danced.motion, &danced.clock, count as f64);
                    let (there, then) = (danced.at(count as f64), danced.at(legs));
                    for side in [0, 1] {
                        let from = |body: &Limbs| body.hands[side] - body.shoulders[side];
                        assert!((from(&seen) - from(&there)).length() < 1e-9, "{short} {count}");
                        assert!((seen.feet[side] - then.feet[side]).length() < 1e-9);
                    }
                    let side = usize::from(on.weight == bellpad::motion::Weight::Left);
                    let stands =
                        matches!(on.weight, bellpad::motion::Weight::Left | bellpad::motion::Weight::Right);
                    // A hop and a spring are seen at their top, on the way to where the count has the foot.
                    let Some(free) =
                        on.free.as_ref().filter(|_| stands && !on.hop && !on.stays && on.rise <= 0.0)
                    else {
                        continue;
                    };
                    let off = seen.feet[side].z - free.height;
                    assert!(
                        off.abs() < 0.04,
                        "{short} {lead} {travels} {count}: {off} m off {}",
                        free.height
                    );
                    looked += 1;
                }
            }
        }
    }
    assert!(looked > 300, "{looked}");
}

/// High step: the forward toe as high as the supporting knee, to 3 cm [MB1].
#[test]
fn the_high_step_is_as_high_as_the_knee() {
    let danced = Danced::of(&on_the_spot("2 pc", 4, 100.0), 0);
    let body = danced.at(3.0);
    let (free, standing) = free_and_standing(&body);
    let (toe, knee) = (body.toe(free), body.knees[standing]);
    assert!((toe.z - knee.z).abs() < 0.03, "{} beside {}", toe.z, knee.z);
    // And the toe is a foot's length, 0.27 m, from the heel, at a right angle to the shin.
    let (shin, foot) = (body.feet[free] - body.knees[free], toe - body.feet[free]);
    let dot = shin.x * foot.x + shin.y * foot.y + shin.z * foot.z;
    assert!((dot / shin.length() / foot.length()).abs() < 0.02, "{shin:?} {foot:?}");
}

/// A side's own steps for the arms of the travelling figures of [MB1]: back at the beginning of bars 1 and 2, forward at their half-bars; in
/// bar 3 two inward circles overhead; down at the beginning of bar 4, and straight up with the jump at its half-bar.
#[test]
fn the_arms_of_the_travelling_figures_are_as_the_book_has_them() {
    let mut dance = on_the_spot("2 tb, tc, tj", 4, 100.0);
    // 45 degrees behind the trunk, an arm's length of 0.62 m away; forward, as high as the shoulder.
    let back = (0.15, -0.44);
    let (lead, other) = (Landing::Lead, Landing::Other);
    let step =
        |short: &str, feet: [Landing; 4], hands: [f64; 4], forward: [f64; 4], circles: [f64; 4]| OwnStep {
            name: short.to_owned(),
            short: short.to_owned(),
            feet: feet.to_vec(),
            hands: hands.to_vec(),
            left_forward: forward.to_vec(),
            right_forward: forward.to_vec(),
            circles: circles.to_vec(),
            ..OwnStep::default()
        };
    dance.steps = vec![
        step("tb", [lead, other, lead, lead], [back.0, 0.4, 0.6, 0.4], [back.1, 0.0, 0.55, 0.0], [0.0; 4]),
        step("tc", [lead, lead, other, other], [1.0; 4], [0.0; 4], [2.0 / 3.0, 2.0 / 3.0, 2.0 / 3.0, 0.0]),
        step(
            "tj",
            [Landing::Both, Landing::Stay, Landing::Air, Landing::Both],
            [0.0, 0.0, 1.0, 0.5],
            [0.0; 4],
            [0.0; 4],
        ),
    ];
    let danced = Danced::of(&dance, 0);
    let own = |count: f64, side: usize| {
        let body = danced.at(count);
        (body.hands[side] - body.shoulders[side]).as_body_has_it(body.facing)
    };
    for side in 0..2 {
        for bar in [0.0, 4.0] {
            let hand = own(bar, side);
            let behind = (-hand.y).atan2(-hand.z).to_degrees();
            assert!((behind - 45.0).abs() < 5.0, "bar {bar}: {behind} degrees behind the trunk");
            assert!(own(bar + 2.0, side).y > 0.45, "forward at the half-bar");
        }
        // Two circles in bar 3: the way round the middle of the circle that the hand goes.
        let middle = (0..300)
            .map(|look| own(8.0 + f64::from(look) / 100.0, side))
            .fold(InSpace::default(), |sum, hand| sum + hand)
            * (1.0 / 300.0);
        let angle = |count: f64| {
            let hand = own(count, side) - middle;
            let inwards = if side == 0 { hand.x } else { -hand.x };
            inwards.atan2(hand.z)
        };
        let mut round = 0.0;
        for look in 0..300 {
            let step = angle(8.0 + f64::from(look + 1) / 100.0) - angle(8.0 + f64::from(look) / 100.0);
            round += (step + std::f64::consts::PI).rem_euclid(std::f64::consts::TAU) - std::f64::consts::PI;
        }
        let turns = round / std::f64::consts::TAU;
        assert!((turns - 2.0).abs() < 0.05, "{turns} circles inwards");
        assert!(middle.z > 0.2, "overhead");
        // Down at the beginning of bar 4, straight up in the jump.
        assert!(own(12.0, side).z < -0.55);
        let body = danced.at(14.0);
        assert!((body.hands[side].z - body.crown.z - 0.10).abs() < 0.03);
        assert!(!body.planted[0] && !body.planted[1], "and off the floor");
    }
}

/// Elbows nearly straight in the jump, hands above the crown [MB1]: and not behind the neck.
#[test]
fn arms_are_nearly_straight_over_the_head() {
    let danced = Danced::of(&on_the_spot("2 ds, 2 ss, ftj", 4, 100.0), 0);
    let body = danced.at(13.0);
    for side in 0..2 {
        let (shoulder, elbow, hand) = (body.shoulders[side], body.elbows[side], body.hands[side]);
        let (upper, lower) = (elbow - shoulder, hand - elbow);
        let dot = upper.x * lower.x + upper.y * lower.y + upper.z * lower.z;
        let bent = (dot / upper.length() / lower.length()).acos().to_degrees();
        assert!(bent < 60.0, "the elbow is bent by {bent} degrees");
        assert!((elbow - shoulder).as_body_has_it(body.facing).y > -0.05, "before the shoulder");
    }
}

/// Hips are no lower than this, metres: half a step of 0.8 m from a foot over which the body turns [CALC]; and where somebody stands between
/// two ways no lower than the second.
const LOWEST: [f64; 2] = [0.8, 0.77];

/// What of a body can be told to be wrong at a count, beside the count before it.
fn wrong(
    danced: &Danced,
    count: f64,
    before: Option<&Limbs>,
    (fastest, lowest): (f64, f64),
) -> Result<Limbs, String> {
    let body = danced.at(count);
    for side in 0..2 {
        let (hip, foot) = (body.hips[side], body.feet[side]);
        if foot.z < -1e-9 {
            return Err(format!("at {count} a foot is under the floor: {foot:?}"));
        }
        if hip.z < lowest - 1e-9 {
            return Err(format!("at {count} the hips are {} m high", hip.z));
        }
        if (foot - hip).length() > LEG + 1e-9 {
            return Err(format!("at {count} a leg is {} m long", (foot - hip).length()));
        }
        let arm = (body.hands[side] - body.shoulders[side]).length();
        if arm > ARM + 1e-9 {
            return Err(format!("at {count} an arm is {arm} m long"));
        }
        let time = danced.clock.seconds(count);
        let contact = danced.gait.contacts()[side].iter().find(|contact| contact.holds(time));
        match contact {
            None if body.planted[side] => return Err(format!("at {count} a foot is planted in no contact")),
            Some(contact) if !contact.turns && (contact.place - foot).length() > 1e-3 => {
                return Err(format!(
                    "at {count} a planted foot has moved by {} m",
                    (contact.place - foot).length()
                ));
            }
            _ => {}
        }
        if let Some(before) = before {
            for (name, one, other) in [
                ("hip", before.hips[side], hip),
                ("foot", before.feet[side], foot),
                ("hand", before.hands[side], body.hands[side]),
            ] {
                // Nothing of a body goes faster than so many metres a second.
                let least = danced.clock.seconds(count) - danced.clock.seconds((count - 0.01).max(0.0));
                if (other - one).length() > fastest * least + 1e-6 {
                    return Err(format!("at {count} a {name} leaps by {} m", (other - one).length()));
                }
            }
        }
    }
    Ok(body)
}

/// The names of the places of a body, and where they are.
fn places(body: &Limbs) -> Vec<(&'static str, InSpace)> {
    let named = [
        ("hip", body.hips),
        ("knee", body.knees),
        ("foot", body.feet),
        ("shoulder", body.shoulders),
        ("elbow", body.elbows),
        ("hand", body.hands),
    ];
    let mut places: Vec<_> =
        named.into_iter().flat_map(|(name, two)| two.map(|place| (name, place))).collect();
    places.push(("crown", body.crown));
    places
}

/// Speeds change in a moment only where a foot lands or leaves: anywhere else a body is hurled about by no more than this, metres a second
/// for each second. A knee or an elbow that is nearly straight goes faster.
const HURLED: [f64; 2] = [1000.0, 6000.0];

/// The same on the way, where hips sink as the feet are left behind: more would be seen as a jump.
const ON_THE_WAY: f64 = 2500.0;

/// The most that a place of a body is hurled about a time, seconds, looked at five times as closely.
fn jumps_near(danced: &Danced, name: &str, time: f64) -> f64 {
    let step = 0.0001;
    let at = |look: i32| places(&danced.at(danced.clock.counts(time + f64::from(look) * step)));
    let hurled = |look: i32| {
        let (one, two, three) = (at(look - 1), at(look), at(look + 1));
        let each = one.iter().zip(&two).zip(&three).filter(|(((of, _), _), _)| *of == name);
        each.map(|(((_, one), (_, two)), (_, three))| {
            ((*three - *two) - (*two - *one)).length() / step / step
        })
        .fold(0.0, f64::max)
    };
    (-6..=6).map(hurled).fold(0.0, f64::max)
}

/// The first moment at which a speed changes at once without a foot that lands or leaves; of joints too, where they are asked for: on the way a
/// knee comes so near to straight that its speed has no bound.
fn jerk(danced: &Danced, begin: f64, end: f64, joints: bool) -> Option<String> {
    let step = 0.0005;
    let mut ends: Vec<f64> = danced
        .gait
        .contacts()
        .iter()
        .flat_map(|side| side.iter().flat_map(|contact| [contact.begin, contact.end]))
        .collect();
    if !joints {
        ends.extend(danced.gait.flights().iter().flat_map(|flight| [flight.begin, flight.end]));
    }
    let looks = ((end - begin) / step) as u32;
    let at = |look: u32| places(&danced.at(danced.clock.counts(begin + f64::from(look) * step)));
    let (mut one, mut two) = (at(0), at(1));
    for look in 2..looks {
        let three = at(look);
        let time = begin + f64::from(look - 1) * step;
        // On the way a leg that lands at its full length is drawn in just before: within half of what a frame of a screen takes.
        let near = if joints { 2.0 * step } else { 0.008 };
        if ends.iter().all(|end| (end - time).abs() > near) {
            for (((name, one), (_, two)), (_, three)) in one.iter().zip(&two).zip(&three) {
                let hurled = ((*three - *two) - (*two - *one)).length() / step / step;
                let joint = usize::from(["knee", "elbow"].contains(name));
                // What is hurled in earnest is so in however short a time: what only goes fast is not.
                let most = if joints { HURLED[joint] } else { ON_THE_WAY };
                if hurled > most && (joints || (joint == 0 && jumps_near(danced, name, time) > 2.5 * most)) {
                    return Some(format!(
                        "at {:.3} s ({:.3}) a {name} is hurled: {hurled:.0}",
                        time,
                        danced.clock.counts(time)
                    ));
                }
            }
        }
        (one, two) = (two, three);
    }
    None
}

#[test]
fn speeds_change_at_once_only_where_a_foot_lands_or_leaves() {
    for phrase in [
        "2 ds, 2 ss, ftj",
        "ds, sh, 4 rs, 2 rb",
        "2 pc, 2 pl, 2 hc, sc",
        "os, cs, 2 ga, 2 hl",
        "st, sj, ds, 2 ss, hj",
    ] {
        for speed in [60.0, 100.0, 130.0] {
            let mut dance = on_the_spot(phrase, 4, speed);
            if phrase.ends_with("hj") {
                dance.figures[0].phrase = "st, sj, ds, ss, hj".into();
            }
            let danced = Danced::of(&dance, 0);
            let said = jerk(&danced, 0.0, danced.clock.seconds(16.0), true);
            assert!(said.is_none(), "{phrase} at {speed}: {}", said.unwrap());
        }
    }
}

fn walk(danced: &Danced, fastest: f64) -> Result<(), String> {
    walk_over(danced, fastest, LOWEST[0])
}

/// The same where hips may be so low.
fn walk_over(danced: &Danced, fastest: f64, lowest: f64) -> Result<(), String> {
    let mut before = None;
    let looks = (danced.motion.counts() * 100.0) as u32;
    for look in 0..=looks {
        let body = wrong(danced, f64::from(look) / 100.0, before.as_ref(), (fastest, lowest))?;
        before = Some(body);
    }
    Ok(())
}

/// In every named figure, danced by six at the usual size.
#[test]
fn legs_and_arms_are_as_long_as_they_are_in_every_named_figure() {
    let set = Set::longways(6, 2.4, 1.8);
    let mut wrong = Vec::new();
    let mut seen = 0;
    for named in all() {
        let Ok(figure) = named_figure(named.name, Extra::new(), &set) else { continue };
        let mut dance = Dance::new("Test", set.clone());
        dance.figures.push(figure);
        for dancer in 0..6 {
            seen += 1;
            if let Err(said) = walk(&Danced::of(&dance, dancer), 16.0) {
                wrong.push(format!("{} {}: {said}", named.name, dancer + 1));
            }
        }
    }
    assert!(seen > 60 && wrong.is_empty(), "{} of {seen}: {wrong:#?}", wrong.len());
}

fn phrase() -> impl Strategy<Value = String> {
    let step = prop::sample::select(vec![
        "ds", "2 ss", "4 rs", "2 rb", "sh", "ftj", "2 pc", "2 hj", "st", "sj", "os", "cs", "2 ga", "2 hl",
        "2 hc", "2 pl", "sc", "st", "2 sb",
    ]);
    prop::collection::vec(step, 4).prop_map(|steps| steps.join(", "))
}

/// Whether a step, or travelling, is told to be too long.
fn is_over_long(dance: &Dance, motion: &Motion) -> bool {
    find_faults(dance, motion).iter().any(|fault| fault.kind == bellpad::dance::FaultKind::OverLong)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any phrase, any tempo, any path that tells no over-long.
    #[test]
    fn a_body_does_what_a_body_can(
        phrase in phrase(),
        speed in 60.0..130.0_f64,
        to in (-1.5..1.5_f64, -1.5..1.5_f64),
        turn in 0.0..360.0_f64,
    ) {
        let mut dance = on_the_spot(&phrase, 4, speed);
        let mut part = Part::still(1);
        part.legs.push(Leg::straight(0.0, 8.0, to.0 - 1.2, to.1));
        part.turns.push(Turn { by: Some(turn), ..Turn::to_face(9.0, 12.0, Way::Right, 0.0) });
        dance.figures[0].parts.push(part);
        let motion = motion_of(&dance, None).unwrap();
        prop_assume!(!is_over_long(&dance, &motion));
        let danced = Danced::of(&dance, 0);
        let said = walk(&danced, 16.0);
        prop_assert_eq!(jerk(&danced, danced.clock.seconds(8.0), danced.clock.seconds(13.0), true), None);
        prop_assert!(said.is_ok(), "{phrase} at {speed} to {to:?}: {}", said.unwrap_err());
    }

    /// The same on two ways, straight or round, with stands between them.
    #[test]
    fn a_body_does_what_a_body_can_with_stands_between_two_ways(
        phrase in phrase(),
        speed in 60.0..130.0_f64,
        to in (-1.5..1.5_f64, -1.5..1.5_f64),
        then in (-1.0..1.0_f64, -1.0..1.0_f64),
        times in (0..6_u32, 2..7_u32, 1..3_u32, 2..6_u32),
        bow in prop::option::of(-0.5..0.5_f64),
        turn in 0.0..360.0_f64,
    ) {
        let mut dance = on_the_spot(&phrase, 4, speed);
        let mut part = Part::still(1);
        let [begin, end, on, until] = {
            let (begin, long, waits, on) = times;
            [begin, begin + long, begin + long + waits, (begin + long + waits + on).min(16)].map(f64::from)
        };
        let mut first = Leg::straight(begin, end, to.0 - 1.2, to.1);
        if let Some(bow) = bow {
            first.shape = Shape::Arc;
            first.sweep = Some(bow * 300.0);
        }
        part.legs.push(first);
        if on < until {
            part.legs.push(Leg::straight(on, until, to.0 + then.0 - 1.2, to.1 + then.1));
        }
        part.turns.push(Turn { by: Some(turn), ..Turn::to_face(9.0, 12.0, Way::Right, 0.0) });
        dance.figures[0].parts.push(part);
        let motion = motion_of(&dance, None).unwrap();
        prop_assume!(!is_over_long(&dance, &motion));
        let danced = Danced::of(&dance, 0);
        let said = walk_over(&danced, 16.0, LOWEST[1]);
        prop_assert_eq!(jerk(&danced, danced.clock.seconds(0.0), danced.clock.seconds(15.9), false), None);
        prop_assert!(said.is_ok(), "{phrase} at {speed} to {to:?}: {}", said.unwrap_err());
    }
}

/// Standing in the midst of a way: a foot that was down before is not left behind when the way goes on, and where it would be that is told.
#[test]
fn a_foot_that_stood_steps_on_with_the_body() {
    let told = |phrase: &str, legs: &[(f64, f64, f64, f64)], speed: f64| {
        let mut dance = on_the_spot(phrase, 4, speed);
        let mut part = Part::still(1);
        part.legs = legs.iter().map(|&(begin, end, x, y)| Leg::straight(begin, end, x, y)).collect();
        dance.figures[0].parts.push(part);
        let motion = motion_of(&dance, None).unwrap();
        (is_over_long(&dance, &motion), walk_over(&Danced::of(&dance, 0), 16.0, LOWEST[1]))
    };
    // Four running steps, feet together for a bar, and on: 0.4 m of it in the last step before, 0.4 m in the first one after.
    for lead in ["left", "right"] {
        let (long, said) = told(&format!("{lead}, 4 rs, st, 8 rs"), &[(3.0, 9.0, -2.0, 0.9)], 90.0);
        assert!(!long && said.is_ok(), "{lead}: {said:?}");
        // Somebody drawn on while both feet stand is told so, or has legs that are long enough.
        for far in [1.6, 2.4, 3.2] {
            let (long, said) = told(&format!("{lead}, ds, st, 2 ds"), &[(2.0, 10.0, -1.2 - far, 0.9)], 100.0);
            assert!(long || said.is_ok(), "{lead} {far}: {said:?}");
        }
    }
}

/// A step of a side's own, whatever it says.
fn own_step() -> impl Strategy<Value = OwnStep> {
    use bellpad::dance::{FreeFoot, FreePlace};
    let landing = prop::sample::select(vec![
        Landing::Lead,
        Landing::Lead,
        Landing::Other,
        Landing::Other,
        Landing::Both,
        Landing::Air,
        Landing::Stay,
        Landing::Upbeat,
    ]);
    let free = (prop::sample::select(FreePlace::ALL.to_vec()), 0.0..1.2_f64, -1.5..1.5_f64)
        .prop_map(|(at, height, circles)| FreeFoot { circles, ..FreeFoot::new(at, height) });
    let four = |least: f64, most: f64| prop::collection::vec(least..most, 4);
    (
        prop::collection::vec(landing, 4),
        prop::collection::vec(free, 4),
        (four(0.0, 0.4), four(0.0, 1.0), four(-0.6, 0.6), four(-1.5, 1.5)),
    )
        .prop_map(|(feet, free, (rise, hands, forward, circles))| OwnStep {
            name: "own".into(),
            short: "own".into(),
            feet,
            free,
            rise,
            hands,
            left_forward: forward.clone(),
            right_forward: forward,
            circles,
            ..OwnStep::default()
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, max_global_rejects: 20_000, ..ProptestConfig::default() })]

    /// A side's own step, whatever it says of the free foot, the rise, the hands and circles, at any tempo, near to as far as steps go.
    #[test]
    fn a_body_does_what_a_body_can_in_any_step_of_a_sides_own(
        step in own_step(),
        phrase in prop::sample::select(vec!["4 own", "ds, 2 own, ftj", "2 own, 2 pl, 2 pc", "own, 8 rs, own"]),
        speed in 60.0..130.0_f64,
        far in (-0.8..0.8_f64, -0.8..0.8_f64),
    ) {
        let mut dance = on_the_spot(phrase, 4, speed);
        dance.steps = vec![step];
        let mut part = Part::still(1);
        part.legs.push(Leg::straight(4.0, 12.0, far.0 * 6.0 - 1.2, far.1 * 6.0));
        dance.figures[0].parts.push(part);
        let motion = motion_of(&dance, None).unwrap();
        if is_over_long(&dance, &motion) {
            // On the spot instead.
            dance.figures[0].parts.clear();
        }
        let danced = Danced::of(&dance, 0);
        // A foot that is to be 1.2 m up within a count at 130, and go round on it, goes faster than any in a usual step.
        let said = walk(&danced, 30.0);
        prop_assert!(said.is_ok(), "{phrase} at {speed} to {far:?}: {}", said.unwrap_err());
    }
}

/// Mirroring the lead mirrors the body.
#[test]
fn the_other_foot_first_is_the_mirror() {
    let mut right = on_the_spot("right, 2 ds, 2 ss, ftj", 4, 100.0);
    right.set = Set::longways(1, 2.4, 1.8);
    let mut left = right.clone();
    "left, 2 ds, 2 ss, ftj".clone_into(&mut left.figures[0].phrase);
    let (right, left) = (Danced::of(&right, 0), Danced::of(&left, 0));
    let pose = right.motion.pose(Dancer(0), 0.0);
    let mirrored = |place: InSpace| {
        let middle = InSpace::new(pose.x, pose.y, 0.0);
        let own = (place - middle).as_body_has_it(pose.facing);
        middle + InSpace::new(-own.x, own.y, own.z).of_body(pose.facing)
    };
    for look in 0..160 {
        let (one, other) = (right.at(f64::from(look) / 10.0), left.at(f64::from(look) / 10.0));
        for side in 0..2 {
            for (a, b) in [(one.feet, other.feet), (one.hands, other.hands), (one.hips, other.hips)] {
                let off = (mirrored(a[side]) - b[1 - side]).length();
                assert!(off < 1e-9, "{look}, {side}: {off}");
            }
        }
    }
}

/// Whoever leaves the floor and never lands comes down at the end of the dance, and is told that nobody is in the air for so long.
#[test]
fn a_step_that_never_lands_is_told() {
    let mut dance = on_the_spot("4 own", 4, 60.0);
    dance.steps.push(OwnStep {
        name: "own".into(),
        short: "own".into(),
        feet: vec![Landing::Air; 4],
        ..OwnStep::default()
    });
    let motion = motion_of(&dance, None).unwrap();
    let told = find_faults(&dance, &motion);
    assert!(told.iter().any(|fault| fault.kind == bellpad::dance::FaultKind::HurriedJump), "{told:#?}");
}
