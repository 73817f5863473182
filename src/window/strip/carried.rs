use super::BarAxis;
use crate::desk::{Ask, Desk, OrderAsk};
use crate::motion::{Span, SpanIndex};
use crate::window::theme::colour;
use egui::{Rect, Stroke, Ui, pos2};

/// Where a figure carried from the shelf would go in: at the nearest end of a figure, in the line of the whole dance by its
/// own length and among the bars by that of the figure at the playhead.
pub fn show_carried(ui: &Ui, desk: &Desk, whole: Rect, (rect, axis): (Rect, BarAxis), asks: &mut Vec<Ask>) {
    let Some(name) = egui::DragAndDrop::payload::<&'static str>(ui.ctx()) else { return };
    let Some(at) = ui.input(|input| input.pointer.interact_pos()).filter(|at| rect.contains(*at)) else {
        return;
    };
    if at.x < axis.left - 8.0 {
        return;
    }
    let motion = desk.motion();
    let all = BarAxis { left: whole.left(), right: whole.right(), from: 0.0, to: motion.counts().max(1.0) };
    let count = if at.y <= whole.bottom() + 4.0 { all.count(at.x) } else { axis.count(at.x) };
    let gap = motion.spans().iter().filter(|span| f64::midpoint(span.begin(), span.end()) < count).count();
    let begin = motion.span(SpanIndex(gap)).map_or(motion.counts(), Span::begin);
    let pen = Stroke::new(3.0, colour(desk.ink().words));
    for (axis, from, to) in
        [(all, whole.top() - 4.0, whole.bottom() + 4.0), (axis, whole.bottom() + 4.0, rect.bottom() - 4.0)]
    {
        if (axis.from - 1e-6..=axis.to + 1e-6).contains(&begin) {
            let x = axis.place(begin);
            ui.painter().line_segment([pos2(x, from), pos2(x, to)], pen);
        }
    }
    if ui.input(|input| input.pointer.any_released()) {
        egui::DragAndDrop::clear_payload(ui.ctx());
        asks.push(Ask::Order(OrderAsk::PutIn(*name, Some(gap))));
    }
}
