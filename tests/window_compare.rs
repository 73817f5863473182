//! Ghosts in the window: bodies at the strong beats, and another version laid beside this one.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer};
use bellpad::desk::{Ask, Beats, CompareAsk, DrawAsk, FileAsk, PlayAsk, Question, ViewAsk};
use bellpad::edits::{drag_dancer, with_choice, with_figure};
use bellpad::figures::motion_of;
use bellpad::store;
use bellpad::window::KEYS;
use driven::{Driven, activate, press, sample, show_sample, take, write};
use egui::Key;
use egui_kittest::kittest::{NodeT, Queryable};
use std::path::{Path, PathBuf};

fn window() -> Driven {
    show_sample([1280.0, 1000.0])
}

/// The sample with 3 drawn elsewhere in the first hey, and its file.
fn version(folder: &Path) -> (Dance, PathBuf) {
    let dance = sample(0);
    let motion = motion_of(&dance, None).unwrap();
    let other = drag_dancer(&dance, &motion, Dancer(2), 5.0 * 32.0 + 6.0, -0.4, 0.3).unwrap();
    let path = folder.join("hey of last year.dance.json");
    store::save(&path, &other).unwrap();
    (other, path)
}

fn many(harness: &Driven) -> usize {
    harness.state().desk.compared().unwrap().comparison.many()
}

#[test]
fn beats_are_shown_by_key_and_by_button_and_kept_when_another_dance_is_opened() {
    let mut harness = window();
    assert_eq!(harness.state().desk.beats(), Beats::Hidden);
    press(&mut harness, Key::B);
    assert_eq!(harness.state().desk.beats(), Beats::Shown);
    assert_eq!(harness.state().desk.at_beats(), [Dancer(0)]);
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    assert_eq!(harness.state().desk.at_beats(), Dancer::all(6).collect::<Vec<_>>());
    take(&mut harness, Ask::File(FileAsk::OpenSample(2)));
    assert_eq!(harness.state().desk.beats(), Beats::Shown);
    activate(&mut harness, "beats");
    assert_eq!(harness.state().desk.beats(), Beats::Hidden);
    assert!(KEYS.iter().any(|(key, _)| *key == "B"));
    press(&mut harness, Key::F1);
    harness.get_by_label("where they are at the strong beats, on or off");
}

#[test]
fn beats_leave_the_window_at_rest() {
    let mut harness = window();
    take(&mut harness, Ask::View(ViewAsk::ToggleBeats));
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0 + 9.0)));
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    // `run` fails where the window asks to be painted again and again.
    harness.run();
}

#[test]
fn another_version_is_chosen_from_the_menu_and_its_differences_listed() {
    let folder = tempfile::tempdir().unwrap();
    let (_, path) = version(folder.path());
    let mut harness = window();
    activate(&mut harness, "File");
    activate(&mut harness, "Compare…");
    harness.get_by_label("Compare with another version");
    write(&mut harness, &path.display().to_string());
    press(&mut harness, Key::Enter);
    assert!(harness.state().desk.question().is_none());
    assert_eq!(*harness.state().desk.dance(), sample(0), "nothing is changed by looking");
    assert!(!harness.state().desk.unsaved());
    assert_eq!(many(&harness), 1);
    let part = harness.state().desk.compared().unwrap().comparison.parts[0].clone();
    let label = harness.state().desk.difference_words(&part);
    assert_eq!(label, "Hey · 3 · bars 1 to 3");
    harness.get_by_label("Beside the other version");
    // Clicking goes to the moment and chooses the dancer.
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    harness.get_by_label_contains(&label).click_accesskit();
    harness.run();
    let desk = &harness.state().desk;
    assert_eq!((desk.chosen(), desk.player().count), (Some(Dancer(2)), part.count));
    let (_, places) = desk.beside_here().unwrap();
    assert_eq!(places, [3], "only 3 is drawn beside");
    activate(&mut harness, "Stop comparing");
    assert!(harness.state().desk.compared().is_none());
    assert!(harness.query_by_label("Beside the other version").is_none());
}

/// Both files were opened before; only the other is offered to compare with.
#[test]
fn its_own_file_is_not_offered_to_compare_with() {
    let folder = tempfile::tempdir().unwrap();
    let (_, other) = version(folder.path());
    let own = folder.path().join("this year.dance.json");
    store::save(&own, &sample(0)).unwrap();
    let mut harness = window();
    for path in [&other, &own] {
        take(&mut harness, Ask::File(FileAsk::Open(path.clone())));
    }
    take(&mut harness, Ask::Compare(CompareAsk::Ask));
    harness.get_by_label("hey of last year.dance.json");
    assert!(harness.query_all_by_label("this year.dance.json").count() < 2, "the top bar alone has it");
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    take(&mut harness, Ask::File(FileAsk::AskOpen));
    assert_eq!(harness.query_all_by_label("this year.dance.json").count(), 2);
}

#[test]
fn a_part_is_taken_in_one_step_and_undone() {
    let folder = tempfile::tempdir().unwrap();
    let (other, path) = version(folder.path());
    let mut harness = window();
    take(&mut harness, Ask::Compare(CompareAsk::With(path)));
    take(&mut harness, Ask::Compare(CompareAsk::GoTo(0)));
    activate(&mut harness, "Take 3's part from it");
    assert_eq!(*harness.state().desk.dance(), other);
    assert_eq!(
        harness.state().desk.undo_name(),
        Some("take 3's part of Hey from hey of last year.dance.json")
    );
    harness.get_by_label("The two are danced alike");
    take(&mut harness, Ask::Undo);
    assert_eq!(*harness.state().desk.dance(), sample(0));
    assert_eq!(many(&harness), 1, "compared anew");
    take(&mut harness, Ask::Redo);
    assert!(harness.state().desk.compared().unwrap().comparison.alike());
    // Drawn here and named there: it is simply named again.
    let named = folder.path().join("named.dance.json");
    store::save(&named, &sample(0)).unwrap();
    take(&mut harness, Ask::Compare(CompareAsk::With(named)));
    take(&mut harness, Ask::Compare(CompareAsk::GoTo(0)));
    activate(&mut harness, "Take 3's part from it");
    assert_eq!(*harness.state().desk.dance(), sample(0));
}

#[test]
fn a_figure_is_taken_for_everyone() {
    let folder = tempfile::tempdir().unwrap();
    let dance = sample(0);
    let other = with_choice(&dance, dance.figure_index("hey").unwrap(), "inside", 0.45.into()).unwrap();
    let path = folder.path().join("wide.dance.json");
    store::save(&path, &other).unwrap();
    let mut harness = window();
    take(&mut harness, Ask::Compare(CompareAsk::With(path)));
    assert_eq!(many(&harness), 6);
    take(&mut harness, Ask::Compare(CompareAsk::GoTo(4)));
    activate(&mut harness, "Take the figure");
    harness.get_by_label("The two are danced alike");
    assert_eq!(harness.state().desk.undo_name(), Some("take Hey from wide.dance.json"));
    take(&mut harness, Ask::Undo);
    assert_eq!(*harness.state().desk.dance(), dance);
}

#[test]
fn an_edit_is_compared_while_it_is_dragged() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("same.dance.json");
    store::save(&path, &sample(0)).unwrap();
    let mut harness = window();
    take(&mut harness, Ask::Compare(CompareAsk::With(path)));
    harness.get_by_label("The two are danced alike");
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0 + 6.0)));
    // Before the hand lets go.
    harness.state_mut().desk.apply(Ask::Draw(DrawAsk::BeginDrag(bellpad::desk::Grip::Dancer(Dancer(1)))));
    harness.state_mut().desk.apply(Ask::Draw(DrawAsk::DragTo { x: 0.9, y: 0.4, reach: 0.0 }));
    assert_eq!(many(&harness), 1);
    harness.state_mut().desk.apply(Ask::Draw(DrawAsk::CancelDrag));
    assert_eq!(many(&harness), 0);
}

#[test]
fn what_cannot_be_compared_says_why() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    take(&mut harness, Ask::Compare(CompareAsk::With(folder.path().join("none.dance.json"))));
    assert!(
        matches!(harness.state().desk.question(), Some(Question::Trouble(said)) if said.contains("no such"))
    );
    take(&mut harness, Ask::View(ViewAsk::PutAway));
    let bad = folder.path().join("bad.dance.json");
    std::fs::write(&bad, "{\"bellpad\": 1").unwrap();
    take(&mut harness, Ask::Compare(CompareAsk::With(bad)));
    assert!(matches!(harness.state().desk.question(), Some(Question::Trouble(_))));
    assert!(harness.state().desk.compared().is_none());
    // Asks about differences that are not there change nothing.
    for ask in [
        Ask::Compare(CompareAsk::TakePart(0)),
        Ask::Compare(CompareAsk::TakeFigure(3)),
        Ask::Compare(CompareAsk::GoTo(9)),
    ] {
        take(&mut harness, ask);
    }
    assert_eq!(*harness.state().desk.dance(), sample(0));
}

#[test]
fn it_fits_the_smallest_window_and_has_names() {
    let folder = tempfile::tempdir().unwrap();
    let other = with_figure(&version(folder.path()).0, "corners", 2).unwrap();
    let path = folder.path().join("more.dance.json");
    store::save(&path, &other).unwrap();
    let mut harness = show_sample([900.0, 600.0]);
    take(&mut harness, Ask::Compare(CompareAsk::With(path)));
    take(&mut harness, Ask::View(ViewAsk::ToggleBeats));
    take(&mut harness, Ask::Compare(CompareAsk::GoTo(0)));
    for label in ["Undo", "Help", "File", "View", "Stop comparing", "beats"] {
        let node = harness.get_by_label(label);
        let rect = node.rect();
        assert!(rect.left() >= 0.0 && rect.right() <= 900.0 && rect.bottom() <= 600.0, "{label}: {rect:?}");
        assert!(node.accesskit_node().label().is_some());
    }
    // With the floor zoomed there is one more button in the row, and none of it lies under the card.
    take(&mut harness, Ask::View(ViewAsk::Zoom(1.5, [0.0, 0.0])));
    let floor = harness.state().floor_rect;
    for label in ["music at the top", "from the music", "as 3 faces", "paths", "beats", "fit"] {
        let rect = harness.get_by_label(label).rect();
        assert!(floor.contains_rect(rect), "{label}: {rect:?} in {floor:?}");
    }
    // The title, and what an edit would be undone by, do not run into each other.
    take(&mut harness, Ask::Compare(CompareAsk::TakePart(0)));
    let (title, undo) =
        (harness.get_by_label("This dance: Nine Geese Home").rect(), harness.get_by_label("Undo").rect());
    assert!(title.right() < undo.left(), "{title:?} {undo:?}");
}
