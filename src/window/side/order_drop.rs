//! What comes into the running order: what is under it to put in, where what is carried would go in, and what to do where
//! nothing is danced yet.

use super::order_menu;
use crate::desk::{Ask, Desk, OrderAsk};
use crate::window::theme::colour;
use egui::{Align, Layout, Rect, Stroke, Ui, pos2};

/// What to do where nothing is danced yet.
pub fn show_bare(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.add_space(8.0);
    ui.label("No figures yet. Draw a new one, or put one in from the shelf.");
    if ui.button("Draw a new figure").clicked() {
        asks.push(Ask::Order(OrderAsk::NewFigure));
    }
    show_carried(ui, desk, &[], asks);
}

/// Where a figure carried from the shelf would go in, and on letting go, there it goes.
pub fn show_carried(ui: &Ui, desk: &Desk, rects: &[Rect], asks: &mut Vec<Ask>) {
    let Some(name) = egui::DragAndDrop::payload::<&'static str>(ui.ctx()) else { return };
    let Some(pointer) = ui.input(|input| input.pointer.interact_pos()) else { return };
    if !ui.clip_rect().contains(pointer) {
        return;
    }
    let gap = rects.iter().filter(|rect| rect.center().y < pointer.y).count();
    show_gap(ui, desk, rects, gap);
    if ui.input(|input| input.pointer.any_released()) {
        egui::DragAndDrop::clear_payload(ui.ctx());
        asks.push(Ask::Order(OrderAsk::PutIn(*name, Some(gap))));
    }
}

/// The mark between two lines of the running order.
pub fn show_gap(ui: &Ui, desk: &Desk, rects: &[Rect], gap: usize) {
    let Some(rect) = rects.get(gap).or(rects.last()) else { return };
    let y = if gap < rects.len() { rect.top() - 1.0 } else { rect.bottom() + 1.0 };
    // Over the first line and under the last one the mark would be cut off.
    let seen = ui.clip_rect().shrink(4.0);
    let y = y.clamp(seen.top(), seen.bottom().max(seen.top()));
    let pen = Stroke::new(2.5, colour(desk.ink().words));
    ui.painter().line_segment([pos2(rect.left() + 6.0, y), pos2(rect.right() - 2.0, y)], pen);
    ui.painter().circle_filled(pos2(rect.left() + 4.0, y), 4.0, colour(desk.ink().words));
}

/// What stands under the running order: what can be put in, and how much there is.
pub fn show_foot(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.add_space(5.0);
    ui.horizontal(|ui| {
        ui.menu_button("+ Figure", |ui| order_menu::show_add(ui, desk, asks))
            .response
            .on_hover_text("Put a figure in after the one at the playhead");
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            let many = |many: usize, one: &str| match many {
                1 => format!("1 {one}"),
                _ => format!("{many} {one}s"),
            };
            let bars = desk.motion().bars() as usize;
            let said = format!("{}, {}", many(desk.motion().spans().len(), "figure"), many(bars, "bar"));
            ui.add(egui::Label::new(egui::RichText::new(said).small().weak()).truncate());
        });
    });
}
