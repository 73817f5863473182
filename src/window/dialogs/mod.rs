mod files;
mod handout;
mod handout_writing;
mod help;
mod meant_file;
mod new_dance;
mod of_faults;
mod of_figures;
mod of_keeping;
mod path_field;

pub use files::ChosenFile;
pub use handout::{HandoutDialog, HandoutOf};
pub use handout_writing::HandoutWriting;
pub use help::KEYS;
pub use meant_file::meant_file;
pub use new_dance::NewDance;
pub use of_faults::MeanField;
pub use of_figures::FigureField;
pub use of_keeping::{KeepDialog, LeftWork, Meanwhile};
pub use path_field::{PathField, Purpose};

use self::{
    help::show_help,
    new_dance::show_new,
    of_faults::{show_limits, show_mean},
    of_figures::show_figure_field,
    path_field::show_path,
};
use crate::dance::Dance;
use crate::desk::{Ask, Desk};
use egui::{Align, Key, Layout, Modal, RichText, Ui};
use std::path::{Path, PathBuf};

/// What waits until unsaved work has been seen to.
#[derive(Clone, Debug, PartialEq)]
pub enum After {
    /// Choosing a file to open.
    AskOpen,
    /// Opening this file.
    Open(PathBuf),
    /// Opening a dance that is part of the program.
    OpenSample(usize),
    /// Taking on work of a window that is gone, by its place in the list.
    OpenLeft(usize),
    /// Putting this new dance on the desk.
    PutNew(Box<Dance>),
    /// Closing the window.
    Close,
}

/// A dialog in the window.
pub enum Dialog {
    /// A path to type, beside the desktop's own dialog.
    Path(PathField),
    /// Work that no file has is about to be put away.
    Unsaved(After),
    /// Something could not be done.
    Trouble(String),
    /// Keys and mouse.
    Help,
    /// A new dance.
    New(NewDance),
    /// Why the side means a fault.
    Mean(MeanField),
    /// The limits of what is a fault.
    Limits,
    /// Something about keeping work.
    Keep(KeepDialog),
    /// A call, bars or notes to write.
    Figure(FigureField),
    /// What can be handed out.
    Handout(HandoutDialog),
    /// A handout that is being written.
    Writing(HandoutWriting),
}

/// Shows the dialog that is open, and gives a file if one was chosen.
pub fn show(ui: &Ui, desk: &mut Desk, native: bool, asks: &mut Vec<Ask>) -> Option<ChosenFile> {
    let limits = desk.dance().limits.clone();
    let dance = desk.dance_to_keep();
    let (recent, own) = (desk.recent.files.clone(), desk.path().map(Path::to_owned));
    let kept = desk.unsaved() && desk.work_is_kept();
    let mut chosen = None;
    if let Some(Dialog::Handout(mut dialog)) =
        desk.dialog.take_if(|dialog| matches!(dialog, Dialog::Handout(_)))
    {
        // It reads the desk while it is shown.
        handout::show_alone(ui, desk, &mut dialog, asks);
        desk.dialog = Some(Dialog::Handout(dialog));
        return None;
    }
    if let Some(Dialog::Writing(writing)) = &mut desk.dialog {
        match writing.go_on(ui.ctx()) {
            Some(Ok(said)) => (desk.dialog, desk.notice) = (None, Some(said)),
            Some(Err(said)) => {
                let field = writing.take_field();
                desk.dialog = Some(match field {
                    Some(field) => Dialog::Path(field.again(said)),
                    None => Dialog::Trouble(said),
                });
            }
            // What is done in a blink is not worth a dialog.
            None if !writing.is_to_be_shown() => {
                ui.ctx().request_repaint_after(std::time::Duration::from_millis(30));
                return None;
            }
            None => {}
        }
    }
    let Some(dialog) = &mut desk.dialog else { return None };
    let frame = egui::Frame::popup(ui.style()).inner_margin(18).corner_radius(10);
    let modal = Modal::new(egui::Id::unique("dialog")).frame(frame).show(ui.ctx(), |ui| {
        ui.set_width(match dialog {
            Dialog::Help => 560.0,
            _ => 460.0,
        });
        // With large text a dialog can be higher than the window.
        let height = (ui.ctx().content_rect().height() - 56.0).max(120.0);
        egui::ScrollArea::vertical().min_scrolled_height(height).max_height(height).show(
            ui,
            |ui| match dialog {
                Dialog::Path(field) => {
                    chosen = show_path(ui, field, (native, kept), (&recent, own.as_deref()), asks);
                }
                Dialog::Unsaved(after) => show_unsaved(ui, after, asks),
                Dialog::Trouble(said) => {
                    ui.heading("That could not be done");
                    ui.add_space(6.0);
                    ui.label(said.as_str());
                    ui.add_space(6.0);
                    ui.weak(if kept {
                        "Your work stays on the desk, and is kept in case the program ends."
                    } else {
                        "The dance on the desk is as it was."
                    });
                    ui.add_space(10.0);
                    let button = ui.button("Close");
                    button.request_focus();
                    if button.clicked() || ui.input(|input| input.key_pressed(Key::Enter)) {
                        asks.push(Ask::PutAway);
                    }
                }
                Dialog::Help => show_help(ui, asks),
                Dialog::New(new) => show_new(ui, new, asks),
                Dialog::Mean(mean) => show_mean(ui, mean, asks),
                Dialog::Limits => show_limits(ui, &limits, asks),
                Dialog::Figure(field) => show_figure_field(ui, field, &dance, asks),
                Dialog::Keep(dialog) => of_keeping::show(ui, dialog, asks),
                // Shown above.
                Dialog::Handout(_) => {}
                Dialog::Writing(writing) => writing.show(ui, asks),
            },
        );
    });
    if modal.should_close() {
        asks.push(Ask::PutAway);
    }
    chosen
}

fn show_unsaved(ui: &mut Ui, after: &After, asks: &mut Vec<Ask>) {
    ui.heading("This dance is not saved");
    ui.add_space(6.0);
    ui.label(match after {
        After::Close => "Save it before the window closes?",
        _ => "Save it before another takes its place?",
    });
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        if ui.button(RichText::new("Save").strong()).clicked() {
            asks.push(Ask::SaveAndGoOn);
        }
        if ui.button("Go back").clicked() {
            asks.push(Ask::PutAway);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if ui.button("Do not save").clicked() {
                asks.push(Ask::GoOnUnsaved);
            }
        });
    });
}
