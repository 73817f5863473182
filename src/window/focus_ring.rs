use super::theme::colour;
use crate::desk::Desk;
use egui::{CornerRadius, Rect, Response, Stroke, StrokeKind, Ui};

/// Shows where the focus is, on a thing that the window draws itself.
pub fn focus_ring(ui: &Ui, response: &Response, place: Rect, desk: &Desk) {
    if response.has_focus() {
        let pen = Stroke::new(1.5, colour(desk.ink().words));
        ui.painter().rect_stroke(place, CornerRadius::same(4), pen, StrokeKind::Inside);
    }
}
