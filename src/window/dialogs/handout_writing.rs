use super::{handout::HandoutOf, of_keeping::file_name, path_field::PathField};
use crate::desk::Ask;
use crate::handout::{HandoutChoice, Made, PaperFile, Step};
use crate::store::{self, Over, PageSet, PagesOf};
use crate::window::work::{Work, show_share};
use egui::{Key, RichText, Ui};
use std::path::{Path, PathBuf};

/// A handout that is being written to its file.
pub struct HandoutWriting {
    of: HandoutOf,
    choice: HandoutChoice,
    path: PathBuf,
    /// Where the path was typed, to be shown again if nothing comes of it.
    field: Option<PathField>,
    work: Option<Work<Written>>,
    /// Files that are in the way of its further pages, while it is asked about them.
    in_the_way: Vec<PathBuf>,
    /// Whether they may be written over.
    may_replace: bool,
}

/// What came of it.
enum Written {
    /// All is written; says what.
    Done(String),
    /// Nothing is: these files are not pages of an earlier handout of this name.
    InTheWay(Vec<PathBuf>),
}

impl HandoutWriting {
    /// What is to be written, and where to, as it was typed in a field.
    #[must_use]
    pub fn new(of: HandoutOf, choice: HandoutChoice, path: PathBuf, field: PathField) -> Self {
        Self { of, choice, path, field: Some(field), work: None, in_the_way: Vec::new(), may_replace: false }
    }

    /// The field in which the path was typed, once.
    pub fn take_field(&mut self) -> Option<PathField> {
        self.field.take()
    }

    /// What came of it, when it is done: what to say of it, or why it could not be done.
    pub fn go_on(&mut self, ctx: &egui::Context) -> Option<Result<String, String>> {
        if !self.in_the_way.is_empty() {
            return None;
        }
        let (of, choice, path, may_replace) = (&self.of, self.choice, &self.path, self.may_replace);
        let work = self.work.get_or_insert_with(|| {
            let (of, path) = (of.clone(), path.clone());
            Work::begin(ctx, move |step| write(&of, choice, &path, may_replace, step))
        });
        match work.answer()? {
            Ok(Written::Done(said)) => Some(Ok(said)),
            Ok(Written::InTheWay(files)) => {
                (self.in_the_way, self.work) = (files, None);
                None
            }
            Err(said) => Some(Err(said)),
        }
    }

    /// Shows how far it is, or asks about what is in the way.
    pub fn show(&mut self, ui: &mut Ui, asks: &mut Vec<Ask>) {
        if !self.in_the_way.is_empty() {
            self.show_in_the_way(ui, asks);
            return;
        }
        ui.heading("Writing the handout");
        ui.add_space(6.0);
        ui.weak(self.path.display().to_string());
        ui.add_space(6.0);
        if let Some(work) = &self.work {
            show_share(ui, work, "How far it is");
        }
        ui.add_space(10.0);
        let cancel = ui.button("Cancel");
        cancel.request_focus();
        if cancel.clicked() || ui.input(|input| input.key_pressed(Key::Enter)) {
            asks.push(Ask::PutAway);
        }
    }

    /// Whoever was asked about the first page was not asked about these.
    fn show_in_the_way(&mut self, ui: &mut Ui, asks: &mut Vec<Ask>) {
        let (heading, said) = match self.in_the_way.as_slice() {
            [_] => (
                "A file is in the way",
                "It was not written as a page of this handout, or was changed since.",
            ),
            _ => (
                "Files are in the way",
                "They were not written as pages of this handout, or were changed since.",
            ),
        };
        ui.heading(heading);
        ui.add_space(6.0);
        for file in self.in_the_way.iter().take(8) {
            ui.label(file_name(file)).on_hover_text(file.display().to_string());
        }
        if let more @ 1.. = self.in_the_way.len().saturating_sub(8) {
            ui.label(format!("and {more} more"));
        }
        ui.add_space(6.0);
        ui.weak(said);
        ui.add_space(10.0);
        ui.horizontal(|ui| {
            let other = ui.button(RichText::new("Choose another name…").strong());
            if ui.memory(|memory| memory.focused().is_none()) {
                other.request_focus();
            }
            if other.clicked() {
                asks.push(Ask::AskHandoutPath);
            }
            if ui.button("Replace").clicked() {
                (self.may_replace, self.in_the_way) = (true, Vec::new());
            }
            if ui.button("Cancel").clicked() {
                asks.push(Ask::PutAway);
            }
        });
    }

    /// Whether it takes so long that it should be shown, or something is to be asked.
    #[must_use]
    pub fn is_to_be_shown(&self) -> bool {
        !self.in_the_way.is_empty() || self.work.as_ref().is_some_and(Work::is_long)
    }
}

/// Makes it and writes it, nothing of it where it is stopped before it is made or something is in the way; says what
/// was written.
fn write(
    of: &HandoutOf,
    choice: HandoutChoice,
    path: &Path,
    may_replace: bool,
    step: Step,
) -> Result<Written, String> {
    let stopped = std::cell::Cell::new(false);
    let mut told = |done: usize, of: usize| {
        let goes_on = step(done, of);
        stopped.set(stopped.get() || !goes_on);
        goes_on
    };
    let made = of.make(choice.for_file(path), &mut told)?;
    let is_numbered = matches!(&made, Made::Pages(_, PaperFile::Png | PaperFile::Svg));
    let files = made.files(&mut told)?;
    if stopped.get() {
        return Err("It was stopped.".to_owned());
    }
    if !is_numbered {
        for bytes in &files {
            store::write_whole(path, bytes).map_err(|error| error.to_string())?;
        }
        return Ok(Written::Done(format!("handout written to {}", path.display())));
    }
    // The file that was chosen has been asked about already.
    let over = if may_replace { Over::Anything } else { Over::Chosen };
    let set = PageSet::new(PagesOf::Sheet, path, files.len()).over(over);
    let in_the_way: Vec<PathBuf> = set.in_the_way().into_iter().map(Path::to_owned).collect();
    if !in_the_way.is_empty() {
        return Ok(Written::InTheWay(in_the_way));
    }
    for (index, bytes) in files.into_iter().enumerate() {
        set.write(index, bytes).map_err(|error| error.to_string())?;
    }
    let old = set.take_old_away().map_err(|error| error.to_string())?;
    let old = match old.len() {
        0 => String::new(),
        1 => "; a page of an earlier one is taken away".to_owned(),
        many => format!("; {many} pages of an earlier one are taken away"),
    };
    Ok(Written::Done(match set.pages() {
        [_, .., last] => {
            let many = set.pages().len();
            format!("handout written, {many} pages: {} to {}{old}", path.display(), file_name(last))
        }
        _ => format!("handout written to {}{old}", path.display()),
    }))
}
