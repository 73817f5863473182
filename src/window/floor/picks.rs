//! On the floor: a frame drawn round dancers to pick them, rings round those picked and their mates, and what a drag
//! catches on.

use crate::dance::Dancer;
use crate::desk::{Ask, Desk, ViewAsk};
use crate::edits::Guide;
use crate::motion::Pose;
use crate::picture::{Frame, Mark, Stroke};
use egui::{PointerButton, Pos2, Rect, Response, Ui};

/// How near a drag catches, points.
pub const REACH: f64 = 9.0;

/// A frame that is being drawn round dancers.
#[derive(Default)]
pub struct Picks {
    from: Option<Pos2>,
}

impl Picks {
    /// Draws the frame while bare floor is dragged, and picks those inside when it is let go. Shift picks them as well.
    pub fn show(
        &mut self,
        ui: &Ui,
        desk: &Desk,
        (frame, poses): (&Frame, &[Pose]),
        response: &Response,
        marks: &mut Vec<Mark>,
        asks: &mut Vec<Ask>,
    ) {
        if response.drag_started_by(PointerButton::Primary) {
            self.from = ui.input(|input| input.pointer.press_origin());
        }
        let Some(from) = self.from else { return };
        let Some(to) = response.interact_pointer_pos() else {
            self.from = None;
            return;
        };
        let area = Rect::from_two_pos(from, to);
        if response.drag_stopped_by(PointerButton::Primary) {
            self.from = None;
            let inside = Dancer::all(poses.len()).zip(poses).filter(|(_, pose)| {
                let at: Pos2 = frame.to_picture(pose.x, pose.y).into();
                area.contains(at)
            });
            let mut picked: Vec<Dancer> = inside.map(|(dancer, _)| dancer).collect();
            if ui.input(|input| input.modifiers.shift) {
                picked.extend(desk.picked());
            }
            asks.push(if picked.is_empty() {
                Ask::View(ViewAsk::Choose(None))
            } else {
                Ask::View(ViewAsk::Pick(picked))
            });
            return;
        }
        let corners = [area.left_top(), area.right_top(), area.right_bottom(), area.left_bottom()];
        marks.push(Mark::Area {
            points: corners.iter().map(|corner| [corner.x, corner.y]).collect(),
            fill: Some(desk.ink().words.faded(18)),
            stroke: Some(Stroke { colour: desk.ink().words, width: 1.2 }),
        });
    }
}

/// Rings: whole round those picked beside the chosen one, broken round the mates that follow them.
pub fn ring_marks(marks: &mut Vec<Mark>, frame: &Frame, desk: &Desk, poses: &[Pose]) {
    let ring = |dancer: Dancer| {
        let pose = poses.get(dancer.index())?;
        let [x, y] = frame.to_picture(pose.x, pose.y);
        let radius = frame.length(0.4);
        let points = (0..=48).map(|step| {
            let (sin, cos) = (step as f32 / 48.0 * std::f32::consts::TAU).sin_cos();
            [x + radius * sin, y - radius * cos]
        });
        Some(points.collect::<Vec<_>>())
    };
    let pen = Stroke { colour: desk.ink().words, width: 1.6 };
    for &dancer in desk.picked().iter().filter(|dancer| Some(**dancer) != desk.chosen()) {
        marks.extend(ring(dancer).map(|points| Mark::Line { points, stroke: pen, dash: None }));
    }
    let pen = Stroke { colour: desk.ink().quiet, width: 1.6 };
    for dancer in desk.mates() {
        marks.extend(ring(dancer).map(|points| Mark::Line { points, stroke: pen, dash: Some([5.0, 6.0]) }));
    }
}

/// The lines, spots and paths that a drag has caught on.
pub fn guide_marks(marks: &mut Vec<Mark>, frame: &Frame, desk: &Desk, poses: &[Pose]) {
    let pen = Stroke { colour: desk.ink().well, width: 1.4 };
    let ground = desk.motion().ground();
    let far = ground.stands.iter().map(|stand| stand.x.abs().max(stand.y.abs())).fold(1.0, f64::max) + 1.0;
    let circle = |marks: &mut Vec<Mark>, x: f64, y: f64| {
        let radius = frame.length(0.14).max(6.0);
        let at = frame.to_picture(x, y);
        marks.push(Mark::Oval { at, radii: [radius; 2], turn: 0.0, fill: None, stroke: Some(pen) });
    };
    for guide in desk.guides() {
        match *guide {
            Guide::Spot(index) => {
                if let Some(stand) = ground.stands.get(index) {
                    circle(marks, stand.x, stand.y);
                }
            }
            Guide::Level(y) => {
                let points = vec![frame.to_picture(-far, y), frame.to_picture(far, y)];
                marks.push(Mark::Line { points, stroke: pen, dash: Some([4.0, 5.0]) });
            }
            Guide::Upright(x) => {
                let points = vec![frame.to_picture(x, -far), frame.to_picture(x, far)];
                marks.push(Mark::Line { points, stroke: pen, dash: Some([4.0, 5.0]) });
            }
            Guide::Beside(other) => {
                if let Some(pose) = poses.get(other.index()) {
                    let (sin, cos) = pose.facing.to_radians().sin_cos();
                    let points = [-0.9, 0.9].map(|by| frame.to_picture(pose.x + by * cos, pose.y - by * sin));
                    marks.push(Mark::Line { points: points.to_vec(), stroke: pen, dash: Some([4.0, 5.0]) });
                }
            }
            Guide::Path(other) => {
                if let Some(span) = desk.span_here()
                    && let Some(track) = span.track(other)
                {
                    for leg in track.moves() {
                        let points = (0..=40).map(|step| {
                            let place = leg.course.at(leg.course.length() * f64::from(step) / 40.0);
                            frame.to_picture(place.x, place.y)
                        });
                        marks.push(Mark::Line { points: points.collect(), stroke: pen, dash: None });
                    }
                }
            }
        }
    }
}
