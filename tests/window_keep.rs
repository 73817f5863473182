//! Work is not lost from the window: saves over changed files, unsaved work kept and found again, earlier saves; and
//! the first minute.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Number, Set};
use bellpad::desk::{Ask, Desk, FileAsk, KeepAsk, OrderAsk, Question, SAMPLES, ViewAsk, what_changed};
use bellpad::store::{self, Autosave, Home, Recent, Settings, open_with_stamp};
use bellpad::window::KEYS;
use driven::{Driven, activate, dance, notice, press, press_with, sample, show, take, type_path, undo_name};
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant, SystemTime};
use tempfile::TempDir;

const SIZE: [f32; 2] = [1280.0, 800.0];

/// A folder with a dance in it and a home for what the program keeps.
struct Place {
    folder: TempDir,
    path: PathBuf,
    home: Home,
}

impl Place {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("ours.dance.json");
        store::save(&path, &titled("Ours")).unwrap();
        let home = Home::at(&folder.path().join("state"));
        Self { folder, path, home }
    }

    /// A window on the dance, at home.
    fn window(&self) -> Driven {
        let mut desk = Desk::with_sample(Recent::default()).at_home(self.home.clone());
        desk.apply(Ask::File(FileAsk::Open(self.path.clone())));
        show(desk, SIZE)
    }

    /// A window as it opens without a file, at home.
    fn bare_window(&self) -> Driven {
        show(Desk::with_sample(Recent::default()).at_home(self.home.clone()), SIZE)
    }

    fn opened(&self) -> Dance {
        store::open(&self.path).unwrap()
    }

    /// The files of kept work.
    fn works(&self) -> Vec<PathBuf> {
        let entries = fs::read_dir(self.folder.path().join("state").join("autosave"));
        let paths = entries.into_iter().flatten().map(|entry| entry.unwrap().path());
        paths.filter(|path| path.extension().is_some_and(|ending| ending == "work")).collect()
    }

    /// Waits for as long as is promised until so many works are kept.
    #[track_caller]
    fn see_works(&self, wanted: usize) {
        let begun = Instant::now();
        while self.works().len() != wanted {
            // Two seconds are promised; a busy machine has a little more.
            assert!(begun.elapsed() < Duration::from_secs(8), "{:?}, not {wanted}", self.works());
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    /// Work as a window leaves that ends without a save.
    fn leave(&self, dance: &Dance, path: Option<&Path>) {
        let stamp = path.map(|path| open_with_stamp(path).unwrap().1);
        let autosave = Autosave::begin(&self.home, path, stamp.as_ref()).unwrap();
        autosave.write(dance).unwrap();
    }
}

/// A dance that opens, with a title.
fn titled(title: &str) -> Dance {
    let mut dance = sample(1);
    title.clone_into(&mut dance.title);
    dance
}

/// Changes the dance.
fn edit(harness: &mut Driven, name: &str) {
    take(harness, Ask::Order(OrderAsk::NamePerson(Number(1), name.to_owned())));
    assert!(harness.state().desk.unsaved());
}

fn save(harness: &mut Driven) {
    press_with(harness, Modifiers::COMMAND, Key::S);
}

fn is_shown(harness: &Driven, words: &str) -> bool {
    harness.query_all_by_label_contains(words).next().is_some()
}

/// The window loses the focus, something happens, and the window has it again.
fn meanwhile(harness: &mut Driven, what: impl FnOnce()) {
    harness.event(Event::WindowFocused(false));
    harness.run();
    what();
    harness.event(Event::WindowFocused(true));
    harness.run();
}

#[test]
fn a_save_over_what_was_changed_meanwhile_asks_and_keeps_theirs() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    let ours = dance(&harness);
    store::save(&place.path, &titled("Theirs")).unwrap();
    save(&mut harness);
    harness.get_by_label("The file was changed meanwhile");
    harness.get_by_label("• it is now called Theirs");
    assert_eq!(place.opened().title, "Theirs");
    activate(&mut harness, "Go back");
    assert!(harness.state().desk.question().is_none() && harness.state().desk.unsaved());
    assert_eq!(place.opened().title, "Theirs");
    save(&mut harness);
    activate(&mut harness, "Save over it");
    assert_eq!(place.opened(), ours);
    assert!(!harness.state().desk.unsaved());
    assert_eq!(place.home.backups(&place.path)[0].open().unwrap().title, "Theirs");
    // The next save goes on from that one.
    edit(&mut harness, "Wren");
    save(&mut harness);
    assert_eq!(place.opened(), dance(&harness));
}

#[test]
fn both_are_kept_under_another_name() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    store::save(&place.path, &titled("Theirs")).unwrap();
    save(&mut harness);
    activate(&mut harness, "Save as…");
    let other = place.folder.path().join("other.dance.json");
    type_path(&mut harness, &other);
    assert_eq!(store::open(&other).unwrap(), dance(&harness));
    assert_eq!(place.opened().title, "Theirs");
    assert_eq!(harness.state().desk.path(), Some(other.as_path()));
}

#[test]
fn theirs_can_be_opened_and_ours_is_kept_twice() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    let ours = dance(&harness);
    store::save(&place.path, &titled("Theirs")).unwrap();
    save(&mut harness);
    activate(&mut harness, "Open theirs");
    assert_eq!(dance(&harness), titled("Theirs"));
    assert!(!harness.state().desk.unsaved());
    assert_eq!(undo_name(&harness), "open what was saved meanwhile");
    assert_eq!(place.home.backups(&place.path)[0].open().unwrap(), ours);
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), ours);
    assert!(harness.state().desk.unsaved());
    save(&mut harness);
    assert_eq!(place.opened(), ours, "it goes on from theirs");
}

#[test]
fn a_file_that_is_gone_is_asked_about_and_can_be_saved_there_again() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    fs::remove_file(&place.path).unwrap();
    save(&mut harness);
    harness.get_by_label("The file is gone");
    assert!(!place.path.exists());
    // The button that has the focus.
    press(&mut harness, Key::Enter);
    assert_eq!(place.opened(), dance(&harness));
    assert!(harness.state().desk.question().is_none());
}

#[test]
fn what_waits_for_a_save_goes_on_after_it() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    let ours = dance(&harness);
    store::save(&place.path, &titled("Theirs")).unwrap();
    take(&mut harness, Ask::File(FileAsk::OpenSample(2)));
    take(&mut harness, Ask::File(FileAsk::SaveAndGoOn));
    assert_eq!(dance(&harness), ours, "not before it is saved");
    activate(&mut harness, "Save over it");
    assert_eq!(place.opened(), ours);
    assert_eq!(dance(&harness).title, SAMPLES[2].0);
}

#[test]
fn a_backup_that_cannot_be_kept_is_told_and_the_save_is_done() {
    let place = Place::new();
    let mut harness = place.window();
    // A file where the folder of backups would be.
    fs::write(place.folder.path().join("state").join("backups"), "in the way").unwrap();
    edit(&mut harness, "Bram");
    save(&mut harness);
    assert_eq!(place.opened(), dance(&harness));
    assert!(notice(&harness).contains("was saved, but the version before could not be kept"));
}

#[test]
fn a_change_outside_is_noticed_and_never_taken_without_asking() {
    let place = Place::new();
    let mut harness = place.window();
    let line = "was changed by another program";
    // Only touched.
    meanwhile(&mut harness, || {
        let file = fs::File::options().write(true).open(&place.path).unwrap();
        file.set_modified(SystemTime::now() + Duration::from_secs(5)).unwrap();
    });
    assert!(!is_shown(&harness, line));
    meanwhile(&mut harness, || store::save(&place.path, &titled("Theirs")).unwrap());
    assert!(is_shown(&harness, &format!("ours.dance.json {line}")));
    assert_eq!(dance(&harness).title, "Ours");
    activate(&mut harness, "Leave it");
    assert!(!is_shown(&harness, line));
    meanwhile(&mut harness, || {});
    assert!(!is_shown(&harness, line), "it was said to leave it");
    meanwhile(&mut harness, || store::save(&place.path, &titled("Theirs again")).unwrap());
    activate(&mut harness, "Reload");
    assert_eq!(dance(&harness).title, "Theirs again");
    assert!(!is_shown(&harness, line) && !harness.state().desk.unsaved());
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness).title, "Ours");
    meanwhile(&mut harness, || fs::remove_file(&place.path).unwrap());
    assert!(is_shown(&harness, "ours.dance.json is no longer where it was"));
}

#[test]
fn what_became_no_dance_cannot_be_opened_and_the_work_stays() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    let ours = dance(&harness);
    meanwhile(&mut harness, || fs::write(&place.path, "{").unwrap());
    activate(&mut harness, "Reload");
    assert!(
        matches!(harness.state().desk.question(), Some(Question::Trouble(said)) if said.contains("ours.dance"))
    );
    assert_eq!(dance(&harness), ours);
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    save(&mut harness);
    harness.get_by_label("The file was changed meanwhile");
    assert!(harness.query_by_label("Open theirs").is_none());
    activate(&mut harness, "Save over it");
    assert_eq!(place.opened(), ours);
}

#[test]
fn unsaved_work_is_kept_and_dropped_when_it_is_safe() {
    let place = Place::new();
    let mut harness = place.window();
    assert!(place.works().is_empty());
    edit(&mut harness, "Bram");
    place.see_works(1);
    save(&mut harness);
    assert!(place.works().is_empty());
    edit(&mut harness, "Wren");
    place.see_works(1);
    take(&mut harness, Ask::Undo);
    assert!(place.works().is_empty(), "there is nothing unsaved any more");
    take(&mut harness, Ask::Redo);
    place.see_works(1);
    let work = dance(&harness);
    // As if the program ended.
    drop(harness);
    let left = place.home.recover();
    assert_eq!(left.len(), 1);
    assert_eq!((&left[0].dance, left[0].path.as_deref()), (&work, Some(place.path.as_path())));
}

#[test]
fn a_new_dance_is_kept_although_it_has_no_file() {
    let place = Place::new();
    let mut harness = place.bare_window();
    std::thread::sleep(Duration::from_millis(700));
    assert!(place.works().is_empty(), "a sample is not work");
    take(&mut harness, Ask::File(FileAsk::PutNew(Box::new(titled("New")))));
    place.see_works(1);
    drop(harness);
    let left = place.home.recover();
    assert_eq!((left[0].dance.title.as_str(), left[0].path.as_deref()), ("New", None));
}

#[test]
fn work_is_given_up_only_on_that_choice() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    place.see_works(1);
    // Another is to be opened, and then is not.
    take(&mut harness, Ask::File(FileAsk::AskOpen));
    activate(&mut harness, "Do not save");
    activate(&mut harness, "Cancel");
    assert_eq!(place.works().len(), 1, "the work is still on the desk");
    take(&mut harness, Ask::File(FileAsk::Close));
    activate(&mut harness, "Go back");
    assert_eq!(place.works().len(), 1);
    take(&mut harness, Ask::File(FileAsk::Close));
    activate(&mut harness, "Do not save");
    assert!(harness.state().desk.may_close() && place.works().is_empty());
    drop(harness);
    assert!(place.home.recover().is_empty());
    let files = fs::read_dir(place.folder.path().join("state").join("autosave")).unwrap();
    assert_eq!(files.count(), 0, "a clean close leaves nothing");
}

#[test]
fn where_work_cannot_be_kept_that_is_told() {
    let place = Place::new();
    fs::create_dir(place.folder.path().join("state")).unwrap();
    fs::write(place.folder.path().join("state").join("autosave"), "in the way").unwrap();
    let mut harness = place.window();
    assert!(is_shown(&harness, "unsaved work cannot be kept here"));
    activate(&mut harness, "Put away");
    assert!(!is_shown(&harness, "unsaved work cannot be kept here"));
    edit(&mut harness, "Bram");
    save(&mut harness);
    assert_eq!(place.opened(), dance(&harness));
}

/// Runs the window as often as it asks for, until something is so; nobody touches it.
#[track_caller]
fn wait_untouched(harness: &mut Driven, what: &str, so: impl Fn(&Driven) -> bool) {
    let begun = Instant::now();
    while !so(harness) {
        // Two seconds are promised; a busy machine has a little more.
        assert!(begun.elapsed() < Duration::from_secs(8), "{what}");
        std::thread::sleep(Duration::from_millis(20));
        harness.run();
    }
}

#[test]
fn a_folder_that_cannot_be_written_is_told_without_an_edit_and_no_longer_once_it_can() {
    let cannot = "unsaved work cannot be kept here";
    let place = Place::new();
    let state = place.folder.path().join("state");
    fs::create_dir(&state).unwrap();
    let in_the_way = state.join("autosave");
    fs::write(&in_the_way, "in the way").unwrap();
    let mut harness = place.window();
    wait_untouched(&mut harness, "it is not told", |harness| is_shown(harness, cannot));
    assert!(!harness.state().desk.work_is_kept());
    // It is put away, and that is no reason to say that work is kept.
    activate(&mut harness, "Put away");
    assert!(!is_shown(&harness, cannot) && !harness.state().desk.work_is_kept());
    edit(&mut harness, "Bram");
    take(&mut harness, Ask::File(FileAsk::SaveTo(place.folder.path().join("none").join("x.dance.json"))));
    assert!(!is_shown(&harness, "is kept in case"), "it is not");
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    // Room again: the work is kept, and nothing is told any more.
    fs::remove_file(&in_the_way).unwrap();
    place.see_works(1);
    wait_untouched(&mut harness, "it is not noticed", |harness| harness.state().desk.work_is_kept());
    assert!(!is_shown(&harness, cannot));
    let work = dance(&harness);
    drop(harness);
    assert_eq!(place.home.recover()[0].dance, work);
}

#[test]
fn the_warning_goes_by_itself_when_the_folder_can_be_written_again() {
    let cannot = "unsaved work cannot be kept here";
    let place = Place::new();
    fs::create_dir(place.folder.path().join("state")).unwrap();
    let in_the_way = place.folder.path().join("state").join("autosave");
    fs::write(&in_the_way, "in the way").unwrap();
    let mut harness = place.bare_window();
    wait_untouched(&mut harness, "it is not told", |harness| is_shown(harness, cannot));
    fs::remove_file(&in_the_way).unwrap();
    wait_untouched(&mut harness, "the warning stays", |harness| !is_shown(harness, cannot));
    assert!(harness.state().desk.work_is_kept());
    // It fails while the window stands there, and is told when somebody comes back to it.
    fs::remove_dir_all(&in_the_way).unwrap();
    fs::write(&in_the_way, "in the way").unwrap();
    meanwhile(&mut harness, || {});
    wait_untouched(&mut harness, "it is not told again", |harness| is_shown(harness, cannot));
}

#[test]
fn a_write_that_fails_later_is_told_in_the_window() {
    let place = Place::new();
    let mut harness = place.window();
    let folder = place.folder.path().join("state").join("autosave");
    fs::remove_dir_all(&folder).unwrap();
    fs::write(&folder, "in the way").unwrap();
    edit(&mut harness, "Bram");
    let begun = Instant::now();
    while !is_shown(&harness, "unsaved work cannot be kept here") {
        assert!(begun.elapsed() < Duration::from_secs(8));
        std::thread::sleep(Duration::from_millis(50));
        harness.run();
    }
    assert_eq!(dance(&harness).person(1), Some("Bram"));
}

#[test]
fn work_that_was_left_is_offered_and_taken_on() {
    let place = Place::new();
    let mut work = titled("Ours");
    work.notes = "slower".to_owned();
    place.leave(&work, Some(&place.path));
    let before = place.works();
    let mut harness = place.bare_window();
    harness.get_by_label("Work that was not saved");
    harness.get_by_label("Ours");
    harness.get_by_label("of ours.dance.json, which is as it was before this work");
    assert!(is_shown(&harness, "kept today at") || is_shown(&harness, "kept yesterday at"));
    activate(&mut harness, "Open it");
    assert_eq!(dance(&harness), work);
    assert!(harness.state().desk.unsaved());
    assert_eq!(harness.state().desk.path(), Some(place.path.as_path()));
    let after = place.works();
    assert_eq!(after.len(), 1, "at once, not after a while");
    assert_ne!(after, before, "it is this window's own now");
    // This window holds it, so that no other is offered it.
    assert!(place.home.recover().is_empty());
    drop(harness);
    assert_eq!(place.home.recover()[0].dance, work, "nor is it lost if this window ends too");
    let mut harness = place.bare_window();
    activate(&mut harness, "Open it");
    save(&mut harness);
    assert!(harness.state().desk.question().is_none());
    assert_eq!(place.opened(), work);
    assert!(place.works().is_empty());
}

#[test]
fn work_whose_file_was_changed_since_says_so_and_saving_it_asks() {
    let place = Place::new();
    place.leave(&titled("Left"), Some(&place.path));
    store::save(&place.path, &titled("Theirs")).unwrap();
    let mut harness = place.bare_window();
    assert!(is_shown(&harness, "which was changed since"));
    activate(&mut harness, "Open it");
    save(&mut harness);
    harness.get_by_label("The file was changed meanwhile");
    assert_eq!(place.opened().title, "Theirs");
}

#[test]
fn work_that_cannot_be_kept_anew_stays_where_it_was() {
    let place = Place::new();
    place.leave(&titled("Left"), None);
    let mut harness = place.bare_window();
    // Nothing can be written any more: the folder is swapped for one that is a file, and back.
    let folder = place.folder.path().join("state").join("autosave");
    let aside = place.folder.path().join("aside");
    fs::rename(&folder, &aside).unwrap();
    fs::write(&folder, "in the way").unwrap();
    activate(&mut harness, "Open it");
    assert_eq!(dance(&harness).title, "Left");
    assert!(is_shown(&harness, "unsaved work cannot be kept here"));
    let kept = fs::read_dir(&aside).unwrap().map(|entry| entry.unwrap().path());
    assert_eq!(kept.filter(|path| path.extension().is_some_and(|ending| ending == "work")).count(), 1);
}

#[test]
fn work_is_put_away_only_when_that_is_said_twice() {
    let place = Place::new();
    place.leave(&titled("First"), None);
    std::thread::sleep(Duration::from_millis(5));
    place.leave(&titled("Second"), None);
    let mut harness = place.bare_window();
    let row = |harness: &Driven, label: &str| {
        harness.query_all_by_label(label).filter(|node| !node.accesskit_node().is_hidden()).count()
    };
    assert_eq!((row(&harness, "First"), row(&harness, "Second")), (1, 1));
    let first = harness.get_all_by_label("Put it away…").next().unwrap();
    first.click_accesskit();
    harness.run();
    assert_eq!(place.works().len(), 2, "it is asked first");
    activate(&mut harness, "No");
    harness.get_all_by_label("Put it away…").next().unwrap().click_accesskit();
    harness.run();
    activate(&mut harness, "Yes, put it away");
    assert_eq!((row(&harness, "First"), row(&harness, "Second")), (1, 0), "the newest is listed first");
    assert_eq!(place.works().len(), 1);
    activate(&mut harness, "Later");
    assert!(harness.state().desk.question().is_none());
    assert_eq!(place.home.recover()[0].dance.title, "First", "any window is offered it again");
    // Also this one, when it is asked for.
    activate(&mut harness, "File");
    activate(&mut harness, "Unsaved work…");
    harness.get_by_label("Work that was not saved");
    press(&mut harness, Key::Escape);
    assert_eq!(place.works().len(), 1);
}

#[test]
fn work_on_the_desk_is_asked_about_before_left_work_takes_its_place() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    let ours = dance(&harness);
    place.leave(&titled("Left"), None);
    take(&mut harness, Ask::Keep(KeepAsk::AskRecovered));
    activate(&mut harness, "Open it");
    harness.get_by_label("This dance is not saved");
    assert_eq!(dance(&harness), ours);
    take(&mut harness, Ask::File(FileAsk::SaveAndGoOn));
    assert_eq!(dance(&harness).title, "Left");
    assert_eq!(place.opened(), ours);
}

#[test]
fn an_earlier_save_can_be_gone_back_to_and_undone() {
    let place = Place::new();
    let mut harness = place.window();
    let first = place.opened();
    for name in ["Bram", "Wren"] {
        edit(&mut harness, name);
        save(&mut harness);
    }
    let last = dance(&harness);
    activate(&mut harness, "File");
    activate(&mut harness, "Earlier saves…");
    harness.get_by_label("Earlier saves");
    let rows: Vec<_> = harness.get_all_by_label_contains(" · Ours").collect();
    assert_eq!(rows.len(), 2);
    rows[1].click_accesskit();
    drop(rows);
    harness.run();
    assert_eq!(dance(&harness), first, "the oldest is the last");
    assert!(undo_name(&harness).starts_with("go back to the save of "), "{}", undo_name(&harness));
    assert!(harness.state().desk.unsaved());
    assert_eq!(place.opened(), last, "nothing on the disk changes before it is saved");
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), last);
    assert!(!harness.state().desk.unsaved());
}

#[test]
fn the_last_ten_saves_are_listed() {
    let place = Place::new();
    let mut harness = place.window();
    for number in 0..12 {
        edit(&mut harness, &format!("Bram {number}"));
        save(&mut harness);
    }
    take(&mut harness, Ask::Keep(KeepAsk::AskEarlier));
    assert_eq!(harness.get_all_by_label_contains(" · Ours").count(), 10);
}

#[test]
fn the_first_minute_has_a_card_until_it_is_put_away_for_good() {
    let place = Place::new();
    let card = "A dance to try things on";
    let mut harness = place.bare_window();
    harness.get_by_label(card);
    activate(&mut harness, "Put away");
    assert!(!is_shown(&harness, card));
    assert!(!is_shown(&place.window(), card), "not with a file of one's own");
    let mut harness = place.bare_window();
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Bram".to_owned())));
    assert!(!is_shown(&harness, card), "nor while there is work");
    take(&mut harness, Ask::Undo);
    activate(&mut harness, "Samples");
    activate(&mut harness, SAMPLES[2].0);
    assert_eq!(dance(&harness).title, SAMPLES[2].0);
    let mut harness = place.bare_window();
    activate(&mut harness, "Not again");
    assert!(!is_shown(&harness, card));
    assert!(!is_shown(&place.bare_window(), card));
}

#[test]
fn an_empty_dance_says_what_to_do_first() {
    let place = Place::new();
    let mut harness = place.bare_window();
    let empty = Dance::new("Empty", Set::longways(6, 2.4, 1.8));
    take(&mut harness, Ask::File(FileAsk::PutNew(Box::new(empty))));
    assert!(is_shown(&harness, "No figure is danced yet."));
    activate(&mut harness, "Figure shelf");
    activate(&mut harness, "Put in Hey");
    assert!(!is_shown(&harness, "No figure is danced yet."));
    // As the dialog for a new dance makes it, with one figure to draw in.
    take(&mut harness, Ask::File(FileAsk::AskNew));
    activate(&mut harness, "Make it");
    activate(&mut harness, "Do not save");
    assert!(is_shown(&harness, "Nobody moves yet."));
    // It lies over none of the dancers that it says to drag.
    let words = harness.get_by_label_contains("Nobody moves yet.").rect();
    for number in 1..=6 {
        let dancer = harness.get_by_label(&format!("Dancer {number}")).rect();
        assert!(!words.intersects(dancer), "{number} at {dancer:?} under {words:?}");
    }
}

#[test]
fn the_size_of_the_text_is_chosen_by_keys_and_remembered() {
    let place = Place::new();
    let mut harness = place.bare_window();
    let size = |harness: &Driven| harness.ctx.zoom_factor();
    let tempo = harness.state().desk.player().tempo;
    for (key, wanted) in [(Key::Equals, 1.1), (Key::Plus, 1.25), (Key::Minus, 1.1)] {
        press_with(&mut harness, Modifiers::COMMAND, key);
        assert!((size(&harness) - wanted).abs() < 1e-3, "{}", size(&harness));
    }
    assert_eq!(harness.state().desk.player().tempo, tempo);
    assert_eq!(Settings::kept_in(&place.home).text_size, 1.1);
    assert!((size(&place.bare_window()) - 1.1).abs() < 1e-3);
    press_with(&mut harness, Modifiers::COMMAND, Key::Num0);
    assert_eq!(size(&harness), 1.0);
    assert_eq!(harness.state().desk.chosen(), Some(Dancer(0)), "a digit with Ctrl chooses nobody");
    press(&mut harness, Key::Minus);
    assert!(harness.state().desk.player().tempo < tempo && size(&harness) == 1.0);
    // From the menu, and not beyond what can be used.
    activate(&mut harness, "View");
    activate(&mut harness, "150 %");
    assert_eq!(size(&harness), 1.5);
    for _ in 0..9 {
        press_with(&mut harness, Modifiers::COMMAND, Key::Equals);
    }
    assert_eq!(size(&harness), 2.0);
}

#[test]
fn the_colours_are_remembered() {
    let place = Place::new();
    let mut harness = place.bare_window();
    activate(&mut harness, "View");
    activate(&mut harness, "Paper");
    assert_eq!(harness.state().desk.ink(), bellpad::picture::PAPER);
    assert_eq!(place.bare_window().state().desk.ink(), bellpad::picture::PAPER);
}

#[test]
fn the_help_lists_every_key() {
    let mut harness = Place::new().bare_window();
    press(&mut harness, Key::F1);
    for (key, meaning) in KEYS {
        assert!(is_shown(&harness, key), "{key}");
        assert!(is_shown(&harness, meaning), "{meaning}");
    }
    // Nothing of it is cut at the right: the dialog is at most 640 points wide, in the middle.
    let right = harness.ctx.content_rect().center().x + 320.0;
    for words in
        KEYS.map(|(_, meaning)| meaning).into_iter().chain(["Drag a dancer to put", "Warm up first."])
    {
        let rect = harness.get_by_label_contains(words).rect();
        assert!(rect.right() <= right - 6.0, "{words}: {rect:?} beyond {right}");
    }
}

#[test]
fn a_save_that_fails_names_the_file_and_the_work_stays_and_is_kept() {
    let place = Place::new();
    let mut harness = place.window();
    edit(&mut harness, "Bram");
    let ours = dance(&harness);
    let long = "n".repeat(300);
    for (path, said) in [
        (place.folder.path().join("none").join("x.dance.json"), "make the folder first"),
        (place.path.join("x.dance.json"), "part of the path is a file"),
        (place.folder.path().join(format!("{long}.dance.json")), "choose another name"),
        (place.folder.path().to_owned(), "it is a folder"),
    ] {
        take(&mut harness, Ask::File(FileAsk::SaveTo(path.clone())));
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        match harness.state().desk.question() {
            Some(Question::Path(field)) => {
                let text = field.wrong.clone().unwrap();
                assert!(text.contains(said) && text.contains(&name), "{text}");
                assert_eq!(field.path, path);
            }
            _ => panic!("no dialog for {name}"),
        }
        assert!(is_shown(&harness, "Your work stays on the desk, and is kept"));
        take(&mut harness, Ask::View(ViewAsk::PutAway));
        assert_eq!(dance(&harness), ours);
        assert!(harness.state().desk.unsaved());
    }
    place.see_works(1);
    drop(harness);
    assert_eq!(place.home.recover()[0].dance, ours);
}

#[test]
fn odd_names_are_saved_and_found_again() {
    for name in ["two words.dance.json", "zwölf Ærø.dance.json", "-rf.dance.json", "a\nb.dance.json"] {
        let place = Place::new();
        let mut harness = place.window();
        let path = place.folder.path().join(name);
        take(&mut harness, Ask::File(FileAsk::SaveTo(path.clone())));
        edit(&mut harness, "Bram");
        save(&mut harness);
        assert_eq!(store::open(&path).unwrap(), dance(&harness), "{name:?}");
        assert_eq!(place.home.backups(&path).len(), 1);
        edit(&mut harness, "Wren");
        place.see_works(1);
        drop(harness);
        assert_eq!(place.home.recover()[0].path.as_deref(), Some(path.as_path()));
    }
}

#[test]
fn what_is_otherwise_in_two_dances_is_told() {
    let (one, mut other) = (titled("Ours"), titled("Ours"));
    assert!(what_changed(&one, &other).is_empty());
    other.figures[0].notes = "slower".to_owned();
    assert_eq!(what_changed(&one, &other), [format!("{} is changed", one.figures[0].name)]);
}
