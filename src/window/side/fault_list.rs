use super::watch_for;
use crate::desk::{Ask, Desk, FaultAsk};
use crate::faults::{ALL_CLEAR, Fault, Faults, MOST_OF_A_KIND};
use crate::window::{context_menu::show_menu, fault_menu, sizes::LOW, theme::colour};
use egui::{RichText, Ui, vec2};

/// Faults shown in the list at the most.
const MOST: usize = 40;

/// The faults, to go to, and what the side means.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.add_space(6.0);
    let many = desk.fault_count();
    ui.horizontal(|ui| {
        ui.set_min_height(24.0);
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
    let groups = grouped(desk.faults());
    for group in groups.iter().take(MOST) {
        show_group(ui, desk, group, asks);
    }
    let (ink, said) = match many {
        0 if desk.looks_for_faults() => (desk.ink().quiet, "Looking for faults…"),
        // Where there is a foot, it says so.
        0 if ui.ctx().content_rect().height() >= LOW => (desk.ink().quiet, ""),
        0 => (desk.ink().well, ALL_CLEAR),
        _ if groups.len() > MOST => (desk.ink().fault, "The first 40 are shown"),
        _ => (desk.ink().quiet, "No other fault is found"),
    };
    if !said.is_empty() {
        ui.colored_label(colour(ink), said);
    }
    for more in desk.faults().more() {
        let said = format!("{} · {}", more.kind.words(), more.words());
        let hint = format!("Only the first {MOST_OF_A_KIND} of a kind are told one by one");
        ui.colored_label(colour(desk.ink().fault), said).on_hover_text(hint);
    }
    show_meant(ui, desk, asks);
    watch_for::show(ui, desk);
}

/// The places in the list of those that the side does not mean; those of one kind that are found at one moment, such as of
/// two partners, together.
fn grouped(faults: &Faults) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (index, fault) in faults.iter().enumerate().filter(|(_, fault)| fault.allowed.is_none()) {
        let alike = |group: &&mut Vec<usize>| {
            group.first().and_then(|first| faults.get(*first)).is_some_and(|first| first.is_told_with(fault))
        };
        let enough = groups.len() > MOST;
        match groups.iter_mut().rev().take(8).find(alike) {
            Some(group) => group.push(index),
            // More are not shown.
            None if enough => break,
            None => groups.push(vec![index]),
        }
    }
    groups
}

/// Numbers in words: `1`, `1 and 2`, `1, 2 and 5`.
fn listed(numbers: &[String]) -> String {
    match numbers {
        [] => String::new(),
        [one] => one.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

fn show_group(ui: &mut Ui, desk: &Desk, group: &[usize], asks: &mut Vec<Ask>) {
    let faults: Vec<&Fault> = group.iter().filter_map(|index| desk.faults().get(*index)).collect();
    let (Some(fault), Some(&index)) = (faults.first(), group.first()) else { return };
    let shown = desk.shown_fault().is_some_and(|shown| group.contains(&shown));
    let alike = |said: &&str| faults.len() > 1 && faults.iter().all(|other| other.of_them() == Some(*said));
    let said = match fault.of_them().filter(alike) {
        // The same of each is said once.
        Some(said) if fault.dancers.len() == 1 => format!("Each {said}"),
        Some(said) => format!("They {said}"),
        None => faults.iter().map(|fault| fault.said.as_str()).collect::<Vec<_>>().join("; "),
    };
    let who = |fault: &&Fault| {
        let numbers: Vec<String> = fault.dancers.iter().map(ToString::to_string).collect();
        numbers.join(" with ")
    };
    let numbers: Vec<String> = faults.iter().map(who).collect();
    // As many as the count at the head has.
    let many = group.len();
    let who = if many > 1 { format!("{many} faults, of {}: ", listed(&numbers)) } else { String::new() };
    let text =
        format!("{who}{} · {}\n{}", fault.kind.words(), desk.moment_words(desk.before_fault(fault)), said);
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
    // Elsewhere the foot of the side has these.
    if !shown || ui.ctx().content_rect().height() >= LOW {
        return;
    }
    ui.horizontal_wrapped(|ui| {
        let helps = desk.why_no_room(index).is_none();
        if helps && desk.proposed().is_none() {
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
                let places: Vec<String> = allow.places.iter().map(ToString::to_string).collect();
                let who =
                    if places.is_empty() { String::new() } else { format!(" of {}", places.join(", ")) };
                ui.label(format!("{}: {}{who}", figure.name, allow.kind.words()));
                ui.horizontal_wrapped(|ui| {
                    ui.weak(format!("“{}”", allow.reason));
                    if ui.small_button("tell it again").clicked() {
                        asks.push(Ask::Fault(FaultAsk::NoLongerAllow { figure: index, which }));
                    }
                });
            }
        }
    });
}
