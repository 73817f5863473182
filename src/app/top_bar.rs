use super::{ask::Ask, desk::Desk, theme::colour};
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
        if !desk.dance().side.is_empty() && ui.available_width() > 760.0 {
            ui.weak(&desk.dance().side);
        }
        let (rect, _) = ui.allocate_exact_size(egui::vec2(10.0, 10.0), egui::Sense::hover());
        let (ink, said) = match (desk.path(), desk.unsaved()) {
            (None, true) => (desk.ink.odd, "not saved yet".to_owned()),
            (Some(_), true) => (desk.ink.odd, format!("{}, not saved yet", desk.file_name())),
            (Some(_), false) => (desk.ink.well, desk.file_name()),
            (None, false) => (desk.ink.quiet, "sample".to_owned()),
        };
        ui.painter().circle_filled(rect.center(), 4.0, colour(ink));
        ui.add(egui::Label::new(RichText::new(said).small().color(colour(desk.ink.quiet))).truncate());
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            let mut put = |ui: &mut Ui, name: String, enabled: bool, hint: &str, ask: Ask| {
                let button = ui.add_enabled(enabled, Button::new(name).frame_when_inactive(false));
                if button.on_hover_text(hint).clicked() {
                    asks.push(ask);
                }
            };
            put(ui, "Help".to_owned(), true, "Keys and mouse (F1)", Ask::ToggleHelp);
            let more = Button::new("More").frame_when_inactive(false);
            MenuButton::from_button(more).ui(ui, |ui| {
                put(
                    ui,
                    "Compare…".to_owned(),
                    true,
                    "Lay another version of this dance beside it",
                    Ask::AskCompare,
                );
            });
            let theme = if desk.ink == crate::picture::SLATE { "Paper" } else { "Slate" };
            put(ui, theme.to_owned(), true, "The other colours", Ask::ToggleTheme);
            put(ui, "Still…".to_owned(), true, "A picture of this moment (Ctrl+E)", Ask::AskStill);
            put(ui, "Save as…".to_owned(), true, "Save to another file (Ctrl+Shift+S)", Ask::AskSaveAs);
            put(ui, "Save".to_owned(), true, "Save (Ctrl+S)", Ask::Save);
            put(ui, "Open…".to_owned(), true, "Open a dance (Ctrl+O)", Ask::AskOpen);
            put(ui, "New…".to_owned(), true, "A new dance (Ctrl+N)", Ask::AskNew);
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
            put(ui, named("Redo", redo), redo.is_some(), &hint("Redo", redo, "Ctrl+Shift+Z"), Ask::Redo);
            let undo = desk.undo_name();
            put(ui, named("Undo", undo), undo.is_some(), &hint("Undo", undo, "Ctrl+Z"), Ask::Undo);
        });
    });
}
