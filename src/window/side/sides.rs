//! What stands beside the floor: a side on the left and one on the right, or in a narrow window one side that has it all.

use super::{
    card, differences, fault_foot, fault_list, figure_card, order_drop,
    running_order::RunningOrder,
    set_row,
    shelf::Shelf,
    tabs::{self, Head, Side},
};
use crate::desk::{Ask, Desk, KeepAsk};
use crate::store::{Arrangement, Tab};
use crate::window::sizes::{LOW, NARROW};
use egui::{Frame, IdSalt, Panel, ScrollArea, Ui, vec2};

/// How wide what is left of a folded side is, points.
const FOLDED: f32 = 24.0;
/// What the floor keeps beside a side, points.
const FLOOR: f32 = 250.0;
/// The height of what stands under the running order, points.
const ORDER_FOOT: f32 = 36.0;
/// Windows lower than this have the shelf folded under the running order until somebody opens it, points.
const HIGH: f32 = 900.0;

/// The sides, with what they remember from one frame to the next.
#[derive(Default)]
pub struct Sides {
    shelf: Shelf,
    /// The running order.
    pub order: RunningOrder,
    /// Whether another version was compared in the last frame.
    compared: bool,
}

impl Sides {
    /// Shows the sides; the floor has what they leave.
    pub fn show(&mut self, ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
        let before = desk.settings().arrangement;
        let mut now = before;
        let compares = desk.compared().is_some();
        let narrow = ui.ctx().content_rect().width() < NARROW;
        if compares && !std::mem::replace(&mut self.compared, compares) {
            (now.right_tab, now.only_tab) = (Tab::Versions, Tab::Versions);
            (now.left_folded, now.right_folded) = (now.left_folded && !narrow, false);
        }
        self.compared = compares;
        if narrow {
            self.show_only(ui, desk, &mut now, asks);
        } else {
            self.show_left(ui, desk, &mut now, asks);
            self.show_right(ui, desk, &mut now, asks);
        }
        if now != before {
            asks.push(Ask::Keep(KeepAsk::Arrange(now)));
        }
    }

    /// Has a line of the running order renamed, which has to be in sight for that.
    pub fn rename(&mut self, desk: &Desk, line: usize, asks: &mut Vec<Ask>) {
        let before = desk.settings().arrangement;
        let now = Arrangement { left_tab: Tab::Order, only_tab: Tab::Order, left_folded: false, ..before };
        if now != before {
            asks.push(Ask::Keep(KeepAsk::Arrange(now)));
        }
        self.order.rename(desk, line);
    }

    fn show_left(&mut self, ui: &mut Ui, desk: &Desk, now: &mut Arrangement, asks: &mut Vec<Ask>) {
        if now.left_folded {
            show_folded(ui, desk, Side::Left, &mut now.left_folded);
            return;
        }
        let tabs = [Tab::Order, Tab::Set];
        let chosen = shown(now.left_tab, &tabs);
        let panel = Panel::left("left side").default_size(now.left).size_range(210.0..=420.0).frame(frame());
        let shown = panel.show(ui, |ui| {
            follow(
                tabs::show(ui, desk, Side::Left, (&tabs, chosen), 2).as_ref(),
                &mut now.left_tab,
                &mut now.left_folded,
            );
            self.show_tab(ui, desk, chosen, now, asks);
        });
        remember(ui, "left side", shown.response.rect.width(), &mut now.left);
    }

    fn show_right(&mut self, ui: &mut Ui, desk: &Desk, now: &mut Arrangement, asks: &mut Vec<Ask>) {
        if now.right_folded {
            show_folded(ui, desk, Side::Right, &mut now.right_folded);
            return;
        }
        let mut tabs = vec![Tab::Dancer, Tab::Figure, Tab::Faults];
        tabs.extend(desk.compared().is_some().then_some(Tab::Versions));
        let chosen = shown(now.right_tab, &tabs);
        let panel =
            Panel::right("right side").default_size(now.right).size_range(276.0..=480.0).frame(frame());
        let shown = panel.show(ui, |ui| {
            // Room for the versions is kept where none are compared, so that the others stay where they are.
            let head = tabs::show(ui, desk, Side::Right, (&tabs, chosen), 4);
            follow(head.as_ref(), &mut now.right_tab, &mut now.right_folded);
            show_fault_foot(ui, desk, &mut now.right_tab, asks);
            self.show_tab(ui, desk, chosen, now, asks);
        });
        remember(ui, "right side", shown.response.rect.width(), &mut now.right);
    }

    /// The one side of a narrow window.
    fn show_only(&mut self, ui: &mut Ui, desk: &Desk, now: &mut Arrangement, asks: &mut Vec<Ask>) {
        if now.left_folded {
            show_folded(ui, desk, Side::Left, &mut now.left_folded);
            return;
        }
        let mut tabs = vec![Tab::Order, Tab::Shelf, Tab::Set, Tab::Dancer, Tab::Figure, Tab::Faults];
        tabs.extend(desk.compared().is_some().then_some(Tab::Versions));
        let chosen = shown(now.only_tab, &tabs);
        let room = ui.ctx().content_rect().size();
        let most = (room.x - FLOOR).clamp(200.0, 420.0);
        let least = most.min(250.0);
        let panel =
            Panel::left("only side").default_size(now.left.clamp(least, most)).size_range(least..=most);
        let shown = panel.frame(frame()).show(ui, |ui| {
            let head = tabs::show(ui, desk, Side::Left, (&tabs, chosen), 3);
            follow(head.as_ref(), &mut now.only_tab, &mut now.left_folded);
            if room.y >= LOW {
                show_fault_foot(ui, desk, &mut now.only_tab, asks);
            }
            self.show_tab(ui, desk, chosen, now, asks);
        });
        remember(ui, "only side", shown.response.rect.width(), &mut now.left);
    }

    fn show_tab(&mut self, ui: &mut Ui, desk: &Desk, tab: Tab, now: &mut Arrangement, asks: &mut Vec<Ask>) {
        match tab {
            Tab::Order => self.show_order(ui, desk, now, asks),
            Tab::Shelf => self.shelf.show(ui, desk, asks),
            Tab::Set => up_and_down(ui, tab, |ui| set_row::show(ui, desk, asks)),
            Tab::Dancer => up_and_down(ui, tab, |ui| card::show(ui, desk, asks)),
            Tab::Figure => up_and_down(ui, tab, |ui| figure_card::show(ui, desk, asks)),
            Tab::Faults => up_and_down(ui, tab, |ui| fault_list::show(ui, desk, asks)),
            Tab::Versions => up_and_down(ui, tab, |ui| differences::show(ui, desk, asks)),
        }
    }

    /// The running order with what can be put in under it: the shelf, where there is room for both.
    fn show_order(&mut self, ui: &mut Ui, desk: &Desk, now: &mut Arrangement, asks: &mut Vec<Ask>) {
        Panel::bottom("order foot").exact_size(ORDER_FOOT).frame(Frame::new()).show(ui, |ui| {
            order_drop::show_foot(ui, desk, asks);
        });
        let room = ui.ctx().content_rect().size();
        if room.x >= NARROW {
            let open = now.shelf_open.unwrap_or(room.y >= HIGH);
            if open {
                let most = (ui.available_height() - 130.0).max(120.0);
                let frame = Frame::new().inner_margin(egui::Margin::symmetric(0, 2));
                let panel = Panel::bottom("shelf")
                    .default_size(now.shelf.min(most))
                    .size_range(110.0..=most)
                    .resizable(true);
                let shown = panel.frame(frame).show(ui, |ui| {
                    show_shelf_head(ui, open, now);
                    self.shelf.show(ui, desk, asks);
                });
                remember(ui, "shelf", shown.response.rect.height(), &mut now.shelf);
            } else {
                Panel::bottom("shelf head").exact_size(30.0).frame(Frame::new()).show(ui, |ui| {
                    show_shelf_head(ui, open, now);
                });
            }
        }
        self.order.show(ui, desk, asks);
    }
}

/// The line that opens the shelf under the running order, and folds it.
fn show_shelf_head(ui: &mut Ui, open: bool, now: &mut Arrangement) {
    let hint = if open { "Fold the shelf away" } else { "The named figures, to put in" };
    let button = egui::Button::new("Figure shelf").frame_when_inactive(false);
    let button = ui.add(button.min_size(vec2(ui.available_width(), 24.0)));
    let at = button.rect.right_center() - vec2(14.0, 0.0);
    let corners =
        if open { [(-5.0, -2.5), (0.0, 2.5), (5.0, -2.5)] } else { [(-2.5, -5.0), (2.5, 0.0), (-2.5, 5.0)] };
    let pen = egui::Stroke::new(1.8, ui.visuals().weak_text_color());
    ui.painter().add(egui::Shape::line(corners.map(|(x, y)| at + vec2(x, y)).to_vec(), pen));
    if button.on_hover_text(hint).clicked() {
        now.shelf_open = Some(!open);
    }
}

/// The faults as a count with the worst of them, at the foot of a side.
fn show_fault_foot(ui: &mut Ui, desk: &Desk, tab: &mut Tab, asks: &mut Vec<Ask>) {
    Panel::bottom("fault foot").exact_size(fault_foot::HEIGHT).frame(Frame::new()).show(ui, |ui| {
        if fault_foot::show(ui, desk, asks) {
            *tab = Tab::Faults;
        }
    });
}

fn show_folded(ui: &mut Ui, desk: &Desk, side: Side, folded: &mut bool) {
    let panel = if side == Side::Left { Panel::left("folded left") } else { Panel::right("folded right") };
    panel.exact_size(FOLDED).frame(Frame::new()).show(ui, |ui| {
        if tabs::show_folded(ui, desk, side) {
            *folded = false;
        }
    });
}

fn follow(head: Option<&Head>, tab: &mut Tab, folded: &mut bool) {
    match head {
        Some(Head::Show(other)) => *tab = *other,
        Some(Head::Fold) => *folded = true,
        None => {}
    }
}

/// The tab that is chosen, or the first where there is no such tab now.
fn shown(chosen: Tab, tabs: &[Tab]) -> Tab {
    if tabs.contains(&chosen) { chosen } else { tabs.first().copied().unwrap_or(Tab::Order) }
}

fn frame() -> Frame {
    Frame::new().inner_margin(egui::Margin::symmetric(10, 0))
}

fn up_and_down(ui: &mut Ui, tab: Tab, show: impl FnOnce(&mut Ui)) {
    ScrollArea::vertical()
        .id_salt(("tab", tab as u8))
        .auto_shrink([false, false])
        .min_scrolled_height(0.0)
        .show(ui, show);
}

/// Remembers how wide or high a panel was drawn to, once its edge is let go.
fn remember(ui: &Ui, panel: &'static str, size: f32, known: &mut f32) {
    // The panel's own name for its edge.
    let edge = ui.scope_id().with_salt(IdSalt::new(panel)).with("__resize");
    if ui.ctx().read_response(edge).is_some_and(|edge| edge.drag_stopped()) {
        *known = size;
    }
}
