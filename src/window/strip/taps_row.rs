//! The taps and claps of the figure along the bars: a star for each, to drag in time, and the bare row to put one in.

use super::axis::{BarAxis, to_quarter};
use super::drag_along::drag_along;
use super::seek;
use super::taps_focus::{self, Goal, ROW, Wish};
use crate::dance::{Dancer, Figure, Strike};
use crate::desk::{Ask, Desk, Grip, PlayAsk, StrikeAsk};
use crate::edits::{StrikeAt, StrikeEdit, usual_strike};
use crate::motion::{Blow, Moment, Span, SpanIndex};
use crate::window::context_menu::{Opened, show_menu};
use crate::window::explain::{explain, over_bars};
use crate::window::keys::goes_free;
use crate::window::{focus_ring::focus_ring, one_press::pressed_once, strike_menu, theme::colour};
use crate::words::{blow_said, strike_noun, strike_said};
use egui::{
    Align2, Color32, CursorIcon, EventFilter, FontId, Id, Key, Modifiers, Painter, Pos2, Rect, Response,
    Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2,
};

/// What the row says where nothing is struck in the figure.
const EMPTY: &str = "nothing is struck here: click at a count for a tap";
/// What a star says under its own words.
const HELP: &str = "Drag it to another time; right click, or Enter, for whom, with which end and who follows. With the focus: \
                    arrows go from one to the next, Shift and arrows move it a quarter of a count, Delete takes it away, K goes \
                    to the bare row";
/// What Shift and an arrow move by, counts.
const STEP: f64 = 0.25;
/// How far the points of a star are from its middle, and its hollows, points.
const POINT: f32 = 5.5;
const HOLLOW: f32 = 2.1;
/// How far the ring of the one that has the focus is from its middle, points.
const RING: f32 = 9.0;

/// What somebody does with the row that lasts for longer than a frame.
#[derive(Default)]
pub struct TapsAsked {
    /// Where its menu was asked for, counts from the start of the dance.
    count: f64,
}

/// One meeting, as it lies in the row.
struct Tap {
    at: StrikeAt,
    /// Counts from the start of the dance.
    count: f64,
    /// Which of those at the same count it is, and of how many.
    of: (usize, usize),
    is_clap: bool,
    /// Until when they stay together, counts from the start of the dance; its own count where they part at once.
    until: f64,
    /// Whether the chosen dancer is in it.
    own: bool,
    words: String,
}

fn id_of(span: SpanIndex, at: StrikeAt) -> Id {
    Id::unique(("tap", span, at))
}

/// The meetings of a figure that can be seen, in order of time.
fn taps(desk: &Desk, (index, span): (SpanIndex, &Span), axis: BarAxis) -> Vec<Tap> {
    let Some(figure) = desk.dance().figures.get(span.figure) else { return Vec::new() };
    let mut all = Vec::new();
    for (strike, told) in figure.strikes.iter().enumerate() {
        for (which, local) in told.counts().enumerate() {
            let count = span.begin() + local;
            if count < axis.from - 1e-6 || count > axis.to + 1e-6 {
                continue;
            }
            let here = |blow: &&Blow| {
                blow.span == index
                    && (blow.count - count).abs() < 1e-6
                    && is_of(blow, (span, figure), strike, told)
            };
            // At this count alone.
            let blows = desk.motion().blows_between(count, count + 2e-6);
            let found: Vec<&Blow> = blows.iter().filter(here).collect();
            let own = desk.chosen().and_then(|dancer: Dancer| found.iter().find(|blow| blow.has(dancer)));
            let words = own.map_or_else(|| strike_said(told), |blow| blow_said(blow));
            let until = found.iter().map(|blow| blow.until).fold(count, f64::max);
            let at = StrikeAt { strike, which };
            all.push(Tap {
                at,
                count,
                of: (0, 1),
                is_clap: strike_noun(told) == "clap",
                until,
                own: own.is_some(),
                words,
            });
        }
    }
    all.sort_by(|one, other| one.count.total_cmp(&other.count).then(one.at.strike.cmp(&other.at.strike)));
    // Nearer than this they would lie over each other.
    let near = f64::from(2.0 * POINT / axis.count_width().max(0.1)).min(0.9);
    let mut begin = 0;
    for index in 1..=all.len() {
        let first = all.get(begin).map_or(0.0, |tap| tap.count);
        if all.get(index).is_some_and(|tap| tap.count - first < near) {
            continue;
        }
        let many = index - begin;
        for (which, tap) in all.iter_mut().skip(begin).take(many).enumerate() {
            tap.of = (which, many);
        }
        begin = index;
    }
    all
}

/// Whether two ends that meet are those of a strike, or are told by another that says the same from the other side.
fn is_of(blow: &Blow, (span, figure): (&Span, &Figure), strike: usize, told: &Strike) -> bool {
    blow.strike == strike
        || (told.on.is_somebody()
            && figure.strikes.get(blow.strike).is_some_and(|other| other.on.is_somebody())
            && blow.hands().into_iter().flatten().any(|hand| told.by.has(span.place(hand.dancer))))
}

impl Tap {
    /// Its middle, in a row of the strip.
    fn middle(&self, axis: BarAxis, row: Rect) -> Pos2 {
        let (which, many) = (self.of.0 as f32, self.of.1 as f32);
        let off = which - (many - 1.0) / 2.0;
        // Down and to the side, clear of each other; of many each has less room.
        let down = off * ((row.height() - 2.0 * POINT) / (many - 1.0).max(1.0)).min(7.0);
        let aside = if many > 1.0 { off * 7.0 } else { 0.0 };
        let x = axis.place(self.count).clamp(axis.left, axis.right);
        pos2(x + aside, row.center().y + down)
    }
}

/// Shows the row.
pub fn show(
    ui: &Ui,
    painter: &Painter,
    desk: &Desk,
    (axis, row): (BarAxis, Rect),
    (asked, offset): (&mut TapsAsked, &mut f64),
    asks: &mut Vec<Ask>,
) {
    let Some((index, span)) = desk.span().and_then(|index| Some((index, desk.motion().span(index)?))) else {
        return;
    };
    let taps = taps(desk, (index, span), axis);
    show_bare(ui, desk, (axis, row), (index, span), (asked, &taps), asks);
    let here: Vec<(StrikeAt, f64)> = taps.iter().map(|tap| (tap.at, tap.count)).collect();
    let focused = ui.memory(egui::Memory::focused);
    let on_tap = taps.iter().any(|tap| focused == Some(id_of(index, tap.at)));
    if let Some(found) = taps_focus::wished(ui.ctx(), &here, desk.player().count, on_tap) {
        let id = match found {
            Goal::Row => Id::unique(ROW),
            Goal::Tap(at) => id_of(index, at),
        };
        ui.memory_mut(|memory| memory.request_focus(id));
    }
    let figure = desk.dance().figures.get(span.figure);
    if figure.is_some_and(|figure| figure.strikes.is_empty()) {
        let at = pos2(axis.left + 8.0, row.center().y);
        painter.text(at, Align2::LEFT_CENTER, EMPTY, FontId::proportional(12.0), colour(desk.ink().quiet));
    }
    let order: Vec<StrikeAt> = taps.iter().map(|tap| tap.at).collect();
    for tap in &taps {
        let at = tap.middle(axis, row);
        let high = (row.height() / tap.of.1 as f32).clamp(6.0, 16.0);
        let response = ui.interact(
            Rect::from_center_size(at, vec2(13.0, high)),
            id_of(index, tap.at),
            Sense::click_and_drag(),
        );
        let moment = Moment::at(span.bar_counts(), tap.count - span.begin());
        let noun = if tap.is_clap { "clap" } else { "tap" };
        let mut name = format!(
            "{noun}, bar {} count {}, {}",
            moment.bar,
            (moment.count * 100.0).round() / 100.0,
            tap.words
        );
        if tap.until > tap.count {
            name += &format!(", together until {}", span.moment_said(tap.until));
        }
        response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name.clone()));
        drag_along(ui, &response, axis, (Grip::Strike { span: index, at: tap.at }, tap.count), offset, asks);
        if response.drag_started() {
            response.request_focus();
        }
        if response.drag_stopped() {
            // Past another time of its own it is another of them.
            taps_focus::wish(
                ui.ctx(),
                Wish { strike: Some(tap.at.strike), count: dragged_to(ui, &response, axis, *offset) },
            );
        }
        let opens = take_click(ui, &response, tap.count, asks);
        take_keys(ui, &response, (index, span.figure, tap), &order, asks);
        taps_focus::open_menu(ui, response.id, opens);
        let open = show_menu(&response, |ui, _| strike_menu::show(ui, desk, (index, tap.at), asks));
        taps_focus::back_from_menu(&response, open);
        let lit = response.hovered() || response.dragged() || response.has_focus();
        let response = response.on_hover_cursor(CursorIcon::Grab);
        if desk.held().is_none() && !open && !desk.player().playing {
            explain(&response, over_bars(painter, response.rect), &format!("{name}\n{HELP}"));
        }
        let ink = if tap.own || lit { desk.ink().words } else { desk.ink().quiet };
        if tap.until > tap.count {
            let to = pos2(axis.place(tap.until).clamp(at.x, axis.right), at.y);
            painter.line_segment([at, to], Stroke::new(3.0, colour(ink)));
        }
        if response.has_focus() {
            painter.circle_stroke(at, RING, Stroke::new(1.8, colour(desk.ink().words)));
        }
        star(painter, at, (tap.own, lit, tap.is_clap), colour(ink));
    }
}

/// Takes a click: the mouse goes there, and Enter asks for the menu. Gives whether that is asked for.
fn take_click(ui: &Ui, response: &Response, count: f64, asks: &mut Vec<Ask>) -> bool {
    if response.clicked() {
        response.request_focus();
    }
    if response.has_focus() && ui.input(|input| input.key_pressed(Key::Space)) {
        // The focus is for the arrows, Delete and the menu; Space plays, as everywhere.
        asks.push(Ask::Play(PlayAsk::Toggle));
        return false;
    }
    let by_mouse = response.interact_pointer_pos().is_some();
    if response.clicked() && by_mouse {
        asks.push(Ask::Play(PlayAsk::Seek(count)));
    }
    response.clicked() && !by_mouse && ui.input(|input| input.key_pressed(Key::Enter))
}

/// Takes the keys of a star that has the focus.
fn take_keys(
    ui: &Ui,
    response: &Response,
    (span, figure, tap): (SpanIndex, usize, &Tap),
    order: &[StrikeAt],
    asks: &mut Vec<Ask>,
) {
    // An open menu has them, to go into it and through it.
    if !response.has_focus() || egui::Popup::is_any_open(ui.ctx()) {
        return;
    }
    let arrows = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    // With Shift first, or a press without it would take them too.
    let presses = |modifiers: Modifiers| {
        let pressed = |key: Key| ui.input_mut(|input| input.count_and_consume_key(modifiers, key)).min(64);
        pressed(Key::ArrowRight).cast_signed() - pressed(Key::ArrowLeft).cast_signed()
    };
    let (moves, goes) = (presses(Modifiers::SHIFT), presses(Modifiers::NONE));
    let at = tap.at;
    if moves != 0 {
        let counts = STEP * moves as f64;
        taps_focus::wish(ui.ctx(), Wish { strike: Some(at.strike), count: tap.count + counts });
        asks.push(Ask::Strike(StrikeAsk::Nudge { figure, at, counts }));
    }
    let here = order.iter().position(|known| *known == at);
    let there = here.and_then(|here| here.checked_add_signed(goes));
    if let Some(next) = there.and_then(|there| order.get(there)).filter(|_| goes != 0) {
        ui.memory_mut(|memory| memory.request_focus(id_of(span, *next)));
    }
    if pressed_once(ui.ctx(), Key::Delete) {
        // The next one has the focus, or the row.
        taps_focus::wish(ui.ctx(), Wish { strike: None, count: tap.count });
        asks.push(Ask::Strike(StrikeAsk::Change { figure, at, edit: StrikeEdit::Remove }));
    }
}

/// The row itself, under the stars: a click puts one in, a right click or the menu key says what else can be done.
fn show_bare(
    ui: &Ui,
    desk: &Desk,
    (axis, row): (BarAxis, Rect),
    (index, span): (SpanIndex, &Span),
    (asked, taps): (&mut TapsAsked, &[Tap]),
    asks: &mut Vec<Ask>,
) {
    let response = ui.interact(row, Id::unique(ROW), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, "Row of taps"));
    focus_ring(ui, &response, row.expand2(vec2(3.0, 1.0)), desk);
    let pointer = response.interact_pointer_pos().or(response.hover_pos());
    // Half a count is as near as a click is meant; a drag is finer.
    let near = |count: f64| if goes_free(ui) { to_quarter(ui, count) } else { (count * 2.0).round() / 2.0 };
    let at = |count: f64| near(count).clamp(span.begin(), (span.end() - STEP).max(span.begin()));
    let count = pointer.map(|pointer| at(axis.count(pointer.x).clamp(axis.from, axis.to)));
    // The arrows go through the dance, as they do where nothing has the focus.
    let arrows = EventFilter { horizontal_arrows: true, ..EventFilter::default() };
    ui.memory_mut(|memory| memory.set_focus_lock_filter(response.id, arrows));
    if response.clicked() {
        let pointed = response.interact_pointer_pos().and(count);
        // Enter puts one in at the playhead.
        let count = pointed.unwrap_or_else(|| at(desk.player().count));
        seek(desk, count, asks);
        if let Some(known) = there_already(desk, span, taps, count) {
            // There is one: it has the focus, and by Enter its menu as well.
            taps_focus::wish(ui.ctx(), Wish { strike: Some(known.strike), count });
            if pointed.is_none() {
                taps_focus::open_menu(ui, id_of(index, known), true);
            }
        } else {
            taps_focus::wish(ui.ctx(), Wish { strike: None, count });
            strike_menu::ask_to_add(desk, (index, span), count, asks);
        }
    }
    if let Some(count) = count.filter(|_| response.secondary_clicked()) {
        asked.count = count;
    }
    let open = show_menu(&response, |ui, opened| {
        let count = if opened == Opened::Mouse { asked.count } else { at(desk.player().count) };
        strike_menu::show_bare(ui, desk, (index, span), count, asks);
    });
    let still = desk.held().is_none() && !open && !desk.player().playing;
    if let Some(count) = count.filter(|_| still) {
        let what = Rect::from_x_y_ranges(axis.place(count)..=axis.place(count), row.y_range());
        let who = strike_menu::would_be(desk, span, count);
        let said = format!("Click: a new one at {}, {who}; right click for more", span.moment_said(count));
        explain(&response, over_bars(ui.painter(), what), &said);
    }
}

/// The one at a count that would be put in again: of the chosen dancer, or what all odds would do.
fn there_already(desk: &Desk, span: &Span, taps: &[Tap], count: f64) -> Option<StrikeAt> {
    let mut here = taps.iter().filter(|tap| (tap.count - count).abs() < 1e-6);
    if desk.chosen().is_some() {
        return here.find(|tap| tap.own).map(|tap| tap.at);
    }
    let usual = usual_strike(desk.dance(), count - span.begin(), None);
    let figure = desk.dance().figures.get(span.figure)?;
    here.find(|tap| figure.strikes.get(tap.at.strike).is_some_and(|told| told.by == usual.by))
        .map(|tap| tap.at)
}

/// The count to which one was dragged that is let go now.
fn dragged_to(ui: &Ui, response: &Response, axis: BarAxis, offset: f64) -> f64 {
    response.interact_pointer_pos().map_or(0.0, |pointer| to_quarter(ui, axis.count(pointer.x) + offset))
}

/// A star of four points, upright for a tap and aslant for a clap; filled where it is the chosen dancer's own.
fn star(painter: &Painter, at: Pos2, (own, lit, clap): (bool, bool, bool), ink: Color32) {
    let size = if lit { 1.25 } else { 1.0 };
    let turn = if clap { std::f32::consts::FRAC_PI_4 } else { 0.0 };
    let corner = |eighth: u8| {
        let far = if eighth.is_multiple_of(2) { POINT } else { HOLLOW } * size;
        let (sin, cos) = (turn + f32::from(eighth) * std::f32::consts::FRAC_PI_4).sin_cos();
        at + vec2(cos, sin) * far
    };
    if own {
        // Two narrow diamonds across each other.
        for diamond in [[0, 1, 3, 4, 5, 7], [2, 3, 5, 6, 7, 1]] {
            let points = diamond.map(corner).to_vec();
            painter.add(Shape::convex_polygon(points, ink, Stroke::NONE));
        }
    } else {
        painter.add(Shape::closed_line((0..8).map(corner).collect(), Stroke::new(1.3, ink)));
    }
}
