//! The tabs at the head of a side: one shows at a time, and none of them moves.

use crate::desk::Desk;
use crate::store::Tab;
use crate::window::theme::colour;
use egui::{Align2, FontId, Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// The height of a row of tabs, points.
pub const ROW: f32 = 30.0;
/// The room of the button that folds a side, points.
const FOLD: f32 = 24.0;

/// What was asked for at the head of a side.
pub enum Head {
    /// To show something else.
    Show(Tab),
    /// To fold the side away.
    Fold,
}

/// Which side a head belongs to: its arrow points there.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Side {
    Left,
    Right,
}

/// Shows the tabs of a side, at most `each` in a row, and the button that folds it.
pub fn show(
    ui: &mut Ui,
    desk: &Desk,
    side: Side,
    (tabs, chosen): (&[Tab], Tab),
    each: usize,
) -> Option<Head> {
    let mut asked = None;
    ui.add_space(6.0);
    let rows = tabs.len().div_ceil(each);
    let (area, _) = ui.allocate_exact_size(vec2(ui.available_width(), ROW * rows as f32), Sense::hover());
    let (left, right) = match side {
        Side::Left => (area.left(), area.right() - FOLD),
        Side::Right => (area.left() + FOLD, area.right()),
    };
    let width = (right - left) / each as f32;
    for (index, tab) in tabs.iter().enumerate() {
        let (row, column) = (index / each, index % each);
        let place = Rect::from_min_size(
            pos2(left + width * column as f32, area.top() + ROW * row as f32),
            vec2(width - 3.0, ROW - 3.0),
        );
        if show_tab(ui, desk, place, *tab, *tab == chosen) {
            asked = Some(Head::Show(*tab));
        }
    }
    let x = if side == Side::Left { area.right() - FOLD } else { area.left() };
    let place = Rect::from_min_size(pos2(x, area.top()), vec2(FOLD - 4.0, ROW - 3.0));
    let name = if side == Side::Left { "Fold the left side away" } else { "Fold the right side away" };
    if show_arrow(ui, desk, place, side, name) {
        asked = Some(Head::Fold);
    }
    asked
}

/// What a side that is folded leaves: a strip with a button that opens it. Gives whether it was clicked.
pub fn show_folded(ui: &mut Ui, desk: &Desk, side: Side) -> bool {
    let area = ui.available_rect_before_wrap();
    let place = Rect::from_min_size(pos2(area.left(), area.top() + 6.0), vec2(area.width(), ROW - 3.0));
    let (way, name) = match side {
        Side::Left => (Side::Right, "Open the left side"),
        Side::Right => (Side::Left, "Open the right side"),
    };
    show_arrow(ui, desk, place, way, name)
}

fn show_tab(ui: &Ui, desk: &Desk, place: Rect, tab: Tab, chosen: bool) -> bool {
    let (name, hint) = (words(tab), help(tab));
    let response = ui.interact(place, egui::Id::unique(("tab", name)), Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Tab, true, chosen, name));
    let ink = &desk.ink();
    let lit = response.hovered() || response.has_focus();
    if chosen || lit {
        let fill = if chosen { ink.chosen } else { ink.raised };
        ui.painter().rect_filled(place, 6.0, colour(fill));
    }
    if chosen || response.has_focus() {
        let edge = if response.has_focus() { ink.words } else { ink.faint };
        ui.painter().rect_stroke(place, 6.0, Stroke::new(1.0, colour(edge)), StrokeKind::Inside);
    }
    let words = colour(if chosen { ink.words } else { ink.quiet });
    let faults = desk.fault_count();
    let shown = match tab {
        Tab::Faults if faults > 0 => format!("{name} {faults}"),
        _ => name.to_owned(),
    };
    let ink = if tab == Tab::Faults && faults > 0 { colour(ink.fault) } else { words };
    let font = FontId::proportional(13.5);
    let galley = ui.painter().layout_no_wrap(shown, font, ink);
    let at = Align2::CENTER_CENTER.anchor_size(place.center(), galley.size());
    ui.painter_at(place).galley(at.min, galley, ink);
    // A dragged figure opens the running order under it.
    let carried = egui::DragAndDrop::has_any_payload(ui.ctx()) && tab == Tab::Order;
    let over = ui.input(|input| input.pointer.interact_pos()).is_some_and(|at| place.contains(at));
    let clicked = response.clicked() || (carried && over && !chosen);
    response.on_hover_text(hint);
    clicked
}

/// An arrow to the left or to the right; gives whether it was clicked.
fn show_arrow(ui: &Ui, desk: &Desk, place: Rect, way: Side, name: &str) -> bool {
    let response = ui.interact(place, egui::Id::unique(("fold", name)), Sense::click());
    response.widget_info(|| WidgetInfo::labeled(Role::Button, true, name));
    let lit = response.hovered() || response.has_focus();
    let ink = colour(if lit { desk.ink().words } else { desk.ink().quiet });
    if lit {
        ui.painter().rect_filled(place, 6.0, colour(desk.ink().raised));
    }
    let (middle, sign) = (place.center(), if way == Side::Left { 1.0 } else { -1.0 });
    let points = [(2.5, -5.0), (-2.5, 0.0), (2.5, 5.0)].map(|(x, y)| middle + vec2(x * sign, y));
    ui.painter().add(egui::Shape::line(points.to_vec(), Stroke::new(1.8, ink)));
    let clicked = response.clicked();
    response.on_hover_text(name);
    clicked
}

/// What a tab is called.
fn words(tab: Tab) -> &'static str {
    match tab {
        Tab::Order => "Order",
        Tab::Shelf => "Shelf",
        Tab::Set => "Set",
        Tab::Dancer => "Dancer",
        Tab::Figure => "Figure",
        Tab::Faults => "Faults",
        Tab::Versions => "Versions",
    }
}

fn help(tab: Tab) -> &'static str {
    match tab {
        Tab::Order => "The figures in the order they are danced",
        Tab::Shelf => "The named figures, to put in",
        Tab::Set => "How many dancers, how far apart, and the floor",
        Tab::Dancer => "What the chosen dancer does now and next",
        Tab::Figure => "The figure at the playhead, as this side dances it",
        Tab::Faults => "What is wrong, and what this side means",
        Tab::Versions => "Where this dance differs from the other version",
    }
}
