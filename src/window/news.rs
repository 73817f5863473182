use super::theme::colour;
use crate::desk::{Ask, Desk, FileAsk, KeepAsk, Outside};
use egui::{Align, Frame, Layout, Panel, Ui};

/// A quiet line under the top bar: the file was changed by someone else, or work cannot be kept.
pub fn show(ui: &mut Ui, desk: &Desk, asks: &mut Vec<Ask>) {
    let name = desk.file_name();
    let (said, choices): (String, &[(&str, &str, Ask)]) = match (desk.keep_line(), desk.outside()) {
        (Some(line), _) => (
            line.to_owned(),
            &[
                ("Save as…", "Keep the work in a file", Ask::File(FileAsk::AskSaveAs)),
                ("Put away", "It has been read", Ask::Keep(KeepAsk::PutLineAway)),
            ],
        ),
        (None, Some(Outside::Changed(_))) => (
            format!("{name} was changed by another program since it was opened or saved here."),
            &[
                (
                    "Reload",
                    "Have it as it is on the disk; undo has the work here",
                    Ask::Keep(KeepAsk::OpenTheirs),
                ),
                ("Leave it", "Go on with what is on the desk", Ask::Keep(KeepAsk::LeaveTheirs)),
            ],
        ),
        (None, Some(Outside::Gone)) => (
            format!("{name} is no longer where it was."),
            &[
                ("Save as…", "Save to another file", Ask::File(FileAsk::AskSaveAs)),
                ("Leave it", "Go on with what is on the desk", Ask::Keep(KeepAsk::LeaveTheirs)),
            ],
        ),
        (None, None) => return,
    };
    let frame = Frame::new().fill(colour(desk.ink().raised)).inner_margin(egui::Margin::symmetric(10, 4));
    Panel::top("news").frame(frame).show(ui, |ui| {
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            for (words, hint, ask) in choices.iter().rev() {
                if ui.button(*words).on_hover_text(*hint).clicked() {
                    asks.push(ask.clone());
                }
            }
            ui.with_layout(Layout::left_to_right(Align::Center), |ui| {
                ui.add(egui::Label::new(&said).wrap());
            });
        });
    });
}
