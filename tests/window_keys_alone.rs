//! The main jobs by keyboard alone: no mouse is touched from the first key to the last.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Figure};
use bellpad::desk::{Desk, Question};
use bellpad::store::{self, Recent};
use driven::{
    Driven, count, dance, desk, press, press_with, show, show_sample, strike, type_path, undo_name,
};
use egui::{Key, Modifiers, accesskit::Role};
use egui_kittest::kittest::{NodeT, Queryable};

/// Presses Tab until something has the focus.
#[track_caller]
fn tab_to(harness: &mut Driven, role: Role, label: &str) {
    for _ in 0..400 {
        let there = harness.get_all_by_role(role).any(|node| {
            let node = node.accesskit_node();
            node.is_focused() && node.label().is_some_and(|known| known.starts_with(label))
        });
        if there {
            return;
        }
        // A card of the shelf that has the focus moves for ever.
        harness.key_press(Key::Tab);
        harness.run_ok();
    }
    panic!("Tab never came to {label}");
}

#[test]
fn going_through_a_dance_and_learning_a_part() {
    let mut harness = show_sample([1366.0, 768.0]);
    press(&mut harness, Key::Num3);
    assert_eq!(desk(&harness).chosen(), Some(Dancer(2)));
    press(&mut harness, Key::Home);
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    press(&mut harness, Key::ArrowRight);
    assert_eq!(count(&harness), 5.0);
    press(&mut harness, Key::OpenBracket);
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    press(&mut harness, Key::CloseBracket);
    assert!(desk(&harness).player().looping);
    press(&mut harness, Key::Minus);
    assert!(desk(&harness).player().tempo < 1.0);
    // Slow, then played, then stopped.
    harness.key_press(Key::Space);
    harness.step();
    assert!(desk(&harness).player().playing);
    harness.key_press(Key::Space);
    harness.step();
    assert!(!desk(&harness).player().playing);
}

#[test]
fn drawing_saving_and_opening_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("by-keys.dance.json");
    let mut dance = driven::six();
    dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
    let mut harness = show(Desk::new(dance, None, Recent::default()).unwrap(), [1366.0, 768.0]);
    press(&mut harness, Key::Num1);
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    for _ in 0..4 {
        press_with(&mut harness, Modifiers::COMMAND, Key::ArrowRight);
    }
    let x = desk(&harness).motion().pose(Dancer(0), 4.0).x;
    assert!((x + 1.0).abs() < 1e-6, "{x}");
    press_with(&mut harness, Modifiers::COMMAND, Key::Z);
    press_with(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    assert!(matches!(desk(&harness).question(), Some(Question::Path(_))));
    type_path(&mut harness, &path);
    let saved = store::open(&path).unwrap();
    assert_eq!(saved, *desk(&harness).dance());
    press_with(&mut harness, Modifiers::COMMAND, Key::O);
    type_path(&mut harness, &path);
    assert_eq!(*desk(&harness).dance(), saved);
}

#[test]
fn a_new_dance_is_made_and_its_order_put_together() {
    let mut harness = show_sample([1366.0, 768.0]);
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    strike(&mut harness, "By keys");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).title, "By keys");
    tab_to(&mut harness, Role::Button, "Figure shelf");
    press(&mut harness, Key::Enter);
    tab_to(&mut harness, Role::TextInput, "Part of its name");
    strike(&mut harness, "half h");
    harness.key_press(Key::Enter);
    harness.run_ok();
    let names =
        |dance: &Dance| -> Vec<String> { dance.order.iter().map(|entry| entry.figure.clone()).collect() };
    assert_eq!(names(&dance(&harness)), ["figure-1", "half-hey"]);
    // Moved up, renamed, and taken out.
    tab_to(&mut harness, Role::Button, "2. ");
    press_with(&mut harness, Modifiers::ALT, Key::ArrowUp);
    assert_eq!(names(&dance(&harness)), ["half-hey", "figure-1"]);
    press(&mut harness, Key::F2);
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    strike(&mut harness, "River hey");
    press(&mut harness, Key::Enter);
    assert_eq!(undo_name(&harness), "rename Half hey to River hey");
    press(&mut harness, Key::Delete);
    assert_eq!(names(&dance(&harness)), ["figure-1"]);
}

#[test]
fn the_stepping_is_offered_and_taken() {
    let mut harness = show_sample([1366.0, 768.0]);
    for _ in 0..8 {
        press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    }
    tab_to(&mut harness, Role::Tab, "Figure");
    press(&mut harness, Key::Enter);
    tab_to(&mut harness, Role::TextInput, "stepping");
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    strike(&mut harness, "4 doub");
    // What may be meant stands over the field.
    harness.get_by_role_and_label(Role::Button, "ds  double step");
    press(&mut harness, Key::ArrowDown);
    press(&mut harness, Key::Enter);
    let index = desk(&harness).span().unwrap();
    let figure = desk(&harness).motion().span(index).unwrap().figure;
    assert_eq!(dance(&harness).figures[figure].phrase, "4 ds");
}

#[test]
fn a_fault_is_gone_to_and_a_handout_written() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("sheet.pdf");
    let mut harness = show_sample([1366.0, 768.0]);
    // A set too close along has faults.
    let mut set = dance(&harness).set;
    set.along = 0.6;
    driven::take(&mut harness, bellpad::desk::Ask::Order(bellpad::desk::OrderAsk::ChangeSet(Box::new(set))));
    assert!(desk(&harness).fault_count() > 0);
    let many = desk(&harness).fault_count();
    tab_to(&mut harness, Role::Button, &format!("{many} faults: "));
    press(&mut harness, Key::Enter);
    assert!(desk(&harness).shown_fault().is_some());
    press_with(&mut harness, Modifiers::COMMAND, Key::P);
    tab_to(&mut harness, Role::Button, "Save…");
    press(&mut harness, Key::Enter);
    type_path(&mut harness, &path);
    for _ in 0..2_000 {
        if path.exists() {
            return;
        }
        std::thread::sleep(std::time::Duration::from_millis(10));
        harness.run_ok();
    }
    panic!("no handout was written");
}

/// Wherever Tab goes, something in the window shows it, and it is in sight.
#[test]
fn what_has_the_focus_is_in_sight_and_looks_like_it() {
    let size = [1366.0, 768.0];
    let mut harness = show_sample(size);
    press(&mut harness, Key::Num3);
    driven::open_shelf(&mut harness);
    let painted = |harness: &Driven| format!("{:?}", harness.output().shapes);
    let mut seen = std::collections::BTreeSet::new();
    for stop in 0..150 {
        let before = painted(&harness);
        harness.key_press(Key::Tab);
        harness.run_ok();
        // The method itself is not general enough over lifetimes.
        #[allow(clippy::redundant_closure_for_method_calls)]
        let focused = harness.query_all_by(|node| node.is_focused()).next();
        let Some(node) = focused else { continue };
        let (label, rect) = (node.accesskit_node().label().unwrap_or_default(), node.rect());
        let screen = egui::Rect::from_min_size(egui::Pos2::ZERO, size.into());
        assert!(screen.expand(2.0).contains(rect.center()), "stop {stop}, {label}: {rect}");
        assert!(painted(&harness) != before, "stop {stop}, {label}: nothing shows that it has the focus");
        seen.insert(label);
    }
    for name in ["Bars of the figure", "Feet", "Turns", "Hands", "Whole dance", "Put in Hey"] {
        assert!(seen.contains(name), "Tab never came to {name}: {seen:?}");
    }
}
