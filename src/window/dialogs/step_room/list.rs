use super::room::StepRoom;
use crate::dance::Dancer;
use crate::desk::Desk;
use crate::motion::steps::{Step, built_in};
use crate::picture::{EyeBody, EyeFrame, EyeSide, TALL, eye_level_marks};
use crate::window::{paint::paint, paint::words_within, theme::colour};
use egui::{Key, Rect, Role, ScrollArea, Sense, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// The height of a row, points, and the width of its body's picture.
const ROW: f32 = 58.0;
const BODY: f32 = 50.0;

/// The share of the height that the dance's own steps have.
const OWN: f32 = 0.36;

/// The steps, each with a body that dances it: those of the dance's own first.
pub fn show(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, known: &[Step]) {
    let own: Vec<&Step> = desk
        .dance()
        .steps
        .iter()
        .filter_map(|own| known.iter().find(|step| step.short == own.short))
        .collect();
    let is_own = |step: &Step| own.iter().any(|own| own.short == step.short);
    let others: Vec<Step> = built_in().into_iter().filter(|step| !is_own(step)).collect();
    // Each has a place of its own, so that one step more moves none of the others.
    let high = ui.available_height();
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.strong("The side's own");
    let area = ScrollArea::vertical().id_salt("own").auto_shrink([false, false]);
    let for_own = (high * OWN).min(4.0 * (ROW + 2.0));
    area.max_height(for_own).min_scrolled_height(for_own).show(ui, |ui| {
        if own.is_empty() {
            ui.weak("None yet: choose a step, and make your own of it.");
        }
        for step in own {
            show_row(ui, desk, room, step);
        }
    });
    ui.add_space(6.0);
    ui.strong("Built in");
    let area = ScrollArea::vertical().id_salt("built in").auto_shrink([false, false]);
    let rest = ui.available_height().max(ROW);
    area.max_height(rest).min_scrolled_height(rest).show(ui, |ui| {
        for step in &others {
            show_row(ui, desk, room, step);
        }
    });
}

fn show_row(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, step: &Step) {
    let size = vec2(ui.available_width() - 4.0, ROW);
    let (place, response) = ui.allocate_exact_size(size, Sense::click());
    let shown = room.shown == step.short;
    let name = format!("{}, {}", step.name, step.short);
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, shown, &name));
    // What is clicked is in sight, and stays where it is.
    let by_key = response.gained_focus()
        && !ui.input(|input| input.pointer.any_down() || input.pointer.any_released());
    if by_key || room.takes_to(&step.short) {
        response.scroll_to_me(None);
    }
    if ui.is_rect_visible(place) {
        let ink = desk.ink();
        let painter = ui.painter_at(place);
        let fill = match (shown, response.hovered() || response.has_focus()) {
            (true, _) => colour(ink.faint),
            (_, true) => colour(ink.panel),
            _ => colour(ink.bar),
        };
        let stroke = egui::Stroke::new(1.0, if response.has_focus() { colour(ink.words) } else { fill });
        painter.rect(place, 6.0, fill, stroke, StrokeKind::Inside);
        let at = pos2(place.left() + BODY + 8.0, place.center().y);
        let wide = place.right() - at.x - 4.0;
        words_within(&painter, at - vec2(0.0, 9.0), wide, &step.name, 13.0, colour(ink.words));
        let counts =
            if step.counts() == 1 { "1 count".to_owned() } else { format!("{} counts", step.counts()) };
        let under = format!("{} · {counts}", step.short);
        words_within(&painter, at + vec2(0.0, 9.0), wide, &under, 11.5, colour(ink.quiet));
        show_body(ui, desk, room, step, Rect::from_min_size(place.min, vec2(BODY, ROW)));
    }
    let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if response.on_hover_text(name).clicked() || entered {
        room.choose(desk.dance(), &step.short);
    }
}

/// A small body that dances the step.
fn show_body(ui: &Ui, desk: &Desk, room: &mut StepRoom, step: &Step, place: Rect) {
    // While one count is looked at they all stand.
    let time = if room.count.is_some() { 0.0 } else { ui.input(|input| input.time) };
    let speed = room.speed / 100.0;
    let Some(alone) = room.alone(desk.dance(), step) else { return };
    let count = alone.after(time, speed);
    let limbs = alone.gait.limbs(&alone.motion, &alone.clock, count);
    let middle = limbs.middle();
    let frame = EyeFrame {
        centre: (middle.x, middle.y),
        floor: [place.center().x, place.bottom() - 5.0],
        scale: f64::from(place.height() - 9.0) / TALL,
        looks: EyeSide::Side.looks(limbs.facing),
    };
    let seen = EyeBody {
        limbs: &limbs,
        carries: alone.gait.carries(&alone.clock, count),
        trails: alone.gait.trails(&alone.motion, &alone.clock, count),
        number: Dancer(0).number(),
        holding: desk.dance().holding,
        stick_in: 1,
        numbered: false,
    };
    let mut marks = Vec::new();
    eye_level_marks(&mut marks, &frame, &desk.ink(), seen);
    paint(&ui.painter_at(place), &marks);
}
