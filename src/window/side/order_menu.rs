use super::ends_menu;
use crate::dance::Figure;
use crate::desk::{About, Ask, Desk, OrderAsk};
use crate::window::context_menu::keyed_item;
use egui::{Button, RichText, ScrollArea, Ui};

/// What can be done with a line of the running order and its figure. Gives whether to rename it.
pub fn show_line(ui: &mut Ui, desk: &Desk, line: usize, figure: usize, asks: &mut Vec<Ask>) -> bool {
    let Some(known) = desk.dance().figures.get(figure) else { return false };
    let danced = desk.dance().danced();
    let lines = danced.iter().filter(|index| **index == figure).count();
    let last = danced.len().saturating_sub(1);
    ui.set_min_width(215.0);
    let rename = keyed_item(ui, true, ("Rename", "F2", "Wherever it is danced"));
    if keyed_item(ui, true, ("Dance it again", "", "The same figure after this line")) {
        asks.push(Ask::Order(OrderAsk::Dance { figure, before: Some(line + 1) }));
    }
    let own = if lines > 1 {
        "A copy to change by itself, danced at this line"
    } else {
        "A copy to change by itself, danced after this line"
    };
    if keyed_item(ui, true, ("Duplicate as its own", "", own)) {
        asks.push(Ask::Order(OrderAsk::Duplicate(line)));
    }
    ui.separator();
    ui.menu_button("Strain", |ui| {
        if let Some(strain) = show_strains(ui, desk, line) {
            asks.push(Ask::Order(OrderAsk::SetStrain(line, strain)));
            ui.close();
        }
    });
    ui.menu_button("Ends", |ui| ends_menu::show_menu(ui, figure, known, asks));
    let drawn = known.named.is_none();
    let hint = if drawn { "Wherever it is danced" } else { "A named figure takes the bars that it has" };
    for (name, enabled, hint, about) in [
        ("Call…", true, "What is called at this line", About::Call(line)),
        ("Bars…", drawn, hint, About::Bars(figure)),
        ("Notes…", true, "The side's notes on the figure", About::Notes(figure)),
    ] {
        if keyed_item(ui, enabled, (name, "", hint)) {
            asks.push(Ask::Order(OrderAsk::Write(about)));
        }
    }
    ui.separator();
    if keyed_item(ui, line > 0, ("Move up", "Alt+Up", "")) {
        asks.push(Ask::Order(OrderAsk::Move { from: line, to: line.saturating_sub(1) }));
    }
    if keyed_item(ui, line < last, ("Move down", "Alt+Down", "")) {
        asks.push(Ask::Order(OrderAsk::Move { from: line, to: line + 1 }));
    }
    ui.separator();
    let hint = "It can be danced again from + Figure or the shelf";
    if keyed_item(ui, true, ("Take it out of the order", "Delete", hint)) {
        asks.push(Ask::Order(OrderAsk::TakeOut(line)));
    }
    let hint =
        if lines > 1 { format!("And the {lines} lines that dance it") } else { "And this line".into() };
    if keyed_item(ui, true, ("Delete the figure", "", &hint)) {
        asks.push(Ask::Order(OrderAsk::Delete(figure)));
    }
    rename
}

/// The strains of the tune to choose one from.
fn show_strains(ui: &mut Ui, desk: &Desk, line: usize) -> Option<String> {
    let now = desk.dance().order.get(line).map_or("", |entry| entry.strain.as_str());
    let strains = &desk.dance().music.strains;
    let mut names: Vec<&str> = strains.iter().map(|strain| strain.name.as_str()).collect();
    if names.is_empty() {
        ui.weak("The tune has no strains yet");
    }
    if !now.is_empty() && !names.contains(&now) {
        names.push(now);
    }
    names.push("");
    let mut chosen = None;
    for name in names {
        let words = if name.is_empty() { "none" } else { name };
        if ui.selectable_label(now == name, words).clicked() {
            chosen = Some(name.to_owned());
        }
    }
    chosen
}

/// What can be put into the running order: a new figure, or one that the dance has.
pub fn show_add(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    ui.set_min_width(215.0);
    if ui.button("A new figure to draw").clicked() {
        asks.push(Ask::Order(OrderAsk::NewFigure));
        ui.close();
    }
    let danced = desk.dance().danced();
    let figures = || desk.dance().figures.iter().enumerate();
    let (out, again): (Vec<_>, Vec<_>) = figures().partition(|(index, _)| !danced.contains(index));
    ScrollArea::vertical().max_height(320.0).show(ui, |ui| {
        if !out.is_empty() {
            ui.separator();
        }
        for (index, figure) in out {
            ui.horizontal(|ui| {
                show_dance(ui, index, figure, "not danced", asks);
                let button = Button::new(RichText::new("delete").small()).frame_when_inactive(false);
                let hint = format!("Delete {} from the file", figure.name);
                if ui.add(button).on_hover_text(hint).clicked() {
                    asks.push(Ask::Order(OrderAsk::Delete(index)));
                    ui.close();
                }
            });
        }
        if !again.is_empty() {
            ui.separator();
            ui.weak("Dance again");
        }
        for (index, figure) in again {
            show_dance(ui, index, figure, "", asks);
        }
    });
    ui.separator();
    ui.weak(RichText::new("Named figures are on the shelf.").small());
}

fn show_dance(ui: &mut Ui, index: usize, figure: &Figure, said: &str, asks: &mut Vec<Ask>) {
    let name: String = figure.name.chars().take(40).collect();
    let name = if said.is_empty() { name } else { format!("{name} · {said}") };
    let hint = format!("{} bars, put in after the figure at the playhead", figure.bars);
    if ui.button(name).on_hover_text(hint).clicked() {
        asks.push(Ask::Order(OrderAsk::Dance { figure: index, before: None }));
        ui.close();
    }
}
