use egui::{Painter, Rect, RectAlign, Response, Tooltip};

/// Where words may stand: over it first, and wherever there is room beside it.
const BESIDE: [RectAlign; 8] = [
    RectAlign::TOP_START,
    RectAlign::TOP_END,
    RectAlign::RIGHT,
    RectAlign::LEFT,
    RectAlign::BOTTOM,
    RectAlign::BOTTOM_START,
    RectAlign::BOTTOM_END,
    RectAlign::RIGHT_START,
];

/// Where words of the floor may stand: at the right of the dancers first.
const ASIDE: [RectAlign; 7] = [
    RectAlign::LEFT,
    RectAlign::RIGHT_START,
    RectAlign::LEFT_START,
    RectAlign::TOP,
    RectAlign::BOTTOM,
    RectAlign::TOP_START,
    RectAlign::BOTTOM_START,
];

/// Says what the pointer is on, aside of all that is drawn on: `what` goes from the left end of it to the right, at the height of
/// what is spoken of.
pub fn explain_aside(response: &Response, what: Rect, text: &str) {
    say(response, what, text, (RectAlign::RIGHT, &ASIDE));
}

/// Says what the pointer is on, beside it and never over it. `what` is all of what is spoken of.
pub fn explain(response: &Response, what: Rect, text: &str) {
    say(response, what, text, (RectAlign::TOP, &BESIDE));
}

/// Says what the pointer is on, at the first of these sides of it at which there is room.
fn say(response: &Response, what: Rect, text: &str, (first, others): (RectAlign, &[RectAlign])) {
    let mut tooltip = Tooltip::for_enabled(response);
    tooltip.popup = tooltip.popup.anchor(what).align(first).align_alternatives(others).gap(5.0);
    tooltip.show(|ui| {
        ui.set_max_width(ui.spacing().tooltip_width);
        ui.label(text);
    });
}

/// A part of the bars from their upper edge to their foot: what is said of something there stands over none of the rows.
pub fn over_bars(painter: &Painter, part: Rect) -> Rect {
    Rect::from_x_y_ranges(part.x_range(), painter.clip_rect().y_range())
}
