//! How tall the dancers are: a key of the dance, and what of a body follows it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Dance, Dancer, read, write};
use bellpad::faults::{FaultKind, find_faults};
use bellpad::figures::motion_of;
use bellpad::motion::Clock;
use bellpad::motion::limbs::{Gait, Limbs};
use serde_json::{Value, json};

/// Two partners 1.2 m apart, with sticks, a jump at their end, and these strikes; so tall, where it is said.
fn two(tall: Option<f64>, strikes: &Value) -> Value {
    let mut dance = json!({
        "bellpad": 2, "title": "Tall", "holding": "sticks",
        "set": {"kind": "longways", "dancers": 2, "across": 1.2, "along": 1.2},
        "figures": [{"id": "one", "name": "One", "bars": 4, "phrase": "2 ds, 2 ss, ftj", "strikes": strikes}],
    });
    if let Some(tall) = tall {
        dance["height"] = json!(tall);
    }
    dance
}

fn dance_of(value: &Value) -> Dance {
    read(serde_json::to_vec(value).unwrap().as_slice()).unwrap()
}

fn body(dance: &Dance, count: f64) -> Limbs {
    let motion = motion_of(dance, None).unwrap();
    let clock = Clock::of_dance(dance, &motion);
    Gait::of(&motion, &clock, Dancer(0)).limbs(&motion, &clock, count)
}

/// What is over the hips is longer or shorter, legs and arms are as ever, and hands that are high are 0.10 m above the crown [MB1] whoever
/// has it: to 3 cm.
#[test]
fn crown_and_high_hands_go_with_the_height() {
    let usual = body(&dance_of(&two(None, &json!([]))), 0.0);
    for tall in [1.4, 1.55, 1.72, 1.9, 2.1] {
        let dance = dance_of(&two(Some(tall), &json!([])));
        let stands = body(&dance, 0.0);
        // Who stands bends the knees by less than a centimetre, and leans by a few degrees.
        let crown = stands.crown.z;
        assert!((crown - tall).abs() < 0.03, "{tall}: the crown is at {crown}");
        assert!((crown - usual.crown.z - (tall - 1.72)).abs() < 0.005, "{tall}: {crown}");
        for side in [0, 1] {
            assert!((stands.hips[side] - usual.hips[side]).length() < 1e-9, "{tall}: the legs are as ever");
            assert!((stands.feet[side] - usual.feet[side]).length() < 1e-9);
            let jumps = body(&dance, 13.0);
            let over = jumps.hands[side].z - jumps.crown.z;
            assert!((over - 0.10).abs() < 0.03, "{tall}: {over} m over the crown");
            let arm = (jumps.hands[side] - jumps.shoulders[side]).length();
            assert!(arm < 0.65 && arm > 0.5, "{tall}: an arm of {arm} m");
        }
        let shoulders = stands.shoulders[0].z;
        assert!(shoulders < crown - 0.15 && shoulders > stands.hips[0].z + 0.25, "{tall}: {shoulders}");
    }
}

/// A third stands where two clap: their hands are near the head of the third where that is as high, and not where it is over them or under them.
#[test]
fn heads_that_hands_come_near_are_as_high() {
    let near = |tall: f64, height: f64| {
        let dance = dance_of(&json!({
            "bellpad": 2, "title": "Three", "height": tall,
            "set": {"kind": "spots", "dancers": 3, "across": 1.2, "along": 1.2, "spots": [
                {"x": -0.45, "y": 0.0, "facing": 90.0}, {"x": 0.45, "y": 0.0, "facing": 270.0},
                {"x": 0.0, "y": 0.1, "facing": 0.0}]},
            "figures": [{"id": "one", "name": "One", "bars": 4, "phrase": "sb",
                "strikes": [{"at": 2, "by": 1, "with": "right", "on": 2, "height": height}]}],
        }));
        let found = find_faults(&dance, &motion_of(&dance, None).unwrap());
        found
            .iter()
            .any(|fault| fault.kind == FaultKind::NearHead && fault.dancers.contains(&Dancer(2).number()))
    };
    // The middle of a head is 0.12 m under its crown (from memory).
    for (tall, height, is_near) in
        [(1.4, 1.28, true), (1.72, 1.28, false), (1.72, 1.6, true), (2.1, 1.28, false), (2.1, 1.98, true)]
    {
        assert_eq!(near(tall, height), is_near, "{tall} m tall, hands at {height} m");
    }
}

#[test]
fn a_height_is_within_what_people_are_and_kept() {
    for (tall, said) in
        [(json!(1.2), "1.2 is out of range"), (json!(2.3), "2.3 is out of range"), (json!("tall"), "")]
    {
        let mut value = two(None, &json!([]));
        value["height"] = tall;
        let error = read(serde_json::to_vec(&value).unwrap().as_slice()).unwrap_err().to_string();
        assert!(error.contains("height") && error.contains(said), "{error}");
    }
    assert!(
        read(serde_json::to_vec(&two(Some(1.2), &json!([]))).unwrap().as_slice())
            .unwrap_err()
            .to_string()
            .contains("expected 1.4 to 2.1 metres")
    );
    let usual = dance_of(&two(None, &json!([])));
    assert!(!write(&usual).unwrap().contains("\"height\""), "what goes without saying is not written");
    let mut value = two(Some(1.85), &json!([]));
    value["shoes"] = json!("clogs");
    let dance = dance_of(&value);
    let again = read(write(&dance).unwrap().as_bytes()).unwrap();
    assert_eq!((again.height, again.extra["shoes"].as_str()), (1.85, Some("clogs")));
    assert_eq!(again, dance);
}
