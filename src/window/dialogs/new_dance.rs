use super::shape::{foot, row};
use crate::dance::{Holding, Set, SetKind, Tune, limits};
use crate::desk::{Ask, FileAsk, NEW_DANCE, NewDance, ViewAsk};
use crate::figures;
use crate::window::{
    fields::{Ending, NumberField, NumberKind, TuneField, TuneTyped, ending, line},
    paint::choose_text,
};
use egui::{Id, RichText, Ui};

/// The height of the field for the tune, points.
const TUNE: f32 = 44.0;

/// The fields of a new dance.
#[derive(Default)]
pub struct NewDanceFields {
    new: NewDance,
    /// Whether the title has been given the focus.
    focused: bool,
}

/// Shows what there is to choose.
pub fn show_new(ui: &mut Ui, fields: &mut NewDanceFields, asks: &mut Vec<Ask>) {
    let NewDanceFields { new, focused } = fields;
    ui.heading("New dance");
    ui.add_space(6.0);
    let (mut entered, mut unread) = (false, false);
    egui::Grid::new("new dance").num_columns(2).spacing([12.0, 8.0]).show(ui, |ui| {
        let label = ui.label("Title");
        let title = ui.add(line(&mut new.title).hint_text(NEW_DANCE)).labelled_by(label.id);
        let title = title.on_hover_text("What the dance is called: a line of any letters");
        if !std::mem::replace(focused, true) {
            title.request_focus();
            // All of it is chosen, so that typing takes its place.
            choose_text(ui, title.id, 0, new.title.chars().count());
        }
        entered |= ending(ui, &title) == Some(Ending::Enter);
        ui.end_row();
        ui.label("Set");
        row(ui, |ui| {
            ui.selectable_value(&mut new.kind, SetKind::Longways, "two files");
            ui.selectable_value(&mut new.kind, SetKind::Ring, "a ring");
        });
        ui.end_row();
        let label = ui.label("Dancers");
        if new.kind == SetKind::Longways {
            row(ui, |ui| {
                for number in Set::USUAL_SIZES {
                    ui.selectable_value(&mut new.dancers, number, number.to_string());
                }
            });
        } else {
            let most = f64::from(limits::MOST_DANCERS);
            let kind = NumberKind { least: 1.0, most, places: 0, unit: "" };
            let answer =
                NumberField::new(f64::from(new.dancers), kind, 0.1).hint("How many dance it").show(ui);
            answer.response.labelled_by(label.id);
            new.dancers = answer.changed.map_or(new.dancers, |dancers| dancers as u32);
            unread |= answer.wrong;
        }
        ui.end_row();
        ui.label("In the hands");
        row(ui, |ui| {
            for (holding, name, hint) in [
                (
                    Holding::Handkerchiefs,
                    "handkerchiefs",
                    "Files 2.4 m and ranks 1.8 m apart, unless you choose others",
                ),
                (
                    Holding::Sticks,
                    "sticks",
                    "1.2 m apart, within reach of two sticks, unless you choose others",
                ),
                (
                    Holding::Nothing,
                    "nothing, to clap",
                    "0.9 m apart, within reach of two hands, unless you choose others",
                ),
            ] {
                if ui.selectable_label(new.holding == holding, name).on_hover_text(hint).clicked() {
                    new.hold(holding);
                }
            }
        });
        ui.end_row();
        // A ring has neither, but what is under them keeps its place.
        let files = new.kind == SetKind::Longways;
        for (name, metres) in [("Across the files", &mut new.across), ("From rank to rank", &mut new.along)] {
            let label = ui.add_enabled(files, egui::Label::new(name));
            let kind = NumberKind { least: 0.5, most: 20.0, places: 2, unit: "m" };
            let answer = ui.add_enabled_ui(files, |ui| NumberField::new(*metres, kind, 0.05).show(ui)).inner;
            answer.response.labelled_by(label.id);
            *metres = answer.changed.unwrap_or(*metres);
            unread |= answer.wrong;
            ui.end_row();
        }
        show_tune(ui, &mut new.tune);
        ui.end_row();
    });
    ui.add_space(8.0);
    ui.weak("Figures to begin with; with none there is an empty one to draw in");
    // Side by side, so that the dialog fits the smallest window.
    egui::Grid::new("new figures").num_columns(2).spacing([24.0, 5.0]).show(ui, |ui| {
        for row in new.figures.chunks_mut(2) {
            for (name, chosen) in row {
                if let Ok(figure) = figures::find(name) {
                    ui.checkbox(chosen, figure.title).on_hover_text(figure.help);
                }
            }
            ui.end_row();
        }
    });
    let made = new.make();
    foot(ui, |ui| {
        let ready = made.is_ok() && !unread;
        let button = egui::Button::new(RichText::new("Make it").strong());
        let clicked = ui.add_enabled(ready, button).clicked();
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
        match made {
            Ok(dance) if (clicked || entered) && ready => {
                asks.push(Ask::View(ViewAsk::PutAway));
                asks.push(Ask::File(FileAsk::PutNew(Box::new(dance))));
            }
            Ok(_) => {}
            Err(said) => {
                let said = RichText::new(said).small().color(ui.visuals().error_fg_color);
                ui.add(egui::Label::new(said).truncate());
            }
        }
    });
}

/// The tune, where somebody has it at hand: what is pasted is cleaned, and of several tunes the first is taken.
fn show_tune(ui: &mut Ui, tune: &mut String) {
    // Beside the middle of the field, which has a line under it.
    let label = ui
        .vertical(|ui| {
            ui.add_space((TUNE - ui.text_style_height(&egui::TextStyle::Body)) / 2.0);
            ui.label("Tune")
        })
        .inner;
    ui.vertical(|ui| {
        let hint = "none yet: paste one in ABC notation, or give it one later";
        let (name, size) = (Id::unique("new tune"), egui::vec2(320.0, TUNE));
        let TuneTyped { response, pasted } = TuneField { name, size, hint, label: label.id }.show(ui, tune);
        let edit = response.on_hover_text("Its metre, speed, upbeat and strains become the dance's");
        let cleaned = pasted.unwrap_or_default();
        if let Some(first) = cleaned.tunes.first() {
            tune.clone_from(first);
        }
        let many = ui.data_mut(|data| {
            let many = data.get_temp_mut_or_default::<usize>(edit.id);
            if edit.changed() {
                *many = cleaned.tunes.len();
            }
            *many
        });
        let said = match Tune::read(tune) {
            _ if tune.trim().is_empty() => String::new(),
            Ok(_) if many > 1 => format!("the first of {many}; another is chosen under This dance"),
            Ok(read) => match read.strains.len() {
                1 => format!("{}/{}, one strain", read.metre.0, read.metre.1),
                strains => format!("{}/{}, {strains} strains", read.metre.0, read.metre.1),
            },
            // What is wrong stands at the foot.
            Err(_) => String::new(),
        };
        // A line that keeps its height when there is nothing to say.
        let height = ui.text_style_height(&egui::TextStyle::Small);
        ui.allocate_ui(egui::vec2(320.0, height), |ui| {
            ui.set_min_size(egui::vec2(320.0, height));
            if !said.is_empty() {
                ui.add(egui::Label::new(RichText::new(said).small().weak()).truncate());
            }
        });
    });
}
