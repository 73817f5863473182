mod dancers;
mod facing;
mod hold;
mod menus;
mod move_view;
mod notice;
mod photos;
mod picks;
mod points;
mod tips;
mod would;

use self::menus::{Here, show_floor};
use self::photos::PhotoTextures;
use self::picks::{Picks, guide_marks, ring_marks};
use self::{move_view::move_view, notice::show_notice, would::Would};
use crate::dance::SetKind;
use crate::desk::{Ask, Beats, Desk, Grip, Seen};
use crate::motion::Pose;
use crate::picture::{
    Beside, FloorLook, Frame, Mark, Reaches, beat_marks, body_marks, bounds, fault_marks, ghost_marks,
    music_marks, music_word, path_marks, scale_marks, space_marks, strike_marks, version_bodies,
    version_ways,
};
use crate::window::context_menu::{Opened, show_menu};
use crate::window::eye_level::show_eye_level;
use crate::window::{focus_ring::focus_ring, paint::paint, theme::colour, views::views_stand_aside, what_if};
use egui::{Rect, Response, Role, Sense, Ui, WidgetInfo};

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
    photos: PhotoTextures,
    /// Whom the chosen dancer would meet.
    would: Would,
    /// Where the menu of bare floor was asked for.
    here: Option<Here>,
    /// Whether a point of a path is under the pointer.
    pub over_point: bool,
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
        let (area, round) = room(rect, desk.seen());
        let [x0, y0, x1, y1] = bounds;
        let less = (ROUND - round).min((x1 - x0).min(y1 - y0) / 4.0);
        let bounds = [x0 + less, y0 + less, x1 - less, y1 - less];
        let mut frame = fit(bounds, area, (desk.seen(), up));
        if let Some(aside) = what_if::takes(desk, rect) {
            // Who would stand under what lies over the corner of the floor stands beside it.
            let half = half_width(bounds, area, (desk.seen(), &frame));
            let [left, right] = [frame.middle[0] - half, frame.middle[0] + half];
            let by = (rect.left() + aside - left).max(0.0);
            if right + by <= rect.right() - 8.0 {
                frame.middle[0] += by;
            } else {
                let [_, top, wide, high] = area;
                let beside = [rect.left() + aside, top, (wide - aside).max(10.0), high];
                frame = fit(bounds, beside, (desk.seen(), up));
            }
        }
        frame.scale *= f64::from(desk.zoom());
        frame.middle = [frame.middle[0] + desk.pan()[0], frame.middle[1] + desk.pan()[1]];
        frame
    }

    /// Shows the floor.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) -> Response {
        let (rect, response) = ui.allocate_exact_size(ui.available_size(), Sense::click_and_drag());
        if desk.eye_level() {
            (self.focused, self.over_point) = (None, false);
            response
                .widget_info(|| WidgetInfo::labeled(Role::Canvas, true, "Floor, with the body at eye level"));
            ui.painter_at(rect).rect_filled(rect, 0.0, colour(desk.ink().floor));
            let foot = if views_stand_aside(rect) { 6.0 } else { 40.0 };
            let place = Rect::from_min_max(rect.min + egui::vec2(8.0, 8.0), rect.max - egui::vec2(8.0, foot));
            show_eye_level(ui, desk, place, asks);
            show_notice(ui, desk, rect, asks);
            return response;
        }
        response.widget_info(|| WidgetInfo::labeled(Role::Canvas, true, "Floor, seen from above"));
        let frame = self.frame(desk, rect);
        desk.motion().pose_all(desk.player().count, &mut self.poses);
        move_view(ui, desk, rect, &frame, &response, asks);
        self.show_menu(desk, &frame, &response, asks);
        let painter = ui.painter_at(rect);
        painter.rect_filled(rect, 0.0, colour(desk.ink().floor));
        self.show_photos(&painter, desk, &frame);
        focus_ring(ui, &response, rect.shrink(1.0), desk);
        self.marks.clear();
        // The music is beyond the top of the set, wherever that is in this view.
        let [_, _, _, highest] = self.bounds(desk);
        let [x, y] = frame.to_picture(0.0, highest);
        // Clear of what stands at the head of the floor on either side, as far as there is room.
        let aside = |wide: f32| wide.min(rect.width() / 2.0 - 1.0).max(0.0);
        let (left, right) = (rect.left() + aside(250.0), rect.right() - aside(190.0));
        let low = rect.height() < LOW;
        let foot = if views_stand_aside(rect) {
            12.0
        } else if low {
            46.0
        } else {
            76.0
        };
        let head = rect.top() + if low { 14.0 } else { 30.0 };
        let beyond = if desk.seen() == Seen::FromBottom { y - 20.0 } else { y };
        let at = [x.clamp(left, right), beyond.clamp(head, (rect.bottom() - foot).max(head))];
        if !low {
            music_marks(&mut self.marks, &desk.ink(), at, 1.0);
        } else if rect.height() >= LOWEST {
            music_word(&mut self.marks, &desk.ink(), at);
        }
        // At the foot of the lowest floors, where the views stand aside: at their head are dancers.
        let down = if rect.height() < LOWEST {
            rect.height() - 9.0
        } else if low {
            26.0
        } else {
            30.0
        };
        let scale_at = [rect.right() - 20.0, rect.top() + down];
        scale_marks(&mut self.marks, &desk.ink(), &frame, scale_at, 1.0);
        let look = FloorLook {
            chosen: desk.chosen(),
            holding: desk.dance().holding,
            trails: desk.trails(),
            least_number: LEAST_NUMBER,
        };
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
        (self.focused, self.over_point) = (None, false);
        self.show_points(ui, desk, &frame, asks);
        self.show_dancers(ui, desk, &frame, asks);
        self.explain_floor(desk, &frame, &response);
        let reaches = Reaches::at(desk.motion(), desk.player().count);
        body_marks(&mut self.marks, &frame, &desk.ink(), &self.poses, look, &reaches);
        self.show_would(desk, &frame);
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
        // Over the ring that turns somebody, which stands where two meet.
        strike_marks(&mut self.marks, &frame, &desk.ink(), desk.motion(), desk.player().count);
        self.show_photo_marks(ui, desk, &frame, asks);
        paint(&painter, &self.marks);
        show_notice(ui, desk, rect, asks);
        response
    }

    /// The menu of bare floor and of the spots on it.
    fn show_menu(&mut self, desk: &Desk, frame: &Frame, response: &Response, asks: &mut Vec<Ask>) {
        if response.secondary_clicked() {
            let at = response.interact_pointer_pos();
            self.here = at.map(|at| Here::at(desk, frame.to_floor(at.into())));
        }
        show_menu(response, |ui, opened| {
            // A key points nowhere.
            let here = self.here.filter(|_| opened == Opened::Mouse);
            show_floor(ui, desk, here, asks);
        });
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
}

/// Floors lower than this have the music as a word, and none lower than that, points: the dancers need the room.
const LOW: f32 = 480.0;
const LOWEST: f32 = 170.0;
/// Floor shown round where the middles of bodies go on a low floor, metres: room for the arms and no more.
const LITTLE_ROUND: f64 = 0.5;
/// The least size of the dancers' numbers, points.
const LEAST_NUMBER: f32 = 10.0;

/// A part of the floor in a part of the window, as it is seen.
fn fit(bounds: [f64; 4], area: [f32; 4], (seen, up): (Seen, f64)) -> Frame {
    let mut frame = Frame::fit(bounds, area, up);
    if seen == Seen::OwnFacing {
        // Turning with the dancer must not make the floor breathe.
        let [x0, y0, x1, y1] = bounds;
        frame.scale = f64::from(area[2].min(area[3])) / (x1 - x0).hypot(y1 - y0);
    }
    frame
}

/// How far a part of the floor goes to either side of its middle, points: of a floor that turns, whichever way it is turned.
fn half_width(bounds: [f64; 4], area: [f32; 4], (seen, frame): (Seen, &Frame)) -> f32 {
    if seen == Seen::OwnFacing {
        area[2].min(area[3]) / 2.0
    } else {
        frame.length((bounds[2] - bounds[0]) / 2.0)
    }
}

/// The part of the floor's place that dancers have (left, top, width, height), beside the music at its end and the views at its
/// foot, and how much is shown round them, metres.
fn room(rect: Rect, seen: Seen) -> ([f32; 4], f64) {
    let (low, aside) = (rect.height() < LOW, views_stand_aside(rect));
    let foot = if aside { 6.0 } else { 38.0 };
    // From the music's side the music is at the foot.
    let (above, below) = match seen {
        _ if rect.height() < LOWEST => (8.0, foot),
        Seen::FromTop if low => (8.0, foot + 24.0),
        Seen::FromTop => (14.0, foot + 50.0),
        _ if low => (26.0, foot),
        _ => (56.0, foot),
    };
    let area = [rect.left() + 8.0, rect.top() + above, rect.width() - 16.0, rect.height() - above - below];
    (area, if low { LITTLE_ROUND } else { ROUND })
}
