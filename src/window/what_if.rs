//! What if the chosen dancer were late, early, or short of the way: sliders over the lower left corner of the floor, and whom they
//! would meet. Nothing of the dance is changed by it.

use super::{theme::colour, views::views_stand_aside};
use crate::dance::{Dancer, FaultKind};
use crate::desk::{Ask, Desk, ViewAsk};
use crate::faults::{MOST_SHIFT, MOST_WATCHED, WhatIf, WouldMeet};
use egui::{
    Align, Button, Frame, Id, Label, Layout, Margin, Rect, Response, RichText, Sense, Slider, Stroke, Ui,
    UiBuilder, WidgetInfo, pos2, vec2,
};

/// A step of a slider: counts, and a share of the way.
const LATE_STEP: f64 = 0.125;
const SHORT_STEP: f64 = 0.01;
/// The most that a way is asked to be short, a share of it.
const MOST_SHORT: f64 = 0.3;
/// How wide and high it is, points: where there is room, and on a low floor.
const SIZE: [f32; 2] = [256.0, 126.0];
const LOW_SIZE: [f32; 2] = [184.0, 66.0];
/// It lies beside the dancers where so much of the floor is left for them, points.
const LEAST_FLOOR: f32 = 70.0;
/// The views at the foot of the floor have this much of it, points: in a row, and one over the other.
const VIEWS: f32 = 40.0;
const VIEWS_ASIDE: [f32; 2] = [72.0, 95.0];
/// What is said where nobody is chosen.
const NOBODY: &str = "Choose a dancer to see what if: click one, or press a number";

/// Whether it is shown: it stands aside for what is proposed, and for the body at eye level.
pub fn is_shown(desk: &Desk) -> bool {
    desk.what_if().is_some()
        && !desk.eye_level()
        && desk.proposed().is_none()
        && desk.room_search_age().is_none()
}

/// Where it lies on a floor: over the views, on the lowest floors beside them, and where that would be over the dancers beside the floor.
fn place(floor: Rect) -> Rect {
    if !views_stand_aside(floor) {
        let [wide, high] = SIZE;
        let corner = pos2(floor.left() + 8.0, floor.bottom() - VIEWS);
        return Rect::from_min_max(corner - vec2(0.0, high), corner + vec2(wide, 0.0));
    }
    let [wide, high] = LOW_SIZE;
    let [aside, views] = VIEWS_ASIDE;
    let over = floor.height() >= high + views;
    let left = if over { 6.0 } else { aside + 6.0 };
    let bottom = if over { floor.bottom() - views } else { floor.bottom() - 4.0 };
    let right = (floor.left() + left + wide).min(floor.right() - 4.0);
    let place = Rect::from_min_max(pos2(floor.left() + left, bottom - high), pos2(right, bottom));
    if has_room(floor, place) || floor.left() < wide + 12.0 {
        return place;
    }
    // The set is not covered: where there is no room beside it this lies over the side.
    let corner = pos2(floor.left() - 6.0, floor.bottom() - 4.0);
    Rect::from_min_max(corner - vec2(wide, high), corner)
}

/// Whether enough of a floor is left beside what lies on it.
fn has_room(floor: Rect, place: Rect) -> bool {
    floor.right() - place.right() - 4.0 >= LEAST_FLOOR
}

/// How much of the left of a floor it takes, points; nothing where it is not shown, and where there is no room beside it.
pub fn takes(desk: &Desk, floor: Rect) -> Option<f32> {
    let place = place(floor);
    let beside = place.left() >= floor.left() && has_room(floor, place);
    (is_shown(desk) && beside).then(|| place.right() + 4.0 - floor.left())
}

/// Shows it: the sliders, and whom they would meet.
pub fn show(ui: &mut Ui, desk: &Desk, floor: Rect, would_meet: &[WouldMeet], asks: &mut Vec<Ask>) {
    let Some(now) = desk.what_if().filter(|_| is_shown(desk)) else { return };
    let low = views_stand_aside(floor);
    let rect = place(floor);
    // What lies under it is not clicked through it; it is nothing to go to with Tab.
    let mut over = ui.new_child(UiBuilder::new().max_rect(rect));
    over.set_clip_rect(rect.expand(2.0));
    over.interact(rect, Id::unique("what if"), Sense::CLICK | Sense::DRAG);
    let edge = Stroke::new(1.0, colour(desk.ink().faint));
    let margin = if low { Margin::symmetric(6, 1) } else { Margin::symmetric(8, 6) };
    over.scope_builder(UiBuilder::new().max_rect(rect), |ui| {
        let frame = Frame::new().fill(colour(desk.ink().panel)).stroke(edge).corner_radius(8);
        frame.inner_margin(margin).show(ui, |ui| {
            ui.set_min_size(ui.available_size());
            ui.spacing_mut().item_spacing = vec2(4.0, if low { 0.0 } else { 2.0 });
            let Some(dancer) = desk.chosen() else {
                ui.add(Label::new(RichText::new(NOBODY).small()).wrap());
                return;
            };
            let mut then = now;
            show_words(ui, low, &how(dancer, now));
            show_sliders(ui, low, &mut then);
            show_words(ui, low, &whom(desk, (dancer, low), now, would_meet));
            if then != now {
                asks.push(Ask::View(ViewAsk::WhatIf(Some(then))));
            }
        });
    });
}

/// How they differ from what is drawn.
fn how(dancer: Dancer, what_if: WhatIf) -> String {
    match (what_if.late == 0.0, what_if.short == 0.0) {
        (true, true) => format!("What if {dancer} is as drawn"),
        (false, true) => format!("What if {dancer} is {}", what_if.late_words()),
        (true, false) => format!("What if {dancer} is {}", what_if.short_words()),
        (false, false) => format!("What if {dancer} is {}, {}", what_if.late_words(), what_if.short_words()),
    }
}

/// Whom they would meet first, and that there are others; as drawn how late they may be from the playhead on, in few words where it is low.
fn whom(desk: &Desk, (dancer, low): (Dancer, bool), what_if: WhatIf, would_meet: &[WouldMeet]) -> String {
    let Some(span) = desk.span_here() else { return "There is no figure here".to_owned() };
    if desk.motion().dancers() > MOST_WATCHED {
        return format!("Whom they meet is not worked out for more than {MOST_WATCHED} dancers");
    }
    let Some(first) = would_meet.first() else {
        let number = dancer.number();
        let met_as_drawn = desk.faults().iter().any(|fault| {
            fault.kind == FaultKind::Clash
                && desk.span() == Some(fault.span)
                && fault.dancers.contains(&number)
        });
        // Whom they meet as drawn is told as a fault.
        let nobody = if met_as_drawn { "nobody else is met" } else { "nobody is met" };
        return if what_if.is_nothing() {
            // How late they may be from the playhead on, once that is known.
            let room = desk.band_from_words(dancer, low);
            room.unwrap_or_else(|| "slide to see whom they would meet".to_owned())
        } else {
            nobody.to_owned()
        };
    };
    let said = first.words(dancer, span);
    let others: Vec<String> = would_meet.iter().skip(1).map(|meet| meet.other.to_string()).collect();
    if others.is_empty() { said } else { format!("{said}; then {}", others.join(", ")) }
}

/// Shows something in the next place of a height, which stays where it is and as high as it is, whatever is shown in it.
fn in_place(ui: &mut Ui, high: f32, align: Align, show: impl FnOnce(&mut Ui)) {
    let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), high), Sense::hover());
    show(&mut ui.new_child(UiBuilder::new().max_rect(place).layout(Layout::left_to_right(align))));
}

/// Words in so many lines, as much as there is room for; the whole is under the pointer.
fn show_words(ui: &mut Ui, low: bool, words: &str) {
    let text = RichText::new(words).small();
    if low {
        in_place(ui, 15.0, Align::Center, |ui| {
            ui.add(Label::new(text).truncate());
        });
        return;
    }
    in_place(ui, 33.0, Align::Min, |ui| {
        let mut job = egui::text::LayoutJob::default();
        text.append_to(&mut job, ui.style(), egui::FontSelection::Default, Align::Min);
        (job.wrap.max_rows, job.wrap.max_width) = (2, ui.available_width());
        // Laid out beforehand: in a row it would not be parted into lines.
        let galley = ui.painter().layout_job(job);
        let label = ui.add(Label::new(galley));
        label.on_hover_text(words);
    });
}

fn show_sliders(ui: &mut Ui, low: bool, what_if: &mut WhatIf) {
    let high = if low { 17.0 } else { 20.0 };
    ui.spacing_mut().interact_size.y = high;
    let names = if low { 34.0 } else { 54.0 };
    let [late, short] = if low { ["late", "short"] } else { ["late by", "short by"] };
    let row = |ui: &mut Ui, name: &str, less: f32, show: &mut dyn FnMut(&mut Ui)| {
        in_place(ui, high, Align::Center, |ui| {
            let (words, _) = ui.allocate_exact_size(vec2(names, high), Sense::hover());
            let layout = Layout::left_to_right(Align::Center);
            let mut named = ui.new_child(UiBuilder::new().max_rect(words).layout(layout));
            named.weak(RichText::new(name).small());
            ui.spacing_mut().slider_width = (ui.available_width() - less).max(20.0);
            show(ui);
        });
    };
    row(ui, late, 2.0, &mut |ui| {
        let said = what_if.late_words();
        let slider = Slider::new(&mut what_if.late, -MOST_SHIFT..=MOST_SHIFT)
            .step_by(LATE_STEP)
            .max_decimals(3)
            .smart_aim(false);
        let hint = "How late they are in this figure; early to the left of the middle. With the arrows an eighth of a count";
        named(ui.add(slider.show_value(false)), "Late by", what_if.late, &said).on_hover_text(hint);
    });
    let wide = 62.0;
    row(ui, short, wide + 6.0, &mut |ui| {
        let said = what_if.short_words();
        let slider = Slider::new(&mut what_if.short, 0.0..=MOST_SHORT)
            .step_by(SHORT_STEP)
            .max_decimals(2)
            .smart_aim(false);
        let hint = "How much of their way is wanting, wherever they go in this figure. With the arrows one in a hundred";
        named(ui.add(slider.show_value(false)), "Short by", what_if.short, &said).on_hover_text(hint);
        ui.spacing_mut().button_padding = vec2(4.0, 1.0);
        let button = Button::new(RichText::new("as drawn").small()).min_size(vec2(wide, high));
        let button = ui.add_enabled(!what_if.is_nothing(), button);
        if button.on_hover_text("In time and the whole way again").clicked() {
            *what_if = WhatIf::default();
        }
    });
}

/// Names a slider and says its value in words, for those who hear the window.
fn named(response: Response, name: &str, value: f64, said: &str) -> Response {
    response.widget_info(|| {
        let mut info = WidgetInfo::slider(true, value, name);
        info.current_text_value = Some(said.to_owned());
        info
    });
    response
}
