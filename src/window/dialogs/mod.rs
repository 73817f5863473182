//! What the desk asks of the user, shown over the window: fields, pictures and threads live here, and the answers are asks.

mod files;
mod handout;
mod help;
mod new_dance;
mod of_faults;
mod of_figures;
mod of_keeping;
mod path_field;
mod photo;
mod said;
mod shape;
mod step_room;
mod still;
mod taps_field;
mod this_dance;
mod tune_tab;
mod waking;
mod writing;

pub use help::KEYS;

use self::{
    handout::HandoutDialog,
    help::show_help,
    new_dance::{NewDanceFields, show_new},
    of_faults::{AllowField, show_allow, show_limits},
    of_figures::{FigureField, show_figure_field},
    of_keeping::{show_earlier, show_meanwhile, show_recovered},
    path_field::{PathField, show_path},
    photo::PhotoDialog,
    shape::foot,
    step_room::{StepRoom, show_steps},
    still::StillDialog,
    taps_field::{TapsField, show_taps},
    this_dance::{ThisDanceFields, show_this_dance},
    writing::show_writing,
};
use crate::desk::{After, Ask, Desk, FileAsk, FileWriting, Question, ViewAsk};
use crate::window::fields::go_to_wrong;
use egui::{Align, Layout, Modal, RichText, Ui};
use std::time::Duration;

/// The dialog that is open, if any: what its fields hold while the desk asks the same question.
#[derive(Default)]
pub struct Dialogs {
    /// The revision of the question that the fields are for.
    of: u64,
    fields: Fields,
    /// The field of a path: it stays while the same path is asked for again, so that what was typed does.
    path: Option<PathField>,
}

/// The fields of a dialog.
#[derive(Default)]
enum Fields {
    /// None of its own.
    #[default]
    None,
    NewDance(Box<NewDanceFields>),
    Allow(AllowField),
    Figure(FigureField),
    Taps(TapsField),
    Still(StillDialog),
    Handout(Box<HandoutDialog>),
    ThisDance(Box<ThisDanceFields>),
    Steps(Box<StepRoom>),
    Photo(PhotoDialog),
    /// Whether a button has been given the focus.
    Focused(bool),
    /// The work that may be deleted, once that is asked, and whether a button has been given the focus.
    Recovered(Option<usize>, bool),
}

impl Dialogs {
    /// Has the fields that a question needs.
    fn follow(&mut self, ui: &Ui, desk: &Desk, question: &Question) {
        if std::mem::replace(&mut self.of, desk.question_revision()) == desk.question_revision() {
            return;
        }
        // What the pointer is over is known a frame late: without another one, a tip of what lies under the dialog stays over it.
        ui.ctx().request_repaint();
        self.fields = match question {
            Question::NewDance => Fields::NewDance(Box::default()),
            Question::Allow(index, said) => Fields::Allow(AllowField::new(*index, said.clone())),
            Question::Write(written) => Fields::Figure(FigureField::new(written.clone())),
            Question::Taps(taps) => Fields::Taps(TapsField::new(taps)),
            Question::ThisDance(read) => {
                Fields::ThisDance(Box::new(ThisDanceFields::new(read.as_deref(), desk.dance())))
            }
            Question::Steps(short) => Fields::Steps(Box::new(StepRoom::new(short.as_deref(), desk.dance()))),
            Question::Still => Fields::Still(StillDialog::default()),
            Question::Handout => Fields::Handout(Box::default()),
            Question::Photo(_) => Fields::Photo(PhotoDialog::default()),
            Question::Meanwhile(_) | Question::Unsaved(_) | Question::Trouble(_) => Fields::Focused(false),
            Question::Recovered(_) => Fields::Recovered(None, false),
            Question::Path(question) => {
                match self.path.as_mut().filter(|field| field.number == question.number) {
                    Some(field) => field.ask_again(question),
                    None => self.path = Some(PathField::new(question)),
                }
                Fields::None
            }
            Question::Help | Question::Limits | Question::Earlier(_) | Question::Writing(..) => Fields::None,
        };
    }

    /// Shows the dialog for what the desk asks, if it asks something. `native` is whether the desktop's own file dialogs
    /// are asked as well.
    pub fn show(&mut self, ui: &Ui, desk: &Desk, native: bool, asks: &mut Vec<Ask>) {
        let Some(question) = desk.question() else {
            // Whatever the fields held, and did beside the window, goes with the question.
            (self.fields, self.path) = (Fields::None, None);
            return;
        };
        self.follow(ui, desk, question);
        // What is done in a blink is not worth a dialog.
        if matches!(question, Question::Writing(..))
            && !desk.writing().is_some_and(FileWriting::is_to_be_shown)
        {
            ui.ctx().request_repaint_after(Duration::from_millis(30));
            return;
        }
        let id = match question {
            Question::Handout => "handout",
            Question::Still => "still",
            _ => "dialog",
        };
        let frame = egui::Frame::popup(ui.style()).inner_margin(18).corner_radius(10);
        let modal = Modal::new(egui::Id::unique(id)).frame(frame).show(ui.ctx(), |ui| {
            shape::show(ui, question, |ui| self.show_question(ui, desk, question, native, asks));
        });
        if modal.should_close() && !go_to_wrong(ui.ctx()) {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
    }

    fn show_question(
        &mut self,
        ui: &mut Ui,
        desk: &Desk,
        question: &Question,
        native: bool,
        asks: &mut Vec<Ask>,
    ) {
        let kept = desk.unsaved() && desk.work_is_kept();
        match (question, &mut self.fields) {
            (Question::Path(question), _) => {
                if let Some(field) = &mut self.path {
                    show_path(ui, desk, question, field, (native, kept), asks);
                }
            }
            (Question::Unsaved(after), Fields::Focused(focused)) => show_unsaved(ui, after, focused, asks),
            (Question::Trouble(said), Fields::Focused(focused)) => {
                show_trouble(ui, said, kept, focused, asks);
            }
            (Question::Help, _) => show_help(ui, asks),
            (Question::NewDance, Fields::NewDance(fields)) => show_new(ui, fields, asks),
            (Question::Allow(..), Fields::Allow(field)) => show_allow(ui, field, asks),
            (Question::Limits, _) => show_limits(ui, &desk.dance().limits, asks),
            (Question::Meanwhile(meanwhile), Fields::Focused(focused)) => {
                show_meanwhile(ui, meanwhile, focused, asks);
            }
            (Question::Recovered(works), Fields::Recovered(asking, focused)) => {
                show_recovered(ui, works, asking, focused, asks);
            }
            (Question::Earlier(backups), _) => show_earlier(ui, backups, asks),
            (Question::Write(_), Fields::Figure(field)) => show_figure_field(ui, field, desk.dance(), asks),
            (Question::Taps(_), Fields::Taps(field)) => show_taps(ui, field, desk.dance(), asks),
            (Question::ThisDance(_), Fields::ThisDance(fields)) => show_this_dance(ui, desk, fields, asks),
            (Question::Steps(_), Fields::Steps(room)) => show_steps(ui, desk, room, asks),
            (Question::Still, Fields::Still(dialog)) => still::show(ui, desk, dialog, asks),
            (Question::Handout, Fields::Handout(dialog)) => handout::show(ui, desk, dialog, asks),
            (Question::Photo(index), Fields::Photo(dialog)) => photo::show(ui, desk, *index, dialog, asks),
            (Question::Writing(path, in_the_way), _) => show_writing(ui, desk, (path, in_the_way), asks),
            // The fields follow the question.
            (
                Question::NewDance
                | Question::Allow(..)
                | Question::Meanwhile(_)
                | Question::Unsaved(_)
                | Question::Trouble(_)
                | Question::Recovered(_)
                | Question::Write(_)
                | Question::Taps(_)
                | Question::ThisDance(_)
                | Question::Steps(_)
                | Question::Photo(_)
                | Question::Still
                | Question::Handout,
                _,
            ) => {}
        }
    }
}

fn show_trouble(ui: &mut Ui, said: &str, kept: bool, focused: &mut bool, asks: &mut Vec<Ask>) {
    ui.heading("That could not be done");
    ui.add_space(6.0);
    said::show(ui, said, false);
    ui.add_space(6.0);
    ui.weak(if kept {
        "Your work stays on the desk, and is kept in case the program ends."
    } else {
        "The dance on the desk is as it was."
    });
    let button = foot(ui, |ui| ui.button("Close"));
    if !std::mem::replace(focused, true) {
        button.request_focus();
    }
    if button.clicked() {
        asks.push(Ask::View(ViewAsk::PutAway));
    }
}

fn show_unsaved(ui: &mut Ui, after: &After, focused: &mut bool, asks: &mut Vec<Ask>) {
    ui.heading("This dance is not saved");
    ui.add_space(6.0);
    ui.label(match after {
        After::Close => "Save it before the window closes?",
        _ => "Save it before another takes its place?",
    });
    foot(ui, |ui| {
        let save = ui.button(RichText::new("Save").strong());
        if !std::mem::replace(focused, true) {
            save.request_focus();
        }
        if save.clicked() {
            asks.push(Ask::File(FileAsk::SaveAndGoOn));
        }
        if ui.button("Go back").clicked() {
            asks.push(Ask::View(ViewAsk::PutAway));
        }
        ui.with_layout(Layout::right_to_left(Align::Max), |ui| {
            if ui.button("Do not save").clicked() {
                asks.push(Ask::File(FileAsk::GoOnUnsaved));
            }
        });
    });
}
