use super::{Floor, menus};
use crate::dance::Dancer;
use crate::desk::{Ask, Desk, Grip, ViewAsk};
use crate::picture::{Anchor, Frame, Mark, Stroke};
use crate::window::{context_menu::show_menu_or, explain::explain_aside};
use crate::words::dancer_words;
use egui::{CursorIcon, Id, Pos2, Rect, Role, Sense, Ui, WidgetInfo, vec2};

impl Floor {
    /// The dancers, to choose and to drag.
    pub(super) fn show_dancers(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
        // The chosen one lies on top, as it is drawn: where two are in one place it is the one that a drag takes.
        let others = Dancer::all(self.poses.len()).filter(|dancer| desk.chosen() != Some(*dancer));
        for dancer in others.chain(desk.chosen()) {
            let Some(pose) = self.poses.get(dancer.index()).copied() else { continue };
            let at: Pos2 = frame.to_picture(pose.x, pose.y).into();
            let size = (frame.length(0.4)).max(18.0);
            let id = Id::unique(("dancer", dancer.index()));
            let response =
                ui.interact(Rect::from_center_size(at, vec2(size, size)), id, Sense::click_and_drag());
            response.widget_info(|| {
                WidgetInfo::selected(
                    Role::Button,
                    true,
                    desk.chosen() == Some(dancer),
                    format!("Dancer {}", pose.number),
                )
            });
            self.drag(ui, &response, frame, Grip::Dancer(dancer), (pose.x, pose.y), asks);
            if response.clicked() {
                let also = ui.input(|input| input.modifiers.shift || input.modifiers.command);
                asks.push(if also {
                    Ask::View(ViewAsk::AlsoPick(dancer))
                } else {
                    Ask::View(ViewAsk::Choose(Some(dancer)))
                });
            }
            self.take_focus(ui, &response, Grip::Dancer(dancer));
            // Where nothing has the focus the menu key is for whoever is chosen.
            let first = desk.chosen() == Some(dancer) && desk.question().is_none();
            let open = show_menu_or(&response, first, |ui, _| {
                menus::show_dancer(ui, desk, dancer, asks);
            });
            if (response.hovered() || response.has_focus()) && !response.dragged() {
                let ring = (0..=48).map(|step| {
                    let (sin, cos) = (step as f32 / 48.0 * std::f32::consts::TAU).sin_cos();
                    let radius = frame.length(0.36);
                    [at.x + radius * sin, at.y - radius * cos]
                });
                let stroke = Stroke { colour: desk.ink().quiet, width: 1.2 };
                self.marks.push(Mark::Line { points: ring.collect(), stroke, dash: None });
            }
            if desk.held() == Some(Grip::Dancer(dancer))
                && let Some(words) = desk.drag_words()
            {
                self.marks.push(Mark::Words {
                    at: [at.x, at.y - frame.length(0.62) - 8.0],
                    size: 13.0,
                    anchor: Anchor::Middle,
                    text: words,
                    colour: desk.ink().words,
                    heavy: false,
                });
            } else if response.contains_pointer() && desk.held().is_none() && !open && !desk.player().playing
            {
                let name = desk.dance().person(pose.number).unwrap_or_default();
                let said = dancer_words(desk.motion(), dancer, name, desk.player().count);
                explain_aside(&response, self.beside_set(frame, at), &said);
            }
            let cursor = if response.dragged() { CursorIcon::Grabbing } else { CursorIcon::Grab };
            response.on_hover_cursor(cursor);
        }
    }
}
