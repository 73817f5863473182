//! A side's own step that is a copy of a built-in one is danced, turned on and told as that.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{BarCounts, Dance, Dancer, Figure, Metre, Part, Set, Turn, TurnOn, Way, read, write};
use bellpad::edits::{TurnEdit, can_turn_on, change_turn, copy_step, set_step, take_step_away};
use bellpad::faults::find_faults;
use bellpad::figures::motion_of;
use bellpad::motion::{in_other_bars, known_steps};

const PHRASES: [&str; 8] = [
    "2 ds, 2 ss, ftj",
    "2 ds, 3 ss, hj",
    "st, sj, 4 ss",
    "sb, st, sb, sj, os",
    "hl, ga, 2 ss, hc, pc, ftj",
    "cs, 2 ss, sc, ftj",
    "sh, 2 ss, 2 pl, 4 ss, hj, ss",
    "4 rs, rb, ss, ds, ftj",
];

/// A dance with a copy of each built-in step, and a figure to a phrase in which the first of two turns once.
fn danced(phrase: &str, on: TurnOn, begin: f64) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
    for step in known_steps(&[]) {
        dance = copy_step(&dance, &step.short).unwrap();
    }
    let mut figure = Figure::drawn("one", "One", 12);
    phrase.clone_into(&mut figure.phrase);
    let mut part = Part::still(1);
    part.turns.push(Turn::to_face(begin, begin + 1.0, Way::Left, 0.0).on(on));
    figure.parts.push(part);
    dance.figures.push(figure);
    dance.order.push(bellpad::dance::Entry::of("one"));
    dance
}

/// The phrase with the copy of each step, `ds2` for `ds`.
fn copied(phrase: &str) -> String {
    let copy = |part: &str| {
        if part.ends_with(|letter: char| letter.is_alphabetic()) {
            format!("{part}2")
        } else {
            part.to_owned()
        }
    };
    phrase.split(',').map(copy).collect::<Vec<_>>().join(",")
}

/// Turns tied to steps are at the same counts, and what is told as wrong is the same.
#[test]
fn turns_on_copies_are_where_they_are_on_their_models() {
    let mut tied = 0;
    for phrase in PHRASES {
        for on in [TurnOn::Start, TurnOn::Hop, TurnOn::SingleSteps] {
            for begin in [0.0, 2.0, 3.0, 5.0, 7.0, 8.0] {
                let seen = |phrase: &str| {
                    let dance = danced(phrase, on.clone(), begin);
                    let motion = motion_of(&dance, None).unwrap();
                    let turn = motion.spans()[0].track(Dancer(0)).unwrap().turns()[0].clone();
                    let faults: Vec<String> =
                        find_faults(&dance, &motion).into_iter().map(|fault| fault.text).collect();
                    (turn.begin, turn.end, faults)
                };
                let model = seen(phrase);
                assert_eq!(seen(&copied(phrase)), model, "{phrase} {on:?} {begin}");
                tied += usize::from((model.0, model.1) != (begin, begin + 1.0));
            }
        }
    }
    assert!(tied > 30, "{tied}");
}

/// A bar of three strong beats has a copy of a single step more, or of standing, before the jump that is a copy.
#[test]
fn copies_are_put_into_longer_bars_as_their_models_are() {
    let known = known_steps(&danced("ds", TurnOn::Hop, 0.0).steps);
    for phrase in PHRASES {
        let (six, nine) = (BarCounts::of(12, Metre::SixEight), BarCounts::of(12, Metre::NineEight));
        let longer = in_other_bars(phrase, &known, &six, &nine);
        let copies = in_other_bars(&copied(phrase), &known, &six, &nine);
        assert_eq!(copies.replace('2', ""), longer.replace('2', ""), "{phrase}");
        assert_ne!(longer, phrase);
        let back = in_other_bars(&copies, &known, &nine, &six);
        assert_eq!(back.replace('2', ""), in_other_bars(&longer, &known, &nine, &six).replace('2', ""));
    }
    let made = in_other_bars(
        &copied("2 ds, 2 ss, ftj"),
        &known,
        &BarCounts::of(4, Metre::SixEight),
        &BarCounts::of(4, Metre::NineEight),
    );
    assert_eq!(made, "ds2, ss2, ds2, 5 ss2, ftj2");
}

fn on(short: &str) -> TurnOn {
    TurnOn::Step(short.to_owned())
}

/// A turn that names a step, built in or the side's own, is danced on all the counts of the first one from where it is written.
#[test]
fn a_turn_is_danced_on_the_step_that_it_names() {
    for (phrase, short, begin, times) in [
        ("2 ds, hl, ga, ftj", "hl", 0.0, (8.0, 10.0)),
        ("2 ds, hl, ga, ftj", "ga", 9.0, (10.0, 12.0)),
        ("2 ds, hl, ga, ftj", "ds", 1.0, (4.0, 8.0)),
        ("2 ds, hl2, ga, ftj", "hl2", 0.0, (8.0, 10.0)),
        // In the next round of the phrase; where there are none as it is written.
        ("2 ds, hl, ga, ftj", "hl", 9.0, (24.0, 26.0)),
        ("2 ds, hl, ga, ftj", "sc", 3.0, (3.0, 4.0)),
    ] {
        let dance = danced(phrase, on(short), begin);
        // As it is after it has been written and read.
        let text = write(&dance).unwrap();
        assert!(text.contains(&format!("\"on\": \"{short}\"")));
        let again = read(text.as_bytes()).unwrap();
        assert_eq!(again, dance);
        let motion = motion_of(&again, None).unwrap();
        let turn = &motion.spans()[0].track(Dancer(0)).unwrap().turns()[0];
        assert_eq!((turn.begin, turn.end), times, "{phrase} {short} {begin}");
    }
    for word in TurnOn::WORDS {
        assert_eq!(TurnOn::from(word.to_owned()).step(), None);
        assert_eq!(String::from(TurnOn::from(word.to_owned())), word);
    }
}

#[test]
fn a_turn_on_a_step_that_is_not_known_says_where_and_what_was_meant() {
    let error = motion_of(&danced("2 ds, 2 ss, ftj", on("hx"), 0.0), None).unwrap_err().to_string();
    let path = "figures[0].parts[0].turns[0].on";
    assert!(error.starts_with(path) && error.contains("\"hx\" is not a step (did you mean"), "{error}");
    assert!(error.contains("start, hop, single-steps") && error.contains("ga, hl"), "{error}");
}

/// One rule of letters for a file and for the window: what one of them refuses the other does too.
#[test]
fn letters_are_refused_alike_in_a_file_and_in_the_window() {
    let dance = danced("2 ds, 2 ss, ftj", on("hl2"), 0.0);
    let index = dance.steps.iter().position(|step| step.short == "ss2").unwrap();
    for (short, good) in [
        ("our", true),
        ("ds", true),
        ("o2", true),
        ("left", false),
        ("right", false),
        ("Left", false),
        ("start", false),
        ("hop", false),
        ("2x", false),
        ("", false),
        ("a b", false),
        ("hl2", false),
    ] {
        let mut made = dance.clone();
        made.steps[index].short = short.to_owned();
        let in_file = read(serde_json::to_string(&made).unwrap().as_bytes());
        let in_window = set_step(&dance, index, made.steps[index].clone());
        assert_eq!((in_file.is_ok(), in_window.is_ok()), (good, good), "{short:?}: {in_file:?}");
        if let Err(error) = in_file {
            let error = error.to_string();
            // Of two that are alike it is the later one that is told.
            let told = |index: usize| error.contains(&format!("steps[{index}].short"));
            assert!(told(index) || (short == "hl2" && (0..dance.steps.len()).any(told)), "{error}");
        }
    }
}

/// A turn goes with the letters of its step, and a step that a turn is tied to is not taken away.
#[test]
fn turns_follow_the_letters_of_their_step() {
    let dance = danced("2 ds, 2 ss, ftj", on("hl2"), 0.0);
    let index = dance.steps.iter().position(|step| step.short == "hl2").unwrap();
    assert!(take_step_away(&dance, index).unwrap_err().to_string().contains("One"));
    let mut step = dance.steps[index].clone();
    step.short = "hook".to_owned();
    let made = set_step(&dance, index, step.clone()).unwrap();
    assert_eq!(made.figures[0].parts[0].turns[0].on, Some(on("hook")));
    step.short = "hop".to_owned();
    assert!(set_step(&dance, index, step).unwrap_err().to_string().contains("cannot be the letters"));
}

#[test]
fn a_turn_is_put_on_the_step_that_is_under_way() {
    let mut dance = danced("2 ds, hl, ga, ftj", TurnOn::Start, 9.5);
    dance.figures[0].parts[0].turns[0].on = None;
    let motion = motion_of(&dance, None).unwrap();
    let span = &motion.spans()[0];
    for (short, times) in [("hl", (8.0, 10.0)), ("ga", (10.0, 12.0)), ("ds", (16.0, 20.0))] {
        let edit = TurnEdit::On(Some(on(short)));
        let made = change_turn(&dance, &motion, span, (Dancer(0), 0), edit).unwrap();
        let turn = &made.figures[0].parts[0].turns[0];
        assert_eq!(((turn.begin, turn.end), turn.on.clone()), (times, Some(on(short))));
    }
    assert!(can_turn_on(&motion, span, (Dancer(0), 0), &on("sc")).is_err());
}
