use crate::desk::{Ask, Beats, Desk, Seen, ViewAsk};
use crate::window::theme;
use egui::Ui;

/// The choice of view, at the foot of the floor.
pub fn show_views(ui: &mut Ui, desk: &Desk, rect: egui::Rect, asks: &mut Vec<Ask>) {
    let area = egui::Rect::from_min_max(
        egui::pos2(rect.left() + 14.0, rect.bottom() - 34.0),
        egui::pos2(rect.right() - 8.0, rect.bottom() - 6.0),
    );
    // Where the floor is moved or made larger dancers can lie under the row.
    let under = ui.painter().add(egui::Shape::Noop);
    let row = ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 2.0;
            // In a narrow floor the row says less, so that all of it can be reached.
            let narrow = rect.width() < 440.0;
            if narrow {
                ui.spacing_mut().button_padding.x = 5.0;
            } else {
                ui.weak("view");
            }
            let top = if narrow { "at top" } else { "music at top" };
            let own =
                desk.chosen().map_or_else(|| "own facing".to_owned(), |dancer| format!("{dancer}'s facing"));
            for (seen, name, hint) in [
                (Seen::FromBottom, top.to_owned(), "As you look up the set"),
                (Seen::FromTop, "at bottom".to_owned(), "As the musicians see it"),
                (Seen::OwnFacing, own, "As the chosen dancer faces"),
            ] {
                let button = egui::Button::selectable(desk.seen() == seen, name);
                if ui.add(button).on_hover_text(format!("{hint} (V)")).clicked() {
                    asks.push(Ask::View(ViewAsk::See(seen)));
                }
            }
            let button = egui::Button::selectable(desk.trails(), "paths");
            if ui.add(button).on_hover_text("Paths on or off (T)").clicked() {
                asks.push(Ask::View(ViewAsk::ToggleTrails));
            }
            let button = egui::Button::selectable(desk.beats() == Beats::Shown, "beats");
            if ui.add(button).on_hover_text("Where they are at the strong beats, on or off (B)").clicked() {
                asks.push(Ask::View(ViewAsk::ToggleBeats));
            }
            if (desk.zoom() - 1.0).abs() > 1e-3 || desk.pan() != [0.0, 0.0] {
                let button = egui::Button::new("fit").frame_when_inactive(false);
                if ui.add(button).on_hover_text("The whole floor again (F)").clicked() {
                    asks.push(Ask::View(ViewAsk::FitFloor));
                }
            }
        });
    });
    let fill = theme::colour(desk.ink().floor.faded(225));
    let ground = row.response.rect.expand2(egui::vec2(6.0, 2.0));
    ui.painter().set(under, egui::Shape::rect_filled(ground, 6.0, fill));
}
