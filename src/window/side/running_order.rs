use super::order_drop::{show_bare, show_carried, show_gap};
use super::order_menu;
use crate::dance::{Entry, Figure};
use crate::desk::{Ask, Desk, OrderAsk, PlayAsk};
use crate::edits::rename_figure;
use crate::motion::{Span, SpanIndex};
use crate::window::{
    context_menu::WAITS,
    fields::{Ending, Wrong, ending, line as entry_line, show_wrong},
    one_press::pressed_once,
    paint::{choose_text, oval, stands_below, words_within},
    theme::colour,
};
use crate::words::{bars_said, call_before_said, how_many_bars};
use egui::{
    Align2, Context, CursorIcon, EventFilter, FontId, Id, Key, Modifiers, Painter, Popup, Rect, Response,
    Role, ScrollArea, Sense, Stroke, Ui, UiBuilder, WidgetInfo, pos2, vec2,
};

/// The height of a line, points.
const HEIGHT: f32 = 30.0;
/// The size of a line's name, points.
const NAME: f32 = 14.5;
/// How much of a line's right side the button for more takes, points.
const MORE: f32 = 26.0;

/// The figures in the order they are danced: to jump by, to move, to rename, and what else can be done with them.
#[derive(Default)]
pub struct RunningOrder {
    renaming: Option<Renaming>,
    /// The line at the playhead that was brought into sight last.
    seen: Option<SpanIndex>,
    /// The line that is being dragged.
    held: Option<usize>,
    /// The line whose menu a key has asked for.
    opening: Option<usize>,
    /// The line whose menu is open.
    open: Option<usize>,
    /// Frames since it was put away in which something else had the focus.
    waited: u8,
}

/// A name being typed.
struct Renaming {
    /// The dance that it is in, by when the floor was fitted to it: another dance is another's name.
    of: u64,
    line: usize,
    figure: usize,
    text: String,
    begun: bool,
    /// Whether somebody wanted it taken as it is, and it could not be.
    told: bool,
}

/// A line as it is shown.
struct Line<'a> {
    index: usize,
    span: &'a Span,
    figure: &'a Figure,
    entry: Option<&'a Entry>,
    faults: usize,
}

/// What names a line to the window.
fn line_id(index: usize) -> Id {
    Id::unique(("line of the order", index))
}

/// The line that has the focus.
pub fn focused_line(ctx: &Context, desk: &Desk) -> Option<usize> {
    let focused = ctx.memory(egui::Memory::focused)?;
    (0..desk.motion().spans().len()).find(|line| line_id(*line) == focused)
}

impl RunningOrder {
    /// Takes the keys that belong to a line with the focus, a name being typed or a line being dragged.
    ///
    /// `point` is whether a point of a path is under the pointer: Delete is then for that.
    pub fn take_keys(&mut self, ctx: &Context, desk: &Desk, point: bool, asks: &mut Vec<Ask>) {
        if desk.question().is_some() {
            return;
        }
        let escape = |ctx: &Context| ctx.input_mut(|input| input.consume_key(Modifiers::NONE, Key::Escape));
        if self.held.is_some() && escape(ctx) {
            self.held = None;
            ctx.stop_dragging();
        }
        self.renaming = self.renaming.take().filter(|renaming| renaming.of == desk.fitted());
        if let Some(renaming) = &self.renaming {
            if escape(ctx) {
                ctx.memory_mut(|memory| memory.request_focus(line_id(renaming.line)));
                self.renaming = None;
            } else if ctx.input(|input| {
                // What is about to be saved or closed has the name as it is typed.
                let asked = |key: &Key| input.key_pressed(*key) && input.modifiers.command;
                [Key::S, Key::O, Key::N, Key::E, Key::Q].iter().any(asked)
                    || input.viewport().close_requested()
            }) {
                self.take_name(asks);
            }
            return;
        }
        let lines = desk.motion().spans().len();
        let Some(line) = focused_line(ctx, desk) else { return };
        if Popup::is_any_open(ctx) {
            return;
        }
        let pressed = |modifiers, key| ctx.input_mut(|input| input.consume_key(modifiers, key));
        if pressed(Modifiers::ALT, Key::ArrowUp) && line > 0 {
            self.move_line(ctx, line, line - 1, asks);
        } else if pressed(Modifiers::ALT, Key::ArrowDown) && line + 1 < lines {
            self.move_line(ctx, line, line + 1, asks);
        } else if pressed(Modifiers::NONE, Key::ArrowUp) {
            ctx.memory_mut(|memory| memory.request_focus(line_id(line.saturating_sub(1))));
        } else if pressed(Modifiers::NONE, Key::ArrowDown) {
            ctx.memory_mut(|memory| memory.request_focus(line_id((line + 1).min(lines - 1))));
        } else if !point && pressed_once(ctx, Key::Delete) {
            asks.push(Ask::Order(OrderAsk::TakeOut(line)));
            if line + 1 == lines && line > 0 {
                ctx.memory_mut(|memory| memory.request_focus(line_id(line - 1)));
            }
        } else if pressed(Modifiers::NONE, Key::F2) {
            self.rename(desk, line);
        } else if pressed(Modifiers::NONE, Key::Menu) || pressed(Modifiers::SHIFT, Key::F10) {
            self.opening = Some(line);
        } else if pressed(Modifiers::NONE, Key::Space) {
            // Enter goes to a line; Space plays, as everywhere.
            asks.push(Ask::Play(PlayAsk::Toggle));
        }
    }

    fn move_line(&mut self, ctx: &Context, from: usize, to: usize, asks: &mut Vec<Ask>) {
        self.renaming = None;
        asks.push(Ask::Order(OrderAsk::Move { from, to }));
        ctx.memory_mut(|memory| memory.request_focus(line_id(to)));
    }

    /// Has the name of a line's figure typed over.
    pub fn rename(&mut self, desk: &Desk, line: usize) {
        let figure = desk.motion().span(SpanIndex(line)).map(|span| span.figure);
        self.renaming = figure.and_then(|figure| {
            let text = desk.dance().figures.get(figure)?.name.clone();
            Some(Renaming { of: desk.fitted(), line, figure, text, begun: false, told: false })
        });
    }

    /// Takes the name that is typed; an empty one is left.
    fn take_name(&mut self, asks: &mut Vec<Ask>) {
        if let Some(Renaming { figure, text, .. }) = self.renaming.take()
            && !text.trim().is_empty()
        {
            asks.push(Ask::Order(OrderAsk::Rename(figure, text)));
        }
    }

    /// Shows the running order.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        if desk.motion().spans().is_empty() {
            show_bare(ui, desk, asks);
            return;
        }
        let area =
            ScrollArea::vertical().id_salt("order").auto_shrink([false, false]).min_scrolled_height(0.0);
        area.show(ui, |ui| {
            ui.spacing_mut().item_spacing.y = 2.0;
            let mut rects = Vec::new();
            for (at, span) in desk.motion().indexed_spans() {
                let Some(figure) = desk.dance().figures.get(span.figure) else { continue };
                let index = at.index();
                let entry = desk.dance().order.get(index);
                let (faults, _) = desk.faults().in_span(at);
                rects.push(self.show_line(ui, desk, &Line { index, span, figure, entry, faults }, asks));
            }
            // The line at the playhead comes into sight when another one is danced; nobody is taken from what they read.
            if self.seen != desk.span() {
                self.seen = desk.span();
                if let Some(rect) = self.seen.and_then(|line| rects.get(line.index())) {
                    ui.scroll_to_rect(rect.expand(4.0), None);
                }
            }
            self.show_drag(ui, desk, &rects, asks);
            show_carried(ui, desk, &rects, asks);
            ui.interact(ui.min_rect(), Id::unique("running order"), Sense::hover());
        });
    }

    fn show_line(&mut self, ui: &mut Ui, desk: &Desk, line: &Line, asks: &mut Vec<Ask>) -> Rect {
        let (_, rect) = ui.allocate_space(vec2(ui.available_width(), HEIGHT));
        let id = line_id(line.index);
        let response = ui.interact(rect, id, Sense::click_and_drag());
        let chosen = desk.span() == Some(SpanIndex(line.index));
        response.widget_info(|| {
            let bars = how_many_bars(line.figure.bars);
            let name = format!("{}. {}, {bars}", line.index + 1, line.figure.name);
            WidgetInfo::selected(Role::Button, true, chosen, name)
        });
        let corner = Rect::from_min_max(pos2(rect.right() - MORE, rect.top()), rect.max);
        let more = ui.interact(corner, id.with("more"), Sense::click());
        more.widget_info(|| {
            WidgetInfo::labeled(Role::Button, true, format!("More for line {}", line.index + 1))
        });
        if self.opening.take_if(|opening| *opening == line.index).is_some() {
            Popup::open_id(ui.ctx(), Popup::default_response_id(&more));
        }
        let mut rename = false;
        let mut open = false;
        for popup in [Popup::context_menu(&response), Popup::menu(&more)] {
            let shown = popup.show(|ui| order_menu::show_line(ui, desk, line.index, line.span.figure, asks));
            open |= shown.is_some();
            rename |= shown.is_some_and(|shown| shown.inner);
        }
        if open {
            self.open = Some(line.index);
        } else if self.open == Some(line.index) {
            // A menu that is put away gives the focus back. What was chosen by Enter has it until egui finds that it is gone.
            let free = ui.memory(egui::Memory::focused).is_none();
            if free {
                response.request_focus();
            }
            if free || self.waited >= WAITS {
                (self.open, self.waited) = (None, 0);
            } else {
                self.waited += 1;
                ui.ctx().request_repaint();
            }
        }
        if response.clicked() {
            asks.push(Ask::Play(PlayAsk::Seek(line.span.begin())));
            response.request_focus();
        }
        // A line that has the focus has the arrows too: up and down to other lines, the others as everywhere; but not over its menu.
        let own = !egui::Popup::is_any_open(ui.ctx());
        let arrows = EventFilter { vertical_arrows: own, horizontal_arrows: own, ..EventFilter::default() };
        ui.memory_mut(|memory| memory.set_focus_lock_filter(id, arrows));
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        if response.drag_started_by(egui::PointerButton::Primary) && self.renaming.is_none() {
            self.held = Some(line.index);
            response.request_focus();
        }
        if response.double_clicked() || rename {
            self.rename(desk, line.index);
        }
        let over = self.held.is_none() && (response.contains_pointer() || more.hovered());
        let focused = response.has_focus() || more.has_focus();
        let lit = (over || focused || open, self.held == Some(line.index));
        let painter = ui.painter_at(rect);
        paint_ground(&painter, rect, desk, chosen, lit.0 || lit.1, focused);
        let renamed = self.renaming.as_ref().is_some_and(|renaming| renaming.line == line.index);
        paint_line(&painter, rect, desk, line, !renamed);
        if lit.0 {
            let ink = if more.hovered() || more.has_focus() { desk.ink().words } else { desk.ink().quiet };
            for step in [-5.0, 0.0, 5.0] {
                painter.circle_filled(corner.center() + vec2(step - 1.0, 0.0), 1.6, colour(ink));
            }
        }
        if renamed {
            self.show_name(ui, desk, rect, (line, &response), asks);
        } else if self.held.is_none() && !open {
            response.on_hover_text(hover_words(line));
        }
        rect
    }

    /// The field to type a name in, in place of the name.
    fn show_name(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        rect: Rect,
        (line, row): (&Line, &Response),
        asks: &mut Vec<Ask>,
    ) {
        let Some(renaming) = &mut self.renaming else { return };
        let right = rect.right() - if line.faults > 0 { 72.0 } else { 50.0 };
        let place =
            Rect::from_min_max(pos2(rect.left() + 32.0, rect.top() + 4.0), pos2(right, rect.bottom() - 4.0));
        let edit = entry_line(&mut renaming.text)
            .id(row.id.with("name"))
            .margin(vec2(4.0, 3.0))
            .align(egui::Align2::LEFT_CENTER)
            .desired_width(place.width() - 8.0)
            .min_size(place.size());
        // Over the line, which keeps its place.
        let field = edit.show(&mut ui.new_child(UiBuilder::new().max_rect(place)));
        let mut edit = field.response.response.clone().labelled_by(row.id);
        if !renaming.told {
            edit =
                edit.on_hover_text("What the figure is called; Enter takes it, Escape leaves it as it was");
        }
        let wrong = rename_figure(desk.dance(), renaming.figure, &renaming.text).err();
        if edit.changed() {
            renaming.told = false;
        }
        if !std::mem::replace(&mut renaming.begun, true) {
            edit.request_focus();
            choose_text(ui, edit.id, 0, renaming.text.chars().count());
            return;
        }
        match (ending(ui, &edit), wrong) {
            (Some(Ending::Enter), Some(_)) => renaming.told = true,
            (Some(Ending::Enter), None) => {
                row.request_focus();
                self.take_name(asks);
            }
            (Some(Ending::Left), _) => self.take_name(asks),
            (Some(Ending::Escape) | None, Some(wrong)) if renaming.told => {
                show_wrong(ui, &field, &Wrong::whole(wrong.to_string()));
            }
            (Some(Ending::Escape) | None, _) => {}
        }
    }

    /// The line that is dragged: where it would go, and on letting go, there it goes.
    fn show_drag(&mut self, ui: &Ui, desk: &Desk, rects: &[Rect], asks: &mut Vec<Ask>) {
        let Some(from) = self.held else { return };
        let Some(pointer) = ui.input(|input| input.pointer.interact_pos()) else { return };
        ui.ctx().set_cursor_icon(CursorIcon::Grabbing);
        let gap = rects.iter().filter(|rect| rect.center().y < pointer.y).count();
        let to = if gap > from { gap - 1 } else { gap };
        if to != from {
            show_gap(ui, desk, rects, gap);
        }
        if ui.input(|input| !input.pointer.any_down()) {
            self.held = None;
            if to != from {
                self.move_line(ui.ctx(), from, to, asks);
            }
        }
    }
}

fn paint_ground(painter: &Painter, rect: Rect, desk: &Desk, chosen: bool, lit: bool, focused: bool) {
    let ink = &desk.ink();
    if chosen || lit {
        painter.rect_filled(rect, 6.0, colour(if chosen { ink.chosen } else { ink.raised }));
    }
    if chosen {
        let bar = Rect::from_min_size(rect.min, vec2(4.0, rect.height()));
        painter.rect_filled(bar, 2.0, colour(ink.words));
    }
    if focused {
        painter.rect_stroke(rect, 6.0, Stroke::new(1.0, colour(ink.quiet)), egui::StrokeKind::Inside);
    }
}

/// From the left: strain, name, faults, bars; the button for more has the right edge to itself.
fn paint_line(painter: &Painter, rect: Rect, desk: &Desk, line: &Line, named: bool) {
    let ink = &desk.ink();
    let strain = line.entry.map_or("", |entry| entry.strain.as_str());
    if !strain.is_empty() {
        let centre = pos2(rect.left() + 19.0, rect.center().y);
        let round = oval((centre.x, centre.y), (10.5, 10.5), 0.0);
        painter.add(egui::Shape::closed_line(round, Stroke::new(1.0, colour(ink.quiet))));
        let letter: String = strain.chars().take(2).collect();
        let font = FontId::proportional(12.5);
        painter.text(centre, Align2::CENTER_CENTER, letter, font, colour(ink.words));
    }
    let font = FontId::proportional(12.5);
    let lower = stands_below(painter, FontId::proportional(NAME)) - stands_below(painter, font.clone());
    let bars = rect.right_center() + vec2(-MORE, lower);
    let text = line.figure.bars.to_string();
    let bars = painter.text(bars, Align2::RIGHT_CENTER, text, font, colour(ink.quiet));
    let mut right = bars.left() - 6.0;
    if line.faults > 0 {
        let at = pos2(right - 8.5, rect.center().y);
        painter.circle_filled(at, 8.5, colour(ink.fault));
        let many = if line.faults > 9 { "+".to_owned() } else { line.faults.to_string() };
        painter.text(at, Align2::CENTER_CENTER, many, FontId::proportional(11.5), colour(ink.outline));
        right = at.x - 8.5 - 5.0;
    }
    if named {
        let at = pos2(rect.left() + 36.0, rect.center().y);
        words_within(painter, at, right - at.x, &shown_name(line.figure), NAME, colour(ink.words));
    }
}

/// The name, and whether it is redrawn.
fn shown_name(figure: &Figure) -> String {
    if figure.named.is_some() && !figure.parts.is_empty() {
        format!("{} (redrawn)", figure.name)
    } else {
        figure.name.clone()
    }
}

fn hover_words(line: &Line) -> String {
    let (span, figure) = (line.span, line.figure);
    let kind = if figure.named.is_none() { "drawn" } else { "named" };
    let mut words = format!("{}, {kind}, {}", shown_name(figure), bars_said(span.bars));
    if let Some(call) = line.entry.and_then(|entry| call_before_said(entry, &figure.name)) {
        words += &format!("\nCall: {call}");
    }
    if !figure.notes.is_empty() {
        words += &format!("\n{}", figure.notes);
    }
    words
}
