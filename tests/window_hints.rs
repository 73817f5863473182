//! What the window says of itself: every field on what it takes, a menu that has nothing to offer on why, and a hop only where one
//! is danced.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Entry, FaultKind, Figure, Part, Set, SetKind, Turn, Way};
use bellpad::desk::{About, Ask, DrawAsk, FaultAsk, FileAsk, OrderAsk, PlayAsk, ViewAsk};
use bellpad::edits::Toward;
use driven::{
    Driven, activate, desk, hover, notice, open_shelf, open_tab, press, press_with, show_dance, show_sample,
    six, take, undo_name, write,
};
use egui::{Key, Modifiers, Order, accesskit::Role, pos2};
use egui_kittest::kittest::{NodeT, Queryable};

/// Whether something is said beside the pointer: words of some length, near it and not over it.
fn is_said(harness: &Driven) -> bool {
    let Some(pointer) = harness.ctx.input(|input| input.pointer.hover_pos()) else { return false };
    let (layers, areas) = harness.ctx.memory(|memory| {
        let layers: Vec<_> = memory.areas().visible_layer_ids().into_iter().collect();
        let areas: Vec<_> = layers.iter().map(|layer| memory.area_rect(layer.id)).collect();
        (layers, areas)
    });
    layers.iter().zip(areas).filter(|(layer, _)| layer.order == Order::Tooltip).any(|(_, area)| {
        area.is_some_and(|area| {
            area.width() > 40.0 && area.distance_to_pos(pointer) < 80.0 && !area.contains(pointer)
        })
    })
}

/// Points at every field that can be typed in and is in sight: each says what it takes. Gives how many there are.
#[track_caller]
fn point_at_all(harness: &mut Driven, whose: &str) -> usize {
    let window = egui::Rect::from_min_size(egui::Pos2::ZERO, harness.ctx.content_rect().size());
    // An open menu has only numbers, and nothing under it says anything.
    let all = [Role::SpinButton, Role::TextInput, Role::MultilineTextInput];
    let roles = if egui::Popup::is_any_open(&harness.ctx) { &all[..1] } else { &all[..] };
    let asked = desk(harness).question().is_some();
    let fields: Vec<(String, egui::Pos2)> = roles
        .iter()
        .flat_map(|role| harness.query_all_by_role(*role))
        .map(|node| (node.accesskit_node().label().unwrap_or_default(), node.rect()))
        .filter(|(_, rect)| {
            // What a dialog lies over says nothing either.
            let under = asked && !(260.0..window.right() - 306.0).contains(&rect.center().x);
            rect.height() > 4.0 && window.contains_rect(*rect) && !under
        })
        .map(|(label, rect)| (label, rect.center()))
        .collect();
    for (label, at) in &fields {
        hover(harness, pos2(3.0, window.bottom() - 3.0));
        harness.run_steps(3);
        assert!(!is_said(harness), "{whose}: nothing is said while nothing is pointed at");
        hover(harness, *at);
        harness.run_steps(60);
        assert!(is_said(harness), "{whose}: {label:?} at {at} does not say what it takes");
    }
    fields.len()
}

#[test]
fn every_field_says_what_it_takes() {
    let size = [1366.0, 900.0];
    let mut fields = 0;
    // On the sides.
    for tab in ["Order", "Set", "Dancer", "Figure"] {
        let mut harness = show_sample(size);
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
        // The hey has choices that are numbers.
        let hey = desk(&harness).dance().figure_index("hey").unwrap();
        let begin = desk(&harness).motion().spans().iter().find(|span| span.figure == hey).unwrap().begin();
        take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 8.0)));
        open_tab(&mut harness, tab);
        if tab == "Order" {
            open_shelf(&mut harness);
        }
        let many = point_at_all(&mut harness, tab);
        assert!(many > 0, "{tab} has a field");
        fields += many;
    }
    // A line of the order that is renamed.
    let mut harness = show_sample(size);
    harness.get_all_by_label_contains("2. ").next().unwrap().focus();
    harness.run();
    press(&mut harness, Key::F2);
    fields += point_at_all(&mut harness, "rename");
    // In menus.
    let mut harness = show_sample(size);
    take(&mut harness, Ask::Play(PlayAsk::Seek(70.0)));
    activate(&mut harness, "Place…");
    let many = point_at_all(&mut harness, "place");
    assert!(many >= 3, "{many}");
    fields += many;
    // In dialogs.
    let asks = [
        Ask::File(FileAsk::AskNew),
        Ask::File(FileAsk::AskOpen),
        Ask::File(FileAsk::AskSaveAs),
        Ask::File(FileAsk::AskHandout),
        Ask::Fault(FaultAsk::AskLimits),
        Ask::Order(OrderAsk::Write(About::Call(1))),
        Ask::Order(OrderAsk::Write(About::Notes(1))),
    ];
    for ask in asks {
        let mut harness = show_sample(size);
        let name = format!("{ask:?}");
        harness.state_mut().desk.apply(ask);
        harness.run_steps(4);
        if name.contains("AskNew") {
            harness.get_all_by_label("a ring").last().unwrap().click();
            harness.run();
        }
        fields += point_at_all(&mut harness, &name);
    }
    let mut harness = show_dance(apart(), size);
    for ask in [Ask::Fault(FaultAsk::AskAllow(0)), Ask::Order(OrderAsk::Write(About::Bars(0)))] {
        let name = format!("{ask:?}");
        take(&mut harness, ask);
        let many = point_at_all(&mut harness, &name);
        assert!(many > 0, "{name} has a field");
        fields += many;
        press(&mut harness, Key::Escape);
    }
    assert!(fields > 30, "{fields}");
}

/// Two who are as good as on top of each other, in a figure that is drawn.
fn apart() -> Dance {
    let mut dance = Dance::new("Test", Set::longways(2, 0.2, 1.8));
    dance.figures.push(Figure::drawn("stand", "Stand", 4));
    dance
}

fn empty() -> Dance {
    let mut dance = six();
    dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
    dance
}

#[test]
fn at_the_end_of_the_dance_a_menu_says_that_nothing_comes_after() {
    let mut harness = show_dance(empty(), [1280.0, 900.0]);
    for (count, there) in [(12.0, true), (32.0, false)] {
        take(&mut harness, Ask::Play(PlayAsk::Seek(count)));
        harness.get_by_label("Dancer 1").focus();
        harness.run();
        press(&mut harness, Key::Menu);
        let node = harness.get_by_label_contains("Stand until");
        assert_eq!(!node.accesskit_node().is_disabled(), there, "at {count}");
        let at = node.rect().center();
        // A mouse that has lain there since before the menu was opened by its key points at nothing.
        hover(&mut harness, at + egui::vec2(3.0, 1.0));
        hover(&mut harness, at);
        harness.run_steps(60);
        let why = harness.query_by_label_contains("Nothing of this figure comes after this count").is_some();
        assert_eq!(why, !there, "at {count}");
        press(&mut harness, Key::Escape);
        press(&mut harness, Key::Escape);
    }
    // Too short a stand is said to be that.
    take(&mut harness, Ask::Play(PlayAsk::Seek(12.0)));
    take(&mut harness, Ask::Draw(DrawAsk::StandUntil { dancer: Dancer(0), count: 12.0 }));
    assert_eq!(notice(&harness), "there is no time for that here; choose a later moment");
}

#[test]
fn what_there_is_to_face_is_called_by_the_set_and_short_in_undo() {
    let mut harness = show_dance(empty(), [1280.0, 900.0]);
    take(&mut harness, Ask::Play(PlayAsk::Seek(12.0)));
    take(&mut harness, Ask::Draw(DrawAsk::Face { dancer: Dancer(0), toward: Toward::Up }));
    assert_eq!(undo_name(&harness), "face 1 up at bar 4");
    for (kind, said) in [(SetKind::Longways, "in, across the set"), (SetKind::Ring, "in, to the middle")] {
        assert_eq!(Toward::In.words(kind), said);
    }
}

/// Partners who both turn late, at one moment, are told in one line: what is meant of the one is meant of the other.
#[test]
fn what_is_told_of_a_pair_is_meant_of_both() {
    let mut dance = empty();
    for place in [1, 2] {
        let mut part = Part::still(place);
        // Far too much in one count.
        part.turns.push(Turn { by: Some(720.0), face: None, ..Turn::to_face(8.0, 9.0, Way::Left, 0.0) });
        dance.figures[0].parts.push(part);
    }
    let mut harness = show_dance(dance.clone(), [1280.0, 900.0]);
    let hurried = |harness: &Driven| -> Vec<usize> {
        let faults = desk(harness).faults().iter().enumerate();
        faults
            .filter(|(_, fault)| fault.kind == FaultKind::HurriedTurn && fault.allowed.is_none())
            .map(|(index, _)| index)
            .collect()
    };
    let both = hurried(&harness);
    assert_eq!(both.len(), 2, "{:?}", desk(&harness).faults());
    take(&mut harness, Ask::Fault(FaultAsk::AskAllow(both[0])));
    let said =
        both.iter().map(|index| desk(&harness).faults()[*index].said.clone()).collect::<Vec<_>>().join("; ");
    assert!(harness.query_by_label(&said).is_some(), "the dialog is about both");
    write(&mut harness, "a flourish");
    activate(&mut harness, "We mean it");
    assert_eq!(hurried(&harness), [] as [usize; 0]);
    let allow = &desk(&harness).dance().figures[0].allow;
    assert_eq!(allow.iter().map(|allow| allow.places.clone()).collect::<Vec<_>>().concat(), [1, 2]);
    press_with(&mut harness, Modifiers::COMMAND, Key::Z);
    assert_eq!(*desk(&harness).dance(), dance, "one step");
}

/// `2 ds, 3 ss, hj` ends with a half-bar jump, which has no hop after it [MB1]; `2 ds, 2 ss, ftj` with the hop on the upbeat
/// (common practice).
#[test]
fn a_hop_before_a_figure_is_told_only_where_the_one_before_ends_with_one() {
    for (phrase, hops) in [("2 ds, 2 ss, ftj", true), ("2 ds, 3 ss, hj", false)] {
        let mut dance = empty();
        dance.figures[0].phrase = phrase.to_owned();
        dance.figures.push(Figure::drawn("next", "Next", 8));
        dance.order = ["figure-1", "next"].map(Entry::of).to_vec();
        let mut harness = show_dance(dance, [1280.0, 900.0]);
        take(&mut harness, Ask::Play(PlayAsk::Seek(40.0)));
        assert_eq!(desk(&harness).motion().spans()[0].hop(Dancer(0)).is_some(), hops, "{phrase}");
        let rect = harness.get_by_label("Feet").rect();
        hover(&mut harness, pos2(rect.left() + 4.0, rect.center().y));
        harness.run_steps(60);
        let said = |words: &str| harness.query_by_label_contains(words).is_some();
        assert!(said("count 1 of the double step"), "{phrase}");
        assert_eq!(said("on the upbeat before the figure"), hops, "{phrase}");
    }
}

/// The tune and all of its rows have room in a small window, each a little lower.
#[test]
fn all_rows_of_the_bars_have_room_in_a_window_of_1024_by_640() {
    let mut harness = show_sample([1024.0, 640.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    let mut below = 0.0;
    for row in ["Notes of the tune", "Bars of the figure", "Feet", "Turns", "Hands"] {
        let rect = harness.get_by_label(row).rect();
        assert!(rect.top() >= below - 0.5, "{row} lies over the one before it");
        assert!(rect.height() > 20.0 && rect.bottom() < 640.0, "{row}: {rect:?}");
        below = rect.bottom();
    }
}

/// Where a tip stands that says something with these words, once the pointer has been at a place.
#[track_caller]
fn tip_at(harness: &mut Driven, at: egui::Pos2, words: &str) -> egui::Rect {
    hover(harness, at + egui::vec2(0.0, 1.0));
    harness.hover_at(at);
    harness.run_steps(60);
    let said: Vec<egui::Rect> = harness.query_all_by_label_contains(words).map(|node| node.rect()).collect();
    let tips = harness.ctx.memory(|memory| {
        let layers = memory.areas().visible_layer_ids();
        let tips = layers.iter().filter(|layer| layer.order == Order::Tooltip);
        tips.filter_map(|layer| memory.area_rect(layer.id)).collect::<Vec<_>>()
    });
    let tip = tips.into_iter().find(|tip| said.iter().any(|said| tip.expand(1.0).contains_rect(*said)));
    tip.unwrap_or_else(|| panic!("no tip says {words:?} at {at}: {said:?}"))
}

/// What is said of something on the floor stands over no dancer, and what is said of something on the bars over no row of them.
#[test]
fn tips_stand_over_nothing_that_is_worked_on() {
    // The last two are what text of 150 percent leaves of screens.
    for size in [[1366.0, 768.0], [1024.0, 640.0], [1920.0, 1080.0], [911.0, 512.0], [1280.0, 720.0]] {
        tips_stand_clear(size);
    }
}

fn tips_stand_clear(size: [f32; 2]) {
    let mut harness = show_sample(size);
    take(&mut harness, Ask::Keep(bellpad::desk::KeepAsk::ShutWelcome(true)));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    let begin = desk(&harness).motion().spans()[1].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 2.0)));
    let scale = driven::frame(&mut harness).scale as f32;
    let bodies: Vec<egui::Rect> = (0..6)
        .map(|dancer| {
            egui::Rect::from_center_size(driven::place(&mut harness, dancer), egui::Vec2::splat(0.5 * scale))
        })
        .collect();
    let middle = |harness: &Driven, label: &str| {
        harness.get_all_by_label_contains(label).next().unwrap().rect().center()
    };
    for (label, words) in [
        ("Dancer 3", "3 · "),
        ("Dancer 2", "2 · "),
        ("Facing of 3", "Drag round to turn"),
        ("Path 1 end of 3", "Drag to move this point"),
    ] {
        let at = middle(&harness, label);
        let over = |label: &str| {
            harness.query_all_by_label_contains(label).any(|node| node.rect().expand(2.0).contains(at))
        };
        if label.starts_with("Path") && (over("Dancer ") || over("Facing of") || over("Start of path")) {
            // On a small floor something else lies over it.
            continue;
        }
        let tip = tip_at(&mut harness, at, words);
        assert!(harness.ctx.content_rect().expand(1.0).contains_rect(tip), "{size:?}, {label}: {tip:?}");
        for body in &bodies {
            assert!(!tip.intersects(*body), "{size:?}, {label}: {tip:?} over a dancer at {body:?}");
        }
    }
    let strip = harness.get_by_label("Whole dance").rect().top();
    for (label, words) in [
        ("Turn 2, left 270°", "turns left 270°"),
        ("End of path 1", "Drag to have it sooner"),
        ("Feet", "count"),
        ("Hands", "both hands"),
        ("Bars of the figure", "counts, bar"),
    ] {
        if harness.query_all_by_label_contains(label).next().is_none() {
            // A row that there is no room for.
            continue;
        }
        let at = middle(&harness, label);
        let tip = tip_at(&mut harness, at, words);
        assert!(
            tip.bottom() <= strip + 1.0,
            "{size:?}, {label}: {tip:?} over the bars, which begin at {strip}"
        );
    }
}

/// What has nothing to offer says what it is for as well: a row of faults that is empty, how fast it goes, a hand, another's spot.
#[test]
fn what_can_be_seen_says_what_it_is() {
    let mut harness = show_sample([1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    let begin = desk(&harness).motion().spans()[1].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 2.0)));
    let bars = harness.get_by_label("Bars").rect();
    tip_at(
        &mut harness,
        pos2(bars.left() + 200.0, bars.bottom() - 12.0),
        "Faults of this figure are marked here",
    );
    let fast = harness.get_by_label("Strong beats a minute").rect().center();
    tip_at(&mut harness, fast, "strong beats a minute: 100 % of the dance's");
    let speed = harness.get_by_role_and_label(Role::Slider, "speed").rect().center();
    tip_at(&mut harness, speed, "How fast it is played here");
    // A hand is beside the body: 3 faces up, with their right one at the right.
    let pose = desk(&harness).motion().pose(Dancer(2), begin + 2.0);
    let (sin, cos) = pose.facing.to_radians().sin_cos();
    let hand = driven::at(&mut harness, pose.x + 0.33 * cos, pose.y - 0.33 * sin);
    tip_at(&mut harness, hand, "3: both hands");
    // Once everyone has gone up, the spots behind them are bare.
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 8.0)));
    let spot = desk(&harness).motion().ground().stands[5];
    let at = driven::at(&mut harness, spot.x, spot.y - 0.1);
    tip_at(&mut harness, at, "The spot of 6");
}

/// What is said of whatever the pointer rests on goes when something is asked by a key.
#[test]
fn nothing_is_said_beside_what_is_asked() {
    let mut harness = show_sample([1366.0, 768.0]);
    hover(&mut harness, pos2(60.0, 60.0));
    let at = harness.get_by_label("Order").rect().center();
    hover(&mut harness, at);
    harness.run_steps(60);
    assert!(is_said(&harness));
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    harness.run_steps(10);
    assert!(desk(&harness).question().is_some());
    let tips = harness.ctx.memory(|memory| {
        memory.areas().visible_layer_ids().into_iter().filter(|layer| layer.order == Order::Tooltip).count()
    });
    assert_eq!(tips, 0);
}
