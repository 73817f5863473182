//! The window keeps still and hides nothing: what can be clicked keeps its place while time runs and values change, and in a
//! window of any size everything can be reached, lies over nothing else, and is not cut.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod common;

use bellpad::dance::Dancer;
use bellpad::desk::{
    About, AboutAsk, Ask, CompareAsk, Desk, FaultAsk, FileAsk, KeepAsk, OrderAsk, PlayAsk, Question, StepAsk,
    ViewAsk,
};
use bellpad::handout::{HandoutChoice, HandoutKind, PaperFile};
use bellpad::store::{self, Home, Recent};
use common::{Driven, desk, open_tab, press, show, show_sample, take};
use egui::{Key, Rect, accesskit::Role};
use egui_kittest::kittest::{NodeT, Queryable};
use std::collections::BTreeMap;
use std::path::Path;
use std::time::Duration;

/// What can be clicked or typed in, apart from what lies on the floor and the marks of the strip: they are where the dance
/// has them.
fn controls(harness: &Driven) -> BTreeMap<String, Rect> {
    let roles = [
        Role::Button,
        Role::CheckBox,
        Role::ComboBox,
        Role::Link,
        Role::MultilineTextInput,
        Role::RadioButton,
        Role::Slider,
        Role::SpinButton,
        Role::Tab,
        Role::TextInput,
    ];
    let window = Rect::from_min_size(egui::Pos2::ZERO, harness.ctx.content_rect().size());
    let floor = harness.state().floor_rect;
    let on_floor = ["Dancer ", "Facing of", "Path ", "Notice"];
    let on_bars = ["Start of", "End of", "Turn ", "Point ", "Fault: "];
    let mut known: BTreeMap<String, Rect> = BTreeMap::new();
    for role in roles {
        for node in harness.query_all_by_role(role) {
            let label = node.accesskit_node().label().unwrap_or_default();
            let rect = node.rect();
            let begins = |names: &[&str]| names.iter().any(|begin| label.starts_with(begin));
            // A handle reaches a little over the edge of the floor.
            let is_mark = floor.expand(20.0).contains(rect.center()) && begins(&on_floor)
                || rect.top() > floor.bottom() && begins(&on_bars);
            if is_mark || !window.intersects(rect) {
                continue;
            }
            // Play says Stop while it plays, and is the same button.
            let label = if label == "Stop" { "Play".to_owned() } else { label };
            // Fields of one kind and without a name are told apart by their order.
            let mut name = format!("{role:?} {label}");
            while known.contains_key(&name) {
                name.push('\'');
            }
            known.insert(name, rect);
        }
    }
    known
}

/// Controls that were there before and are in another place now, or nowhere.
fn moved(before: &BTreeMap<String, Rect>, now: &BTreeMap<String, Rect>) -> Vec<String> {
    before
        .iter()
        .filter_map(|(name, rect)| {
            let Some(there) = now.get(name) else { return Some(format!("{name} is gone")) };
            let off = (there.min - rect.min).length().max((there.max - rect.max).length());
            (off > 0.6).then(|| format!("{name}: {rect:?}, then {there:?}"))
        })
        .collect()
}

/// Those that are the same ones whatever figure is danced: the lines of the running order go up and down under its edge as the
/// dance goes on, and a figure has choices of its own.
fn of_every_figure(all: &BTreeMap<String, Rect>, (tab, side): (&str, f32)) -> BTreeMap<String, Rect> {
    let all = all.iter().filter(|(name, rect)| {
        let is_line = name.contains("More for line")
            || name.strip_prefix("Button ").is_some_and(|name| {
                name.split_once(". ").is_some_and(|(line, _)| line.parse::<u32>().is_ok())
            });
        let is_choice = tab == "Figure" && rect.left() >= side - 1.0;
        !is_line && !is_choice
    });
    all.map(|(name, rect)| (name.clone(), *rect)).collect()
}

/// A window of a size with a dancer chosen and a tab open, and where what a figure has of its own begins, points from the left.
fn with_tab(size: [f32; 2], tab: &str) -> (Driven, f32) {
    let mut harness = show_sample(size);
    take(&mut harness, Ask::Keep(KeepAsk::ShutWelcome(true)));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    open_tab(&mut harness, tab);
    let side = harness.get_by_role_and_label(Role::Tab, tab).rect().left();
    let side = if size[0] < 1100.0 { 0.0 } else { side.min(harness.state().floor_rect.right()) };
    (harness, side)
}

const SIZES: [[f32; 2]; 2] = [[1366.0, 768.0], [1024.0, 640.0]];

/// Every figure of the dance, at every count with the dancer's card open and at the strong beats with the others.
#[test]
fn nothing_moves_while_the_dance_is_gone_through_count_by_count() {
    for size in SIZES {
        for (tab, step) in [("Dancer", 1.0), ("Figure", 2.0), ("Faults", 2.0)] {
            let (mut harness, side) = with_tab(size, tab);
            let spans: Vec<(f64, f64)> =
                desk(&harness).motion().spans().iter().map(|span| (span.begin(), span.end())).collect();
            assert!(spans.len() > 10);
            let mut of_all = None;
            for (begin, end) in spans {
                take(&mut harness, Ask::Play(PlayAsk::Seek(begin)));
                let first = controls(&harness);
                assert!(first.len() > 25, "{}", first.len());
                let same = of_every_figure(&first, (tab, side));
                let of_all = of_all.get_or_insert_with(|| same.clone());
                assert_eq!(moved(of_all, &same), [] as [String; 0], "{size:?}, {tab}: from figure to figure");
                let mut count = begin;
                while count < end - 0.6 {
                    harness.state_mut().desk.apply(Ask::Play(PlayAsk::Seek(count)));
                    harness.run_steps(2);
                    let now = controls(&harness);
                    assert_eq!(moved(&first, &now), [] as [String; 0], "{size:?}, {tab}, at {count}");
                    assert_eq!(
                        now.len(),
                        first.len(),
                        "{size:?}, {tab}, at {count}: {:?}",
                        more(&first, &now)
                    );
                    count += step;
                }
            }
        }
    }
}

/// What is there now and was not before.
fn more(before: &BTreeMap<String, Rect>, now: &BTreeMap<String, Rect>) -> Vec<String> {
    now.keys().filter(|name| !before.contains_key(*name)).cloned().collect()
}

#[test]
fn nothing_moves_while_the_whole_dance_is_played() {
    for size in SIZES {
        for tab in ["Dancer", "Figure", "Faults"] {
            let (mut harness, side) = with_tab(size, tab);
            take(&mut harness, Ask::Play(PlayAsk::Seek(0.0)));
            let of_all = of_every_figure(&controls(&harness), (tab, side));
            let (mut first, mut span) = (BTreeMap::new(), None);
            harness.state_mut().desk.apply(Ask::Play(PlayAsk::Toggle));
            let mut figures = 0;
            for frame in 0..900 {
                harness.step();
                if !desk(&harness).player().playing {
                    break;
                }
                let now = controls(&harness);
                if span != desk(&harness).span() {
                    // A frame in which the line of the running order comes into sight.
                    harness.step();
                    harness.step();
                    (first, span) = (controls(&harness), desk(&harness).span());
                    figures += 1;
                    continue;
                }
                assert_eq!(moved(&first, &now), [] as [String; 0], "{size:?}, {tab}, in play, frame {frame}");
                assert_eq!(
                    now.len(),
                    first.len(),
                    "{size:?}, {tab}, frame {frame}: {:?}",
                    more(&first, &now)
                );
                let same = of_every_figure(&now, (tab, side));
                assert_eq!(
                    moved(&of_all, &same),
                    [] as [String; 0],
                    "{size:?}, {tab}, in play, frame {frame}"
                );
            }
            assert!(figures > 10, "{figures} figures were danced");
        }
    }
}

#[test]
fn what_every_figure_has_keeps_its_place_from_one_to_the_next() {
    let mut harness = show_sample([1366.0, 768.0]);
    open_tab(&mut harness, "Figure");
    let begins: Vec<f64> = desk(&harness).motion().spans().iter().map(bellpad::motion::Span::begin).collect();
    let place = |harness: &Driven| harness.get_by_role_and_label(Role::TextInput, "stepping").rect();
    let first = place(&harness);
    for begin in begins {
        take(&mut harness, Ask::Play(PlayAsk::Seek(begin)));
        assert_eq!(place(&harness), first);
    }
}

#[test]
fn undo_and_what_it_would_undo_move_nothing() {
    let mut harness = show_sample([1366.0, 768.0]);
    let before = controls(&harness);
    take(&mut harness, Ask::Order(OrderAsk::Rename(1, "A figure with a very long name indeed".to_owned())));
    take(&mut harness, Ask::Order(OrderAsk::SetHops(false)));
    take(&mut harness, Ask::Undo);
    let bar = |controls: &BTreeMap<String, Rect>| -> BTreeMap<String, Rect> {
        controls
            .iter()
            .filter(|(_, rect)| rect.bottom() < 42.0)
            .map(|(name, rect)| (name.clone(), *rect))
            .collect()
    };
    assert_eq!(moved(&bar(&before), &bar(&controls(&harness))), [] as [String; 0]);
}

/// Opens each dialog in turn.
fn dialogs() -> Vec<(&'static str, Vec<Ask>)> {
    vec![
        ("help", vec![Ask::View(ViewAsk::ToggleHelp)]),
        ("new", vec![Ask::File(FileAsk::AskNew)]),
        ("open", vec![Ask::File(FileAsk::AskOpen)]),
        ("save as", vec![Ask::File(FileAsk::AskSaveAs)]),
        ("still", vec![Ask::File(FileAsk::AskStill)]),
        ("path of a still", vec![Ask::File(FileAsk::AskStillPath)]),
        ("handout", vec![Ask::File(FileAsk::AskHandout)]),
        ("limits", vec![Ask::Fault(FaultAsk::AskLimits)]),
        ("call", vec![Ask::Order(OrderAsk::Write(About::Call(1)))]),
        ("notes", vec![Ask::Order(OrderAsk::Write(About::Notes(1)))]),
        ("unsaved", vec![Ask::Order(OrderAsk::SetHops(false)), Ask::File(FileAsk::AskOpen)]),
        ("this dance", vec![Ask::About(AboutAsk::Show)]),
        ("steps", vec![Ask::Step(StepAsk::Show(None))]),
        (
            "steps of its own",
            vec![Ask::Step(StepAsk::Copy("ds".to_owned())), Ask::Step(StepAsk::Show(Some("ds2".to_owned())))],
        ),
    ]
}

/// What is asked only once something has happened: each with a desk on which it is asked. The folder has their files.
fn after_something(folder: &Path) -> Vec<(&'static str, Desk)> {
    let sample = || Desk::with_sample(Recent::default());
    let path = folder.join("ours.dance.json");
    store::save(&path, sample().dance()).unwrap();
    let home = Home::at(&folder.join("state"));
    let opened = || {
        let mut desk = sample().at_home(home.clone());
        desk.apply(Ask::File(FileAsk::Open(path.clone())));
        desk
    };
    let having = |mut desk: Desk, asks: Vec<Ask>| {
        for ask in asks {
            desk.apply(ask);
        }
        desk
    };
    let mut close = bellpad::dance::Dance::new("Close", bellpad::dance::Set::longways(2, 0.2, 1.8));
    close.figures.push(bellpad::dance::Figure::drawn("stand", "Stand", 4));
    let close = || Desk::new(close.clone(), None, Recent::default()).unwrap();
    let rename = |name: &str| Ask::Order(OrderAsk::Rename(0, name.to_owned()));
    let earlier = having(
        opened(),
        vec![rename("One"), Ask::File(FileAsk::Save), rename("Two"), Ask::File(FileAsk::Save)],
    );
    let meanwhile = having(opened(), vec![rename("Three")]);
    let mut theirs = earlier.dance().clone();
    "Theirs".clone_into(&mut theirs.title);
    store::save(&path, &theirs).unwrap();
    // A page of a handout that would go over somebody's own file.
    std::fs::write(folder.join("hey-2.svg"), "my own").unwrap();
    let pages = HandoutChoice {
        kind: HandoutKind::Figure,
        file: PaperFile::Svg,
        words: true,
        ..HandoutChoice::default()
    };
    let choose = |path: &Path| Ask::File(FileAsk::Choose(path.to_owned()));
    // Work as a window leaves it that ends without a save.
    let left = Home::at(&folder.join("left"));
    store::Autosave::begin(&left, None, None).unwrap().write(sample().dance()).unwrap();
    vec![
        ("recovered", having(sample().at_home(left), vec![Ask::Keep(KeepAsk::AskRecovered)])),
        ("allow", having(close(), vec![Ask::Fault(FaultAsk::AskAllow(0))])),
        ("bars", having(close(), vec![Ask::Order(OrderAsk::Write(About::Bars(0)))])),
        ("meanwhile", having(meanwhile, vec![Ask::File(FileAsk::Save)])),
        ("trouble", having(sample(), vec![Ask::Compare(CompareAsk::With(folder.join("nowhere.json")))])),
        ("earlier", having(earlier, vec![Ask::Keep(KeepAsk::AskEarlier)])),
        (
            "writing",
            having(
                sample(),
                vec![
                    Ask::File(FileAsk::AskHandout),
                    Ask::File(FileAsk::ChooseHandout(pages)),
                    Ask::File(FileAsk::AskHandoutPath),
                    choose(&folder.join("hey.svg")),
                ],
            ),
        ),
    ]
}

/// Where the dialog is that is open.
fn dialog(harness: &Driven) -> Option<Rect> {
    let name = match desk(harness).question()? {
        Question::Handout => "handout",
        Question::Still => "still",
        _ => "dialog",
    };
    harness.ctx.memory(|memory| memory.area_rect(egui::Id::unique(name)))
}

/// The controls of a dialog: those within it that are not of the window under it.
fn in_dialog(harness: &Driven, under: &BTreeMap<String, Rect>) -> BTreeMap<String, Rect> {
    let Some(place) = dialog(harness) else { return BTreeMap::new() };
    let all = controls(harness).into_iter();
    all.filter(|(name, rect)| {
        place.contains(rect.center()) && under.get(name.trim_end_matches('\'')) != Some(rect)
    })
    .collect()
}

/// The row of buttons at the foot of a dialog, which is inside of its edge.
fn at_its_foot(all: &BTreeMap<String, Rect>, place: Rect) -> BTreeMap<String, Rect> {
    let foot = place.bottom() - 18.0 - 38.0;
    all.iter().filter(|(_, rect)| rect.center().y > foot).map(|(name, rect)| (name.clone(), *rect)).collect()
}

/// Every dialog, by its name, with a desk on which it is asked.
fn every_dialog(folder: &Path) -> Vec<(&'static str, Desk)> {
    let asked = dialogs().into_iter().map(|(name, asks)| {
        let mut desk = Desk::with_sample(Recent::default());
        for ask in asks {
            desk.apply(ask);
        }
        (name, desk)
    });
    asked.filter(|(_, desk)| desk.question().is_some()).chain(after_something(folder)).collect()
}

/// Each choice of each dialog is clicked, and text is written in each field: the dialog keeps its size and its place, the buttons at
/// its foot are the same in the same places, and whatever else is still there is where it was.
#[test]
fn dialogs_keep_their_size_and_their_buttons_while_choices_change() {
    for size in SIZES {
        let many = every_dialog(tempfile::tempdir().unwrap().path()).len();
        assert!(many >= 18, "{many} dialogs");
        for index in 0..many {
            // Each has files of its own: work that is left is offered to one window only.
            let mut folders = Vec::new();
            let mut open = || {
                let folder = tempfile::tempdir().unwrap();
                let (name, desk) = every_dialog(folder.path()).swap_remove(index);
                folders.push(folder);
                let mut harness = show(desk, size);
                harness.run_steps(4);
                // What is written in no time is not shown before there is something to ask.
                while harness.state().desk.writing().is_some_and(|writing| !writing.is_to_be_shown()) {
                    std::thread::sleep(Duration::from_millis(5));
                    harness.run_steps(1);
                }
                harness.run_steps(4);
                (name, harness)
            };
            let (_, mut shut) = open();
            // Work that is left is offered once a window is there as well.
            for _ in 0..3 {
                shut.state_mut().desk.apply(Ask::View(ViewAsk::PutAway));
                shut.run_steps(2);
            }
            assert!(desk(&shut).question().is_none(), "{:?}", dialog(&shut));
            let under = controls(&shut);
            let (name, mut harness) = open();
            let place = dialog(&harness).unwrap_or_else(|| panic!("{name} is there"));
            let first = in_dialog(&harness, &under);
            let foot = at_its_foot(&first, place);
            assert!(!foot.is_empty(), "{name} has buttons at its foot: {first:?}");
            let question = desk(&harness).question_revision();
            let mut wrong = Vec::new();
            for control in first.keys().filter(|control| !foot.contains_key(*control)) {
                let Some((role, label)) = control.split_once(' ') else { continue };
                let label = label.trim_end_matches('\'');
                let at = first[control];
                let nodes = harness.query_all_by(|node| {
                    format!("{:?}", node.role()) == role && node.label().unwrap_or_default() == label
                });
                let Some(node) = nodes.into_iter().find(|node| node.rect() == at) else { continue };
                if role.ends_with("TextInput") {
                    node.focus();
                    harness.run_steps(2);
                    harness.event(egui::Event::Text("7".to_owned()));
                } else {
                    node.click_accesskit();
                }
                harness.run_steps(6);
                let stays = desk(&harness).question().is_some()
                    && desk(&harness).question_revision() == question
                    && !egui::Popup::is_any_open(&harness.ctx);
                if !stays {
                    // It was an answer, or opened a list of choices.
                    harness = open().1;
                    continue;
                }
                if dialog(&harness) != Some(place) {
                    wrong.push(format!("after {control}: {:?}, before it {place:?}", dialog(&harness)));
                }
                let now = in_dialog(&harness, &under);
                let foot_now = at_its_foot(&now, place);
                wrong.extend(
                    moved(&foot, &foot_now).into_iter().map(|moved| format!("after {control}: {moved}")),
                );
                let still: BTreeMap<String, Rect> = first
                    .iter()
                    .filter(|(name, _)| now.contains_key(*name))
                    .map(|(n, r)| (n.clone(), *r))
                    .collect();
                wrong
                    .extend(moved(&still, &now).into_iter().map(|moved| format!("after {control}: {moved}")));
            }
            assert_eq!(wrong, [] as [String; 0], "{size:?}, {name}");
        }
    }
}

/// Of a handout every kind, of a path one that cannot be used: the whole dialog keeps its place.
#[test]
fn the_dialogs_of_a_handout_and_of_a_path_keep_their_place_whatever_is_chosen() {
    for size in SIZES {
        let mut harness = show_sample(size);
        let under = controls(&harness);
        take(&mut harness, Ask::File(FileAsk::AskHandout));
        let place = dialog(&harness).unwrap();
        let foot = at_its_foot(&in_dialog(&harness, &under), place);
        assert!(foot.len() >= 2, "{foot:?}");
        for kind in [
            HandoutKind::Figure,
            HandoutKind::Dance,
            HandoutKind::Whole,
            HandoutKind::Dancer,
            HandoutKind::Pocket,
            HandoutKind::Stepping,
            HandoutKind::Tapping,
            HandoutKind::Notebook,
            HandoutKind::PracticePage,
            HandoutKind::Moving,
        ] {
            let choice = HandoutChoice { kind, ..desk(&harness).handout() };
            harness.state_mut().desk.apply(Ask::File(FileAsk::ChooseHandout(choice)));
            for _ in 0..8 {
                harness.step();
                assert_eq!(dialog(&harness), Some(place), "{kind:?}");
                let now = at_its_foot(&in_dialog(&harness, &under), place);
                assert_eq!(moved(&foot, &now), [] as [String; 0], "{kind:?}");
            }
        }
        for ask in [FileAsk::AskOpen, FileAsk::AskSaveAs, FileAsk::AskStillPath] {
            let mut harness = show_sample(size);
            let under = controls(&harness);
            take(&mut harness, Ask::File(ask));
            let (place, before) = (dialog(&harness), in_dialog(&harness, &under));
            common::write_path(&mut harness, Path::new("/no/such/place/at/all.dance.json"));
            press(&mut harness, Key::Enter);
            let Some(Question::Path(question)) = desk(&harness).question() else {
                panic!("it is asked again")
            };
            assert!(question.wrong.is_some());
            assert_eq!(dialog(&harness), place);
            assert_eq!(moved(&before, &in_dialog(&harness, &under)), [] as [String; 0]);
        }
    }
}

#[test]
fn dialogs_lie_within_the_window_with_their_buttons_at_any_size() {
    for size in [[1366.0, 768.0], [1024.0, 640.0], [900.0, 600.0], [683.0, 384.0], [512.0, 320.0]] {
        for (name, asks) in dialogs() {
            let mut harness = show_sample(size);
            for ask in asks {
                harness.state_mut().desk.apply(ask);
            }
            harness.run_steps(4);
            if desk(&harness).question().is_none() {
                continue;
            }
            see_its_button(&harness, name, size);
        }
        let folder = tempfile::tempdir().unwrap();
        for (name, desk) in after_something(folder.path()) {
            assert!(desk.question().is_some(), "{name} is asked");
            let mut harness = show(desk, size);
            harness.run_steps(4);
            see_its_button(&harness, name, size);
        }
    }
}

/// The button that puts a dialog away lies within the window.
#[track_caller]
fn see_its_button(harness: &Driven, name: &str, size: [f32; 2]) {
    let window = Rect::from_min_size(egui::Pos2::ZERO, size.into());
    let closing = ["Close", "Cancel", "Go back", "Later", "All right", "Done"];
    let button = closing.iter().find_map(|label| harness.query_by_label(label)).expect(name);
    assert!(window.contains_rect(button.rect()), "{name} at {size:?}: {:?}", button.rect());
}

#[test]
fn the_running_order_has_ten_lines_in_a_window_of_768() {
    let harness = show_sample([1366.0, 768.0]);
    let strip = harness.get_by_label("Bars").rect().top();
    let foot = harness.get_by_label("+ Figure").rect().top();
    let lines = (1..=17)
        .filter(|line| {
            let begin = format!("{line}. ");
            harness.get_all_by_role(Role::Button).any(|node| {
                let named = node.accesskit_node().label().is_some_and(|label| label.starts_with(&begin));
                named && node.rect().top() > 42.0 && node.rect().bottom() <= foot.min(strip)
            })
        })
        .count();
    assert!(lines >= 10, "{lines}");
}

/// The lines of the running order and the cards of the shelf: as many as there are, and most of them under an edge.
fn in_lists(name: &str) -> bool {
    name.contains(". ") || name.contains("Put in ")
}

/// The controls and rows of the bars; what else is there lies in a list, under the edge of it.
fn in_strip(name: &str) -> bool {
    ["Play", "speed", "loop", "Feet", "Turns", "Hands", "Notes of the tune"]
        .iter()
        .any(|known| name.contains(known))
}

/// What stands at the foot of a side, under whose edge lists go up and down.
fn at_foot(name: &str) -> bool {
    let feet = ["+ Figure", "Figure shelf", "faults: ", "fault: ", "Make room", "We mean this…", "all…"];
    feet.iter().any(|foot| name.contains(foot))
}

/// Windows of four screens with text of 100, 150 and 200 percent: every tab can be opened, what it shows is not cut by the
/// window, and no control of the bar, the tabs, the strip or the floor's rows lies over another.
#[test]
fn at_every_size_nothing_lies_over_anything_and_nothing_is_cut() {
    for screen in [[1024.0, 640.0], [1366.0, 768.0], [1920.0, 1080.0], [2560.0, 1440.0]] {
        for text in [1.0, 1.5, 2.0_f32] {
            let size = screen.map(|points: f32| points / text);
            let mut harness = show_sample(size);
            take(&mut harness, Ask::Keep(KeepAsk::ShutWelcome(true)));
            let wide = ["Order", "Set", "Dancer", "Figure", "Faults"];
            let narrow = ["Order", "Shelf", "Set", "Dancer", "Figure", "Faults"];
            let tabs: &[&str] = if size[0] < 1100.0 { &narrow } else { &wide };
            for tab in tabs {
                open_tab(&mut harness, tab);
                let window = Rect::from_min_size(egui::Pos2::ZERO, size.into()).expand(0.6);
                // Where lists go up and down, what is under their edge is to be scrolled to.
                let lists = Rect::from_min_max(
                    egui::pos2(0.0, 0.0),
                    egui::pos2(size[0], harness.state().floor_rect.bottom()),
                );
                let all: Vec<(String, Rect)> = controls(&harness).into_iter().collect();
                for (name, rect) in &all {
                    let within = rect.left() >= window.left() && rect.right() <= window.right();
                    assert!(within, "{size:?} {tab}: {name} {rect:?} is cut");
                    // Under the edge of a list is what is to be scrolled to; all else is whole.
                    if rect.top() < 42.0 || in_strip(name) || at_foot(name) {
                        assert!(window.contains_rect(*rect), "{size:?} {tab}: {name} {rect:?} is cut below");
                    }
                }
                let fixed: Vec<&(String, Rect)> = all
                    .iter()
                    .filter(|(name, rect)| {
                        // The whole line, and the buttons upon it.
                        let upon = name.contains("More for line")
                            || name.contains("Bars")
                            || name.contains("Whole dance");
                        !upon
                            && window.contains_rect(*rect)
                            && (rect.top() < 42.0
                                || lists.contains_rect(*rect)
                                || rect.top() > lists.bottom() && in_strip(name))
                    })
                    .collect();
                for (index, (name, rect)) in fixed.iter().enumerate() {
                    for (other_name, other) in &fixed[index + 1..] {
                        let common = rect.intersect(*other);
                        let over = common.width() > 1.0 && common.height() > 1.0;
                        let in_list = in_lists(name)
                            || in_lists(other_name)
                            || rect.left() < harness.state().floor_rect.left()
                            || rect.left() > harness.state().floor_rect.right();
                        assert!(
                            !over
                                || in_list
                                    && (at_foot(name) != at_foot(other_name)
                                        || in_lists(name)
                                        || in_lists(other_name)),
                            "{size:?} {tab}: {name} {rect:?} over {other_name} {other:?}"
                        );
                    }
                }
            }
        }
    }
}
