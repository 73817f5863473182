use super::files::{Answer, SystemDialog};
use super::{said, shape::foot};
use crate::desk::{Ask, Desk, FileAsk, PathQuestion, Purpose, SAMPLES, ViewAsk};
use crate::window::{
    fields::{Ending, PathText, ending, line},
    paint::choose_text,
};
use egui::Ui;
use std::ffi::OsStr;
use std::path::PathBuf;

/// The room for what is said of the path, points.
const SAID: f32 = 58.0;

/// A field to type a path in.
pub struct PathField {
    /// The number of the question that it is for.
    pub number: u64,
    /// What is typed.
    typed: PathText,
    /// Why what was typed could not be used, until something else is typed.
    wrong: Option<String>,
    /// The file that is already there, once that has been said.
    replaces: Option<PathBuf>,
    system: Option<SystemDialog>,
    asked: bool,
    focused: bool,
}

impl PathField {
    /// A field that suggests a path.
    #[must_use]
    pub fn new(question: &PathQuestion) -> Self {
        let PathQuestion { path, wrong, number, .. } = question;
        let (typed, wrong) = (PathText::of(path), wrong.clone());
        // What is wrong is put right here, without the desktop's own dialog.
        let asked = wrong.is_some();
        Self { number: *number, typed, wrong, replaces: None, system: None, asked, focused: false }
    }

    /// Asks for the path again, after what was typed could not be used: with its text and why, and without the desktop's
    /// own dialog.
    pub fn ask_again(&mut self, question: &PathQuestion) {
        (self.wrong, self.system) = (question.wrong.clone(), None);
        (self.asked, self.focused) = (true, false);
    }
}

/// Shows the field: `native` is whether the desktop's own dialog is asked as well, `kept` whether unsaved work is kept
/// meanwhile.
pub fn show_path(
    ui: &mut Ui,
    desk: &Desk,
    question: &PathQuestion,
    field: &mut PathField,
    (native, kept): (bool, bool),
    asks: &mut Vec<Ask>,
) {
    let (purpose, own) = (question.purpose, desk.path());
    if native && !field.asked {
        field.asked = true;
        field.system = Some(SystemDialog::ask(purpose, &field.typed.path(), ui.ctx()));
    }
    if let Some(answer) = field.system.as_ref().and_then(SystemDialog::answer) {
        field.system = None;
        match answer {
            Answer::Chosen(file) => {
                // The desktop's dialog has asked about the file that was chosen; with an ending put to it, or where
                // the name that was proposed could not be told to it as it is, it is another file, which has to be
                // asked about here.
                let proposed = field.typed.path();
                let is_proposed = file.as_os_str() == OsStr::new(&*proposed.to_string_lossy());
                let chosen = if is_proposed { proposed } else { file.clone() };
                let whole = purpose.whole_path(&chosen);
                if whole == file || own == Some(whole.as_path()) || !whole.exists() {
                    // It was not typed, but is what is put right if it cannot be used.
                    field.typed = PathText::of(&whole);
                    asks.push(Ask::File(FileAsk::Choose(whole)));
                    return;
                }
                field.typed = PathText::of(&chosen);
                field.replaces = Some(whole);
            }
            Answer::PutAway => asks.push(Ask::View(ViewAsk::PutAway)),
            Answer::NoDialog => {}
        }
    }
    let (heading, verb) = match purpose {
        Purpose::Open => ("Open a dance", "Open"),
        Purpose::SaveAs => ("Save the dance", "Save"),
        Purpose::Still => ("Save a still", "Save"),
        Purpose::Handout(_) => ("Save the handout", "Save"),
        Purpose::Compare => ("Compare with another version", "Compare"),
        Purpose::Tune => ("A tune from a file", "Read it"),
        Purpose::Photo => ("A photograph under the floor", "Lay it under"),
    };
    ui.heading(heading);
    ui.add_space(6.0);
    if field.system.is_some() {
        ui.weak("The desktop's own dialog may open as well. A path typed here does the same.");
    } else {
        let endings = |endings: &[&str]| {
            endings.iter().map(|ending| format!(".{ending}")).collect::<Vec<_>>().join(" or ")
        };
        ui.weak(match purpose {
            Purpose::Open => "The path of a dance file, *.dance.json".to_owned(),
            Purpose::Compare => "The path of the other version, *.dance.json".to_owned(),
            Purpose::Tune => "The path of a file with a tune in ABC notation, *.abc".to_owned(),
            Purpose::Photo => "The path of a picture, *.png, *.jpg or *.webp".to_owned(),
            Purpose::SaveAs => "The path to save to, *.dance.json".to_owned(),
            Purpose::Still => "The path of the picture, .png or .svg".to_owned(),
            Purpose::Handout(known) => format!("The path of the handout, {}", endings(known)),
        });
    }
    ui.add_space(4.0);
    let label = ui.label("Path");
    let edit = ui.add(line(&mut field.typed.text).desired_width(f32::INFINITY)).labelled_by(label.id);
    let edit =
        edit.on_hover_text("The whole path of the file, or from the folder that the program was started in");
    field.typed.follow();
    if edit.changed() {
        field.wrong = None;
    }
    if !std::mem::replace(&mut field.focused, true) {
        edit.request_focus();
        let length = field.typed.text.chars().count();
        // All of it is chosen, so that typing takes its place; what is wrong is gone on with.
        choose_text(ui, edit.id, if field.wrong.is_some() { length } else { 0 }, length);
    }
    let entered = ending(ui, &edit) == Some(Ending::Enter);
    // What is said of the path has its room whether anything is said or not.
    let (place, _) = ui.allocate_exact_size(egui::vec2(ui.available_width(), SAID), egui::Sense::hover());
    // A child of its own does not push what is under it down.
    let mut child = ui.new_child(egui::UiBuilder::new().max_rect(place));
    let replaces =
        field.replaces.as_ref().is_some_and(|path| *path == purpose.whole_path(&field.typed.path()));
    if let Some(said) = &field.wrong {
        egui::ScrollArea::vertical().id_salt("said of the path").max_height(SAID).show(&mut child, |ui| {
            said::show(ui, said, true);
            if purpose == Purpose::SaveAs && kept {
                ui.weak("Your work stays on the desk, and is kept in case the program ends.");
            }
        });
    } else if replaces {
        let ink = ui.visuals().warn_fg_color;
        child.colored_label(ink, "There is a file there already. Replace it, or type another name.");
    }
    if purpose.reads() && purpose != Purpose::Photo {
        show_known(ui, desk, purpose, field, asks);
    }
    foot(ui, |ui| {
        let path = purpose.whole_path(&field.typed.path());
        let ready = !field.typed.is_blank();
        let warned = field.replaces.as_ref() == Some(&path);
        let verb = if warned { "Replace it" } else { verb };
        // As wide as its longest words, so that what is beside it keeps its place.
        let button = egui::Button::new(verb).min_size(egui::vec2(96.0, 0.0));
        if (ui.add_enabled(ready, button).clicked() || entered) && ready {
            if purpose.reads() || warned || own == Some(path.as_path()) || !path.exists() {
                asks.push(Ask::File(FileAsk::Choose(path)));
            } else {
                field.replaces = Some(path);
                field.focused = false;
            }
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    });
}

/// The dances that are known already, to choose one: the samples to open, and the files opened before.
fn show_known(ui: &mut Ui, desk: &Desk, purpose: Purpose, field: &mut PathField, asks: &mut Vec<Ask>) {
    let (recent, own) = (&desk.recent().files, desk.path());
    // A dance is not compared with its own file as it stands.
    let others = || recent.iter().filter(|path| purpose == Purpose::Open || own != Some(path.as_path()));
    if purpose == Purpose::Open {
        ui.add_space(8.0);
        ui.weak("Sample dances");
        for (index, (name, _)) in SAMPLES.iter().enumerate() {
            if ui.link(*name).clicked() {
                asks.push(Ask::View(ViewAsk::PutAway));
                asks.push(Ask::File(FileAsk::OpenSample(index)));
            }
        }
    }
    if others().next().is_some() {
        ui.add_space(8.0);
        ui.weak("Opened before");
        for path in others().take(8) {
            let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            if ui.link(name).on_hover_text(path.display().to_string()).clicked() {
                field.typed = PathText::of(path);
                asks.push(Ask::File(FileAsk::Choose(path.clone())));
            }
        }
    }
}
