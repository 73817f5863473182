//! Handouts from the window: chosen, previewed, written.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::app::{Ask, Desk, HandoutKind, Window};
use bellpad::store::Recent;
use egui::{Event, Key, Modifiers, vec2};
use egui_kittest::{Harness, kittest::Queryable};
use std::fs;
use std::path::Path;

type Driven = Harness<'static, Window>;

fn window() -> Driven {
    let mut harness = Harness::builder().with_size(vec2(1280.0, 800.0)).with_max_steps(60).build_ui_state(
        |ui, window: &mut Window| window.show(ui),
        Window::new(Desk::with_sample(Recent::default()), false),
    );
    harness.run();
    harness.state_mut().desk.take(Ask::Seek(5.0 * 32.0 + 6.0));
    harness.run();
    harness
}

fn open(harness: &mut Driven) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::P);
    harness.run();
    harness.get_by_label("Handout");
}

fn choose(harness: &mut Driven, label: &str) {
    harness.get_by_label(label).click();
    harness.run();
}

fn save(harness: &mut Driven, path: &Path) {
    choose(harness, "Save…");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.event(Event::Text(path.display().to_string()));
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
}

#[test]
fn a_sheet_is_previewed_and_written() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    open(&mut harness);
    harness.get_by_label("1 page, as PDF");
    harness.get_by_label("The first page");
    choose(&mut harness, "words for each number");
    harness.get_by_label_contains("pages, as PDF");
    // The ending is put to a name that has none.
    save(&mut harness, &folder.path().join("hey"));
    let bytes = fs::read(folder.path().join("hey.pdf")).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    let notice = harness.state().desk.notice.clone().unwrap();
    assert!(notice.contains("handout written to"), "{notice}");
}

#[test]
fn choices_are_kept_from_one_handout_to_the_next() {
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "Letter");
    choose(&mut harness, "on its long side");
    choose(&mut harness, "The notebook of this dance");
    choose(&mut harness, "Cancel");
    open(&mut harness);
    let chosen = harness.state().desk.handout;
    assert_eq!(chosen.kind, HandoutKind::Notebook);
    assert!(chosen.paper.landscape);
    assert!((chosen.paper.millimetres()[0] - 279.4).abs() < 0.01);
}

#[test]
fn a_dancers_page_and_a_practice_page_are_written() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "1's own page");
    save(&mut harness, &folder.path().join("one.pdf"));
    assert!(fs::read(folder.path().join("one.pdf")).unwrap().starts_with(b"%PDF-"));
    open(&mut harness);
    choose(&mut harness, "Practice page for a phone");
    harness.get_by_label_contains("KB, as HTML");
    save(&mut harness, &folder.path().join("practice"));
    let page = fs::read_to_string(folder.path().join("practice.html")).unwrap();
    assert!(page.contains("Nine Geese Home") && page.len() < 300 * 1024);
    // With nobody chosen there is no page of their own, and the dialog says what to do.
    harness.state_mut().desk.take(Ask::Choose(None));
    open(&mut harness);
    choose(&mut harness, "A dancer's own page");
    harness.get_by_label_contains("Choose a dancer first");
}
