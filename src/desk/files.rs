use super::{
    ask::Ask,
    desk::{Desk, SAMPLES},
};
use crate::dance::{Dance, read};
use crate::figures::figure_name_at;
use crate::handout::{HandoutChoice, HandoutKind};
use crate::motion::Moment;
use crate::picture::{Picture, PictureKind, StillChoice, still};
use crate::store::{self, Stamp};
use crate::window::{
    After, ChosenFile, Dialog, HandoutDialog, HandoutOf, HandoutWriting, NewDance, PathField, PathText,
    Purpose, meant_file,
};
use std::path::{Path, PathBuf};

/// Opening, saving and stills: the part of the desk that touches the disk.
impl Desk {
    /// Takes what is asked for about files.
    pub(super) fn take_file_ask(&mut self, ask: Ask) {
        match ask {
            Ask::AskNew => self.dialog = Some(Dialog::New(NewDance::default())),
            Ask::AskOpen => self.unless_unsaved(After::AskOpen),
            Ask::Open(path) => self.unless_unsaved(After::Open(path)),
            Ask::OpenSample(index) => self.unless_unsaved(After::OpenSample(index)),
            Ask::PutNew(dance) => self.unless_unsaved(After::PutNew(dance)),
            Ask::Save => match self.path.clone() {
                Some(path) => self.save_to(&path, None),
                None => self.ask_path(Purpose::SaveAs, None),
            },
            Ask::AskSaveAs => self.ask_path(Purpose::SaveAs, None),
            Ask::SaveTo(path) => self.save_to(&path, None),
            Ask::AskStill => {
                self.end_drag();
                self.player.playing = false;
                self.ask_path(Purpose::Still, None);
            }
            Ask::AskHandout => {
                self.end_drag();
                self.player.playing = false;
                self.dialog = Some(Dialog::Handout(HandoutDialog::default()));
            }
            Ask::ChooseHandout(choice) => self.keep.remember(|settings| settings.handout = choice),
            Ask::AskHandoutPath => {
                self.ask_path(Purpose::Handout(self.handout().endings()), None);
            }
            Ask::StillTo(path) => {
                let done = self.write_still(&path);
                self.tell_trouble(done);
            }
            Ask::GoOnUnsaved => {
                if let Some(Dialog::Unsaved(after)) = self.dialog.take() {
                    self.go_on(after);
                }
            }
            Ask::SaveAndGoOn => {
                if let Some(Dialog::Unsaved(after)) = self.dialog.take() {
                    match self.path.clone() {
                        Some(path) => self.save_to(&path, Some(after)),
                        None => self.ask_path(Purpose::SaveAs, Some(after)),
                    }
                }
            }
            Ask::Close => self.unless_unsaved(After::Close),
            Ask::Keep(ask) => self.take_keep_ask(ask),
            Ask::AskCompare => self.ask_path(Purpose::Compare, None),
            other => self.take_compare_ask(other),
        }
    }

    /// Does something that puts this dance away, or asks first if there is work that no file has.
    pub(super) fn unless_unsaved(&mut self, after: After) {
        self.end_drag();
        if self.unsaved() {
            self.player.playing = false;
            self.dialog = Some(Dialog::Unsaved(after));
        } else {
            self.go_on(after);
        }
    }

    pub(super) fn go_on(&mut self, after: After) {
        match after {
            After::AskOpen => self.ask_path(Purpose::Open, None),
            After::Open(path) => {
                let done = self.open(&path);
                self.tell_trouble(done);
            }
            After::OpenLeft(index) => self.open_left(index),
            After::OpenSample(index) => {
                let sample = SAMPLES.get(index).and_then(|(_, text)| read(text.as_bytes()).ok());
                if let Some(dance) = sample {
                    self.put_on_desk(dance, None, None);
                }
            }
            After::PutNew(dance) => {
                self.never_saved = self.put_on_desk(*dance, None, None);
            }
            After::Close => self.may_close = true,
        }
    }

    fn open(&mut self, path: &Path) -> Result<(), String> {
        let (dance, stamp) = store::open_with_stamp(path).map_err(|error| error.to_string())?;
        self.take_on_desk(dance, Some(path.to_owned()), Some(stamp))?;
        self.recent.add(path);
        Ok(())
    }

    /// Takes another dance onto the desk; the one before it stays if this one's figures cannot be worked out.
    pub(super) fn put_on_desk(&mut self, dance: Dance, path: Option<PathBuf>, stamp: Option<Stamp>) -> bool {
        let done = self.take_on_desk(dance, path, stamp);
        self.tell_trouble(done)
    }

    fn take_on_desk(
        &mut self,
        dance: Dance,
        path: Option<PathBuf>,
        stamp: Option<Stamp>,
    ) -> Result<(), String> {
        let place = path.as_ref().map_or_else(String::new, |path| format!("{}: ", path.display()));
        let made = Self::new(dance, path, self.recent.clone());
        let mut desk = made.map_err(|error| format!("{place}{error}"))?;
        (desk.ink, desk.trails, desk.beats) = (self.ink, self.trails, self.beats);
        desk.keep = std::mem::take(&mut self.keep);
        desk.keep.now_on(desk.path.as_deref(), stamp);
        desk.keep.welcome = false;
        *self = desk;
        Ok(())
    }

    /// Tells why something could not be done, where it was not; gives whether it was.
    pub(super) fn tell_trouble(&mut self, done: Result<(), String>) -> bool {
        match done {
            Ok(()) => true,
            Err(said) => {
                self.dialog = Some(Dialog::Trouble(said));
                false
            }
        }
    }

    /// The picture that a still made now would be.
    #[must_use]
    pub fn still_picture(&self) -> Picture {
        let choice = StillChoice {
            trails: self.trails,
            holding: self.dance.holding,
            ink: self.ink,
            title: self.dance.title.clone(),
            figure: figure_name_at(&self.dance, &self.motion, self.player.count),
            ..StillChoice::default()
        };
        still(&self.motion, self.player.count, &choice)
    }

    /// What was chosen for a handout.
    #[must_use]
    pub fn handout(&self) -> HandoutChoice {
        self.settings().handout
    }

    fn write_still(&mut self, path: &Path) -> Result<(), String> {
        let picture = self.still_picture();
        PictureKind::of(path)
            .and_then(|kind| kind.bytes(&picture))
            .map_err(|error| error.to_string())
            .and_then(|bytes| store::write_whole(path, &bytes).map_err(|error| error.to_string()))?;
        self.notice = Some(format!("still written to {}", path.display()));
        Ok(())
    }

    /// Shows where to choose a file. The desktop's own dialog is asked as well, by the window.
    pub(super) fn ask_path(&mut self, purpose: Purpose, then: Option<After>) {
        // A file goes beside the dance's own, or else with this user's documents.
        let folder = self.path.as_deref().and_then(Path::parent).map(Path::to_owned).or_else(|| {
            let user = directories::UserDirs::new()?;
            Some(user.document_dir().unwrap_or_else(|| user.home_dir()).to_owned())
        });
        let beside =
            |name: &str| folder.as_ref().map_or_else(|| PathBuf::from(name), |folder| folder.join(name));
        let path = match purpose {
            Purpose::Open | Purpose::Compare => PathBuf::new(),
            Purpose::SaveAs => self
                .path
                .clone()
                .unwrap_or_else(|| beside(&format!("{}.dance.json", slug(&self.dance.title)))),
            Purpose::Handout(endings) => {
                let figure = figure_name_at(&self.dance, &self.motion, self.player.count);
                let ending = endings.first().copied().unwrap_or_default();
                let what = match self.handout().kind {
                    HandoutKind::Figure => slug(&figure),
                    HandoutKind::Dance => "sheets".to_owned(),
                    HandoutKind::Dancer => format!("number-{}", self.chosen.map_or(0, |dancer| dancer + 1)),
                    HandoutKind::Notebook => "notebook".to_owned(),
                    HandoutKind::PracticePage => "practice".to_owned(),
                    HandoutKind::Moving => format!("{}-moving", slug(&figure)),
                };
                beside(&format!("{}-{what}.{ending}", slug(&self.dance.title)))
            }
            Purpose::Still => {
                let moment = Moment::at(self.player.count);
                let name =
                    format!("{}-bar-{}.png", slug(&self.dance.title), moment.to_string().replace(':', "-"));
                beside(&name)
            }
        };
        self.dialog = Some(Dialog::Path(PathField::new(purpose, &path, then)));
    }

    /// Takes the file that was chosen in the path field or the desktop's dialog. Where nothing can be done with it the
    /// field stays, with what was typed and why.
    pub fn take_file(&mut self, chosen: ChosenFile) {
        let Some(Dialog::Path(mut field)) = self.dialog.take() else { return };
        let path = chosen.path;
        // What was chosen in the desktop's dialog was not typed.
        if field.purpose.whole_path(&field.typed.path()) != path {
            field.typed = PathText::of(&path);
        }
        let done = match field.purpose {
            Purpose::Open => self.open(&path),
            Purpose::Compare => self.compare_with(&path),
            Purpose::SaveAs => {
                self.save_to(&path, field.then);
                // The field that a failed save leaves has the path as it was typed.
                if let Some(Dialog::Path(again)) = &mut self.dialog
                    && again.wrong.is_some()
                {
                    again.typed = field.typed;
                }
                return;
            }
            Purpose::Still => self.write_still(&path),
            Purpose::Handout(_) => {
                let writing = HandoutWriting::new(HandoutOf::desk(self), self.handout(), path, field);
                self.dialog = Some(Dialog::Writing(writing));
                return;
            }
        };
        if let Err(said) = done {
            let meant = if field.purpose.reads() { meant_file(&path) } else { String::new() };
            self.dialog = Some(Dialog::Path(field.again(format!("{said}{meant}"))));
        }
    }
}

/// A title as part of a file name: small letters, figures and hyphens.
fn slug(title: &str) -> String {
    let mut slug = String::new();
    for letter in title.chars().flat_map(char::to_lowercase).take(60) {
        if letter.is_alphanumeric() {
            slug.push(letter);
        } else if !slug.is_empty() && !slug.ends_with('-') {
            slug.push('-');
        }
    }
    let slug = slug.trim_end_matches('-');
    if slug.is_empty() { "dance".to_owned() } else { slug.to_owned() }
}
