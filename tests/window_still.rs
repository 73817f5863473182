//! The window keeps still and hides nothing: what can be clicked keeps its place while time runs and values change, and in a
//! window of any size everything can be reached, lies over nothing else, and is not cut.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

#[path = "common/window.rs"]
mod common;

use bellpad::dance::Dancer;
use bellpad::desk::{
    About, Ask, CompareAsk, Desk, FaultAsk, FileAsk, KeepAsk, OrderAsk, PlayAsk, Question, ViewAsk,
};
use bellpad::handout::{HandoutChoice, HandoutKind, PaperFile};
use bellpad::store::{self, Home, Recent};
use common::{Driven, desk, open_tab, press, show, show_sample, take};
use egui::{Key, Rect, accesskit::Role};
use egui_kittest::kittest::{NodeT, Queryable};
use std::collections::BTreeMap;
use std::path::Path;

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
    let moving =
        ["Dancer ", "Facing of", "Path ", "Start of", "End of", "Turn ", "Point ", "Fault: ", "Notice"];
    let mut known: BTreeMap<String, Rect> = BTreeMap::new();
    for role in roles {
        for node in harness.query_all_by_role(role) {
            let label = node.accesskit_node().label().unwrap_or_default();
            let rect = node.rect();
            if moving.iter().any(|begin| label.starts_with(begin)) || !window.intersects(rect) {
                continue;
            }
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

/// Controls that were there before and are in another place now.
fn moved(before: &BTreeMap<String, Rect>, now: &BTreeMap<String, Rect>) -> Vec<String> {
    before
        .iter()
        .filter_map(|(name, rect)| {
            let there = now.get(name)?;
            let off = (there.min - rect.min).length().max((there.max - rect.max).length());
            (off > 0.6).then(|| format!("{name}: {rect:?}, then {there:?}"))
        })
        .collect()
}

#[test]
fn nothing_moves_while_the_dance_is_gone_through_count_by_count_and_played() {
    for tab in ["Dancer", "Figure", "Faults"] {
        let mut harness = show_sample([1366.0, 768.0]);
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
        open_tab(&mut harness, tab);
        // Whole figures apart, the fields of one figure are not those of another.
        let begin = desk(&harness).motion().spans()[5].begin();
        take(&mut harness, Ask::Play(PlayAsk::Seek(begin)));
        let first = controls(&harness);
        assert!(first.len() > 25, "{}", first.len());
        for step in 0..64 {
            take(&mut harness, Ask::Play(PlayAsk::Seek(begin + f64::from(step) * 0.5)));
            let now = controls(&harness);
            assert_eq!(moved(&first, &now), [] as [String; 0], "{tab}, at {step}");
            assert!(now.len() >= first.len(), "{tab}, at {step}: {} of {}", now.len(), first.len());
        }
        take(&mut harness, Ask::Play(PlayAsk::Seek(begin)));
        harness.state_mut().desk.apply(Ask::Play(PlayAsk::Toggle));
        for frame in 0..120 {
            harness.step();
            let now = controls(&harness);
            // Play says Stop, and nothing else is another thing.
            assert_eq!(moved(&first, &now), [] as [String; 0], "{tab}, in play, frame {frame}");
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
        ("handout", vec![Ask::File(FileAsk::AskHandout)]),
        ("limits", vec![Ask::Fault(FaultAsk::AskLimits)]),
        ("call", vec![Ask::Order(OrderAsk::Write(About::Call(1)))]),
        ("notes", vec![Ask::Order(OrderAsk::Write(About::Notes(1)))]),
        ("unsaved", vec![Ask::Order(OrderAsk::SetHops(false)), Ask::File(FileAsk::AskOpen)]),
        ("recovered", vec![Ask::Keep(KeepAsk::AskRecovered)]),
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
    vec![
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

#[test]
fn dialogs_keep_their_size_and_their_buttons_while_choices_change() {
    // The handout dialog, for every kind.
    let mut harness = show_sample([1366.0, 768.0]);
    take(&mut harness, Ask::File(FileAsk::AskHandout));
    let place =
        |harness: &Driven| [harness.get_by_label("Save…").rect(), harness.get_by_label("Cancel").rect()];
    let first = place(&harness);
    for kind in [
        HandoutKind::Figure,
        HandoutKind::Dance,
        HandoutKind::Dancer,
        HandoutKind::Notebook,
        HandoutKind::PracticePage,
        HandoutKind::Moving,
    ] {
        let choice = bellpad::handout::HandoutChoice { kind, ..desk(&harness).handout() };
        harness.state_mut().desk.apply(Ask::File(FileAsk::ChooseHandout(choice)));
        for _ in 0..8 {
            harness.step();
            assert_eq!(place(&harness), first, "{kind:?}");
        }
    }
    // A new dance, right and wrong.
    let mut harness = show_sample([1366.0, 768.0]);
    take(&mut harness, Ask::File(FileAsk::AskNew));
    let before = controls(&harness);
    for label in ["a ring", "Cross over", "Hey", "two files", "10", "Corners"] {
        harness.get_all_by_label(label).last().unwrap().click();
        harness.run();
        let now = controls(&harness);
        let dialog = |name: &str| {
            ["Make it", "Cancel", "Cross over", "Hey", "a ring"].iter().any(|end| name.ends_with(end))
        };
        let kept: BTreeMap<_, _> = before.clone().into_iter().filter(|(name, _)| dialog(name)).collect();
        assert_eq!(moved(&kept, &now), [] as [String; 0], "after {label}");
    }
    // A path that cannot be used.
    let mut harness = show_sample([1366.0, 768.0]);
    take(&mut harness, Ask::File(FileAsk::AskOpen));
    let before = controls(&harness);
    common::write_path(&mut harness, std::path::Path::new("/no/such/place/at/all.dance.json"));
    press(&mut harness, Key::Enter);
    assert!(matches!(desk(&harness).question(), Some(Question::Path(question)) if question.wrong.is_some()));
    assert_eq!(moved(&before, &controls(&harness)), [] as [String; 0]);
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
    let closing = ["Close", "Cancel", "Go back", "Later", "All right"];
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
