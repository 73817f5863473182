use crate::desk::{Ask, Desk, FaultAsk};
use crate::window::theme::colour;
use egui::{RichText, Ui};
use std::time::Duration;

/// A search that takes longer than this is told of.
const LONG: Duration = Duration::from_millis(250);

/// The mend that is proposed, over the foot of the floor: what it does, and whether to.
pub fn show_mend(ui: &mut Ui, desk: &Desk, floor: egui::Rect, asks: &mut Vec<Ask>) {
    let Some(mend) = desk.proposed() else {
        show_search(ui, desk, floor, asks);
        return;
    };
    show_card(ui, desk, floor, |ui| {
        ui.label(format!("{}.", mend.text));
        ui.horizontal(|ui| {
            let button = ui.button(RichText::new("Do it").strong());
            if button.on_hover_text("Enter").clicked() {
                asks.push(Ask::Fault(FaultAsk::TakeMend));
            }
            if ui.button("Leave it").on_hover_text("Escape").clicked() {
                asks.push(Ask::Fault(FaultAsk::LeaveMend));
            }
            let moved = format!("Nobody moves more than {:.2} m.", mend.moved);
            ui.weak(RichText::new(moved).small());
        });
    });
}

/// The search for a mend, once it takes so long that something should be said of it.
fn show_search(ui: &mut Ui, desk: &Desk, floor: egui::Rect, asks: &mut Vec<Ask>) {
    let Some(age) = desk.room_search_age() else { return };
    if let Some(left) = LONG.checked_sub(age) {
        ui.ctx().request_repaint_after(left);
        return;
    }
    show_card(ui, desk, floor, |ui| {
        ui.label("Looking for the least change that makes room…");
        if ui.button("Stop").on_hover_text("Escape").clicked() {
            asks.push(Ask::Fault(FaultAsk::LeaveMend));
        }
    });
}

/// A card over the foot of the floor.
fn show_card(ui: &mut Ui, desk: &Desk, floor: egui::Rect, show: impl FnOnce(&mut Ui)) {
    let width = (floor.width() - 40.0).min(520.0);
    let area = egui::Rect::from_min_max(
        egui::pos2(floor.center().x - width / 2.0, floor.bottom() - 132.0),
        egui::pos2(floor.center().x + width / 2.0, floor.bottom() - 44.0),
    );
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        let frame = egui::Frame::new().fill(colour(desk.ink().panel)).corner_radius(8).inner_margin(10);
        frame.stroke(egui::Stroke::new(1.5, colour(desk.ink().well))).show(ui, show);
    });
}
