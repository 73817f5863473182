//! The step room: a step made from a copy, its feet and hands dragged, its counts typed, danced and undone.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, FreePlace, Landing, OwnStep, read, write as written};
use bellpad::desk::{Ask, Question, StepAsk};
use bellpad::figures::motion_of;
use driven::{Driven, desk, sample, show_dance};
use egui::{Event, Key, Modifiers, PointerButton, Pos2, accesskit::Role, vec2};
use egui_kittest::kittest::{NodeT, Queryable};

const SIZE: [f32; 2] = [1366.0, 768.0];

/// The bodies of the room never come to rest: so many frames are enough for what was asked to be there.
fn settle(harness: &mut Driven) {
    harness.run_steps(6);
}

fn room(dance: Dance, step: Option<&str>) -> Driven {
    let mut harness = show_dance(dance, SIZE);
    harness.state_mut().desk.apply(Ask::Step(StepAsk::Show(step.map(str::to_owned))));
    settle(&mut harness);
    harness
}

fn click(harness: &mut Driven, label: &str) {
    harness.get_by_label(label).click();
    settle(harness);
}

fn steps(harness: &Driven) -> Vec<OwnStep> {
    desk(harness).dance().steps.clone()
}

fn drag(harness: &mut Driven, label: &str, by: [f32; 2]) {
    let from = harness.get_by_role_and_label(Role::Button, label).rect().center();
    let to = from + vec2(by[0], by[1]);
    let button = |pos: Pos2, pressed| Event::PointerButton {
        pos,
        button: PointerButton::Primary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    harness.event(Event::PointerMoved(from));
    settle(harness);
    harness.event(button(from, true));
    harness.run_steps(1);
    for part in 1..=6 {
        harness.event(Event::PointerMoved(from + (to - from) * (part as f32 / 6.0)));
        harness.run_steps(1);
    }
    harness.event(button(to, false));
    settle(harness);
}

/// Types over what stands in a field.
fn type_in(harness: &mut Driven, label: &str, text: &str) {
    harness.get_by_role_and_label(Role::TextInput, label).focus();
    settle(harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    settle(harness);
    harness.event(Event::Text(text.to_owned()));
    settle(harness);
}

fn key(harness: &mut Driven, key: Key) {
    harness.key_press(key);
    settle(harness);
}

/// A step of the side's own is made from a built-in one, its free foot dragged, used in a stepping, saved and read again the same.
#[test]
fn a_step_is_made_from_a_copy_and_its_free_foot_dragged() {
    let before = sample(0);
    let mut harness = room(before.clone(), Some("ds"));
    assert!(harness.query_by_label_contains("None yet").is_some());
    click(&mut harness, "Make our own of it");
    let made = steps(&harness);
    assert_eq!((made.len(), made[0].short.as_str(), made[0].name.as_str()), (1, "ds2", "our double step"));
    click(&mut harness, "count 1 of the step");
    // Clicked again it stays there: somebody wants to change it.
    click(&mut harness, "count 1 of the step");
    // On count 1 the left foot lands: the right one is free.
    drag(&mut harness, "drag the right foot", [0.0, -40.0]);
    let dragged = steps(&harness);
    let (old, new) = (made[0].free[0].height, dragged[0].free[0].height);
    assert!(new > old + 0.2, "{old} m was dragged to {new} m");
    assert_eq!(dragged[0].feet, made[0].feet);
    assert_eq!(desk(&harness).undo_name(), Some("change the right foot on count 1 of ds2"));
    // A foot that carries the weight gives it to the other one.
    drag(&mut harness, "drag the left foot", [40.0, -30.0]);
    assert_eq!(steps(&harness)[0].feet[0], Landing::Other);
    assert_eq!(steps(&harness)[0].free[0].at, FreePlace::Front);
    // Each drag is one step to undo.
    harness.state_mut().desk.apply(Ask::Undo);
    settle(&mut harness);
    assert_eq!(steps(&harness), dragged);
    // From the side both hands are dragged at once, from the front each by itself.
    drag(&mut harness, "drag the hands", [-20.0, -30.0]);
    let both = steps(&harness)[0].clone();
    assert!(both.hands[0] > made[0].hands[0] + 0.2 && both.left_forward[0] < -0.3, "{both:?}");
    assert_eq!(both.left_forward, both.right_forward);
    click(&mut harness, "seen from the front");
    drag(&mut harness, "drag the left hand", [0.0, -30.0]);
    let one = steps(&harness)[0].clone();
    assert!(one.left_hand[0] > both.hands[0] + 0.2 && one.right_hand == both.hands, "{one:?}");
    // Used, saved, read again, and danced: hands and all.
    let mut dance = desk(&harness).dance().clone();
    dance.figures[1].phrase = "2 ds2, 2 ss, ftj".to_owned();
    let again = read(written(&dance).unwrap().as_bytes()).unwrap();
    assert_eq!(again, dance);
    let motion = motion_of(&again, None).unwrap();
    let span = motion.spans().iter().find(|span| span.figure == 1).unwrap();
    let pose = motion.pose(Dancer(0), span.begin());
    assert_eq!(motion.known()[pose.step].short, "ds2");
    let as_built_in = motion_of(&before, None).unwrap().pose(Dancer(0), span.begin());
    assert!((pose.hands - as_built_in.hands).abs() > 0.1, "{pose:?} {as_built_in:?}");
    // All of it is taken back.
    while desk(&harness).undo_name().is_some() {
        harness.state_mut().desk.apply(Ask::Undo);
    }
    assert_eq!(*desk(&harness).dance(), before);
}

#[test]
fn what_a_count_says_is_typed_and_told_where_it_is_wrong() {
    let mut harness = room(sample(0), Some("ds"));
    click(&mut harness, "Make our own of it");
    type_in(&mut harness, "right foot, count 1", "crossed before 30 cm");
    let free = steps(&harness)[0].free[0].clone();
    assert_eq!((free.at, free.height), (FreePlace::CrossedBefore, 0.3));
    // What is wrong changes nothing, says why, and keeps the room open.
    type_in(&mut harness, "left hand, count 2", "hihg");
    assert!(harness.query_by_label_contains("did you mean high?").is_some());
    click(&mut harness, "Done");
    assert!(matches!(desk(&harness).question(), Some(Question::Steps(_))));
    harness.event(Event::Text("high".to_owned()));
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    settle(&mut harness);
    harness.event(Event::Text("high".to_owned()));
    key(&mut harness, Key::Enter);
    assert_eq!(steps(&harness)[0].left_hand[1], 1.0);
    // The letters go with it into the steppings, and cannot be what a stepping could not tell.
    type_in(&mut harness, "letters", "2x");
    assert!(harness.query_by_label_contains("the first of them a letter").is_some());
    assert_eq!(steps(&harness)[0].short, "ds2");
    key(&mut harness, Key::Escape);
    type_in(&mut harness, "letters", "our");
    key(&mut harness, Key::Enter);
    assert_eq!(steps(&harness)[0].short, "our");
    click(&mut harness, "Done");
    assert!(desk(&harness).question().is_none());
}

/// Letters are typed one by one: what they are on the way is another step's, whose steppings stay as they are.
#[test]
fn letters_on_the_way_touch_no_other_stepping() {
    let mut harness = room(sample(0), Some("ds"));
    click(&mut harness, "Make our own of it");
    let mut dance = desk(&harness).dance().clone();
    dance.figures[1].phrase = "ds, ds2, 2 ss, ftj".to_owned();
    let before = dance.clone();
    let mut harness = room(dance, Some("ds2"));
    harness.get_by_role_and_label(Role::TextInput, "letters").focus();
    settle(&mut harness);
    harness.key_press(Key::End);
    key(&mut harness, Key::Backspace);
    for letter in ["x", "y"] {
        harness.event(Event::Text(letter.to_owned()));
        settle(&mut harness);
        assert_eq!(*desk(&harness).dance(), before);
    }
    key(&mut harness, Key::Enter);
    assert_eq!(
        (steps(&harness)[0].short.as_str(), desk(&harness).dance().figures[1].phrase.as_str()),
        ("dsxy", "ds, dsxy, 2 ss, ftj")
    );
}

/// A hop that is dragged down to nothing can be dragged up again, and one count less is given back by undo.
#[test]
fn a_hop_comes_back_and_so_does_a_count() {
    let mut harness = room(sample(0), Some("ds"));
    click(&mut harness, "Make our own of it");
    let made = steps(&harness);
    click(&mut harness, "count 4 of the step");
    drag(&mut harness, "drag the body", [0.0, 60.0]);
    assert_eq!(steps(&harness)[0].rise[3], 0.0);
    drag(&mut harness, "drag the body", [0.0, -20.0]);
    assert!(steps(&harness)[0].rise[3] > 0.1);
    let dragged = steps(&harness);
    click(&mut harness, "One count less, at its end");
    assert_eq!(steps(&harness)[0].feet.len(), 3);
    for before in [&dragged[0], &made[0]] {
        while steps(&harness)[0] != *before {
            assert!(desk(&harness).undo_name().is_some());
            harness.state_mut().desk.apply(Ask::Undo);
            settle(&mut harness);
        }
    }
}

#[test]
fn a_step_that_is_danced_is_not_taken_away_and_undo_goes_back_all_the_way() {
    let before = sample(0);
    let mut harness = room(before.clone(), Some("ds"));
    click(&mut harness, "Make our own of it");
    let mut dance = desk(&harness).dance().clone();
    dance.figures[1].phrase = "2 ds2, 2 ss, ftj".to_owned();
    harness.state_mut().desk.apply(Ask::Undo);
    assert_eq!(*desk(&harness).dance(), before);
    let opened = dance.clone();
    let figure = dance.figures[1].name.clone();
    let mut harness = room(dance, Some("ds2"));
    click(&mut harness, "Take away");
    assert_eq!(steps(&harness).len(), 1);
    assert!(desk(&harness).notice().is_some_and(|said| said.contains(&format!("is danced in {figure}"))));
    click(&mut harness, "Make a copy");
    assert_eq!(steps(&harness)[1].short, "ds3");
    click(&mut harness, "Take away");
    assert_eq!(steps(&harness).len(), 1);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    settle(&mut harness);
    assert_eq!(steps(&harness).len(), 2);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    settle(&mut harness);
    assert_eq!(*desk(&harness).dance(), opened);
    assert!(desk(&harness).undo_name().is_none());
}

/// The list of steps is one thing to come to with Tab; arrows, Home and End go through it and show the step.
#[test]
fn the_list_of_steps_is_gone_through_with_arrows() {
    let mut harness = room(sample(0), Some("ds"));
    let is_row = |label: &str| {
        bellpad::motion::known_steps(&[]).iter().any(|step| label == format!("{}, {}", step.name, step.short))
    };
    let focused = |harness: &Driven| {
        let node = harness.query_all_by(|node| node.is_focused() && node.role() == Role::Button).next();
        node.and_then(|node| node.accesskit_node().label()).unwrap_or_default()
    };
    let mut rows = std::collections::BTreeSet::new();
    for _ in 0..60 {
        key(&mut harness, Key::Tab);
        let label = focused(&harness);
        if is_row(&label) {
            rows.insert(label);
        }
    }
    assert_eq!(rows.into_iter().collect::<Vec<_>>(), ["double step, ds"]);
    harness.get_by_label("double step, ds").focus();
    settle(&mut harness);
    for (pressed, label) in [
        (Key::ArrowDown, "single step, ss"),
        (Key::ArrowDown, "running step, rs"),
        (Key::ArrowUp, "single step, ss"),
        (Key::End, "stand and jump, sj"),
        (Key::ArrowDown, "stand and jump, sj"),
        (Key::Home, "double step, ds"),
    ] {
        key(&mut harness, pressed);
        assert_eq!(focused(&harness), label);
        let heading = label.split(',').next().unwrap();
        assert!(harness.query_by_role_and_label(Role::Label, heading).is_some(), "{label} is shown");
    }
}

/// Every step can be looked at, from each side, at each count, and says itself to who hears the window.
#[test]
fn every_step_is_seen_from_every_side() {
    let mut harness = room(sample(0), None);
    for name in ["double step, ds", "galley, ga", "feet-together jump, ftj", "stand, st"] {
        let row = harness.get_by_label(name);
        row.click_accesskit();
        settle(&mut harness);
        for side in ["seen from the right side", "seen from the front", "seen from behind"] {
            click(&mut harness, side);
            let step = name.split(',').next().unwrap();
            let picture = harness.query_all_by(|node| {
                node.role() == Role::Image && node.label().is_some_and(|said| said.starts_with(step))
            });
            assert_eq!(picture.count(), 1, "{name} {side}");
            // It says from where it is seen.
            let from = format!("{step} {}, count ", side.strip_prefix("seen ").unwrap());
            assert_eq!(harness.query_all_by_label_contains(&from).count(), 1, "{name} {side}");
        }
    }
}

/// The picture of the room says the count that is looked at and what the body does on it, in the words of the step itself.
#[test]
fn the_picture_of_a_step_is_told_count_by_count() {
    // A double step led by the right foot: R L R and a hop on it (common practice, no source).
    let mut harness = room(sample(0), Some("ds"));
    click(&mut harness, "right first");
    for (count, lands) in [(1, "right"), (2, "left"), (3, "right"), (4, "right")] {
        click(&mut harness, &format!("count {count} of the step"));
        let begins = format!("double step from the right side, count {count}: ");
        let node = harness.get_by_label_contains(&begins);
        let said = node.accesskit_node().label().unwrap_or_default();
        let said = said.strip_prefix(&begins).unwrap();
        let first = said.split([',', ';']).next().unwrap();
        assert!(first.contains(lands), "count {count}: {said}");
        assert_eq!(first.contains("hop"), count == 4, "count {count}: {said}");
    }
}

/// What is told of a caper's rise is of the flight that is drawn.
#[test]
fn how_high_a_caper_rises_is_told_of_the_flight_that_is_drawn() {
    for short in ["pc", "sc", "hc", "cs"] {
        let mut harness = room(sample(0), Some(short));
        let counts = harness.query_all_by_label_contains("of the step").count();
        for count in 1..=counts.min(8) {
            let name = format!("count {count} of the step");
            if harness.query_by_label(&name).is_none() {
                continue;
            }
            click(&mut harness, &name);
            let nowhere = harness.query_all_by_label_contains("it rises 0 cm").count() > 0;
            assert!(!nowhere, "{short}, count {count}");
        }
    }
}

/// A copy is called something first: its name has the focus and is chosen, and what is typed takes its place.
#[test]
fn the_name_of_a_copy_is_typed_at_once() {
    let mut harness = room(sample(0), Some("ds"));
    click(&mut harness, "Make our own of it");
    assert!(harness.get_by_role_and_label(Role::TextInput, "name").is_focused());
    harness.event(Event::Text("ferry kick".to_owned()));
    settle(&mut harness);
    assert_eq!(steps(&harness)[0].name, "ferry kick");
}

/// Undo after what was refused takes back that alone, in the field and when it has been left.
#[test]
fn undo_takes_back_what_was_refused_and_nothing_else() {
    let mut harness = room(sample(0), Some("ds"));
    click(&mut harness, "Make our own of it");
    type_in(&mut harness, "left hand, count 2", "high");
    key(&mut harness, Key::Enter);
    let good = steps(&harness);
    for leaves in [false, true] {
        type_in(&mut harness, "left hand, count 2", "hihg");
        assert!(harness.query_by_label_contains("did you mean high?").is_some());
        if leaves {
            // A button has the focus, and nothing is typed.
            harness.get_by_label("Make a copy").focus();
            settle(&mut harness);
        }
        harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
        settle(&mut harness);
        assert_eq!(steps(&harness), good, "{leaves}");
        assert!(harness.query_by_label_contains("did you mean high?").is_none(), "{leaves}");
        if !leaves {
            key(&mut harness, Key::Escape);
        }
    }
    // The next one takes back the last change.
    harness.get_by_label("Make a copy").focus();
    settle(&mut harness);
    harness.key_press_modifiers(Modifiers::COMMAND, Key::Z);
    settle(&mut harness);
    assert_ne!(steps(&harness), good);
}

/// Hands that are to go with the foot that leads stay as they are seen.
#[test]
fn hands_that_go_with_the_foot_change_nothing_that_is_seen() {
    let mut harness = room(sample(0), Some("ds"));
    click(&mut harness, "Make our own of it");
    type_in(&mut harness, "left hand, count 1", "down");
    key(&mut harness, Key::Enter);
    type_in(&mut harness, "right hand, count 1", "high");
    key(&mut harness, Key::Enter);
    let cells = |harness: &Driven| {
        ["left hand, count 1", "right hand, count 1"]
            .map(|name| harness.get_by_role_and_label(Role::TextInput, name).value().unwrap_or_default())
    };
    let before = cells(&harness);
    assert_ne!(before[0], before[1]);
    click(&mut harness, "hands with the foot");
    assert_eq!(cells(&harness), before);
    click(&mut harness, "right first");
    assert_eq!(cells(&harness), [before[1].clone(), before[0].clone()]);
}

/// An upbeat on which nobody hops here says that there may be a hop, and not that there is no time for it.
#[test]
fn an_upbeat_says_that_it_may_be_a_hop() {
    let mut harness = room(sample(0), Some("ftj"));
    click(&mut harness, "count 4 of the step");
    assert!(harness.query_by_label_contains("no time at this speed").is_none());
    assert!(harness.query_all_by_label_contains("a hop where the step after it asks for one").count() > 0);
}
