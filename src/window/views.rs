use crate::desk::{Ask, Beats, Desk, Seen, ViewAsk};
use crate::faults::WhatIf;
use crate::window::{side::draw_card, theme};
use egui::{Button, Ui};

/// Floors narrower than this have the views in a menu, points.
const NARROW: f32 = 590.0;

/// Floors narrower than this have no space between the views, points.
const CLOSE: f32 = 680.0;

/// Floors lower than this have the views in menus one over the other, beside the dancers, points.
const LOW: f32 = 310.0;

/// Whether the views stand one over the other at the left of the floor, and not in a row at its foot: where it is low, the
/// dancers need all of its height.
pub fn views_stand_aside(floor: egui::Rect) -> bool {
    floor.height() < LOW
}

/// The choice of view, at the foot of the floor: `hidden` is whether somebody is out of sight. Gives where it ends.
pub fn show_views(ui: &mut Ui, desk: &Desk, rect: egui::Rect, hidden: bool, asks: &mut Vec<Ask>) -> f32 {
    let aside = views_stand_aside(rect);
    let high = if aside { 3.0 * 29.0 } else { 28.0 };
    let area = egui::Rect::from_min_max(
        egui::pos2(rect.left() + 14.0, (rect.bottom() - high - 6.0).max(rect.top() + 2.0)),
        egui::pos2(rect.right() - 8.0, rect.bottom() - 6.0),
    );
    let layout = if aside {
        egui::Layout::bottom_up(egui::Align::Min)
    } else {
        egui::Layout::left_to_right(egui::Align::Center)
    };
    // Where the floor is moved or made larger dancers can lie under the row.
    let under = ui.painter().add(egui::Shape::Noop);
    let row = ui.scope_builder(egui::UiBuilder::new().max_rect(area).layout(layout), |ui| {
        // In a row that has just room for all of them they stand side by side.
        ui.spacing_mut().item_spacing = egui::vec2(if rect.width() < CLOSE { 0.0 } else { 2.0 }, 3.0);
        let text = egui::RichText::new("fit");
        let text = if hidden { text.color(theme::colour(desk.ink().fault)) } else { text };
        let button = ui.add(Button::new(text).frame_when_inactive(hidden));
        let hint = if hidden {
            "Somebody is out of sight. The whole floor again (F)"
        } else {
            "The whole floor again (F)"
        };
        if button.on_hover_text(hint).clicked() {
            asks.push(Ask::View(ViewAsk::FitFloor));
        }
        if aside || rect.width() < draw_card::NARROW {
            ui.menu_button("draw…", |ui| draw_card::show_in_menu(ui, desk, asks));
        }
        if aside || rect.width() < NARROW {
            ui.menu_button("see…", |ui| {
                if show_choices(ui, desk, asks) {
                    ui.close();
                }
            });
        } else {
            ui.weak("see");
            show_choices(ui, desk, asks);
        }
    });
    let fill = theme::colour(desk.ink().floor.faded(225));
    let ground = row.response.rect.expand2(egui::vec2(6.0, 2.0));
    ui.painter().set(under, egui::Shape::rect_filled(ground, 6.0, fill));
    ground.right()
}

/// Which way up, and what is drawn; gives whether one was chosen.
fn show_choices(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) -> bool {
    let before = asks.len();
    show_seen(ui, desk, (Seen::FromBottom, "music at the top", "As you look up the set"), asks);
    show_seen(ui, desk, (Seen::FromTop, "from the music", "As the musicians see it"), asks);
    let button = Button::selectable(desk.trails(), "paths");
    if ui.add(button).on_hover_text("Paths on or off (T)").clicked() {
        asks.push(Ask::View(ViewAsk::ToggleTrails));
    }
    let button = Button::selectable(desk.beats() == Beats::Shown, "beats");
    if ui.add(button).on_hover_text("Where they are at the strong beats, on or off (B)").clicked() {
        asks.push(Ask::View(ViewAsk::ToggleBeats));
    }
    let button = Button::selectable(desk.eye_level(), "eye level");
    let hint = "The body at eye level, large: the steps, the free foot, the hands (E)";
    if ui.add(button).on_hover_text(hint).clicked() {
        asks.push(Ask::View(ViewAsk::ToggleEyeLevel));
    }
    let shown = desk.what_if();
    let hint = "What if the chosen dancer were late, early or short of the way: whom they would meet (W)";
    if ui.add(Button::selectable(shown.is_some(), "what if")).on_hover_text(hint).clicked() {
        asks.push(Ask::View(ViewAsk::WhatIf(shown.is_none().then(WhatIf::default))));
    }
    // Last, since it is as wide as the number of whoever is chosen.
    let own = desk.chosen().map_or_else(|| "as they face".to_owned(), |dancer| format!("as {dancer} faces"));
    show_seen(ui, desk, (Seen::OwnFacing, &own, "As the chosen dancer faces"), asks);
    asks.len() > before
}

/// One way of looking at the floor.
fn show_seen(ui: &mut Ui, desk: &Desk, (seen, name, hint): (Seen, &str, &str), asks: &mut Vec<Ask>) {
    let button = Button::selectable(desk.seen() == seen, name);
    if ui.add(button).on_hover_text(format!("{hint} (V)")).clicked() {
        asks.push(Ask::View(ViewAsk::See(seen)));
    }
}
