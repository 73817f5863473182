//! Stills from the window: one dialog, with what there is to choose and the still as it will be; what it writes is what the command line
//! writes.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::desk::{Ask, Desk, FileAsk, PlayAsk, Question, SAMPLES, ViewAsk};
use bellpad::handout::{HandoutChoice, HandoutKind};
use bellpad::picture::{StillLook, Theme};
use bellpad::store::{Home, Recent};
use driven::{Driven, desk, hover, press, press_with, show, show_sample, take, type_path};
use egui::{Key, Modifiers, Rect, accesskit::Role};
use egui_kittest::kittest::{NodeT, Queryable};
use std::fs;
use std::path::Path;
use std::process::Command;
use std::time::Duration;

/// A window in the midst of a figure.
fn window() -> Driven {
    let mut harness = show_sample([1280.0, 800.0]);
    let begin = desk(&harness).motion().spans()[3].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 5.0)));
    harness
}

fn open(harness: &mut Driven) {
    press_with(harness, Modifiers::COMMAND, Key::E);
    assert_eq!(desk(harness).question(), Some(&Question::Still));
}

/// Clicks what is in the dialog: the views of the floor have buttons of the same names.
fn choose(harness: &mut Driven, role: Role, label: &str) {
    let mut named =
        harness.get_all_by_role(role).filter(|node| node.accesskit_node().label().as_deref() == Some(label));
    named.next_back().unwrap().click();
    drop(named);
    harness.run_steps(3);
}

/// Goes on until the preview is of what is chosen.
#[track_caller]
fn see(harness: &mut Driven, said: &str) -> Rect {
    for _ in 0..2_000 {
        if let Some(node) = harness.query_by_label(said) {
            return node.rect();
        }
        std::thread::sleep(Duration::from_millis(5));
        harness.step();
    }
    panic!("never: {said}");
}

/// What a verb of the program writes about the sample.
fn by_verb(folder: &Path, verb: &[&str], name: &str) -> Vec<u8> {
    let (dance, out) = (folder.join("ours.dance.json"), folder.join(name));
    fs::write(&dance, SAMPLES[0].1).unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_bellpad"));
    command.arg(verb[0]).arg(&dance).args(&verb[1..]).arg("-o").arg(&out);
    let said = command.env_remove("DISPLAY").output().unwrap();
    assert!(said.status.success(), "{}", String::from_utf8_lossy(&said.stderr));
    fs::read(out).unwrap()
}

#[test]
fn the_bar_and_the_key_ask_the_same() {
    let mut harness = window();
    open(&mut harness);
    let by_key = see(&mut harness, "The still, chalk on slate, with paths");
    press(&mut harness, Key::Escape);
    assert!(desk(&harness).question().is_none());
    driven::click(&mut harness, "Still…");
    assert_eq!(desk(&harness).question(), Some(&Question::Still));
    assert_eq!(see(&mut harness, "The still, chalk on slate, with paths"), by_key);
}

#[test]
fn nothing_moves_whatever_is_chosen_and_the_preview_keeps_its_size() {
    let mut harness = window();
    open(&mut harness);
    let place = see(&mut harness, "The still, chalk on slate, with paths");
    assert!((place.width() - 310.0).abs() < 0.6 && (place.height() - 310.0).abs() < 0.6, "{place:?}");
    let buttons = |harness: &Driven| -> Vec<Rect> {
        ["Save…", "Cancel", "paper", "600", "2400"]
            .iter()
            .map(|label| harness.get_all_by_label(label).last().unwrap().rect())
            .collect()
    };
    let before = buttons(&harness);
    for (role, label, said) in [
        (Role::Button, "paper", "The still, ink on paper, with paths"),
        (Role::CheckBox, "paths", "The still, ink on paper, without paths"),
        (Role::Button, "2400", "The still, ink on paper, without paths"),
        (Role::Button, "600", "The still, ink on paper, without paths"),
        (Role::Button, "slate", "The still, chalk on slate, without paths"),
    ] {
        choose(&mut harness, role, label);
        assert_eq!(see(&mut harness, said), place, "{label}");
        assert_eq!(buttons(&harness), before, "{label}");
    }
    let look = StillLook { size: 600, trails: false, theme: Theme::Slate };
    assert_eq!(desk(&harness).still_look(), look);
}

/// The keyboard alone: Enter goes on to the file's name, and Enter again writes it.
#[test]
fn enter_goes_on_and_escape_puts_it_away() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    open(&mut harness);
    press(&mut harness, Key::Enter);
    harness.get_by_label("Save a still");
    type_path(&mut harness, &folder.path().join("one.svg"));
    assert!(desk(&harness).question().is_none());
    assert!(fs::read_to_string(folder.path().join("one.svg")).unwrap().starts_with("<svg "));
    // Every choice can be reached by Tab and made by the space bar.
    open(&mut harness);
    let mut reached = Vec::new();
    for _ in 0..12 {
        press(&mut harness, Key::Tab);
        // The method itself is not general enough for lifetimes.
        #[allow(clippy::redundant_closure_for_method_calls)]
        let all = harness.get_all_by(|node| node.is_focused());
        reached.extend(all.filter_map(|node| node.accesskit_node().label()));
    }
    for label in ["slate", "paper", "paths", "600", "1200", "2400", "Save…", "Cancel"] {
        assert!(reached.iter().any(|known| known == label), "{label}: {reached:?}");
    }
}

/// A size may be typed.
#[test]
fn any_size_can_be_typed() {
    let mut harness = window();
    open(&mut harness);
    harness.get_all_by_role(Role::SpinButton).last().unwrap().focus();
    harness.run_steps(3);
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    driven::write(&mut harness, "777");
    assert_eq!(desk(&harness).still_look().size, 777);
    press(&mut harness, Key::Enter);
    press(&mut harness, Key::Escape);
}

/// What was chosen is chosen again at the next sitting; until something is, a still looks as the floor does.
#[test]
fn choices_are_remembered() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(&folder.path().join("state"));
    let mut first = show(Desk::with_sample(Recent::default()).at_home(home.clone()), [1280.0, 800.0]);
    take(&mut first, Ask::View(ViewAsk::ToggleTheme));
    take(&mut first, Ask::View(ViewAsk::ToggleTrails));
    let as_floor = StillLook { size: 1200, trails: false, theme: Theme::Paper };
    assert_eq!(desk(&first).still_look(), as_floor);
    open(&mut first);
    choose(&mut first, Role::Button, "2400");
    choose(&mut first, Role::Button, "slate");
    drop(first);
    let next = show(Desk::with_sample(Recent::default()).at_home(home), [1280.0, 800.0]);
    assert_eq!(desk(&next).still_look(), StillLook { size: 2400, trails: false, theme: Theme::Slate });
}

/// The same choices are the same bytes on the command line, for pixels and for outlines.
#[test]
fn a_still_of_the_window_is_that_of_the_verb() {
    let folder = tempfile::tempdir().unwrap();
    let moment = {
        let harness = window();
        desk(&harness).motion().moment(driven::count(&harness)).to_string()
    };
    let mut seen = Vec::new();
    for (theme, trails, size, ending) in [
        (Theme::Slate, false, 600, "png"),
        (Theme::Paper, true, 600, "png"),
        (Theme::Paper, false, 2400, "svg"),
    ] {
        let name = format!("{}-{trails}-{size}.{ending}", theme.word());
        let mut harness = window();
        open(&mut harness);
        choose(&mut harness, Role::Button, theme.word());
        if trails != desk(&harness).still_look().trails {
            choose(&mut harness, Role::CheckBox, "paths");
        }
        choose(&mut harness, Role::Button, &size.to_string());
        choose(&mut harness, Role::Button, "Save…");
        type_path(&mut harness, &folder.path().join(&name));
        let own = fs::read(folder.path().join(&name)).unwrap();
        let side = size.to_string();
        let mut verb = vec!["still", "--at", &moment, "--size", &side, "--theme", theme.word()];
        verb.extend(trails.then_some("--trails"));
        assert!(own == by_verb(folder.path(), &verb, &format!("verb-{name}")), "{name}");
        assert!(!seen.contains(&own), "{name} is as another one");
        seen.push(own);
    }
}

/// A large still is written beside the window, which says so meanwhile.
#[test]
fn a_still_is_written_beside_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("large.png");
    let mut desk = Desk::with_sample(Recent::default()).waking(|| {});
    desk.apply(Ask::File(FileAsk::ChooseStill(StillLook { size: 1500, ..StillLook::default() })));
    desk.apply(Ask::File(FileAsk::AskStillPath));
    let mut harness = show(desk, [1280.0, 800.0]);
    harness.state_mut().desk.apply(Ask::File(FileAsk::Choose(path.clone())));
    assert_eq!(harness.state().desk.writing().unwrap().word(), "still");
    assert!(harness.state().desk.notice().is_none() && !path.exists());
    for _ in 0..2_000 {
        harness.step();
        if harness.state().desk.notice().is_some() {
            break;
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    assert!(driven::notice(&harness).starts_with("still written to "));
    assert_eq!(image::open(&path).unwrap().width(), 1500);
    assert!(harness.state().desk.question().is_none());
}

/// A moving picture on paper's colours too, as the verb makes it.
#[test]
fn a_moving_picture_has_the_same_colours() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    let choice =
        HandoutChoice { kind: HandoutKind::Moving, size: 240, speed: 100, ..HandoutChoice::default() };
    take(&mut harness, Ask::File(FileAsk::ChooseHandout(choice)));
    press_with(&mut harness, Modifiers::COMMAND, Key::P);
    choose(&mut harness, Role::Button, "paper");
    assert_eq!(desk(&harness).handout().theme, Theme::Paper);
    let at = harness.get_all_by_label("paper").last().unwrap().rect().center();
    hover(&mut harness, at);
    harness.run_steps(30);
    assert!(harness.query_by_label("ink on paper").is_some());
    choose(&mut harness, Role::Button, "Save…");
    let own = folder.path().join("own.gif");
    driven::write_path(&mut harness, &own);
    harness.key_press(Key::Enter);
    for _ in 0..4_000 {
        harness.step();
        if harness.state().desk.notice().is_some() {
            break;
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    let verb = ["moving", "--figure", "Cross and turn", "--size", "240", "--theme", "paper"];
    let theirs = by_verb(folder.path(), &verb, "theirs.gif");
    assert!(fs::read(&own).unwrap() == theirs);
    assert!(by_verb(folder.path(), &verb[..5], "slate.gif") != theirs);
}
