use crate::dance::Dancer;
use crate::desk::Desk;
use crate::figures::StepAlone;
use crate::motion::limbs::Limbs;
use crate::picture::{EyeBody, EyeFrame, EyeSide, eye_level_marks, room_for};
use crate::window::paint::paint;
use egui::Painter;

/// Where a body is in a picture: on a place of the floor in it, so high with its hands up, points; `tall` is how tall, metres.
pub fn frame_of(limbs: &Limbs, floor: [f32; 2], high: f32, (tall, side): (f64, EyeSide)) -> EyeFrame {
    let middle = limbs.middle();
    let scale = f64::from(high) / room_for(tall);
    EyeFrame { centre: (middle.x, middle.y), floor, scale, looks: side.looks(limbs.facing) }
}

/// Paints the body that dances a step, at a count of it.
pub fn paint_body(
    painter: &Painter,
    desk: &Desk,
    alone: &StepAlone,
    (limbs, count): (&Limbs, f64),
    frame: &EyeFrame,
) {
    let seen = EyeBody {
        limbs,
        carries: alone.gait.carries(&alone.clock, count),
        trails: alone.gait.trails(&alone.motion, &alone.clock, count),
        number: Dancer(0).number(),
        holding: desk.dance().holding,
        stick_in: 1,
        numbered: false,
    };
    let mut marks = Vec::new();
    eye_level_marks(&mut marks, frame, &desk.ink(), seen);
    paint(painter, &marks);
}
