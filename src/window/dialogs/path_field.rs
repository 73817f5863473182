use super::files::{Answer, ChosenFile, SystemDialog};
use crate::desk::{Ask, SAMPLES};
use crate::window::{
    dialogs::After,
    fields::{Ending, PathText, ending, line},
    paint::choose_text,
};
use egui::Ui;
use std::ffi::OsStr;
use std::path::{Path, PathBuf};

/// What a file is wanted for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Purpose {
    /// To open it.
    Open,
    /// To save the dance to it.
    SaveAs,
    /// To draw a still to it.
    Still,
    /// To write a handout to it, whose name can have these endings, the first one usually.
    Handout(&'static [&'static str]),
    /// To compare the dance with it.
    Compare,
}

/// A field to type a path in.
pub struct PathField {
    /// What for.
    pub purpose: Purpose,
    /// What is typed.
    pub typed: PathText,
    /// What to go on with after a save.
    pub then: Option<After>,
    /// Why what was typed could not be done.
    pub wrong: Option<String>,
    /// The file that is already there, once that has been said.
    replaces: Option<PathBuf>,
    system: Option<SystemDialog>,
    asked: bool,
    focused: bool,
}

impl Purpose {
    /// Whether the file is only read.
    #[must_use]
    pub fn reads(self) -> bool {
        matches!(self, Self::Open | Self::Compare)
    }

    /// A path as it is used for this: with the ending that such files have, where it has none of them.
    #[must_use]
    pub fn whole_path(self, path: &Path) -> PathBuf {
        let (endings, usual): (&[&str], &str) = match self {
            Self::Open | Self::Compare => return path.to_owned(),
            Self::SaveAs => (&["json"], "dance.json"),
            Self::Still => (&["png", "svg"], "png"),
            Self::Handout(endings) => (endings, endings.first().copied().unwrap_or_default()),
        };
        let name = path.as_os_str();
        if endings.iter().any(|ending| ends_with(name, ending)) {
            return path.to_owned();
        }
        let mut whole = name.to_owned();
        whole.push(".");
        whole.push(usual);
        whole.into()
    }
}

impl PathField {
    /// A field that suggests a path.
    #[must_use]
    pub fn new(purpose: Purpose, path: &Path, then: Option<After>) -> Self {
        let typed = PathText::of(path);
        Self { purpose, typed, then, wrong: None, replaces: None, system: None, asked: false, focused: false }
    }

    /// The field again, after what was typed in it could not be done: with its text and why, and without the desktop's
    /// own dialog.
    #[must_use]
    pub fn again(self, said: String) -> Self {
        Self { wrong: Some(said), system: None, asked: true, focused: false, ..self }
    }
}

/// Whether a name ends with a dot and an ending, in any case.
fn ends_with(name: &OsStr, ending: &str) -> bool {
    let name = name.as_encoded_bytes();
    let (Some(dot), Some(end)) =
        (name.len().checked_sub(ending.len() + 1), name.len().checked_sub(ending.len()))
    else {
        return false;
    };
    name.get(dot) == Some(&b'.')
        && name.get(end..).is_some_and(|end| end.eq_ignore_ascii_case(ending.as_bytes()))
}

/// Shows the field, and gives the file once one is chosen: `native` is whether the desktop's own dialog is asked as well,
/// `kept` whether unsaved work is kept meanwhile.
pub fn show_path(
    ui: &mut Ui,
    field: &mut PathField,
    (native, kept): (bool, bool),
    (recent, own): (&[PathBuf], Option<&Path>),
    asks: &mut Vec<Ask>,
) -> Option<ChosenFile> {
    if native && !field.asked {
        field.asked = true;
        field.system = Some(SystemDialog::ask(field.purpose, &field.typed.path(), ui.ctx()));
    }
    if let Some(answer) = field.system.as_ref().and_then(SystemDialog::answer) {
        field.system = None;
        match answer {
            Answer::Chosen(file) => {
                // The desktop's dialog has asked about the file that was chosen; with an ending put to it, or where
                // the name that was proposed could not be told to it as it is, it is another file, which has to be
                // asked about here.
                let proposed = field.typed.path();
                let is_proposed = file.path.as_os_str() == OsStr::new(&*proposed.to_string_lossy());
                let chosen = if is_proposed { proposed } else { file.path.clone() };
                let whole = field.purpose.whole_path(&chosen);
                if whole == file.path || own == Some(whole.as_path()) || !whole.exists() {
                    return Some(ChosenFile { path: whole });
                }
                field.typed = PathText::of(&chosen);
                field.replaces = Some(whole);
            }
            Answer::PutAway => asks.push(Ask::PutAway),
            Answer::NoDialog => {}
        }
    }
    let (heading, verb) = match field.purpose {
        Purpose::Open => ("Open a dance", "Open"),
        Purpose::SaveAs => ("Save the dance", "Save"),
        Purpose::Still => ("Save a still", "Save"),
        Purpose::Handout(_) => ("Save the handout", "Save"),
        Purpose::Compare => ("Compare with another version", "Compare"),
    };
    ui.heading(heading);
    ui.add_space(6.0);
    if field.system.is_some() {
        ui.weak("The desktop's own dialog may open as well. A path typed here does the same.");
    } else {
        let endings = |endings: &[&str]| {
            endings.iter().map(|ending| format!(".{ending}")).collect::<Vec<_>>().join(" or ")
        };
        ui.weak(match field.purpose {
            Purpose::Open => "The path of a dance file, *.dance.json".to_owned(),
            Purpose::Compare => "The path of the other version, *.dance.json".to_owned(),
            Purpose::SaveAs => "The path to save to, *.dance.json".to_owned(),
            Purpose::Still => "The path of the picture, .png or .svg".to_owned(),
            Purpose::Handout(known) => format!("The path of the handout, {}", endings(known)),
        });
    }
    ui.add_space(4.0);
    let label = ui.label("Path");
    let edit = ui.add(line(&mut field.typed.text).desired_width(f32::INFINITY)).labelled_by(label.id);
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
    let mut chosen = None;
    if let Some(said) = &field.wrong {
        ui.add_space(6.0);
        ui.colored_label(ui.visuals().error_fg_color, said);
        if field.purpose == Purpose::SaveAs && kept {
            ui.weak("Your work stays on the desk, and is kept in case the program ends.");
        }
    }
    if field.purpose.reads() {
        show_known(ui, field.purpose, (recent, own), &mut chosen, asks);
    }
    if field.replaces.as_ref().is_some_and(|path| *path == field.purpose.whole_path(&field.typed.path())) {
        ui.add_space(6.0);
        let ink = ui.visuals().warn_fg_color;
        ui.colored_label(ink, "There is a file there already. Replace it, or type another name.");
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let path = field.purpose.whole_path(&field.typed.path());
        let ready = !field.typed.is_blank();
        let warned = field.replaces.as_ref() == Some(&path);
        let verb = if warned { "Replace it" } else { verb };
        if (ui.add_enabled(ready, egui::Button::new(verb)).clicked() || entered) && ready {
            if field.purpose.reads() || warned || own == Some(path.as_path()) || !path.exists() {
                chosen = Some(ChosenFile { path });
            } else {
                field.replaces = Some(path);
                field.focused = false;
            }
        }
        if ui.button("Cancel").clicked() {
            asks.push(Ask::PutAway);
        }
    });
    chosen
}

/// The dances that are known already, to choose one: the samples to open, and the files opened before.
fn show_known(
    ui: &mut Ui,
    purpose: Purpose,
    (recent, own): (&[PathBuf], Option<&Path>),
    chosen: &mut Option<ChosenFile>,
    asks: &mut Vec<Ask>,
) {
    // A dance is not compared with its own file as it stands.
    let others = || recent.iter().filter(|path| purpose == Purpose::Open || own != Some(path));
    if purpose == Purpose::Open {
        ui.add_space(8.0);
        ui.weak("Sample dances");
        for (index, (name, _)) in SAMPLES.iter().enumerate() {
            if ui.link(*name).clicked() {
                asks.push(Ask::PutAway);
                asks.push(Ask::OpenSample(index));
            }
        }
    }
    if others().next().is_some() {
        ui.add_space(8.0);
        ui.weak("Opened before");
        for path in others().take(8) {
            let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
            if ui.link(name).on_hover_text(path.display().to_string()).clicked() {
                *chosen = Some(ChosenFile { path: path.clone() });
            }
        }
    }
}
