use crate::desk::Purpose;
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, TryRecvError, channel};
use std::time::{Duration, Instant};

/// What the desktop's own file dialog answered.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Answer {
    /// A file.
    Chosen(PathBuf),
    /// Nothing, after a while: somebody put the dialog away.
    PutAway,
    /// Nothing, at once: there is no such dialog here.
    NoDialog,
}

/// The desktop's own file dialog, on a thread of its own, since it can hang where a portal is installed but does
/// not start.
pub struct SystemDialog {
    answers: Receiver<Option<PathBuf>>,
    asked: Instant,
}

/// Nobody puts a dialog away as fast as this.
const AT_ONCE: Duration = Duration::from_millis(600);

impl SystemDialog {
    /// Asks for a file; the window is woken when there is an answer.
    #[must_use]
    pub fn ask(purpose: Purpose, suggestion: &Path, ctx: &egui::Context) -> Self {
        let (sender, answers) = channel();
        let (suggestion, ctx) = (suggestion.to_owned(), ctx.clone());
        // A thread that cannot be started is a dialog that is not there.
        let _ = std::thread::Builder::new().name("file dialog".to_owned()).spawn(move || {
            let answer = choose(purpose, &suggestion);
            // A window that has gone does not need the answer.
            let _ = sender.send(answer);
            ctx.request_repaint();
        });
        Self { answers, asked: Instant::now() }
    }

    /// The answer, once there is one.
    pub fn answer(&self) -> Option<Answer> {
        let nothing = || if self.asked.elapsed() < AT_ONCE { Answer::NoDialog } else { Answer::PutAway };
        match self.answers.try_recv() {
            Ok(Some(path)) => Some(Answer::Chosen(path)),
            Ok(None) => Some(nothing()),
            Err(TryRecvError::Disconnected) => Some(Answer::NoDialog),
            Err(TryRecvError::Empty) => None,
        }
    }
}

fn choose(purpose: Purpose, suggestion: &Path) -> Option<PathBuf> {
    let dialog = rfd::FileDialog::new();
    let dialog = match suggestion.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        Some(folder) => dialog.set_directory(folder),
        None => dialog,
    };
    let name = suggestion.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    match purpose {
        Purpose::Open => {
            dialog.set_title("Open a dance").add_filter("Dances", &["dance.json", "json"]).pick_file()
        }
        Purpose::Compare => dialog
            .set_title("Compare with another version")
            .add_filter("Dances", &["dance.json", "json"])
            .pick_file(),
        Purpose::Tune => dialog
            .set_title("A tune from a file")
            .add_filter("Tunes in ABC notation", &["abc", "txt"])
            .pick_file(),
        Purpose::Photo => dialog
            .set_title("A photograph under the floor")
            .add_filter("Pictures", &["png", "jpg", "jpeg", "webp"])
            .pick_file(),
        Purpose::SaveAs => dialog
            .set_title("Save the dance")
            .add_filter("Dances", &["dance.json", "json"])
            .set_file_name(name)
            .save_file(),
        Purpose::Handout(endings) => dialog
            .set_title("Save the handout")
            .add_filter("Handouts", endings)
            .set_file_name(name)
            .save_file(),
        Purpose::Still => dialog
            .set_title("Save the still")
            .add_filter("Pictures", &["png", "svg"])
            .set_file_name(name)
            .save_file(),
    }
}
