//! Desks with something on them to try asks on.

use super::lines::lines;
use bellpad::dance::{Dance, Dancer, Number, Set, read};
use bellpad::desk::{
    Ask, CompareAsk, Desk, FileAsk, KeepAsk, OrderAsk, PhotoAsk, PlayAsk, Question, SAMPLES, ViewAsk,
};
use bellpad::edits::drag_dancer;
use bellpad::figures::{motion_of, named_figure};
use bellpad::store::{self, Autosave, Home, Recent, open_with_stamp};
use serde_json::Map;
use std::path::PathBuf;
use std::time::Duration;
use tempfile::TempDir;

/// A desk, and a folder for its files.
pub struct Stage {
    pub desk: Desk,
    pub folder: TempDir,
}

/// One of the dances that come with the program.
pub fn sample(index: usize) -> Dance {
    read(SAMPLES[index].1.as_bytes()).unwrap()
}

/// Six in two files, with no figure yet.
pub fn six() -> Dance {
    Dance::new("Ours", Set::longways(6, 2.4, 1.8))
}

/// Lanterns (1 goes in to the middle and back), a hey and a crossing, the hey danced twice; a figure that is not danced.
pub fn four_lines() -> Dance {
    lines("Ours", [4.0, 12.0, 16.0], &["lanterns", "hey", "cross-over", "hey"])
}

impl Stage {
    /// A desk with a dance that has no file.
    pub fn on(dance: Dance) -> Self {
        let folder = tempfile::tempdir().unwrap();
        Self { desk: Desk::new(dance, None, Recent::default()).unwrap(), folder }
    }

    /// The dance of four lines, in the middle of what 1 draws.
    pub fn lines() -> Self {
        Self::on(four_lines()).having([seek(8.0)])
    }

    /// A hey in which two pairs meet twice.
    pub fn hey() -> Self {
        let mut dance = six();
        dance.figures.push(named_figure("hey", Map::new(), &dance.set).unwrap());
        Self::on(dance).having([Ask::Order(OrderAsk::SetChoice(0, "timing", "even".into()))])
    }

    /// The dance of four lines in a file, with a home in which versions and unsaved work are kept.
    pub fn filed() -> Self {
        let folder = tempfile::tempdir().unwrap();
        store::save(&folder.path().join(OURS), &four_lines()).unwrap();
        let mut desk = Desk::with_sample(Recent::default()).at_home(Home::at(&folder.path().join("state")));
        desk.apply(Ask::File(FileAsk::Open(folder.path().join(OURS))));
        Self { desk, folder }
    }

    /// A desk as the program opens it without a file, with a home.
    pub fn at_home() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let desk = Desk::with_sample(Recent::default()).at_home(Home::at(&folder.path().join("state")));
        Self { desk, folder }
    }

    /// The same with something to save.
    pub fn unsaved() -> Self {
        Self::filed().having([edit()])
    }

    /// The same after someone else has saved to the file, when it was to be saved here.
    pub fn meanwhile() -> Self {
        let stage = Self::unsaved();
        store::save(&stage.file(OURS), &sample(1)).unwrap();
        stage.having([Ask::File(FileAsk::Save)])
    }

    /// A desk to which work is offered of two windows that are gone.
    pub fn recovered() -> Self {
        let stage = Self::at_home();
        stage.leave_work();
        stage.leave_work();
        stage.having([Ask::Keep(KeepAsk::AskRecovered)])
    }

    /// Leaves work as a window does that ends without a save.
    pub fn leave_work(&self) {
        let path = self.file("left.dance.json");
        store::save(&path, &six()).unwrap();
        let stamp = open_with_stamp(&path).unwrap().1;
        let home = Home::at(&self.file("state"));
        Autosave::begin(&home, Some(&path), Some(&stamp)).unwrap().write(&four_lines()).unwrap();
    }

    /// A dance beside another version of it, in which 3 dances the hey elsewhere.
    pub fn compared() -> Self {
        let stage = Self::lines();
        let path = stage.version();
        stage.having([Ask::Compare(CompareAsk::With(path))])
    }

    /// The file of that version.
    pub fn version(&self) -> PathBuf {
        let dance = four_lines();
        let motion = motion_of(&dance, None).unwrap();
        let other = drag_dancer(&dance, &motion, Dancer(2), 32.0 + 6.0, -0.4, 0.3).unwrap();
        let path = self.file("last year.dance.json");
        store::save(&path, &other).unwrap();
        path
    }

    /// The same after asks.
    pub fn having(mut self, asks: impl IntoIterator<Item = Ask>) -> Self {
        for ask in asks {
            self.desk.apply(ask);
        }
        self
    }

    /// The dance of four lines in a file, with a photograph under its floor whose dialog is put away.
    pub fn photographed() -> Self {
        let stage = Self::filed();
        let picture = stage.picture();
        stage.having([seek(8.0), Ask::Photo(PhotoAsk::Lay(picture)), Ask::View(ViewAsk::PutAway)])
    }

    /// A picture beside its dance.
    pub fn picture(&self) -> PathBuf {
        let path = self.file("balcony.png");
        image::RgbaImage::from_pixel(64, 48, image::Rgba([200, 120, 40, 255])).save(&path).unwrap();
        path
    }

    /// A file of its folder.
    pub fn file(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Has it catch up until a handout is written, or something is asked about it.
    pub fn written(mut self) -> Self {
        let waits =
            |desk: &Desk| matches!(desk.question(), Some(Question::Writing(_, files)) if files.is_empty());
        while waits(&self.desk) {
            std::thread::sleep(Duration::from_millis(2));
            self.desk.apply(Ask::Keep(KeepAsk::CatchUp));
        }
        self
    }
}

/// The file of a dance that has one.
pub const OURS: &str = "ours.dance.json";

/// Goes to a count.
pub fn seek(count: f64) -> Ask {
    Ask::Play(PlayAsk::Seek(count))
}

/// Changes the dance.
pub fn edit() -> Ask {
    Ask::Order(OrderAsk::NamePerson(Number(1), "Bram".to_owned()))
}
