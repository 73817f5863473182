//! The faults at the foot of a side, always in sight: how many, the one that is shown or else the worst, and what can be
//! done about it.

use crate::dance::Dancer;
use crate::desk::{Ask, Desk, FaultAsk};
use crate::faults::{ALL_CLEAR, Fault};
use crate::window::{context_menu::show_menu, fault_menu, theme::colour};
use egui::{
    Align, Align2, Button, FontId, Label, Layout, Rect, RichText, Role, Sense, Ui, UiBuilder, WidgetInfo,
    pos2, vec2,
};

/// Its height, points.
pub const HEIGHT: f32 = 82.0;
/// How high its first line is.
const LINE: f32 = 26.0;
/// How high the line under it is.
const SAID: f32 = 21.0;

/// Shows the foot; gives whether all of the faults are asked for.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) -> bool {
    ui.spacing_mut().item_spacing.y = 2.0;
    ui.add_space(6.0);
    let at = at_hand(desk);
    show_line(ui, desk, at, asks);
    let (said, ink) = match at {
        Some((_, fault)) => (fault.said.as_str(), desk.ink().quiet),
        None if desk.looks_for_faults() || desk.fault_count() > 0 => ("", desk.ink().quiet),
        None => ("All clear: bodies, feet, turns, ends", desk.ink().quiet),
    };
    let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), SAID), Sense::hover());
    ui.scope_builder(UiBuilder::new().max_rect(place).layout(Layout::left_to_right(Align::Center)), |ui| {
        let label = ui.add(Label::new(RichText::new(said).small().color(colour(ink))).truncate());
        if at.is_none() && !said.is_empty() {
            label.on_hover_text(ALL_CLEAR);
        }
    });
    show_buttons(ui, desk, at, asks)
}

/// The fault that is shown, or else the worst.
fn at_hand(desk: &Desk) -> Option<(usize, &Fault)> {
    let shown = desk.shown_fault().and_then(|index| Some((index, desk.faults().get(index)?)));
    let at = shown.filter(|(_, fault)| fault.allowed.is_none()).or_else(|| desk.faults().worst())?;
    // Of what is told in one of several dancers, the chosen dancer's own.
    let chosen = desk.chosen().map(Dancer::number);
    let own = |fault: &Fault| chosen.is_some_and(|number| fault.dancers.contains(&number));
    let told = |fault: &Fault| fault.allowed.is_none() && fault.is_told_with(at.1) && own(fault);
    let theirs = desk.faults().iter().enumerate().find(|(_, fault)| told(fault));
    Some(theirs.filter(|_| !own(at.1)).unwrap_or(at))
}

/// How many there are, and the one at hand: a click goes there.
fn show_line(ui: &mut Ui, desk: &Desk, at: Option<(usize, &Fault)>, asks: &mut Vec<Ask>) {
    let (place, response) = ui.allocate_exact_size(vec2(ui.available_width(), LINE), Sense::click());
    let many = desk.fault_count();
    let ink = &desk.ink();
    let looks = desk.looks_for_faults();
    let (count, words) = match at {
        Some((_, fault)) => (
            many.to_string(),
            format!("{} · {}", fault.kind.words(), desk.moment_words(desk.before_fault(fault))),
        ),
        None if looks => ("…".to_owned(), "looking for faults…".to_owned()),
        None => ("0".to_owned(), "no faults".to_owned()),
    };
    response.widget_info(|| {
        let all = if many == 1 { "1 fault".to_owned() } else { format!("{many} faults") };
        WidgetInfo::labeled(Role::Button, at.is_some(), format!("{all}: {words}"))
    });
    if at.is_some() && (response.hovered() || response.has_focus()) {
        ui.painter().rect_filled(place.expand2(vec2(4.0, 0.0)), 6.0, colour(ink.raised));
    }
    let (fill, mark) = match at {
        Some(_) => (ink.fault, ink.panel),
        None if looks => (ink.raised, ink.words),
        None => (ink.well, ink.panel),
    };
    let font = FontId::proportional(12.5);
    let number = ui.painter().layout_no_wrap(count, font, colour(mark));
    let badge = Rect::from_min_size(
        pos2(place.left(), place.center().y - 10.0),
        vec2((number.size().x + 11.0).max(20.0), 20.0),
    );
    ui.painter().rect_filled(badge, 10.0, colour(fill));
    let middle = Align2::CENTER_CENTER.anchor_size(badge.center(), number.size());
    ui.painter().galley(middle.min, number, colour(mark));
    let rest = Rect::from_min_max(pos2(badge.right() + 8.0, place.top()), place.max);
    ui.scope_builder(UiBuilder::new().max_rect(rest).layout(Layout::left_to_right(Align::Center)), |ui| {
        ui.add(Label::new(words).truncate());
    });
    let Some((index, fault)) = at else { return };
    if response.clicked() {
        asks.push(Ask::Fault(FaultAsk::GoTo(index)));
    }
    show_menu(&response, |ui, _| fault_menu::show(ui, desk, index, asks));
    let overlooked = if looks { "\nThe dance has changed since, and is being looked over." } else { "" };
    response.on_hover_text(format!("{}{overlooked}\nClick to go there", fault.said));
}

fn show_buttons(ui: &mut Ui, desk: &Desk, at: Option<(usize, &Fault)>, asks: &mut Vec<Ask>) -> bool {
    let mut all = false;
    ui.horizontal(|ui| {
        ui.spacing_mut().item_spacing.x = 4.0;
        ui.spacing_mut().button_padding.x = 7.0;
        let small = |name: &str| Button::new(RichText::new(name).small());
        let why_not = at.and_then(|(index, _)| desk.why_no_room(index));
        let meets = at.filter(|_| why_not.is_none());
        let room = ui.add_enabled(meets.is_some() && desk.proposed().is_none(), small("Make room"));
        let hint = "Look for the least change that parts them, and show it as a ghost";
        let room = room
            .on_hover_text(hint)
            .on_disabled_hover_text(why_not.as_deref().unwrap_or("Where two come too near each other"));
        if let Some((index, _)) = meets.filter(|_| room.clicked()) {
            asks.push(Ask::Fault(FaultAsk::GoTo(index)));
            asks.push(Ask::Fault(FaultAsk::MakeRoom(index)));
        }
        let means = ui.add_enabled(at.is_some(), small("We mean this…"));
        let means = means.on_hover_text("Write down why, and have it told no more");
        if let Some((index, _)) = at.filter(|_| means.clicked()) {
            asks.push(Ask::Fault(FaultAsk::AskAllow(index)));
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            all = ui.add(small("all…").frame_when_inactive(false)).on_hover_text("Every fault").clicked();
        });
    });
    all
}
