//! What is said of a step and its hands, once a figure, held beside the data of the step.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Dance, Dancer, Foot, FreePlace, read};
use bellpad::figures::motion_of;
use bellpad::motion::known_steps;
use bellpad::motion::{Motion, SpanIndex};
use bellpad::words::{StepRow, step_told, steps_told, with_cell};
use proptest::prelude::*;
use serde_json::json;

/// Two dancers who stand and then dance a phrase for some bars, with one step of their own, `x`.
fn dance_of(phrase: &str, bars: usize, own: &serde_json::Value) -> (Dance, Motion) {
    let text = json!({"bellpad": 2, "title": "Steps", "set": {"kind": "longways", "dancers": 2, "across": 2.4, "along": 1.8},
        "steps": [own], "figures": [{"id": "on", "name": "On", "bars": bars, "phrase": phrase}], "order": [{"figure": "on"}]});
    let dance = read(text.to_string().as_bytes()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

fn told(phrase: &str, bars: usize, own: &serde_json::Value) -> Vec<String> {
    let (_, motion) = dance_of(phrase, bars, own);
    steps_told(&motion, SpanIndex(0), &[Dancer(0)])
}

fn plain() -> serde_json::Value {
    json!({"short": "x", "name": "mill step", "feet": ["lead", "other"], "hands": [0.3, 0.3]})
}

/// What the built-in steps say, read over by hand beside their data. The double step is 1-2-3-hop, R L R R, then L R L L: the 4/3 and 6/3
/// step of [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907); its hands are common practice, no source.
#[test]
fn the_built_in_steps_are_told() {
    assert_eq!(
        told("left, ds", 1, &plain()),
        [
            "Double step: left, right, left, hop; hands down and back, then half up in front on 2, low in front on the hop."
        ]
    );
    assert_eq!(
        told("right, 2 ds", 2, &plain()),
        [
            "Double step: right, left, right, hop; hands down and back, then half up in front on 2, low in front on the hop; or the other way round."
        ]
    );
    // Running steps hold their hands where they are: nothing is said of them. Standing is no step.
    assert_eq!(told("left, 4 rs, st", 2, &plain()), ["Running step: left; or the other way round."]);
    let slow = told("left, sc", 1, &plain());
    assert!(
        slow[0].starts_with(
            "Slow caper: left, stay, spring, stay; free foot high in front on the spring; hands "
        ),
        "{slow:?}"
    );
    let galley = told("left, 2 ga", 1, &plain());
    assert!(galley[0].contains("free foot beside, circling outwards on 1 and the hop"), "{galley:?}");
    let closed = told("left, cs", 1, &plain());
    assert!(closed[0].contains("crossed before on 1 and 3"), "{closed:?}");
    assert!(closed[0].contains("left hand"), "the leading hand is higher: {closed:?}");
}

/// A step is told once a figure, however often it is danced in it, and at a count the one that is under way.
#[test]
fn each_step_is_told_once() {
    let (_, motion) = dance_of("left, 2 ds, 2 ss, ftj", 4, &plain());
    let lines = steps_told(&motion, SpanIndex(0), &[Dancer(0), Dancer(1)]);
    let names: Vec<&str> = lines.iter().map(|line| line.split(':').next().unwrap()).collect();
    assert_eq!(names, ["Double step", "Single step", "Feet-together jump"]);
    assert_eq!(
        step_told(&motion, Dancer(0), 9.5).as_ref(),
        Some(&steps_told(&motion, SpanIndex(0), &[Dancer(0)])[1])
    );
    assert_eq!(step_told(&dance_of("st", 1, &plain()).1, Dancer(0), 1.0), None);
}

/// In which of the bands of the words a hand is (`hand_words` in `src/words/eye_level.rs`): lower than 0.2, 0.4, 0.85.
fn band(height: f64) -> usize {
    [0.2, 0.4, 0.85].iter().filter(|edge| height >= **edge).count()
}

/// Landings of a step of a side's own.
fn feet() -> impl Strategy<Value = Vec<&'static str>> {
    let landing = prop_oneof![Just("lead"), Just("other"), Just("both"), Just("stay")];
    (prop_oneof![Just("lead"), Just("other")], prop::collection::vec(landing, 3))
        .prop_map(|(first, rest)| std::iter::once(first).chain(rest).collect())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Of a side's own steps: as many things are said of the feet as there are counts, each what lands; hands are told when and only when
    /// they move, and the heights that are said are those of the data.
    #[test]
    fn own_steps_are_told_from_their_data(
        feet in feet(),
        heights in prop::collection::vec(0.0..1.0_f64, 4),
        still in any::<bool>(),
        circles in prop_oneof![Just(0.0), Just(1.0), Just(-1.0)],
    ) {
        let heights: Vec<f64> = if still { vec![heights[0]; 4] } else { heights };
        let own = json!({"short": "x", "name": "mill step", "feet": feet, "hands": heights,
            "left_forward": [0, 0, 0, 0], "right_forward": [0, 0, 0, 0], "circles": [circles, 0, 0, 0]});
        let line = told("left, x", 1, &own).remove(0);
        let body = line.strip_prefix("Mill step: ").unwrap().strip_suffix('.').unwrap();
        let clauses: Vec<&str> = body.split("; ").collect();
        let said: Vec<&str> = clauses[0].split(", ").collect();
        prop_assert_eq!(said.len(), 4, "{}", line);
        for (count, (landing, said)) in feet.iter().zip(&said).enumerate() {
            let known: &[&str] = match *landing {
                "stay" => &["stay"],
                "both" => &["both feet", "stay"],
                _ => &["left", "right", "hop"],
            };
            prop_assert!(known.contains(said), "count {}: {} is told as {}", count + 1, landing, said);
        }
        // The foot that leads is the left one.
        prop_assert_eq!(said[0], if feet[0] == "lead" { "left" } else { "right" });
        let hands = clauses.iter().find(|clause| clause.contains("hands "));
        let bands: Vec<usize> = heights.iter().map(|height| band(*height)).collect();
        let moves = circles != 0.0 || bands.iter().any(|band| *band != bands[0]);
        prop_assert_eq!(hands.is_some(), moves, "{}", line);
        prop_assert!(line.contains("circling") == (circles != 0.0), "{}", line);
        if let Some(hands) = hands {
            let words = ["hands down", "hands low", "hands half up", "hands high"];
            prop_assert!(hands.starts_with(words[bands[0]]), "{}", line);
            let changes = bands.windows(2).filter(|pair| pair[0] != pair[1]).count();
            if circles == 0.0 {
                prop_assert_eq!(hands.matches(" on ").count(), changes, "{}", line);
            }
        }
    }
}

/// What is offered for a wrong word can be typed in that cell, and the nearest one is offered.
#[test]
fn what_is_offered_for_a_wrong_cell_can_be_typed() {
    let double = known_steps(&[]).into_iter().find(|step| step.short == "ds").unwrap();
    let of = |row: StepRow, text: &str| with_cell(&double, (Foot::Left, row), 2, text);
    for (row, text, said) in [
        (StepRow::Body, "high up", "\"high\" is none of these; expected centimetres from 0 to 60"),
        (StepRow::Circles, "high", "\"high\" is none of these; expected how many circles from 0 to 3"),
        (StepRow::LeftHand, "hihg", "(did you mean high?)"),
        (StepRow::RightFoot, "behnd 10 cm", "(did you mean behind?)"),
        (StepRow::RightFoot, "befor 10 cm", "(did you mean before?)"),
    ] {
        let error = of(row, text).unwrap_err();
        assert!(error.said.contains(said), "{text}: {error}");
    }
    for text in ["behind 10 cm", "crossed behind 10 cm"] {
        let made = of(StepRow::RightFoot, text).unwrap();
        assert_eq!((made.free[2].at, made.free[2].height), (FreePlace::CrossedBehind, 0.1), "{text}");
    }
}
