mod move_view;
mod notice;
mod picks;

use self::picks::{Picks, REACH, guide_marks, ring_marks};
use self::{move_view::move_view, notice::show_notice};
use crate::dance::{Dancer, SetKind};
use crate::desk::{Ask, Beats, Desk, DrawAsk, Grip, PlayAsk, Seen, ViewAsk};
use crate::edits::leg_points;
use crate::motion::{Pose, wrap_half};
use crate::picture::{
    Beside, FloorLook, Frame, Mark, RING_RADIUS, Stroke, beat_marks, body_marks, bounds, fault_marks,
    ghost_marks, music_marks, path_marks, scale_marks, space_marks, version_bodies, version_ways,
};
use crate::window::{keys::goes_free, paint::paint, side::draw_card, theme::colour};
use egui::{CursorIcon, Id, PointerButton, Pos2, Rect, Response, Role, Sense, Ui, WidgetInfo, vec2};

/// Floor shown round where the middles of bodies go, metres: room for a body and its arms.
const ROUND: f64 = 0.85;

/// The set from above, to look at and to draw on.
#[derive(Default)]
pub struct Floor {
    poses: Vec<Pose>,
    marks: Vec<Mark>,
    /// From where on the floor to the middle of what is dragged, metres.
    offset: (f64, f64),
    /// While a facing is dragged: the pointer's last direction, and degrees dragged so far.
    turning: (f64, f64),
    /// The part of the floor that is shown, and what it was worked out for.
    fitted: Option<(Fitted, [f64; 4])>,
    /// The direction on the floor that was last up, degrees clockwise from up.
    up: f64,
    picks: Picks,
    /// What has the keyboard's focus on the floor.
    pub focused: Option<Grip>,
}

/// The fitting that was asked for, and the set: another number of dancers is another floor.
type Fitted = (u64, SetKind, u32);

impl Floor {
    /// The part of the floor that the whole dance needs, metres: left, bottom, right, top. It stays until it is asked for
    /// again, or another dance comes.
    fn bounds(&mut self, desk: &Desk) -> [f64; 4] {
        let key = (desk.fitted(), desk.dance().set.kind, desk.dance().set.dancers);
        match self.fitted {
            // While something is dragged the floor keeps still in any case, or it would slide from under the pointer.
            Some((known, bounds)) if known == key || desk.held().is_some() => bounds,
            _ => {
                let mut bounds = bounds(desk.motion(), ROUND);
                if let Some(floor) = desk.dance().floor.as_ref().filter(|_| desk.space_shown()) {
                    let [left, bottom, right, top] = floor.edges();
                    let [x0, y0, x1, y1] = bounds;
                    bounds = [x0.min(left), y0.min(bottom), x1.max(right), y1.max(top + 0.3)];
                }
                self.fitted = Some((key, bounds));
                bounds
            }
        }
    }

    /// Whether somebody is out of sight at the playhead.
    #[must_use]
    pub fn hides_someone(&mut self, desk: &Desk, rect: Rect) -> bool {
        let frame = self.frame(desk, rect);
        self.poses.iter().any(|pose| !rect.contains(frame.to_picture(pose.x, pose.y).into()))
    }

    /// The frame of the floor as it is seen now, in a part of the window.
    #[must_use]
    pub fn frame(&mut self, desk: &Desk, rect: Rect) -> Frame {
        let bounds = self.bounds(desk);
        let up = match desk.seen() {
            Seen::FromBottom => 0.0,
            Seen::FromTop => 180.0,
            // While something is dragged the floor keeps still here too.
            Seen::OwnFacing if desk.held().is_some() => self.up,
            Seen::OwnFacing => {
                desk.chosen().map_or(0.0, |index| desk.motion().pose(index, desk.player().count).facing)
            }
        };
        // Room for the music at its end, and for the row of views at the foot.
        let low = rect.height() < LOW;
        let (above, below) = match desk.seen() {
            Seen::FromTop => (14.0, 88.0),
            _ if low => (36.0, 38.0),
            _ => (56.0, 38.0),
        };
        // What is proposed lies at the foot, and those whom it moves must be seen.
        let below = if desk.proposed().is_some() { below + 96.0 } else { below };
        // Where the floor is narrow, who follows and who is picked stand at the foot as well.
        let below = if rect.width() < draw_card::NARROW { below + 30.0 } else { below };
        let area =
            [rect.left() + 8.0, rect.top() + above, rect.width() - 16.0, rect.height() - above - below];
        let mut frame = Frame::fit(bounds, area, up);
        if desk.seen() == Seen::OwnFacing {
            // Turning with the dancer must not make the floor breathe.
            let [x0, y0, x1, y1] = bounds;
            frame.scale = f64::from(area[2].min(area[3])) / (x1 - x0).hypot(y1 - y0);
        }
        frame.scale *= f64::from(desk.zoom());
        frame.middle = [frame.middle[0] + desk.pan()[0], frame.middle[1] + desk.pan()[1]];
        frame
    }

    /// Shows the floor.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) -> Response {
        let (rect, response) = ui.allocate_exact_size(ui.available_size(), Sense::click_and_drag());
        response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, "Floor, seen from above"));
        let frame = self.frame(desk, rect);
        desk.motion().pose_all(desk.player().count, &mut self.poses);
        move_view(ui, desk, rect, &frame, &response, asks);
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, colour(desk.ink().floor));
        self.marks.clear();
        // The music is beyond the top of the set, wherever that is in this view.
        let [_, _, _, highest] = self.bounds(desk);
        let [x, y] = frame.to_picture(0.0, highest);
        // Clear of what stands at the head of the floor on either side, as far as there is room.
        let aside = |wide: f32| wide.min(rect.width() / 2.0 - 1.0).max(0.0);
        let (left, right) = (rect.left() + aside(250.0), rect.right() - aside(190.0));
        let scale = if rect.height() < LOW { 0.6 } else { 1.0 };
        let (top, bottom) = (rect.top() + 30.0 * scale, (rect.bottom() - 76.0).max(rect.top() + 30.0));
        let beyond = if desk.seen() == Seen::FromBottom { y - 20.0 } else { y };
        let at = [x.clamp(left, right), beyond.clamp(top, bottom)];
        music_marks(&mut self.marks, &desk.ink(), at, scale);
        let scale_at = [rect.right() - 20.0, rect.top() + 30.0 * scale];
        scale_marks(&mut self.marks, &desk.ink(), &frame, scale_at, 1.0);
        let look = FloorLook { chosen: desk.chosen(), holding: desk.dance().holding, trails: desk.trails() };
        // Points lie over the trails and under the bodies, and a body is what a drag takes where both are.
        path_marks(&mut self.marks, &frame, &desk.ink(), desk.motion(), desk.player().count, look);
        if desk.space_shown() || desk.dance().floor.is_some() {
            let outline = desk.space_shown().then(|| desk.space().outline.as_slice());
            space_marks(&mut self.marks, &frame, &desk.ink(), desk.dance().floor.as_ref(), outline);
        }
        self.show_others(desk, &frame);
        for fault in desk.faults_here() {
            fault_marks(&mut self.marks, &frame, &desk.ink(), desk.motion(), fault, desk.player().count);
        }
        self.focused = None;
        self.show_points(ui, desk, &frame, asks);
        self.show_dancers(ui, desk, &frame, asks);
        body_marks(&mut self.marks, &frame, &desk.ink(), &self.poses, look);
        if let Some(((here, there), places)) = desk.beside_here() {
            let beside = Beside { here, there, places: &places, count: desk.player().count };
            version_bodies(&mut self.marks, &frame, &desk.ink(), beside);
        }
        if let Some(mend) = desk.proposed() {
            let count = desk.player().count;
            let motions = (desk.motion().as_ref(), &mend.motion);
            ghost_marks(&mut self.marks, &frame, &desk.ink(), motions, &mend.dancers, count);
        }
        ring_marks(&mut self.marks, &frame, desk, &self.poses);
        guide_marks(&mut self.marks, &frame, desk, &self.poses);
        self.picks.show(ui, desk, (&frame, &self.poses), &response, &mut self.marks, asks);
        self.show_facing(ui, desk, &frame, asks);
        paint(&painter, &self.marks);
        show_notice(ui, desk, rect, asks);
        response
    }

    /// The ways of the other version, and the dancers at the strong beats.
    fn show_others(&mut self, desk: &Desk, frame: &Frame) {
        if desk.beats() == Beats::Shown {
            let at_beats = desk.at_beats();
            beat_marks(&mut self.marks, frame, &desk.ink(), desk.motion(), &at_beats, desk.player().count);
        }
        if let Some(((here, there), places)) = desk.beside_here() {
            let beside = Beside { here, there, places: &places, count: desk.player().count };
            version_ways(&mut self.marks, frame, &desk.ink(), beside);
        }
    }

    /// The points of the chosen dancer's path, to drag.
    fn show_points(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
        let (Some(dancer), Some(span_index)) = (desk.chosen(), desk.span()) else { return };
        let Some(span) = desk.motion().spans().get(span_index) else { return };
        if !desk.trails() || desk.player().playing {
            return;
        }
        for point in leg_points(span, dancer) {
            let at: Pos2 = frame.to_picture(point.x, point.y).into();
            let id = Id::unique(("path point", dancer, point.of));
            let response =
                ui.interact(Rect::from_center_size(at, vec2(16.0, 16.0)), id, Sense::click_and_drag());
            let number =
                point.of.point.map_or_else(|| "end".to_owned(), |index| format!("point {}", index + 1));
            response.widget_info(|| {
                WidgetInfo::labeled(
                    Role::Button,
                    true,
                    format!("Leg {} {number} of {}", point.of.leg + 1, dancer),
                )
            });
            let grip = Grip::Point { span: span_index, dancer, point: point.of };
            self.drag(ui, &response, frame, grip, (point.x, point.y), asks);
            if response.clicked() {
                asks.push(Ask::Play(PlayAsk::Seek(point.count)));
            }
            self.take_focus(ui, &response, grip);
            let lit = response.hovered() || response.dragged() || response.has_focus();
            let typing = ui.ctx().egui_wants_keyboard_input();
            if lit && !typing && ui.input(|input| input.key_pressed(egui::Key::Delete)) {
                asks.push(Ask::Draw(DrawAsk::DropPoint { span: span_index, dancer, point: point.of }));
            }
            let response = response.on_hover_cursor(CursorIcon::Grab);
            if desk.held().is_none() {
                response.on_hover_text(
                    "Drag to move this point of the path; click to go there; Delete takes it away",
                );
            }
            let size = if lit { 8.5 } else { 6.0 };
            let (x, y) = (at.x, at.y);
            self.marks.push(Mark::Area {
                points: vec![[x, y - size], [x + size, y], [x, y + size], [x - size, y]],
                // Where a leg ends is filled, where it only goes through is hollow.
                fill: Some(if point.of.point.is_none() { desk.ink().words } else { desk.ink().floor }),
                stroke: Some(Stroke { colour: desk.ink().words, width: if lit { 2.2 } else { 1.4 } }),
            });
        }
    }

    /// The dancers, to choose and to drag.
    fn show_dancers(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
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
            if (response.hovered() || response.has_focus()) && !response.dragged() {
                let ring = (0..=48).map(|step| {
                    let (sin, cos) = (step as f32 / 48.0 * std::f32::consts::TAU).sin_cos();
                    let radius = frame.length(0.36);
                    [at.x + radius * sin, at.y - radius * cos]
                });
                let stroke = Stroke { colour: desk.ink().quiet, width: 1.2 };
                self.marks.push(Mark::Line { points: ring.collect(), stroke, dash: None });
            }
            let cursor = if response.dragged() { CursorIcon::Grabbing } else { CursorIcon::Grab };
            response.on_hover_cursor(cursor);
        }
    }

    /// The small ring in front of the chosen dancer that turns them.
    fn show_facing(&mut self, ui: &Ui, desk: &Desk, frame: &Frame, asks: &mut Vec<Ask>) {
        let Some(dancer) = desk.chosen().filter(|_| !desk.player().playing) else { return };
        let Some(pose) = self.poses.get(dancer.index()).copied() else { return };
        let (sin, cos) = pose.facing.to_radians().sin_cos();
        let at: Pos2 = frame.to_picture(pose.x + RING_RADIUS * sin, pose.y + RING_RADIUS * cos).into();
        let id = Id::unique("facing");
        let response = ui.interact(Rect::from_center_size(at, vec2(18.0, 18.0)), id, Sense::drag());
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
        let lit = response.hovered() || response.dragged() || response.has_focus();
        let response = response.on_hover_cursor(CursorIcon::Grab);
        if desk.held().is_none() {
            response.on_hover_text("Drag round to turn; the way and the amount are kept");
        }
        self.marks.push(Mark::Oval {
            at: at.into(),
            radii: [if lit { 7.0 } else { 5.0 }; 2],
            turn: 0.0,
            fill: Some(desk.ink().floor),
            stroke: Some(Stroke { colour: desk.ink().words, width: 1.6 }),
        });
    }

    /// Notes what has the keyboard's focus, so that arrow keys move it and not the focus.
    fn take_focus(&mut self, ui: &Ui, response: &Response, grip: Grip) {
        if response.has_focus() {
            self.focused = Some(grip);
            let arrows =
                egui::EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
            ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
        }
    }

    /// Takes a drag of something that is at a place on the floor.
    fn drag(
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
        if moved(response)
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

/// Whether a drag has gone on in this frame. A pointer that is held still asks for nothing, so that nothing is
/// painted again; where it is let go counts, since the last move can come with it.
fn moved(response: &Response) -> bool {
    let held = response.dragged_by(PointerButton::Primary) && response.drag_delta() != egui::Vec2::ZERO;
    held || response.drag_stopped_by(PointerButton::Primary)
}

/// Floors lower than this have a smaller music, points.
const LOW: f32 = 400.0;
