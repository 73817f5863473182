mod axis;
mod menus;
mod path_times;
mod point_at;
mod rows;
mod tune_row;
mod whole;

pub use axis::BarAxis;

use self::point_at::Seen;
use self::rows::{show_bars, show_faults, show_feet, show_hands, show_loop, show_turns};
use crate::dance::COUNTS_PER_BAR;
use crate::desk::{Ask, Desk, PlayAsk};
use crate::motion::{Moment, Span};
use crate::window::{keys::goes_free, theme::colour};
use egui::{Align2, FontId, Id, PointerButton, Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};

/// The height of the strip without a tune, points.
const HEIGHT: f32 = 222.0;
/// The height of the strip without its hands either, points.
const SHORT: f32 = 176.0;
/// Windows lower than these have no room for the tune, and for the hands, points.
const LOW: [f32; 2] = [680.0, crate::window::sizes::LOW];
/// Bars shown at once at the most.
const MOST_BARS: u32 = 16;
/// What stands in the rows of a dancer while nobody is chosen.
const NOBODY: &str =
    "Choose a dancer to see feet, turns and hands: click one on the floor, or press a number";
/// Where the rows' names end and the bars begin.
const MARGIN: f32 = 232.0;

/// The bars under the floor: the whole dance in one line, then this figure's bars with the chosen dancer's feet,
/// turns and hands, and the faults.
#[derive(Default)]
pub struct BarStrip {
    /// The axis when a drag along the bars began: it stays until the drag ends.
    held: Option<BarAxis>,
    /// Where a menu of the bars was asked for.
    asked: point_at::Asked,
    /// The line of the running order whose menu was asked for.
    line: Option<usize>,
    /// A line whose figure is to be called something else.
    pub renames: Option<usize>,
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
                    span.begin() + ((desk.player().count - span.begin()) / page).floor().min(last) * page;
                (begin, (begin + page).min(span.end()).max(begin + per_bar))
            }
            None => (0.0, 8.0 * per_bar),
        };
        BarAxis { left: rect.left() + MARGIN, right: rect.right() - 24.0, from, to }
    }

    /// The height of the strip, points, in a window of a height: there is a row for the tune where the dance has one
    /// and the floor can spare it, and one for the hands where it can spare that.
    #[must_use]
    pub fn height(desk: &Desk, window: f32) -> f32 {
        match desk.air() {
            _ if window < LOW[1] => SHORT,
            Some(_) if window >= LOW[0] => HEIGHT + tune_row::HEIGHT,
            _ => HEIGHT,
        }
    }

    /// Shows the strip.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        let (rect, _) = ui.allocate_exact_size(ui.available_size(), Sense::hover());
        let axis = self.held.unwrap_or_else(|| Self::axis(desk, rect));
        let painter = ui.painter_at(rect);
        self.scrub(ui, desk, rect, axis, asks);
        let air = desk.air().filter(|_| rect.height() > HEIGHT + tune_row::HEIGHT / 2.0);
        let rows = Rows::of(rect, if air.is_some() { tune_row::HEIGHT } else { 0.0 });
        self.show_whole(ui, &painter, desk, rows.whole, asks);
        let quiet = colour(desk.ink().quiet);
        for (name, y) in [
            ("bars", rows.bars.center().y),
            ("path", rows.path),
            ("feet", rows.feet),
            ("turn", rows.turn),
            ("faults", rows.faults),
        ] {
            let at = pos2(axis.left - 26.0, y);
            painter.text(at, Align2::RIGHT_CENTER, name, FontId::proportional(12.5), quiet);
        }
        if let Some(air) = air {
            let at = pos2(axis.left - 26.0, rows.tune.center().y);
            painter.text(at, Align2::RIGHT_CENTER, "tune", FontId::proportional(12.5), quiet);
            tune_row::show(&painter, desk, air, axis, rows.tune);
        }
        if let Some(hands) = rows.hands {
            let at = pos2(axis.left - 26.0, hands.center().y);
            painter.text(at, Align2::RIGHT_CENTER, "hands", FontId::proportional(12.5), quiet);
        }
        show_bars(&painter, desk, axis, rows.bars);
        let seen = desk.chosen().and_then(|dancer| {
            let span = desk.span().and_then(|index| desk.motion().spans().get(index))?;
            Some(Seen { dancer, span, track: span.track(dancer)? })
        });
        point_at::show(ui, (desk, air, seen), (axis, &rows), &mut self.asked, asks);
        if let Some(Seen { dancer, span, track }) = seen {
            if let Some(index) = desk.span() {
                path_times::show(ui, &painter, desk, (axis, rows.path), (index, dancer), asks);
            }
            show_feet(&painter, desk, axis, rows.feet, span, dancer);
            show_turns(&painter, desk, axis, rows.turn, span, dancer);
            if let Some(hands) = rows.hands {
                show_hands(&painter, desk, axis, hands, span, track);
            }
        } else if desk.span().is_some() {
            let at = pos2(axis.left + 8.0, rows.feet);
            let place = painter.text(at, Align2::LEFT_CENTER, NOBODY, FontId::proportional(13.0), quiet);
            let said = ui.interact(place, Id::unique("nobody chosen"), Sense::hover());
            said.widget_info(|| WidgetInfo::labeled(Role::Label, true, NOBODY));
        }
        show_faults(ui, &painter, desk, axis, rows.faults, asks);
        show_loop(&painter, desk, axis, rows.bars);
        let x = axis.place(desk.player().count).clamp(axis.left, axis.right);
        let words = colour(desk.ink().words);
        painter.line_segment(
            [pos2(x, rows.tune.top() - 8.0), pos2(x, rect.bottom() - 8.0)],
            Stroke::new(2.0, words),
        );
        let top = rows.tune.top() - 4.0;
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
            let mut info = WidgetInfo::slider(true, desk.player().count, "Bars");
            info.current_text_value = Some(desk.moment_words(desk.player().count));
            info
        });
        if response.drag_started() {
            self.held = Some(axis);
        }
        let pointer = response.interact_pointer_pos();
        if let Some(at) =
            pointer.filter(|_| response.dragged_by(PointerButton::Primary) || response.clicked())
        {
            // To the nearest quarter of a count; with Alt or Ctrl anywhere.
            let count = axis.count(at.x);
            let count = if goes_free(ui) { count } else { (count * 4.0).round() / 4.0 };
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
    if (count - desk.player().count).abs() > 1e-6 {
        asks.push(Ask::Play(PlayAsk::Seek(count)));
    }
}

/// Where the rows lie; the tune's is as high as it is, and its top is that of the bars where there is none.
struct Rows {
    whole: Rect,
    tune: Rect,
    bars: Rect,
    path: f32,
    feet: f32,
    turn: f32,
    /// Nowhere in a low window.
    hands: Option<Rect>,
    faults: f32,
}

impl Rows {
    fn of(rect: Rect, tune: f32) -> Self {
        let short = rect.height() < HEIGHT - 1.0;
        let (left, right, top) = (rect.left() + MARGIN, rect.right() - 24.0, rect.top());
        let row = |from: f32, to: f32| Rect::from_min_max(pos2(left, top + from), pos2(right, top + to));
        let (whole, air) = (row(9.0, 25.0), row(if tune > 0.0 { 40.0 } else { 46.0 }, 46.0 + tune));
        let top = top + tune;
        let row = |from: f32, to: f32| Rect::from_min_max(pos2(left, top + from), pos2(right, top + to));
        Self {
            whole,
            tune: air,
            bars: row(46.0, 78.0),
            path: top + 89.0,
            feet: top + 112.0,
            turn: top + 146.0,
            hands: (!short).then(|| row(159.0, 187.0)),
            faults: top + if short { 163.0 } else { 204.0 },
        }
    }
}

/// Play, where we are, and how fast.
fn show_controls(ui: &mut Ui, desk: &Desk, rect: Rect, asks: &mut Vec<Ask>) {
    let centre = rect.left_top() + vec2(44.0, 52.0);
    let button = Rect::from_center_size(centre, vec2(46.0, 46.0));
    let response = ui.interact(button, Id::unique("play"), Sense::click());
    let playing = desk.player().playing;
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, if playing { "Stop" } else { "Play" }));
    if response.clicked() {
        asks.push(Ask::Play(PlayAsk::Toggle));
    }
    let painter = ui.painter().clone();
    let (words, ground) = (colour(desk.ink().words), colour(desk.ink().panel));
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
    let moment = Moment::at(desk.player().count - span.map_or(0.0, Span::begin));
    let at = centre + vec2(34.0, -10.0);
    painter.text(at, Align2::LEFT_CENTER, format!("bar {moment}"), FontId::proportional(19.0), words);
    let quiet = colour(desk.ink().quiet);
    let speed = format!("{:.0} · at {:.0} %", desk.dance().music.speed, desk.player().tempo * 100.0);
    painter.text(centre + vec2(34.0, 12.0), Align2::LEFT_CENTER, speed, FontId::proportional(13.0), quiet);
    let below = Rect::from_min_max(pos2(rect.left() + 18.0, rect.top() + 88.0), rect.max);
    ui.scope_builder(egui::UiBuilder::new().max_rect(below), |ui| {
        let mut percent = desk.player().tempo * 100.0;
        ui.spacing_mut().slider_width = 96.0;
        let slider = ui
            .add(egui::Slider::new(&mut percent, 20.0..=150.0).step_by(5.0).show_value(false).text("speed"));
        if slider.changed() {
            asks.push(Ask::Play(PlayAsk::Tempo(percent / 100.0)));
        }
        let mut looping = desk.player().looping;
        let name = match desk.player().loop_counts {
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
            asks.push(Ask::Play(PlayAsk::ToggleLoop));
        }
    });
}
