//! Handouts from the window: chosen, previewed, written.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Number};
use bellpad::desk::{Ask, OrderAsk, PlayAsk, ViewAsk};
use bellpad::handout::HandoutKind;
use bellpad::handout::moving::SeenFrom;
use driven::{Driven, notice, press_with, show_sample, take, write_path};
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::Queryable;
use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Duration;

fn window() -> Driven {
    let mut harness = show_sample([1280.0, 800.0]);
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0 + 6.0)));
    harness
}

fn open(harness: &mut Driven) {
    press_with(harness, Modifiers::COMMAND, Key::P);
    harness.get_by_label("Handout");
}

fn choose(harness: &mut Driven, label: &str) {
    harness.get_by_label(label).click();
    harness.run_steps(3);
}

/// Goes on until something is so, as the window does while a handout is made beside it.
#[track_caller]
fn wait(harness: &mut Driven, what: &str, is_so: impl Fn(&Driven) -> bool) {
    for _ in 0..2_000 {
        if is_so(harness) {
            return;
        }
        std::thread::sleep(Duration::from_millis(5));
        harness.step();
    }
    panic!("never: {what}");
}

/// Waits for a preview that says something.
#[track_caller]
fn see(harness: &mut Driven, said: &str) {
    wait(harness, said, |harness| harness.query_by_label_contains(said).is_some());
}

fn save_to(harness: &mut Driven, path: &Path) {
    choose(harness, "Save…");
    write_path(harness, path);
    harness.state_mut().desk.apply(Ask::View(ViewAsk::DropNotice));
    harness.key_press(Key::Enter);
    harness.step();
}

fn save(harness: &mut Driven, path: &Path) {
    save_to(harness, path);
    wait(harness, "the handout is written", |harness| harness.state().desk.notice().is_some());
}

#[test]
fn a_sheet_is_previewed_and_written() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    open(&mut harness);
    see(&mut harness, "1 page, as PDF");
    harness.get_by_label("The first page");
    choose(&mut harness, "words for each number");
    see(&mut harness, "pages, as PDF");
    // The ending is put to a name that has none.
    save(&mut harness, &folder.path().join("hey"));
    let bytes = fs::read(folder.path().join("hey.pdf")).unwrap();
    assert!(bytes.starts_with(b"%PDF-"));
    let notice = notice(&harness);
    assert!(notice.contains("handout written to"), "{notice}");
}

#[test]
fn choices_are_kept_from_one_handout_to_the_next() {
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "Letter");
    choose(&mut harness, "landscape");
    choose(&mut harness, "The notebook of this dance");
    choose(&mut harness, "Cancel");
    open(&mut harness);
    let chosen = harness.state().desk.handout();
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
    see(&mut harness, "KB, as HTML");
    save(&mut harness, &folder.path().join("practice"));
    let page = fs::read_to_string(folder.path().join("practice.html")).unwrap();
    assert!(page.contains("Nine Geese Home") && page.len() < 300 * 1024);
    // With nobody chosen there is no page of their own, and the dialog says what to do.
    harness.state_mut().desk.apply(Ask::View(ViewAsk::Choose(None)));
    open(&mut harness);
    choose(&mut harness, "A dancer's own page");
    see(&mut harness, "Choose a dancer first");
}

/// Pages as pictures are numbered, and the ending that is typed says what they are.
#[test]
fn sheets_are_written_as_pictures_too() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "words for each number");
    choose(&mut harness, "PNG");
    see(&mut harness, "pages, as PNG, a file each");
    save(&mut harness, &folder.path().join("hey"));
    let first = image::open(folder.path().join("hey.png")).unwrap();
    // 200 pixels to the inch of 210 by 297 mm (ISO 216:2007).
    assert_eq!((first.width(), first.height()), (1654, 2339));
    assert!(image::open(folder.path().join("hey-2.png")).unwrap() != first);
    let notice = notice(&harness);
    assert!(notice.contains("2 pages") && notice.contains("hey-2.png"), "{notice}");
    // A second page of another name that is taken is not written over unasked, and nor is the first one written.
    let taken = folder.path().join("mine-2.png");
    fs::write(&taken, "my own").unwrap();
    open(&mut harness);
    save_to(&mut harness, &folder.path().join("mine.png"));
    wait(&mut harness, "it is told", |harness| harness.query_by_label_contains("mine-2.png").is_some());
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(fs::read_to_string(&taken).unwrap(), "my own");
    assert!(!folder.path().join("mine.png").exists());
    open(&mut harness);
    save(&mut harness, &folder.path().join("hey.svg"));
    assert!(fs::read_to_string(folder.path().join("hey.svg")).unwrap().starts_with("<svg"));
}

/// Whoever says that the first page may be replaced has not said so of what only looks like a further page.
#[test]
fn what_is_in_the_way_of_a_further_page_is_asked_about() {
    let folder = tempfile::tempdir().unwrap();
    let (first, second) = (folder.path().join("hey.png"), folder.path().join("hey-2.png"));
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "words for each number");
    choose(&mut harness, "PNG");
    fs::write(&first, "may be replaced").unwrap();
    fs::write(&second, "my own").unwrap();
    let ask = |harness: &mut Driven| {
        save_to(harness, &first);
        harness.get_by_label_contains("There is a file there already");
        harness.key_press(Key::Enter);
        harness.step();
        wait(harness, "it is asked", |harness| harness.query_by_label("A file is in the way").is_some());
        // The dialog is as large as what it says from its second frame on.
        harness.run_steps(4);
        harness.get_by_label("hey-2.png");
        assert_eq!(fs::read_to_string(&first).unwrap(), "may be replaced");
        assert_eq!(fs::read_to_string(&second).unwrap(), "my own");
    };
    ask(&mut harness);
    choose(&mut harness, "Cancel");
    assert!(harness.state().desk.question().is_none() && harness.state().desk.notice().is_none());
    open(&mut harness);
    ask(&mut harness);
    choose(&mut harness, "Choose another name…");
    harness.get_by_label("Save the handout");
    harness.key_press(Key::Escape);
    harness.run();
    open(&mut harness);
    ask(&mut harness);
    choose(&mut harness, "Replace");
    wait(&mut harness, "the handout is written", |harness| harness.state().desk.notice().is_some());
    assert!(image::open(&first).unwrap() != image::open(&second).unwrap());
    // From then on both are its own, and only the first is asked about, as it is wherever a file is chosen.
    open(&mut harness);
    save_to(&mut harness, &first);
    harness.key_press(Key::Enter);
    wait(&mut harness, "the handout is written", |harness| harness.state().desk.notice().is_some());
}

/// Pages of an earlier handout of the same name are taken away when there are fewer now.
#[test]
fn pages_that_are_no_longer_part_of_a_handout_are_taken_away() {
    let folder = tempfile::tempdir().unwrap();
    let out = folder.path().join("hey.svg");
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "words for each number");
    choose(&mut harness, "SVG");
    save(&mut harness, &out);
    let second = folder.path().join("hey-2.svg");
    assert!(second.is_file());
    fs::write(folder.path().join("hey-3.svg"), "my own").unwrap();
    open(&mut harness);
    choose(&mut harness, "words for each number");
    see(&mut harness, "1 page, as SVG");
    save_to(&mut harness, &out);
    harness.key_press(Key::Enter);
    wait(&mut harness, "the handout is written", |harness| harness.state().desk.notice().is_some());
    let notice = notice(&harness);
    assert!(notice.contains("a page of an earlier one is taken away"), "{notice}");
    assert!(out.is_file() && !second.exists());
    assert_eq!(fs::read_to_string(folder.path().join("hey-3.svg")).unwrap(), "my own");
}

#[test]
fn a_moving_figure_moves_in_the_preview_and_is_written() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "Hey, moving");
    choose(&mut harness, "small");
    harness.get_by_label("The figure as it moves");
    // At eye level, of everyone; the card has buttons of the same names.
    harness.get_all_by_label("behind").last().unwrap().click();
    harness.run_steps(3);
    harness.get_by_label("The figure as it moves, at eye level, from behind");
    see(&mut harness, "KB, as GIF");
    assert_eq!(harness.state().desk.handout().seen, SeenFrom::Behind);
    harness.state_mut().desk.apply(Ask::View(ViewAsk::DropNotice));
    save(&mut harness, &folder.path().join("hey"));
    assert!(fs::read(folder.path().join("hey.gif")).unwrap().starts_with(b"GIF89a"));
    assert_eq!(harness.state().desk.handout().size, 240);
}

/// Escape while a handout is being written stops it, and nothing is left behind.
#[test]
fn a_handout_can_be_stopped() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    open(&mut harness);
    choose(&mut harness, "Hey, moving");
    choose(&mut harness, "large");
    choose(&mut harness, "Save…");
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.event(Event::Text(folder.path().join("hey.gif").display().to_string()));
    harness.step();
    harness.key_press(Key::Enter);
    harness.step();
    wait(&mut harness, "it is said that it is being written", |harness| {
        harness.query_by_label("Writing the handout").is_some() || harness.state().desk.notice().is_some()
    });
    assert!(harness.state().desk.notice().is_none(), "over before it could be stopped");
    harness.get_by_role(egui::Role::ProgressIndicator);
    harness.key_press(Key::Escape);
    harness.run_steps(3);
    assert!(harness.query_by_label("Writing the handout").is_none());
    std::thread::sleep(Duration::from_millis(300));
    assert_eq!(fs::read_dir(folder.path()).unwrap().count(), 0);
}

/// A window on the sample with names, and the file of it as it stands there.
fn named(folder: &Path) -> (Driven, std::path::PathBuf) {
    let mut harness = window();
    for (number, name) in [(1, "Wilfred"), (4, "Annis")] {
        take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(number), name.to_owned())));
    }
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(3)))));
    let path = folder.join("ours.dance.json");
    bellpad::store::save(&path, &dance_of(&harness)).unwrap();
    (harness, path)
}

fn dance_of(harness: &Driven) -> Dance {
    harness.state().desk.dance().clone()
}

/// What a verb writes about a file.
fn by_verb(dance: &Path, verb: &[&str], out: &Path) -> Vec<u8> {
    let mut command = Command::new(env!("CARGO_BIN_EXE_bellpad"));
    command.arg(verb[0]).arg(dance).args(&verb[1..]).arg("-o").arg(out);
    let said = command.env_remove("DISPLAY").output().unwrap();
    assert!(said.status.success(), "{}", String::from_utf8_lossy(&said.stderr));
    fs::read(out).unwrap()
}

/// What is chosen in the dialog is what the same choices are on the command line, byte for byte.
#[test]
fn what_the_dialog_writes_is_what_the_verbs_write() {
    let folder = tempfile::tempdir().unwrap();
    let (mut harness, dance) = named(folder.path());
    let mut nameless = false;
    let all: [(&str, bool, &[&str], &str); 8] = [
        ("The whole dance on one sheet", false, &["sheet", "--whole"], "whole.pdf"),
        ("The whole dance on one sheet", true, &["sheet", "--whole", "--no-names"], "whole-2.pdf"),
        ("4's pocket page", false, &["sheet", "--dancer", "4", "--pocket"], "pocket.pdf"),
        ("4's pocket page", true, &["sheet", "--dancer", "4", "--pocket", "--no-names"], "pocket-none.pdf"),
        ("4's own page", true, &["sheet", "--dancer", "4", "--no-names"], "own.pdf"),
        ("Every figure, sheets", false, &["sheet"], "every.pdf"),
        ("The notebook of this dance", true, &["notebook", "--no-names"], "notebook.pdf"),
        ("Practice page for a phone", true, &["page", "--no-names"], "page.html"),
    ];
    for (kind, without, verb, name) in all {
        open(&mut harness);
        choose(&mut harness, kind);
        if without != nameless {
            choose(&mut harness, "without names");
            nameless = without;
        }
        let own = folder.path().join(name);
        save(&mut harness, &own);
        let theirs = by_verb(&dance, verb, &folder.path().join(format!("verb-{name}")));
        assert!(fs::read(&own).unwrap() == theirs, "{name}");
    }
    let page = fs::read_to_string(folder.path().join("page.html")).unwrap();
    assert!(!page.contains("Wilfred") && !page.contains("Annis"));
}

/// A page in the pocket is somebody's.
#[test]
fn a_pocket_page_needs_a_dancer() {
    let mut harness = window();
    harness.state_mut().desk.apply(Ask::View(ViewAsk::Choose(None)));
    open(&mut harness);
    choose(&mut harness, "A dancer's pocket page");
    see(&mut harness, "Choose a dancer first");
}

/// Each kind says what it is to whoever points at it.
#[test]
fn each_kind_of_handout_is_explained() {
    let mut harness = window();
    harness.state_mut().desk.apply(Ask::View(ViewAsk::Choose(Some(Dancer(3)))));
    open(&mut harness);
    for (kind, said) in [
        ("Hey, a sheet", "in diagrams, bar by bar"),
        ("Every figure, sheets", "each once"),
        ("The whole dance on one sheet", "Running order with strains and calls"),
        ("4's own page", "own way and words"),
        ("4's pocket page", "fold it twice"),
        ("The stepping, at eye level", "count by count"),
        ("The tapping, as a table of beats", "What meets on which beat"),
        ("The notebook of this dance", "All of it in one PDF"),
        ("Practice page for a phone", "plays the dance on a phone"),
        ("Hey, moving", "moving picture"),
        ("without names", "who dances which number"),
    ] {
        let at = harness.get_all_by_label(kind).last().unwrap().rect().center();
        driven::hover(&mut harness, at);
        harness.run_steps(40);
        assert!(harness.query_all_by_label_contains(said).next().is_some(), "{kind}");
    }
}
