//! Whatever is typed in the window and cannot be taken stays where it was typed, with the focus, what is wrong and what may
//! have been meant; no letter of what is typed next becomes a command.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dancer, Number};
use bellpad::desk::{About, Ask, CompareAsk, FaultAsk, FileAsk, OrderAsk, PlayAsk, Question, ViewAsk};
use bellpad::store;
use driven::{
    Driven, activate, click, dance, desk, open_tab, press, press_with, show_dance, show_sample, six, strike,
    take, type_path, undo_name, write, write_path,
};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers};
use egui_kittest::kittest::{NodeT, Queryable};
use std::path::Path;

fn window() -> Driven {
    let mut harness = show_sample([1280.0, 800.0]);
    open_tab(&mut harness, "Set");
    open_tab(&mut harness, "Figure");
    harness
}

/// What letters change when they are commands: who is chosen, who follows, the loop, the beats, the paths, the view, the
/// playhead and whether it plays.
fn commanded(harness: &Driven) -> String {
    let desk = &harness.state().desk;
    let player = &desk.player();
    format!(
        "{:?} {:?} {:?} {} {:?} {} {:?} {} {}",
        desk.chosen(),
        desk.picked(),
        desk.together(),
        player.looping,
        desk.beats(),
        desk.trails(),
        desk.seen(),
        player.count,
        player.playing
    )
}

fn is_shown(harness: &Driven, words: &str) -> bool {
    harness.query_all_by_label_contains(words).next().is_some()
}

/// Whether a field has the focus, and what is in it.
fn in_field(harness: &Driven, role: Role, label: &str) -> (bool, String) {
    let field = harness.get_by_role_and_label(role, label);
    (field.is_focused(), field.value().unwrap_or_default())
}

/// Puts text in the place of what is in the field that has the focus, as a keyboard does.
fn strike_over(harness: &mut Driven, text: &str) {
    press_with(harness, Modifiers::COMMAND, Key::A);
    strike(harness, text);
}

fn focus(harness: &mut Driven, role: Role, label: &str) {
    harness.get_by_role_and_label(role, label).focus();
    harness.run();
}

/// The speeds of a figure are typed as they are told; half of one is nothing yet, and what cannot be is told.
#[test]
fn what_a_figure_is_played_at_is_typed() {
    let mut dance_of = six();
    dance_of.figures.push(bellpad::dance::Figure::drawn("figure-1", "Figure 1", 8));
    let mut harness = show_dance(dance_of, [1366.0, 768.0]);
    open_tab(&mut harness, "Figure");
    click(&mut harness, "played at");
    strike(&mut harness, "60, from bar 5 at 90");
    let told = |harness: &Driven| {
        dance(harness).figures[0].speeds.iter().map(|change| (change.count, change.speed)).collect::<Vec<_>>()
    };
    assert_eq!(told(&harness), [(0.0, 60.0), (16.0, 90.0)]);
    strike(&mut harness, ", from bar 12 at 70");
    press(&mut harness, Key::Enter);
    assert!(harness.query_by_label_contains("it has only 8 bars").is_some());
    assert_eq!(told(&harness), [], "as it was before anything was typed");
    press(&mut harness, Key::Escape);
    click(&mut harness, "played at");
    strike(&mut harness, "72");
    press(&mut harness, Key::Enter);
    assert_eq!(told(&harness), [(0.0, 72.0)]);
    assert_eq!(undo_name(&harness), "change the speeds of Figure 1");
}

#[test]
fn after_a_wrong_step_what_is_typed_is_still_the_stepping() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0)));
    let cross = dance(&harness).figure_index("cross").unwrap();
    let (before, was) = (commanded(&harness), dance(&harness).figures[cross].phrase.clone());
    focus(&mut harness, Role::TextInput, "stepping");
    strike_over(&mut harness, "2 dz");
    press(&mut harness, Key::Enter);
    assert_eq!(in_field(&harness, Role::TextInput, "stepping"), (true, "2 dz".to_owned()));
    assert!(is_shown(&harness, "\"dz\" is not a step (did you mean ds?)"));
    assert_eq!(dance(&harness).figures[cross].phrase, was);
    // What is typed now takes the place of the word that is wrong.
    strike(&mut harness, "ds");
    assert_eq!(in_field(&harness, Role::TextInput, "stepping"), (true, "2 ds".to_owned()));
    assert_eq!(dance(&harness).figures[cross].phrase, "2 ds");
    assert!(!is_shown(&harness, "is not a step"));
    // All of it anew, wrong again and more than once.
    for text in ["5 ds", "2 ds, 3 hop"] {
        strike_over(&mut harness, text);
        for _ in 0..2 {
            press(&mut harness, Key::Enter);
            assert_eq!(in_field(&harness, Role::TextInput, "stepping"), (true, text.to_owned()));
        }
        assert!(is_shown(&harness, "do not fill") || is_shown(&harness, "\"hop\" is not a step"));
    }
    assert_eq!(dance(&harness).figures[cross].phrase, was, "half a phrase is nothing to keep");
    assert_eq!(commanded(&harness), before);
    // Put right it is left by Enter, and keys are commands again.
    strike_over(&mut harness, "4 ds");
    press(&mut harness, Key::Enter);
    assert!(!in_field(&harness, Role::TextInput, "stepping").0);
    strike(&mut harness, "b");
    assert_ne!(commanded(&harness), before);
    assert_eq!(dance(&harness).figures[cross].phrase, "4 ds");
}

#[test]
fn escape_puts_a_wrong_stepping_away_and_another_figure_does_not_have_it() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0)));
    let cross = dance(&harness).figure_index("cross").unwrap();
    let was = dance(&harness).figures[cross].phrase.clone();
    focus(&mut harness, Role::TextInput, "stepping");
    strike_over(&mut harness, "2 dz");
    press(&mut harness, Key::Escape);
    assert_eq!(in_field(&harness, Role::TextInput, "stepping"), (false, was.clone()));
    assert!(!is_shown(&harness, "is not a step"));
    // Left by going elsewhere it stays to be put right.
    focus(&mut harness, Role::TextInput, "stepping");
    strike_over(&mut harness, "2 dz");
    press(&mut harness, Key::Tab);
    assert_eq!(in_field(&harness, Role::TextInput, "stepping"), (false, "2 dz".to_owned()));
    assert!(is_shown(&harness, "did you mean ds?"));
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0)));
    assert!(!is_shown(&harness, "did you mean ds?"));
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0)));
    assert!(is_shown(&harness, "did you mean ds?"));
    // Another phrase from elsewhere takes its place.
    take(&mut harness, Ask::Order(OrderAsk::SetPhrase(cross, "4 ds".to_owned())));
    assert_eq!(in_field(&harness, Role::TextInput, "stepping"), (false, "4 ds".to_owned()));
}

/// A phrase that is given up half-way leaves nothing of itself in the dance, however it is given up.
#[test]
fn half_a_phrase_is_not_danced() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0)));
    let before = dance(&harness);
    for leave in [true, false] {
        focus(&mut harness, Role::TextInput, "stepping");
        press_with(&mut harness, Modifiers::COMMAND, Key::A);
        let mut danced = 0;
        for letter in "2 ds, 2 zz".chars() {
            strike(&mut harness, &letter.to_string());
            danced += usize::from(dance(&harness) != before);
        }
        assert!(danced > 0, "what can be danced is danced as it is typed");
        assert_eq!(dance(&harness), before, "what cannot leaves what there was");
        if leave {
            press(&mut harness, Key::Escape);
            assert_eq!(in_field(&harness, Role::TextInput, "stepping").1, "");
        } else {
            take(&mut harness, Ask::View(ViewAsk::Choose(None)));
        }
        assert_eq!(dance(&harness), before);
        assert_eq!(harness.state().desk.undo_name(), None, "and there is nothing to undo");
    }
    // One that can be danced, and is given up by Escape, is given up too; one that is entered stays.
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    for (key, kept) in [(Key::Escape, false), (Key::Enter, true)] {
        focus(&mut harness, Role::TextInput, "stepping");
        strike_over(&mut harness, "4 ds");
        assert_ne!(dance(&harness), before);
        press(&mut harness, key);
        assert_eq!(dance(&harness) != before, kept, "{key:?}");
    }
}

#[test]
fn nobody_is_told_in_the_middle_of_a_word() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0)));
    focus(&mut harness, Role::TextInput, "stepping");
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    for letter in "2 ds, 2 ss, ftj".chars() {
        strike(&mut harness, &letter.to_string());
        assert!(!is_shown(&harness, "is not a") && !is_shown(&harness, "do not fill"), "after {letter:?}");
    }
    strike_over(&mut harness, "3 ds, s");
    assert!(!is_shown(&harness, "is not a step"));
    press(&mut harness, Key::Enter);
    assert!(is_shown(&harness, "\"s\" is not a step"), "now somebody is done with it");
}

#[test]
fn a_failed_save_keeps_the_path_and_what_is_typed_next() {
    let folder = tempfile::tempdir().unwrap();
    let nowhere = folder.path().join("none").join("geese.dance.json");
    let mut harness = window();
    let before = commanded(&harness);
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    type_path(&mut harness, &nowhere);
    harness.get_by_label("Save the dance");
    assert!(is_shown(&harness, "make the folder first"));
    assert_eq!(
        in_field(&harness, Role::TextInput, "Path"),
        (true, nowhere.display().to_string()),
        "the path stays, to be put right"
    );
    press(&mut harness, Key::End);
    strike(&mut harness, "mlb");
    assert_eq!(in_field(&harness, Role::TextInput, "Path").1, format!("{}mlb", nowhere.display()));
    assert_eq!(commanded(&harness), before);
    // Put right it is saved, under the name that is there now.
    let there = folder.path().join("geese.dance.json");
    type_path(&mut harness, &there);
    assert!(harness.state().desk.question().is_none());
    assert_eq!(store::open(&there).unwrap(), dance(&harness));
}

#[test]
fn what_waits_for_a_save_still_waits_after_one_that_failed() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Bram Oakhurst".to_owned())));
    let ours = dance(&harness);
    take(&mut harness, Ask::File(FileAsk::OpenSample(1)));
    take(&mut harness, Ask::File(FileAsk::SaveAndGoOn));
    type_path(&mut harness, &folder.path().join("none").join("x.dance.json"));
    assert_eq!(dance(&harness), ours);
    let there = folder.path().join("x.dance.json");
    type_path(&mut harness, &there);
    assert_eq!(store::open(&there).unwrap(), ours);
    assert_eq!(dance(&harness).title, "Low Water");
}

#[test]
fn a_save_that_fails_without_a_dialog_asks_for_another_path() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("inner").join("geese.dance.json");
    std::fs::create_dir(folder.path().join("inner")).unwrap();
    let mut harness = window();
    take(&mut harness, Ask::File(FileAsk::SaveTo(path.clone())));
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Bram Oakhurst".to_owned())));
    // The folder has become a file.
    std::fs::remove_dir_all(folder.path().join("inner")).unwrap();
    std::fs::write(folder.path().join("inner"), "in the way").unwrap();
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    if is_shown(&harness, "The file is gone") {
        activate(&mut harness, "Save it there again");
    }
    harness.get_by_label("Save the dance");
    assert_eq!(in_field(&harness, Role::TextInput, "Path"), (true, path.display().to_string()));
    let other = folder.path().join("other.dance.json");
    type_path(&mut harness, &other);
    assert_eq!(store::open(&other).unwrap(), dance(&harness));
}

/// Types a path that leads nowhere into the dialog that a key opens, and then one that is right.
#[track_caller]
fn wrong_then_right(harness: &mut Driven, key: Key, [wrong, right]: [&Path; 2], said: &str) {
    let before = commanded(harness);
    press_with(harness, Modifiers::COMMAND, key);
    if key == Key::E {
        // How it is to look is asked first.
        press(harness, Key::Enter);
    }
    type_path(harness, wrong);
    harness.run();
    assert_eq!(in_field(harness, Role::TextInput, "Path"), (true, wrong.display().to_string()), "{said}");
    assert!(is_shown(harness, said), "{said}");
    strike(harness, "mlb 2");
    assert_eq!(commanded(harness), before);
    type_path(harness, right);
    assert!(harness.state().desk.question().is_none(), "{said}");
}

#[test]
fn a_file_that_cannot_be_opened_or_written_keeps_its_path() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("low-water.dance.json");
    std::fs::write(&file, bellpad::desk::SAMPLES[1].1).unwrap();
    let mut harness = window();
    let still = folder.path().join("still.png");
    let nowhere = folder.path().join("none").join("still.png");
    wrong_then_right(&mut harness, Key::E, [&nowhere, &still], "make the folder first");
    assert!(still.exists());
    // A name that is nearly right is told with the one that was meant.
    let slip = folder.path().join("low-watr.dance.json");
    wrong_then_right(&mut harness, Key::O, [&slip, &file], "did you mean low-water.dance.json?");
    assert_eq!(dance(&harness).title, "Low Water");
    // What is no dance is told with its place, and the dance on the desk stays.
    let broken = folder.path().join("broken.dance.json");
    std::fs::write(&broken, "{\"bellpad\": 1, ").unwrap();
    wrong_then_right(&mut harness, Key::O, [&broken, &file], "broken.dance.json is damaged");
}

#[test]
fn another_version_or_a_handout_that_fails_keeps_its_path() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    let nowhere = folder.path().join("none").join("x.dance.json");
    take(&mut harness, Ask::Compare(CompareAsk::Ask));
    type_path(&mut harness, &nowhere);
    assert_eq!(in_field(&harness, Role::TextInput, "Path"), (true, nowhere.display().to_string()));
    press(&mut harness, Key::Escape);
    assert!(harness.state().desk.question().is_none());
    take(&mut harness, Ask::File(FileAsk::AskHandoutPath));
    let nowhere = folder.path().join("none").join("sheet.pdf");
    type_path(&mut harness, &nowhere);
    let begun = std::time::Instant::now();
    while !matches!(harness.state().desk.question(), Some(Question::Path(_))) {
        assert!(begun.elapsed() < std::time::Duration::from_mins(1), "the handout has not come to anything");
        std::thread::sleep(std::time::Duration::from_millis(20));
        harness.step();
    }
    harness.run();
    assert_eq!(in_field(&harness, Role::TextInput, "Path"), (true, nowhere.display().to_string()));
    assert!(is_shown(&harness, "make the folder first"));
}

#[test]
fn a_number_that_is_none_stays_with_what_is_wrong() {
    let mut harness = window();
    let (before, set) = (commanded(&harness), dance(&harness).set);
    for (typed, said) in [
        ("abc", "\"abc\" is not a number"),
        ("2..4", "did you mean 2.4?"),
        ("5000", "at most 1000 m"),
        ("0.01", "at least 0.1 m"),
        ("-", "a number from 0.1 to 1000 m"),
        ("", "a number from 0.1 to 1000 m"),
    ] {
        focus(&mut harness, Role::SpinButton, "across m");
        strike_over(&mut harness, typed);
        if typed.is_empty() {
            press(&mut harness, Key::Backspace);
        }
        press(&mut harness, Key::Enter);
        assert!(is_shown(&harness, said), "{typed}: {said}");
        assert!(harness.get_by_role_and_label(Role::SpinButton, "across m").is_focused(), "{typed}");
        strike(&mut harness, "mlb");
        assert_eq!(commanded(&harness), before, "{typed}");
        assert_eq!(dance(&harness).set, set, "{typed}");
        press(&mut harness, Key::Escape);
        assert!(!is_shown(&harness, said), "{typed}");
        assert_eq!(commanded(&harness), before, "{typed}");
    }
    focus(&mut harness, Role::SpinButton, "across m");
    strike_over(&mut harness, "2,6 m");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).set.across, 2.6);
    assert!(!harness.get_by_role_and_label(Role::SpinButton, "across m").is_focused());
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness).set, set, "what was typed is one step");
}

#[test]
fn a_number_that_cannot_be_danced_stays_and_says_why() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0)));
    let (before, letters) = (dance(&harness), commanded(&harness));
    let hey = before.figure_index("hey").unwrap();
    // The files are 2.40 m apart: there is no strand of the hey 1.50 m inside them, nor any where they are 0.60 m apart.
    for (label, typed) in [("inside strand", "1.5"), ("across m", "0.6")] {
        focus(&mut harness, Role::SpinButton, label);
        strike_over(&mut harness, typed);
        for _ in 0..2 {
            press(&mut harness, Key::Enter);
            assert!(harness.get_by_role_and_label(Role::SpinButton, label).is_focused(), "{label}");
            assert!(
                harness.query_all_by_label_contains("too close for an inside strand").count() > 0,
                "{label}"
            );
        }
        strike(&mut harness, "mlb");
        assert_eq!(commanded(&harness), letters);
        press(&mut harness, Key::Escape);
        assert_eq!(dance(&harness), before, "{label}");
    }
    focus(&mut harness, Role::SpinButton, "inside strand");
    strike_over(&mut harness, "0.4");
    press(&mut harness, Key::Enter);
    assert!(!harness.get_by_role_and_label(Role::SpinButton, "inside strand").is_focused());
    let named = dance(&harness).figures[hey].named.clone().unwrap();
    assert_eq!(named.with["inside"], 0.4);
}

#[test]
fn arrows_and_dragging_still_change_a_number() {
    let mut harness = window();
    let across = dance(&harness).set.across;
    focus(&mut harness, Role::SpinButton, "across m");
    press(&mut harness, Key::ArrowUp);
    press(&mut harness, Key::ArrowUp);
    assert!((dance(&harness).set.across - across - 0.02).abs() < 1e-9, "{}", dance(&harness).set.across);
    press(&mut harness, Key::ArrowDown);
    assert!((dance(&harness).set.across - across - 0.01).abs() < 1e-9);
    press(&mut harness, Key::Escape);
    let from = harness.get_by_role_and_label(Role::SpinButton, "across m").rect().center();
    driven::drag(&mut harness, from, from + egui::vec2(40.0, 0.0));
    assert!(dance(&harness).set.across > across + 0.1, "{}", dance(&harness).set.across);
}

#[test]
fn a_number_in_a_dialog_is_not_taken_for_what_it_was() {
    let mut harness = window();
    take(&mut harness, Ask::Order(OrderAsk::NewFigure));
    let figure = dance(&harness).figures.len() - 1;
    let bars = dance(&harness).figures[figure].bars;
    take(&mut harness, Ask::Order(OrderAsk::Write(About::Bars(figure))));
    for typed in ["abc", "0", "2.5", "90000"] {
        strike_over(&mut harness, typed);
        press(&mut harness, Key::Enter);
        assert!(harness.state().desk.question().is_some(), "{typed} closed the dialog");
        assert_eq!(dance(&harness).figures[figure].bars, bars);
        activate(&mut harness, "Done");
        assert!(harness.state().desk.question().is_some(), "{typed} was taken by the button");
        focus(&mut harness, Role::SpinButton, "How many bars it takes, wherever it is danced");
    }
    strike_over(&mut harness, "12");
    press(&mut harness, Key::Enter);
    assert!(harness.state().desk.question().is_none());
    assert_eq!(dance(&harness).figures[figure].bars, 12);
}

#[test]
fn a_limit_that_cannot_be_stays_in_its_field() {
    let mut harness = window();
    take(&mut harness, Ask::Fault(FaultAsk::AskLimits));
    let before = dance(&harness).limits;
    focus(&mut harness, Role::SpinButton, "Longest step");
    strike_over(&mut harness, "1o0");
    press(&mut harness, Key::Enter);
    assert!(is_shown(&harness, "did you mean 100?"));
    assert!(harness.get_by_role_and_label(Role::SpinButton, "Longest step").is_focused());
    assert_eq!(dance(&harness).limits, before);
    strike_over(&mut harness, "1.8");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).limits.step, Some(1.8));
    assert!(harness.state().desk.question().is_some(), "Enter is for the number");
}

#[test]
fn a_figure_without_a_name_stays_to_be_named() {
    let mut harness = window();
    let before = commanded(&harness);
    let name = dance(&harness).figures[0].name.clone();
    open_tab(&mut harness, "Order");
    let line = harness.query_all_by_label_contains("1. ").next().unwrap();
    line.focus();
    harness.run();
    press(&mut harness, Key::F2);
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    press(&mut harness, Key::Backspace);
    press(&mut harness, Key::Enter);
    assert!(is_shown(&harness, "a figure needs a name"));
    strike(&mut harness, "mlb");
    assert_eq!(commanded(&harness), before);
    press(&mut harness, Key::Enter);
    assert!(dance(&harness).figures.iter().any(|figure| figure.name == "mlb"));
    take(&mut harness, Ask::Undo);
    assert!(dance(&harness).figures.iter().any(|figure| figure.name == name));
}

#[test]
fn why_the_side_means_it_is_asked_until_it_is_said_or_left() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(2.0 * 32.0 + 24.0)));
    let from = driven::place(&mut harness, 0);
    driven::drag(&mut harness, from, from + egui::vec2(-60.0, 0.0));
    take(&mut harness, Ask::Fault(FaultAsk::AskAllow(0)));
    press(&mut harness, Key::Enter);
    assert!(is_shown(&harness, "why you mean it"));
    strike(&mut harness, "a lark");
    // The way to the buttons is open.
    press(&mut harness, Key::Tab);
    press(&mut harness, Key::Tab);
    assert!(harness.get_by_label("Cancel").is_focused());
    press_with(&mut harness, Modifiers::SHIFT, Key::Tab);
    assert!(harness.get_by_label("We mean it").is_focused());
    press(&mut harness, Key::Enter);
    assert!(harness.state().desk.question().is_none());
    assert!(
        dance(&harness).figures.iter().flat_map(|figure| &figure.allow).any(|allow| allow.reason == "a lark")
    );
}

#[test]
fn a_new_dance_is_called_what_is_typed_at_once() {
    for by_button in [true, false] {
        let mut harness = window();
        press_with(&mut harness, Modifiers::COMMAND, Key::N);
        assert!(in_field(&harness, Role::TextInput, "Title").0, "the title has the focus");
        strike(&mut harness, "Ferry Lights 2");
        assert_eq!(in_field(&harness, Role::TextInput, "Title").1, "Ferry Lights 2");
        if by_button {
            click(&mut harness, "Make it");
        } else {
            press(&mut harness, Key::Enter);
        }
        assert!(harness.state().desk.question().is_none(), "{by_button}");
        assert_eq!(dance(&harness).title, "Ferry Lights 2");
    }
    let mut harness = window();
    let before = dance(&harness);
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    strike(&mut harness, "Ferry");
    press(&mut harness, Key::Escape);
    assert!(harness.state().desk.question().is_none());
    assert_eq!(dance(&harness), before);
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).title, "New dance", "what it was proposed to be called");
}

#[test]
fn a_new_dance_is_not_made_of_a_wrong_number() {
    let mut harness = window();
    let before = dance(&harness);
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    focus(&mut harness, Role::SpinButton, "Across the files");
    strike_over(&mut harness, "24");
    activate(&mut harness, "Make it");
    assert!(harness.state().desk.question().is_some());
    assert!(is_shown(&harness, "at most 20 m"));
    assert_eq!(dance(&harness), before);
    focus(&mut harness, Role::SpinButton, "Across the files");
    strike_over(&mut harness, "2.8");
    click(&mut harness, "Make it");
    assert_eq!(dance(&harness).set.across, 2.8, "typed and not entered");
}

#[test]
fn a_path_proposed_is_typed_over_and_counts_by_the_button() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("geese.dance.json");
    let mut harness = window();
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    harness.event(Event::Text("x".to_owned()));
    harness.run();
    assert_eq!(in_field(&harness, Role::TextInput, "Path"), (true, "x".to_owned()), "all of it was chosen");
    write_path(&mut harness, &path);
    harness.get_all_by_label("Save").last().unwrap().click_accesskit();
    harness.run();
    assert_eq!(store::open(&path).unwrap(), dance(&harness));
    write(&mut harness, "");
}

#[test]
fn letters_typed_at_a_question_go_nowhere() {
    let mut harness = window();
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(1), "Bram".to_owned())));
    // The name on the card is the first field that can be typed in.
    harness.get_all_by_role(Role::TextInput).next().unwrap().focus();
    harness.run();
    let (before, ours) = (commanded(&harness), dance(&harness));
    press_with(&mut harness, Modifiers::COMMAND, Key::Q);
    harness.get_by_label("This dance is not saved");
    strike(&mut harness, "mlb 2");
    assert_eq!(dance(&harness), ours);
    assert_eq!(commanded(&harness), before);
    press(&mut harness, Key::Escape);
    assert!(harness.state().desk.question().is_none() && !harness.state().desk.may_close());
    // Nor at what could not be done.
    take(&mut harness, Ask::File(FileAsk::StillTo("none/of/these.png".into())));
    strike(&mut harness, "mlb2");
    assert_eq!((dance(&harness), commanded(&harness)), (ours, before));
}

/// A step may be written by its whole name: it is danced as its letters, which stand there once it is written, and the phrase says
/// what it means.
#[test]
fn steps_can_be_written_by_their_whole_names() {
    let mut harness = show_sample([1366.0, 768.0]);
    open_tab(&mut harness, "Figure");
    let span = desk(&harness).span_here().unwrap().figure;
    let phrase = |harness: &Driven| desk(harness).dance().figures[span].phrase.clone();
    harness.get_by_role_and_label(Role::TextInput, "stepping").focus();
    harness.run();
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    strike(&mut harness, "2 double steps, 2 single step, feet");
    assert!(
        harness.query_all_by_label_contains("feet-together jump").next().is_some(),
        "the rest is offered"
    );
    strike(&mut harness, " together jump");
    press(&mut harness, Key::Enter);
    assert_eq!(phrase(&harness), "2 ds, 2 ss, ftj");
    let shown = harness.get_by_role_and_label(Role::TextInput, "stepping");
    assert_eq!(shown.accesskit_node().value().as_deref(), Some("2 ds, 2 ss, ftj"));
    assert!(harness.query_by_label("2 double steps, 2 single steps, feet-together jump").is_some());
    // Of a name of several words the whole is offered, and taken by its letters.
    harness.get_by_role_and_label(Role::TextInput, "stepping").focus();
    harness.run();
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    strike(&mut harness, "2 double st");
    press(&mut harness, Key::ArrowDown);
    press(&mut harness, Key::Enter);
    let shown = harness.get_by_role_and_label(Role::TextInput, "stepping");
    assert_eq!(shown.accesskit_node().value().as_deref(), Some("2 ds"));
}
