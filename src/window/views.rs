use crate::desk::{Ask, Beats, Desk, Seen, ViewAsk};
use crate::window::theme;
use egui::{Button, Ui};

/// Floors narrower than this have the views in a menu, points.
const NARROW: f32 = 590.0;

/// The choice of view, at the foot of the floor: `hidden` is whether somebody is out of sight.
pub fn show_views(ui: &mut Ui, desk: &Desk, rect: egui::Rect, hidden: bool, asks: &mut Vec<Ask>) {
    let area = egui::Rect::from_min_max(
        egui::pos2(rect.left() + 14.0, rect.bottom() - 34.0),
        egui::pos2(rect.right() - 8.0, rect.bottom() - 6.0),
    );
    // Where the floor is moved or made larger dancers can lie under the row.
    let under = ui.painter().add(egui::Shape::Noop);
    let row = ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            if rect.width() < NARROW {
                ui.menu_button("see…", |ui| {
                    if show_choices(ui, desk, asks) {
                        ui.close();
                    }
                });
            } else {
                ui.weak("see");
                show_choices(ui, desk, asks);
            }
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
        });
    });
    let fill = theme::colour(desk.ink().floor.faded(225));
    let ground = row.response.rect.expand2(egui::vec2(6.0, 2.0));
    ui.painter().set(under, egui::Shape::rect_filled(ground, 6.0, fill));
}

/// Which way up, and what is drawn; gives whether one was chosen.
fn show_choices(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) -> bool {
    let before = asks.len();
    let own = desk.chosen().map_or_else(|| "as they face".to_owned(), |dancer| format!("as {dancer} faces"));
    for (seen, name, hint) in [
        (Seen::FromBottom, "music at the top".to_owned(), "As you look up the set"),
        (Seen::FromTop, "from the music".to_owned(), "As the musicians see it"),
        (Seen::OwnFacing, own, "As the chosen dancer faces"),
    ] {
        let button = Button::selectable(desk.seen() == seen, name);
        if ui.add(button).on_hover_text(format!("{hint} (V)")).clicked() {
            asks.push(Ask::View(ViewAsk::See(seen)));
        }
    }
    let button = Button::selectable(desk.trails(), "paths");
    if ui.add(button).on_hover_text("Paths on or off (T)").clicked() {
        asks.push(Ask::View(ViewAsk::ToggleTrails));
    }
    let button = Button::selectable(desk.beats() == Beats::Shown, "beats");
    if ui.add(button).on_hover_text("Where they are at the strong beats, on or off (B)").clicked() {
        asks.push(Ask::View(ViewAsk::ToggleBeats));
    }
    asks.len() > before
}
