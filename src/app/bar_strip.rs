use super::{ask::Ask, bar_axis::BarAxis, desk::Desk, paint::words_within, path_times, theme::colour};
use crate::dance::{COUNTS_PER_BAR, Foot};
use crate::motion::{Moment, Motion, Span, Track, Weight, amount};
use egui::{
    Align2, Color32, CornerRadius, FontId, Id, Painter, PointerButton, Pos2, Rect, Role, Sense, Shape,
    Stroke, Ui, WidgetInfo, pos2, vec2,
};

/// The height of the strip, points.
pub const HEIGHT: f32 = 222.0;
/// Bars shown at once at the most.
const MOST_BARS: u32 = 16;
/// Where the rows' names end and the bars begin.
const MARGIN: f32 = 232.0;

/// The bars under the floor: the whole dance in one line, then this figure's bars with the chosen dancer's feet,
/// turns and hands, and the faults.
#[derive(Default)]
pub struct BarStrip {
    /// The axis when a drag along the bars began: it stays until the drag ends.
    held: Option<BarAxis>,
}

impl BarStrip {
    /// The part of the dance that the bars show: this figure, or the bars of it about the playhead.
    #[must_use]
    pub fn axis(desk: &Desk, rect: Rect) -> BarAxis {
        let per_bar = f64::from(COUNTS_PER_BAR);
        let (from, to) = match desk.span().and_then(|index| desk.motion().spans().get(index)) {
            Some(span) if span.bars <= MOST_BARS => (span.begin(), span.end()),
            Some(span) => {
                let page = f64::from(MOST_BARS / 2) * per_bar;
                // The very end of a figure is still on its last page.
                let last = f64::from((span.bars - 1) / (MOST_BARS / 2));
                let begin =
                    span.begin() + ((desk.player.count - span.begin()) / page).floor().min(last) * page;
                (begin, (begin + page).min(span.end()).max(begin + per_bar))
            }
            None => (0.0, 8.0 * per_bar),
        };
        BarAxis { left: rect.left() + MARGIN, right: rect.right() - 24.0, from, to }
    }

    /// Shows the strip.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        let (rect, _) = ui.allocate_exact_size(ui.available_size(), Sense::hover());
        let axis = self.held.unwrap_or_else(|| Self::axis(desk, rect));
        let painter = ui.painter_at(rect);
        self.scrub(ui, desk, rect, axis, asks);
        let rows = Rows::of(rect);
        show_whole(ui, &painter, desk, rows.whole, asks);
        let quiet = colour(desk.ink.quiet);
        for (name, y) in [
            ("bars", rows.bars.center().y),
            ("path", rows.path),
            ("feet", rows.feet),
            ("turn", rows.turn),
            ("hands", rows.hands.center().y),
            ("faults", rows.faults),
        ] {
            let at = pos2(axis.left - 26.0, y);
            painter.text(at, Align2::RIGHT_CENTER, name, FontId::proportional(12.5), quiet);
        }
        show_bars(&painter, desk, axis, rows.bars);
        if let (Some(dancer), Some(span)) =
            (desk.chosen, desk.span().and_then(|index| desk.motion().spans().get(index)))
            && let Some(track) = span.track(dancer)
        {
            if let Some(index) = desk.span() {
                path_times::show(ui, &painter, desk, (axis, rows.path), (index, dancer), asks);
            }
            show_feet(&painter, desk, axis, rows.feet, span, track);
            show_turns(&painter, desk, axis, rows.turn, span, dancer);
            show_hands(&painter, desk, axis, rows.hands, span, track);
        }
        show_faults(ui, &painter, desk, axis, rows.faults, asks);
        show_loop(&painter, desk, axis, rows.bars);
        let x = axis.place(desk.player.count).clamp(axis.left, axis.right);
        let words = colour(desk.ink.words);
        painter.line_segment(
            [pos2(x, rows.bars.top() - 8.0), pos2(x, rect.bottom() - 8.0)],
            Stroke::new(2.0, words),
        );
        let top = rows.bars.top() - 4.0;
        let flag = vec![pos2(x - 7.0, top - 8.0), pos2(x + 7.0, top - 8.0), pos2(x, top + 2.0)];
        painter.add(Shape::convex_polygon(flag, words, Stroke::NONE));
        show_controls(ui, desk, Rect::from_min_max(rect.min, pos2(axis.left - 60.0, rect.max.y)), asks);
    }

    /// Dragging or clicking along the bars.
    fn scrub(&mut self, ui: &Ui, desk: &Desk, rect: Rect, axis: BarAxis, asks: &mut Vec<Ask>) {
        let area = Rect::from_min_max(
            pos2(axis.left - 8.0, rect.top() + 34.0),
            pos2(axis.right + 8.0, rect.bottom()),
        );
        let response = ui.interact(area, Id::unique("bars"), Sense::click_and_drag());
        response.widget_info(|| {
            let mut info = WidgetInfo::slider(true, desk.player.count, "Bars");
            info.current_text_value = Some(desk.moment_words(desk.player.count));
            info
        });
        if response.drag_started() {
            self.held = Some(axis);
        }
        let pointer = response.interact_pointer_pos();
        if let Some(at) =
            pointer.filter(|_| response.dragged_by(PointerButton::Primary) || response.clicked())
        {
            // To the nearest quarter of a count; with Alt anywhere.
            let count = axis.count(at.x);
            let count =
                if ui.input(|input| input.modifiers.alt) { count } else { (count * 4.0).round() / 4.0 };
            seek(desk, count, asks);
        }
        if response.drag_stopped() || !ui.input(|input| input.pointer.any_down()) {
            self.held = None;
        }
    }
}

/// Asks for a count, unless the playhead is there already.
fn seek(desk: &Desk, count: f64, asks: &mut Vec<Ask>) {
    let count = count.clamp(0.0, desk.motion().counts());
    if (count - desk.player.count).abs() > 1e-6 {
        asks.push(Ask::Seek(count));
    }
}

/// Where the rows lie.
struct Rows {
    whole: Rect,
    bars: Rect,
    path: f32,
    feet: f32,
    turn: f32,
    hands: Rect,
    faults: f32,
}

impl Rows {
    fn of(rect: Rect) -> Self {
        let (left, right, top) = (rect.left() + MARGIN, rect.right() - 24.0, rect.top());
        let row = |from: f32, to: f32| Rect::from_min_max(pos2(left, top + from), pos2(right, top + to));
        Self {
            whole: row(9.0, 25.0),
            bars: row(46.0, 78.0),
            path: top + 89.0,
            feet: top + 112.0,
            turn: top + 146.0,
            hands: row(159.0, 187.0),
            faults: top + 204.0,
        }
    }
}

/// The whole dance in one line: a block for each figure, to jump by.
fn show_whole(ui: &Ui, painter: &Painter, desk: &Desk, rect: Rect, asks: &mut Vec<Ask>) {
    let motion = desk.motion();
    let axis = BarAxis { left: rect.left(), right: rect.right(), from: 0.0, to: motion.counts().max(1.0) };
    let here = desk.span();
    for (index, span) in motion.spans().iter().enumerate() {
        let block = Rect::from_min_max(
            pos2(axis.place(span.begin()) + 1.0, rect.top()),
            pos2(axis.place(span.end()) - 1.0, rect.bottom()),
        );
        let name = desk.dance().figures.get(span.figure).map_or("", |figure| figure.name.as_str());
        let fill = if here == Some(index) { desk.ink.chosen } else { desk.ink.raised };
        painter.rect(
            block,
            3.0,
            colour(fill),
            Stroke::new(1.0, colour(desk.ink.faint)),
            egui::StrokeKind::Inside,
        );
        let ink = if here == Some(index) { desk.ink.words } else { desk.ink.quiet };
        let at = block.left_center() + vec2(5.0, 0.0);
        words_within(painter, at, block.width() - 8.0, name, 11.5, colour(ink));
    }
    let response = ui.interact(rect, Id::unique("whole dance"), Sense::click_and_drag());
    response.widget_info(|| WidgetInfo::slider(true, desk.player.count, "Whole dance"));
    if let Some(at) = response.interact_pointer_pos().filter(|_| response.dragged() || response.clicked()) {
        seek(desk, axis.count(at.x).round(), asks);
    }
    let x = axis.place(desk.player.count);
    painter.line_segment(
        [pos2(x, rect.top() - 2.0), pos2(x, rect.bottom() + 2.0)],
        Stroke::new(2.0, colour(desk.ink.words)),
    );
}

fn show_bars(painter: &Painter, desk: &Desk, axis: BarAxis, row: Rect) {
    let (ink, per_bar) = (&desk.ink, f64::from(COUNTS_PER_BAR));
    let motion = desk.motion();
    for bar in axis.bars() {
        let begin = f64::from(bar) * per_bar;
        let block = Rect::from_min_max(
            pos2(axis.place(begin), row.top()),
            pos2(axis.place(begin + per_bar), row.bottom()),
        );
        painter.rect(
            block,
            0.0,
            colour(ink.raised),
            Stroke::new(1.0, colour(ink.faint)),
            egui::StrokeKind::Middle,
        );
        for count in 1..COUNTS_PER_BAR {
            let x = axis.place(begin + f64::from(count));
            let tall = if count == 2 { 16.0 } else { 10.0 };
            painter.line_segment(
                [pos2(x, row.bottom() - tall), pos2(x, row.bottom())],
                Stroke::new(1.0, colour(ink.quiet)),
            );
        }
        let first = desk.span().and_then(|index| motion.spans().get(index)).map_or(0, |span| span.first_bar);
        let number = bar.saturating_sub(first) + 1;
        painter.text(
            pos2(block.left() + 7.0, row.top() + 10.0),
            Align2::LEFT_CENTER,
            number.to_string(),
            FontId::proportional(14.0),
            colour(ink.words),
        );
        let steps = step_names(motion, desk.chosen.unwrap_or(0), begin);
        painter.text(
            pos2(block.right() - 7.0, row.top() + 10.0),
            Align2::RIGHT_CENTER,
            steps,
            FontId::proportional(12.5),
            colour(ink.quiet),
        );
    }
}

/// The short names of the steps that begin in a bar.
fn step_names(motion: &Motion, dancer: usize, begin: f64) -> String {
    let Some(span) = motion.span_at(begin).and_then(|index| motion.spans().get(index)) else {
        return String::new();
    };
    let Some(track) = span.track(dancer) else { return String::new() };
    let first = (begin - span.begin()).max(0.0) as usize;
    let names: Vec<&str> = track
        .footing()
        .falls()
        .iter()
        .skip(first)
        .take(COUNTS_PER_BAR as usize)
        .filter(|fall| fall.begins)
        .filter_map(|fall| motion.known().get(fall.step).map(|step| step.short.as_str()))
        .collect();
    names.join(" ")
}

/// Footprints: left above, right below, filled where the foot takes the weight, hollow for a hop, an arch for a
/// jump, and L or R where a step begins.
fn show_feet(painter: &Painter, desk: &Desk, axis: BarAxis, y: f32, span: &Span, track: &Track) {
    let ink = colour(desk.ink.words);
    let pen = Stroke::new(1.6, ink);
    let radii = vec2((axis.count_width() * 0.3).min(9.0), 4.2);
    let (left, right) = (y - 6.0, y + 6.0);
    // The hop on the upbeat, before the first bar.
    if let Some(foot) = track.footing().upbeat().filter(|_| axis.from <= span.begin() + 1e-6) {
        let y = if foot == Foot::Left { left } else { right };
        let small = radii * 0.8;
        painter.add(Shape::ellipse_stroke(pos2(axis.place(span.begin()) - small.x - 3.0, y), small, pen));
    }
    let mut landed = true;
    for (index, fall) in track.footing().falls().iter().enumerate() {
        let count = span.begin() + index as f64;
        if count < axis.from - 1e-6 || count > axis.to - 1e-6 {
            continue;
        }
        let x = axis.place(count) + radii.x + 2.0;
        let print = |y: f32| {
            let fill = if fall.hop { Color32::TRANSPARENT } else { ink };
            Shape::ellipse_filled(pos2(x, y), radii, fill)
        };
        let edge = |y: f32| Shape::ellipse_stroke(pos2(x, y), radii, pen);
        match fall.weight {
            Weight::Left => painter.extend([print(left), edge(left)]),
            Weight::Right => painter.extend([print(right), edge(right)]),
            Weight::Both => {
                if !landed {
                    painter.extend([print(left), edge(left), print(right), edge(right)]);
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
                colour(desk.ink.quiet),
            );
        }
        landed = fall.weight == Weight::Both;
    }
}

/// Turns as arrows with their amounts.
fn show_turns(painter: &Painter, desk: &Desk, axis: BarAxis, y: f32, span: &Span, dancer: usize) {
    let Some(track) = span.track(dancer) else { return };
    let pen = Stroke::new(1.8, colour(desk.ink.words));
    for turn in track.turns() {
        let (begin, end) = (span.begin() + turn.begin, span.begin() + turn.end);
        if end < axis.from || begin > axis.to {
            continue;
        }
        let through = amount(turn, track.stand(turn.begin).2);
        if through.abs() < 0.5 {
            continue;
        }
        let (from, to) = (axis.place(begin).max(axis.left), axis.place(end).min(axis.right));
        let (tip, tail) = if through < 0.0 { (from, to) } else { (to, from) };
        let back = if through < 0.0 { 7.0 } else { -7.0 };
        painter.line_segment([pos2(tail, y), pos2(tip, y)], pen);
        painter.line_segment([pos2(tip, y), pos2(tip + back, y - 4.0)], pen);
        painter.line_segment([pos2(tip, y), pos2(tip + back, y + 4.0)], pen);
        let way = if through < 0.0 { "left" } else { "right" };
        painter.text(
            pos2(f32::midpoint(from, to).max(axis.left + 26.0), y - 9.0),
            Align2::CENTER_CENTER,
            format!("{way} {:.0}°", through.abs()),
            FontId::proportional(11.5),
            colour(desk.ink.quiet),
        );
    }
}

fn show_hands(painter: &Painter, desk: &Desk, axis: BarAxis, row: Rect, span: &Span, track: &Track) {
    let from = (axis.from - span.begin()).max(0.0).floor() as usize;
    let to = (axis.to - span.begin()).ceil().max(0.0) as usize;
    let points: Vec<Pos2> = (from..=to)
        .map(|count| {
            let count = count as f64;
            let height = track.footing().hands(count) as f32;
            pos2(axis.place(span.begin() + count), row.bottom() - height * row.height())
        })
        .collect();
    painter.line_segment([row.left_bottom(), row.right_bottom()], Stroke::new(1.0, colour(desk.ink.faint)));
    painter.add(Shape::line(points, Stroke::new(1.8, colour(desk.ink.quiet))));
}

fn show_faults(ui: &Ui, painter: &Painter, desk: &Desk, axis: BarAxis, y: f32, asks: &mut Vec<Ask>) {
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
            let pen = Stroke::new(1.2, colour(desk.ink.quiet));
            painter.rect_stroke(mark, CornerRadius::same(4), pen, egui::StrokeKind::Inside);
        } else {
            painter.rect_filled(mark, CornerRadius::same(4), colour(desk.ink.fault));
        }
        if shown == Some(index) {
            let pen = Stroke::new(1.5, colour(desk.ink.words));
            painter.rect_stroke(mark.expand(2.0), CornerRadius::same(5), pen, egui::StrokeKind::Inside);
        }
        let response = ui.interact(mark.expand(4.0), Id::unique(("fault", index)), Sense::click());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("Fault: {}", fault.text)));
        if response.clicked() {
            asks.push(Ask::GoToFault(index));
        }
        response.on_hover_text(match &fault.allowed {
            Some(reason) => format!("{}\nMeant by this side: {reason}", fault.said),
            None => fault.said.clone(),
        });
    }
    if !any {
        let at = pos2(axis.left + 8.0, y);
        painter.text(
            at,
            Align2::LEFT_CENTER,
            "none here",
            FontId::proportional(12.0),
            colour(desk.ink.quiet),
        );
    }
}

fn show_loop(painter: &Painter, desk: &Desk, axis: BarAxis, row: Rect) {
    let Some((from, to)) = desk.player.loop_counts else { return };
    let (from, to) = (from.max(axis.from), to.min(axis.to));
    if to > from {
        let ink = if desk.player.looping { desk.ink.well } else { desk.ink.faint };
        let y = row.top() - 3.0;
        painter.line_segment(
            [pos2(axis.place(from), y), pos2(axis.place(to), y)],
            Stroke::new(3.0, colour(ink)),
        );
    }
}

/// Play, where we are, and how fast.
fn show_controls(ui: &mut Ui, desk: &Desk, rect: Rect, asks: &mut Vec<Ask>) {
    let centre = rect.left_top() + vec2(44.0, 52.0);
    let button = Rect::from_center_size(centre, vec2(46.0, 46.0));
    let response = ui.interact(button, Id::unique("play"), Sense::click());
    let playing = desk.player.playing;
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, if playing { "Stop" } else { "Play" }));
    if response.clicked() {
        asks.push(Ask::TogglePlay);
    }
    let painter = ui.painter().clone();
    let (words, ground) = (colour(desk.ink.words), colour(desk.ink.panel));
    let radius = if response.hovered() || response.has_focus() { 23.0 } else { 21.5 };
    painter.circle_filled(centre, radius, words);
    if playing {
        painter.rect_filled(Rect::from_center_size(centre, vec2(15.0, 15.0)), 1.0, ground);
    } else {
        let arrow = vec![centre + vec2(-6.0, -10.0), centre + vec2(11.0, 0.0), centre + vec2(-6.0, 10.0)];
        painter.add(Shape::convex_polygon(arrow, ground, Stroke::NONE));
    }
    response.on_hover_text(if playing { "Stop (Space)" } else { "Play (Space)" });
    let span = desk.span().and_then(|index| desk.motion().spans().get(index));
    let moment = Moment::at(desk.player.count - span.map_or(0.0, Span::begin));
    let at = centre + vec2(34.0, -10.0);
    painter.text(at, Align2::LEFT_CENTER, format!("bar {moment}"), FontId::proportional(19.0), words);
    let quiet = colour(desk.ink.quiet);
    let speed = format!("{:.0} · at {:.0} %", desk.dance().music.speed, desk.player.tempo * 100.0);
    painter.text(centre + vec2(34.0, 12.0), Align2::LEFT_CENTER, speed, FontId::proportional(13.0), quiet);
    let below = Rect::from_min_max(pos2(rect.left() + 18.0, rect.top() + 88.0), rect.max);
    ui.scope_builder(egui::UiBuilder::new().max_rect(below), |ui| {
        let mut percent = desk.player.tempo * 100.0;
        ui.spacing_mut().slider_width = 96.0;
        let slider = ui
            .add(egui::Slider::new(&mut percent, 20.0..=150.0).step_by(5.0).show_value(false).text("speed"));
        if slider.changed() {
            asks.push(Ask::Tempo(percent / 100.0));
        }
        let mut looping = desk.player.looping;
        let name = match desk.player.loop_counts {
            Some((from, to)) => {
                let begin = span.map_or(0, |span| span.first_bar);
                let bar = |count: f64| (count / 4.0) as u32;
                if bar(from) >= begin && span.is_some_and(|span| to <= span.end()) {
                    format!("loop bars {} to {}", bar(from) - begin + 1, bar(to).saturating_sub(begin))
                } else {
                    format!("loop bars {} to {} of the dance", bar(from) + 1, bar(to))
                }
            }
            None => "loop this figure".to_owned(),
        };
        if ui.checkbox(&mut looping, name).on_hover_text("Loop (L); [ and ] set its ends").changed() {
            asks.push(Ask::ToggleLoop);
        }
    });
}
