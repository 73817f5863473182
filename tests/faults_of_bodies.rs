//! Clash and tight: small dances with exactly the faults expected, and room made for them.
//!
//! Bodies of 0.50 by 0.28 m and 0.10 m between them are values from memory; where numbers are worked out from them the
//! working is given.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Allow, Dance, Dancer, FaultKind, Figure, Holding, Leg, Part, PlaceNumber, Set, Strike, StrikeEnd,
    Striker, Struck, Turn, Way,
};
use bellpad::edits::{NoMend, make_room};
use bellpad::faults::{Fault, find_faults};
use bellpad::figures::{motion_of, named_figure};
use bellpad::motion::Motion;
use serde_json::{Map, json};

/// Two files far apart, in which a figure of so many bars is drawn.
fn drawn(dancers: u32, across: f64, bars: u32, parts: Vec<Part>) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(dancers, across, 2.0));
    let mut figure = Figure::drawn("try", "Try", bars);
    figure.phrase.push_str("ds");
    figure.parts = parts;
    dance.figures.push(figure);
    dance
}

fn part(place: u32, legs: Vec<Leg>, turns: Vec<Turn>) -> Part {
    Part { legs, turns, ..Part::still(place) }
}

fn faults(dance: &Dance) -> (Motion, Vec<Fault>) {
    let motion = motion_of(dance, None).unwrap();
    let faults = find_faults(dance, &motion);
    (motion, faults)
}

/// Exactly these faults: kind, numbers, bar, count, value; counts to 0.02 and values to 2 mm.
#[track_caller]
fn expect(dance: &Dance, expected: &[(FaultKind, &[u32], u32, f64, f64)]) -> (Motion, Vec<Fault>) {
    let (motion, found) = faults(dance);
    let told: Vec<_> = found.iter().map(|f| (f.kind, &f.dancers, f.bar, f.count, f.value, &f.text)).collect();
    assert_eq!(found.len(), expected.len(), "{told:#?}");
    for (fault, (kind, dancers, bar, count, value)) in found.iter().zip(expected) {
        assert_eq!((fault.kind, fault.bar), (*kind, *bar), "{told:#?}");
        assert_eq!(fault.dancers.as_slice(), *dancers, "{told:#?}");
        assert!((fault.count - count).abs() < 0.02 && (fault.value - value).abs() < 0.002, "{told:#?}");
    }
    (motion, found)
}

/// Out to a place and home again, an even four counts each.
fn out_and_home(place: u32, x: f64, y: f64, home: (f64, f64)) -> Part {
    let even = vec![0.25, 0.5, 0.75, 1.0];
    let out = Leg { pace: even.clone(), ..Leg::straight(0.0, 4.0, x, y) };
    let back = Leg { pace: even, ..Leg::straight(4.0, 8.0, home.0, home.1) };
    part(place, vec![out, back], vec![])
}

#[test]
fn partners_who_walk_into_each_other_clash() {
    // Facing each other 0.20 m from middle to middle: the overlap is 2 x 0.14 - 0.20.
    let dance = drawn(
        2,
        2.4,
        2,
        vec![out_and_home(1, -0.1, 0.0, (-1.2, 0.0)), out_and_home(2, 0.1, 0.0, (1.2, 0.0))],
    );
    let (_, found) = expect(&dance, &[(FaultKind::Clash, &[1, 2], 2, 1.0, -0.08)]);
    assert_eq!(
        found[0].text,
        "In Try, bar 2 count 1: 1 and 2 meet at the middle of the set: only 0.20 m between their middles"
    );
}

/// 1 walks on to the spot of 2, to stand there for the rest of the figure: it is told at the moment that they get
/// there, not at the end.
#[test]
fn a_clash_that_lasts_is_told_where_it_begins_to_be_worst() {
    let even = vec![0.25, 0.5, 0.75, 1.0];
    let out = Leg { pace: even.clone(), ..Leg::straight(0.0, 4.0, 1.0, 0.0) };
    let dance = drawn(2, 2.4, 8, vec![part(1, vec![out], vec![])]);
    let found = faults(&dance).1;
    let clash = found.iter().find(|fault| fault.kind == FaultKind::Clash).unwrap();
    // Nearest from the end of bar 1 on; told to a hundredth of a count.
    assert!((clash.counts() - 4.0).abs() < 0.02, "bar {} count {}", clash.bar, clash.count);
    assert!(clash.lasts.1 > 31.9);
}

#[test]
fn shoulders_clash_where_fronts_would_not() {
    // Both turned to face up, side by side 0.4 m apart: shoulders overlap by 0.5 - 0.4; fronts would have 0.12 m.
    let turned = |part: Part, way, face: f64| Part {
        turns: vec![Turn::to_face(0.0, 1.0, way, 0.0), Turn::to_face(6.0, 7.5, way.other(), face)],
        ..part
    };
    let facing_up = drawn(
        2,
        2.4,
        2,
        vec![
            turned(out_and_home(1, -0.2, 0.0, (-1.2, 0.0)), Way::Left, 90.0),
            turned(out_and_home(2, 0.2, 0.0, (1.2, 0.0)), Way::Right, 270.0),
        ],
    );
    expect(&facing_up, &[(FaultKind::Clash, &[1, 2], 2, 1.0, -0.1)]);
    let facing = drawn(
        2,
        2.4,
        2,
        vec![out_and_home(1, -0.2, 0.0, (-1.2, 0.0)), out_and_home(2, 0.2, 0.0, (1.2, 0.0))],
    );
    expect(&facing, &[]);
}

#[test]
fn a_meeting_between_counts_is_found() {
    // 1 runs along the line of the others' spots and is at 3's spot half-way between two counts, for an instant.
    let dash = vec![0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0, 1.0];
    let leg = Leg { pace: dash, ..Leg::straight(0.0, 4.0, -1.2, -1.0 - 3.0) };
    let home = Leg::smooth(8.0, 15.0, &[(-3.0, -2.0)], -1.2, 1.0);
    let dance = drawn(4, 2.4, 4, vec![part(1, vec![leg, home], vec![])]);
    let (motion, found) = faults(&dance);
    let clash: Vec<&Fault> = found.iter().filter(|fault| fault.kind == FaultKind::Clash).collect();
    assert_eq!(clash.len(), 1, "{found:#?}");
    assert_eq!(clash[0].dancers, [1, 3]);
    // At the nearest moment 1 is just where 3 stands, both facing the same way: the least overlap is a depth.
    assert!((clash[0].value + 0.28).abs() < 0.002, "{:?}", clash[0]);
    let at = motion.pose(Dancer(0), clash[0].counts());
    assert!((at.y + 1.0).abs() < 0.01, "{at:?}");
    assert!((clash[0].counts() - 1.6).abs() < 0.4);
    let looked_at_counts = (0..16).all(|count| {
        let (one, three) =
            (motion.pose(Dancer(0), f64::from(count)), motion.pose(Dancer(2), f64::from(count)));
        (one.x - three.x).hypot(one.y - three.y) > 0.6
    });
    assert!(looked_at_counts, "looking at whole counts would have missed it");
}

#[test]
fn a_set_too_small_to_stand_in_is_one_fault_a_pair() {
    let mut dance = drawn(4, 0.45, 2, vec![]);
    dance.set.along = 0.9;
    dance.order = vec![bellpad::dance::Entry::of("try"); 3];
    // Partners facing 0.45 m apart: 0.45 - 0.28 between them, which is enough; turned to face up they would clash.
    expect(&dance, &[]);
    dance.set.across = 0.3;
    expect(&dance, &[(FaultKind::Tight, &[1, 2], 1, 1.0, 0.02), (FaultKind::Tight, &[3, 4], 1, 1.0, 0.02)]);
    dance.set.across = 0.2;
    let (_, found) = expect(
        &dance,
        &[(FaultKind::Clash, &[1, 2], 1, 1.0, -0.08), (FaultKind::Clash, &[3, 4], 1, 1.0, -0.08)],
    );
    assert_eq!(found[0].lasts, (0.0, 24.0), "all through the three times");
}

#[test]
fn tight_is_told_below_its_limit_and_not_above() {
    let meeting = |apart: f64| {
        drawn(
            2,
            2.4,
            2,
            vec![
                out_and_home(1, -apart / 2.0, 0.0, (-1.2, 0.0)),
                out_and_home(2, apart / 2.0, 0.0, (1.2, 0.0)),
            ],
        )
    };
    expect(&meeting(0.28 + 0.05), &[(FaultKind::Tight, &[1, 2], 2, 1.0, 0.05)]);
    expect(&meeting(0.28 + 0.095), &[(FaultKind::Tight, &[1, 2], 2, 1.0, 0.095)]);
    expect(&meeting(0.28 + 0.105), &[]);
    // A side that wants more room, or has less of it, says so.
    let mut wide = meeting(0.28 + 0.2);
    wide.limits.apart = Some(0.3);
    expect(&wide, &[(FaultKind::Tight, &[1, 2], 2, 1.0, 0.2)]);
    let mut small = meeting(0.28 + 0.05);
    small.limits.depth = Some(0.2);
    expect(&small, &[]);
}

#[test]
fn two_meetings_are_two_faults() {
    let legs = |side: f64| {
        let even = vec![0.5, 1.0];
        let leg = |begin: f64, x: f64| Leg {
            pace: even.clone(),
            ..Leg::straight(begin, begin + 2.0, side * x, 0.0)
        };
        vec![leg(0.0, 0.16), leg(2.0, 1.2), leg(4.0, 0.18), leg(6.0, 1.2)]
    };
    let dance = drawn(2, 2.4, 2, vec![part(1, legs(-1.0), vec![]), part(2, legs(1.0), vec![])]);
    expect(&dance, &[(FaultKind::Tight, &[1, 2], 1, 3.0, 0.04), (FaultKind::Tight, &[1, 2], 2, 3.0, 0.08)]);
}

#[test]
fn what_the_side_means_is_told_as_meant() {
    let mut dance = drawn(
        2,
        2.4,
        2,
        vec![out_and_home(1, -0.16, 0.0, (-1.2, 0.0)), out_and_home(2, 0.16, 0.0, (1.2, 0.0))],
    );
    let allow = |kind, places: &[u32], up_to| Allow {
        kind,
        places: places.iter().copied().map(PlaceNumber).collect(),
        up_to,
        reason: "we touch noses".to_owned(),
        extra: Map::new(),
    };
    for (allow, meant) in [
        (allow(FaultKind::Tight, &[], None), true),
        (allow(FaultKind::Tight, &[1, 2], Some(0.03)), true),
        (allow(FaultKind::Tight, &[1, 2], Some(0.05)), false),
        (allow(FaultKind::Tight, &[1], None), false),
        (allow(FaultKind::Clash, &[], None), false),
    ] {
        dance.figures[0].allow = vec![allow];
        let (_, found) = expect(&dance, &[(FaultKind::Tight, &[1, 2], 2, 1.0, 0.04)]);
        assert_eq!(found[0].allowed.as_deref(), meant.then_some("we touch noses"));
    }
}

fn even_hey(dancers: u32) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
    let with = Map::from_iter([("timing".to_owned(), json!("even"))]);
    dance.figures.push(named_figure("hey", with, &dance.set).unwrap());
    dance
}

/// Worked out for this program: with even timing tops and bottoms meet at the middle at once.
#[test]
fn an_even_hey_meets_at_the_middle_and_room_can_be_made() {
    let mut dance = even_hey(6);
    let (_, found) = faults(&dance);
    assert!(found.iter().all(|fault| fault.kind == FaultKind::Clash), "{found:#?}");
    assert!(
        found[0].text.contains("1 and 5 (top and bottom) meet at the middle of the odds' file"),
        "{found:#?}"
    );
    assert!(
        found[1].text.contains("2 and 6 (top and bottom) meet at the middle of the evens' file"),
        "{found:#?}"
    );
    let mut times = 0;
    loop {
        let (motion, found) = faults(&dance);
        let Some(fault) = found.first() else { break };
        let mend = make_room(&dance, &motion, fault).unwrap_or_else(|why| panic!("{why}: {}", fault.text));
        println!("{} -> {} ({:.2} m)", fault.text, mend.text, mend.moved);
        let left = faults(&mend.dance).1;
        assert!(left.len() < found.len(), "{left:#?}");
        // Both files are mended at once.
        assert_eq!(found.len() - left.len(), 2, "{left:#?}");
        dance = mend.dance;
        times += 1;
    }
    assert_eq!(times, 2, "once in each half");
}

#[test]
fn room_keeps_ends_turns_and_steps() {
    let dance = even_hey(6);
    let (motion, found) = faults(&dance);
    let mend = make_room(&dance, &motion, &found[0]).unwrap();
    for dancer in 0..6 {
        for count in [0.0, 12.0, 16.0, 28.0, 32.0] {
            let (was, is) = (motion.pose(Dancer(dancer), count), mend.motion.pose(Dancer(dancer), count));
            assert!((was.x - is.x).hypot(was.y - is.y) < 1e-3, "{dancer} at {count}");
            assert!(
                (was.facing - is.facing).abs() < 0.5,
                "{dancer} at {count}: {} {}",
                was.facing,
                is.facing
            );
        }
        for count in 0..32 {
            assert_eq!(
                motion.pose(Dancer(dancer), f64::from(count)).weight,
                mend.motion.pose(Dancer(dancer), f64::from(count)).weight
            );
        }
    }
    assert!(mend.moved > 0.0 && !mend.dancers.is_empty());
}

#[test]
fn partners_head_on_bow_out() {
    let cross = |place: u32, x: f64| {
        part(
            place,
            vec![
                Leg::straight(0.0, 4.0, x, 0.0),
                Leg::straight(8.0, 12.0, -x, 1.5),
                Leg::straight(12.0, 15.0, -x, 0.0),
            ],
            vec![],
        )
    };
    let dance = drawn(2, 3.0, 4, vec![cross(1, 1.5), cross(2, -1.5)]);
    let (motion, found) = faults(&dance);
    let mut dance = dance;
    for fault in found.iter().filter(|fault| fault.kind == FaultKind::Clash).take(1) {
        let mend = make_room(&dance, &motion, fault).unwrap();
        println!("{} -> {} ({:.2} m)", fault.text, mend.text, mend.moved);
        assert!(mend.moved < 0.5, "each a little: {}", mend.moved);
        dance = mend.dance;
    }
    assert!(faults(&dance).1.len() < found.len());
}

/// A mend takes nobody out of reach of a tap: where 3 stands to one side of those who cross, and 1 taps 3 as they meet, 1 goes out to no other.
#[test]
fn room_is_made_within_reach_of_a_tap() {
    let spot = |x: f64, y: f64, facing: f64| json!({"x": x, "y": y, "facing": facing});
    let mended = |side: f64, taps: bool| {
        // 1, who faces to the right, strikes with the right hand: it is as far to either side of 0.2 m below.
        let facing = if side > 0.0 { 180.0 } else { 0.0 };
        let legs = |x: f64| vec![Leg::straight(0.0, 4.0, x, 0.0)];
        let mut dance = drawn(3, 3.0, 1, vec![part(1, legs(1.5), vec![]), part(2, legs(-1.5), vec![])]);
        dance.set = serde_json::from_value(json!({"kind": "spots", "dancers": 3,
            "spots": [spot(-1.5, 0.0, 90.0), spot(1.5, 0.0, 270.0), spot(0.0, side * 1.82 - 0.2, facing)]}))
        .unwrap();
        dance.holding = Holding::Sticks;
        if taps {
            let on = Struck::Place(PlaceNumber(3));
            dance.figures[0].strikes =
                vec![Strike::new(2.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Tip, on)];
        }
        let (motion, found) = faults(&dance);
        assert!(found.iter().all(|fault| fault.kind != FaultKind::OutOfReach), "{found:#?}");
        let clash = found.iter().find(|fault| fault.kind == FaultKind::Clash).unwrap();
        let mend = make_room(&dance, &motion, clash).unwrap();
        let left = faults(&mend.dance).1;
        assert!(left.iter().all(|fault| fault.kind != FaultKind::OutOfReach), "{}: {left:#?}", mend.text);
        (mend.text, mend.motion.pose(Dancer(0), 2.0).y * side)
    };
    let other_way = [-1.0, 1.0].into_iter().filter(|side| mended(*side, false).1 < -0.1);
    let other_way: Vec<f64> = other_way.collect();
    assert_eq!(other_way.len(), 1, "without a tap it is the same way on either side");
    for side in [-1.0, 1.0] {
        let (text, near) = mended(side, true);
        assert!(near > -0.05, "1 is taken away from 3: {text}");
        assert_ne!(text == mended(side, false).0, other_way.contains(&side), "{text}");
    }
}

/// What is wrong with taps wants no room, and what it wants instead is said.
#[test]
fn no_room_for_a_tap_says_what_to_do() {
    let of = |text: serde_json::Value, across: f64| {
        let mut dance = drawn(4, across, 4, vec![]);
        dance.holding = Holding::Sticks;
        dance.figures[0].strikes = serde_json::from_value(text).unwrap();
        let (motion, found) = faults(&dance);
        let fault = found.first().unwrap();
        (fault.kind, make_room(&dance, &motion, fault).unwrap_err())
    };
    let strike = |by: u32, on: u32| json!({"at": 2, "by": by, "with": "tip", "on": on});
    for (strikes, across, kind, why, words) in [
        (json!([strike(1, 2)]), 2.4, FaultKind::OutOfReach, NoMend::Apart, "nearer"),
        (json!([strike(1, 2), strike(2, 4)]), 1.2, FaultKind::OneSided, NoMend::Elsewhere, "row of taps"),
        (json!([strike(1, 2), strike(1, 3)]), 1.2, FaultKind::TwoPlaces, NoMend::Elsewhere, "row of taps"),
    ] {
        let (found, said) = of(strikes, across);
        assert_eq!((found, said), (kind, why));
        assert!(said.to_string().contains(words), "{said}");
    }
}

#[test]
fn no_room_is_said_honestly() {
    let dance = drawn(2, 0.2, 2, vec![]);
    let (motion, found) = faults(&dance);
    assert_eq!(make_room(&dance, &motion, &found[0]).unwrap_err(), NoMend::Standing);
    // A narrow way that 1 cannot leave in time: 2 stands where it ends.
    let leg = Leg::straight(0.0, 4.0, 1.2, 0.0);
    let dance = drawn(2, 2.4, 2, vec![part(1, vec![leg], vec![])]);
    let (motion, found) = faults(&dance);
    let clash = found.iter().find(|fault| fault.kind == FaultKind::Clash).unwrap();
    assert!(make_room(&dance, &motion, clash).is_err());
    let other = found.iter().find(|fault| fault.kind == FaultKind::NotHome).unwrap();
    assert_eq!(make_room(&dance, &motion, other).unwrap_err(), NoMend::NotBodies);
}
