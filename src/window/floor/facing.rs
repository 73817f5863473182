use super::{Floor, hold::moved, menus::show_turns};
use crate::desk::{Ask, Desk, DrawAsk, Grip};
use crate::motion::wrap_half;
use crate::picture::{Frame, Mark, RING_RADIUS, Stroke};
use crate::window::{context_menu::show_menu, keys::goes_free};
use egui::{CursorIcon, Id, PointerButton, Pos2, Rect, Role, Sense, Ui, WidgetInfo, vec2};

impl Floor {
    /// The small ring in front of the chosen dancer that turns them.
    pub(super) fn show_facing(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
        let Some(dancer) = desk.chosen().filter(|_| !desk.player().playing) else { return };
        let Some(pose) = self.poses.get(dancer.index()).copied() else { return };
        let (sin, cos) = pose.facing.to_radians().sin_cos();
        let at: Pos2 = frame.to_picture(pose.x + RING_RADIUS * sin, pose.y + RING_RADIUS * cos).into();
        let id = Id::unique("facing");
        let response = ui.interact(Rect::from_center_size(at, vec2(18.0, 18.0)), id, Sense::click_and_drag());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Facing of {dancer}")));
        if let Some(pointer) = response.interact_pointer_pos() {
            let (x, y) = frame.to_floor(pointer.into());
            let direction = (x - pose.x).atan2(y - pose.y).to_degrees();
            if response.drag_started_by(PointerButton::Primary) {
                self.turning = (pose.facing, 0.0);
                asks.push(Ask::Draw(DrawAsk::BeginDrag(Grip::Facing(dancer))));
            }
            // At the dancer's own middle there is no direction.
            if moved(&response) && (x - pose.x).hypot(y - pose.y) > 0.1 {
                let step = wrap_half(direction - self.turning.0);
                self.turning = (self.turning.0 + step, self.turning.1 + step);
                // To the nearest 15 degrees; with Alt or Ctrl to the nearest one.
                let part = if goes_free(ui) { 1.0 } else { 15.0 };
                let begun = self.turning.0 - self.turning.1;
                let wanted = ((begun + self.turning.1) / part).round() * part;
                asks.push(Ask::Draw(DrawAsk::DragBy(wanted - begun)));
            }
        }
        if response.drag_stopped_by(PointerButton::Primary) {
            asks.push(Ask::Draw(DrawAsk::EndDrag));
        }
        let open = show_menu(&response, |ui, _| {
            ui.weak(format!("Turn {dancer}"));
            show_turns(ui, &dancer.to_string(), |degrees| {
                asks.push(Ask::Draw(DrawAsk::TurnBy { dancer, degrees }));
            });
        });
        let lit = response.hovered() || response.dragged() || response.has_focus();
        let response = response.on_hover_cursor(CursorIcon::Grab);
        if desk.held().is_none() && !open {
            response.on_hover_text("Drag round to turn; the way and the amount are kept");
        }
        self.marks.push(Mark::Oval {
            at: at.into(),
            radii: [frame.length(0.1).clamp(2.5, 5.0) * if lit { 1.4 } else { 1.0 }; 2],
            turn: 0.0,
            fill: Some(desk.ink().floor),
            stroke: Some(Stroke { colour: desk.ink().words, width: 1.6 }),
        });
    }
}
