use super::body::{frame_of, paint_body};
use super::room::StepRoom;
use crate::dance::Foot;
use crate::desk::Desk;
use crate::motion::steps::{Step, built_in};
use crate::picture::EyeSide;
use crate::window::{paint::words_within, theme::colour};
use egui::{
    EventFilter, Id, Key, Modifiers, Rect, Role, ScrollArea, Sense, StrokeKind, Ui, WidgetInfo, pos2, vec2,
};

/// The height of a row, points, and the width of its body's picture.
const ROW: f32 = 58.0;
const BODY: f32 = 50.0;

/// The share of the height that the dance's own steps have.
const OWN: f32 = 0.36;

/// A step: where it stands among the dance's own, where it does, and its letters.
type Place = (Option<usize>, String);

/// The steps, each with a body that dances it: those of the dance's own first.
pub fn show(ui: &mut Ui, desk: &Desk, room: &mut StepRoom) {
    let own = &desk.dance().steps;
    let is_own = |step: &Step| own.iter().any(|own| own.short == step.short);
    let others: Vec<Step> = built_in().into_iter().filter(|step| !is_own(step)).collect();
    let own_steps = own.iter().enumerate().map(|(index, step)| (Some(index), step.short.clone()));
    let all: Vec<Place> = own_steps.chain(others.iter().map(|step| (None, step.short.clone()))).collect();
    // One of them has the focus for all, and the arrows go through them.
    let holder = all.iter().position(|(index, short)| room.is_shown(*index, short)).unwrap_or(0);
    go_through(ui, room, &all, holder);
    let holds = |index: Option<usize>, short: &str| {
        all.get(holder).is_some_and(|(other, known)| *other == index && known == short)
    };
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
            let holds = holds(Some(index), &step.short);
            show_row(ui, desk, room, (Some(index), &Step::from(step)), holds);
        }
    });
    ui.add_space(6.0);
    ui.strong("Built in");
    let area = ScrollArea::vertical().id_salt("built in").auto_shrink([false, false]);
    let rest = ui.available_height().max(ROW);
    area.max_height(rest).min_scrolled_height(rest).show(ui, |ui| {
        for step in &others {
            show_row(ui, desk, room, (None, step), holds(None, &step.short));
        }
    });
}

/// What the arrows do while the row that has the focus for all of them has it: the step above, the one below, the first, the last.
fn go_through(ui: &Ui, room: &mut StepRoom, all: &[Place], holder: usize) {
    let here = all.get(holder).map(|(index, short)| row_id(*index, short));
    if here.is_none_or(|here| !ui.memory(|memory| memory.has_focus(here))) {
        return;
    }
    let pressed = |key| ui.input_mut(|input| input.consume_key(Modifiers::NONE, key));
    let last = all.len().saturating_sub(1);
    let to = if pressed(Key::ArrowDown) {
        (holder + 1).min(last)
    } else if pressed(Key::ArrowUp) {
        holder.saturating_sub(1)
    } else if pressed(Key::Home) {
        0
    } else if pressed(Key::End) {
        last
    } else {
        return;
    };
    if let Some((index, short)) = all.get(to).filter(|_| to != holder) {
        room.choose(*index, short);
        room.take_there();
        ui.memory_mut(|memory| memory.request_focus(row_id(*index, short)));
    }
}

/// What the row of a step is known by.
fn row_id(index: Option<usize>, short: &str) -> Id {
    // Letters that are being changed are those of the same row.
    let short = if index.is_some() { "" } else { short };
    Id::unique(("a step of the room", index, short))
}

fn show_row(
    ui: &mut Ui,
    desk: &Desk,
    room: &mut StepRoom,
    (index, step): (Option<usize>, &Step),
    holds: bool,
) {
    let size = vec2(ui.available_width() - 4.0, ROW);
    let (place, _) = ui.allocate_exact_size(size, Sense::hover());
    let shown = room.is_shown(index, &step.short);
    let holds = holds || shown;
    let response =
        ui.interact(place, row_id(index, &step.short), if holds { Sense::click() } else { Sense::CLICK });
    if response.has_focus() {
        let arrows = EventFilter { vertical_arrows: true, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    }
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
    let frame = frame_of(&limbs, floor, place.height() - 9.0, (desk.dance().height, EyeSide::Side));
    paint_body(&ui.painter_at(place), desk, alone, (&limbs, count), &frame);
}
