use super::body::{frame_of, paint_body};
use super::dragged::{Grip, Held, dragged, hands_alike};
use super::room::StepRoom;
use crate::dance::{Foot, Landing};
use crate::desk::{Ask, Desk, StepAsk};
use crate::edits::with_change;
use crate::figures::StepAlone;
use crate::motion::Weight;
use crate::motion::limbs::{InSpace, Limbs, on_side};
use crate::motion::steps::{Step, usual_rise};
use crate::picture::{EyeFrame, EyeSide};
use crate::window::theme::colour;
use crate::words;
use egui::{
    CursorIcon, Label, Pos2, Rect, RichText, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};

/// How high the picture is, points, where there is room, and at the least.
const HIGH: f32 = 250.0;
const LEAST: f32 = 110.0;
/// What is under it: the line of words and the rows.
const UNDER: f32 = 276.0;
/// A ring on what can be dragged, and how near the pointer has to come, points.
const RING: f32 = 7.0;
const NEAR: f32 = 24.0;

/// A drag in the picture.
pub struct Drag {
    held: Held,
    from: Pos2,
}

/// The step as a body dances it, or at one of its counts, where its feet and hands can be dragged.
pub fn show(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, step: &Step, asks: &mut Vec<Ask>) {
    let high = (ui.available_height() - UNDER).clamp(LEAST, HIGH);
    let (place, response) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::click());
    let ink = desk.ink();
    let painter = ui.painter_at(place);
    painter.rect(place, 8.0, colour(ink.bar), Stroke::new(1.0, colour(ink.faint)), StrokeKind::Inside);
    let (danced, wanted, side, chosen) = (room.danced, room.lead, room.side, room.count);
    let rising = room.drag.as_ref().is_some_and(|drag| drag.held.raises());
    let own = room.index().and_then(|index| desk.dance().steps.get(index));
    let Some(alone) = room.alone(desk.dance(), own, step, wanted) else {
        ui.weak("This step cannot be danced by itself.");
        return;
    };
    let begins = alone.begins(wanted);
    let at = chosen.map_or_else(|| alone.after(danced), |count| begins + count as f64);
    let count = chosen.map_or(at, |_| legs_at(alone, at, rising));
    let limbs = match chosen {
        Some(_) => alone.limbs(count).with_arms_of(&alone.limbs(at)),
        None => alone.limbs(count),
    };
    let inside = (at.floor() as usize).checked_rem(step.counts()).unwrap_or(0);
    let said = said(alone, at, step.feet.get(inside) == Some(&Landing::Upbeat));
    let floor = [place.center().x, place.bottom() - 12.0];
    let frame = frame_of(&limbs, floor, place.height() - 18.0, (desk.dance().height, side));
    let line = [pos2(place.left() + 6.0, floor[1]), pos2(place.right() - 6.0, floor[1])];
    painter.line_segment(line, Stroke::new(1.5, colour(ink.faint)));
    paint_body(&painter, desk, alone, (&limbs, count), &frame);
    let lead = alone.lead(begins).unwrap_or(wanted);
    // While it moves it is led by one foot and then by the other.
    let leads = alone.lead(at.floor() - inside as f64).map_or("", |foot| match (foot, foot == wanted) {
        (Foot::Left, true) => ", left first",
        (Foot::Right, true) => ", right first",
        (Foot::Left, false) => ", then left first",
        (Foot::Right, false) => ", then right first",
    });
    let name = format!("{} {}, count {}: {said}", step.name, side.words(), inside + 1);
    response.widget_info(|| WidgetInfo::labeled(Role::Image, true, &name));
    if response.clicked() {
        room.count = if chosen.is_some() { None } else { Some(inside) };
    }
    if let (Some(count), Some(index)) = (chosen, room.index()) {
        show_grips(ui, desk, room, (step, lead, count, index), (&limbs, &frame), asks);
    } else {
        let hint = if room.index().is_some() {
            "A click stops it, so that feet and hands can be dragged"
        } else {
            "A click stops it at a count; to change it, make your own of it first"
        };
        response.on_hover_text(hint);
    }
    let said = format!("{}{leads}: {said}", inside + 1);
    // One line, so that nothing under it moves.
    let size = vec2(ui.available_width(), 18.0);
    ui.allocate_ui(size, |ui| {
        ui.set_min_size(size);
        ui.add(Label::new(RichText::new(&said).small()).truncate()).on_hover_text(&said);
    });
}

/// The count at which the legs are drawn where a count of the step is looked at: as its rows say them. A free foot is where its step has it once
/// the other one has landed; a hop has landed, unless it is being dragged higher.
fn legs_at(alone: &StepAlone, at: f64, rising: bool) -> f64 {
    let hops = alone.gait.on_count(at as usize).is_some_and(|on| on.hop);
    match (hops, rising) {
        (_, true) => alone.gait.top_at(&alone.clock, at),
        (true, false) => at,
        (false, false) => alone.gait.shown_at(&alone.clock, at),
    }
}

/// What the body does on a count, and where there is no time to rise as high as its step says.
fn said(alone: &StepAlone, at: f64, upbeat: bool) -> String {
    let Some(on) = alone.gait.on_count(at as usize) else { return String::new() };
    // The flight that is drawn.
    let flight = alone.gait.flight_shown(&alone.clock, at.floor());
    let high = flight.map_or(0.0, |flight| flight.height);
    let mut words = words::body_words(on);
    if upbeat && !on.hop && on.weight == Weight::Both {
        words += "; a hop where the step after it asks for one";
    }
    // Without a hop nothing rises.
    if on.rise > high + 0.01 && (on.hop || !upbeat) {
        let centimetres = |metres: f64| format!("{:.0} cm", metres * 100.0);
        format!("{words}; no time at this speed for {}: it rises {}", centimetres(on.rise), centimetres(high))
    } else {
        words
    }
}

/// Rings on what can be dragged.
fn show_grips(
    ui: &Ui,
    desk: &Desk,
    room: &mut StepRoom,
    (step, lead, count, index): (&Step, Foot, usize, usize),
    (limbs, frame): (&Limbs, &EyeFrame),
    asks: &mut Vec<Ask>,
) {
    let at = |place: InSpace| {
        let [x, y] = frame.to_picture(place).0;
        pos2(x, y)
    };
    // A hop that has been dragged down to nothing can be dragged up again.
    let rises = usual_rise(&step.feet, count) > 0.0 || step.rise.get(count).is_some_and(|rise| *rise > 0.0);
    // In the air, and where the next step decides on the foot, neither foot is free.
    let feet = !matches!(step.feet.get(count), Some(Landing::Air | Landing::Upbeat));
    let dragged_alone = matches!(room.drag, Some(Drag { held: Held { grip: Grip::Hand(_), .. }, .. }));
    let together = room.side == EyeSide::Side && hands_alike(step, count) && !dragged_alone;
    for grip in Grip::ALL {
        let place = match grip {
            Grip::Foot(_) if !feet => continue,
            Grip::Foot(side) => at(on_side(limbs.feet, side) + InSpace::new(0.0, 0.0, 0.04)),
            // Seen from the side one lies behind the other.
            Grip::Hand(_) if together => continue,
            Grip::Hands if !together => continue,
            Grip::Hands => at(on_side(limbs.hands, 1)),
            Grip::Hand(side) => at(on_side(limbs.hands, side)),
            Grip::Body if rises => at(limbs.middle()),
            Grip::Body => continue,
        };
        let id = ui.scope_id().with(("grip", grip));
        let response =
            ui.interact(Rect::from_center_size(place, vec2(NEAR, NEAR)), id, Sense::click_and_drag());
        let name = format!("drag the {}", grip.word());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, &name));
        let lit = response.hovered() || response.dragged();
        let ink = colour(if lit { desk.ink().well } else { desk.ink().quiet });
        ui.painter().circle_stroke(place, RING, Stroke::new(if lit { 2.5 } else { 2.0 }, ink));
        if response.drag_started()
            && let Some(from) = ui.input(|input| input.pointer.press_origin())
        {
            let held = Held { grip, step: step.clone(), count, lead, from_other: from_other(limbs, grip) };
            room.drag = Some(Drag { held, from });
        }
        if response.dragged()
            && let (Some(drag), Some(to)) = (&room.drag, response.interact_pointer_pos())
        {
            let way = to - drag.from;
            let metres = [f64::from(way.x) / frame.scale, -f64::from(way.y) / frame.scale];
            let made = dragged(&drag.held, room.side, metres);
            if made != *step
                && let Some(own) = desk.dance().steps.get(index)
            {
                let step = Box::new(with_change(own, |step| *step = made));
                asks.push(Ask::Step(StepAsk::Set {
                    index,
                    step,
                    what: format!("the {} on count {}", grip.word(), count + 1),
                }));
            }
        }
        if response.drag_stopped() {
            room.drag = None;
        }
        response.on_hover_cursor(CursorIcon::Grab).on_hover_text(grip.word());
    }
}

/// How far a foot is before the other one, and to its own side of it, metres.
fn from_other(limbs: &Limbs, grip: Grip) -> [f64; 2] {
    let Grip::Foot(side) = grip else { return [0.0; 2] };
    let way = on_side(limbs.feet, side) - on_side(limbs.feet, 1 - side);
    let (sin, cos) = limbs.facing.to_radians().sin_cos();
    let (front, right) = (way.x * sin + way.y * cos, way.x * cos - way.y * sin);
    [front, if side == 0 { -right } else { right }]
}
