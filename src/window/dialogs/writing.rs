use super::shape::foot;
use crate::desk::{Ask, Desk, FileAsk, FileWriting, ViewAsk, file_words};
use crate::window::share::show_share;
use egui::{Key, RichText, Ui};
use std::path::{Path, PathBuf};

/// Shows how far the writing of a handout or a still is, or asks about what is in the way of its further pages.
pub fn show_writing(ui: &mut Ui, desk: &Desk, (path, in_the_way): (&Path, &[PathBuf]), asks: &mut Vec<Ask>) {
    if !in_the_way.is_empty() {
        show_in_the_way(ui, in_the_way, asks);
        return;
    }
    ui.heading(format!("Writing the {}", desk.writing().map_or("handout", FileWriting::word)));
    ui.add_space(6.0);
    ui.weak(path.display().to_string());
    ui.add_space(6.0);
    show_share(ui, desk.writing().and_then(FileWriting::share), "How far it is");
    let cancel = foot(ui, |ui| ui.button("Cancel"));
    cancel.request_focus();
    if cancel.clicked() || ui.input(|input| input.key_pressed(Key::Enter)) {
        asks.push(Ask::View(ViewAsk::PutAway));
    }
}

/// Whoever was asked about the first page was not asked about these.
fn show_in_the_way(ui: &mut Ui, in_the_way: &[PathBuf], asks: &mut Vec<Ask>) {
    let (heading, said) = match in_the_way {
        [_] => {
            ("A file is in the way", "It was not written as a page of this handout, or was changed since.")
        }
        _ => {
            ("Files are in the way", "They were not written as pages of this handout, or were changed since.")
        }
    };
    ui.heading(heading);
    ui.add_space(6.0);
    for file in in_the_way.iter().take(8) {
        ui.label(file_words(file)).on_hover_text(file.display().to_string());
    }
    if let more @ 1.. = in_the_way.len().saturating_sub(8) {
        ui.label(format!("and {more} more"));
    }
    ui.add_space(6.0);
    ui.weak(said);
    foot(ui, |ui| {
        let other = ui.button(RichText::new("Choose another name…").strong());
        if ui.memory(|memory| memory.focused().is_none()) {
            other.request_focus();
        }
        if other.clicked() {
            asks.push(Ask::File(FileAsk::AskHandoutPath));
        }
        if ui.button("Replace").clicked() {
            asks.push(Ask::File(FileAsk::ReplacePages));
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    });
}
