//! Two sticks each, knees that have no height, and what is told of strikes on nobody and on oneself.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Dance, Dancer, StrikeEnd, read, write};
use bellpad::edits::{StrikeAt, StrikeEdit, change_strike};
use bellpad::faults::{FaultKind, find_faults};
use bellpad::figures::motion_of;
use bellpad::motion::limbs::{Gait, between_two};
use bellpad::motion::{BlowOn, Clock};
use serde_json::{Value, json};

fn six(strikes: &Value) -> Value {
    json!({
        "bellpad": 2, "title": "Two Sticks", "holding": "sticks",
        "set": {"kind": "longways", "dancers": 6, "across": 1.2, "along": 1.2},
        "figures": [{"id": "taps", "name": "Taps", "bars": 4, "phrase": "sb", "strikes": strikes}],
    })
}

fn read_value(value: &Value) -> Result<Dance, String> {
    read(serde_json::to_vec(value).unwrap().as_slice()).map_err(|error| error.to_string())
}

fn dance_of(strikes: &Value) -> Dance {
    read_value(&six(strikes)).unwrap()
}

fn told(strikes: &Value, kind: FaultKind) -> Vec<String> {
    let dance = dance_of(strikes);
    let faults = find_faults(&dance, &motion_of(&dance, None).unwrap());
    faults.iter().filter(|fault| fault.kind == kind).map(|fault| fault.text.clone()).collect()
}

/// Each hand holds a stick, and each of them can be the one that answers: all four meetings of two sticks with two, said from either side, to 1 cm.
#[test]
fn a_stick_in_either_hand_answers() {
    for own in ["left", "right"] {
        for their in ["left", "right"] {
            let strike = |by: u32, hand: &str, on: u32, their: &str| json!({"at": 2, "by": by, "with": "tip", "hand": hand, "on": on, "their_hand": their});
            let dance = dance_of(&json!([strike(1, own, 2, their)]));
            assert_eq!(read(write(&dance).unwrap().as_bytes()).unwrap(), dance);
            let motion = motion_of(&dance, None).unwrap();
            let clock = Clock::of_dance(&dance, &motion);
            let blow = motion.blows()[0];
            let BlowOn::Other(other) = blow.on else { panic!("{blow:?}") };
            let hand = |name: &str| usize::from(name == "right");
            assert_eq!((blow.by.hand, other.hand, other.dancer), (hand(own), hand(their), Dancer(1)));
            assert_eq!((blow.by.end, other.end), (StrikeEnd::Tip, StrikeEnd::Tip));
            let place = between_two(&motion, &blow, 2.0).unwrap();
            for of in [blow.by, other] {
                let body = Gait::of(&motion, &clock, of.dancer).limbs(&motion, &clock, 2.0);
                assert!(body.sticks[of.hand].is_some(), "{own} {their}");
                let off = (body.end(of.hand, StrikeEnd::Tip) - place).length();
                assert!(off < 0.01, "{own} on {their}: {off} m");
            }
            // Said by both it is one.
            let both = dance_of(&json!([strike(1, own, 2, their), strike(2, their, 1, own)]));
            assert_eq!(motion_of(&both, None).unwrap().blows().len(), 1, "{own} on {their}");
        }
    }
    // Left on left and right on right at one moment: two meetings, nobody in two places.
    let strikes = json!([
        {"at": 2, "by": "odds", "with": "tip", "hand": "left", "on": "partner", "their_hand": "left"},
        {"at": 2, "by": "odds", "with": "tip", "hand": "right", "on": "partner", "their_hand": "right"},
    ]);
    assert_eq!(motion_of(&dance_of(&strikes), None).unwrap().blows().len(), 6);
    assert!(
        told(&strikes, FaultKind::TwoPlaces).is_empty() && told(&strikes, FaultKind::OneSided).is_empty()
    );
}

#[test]
fn what_says_nothing_is_refused_with_its_key() {
    for (strike, key, said) in [
        (
            json!({"at": 1, "by": 1, "with": "right", "on": 2, "their_hand": "left"}),
            "their_hand",
            "no other's stick",
        ),
        (
            json!({"at": 1, "by": 1, "with": "tip", "on": "ground", "their_hand": "left"}),
            "their_hand",
            "no other's stick",
        ),
        (
            json!({"at": 1, "by": 1, "with": "tip", "on": 2, "their": "both", "their_hand": "left"}),
            "their_hand",
            "no other's stick",
        ),
        (json!({"at": 1, "by": 1, "with": "tip", "on": 2, "their_hand": "middle"}), "their_hand", ""),
        (
            json!({"at": 1, "by": 1, "with": "right", "on": "self", "part": "right-knee", "height": 0.6}),
            "height",
            "a knee is struck where it is",
        ),
        (
            json!({"at": 1, "by": 1, "with": "both", "on": "self", "part": "under-left-knee", "height": 0.6}),
            "height",
            "a knee is struck where it is",
        ),
    ] {
        let error = read_value(&six(&json!([strike]))).unwrap_err();
        assert!(error.contains(&format!("strikes[0].{key}")) && error.contains(said), "{error}");
    }
    let behind = json!([{"at": 1, "by": 1, "with": "both", "on": "self", "part": "behind", "height": 1.0}]);
    assert_eq!(dance_of(&behind).figures[0].strikes[0].height, Some(1.0));
}

/// What goes with another choice alone goes with it: the other's stick, and a height with a knee.
#[test]
fn what_no_longer_says_anything_goes() {
    let at = StrikeAt { strike: 0, which: 0 };
    let strike = json!([{"at": 1, "by": 1, "with": "tip", "on": 2, "their_hand": "left", "height": 1.3}]);
    let dance = dance_of(&strike);
    let changed =
        |edit: StrikeEdit| change_strike(&dance, 0, at, &edit).unwrap().figures[0].strikes[0].clone();
    assert!(changed(StrikeEdit::Their(Some(StrikeEnd::Butt))).their_hand.is_some());
    assert!(changed(StrikeEdit::Their(Some(StrikeEnd::Right))).their_hand.is_none());
    assert!(changed(StrikeEdit::With(StrikeEnd::Right)).their_hand.is_none());
    let on_ground = changed(StrikeEdit::On(bellpad::dance::Struck::Ground));
    assert_eq!((on_ground.their_hand, on_ground.height), (None, Some(1.3)));
    let on_knee = changed(StrikeEdit::Part(bellpad::dance::StrikePart::RightKnee));
    assert_eq!((on_knee.their_hand, on_knee.height), (None, None));
    let knee = change_strike(&dance, 0, at, &StrikeEdit::Part(bellpad::dance::StrikePart::LeftKnee)).unwrap();
    let still = change_strike(&knee, 0, at, &StrikeEdit::Height(Some(1.0))).unwrap();
    assert_eq!(still, knee, "a knee has no height");
}

/// Whoever is at an end of the file has nobody there; who strikes them strikes somebody who is there all the same.
#[test]
fn nobody_is_told_as_nobody() {
    let said = told(&json!([{"at": 2, "by": "odds", "with": "tip", "on": "down"}]), FaultKind::OneSided);
    let nobody: Vec<&String> = said.iter().filter(|text| text.contains("nobody down in the file")).collect();
    assert_eq!(nobody.len(), 1, "{said:?}");
    assert!(said.iter().all(|text| !text.contains("something else")), "{said:?}");
    assert!(said.iter().any(|text| text.contains("1 strikes 3, who strikes 5")), "{said:?}");
    assert!(said.iter().all(|text| !text.contains("3 strikes 5, who")), "5 strikes nobody: {said:?}");
    let said = told(
        &json!([{"at": 2, "by": 1, "with": "right", "on": 2}, {"at": 2, "by": 2, "with": "right", "on": "self", "part": "right-knee"}]),
        FaultKind::OneSided,
    );
    assert_eq!(
        said,
        [
            "In Taps, bar 1 count 3: 1 strikes 2, who strikes themselves at that moment: have one of them at another time"
        ]
    );
}

#[test]
fn two_places_are_each_said() {
    let under = |part: &str| json!({"at": 2, "by": 1, "with": "both", "on": "self", "part": part});
    let said = told(&json!([under("under-right-knee"), under("under-left-knee")]), FaultKind::TwoPlaces);
    assert!(!said.is_empty());
    for text in said {
        assert!(text.contains("under right knee and under left knee"), "{text}");
    }
}
