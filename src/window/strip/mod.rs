mod axis;
mod carried;
mod controls;
mod drag_along;
mod layout;
mod menus;
mod path_times;
mod point_at;
mod rows;
mod shown_parts;
mod slack_band;
mod taps_focus;
mod taps_row;
mod tune_row;
mod turn_times;
mod whole;

pub use axis::BarAxis;
pub use layout::without_room;
pub use shown_parts::show_parts;
pub use taps_focus::{go_to_row, row_has_focus};

use self::axis::to_quarter;
use self::carried::show_carried;
use self::controls::show_controls;
use self::layout::{MARGIN, Rows};
use self::point_at::Seen;
use self::rows::{show_bars, show_faults, show_feet, show_hands, show_loop};
use crate::desk::{Ask, Desk, FaultAsk, KeepAsk, PlayAsk};
use crate::motion::SpanIndex;
use crate::store::Arrangement;
use crate::window::{focus_ring::focus_ring, theme::colour};
use egui::{
    Align2, CursorIcon, FontId, Id, PointerButton, Pos2, Rect, Role, Sense, Shape, Stroke, Ui, WidgetInfo,
    pos2, vec2,
};

/// Bars shown at once at the most.
const MOST_BARS: u32 = 16;
/// What stands in the rows of a dancer while nobody is chosen.
const NOBODY: &str =
    "Choose a dancer to see feet, turns and hands: click one on the floor, or press a number";
/// What the name of the row of faults says where it has none.
const NONE: &str = "Faults of this figure are marked in this row; there are none in the dance";
/// The same while they are looked for.
const LOOKS: &str = "Faults of this figure are marked in this row. The dance is being looked over for them";
/// How much of the upper edge can be dragged, points.
const EDGE: f32 = 5.0;
/// How far before the bars the names of the rows end.
const NAMES: f32 = 26.0;

/// The bars under the floor: the whole dance in one line, then this figure's bars with the chosen dancer's feet,
/// turns and hands, and the faults.
#[derive(Default)]
pub struct BarStrip {
    /// The height that its edge is dragged to, points, until it is let go.
    wished: Option<f32>,
    /// The axis when a drag along the bars began: it stays until the drag ends.
    held: Option<BarAxis>,
    /// Where a menu of the bars was asked for.
    asked: point_at::Asked,
    /// Where a menu of the row of taps was asked for.
    taps: taps_row::TapsAsked,
    /// From the pointer to the moment that is dragged, counts.
    offset: f64,
    /// The line of the running order whose menu was asked for.
    line: Option<SpanIndex>,
    /// A line whose figure is to be called something else.
    pub renames: Option<usize>,
}

impl BarStrip {
    /// The part of the dance that the bars show: this figure, or the bars of it about the playhead.
    #[must_use]
    pub fn axis(desk: &Desk, rect: Rect) -> BarAxis {
        let (from, to) = match desk.span_here() {
            Some(span) if span.bars <= MOST_BARS => (span.begin(), span.end()),
            Some(span) => {
                let (bars, page) = (span.bar_counts(), MOST_BARS / 2);
                // The very end of a figure is still on its last page.
                let here = bars.at(desk.player().count - span.begin()).0.min(span.bars - 1);
                let first = here / page * page;
                let begin_of = |bar: u32| span.begin() + bars.begin_of(bar);
                (begin_of(first), begin_of((first + page).min(span.bars)))
            }
            None => (0.0, desk.motion().bar_counts().begin_of(8)),
        };
        let left = rect.left() + MARGIN;
        BarAxis { left, right: (rect.right() - 24.0).max(left + 24.0), from, to }
    }

    /// The height of the strip, points, in a window of a height.
    #[must_use]
    pub fn height(&self, desk: &Desk, window: f32) -> f32 {
        layout::height(desk, window, self.wished)
    }

    /// The upper edge, to drag: rows that have no room have it where the strip is higher.
    fn show_edge(&mut self, ui: &Ui, desk: &Desk, rect: Rect, asks: &mut Vec<Ask>) {
        let edge = Rect::from_min_max(rect.min, pos2(rect.right(), rect.top() + EDGE));
        let response = ui.interact(edge, Id::unique("edge of the bars"), Sense::click_and_drag());
        response.widget_info(|| WidgetInfo::labeled(Role::Splitter, true, "Height of the bars"));
        if let Some(at) = response.interact_pointer_pos().filter(|_| response.dragged()) {
            self.wished = Some((rect.bottom() - at.y).round());
        }
        let before = desk.settings().arrangement;
        if response.drag_stopped() {
            let strip = self.wished.take();
            asks.push(Ask::Keep(KeepAsk::Arrange(Arrangement { strip, ..before })));
        } else if response.double_clicked() {
            asks.push(Ask::Keep(KeepAsk::Arrange(Arrangement { strip: None, ..before })));
        }
        if response.hovered() || response.dragged() {
            ui.ctx().set_cursor_icon(CursorIcon::ResizeVertical);
        }
        response.on_hover_text("Drag: higher or lower. Double click: as usual");
    }

    /// Shows the strip.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        let (rect, _) = ui.allocate_exact_size(ui.available_size(), Sense::hover());
        let axis = self.held.unwrap_or_else(|| Self::axis(desk, rect));
        let painter = ui.painter_at(rect);
        let rows = Rows::of(desk, rect, ui.ctx().content_rect().height(), self.wished);
        self.scrub(ui, desk, (rect, rows.top()), axis, asks);
        self.show_whole(ui, &painter, desk, rows.whole, asks);
        let quiet = colour(desk.ink().quiet);
        for (name, row) in [
            ("figure", Some(rows.whole)),
            ("tune", rows.tune),
            ("bars", Some(rows.bars)),
            ("path", rows.path),
            ("feet", rows.feet),
            ("turn", rows.turn),
            ("hands", rows.hands),
            ("taps", rows.taps),
        ] {
            if let Some(row) = row {
                let at = pos2(axis.left - NAMES, row.center().y);
                painter.text(at, Align2::RIGHT_CENTER, name, FontId::proportional(12.5), quiet);
            }
        }
        show_fault_count(ui, desk, pos2(axis.left - NAMES, rows.faults.center().y), asks);
        if let (Some(air), Some(row)) = (desk.air(), rows.tune) {
            tune_row::show(&painter, desk, air, axis, row);
        }
        show_bars(&painter, desk, axis, rows.bars);
        let seen = desk.chosen().and_then(|dancer| {
            let span = desk.span_here()?;
            Some(Seen { dancer, span, track: span.track(dancer)? })
        });
        point_at::show(ui, (desk, seen), (axis, &rows), &mut self.asked, asks);
        if let Some(Seen { dancer, span, track }) = seen {
            if let (Some(index), Some(row)) = (desk.span(), rows.path) {
                path_times::show(
                    ui,
                    &painter,
                    desk,
                    (axis, row.center().y),
                    (index, dancer),
                    &mut self.offset,
                    asks,
                );
            }
            if let Some(row) = rows.feet.or(rows.path) {
                slack_band::show(&painter, desk, axis, row, span, dancer);
            }
            if let Some(row) = rows.feet {
                show_feet(&painter, desk, axis, row.center().y, span, dancer);
            }
            if let (Some(index), Some(row)) = (desk.span(), rows.turn) {
                let offset = &mut self.offset;
                turn_times::show(ui, &painter, desk, (axis, row), (index, dancer), offset, asks);
            }
            if let Some(row) = rows.hands {
                show_hands(&painter, desk, axis, row, span, track);
            }
        } else if desk.span().is_some() {
            let row = rows.feet.or(rows.path).unwrap_or(rows.faults);
            let at = pos2(axis.left + 8.0, row.center().y);
            let place = painter.text(at, Align2::LEFT_CENTER, NOBODY, FontId::proportional(13.0), quiet);
            let said = ui.interact(place, Id::unique("nobody chosen"), Sense::hover());
            said.widget_info(|| WidgetInfo::labeled(Role::Label, true, NOBODY));
        }
        if let Some(row) = rows.taps {
            taps_row::show(ui, &painter, desk, (axis, row), (&mut self.taps, &mut self.offset), asks);
        }
        show_faults(ui, &painter, desk, axis, rows.faults.center().y, asks);
        show_loop(&painter, desk, axis, rows.bars);
        let x = axis.place(desk.player().count).clamp(axis.left, axis.right);
        let words = colour(desk.ink().words);
        let top = rows.top() - 2.0;
        painter.line_segment([pos2(x, top - 4.0), pos2(x, rect.bottom() - 4.0)], Stroke::new(2.0, words));
        let flag = vec![pos2(x - 7.0, top - 8.0), pos2(x + 7.0, top - 8.0), pos2(x, top + 2.0)];
        painter.add(Shape::convex_polygon(flag, words, Stroke::NONE));
        show_controls(ui, desk, Rect::from_min_max(rect.min, pos2(axis.left - 60.0, rect.max.y)), asks);
        show_carried(ui, desk, rows.whole, (rect, axis), asks);
        self.show_edge(ui, desk, rect, asks);
    }

    /// Dragging or clicking along the bars.
    fn scrub(&mut self, ui: &Ui, desk: &Desk, (rect, top): (Rect, f32), axis: BarAxis, asks: &mut Vec<Ask>) {
        let area =
            Rect::from_min_max(pos2(axis.left - 8.0, top - 10.0), pos2(axis.right + 8.0, rect.bottom()));
        let response = ui.interact(area, Id::unique("bars"), Sense::click_and_drag());
        response.widget_info(|| {
            let mut info = WidgetInfo::slider(true, desk.player().count, "Bars");
            info.current_text_value = Some(desk.moment_words(desk.player().count));
            info
        });
        focus_ring(ui, &response, area, desk);
        if response.drag_started() {
            self.held = Some(axis);
        }
        let pointer = response.interact_pointer_pos();
        if let Some(at) =
            pointer.filter(|_| response.dragged_by(PointerButton::Primary) || response.clicked())
        {
            seek(desk, to_quarter(ui, axis.count(at.x)), asks);
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

/// The name of the row of faults, with how many there are in the dance: a click goes to the worst.
fn show_fault_count(ui: &Ui, desk: &Desk, at: Pos2, asks: &mut Vec<Ask>) {
    let (ink, said) = match desk.fault_count() {
        0 => (desk.ink().quiet, "faults".to_owned()),
        1 => (desk.ink().fault, "1 fault".to_owned()),
        many => (desk.ink().fault, format!("{many} faults")),
    };
    let words = ui.painter().layout_no_wrap(said.clone(), FontId::proportional(12.5), colour(ink));
    let place = Align2::RIGHT_CENTER.anchor_size(at, words.size());
    ui.painter().galley(place.min, words, colour(ink));
    let Some((index, worst)) = desk.faults().worst() else {
        let place = place.expand2(vec2(4.0, 5.0));
        let response = ui.interact(place, Id::unique("no faults"), Sense::hover());
        response.on_hover_text(if desk.looks_for_faults() { LOOKS } else { NONE });
        return;
    };
    let response = ui.interact(place.expand2(vec2(4.0, 5.0)), Id::unique("fault count"), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, format!("{said} in the dance")));
    focus_ring(ui, &response, place.expand2(vec2(4.0, 2.0)), desk);
    if response.clicked() {
        asks.push(Ask::Fault(FaultAsk::GoTo(index)));
    }
    response.on_hover_text(format!("The worst: {}\nClick to go there", worst.text));
}
