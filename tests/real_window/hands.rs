use super::desktop::wait_until;
use super::screen::Screen;
use super::sitting::{Sitting, steps};
use super::twin::Twin;
use super::{SOON, pose};
use bellpad::dance::{Dance, write};
use egui::Modifiers;
use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

/// Somebody's hands on the mouse and the keyboard. All that they do is done in the real window, and in its twin so as
/// to know where things are next.
pub struct Hands {
    /// The real window.
    pub sitting: Sitting,
    /// The one that knows where everything is.
    pub twin: Twin,
    folder: TempDir,
    /// The dance as it was at first, as its file has it.
    first: Vec<u8>,
    /// Clicks, keys, drags and fields filled in.
    gestures: u32,
}

impl Hands {
    /// Opens a dance.
    pub fn on(dance: &Dance) -> Self {
        let folder = tempfile::tempdir().unwrap();
        for of in ["real", "twin"] {
            fs::create_dir(folder.path().join(of)).unwrap();
            fs::write(folder.path().join(of).join(NAME), write(dance).unwrap()).unwrap();
        }
        Self::open(folder, true)
    }

    /// Opens nothing, so that the sample is there.
    pub fn on_nothing() -> Self {
        let folder = tempfile::tempdir().unwrap();
        for of in ["real", "twin"] {
            fs::create_dir(folder.path().join(of)).unwrap();
        }
        Self::open(folder, false)
    }

    fn open(folder: TempDir, with_file: bool) -> Self {
        let [real, twin] = ["real", "twin"].map(|of| folder.path().join(of).join(NAME));
        let first = if with_file { fs::read(&real).unwrap() } else { Vec::new() };
        let twin = Twin::open(with_file.then_some(&*twin), &folder.path().join("home"));
        let sitting = Sitting::open(with_file.then_some(&*real));
        let mut hands = Self { sitting, twin, folder, first, gestures: 0 };
        hands.see();
        hands
    }

    /// The file that the real window is on.
    pub fn file(&self) -> PathBuf {
        self.folder.path().join("real").join(NAME)
    }

    /// Clicks, keys, drags and fields filled in so far.
    pub fn gestures(&self) -> u32 {
        self.gestures
    }

    /// Another file beside it, the same for both.
    pub fn beside(&self, name: &str, dance: &Dance) -> PathBuf {
        let path = self.folder.path().join(name);
        fs::write(&path, write(dance).unwrap()).unwrap();
        path
    }

    /// What `bellpad pose` prints of the file: metres right and up and degrees of each dancer at a moment.
    pub fn places(&self, at: &str) -> Vec<[f64; 3]> {
        let printed = pose(&self.file(), ["--at", at]);
        let dancers = printed["poses"][0]["dancers"].as_array().unwrap();
        dancers.iter().map(|dancer| ["x", "y", "facing"].map(|key| dancer[key].as_f64().unwrap())).collect()
    }

    /// Waits until the real window has the title and the dancers of its twin, with nothing over them.
    #[track_caller]
    pub fn see(&mut self) {
        let expected = self.twin.expected();
        self.sitting.see_dancers(&expected);
        wait_until("the title", SOON, || {
            let title = self.sitting.title();
            if title == expected.title { Ok(()) } else { Err(title) }
        });
        self.sitting.still();
    }

    /// Presses keys, each of which changes what is seen.
    #[track_caller]
    pub fn keys(&mut self, keys: &[&str]) {
        for key in keys {
            let before = self.sitting.look();
            self.sitting.keys(&[key]);
            self.twin.key(key);
            self.gestures += 1;
            self.sitting.see_change(key, &before);
        }
    }

    /// Goes on by Tab to what has these words in its name.
    #[track_caller]
    pub fn tab_to(&mut self, name: &str) {
        for _ in 0..300 {
            if self.twin.focused().is_some_and(|focused| focused.contains(name)) {
                self.sitting.still();
                return;
            }
            // What has the focus need not show it.
            self.sitting.keys(&["Tab"]);
            // Two that come in one frame would go on by one.
            self.sitting.rest();
            self.twin.key("Tab");
        }
        panic!("Tab does not come to {name}");
    }

    /// Types text in the field that has the focus.
    #[track_caller]
    pub fn write(&mut self, text: &str) {
        let before = self.sitting.look();
        self.sitting.write(text);
        self.twin.write(text);
        self.sitting.see_change(text, &before);
    }

    /// Clicks on what has a name.
    #[track_caller]
    pub fn click(&mut self, name: &str) {
        let place = self.twin.find(name);
        self.click_at(name, place);
    }

    /// Clicks at a place.
    #[track_caller]
    pub fn click_at(&mut self, what: &str, place: [i32; 2]) {
        let before = self.point_at(place);
        self.gestures += 1;
        self.sitting.click();
        self.twin.click(place);
        self.sitting.see_change(what, &before);
    }

    /// Clicks at a place with the right button, which opens something.
    #[track_caller]
    pub fn right_click(&mut self, what: &str, place: [i32; 2]) {
        let before = self.point_at(place);
        self.gestures += 1;
        self.sitting.button("3", true);
        self.sitting.button("3", false);
        self.twin.right_click(place);
        self.sitting.see_change(what, &before);
    }

    /// Clicks on what moves while the mouse is on it, and changes the dance.
    #[track_caller]
    pub fn click_lively(&mut self, name: &str) {
        let place = self.twin.find(name);
        self.sitting.go(place);
        self.sitting.click();
        self.twin.go(place);
        self.twin.click(place);
        self.gestures += 1;
        let title = self.twin.desk().window_title();
        wait_until(name, SOON, || {
            let is = self.sitting.title();
            if is == title { Ok(()) } else { Err(is) }
        });
        self.point_at([4, 4]);
    }

    /// Opens a menu and clicks on something in it.
    #[track_caller]
    pub fn choose(&mut self, menu: &str, item: &str) {
        self.click(menu);
        self.click(item);
    }

    /// Moves the mouse to a place, and gives what that shows.
    pub fn point_at(&mut self, place: [i32; 2]) -> Screen {
        self.sitting.go(place);
        self.twin.go(place);
        self.sitting.still()
    }

    /// Moves the mouse to what has a name, which opens something.
    #[track_caller]
    pub fn point_out(&mut self, name: &str) {
        let (before, place) = (self.sitting.look(), self.twin.find(name));
        self.point_at(place);
        self.gestures += 1;
        self.sitting.see_change(name, &before);
    }

    /// Drags from one place to another.
    #[track_caller]
    pub fn drag(&mut self, from: [i32; 2], to: [i32; 2]) {
        self.pull(from, to);
        self.let_go(to);
    }

    /// Drags, and does not let go.
    #[track_caller]
    pub fn pull(&mut self, from: [i32; 2], to: [i32; 2]) {
        let before = self.point_at(from);
        self.gestures += 1;
        self.sitting.pull(from, &steps(from, to));
        self.twin.press(from, true);
        for place in steps(from, to) {
            self.twin.go(place);
        }
        self.sitting.see_change("the drag", &before);
    }

    /// Lets go of what was dragged to a place.
    pub fn let_go(&mut self, place: [i32; 2]) {
        self.sitting.let_go();
        self.twin.press(place, false);
        self.twin.go([4, 4]);
        self.sitting.still();
    }

    /// Moves the mouse with Alt held, then lets go of the mouse and of Alt.
    pub fn let_go_with_alt(&mut self, place: [i32; 2]) {
        self.sitting.hold("alt", true);
        self.twin.hold(Modifiers::ALT);
        self.point_at([place[0] + 1, place[1]]);
        self.point_at(place);
        self.sitting.release();
        self.twin.press(place, false);
        self.sitting.hold("alt", false);
        self.twin.hold(Modifiers::NONE);
        self.point_at([4, 4]);
    }

    /// Moves the floor with the middle button.
    pub fn pan(&mut self, from: [i32; 2], to: [i32; 2]) {
        self.point_at(from);
        self.sitting.button("2", true);
        self.twin.press_middle(from, true);
        for place in steps(from, to) {
            self.sitting.go(place);
            self.twin.go(place);
        }
        self.sitting.button("2", false);
        self.twin.press_middle(to, false);
        self.point_at([4, 4]);
    }

    /// Drags a dancer (number) to a place on the floor, metres.
    #[track_caller]
    pub fn drag_dancer(&mut self, number: u64, x: f64, y: f64) {
        let from = self.twin.expected().place(number);
        let to = self.twin.floor(x, y);
        self.drag(from, to);
        self.see();
    }

    /// Saves, waits until the file has what the twin's has, and gives it.
    #[track_caller]
    pub fn save(&mut self) -> Value {
        let file = self.file();
        self.sitting.keys(&["ctrl+s"]);
        self.twin.key("ctrl+s");
        assert!(!self.twin.desk().unsaved(), "it is saved without asking");
        let wanted = fs::read(self.folder.path().join("twin").join(NAME)).unwrap();
        see_file(&file, &wanted);
        self.sitting.still();
        serde_json::from_slice(&wanted).unwrap()
    }

    /// Types a path in the field that has the focus, one for each of the two, and Enter.
    pub fn fill_in_file(&mut self) {
        self.gestures += 1;
        self.sitting.fill_in(&self.file());
        self.twin.key("ctrl+a");
        self.twin.write(self.folder.path().join("twin").join(NAME).to_str().unwrap());
        self.twin.key("Return");
        let wanted = fs::read(self.folder.path().join("twin").join(NAME)).unwrap();
        see_file(&self.file(), &wanted);
    }

    /// Types the path of a file beside the dance, one for each of the two, and Enter.
    pub fn fill_in_beside(&mut self, name: &str) {
        self.gestures += 1;
        let before = self.sitting.look();
        self.sitting.fill_in(&self.file().with_file_name(name));
        self.twin.key("ctrl+a");
        self.twin.write(self.folder.path().join("twin").join(name).to_str().unwrap());
        self.twin.key("Return");
        self.sitting.see_change("the path", &before);
        self.sitting.still();
    }

    /// Puts a file beside the dance, for each of the two.
    pub fn put_beside(&self, name: &str, bytes: &[u8]) {
        for of in [self.file(), self.folder.path().join("twin").join(NAME)] {
            fs::write(of.with_file_name(name), bytes).unwrap();
        }
    }

    /// Undoes everything by keys, saves, and asks that the file is as it was at first. There are so many steps.
    #[track_caller]
    pub fn undo_all(mut self, steps: usize) {
        let before = fs::read(self.file()).unwrap();
        assert_ne!(before, self.first, "there is something to undo");
        let mut undone = 0;
        while self.twin.desk().undo_name().is_some() {
            // A step may show in fewer pixels than a letter has: the file tells in the end.
            self.sitting.keys(&["ctrl+z"]);
            self.twin.key("ctrl+z");
            self.gestures += 1;
            self.sitting.still();
            undone += 1;
        }
        self.sitting.keys(&["ctrl+s"]);
        see_file(&self.file(), &self.first);
        assert_eq!(undone, steps, "steps to undo");
    }
}

/// Waits until a file has these bytes.
#[track_caller]
fn see_file(file: &Path, wanted: &[u8]) {
    wait_until("the file as it should be", SOON, || match fs::read(file) {
        Ok(bytes) if bytes == wanted => Ok(()),
        Ok(bytes) => Err(first_difference(&bytes, wanted)),
        Err(error) => Err(error.to_string()),
    });
}

/// The first line in which a file is not what it should be.
fn first_difference(is: &[u8], wanted: &[u8]) -> String {
    let [is, wanted] = [is, wanted].map(|bytes| String::from_utf8_lossy(bytes).into_owned());
    let (mut is, mut wanted) = (is.lines(), wanted.lines());
    for line in 1.. {
        let (is, wanted) = (is.next(), wanted.next());
        if is != wanted || is.is_none() {
            return format!("line {line} is {is:?} and should be {wanted:?}");
        }
    }
    String::new()
}

impl Drop for Hands {
    fn drop(&mut self) {
        if std::thread::panicking() {
            self.sitting.keep("failed");
        }
    }
}

/// What the file of the dance is called.
const NAME: &str = "gestures.dance.json";

/// Whether a number is at a place, metres, to 2 cm.
#[track_caller]
pub fn is_at(places: &[[f64; 3]], number: usize, x: f64, y: f64) {
    let [px, py, _] = places[number - 1];
    assert!((px - x).hypot(py - y) < 0.02, "{number} is at {px} {py}, not {x} {y}");
}
