use super::axis::{BarAxis, to_quarter};
use crate::desk::{Ask, DrawAsk, Grip};
use crate::window::keys::was_moved;
use egui::{PointerButton, Response, Ui};

/// Takes a drag along the bars of something that is at a count of the dance. `offset` is from the pointer to that moment, counts.
/// A press that goes nowhere, however long it is held, moves nothing.
pub fn drag_along(
    ui: &Ui,
    response: &Response,
    axis: BarAxis,
    (grip, moment): (Grip, f64),
    offset: &mut f64,
    asks: &mut Vec<Ask>,
) {
    if response.drag_started_by(PointerButton::Primary) {
        let from = ui.input(|input| input.pointer.press_origin());
        *offset = from.map_or(0.0, |from| moment - axis.count(from.x));
        asks.push(Ask::Draw(DrawAsk::BeginDrag(grip)));
    }
    if was_moved(response)
        && let Some(pointer) = response.interact_pointer_pos()
    {
        asks.push(Ask::Draw(DrawAsk::DragToCount(to_quarter(ui, axis.count(pointer.x) + *offset))));
    }
    if response.drag_stopped_by(PointerButton::Primary) {
        asks.push(Ask::Draw(DrawAsk::EndDrag));
    }
}
