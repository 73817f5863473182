//! What the tests of the window share: a window without a screen, and a hand on its mouse and keys. It stands apart from
//! the helpers beside it, so that only the tests of the window are built with the harness.
#![allow(dead_code, clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

use bellpad::dance::{Dance, Dancer, Set, read};
use bellpad::desk::{Ask, Desk, SAMPLES};
use bellpad::picture::Frame;
use bellpad::store::Recent;
use bellpad::window::Window;
use egui::{Event, Key, Modifiers, PointerButton, Pos2, accesskit::Role, vec2};
use egui_kittest::{Harness, kittest::Queryable};
use std::path::Path;

/// A window that is driven without a screen: every gesture goes through the same code as a real mouse and keyboard.
pub type Driven = Harness<'static, Window>;

/// One of the dances that come with the program, by its place among them.
pub fn sample(index: usize) -> Dance {
    read(SAMPLES[index].1.as_bytes()).unwrap()
}

/// Six in two files, with no figure yet.
pub fn six() -> Dance {
    Dance::new("Test", Set::longways(6, 2.4, 1.8))
}

/// A window of so many points across and down, when it has come to rest.
#[track_caller]
pub fn show(desk: Desk, [width, height]: [f32; 2]) -> Driven {
    let mut harness = Harness::builder()
        .with_size(vec2(width, height))
        .with_max_steps(60)
        .build_ui_state(|ui, window: &mut Window| window.show(ui), Window::new(desk, false));
    harness.run();
    harness
}

/// A window on a dance that has no file.
#[track_caller]
pub fn show_dance(dance: Dance, size: [f32; 2]) -> Driven {
    show(Desk::new(dance, None, Recent::default()).unwrap(), size)
}

/// A window as it opens without a file.
#[track_caller]
pub fn show_sample(size: [f32; 2]) -> Driven {
    show(Desk::with_sample(Recent::default()), size)
}

/// The desk of the window.
pub fn desk(harness: &Driven) -> &Desk {
    &harness.state().desk
}

/// The dance on the desk.
pub fn dance(harness: &Driven) -> Dance {
    desk(harness).dance().clone()
}

/// The count at the playhead.
pub fn count(harness: &Driven) -> f64 {
    desk(harness).player().count
}

/// What would be undone; empty when nothing would.
pub fn undo_name(harness: &Driven) -> String {
    desk(harness).undo_name().unwrap_or_default().to_owned()
}

/// What the window tells, which must be something.
#[track_caller]
pub fn notice(harness: &Driven) -> String {
    desk(harness).notice().expect("a notice").to_owned()
}

/// Has the desk do something.
#[track_caller]
pub fn take(harness: &mut Driven, ask: Ask) {
    harness.state_mut().desk.apply(ask);
    harness.run();
}

/// Presses a key.
#[track_caller]
pub fn press(harness: &mut Driven, key: Key) {
    harness.key_press(key);
    harness.run();
}

/// Presses a key with others held.
#[track_caller]
pub fn press_with(harness: &mut Driven, modifiers: Modifiers, key: Key) {
    harness.key_press_modifiers(modifiers, key);
    harness.run();
}

/// Types into the field that has the focus.
#[track_caller]
pub fn write(harness: &mut Driven, text: &str) {
    harness.event(Event::Text(text.to_owned()));
    harness.run();
}

/// Types as a keyboard does: each letter is a key as well, and comes in a frame of its own.
#[track_caller]
pub fn strike(harness: &mut Driven, text: &str) {
    for letter in text.chars() {
        let name = if letter == ' ' { "Space".to_owned() } else { letter.to_uppercase().to_string() };
        if let Some(key) = Key::from_name(&name) {
            for pressed in [true, false] {
                let modifiers = Modifiers::NONE;
                harness.event(Event::Key { key, physical_key: None, pressed, repeat: false, modifiers });
                if pressed {
                    harness.event(Event::Text(letter.to_string()));
                }
            }
        } else {
            harness.event(Event::Text(letter.to_string()));
        }
        // What has begun to play never comes to rest.
        harness.run_ok();
    }
}

/// Types over a path that is proposed.
#[track_caller]
pub fn write_path(harness: &mut Driven, path: &Path) {
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    write(harness, &path.display().to_string());
}

/// Types over a path that is proposed, and takes it.
#[track_caller]
pub fn type_path(harness: &mut Driven, path: &Path) {
    write_path(harness, path);
    press(harness, Key::Enter);
}

/// Clicks with the mouse.
#[track_caller]
pub fn click(harness: &mut Driven, label: &str) {
    harness.get_by_label(label).click();
    harness.run();
}

/// Opens a tab of a side.
#[track_caller]
pub fn open_tab(harness: &mut Driven, name: &str) {
    harness.get_by_role_and_label(Role::Tab, name).click();
    harness.run_ok();
}

/// Opens the shelf under the running order.
#[track_caller]
pub fn open_shelf(harness: &mut Driven) {
    if harness.query_by_label("Put in Hey").is_none() {
        activate(harness, "Figure shelf");
    }
}

/// Clicks as a screen reader does, wherever it is and whatever lies over it.
#[track_caller]
pub fn activate(harness: &mut Driven, label: &str) {
    harness.get_by_label(label).click_accesskit();
    harness.run();
}

/// Moves the mouse.
#[track_caller]
pub fn hover(harness: &mut Driven, at: Pos2) {
    harness.hover_at(at);
    harness.run();
}

/// Presses the right button of the mouse and lets go of it where it is.
pub fn right_click(harness: &mut Driven, at: Pos2) {
    hover(harness, at);
    for pressed in [true, false] {
        let button = PointerButton::Secondary;
        harness.event(Event::PointerButton { pos: at, button, pressed, modifiers: Modifiers::NONE });
    }
    harness.run();
}

/// Moves the mouse and presses its button.
#[track_caller]
pub fn hold(harness: &mut Driven, at: Pos2) {
    hover(harness, at);
    harness.drag_at(at);
    harness.run();
}

/// Lets go of the button of the mouse.
#[track_caller]
pub fn let_go(harness: &mut Driven, at: Pos2) {
    harness.drop_at(at);
    harness.run();
}

/// Presses and moves in steps with a frame between, as a hand does, and does not let go.
#[track_caller]
pub fn pull(harness: &mut Driven, from: Pos2, to: Pos2) {
    hold(harness, from);
    for step in 1..=6 {
        hover(harness, from + (to - from) * (step as f32 / 6.0));
    }
}

/// Presses, moves in steps and lets go.
#[track_caller]
pub fn drag(harness: &mut Driven, from: Pos2, to: Pos2) {
    pull(harness, from, to);
    let_go(harness, to);
}

/// How the floor lies in the window.
pub fn frame(harness: &mut Driven) -> Frame {
    let window = harness.state_mut();
    let rect = window.floor_rect;
    window.floor.frame(&window.desk, rect)
}

/// Where a place on the floor is in the window.
pub fn at(harness: &mut Driven, x: f64, y: f64) -> Pos2 {
    frame(harness).to_picture(x, y).into()
}

/// Where a dancer is on the floor.
pub fn where_is(harness: &Driven, dancer: usize) -> (f64, f64) {
    let pose = desk(harness).motion().pose(Dancer(dancer), count(harness));
    (pose.x, pose.y)
}

/// Where a dancer is in the window.
pub fn place(harness: &mut Driven, dancer: usize) -> Pos2 {
    let (x, y) = where_is(harness, dancer);
    at(harness, x, y)
}

/// Takes what is at a place along to another, and holds it there.
pub fn carry(harness: &mut Driven, from: Pos2, to: Pos2) {
    harness.hover_at(from);
    harness.run_ok();
    harness.drag_at(from);
    harness.run_ok();
    for step in 1..=6 {
        harness.hover_at(from + (to - from) * (step as f32 / 6.0));
        harness.run_ok();
    }
}
