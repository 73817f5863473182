//! The window, driven without a screen: every gesture goes through the same code as a real mouse and keyboard.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Number, read};
use bellpad::desk::{Ask, Desk, FileAsk, OrderAsk, PlayAsk, Question, Seen, ViewAsk};
use bellpad::figures::motion_of;
use bellpad::motion::Weight;
use bellpad::store::{self, Recent};
use bellpad::window::Window;
use driven::{
    Driven, activate, click, count, dance, drag, frame, hold, hover, let_go, open_shelf, open_tab, place,
    press, press_with, show_sample, take, type_path, write,
};
use egui::{Event, Key, Modifiers, PointerButton, Pos2, Vec2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use std::path::Path;

fn window() -> Driven {
    show_sample([1280.0, 800.0])
}

fn scale(harness: &mut Driven) -> f64 {
    frame(harness).scale
}

#[test]
fn the_first_frame_shows_the_sample_dance() {
    let harness = window();
    for number in 1..=6 {
        harness.get_by_label(&format!("Dancer {number}"));
    }
    harness.get_by_label("2. Foot up and down, 8 bars");
    assert_eq!(harness.state().desk.dance().title, "Nine Geese Home");
    assert!(!harness.state().desk.unsaved());
}

#[test]
fn keys_scrub() {
    let mut harness = window();
    press(&mut harness, Key::Home);
    assert_eq!(count(&harness), 0.0);
    for _ in 0..3 {
        press(&mut harness, Key::ArrowRight);
    }
    assert_eq!(count(&harness), 3.0);
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    assert_eq!(count(&harness), 7.0);
    press(&mut harness, Key::ArrowLeft);
    assert_eq!(count(&harness), 6.0);
    press(&mut harness, Key::End);
    assert_eq!(count(&harness), harness.state().desk.motion().counts());
}

#[test]
fn dragging_along_the_bars_scrubs() {
    let mut harness = window();
    let bars = harness.get_by_label("Bars").rect();
    let inner = bars.shrink2(vec2(8.0, 0.0));
    let begin = count(&harness);
    let at = |share: f32| Pos2::new(inner.left() + inner.width() * share, bars.top() + 30.0);
    drag(&mut harness, at(0.25), at(0.75));
    assert!((count(&harness) - begin - 24.0).abs() < 0.26, "{}", count(&harness));
}

#[test]
fn it_plays_and_stops() {
    let mut harness = window();
    let begin = count(&harness);
    harness.key_press(Key::Space);
    harness.run_steps(20);
    assert!(harness.state().desk.player().playing);
    let later = count(&harness);
    assert!(later > begin + 0.5, "{begin} to {later}");
    harness.key_press(Key::Space);
    harness.run_steps(3);
    let stopped = count(&harness);
    harness.run_steps(10);
    assert_eq!(count(&harness), stopped);
    harness.get_by_label("Play").click();
    harness.run_steps(3);
    assert!(harness.state().desk.player().playing);
}

#[test]
fn the_loop_goes_round() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(32.0)));
    press(&mut harness, Key::OpenBracket);
    press(&mut harness, Key::CloseBracket);
    assert_eq!(harness.state().desk.player().loop_counts, Some((32.0, 36.0)));
    harness.key_press(Key::Space);
    for _ in 0..200 {
        harness.step();
        assert!((32.0..36.0).contains(&count(&harness)), "{}", count(&harness));
    }
    harness.key_press(Key::L);
    harness.run_steps(2);
    assert!(!harness.state().desk.player().looping);
}

#[test]
fn a_dragged_dancer_is_there_at_that_count_and_undo_puts_them_back() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0 + 6.0)));
    let before = dance(&harness);
    let pose = |harness: &Driven, dancer| harness.state().desk.motion().pose(dancer, count(harness));
    let was = pose(&harness, Dancer(2));
    let others: Vec<_> = [0, 1, 3, 4, 5].map(|dancer| pose(&harness, Dancer(dancer))).to_vec();
    let (from, scale) = (place(&mut harness, 2), scale(&mut harness));
    // To where nothing is near enough to catch on, whatever room the floor has.
    let moved = vec2(0.3, 0.45) * scale as f32;
    drag(&mut harness, from, from + moved);
    let now = pose(&harness, Dancer(2));
    assert!((now.x - was.x - f64::from(moved.x) / scale).abs() < 0.005, "{} to {}", was.x, now.x);
    assert!((was.y - now.y - f64::from(moved.y) / scale).abs() < 0.005, "{} to {}", was.y, now.y);
    assert_eq!(others, [0, 1, 3, 4, 5].map(|dancer| pose(&harness, Dancer(dancer))).to_vec());
    assert!(harness.state().desk.unsaved());
    assert_eq!(harness.state().desk.undo_name(), Some("move 3 at bar 2"));
    let after = dance(&harness);
    press_with(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(dance(&harness), before);
    assert_eq!(pose(&harness, Dancer(2)), was);
    assert!(!harness.state().desk.unsaved());
    press_with(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::Z);
    assert_eq!(dance(&harness), after);
}

#[test]
fn escape_lets_go_of_a_drag() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0 + 6.0)));
    let before = dance(&harness);
    let from = place(&mut harness, 2);
    hold(&mut harness, from);
    for step in 1..5 {
        hover(&mut harness, from + vec2(step as f32 * 10.0, 0.0));
    }
    assert_ne!(dance(&harness), before);
    press(&mut harness, Key::Escape);
    assert_eq!(dance(&harness), before);
    let_go(&mut harness, from + vec2(60.0, 0.0));
    assert_eq!(dance(&harness), before);
    assert_eq!(harness.state().desk.undo_name(), None);
}

#[test]
fn a_point_of_the_path_can_be_dragged_and_taken_away() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0 + 8.0)));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let before = dance(&harness);
    let at = harness.get_by_label("Path 1 point 1 of 1").rect().center();
    drag(&mut harness, at, at + vec2(0.0, -40.0));
    assert_eq!(harness.state().desk.undo_name(), Some("move a point of 1"));
    let figure = before.figure_index("cross").unwrap();
    let leg = |dance: &Dance| dance.figures[figure].part(1).unwrap().legs[0].clone();
    let moved = leg(&dance(&harness)).through[0].y;
    let at = harness.get_by_label("Path 1 point 1 of 1").rect().center();
    // With a line of the running order in focus, the key is still for the point under the pointer.
    let lines = dance(&harness).order.len();
    harness.get_by_label("4. Cross and turn, 8 bars").focus();
    harness.run();
    hover(&mut harness, at);
    press(&mut harness, Key::Delete);
    assert_eq!(dance(&harness).order.len(), lines);
    assert!(leg(&dance(&harness)).through.is_empty());
    assert!(moved > 1.0);
    take(&mut harness, Ask::Undo);
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), before);
}

#[test]
fn a_facing_can_be_dragged_and_keeps_its_way() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(2.0 * 32.0 + 6.0)));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let was = harness.state().desk.motion().pose(Dancer(0), count(&harness)).facing;
    let middle = place(&mut harness, 0);
    let ring = harness.get_by_label("Facing of 1").rect().center();
    let arm: Vec2 = ring - middle;
    hold(&mut harness, ring);
    for step in 1..=20 {
        let (sin, cos) = (-step as f32 * 10.0).to_radians().sin_cos();
        hover(&mut harness, middle + vec2(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos));
    }
    let (sin, cos) = (-200.0_f32).to_radians().sin_cos();
    let_go(&mut harness, middle + vec2(arm.x * cos - arm.y * sin, arm.x * sin + arm.y * cos));
    let now = harness.state().desk.motion().pose(Dancer(0), count(&harness)).facing;
    assert!((now - was + 195.0).abs() < 8.0, "{was} to {now}: about 200 to the left, not 160 to the right");
    assert_eq!(harness.state().desk.undo_name(), Some("turn 1 at bar 2"));
}

#[test]
fn save_and_open_again_gives_the_same_dance() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mine.dance.json");
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0 + 2.0)));
    let from = place(&mut harness, 4);
    drag(&mut harness, from, from + vec2(20.0, -25.0));
    let drawn = dance(&harness);
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    harness.get_by_label("Save the dance");
    type_path(&mut harness, &path);
    assert!(harness.state().desk.question().is_none());
    assert!(!harness.state().desk.unsaved());
    assert_eq!(store::open(&path).unwrap(), drawn);
    take(&mut harness, Ask::File(FileAsk::OpenSample(1)));
    assert_eq!(dance(&harness).title, "Low Water");
    press_with(&mut harness, Modifiers::COMMAND, Key::O);
    type_path(&mut harness, &path);
    assert_eq!(dance(&harness), drawn);
    assert_eq!(harness.state().desk.recent().files, [path]);
}

#[test]
fn a_file_in_the_way_is_not_replaced_without_asking() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("theirs.dance.json");
    std::fs::write(&path, "theirs").unwrap();
    let mut harness = window();
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    type_path(&mut harness, &path);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "theirs");
    click(&mut harness, "Replace it");
    assert_eq!(store::open(&path).unwrap(), dance(&harness));
}

#[test]
fn a_file_that_cannot_be_opened_leaves_the_dance_on_the_desk() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    let before = dance(&harness);
    let newer = r#"{"bellpad": 99}"#;
    for (name, text, said) in [
        ("empty.dance.json", "", "the file is empty"),
        ("cut.dance.json", "{\"bellpad\": 1, ", "line 1"),
        ("newer.dance.json", newer, "version 99"),
        ("hey.dance.json", HEY_FOR_FOUR, "three or four in each of two files"),
    ] {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        take(&mut harness, Ask::File(FileAsk::Open(path.clone())));
        match harness.state().desk.question() {
            Some(Question::Trouble(text)) => {
                assert!(text.contains(said) && text.contains(name), "{text}");
            }
            _ => panic!("no dialog for {name}"),
        }
        assert_eq!(dance(&harness), before);
        assert_eq!(std::fs::read_to_string(&path).unwrap(), text);
        press(&mut harness, Key::Enter);
        assert!(harness.state().desk.question().is_none());
    }
    let nowhere = folder.path().join("none").join("x.dance.json");
    take(&mut harness, Ask::File(FileAsk::SaveTo(nowhere)));
    let Some(Question::Path(field)) = harness.state().desk.question() else { panic!("no path to put right") };
    assert!(field.wrong.as_ref().unwrap().contains("no such"));
    assert_eq!(dance(&harness), before);
}

const HEY_FOR_FOUR: &str = r#"{"bellpad": 1, "title": "x",
 "set": {"kind": "longways", "dancers": 4, "across": 2.4, "along": 1.8},
 "figures": [{"id": "hey", "name": "Hey", "bars": 8, "named": {"figure": "hey"}}]}"#;

#[test]
fn unsaved_work_is_asked_about_before_it_goes() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0 + 2.0)));
    let from = place(&mut harness, 4);
    drag(&mut harness, from, from + vec2(20.0, -25.0));
    let drawn = dance(&harness);
    press_with(&mut harness, Modifiers::COMMAND, Key::Q);
    harness.get_by_label("This dance is not saved");
    assert!(!harness.state().desk.may_close());
    click(&mut harness, "Go back");
    assert_eq!(dance(&harness), drawn);
    take(&mut harness, Ask::File(FileAsk::OpenSample(1)));
    assert_eq!(dance(&harness), drawn, "not before it is asked");
    // Save, with a path still to be chosen, and then what was asked for.
    take(&mut harness, Ask::File(FileAsk::SaveAndGoOn));
    let path = folder.path().join("kept.dance.json");
    type_path(&mut harness, &path);
    assert_eq!(store::open(&path).unwrap(), drawn);
    assert_eq!(dance(&harness).title, "Low Water");
    take(&mut harness, Ask::File(FileAsk::Close));
    assert!(harness.state().desk.may_close(), "nothing is unsaved now");
}

#[test]
fn a_still_is_written_from_the_window() {
    let folder = tempfile::tempdir().unwrap();
    let mut harness = window();
    for name in ["still.png", "still.svg"] {
        let path = folder.path().join(name);
        press_with(&mut harness, Modifiers::COMMAND, Key::E);
        harness.get_by_label("Still");
        press(&mut harness, Key::Enter);
        harness.get_by_label("Save a still");
        type_path(&mut harness, &path);
        let bytes = std::fs::read(&path).unwrap();
        if name.ends_with("png") {
            let picture = image::load_from_memory(&bytes).unwrap();
            assert_eq!((picture.width(), picture.height()), (1200, 1200));
        } else {
            assert!(String::from_utf8(bytes).unwrap().starts_with("<svg "));
        }
    }
}

#[test]
fn a_dropped_file_is_opened() {
    #[derive(Debug)]
    struct Dropped(std::path::PathBuf);
    impl egui::DroppedFile for Dropped {
        fn path(&self) -> &Path {
            &self.0
        }
        fn bytes(&self) -> Result<Vec<u8>, String> {
            std::fs::read(&self.0).map_err(|error| error.to_string())
        }
    }
    let mut harness = window();
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("dances/low-water.dance.json");
    harness.input_mut().dropped_files.push(std::sync::Arc::new(Dropped(path)));
    harness.run();
    assert_eq!(dance(&harness).title, "Low Water");
}

#[test]
fn digits_choose_dancers() {
    let mut harness = window();
    press(&mut harness, Key::Num4);
    assert_eq!(harness.state().desk.chosen(), Some(Dancer(3)));
    let mut desk = Desk::with_sample(Recent::default());
    let set = bellpad::dance::Set::longways(12, 2.4, 1.8);
    desk.apply(Ask::File(FileAsk::PutNew(Box::new(Dance::new("Twelve", set)))));
    *harness.state_mut() = Window::new(desk, false);
    harness.run();
    harness.key_press(Key::Num1);
    harness.key_press(Key::Num2);
    harness.run();
    assert_eq!(harness.state().desk.chosen(), Some(Dancer(11)));
}

#[test]
fn a_new_dance_is_made_of_figures() {
    let mut harness = window();
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    click(&mut harness, "Hey");
    click(&mut harness, "Whole rounds");
    click(&mut harness, "Make it");
    let made = dance(&harness);
    let names: Vec<_> = made.order.iter().map(|entry| entry.figure.as_str()).collect();
    assert_eq!(names, ["whole-rounds", "hey"], "in the order of the shelf");
    assert_eq!(made.set.dancers, 6);
}

#[test]
fn a_redrawn_dancer_can_be_named_again() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0 + 6.0)));
    let before = dance(&harness);
    let from = place(&mut harness, 2);
    drag(&mut harness, from, from + vec2(30.0, 0.0));
    click(&mut harness, "As named");
    assert_eq!(dance(&harness), before);
}

#[test]
fn a_fault_is_listed_and_leads_to_its_moment() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(2.0 * 32.0 + 24.0)));
    let from = place(&mut harness, 0);
    // The last leg of the chorus ends at this count: the dancer no longer comes home.
    drag(&mut harness, from, from + vec2(-60.0, 0.0));
    assert!(!harness.state().desk.faults().is_empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(0.0)));
    let row = harness.get_all_by_role(egui::Role::Button).find(|node| {
        node.accesskit_node()
            .label()
            .is_some_and(|label| label.contains("not home · Chorus: lanterns, bar 8:4"))
    });
    row.unwrap().click();
    harness.run();
    assert_eq!(count(&harness), 95.0, "the last count of the figure that it is in");
}

#[test]
fn the_floor_can_be_seen_three_ways_and_zoomed() {
    let mut harness = window();
    let first = place(&mut harness, 0);
    press(&mut harness, Key::V);
    assert_eq!(harness.state().desk.seen(), Seen::FromTop);
    let turned = place(&mut harness, 0);
    assert!(turned.x > first.x && turned.y > first.y, "1 is now at the bottom right");
    press(&mut harness, Key::V);
    assert_eq!(harness.state().desk.seen(), Seen::OwnFacing);
    press(&mut harness, Key::V);
    let before = scale(&mut harness);
    let at = harness.state().floor_rect.center() + vec2(30.0, 20.0);
    let floor_at = |harness: &mut Driven| frame(harness).to_floor(at.into());
    let under = floor_at(&mut harness);
    harness.hover_at(at);
    harness.event(Event::Zoom(1.5));
    harness.run();
    assert!((scale(&mut harness) / before - 1.5).abs() < 0.05);
    let still_under = floor_at(&mut harness);
    assert!((under.0 - still_under.0).hypot(under.1 - still_under.1) < 0.01, "it zooms about the pointer");
    let before_pan = harness.state().desk.pan();
    harness.event(Event::PointerButton {
        pos: at,
        button: PointerButton::Middle,
        pressed: true,
        modifiers: Modifiers::NONE,
    });
    harness.run();
    hover(&mut harness, at + vec2(40.0, 0.0));
    harness.event(Event::PointerButton {
        pos: at + vec2(40.0, 0.0),
        button: PointerButton::Middle,
        pressed: false,
        modifiers: Modifiers::NONE,
    });
    harness.run();
    let panned = harness.state().desk.pan();
    assert!((panned[0] - before_pan[0] - 40.0).abs() < 0.5, "{before_pan:?} to {panned:?}");
    press(&mut harness, Key::F);
    assert_eq!((harness.state().desk.zoom(), harness.state().desk.pan()), (1.0, [0.0, 0.0]));
}

#[test]
fn a_name_is_typed_on_the_card_and_undone() {
    let mut harness = window();
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    take(&mut harness, Ask::Order(OrderAsk::NamePerson(Number(3), "Bram Oakhurst".to_owned())));
    assert_eq!(harness.state().desk.dance().person(3), Some("Bram Oakhurst"));
    take(&mut harness, Ask::Undo);
    assert_eq!(harness.state().desk.dance().person(3), Some("Wren Aldous"));
}

#[test]
fn both_colours_and_the_help_can_be_shown() {
    let mut harness = window();
    take(&mut harness, Ask::View(ViewAsk::ToggleTheme));
    press(&mut harness, Key::F1);
    harness.get_by_label("Keys and mouse");
    assert!(harness.get_by_label_contains("Warm up first. Walk a new figure").rect().height() > 10.0);
    press(&mut harness, Key::F1);
    assert!(harness.state().desk.question().is_none());
}

#[test]
fn the_shelf_puts_a_figure_in_and_it_can_be_taken_out() {
    let mut harness = window();
    let before = dance(&harness);
    open_shelf(&mut harness);
    activate(&mut harness, "Put in Corners");
    let after = dance(&harness);
    assert_eq!(after.order[2].figure, "corners", "after the figure at the playhead");
    assert_eq!(after.bars(), before.bars() + 24);
    assert_eq!(harness.state().desk.undo_name(), Some("put in Corners"));
    harness.get_by_label("3. Corners, 24 bars");
    take(&mut harness, Ask::Order(OrderAsk::TakeOut(2)));
    assert_eq!(dance(&harness), before);
    // A set of one has no pairs: the card says so and nothing is put in.
    take(&mut harness, Ask::File(FileAsk::OpenSample(3)));
    let alone = dance(&harness);
    activate(&mut harness, "Put in Cross over");
    assert_eq!(dance(&harness), alone);
}

#[test]
fn named_figures_follow_the_set_and_the_choices() {
    let mut harness = window();
    let before = dance(&harness);
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0 * 32.0)));
    let hey = before.figure_index("hey").unwrap();
    for inside in [0.31, 0.35, 0.45] {
        take(&mut harness, Ask::Order(OrderAsk::SetChoice(hey, "inside", inside.into())));
    }
    assert_eq!(harness.state().desk.undo_name(), Some("set inside of Hey"));
    let nearest = (0..96)
        .map(|step| {
            let poses = harness.state().desk.motion().poses(5.0 * 32.0 + f64::from(step) / 8.0);
            poses[1].x - poses[0].x
        })
        .fold(f64::INFINITY, f64::min);
    assert!((nearest - 0.9).abs() < 0.02, "{nearest}");
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), before, "a number dragged through many values is one step");
    let mut set = before.set.clone();
    set.along = 1.5;
    take(&mut harness, Ask::Order(OrderAsk::ChangeSet(Box::new(set.clone()))));
    assert!((harness.state().desk.motion().pose(Dancer(0), 0.0).y - 1.5).abs() < 1e-9);
    set.dancers = 10;
    take(&mut harness, Ask::Order(OrderAsk::ChangeSet(Box::new(set))));
    assert_eq!(dance(&harness).set.dancers, 6, "ten cannot dance the hey");
    assert!(harness.state().desk.notice().as_ref().unwrap().contains("hey cannot be danced"));
}

#[test]
fn stepping_and_lead_are_chosen_on_the_card() {
    use bellpad::dance::LeadRule;
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(3.0 * 32.0)));
    let cross = dance(&harness).figure_index("cross").unwrap();
    open_tab(&mut harness, "Figure");
    harness.get_by_role_and_label(egui::accesskit::Role::TextInput, "stepping").focus();
    harness.run();
    write(&mut harness, "4 ds");
    assert_eq!(dance(&harness).figures[cross].phrase, "4 ds");
    let step = harness.state().desk.motion().pose(Dancer(0), 3.0 * 32.0 + 13.0).step;
    assert_eq!(harness.state().desk.motion().known()[step].short, "ds");
    // What cannot be danced is told and stays in the field; the dance has what it had before any of it was typed.
    write(&mut harness, ", 1 zz");
    harness.get_by_label_contains("\"zz\" is not a step");
    assert_eq!(dance(&harness).figures[cross].phrase, "");
    take(&mut harness, Ask::Order(OrderAsk::SetLead(cross, Some(LeadRule::Right))));
    assert_eq!(harness.state().desk.motion().pose(Dancer(0), 3.0 * 32.0).weight.word(), "right");
    assert_eq!(harness.state().desk.undo_name(), Some("change the lead of Cross and turn"));
}

#[test]
fn a_name_typed_on_the_card_is_in_the_file_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("named.dance.json");
    let mut harness = window();
    take(&mut harness, Ask::File(FileAsk::OpenSample(2)));
    take(&mut harness, Ask::File(FileAsk::SaveTo(path.clone())));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(1)))));
    // The name is the first field that can be typed in.
    harness.get_all_by_role(egui::accesskit::Role::TextInput).next().unwrap().focus();
    harness.run();
    for letter in ["B", "r", "a", "m", " ", "O"] {
        write(&mut harness, letter);
    }
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    assert_eq!(store::open(&path).unwrap().person(2), Some("Bram O"));
    assert_eq!(harness.state().desk.undo_name(), Some("name 2"));
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness).person(2), None, "the whole name is one step");
}

#[test]
fn a_ring_can_be_made_and_its_figures_danced() {
    let mut harness = window();
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    click(&mut harness, "a ring");
    click(&mut harness, "Whole rounds");
    click(&mut harness, "Make it");
    let made = dance(&harness);
    assert_eq!((made.set.kind, made.set.dancers), (bellpad::dance::SetKind::Ring, 6));
    let motion = motion_of(&made, None).unwrap();
    let radius = |count: f64| motion.pose(Dancer(0), count).x.hypot(motion.pose(Dancer(0), count).y);
    assert!((radius(0.0) - 1.5).abs() < 1e-9 && (radius(6.0) - 1.5).abs() < 0.01);
    assert!(harness.state().desk.unsaved(), "a new dance has no file yet");
}

#[test]
fn every_sample_opens_without_a_fault() {
    for (name, text) in bellpad::desk::SAMPLES {
        let dance = read(text.as_bytes()).unwrap();
        assert_eq!(dance.title, name);
        let motion = motion_of(&dance, None).unwrap();
        assert_eq!(bellpad::faults::find_faults(&dance, &motion), []);
    }
}

/// With text of 150 and 200 percent on a screen of 1366 by 768 the window is as small as these, and all of it can
/// still be reached.
#[test]
fn all_of_it_can_be_reached_with_large_text() {
    for size in [[910.0, 512.0], [683.0, 384.0]] {
        let mut harness = show_sample(size);
        let floor = harness.state().floor_rect;
        assert!(floor.width() > 220.0 && floor.height() > 120.0, "{floor:?}");
        press(&mut harness, Key::Num3);
        for (tab, label) in [
            ("Order", "+ Figure"),
            ("Shelf", "Put in Corners"),
            ("Set", "The floor"),
            ("Dancer", "Path"),
            ("Figure", "stepping"),
            ("Faults", "limits…"),
        ] {
            open_tab(&mut harness, tab);
            let there = harness.get_all_by_label(label).last().unwrap();
            there.scroll_to_me();
            harness.run();
            let there = harness.get_all_by_label(label).last().unwrap().rect();
            let left = harness.state().floor_rect.left();
            let inside = there.top() > 40.0 && there.bottom() <= floor.bottom() + 2.0;
            assert!(inside && there.right() < left, "{label}: {there:?} beside {floor:?}");
        }
        open_tab(&mut harness, "Shelf");
        activate(&mut harness, "Put in Corners");
        assert_eq!(dance(&harness).figures.last().unwrap().name, "Corners");
    }
}

/// The footprints in the strip: the middle of each, and whether it is filled, by how far along it stands.
fn footprints(harness: &Driven) -> Vec<(Pos2, bool)> {
    // The first stands before the first bar.
    let row = harness.get_by_label("Feet").rect().expand2(egui::vec2(20.0, 4.0));
    let shapes = harness.output().shapes.iter();
    let mut prints: Vec<(Pos2, bool)> = shapes
        .filter_map(|clipped| match &clipped.shape {
            egui::Shape::Path(path) if path.closed && path.points.len() >= 8 => {
                let rect = egui::Rect::from_points(&path.points);
                // To a tenth of a point, whatever the corners are.
                let at = [rect.center().x, rect.center().y].map(|at| (at * 10.0).round() / 10.0);
                let is_print = row.contains(rect.center()) && rect.height() < 14.0;
                is_print.then_some((Pos2::from(at), path.fill.a() > 0))
            }
            _ => None,
        })
        .collect();
    prints.sort_by(|(one, _), (other, _)| one.x.total_cmp(&other.x));
    prints
}

/// Common practice, no source: the hop on the upbeat is seen in the strip as a hollow print of the foot that hops, before
/// the first bar, before the second half and before the next figure; and the card says it on its count.
#[test]
fn the_hop_on_the_upbeat_is_seen_in_the_strip_and_told_by_the_card() {
    let [hopping, flat] = [true, false].map(|hops| {
        let mut harness = driven::show_dance(Dance { hops, ..driven::sample(0) }, [1280.0, 800.0]);
        let motion = harness.state().desk.motion().clone();
        let span = motion.spans().iter().find(|span| span.begin() > 0.0 && span.bars == 8).unwrap();
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
        for count in [15.0, 31.0] {
            take(&mut harness, Ask::Play(PlayAsk::Seek(span.begin() + count - 1.0)));
            assert!(harness.query_by_label_contains("the hop on the upbeat").is_none(), "{hops} {count}");
            take(&mut harness, Ask::Play(PlayAsk::Seek(span.begin() + count)));
            let told = harness.query_by_label_contains("the hop on the upbeat").is_some();
            assert_eq!(told, hops, "count {count}");
        }
        take(&mut harness, Ask::Play(PlayAsk::Seek(span.begin())));
        let feet: Vec<_> = [-1.0, 15.0, 31.0]
            .into_iter()
            .map(|count| motion.pose(Dancer(0), span.begin() + count).weight)
            .collect();
        (footprints(&harness), feet)
    });
    let (prints, feet) = hopping;
    assert!(flat.0.iter().all(|print| prints.contains(print)), "all else is as it was");
    let hops: Vec<_> = prints.iter().filter(|print| !flat.0.contains(print)).collect();
    assert_eq!(hops.len(), feet.len(), "{hops:?}");
    let rows =
        prints.iter().map(|(at, _)| at.y).fold((f32::INFINITY, 0.0_f32), |(a, b), y| (a.min(y), b.max(y)));
    for ((at, filled), foot) in hops.iter().zip(&feet) {
        let row = if *foot == Weight::Left { rows.0 } else { rows.1 };
        assert!(!filled && (at.y - row).abs() < 0.1, "{foot:?} at {at:?}");
    }
    assert!(feet.iter().all(|foot| matches!(foot, Weight::Left | Weight::Right)), "{feet:?}");
    assert_eq!(flat.1[1..], [Weight::Both; 2]);
}
