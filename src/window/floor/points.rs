use super::Floor;
use crate::desk::{Ask, Desk, DrawAsk, Grip, PlayAsk};
use crate::edits::{LegPoint, leg_points};
use crate::picture::{Frame, Mark, Stroke};
use crate::window::{
    context_menu::show_menu,
    explain::explain_aside,
    one_press::pressed_once,
    path_menu::{self, PathPoint, is_at},
};
use egui::{CursorIcon, Id, Pos2, Rect, Role, Sense, Ui, WidgetInfo, vec2};

impl Floor {
    /// The points of the chosen dancer's path, to drag.
    pub(super) fn show_points(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
        let (Some(dancer), Some(span_index)) = (desk.chosen(), desk.span()) else { return };
        let Some(span) = desk.motion().span(span_index) else { return };
        if !desk.trails() || desk.player().playing {
            return;
        }
        for point in nearest_last(leg_points(span, dancer), desk.player().count) {
            let at: Pos2 = frame.to_picture(point.x, point.y).into();
            let id = Id::unique(("path point", span_index, dancer, point.of));
            let response =
                ui.interact(Rect::from_center_size(at, vec2(16.0, 16.0)), id, Sense::click_and_drag());
            let number =
                point.of.point.map_or_else(|| "end".to_owned(), |index| format!("point {}", index + 1));
            response.widget_info(|| {
                WidgetInfo::labeled(
                    Role::Button,
                    true,
                    format!("Path {} {number} of {}", point.of.leg + 1, dancer),
                )
            });
            let grip = Grip::Point { span: span_index, dancer, point: point.of };
            self.drag(ui, &response, frame, grip, (point.x, point.y), asks);
            if response.clicked() {
                asks.push(Ask::Play(PlayAsk::Seek(point.count)));
            }
            self.take_focus(ui, &response, grip);
            let of = PathPoint {
                span: span_index,
                dancer,
                leg: point.of.leg,
                point: Some(point.of),
                count: point.count,
            };
            let open = show_menu(&response, |ui, _| path_menu::show(ui, desk, of, asks));
            let lit = response.hovered() || response.dragged() || response.has_focus();
            self.over_point |= response.hovered();
            let typing = ui.ctx().text_edit_focused();
            if lit && !typing && pressed_once(ui.ctx(), egui::Key::Delete) {
                asks.push(Ask::Draw(DrawAsk::DropPoint { span: span_index, dancer, point: point.of }));
            }
            let response = response.on_hover_cursor(CursorIcon::Grab);
            if desk.held().is_none() && !open {
                let said = "Drag to move this point of the path; click to go there; Delete takes it away; right click for more";
                explain_aside(&response, self.beside_set(frame, at), said);
            }
            // Smaller where the floor is, or they would hide the dancers.
            let size = frame.length(0.12).clamp(3.0, 6.0) * if lit { 1.4 } else { 1.0 };
            let (x, y) = (at.x, at.y);
            self.marks.push(Mark::Area {
                points: vec![[x, y - size], [x + size, y], [x, y + size], [x - size, y]],
                // Where a leg ends is filled, where it only goes through is hollow.
                fill: Some(if point.of.point.is_none() { desk.ink().words } else { desk.ink().floor }),
                stroke: Some(Stroke { colour: desk.ink().words, width: if lit { 2.2 } else { 1.4 } }),
            });
        }
    }
}

/// Points of a path in their order, but for several at one place: the one that is nearest to a count comes last, and lies over
/// the others.
fn nearest_last(mut points: Vec<LegPoint>, count: f64) -> Vec<LegPoint> {
    let far = |point: &LegPoint| (point.count - count).abs();
    let others = points.clone();
    points.sort_by_key(|point| {
        let mut there = others.iter().filter(|other| other.of != point.of && is_at(other, point)).peekable();
        there.peek().is_some() && there.all(|other| far(point) <= far(other))
    });
    points
}
