use super::{Frame, Ink, Mark, Stroke};
use crate::dance::ClearFloor;

/// The clear floor that there is, and the line round what a dance needs.
pub fn space_marks(
    marks: &mut Vec<Mark>,
    frame: &Frame,
    ink: &Ink,
    floor: Option<&ClearFloor>,
    outline: Option<&[(f64, f64)]>,
) {
    if let Some(floor) = floor {
        let [left, bottom, right, top] = floor.edges();
        let corners = [(left, bottom), (right, bottom), (right, top), (left, top), (left, bottom)];
        let points = corners.into_iter().map(|(x, y)| frame.to_picture(x, y)).collect();
        marks.push(Mark::Line { points, stroke: Stroke { colour: ink.quiet, width: 1.5 }, dash: None });
    }
    if let Some(outline) = outline {
        let mut points: Vec<[f32; 2]> = outline.iter().map(|&(x, y)| frame.to_picture(x, y)).collect();
        points.extend(points.first().copied());
        let stroke = Stroke { colour: ink.well, width: 1.8 };
        marks.push(Mark::Line { points, stroke, dash: Some([10.0, 6.0]) });
    }
}
