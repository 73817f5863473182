use super::shape::{foot, row};
use crate::desk::{Ask, KeepAsk, Meanwhile, RecoveredWork, ViewAsk, file_words, when_words};
use crate::store::{Backup, FileSince};
use egui::{Align, Button, Layout, RichText, Ui};
use std::path::Path;

/// What someone else did to the file before it was saved here: `focused` is whether a button has been given the focus.
pub fn show_meanwhile(ui: &mut Ui, meanwhile: &Meanwhile, focused: &mut bool, asks: &mut Vec<Ask>) {
    let name = file_words(&meanwhile.path);
    ui.heading(if meanwhile.gone { "The file is gone" } else { "The file was changed meanwhile" });
    ui.add_space(6.0);
    if meanwhile.gone {
        ui.label(format!("{name} was removed, renamed or moved since it was opened or last saved here."));
    } else {
        ui.label(format!(
            "Another program, window or person has saved {name} since it was opened or last saved here."
        ));
        ui.add_space(4.0);
        for said in &meanwhile.said {
            ui.weak(format!("• {said}"));
        }
    }
    ui.add_space(4.0);
    ui.weak(RichText::new(folder_words(&meanwhile.path)).small());
    let mut ask = |asked: bool, ask: KeepAsk| {
        if asked {
            asks.push(Ask::Keep(ask));
        }
    };
    let (mut first, mut back) = (None, None);
    foot(ui, |ui| {
        let (over, hint) = if meanwhile.gone {
            ("Save it there again", "Nothing is lost by it")
        } else {
            ("Save over it", "What they saved is kept among the earlier saves")
        };
        let button = ui.button(over).on_hover_text(hint);
        ask(button.clicked(), KeepAsk::SaveOver);
        first = meanwhile.gone.then_some(button);
        ask(ui.button("Save as…").on_hover_text("Keeps both").clicked(), KeepAsk::SaveElsewhere);
        if meanwhile.readable {
            let hint = "Your work is kept among the earlier saves, and undo has it";
            ask(ui.button("Open theirs").on_hover_text(hint).clicked(), KeepAsk::OpenTheirs);
        }
        ui.with_layout(Layout::right_to_left(Align::Max), |ui| back = Some(ui.button("Go back")));
    });
    if back.as_ref().is_some_and(egui::Response::clicked) {
        asks.push(Ask::View(ViewAsk::PutAway));
    }
    if !std::mem::replace(focused, true)
        && let Some(button) = first.or(back)
    {
        button.request_focus();
    }
}

/// Work of windows that are gone: `asking` is the one that may be deleted, once that is asked, `focused` whether a button
/// has been given the focus.
pub fn show_recovered(
    ui: &mut Ui,
    works: &[RecoveredWork],
    asking: &mut Option<usize>,
    focused: &mut bool,
    asks: &mut Vec<Ask>,
) {
    ui.heading("Work that was not saved");
    ui.add_space(6.0);
    ui.label("Bellpad ended before this was saved. It was kept.");
    ui.add_space(8.0);
    ui.vertical(|ui| {
        for (index, work) in works.iter().enumerate() {
            let frame =
                egui::Frame::new().stroke(ui.visuals().window_stroke).corner_radius(8).inner_margin(10);
            frame.show(ui, |ui| {
                ui.set_width(ui.available_width());
                ui.label(RichText::new(&work.title).strong());
                ui.label(format!("kept {}", when_words(work.when)));
                ui.label(RichText::new(since_words(work)).small());
                if let Some(path) = &work.path {
                    ui.weak(RichText::new(folder_words(path)).small());
                }
                ui.add_space(4.0);
                row(ui, |ui| {
                    if *asking == Some(index) {
                        ui.label("Put it away for good?");
                        if ui.button("Yes, put it away").clicked() {
                            asks.push(Ask::Keep(KeepAsk::DiscardRecovered(index)));
                        }
                        if ui.button("No").clicked() {
                            *asking = None;
                        }
                        return;
                    }
                    let open = ui.button(RichText::new("Open it").strong());
                    if open.clicked() {
                        asks.push(Ask::Keep(KeepAsk::OpenRecovered(index)));
                    }
                    if !std::mem::replace(focused, true) {
                        open.request_focus();
                    }
                    ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                        if ui.button("Put it away…").clicked() {
                            *asking = Some(index);
                        }
                    });
                });
            });
        }
    });
    if foot(ui, |ui| ui.button("Later")).on_hover_text("It is offered again the next time").clicked() {
        asks.push(Ask::View(ViewAsk::PutAway));
    }
}

/// The earlier saves of the file.
pub fn show_earlier(ui: &mut Ui, backups: &[Backup], asks: &mut Vec<Ask>) {
    ui.heading("Earlier saves");
    ui.add_space(6.0);
    ui.label(if backups.is_empty() {
        "There is no save before this one yet. From the next save on, the one before it is kept here."
    } else {
        "Going back to one is a step that undo takes back. Nothing on the disk changes before you save."
    });
    ui.add_space(8.0);
    ui.vertical(|ui| {
        for backup in backups {
            let text = match backup.title() {
                Some(title) => format!("{} · {title}", when_words(backup.when())),
                None => format!("{} · no dance", when_words(backup.when())),
            };
            let button = Button::new(text).truncate().min_size(egui::vec2(ui.available_width(), 0.0));
            if ui.add_enabled(backup.title().is_some(), button).clicked() {
                asks.push(Ask::Keep(KeepAsk::GoBackTo(backup.clone())));
            }
        }
    });
    if foot(ui, |ui| ui.button("Close")).clicked() {
        asks.push(Ask::View(ViewAsk::PutAway));
    }
}

/// What became of the file of some work.
fn since_words(work: &RecoveredWork) -> String {
    let name = work.path.as_deref().map(file_words).unwrap_or_default();
    match work.since {
        FileSince::None => "it had no file yet".to_owned(),
        FileSince::Same => format!("of {name}, which is as it was before this work"),
        FileSince::Changed => format!("of {name}, which was changed since; saving will ask"),
        FileSince::Gone => format!("of {name}, which is no longer there"),
    }
}

fn folder_words(path: &Path) -> String {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    folder.map_or_else(String::new, |folder| format!("in {}", folder.display()))
}
