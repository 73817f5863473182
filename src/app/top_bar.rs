use super::{ask::Ask, desk::Desk, keep_ask::KeepAsk, text_size, theme::colour};
use crate::picture::{SLATE, words_width};
use egui::{Align, Button, Layout, RichText, Ui, containers::menu::MenuButton};

/// The title, whether it is saved, and what can be done with the whole dance.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.horizontal_centered(|ui| {
        ui.add_space(6.0);
        let whole = ui.available_width();
        let width = (whole - 690.0).max(80.0);
        ui.scope(|ui| {
            ui.set_max_width(width);
            ui.add(egui::Label::new(RichText::new(&desk.dance().title).heading()).truncate());
        });
        // The side and the name of the file stand where the buttons leave room for them.
        let room = ui.available_width() - BUTTONS;
        let side = words_width(&desk.dance().side, 14.5);
        if !desk.dance().side.is_empty() && room > side + 190.0 {
            ui.weak(&desk.dance().side);
        }
        let (rect, dot) = ui.allocate_exact_size(egui::vec2(10.0, 10.0), egui::Sense::hover());
        let (ink, said) = match (desk.path(), desk.unsaved()) {
            (None, true) => (desk.ink.odd, "not saved yet".to_owned()),
            (Some(_), true) => (desk.ink.odd, format!("{}, not saved yet", desk.file_name())),
            (Some(_), false) => (desk.ink.well, desk.file_name()),
            (None, false) => (desk.ink.quiet, "sample".to_owned()),
        };
        ui.painter().circle_filled(rect.center(), 4.0, colour(ink));
        let room = ui.available_width() - BUTTONS;
        if room > 50.0 {
            ui.scope(|ui| {
                ui.set_max_width(room);
                let said = RichText::new(&said).small().color(colour(desk.ink.quiet));
                ui.add(egui::Label::new(said).truncate());
            });
        } else {
            dot.on_hover_text(&said);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            put(ui, "Help", true, "Keys and mouse (F1)", Ask::ToggleHelp, asks);
            menu(ui, "View", |ui| show_view(ui, desk, asks));
            put(ui, "Still…", true, "A picture of this moment (Ctrl+E)", Ask::AskStill, asks);
            put(
                ui,
                "Handout…",
                true,
                "Sheets, the notebook, a page for a phone (Ctrl+P)",
                Ask::AskHandout,
                asks,
            );
            menu(ui, "File", |ui| show_file(ui, desk, asks));
            put(ui, "Save", true, "Save (Ctrl+S)", Ask::Save, asks);
            put(ui, "Open…", true, "Open a dance (Ctrl+O)", Ask::AskOpen, asks);
            put(ui, "New…", true, "A new dance (Ctrl+N)", Ask::AskNew, asks);
            // What would be undone is named as far as there is room; the hint has all of it.
            let letters = if whole > 1200.0 {
                24
            } else if whole > 1060.0 {
                10
            } else {
                0
            };
            let named = |verb: &str, name: Option<&str>| match name.filter(|_| letters > 0) {
                Some(name) if name.chars().count() > letters => {
                    let short: String = name.chars().take(letters).collect();
                    format!("{verb} {}…", short.trim_end())
                }
                Some(name) => format!("{verb} {name}"),
                None => verb.to_owned(),
            };
            let hint = |verb: &str, name: Option<&str>, keys: &str| {
                format!("{verb} {} ({keys})", name.unwrap_or_default()).replace("  ", " ")
            };
            let redo = desk.redo_name();
            let said = hint("Redo", redo, "Ctrl+Shift+Z");
            put(ui, &named("Redo", redo), redo.is_some(), &said, Ask::Redo, asks);
            let undo = desk.undo_name();
            let said = hint("Undo", undo, "Ctrl+Z");
            put(ui, &named("Undo", undo), undo.is_some(), &said, Ask::Undo, asks);
        });
    });
}

/// What the buttons take when what would be undone is not named, points.
const BUTTONS: f32 = 600.0;

/// A button that shows its edge only under the pointer.
fn put(ui: &mut Ui, name: &str, enabled: bool, hint: &str, ask: Ask, asks: &mut Vec<Ask>) {
    let button = ui.add_enabled(enabled, Button::new(name).frame_when_inactive(false));
    if button.on_hover_text(hint).clicked() {
        asks.push(ask);
    }
}

fn menu(ui: &mut Ui, name: &str, show: impl FnOnce(&mut Ui)) {
    MenuButton::from_button(Button::new(name).frame_when_inactive(false)).ui(ui, |ui| {
        ui.set_min_width(190.0);
        show(ui);
    });
}

/// What is done less often with files.
fn show_file(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let own = desk.path().is_some();
    for (name, enabled, hint, ask) in [
        ("Save as…", true, "Save to another file (Ctrl+Shift+S)", Ask::AskSaveAs),
        ("Compare…", true, "Lay another version of this dance beside it", Ask::AskCompare),
        ("Earlier saves…", own, "The last ten saves of this file", Ask::Keep(KeepAsk::AskEarlier)),
        ("Unsaved work…", true, "Work that was not saved when a window ended", Ask::Keep(KeepAsk::AskLeft)),
    ] {
        let button = ui.add_enabled(enabled, Button::new(name).frame_when_inactive(false));
        if button.on_hover_text(hint).on_disabled_hover_text("Once the dance has a file").clicked() {
            asks.push(ask);
            ui.close();
        }
    }
}

/// How the window looks.
fn show_view(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let slate = desk.ink == SLATE;
    for (name, chosen) in [("Slate", slate), ("Paper", !slate)] {
        if ui.selectable_label(chosen, name).clicked() && !chosen {
            asks.push(Ask::ToggleTheme);
            ui.close();
        }
    }
    ui.separator();
    text_size::show_menu(ui, desk, asks);
}
