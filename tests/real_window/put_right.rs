//! Faults mended, and versions compared, with a real mouse and keyboard.

use super::desktop::program;
use super::hands::Hands;
use bellpad::dance::Dancer;
use bellpad::dance::{Dance, Extra, Set};
use bellpad::edits::drag_dancer;
use bellpad::figures::{motion_of, named_figure};
use bellpad::picture::SLATE;
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::Command;

/// A hey of six, in a timing of its own or in even steps.
fn hey(timing: Option<&str>) -> Dance {
    let mut dance = Dance::new("Gestures", Set::longways(6, 2.4, 1.8));
    let choices: Extra =
        timing.map(|timing| ("timing".to_owned(), Value::from(timing))).into_iter().collect();
    dance.figures.push(named_figure("hey", choices, &dance.set).unwrap());
    dance
}

/// How many faults `bellpad check` finds in a file.
fn faults(file: &Path) -> usize {
    let printed = Command::new(program()).arg("check").arg(file).arg("--json").output().unwrap();
    let found: Value = serde_json::from_slice(&printed.stdout).unwrap();
    found.as_array().unwrap().len()
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn room_is_made_where_two_clash() {
    let mut hands = Hands::on(&hey(Some("even")));
    assert_eq!(faults(&hands.file()), 4);
    hands.click("clash · Hey, bar 2");
    hands.sitting.keep("at a fault");
    hands.click("Make room");
    hands.sitting.keep("room proposed");
    // Left once, then taken.
    hands.keys(&["Escape"]);
    hands.choose("Make room", "Do it");
    hands.see();
    hands.sitting.keep("room made");
    hands.save();
    assert_eq!(faults(&hands.file()), 2);
    hands.undo_all(1);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_part_is_taken_from_another_version() {
    let dance = hey(None);
    let motion = motion_of(&dance, None).unwrap();
    let other = drag_dancer(&dance, &motion, Dancer(2), 6.0, -0.4, 0.3).unwrap();
    let mut hands = Hands::on(&dance);
    let path = hands.beside("last year.dance.json", &other);
    hands.choose("File", "Compare…");
    hands.sitting.keep("compare dialog");
    hands.write(path.to_str().unwrap());
    hands.keys(&["Return"]);
    hands.click("Hey · 3 · bars");
    hands.sitting.keep("beside the other version");
    hands.click("Take 3's part from it");
    hands.sitting.keep("taken");
    hands.save();
    assert_eq!(fs::read(hands.file()).unwrap(), fs::read(&path).unwrap(), "it is the other version now");
    hands.undo_all(1);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn bodies_at_the_strong_beats_are_shown_and_hidden() {
    let mut hands = Hands::on(&hey(None));
    hands.keys(&["shift+Right", "Right"]);
    // With nobody chosen they are shown of everyone.
    let floor = hands.twin.expected().floor;
    let bare = [floor[0] + 60, usize::midpoint(floor[1], floor[3])].map(|at| i32::try_from(at).unwrap());
    hands.click_at("bare floor", bare);
    hands.point_at([4, 4]);
    let before = hands.sitting.still();
    let bare_before = before.share(floor, SLATE.floor);
    hands.keys(&["b"]);
    hands.sitting.keep("beats");
    let bare_with = hands.sitting.still().share(floor, SLATE.floor);
    assert!(bare_with < bare_before - 0.01, "{bare_with} of the floor is bare, {bare_before} before");
    hands.see();
    hands.keys(&["b"]);
    assert!(!hands.sitting.still().changed_from(&before), "it is as it was");
}
