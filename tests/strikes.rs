//! Sticks and hands that meet: the six patterns of the book, danced, and what must hold of any tap or clap.
//!
//! Source: [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907): who strikes whom, with which end, on which beat. Partners
//! and ranks 1.2 m apart for sticks and 0.9 m for hands are from memory; arm 0.65 m and stick 0.6 m are common practice, no source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Extra, Figure, Foot, Grip, Holding, Landing, Leg, Metre, Number, OwnStep, Part, Person,
    PlaceNumber, Set, Strike, StrikeEnd, StrikePart, Striker, Struck, check_rules, read, write,
};
use bellpad::faults::{Fault, FaultKind, find_faults};
use bellpad::figures::{motion_of, named_figure};
use bellpad::motion::limbs::{Gait, InSpace, Limbs, between_two, meeting_at};
use bellpad::motion::{Blow, BlowHand, BlowOn, Clock, Motion};
use bellpad::picture::{EyeBody, EyeFrame, EyeSide, Mark, PAPER, eye_level_marks};
use proptest::prelude::*;
use serde_json::json;

/// An arm, metres (common practice, no source).
const ARM: f64 = 0.65;

/// A dance of one figure in which everybody stands, with strikes as a file has them.
fn stick_dance(title: &str, (bars, apart): (u32, f64), strikes: &serde_json::Value) -> Dance {
    let dance = json!({
        "bellpad": 2, "title": title, "holding": "sticks",
        "set": {"kind": "longways", "dancers": 6, "across": apart, "along": apart},
        "figures": [{"id": "taps", "name": title, "bars": bars, "phrase": "sb", "strikes": strikes}],
    });
    read(dance.to_string().as_bytes()).unwrap()
}

/// Dibbing, six bars twice over: all strike the ground, odds tap evens and stay crossed, ..., the last bar in 9/8.
fn bean_rows(apart: f64) -> Dance {
    let mut strikes = Vec::new();
    for begin in [0, 26] {
        let at = |count: i32| begin + count;
        let tap = |count: i32, by: serde_json::Value, on: serde_json::Value| json!({"at": at(count), "by": by, "with": "tip", "on": on, "height": 0.7});
        strikes.extend([
            json!({"at": at(0), "by": "all", "with": "tip", "on": "ground", "again": [at(2), at(8), at(10)]}),
            json!({"at": at(4), "by": "odds", "with": "tip", "on": "partner", "height": 0.7, "stay": true}),
            tap(12, json!("odds"), json!("partner")),
            tap(14, json!(1), json!(3)),
            tap(16, json!(3), json!(5)),
            tap(18, json!(5), json!("partner")),
            tap(20, json!(6), json!(4)),
            tap(22, json!(4), json!(2)),
            tap(24, json!("odds"), json!("partner")),
        ]);
    }
    let mut dance = stick_dance("Bean Rows", (12, apart), &json!([]));
    dance.grip = Grip::End;
    dance.figures[0].metres = [(6, Metre::NineEight), (12, Metre::NineEight)].into();
    dance.figures[0].strikes = serde_json::from_value(json!(strikes)).unwrap();
    check_rules(&dance).unwrap();
    dance
}

fn one_by_one(apart: f64) -> Dance {
    stick_dance(
        "One by One",
        (4, apart),
        &json!([
            {"at": 2, "by": "odds", "with": "tip", "on": "partner", "their": "butt", "again": [10]},
            {"at": 6, "by": "evens", "with": "tip", "on": "partner", "their": "butt"},
            {"at": 12, "by": "odds", "with": "butt", "on": "partner", "their": "tip"},
            {"at": 14, "by": "odds", "with": "tip", "on": "partner"},
        ]),
    )
}

fn two_and_two(apart: f64) -> Dance {
    stick_dance(
        "Two and Two",
        (4, apart),
        &json!([
            {"at": 2, "by": "odds", "with": "tip", "on": "partner", "their": "butt", "again": [3, 10, 11, 13]},
            {"at": 6, "by": "evens", "with": "tip", "on": "partner", "their": "butt", "again": [7]},
            {"at": 12, "by": "odds", "with": "butt", "on": "partner", "their": "tip", "again": [14]},
            {"at": 15, "by": "odds", "with": "tip", "on": "partner"},
        ]),
    )
}

/// Right, left and right: forehand with the tip, backhand with the butt; then crossed while they dance 4/3.
fn clash_and_cross(apart: f64) -> Dance {
    let mut dance = stick_dance(
        "Clash and Cross",
        (8, apart),
        &json!([
            {"at": 0, "by": "all", "with": "tip", "on": "partner", "again": [2, 4, 16, 18, 20]},
            {"at": 1, "by": "all", "with": "butt", "on": "partner", "again": [5, 17, 21]},
            {"at": 6, "by": "all", "with": "tip", "on": "partner", "stay": true, "again": [22]},
        ]),
    );
    "2 st, 2 ds, 2 st, 2 ds".clone_into(&mut dance.figures[0].phrase);
    dance
}

fn hands(title: &str, strikes: &serde_json::Value, apart: f64) -> Dance {
    let mut dance = stick_dance(title, (4, apart), strikes);
    dance.holding = Holding::Handkerchiefs;
    dance
}

/// Both own hands, right on right, left on left, hands up: the order is the book's, on counts of this test.
/// Both own hands together, right on partner's right, left on partner's left, and hands thrown up: the order is the book's.
fn garden_gate(apart: f64) -> Dance {
    let mut dance = hands(
        "Garden Gate",
        &json!([
            {"at": 0, "by": "all", "with": "both", "on": "self", "again": [4, 8, 12]},
            {"at": 1, "by": "all", "with": "right", "on": "partner", "again": [9]},
            {"at": 5, "by": "all", "with": "left", "on": "partner", "again": [13]},
        ]),
        apart,
    );
    dance.steps.push(OwnStep {
        name: "stand and throw up".to_owned(),
        short: "tu".to_owned(),
        feet: vec![Landing::Both, Landing::Stay, Landing::Stay, Landing::Stay],
        hands: vec![0.4, 0.5, 1.0, 0.6],
        ..OwnStep::default()
    });
    "sb, sb, tu, sb, sb, tu".clone_into(&mut dance.figures[0].phrase);
    dance
}

/// Each hand is over the crown as they are thrown up, at the half-bar of the second and the fourth bar.
#[test]
fn hands_are_thrown_up_between_the_claps() {
    let danced = Danced::of(&garden_gate(0.9));
    for (count, up) in [(5.0, false), (6.0, true), (8.0, false), (13.0, false), (14.0, true)] {
        for dancer in Dancer::all(6) {
            let body = danced.limbs(dancer, count);
            assert!(
                body.hands.iter().all(|hand| (hand.z > body.crown.z + 0.05) == up),
                "{dancer} at {count}"
            );
        }
    }
}

/// Both hands before, right on right knee, left on left, under the raised right knee, under the left, behind: the order is the book's.
fn round_the_knees(apart: f64) -> Dance {
    hands(
        "Round the Knees",
        &json!([
            {"at": 0, "by": "all", "with": "both", "on": "self"},
            {"at": 2, "by": "all", "with": "right", "on": "self", "part": "right-knee"},
            {"at": 4, "by": "all", "with": "left", "on": "self", "part": "left-knee"},
            {"at": 6, "by": "all", "with": "both", "on": "self", "part": "under-right-knee"},
            {"at": 8, "by": "all", "with": "both", "on": "self", "part": "under-left-knee"},
            {"at": 10, "by": "all", "with": "both", "on": "self", "part": "behind"},
        ]),
        apart,
    )
}

/// The same, a clap each count, and to double steps: a foot that is about to be lifted, or has just landed, stays where it is.
fn knees_in_a_hurry(apart: f64) -> Dance {
    let strikes: Vec<serde_json::Value> = (0..16)
        .map(|at| match at % 4 {
            0 => json!({"at": at, "by": "all", "with": "right", "on": "self", "part": "right-knee"}),
            1 => json!({"at": at, "by": "all", "with": "left", "on": "self", "part": "left-knee"}),
            2 => json!({"at": at, "by": "all", "with": "both", "on": "self", "part": "under-right-knee"}),
            _ => json!({"at": at, "by": "all", "with": "both", "on": "self", "part": "under-left-knee"}),
        })
        .collect();
    let mut dance = hands("Knees in a Hurry", &json!(strikes), apart);
    "2 st, ds, ftj".clone_into(&mut dance.figures[0].phrase);
    dance
}

/// Targets lower and lower, some out of reach.
fn low_and_lower(apart: f64) -> Dance {
    let strikes: Vec<serde_json::Value> = (0..8)
        .map(|at| json!({"at": at * 2, "by": "odds", "with": "tip", "on": "partner", "stay": true, "height": 1.2 - f64::from(at) * 0.16}))
        .collect();
    let mut dance = stick_dance("Low and Lower", (4, apart), &json!(strikes));
    let mut part = bellpad::dance::Part::still(1);
    part.legs.push(bellpad::dance::Leg::straight(4.0, 12.0, -apart / 2.0 - 1.0, apart));
    dance.figures[0].parts.push(part);
    dance
}

type Pattern = (fn(f64) -> Dance, f64);

/// The six with how far apart partners and ranks are for them.
const PATTERNS: [Pattern; 6] = [
    (bean_rows, 1.2),
    (one_by_one, 1.2),
    (two_and_two, 1.2),
    (clash_and_cross, 1.2),
    (garden_gate, 0.9),
    (round_the_knees, 0.9),
];

struct Danced {
    motion: Motion,
    clock: Clock,
    gaits: Vec<Gait>,
}

impl Danced {
    fn of(dance: &Dance) -> Self {
        let motion = motion_of(dance, None).unwrap();
        let clock = Clock::of_dance(dance, &motion);
        let gaits = Dancer::all(motion.dancers()).map(|dancer| Gait::of(&motion, &clock, dancer)).collect();
        Self { motion, clock, gaits }
    }

    fn limbs(&self, dancer: Dancer, count: f64) -> Limbs {
        self.gaits[dancer.index()].limbs(&self.motion, &self.clock, count)
    }

    /// How far the two ends of a blow are apart at its count; on the ground from it, on oneself of a hand from what it strikes.
    fn off(&self, blow: &Blow) -> f64 {
        let own = self.limbs(blow.by.dancer, blow.count);
        let end = own.end(blow.by.hand, blow.by.end);
        match blow.on {
            BlowOn::Other(other) => {
                (end - self.limbs(other.dancer, blow.count).end(other.hand, other.end)).length()
            }
            BlowOn::Ground => (end.z - blow.height.unwrap_or(0.0)).abs(),
            BlowOn::Own(part) if part.is_of_hands() => (end - own.hands[1 - blow.by.hand]).length(),
            BlowOn::Own(StrikePart::RightKnee) => ((own.knees[1] - end).length() - 0.07).abs(),
            BlowOn::Own(_) => ((own.knees[0] - end).length() - 0.07).abs(),
            BlowOn::Nobody(_) => f64::INFINITY,
        }
    }
}

fn of_kinds(faults: &[Fault], kinds: &[FaultKind]) -> Vec<String> {
    faults.iter().filter(|fault| kinds.contains(&fault.kind)).map(|fault| fault.text.clone()).collect()
}

const OF_STRIKES: [FaultKind; 4] =
    [FaultKind::OutOfReach, FaultKind::OneSided, FaultKind::TwoPlaces, FaultKind::NearHead];

#[test]
fn the_six_patterns_are_in_reach_and_clear() {
    for (make, apart) in PATTERNS {
        let dance = make(apart);
        let danced = Danced::of(&dance);
        let faults = find_faults(&dance, &danced.motion);
        let told: Vec<&String> =
            faults.iter().filter(|fault| !fault.kind.is_caution()).map(|fault| &fault.text).collect();
        assert!(told.is_empty(), "{}: {told:#?}", dance.title);
        assert!(!danced.motion.blows().is_empty());
        for blow in danced.motion.blows() {
            assert!(danced.off(blow) < 0.01, "{}: {} {blow:?}", dance.title, danced.off(blow));
        }
    }
}

#[test]
fn twice_as_far_apart_all_on_another_is_out_of_reach_and_nothing_else() {
    for (make, _) in PATTERNS {
        let dance = make(2.4);
        let danced = Danced::of(&dance);
        let faults = find_faults(&dance, &danced.motion);
        let out: Vec<&Fault> = faults.iter().filter(|fault| fault.kind == FaultKind::OutOfReach).collect();
        let blows = danced.motion.blows();
        let others = blows.iter().filter(|blow| matches!(blow.on, BlowOn::Other(_)));
        assert_eq!(out.len(), others.clone().count(), "{}", dance.title);
        for (blow, fault) in others.zip(&out) {
            assert!((fault.counts() - blow.count).abs() < 1e-9 && fault.dancers.len() == 2);
        }
        for blow in blows.iter().filter(|blow| !matches!(blow.on, BlowOn::Other(_))) {
            assert!(danced.off(blow) < 0.01, "{}: {}", dance.title, danced.off(blow));
        }
    }
}

/// Upright bodies reach each other at 1.86 m with sticks held by the middle, 2.37 m tip to tip held by the end, 1.24 m hand to hand [CALC]:
/// a centimetre nearer they do and a centimetre farther they do not, and what is told is how far is missing.
#[test]
fn the_reach_of_two_bodies() {
    for (grip, end, most) in
        [(Grip::Middle, "tip", 1.86), (Grip::End, "tip", 2.37), (Grip::Middle, "right", 1.24)]
    {
        for (apart, clear) in [(most - 0.015, true), (most + 0.015, false), (most + 0.5, false)] {
            let strikes = json!([{"at": 4, "by": "odds", "with": end, "on": "partner"}]);
            let mut dance = stick_dance("Reach", (4, apart), &strikes);
            dance.grip = grip;
            let motion = motion_of(&dance, None).unwrap();
            let found = find_faults(&dance, &motion);
            let out: Vec<&Fault> = found.iter().filter(|fault| fault.kind == FaultKind::OutOfReach).collect();
            assert_eq!(out.is_empty(), clear, "{end} {grip:?} at {apart}: {out:?}");
            for fault in out {
                assert!((fault.value - (apart - most)).abs() < 0.06, "{} for {}", fault.value, apart - most);
            }
        }
    }
}

#[test]
fn a_strike_that_the_other_takes_no_part_in_is_told() {
    let told = |strikes: serde_json::Value| {
        let dance = stick_dance("Alone", (4, 1.2), &strikes);
        let faults = find_faults(&dance, &motion_of(&dance, None).unwrap());
        (of_kinds(&faults, &[FaultKind::OneSided]), of_kinds(&faults, &[FaultKind::TwoPlaces]))
    };
    let (one, two) = told(json!([{"at": 2, "by": 1, "with": "tip", "on": "up"}]));
    assert_eq!(
        one,
        ["In Alone, bar 1 count 3: 1 has nobody up in the file to strike with the tip: choose somebody else"]
    );
    assert!(two.is_empty());
    // 4 strikes 6 while 3 strikes 4.
    let (one, two) = told(json!([
        {"at": 2, "by": 3, "with": "tip", "on": "partner"}, {"at": 2, "by": 4, "with": "tip", "on": "down"}
    ]));
    assert_eq!(
        one,
        [
            "In Alone, bar 1 count 3: 3 strikes 4, who strikes 6 at that moment: have one of them at another time"
        ]
    );
    assert!(two.is_empty(), "{two:?}");
    // One hand on two, and two on one hand that strikes neither.
    let (one, two) = told(json!([
        {"at": 2, "by": 3, "with": "tip", "on": "partner"}, {"at": 2, "by": 3, "with": "tip", "on": "down"},
        {"at": 6, "by": 1, "with": "tip", "on": 4}, {"at": 6, "by": 6, "with": "tip", "on": 4},
    ]));
    assert!(one.is_empty(), "{one:?}");
    assert_eq!(
        two,
        [
            "In Alone, bar 1 count 3: 3's right hand is asked to be in 2 places: tip with 4 and tip with 5; have one at a time",
            "In Alone, bar 2 count 3: 4's right hand is asked to be in 2 places: tip with 1 and tip with 6; have one at a time",
        ]
    );
    // Both saying the same is one meeting.
    let (one, two) = told(json!([{"at": 2, "by": "all", "with": "tip", "on": "partner"}]));
    assert!(one.is_empty() && two.is_empty(), "{one:?} {two:?}");
}

/// One fault is told once: who is struck elsewhere at that moment does not come short of the ground besides.
#[test]
fn one_fault_tells_no_second_one() {
    for strikes in [
        json!([{"at": 2, "by": 1, "with": "tip", "on": 2}, {"at": 2, "by": 2, "with": "tip", "on": "ground"}]),
        json!([{"at": 2, "by": 2, "with": "tip", "on": "ground"}, {"at": 2, "by": 1, "with": "tip", "on": 2}]),
    ] {
        let dance = stick_dance("Twice", (4, 1.2), &strikes);
        let faults = find_faults(&dance, &motion_of(&dance, None).unwrap());
        let told: Vec<&str> = faults.iter().map(|fault| fault.said.as_str()).collect();
        assert_eq!(
            told,
            ["1 strikes 2, who strikes the ground at that moment: have one of them at another time"]
        );
    }
}

/// Side by side in column is as usual as face to face; behind the back is not.
#[test]
fn who_has_the_other_behind_is_told() {
    for (facing, clear) in [([0.0, 0.0], true), ([90.0, 270.0], true), ([250.0, 250.0], false)] {
        let strikes = json!([{"at": 0, "by": 1, "with": "tip", "on": 2}]);
        let mut dance = stick_dance("Backs", (1, 1.2), &strikes);
        let spots: Vec<serde_json::Value> = [-0.6, 0.6]
            .iter()
            .zip(facing)
            .map(|(x, facing)| json!({"x": x, "y": 0.0, "facing": facing}))
            .collect();
        dance.set = serde_json::from_value(
            json!({"kind": "spots", "dancers": 2, "across": 1.2, "along": 1.2, "spots": spots}),
        )
        .unwrap();
        let faults = find_faults(&dance, &motion_of(&dance, None).unwrap());
        assert_eq!(of_kinds(&faults, &[FaultKind::OneSided]).is_empty(), clear, "{facing:?}: {faults:?}");
    }
}

#[test]
fn an_end_near_a_head_is_a_caution_and_no_fault() {
    let strikes = json!([{"at": 2, "by": "odds", "with": "tip", "on": "partner", "height": 1.7}]);
    let dance = stick_dance("High", (4, 0.45), &strikes);
    let motion = motion_of(&dance, None).unwrap();
    let faults = bellpad::faults::Faults::of(&dance, &motion);
    assert!(faults.iter().any(|fault| fault.kind == FaultKind::NearHead && fault.value < 0.3), "{faults:?}");
    assert!(faults.cautions() >= 3);
    let others = faults.iter().filter(|fault| fault.kind != FaultKind::NearHead).count();
    assert_eq!(faults.many(), others);
}

#[test]
fn sticks_that_stay_crossed_do_until_the_next_strike() {
    let dance = clash_and_cross(1.2);
    let danced = Danced::of(&dance);
    let crossed = danced.motion.blows().iter().find(|blow| blow.until > blow.count).unwrap();
    assert_eq!((crossed.count, crossed.until), (6.0, 16.0));
    let BlowOn::Other(other) = crossed.on else { panic!() };
    // Half a count before the next strike they part.
    for step in 0..=(9.5 * 8.0) as u32 {
        let count = 6.0 + f64::from(step) / 8.0;
        let one = danced.limbs(crossed.by.dancer, count).end(crossed.by.hand, crossed.by.end);
        let two = danced.limbs(other.dancer, count).end(other.hand, other.end);
        assert!((one - two).length() < 0.02, "at {count} {} apart", (one - two).length());
    }
}

/// A moment that is nearer and nearer leaves the hands, the sticks and the trunk where they are: nothing jumps. Arms are no longer than
/// they are, and feet under a body that stoops stay on the floor.
#[test]
fn arms_trunks_and_sticks_go_without_a_jump() {
    let more: [Pattern; 2] = [(knees_in_a_hurry, 0.9), (low_and_lower, 1.2)];
    for (make, apart) in PATTERNS.into_iter().chain(more) {
        let danced = Danced::of(&make(apart));
        let near = 1e-7;
        for dancer in Dancer::all(6) {
            for part in 0..(danced.motion.counts() * 48.0) as u32 {
                let count = f64::from(part) / 48.0;
                let [before, here, after] =
                    [count - near, count, count + near].map(|count| danced.limbs(dancer, count.max(0.0)));
                let places = |limbs: &Limbs| -> Vec<InSpace> {
                    let sticks = [0, 1].map(|hand| limbs.end(hand, StrikeEnd::Tip));
                    [limbs.hands, limbs.elbows, limbs.shoulders, limbs.hips, limbs.knees, limbs.feet, sticks]
                        .concat()
                };
                for other in [before, after] {
                    for (one, two) in places(&here).iter().zip(places(&other)) {
                        assert!(
                            (*one - two).length() < 1e-3,
                            "{dancer} jumps at {count}: {}",
                            (*one - two).length()
                        );
                    }
                }
                for hand in [0, 1] {
                    let arm = (here.hands[hand] - here.shoulders[hand]).length();
                    assert!(arm <= ARM + 1e-6, "{dancer} at {count}: {arm}");
                    let leg = (here.feet[hand] - here.hips[hand]).length();
                    assert!(leg <= 0.95, "{dancer} at {count}: a leg of {leg}");
                }
            }
        }
    }
}

/// The body stoops to dib, and stands to tap at the chest.
#[test]
fn who_dibs_stoops() {
    let danced = Danced::of(&bean_rows(1.2));
    let lean = |count: f64| danced.limbs(Dancer(2), count).lean;
    assert!(lean(0.0) > 25.0, "{}", lean(0.0));
    assert!(lean(8.0) > 25.0);
    let danced = Danced::of(&one_by_one(1.2));
    assert!(danced.limbs(Dancer(2), 2.0).lean < 4.0);
}

/// The image of a dance in the line up the middle: left-handers for right-handers, each striking what the other struck.
#[test]
fn a_mirrored_dance_strikes_mirrored() {
    for (make, apart) in PATTERNS {
        let dance = make(apart);
        let mut image = dance.clone();
        let partner = |place: PlaceNumber| PlaceNumber::from_index(place.index() ^ 1);
        for strike in &mut image.figures[0].strikes {
            strike.swap_sides();
            strike.by = match strike.by {
                Striker::Place(place) => Striker::Place(partner(place)),
                Striker::Odds => Striker::Evens,
                Striker::Evens => Striker::Odds,
                Striker::All => Striker::All,
            };
            if let Struck::Place(place) = strike.on {
                strike.on = Struck::Place(partner(place));
            }
        }
        image.figures[0].phrase = format!("left, {}", dance.figures[0].phrase);
        for number in 1..=6 {
            image.people.push(Person {
                number: Number(number),
                name: "Wren".to_owned(),
                left_handed: true,
                extra: Extra::new(),
            });
        }
        let (one, two) = (Danced::of(&dance), Danced::of(&image));
        assert_eq!(one.motion.blows().len(), two.motion.blows().len());
        // Who strikes whom with what: those on the other side, with the other hand.
        for blow in one.motion.blows() {
            let image = |hand: BlowHand| BlowHand {
                dancer: Dancer(hand.dancer.index() ^ 1),
                hand: 1 - hand.hand,
                end: hand.end.other_side(),
            };
            let on = match blow.on {
                BlowOn::Other(other) => BlowOn::Other(image(other)),
                BlowOn::Own(part) => BlowOn::Own(part.other_side()),
                same => same,
            };
            let said = two.motion.blows().iter().any(|other| {
                // A pair meets once, told from either side; of two hands on oneself either is the one that claps.
                let same = |by: BlowHand, on: BlowOn| other.by == by && other.on == on;
                let meets = same(image(blow.by), on)
                    || matches!(on, BlowOn::Other(answers) if same(answers, BlowOn::Other(image(blow.by))))
                    || matches!(on, BlowOn::Own(part) if part.is_of_hands() && other.on == on && other.by.dancer == image(blow.by).dancer);
                meets && (other.count - blow.count).abs() < 1e-9 && (other.until - blow.until).abs() < 1e-9
            });
            assert!(said, "{}: {blow:?}", dance.title);
        }
        for part in 0..(one.motion.counts() * 4.0) as u32 {
            let count = f64::from(part) / 4.0;
            for dancer in Dancer::all(6) {
                let here = one.limbs(dancer, count);
                let there = two.limbs(Dancer(dancer.index() ^ 1), count);
                for hand in [0, 1] {
                    let seen = there.hands[1 - hand];
                    let image = InSpace::new(-seen.x, seen.y, seen.z);
                    let stick = |limbs: &Limbs, hand: usize| limbs.sticks[hand].map(|stick| stick.ends());
                    match (stick(&here, hand), stick(&there, 1 - hand)) {
                        (Some(own), Some(their)) => {
                            for (own, their) in own.into_iter().zip(their) {
                                let image = InSpace::new(-their.x, their.y, their.z);
                                assert!((own - image).length() < 1e-6, "{} {dancer} at {count}", dance.title);
                            }
                        }
                        (own, their) => assert!(own.is_none() && their.is_none(), "{}", dance.title),
                    }
                    assert!(
                        (here.hands[hand] - image).length() < 1e-6,
                        "{} {dancer} at {count}",
                        dance.title
                    );
                }
                assert!((here.lean - there.lean).abs() < 1e-6);
            }
        }
    }
}

/// Two sticks: `hand` says which hand holds the one that strikes.
#[test]
fn a_stick_in_the_other_hand_strikes_with_that_hand() {
    let strikes = json!([
        {"at": 2, "by": 1, "with": "tip", "hand": "left", "on": "partner"},
        {"at": 4, "by": 1, "with": "tip", "on": "partner"},
    ]);
    let danced = Danced::of(&stick_dance("Two Sticks", (4, 1.2), &strikes));
    let limbs = danced.limbs(Dancer(0), 2.0);
    assert!(limbs.sticks.iter().all(Option::is_some));
    assert!(danced.limbs(Dancer(1), 2.0).sticks[0].is_none());
    let place = between_two(&danced.motion, &danced.motion.blows()[0], 2.0).unwrap();
    assert!((limbs.end(0, StrikeEnd::Tip) - place).length() < 0.01);
}

#[test]
fn what_is_wrong_in_a_strike_is_told_with_its_key() {
    let refused = |strike: serde_json::Value| {
        let dance = json!({
            "bellpad": 2, "title": "Wrong", "set": {"kind": "longways", "dancers": 6, "across": 1.2, "along": 1.2},
            "figures": [{"id": "taps", "name": "Taps", "bars": 4, "strikes": [strike]}],
        });
        read(dance.to_string().as_bytes()).unwrap_err().to_string()
    };
    for (strike, said) in [
        (
            json!({"at": 16, "by": 1, "with": "tip", "on": 2}),
            "strikes[0].at: count 16 is the end of the figure",
        ),
        (json!({"at": -1, "by": 1, "with": "tip", "on": 2}), "strikes[0].at: -1 is out of range"),
        (json!({"at": 1, "by": 7, "with": "tip", "on": 2}), "strikes[0].by: 7 is not a place in a set of 6"),
        (json!({"at": 1, "by": 1, "with": "tip", "on": 9}), "strikes[0].on: 9 is not a place"),
        (json!({"at": 1, "by": 1, "with": "tip", "on": 1}), "on oneself it is `self`"),
        (json!({"at": 1, "by": 1, "with": "top", "on": 2}), "unknown word `top`"),
        (json!({"at": 1, "by": "odd", "with": "tip", "on": 2}), "unknown word `odd`"),
        (
            json!({"at": 1, "by": 1, "with": "right", "hand": "left", "on": 2}),
            "strikes[0].hand: only a stick",
        ),
        (
            json!({"at": 1, "by": 1, "with": "tip", "on": "ground", "their": "tip"}),
            "strikes[0].their: there is nobody",
        ),
        (
            json!({"at": 1, "by": 1, "with": "tip", "on": 2, "part": "hands"}),
            "strikes[0].part: a part is struck on `self`",
        ),
        (
            json!({"at": 1, "by": 1, "with": "tip", "on": 2, "height": 3}),
            "strikes[0].height: 3 is out of range",
        ),
        (
            json!({"at": 4, "by": 1, "with": "tip", "on": 2, "again": [6, 5]}),
            "strikes[0].again[1]: count 5 comes after 6",
        ),
        (json!({"by": 1, "with": "tip", "on": 2}), "missing key `at`"),
    ] {
        let told = refused(strike);
        assert!(told.contains(said), "{told}\nexpected {said}");
    }
    // Keys that are not known stay.
    let strikes = json!([{"at": 1.0, "by": 1, "with": "tip", "on": "partner", "loud": true}]);
    let dance = stick_dance("Kept", (4, 1.2), &strikes);
    let again = read(write(&dance).unwrap().as_bytes()).unwrap();
    assert_eq!(again, dance);
    assert_eq!(again.figures[0].strikes[0].extra["loud"], json!(true));
}

/// Who stay together and then go apart are told, and what two say of one moment and cannot both do.
#[test]
fn who_go_apart_while_they_stay_together_are_told() {
    let dance = low_and_lower(1.2);
    let faults = find_faults(&dance, &motion_of(&dance, None).unwrap());
    let out: Vec<&Fault> = faults.iter().filter(|fault| fault.kind == FaultKind::OutOfReach).collect();
    assert!(out.iter().any(|fault| fault.text.contains("to stay together")), "{out:#?}");
    let strikes = json!([
        {"at": 2, "by": 1, "with": "tip", "on": 2, "their": "butt"}, {"at": 2, "by": 2, "with": "tip", "on": 1, "their": "butt"}
    ]);
    let dance = stick_dance("Both Ways", (4, 1.2), &strikes);
    let faults = find_faults(&dance, &motion_of(&dance, None).unwrap());
    assert!(of_kinds(&faults, &[FaultKind::OutOfReach]).is_empty(), "{faults:#?}");
    assert_eq!(of_kinds(&faults, &[FaultKind::TwoPlaces]).len(), 2, "{faults:#?}");
}

/// As many as a file may have, staying together, are read in order of time at once: work goes with their number.
/// Seen from behind a body hides what it strikes before its chest; and a number is never under a star.
#[test]
fn what_is_struck_on_the_far_side_is_behind_the_body() {
    let strikes = json!([{"at": 2, "by": "odds", "with": "right", "on": "partner"}]);
    let danced = Danced::of(&hands("Behind", &strikes, 0.9));
    let limbs = danced.limbs(Dancer(0), 2.0);
    for (side, before) in [(EyeSide::Front, false), (EyeSide::Behind, true)] {
        let middle = limbs.middle();
        let looks = side.looks(limbs.facing);
        let frame = EyeFrame { centre: (middle.x, middle.y), floor: [0.0; 2], scale: 200.0, looks };
        let seen = EyeBody {
            limbs: &limbs,
            carries: [true; 2],
            trails: [InSpace::default(); 2],
            number: Dancer(0).number(),
            holding: Holding::Nothing,
            stick_in: 1,
            numbered: true,
        };
        let mut marks = Vec::new();
        eye_level_marks(&mut marks, &frame, &PAPER, seen);
        let star = marks.iter().rposition(|mark| matches!(mark, Mark::Outline { .. })).unwrap();
        let trunk = marks.iter().position(|mark| matches!(mark, Mark::Block { .. })).unwrap();
        let number = marks.iter().position(|mark| matches!(mark, Mark::Words { .. })).unwrap();
        assert_eq!(star < trunk, before, "{side:?}");
        assert!(star < number, "{side:?}");
    }
}

#[test]
fn many_strikes_are_soon_worked_out() {
    let strikes: Vec<serde_json::Value> = (0..2000)
        .map(|at| json!({"at": f64::from(at) / 2.0, "by": "all", "with": "tip", "on": "partner", "stay": true}))
        .collect();
    let mut dance = stick_dance("Many", (256, 1.2), &json!(strikes));
    dance.set.dancers = 100;
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(motion.blows().len(), 2000 * 50);
    assert!(
        motion
            .blows()
            .iter()
            .all(|blow| (blow.until - blow.count - 0.5).abs() < 1e-9 || blow.until == motion.counts())
    );
    dance.figures[0].strikes[0].again = (1..2000).map(|at| f64::from(at) / 2.0 + 0.25).collect();
    dance.figures[0].strikes[1].again = vec![1000.0, 1001.0];
    assert!(check_rules(&dance).unwrap_err().to_string().contains("struck 4001 times"));
}

/// Taps in a figure of which the set is danced from elsewhere, and danced again, are where the places are.
#[test]
fn strikes_go_with_places() {
    let mut dance = Dance::new("Places", Set::longways(6, 1.2, 1.8));
    dance.holding = Holding::Sticks;
    dance.figures.push(named_figure("half-hey", Extra::new(), &dance.set).unwrap());
    let mut taps = Figure::drawn("taps", "Taps", 4);
    taps.strikes.push(Strike::new(2.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Tip, Struck::Partner));
    dance.figures.push(taps);
    let motion = motion_of(&dance, None).unwrap();
    let blow = motion.blows()[0];
    // After the half hey 5 is in place 1 [MB1].
    assert_eq!(blow.by.dancer, Dancer(4));
    assert_eq!(blow.count, motion.spans()[1].begin() + 2.0);
}

fn end() -> impl Strategy<Value = StrikeEnd> {
    proptest::sample::select(StrikeEnd::ALL.to_vec())
}

fn strike() -> impl Strategy<Value = Strike> {
    let by = prop_oneof![
        (1_u32..=6).prop_map(|place| Striker::Place(PlaceNumber(place))),
        Just(Striker::Odds),
        Just(Striker::Evens),
        Just(Striker::All)
    ];
    let on = prop_oneof![
        proptest::sample::select(Struck::WORDS.map(|(_, on)| on).to_vec()),
        (1_u32..=6).prop_map(|place| Struck::Place(PlaceNumber(place)))
    ];
    let part = proptest::option::of(proptest::sample::select(StrikePart::ALL.to_vec()));
    let hand = proptest::option::of(prop_oneof![Just(Foot::Left), Just(Foot::Right)]);
    let times = (0_u32..60, any::<bool>(), proptest::option::of(0.0..1.7_f64));
    (by, end(), on, (part, hand, proptest::option::of(end())), times).prop_map(
        |(by, end, on, (part, hand, their), (at, stay, height))| Strike {
            hand: hand.filter(|_| end.is_of_stick()),
            their: their.filter(|_| on.is_somebody()),
            part: part.filter(|_| on == Struck::Own),
            // A knee has none.
            height: height.filter(|_| on != Struck::Own || !part.is_some_and(StrikePart::is_of_knee)),
            stay,
            ..Strike::new(f64::from(at) / 4.0, by, end, on)
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is struck: nothing breaks, the ends of all that is not told as a fault meet within a centimetre, arms are no longer than they
    /// are, and the file is read back as it was.
    #[test]
    fn any_taps_at_all(
        strikes in proptest::collection::vec(strike(), 1..6),
        apart in 0.5..3.0_f64,
        grip in prop_oneof![Just(Grip::Middle), Just(Grip::End)],
        sticks in any::<bool>(),
        phrase in proptest::sample::select(vec!["sb", "2 ds, 2 ss, ftj", "left, 2 sh, 4 rs, st", "2 ss, ds, st, sj"]),
        goes in proptest::option::of((-0.4..0.4_f64, -0.4..0.4_f64)),
    ) {
        let mut dance = stick_dance("Any", (4, apart), &json!([]));
        dance.grip = grip;
        if !sticks {
            dance.holding = Holding::Nothing;
        }
        let on_oneself = |strike: &Strike| matches!((strike.by, strike.on), (Striker::Place(by), Struck::Place(on)) if by == on);
        dance.figures[0].strikes = strikes.into_iter().filter(|strike| !on_oneself(strike)).collect();
        // Whatever the feet do, where they stand and where they go.
        dance.figures[0].phrase = phrase.to_owned();
        if let Some((x, y)) = goes {
            let mut part = Part::still(2);
            part.legs.push(Leg::straight(3.0, 9.0, apart / 2.0 + x, apart + y));
            dance.figures[0].parts.push(part);
        }
        prop_assert!(check_rules(&dance).is_ok());
        prop_assert_eq!(&read(write(&dance).unwrap().as_bytes()).unwrap(), &dance);
        let danced = Danced::of(&dance);
        let faults = find_faults(&dance, &danced.motion);
        let is_told = |blow: &Blow| {
            faults.iter().any(|fault| {
                // A caution beside it is no reason to miss.
                OF_STRIKES.contains(&fault.kind)
                    && !fault.kind.is_caution()
                    && (fault.counts() - blow.count).abs() < 1e-3
                    && fault.dancers.iter().any(|number| blow.has(number.dancer()))
            })
        };
        for blow in danced.motion.blows() {
            for dancer in Dancer::all(6) {
                let limbs = danced.limbs(dancer, blow.count);
                for hand in [0, 1] {
                    let arm = (limbs.hands[hand] - limbs.shoulders[hand]).length();
                    prop_assert!(arm.is_finite() && arm <= ARM + 1e-6, "{}", arm);
                }
            }
            if !matches!(blow.on, BlowOn::Nobody(_)) && !is_told(blow) {
                prop_assert!(danced.off(blow) < 0.0101, "{} {:?}", danced.off(blow), blow);
            }
        }
    }
}

/// A height that is asked for is looked at wherever it is: on oneself and on the ground as between two. What is told lies where the star does.
#[test]
fn a_height_out_of_reach_is_told() {
    for (strike, short) in [
        (json!({"with": "both", "on": "self", "height": 2.5}), true),
        (json!({"with": "both", "on": "self", "part": "overhead", "height": 2.5}), true),
        (json!({"with": "both", "on": "self", "height": 1.3}), false),
        (json!({"with": "both", "on": "self", "part": "overhead"}), false),
        (json!({"with": "tip", "on": "ground", "height": 2.5}), true),
        (json!({"with": "tip", "on": "ground", "height": 0.3}), false),
        (json!({"with": "tip", "on": "partner", "height": 2.5}), true),
        (json!({"with": "tip", "on": "partner"}), false),
    ] {
        let mut strike = strike;
        strike["at"] = json!(4);
        strike["by"] = json!(1);
        let dance = stick_dance("Height", (4, 1.2), &json!([strike]));
        let motion = motion_of(&dance, None).unwrap();
        let faults = find_faults(&dance, &motion);
        let out: Vec<&Fault> = faults.iter().filter(|fault| fault.kind == FaultKind::OutOfReach).collect();
        assert_eq!(!out.is_empty(), short, "{strike}: {out:#?}");
        for fault in out {
            assert_eq!(fault.spot, Some(meeting_at(&motion, &motion.blows()[0], 4.0)));
        }
    }
}

/// What is clapped on oneself meets, or is told: a knee is raised where its foot is free or both stand, and not in a jump.
#[test]
fn claps_on_oneself_meet_or_are_told() {
    for (phrase, part, at, meets) in [
        ("sb", "under-right-knee", 4, true),
        ("sb", "under-left-knee", 4, true),
        ("sb", "right-knee", 4, true),
        // In the everyday phrase, right foot first, the right foot carries the weight on 8, and 13 is in the jump.
        ("2 ds, 2 ss, ftj", "under-right-knee", 8, false),
        ("2 ds, 2 ss, ftj", "under-right-knee", 13, false),
        ("2 ds, 2 ss, ftj", "right-knee", 13, false),
        // It is free from 9 on, between two single steps.
        ("2 ds, 2 ss, ftj", "under-left-knee", 9, true),
        ("2 ds, 2 ss, ftj", "hands", 13, true),
        ("2 ds, 2 ss, ftj", "behind", 4, true),
        ("2 ds, 2 ss, ftj", "overhead", 13, true),
    ] {
        let with = if part == "right-knee" { "right" } else { "both" };
        let mut dance = stick_dance(
            "Self",
            (4, 0.9),
            &json!([{"at": at, "by": 1, "with": with, "on": "self", "part": part}]),
        );
        dance.holding = Holding::Nothing;
        dance.figures[0].phrase = format!("right, {phrase}");
        let danced = Danced::of(&dance);
        let blow = danced.motion.blows()[0];
        let found = find_faults(&dance, &danced.motion);
        let told: Vec<&Fault> = found.iter().filter(|fault| fault.kind == FaultKind::OutOfReach).collect();
        assert_eq!(told.is_empty(), meets, "{phrase} {part} at {at}: {told:#?}");
        let body = danced.limbs(Dancer(0), blow.count);
        if meets {
            assert!(danced.off(&blow) < 0.01, "{part}: {}", danced.off(&blow));
        }
        if meets && part.starts_with("under") {
            let side = usize::from(part.contains("right"));
            let (hand, foot) = (body.hands[0].z, body.feet[side].z);
            assert!(foot > 0.3 && hand < body.knees[side].z, "{part} at {at}: hands {hand}, foot {foot}");
            assert!(!body.planted[side]);
        }
    }
}

/// Who stoops on both sides of a jump straightens as they rise and stoops as they come down: no shoulder goes faster than 10 m/s (58 where all of it came in the last 6 cm).
#[test]
fn nobody_folds_up_as_a_jump_lands() {
    for (again, stay) in [(json!([14]), false), (json!([]), true)] {
        let strikes =
            json!([{"at": 12, "by": "all", "with": "tip", "on": "ground", "again": again, "stay": stay}]);
        let mut dance = stick_dance("Dib", (4, 1.2), &strikes);
        dance.figures[0].phrase = "2 ds, 2 ss, ftj".to_owned();
        let danced = Danced::of(&dance);
        let (mut fastest, step) = (0.0_f64, 0.005);
        let at = |look: u32| f64::from(look) * step;
        for look in (10.0 / step) as u32..(16.0 / step) as u32 {
            let [one, two] = [look, look + 1].map(|look| danced.limbs(Dancer(0), at(look)));
            let time = danced.clock.seconds(at(look + 1)) - danced.clock.seconds(at(look));
            fastest = fastest.max((two.shoulders[0] - one.shoulders[0]).length() / time);
            for side in [0, 1] {
                let leg = (two.feet[side] - two.hips[side]).length();
                assert!(leg <= 0.95, "a leg of {leg} at {}", at(look + 1));
            }
        }
        assert!((1.0..10.0).contains(&fastest), "{fastest} m/s, stay {stay}");
    }
}
