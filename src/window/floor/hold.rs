//! What is held on the floor: with the mouse, and with the keyboard's focus.

use super::{Floor, picks::REACH};
use crate::desk::{Ask, DrawAsk, Grip};
use crate::picture::Frame;
use crate::window::keys::{goes_free, was_moved};
use egui::{PointerButton, Response, Ui};

impl Floor {
    /// Notes what has the keyboard's focus, so that arrow keys move it and not the focus.
    pub(super) fn take_focus(&mut self, ui: &Ui, response: &Response, grip: Grip) {
        if response.has_focus() {
            self.focused = Some(grip);
            // An open menu has them, to go into it and through it.
            let own = !egui::Popup::is_any_open(ui.ctx());
            let arrows =
                egui::EventFilter { horizontal_arrows: own, vertical_arrows: own, ..Default::default() };
            ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
        }
    }

    /// Takes a drag of something that is at a place on the floor.
    pub(super) fn drag(
        &mut self,
        ui: &Ui,
        response: &Response,
        frame: &Frame,
        grip: Grip,
        (x, y): (f64, f64),
        asks: &mut Vec<Ask>,
    ) {
        if response.drag_started_by(PointerButton::Primary) {
            let from = ui.input(|input| input.pointer.press_origin());
            if let Some(from) = from.or_else(|| response.interact_pointer_pos()) {
                let (held_x, held_y) = frame.to_floor(from.into());
                self.offset = (x - held_x, y - held_y);
            }
            asks.push(Ask::Draw(DrawAsk::BeginDrag(grip)));
        }
        if was_moved(response)
            && let Some(pointer) = response.interact_pointer_pos()
        {
            let (x, y) = frame.to_floor(pointer.into());
            // Alt or Ctrl lets go of what it would catch on.
            let free = goes_free(ui);
            let reach = if free { 0.0 } else { REACH / frame.scale };
            asks.push(Ask::Draw(DrawAsk::DragTo { x: x + self.offset.0, y: y + self.offset.1, reach }));
        }
        if response.drag_stopped_by(PointerButton::Primary) {
            asks.push(Ask::Draw(DrawAsk::EndDrag));
        }
    }
}
