//! Menus opened by a key: where the focus is afterwards, and that a mouse that happens to lie there chooses nothing; and what menus
//! say before anything is chosen.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]
// The method itself is of one lifetime, and the search asks for any.
#![allow(clippy::redundant_closure_for_method_calls)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Figure, Leg, Part, Turn, Way};
use bellpad::desk::{Ask, DrawAsk, PlayAsk, ViewAsk};
use bellpad::edits::Together;
use bellpad::figures::Mirror;
use bellpad::motion::SpanIndex;
use driven::{
    Driven, activate, carry, dance, desk, hold, hover, let_go, open_shelf, press, right_click, show_dance,
    show_sample, six, take, undo_name,
};
use egui::{Event, Key, Modifiers, Popup, TextEdit, pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};

fn focused(harness: &Driven) -> Vec<String> {
    harness
        .query_all_by(|node| node.is_focused())
        .map(|node| node.accesskit_node().label().unwrap_or_default())
        .collect()
}

#[test]
fn escape_from_a_menu_gives_the_focus_back_to_what_it_is_of() {
    for label in ["Whole dance", "Bars of the figure", "Feet", "Turns", "Dancer 3"] {
        for keys in [
            &[][..],
            &[Key::ArrowDown],
            &[Key::ArrowDown, Key::ArrowDown, Key::ArrowDown],
            &[Key::Tab],
            &[Key::ArrowUp, Key::ArrowUp, Key::ArrowRight],
        ] {
            let mut harness = show_sample([1366.0, 768.0]);
            take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
            harness.get_by_label(label).focus();
            harness.run();
            press(&mut harness, Key::Menu);
            assert!(Popup::is_any_open(&harness.ctx), "{label} has a menu");
            for key in keys {
                press(&mut harness, *key);
            }
            // A field in it is left first.
            let typing = harness
                .ctx
                .memory(egui::Memory::focused)
                .is_some_and(|id| TextEdit::load_state(&harness.ctx, id).is_some());
            press(&mut harness, Key::Escape);
            if typing {
                press(&mut harness, Key::Escape);
            }
            assert!(!Popup::is_any_open(&harness.ctx), "{label}, {keys:?}: Escape puts it away");
            assert_eq!(focused(&harness), [label], "{label}, {keys:?}");
        }
    }
}

#[test]
fn a_mouse_that_lies_where_a_menu_opens_by_key_opens_nothing_of_it() {
    let mut harness = show_sample([1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    // Where "Home by" will be.
    harness.get_by_label("Dancer 3").focus();
    harness.run();
    press(&mut harness, Key::Menu);
    let home = harness.get_by_label("Home by").rect().center();
    press(&mut harness, Key::Escape);
    hover(&mut harness, home);
    harness.get_by_label("Dancer 3").focus();
    harness.run();
    press(&mut harness, Key::Menu);
    harness.run_steps(20);
    assert_eq!(harness.get_by_label("Home by").rect().center(), home);
    assert!(harness.query_by_label("this count").is_none() && harness.query_by_label("now").is_none());
    let before = harness.query_all_by(|_| true).count();
    // Once the mouse moves it is a mouse again.
    hover(&mut harness, home + vec2(2.0, 0.0));
    harness.run_steps(20);
    assert!(harness.query_all_by(|_| true).count() > before, "what is pointed at opens");
}

/// 1 turns left 270 in the seventh bar of eight, to face down; 2 is their mate.
fn turning() -> Dance {
    let mut dance = six();
    let mut figure = Figure::drawn("figure-1", "Figure 1", 8);
    let mut part = Part::still(1);
    part.turns.push(Turn { by: Some(270.0), ..Turn::to_face(24.0, 27.0, Way::Left, 180.0) });
    part.legs.push(Leg::straight(0.0, 4.0, -1.2, 2.3));
    figure.parts.push(part);
    dance.figures.push(figure);
    dance
}

#[test]
fn a_new_turn_is_announced_with_when_it_is_finished_and_who_follows() {
    let mut harness = show_dance(turning(), [1366.0, 768.0]);
    take(&mut harness, Ask::Draw(DrawAsk::Together(Together::Mirror(Mirror::Across))));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let row = harness.get_by_label("Turns").rect();
    right_click(&mut harness, pos2(row.left() + row.width() * 10.0 / 32.0, row.center().y));
    assert!(harness.query_by_label("A new turn of 1").is_some());
    assert!(harness.query_by_label("finished at bar 3:3, where you clicked; 2 follows").is_some());
}

#[test]
fn a_bar_is_given_a_metre_of_its_own_and_loses_it_again() {
    let mut harness = show_dance(turning(), [1366.0, 768.0]);
    let give = |harness: &mut Driven, menu: &str, metre: &str| {
        let bars = harness.get_by_label("Bars of the figure").rect();
        right_click(harness, pos2(bars.left() + bars.width() * 6.0 / 34.0, bars.center().y));
        let place = harness.get_by_label_contains(menu).rect().center();
        hover(harness, place);
        hold(harness, place);
        let_go(harness, place);
        harness.run();
        activate(harness, metre);
    };
    give(&mut harness, "Metre: 4/4", "9/8");
    let found = dance(&harness).figures[0].clone();
    assert_eq!(found.metres, [(2, bellpad::dance::Metre::NineEight)].into());
    // The turn in bar 7 comes as much later.
    assert_eq!((found.parts[0].turns[0].begin, found.parts[0].turns[0].end), (26.0, 29.0));
    assert_eq!(undo_name(&harness), "change the metre of bar 2 of Figure 1");
    give(&mut harness, "of its own", "As the tune, 4/4");
    assert_eq!(dance(&harness), turning());
}

/// Two figures that are danced alike, one after the other.
fn twice(dance: &Dance) -> Dance {
    let mut dance = dance.clone();
    let mut other = dance.figures[0].clone();
    "figure-2".clone_into(&mut other.id);
    "Figure 2".clone_into(&mut other.name);
    dance.figures.push(other);
    dance
}

/// The menu of a turn is of what is under it: once the playhead is in the next figure, whose turns are others, it is put away.
#[test]
fn the_menu_of_a_turn_goes_with_its_figure() {
    let dance_of = twice(&turning());
    let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let turn = harness.get_all_by_label_contains("Turn 1, left 270°").next().unwrap().rect().center();
    right_click(&mut harness, turn);
    assert!(harness.query_by_label("Take it away").is_some());
    // As playing does.
    harness.state_mut().desk.apply(Ask::Play(PlayAsk::Seek(40.0)));
    harness.run();
    assert!(harness.query_by_label("Take it away").is_none());
    assert_eq!(dance(&harness), dance_of);
}

/// The menu of a row of the bars stays with the figure that was clicked while the playhead goes on to the next, and is about it.
#[test]
fn a_menu_of_a_row_stays_with_the_figure_that_was_clicked() {
    let dance_of = twice(&turning());
    // The row, the count that is clicked, what is chosen, and the count at the playhead afterwards.
    for (row, clicked, item, count) in [
        ("Bars of the figure", 2.0, "Put a point in at 1:3", 2.0),
        ("Bars of the figure", 9.0, "Go to its start", 8.0),
        ("Feet", 9.3, "Go there", 9.0),
        ("Hands", 9.3, "Go there", 9.0),
        ("Turns", 10.0, "right, half about", 10.0),
    ] {
        let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
        let place = harness.get_by_label(row).rect();
        right_click(&mut harness, pos2(place.left() + place.width() * clicked / 32.0, place.center().y));
        harness.state_mut().desk.apply(Ask::Play(PlayAsk::Seek(40.0)));
        harness.run();
        activate(&mut harness, item);
        assert_eq!(driven::count(&harness), count, "{row}, {item}");
        let now = dance(&harness);
        assert_eq!(now.figures[1], dance_of.figures[1], "{row}, {item}: the next figure is as it was");
        let changes = item != "Go there" && item != "Go to its start";
        assert_eq!(now != dance_of, changes, "{row}, {item}");
    }
}

/// The stepping in a menu of the feet is that of the figure that was clicked, whatever is danced meanwhile.
#[test]
fn the_stepping_in_a_menu_is_of_the_figure_that_was_clicked() {
    let mut dance_of = twice(&turning());
    dance_of.figures[1].bars = 4;
    let mut harness = show_dance(dance_of, [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let place = harness.get_by_label("Feet").rect();
    right_click(&mut harness, pos2(place.left() + place.width() * 0.3, place.center().y));
    let meaning = |harness: &Driven| -> Vec<String> {
        let all = harness.query_all_by_label_contains("double steps").map(|node| node.accesskit_node());
        let said = all.map(|node| node.label().or_else(|| node.value()).unwrap_or_default());
        said.filter(|said| !said.starts_with("Such as")).collect()
    };
    let before = meaning(&harness);
    assert!(!before.is_empty(), "what the figure has is told");
    harness.state_mut().desk.apply(Ask::Play(PlayAsk::Seek(36.0)));
    harness.run();
    assert!(harness.query_by_label("Go there").is_some());
    assert_eq!(meaning(&harness), before);
}

/// A turn is changed of one dancer: those who follow are their mates, not those of all who are picked.
#[test]
fn the_menu_of_a_turn_names_the_mates_of_its_own_dancer() {
    let mut harness = show_dance(turning(), [1366.0, 768.0]);
    take(&mut harness, Ask::Draw(DrawAsk::Together(Together::Mirror(Mirror::Across))));
    take(&mut harness, Ask::View(ViewAsk::Pick([0, 2].map(Dancer).to_vec())));
    take(&mut harness, Ask::View(ViewAsk::ChooseFor(Dancer(0))));
    let turn = harness.get_all_by_label_contains("Turn 1, left 270°").next().unwrap().rect().center();
    right_click(&mut harness, turn);
    let said = |words: &str| harness.query_all_by_label_contains(words).next().is_some();
    assert!(said("; 2 follows"), "2 is across from 1");
    assert!(!said("2 and 4 follow"), "4 is across from 3, whose turn it is not");
}

/// What is changed by keys alone, where no press of the mouse parts it: each turn and each point of each figure is a step of its own,
/// and so is each choice from a menu.
#[test]
fn each_turn_and_each_point_changed_by_keys_is_a_step_of_its_own() {
    let mut first = turning();
    let part = &mut first.figures[0].parts[0];
    part.legs.push(Leg::straight(8.0, 12.0, -0.9, 1.9));
    part.turns.push(Turn { by: Some(90.0), ..Turn::to_face(27.0, 27.5, Way::Left, 90.0) });
    let dance_of = twice(&first);
    let turn = |span: usize, turn: usize, degrees: f64| {
        let edit = bellpad::edits::TurnEdit::By(degrees);
        Ask::Draw(DrawAsk::ChangeTurn { span: SpanIndex(span), dancer: Dancer(0), turn, edit })
    };
    let point = |span: usize, leg: usize| {
        let point = bellpad::edits::PointOf::end(leg);
        Ask::Draw(DrawAsk::PointAt { span: SpanIndex(span), dancer: Dancer(0), point, x: -0.8, y: 2.0 })
    };
    for asks in [
        [turn(0, 0, 100.0), turn(1, 0, 100.0)],
        [turn(0, 0, 100.0), turn(0, 1, 100.0)],
        [point(0, 0), point(0, 1)],
        [point(0, 0), point(1, 0)],
    ] {
        let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
        let [one, other] = asks;
        take(&mut harness, one.clone());
        let between = dance(&harness);
        assert_ne!(between, dance_of, "{one:?}");
        take(&mut harness, other.clone());
        assert_ne!(dance(&harness), between, "{other:?}");
        take(&mut harness, Ask::Undo);
        assert_eq!(dance(&harness), between, "{one:?}, then {other:?}");
        take(&mut harness, Ask::Undo);
        assert_eq!(dance(&harness), dance_of, "{one:?}");
    }
    // Typed letter by letter it is one step.
    let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
    take(&mut harness, turn(0, 0, 10.0));
    take(&mut harness, turn(0, 0, 100.0));
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), dance_of);
    // Chosen twice from the menu it is two.
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    let amounts = ["A quarter", "Half about"].map(|item| {
        let bar = harness.get_all_by_label_contains("Turn 1, left").next().unwrap();
        bar.focus();
        harness.run();
        press(&mut harness, Key::Menu);
        activate(&mut harness, item);
        harness.run();
        dance(&harness)
    });
    assert_ne!(amounts[0], amounts[1]);
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), amounts[0]);
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), dance_of);
}

/// The spots have no focus of their own: by the key they are named in the menu of the floor.
#[test]
fn the_menu_key_comes_to_every_spot() {
    let mut harness = show_dance(turning(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    take(&mut harness, Ask::Play(PlayAsk::Seek(16.0)));
    harness.get_by_label("Floor, seen from above").focus();
    harness.run();
    press(&mut harness, Key::Menu);
    for item in ["The spot of", "number 5", "1 to this spot by this count"] {
        activate(&mut harness, item);
    }
    let pose = desk(&harness).motion().pose(Dancer(0), 16.0);
    assert!((pose.x + 1.2).hypot(pose.y + 1.8) < 0.015, "{} {}", pose.x, pose.y);
}

/// A press that is held for long and goes nowhere moves nothing, wherever between two quarters of a count it is.
#[test]
fn a_long_press_that_goes_nowhere_moves_nothing() {
    let mut dance_of = turning();
    let turn = &mut dance_of.figures[0].parts[0].turns[0];
    (turn.begin, turn.end) = (24.1, 27.1);
    let leg = &mut dance_of.figures[0].parts[0].legs[0];
    (leg.begin, leg.end) = (0.0, 4.1);
    let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    for label in ["Turn 1, left", "Start of turn 1", "End of path 1", "Dancer 1", "Facing of 1"] {
        let at = harness.get_all_by_label_contains(label).next().unwrap().rect().center() + vec2(1.0, 1.0);
        hold(&mut harness, at);
        for _ in 0..90 {
            harness.step();
        }
        let_go(&mut harness, at);
        assert_eq!((dance(&harness), undo_name(&harness)), (dance_of.clone(), String::new()), "{label}");
    }
}

/// Delete held down takes away what has the focus, and not what is there next.
#[test]
fn delete_held_down_takes_one_turn() {
    let mut dance_of = turning();
    let turn = |begin: f64| Turn { by: Some(360.0), ..Turn::to_face(begin, begin + 2.0, Way::Left, 90.0) };
    dance_of.figures[0].parts[0].turns = [8.0, 12.0, 16.0].map(turn).to_vec();
    let mut harness = show_dance(dance_of, [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    harness.get_all_by_label_contains("Turn 1, left").next().unwrap().focus();
    harness.run();
    for repeat in [false, true, true, true] {
        let (key, modifiers) = (Key::Delete, Modifiers::NONE);
        harness.event(Event::Key { key, physical_key: None, pressed: true, repeat, modifiers });
        harness.run();
    }
    assert_eq!(dance(&harness).figures[0].parts[0].turns.len(), 2);
}

/// A card of the shelf by mouse and by key: put in before, after, at either end.
#[test]
fn a_card_of_the_shelf_has_a_menu_of_where_to_put_it() {
    let names = |harness: &Driven| -> Vec<String> {
        let spans = desk(harness).motion().spans();
        spans.iter().map(|span| desk(harness).dance().figures[span.figure].name.clone()).collect()
    };
    for (item, at) in [
        ("Put in before Cross and turn", 3),
        ("Put in after Cross and turn", 4),
        ("Put in at the beginning", 0),
        ("Put in at the end", 17),
    ] {
        for by_key in [false, true] {
            let mut harness = show_sample([1366.0, 1000.0]);
            let begin = desk(&harness).motion().spans()[3].begin();
            take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 1.0)));
            open_shelf(&mut harness);
            let before = names(&harness);
            if by_key {
                harness.get_by_label("Put in Down and back").focus();
                harness.run_ok();
                harness.key_press(Key::Menu);
                harness.run_ok();
            } else {
                let card = harness.get_by_label("Put in Down and back").rect().center();
                harness.hover_at(card);
                harness.run_ok();
                for pressed in [true, false] {
                    let button = egui::PointerButton::Secondary;
                    harness.event(Event::PointerButton {
                        pos: card,
                        button,
                        pressed,
                        modifiers: Modifiers::NONE,
                    });
                }
                harness.run_ok();
            }
            harness.get_by_label(item).click_accesskit();
            harness.run_ok();
            let now = names(&harness);
            assert_eq!(now.len(), before.len() + 1, "{item}");
            assert_eq!(now[at], "Down and back", "{item}: {now:?}");
        }
    }
}

/// A figure that is carried over the bars is announced with what it goes before, and its mark is not the playhead's line.
#[test]
fn a_carried_figure_says_what_it_goes_before() {
    let mut harness = show_sample([1366.0, 1000.0]);
    let begin = desk(&harness).motion().spans()[3].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin)));
    open_shelf(&mut harness);
    let card = harness.get_by_label("Put in Down and back").rect().center();
    let whole = harness.get_by_label("Whole dance").rect();
    let share = (begin / desk(&harness).motion().counts()) as f32;
    let to = pos2(whole.left() + whole.width() * share, whole.center().y);
    carry(&mut harness, card, to);
    let next = desk(&harness).dance().figures[desk(&harness).motion().spans()[3].figure].name.clone();
    let said: Vec<String> = harness
        .query_all_by_role(egui::accesskit::Role::Status)
        .map(|node| node.accesskit_node().label().unwrap_or_default())
        .collect();
    assert!(
        said.contains(&format!("before {next}")),
        "{said:?}, carried: {}",
        egui::DragAndDrop::has_any_payload(&harness.ctx)
    );
    harness.drop_at(to);
    harness.run_ok();
    assert_eq!(
        desk(&harness).dance().figures[desk(&harness).motion().spans()[3].figure].name,
        "Down and back"
    );
}

/// Tab goes through the head as it is read.
#[test]
fn tab_goes_through_the_head_from_the_left() {
    for width in [1366.0, 1024.0, 512.0] {
        let mut harness = show_sample([width, 700.0]);
        take(&mut harness, Ask::Order(bellpad::desk::OrderAsk::SetHops(false)));
        harness.get_by_label("Undo").focus();
        harness.run();
        let mut left = f32::NEG_INFINITY;
        let mut seen = 0;
        for _ in 0..12 {
            let Some(node) = harness.query_all_by(|node| node.is_focused()).next() else { break };
            let rect = node.rect();
            if rect.top() > 42.0 {
                break;
            }
            assert!(rect.left() > left, "{width}: {rect:?} after {left}");
            (left, seen) = (rect.left(), seen + 1);
            press(&mut harness, Key::Tab);
        }
        assert!(seen >= 4, "{width}: {seen}");
    }
}

/// 1 goes out and comes back to where the first path ended: two points lie at one place.
fn there_and_back() -> Dance {
    let mut dance = turning();
    let part = &mut dance.figures[0].parts[0];
    part.turns.clear();
    part.legs = vec![
        Leg::straight(0.0, 4.0, -1.2, 2.3),
        Leg::straight(4.0, 8.0, -0.4, 2.3),
        Leg::straight(8.0, 12.0, -1.2, 2.3),
    ];
    dance
}

#[test]
fn of_several_points_at_one_place_the_one_nearest_in_time_is_dragged_and_the_others_are_named() {
    // While the dancer is elsewhere: a body is what a drag takes where both are.
    for (count, leg) in [(6.0, 0), (9.5, 2)] {
        let mut harness = show_dance(there_and_back(), [1366.0, 768.0]);
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
        take(&mut harness, Ask::Play(PlayAsk::Seek(count)));
        let point = driven::at(&mut harness, -1.2, 2.3);
        let to = driven::at(&mut harness, -1.2, 2.7);
        driven::drag(&mut harness, point, to);
        let legs = dance(&harness).figures[0].parts[0].legs.clone();
        let moved: Vec<usize> = (0..3).filter(|index| legs[*index].to.y > 2.5).collect();
        assert_eq!(moved, [leg], "at {count}");
        take(&mut harness, Ask::Undo);
        right_click(&mut harness, point);
        let other =
            if leg == 0 { "Here too: end of path 3, bar 4:1" } else { "Here too: end of path 1, bar 2:1" };
        activate(&mut harness, other);
        assert_eq!(driven::count(&harness), if leg == 0 { 12.0 } else { 4.0 });
    }
}

/// Bars have one numbering: as their figure counts them, on the clock, in tips, for a loop and in the name of a picture.
#[test]
fn bars_are_counted_by_their_figure_everywhere() {
    use bellpad::desk::{FileAsk, Question};
    let mut harness = show_sample([1366.0, 768.0]);
    let begin = desk(&harness).motion().spans()[3].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 5.0)));
    assert_eq!(desk(&harness).moment_words(driven::count(&harness)), "Cross and turn, bar 2:2");
    take(&mut harness, Ask::File(FileAsk::AskStillPath));
    let Some(Question::Path(question)) = desk(&harness).question() else { panic!("a path is asked for") };
    let name = question.path.file_name().unwrap().to_string_lossy().into_owned();
    assert!(name.ends_with("cross-and-turn-bar-2-2.png"), "{name}");
    press(&mut harness, Key::Escape);
    // A figure that is danced again has another name each time.
    let names = [2, 4].map(|line| {
        let chorus = desk(&harness).motion().spans()[line].begin();
        take(&mut harness, Ask::Play(PlayAsk::Seek(chorus)));
        take(&mut harness, Ask::File(FileAsk::AskStillPath));
        let Some(Question::Path(question)) = desk(&harness).question() else { panic!("a path is asked for") };
        let name = question.path.file_name().unwrap().to_string_lossy().into_owned();
        press(&mut harness, Key::Escape);
        name
    });
    assert!(names[0].ends_with("chorus-lanterns-time-1-bar-1-1.png"), "{names:?}");
    assert!(names[1].ends_with("chorus-lanterns-time-2-bar-1-1.png"), "{names:?}");
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 5.0)));
    let whole = harness.get_by_label("Whole dance").rect();
    let counts = desk(&harness).motion().counts();
    let at = pos2(whole.left() + whole.width() * ((begin + 2.0) / counts) as f32, whole.center().y);
    let line = harness.get_all_by_label_contains("4. Cross and turn").next().unwrap().rect().center();
    for at in [at, line] {
        hover(&mut harness, at);
        harness.run_steps(20);
        assert!(harness.query_all_by_label_contains("8 bars, 1 to 8").next().is_some());
        assert!(harness.query_all_by_label_contains("bars 25").next().is_none());
    }
    take(&mut harness, Ask::Play(PlayAsk::LoopFromAt(begin + 4.0)));
    take(&mut harness, Ask::Play(PlayAsk::LoopToAt(begin + 8.0)));
    assert!(harness.query_by_label("loop bars 2 to 3").is_some());
    take(&mut harness, Ask::Play(PlayAsk::LoopToAt(begin + 40.0)));
    assert!(harness.query_by_label("loop over 2 figures").is_some());
}

/// In a figure of more bars than are shown at once, what is dragged over the edge of the bars stays in the hand, and comes back.
#[test]
fn what_is_dragged_over_the_edge_of_the_bars_stays_in_the_hand() {
    let mut long = six();
    let mut figure = Figure::drawn("long", "Long", 24);
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(20.0, 28.0, -1.2, 2.3));
    part.turns.push(Turn { by: Some(90.0), ..Turn::to_face(24.0, 27.0, Way::Left, 270.0) });
    figure.parts.push(part);
    long.figures.push(figure);
    for label in ["Turn 1, left", "End of path 1"] {
        let mut harness = show_dance(long.clone(), [1366.0, 768.0]);
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
        take(&mut harness, Ask::Play(PlayAsk::Seek(8.0)));
        let from = harness.get_all_by_label_contains(label).next().unwrap().rect().center();
        let bars = harness.get_by_label("Bars").rect();
        let far = pos2(bars.right() + 60.0, from.y);
        driven::pull(&mut harness, from, far);
        let moved = dance(&harness);
        assert_ne!(moved, long, "{label}");
        // Back again it is still what is held.
        hover(&mut harness, from + vec2(-40.0, 0.0));
        assert_ne!(dance(&harness), moved, "{label}: it goes on");
        assert!(desk(&harness).held().is_some(), "{label}");
        hover(&mut harness, far);
        let_go(&mut harness, far);
        assert_eq!(dance(&harness), moved, "{label}: it stays where it was let go");
        take(&mut harness, Ask::Undo);
        assert_eq!(dance(&harness), long, "{label}: one step");
    }
}

/// Each turn that the keys move is a step of its own to undo.
#[test]
fn two_turns_moved_by_keys_are_two_steps() {
    let mut dance_of = turning();
    let turn = |begin: f64| Turn { by: Some(360.0), ..Turn::to_face(begin, begin + 2.0, Way::Left, 90.0) };
    dance_of.figures[0].parts[0].turns = [8.0, 16.0].map(turn).to_vec();
    let mut harness = show_dance(dance_of.clone(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    for label in ["Turn 1, left", "Turn 2, left"] {
        harness.get_all_by_label_contains(label).next().unwrap().focus();
        harness.run();
        press(&mut harness, Key::ArrowRight);
        press(&mut harness, Key::ArrowRight);
    }
    let begins = |harness: &Driven| {
        dance(harness).figures[0].parts[0].turns.iter().map(|turn| turn.begin).collect::<Vec<_>>()
    };
    assert_eq!(begins(&harness), [9.0, 17.0]);
    take(&mut harness, Ask::Undo);
    assert_eq!(begins(&harness), [9.0, 16.0]);
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), dance_of);
}

/// The arrow goes down a menu past the field in it, and changes nothing on its way.
#[test]
fn arrows_go_through_a_menu_past_its_field() {
    let mut harness = show_dance(turning(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    harness.get_all_by_label_contains("Turn 1, left").next().unwrap().focus();
    harness.run();
    press(&mut harness, Key::Menu);
    let mut been = Vec::new();
    for _ in 0..14 {
        press(&mut harness, Key::ArrowDown);
        been.extend(focused(&harness));
        if been.last().is_some_and(|name| name == "Take it away") {
            break;
        }
    }
    assert_eq!(been.last().map(String::as_str), Some("Take it away"), "{been:?}");
    assert!(been.len() >= 10, "{been:?}");
    assert_eq!(dance(&harness), turning());
    press(&mut harness, Key::Enter);
    assert!(dance(&harness).figures[0].parts[0].turns.is_empty());
}
