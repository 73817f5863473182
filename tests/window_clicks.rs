//! A right click on everything on the floor and the bars, and the menu key on what has the focus: what can be done there is done,
//! as one step to undo. And pointing at it: what it is, told beside it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/lines.rs"]
mod order;

use bellpad::dance::{Dance, Dancer, Figure, Leg, Part, Shape, Turn, TurnOn, Way};
use bellpad::desk::{About, Ask, DrawAsk, OrderAsk, PlayAsk, Question, ViewAsk};
use bellpad::edits::{LegFrom, Together};
use bellpad::motion::SpanIndex;
use driven::{
    Driven, at, click, count, dance, desk, hover, let_go, place, press, press_with, pull, right_click,
    show_dance, six, take, undo_name, where_is, write,
};
use egui::{Event, Key, Modifiers, PointerButton, Pos2, pos2, vec2};
use egui_kittest::kittest::Queryable;

fn window(dance: Dance) -> Driven {
    show_dance(dance, [1280.0, 900.0])
}

/// 1 goes in for two bars and bends on up for one, stands, and turns left 270 in the seventh; nobody else does anything.
fn walked() -> Dance {
    let mut dance = six();
    let mut figure = Figure::drawn("walk", "Walk", 8);
    let mut part = Part::still(1);
    part.legs = vec![Leg::straight(0.0, 8.0, -0.4, 1.8), Leg::smooth(8.0, 12.0, &[(-0.3, 2.3)], -0.9, 2.6)];
    part.turns.push(Turn { by: Some(270.0), ..Turn::to_face(24.0, 27.0, Way::Left, 180.0) });
    figure.parts.push(part);
    dance.figures.push(figure);
    dance
}

fn seek(harness: &mut Driven, count: f64) {
    take(harness, Ask::Play(PlayAsk::Seek(count)));
}

/// Gives something the focus and presses the menu key.
fn menu_key(harness: &mut Driven, label: &str) {
    harness.get_by_label(label).focus();
    harness.run();
    press(harness, Key::Menu);
}

fn has(harness: &Driven, label: &str) -> bool {
    harness.query_all_by_label_contains(label).next().is_some()
}

/// Goes through an open menu and what opens out of it; nothing of it is open afterwards.
#[track_caller]
fn choose(harness: &mut Driven, path: &[&str]) {
    let many = |harness: &Driven| harness.query_all_by_label(path[0]).count();
    let before = many(harness);
    for label in path {
        // Those with a key have it in their name; what else is called so lies under the menu.
        if let Some(node) = harness.query_all_by_label(label).last() {
            node.click_accesskit();
            harness.run();
        } else {
            harness.get_by_label_contains(label).click_accesskit();
            harness.run();
        }
    }
    harness.run();
    let open = before > 0 && many(harness) == before;
    assert!(!open, "{path:?} is still open");
}

/// Undoes one step, after which everything is as it was.
#[track_caller]
fn undo_to(harness: &mut Driven, before: &Dance, what: &[&str]) {
    assert_ne!(dance(harness), *before, "{what:?} changes something");
    take(harness, Ask::Undo);
    assert_eq!(dance(harness), *before, "{what:?} is one step");
}

fn pose(harness: &Driven, dancer: usize, count: f64) -> (f64, f64, f64) {
    let pose = desk(harness).motion().pose(Dancer(dancer), count);
    (pose.x, pose.y, pose.facing.rem_euclid(360.0))
}

#[track_caller]
fn is_at(harness: &Driven, dancer: usize, count: f64, (x, y): (f64, f64)) {
    let (px, py, _) = pose(harness, dancer, count);
    assert!((px - x).hypot(py - y) < 0.015, "{} is at {px:.3}, {py:.3}, not {x}, {y}", dancer + 1);
}

/// Where a count of an eight-bar figure is in a row of the bars.
fn in_row(harness: &Driven, row: &str, count: f32) -> Pos2 {
    let rect = harness.get_by_label(row).rect();
    pos2(rect.left() + rect.width() * count / 32.0, rect.center().y)
}

/// What a thing of the menu does: what to look at, and what it should be.
type Check = fn(&Driven);

const OF_A_DANCER: [(&[&str], Check); 11] = [
    (&["Home by", "this count"], |window| is_at(window, 0, 16.0, (-1.2, 1.8))),
    (&["Home by", "the end of this bar"], |window| is_at(window, 0, 20.0, (-1.2, 1.8))),
    (&["Home by", "the last step before the jump"], |window| is_at(window, 0, 28.0, (-1.2, 1.8))),
    (&["Home by", "the end of this half"], |window| is_at(window, 0, 32.0, (-1.2, 1.8))),
    (&["To the spot of", "number 3"], |window| is_at(window, 0, 16.0, (-1.2, 0.0))),
    (&["Face", "down"], |window| assert!((pose(window, 0, 16.0).2 - 180.0).abs() < 0.1)),
    (&["Face", "up, to the music"], |window| {
        assert!(desk(window).motion().pose(Dancer(0), 16.0).facing.abs() < 0.1);
    }),
    (&["Turn", "left, three quarters"], |window| {
        let facing = desk(window).motion().pose(Dancer(0), 16.0).facing;
        assert!((facing - (90.0 - 270.0)).abs() < 0.1, "{facing}");
    }),
    (&["Copy to mates (across and end for end)"], |window| {
        is_at(window, 1, 12.0, (0.9, 2.6));
        is_at(window, 4, 12.0, (-0.9, -2.6));
        is_at(window, 5, 12.0, (0.9, -2.6));
    }),
    (&["Copy to", "2 (across the set)"], |window| is_at(window, 1, 12.0, (0.9, 2.6))),
    (&["Clear what is drawn"], |window| assert!(dance(window).figures[0].parts.is_empty())),
];

#[test]
fn a_right_click_on_a_dancer_does_what_it_offers() {
    let mut harness = window(walked());
    seek(&mut harness, 16.0);
    for (path, check) in OF_A_DANCER {
        let at = place(&mut harness, 0);
        right_click(&mut harness, at);
        choose(&mut harness, path);
        check(&harness);
        undo_to(&mut harness, &walked(), path);
    }
    // Standing on the way: the leg under way ends there, and the next sets out later.
    seek(&mut harness, 4.0);
    let at = place(&mut harness, 0);
    right_click(&mut harness, at);
    choose(&mut harness, &["Stand until", "the end of this bar"]);
    let (x, y) = where_is(&harness, 0);
    for count in [4.0, 6.0, 8.0] {
        is_at(&harness, 0, count, (x, y));
    }
    is_at(&harness, 0, 12.0, (-0.9, 2.6));
    undo_to(&mut harness, &walked(), &["Stand until"]);
    // Another than the chosen one: choosing, and picking as well.
    let at = place(&mut harness, 2);
    right_click(&mut harness, at);
    choose(&mut harness, &["Pick as well"]);
    assert_eq!(desk(&harness).picked(), [Dancer(0), Dancer(2)]);
    right_click(&mut harness, at);
    choose(&mut harness, &["Choose 3"]);
    assert_eq!((desk(&harness).chosen(), desk(&harness).picked()), (Some(Dancer(2)), &[Dancer(2)][..]));
    assert_eq!(dance(&harness), walked());
}

#[test]
fn those_picked_go_home_each_to_their_own_spot() {
    let mut harness = window(walked());
    seek(&mut harness, 12.0);
    take(&mut harness, Ask::View(ViewAsk::Pick([0, 1].map(Dancer).to_vec())));
    for (dancer, x, y) in [(0, -0.5, 1.0), (1, 0.7, 1.3)] {
        take(&mut harness, Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(dancer), x, y }));
    }
    let before = dance(&harness);
    seek(&mut harness, 16.0);
    let at = place(&mut harness, 1);
    right_click(&mut harness, at);
    choose(&mut harness, &["Home by", "this count"]);
    is_at(&harness, 0, 16.0, (-1.2, 1.8));
    is_at(&harness, 1, 16.0, (1.2, 1.8));
    assert_eq!(undo_name(&harness), "bring 1 and 2 home by bar 5:1");
    undo_to(&mut harness, &before, &["Home by"]);
}

#[test]
fn the_menu_key_opens_the_menu_of_what_has_the_focus() {
    let mut harness = window(walked());
    seek(&mut harness, 16.0);
    // By the key, with arrows, and put away by Escape: the focus is where it was.
    menu_key(&mut harness, "Dancer 1");
    assert!(has(&harness, "Home by"));
    press(&mut harness, Key::ArrowDown);
    assert!(harness.get_by_label("Home by").is_focused());
    press(&mut harness, Key::Escape);
    harness.run();
    assert!(!has(&harness, "Home by"));
    assert!(harness.get_by_label("Dancer 1").is_focused());
    assert_eq!(dance(&harness), walked(), "arrows in a menu move nobody");
    // Chosen by Enter, it gives the focus back as well.
    for (label, item) in [("Dancer 1", "Clear what is drawn"), ("1. Walk, 8 bars", "Dance it again")] {
        menu_key(&mut harness, label);
        harness.get_by_label(item).focus();
        harness.run();
        press(&mut harness, Key::Enter);
        harness.run();
        assert_ne!(dance(&harness), walked(), "{item} did nothing");
        assert!(harness.get_by_label(label).is_focused(), "{label} has not the focus again");
        take(&mut harness, Ask::Undo);
        seek(&mut harness, 16.0);
    }
    for (path, check) in OF_A_DANCER {
        menu_key(&mut harness, "Dancer 1");
        choose(&mut harness, path);
        check(&harness);
        undo_to(&mut harness, &walked(), path);
    }
    // With nothing in focus it is the chosen dancer's; Shift and F10 are the same.
    harness.get_by_label("Dancer 1").focus();
    harness.run();
    press(&mut harness, Key::Escape);
    press_with(&mut harness, Modifiers::SHIFT, Key::F10);
    assert!(has(&harness, "Choose 1"));
    choose(&mut harness, &["Turn", "right, a quarter"]);
    assert!((pose(&harness, 0, 16.0).2 - 180.0).abs() < 0.1);
    undo_to(&mut harness, &walked(), &["Turn"]);
    // The ring that turns the chosen dancer has one too.
    menu_key(&mut harness, "Facing of 1");
    choose(&mut harness, &["left, a quarter"]);
    assert!(pose(&harness, 0, 16.0).2 < 0.1);
    undo_to(&mut harness, &walked(), &["left, a quarter"]);
}

#[test]
fn the_bare_floor_and_its_spots_take_the_chosen_dancer() {
    let mut harness = window(walked());
    seek(&mut harness, 16.0);
    let bare = at(&mut harness, 0.1, 0.9);
    right_click(&mut harness, bare);
    choose(&mut harness, &["1 to here by this count"]);
    is_at(&harness, 0, 16.0, (0.1, 0.9));
    assert_eq!(undo_name(&harness), "move 1 by bar 5:1");
    undo_to(&mut harness, &walked(), &["1 to here by this count"]);
    right_click(&mut harness, bare);
    choose(&mut harness, &["1 to here by", "the end of this half"]);
    is_at(&harness, 0, 32.0, (0.1, 0.9));
    undo_to(&mut harness, &walked(), &["1 to here by"]);
    // The spot that 1 has left, a hand's breadth from its middle.
    let spot = at(&mut harness, -1.27, 1.72);
    right_click(&mut harness, spot);
    assert!(has(&harness, "The spot of 1"));
    choose(&mut harness, &["1 to this spot by this count"]);
    is_at(&harness, 0, 16.0, (-1.2, 1.8));
    undo_to(&mut harness, &walked(), &["1 to this spot by this count"]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(4)))));
    right_click(&mut harness, spot);
    choose(&mut harness, &["Choose 1, whose spot it is"]);
    assert_eq!(desk(&harness).chosen(), Some(Dancer(0)));
    // By the key there is no place that is meant.
    menu_key(&mut harness, "Floor, seen from above");
    assert!(!has(&harness, "to here"));
    choose(&mut harness, &["Pick everyone"]);
    assert_eq!(desk(&harness).picked().len(), 6);
    right_click(&mut harness, bare);
    choose(&mut harness, &["See from", "the music"]);
    assert_eq!(desk(&harness).seen(), bellpad::desk::Seen::FromTop);
}

#[test]
fn a_right_drag_moves_the_floor_and_opens_nothing() {
    let mut harness = window(walked());
    let from = at(&mut harness, 0.1, 0.9);
    hover(&mut harness, from);
    let button = |pos: Pos2, pressed: bool| Event::PointerButton {
        pos,
        button: PointerButton::Secondary,
        pressed,
        modifiers: Modifiers::NONE,
    };
    harness.event(button(from, true));
    harness.run();
    for step in 1..=6 {
        hover(&mut harness, from + vec2(10.0, 5.0) * step as f32);
    }
    harness.event(button(from + vec2(60.0, 30.0), false));
    harness.run();
    let [right, down] = desk(&harness).pan();
    assert!((right - 60.0).abs() < 1.5 && (down - 30.0).abs() < 1.5, "{right} {down}");
    assert!(!has(&harness, "Pick everyone"));
    // A click that puts a menu away chooses nobody by it.
    right_click(&mut harness, from);
    assert!(has(&harness, "Pick everyone"));
    let elsewhere = from + vec2(-150.0, 180.0);
    hover(&mut harness, elsewhere);
    for pressed in [true, false] {
        let button = PointerButton::Primary;
        harness.event(Event::PointerButton { pos: elsewhere, button, pressed, modifiers: Modifiers::NONE });
    }
    harness.run();
    assert!(!has(&harness, "Pick everyone"));
    assert_eq!(desk(&harness).chosen(), Some(Dancer(0)));
}

#[test]
fn points_of_a_path_have_their_menu_on_the_floor_and_on_the_bars() {
    let mut harness = window(walked());
    seek(&mut harness, 16.0);
    let legs = |harness: &Driven| dance(harness).figures[0].parts[0].legs.clone();
    let on_bars = {
        let points = harness.query_all_by_label_contains("Point 1 of path 2, at");
        points.map(|node| node.rect().center()).next().unwrap()
    };
    let on_floor = harness.get_by_label("Path 2 point 1 of 1").rect().center();
    for at in [on_floor, on_bars] {
        right_click(&mut harness, at);
        choose(&mut harness, &["Go there"]);
        assert!(count(&harness) > 8.0 && count(&harness) < 12.0);
        seek(&mut harness, 16.0);
        right_click(&mut harness, at);
        choose(&mut harness, &["Arc"]);
        assert_eq!(legs(&harness)[1].shape, Shape::Arc);
        undo_to(&mut harness, &walked(), &["Arc"]);
        right_click(&mut harness, at);
        choose(&mut harness, &["Split here"]);
        assert_eq!(legs(&harness).len(), 3);
        undo_to(&mut harness, &walked(), &["Split here"]);
        seek(&mut harness, 16.0);
        right_click(&mut harness, at);
        choose(&mut harness, &["Take this point away"]);
        assert!(legs(&harness)[1].through.is_empty());
        undo_to(&mut harness, &walked(), &["Take this point away"]);
    }
    for by_key in [false, true] {
        let end = "End of path 1, at bar 3:1";
        if by_key {
            menu_key(&mut harness, end);
        } else {
            let at = harness.get_by_label(end).rect().center();
            right_click(&mut harness, at);
        }
        choose(&mut harness, &["Join with the next path"]);
        assert_eq!(legs(&harness).len(), 1);
        undo_to(&mut harness, &walked(), &["Join with the next path"]);
    }
    menu_key(&mut harness, "Start of path 1, at bar 1:1");
    choose(&mut harness, &["Take this path away"]);
    assert_eq!(legs(&harness).len(), 1);
    undo_to(&mut harness, &walked(), &["Take this path away"]);
    menu_key(&mut harness, "Path 1 end of 1");
    // The card has one of that name too.
    harness.get_all_by_label("Place…").last().unwrap().click_accesskit();
    harness.run();
    assert!(has(&harness, "From the middle of the set"));
    press(&mut harness, Key::Escape);
    let point = bellpad::edits::PointOf::end(0);
    take(
        &mut harness,
        Ask::Draw(DrawAsk::PointAt { span: SpanIndex(0), dancer: Dancer(0), point, x: -0.333, y: 1.5 }),
    );
    is_at(&harness, 0, 8.0, (-0.333, 1.5));
}

#[test]
fn a_bar_is_looped_and_the_path_in_it_split() {
    let mut harness = window(walked());
    let bars = "Bars of the figure";
    let looped = |harness: &Driven| desk(harness).player().loop_counts;
    let on = |harness: &mut Driven, count: f32, path: &[&str]| {
        let at = in_row(harness, bars, count);
        right_click(harness, at);
        choose(harness, path);
    };
    on(&mut harness, 9.0, &["Loop this bar"]);
    assert_eq!(looped(&harness), Some((8.0, 12.0)));
    on(&mut harness, 21.0, &["Loop to here"]);
    assert_eq!(looped(&harness), Some((8.0, 24.0)));
    on(&mut harness, 5.0, &["Loop from here"]);
    assert_eq!(looped(&harness), Some((4.0, 24.0)));
    on(&mut harness, 14.0, &["Go to its start"]);
    assert_eq!(count(&harness), 12.0);
    on(&mut harness, 4.0, &["Put a point in at 2:1"]);
    assert_eq!((count(&harness), dance(&harness).figures[0].parts[0].legs[0].through.len()), (4.0, 1));
    undo_to(&mut harness, &walked(), &["Put a point in"]);
    on(&mut harness, 4.0, &["Split the path at 2:1"]);
    assert_eq!(dance(&harness).figures[0].parts[0].legs.len(), 3);
    undo_to(&mut harness, &walked(), &["Split the path"]);
    // By the key it is the bar at the playhead.
    seek(&mut harness, 17.0);
    harness.get_by_label(bars).focus();
    harness.run();
    press_with(&mut harness, Modifiers::SHIFT, Key::F10);
    choose(&mut harness, &["Loop this bar"]);
    assert_eq!(looped(&harness), Some((16.0, 20.0)));
}

#[test]
fn a_turn_is_changed_on_the_bars() {
    let mut harness = window(walked());
    let amount = |harness: &Driven| {
        let track = desk(harness).motion().spans()[0].track(Dancer(0)).unwrap();
        track.amounts().first().copied()
    };
    let turn = |harness: &Driven| dance(harness).figures[0].parts[0].turns[0].clone();
    for by_key in [false, true] {
        let mut change = |item: &str, check: &dyn Fn(&Driven)| {
            if by_key {
                menu_key(&mut harness, "Turns");
            } else {
                let at = in_row(&harness, "Turns", 25.5);
                right_click(&mut harness, at);
            }
            choose(&mut harness, &[item]);
            check(&harness);
            undo_to(&mut harness, &walked(), &[item]);
        };
        change("The other way: right 90°", &|harness| assert_eq!(amount(harness), Some(90.0)));
        for (item, degrees) in [("A quarter", 90.0), ("Half about", 180.0), ("A whole turn", 360.0)] {
            change(item, &|harness| assert_eq!(amount(harness), Some(-degrees), "{item}"));
        }
        change("On the single steps", &|harness| {
            assert_eq!(turn(harness).on, Some(TurnOn::SingleSteps));
            let track = desk(harness).motion().spans()[0].track(Dancer(0)).unwrap().turns()[0].clone();
            assert_eq!((track.begin, track.end), (24.0, 27.0));
        });
        change("On the first count", &|harness| assert_eq!(turn(harness).on, Some(TurnOn::Start)));
        change("Take it away", &|harness| assert_eq!(amount(harness), None));
    }
    // Where there is none one is made.
    let at = in_row(&harness, "Turns", 6.0);
    right_click(&mut harness, at);
    choose(&mut harness, &["right, half about"]);
    assert_eq!(amount(&harness), Some(180.0));
    undo_to(&mut harness, &walked(), &["right, half about"]);
}

#[test]
fn feet_and_hands_say_what_they_are_and_have_the_phrase() {
    let mut harness = window(walked());
    for row in ["Feet", "Hands"] {
        for by_key in [false, true] {
            if by_key {
                seek(&mut harness, 2.0);
                menu_key(&mut harness, row);
            } else {
                let at = in_row(&harness, row, 2.3);
                right_click(&mut harness, at);
            }
            assert!(has(&harness, "double step, 4 counts"), "{row}");
            assert!(has(&harness, "Walk is danced to"), "{row}");
            choose(&mut harness, &["Go there"]);
            assert_eq!(count(&harness), 2.0);
        }
    }
}

#[test]
fn a_block_of_the_whole_dance_has_the_menu_of_its_line() {
    let lines = || order::lines("Ours", [4.0, 12.0, 16.0], &["lanterns", "hey", "cross-over"]);
    let mut harness = window(lines());
    let whole = harness.get_by_label("Whole dance").rect();
    let third = pos2(whole.left() + whole.width() * 0.85, whole.center().y);
    right_click(&mut harness, third);
    assert!(has(&harness, "3. Cross over"));
    choose(&mut harness, &["Go to its start"]);
    assert_eq!(desk(&harness).span(), Some(SpanIndex(2)));
    right_click(&mut harness, third);
    choose(&mut harness, &["Move up"]);
    assert_eq!(dance(&harness).order[1].figure, "cross-over");
    undo_to(&mut harness, &lines(), &["Move up"]);
    // By the key it is the block at the playhead. What is renamed is typed over in the running order.
    seek(&mut harness, 0.0);
    menu_key(&mut harness, "Whole dance");
    choose(&mut harness, &["Rename"]);
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    write(&mut harness, "Lamps");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).figures[0].name, "Lamps");
}

#[test]
fn a_fault_is_seen_to_from_its_mark_and_from_the_list() {
    let mut dance = six();
    let mut figure = Figure::drawn("meet", "Meet", 8);
    let mut part = Part::still(1);
    part.legs = vec![Leg::straight(4.0, 8.0, 1.1, 1.8), Leg::straight(12.0, 16.0, -1.2, 1.8)];
    figure.parts.push(part);
    dance.figures.push(figure);
    let mut harness = window(dance);
    assert!(desk(&harness).fault_count() > 0);
    let clash =
        desk(&harness).faults().iter().position(|fault| fault.kind == bellpad::dance::FaultKind::Clash);
    let text = desk(&harness).faults().get(clash.unwrap()).unwrap().text.clone();
    let mark = format!("Fault: {text}");
    let at = harness.get_by_label(&mark).rect().center();
    menu_key(&mut harness, &mark);
    choose(&mut harness, &["We mean this…"]);
    assert!(matches!(desk(&harness).question(), Some(Question::Allow(..))));
    press(&mut harness, Key::Escape);
    right_click(&mut harness, at);
    choose(&mut harness, &["Go there"]);
    assert_eq!(desk(&harness).shown_fault(), clash);
    let first =
        desk(&harness).moment_words(desk(&harness).before_fault(desk(&harness).faults().first().unwrap()));
    let in_list =
        harness.query_all_by_label_contains(&first).map(|node| node.rect().center()).next().unwrap();
    right_click(&mut harness, in_list);
    choose(&mut harness, &["Limits…"]);
    assert!(matches!(desk(&harness).question(), Some(Question::Limits)));
}

/// Points at a place until it says something with these words, which do not lie over it.
#[track_caller]
fn says(harness: &mut Driven, at: Pos2, words: &str) {
    hover(harness, at + vec2(0.0, 1.0));
    harness.hover_at(at);
    harness.run_steps(8);
    let said: Vec<_> = harness.query_all_by_label_contains(words).map(|node| node.rect()).collect();
    assert!(!said.is_empty(), "nothing says {words}");
    assert!(said.iter().all(|rect| !rect.expand(4.0).contains(at)), "{words} lies over what it is of");
    // Away, so that it is told no more.
    hover(harness, pos2(640.0, 4.0));
    harness.run_steps(4);
}

#[test]
fn pointing_at_something_says_what_it_is_beside_it() {
    let mut dance = walked();
    dance.music.abc =
        "X:1\nM:6/8\nL:1/8\nK:D\n|:F2G A3|B3 d3|F2G A3|B3 d3|F2G A3|B3 d3|F2G A3|B3 d3:|\n".to_owned();
    dance.people.push(bellpad::dance::Person {
        number: bellpad::dance::Number(3),
        name: "Wren".to_owned(),
        left_handed: false,
        extra: bellpad::dance::Extra::new(),
    });
    let mut harness = window(dance);
    seek(&mut harness, 16.0);
    let row = |harness: &Driven, name: &str, count: f32| in_row(harness, name, count);
    let bars = row(&harness, "Bars of the figure", 1.5);
    says(&mut harness, bars, "1: double step, 4 counts, bar 1:1 to 1:4");
    let feet = row(&harness, "Feet", 3.5);
    says(&mut harness, feet, "count 4 of the double step");
    let turns = row(&harness, "Turns", 25.5);
    says(&mut harness, turns, "1 turns left 270°, bar 7:1 to 7:4");
    let hands = row(&harness, "Hands", 13.0);
    says(&mut harness, hands, "both hands high");
    let notes = row(&harness, "Notes of the tune", 0.3);
    says(&mut harness, notes, "F sharp, a crotchet");
    let three = place(&mut harness, 2);
    says(&mut harness, three, "3 · Wren");
    let whole = harness.get_by_label("Whole dance").rect().center();
    says(&mut harness, whole, "8 bars, 1 to 8");
}

#[test]
fn nobody_chosen_leaves_a_hint_on_the_bars() {
    let mut harness = window(walked());
    assert!(!has(&harness, "Choose a dancer to see feet"));
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    assert!(has(&harness, "Choose a dancer to see feet"));
    assert!(harness.query_by_label("Feet").is_none());
}

#[test]
fn a_new_leg_begins_where_it_is_told_to_and_says_so() {
    let mut harness = window(walked());
    click(&mut harness, "from: as usual");
    click(&mut harness, "where they last stood");
    assert_eq!(desk(&harness).leg_from(), LegFrom::LastStood);
    seek(&mut harness, 22.0);
    let (from, to) = (place(&mut harness, 0), at(&mut harness, -1.2, 1.2));
    pull(&mut harness, from, to);
    assert_eq!(desk(&harness).drag_words().as_deref(), Some("from bar 4:1 to bar 6:3"));
    let_go(&mut harness, to);
    assert_eq!(desk(&harness).drag_words(), None);
    let leg = dance(&harness).figures[0].parts[0].legs[2].clone();
    assert_eq!((leg.begin, leg.end), (12.0, 22.0));
    undo_to(&mut harness, &walked(), &["the drag"]);
    take(&mut harness, Ask::Draw(DrawAsk::LegFrom(LegFrom::BarStart)));
    pull(&mut harness, from, to);
    assert_eq!(desk(&harness).drag_words().as_deref(), Some("from bar 6:1 to bar 6:3"));
    let_go(&mut harness, to);
}

#[test]
fn one_drag_draws_all_four() {
    let mut harness = window(six_with_a_figure());
    seek(&mut harness, 8.0);
    click(&mut harness, "who follows: nobody");
    click(&mut harness, "across and end for end");
    assert_eq!(desk(&harness).together(), Together::BothMirrors);
    let (from, to) = (place(&mut harness, 0), at(&mut harness, -0.5, 1.35));
    driven::drag(&mut harness, from, to);
    for (dancer, x, y) in [(0, -0.5, 1.35), (1, 0.5, 1.35), (4, -0.5, -1.35), (5, 0.5, -1.35)] {
        is_at(&harness, dancer, 8.0, (x, y));
    }
    assert_eq!(dance(&harness).figures[0].parts.len(), 4);
    undo_to(&mut harness, &six_with_a_figure(), &["the drag"]);
}

fn six_with_a_figure() -> Dance {
    let mut dance = six();
    dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
    dance
}

#[test]
fn notes_have_lines_and_ctrl_enter_is_done() {
    let mut harness = window(walked());
    take(&mut harness, Ask::Order(OrderAsk::Write(About::Notes(0))));
    write(&mut harness, "Look up.");
    press(&mut harness, Key::Enter);
    assert!(desk(&harness).question().is_some(), "Enter begins a line");
    write(&mut harness, "Then in.");
    press_with(&mut harness, Modifiers::COMMAND, Key::Enter);
    assert!(desk(&harness).question().is_none());
    assert_eq!(dance(&harness).figures[0].notes, "Look up.\nThen in.");
}
