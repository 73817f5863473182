//! The running order in the window: every gesture, driven without a screen, and undone to the dance as it was.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/lines.rs"]
mod lines;

use bellpad::dance::{Dance, Ends, EndsIn, Entry, Extra, Number, Person, Stance};
use bellpad::desk::{About, Ask, FileAsk, OrderAsk, PlayAsk};
use bellpad::figures::named_figure;
use bellpad::store;
use driven::{
    Driven, activate, click, count, dance, desk, drag, let_go, notice, open_tab, press, press_with, pull,
    show_dance, show_sample, six, take, undo_name, write,
};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, PointerButton, Rect, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use lines::lines;

fn window(dance: Dance) -> Driven {
    show_dance(dance, [1280.0, 900.0])
}

/// Lanterns (drawn), a hey and a crossing, the hey danced twice; a figure of the file is not danced.
fn four_lines() -> Dance {
    lines("Test", [0.0, 16.0, 24.0], &["lanterns", "hey", "cross-over", "hey"])
}

fn ids(harness: &Driven) -> Vec<String> {
    dance(harness).order.iter().map(|entry| entry.figure.clone()).collect()
}

fn row(harness: &Driven, label: &str) -> Rect {
    harness.get_by_label(label).rect()
}

/// Opens the menu of a line by its button.
fn more(harness: &mut Driven, line: usize) {
    click(harness, &format!("More for line {line}"));
}

/// Undoes one step and asks that the dance and the playhead are as they were; then redoes it and undoes it again.
fn undone(harness: &mut Driven, before: &Dance, at: f64) {
    let (after, gone) = (dance(harness), count(harness));
    take(harness, Ask::Undo);
    assert_eq!(dance(harness), *before);
    assert_eq!(count(harness), at);
    take(harness, Ask::Redo);
    assert_eq!((dance(harness), count(harness)), (after, gone));
    take(harness, Ask::Undo);
    assert_eq!(dance(harness), *before);
}

#[test]
fn a_line_is_dragged_up_and_down() {
    let before = four_lines();
    let mut harness = window(before.clone());
    take(&mut harness, Ask::Play(PlayAsk::Seek(32.0 + 5.0)));
    // The hey, over the middle of the line below it.
    let (from, to) = (row(&harness, "2. Hey, 8 bars"), row(&harness, "3. Cross over, 8 bars"));
    drag(&mut harness, from.center(), to.center() + vec2(0.0, 8.0));
    assert_eq!(ids(&harness), ["lanterns", "cross-over", "hey", "hey"]);
    assert_eq!(undo_name(&harness), "move Hey to line 3");
    assert_eq!(count(&harness), 64.0 + 5.0, "the playhead went with it");
    undone(&mut harness, &before, 37.0);
    let (from, to) = (row(&harness, "4. Hey, 8 bars"), row(&harness, "1. Lanterns, 8 bars"));
    drag(&mut harness, from.center(), to.center() - vec2(0.0, 8.0));
    assert_eq!(ids(&harness), ["hey", "lanterns", "hey", "cross-over"]);
    assert_eq!(count(&harness), 64.0 + 5.0, "the figure it was at is a line further down");
    undone(&mut harness, &before, 37.0);
    // Far below the last line is the end.
    let from = row(&harness, "1. Lanterns, 8 bars").center();
    let last = row(&harness, "4. Hey, 8 bars").center();
    drag(&mut harness, from, last + vec2(0.0, 60.0));
    assert_eq!(ids(&harness), ["hey", "cross-over", "hey", "lanterns"]);
    undone(&mut harness, &before, 37.0);
}

#[test]
fn a_drag_can_be_left() {
    let before = four_lines();
    let mut harness = window(before.clone());
    let (from, to) = (row(&harness, "1. Lanterns, 8 bars"), row(&harness, "4. Hey, 8 bars"));
    pull(&mut harness, from.center(), to.center() + vec2(0.0, 8.0));
    press(&mut harness, Key::Escape);
    let_go(&mut harness, to.center() + vec2(0.0, 8.0));
    assert_eq!(dance(&harness), before);
    // Dropped where it was, or on its own lower half, it stays.
    drag(&mut harness, from.center(), from.center() + vec2(0.0, 12.0));
    assert_eq!((dance(&harness), undo_name(&harness)), (before, String::new()));
}

#[test]
fn keys_move_the_line_with_the_focus() {
    let before = four_lines();
    let mut harness = window(before.clone());
    click(&mut harness, "1. Lanterns, 8 bars");
    for _ in 0..2 {
        press_with(&mut harness, Modifiers::ALT, Key::ArrowDown);
    }
    assert_eq!(ids(&harness), ["hey", "cross-over", "lanterns", "hey"], "the focus goes with it");
    assert_eq!(undo_name(&harness), "move Lanterns to line 3");
    press_with(&mut harness, Modifiers::ALT, Key::ArrowUp);
    assert_eq!(ids(&harness), ["hey", "lanterns", "cross-over", "hey"]);
    assert_eq!(count(&harness), 32.0);
    for _ in 0..3 {
        press_with(&mut harness, Modifiers::COMMAND, Key::Z);
    }
    assert_eq!(dance(&harness), before);
    // At the top there is no way up.
    click(&mut harness, "1. Lanterns, 8 bars");
    press_with(&mut harness, Modifiers::ALT, Key::ArrowUp);
    assert_eq!(dance(&harness), before);
    // Up and Down go from line to line, and Space still plays.
    press(&mut harness, Key::ArrowDown);
    assert!(harness.get_by_label("2. Hey, 8 bars").is_focused());
    press(&mut harness, Key::Enter);
    assert_eq!(count(&harness), 32.0);
    harness.key_press(Key::Space);
    harness.run_steps(2);
    assert!(harness.state().desk.player().playing);
}

#[test]
fn delete_takes_the_line_with_the_focus_out_and_the_figure_can_be_put_back() {
    let before = four_lines();
    let mut harness = window(before.clone());
    take(&mut harness, Ask::Play(PlayAsk::Seek(40.0)));
    click(&mut harness, "1. Lanterns, 8 bars");
    take(&mut harness, Ask::Play(PlayAsk::Seek(40.0)));
    press(&mut harness, Key::Delete);
    assert_eq!(ids(&harness), ["hey", "cross-over", "hey"]);
    assert_eq!(undo_name(&harness), "take out Lanterns");
    assert_eq!((dance(&harness).figures.len(), count(&harness)), (4, 8.0), "drawn, so it stays in the file");
    undone(&mut harness, &before, 40.0);
    take(&mut harness, Ask::Redo);
    click(&mut harness, "+ Figure");
    harness.get_by_label("Old ending · not danced");
    click(&mut harness, "Lanterns · not danced");
    assert_eq!(ids(&harness), ["hey", "lanterns", "cross-over", "hey"], "after the playhead");
    assert_eq!((undo_name(&harness).as_str(), count(&harness)), ("dance Lanterns", 32.0));
    // A line that is the only one stays, and says so.
    take(&mut harness, Ask::File(FileAsk::OpenSample(0)));
    let mut harness = window({
        let mut dance = four_lines();
        dance.order = vec![Entry::of("lanterns")];
        dance
    });
    let before = dance(&harness);
    click(&mut harness, "1. Lanterns, 8 bars");
    press(&mut harness, Key::Delete);
    assert_eq!(dance(&harness), before);
    let notice = notice(&harness);
    assert!(notice.starts_with("Lanterns is all that is danced"), "{notice}");
    take(&mut harness, Ask::Order(OrderAsk::Delete(0)));
    assert_eq!(dance(&harness), before);
}

#[test]
fn a_name_is_typed_in_place() {
    let before = four_lines();
    let mut harness = window(before.clone());
    click(&mut harness, "2. Hey, 8 bars");
    let below = row(&harness, "3. Cross over, 8 bars");
    press(&mut harness, Key::F2);
    assert_eq!(row(&harness, "3. Cross over, 8 bars"), below, "nothing moves aside");
    write(&mut harness, "Long hey");
    assert_eq!(dance(&harness), before, "not before Enter");
    press(&mut harness, Key::Enter);
    harness.get_by_label("2. Long hey, 8 bars");
    harness.get_by_label("4. Long hey, 8 bars");
    assert_eq!(
        (dance(&harness).figures[1].id.as_str(), undo_name(&harness).as_str()),
        ("hey", "rename Hey to Long hey")
    );
    undone(&mut harness, &before, 32.0);
    // The line has the focus again; Escape leaves the name.
    press(&mut harness, Key::F2);
    write(&mut harness, "x");
    press(&mut harness, Key::Escape);
    assert_eq!(dance(&harness), before);
    assert!(harness.get_by_label("2. Hey, 8 bars").is_focused());
    // An empty name is left too, and a double click begins as F2 does.
    let at = row(&harness, "1. Lanterns, 8 bars").center();
    for _ in 0..2 {
        for pressed in [true, false] {
            harness.event(Event::PointerMoved(at));
            harness.event(Event::PointerButton {
                pos: at,
                button: PointerButton::Primary,
                pressed,
                modifiers: Modifiers::NONE,
            });
        }
    }
    harness.run();
    write(&mut harness, " ");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness), before);
    harness.get_by_label("1. Lanterns, 8 bars");
}

#[test]
fn a_name_being_typed_is_saved_with_the_dance() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("named.dance.json");
    let mut harness = window(four_lines());
    take(&mut harness, Ask::File(FileAsk::SaveTo(path.clone())));
    click(&mut harness, "1. Lanterns, 8 bars");
    press(&mut harness, Key::F2);
    write(&mut harness, "Candles");
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    assert_eq!(store::open(&path).unwrap().figures[0].name, "Candles");
    // Clicking elsewhere takes it as well.
    click(&mut harness, "1. Candles, 8 bars");
    press(&mut harness, Key::F2);
    write(&mut harness, "Lamps");
    click(&mut harness, "3. Cross over, 8 bars");
    assert_eq!(dance(&harness).figures[0].name, "Lamps");
}

#[test]
fn the_menu_opens_by_button_key_and_right_click() {
    let mut harness = window(four_lines());
    more(&mut harness, 2);
    harness.get_by_label_contains("Rename");
    press(&mut harness, Key::Escape);
    assert!(harness.query_by_label_contains("Rename").is_none());
    click(&mut harness, "2. Hey, 8 bars");
    press(&mut harness, Key::Menu);
    harness.get_by_label_contains("Rename");
    press(&mut harness, Key::Escape);
    assert!(harness.get_by_label("2. Hey, 8 bars").is_focused(), "the line has the focus again");
    harness.get_by_label("2. Hey, 8 bars").click_secondary();
    harness.run();
    harness.get_by_label_contains("Take it out of the order").click();
    harness.run();
    assert_eq!(ids(&harness), ["lanterns", "cross-over", "hey"]);
}

#[test]
fn the_menu_dances_again_duplicates_moves_and_deletes() {
    let before = four_lines();
    let mut harness = window(before.clone());
    take(&mut harness, Ask::Play(PlayAsk::Seek(70.0)));
    more(&mut harness, 1);
    click(&mut harness, "Dance it again");
    assert_eq!(ids(&harness), ["lanterns", "lanterns", "hey", "cross-over", "hey"]);
    assert_eq!((undo_name(&harness).as_str(), count(&harness)), ("dance Lanterns again", 32.0));
    undone(&mut harness, &before, 70.0);

    more(&mut harness, 4);
    click(&mut harness, "Duplicate as its own");
    assert_eq!(
        ids(&harness),
        ["lanterns", "hey", "cross-over", "hey-2"],
        "danced twice: this line has its own"
    );
    harness.get_by_label("4. Hey (2), 8 bars");
    assert_eq!((undo_name(&harness).as_str(), count(&harness)), ("duplicate Hey", 70.0));
    undone(&mut harness, &before, 70.0);

    more(&mut harness, 1);
    click(&mut harness, "Duplicate as its own");
    assert_eq!(ids(&harness), ["lanterns", "lanterns-2", "hey", "cross-over", "hey"]);
    assert_eq!(dance(&harness).figures[4].parts, before.figures[0].parts);
    undone(&mut harness, &before, 70.0);

    more(&mut harness, 3);
    harness.get_by_label_contains("Move up").click();
    harness.run();
    assert_eq!(ids(&harness), ["lanterns", "cross-over", "hey", "hey"]);
    assert_eq!(count(&harness), 38.0, "the playhead was in the crossing");
    undone(&mut harness, &before, 70.0);

    more(&mut harness, 2);
    click(&mut harness, "Delete the figure");
    assert_eq!(ids(&harness), ["lanterns", "cross-over"]);
    assert_eq!((undo_name(&harness).as_str(), count(&harness)), ("delete Hey", 38.0));
    assert_eq!(dance(&harness).figures.len(), 3);
    undone(&mut harness, &before, 70.0);
}

#[test]
fn strains_calls_bars_and_notes_are_set() {
    let before = four_lines();
    let mut harness = window(before.clone());
    more(&mut harness, 3);
    harness.get_by_label_contains("Strain").click();
    harness.run();
    click(&mut harness, "B");
    assert_eq!(dance(&harness).order[2].strain, "B");
    assert_eq!(undo_name(&harness), "dance Cross over to B");
    undone(&mut harness, &before, 0.0);

    more(&mut harness, 3);
    click(&mut harness, "Call…");
    write(&mut harness, "Over!");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).order[2].call, "Over!");
    assert_eq!(undo_name(&harness), "change the call of Cross over");
    undone(&mut harness, &before, 0.0);

    // When it is called stands on the card of the figure at the playhead.
    let begin = desk(&harness).motion().spans()[2].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin)));
    open_tab(&mut harness, "Figure");
    let at = desk(&harness).player().count;
    let field = |harness: &Driven| {
        let field = harness.get_by_role_and_label(Role::SpinButton, "called");
        field.value().unwrap_or_default()
    };
    assert!(field(&harness).contains('2'), "{}", field(&harness));
    harness.get_by_role_and_label(Role::SpinButton, "called").focus();
    harness.run();
    write(&mut harness, "0.5");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).order[2].call_before, Some(0.5));
    assert_eq!(undo_name(&harness), "change when Cross over is called");
    undone(&mut harness, &before, at);
    take(&mut harness, Ask::Play(PlayAsk::Seek(0.0)));

    more(&mut harness, 1);
    click(&mut harness, "Notes…");
    write(&mut harness, "Hold them high.");
    click(&mut harness, "Done");
    assert_eq!(dance(&harness).figures[0].notes, "Hold them high.");
    undone(&mut harness, &before, 0.0);

    more(&mut harness, 1);
    click(&mut harness, "Bars…");
    write(&mut harness, "4");
    harness.get_by_label_contains("place 1 travels in bar 6 of Lanterns");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness), before, "what is drawn is not cut");
    press(&mut harness, Key::Escape);
    take(&mut harness, Ask::Order(OrderAsk::Write(About::Bars(0))));
    write(&mut harness, "12");
    press(&mut harness, Key::Enter);
    assert_eq!(dance(&harness).figures[0].bars, 12);
    harness.get_by_label("1. Lanterns, 12 bars");
    assert_eq!(undo_name(&harness), "give Lanterns 12 bars");
    undone(&mut harness, &before, 0.0);

    // A named figure takes the bars that it has.
    more(&mut harness, 2);
    assert!(harness.get_by_label("Bars…").accesskit_node().is_disabled());
}

#[test]
fn a_dance_begins_with_nothing_and_a_new_figure_is_drawn() {
    let empty = six();
    let mut harness = window(empty.clone());
    harness.get_by_label_contains("No figures yet.");
    click(&mut harness, "Draw a new figure");
    harness.get_by_label("1. Figure 1, 8 bars");
    assert_eq!(undo_name(&harness), "put in Figure 1");
    click(&mut harness, "+ Figure");
    click(&mut harness, "A new figure to draw");
    assert_eq!(ids(&harness), ["figure-1", "figure-2"]);
    assert_eq!(count(&harness), 32.0);
    take(&mut harness, Ask::Undo);
    more(&mut harness, 1);
    click(&mut harness, "Delete the figure");
    harness.get_by_label_contains("No figures yet.");
    assert!(dance(&harness).figures.is_empty());
    take(&mut harness, Ask::Undo);
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), empty);
}

#[test]
fn a_figure_that_is_not_danced_can_be_deleted_from_the_file() {
    let before = four_lines();
    let mut harness = window(before.clone());
    click(&mut harness, "+ Figure");
    click(&mut harness, "delete");
    assert_eq!(dance(&harness).figures.len(), 3);
    assert_eq!((ids(&harness).len(), undo_name(&harness).as_str()), (4, "delete Old ending"));
    undone(&mut harness, &before, 0.0);
}

#[test]
fn the_loop_and_an_empty_order_go_along() {
    let mut before = four_lines();
    before.order.clear();
    let mut harness = window(before.clone());
    take(&mut harness, Ask::Play(PlayAsk::Seek(40.0)));
    take(&mut harness, Ask::Play(PlayAsk::LoopFrom));
    take(&mut harness, Ask::Play(PlayAsk::LoopTo));
    let looped = harness.state().desk.player().loop_counts.unwrap();
    assert_eq!(looped, (40.0, 44.0));
    take(&mut harness, Ask::Order(OrderAsk::Move { from: 1, to: 0 }));
    assert_eq!(ids(&harness), ["hey", "lanterns", "cross-over", "old"]);
    let player = &harness.state().desk.player();
    assert_eq!((player.count, player.loop_counts, player.looping), (8.0, Some((8.0, 12.0)), true));
    undone(&mut harness, &before, 40.0);
}

/// The line of the figure at the playhead is in sight wherever the playhead goes.
#[test]
fn the_order_follows_the_playhead() {
    let mut harness = show_sample([1280.0, 800.0]);
    for (bar, line) in [(128.0, "17. Whole rounds, all in, 8 bars"), (0.0, "1. Once to yourself, 8 bars")] {
        take(&mut harness, Ask::Play(PlayAsk::Seek(bar * 4.0)));
        let rect = harness.get_by_label(line).rect();
        let shelf = harness.get_by_label("Figure shelf").rect();
        let head = harness.get_by_role_and_label(egui::accesskit::Role::Tab, "Order").rect();
        assert!(
            rect.top() > head.bottom() - 12.0 && rect.bottom() < shelf.top() + 12.0,
            "{rect:?} of {line}"
        );
    }
}

/// The card and the menu say how the figure at the playhead ends: where everyone is and which way the set faces, each a step to undo.
#[test]
fn how_a_figure_ends_is_said_on_the_card_and_in_its_menu() {
    let mut before = four_lines();
    before.order = vec![Entry::of("lanterns"), Entry::of("hey")];
    // High enough for the list of faults that come of it and what is under them.
    let mut harness = show_dance(before.clone(), [1280.0, 1500.0]);
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    open_tab(&mut harness, "Figure");
    // A drawn figure ends at home and facing unless it says so.
    click(&mut harness, "home");
    click(&mut harness, "in new places");
    let ends = |harness: &Driven, figure: usize| dance(harness).figures[figure].ends;
    assert_eq!(ends(&harness, 0), Ends { spots: Some(EndsIn::Places), stance: None });
    assert_eq!(undo_name(&harness), "change how Lanterns ends");
    undone(&mut harness, &before, 4.0);
    click(&mut harness, "partners facing");
    click(&mut harness, "all facing up");
    assert_eq!(ends(&harness, 0), Ends { spots: None, stance: Some(Stance::Column) });
    // What it does of itself is not written down.
    click(&mut harness, "all facing up");
    click(&mut harness, "partners facing");
    assert_eq!(dance(&harness), before);
    take(&mut harness, Ask::Undo);
    take(&mut harness, Ask::Undo);
    // A named figure ends as it does of itself until its file says otherwise.
    take(&mut harness, Ask::Play(PlayAsk::Seek(36.0)));
    let own = |harness: &mut Driven, which: usize, to: &str| {
        harness.get_all_by_label("the figure's own").nth(which).unwrap().click();
        harness.run();
        click(harness, to);
    };
    // The first is the lead.
    own(&mut harness, 1, "anywhere");
    assert_eq!(ends(&harness, 1), Ends { spots: Some(EndsIn::Anywhere), stance: None });
    undone(&mut harness, &before, 36.0);
    own(&mut harness, 2, "all facing up");
    assert_eq!(ends(&harness, 1), Ends { spots: None, stance: Some(Stance::Column) });
    undone(&mut harness, &before, 36.0);
    // The menu of its line says it too, however long the list of faults over the card's rows is.
    more(&mut harness, 1);
    activate(&mut harness, "Ends");
    click(&mut harness, "in new places");
    assert_eq!(ends(&harness, 0), Ends { spots: Some(EndsIn::Places), stance: None });
    undone(&mut harness, &before, 36.0);
}

/// Who dances a solo is chosen by name where somebody has one, and the order calls it after them.
#[test]
fn a_soloist_is_chosen_by_name_on_the_card() {
    let mut solo = six();
    solo.figures = vec![named_figure("solos", Extra::new(), &solo.set).unwrap()];
    solo.order.clear();
    solo.people = vec![Person {
        number: Number(3),
        name: "Sib Orchard".to_owned(),
        left_handed: false,
        extra: Extra::new(),
    }];
    let mut harness = window(solo.clone());
    open_tab(&mut harness, "Figure");
    let who = |harness: &Driven| dance(harness).figures[0].named.as_ref().unwrap().with.get("who").cloned();
    for (shown, chosen, told, title) in [
        ("each in turn", "3 Sib Orchard", "Sib Orchard".into(), "Solo of Sib Orchard"),
        ("3 Sib Orchard", "each in turn", 0.into(), "Solos"),
    ] {
        click(&mut harness, shown);
        click(&mut harness, chosen);
        assert_eq!((who(&harness), dance(&harness).figures[0].name.as_str()), (Some(told), title));
        assert_eq!(desk(&harness).notice(), None);
    }
    for _ in 0..2 {
        take(&mut harness, Ask::Undo);
    }
    assert_eq!(dance(&harness), solo);
}
