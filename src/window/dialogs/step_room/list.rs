use super::body::{frame_of, paint_body};
use super::room::StepRoom;
use crate::dance::Foot;
use crate::desk::Desk;
use crate::motion::steps::{Step, built_in};
use crate::picture::EyeSide;
use crate::window::{paint::words_within, theme::colour};
use egui::{Key, Rect, Role, ScrollArea, Sense, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// The height of a row, points, and the width of its body's picture.
const ROW: f32 = 58.0;
const BODY: f32 = 50.0;

/// The share of the height that the dance's own steps have.
const OWN: f32 = 0.36;

/// The steps, each with a body that dances it: those of the dance's own first.
pub fn show(ui: &mut Ui, desk: &Desk, room: &mut StepRoom) {
    let own = &desk.dance().steps;
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
        for (index, step) in own.iter().enumerate() {
            show_row(ui, desk, room, (Some(index), &Step::from(step)));
        }
    });
    ui.add_space(6.0);
    ui.strong("Built in");
    let area = ScrollArea::vertical().id_salt("built in").auto_shrink([false, false]);
    let rest = ui.available_height().max(ROW);
    area.max_height(rest).min_scrolled_height(rest).show(ui, |ui| {
        for step in &others {
            show_row(ui, desk, room, (None, step));
        }
    });
}

fn show_row(ui: &mut Ui, desk: &Desk, room: &mut StepRoom, (index, step): (Option<usize>, &Step)) {
    let size = vec2(ui.available_width() - 4.0, ROW);
    let (place, response) = ui.allocate_exact_size(size, Sense::click());
    let shown = room.is_shown(index, &step.short);
    let name = format!("{}, {}", step.name, step.short);
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, shown, &name));
    // What is clicked is in sight, and stays where it is.
    let by_key = response.gained_focus()
        && !ui.input(|input| input.pointer.any_down() || input.pointer.any_released());
    if by_key || room.takes_to(index, &step.short) {
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
        // Whoever names it by the letters of a built-in step dances this one.
        let instead = index.is_some() && built_in().iter().any(|other| other.short == step.short);
        let instead = if instead { " · for the built-in" } else { "" };
        let under = format!("{} · {counts}{instead}", step.short);
        words_within(&painter, at + vec2(0.0, 9.0), wide, &under, 11.5, colour(ink.quiet));
        show_body(ui, desk, room, (index, step), Rect::from_min_size(place.min, vec2(BODY, ROW)));
    }
    let entered = response.has_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    if response.on_hover_text(name).clicked() || entered {
        room.choose(index, &step.short);
    }
}

/// A small body that dances the step.
fn show_body(ui: &Ui, desk: &Desk, room: &mut StepRoom, (index, step): (Option<usize>, &Step), place: Rect) {
    let danced = room.danced;
    let own = index.and_then(|index| desk.dance().steps.get(index));
    let Some(alone) = room.alone(desk.dance(), own, step, Foot::Left) else { return };
    let count = alone.after(danced);
    let limbs = alone.limbs(count);
    let floor = [place.center().x, place.bottom() - 5.0];
    let frame = frame_of(&limbs, floor, place.height() - 9.0, EyeSide::Side);
    paint_body(&ui.painter_at(place), desk, alone, (&limbs, count), &frame);
}
