//! The real window, driven as a person drives it: a private screen, a window manager, keys and a mouse.
//!
//! These need Xvfb, openbox and xdotool, so they are left out of a plain `cargo test`; `.ci/run` runs them with
//! `cargo test --test real_window -- --ignored --test-threads=1`. Where one of those programs is missing they
//! fail. `BELLPAD_BINARY` names another program file to drive than the one built with the tests;
//! `BELLPAD_SCREENSHOTS` names a folder in which to keep what the screen showed.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "../common/camera.rs"]
mod camera;
#[path = "../common/chance.rs"]
mod chance;
mod clicks;
mod copies;
mod desktop;
mod entries;
mod expected;
mod floor;
mod hands;
#[path = "../common/lines.rs"]
mod lines;
mod listens;
mod memory;
mod menus;
mod opens;
mod order;
mod paths;
mod photographs;
mod picks;
mod put_right;
mod random;
mod screen;
mod sitting;
mod sizes;
#[path = "../common/sound_server.rs"]
mod sound_server;
mod step_room;
mod taps;
mod turns;
mod twin;
mod watch;
mod whole_figure;

use bellpad::picture::still_frame;
use desktop::{program, wait_until};
use expected::Expected;
use screen::Screen;
use serde_json::Value;
use sitting::Sitting;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

/// Long enough for a busy machine to paint a frame or write a file.
const SOON: Duration = Duration::from_secs(10);

/// Bar 2, count 3: whole rounds are under way, and every leg that is danced there is.
const COUNT: f64 = 6.0;
const MOMENT: &str = "2:3";

/// Writes a dance of two figures, as a script would, and gives its file.
fn make_dance(folder: &Path) -> PathBuf {
    let path = folder.join("two-figures.dance.json");
    let made = Command::new(program())
        .arg("new")
        .arg(&path)
        .args(["--title", "Two figures", "--dancers", "6", "--figure", "whole-rounds"])
        .args(["--figure", "foot-up-and-down"])
        .output()
        .unwrap();
    assert!(made.status.success(), "bellpad new: {}", String::from_utf8_lossy(&made.stderr));
    path
}

/// What `bellpad pose` prints of a file.
fn pose(path: &Path, when: [&str; 2]) -> Value {
    let printed = Command::new(program()).arg("pose").arg(path).args(when).output().unwrap();
    assert!(printed.status.success(), "bellpad pose: {}", String::from_utf8_lossy(&printed.stderr));
    serde_json::from_slice(&printed.stdout).unwrap()
}

/// A window on a file, gone on to [`COUNT`] by keys, with dancer 3 chosen.
fn sitting_at_count(path: &Path) -> (Sitting, Expected) {
    let sitting = Sitting::open(Some(path));
    sitting.see_dancers(&Expected::of_file(path, None));
    sitting.keys(&["Home"]);
    sitting.keys(&["Right"; COUNT as usize]);
    sitting.keys(&["3"]);
    let expected = Expected::of_file(path, Some(COUNT));
    sitting.see_dancers(&expected);
    (sitting, expected)
}

/// Drags dancer 3 by pixels, and waits until the screen shows them there and the title says that this is not saved.
fn drag_third(sitting: &Sitting, path: &Path, expected: &Expected, by: [i32; 2]) -> Expected {
    let dragged = Expected::of_drag(path, COUNT, 3, by);
    assert_ne!(dragged.title, expected.title);
    let from = expected.place(3);
    sitting.drag(from, [from[0] + by[0], from[1] + by[1]]);
    sitting.see_dancers(&dragged);
    assert_eq!(sitting.title(), dragged.title);
    dragged
}

/// Waits until a file is no longer what it was.
fn see_saved(path: &Path, before: &[u8]) {
    wait_until("the saved file", SOON, || match fs::read(path) {
        Ok(bytes) if bytes != before => Ok(()),
        _ => Err("the file is as it was".to_owned()),
    });
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn it_opens_on_the_sample_dance() {
    let sitting = Sitting::open(None);
    let expected = Expected::of_sample();
    assert!(expected.title.contains("Nine Geese Home"), "{}", expected.title);
    sitting.see_dancers(&expected);
    sitting.keep("sample");
    assert_eq!(sitting.title(), expected.title);
}

/// Metres right and up that each dancer is moved by, from one file's poses to another's.
fn moved(before: &Value, after: &Value) -> Vec<[f64; 2]> {
    let place = |poses: &Value, index: usize| {
        ["x", "y"].map(|axis| poses["poses"][0]["dancers"][index][axis].as_f64().unwrap())
    };
    let dancers = before["poses"][0]["dancers"].as_array().unwrap().len();
    (0..dancers)
        .map(|index| {
            let ([x0, y0], [x1, y1]) = (place(before, index), place(after, index));
            [x1 - x0, y1 - y0]
        })
        .collect()
}

/// Draw together by half turn, a frame round two, nudges by keys, and undo of it all, with a real mouse and keyboard.
#[test]
#[ignore = "needs Xvfb and xdotool"]
fn mates_frames_and_nudges_reach_the_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let before = fs::read(&path).unwrap();
    let at_first = pose(&path, ["--at", MOMENT]);
    let (sitting, expected) = sitting_at_count(&path);
    // Just me, across the set, end for end, half turn.
    sitting.keys(&["m", "m", "m"]);
    let from = expected.place(3);
    sitting.drag(from, [from[0] + 45, from[1] + 30]);
    sitting.keep("mates");
    sitting.keys(&["ctrl+s"]);
    see_saved(&path, &before);
    let with_mate = pose(&path, ["--at", MOMENT]);
    let by = moved(&at_first, &with_mate);
    let [right, up] = by[2];
    assert!(right > 0.2 && up < -0.1, "{by:?}");
    // 3-4 are opposites [MB1]: 4 is moved as much the other way, and nobody else at all.
    assert!((by[3][0] + right).abs() < 2e-3 && (by[3][1] + up).abs() < 2e-3, "{by:?}");
    for index in [0, 1, 4, 5] {
        assert!(by[index][0].hypot(by[index][1]) < 1e-6, "{by:?}");
    }

    // A frame round 6 alone, begun on bare floor, back to drawing just them, and two nudges to the right.
    let after_drag = fs::read(&path).unwrap();
    let six = expected.place(6);
    sitting.keys(&["m", "m", "m"]);
    // Nobody else is so near.
    sitting.drag([six[0] - 28, six[1] - 28], [six[0] + 28, six[1] + 28]);
    sitting.keys(&["ctrl+Right", "ctrl+Right", "ctrl+s"]);
    see_saved(&path, &after_drag);
    sitting.keep("nudged");
    let by = moved(&with_mate, &pose(&path, ["--at", MOMENT]));
    assert!((by[5][0] - 0.1).abs() < 2e-3 && by[5][1].abs() < 2e-3, "{by:?}");
    assert!(by.iter().take(5).all(|[x, y]| x.hypot(*y) < 1e-6), "{by:?}");

    // All of it undone is the dance that it was.
    let nudged = fs::read(&path).unwrap();
    sitting.keys(&["ctrl+z", "ctrl+z", "ctrl+z", "ctrl+s"]);
    see_saved(&path, &nudged);
    assert_eq!(fs::read(&path).unwrap(), before);
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_dancer_dragged_and_saved_is_there_in_the_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let before = fs::read(&path).unwrap();
    let poses_before = pose(&path, ["--every", "0.5"]);
    let at_before = pose(&path, ["--at", MOMENT]);
    let (sitting, expected) = sitting_at_count(&path);
    sitting.keep("before the drag");
    // Clear of the file and of the spots, on which a drag catches.
    let by = [45, 37];
    drag_third(&sitting, &path, &expected, by);
    sitting.keep("after the drag");
    assert_eq!(fs::read(&path).unwrap(), before, "nothing is written before it is saved");
    sitting.keys(&["ctrl+s"]);
    see_saved(&path, &before);

    // In the file: one part, of place 3, in the figure danced there, and nothing else.
    let was: Value = serde_json::from_slice(&before).unwrap();
    let mut is: Value = serde_json::from_slice(&fs::read(&path).unwrap()).unwrap();
    let parts = is["figures"][0].as_object_mut().unwrap().shift_remove("parts").unwrap();
    assert!(was["figures"][0].get("parts").is_none());
    let places: Vec<_> = parts.as_array().unwrap().iter().map(|part| part["place"].as_u64()).collect();
    assert_eq!(places, [Some(3)]);
    assert_eq!(is, was);

    // On the floor: dancer 3 by as much as the mouse moved, and nobody else at any count.
    let at_after = pose(&path, ["--at", MOMENT]);
    let place = |poses: &Value, axis: &str| poses["poses"][0]["dancers"][2][axis].as_f64().unwrap();
    let [right, up] = expected.metres(by);
    for (axis, wanted) in [("x", right), ("y", up)] {
        let moved = place(&at_after, axis) - place(&at_before, axis);
        assert!((moved - wanted).abs() < 0.02, "moved {moved:.3} m along {axis}, dragged {wanted:.3} m");
    }
    let without_third = |mut poses: Value| {
        for pose in poses["poses"].as_array_mut().unwrap() {
            let third = pose["dancers"].as_array_mut().unwrap().remove(2);
            assert_eq!(third["number"], 3);
        }
        poses
    };
    assert_eq!(without_third(pose(&path, ["--every", "0.5"])), without_third(poses_before));
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn undo_and_save_gives_the_same_file_byte_for_byte() {
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let before = fs::read(&path).unwrap();
    let (sitting, expected) = sitting_at_count(&path);
    drag_third(&sitting, &path, &expected, [-52, 21]);
    sitting.keys(&["ctrl+s"]);
    see_saved(&path, &before);
    sitting.keys(&["ctrl+z"]);
    sitting.see_dancers(&expected);
    sitting.keys(&["ctrl+s"]);
    wait_until("the file from before the drag", SOON, || match fs::read(&path) {
        Ok(bytes) if bytes == before => Ok(()),
        _ => Err("the file differs from the one before the drag".to_owned()),
    });
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_still_shows_the_dancers_where_they_are() {
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let (sitting, expected) = sitting_at_count(&path);
    let picture = folder.path().join("at count three.png");
    let before = sitting.still();
    sitting.keys(&["ctrl+e"]);
    wait_until("how a still looks", SOON, || {
        let is_there = sitting.look().differs_from(&before);
        if is_there { Ok(()) } else { Err("nothing is asked".to_owned()) }
    });
    sitting.still();
    sitting.keep("how a still looks");
    // The button that goes on has the keyboard.
    sitting.keys(&["Return"]);
    sitting.see_dialog(&expected);
    sitting.keep("still");
    sitting.fill_in(&picture);
    wait_until("the still", SOON, || fs::metadata(&picture).map_err(|error| error.to_string()));
    let still = Screen::of_png(&picture);
    assert_eq!(still.size(), [1200, 1200]);

    // Where they are is asked of the program, not of what drew the picture.
    let printed = pose(&path, ["--at", MOMENT]);
    let dancers = printed["poses"][0]["dancers"].as_array().unwrap();
    let frame = still_frame(expected.motion(), 1200);
    let asked = expected.in_frame(frame, dancers);
    for number in 1..=6 {
        asked.check(&still, number).unwrap();
    }
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn a_broken_file_is_told_of_and_the_open_dance_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let before = fs::read(&path).unwrap();
    let broken = folder.path().join("broken.dance.json");
    fs::write(&broken, &before[..before.len() / 2]).unwrap();
    let (sitting, expected) = sitting_at_count(&path);
    // The path stays, to be put right, until it is put away.
    for file in [broken.clone(), folder.path().join("missing.json")] {
        sitting.keys(&["ctrl+o"]);
        sitting.see_dialog(&expected);
        sitting.keep("open");
        sitting.type_path(&file);
        let asked = sitting.look();
        sitting.keys(&["Return"]);
        wait_until("the message about the file", SOON, || {
            if sitting.look().differs_from(&asked) { Ok(()) } else { Err("nothing changed".to_owned()) }
        });
        sitting.see_dialog(&expected);
        sitting.keep("trouble");
        sitting.keys(&["Return", "m", "l", "b"]);
        sitting.see_dialog(&expected);
        sitting.keys(&["Escape"]);
        sitting.see_dancers(&expected);
    }
    // The dance on the desk is the one that was opened: saving it puts its file back, once that is asked.
    fs::remove_file(&path).unwrap();
    sitting.keys(&["ctrl+s"]);
    sitting.see_dialog(&expected);
    sitting.keep("gone");
    assert!(!path.exists());
    sitting.keys(&["Return"]);
    wait_until("the saved file", SOON, || fs::metadata(&path).map_err(|error| error.to_string()));
    assert_eq!(fs::read(&path).unwrap(), before);
    assert_eq!(fs::read(&broken).unwrap(), &before[..before.len() / 2], "the broken file is left alone");
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn closing_with_unsaved_work_asks_first() {
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let before = fs::read(&path).unwrap();
    let (mut sitting, expected) = sitting_at_count(&path);
    let kept = drag_third(&sitting, &path, &expected, [45, -30]);
    // Going back by Escape, then by the button, which comes after the one to save that has the focus.
    for back in [&["Escape"][..], &["Tab", "Return"]] {
        sitting.keys(&["alt+F4"]);
        sitting.see_dialog(&expected);
        sitting.keep("unsaved");
        assert_eq!(sitting.ended(Duration::from_secs(2)), None, "it must wait for an answer");
        sitting.keys(back);
        sitting.see_dancers(&kept);
    }
    assert_eq!(fs::read(&path).unwrap(), before);
    sitting.keys(&["ctrl+s"]);
    see_saved(&path, &before);
    assert_eq!(sitting.ended(Duration::from_millis(500)), None, "saving is not closing");
    sitting.keys(&["alt+F4"]);
    let ended = sitting.ended(SOON).expect("it must close once nothing is unsaved");
    assert_eq!(ended.code(), Some(0));
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn work_outlives_a_killed_window_and_is_offered_by_the_next() {
    let folder = tempfile::tempdir().unwrap();
    let path = make_dance(folder.path());
    let before = fs::read(&path).unwrap();
    let (sitting, expected) = sitting_at_count(&path);
    let dragged = Expected::of_drag(&path, COUNT, 3, [57, -33]);
    drag_third(&sitting, &path, &expected, [57, -33]);
    // Two seconds are promised.
    std::thread::sleep(Duration::from_millis(2500));
    let kept = sitting.works();
    assert_eq!(kept.len(), 1, "{kept:?}");

    let sitting = sitting.killed_and_started_again();
    sitting.see_dialog(&Expected::of_sample());
    sitting.keep("work that was left");
    assert!(sitting.title().contains("Nine Geese Home"), "nothing is taken without asking");
    assert_eq!(sitting.works(), kept);

    // Enter is for the button that has the focus, which opens it.
    sitting.keys(&["Return"]);
    wait_until("the work on the desk", SOON, || {
        let title = sitting.title();
        if title == dragged.title { Ok(()) } else { Err(title) }
    });
    let kept_anew = sitting.works();
    assert_eq!(kept_anew.len(), 1, "{kept_anew:?}");
    assert_ne!(kept_anew, kept, "it is the new window's own");
    sitting.keys(&["Home"]);
    sitting.keys(&["Right"; COUNT as usize]);
    sitting.see_dancers(&dragged);
    assert_eq!(fs::read(&path).unwrap(), before, "nothing is written to the file before it is saved");
    sitting.keys(&["ctrl+s"]);
    see_saved(&path, &before);
    wait_until("nothing left to keep", SOON, || match sitting.works() {
        works if works.is_empty() => Ok(()),
        works => Err(format!("{works:?}")),
    });
}

#[test]
#[ignore = "needs Xvfb and xdotool"]
fn it_rests_while_nothing_moves() {
    let sitting = Sitting::open(None);
    sitting.see_dancers(&Expected::of_sample());
    std::thread::sleep(Duration::from_secs(2));
    let still = sitting.look();
    let begun = sitting.ticks();
    std::thread::sleep(Duration::from_secs(5));
    let rested = sitting.ticks() - begun;
    assert!(rested <= 2, "{rested} ticks of processor time in 5 s with nothing moving");
    // The same clock does count when something moves.
    sitting.keys(&["space"]);
    let begun = sitting.ticks();
    std::thread::sleep(Duration::from_secs(2));
    let played = sitting.ticks() - begun;
    assert!(played >= 5, "{played} ticks of processor time in 2 s of playing");
    assert!(sitting.look().differs_from(&still), "playing moves the picture");
    sitting.keep("playing");
}
