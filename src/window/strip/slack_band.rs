use super::axis::BarAxis;
use crate::dance::Dancer;
use crate::desk::Desk;
use crate::faults::MOST_SHIFT;
use crate::motion::Span;
use crate::window::theme::colour;
use egui::{CornerRadius, Painter, Rect, Stroke, pos2};

/// Whoever has less than this to spare, counts, has a band in the hue of faults.
const LITTLE: f64 = 0.5;
/// The least of a half of a band, points.
const LEAST: f32 = 1.0;

/// How late and how early the chosen dancer may be in the figure at the playhead, as a band behind a row: late above its middle, early
/// below. Broad is safe, narrow is not; where it is not known yet there is none.
pub fn show(painter: &Painter, desk: &Desk, axis: BarAxis, row: Rect, span: &Span, dancer: Dancer) {
    let Some(&[late, early]) = desk.to_watch().and_then(|list| list.bands.get(dancer.index())) else {
        return;
    };
    let half = row.height() / 2.0 - 1.0;
    let [up, down] = [late, early].map(|counts| (half * (counts / MOST_SHIFT) as f32).max(LEAST));
    let [left, right] =
        [span.begin(), span.end()].map(|count| axis.place(count).clamp(axis.left, axis.right));
    let y = row.center().y;
    let band = Rect::from_min_max(pos2(left, y - up), pos2(right, y + down));
    let ink = if late.min(early) < LITTLE { desk.ink().fault } else { desk.ink().well };
    painter.rect_filled(band, CornerRadius::same(2), colour(ink.faded(38)));
    let pen = Stroke::new(1.0, colour(ink.faded(110)));
    painter.hline(band.x_range(), band.top(), pen);
    painter.hline(band.x_range(), band.bottom(), pen);
}
