//! The chosen dancer's path along the bar strip: its legs as lines, its points as diamonds to drag in time.

use super::axis::BarAxis;
use super::drag_along::drag_along;
use crate::dance::Dancer;
use crate::desk::{Ask, Desk, Grip, PlayAsk};
use crate::edits::{PointOf, TimePoint, time_points};
use crate::motion::SpanIndex;
use crate::window::context_menu::show_menu;
use crate::window::explain::{explain, over_bars};
use crate::window::path_menu::{self, PathPoint};
use crate::window::theme::colour;
use egui::{CursorIcon, Id, Painter, Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

/// Shows the path of a dancer in a span, on a line of the strip. `offset` is from the pointer to the moment that is dragged, counts.
pub fn show(
    ui: &Ui,
    painter: &Painter,
    desk: &Desk,
    (axis, y): (BarAxis, f32),
    (index, dancer): (SpanIndex, Dancer),
    offset: &mut f64,
    asks: &mut Vec<Ask>,
) {
    let Some(span) = desk.motion().span(index) else { return };
    let points = time_points(span, dancer);
    let hue = colour(if dancer.is_even() { desk.ink().even } else { desk.ink().odd });
    for leg in span.part(dancer).map(|part| part.legs.as_slice()).unwrap_or_default() {
        let (from, to) = (axis.place(span.begin() + leg.begin), axis.place(span.begin() + leg.end));
        let (from, to) = (from.max(axis.left), to.min(axis.right));
        if to > from {
            painter.line_segment([pos2(from, y), pos2(to, y)], Stroke::new(2.0, hue));
        }
    }
    for (point, count) in points {
        // One that is held is there wherever it is dragged to.
        let held = desk.held() == Some(Grip::Time { span: index, dancer, point });
        if !held && (count < axis.from - 1e-6 || count > axis.to + 1e-6) {
            continue;
        }
        let at = pos2(axis.place(count).clamp(axis.left, axis.right), y);
        let id = Id::unique(("path time", index, dancer, format!("{point:?}")));
        let response = ui.interact(Rect::from_center_size(at, vec2(13.0, 14.0)), id, Sense::click_and_drag());
        let what = match point {
            TimePoint::Begin(leg) => format!("Start of path {}", leg + 1),
            TimePoint::Through(leg, through) => format!("Point {} of path {}", through + 1, leg + 1),
            TimePoint::End(leg) => format!("End of path {}", leg + 1),
        };
        let when = span.moment_said(count);
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("{what}, at {when}")));
        drag_along(ui, &response, axis, (Grip::Time { span: index, dancer, point }, count), offset, asks);
        if response.clicked() {
            asks.push(Ask::Play(PlayAsk::Seek(count)));
        }
        let (leg, of) = match point {
            TimePoint::Begin(leg) => (leg, None),
            TimePoint::Through(leg, through) => (leg, Some(PointOf::through(leg, through))),
            TimePoint::End(leg) => (leg, Some(PointOf::end(leg))),
        };
        let of = PathPoint { span: index, dancer, leg, point: of, count };
        let open = show_menu(&response, |ui, _| path_menu::show(ui, desk, of, asks));
        let lit = response.hovered() || response.dragged() || response.has_focus();
        let response = response.on_hover_cursor(CursorIcon::ResizeHorizontal);
        if desk.held().is_none() && !open {
            let said = format!(
                "{what}, at {when}. Drag to have it sooner or later; click to go there; right click for more"
            );
            explain(&response, over_bars(painter, response.rect), &said);
        }
        let size = if lit { 6.0 } else { 4.0 };
        let corners = [(0.0, -size), (size, 0.0), (0.0, size), (-size, 0.0)];
        let fill = match point {
            TimePoint::Through(..) => colour(desk.ink().panel),
            TimePoint::Begin(_) | TimePoint::End(_) => colour(desk.ink().words),
        };
        painter.add(Shape::convex_polygon(
            corners.iter().map(|(x, up)| at + vec2(*x, *up)).collect(),
            fill,
            Stroke::new(1.3, colour(desk.ink().words)),
        ));
    }
}
