//! A name of a file is bytes and need not be text: what has such a name keeps it, in the window, for the verbs and in
//! what the program remembers. Other systems than Linux take no such names.
#![cfg(target_os = "linux")]
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;
#[path = "common/window.rs"]
mod driven;

use bellpad::dance::Number;
use bellpad::desk::{Ask, Desk, FileAsk, KeepAsk, OrderAsk, ViewAsk};
use bellpad::store::{self, Autosave, Home, Recent, open_with_stamp};
use bellpad::window::Window;
use common::program;
use driven::{Driven, desk, notice, press, press_with, sample, take, write};
use egui::{Key, Modifiers};
use egui_kittest::{Harness, kittest::Queryable};
use std::ffi::{OsStr, OsString};
use std::fs;
use std::os::unix::ffi::{OsStrExt, OsStringExt};
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// A folder whose own name is not text, in one that is.
struct Place {
    outer: TempDir,
    inner: PathBuf,
    home: Home,
}

fn name(bytes: &[u8]) -> OsString {
    OsString::from_vec(bytes.to_owned())
}

impl Place {
    fn new() -> Self {
        let outer = tempfile::tempdir().unwrap();
        // é as one byte of Latin 1.
        let inner = outer.path().join(name(b"d\xe9p\xf4t"));
        fs::create_dir(&inner).unwrap();
        let home = Home::at(&outer.path().join("state"));
        Self { outer, inner, home }
    }

    fn path(&self, bytes: &[u8]) -> PathBuf {
        self.inner.join(name(bytes))
    }

    /// What there is in the inner folder, which is all that there is beside what the program keeps.
    #[track_caller]
    fn names(&self) -> Vec<Vec<u8>> {
        let list = |folder: &Path| -> Vec<Vec<u8>> {
            let entries = fs::read_dir(folder).unwrap();
            let mut names: Vec<_> = entries.map(|entry| entry.unwrap().file_name().into_vec()).collect();
            names.sort();
            names
        };
        let mut outer = list(self.outer.path());
        outer.retain(|name| name != b"state");
        assert_eq!(outer, [b"d\xe9p\xf4t"], "no other folder is made");
        list(&self.inner)
    }

    fn window(&self, path: &Path) -> Driven {
        let recent = Recent::kept_in(&self.outer.path().join("state").join("recent.json"));
        let mut desk = Desk::with_sample(recent).at_home(self.home.clone());
        desk.apply(Ask::File(FileAsk::Open(path.to_owned())));
        show_odd(desk)
    }
}

/// A window in which what no font has is drawn as a box, as it is on a screen.
fn show_odd(desk: Desk) -> Driven {
    let mut harness = Harness::builder()
        .with_size(egui::vec2(1280.0, 800.0))
        .with_max_steps(60)
        .allow_missing_glyphs()
        .build_ui_state(|ui, window: &mut Window| window.show(ui), Window::new(desk, false));
    harness.run();
    harness
}

const DANCE: &[u8] = b"caf\xe9.dance.json";

#[test]
fn the_window_saves_to_the_file_it_opened() {
    let place = Place::new();
    let path = place.path(DANCE);
    store::save(&path, &sample(1)).unwrap();
    let mut harness = place.window(&path);
    assert_eq!(desk(&harness).path(), Some(path.as_path()));
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Bram".to_owned())));
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    assert_eq!(store::open(&path).unwrap().person(1), Some("Bram"));
    // Under the name that is proposed, which is its own.
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Col".to_owned())));
    take(&mut harness, Ask::File(FileAsk::AskSaveAs));
    press(&mut harness, Key::Enter);
    assert_eq!(store::open(&path).unwrap().person(1), Some("Col"), "{:?}", place.names());
    assert_eq!(place.names(), [DANCE]);
    // Under another, of which only the end is typed.
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Dot".to_owned())));
    take(&mut harness, Ask::File(FileAsk::AskSaveAs));
    press(&mut harness, Key::End);
    write(&mut harness, ".json");
    press(&mut harness, Key::Enter);
    assert_eq!(place.names(), [DANCE.to_vec(), [DANCE, b".json"].concat()]);
    assert_eq!(store::open(&path).unwrap().person(1), Some("Col"));
    assert_eq!(
        desk(&harness).path().unwrap().as_os_str().as_bytes().last_chunk(),
        Some(b"caf\xe9.dance.json.json")
    );
}

#[test]
fn a_still_and_a_handout_are_written_beside_it() {
    let place = Place::new();
    let path = place.path(DANCE);
    store::save(&path, &sample(1)).unwrap();
    let mut harness = place.window(&path);
    take(&mut harness, Ask::File(FileAsk::AskStillPath));
    press(&mut harness, Key::Enter);
    let said = notice(&harness);
    assert!(said.starts_with("still written to "), "{said}");
    take(&mut harness, Ask::File(FileAsk::AskHandout));
    take(&mut harness, Ask::File(FileAsk::AskHandoutPath));
    harness.state_mut().desk.apply(Ask::View(ViewAsk::DropNotice));
    harness.key_press(Key::Enter);
    for _ in 0..2_000 {
        harness.step();
        if desk(&harness).notice().is_some() {
            break;
        }
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    assert!(notice(&harness).starts_with("handout written"), "{}", notice(&harness));
    let names = place.names();
    assert_eq!(names.len(), 3, "{names:?}");
    let endings: Vec<&OsStr> =
        names.iter().filter_map(|name| Path::new(OsStr::from_bytes(name)).extension()).collect();
    for ending in ["png", "pdf", "json"] {
        assert!(endings.contains(&OsStr::new(ending)), "{names:?}");
    }
}

#[test]
fn what_the_program_remembers_keeps_the_name() {
    let place = Place::new();
    let path = place.path(DANCE);
    store::save(&path, &sample(1)).unwrap();
    let mut harness = place.window(&path);
    // Files opened before, from one sitting to the next.
    let again = Recent::kept_in(&place.outer.path().join("state").join("recent.json"));
    assert_eq!(again.files, std::slice::from_ref(&path));
    // Versions from before a save.
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Bram".to_owned())));
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    assert_eq!(place.home.backups(&path).len(), 1);
    assert_eq!(place.home.backups(&path)[0].open().unwrap(), sample(1));
    let other = place.path(b"caf\xe8.dance.json");
    store::save(&other, &sample(2)).unwrap();
    assert!(place.home.backups(&other).is_empty(), "another file, though both look alike");
    take(&mut harness, Ask::Keep(KeepAsk::AskEarlier));
    harness.get_by_label("Earlier saves");
    drop(harness);
    // Work that was not saved.
    let (opened, stamp) = open_with_stamp(&path).unwrap();
    Autosave::begin(&place.home, Some(&path), Some(&stamp)).unwrap().write(&sample(2)).unwrap();
    let left = place.home.recover();
    assert_eq!(left.len(), 1);
    assert_eq!(left[0].path.as_deref(), Some(path.as_path()));
    assert_eq!(left[0].file_since(), store::FileSince::Same);
    drop(left);
    // Found again by the window, and saved where it belongs.
    let mut harness = show_odd(Desk::with_sample(Recent::default()).at_home(place.home.clone()));
    take(&mut harness, Ask::Keep(KeepAsk::AskRecovered));
    take(&mut harness, Ask::Keep(KeepAsk::OpenRecovered(0)));
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    assert_ne!(store::open(&path).unwrap(), opened);
    assert_eq!(store::open(&path).unwrap(), sample(2));
    assert_eq!(place.names(), [b"caf\xe8.dance.json", DANCE]);
}

#[test]
fn a_file_opened_before_is_opened_again_by_its_own_name() {
    let place = Place::new();
    let (one, other) = (place.path(DANCE), place.path(b"caf\xe8.dance.json"));
    store::save(&one, &sample(1)).unwrap();
    store::save(&other, &sample(2)).unwrap();
    drop(place.window(&one));
    let mut harness = place.window(&other);
    take(&mut harness, Ask::File(FileAsk::AskOpen));
    // The list has the newest first; both names look alike.
    let links: Vec<_> =
        harness.query_all_by_role_and_label(egui::Role::Link, "caf\u{fffd}.dance.json").collect();
    assert_eq!(links.len(), 2);
    links[1].click();
    harness.run();
    assert_eq!(desk(&harness).path(), Some(one.as_path()));
    assert_eq!(desk(&harness).dance(), &sample(1));
}

fn word(word: &str) -> &OsStr {
    OsStr::new(word)
}

#[test]
fn every_verb_reads_and_writes_it() {
    let place = Place::new();
    let path = place.path(DANCE);
    let run = |arguments: &[&OsStr]| {
        let ran = program().args(arguments).output().unwrap();
        assert!(ran.status.code() < Some(2), "{arguments:?}: {}", String::from_utf8_lossy(&ran.stderr));
        ran.stdout
    };
    run(&[
        word("new"),
        path.as_os_str(),
        word("--figure"),
        word("hey"),
        word("--figure"),
        word("whole-rounds"),
    ]);
    run(&[word("new"), path.as_os_str(), word("--figure"), word("hey"), word("--figure"), word("half-hey")]);
    assert_eq!(place.names(), [DANCE.to_vec(), [DANCE, b".old"].concat()]);
    for verb in ["check", "crib"] {
        run(&[word(verb), path.as_os_str()]);
    }
    run(&[word("pose"), path.as_os_str(), word("--at"), word("1:1")]);
    let pages = place.path(b"pl\xe4n.svg");
    let printed = run(&[word("sheet"), path.as_os_str(), word("-o"), pages.as_os_str()]);
    let second = place.path(b"pl\xe4n-2.svg");
    assert_eq!(printed, [pages.as_os_str().as_bytes(), b"\n", second.as_os_str().as_bytes(), b"\n"].concat());
    assert!(second.is_file());
    // Its own pages are known again, and those of a name that looks alike are not.
    run(&[word("sheet"), path.as_os_str(), word("-o"), pages.as_os_str()]);
    fs::copy(&second, place.path(b"pl\xe5n-2.svg")).unwrap();
    let other = place.path(b"pl\xe5n.svg");
    let ran = program().args([word("sheet"), path.as_os_str(), word("-o"), other.as_os_str()]).output();
    assert_eq!(ran.unwrap().status.code(), Some(2));
    run(&[word("sheet"), path.as_os_str(), word("--figure"), word("hey"), word("-o"), pages.as_os_str()]);
    assert!(!second.exists());
    for (verb, ending, more) in [
        ("still", "png", &["--every", "16", "--size", "32"][..]),
        ("still", "svg", &["--at", "1:1"]),
        ("page", "html", &[]),
        ("notebook", "pdf", &[]),
        ("moving", "gif", &["--figure", "hey", "--size", "64", "--fps", "2"]),
    ] {
        let out = place.path(&[b"\xff\xfe.", ending.as_bytes()].concat());
        let more: Vec<&OsStr> = more.iter().map(OsStr::new).collect();
        run(&[&[word(verb), path.as_os_str(), word("-o"), out.as_os_str()], &more[..]].concat());
        let written = if more.contains(&word("--every")) { place.path(b"\xff\xfe-1.png") } else { out };
        assert!(written.is_file(), "{verb}");
    }
    // JSON is text: the name as it looks, and what it is made of beside it.
    let stray = place.path(b"stray\xff.dance.json");
    let leg = serde_json::json!({"begin": 0, "end": 4, "to": {"x": -2.5, "y": -1.0}});
    let dance = serde_json::json!({
        "bellpad": 1, "title": "Straying",
        "set": {"kind": "longways", "dancers": 4, "across": 3.0, "along": 2.0},
        "figures": [{"id": "stand", "name": "Stand", "bars": 8, "parts": [{"place": 3, "legs": [leg]}]}],
    });
    fs::write(&stray, dance.to_string()).unwrap();
    let list =
        run(&[word("check"), word("--json"), stray.as_os_str(), common::sample("low-water").as_os_str()]);
    let list: serde_json::Value = serde_json::from_slice(&list).unwrap();
    let faults = list.as_array().unwrap();
    assert!(!faults.is_empty());
    for fault in faults {
        assert!(fault["file"].as_str().unwrap().ends_with("stray\u{fffd}.dance.json"));
        let bytes: Vec<u8> = serde_json::from_value(fault["file_bytes"].clone()).unwrap();
        assert_eq!(bytes, stray.as_os_str().as_bytes());
    }
}
