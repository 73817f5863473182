//! Menus opened by a key: where the focus is afterwards, and that a mouse that happens to lie there chooses nothing; and what menus
//! say before anything is chosen.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Figure, Leg, Part, Turn, Way};
use bellpad::desk::{Ask, DrawAsk, PlayAsk, ViewAsk};
use bellpad::edits::Together;
use bellpad::figures::Mirror;
use driven::{
    Driven, activate, dance, desk, hold, hover, let_go, press, right_click, show_dance, show_sample, six,
    take, undo_name,
};
use egui::{Event, Key, Modifiers, Popup, pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};

fn focused(harness: &Driven) -> Vec<String> {
    harness
        .query_all_by(|node| node.is_focused())
        .map(|node| node.accesskit_node().label().unwrap_or_default())
        .collect()
}

#[test]
fn escape_from_a_menu_gives_the_focus_back_to_what_it_is_of() {
    for label in ["Whole dance", "Bars of the figure", "Feet", "Turns", "Dancer 3"] {
        for keys in [
            &[][..],
            &[Key::ArrowDown],
            &[Key::ArrowDown, Key::ArrowDown, Key::ArrowDown],
            &[Key::Tab],
            &[Key::ArrowUp, Key::ArrowUp, Key::ArrowRight],
        ] {
            let mut harness = show_sample([1366.0, 768.0]);
            take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
            harness.get_by_label(label).focus();
            harness.run();
            press(&mut harness, Key::Menu);
            assert!(Popup::is_any_open(&harness.ctx), "{label} has a menu");
            for key in keys {
                press(&mut harness, *key);
            }
            press(&mut harness, Key::Escape);
            assert!(!Popup::is_any_open(&harness.ctx), "{label}, {keys:?}: Escape puts it away");
            assert_eq!(focused(&harness), [label], "{label}, {keys:?}");
        }
    }
}

#[test]
fn a_mouse_that_lies_where_a_menu_opens_by_key_opens_nothing_of_it() {
    let mut harness = show_sample([1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    // Where "Home by" will be.
    harness.get_by_label("Dancer 3").focus();
    harness.run();
    press(&mut harness, Key::Menu);
    let home = harness.get_by_label("Home by").rect().center();
    press(&mut harness, Key::Escape);
    hover(&mut harness, home);
    harness.get_by_label("Dancer 3").focus();
    harness.run();
    press(&mut harness, Key::Menu);
    harness.run_steps(20);
    assert_eq!(harness.get_by_label("Home by").rect().center(), home);
    assert!(harness.query_by_label("this count").is_none() && harness.query_by_label("now").is_none());
    let before = harness.query_all_by(|_| true).count();
    // Once the mouse moves it is a mouse again.
    hover(&mut harness, home + vec2(2.0, 0.0));
    harness.run_steps(20);
    assert!(harness.query_all_by(|_| true).count() > before, "what is pointed at opens");
}

/// 1 turns left 270 in the seventh bar of eight, to face down; 2 is their mate.
fn turning() -> Dance {
    let mut dance = six();
    let mut figure = Figure::drawn("figure-1", "Figure 1", 8);
    let mut part = Part::still(1);
    part.turns.push(Turn { by: Some(270.0), ..Turn::to_face(24.0, 27.0, Way::Left, 180.0) });
    part.legs.push(Leg::straight(0.0, 4.0, -1.2, 2.3));
    figure.parts.push(part);
    dance.figures.push(figure);
    dance
}

#[test]
fn a_new_turn_is_announced_with_when_it_is_finished_and_who_follows() {
    let mut harness = show_dance(turning(), [1366.0, 768.0]);
    take(&mut harness, Ask::Draw(DrawAsk::Together(Together::Mirror(Mirror::Across))));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let row = harness.get_by_label("Turns").rect();
    right_click(&mut harness, pos2(row.left() + row.width() * 10.0 / 32.0, row.center().y));
    assert!(harness.query_by_label("A new turn of 1").is_some());
    assert!(harness.query_by_label("finished at bar 3:3, where you clicked; 2 follows").is_some());
}

/// A menu of the bars stays with the figure that was clicked while the playhead goes on to the next.
#[test]
fn a_menu_of_a_turn_stays_with_its_figure() {
    let mut dance_of = turning();
    let mut other = dance_of.figures[0].clone();
    ("figure-2".clone_into(&mut other.id), "Figure 2".clone_into(&mut other.name));
    dance_of.figures.push(other);
    let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let turn = harness.get_all_by_label_contains("Turn 1, left 270°").next().unwrap().rect().center();
    right_click(&mut harness, turn);
    // As playing does.
    harness.state_mut().desk.apply(Ask::Play(PlayAsk::Seek(40.0)));
    harness.run();
    if harness.query_by_label("Take it away").is_some() {
        activate(&mut harness, "Take it away");
        let now = dance(&harness);
        assert_eq!(now.figures[1], dance_of.figures[1], "the next figure keeps its turn");
        assert!(now.figures[0].parts[0].turns.is_empty(), "the one that was clicked is gone");
    } else {
        assert_eq!(dance(&harness), dance_of);
    }
}

/// A press that is held for long and goes nowhere moves nothing, wherever between two quarters of a count it is.
#[test]
fn a_long_press_that_goes_nowhere_moves_nothing() {
    let mut dance_of = turning();
    let turn = &mut dance_of.figures[0].parts[0].turns[0];
    (turn.begin, turn.end) = (24.1, 27.1);
    let leg = &mut dance_of.figures[0].parts[0].legs[0];
    (leg.begin, leg.end) = (0.0, 4.1);
    let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    for label in ["Turn 1, left", "Start of turn 1", "End of path 1", "Dancer 1", "Facing of 1"] {
        let at = harness.get_all_by_label_contains(label).next().unwrap().rect().center() + vec2(1.0, 1.0);
        hold(&mut harness, at);
        for _ in 0..90 {
            harness.step();
        }
        let_go(&mut harness, at);
        assert_eq!((dance(&harness), undo_name(&harness)), (dance_of.clone(), String::new()), "{label}");
    }
}

/// Delete held down takes away what has the focus, and not what is there next.
#[test]
fn delete_held_down_takes_one_turn() {
    let mut dance_of = turning();
    let turn = |begin: f64| Turn { by: Some(360.0), ..Turn::to_face(begin, begin + 2.0, Way::Left, 90.0) };
    dance_of.figures[0].parts[0].turns = [8.0, 12.0, 16.0].map(turn).to_vec();
    let mut harness = show_dance(dance_of, [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    harness.get_all_by_label_contains("Turn 1, left").next().unwrap().focus();
    harness.run();
    for repeat in [false, true, true, true] {
        let (key, modifiers) = (Key::Delete, Modifiers::NONE);
        harness.event(Event::Key { key, physical_key: None, pressed: true, repeat, modifiers });
        harness.run();
    }
    assert_eq!(dance(&harness).figures[0].parts[0].turns.len(), 2);
}
