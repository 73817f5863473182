//! The chosen dancer's turns along the bar strip: arrows with their amounts, to drag whole or by either end.

use super::axis::{BarAxis, to_quarter};
use super::drag_along::drag_along;
use crate::dance::Dancer;
use crate::desk::{Ask, Desk, DrawAsk, Grip, PlayAsk};
use crate::edits::{TurnEdit, TurnTime};
use crate::motion::{Span, SpanIndex};
use crate::window::{
    context_menu::show_menu,
    explain::{explain, over_bars},
    one_press::pressed_once,
    theme::colour,
    turn_menu,
};
use crate::words::{turn_words, turned_words};
use egui::{
    CursorIcon, EventFilter, FontId, Id, Key, Modifiers, Painter, Rect, Response, Role, Sense, Stroke, Ui,
    WidgetInfo, pos2, vec2,
};

/// How far a handle reaches into its turn, and beyond it where no other turn is, points.
const INSIDE: f32 = 7.0;
const BEYOND: f32 = 4.0;
/// What the arrows move by at each press, counts.
const STEP: f64 = 0.5;
/// What a turn says under its own words.
const HELP: &str = "Drag it, or an end of it, to another time; right click for more. With the focus: arrows move it half a \
                    count, Shift and arrows its end, Delete takes it away";

/// A turn as it lies along the bars.
struct TurnBar {
    index: usize,
    /// Counts from the start of the dance.
    begin: f64,
    end: f64,
    /// Degrees, clockwise positive.
    amount: f64,
    /// Where its ends are, points; within the bars that are shown.
    left: f32,
    right: f32,
    /// Whether another turn ends where it begins, and begins where it ends.
    follows: bool,
    leads_on: bool,
}

/// The turns of a dancer that can be seen; those that go nowhere are not drawn.
/// One that is held is there wherever it is dragged to.
fn bars(span: &Span, dancer: Dancer, axis: BarAxis, held: Option<usize>) -> Vec<TurnBar> {
    let Some(track) = span.track(dancer) else { return Vec::new() };
    let turns = track.turns();
    let all = turns.iter().zip(track.amounts()).enumerate();
    all.filter_map(|(index, (turn, &amount))| {
        let (begin, end) = (span.begin() + turn.begin, span.begin() + turn.end);
        let inside = end > axis.from + 1e-6 && begin < axis.to - 1e-6;
        let seen = held == Some(index) || inside && amount.abs() >= 0.5;
        let touches = |other: Option<&crate::dance::Turn>, at: f64| {
            other.is_some_and(|other| (other.begin - at).abs() < 1e-3 || (other.end - at).abs() < 1e-3)
        };
        seen.then(|| TurnBar {
            index,
            begin,
            end,
            amount,
            left: axis.place(begin).clamp(axis.left, axis.right),
            right: axis.place(end).clamp(axis.left, axis.right),
            follows: index.checked_sub(1).is_some_and(|before| touches(turns.get(before), turn.begin)),
            leads_on: touches(turns.get(index + 1), turn.end),
        })
    })
    .collect()
}

impl TurnBar {
    /// Where a part of it can be taken hold of, in a row of the strip.
    fn place(&self, of: TurnTime, row: Rect) -> Rect {
        let inside = INSIDE.min((self.right - self.left) / 3.0);
        let beyond = |touches: bool| if touches { 0.0 } else { BEYOND };
        let (from, to) = match of {
            TurnTime::Whole => (self.left, self.right),
            TurnTime::Begin => (self.left - beyond(self.follows), self.left + inside),
            TurnTime::End => (self.right - inside, self.right + beyond(self.leads_on)),
        };
        Rect::from_min_max(pos2(from, row.top() + 1.0), pos2(to, row.bottom() - 1.0))
    }

    fn name(&self, of: TurnTime, span: &Span) -> String {
        let number = self.index + 1;
        match of {
            TurnTime::Whole => {
                let (from, to) = (span.moment_said(self.begin), span.moment(self.end));
                format!("Turn {number}, {}, {from} to {to}", turned_words(self.amount))
            }
            TurnTime::Begin => format!("Start of turn {number}, at {}", span.moment_said(self.begin)),
            TurnTime::End => format!("End of turn {number}, at {}", span.moment_said(self.end)),
        }
    }

    /// The moment of a part of it, counts from the start of the dance.
    fn moment(&self, of: TurnTime) -> f64 {
        if of == TurnTime::End { self.end } else { self.begin }
    }
}

/// Shows the turns of a dancer in a span, in a row of the strip. `offset` is from the pointer to the moment that is dragged,
/// counts.
pub fn show(
    ui: &Ui,
    painter: &Painter,
    desk: &Desk,
    (axis, row): (BarAxis, Rect),
    (index, dancer): (SpanIndex, Dancer),
    offset: &mut f64,
    asks: &mut Vec<Ask>,
) {
    let Some(span) = desk.motion().span(index) else { return };
    // Where the words of the turn before end, points.
    let mut words_end = axis.left - 4.0;
    let held = match desk.held() {
        Some(Grip::Turn { span, dancer: of, turn, .. }) if span == index && of == dancer => Some(turn),
        _ => None,
    };
    for bar in bars(span, dancer, axis, held) {
        let mut lit = [false; 3];
        // The ends lie over the whole.
        for (lit, of) in lit.iter_mut().zip([TurnTime::Whole, TurnTime::Begin, TurnTime::End]) {
            let here = (axis.from - 1e-6..=axis.to + 1e-6).contains(&bar.moment(of));
            if of != TurnTime::Whole && !here && held != Some(bar.index) {
                // An end beyond the bars that are shown is no handle.
                continue;
            }
            let id = Id::unique(("turn time", index, dancer, bar.index, of));
            let response = ui.interact(bar.place(of, row), id, Sense::click_and_drag());
            response.widget_info(|| WidgetInfo::labeled(Role::Button, true, bar.name(of, span)));
            *lit = response.hovered() || response.dragged() || response.has_focus();
            let grip = Grip::Turn { span: index, dancer, turn: bar.index, of };
            drag_along(ui, &response, axis, (grip, bar.moment(of)), offset, asks);
            if response.clicked() {
                response.request_focus();
            }
            take_keys(ui, &response, (index, dancer, bar.index), of, asks);
            if response.has_focus() && ui.input(|input| input.key_pressed(Key::Space)) {
                // The focus is for the arrows, Delete and the menu; Space plays, as everywhere.
                asks.push(Ask::Play(PlayAsk::Toggle));
            } else if let Some(at) = response.interact_pointer_pos().filter(|_| response.clicked()) {
                // As elsewhere in the row.
                let count = axis.count(at.x);
                asks.push(Ask::Play(PlayAsk::Seek(to_quarter(ui, count))));
            } else if response.clicked() {
                asks.push(Ask::Play(PlayAsk::Seek(bar.moment(of))));
            }
            let open = show_menu(&response, |ui, _| {
                turn_menu::show(ui, desk, (dancer, Some(bar.index)), bar.begin, asks);
            });
            let cursor = if of == TurnTime::Whole { CursorIcon::Grab } else { CursorIcon::ResizeHorizontal };
            let response = response.on_hover_cursor(cursor);
            if desk.held().is_none() && !open && !desk.player().playing {
                let words = turn_words(span, dancer, bar.index).unwrap_or_default();
                explain(
                    &response,
                    over_bars(painter, bar.place(TurnTime::Whole, row)),
                    &format!("{dancer} {words}\n{HELP}"),
                );
            }
        }
        paint(painter, desk, (axis, row), &bar, lit);
        paint_words(painter, desk, (axis, row), &bar, lit.contains(&true), &mut words_end);
    }
}

/// Takes the keys of a part of a turn that has the focus.
fn take_keys(
    ui: &Ui,
    response: &Response,
    (span, dancer, turn): (SpanIndex, Dancer, usize),
    of: TurnTime,
    asks: &mut Vec<Ask>,
) {
    // An open menu has them, to go into it and through it.
    if !response.has_focus() || egui::Popup::is_any_open(ui.ctx()) {
        return;
    }
    let arrows = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    // With Shift first, or a press without it would take them too.
    let end = if of == TurnTime::Begin { TurnTime::Begin } else { TurnTime::End };
    for (modifiers, of) in [(Modifiers::SHIFT, end), (Modifiers::NONE, of)] {
        let pressed = |key: Key| ui.input_mut(|input| input.count_and_consume_key(modifiers, key)) as f64;
        let counts = STEP * (pressed(Key::ArrowRight) - pressed(Key::ArrowLeft));
        if counts != 0.0 {
            asks.push(Ask::Draw(DrawAsk::NudgeTurn { span, dancer, turn, of, counts }));
        }
    }
    // The next turn has the focus at once.
    if pressed_once(ui.ctx(), Key::Delete) {
        asks.push(Ask::Draw(DrawAsk::ChangeTurn { span, dancer, turn, edit: TurnEdit::Remove }));
    }
}

/// An arrow with its amount, and a handle at each end; `lit` are the whole of it and its ends.
fn paint(painter: &Painter, desk: &Desk, (axis, row): (BarAxis, Rect), bar: &TurnBar, lit: [bool; 3]) {
    let y = row.bottom() - 8.0;
    let [whole, begin, end] = lit;
    let words = colour(desk.ink().words);
    let pen = Stroke::new(if whole { 2.6 } else { 1.8 }, words);
    let left = bar.amount < 0.0;
    let (tip, tail) = if left { (bar.left, bar.right) } else { (bar.right, bar.left) };
    let back = if left { 7.0 } else { -7.0 };
    // Clear of the handle, where there is one.
    let tip = tip + back * 5.0 / 7.0;
    painter.line_segment([pos2(tail, y), pos2(tip, y)], pen);
    painter.line_segment([pos2(tip, y), pos2(tip + back, y - 4.0)], pen);
    painter.line_segment([pos2(tip, y), pos2(tip + back, y + 4.0)], pen);
    // An end that is beyond the bars shown has no handle.
    for (count, lit, inwards) in [(bar.begin, begin, 1.0), (bar.end, end, -1.0)] {
        if (axis.from - 1e-6..=axis.to + 1e-6).contains(&count) {
            let size = if lit { vec2(5.0, 14.0) } else { vec2(4.0, 10.0) };
            let at = pos2(axis.place(count) + inwards * size.x / 2.0, y);
            painter.rect_filled(Rect::from_center_size(at, size), 1.0, words);
        }
    }
}

/// How far a turn goes, over its arrow and clear of the words of the turn before it: without its way, which the arrow has,
/// where there is no room for both, and not at all where there is room for neither.
fn paint_words(
    painter: &Painter,
    desk: &Desk,
    (axis, row): (BarAxis, Rect),
    bar: &TurnBar,
    lit: bool,
    before: &mut f32,
) {
    let ink = colour(if lit { desk.ink().words } else { desk.ink().quiet });
    let middle = f32::midpoint(bar.left, bar.right);
    for words in [turned_words(bar.amount), format!("{:.0}°", bar.amount.abs())] {
        let galley = painter.layout_no_wrap(words, FontId::proportional(11.5), ink);
        let wide = galley.size().x;
        // Beside the middle of the arrow where it is near an end of the bars, or near other words.
        let left = (middle - wide / 2.0).clamp(axis.left + 4.0, (axis.right - wide).max(axis.left + 4.0));
        let left = left.max(*before);
        if left <= middle && left + wide <= axis.right + 1.0 {
            painter.galley(pos2(left, row.bottom() - 13.5 - galley.size().y), galley, ink);
            *before = left + wide + 5.0;
            return;
        }
    }
}
