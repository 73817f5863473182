use super::{
    ask::Ask,
    desk::{Desk, SAMPLES},
    fault_dialogs::{show_limits, show_mean},
    figure_dialogs::{FigureField, show_figure_field},
    files::{Answer, ChosenFile, SystemDialog},
    handout_dialog::{self, HandoutDialog},
    handout_writing::HandoutWriting,
    keep_dialogs::{self, KeepDialog},
};
use crate::dance::{Dance, Entry, Figure, Set, SetKind, check_rules, limits};
use crate::figures::{self, motion_of, named_figure};
use crate::words::CAUTIONS;
use egui::{Align, Key, Layout, Modal, RichText, Ui};
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
    /// Why the side means a fault: its place in the list, what it says, and what is typed.
    Mean(usize, String, String),
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

/// A field to type a path in.
pub struct PathField {
    /// What for.
    pub purpose: Purpose,
    /// What is typed.
    pub text: String,
    /// What to go on with after a save.
    pub then: Option<After>,
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
    pub fn whole_path(self, typed: &str) -> PathBuf {
        let lower = typed.to_lowercase();
        let (endings, usual): (&[&str], &str) = match self {
            Self::Open | Self::Compare => return PathBuf::from(typed),
            Self::SaveAs => (&[".json"], ".dance.json"),
            Self::Still => (&[".png", ".svg"], ".png"),
            Self::Handout(endings) => {
                let ends = |ending: &&str| lower.strip_suffix(ending).is_some_and(|rest| rest.ends_with('.'));
                let usual = endings.first().copied().unwrap_or_default();
                let has_one = endings.iter().any(ends);
                return PathBuf::from(if has_one { typed.to_owned() } else { format!("{typed}.{usual}") });
            }
        };
        if endings.iter().any(|ending| lower.ends_with(ending)) {
            PathBuf::from(typed)
        } else {
            PathBuf::from(format!("{typed}{usual}"))
        }
    }
}

impl PathField {
    /// A field that suggests a path.
    #[must_use]
    pub fn new(purpose: Purpose, text: String, then: Option<After>) -> Self {
        Self { purpose, text, then, replaces: None, system: None, asked: false, focused: false }
    }
}

/// What to choose for a new dance.
#[derive(Clone, Debug)]
pub struct NewDance {
    title: String,
    kind: SetKind,
    dancers: u32,
    across: f64,
    along: f64,
    figures: Vec<(String, bool)>,
}

impl Default for NewDance {
    fn default() -> Self {
        Self {
            title: String::new(),
            kind: SetKind::Longways,
            dancers: 6,
            across: Set::DEFAULT_ACROSS,
            along: Set::DEFAULT_ALONG,
            figures: figures::all().map(|figure| (figure.name.to_owned(), false)).to_vec(),
        }
    }
}

impl NewDance {
    /// The dance with one figure to draw in.
    #[must_use]
    pub fn empty(&self) -> Dance {
        let set = Set { kind: self.kind, ..Set::longways(self.dancers, self.across, self.along) };
        let mut dance = Dance::new("New dance", set);
        dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
        dance.order.push(Entry::of("figure-1"));
        dance
    }

    /// The dance as chosen.
    ///
    /// # Errors
    /// When the set cannot dance a figure chosen, or its numbers cannot be.
    pub fn make(&self) -> Result<Dance, String> {
        let mut dance = self.empty();
        if !self.title.trim().is_empty() {
            self.title.trim().clone_into(&mut dance.title);
        }
        let chosen: Vec<&str> =
            self.figures.iter().filter(|(_, chosen)| *chosen).map(|(name, _)| name.as_str()).collect();
        if !chosen.is_empty() {
            dance.figures.clear();
            dance.order.clear();
            for name in chosen {
                let figure = named_figure(name, crate::dance::Extra::new(), &dance.set)
                    .map_err(|error| error.to_string())?;
                dance.order.push(Entry::of(&figure.id));
                dance.figures.push(figure);
            }
        }
        check_rules(&dance).map_err(|error| error.message)?;
        motion_of(&dance, None).map_err(|error| error.message)?;
        Ok(dance)
    }
}

/// Shows the dialog that is open, and gives a file if one was chosen.
pub fn show(ui: &Ui, desk: &mut Desk, native: bool, asks: &mut Vec<Ask>) -> Option<ChosenFile> {
    let limits = desk.dance().limits.clone();
    let dance = std::sync::Arc::clone(&desk.dance);
    let (recent, own) = (desk.recent.files.clone(), desk.path().map(Path::to_owned));
    let kept = desk.unsaved() && desk.work_is_kept();
    let mut chosen = None;
    if let Some(Dialog::Handout(mut dialog)) =
        desk.dialog.take_if(|dialog| matches!(dialog, Dialog::Handout(_)))
    {
        // It reads the desk while it is shown.
        handout_dialog::show_alone(ui, desk, &mut dialog, asks);
        desk.dialog = Some(Dialog::Handout(dialog));
        return None;
    }
    if let Some(Dialog::Writing(writing)) = &mut desk.dialog {
        match writing.go_on(ui.ctx()) {
            Some(Ok(said)) => (desk.dialog, desk.notice) = (None, Some(said)),
            Some(Err(said)) => desk.dialog = Some(Dialog::Trouble(said)),
            // What is done in a blink is not worth a dialog.
            None if !writing.is_long() => {
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
                Dialog::Path(field) => chosen = show_path(ui, field, native, (&recent, own.as_deref()), asks),
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
                Dialog::Mean(index, said, reason) => show_mean(ui, *index, said, reason, asks),
                Dialog::Limits => show_limits(ui, &limits, asks),
                Dialog::Figure(field) => show_figure_field(ui, field, &dance, asks),
                Dialog::Keep(dialog) => keep_dialogs::show(ui, dialog, asks),
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

fn show_path(
    ui: &mut Ui,
    field: &mut PathField,
    native: bool,
    (recent, own): (&[PathBuf], Option<&Path>),
    asks: &mut Vec<Ask>,
) -> Option<ChosenFile> {
    if native && !field.asked {
        field.asked = true;
        field.system = Some(SystemDialog::ask(field.purpose, &field.text, ui.ctx()));
    }
    if let Some(answer) = field.system.as_ref().and_then(SystemDialog::answer) {
        field.system = None;
        match answer {
            Answer::Chosen(file) => {
                // The desktop's dialog has asked about the file that was chosen; with an ending put to it, it is
                // another file, which has to be asked about here.
                let chosen = file.path.display().to_string();
                let whole = field.purpose.whole_path(&chosen);
                if whole == file.path || !whole.exists() {
                    return Some(ChosenFile { path: whole });
                }
                field.text = chosen;
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
    let edit = ui
        .add(egui::TextEdit::singleline(&mut field.text).desired_width(f32::INFINITY))
        .labelled_by(label.id);
    if !field.focused {
        field.focused = true;
        edit.request_focus();
        // All of it is chosen, so that typing takes its place.
        let mut state = egui::TextEdit::load_state(ui.ctx(), edit.id).unwrap_or_default();
        let all = egui::text::CCursorRange::two(
            egui::text::CCursor::new(0),
            egui::text::CCursor::new(field.text.chars().count()),
        );
        state.cursor.set_char_range(Some(all));
        state.store(ui.ctx(), edit.id);
    }
    let entered = edit.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let mut chosen = None;
    if field.purpose.reads() {
        show_known(ui, field.purpose, (recent, own), &mut chosen, asks);
    }
    if field.replaces.as_ref().is_some_and(|path| *path == field.purpose.whole_path(field.text.trim())) {
        ui.add_space(6.0);
        let ink = ui.visuals().warn_fg_color;
        ui.colored_label(ink, "There is a file there already. Replace it, or type another name.");
    }
    ui.add_space(10.0);
    ui.horizontal(|ui| {
        let path = field.purpose.whole_path(field.text.trim());
        let ready = !field.text.trim().is_empty();
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

fn show_new(ui: &mut Ui, new: &mut NewDance, asks: &mut Vec<Ask>) {
    ui.heading("New dance");
    ui.add_space(6.0);
    egui::Grid::new("new dance").num_columns(2).spacing([12.0, 8.0]).show(ui, |ui| {
        let label = ui.label("Title");
        ui.add(egui::TextEdit::singleline(&mut new.title).hint_text("New dance")).labelled_by(label.id);
        ui.end_row();
        ui.label("Set");
        ui.horizontal(|ui| {
            ui.selectable_value(&mut new.kind, SetKind::Longways, "two files");
            ui.selectable_value(&mut new.kind, SetKind::Ring, "a ring");
        });
        ui.end_row();
        let label = ui.label("Dancers");
        if new.kind == SetKind::Longways {
            ui.horizontal(|ui| {
                for number in Set::USUAL_SIZES {
                    ui.selectable_value(&mut new.dancers, number, number.to_string());
                }
            });
        } else {
            ui.add(egui::DragValue::new(&mut new.dancers).range(1..=limits::MOST_DANCERS).speed(0.1))
                .labelled_by(label.id);
        }
        ui.end_row();
        if new.kind == SetKind::Longways {
            for (name, metres) in
                [("Across the files", &mut new.across), ("From rank to rank", &mut new.along)]
            {
                let label = ui.label(name);
                ui.add(egui::DragValue::new(metres).range(0.5..=20.0).speed(0.05).suffix(" m"))
                    .labelled_by(label.id);
                ui.end_row();
            }
        }
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
    ui.add_space(10.0);
    match new.make() {
        Ok(dance) => {
            ui.horizontal(|ui| {
                if ui.button(RichText::new("Make it").strong()).clicked() {
                    asks.push(Ask::PutAway);
                    asks.push(Ask::PutNew(Box::new(dance)));
                }
                if ui.button("Cancel").clicked() {
                    asks.push(Ask::PutAway);
                }
            });
        }
        Err(said) => {
            ui.colored_label(ui.visuals().error_fg_color, said);
            if ui.button("Cancel").clicked() {
                asks.push(Ask::PutAway);
            }
        }
    }
}

/// Every key, for the help and for the tests.
pub const KEYS: [(&str, &str); 28] = [
    ("Space", "play and stop"),
    ("Left, Right", "back or on a count; with Shift a bar"),
    ("Home, End", "to the start, to the end"),
    ("1 to 9", "choose a dancer; two quickly for 10 and on"),
    ("L", "loop on or off"),
    ("[ and ]", "loop from this bar, loop to this bar"),
    ("- and =", "slower, faster"),
    ("Ctrl++, Ctrl+-, Ctrl+0", "larger text, smaller, as the desktop has it"),
    ("Shift and 1 to 9", "pick another dancer as well; Ctrl+A picks everyone"),
    ("M", "who follows when you draw: nobody, mates, everyone"),
    ("Ctrl and arrows", "nudge those picked 5 cm; with Shift 1 cm"),
    ("T", "paths on or off"),
    ("B", "where they are at the strong beats, on or off"),
    ("V", "music at the top, at the bottom, or the dancer's own facing"),
    ("F", "fit the floor in the window"),
    ("Ctrl+Z, Ctrl+Shift+Z", "undo, redo"),
    ("Ctrl+N, Ctrl+O", "new dance, open"),
    ("Ctrl+S, Ctrl+Shift+S", "save, save as"),
    ("Ctrl+E", "still"),
    ("Ctrl+P", "handout: sheets, the notebook, a page for a phone, a moving picture"),
    ("Ctrl+Q", "close the window"),
    ("Enter", "do what is proposed, or press the button that has the focus"),
    ("Up, Down", "from line to line of the running order"),
    ("Alt+Up, Alt+Down", "move the line that has the focus"),
    ("F2, Menu", "rename its figure, what else can be done"),
    ("Delete", "take away the point under the pointer, or the line that has the focus"),
    ("Escape", "let go of a drag, or put a dialog away"),
    ("F1", "this help"),
];

fn show_help(ui: &mut Ui, asks: &mut Vec<Ask>) {
    ui.heading("Keys and mouse");
    ui.add_space(6.0);
    let height = (ui.ctx().content_rect().height() - 130.0).max(120.0);
    egui::ScrollArea::vertical().max_height(height).show(ui, |ui| {
        egui::Grid::new("keys").num_columns(2).spacing([18.0, 4.0]).show(ui, |ui| {
            for (key, meaning) in KEYS {
                ui.strong(key);
                ui.label(meaning);
                ui.end_row();
            }
        });
        ui.add_space(8.0);
        ui.label(
            "Drag a dancer to put them where you want them at this count; their path bends to go there. Drag a \
             diamond to move that point of the path. Drag the small ring in front of the chosen dancer to turn \
             them. Drag along the bars to go through the dance. Drag a frame on bare \
             floor to pick those inside it; what you draw then is drawn for all of them. Wheel or pinch zooms the \
             floor; the middle or right button moves it. A drag catches on spots, lines, shoulders and paths; Alt \
             lets it go free.",
        );
        ui.add_space(8.0);
        ui.strong("Before you dance it");
        ui.label(CAUTIONS);
    });
    ui.add_space(10.0);
    if ui.button("Close").clicked() {
        asks.push(Ask::PutAway);
    }
}
