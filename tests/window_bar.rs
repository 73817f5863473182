//! The bar at the top at every width: nothing lies over anything, and all of it can be reached.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::desk::{Ask, FileAsk, OrderAsk, PlayAsk, Question, ViewAsk};
use driven::{Driven, activate, sample, show_dance, take};
use egui::accesskit::Role;
use egui::{Rect, vec2};
use egui_kittest::kittest::{NodeT, Queryable};

/// A window with a long title, a file with a long name, a step to undo and one to redo, both with long names.
fn window(width: f32) -> (Driven, tempfile::TempDir) {
    let mut dance = sample(0);
    dance.title += ", as danced at the ferry on the longest evening of the year";
    let mut harness = show_dance(dance, [width, 720.0]);
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("nine-geese-home-as-danced-at-the-ferry.dance.json");
    take(&mut harness, Ask::File(FileAsk::SaveTo(path)));
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0 + 6.0)));
    for name in ["hey", "cross-over"] {
        take(&mut harness, Ask::Order(OrderAsk::PutIn(name, None)));
    }
    let line = harness.state().desk.span().unwrap();
    take(&mut harness, Ask::Order(OrderAsk::TakeOut(line.index())));
    take(&mut harness, Ask::Undo);
    let desk = &harness.state().desk;
    assert!(desk.undo_name().is_some_and(|name| name.len() > 8) && desk.redo_name().is_some());
    (harness, folder)
}

/// What stands in the bar, by name, with where it is.
fn in_bar(harness: &Driven) -> Vec<(String, Rect)> {
    let nodes = [Role::Button, Role::Label].into_iter().flat_map(|role| harness.query_all_by_role(role));
    nodes
        .filter(|node| node.rect().bottom() <= 50.0)
        .map(|node| {
            let node_words = node.accesskit_node();
            (node_words.label().or(node_words.value()).unwrap_or_default(), node.rect())
        })
        .collect()
}

#[test]
fn nothing_in_the_bar_lies_over_anything_at_any_width() {
    let (mut harness, _folder) = window(640.0);
    let mut width = 640.0;
    while width <= 2000.0 {
        harness.set_size(vec2(width, 720.0));
        harness.run();
        let parts = in_bar(&harness);
        let named = |name: &str| parts.iter().any(|(known, _)| known.starts_with(name));
        for name in ["This dance: Nine Geese Home", "Undo", "Redo", "Save", "File", "View"] {
            assert!(named(name), "no {name} at {width}: {parts:?}");
        }
        assert!(named("nine-geese-home-as"), "no save state at {width}: {parts:?}");
        for (index, (name, rect)) in parts.iter().enumerate() {
            assert!(rect.left() >= 0.0 && rect.right() <= width, "{name} at {rect:?} of {width}");
            for (other, other_rect) in &parts[index + 1..] {
                let shared = rect.shrink(0.4).intersect(other_rect.shrink(0.4));
                assert!(!shared.is_positive(), "{name} {rect:?} over {other} {other_rect:?} at {width}");
            }
        }
        width += 7.0;
    }
}

#[test]
fn with_room_every_button_and_the_whole_file_name_is_there() {
    let (harness, _folder) = window(2000.0);
    let parts = in_bar(&harness);
    for name in ["Undo", "Redo", "New…", "Open…", "Handout…", "Still…", "Help"] {
        assert!(parts.iter().any(|(known, _)| known == name), "no {name}: {parts:?}");
    }
}

#[test]
fn what_a_narrow_bar_has_no_room_for_is_in_its_menu() {
    let (mut harness, _folder) = window(640.0);
    let parts = in_bar(&harness);
    let gone: Vec<&str> = ["New…", "Open…", "Handout…", "Still…", "Help"]
        .into_iter()
        .filter(|name| !parts.iter().any(|(known, _)| known == name))
        .collect();
    assert!(gone.contains(&"Still…"), "{parts:?}");
    for name in gone {
        activate(&mut harness, "File");
        activate(&mut harness, name);
        assert!(harness.state().desk.question().is_some(), "{name}");
        take(&mut harness, Ask::View(ViewAsk::PutAway));
    }
    activate(&mut harness, "File");
    activate(&mut harness, "Still…");
    assert!(matches!(harness.state().desk.question(), Some(Question::Still)));
}
