use crate::desk::{Ask, Desk, ViewAsk};
use crate::picture::Frame;
use egui::{PointerButton, Rect, Response, Ui};

/// Zooming and moving the floor, and letting go of the chosen dancer.
pub fn move_view(ui: &Ui, desk: &Desk, rect: Rect, frame: &Frame, response: &Response, asks: &mut Vec<Ask>) {
    // A click that puts a menu away is for nothing else.
    if response.clicked() && !egui::Popup::is_any_open(ui.ctx()) {
        asks.push(Ask::View(ViewAsk::Choose(None)));
    }
    if response.dragged_by(PointerButton::Middle) || response.dragged_by(PointerButton::Secondary) {
        // With what it took to know a drag from a click, so that the floor stays under the pointer.
        let whole = response.total_drag_delta().filter(|_| response.drag_started());
        let moved = whole.unwrap_or(response.drag_delta());
        if moved != egui::Vec2::ZERO {
            asks.push(Ask::View(ViewAsk::Pan(moved.into())));
        }
    }
    if let Some(at) = ui.input(|input| input.pointer.hover_pos()).filter(|at| rect.contains(*at))
        && desk.question().is_none()
        && ui.rect_contains_pointer(rect)
    {
        let (zoom, scroll) = ui.input(|input| (input.zoom_delta(), input.smooth_scroll_delta().y));
        let factor = zoom * (scroll / 240.0).exp();
        if (factor - 1.0).abs() > 1e-4 {
            let middle = [frame.middle[0] - desk.pan()[0], frame.middle[1] - desk.pan()[1]];
            asks.push(Ask::View(ViewAsk::Zoom(factor, [at.x - middle[0], at.y - middle[1]])));
        }
    }
}
