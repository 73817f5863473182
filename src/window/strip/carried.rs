use super::BarAxis;
use crate::desk::{Ask, Desk, OrderAsk};
use crate::motion::{Span, SpanIndex};
use crate::window::theme::colour;
use egui::{FontId, Id, LayerId, Order, Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

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
    // In a colour of its own, and broader than the playhead, which may be there as well.
    let ink = colour(desk.ink().well);
    let name_of = |index: usize| {
        let span = motion.span(SpanIndex(index))?;
        desk.dance().figures.get(span.figure).map(|figure| figure.name.as_str())
    };
    let said = match (name_of(gap), gap.checked_sub(1).and_then(name_of)) {
        (Some(next), _) => format!("before {next}"),
        (None, Some(last)) => format!("after {last}, at the end"),
        (None, None) => "the first figure".to_owned(),
    };
    for (axis, from, to) in
        [(all, whole.top() - 4.0, whole.bottom() + 4.0), (axis, whole.bottom() + 4.0, rect.bottom() - 4.0)]
    {
        if (axis.from - 1e-6..=axis.to + 1e-6).contains(&begin) {
            let x = axis.place(begin);
            ui.painter().line_segment([pos2(x, from), pos2(x, to)], Stroke::new(5.0, ink));
            for (y, way) in [(from, 1.0), (to, -1.0)] {
                let corners =
                    vec![pos2(x - 8.0, y - way * 5.0), pos2(x + 8.0, y - way * 5.0), pos2(x, y + way * 5.0)];
                ui.painter().add(Shape::convex_polygon(corners, ink, Stroke::NONE));
            }
        }
    }
    // Over the bars and clear of the name that is carried, which is beside the pointer.
    let words =
        ui.painter().layout_no_wrap(said.clone(), FontId::proportional(13.0), colour(desk.ink().words));
    let x = all
        .place(begin)
        .clamp(rect.left() + 8.0, (rect.right() - words.size().x - 16.0).max(rect.left() + 8.0));
    let place =
        Rect::from_min_size(pos2(x, rect.top() - words.size().y - 8.0), words.size()).expand2(vec2(6.0, 3.0));
    let painter = ui.ctx().layer_painter(LayerId::new(Order::Tooltip, Id::unique("where it goes in")));
    painter.rect_filled(place, 5.0, colour(desk.ink().chosen));
    painter.galley(place.shrink2(vec2(6.0, 3.0)).min, words, ink);
    let spoken =
        ui.interact(Rect::from_center_size(at, vec2(1.0, 1.0)), Id::unique("goes in"), Sense::hover());
    spoken.widget_info(|| WidgetInfo::labeled(Role::Status, true, said.clone()));
    if ui.input(|input| input.pointer.any_released()) {
        egui::DragAndDrop::clear_payload(ui.ctx());
        asks.push(Ask::Order(OrderAsk::PutIn(*name, Some(gap))));
    }
}
