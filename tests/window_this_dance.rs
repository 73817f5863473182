//! All that is said of a dance as a whole, said in the window: its title, notes, people and tune.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/painted.rs"]
mod painted;

use bellpad::dance::{Holding, Metre};
use bellpad::desk::{AboutAsk, Ask, Question};
use bellpad::sound::SoundKind;
use driven::{
    Driven, click, dance, desk, hold, let_go, press, press_with, show_dance, six, strike, take, undo_name,
    write,
};
use egui::{Event, Key, Modifiers, accesskit::Role};
use egui_kittest::kittest::{NodeT, Queryable};
use painted::words;

const SIZE: [f32; 2] = [1366.0, 768.0];
const REEDS: &str = "X:1\nT:The Reeds\nM:6/8\nL:1/8\nQ:3/8=104\nK:G\nD|:GAB d2B|cBA G3:||:d2d cBA|G3 G2:|\n";
const FERRY: &str = "X:2\nT:Ferry Stairs\nM:4/4\nL:1/8\nK:D\n|:d2f2 a2f2|e2A2 e4:|\n";

fn open(harness: &mut Driven, tab: &str) {
    click(harness, "This dance: Test");
    click(harness, tab);
}

fn click_at(harness: &mut Driven, place: egui::Pos2) {
    hold(harness, place);
    let_go(harness, place);
}

fn paste(harness: &mut Driven, text: &str) {
    harness
        .get_by_role_and_label(
            Role::MultilineTextInput,
            "The tune in ABC notation: type it, or paste it from a page, a mail or a file",
        )
        .focus();
    harness.run();
    harness.event(Event::Paste(text.to_owned()));
    harness.run();
}

/// From an empty dance to a tune in four actions: the title, the part about the tune, the field, and pasting.
#[test]
fn a_dance_gets_a_tune_by_pasting_it() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    paste(&mut harness, &format!("\u{feff}{}", REEDS.replace('\n', "\r\n")));
    let music = dance(&harness).music;
    assert_eq!(music.abc, REEDS);
    assert_eq!((music.metre, music.speed, music.upbeat), (Metre::SixEight, 104.0, 1));
    let strains: Vec<(&str, u32)> =
        music.strains.iter().map(|strain| (strain.name.as_str(), strain.bars)).collect();
    assert_eq!(strains, [("A", 2), ("B", 2)]);
    assert!(harness.query_by_label_contains("Cleaned: a mark at the start of the file").is_some());
    assert_eq!(undo_name(&harness), "change the tune");
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), six());
}

#[test]
fn a_new_dance_can_be_given_a_tune_at_once() {
    let mut harness = show_dance(six(), SIZE);
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    let paste = |harness: &mut Driven, text: &str| {
        harness.get_by_role_and_label(Role::MultilineTextInput, "Tune").focus();
        harness.run();
        press_with(harness, Modifiers::COMMAND, Key::A);
        harness.event(Event::Paste(text.to_owned()));
        harness.run();
    };
    paste(&mut harness, "K:G\nGAB\n");
    assert!(harness.query_by_label_contains("there is no metre here").is_some());
    paste(&mut harness, &format!("\u{feff}{REEDS}\n{FERRY}"));
    assert!(harness.query_by_label("the first of 2; another is chosen under This dance").is_some());
    paste(&mut harness, REEDS);
    assert!(harness.query_by_label("6/8, 2 strains").is_some());
    click(&mut harness, "Make it");
    let music = dance(&harness).music;
    assert_eq!(music.abc, REEDS);
    assert_eq!((music.metre, music.speed, music.upbeat), (Metre::SixEight, 104.0, 1));
}

/// The tune is heard by itself in a fifth action, as its strains are repeated, and before anybody dances: at 104 strong beats a minute a
/// bar of two lasts 120/104 s.
#[test]
fn the_tune_is_listened_to_by_itself() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    paste(&mut harness, REEDS);
    click(&mut harness, "Listen");
    let heard = harness.state().desk.listening().unwrap().clone();
    let quaver = 20.0 / 104.0;
    // D and two bars, twice, and two bars of which the last has five quavers, twice.
    assert!((heard.clock.seconds(heard.end) - 47.0 * quaver).abs() < 1e-9, "{}", heard.end);
    assert_eq!(heard.speed, 1.0);
    let notes: Vec<(f64, u8)> = heard
        .sounds
        .iter()
        .filter_map(|sound| match sound.kind {
            SoundKind::Note(key) => Some((sound.begin, key)),
            _ => None,
        })
        .collect();
    // D|:GAB d2B| ... and the strain again after two bars.
    let expected = [(0.0, 62), (1.0, 67), (2.0, 69), (3.0, 71), (4.0, 74), (6.0, 71)];
    for ((begin, key), (quavers, expected)) in notes.iter().zip(expected) {
        assert!((begin - quavers * quaver).abs() < 1e-9 && *key == expected, "{notes:?}");
    }
    let at =
        |quavers: f64| notes.iter().find(|(begin, _)| (begin - quavers * quaver).abs() < 1e-9).unwrap().1;
    assert_eq!([1.0, 13.0, 25.0, 36.0].map(at), [67, 67, 74, 74]);
    click(&mut harness, "Stop");
    assert!(harness.state().desk.listening().is_none());
    click(&mut harness, "Listen");
    click(&mut harness, "Done");
    assert!(harness.state().desk.listening().is_none(), "it ends with the dialog");
}

/// Typed letter by letter, a tune brings what it says of metre, speed and strains as a pasted one does; until somebody says otherwise.
#[test]
fn a_tune_that_is_typed_is_followed_as_it_grows() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    let field = "The tune in ABC notation: type it, or paste it from a page, a mail or a file";
    harness.get_by_role_and_label(Role::MultilineTextInput, field).focus();
    harness.run();
    let typed = |harness: &mut Driven, text: &str| {
        for letter in text.chars() {
            if letter == '\n' {
                press(harness, Key::Enter);
            } else {
                write(harness, &letter.to_string());
            }
        }
    };
    typed(&mut harness, "X:1\nM:6/8\nL:1/8\nQ:3/8=112\nK:G\nD|:GAB d2B|cBA B2:|");
    let music = dance(&harness).music;
    assert_eq!((music.metre, music.speed, music.upbeat), (Metre::SixEight, 112.0, 1));
    assert_eq!((music.strains.len(), music.strains[0].bars), (1, 2));
    // Somebody dances it slower: that stays.
    take(&mut harness, Ask::About(AboutAsk::SetSpeed(90.0)));
    harness.get_by_role_and_label(Role::MultilineTextInput, field).focus();
    harness.run();
    typed(&mut harness, "\nG6|");
    assert_eq!(dance(&harness).music.speed, 90.0);
}

/// A speed that is typed by its bar is where the tune has that bar: of [MB1]'s dibbing shape (five bars of 6/8 and one of 9/8, twice) bar 9
/// begins two counts later than in bars of one metre.
#[test]
fn a_speed_from_a_bar_is_where_the_tune_has_that_bar() {
    let six = "GAB dBG|AGE D2E|GAB dBd|e3 d3|g2e dBG|";
    let dibs = format!(
        "X:1\nT:Dibs\nM:6/8\nL:1/8\nK:G\nP:A\n|:{six}[M:9/8]AGE D2E G3|[M:6/8]{six}[M:9/8]AGE D2E G3:|\n"
    );
    let mut harness = show_dance(driven::six(), SIZE);
    open(&mut harness, "Tune");
    paste(&mut harness, &dibs);
    let field = harness.query_all_by_role_and_label(Role::TextInput, "Speed").last().unwrap().rect().center();
    click_at(&mut harness, field);
    strike(&mut harness, "100, from bar 9 at 60");
    press(&mut harness, Key::Enter);
    let strain = dance(&harness).music.strains[0].clone();
    let told: Vec<_> = strain.speeds.iter().map(|change| (change.count, change.speed)).collect();
    assert_eq!((strain.bars, told), (12, vec![(0.0, 100.0), (5.0 * 4.0 + 6.0 + 2.0 * 4.0, 60.0)]));
}

/// Strains are put in order by their names, letter by letter; one that the tune does not have is renamed with all that is danced to it.
#[test]
fn strains_are_ordered_and_named_by_typing() {
    let mut of = six();
    let mut figure = bellpad::dance::Figure::drawn("one", "One", 8);
    figure.phrase.clear();
    of.figures.push(figure);
    of.order = vec![bellpad::dance::Entry { strain: "A".to_owned(), ..bellpad::dance::Entry::of("one") }];
    let mut harness = show_dance(of, SIZE);
    open(&mut harness, "Tune");
    click(&mut harness, "+ Strain");
    click(&mut harness, "+ Strain");
    click(&mut harness, "Played");
    strike(&mut harness, "a A b");
    assert_eq!(dance(&harness).music.played, ["A", "A", "B"]);
    strike(&mut harness, " c");
    press(&mut harness, Key::Enter);
    assert!(harness.query_by_label_contains("no strain is called \"c\"").is_some());
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    strike(&mut harness, "A B");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).music.played, ["A", "B"]);
    let names: Vec<_> = harness
        .query_all_by_role_and_label(Role::TextInput, "Strain")
        .map(|node| node.rect().center())
        .collect();
    click_at(&mut harness, names[0]);
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    press(&mut harness, Key::Backspace);
    assert_eq!(dance(&harness).music.strains[0].name, "A", "no name is none yet");
    strike(&mut harness, "Slow");
    press(&mut harness, Key::Enter);
    let dance = dance(&harness);
    assert_eq!((dance.music.strains[0].name.as_str(), dance.order[0].strain.as_str()), ("Slow", "Slow"));
}

/// Escape is for the field that has the focus first, and gives back its text; pressed again it puts the dialog away.
#[test]
fn escape_leaves_a_field_before_the_dialog() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    click(&mut harness, "+ Strain");
    for (name, typed) in [("Played", "A A x"), ("Speed", "60, from"), ("Strain", "Slo")] {
        let field =
            harness.query_all_by_role_and_label(Role::TextInput, name).last().unwrap().rect().center();
        click_at(&mut harness, field);
        press_with(&mut harness, Modifiers::COMMAND, Key::A);
        let before = harness.state().desk.dance().clone();
        strike(&mut harness, typed);
        press(&mut harness, Key::Escape);
        assert!(desk(&harness).question().is_some(), "{name}: the dialog stays");
        assert_eq!(dance(&harness), before, "{name} is as it was");
        click(&mut harness, "This dance");
    }
    let upbeat = harness.get_by_role_and_label(Role::SpinButton, "Upbeat").rect().center();
    click_at(&mut harness, upbeat);
    strike(&mut harness, "3");
    press(&mut harness, Key::Escape);
    assert!(desk(&harness).question().is_some(), "the dialog stays");
    assert_eq!(dance(&harness).music.upbeat, 0);
    press(&mut harness, Key::Escape);
    assert!(desk(&harness).question().is_none(), "the second is for the dialog");
}

/// A strain of the tune is called as the tune calls it, and whoever would type another name is told so.
#[test]
fn who_would_rename_a_strain_of_the_tune_is_told_why_not() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    paste(&mut harness, REEDS);
    let why = "The tune calls it A";
    assert!(harness.query_by_label_contains(why).is_none());
    let place =
        harness.query_all_by_role_and_label(Role::TextInput, "Strain").next().unwrap().rect().center();
    click_at(&mut harness, place);
    strike(&mut harness, "x");
    assert!(harness.query_by_label_contains(why).is_some());
    assert_eq!(dance(&harness).music.strains[0].name, "A");
    press(&mut harness, Key::Escape);
    harness.event(Event::PointerMoved(egui::pos2(2.0, 2.0)));
    harness.run();
    assert!(harness.query_by_label_contains(why).is_none() && desk(&harness).question().is_some());
}

/// What was pasted is taken once: the frames after it find nothing new.
#[test]
fn a_pasted_tune_is_worked_out_once() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    let field = "The tune in ABC notation: type it, or paste it from a page, a mail or a file";
    harness.get_by_role_and_label(Role::MultilineTextInput, field).focus();
    harness.run();
    harness.event(Event::Paste(REEDS.to_owned()));
    harness.step();
    let made = std::sync::Arc::clone(desk(&harness).motion());
    assert_eq!(dance(&harness).music.abc, REEDS);
    harness.run();
    assert!(std::sync::Arc::ptr_eq(&made, desk(&harness).motion()));
}

/// What is refused is told with the names of the window, whole under the pointer where it is cut.
#[test]
fn what_is_refused_is_told_by_its_name() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    take(&mut harness, Ask::About(AboutAsk::SetUpbeat(9)));
    let said = "Upbeat: 9 counts; an upbeat has 0 to 6";
    assert_eq!(desk(&harness).notice(), Some(said));
    assert!(harness.query_all_by_label(said).count() > 0);
}

/// Words of one size that stand side by side in a dialog stand on one line: what names a field and what is in it.
#[test]
fn labels_stand_on_the_line_of_their_fields() {
    let mut harness = show_dance(six(), SIZE);
    let mut off = Vec::new();
    let mut look = |harness: &Driven, dialog: &str, least: usize| {
        let place = harness.get_by_label(dialog).rect();
        // The dialog lies over the window: what is painted after its heading is in it.
        let words = words(harness);
        let first =
            words.iter().rposition(|words| words.text == dialog && words.place.intersects(place)).unwrap();
        let inside = &words[first..];
        let mut pairs = 0;
        for (index, one) in inside.iter().enumerate() {
            for other in &inside[index + 1..] {
                let gap = other.place.left() - one.place.right();
                let overlap =
                    one.place.bottom().min(other.place.bottom()) - one.place.top().max(other.place.top());
                let beside = (0.0..200.0).contains(&gap) && overlap > 0.5 * one.place.height();
                if beside && one.size == other.size {
                    pairs += 1;
                    // More is another line of a field of several.
                    if (0.6..8.0).contains(&(one.baseline - other.baseline).abs()) {
                        off.push(format!(
                            "{dialog}: {} {:.1} {}",
                            one.text,
                            other.baseline - one.baseline,
                            other.text
                        ));
                    }
                }
            }
        }
        assert!(pairs >= least, "{dialog}: {pairs} pairs are looked at");
    };
    click(&mut harness, "This dance: Test");
    look(&harness, "This dance", 5);
    click(&mut harness, "Tune");
    click(&mut harness, "+ Strain");
    look(&harness, "This dance", 5);
    click(&mut harness, "People");
    look(&harness, "This dance", 2);
    press(&mut harness, Key::Escape);
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    look(&harness, "New dance", 9);
    press(&mut harness, Key::Escape);
    press_with(&mut harness, Modifiers::COMMAND, Key::P);
    look(&harness, "Handout", 3);
    assert!(off.is_empty(), "{}", off.join("\n"));
}

#[test]
fn of_several_tunes_one_is_chosen() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    paste(&mut harness, &format!("{REEDS}\n{FERRY}"));
    assert_eq!(dance(&harness).music.abc, "", "nothing yet");
    click(&mut harness, "Ferry Stairs");
    assert_eq!(dance(&harness).music.abc, FERRY);
    assert_eq!(dance(&harness).music.metre, Metre::FourFour);
}

/// What is wrong is told with its line while it is typed, and what was typed stays.
#[test]
fn a_tune_that_cannot_be_read_says_where() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    paste(&mut harness, "X:1\nT:No key\nM:6/8\n");
    assert!(harness.query_by_label_contains("The tune cannot be read: line").is_some());
    assert_eq!(dance(&harness).music.abc, "X:1\nT:No key\nM:6/8\n");
    // A dance whose music is its own keeps it until it is told.
    take(&mut harness, Ask::About(AboutAsk::AddStrain));
    paste(&mut harness, "K:G\nG6|A6|\n");
    assert_eq!(dance(&harness).music.metre, Metre::FourFour);
    click(&mut harness, "As the tune has it");
    assert_eq!(dance(&harness).music.metre, Metre::SixEight);
}

#[test]
fn every_field_of_the_dance_can_be_typed_and_undone() {
    let mut harness = show_dance(six(), SIZE);
    click(&mut harness, "This dance: Test");
    // The title has the focus.
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    write(&mut harness, "Reeds");
    assert_eq!(dance(&harness).title, "Reeds");
    for (name, text) in
        [("Side", "Quillow Ferry Morris"), ("Tradition", "ours"), ("Written down by", "the foreman")]
    {
        harness.get_by_role_and_label(Role::TextInput, name).focus();
        harness.run();
        write(&mut harness, text);
    }
    click(&mut harness, "sticks");
    let now = dance(&harness);
    assert_eq!((now.side.as_str(), now.tradition.as_str()), ("Quillow Ferry Morris", "ours"));
    assert_eq!((now.author.as_str(), now.holding), ("the foreman", Holding::Sticks));
    click(&mut harness, "Done");
    assert!(desk(&harness).question().is_none());
    for _ in 0..5 {
        take(&mut harness, Ask::Undo);
    }
    assert_eq!(dance(&harness), six());
    assert!(desk(&harness).undo_name().is_none(), "a word is one step");
}

#[test]
fn people_and_strains_are_said_there_too() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "People");
    harness.get_by_role_and_label(Role::TextInput, "Who dances number 4").focus();
    harness.run();
    write(&mut harness, "Wren");
    assert_eq!(dance(&harness).person(4), Some("Wren"));
    click(&mut harness, "Tune");
    click(&mut harness, "+ Strain");
    click(&mut harness, "+ Strain");
    let names: Vec<String> = dance(&harness).music.strains.into_iter().map(|strain| strain.name).collect();
    assert_eq!(names, ["A", "B"]);
    press(&mut harness, Key::Escape);
}

/// How tall the dancers are is typed where it is said what they hold; what nobody is stays in the field with why; and it is undone.
#[test]
fn how_tall_they_are_is_typed_and_undone() {
    let mut harness = show_dance(six(), SIZE);
    click(&mut harness, "This dance: Test");
    let type_over = |harness: &mut Driven, text: &str| {
        harness.get_by_label("How tall").focus();
        harness.run();
        press_with(harness, Modifiers::COMMAND, Key::A);
        write(harness, text);
    };
    type_over(&mut harness, "1.85");
    assert_eq!(dance(&harness).height, 1.85);
    assert_eq!(desk(&harness).undo_name(), Some("change how tall the dancers are"));
    press(&mut harness, Key::Tab);
    type_over(&mut harness, "3");
    assert_eq!(dance(&harness).height, 1.85, "nobody is 3 m tall");
    assert!(harness.query_all_by_label_contains("at most 2.1 m").count() > 0);
    press(&mut harness, Key::Escape);
    while desk(&harness).undo_name().is_some() {
        take(&mut harness, Ask::Undo);
    }
    assert_eq!(dance(&harness), six());
}

/// Whoever has the stick in the left hand is said there, with a name or without; where no sticks are held nothing can be clicked.
#[test]
fn a_stick_is_held_in_the_left_hand() {
    let mut harness = show_dance(six(), SIZE);
    take(&mut harness, Ask::About(AboutAsk::SetHolding(bellpad::dance::Holding::Handkerchiefs)));
    open(&mut harness, "People");
    let label = "Number 4 has the stick in the left hand";
    assert!(harness.get_by_role_and_label(Role::CheckBox, label).accesskit_node().is_disabled());
    take(&mut harness, Ask::About(AboutAsk::SetHolding(bellpad::dance::Holding::Sticks)));
    harness.run();
    let at = harness.get_by_role_and_label(Role::CheckBox, label).rect();
    assert_eq!(dance(&harness).stick_hand(4), 1);
    click(&mut harness, label);
    assert_eq!((dance(&harness).stick_hand(4), dance(&harness).person(4)), (0, None));
    assert_eq!(desk(&harness).undo_name(), Some("which hand of 4 holds the stick"));
    // A name that comes and goes leaves the hand as it is, and nothing moves.
    harness.get_by_role_and_label(Role::TextInput, "Who dances number 4").focus();
    harness.run();
    write(&mut harness, "Wren");
    take(
        &mut harness,
        Ask::Order(bellpad::desk::OrderAsk::NamePerson(bellpad::dance::Number(4), String::new())),
    );
    assert_eq!((dance(&harness).stick_hand(4), dance(&harness).person(4)), (0, None));
    assert_eq!(harness.get_by_role_and_label(Role::CheckBox, label).rect(), at);
    click(&mut harness, label);
    assert!(dance(&harness).people.iter().all(|person| person.number.get() != 4));
    harness.state_mut().desk.apply(Ask::Undo);
    assert_eq!(dance(&harness).stick_hand(4), 0);
}

/// A file with a tune is read, cleaned and shown; one without says what a tune looks like, and asks again.
#[test]
fn a_tune_is_read_from_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("reeds.abc");
    std::fs::write(&path, format!("{REEDS}\n{FERRY}")).unwrap();
    let mut harness = show_dance(six(), SIZE);
    take(&mut harness, Ask::About(AboutAsk::AskTune));
    take(&mut harness, Ask::File(bellpad::desk::FileAsk::Choose(path.clone())));
    assert!(matches!(desk(&harness).question(), Some(Question::ThisDance(Some(_)))));
    click(&mut harness, "The Reeds");
    assert_eq!(dance(&harness).music.abc, REEDS);
    std::fs::write(&path, "practice is at eight").unwrap();
    take(&mut harness, Ask::About(AboutAsk::AskTune));
    take(&mut harness, Ask::File(bellpad::desk::FileAsk::Choose(path)));
    let Some(Question::Path(question)) = desk(&harness).question() else { panic!("it asks again") };
    assert!(question.wrong.as_ref().unwrap().contains("there is no tune in it"));
}

/// The names of those in both files have as much room.
#[test]
fn every_number_has_as_wide_a_field_for_its_name() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "People");
    let wide: Vec<f32> = (1..=6)
        .map(|number| {
            harness
                .get_by_role_and_label(Role::TextInput, &format!("Who dances number {number}"))
                .rect()
                .width()
                .round()
        })
        .collect();
    assert!(wide[0] > 200.0 && wide.iter().all(|other| *other == wide[0]), "{wide:?}");
}

/// Everyone in the trade writes AABB.
#[test]
fn strains_are_written_letter_to_letter() {
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    click(&mut harness, "+ Strain");
    click(&mut harness, "+ Strain");
    click(&mut harness, "Played");
    strike(&mut harness, "AABb");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).music.played, ["A", "A", "B", "B"]);
}

/// Whether a field has the focus, and what is in it.
fn in_field(harness: &Driven, role: Role, label: &str) -> (bool, String) {
    let field = harness.get_by_role_and_label(role, label);
    (field.is_focused(), field.value().unwrap_or_default())
}

/// A wrong entry is not dropped by being done with the dialog, or by another page of it: it has the focus and says what is wrong, until it
/// is put right.
#[test]
fn nobody_is_done_while_an_entry_is_wrong() {
    for leave in ["Done", "People", "Escape"] {
        let mut harness = show_dance(six(), SIZE);
        open(&mut harness, "Tune");
        click(&mut harness, "+ Strain");
        click(&mut harness, "Played");
        strike(&mut harness, "A X");
        press(&mut harness, Key::Enter);
        press(&mut harness, Key::Tab);
        match leave {
            "Escape" => press(&mut harness, Key::Escape),
            name => click(&mut harness, name),
        }
        assert!(matches!(desk(&harness).question(), Some(Question::ThisDance(_))), "{leave}");
        assert_eq!(in_field(&harness, Role::TextInput, "Played"), (true, "A X".to_owned()), "{leave}");
        assert!(harness.query_by_label_contains("no strain is called \"X\"").is_some(), "{leave}");
        press(&mut harness, Key::Backspace);
        press(&mut harness, Key::Backspace);
        press(&mut harness, Key::Enter);
        click(&mut harness, "Done");
        assert!(desk(&harness).question().is_none(), "{leave}");
        assert_eq!(dance(&harness).music.played, ["A"], "{leave}");
    }
    // A number as well.
    let mut harness = show_dance(six(), SIZE);
    open(&mut harness, "Tune");
    harness.get_by_role_and_label(Role::SpinButton, "Speed").focus();
    harness.run();
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    strike(&mut harness, "abc");
    click(&mut harness, "Done");
    assert!(desk(&harness).question().is_some());
    assert!(harness.query_by_label_contains("is not a number").is_some());
}
