use super::Floor;
use crate::desk::{Ask, Desk, DrawAsk, Grip};
use crate::edits::RingTurn;
use crate::motion::wrap_half;
use crate::picture::{Anchor, Frame, Mark, RING_RADIUS, Stroke};
use crate::window::explain::explain_aside;
use crate::window::{
    context_menu::show_menu,
    keys::{goes_free, was_moved},
    turn_menu,
};
use crate::words::turned_words;
use egui::{CursorIcon, Id, PointerButton, Pos2, Rect, Role, Sense, Ui, WidgetInfo, vec2};

/// How much farther out each whole turn of an amount is drawn than the one before, metres.
const WOUND: f64 = 0.05;

impl Floor {
    /// The small ring about the chosen dancer that turns them: in front of them, or where the turn finishes that they are in the
    /// midst of.
    pub(super) fn show_facing(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
        let Some(dancer) = desk.chosen().filter(|_| !desk.player().playing) else { return };
        let Some(pose) = self.poses.get(dancer.index()).copied() else { return };
        let span = desk.span_here();
        let turn = span.and_then(|span| RingTurn::at(span, dancer, desk.player().count - span.begin()));
        let facing = turn.filter(|turn| turn.under_way).map_or(pose.facing, |turn| turn.finish());
        let on_ring = |facing: f64, out: f64| {
            let (sin, cos) = facing.to_radians().sin_cos();
            frame.to_picture(pose.x + (RING_RADIUS + out) * sin, pose.y + (RING_RADIUS + out) * cos)
        };
        let at: Pos2 = on_ring(facing, 0.0).into();
        let id = Id::unique("facing");
        let response = ui.interact(Rect::from_center_size(at, vec2(18.0, 18.0)), id, Sense::click_and_drag());
        let said = turn.filter(|turn| turn.amount.abs() >= 0.5).map(|turn| turned_words(turn.amount));
        response.widget_info(|| {
            let mut info = WidgetInfo::labeled(Role::Button, true, format!("Facing of {dancer}"));
            info.current_text_value.clone_from(&said);
            info
        });
        if let Some(pointer) = response.interact_pointer_pos() {
            let (x, y) = frame.to_floor(pointer.into());
            let direction = (x - pose.x).atan2(y - pose.y).to_degrees();
            if response.drag_started_by(PointerButton::Primary) {
                self.turning = (facing, 0.0);
                asks.push(Ask::Draw(DrawAsk::BeginDrag(Grip::Facing(dancer))));
            }
            // At the dancer's own middle there is no direction.
            if was_moved(&response) && (x - pose.x).hypot(y - pose.y) > 0.1 {
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
            ui.weak(format!("Turn {}", turn_menu::who(desk, dancer)));
            turn_menu::show_here(ui, desk, dancer, asks);
        });
        let lit = response.hovered() || response.dragged() || response.has_focus();
        let response = response.on_hover_cursor(CursorIcon::Grab);
        if desk.held().is_none() && !open {
            let said = match (turn.filter(|turn| turn.under_way), &said) {
                (Some(_), Some(said)) => {
                    format!(
                        "Where {dancer} finishes the turn under way, {said}. Drag round to turn farther or less far"
                    )
                }
                _ => "Drag round to turn; the way and the amount are kept".to_owned(),
            };
            explain_aside(&response, self.beside_set(frame, at), &said);
        }
        let held = desk.held() == Some(Grip::Facing(dancer));
        if let (Some(turn), Some(said)) = (turn, said)
            && (lit || held || turn.under_way)
        {
            self.show_amount(frame, desk, (turn, &said), &on_ring);
        }
        self.marks.push(Mark::Oval {
            at: at.into(),
            radii: [frame.length(0.1).clamp(2.5, 5.0) * if lit { 1.4 } else { 1.0 }; 2],
            turn: 0.0,
            fill: Some(desk.ink().floor),
            stroke: Some(Stroke { colour: desk.ink().words, width: 1.6 }),
        });
    }

    /// The way that a turn goes round the dancer, what is left of the whole circle, and how far in words.
    fn show_amount(
        &mut self,
        frame: &Frame,
        desk: &Desk,
        (turn, said): (RingTurn, &str),
        on_ring: &impl Fn(f64, f64) -> [f32; 2],
    ) {
        let ink = desk.ink();
        // A turn of more than once round winds outwards.
        let out = |degrees: f64| WOUND * (degrees.abs() / 360.0 - 1.0).max(0.0);
        let steps = (turn.amount.abs() / 5.0).ceil().clamp(2.0, 720.0) as u32;
        let part = |step: u32| turn.amount * f64::from(step) / f64::from(steps);
        let points = (0..=steps).map(|step| on_ring(turn.from + part(step), out(part(step)))).collect();
        self.marks.push(Mark::Line { points, stroke: Stroke { colour: ink.words, width: 2.2 }, dash: None });
        let left = 360.0 - turn.amount.abs();
        if left > 0.0 {
            let steps = (left / 5.0).ceil().clamp(2.0, 72.0) as u32;
            let rest =
                |step: u32| turn.finish() + turn.amount.signum() * left * f64::from(step) / f64::from(steps);
            let points = (0..=steps).map(|step| on_ring(rest(step), 0.0)).collect();
            let stroke = Stroke { colour: ink.quiet, width: 1.4 };
            self.marks.push(Mark::Line { points, stroke, dash: Some([2.0, 4.0]) });
        }
        // Beside the handle, on the side away from the dancer.
        let (middle, at) = (on_ring(turn.finish(), -RING_RADIUS), on_ring(turn.finish(), 0.0));
        let [right, down] = [at[0] - middle[0], at[1] - middle[1]];
        let gap = frame.length(0.16).clamp(12.0, 20.0);
        let (anchor, x) =
            if right < 0.0 { (Anchor::Right, at[0] - gap) } else { (Anchor::Left, at[0] + gap) };
        let y = if down < 0.0 { at[1] - 4.0 } else { at[1] + 12.0 };
        self.marks.push(Mark::Words {
            at: [x, y],
            size: 13.0,
            anchor,
            text: said.to_owned(),
            colour: ink.words,
            heavy: false,
        });
    }
}
