//! Faults in the window: found while dragging, gone to, given room, meant.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, FaultKind, Figure, Leg, Number, Part, Set, SetKind};
use bellpad::desk::{Ask, Desk, FaultAsk, FileAsk, OrderAsk, PlayAsk};
use bellpad::figures::named_figure;
use bellpad::store::Recent;
use driven::{
    Driven, activate, hold, hover, let_go, notice, open_tab, place, press, show, show_dance, six, take, write,
};
use egui::Key;
use egui_kittest::kittest::{NodeT, Queryable};
use serde_json::Map;
use std::sync::{Arc, Mutex};

fn window(dance: Dance) -> Driven {
    let mut harness = show_dance(dance, [1280.0, 1000.0]);
    open_tab(&mut harness, "Faults");
    harness
}

/// A hey of six in the named timing.
fn hey() -> Dance {
    let mut dance = six();
    dance.figures.push(named_figure("hey", Map::new(), &dance.set).unwrap());
    dance
}

fn even_hey() -> Driven {
    let mut harness = window(hey());
    take(&mut harness, Ask::Order(OrderAsk::SetChoice(0, "timing", "even".into())));
    harness
}

fn faults(harness: &Driven) -> usize {
    harness.state().desk.fault_count()
}

#[test]
fn a_clash_is_told_while_the_drag_is_under_way() {
    let mut harness = window(hey());
    take(&mut harness, Ask::Play(PlayAsk::Seek(6.0)));
    assert_eq!(faults(&harness), 0);
    harness.get_by_label_contains("All clear");
    let (from, to) = (place(&mut harness, 0), place(&mut harness, 4));
    hold(&mut harness, from);
    for step in 1..=8 {
        hover(&mut harness, from + (to - from) * (step as f32 / 8.0));
    }
    assert!(harness.state().desk.held().is_some(), "not let go yet");
    let desk = &harness.state().desk;
    let told = desk.faults().iter().find(|fault| fault.kind == FaultKind::Clash && fault.dancers == [1, 5]);
    assert!(told.is_some(), "{:?}", desk.faults());
    assert!(!desk.faults_here().is_empty(), "marked on the floor");
    let_go(&mut harness, to);
    assert!(faults(&harness) > 0);
    take(&mut harness, Ask::Undo);
    assert_eq!(faults(&harness), 0);
}

#[test]
fn room_is_proposed_as_a_ghost_and_made_on_a_click() {
    let mut harness = even_hey();
    assert_eq!(faults(&harness), 4);
    let first = harness.state().desk.faults()[0].clone();
    assert!(first.text.contains("1 and 5 (top and bottom) meet at the middle"), "{}", first.text);
    harness.get_all_by_label_contains("clash · Hey, bar 2").next().unwrap().click_accesskit();
    harness.run();
    let desk = &harness.state().desk;
    assert!((desk.player().count - first.counts()).abs() < 1e-6);
    assert_eq!((desk.shown_fault(), desk.chosen()), (Some(0), Some(Dancer(0))));
    let before = desk.dance().clone();
    activate(&mut harness, "Make room");
    let desk = &harness.state().desk;
    assert!(desk.proposed().is_some());
    assert_eq!(*desk.dance(), before, "only shown");
    activate(&mut harness, "Do it");
    assert_eq!(faults(&harness), 2);
    assert!(harness.state().desk.undo_name().unwrap().starts_with("make room by 1, 2, 5, 6"));
    take(&mut harness, Ask::Undo);
    assert_eq!(*harness.state().desk.dance(), before);
}

#[test]
fn a_proposal_is_taken_by_enter_and_left_by_escape() {
    let mut harness = even_hey();
    let before = harness.state().desk.dance().clone();
    take(&mut harness, Ask::Fault(FaultAsk::MakeRoom(0)));
    press(&mut harness, Key::Escape);
    assert!(harness.state().desk.proposed().is_none());
    assert_eq!(*harness.state().desk.dance(), before);
    take(&mut harness, Ask::Fault(FaultAsk::MakeRoom(0)));
    press(&mut harness, Key::Enter);
    assert_ne!(*harness.state().desk.dance(), before);
    // An edit puts a proposal away, since it was for the dance before.
    take(&mut harness, Ask::Fault(FaultAsk::MakeRoom(0)));
    assert!(harness.state().desk.proposed().is_some());
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Ann".to_owned())));
    assert!(harness.state().desk.proposed().is_none());
}

#[test]
fn what_the_side_means_is_written_with_the_figure() {
    let mut harness = even_hey();
    take(&mut harness, Ask::Fault(FaultAsk::GoTo(0)));
    activate(&mut harness, "We mean this…");
    write(&mut harness, "we squeeze by");
    activate(&mut harness, "We mean it");
    // The same two meet again in the second half, and the figure now allows it.
    assert_eq!(faults(&harness), 2);
    let allow = &harness.state().desk.dance().figures[0].allow;
    assert_eq!(
        (allow.len(), allow[0].kind, allow[0].reason.as_str()),
        (1, FaultKind::Clash, "we squeeze by")
    );
    assert_eq!(allow[0].places, [1, 5]);
    harness.get_by_label("Meant by this side: 1");
    assert!(
        harness.state().desk.faults().iter().any(|fault| fault.allowed.as_deref() == Some("we squeeze by"))
    );
    take(&mut harness, Ask::Fault(FaultAsk::NoLongerAllow { figure: 0, which: 0 }));
    assert_eq!(faults(&harness), 4);
    take(&mut harness, Ask::Undo);
    assert_eq!(faults(&harness), 2);
}

#[test]
fn limits_are_the_dances_own() {
    let mut harness = window(hey());
    activate(&mut harness, "limits…");
    harness.get_by_label("What counts as a fault");
    harness.get_by_label("Least between bodies");
    press(&mut harness, Key::Escape);
    let mut limits = harness.state().desk.dance().limits.clone();
    limits.apart = Some(0.3);
    take(&mut harness, Ask::Fault(FaultAsk::SetLimits(Box::new(limits))));
    assert!(faults(&harness) > 0, "partners are 0.12 m apart inside the loops");
    take(&mut harness, Ask::Undo);
    assert_eq!(faults(&harness), 0);
}

#[test]
fn no_mend_is_said() {
    let mut dance = Dance::new("Test", Set::longways(2, 0.2, 1.8));
    dance.figures.push(bellpad::dance::Figure::drawn("stand", "Stand", 4));
    let mut harness = window(dance);
    assert_eq!(faults(&harness), 1);
    take(&mut harness, Ask::Fault(FaultAsk::MakeRoom(0)));
    let notice = notice(&harness);
    assert!(notice.contains("both stand still"), "{notice}");
    assert!(harness.get_by_label(&notice).accesskit_node().label().is_some());
}

/// So many who all go through one middle: a search that takes a while.
fn crossing(dancers: u32) -> Dance {
    let mut set = Set::longways(2, 2.4, 1.8);
    (set.kind, set.dancers) = (SetKind::Ring, dancers);
    set.radius = Some(1.0);
    let mut figure = Figure::drawn("across", "Across", 4);
    for place in 1..=dancers {
        let angle = std::f64::consts::TAU * f64::from(place) / f64::from(dancers);
        let mut part = Part::still(place);
        part.legs.push(Leg::straight(0.0, 12.0, -angle.sin(), -angle.cos()));
        figure.parts.push(part);
    }
    let mut dance = Dance::new("Crossing", set);
    dance.figures.push(figure);
    dance
}

/// What the window says of faults is never untrue: not before they are known, nor while they are looked over.
#[test]
fn while_faults_are_looked_for_the_window_says_so() {
    let gate = Arc::new(Mutex::new(()));
    let waits = Arc::clone(&gate);
    // The search goes on when the gate is open.
    let desk = Desk::new(hey(), None, Recent::default()).unwrap().waking(move || drop(waits.lock()));
    let mut harness = show(desk, [1280.0, 1000.0]);
    open_tab(&mut harness, "Faults");
    harness.get_by_label_contains("All clear");
    let says = |harness: &Driven, said: &str| harness.query_all_by_label_contains(said).next().is_some();
    let until_known = |harness: &mut Driven| {
        while harness.state().desk.looks_for_faults() {
            std::thread::sleep(std::time::Duration::from_millis(10));
            harness.step();
        }
        harness.step();
    };
    let shut = gate.lock().unwrap();
    harness.state_mut().desk.apply(Ask::File(FileAsk::PutNew(Box::new(crossing(200)))));
    harness.step();
    assert!(says(&harness, "Looking for faults…") && !says(&harness, "All clear"));
    assert!(!says(&harness, "being looked over"), "there is nothing to look over yet");
    drop(shut);
    until_known(&mut harness);
    let many = harness.state().desk.fault_count();
    assert!(many > 500 && says(&harness, &many.to_string()) && !says(&harness, "Looking for"));
    // The next search, of others: what was told stays, and is marked.
    let shut = gate.lock().unwrap();
    let mut limits = harness.state().desk.dance().limits.clone();
    limits.apart = Some(0.3);
    harness.state_mut().desk.apply(Ask::Fault(FaultAsk::SetLimits(Box::new(limits))));
    harness.step();
    assert!(says(&harness, "being looked over") && says(&harness, &many.to_string()));
    drop(shut);
    until_known(&mut harness);
    assert!(!says(&harness, "being looked over"));
}

/// Make room is offered only where it can help: where neither goes anywhere that is known beforehand, and once it has been looked for
/// in vain it is not offered again for the same dance, but says why.
#[test]
fn room_is_offered_only_where_it_can_help() {
    let mut close = Dance::new("Close", Set::longways(2, 0.2, 1.8));
    close.figures.push(Figure::drawn("stand", "Stand", 8));
    let harness = window(close);
    assert!(faults(&harness) > 0);
    assert!(harness.state().desk.why_no_room(0).unwrap().contains("both stand still"));
    assert!(harness.get_by_label("Make room").accesskit_node().is_disabled());
    // One walks into the other, who stands, and stays there: no shift and no bow helps.
    let mut dance = Dance::new("Into", Set::longways(2, 2.4, 1.8));
    let mut figure = Figure::drawn("walk", "Walk", 8);
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(8.0, 16.0, 1.2, 0.0));
    figure.parts.push(part);
    dance.figures.push(figure);
    let mut harness = window(dance);
    let clash =
        harness.state().desk.faults().iter().position(|fault| fault.kind == FaultKind::Clash).unwrap();
    assert_eq!(harness.state().desk.why_no_room(clash), None, "it has not been looked for");
    take(&mut harness, Ask::Fault(FaultAsk::MakeRoom(clash)));
    assert!(harness.state().desk.proposed().is_none());
    let told = notice(&harness);
    assert_eq!(harness.state().desk.why_no_room(clash), Some(told));
    assert!(harness.get_by_label("Make room").accesskit_node().is_disabled());
    // Another dance is another question.
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Ann".to_owned())));
    assert_eq!(harness.state().desk.why_no_room(clash), None);
}

/// Of a pair who are told in one line the foot tells the chosen dancer's own, whoever comes first in the list.
#[test]
fn the_foot_tells_the_fault_of_the_chosen_dancer_of_a_pair() {
    let mut dance = six();
    let mut figure = Figure::drawn("out", "Out", 8);
    for (place, x) in [(1, -2.0), (2, 2.3)] {
        let mut part = Part::still(place);
        part.legs.push(Leg::straight(8.0, 16.0, x, 1.8));
        figure.parts.push(part);
    }
    dance.figures.push(figure);
    let mut harness = window(dance);
    let far = |number: usize| {
        let own = harness
            .state()
            .desk
            .faults()
            .iter()
            .find(|fault| fault.kind == FaultKind::NotHome && fault.dancers == [number as u32]);
        own.unwrap().said.clone()
    };
    let said = [far(1), far(2)];
    assert_ne!(said[0], said[1]);
    for (dancer, own) in [(0, &said[0]), (1, &said[1]), (0, &said[0])] {
        take(&mut harness, Ask::View(bellpad::desk::ViewAsk::Choose(Some(Dancer(dancer)))));
        let foot = harness.query_all_by_label(own).any(|node| node.rect().top() > 500.0);
        assert!(foot, "{dancer}: {own}");
    }
}
