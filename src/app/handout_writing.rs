use super::{
    ask::Ask,
    handout_dialog::HandoutOf,
    work::{Work, show_share},
};
use crate::handout::{HandoutChoice, Step};
use crate::store;
use egui::{Key, Ui};
use std::path::{Path, PathBuf};

/// A handout that is being written to its file.
pub struct HandoutWriting {
    of: HandoutOf,
    choice: HandoutChoice,
    path: PathBuf,
    work: Option<Work<String>>,
}

impl HandoutWriting {
    /// What is to be written, and where to.
    #[must_use]
    pub fn new(of: HandoutOf, choice: HandoutChoice, path: PathBuf) -> Self {
        Self { of, choice, path, work: None }
    }

    /// What came of it, when it is done: what to say of it, or why it could not be done.
    pub fn go_on(&mut self, ctx: &egui::Context) -> Option<Result<String, String>> {
        let (of, choice, path) = (&self.of, self.choice, &self.path);
        let work = self.work.get_or_insert_with(|| {
            let (of, path) = (of.clone(), path.clone());
            Work::begin(ctx, move |step| write(&of, choice, &path, step))
        });
        work.answer()
    }

    /// Shows how far it is.
    pub fn show(&self, ui: &mut Ui, asks: &mut Vec<Ask>) {
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

    /// Whether it takes so long that it should be shown.
    #[must_use]
    pub fn is_long(&self) -> bool {
        self.work.as_ref().is_some_and(Work::is_long)
    }
}

/// Makes it and writes it, nothing of it where it is stopped before it is made; says what was written.
fn write(of: &HandoutOf, choice: HandoutChoice, path: &Path, step: Step) -> Result<String, String> {
    let stopped = std::cell::Cell::new(false);
    let mut told = |done: usize, of: usize| {
        let goes_on = step(done, of);
        stopped.set(stopped.get() || !goes_on);
        goes_on
    };
    let files = of.make(choice.for_file(path), &mut told)?.files(&mut told)?;
    if stopped.get() {
        return Err("It was stopped.".to_owned());
    }
    // Whoever was asked about the first page has answered for those after it; nobody was asked about these alone.
    if !path.exists()
        && let Some(taken) =
            (2..=files.len()).map(|page| store::numbered(path, page, 1)).find(|page| page.exists())
    {
        return Err(format!("{}: there is a file there already. Choose another name.", taken.display()));
    }
    for (index, bytes) in files.iter().enumerate() {
        let each = if index == 0 { path.to_owned() } else { store::numbered(path, index + 1, 1) };
        store::write_whole(&each, bytes).map_err(|error| error.to_string())?;
    }
    Ok(match files.len() {
        1 => format!("handout written to {}", path.display()),
        many => {
            let last = store::numbered(path, many, 1);
            let last = last.file_name().unwrap_or_default().display();
            format!("handout written, {many} pages: {} to {last}", path.display())
        }
    })
}
