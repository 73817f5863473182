//! What can be done with the photographs under the floor: in the menu of the floor, and in that of a mark.

use crate::dance::{Strength, Underlay, limits};
use crate::desk::{Ask, Desk, PhotoAsk};
use crate::window::context_menu::{choice, item};
use egui::Ui;

/// The photographs that lie here, and another one to lay.
pub fn show_all(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.menu_button("Photographs", |ui| {
        if item(ui, true, "Lay one under the floor…", "PNG, JPEG or WebP; a drop or Ctrl+V does it too") {
            asks.push(Ask::Photo(PhotoAsk::AskFile));
        }
        let all = &desk.dance().underlay;
        if !all.is_empty() {
            ui.separator();
        }
        for (index, photo) in all.iter().enumerate().take(limits::MOST_PHOTOGRAPHS) {
            ui.menu_button(shown(photo, index), |ui| show_one(ui, desk, index, asks));
        }
    });
}

/// What one is called where there may be several of one name.
pub fn shown(photo: &Underlay, index: usize) -> String {
    format!("{} · {}", index + 1, crate::dance::shown_name(photo.name()))
}

/// What can be done with one.
pub fn show_one(ui: &mut Ui, desk: &Desk, photo: usize, asks: &mut Vec<Ask>) {
    let Some(own) = desk.dance().underlay.get(photo) else { return };
    if item(ui, true, "Marks and places…", "What in it belongs where on the floor") {
        asks.push(Ask::Photo(PhotoAsk::Show(photo)));
    }
    ui.separator();
    for strength in Strength::ALL {
        let name = crate::window::context_menu::capital(strength.words());
        if choice(ui, own.strength == strength, &name, "(P)") {
            asks.push(Ask::Photo(PhotoAsk::Strength(photo, strength)));
        }
    }
    ui.separator();
    let hint = "Its marks keep still, and their flags are put away";
    if choice(ui, own.locked, "Set", hint) {
        asks.push(Ask::Photo(PhotoAsk::Lock(photo, !own.locked)));
    }
    let alone = own.figure.is_some();
    if choice(ui, alone, "Under one figure alone", "The figure at the playhead; otherwise the whole dance") {
        asks.push(Ask::Photo(PhotoAsk::OneFigure(photo, !alone)));
    }
    let inside = !own.inside.is_empty();
    let hint = "In one file with the dance, where it is under 1 MB; otherwise by the path of its own";
    if choice(ui, inside, "Inside the dance", hint) {
        asks.push(Ask::Photo(PhotoAsk::KeepInside(photo, !inside)));
    }
    ui.separator();
    if item(ui, true, "Take it away", "From under the floor; its file stays") {
        asks.push(Ask::Photo(PhotoAsk::TakeAway(photo)));
    }
}
