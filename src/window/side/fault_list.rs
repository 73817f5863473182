use crate::dance::FaultKind;
use crate::desk::{Ask, Desk, FaultAsk};
use crate::faults::{ALL_CLEAR, Fault, MOST_OF_A_KIND};
use crate::window::{context_menu::show_menu, fault_menu, theme::colour};
use egui::{RichText, Ui, vec2};
use std::time::Duration;

/// Faults shown in the list at the most.
const MOST: usize = 40;
/// A search that takes longer than this is told of.
const LONG: Duration = Duration::from_millis(250);

/// The faults, to go to; what can be done about the one that is shown; and what the side means.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    egui::Frame::new().fill(colour(desk.ink().raised)).corner_radius(8).inner_margin(10).show(ui, |ui| {
        ui.set_width(ui.available_width());
        let many = desk.fault_count();
        ui.horizontal(|ui| {
            ui.label("Faults");
            if many > 0 {
                ui.colored_label(colour(desk.ink().fault), many.to_string());
            }
            if many > 0 && desk.looks_for_faults() {
                let hint = "What is told here is of the dance as it was before the last change";
                ui.weak("being looked over…").on_hover_text(hint);
            }
            ui.with_layout(egui::Layout::right_to_left(egui::Align::Center), |ui| {
                let button = egui::Button::new(RichText::new("limits…").small()).frame_when_inactive(false);
                if ui.add(button).on_hover_text("What counts as a fault in this dance").clicked() {
                    asks.push(Ask::Fault(FaultAsk::AskLimits));
                }
            });
        });
        let shown = desk.shown_fault();
        let told = desk.faults().iter().enumerate().filter(|(_, fault)| fault.allowed.is_none());
        for (index, fault) in told.take(MOST) {
            show_fault(ui, desk, index, fault, shown == Some(index), asks);
        }
        let (ink, said) = match many {
            0 if desk.looks_for_faults() => (desk.ink().quiet, "Looking for faults…"),
            0 => (desk.ink().well, ALL_CLEAR),
            _ if many > MOST => (desk.ink().fault, "The first 40 are shown"),
            _ => (desk.ink().quiet, "No other fault is found"),
        };
        ui.colored_label(colour(ink), said);
        for more in desk.faults().more() {
            let said = format!("{} · {}", more.kind.words(), more.words());
            let hint = format!("Only the first {MOST_OF_A_KIND} of a kind are told one by one");
            ui.colored_label(colour(desk.ink().fault), said).on_hover_text(hint);
        }
        show_meant(ui, desk, asks);
    });
}

fn show_fault(ui: &mut Ui, desk: &Desk, index: usize, fault: &Fault, shown: bool, asks: &mut Vec<Ask>) {
    let text =
        format!("{} · {}\n{}", fault.kind.words(), desk.moment_words(desk.before_fault(fault)), fault.said);
    let width = if shown { 2.0 } else { 1.0 };
    let button = egui::Button::new(RichText::new(text).color(colour(desk.ink().words)))
        .wrap()
        .fill(colour(desk.ink().chosen))
        .stroke(egui::Stroke::new(width, colour(desk.ink().fault)))
        .min_size(vec2(ui.available_width(), 0.0));
    let response = ui.add(button).on_hover_text("Go there, and see what can be done");
    if response.clicked() {
        asks.push(Ask::Fault(FaultAsk::GoTo(index)));
    }
    show_menu(&response, |ui, _| fault_menu::show(ui, desk, index, asks));
    if !shown {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        let bodies = matches!(fault.kind, FaultKind::Clash | FaultKind::Tight);
        if bodies && desk.proposed().is_none() {
            let hint = "Look for the least change that parts them, and show it as a ghost";
            if ui.button("Make room").on_hover_text(hint).clicked() {
                asks.push(Ask::Fault(FaultAsk::MakeRoom(index)));
            }
        }
        if ui.button("We mean this…").on_hover_text("Write down why, and have it told no more").clicked() {
            asks.push(Ask::Fault(FaultAsk::AskAllow(index)));
        }
    });
}

/// The mend that is proposed, over the foot of the floor: what it does, and whether to.
pub fn show_mend(ui: &mut Ui, desk: &Desk, floor: egui::Rect, asks: &mut Vec<Ask>) {
    let Some(mend) = desk.proposed() else {
        show_search(ui, desk, floor, asks);
        return;
    };
    show_card(ui, desk, floor, |ui| {
        ui.label(format!("{}.", mend.text));
        ui.horizontal(|ui| {
            let button = ui.button(RichText::new("Do it").strong());
            if button.on_hover_text("Enter").clicked() {
                asks.push(Ask::Fault(FaultAsk::TakeMend));
            }
            if ui.button("Leave it").on_hover_text("Escape").clicked() {
                asks.push(Ask::Fault(FaultAsk::LeaveMend));
            }
            let moved = format!("Nobody moves more than {:.2} m.", mend.moved);
            ui.weak(RichText::new(moved).small());
        });
    });
}

/// The search for a mend, once it takes so long that something should be said of it.
fn show_search(ui: &mut Ui, desk: &Desk, floor: egui::Rect, asks: &mut Vec<Ask>) {
    let Some(age) = desk.room_search_age() else { return };
    if let Some(left) = LONG.checked_sub(age) {
        ui.ctx().request_repaint_after(left);
        return;
    }
    show_card(ui, desk, floor, |ui| {
        ui.label("Looking for the least change that makes room…");
        if ui.button("Stop").on_hover_text("Escape").clicked() {
            asks.push(Ask::Fault(FaultAsk::LeaveMend));
        }
    });
}

/// A card over the foot of the floor.
fn show_card(ui: &mut Ui, desk: &Desk, floor: egui::Rect, show: impl FnOnce(&mut Ui)) {
    let width = (floor.width() - 40.0).min(520.0);
    let area = egui::Rect::from_min_max(
        egui::pos2(floor.center().x - width / 2.0, floor.bottom() - 132.0),
        egui::pos2(floor.center().x + width / 2.0, floor.bottom() - 44.0),
    );
    ui.scope_builder(egui::UiBuilder::new().max_rect(area), |ui| {
        let frame = egui::Frame::new().fill(colour(desk.ink().panel)).corner_radius(8).inner_margin(10);
        frame.stroke(egui::Stroke::new(1.5, colour(desk.ink().well))).show(ui, show);
    });
}

/// What would be faults and the side means, in the figures of the dance.
fn show_meant(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let meant: usize = desk.dance().figures.iter().map(|figure| figure.allow.len()).sum();
    if meant == 0 {
        return;
    }
    ui.add_space(4.0);
    egui::CollapsingHeader::new(format!("Meant by this side: {meant}")).id_salt("meant").show(ui, |ui| {
        for (index, figure) in desk.dance().figures.iter().enumerate() {
            for (which, allow) in figure.allow.iter().enumerate() {
                let places: Vec<String> = allow.places.iter().map(u32::to_string).collect();
                let who =
                    if places.is_empty() { String::new() } else { format!(" of {}", places.join(", ")) };
                ui.label(format!("{}: {}{who}", figure.name, allow.kind.words()));
                ui.horizontal_wrapped(|ui| {
                    ui.weak(format!("“{}”", allow.reason));
                    if ui.small_button("tell it again").clicked() {
                        asks.push(Ask::Fault(FaultAsk::NoLongerAllow(index, which)));
                    }
                });
            }
        }
    });
}
