//! The rows of the bar strip: bars, feet, turns, hands, faults.

use super::axis::BarAxis;
use crate::dance::{Dancer, Foot};
use crate::desk::{Ask, Desk, FaultAsk};
use crate::motion::{Motion, Span, Track, Weight};
use crate::window::{
    context_menu::show_menu,
    explain::{explain, over_bars},
    fault_menu,
    focus_ring::focus_ring,
    paint::oval,
    theme::colour,
};
use egui::{
    Align2, CornerRadius, FontId, Id, Painter, Pos2, Rect, Role, Sense, Shape, Stroke, Ui, Vec2, WidgetInfo,
    pos2, vec2,
};

/// The bars as boxes, a mark for each count and a taller one for each strong beat, with the steps that the chosen dancer begins in each.
pub fn show_bars(painter: &Painter, desk: &Desk, axis: BarAxis, row: Rect) {
    let (ink, motion) = (&desk.ink(), desk.motion());
    let bars = motion.bar_counts();
    for bar in axis.bars(bars) {
        let (begin, end) = (bars.begin_of(bar), bars.begin_of(bar + 1));
        let block =
            Rect::from_min_max(pos2(axis.place(begin), row.top()), pos2(axis.place(end), row.bottom()));
        painter.rect(
            block,
            0.0,
            colour(ink.raised),
            Stroke::new(1.0, colour(ink.faint)),
            egui::StrokeKind::Middle,
        );
        for count in 1..bars.in_bar(bar) {
            let x = axis.place(begin + f64::from(count));
            let tall = if count.is_multiple_of(2) { 16.0 } else { 10.0 };
            painter.line_segment(
                [pos2(x, row.bottom() - tall), pos2(x, row.bottom())],
                Stroke::new(1.0, colour(ink.quiet)),
            );
        }
        let first = desk.span_here().map_or(0, |span| span.first_bar);
        let number = bar.saturating_sub(first) + 1;
        // A metre is told where it changes.
        let metre = bars.metre(bar);
        let before = bar.checked_sub(1).map_or(desk.dance().music.metre, |before| bars.metre(before));
        let number = if metre == before { number.to_string() } else { format!("{number}  {metre}") };
        let number = painter.text(
            pos2(block.left() + 7.0, row.top() + 10.0),
            Align2::LEFT_CENTER,
            number,
            FontId::proportional(14.0),
            colour(ink.words),
        );
        let steps = step_names(motion, desk.chosen().unwrap_or(Dancer(0)), (begin, end));
        let steps = painter.layout_no_wrap(steps, FontId::proportional(12.5), colour(ink.quiet));
        let place =
            Align2::RIGHT_CENTER.anchor_size(pos2(block.right() - 7.0, row.top() + 10.0), steps.size());
        // Where a bar has no room for both, its number stays; pointing at it says the steps.
        if place.left() > number.right() + 3.0 {
            painter.galley(place.min, steps, colour(ink.quiet));
        }
    }
}

/// The short names of the steps that begin in a bar, between two counts of the dance.
fn step_names(motion: &Motion, dancer: Dancer, (begin, end): (f64, f64)) -> String {
    let Some(span) = motion.span_under(begin) else {
        return String::new();
    };
    let Some(track) = span.track(dancer) else { return String::new() };
    let first = (begin - span.begin()).max(0.0) as usize;
    let names: Vec<&str> = track
        .footing()
        .falls()
        .iter()
        .skip(first)
        .take((end - begin) as usize)
        .filter(|fall| fall.begins)
        .filter_map(|fall| motion.known().get(fall.step).map(|step| step.short.as_str()))
        .collect();
    names.join(" ")
}

/// The foot of the hop on the upbeat before the figure at the playhead, if the figure before it ends with one: a half-bar jump
/// does not. The first figure is hopped into where its own steps ask for it.
pub fn hop_before(desk: &Desk, dancer: Dancer, track: &Track) -> Option<Foot> {
    match desk.span()?.before() {
        Some(before) => desk.motion().span(before)?.hop(dancer),
        None => track.footing().upbeat(),
    }
}

/// Footprints: left above, right below, filled where the foot takes the weight, hollow for a hop, an arch for a
/// jump, and L or R where a step begins.
pub fn show_feet(painter: &Painter, desk: &Desk, axis: BarAxis, y: f32, span: &Span, dancer: Dancer) {
    let Some(track) = span.track(dancer) else { return };
    let ink = colour(desk.ink().words);
    let radii = vec2((axis.count_width() * 0.3).min(9.0), 4.2);
    // Narrow prints have thin edges, or one would lie over the next.
    let pen = Stroke::new((radii.x * 0.4).clamp(0.8, 1.6), ink);
    let radii = vec2(radii.x - (1.6 - pen.width) / 2.0, radii.y);
    let (left, right) = (y - 6.0, y + 6.0);
    // The hop on the upbeat, before the first bar.
    if let Some(foot) = hop_before(desk, dancer, track).filter(|_| axis.from <= span.begin() + 1e-6) {
        let y = if foot == Foot::Left { left } else { right };
        let small = radii * 0.8;
        painter.add(footprint(pos2(axis.place(span.begin()) - small.x - 3.0, y), small, true, pen));
    }
    let mut landed = true;
    for (index, fall) in span.falls(dancer).iter().enumerate() {
        let count = span.begin() + index as f64;
        if count < axis.from - 1e-6 || count > axis.to - 1e-6 {
            continue;
        }
        let x = axis.place(count) + radii.x + pen.width + 0.4;
        let print = |y: f32| footprint(pos2(x, y), radii, fall.hop, pen);
        match fall.weight {
            Weight::Left => painter.extend([print(left)]),
            Weight::Right => painter.extend([print(right)]),
            Weight::Both => {
                if !landed {
                    painter.extend([print(left), print(right)]);
                }
            }
            Weight::Air => {
                let width = axis.count_width();
                let arch: Vec<Pos2> = (0..=12)
                    .map(|step| {
                        let share = step as f32 / 12.0;
                        pos2(
                            axis.place(count) + width * (0.1 + 0.8 * share),
                            y + 6.0 - 14.0 * (share * std::f32::consts::PI).sin(),
                        )
                    })
                    .collect();
                painter.add(Shape::line(arch, pen));
            }
        }
        if fall.begins && matches!(fall.weight, Weight::Left | Weight::Right) && axis.count_width() > 14.0 {
            let (letter, y) = if fall.weight == Weight::Left { ("L", right) } else { ("R", left) };
            painter.text(
                pos2(x, y),
                Align2::CENTER_CENTER,
                letter,
                FontId::proportional(11.0),
                colour(desk.ink().quiet),
            );
        }
        landed = fall.weight == Weight::Both;
    }
}

/// A print, hollow for a hop.
fn footprint(at: Pos2, radii: Vec2, hop: bool, pen: Stroke) -> Shape {
    if hop {
        return Shape::closed_line(oval((at.x, at.y), (radii.x, radii.y), 0.0), pen);
    }
    // As large as one with a line round it.
    let more = pen.width / 2.0;
    let corners = oval((at.x, at.y), (radii.x + more, radii.y + more), 0.0);
    Shape::convex_polygon(corners, pen.color, Stroke::NONE)
}

/// The height of the hands as a line.
pub fn show_hands(painter: &Painter, desk: &Desk, axis: BarAxis, row: Rect, span: &Span, track: &Track) {
    let from = (axis.from - span.begin()).max(0.0).floor() as usize;
    let to = (axis.to - span.begin()).ceil().max(0.0) as usize;
    let points: Vec<Pos2> = (from..=to)
        .map(|count| {
            let count = count as f64;
            let height = track.footing().hands(count) as f32;
            pos2(axis.place(span.begin() + count), row.bottom() - height * row.height())
        })
        .collect();
    painter.line_segment([row.left_bottom(), row.right_bottom()], Stroke::new(1.0, colour(desk.ink().faint)));
    painter.add(Shape::line(points, Stroke::new(1.8, colour(desk.ink().quiet))));
}

/// The faults as marks to click, as long as they last.
pub fn show_faults(ui: &Ui, painter: &Painter, desk: &Desk, axis: BarAxis, y: f32, asks: &mut Vec<Ask>) {
    let mut any = false;
    let shown = desk.shown_fault();
    for (index, fault) in desk.faults().iter().enumerate() {
        let (from, to) = fault.lasts;
        if to < axis.from - 1e-6 || from > axis.to + 1e-6 {
            continue;
        }
        any = true;
        // As long as it lasts, and long enough to be seen and clicked.
        let (left, right) = (axis.place(from).max(axis.left), axis.place(to).min(axis.right));
        let half = ((right - left) / 2.0).max(10.0);
        let x = f32::midpoint(left, right).clamp(axis.left + half, axis.right - half);
        let mark = Rect::from_center_size(pos2(x, y), vec2(2.0 * half, 8.0));
        if fault.allowed.is_some() {
            let pen = Stroke::new(1.2, colour(desk.ink().quiet));
            painter.rect_stroke(mark, CornerRadius::same(4), pen, egui::StrokeKind::Inside);
        } else {
            painter.rect_filled(mark, CornerRadius::same(4), colour(desk.ink().fault));
        }
        if shown == Some(index) {
            let pen = Stroke::new(1.5, colour(desk.ink().words));
            painter.rect_stroke(mark.expand(2.0), CornerRadius::same(5), pen, egui::StrokeKind::Inside);
        }
        let response = ui.interact(mark.expand(4.0), Id::unique(("fault", index)), Sense::click());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Fault: {}", fault.text)));
        focus_ring(ui, &response, mark.expand(4.0), desk);
        if response.clicked() {
            asks.push(Ask::Fault(FaultAsk::GoTo(index)));
        }
        let open = show_menu(&response, |ui, _| fault_menu::show(ui, desk, index, asks));
        if !open {
            let said = match &fault.allowed {
                Some(reason) => format!("{}\nMeant by this side: {reason}", fault.said),
                None => fault.said.clone(),
            };
            explain(&response, over_bars(painter, mark), &said);
        }
    }
    let (_, left) = desk.span().map_or((0, 0), |span| desk.faults().in_span(span));
    if left > 0 {
        // Those that have no mark of their own, at the end of the row.
        let ink = colour(desk.ink().fault);
        let words = painter.layout_no_wrap(format!("{left} more"), FontId::proportional(12.0), ink);
        let place = Align2::RIGHT_CENTER.anchor_size(pos2(axis.right, y), words.size());
        painter.rect_filled(place.expand(2.0), CornerRadius::same(4), colour(desk.ink().panel));
        painter.galley(place.min, words, ink);
        let response = ui.interact(place.expand(2.0), Id::unique("more faults"), Sense::hover());
        let said = format!("{left} more faults in this figure have no mark");
        response.widget_info(|| WidgetInfo::labeled(Role::Label, true, said.clone()));
        response.on_hover_text(said);
    } else if !any {
        let at = pos2(axis.left + 8.0, y);
        let said = if desk.looks_for_faults() { "being looked for…" } else { "none here" };
        painter.text(at, Align2::LEFT_CENTER, said, FontId::proportional(12.0), colour(desk.ink().quiet));
        let place = Rect::from_min_max(pos2(axis.left, y - 9.0), pos2(axis.right, y + 9.0));
        let response = ui.interact(place, Id::unique("no faults here"), Sense::hover());
        let hint = "Faults of this figure are marked here: who meets, wrong feet, late turns";
        response.on_hover_text_at_pointer(hint);
    }
}

/// The bars that are looped.
pub fn show_loop(painter: &Painter, desk: &Desk, axis: BarAxis, row: Rect) {
    let Some((from, to)) = desk.player().loop_counts else { return };
    let (from, to) = (from.max(axis.from), to.min(axis.to));
    if to > from {
        let ink = if desk.player().looping { desk.ink().well } else { desk.ink().faint };
        let y = row.top() - 3.0;
        painter.line_segment(
            [pos2(axis.place(from), y), pos2(axis.place(to), y)],
            Stroke::new(3.0, colour(ink)),
        );
    }
}
