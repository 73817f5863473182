//! Taps and claps in the window: the row under the bars, its menu and keys, and the pattern as it is written.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/painted.rs"]
mod painted;

use bellpad::dance::{
    Dance, Dancer, Figure, Holding, PlaceNumber, Set, Strike, StrikeEnd, StrikePart, Striker, Struck,
};
use bellpad::desk::{Ask, DrawAsk, PlayAsk, StrikeAsk, ViewAsk};
use bellpad::edits::Together;
use bellpad::figures::Mirror;
use bellpad::words::read_taps;
use driven::{
    Driven, click, count, dance, desk, drag, press, press_with, right_click, show_dance, take, undo_name,
    write,
};
use egui::accesskit::Role;
use egui::{Key, Modifiers, Pos2, pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};

fn sticks() -> Dance {
    let mut dance = Dance::new("Poles", Set::longways(6, 1.2, 1.2));
    dance.holding = Holding::Sticks;
    dance.figures.push(Figure::drawn("tapping", "Tapping", 8));
    dance
}

fn written(text: &str) -> Dance {
    let mut dance = sticks();
    dance.figures[0].strikes = read_taps(text, &dance.bar_counts(&dance.figures[0]), 6).unwrap();
    dance
}

fn window(dance: Dance) -> Driven {
    show_dance(dance, [1366.0, 768.0])
}

fn strikes(harness: &Driven) -> Vec<Strike> {
    dance(harness).figures[0].strikes.clone()
}

/// Where a count of the figure is in the row of taps.
fn at(harness: &Driven, count: f32) -> Pos2 {
    let row = harness.get_by_label("Row of taps").rect();
    pos2(row.left() + row.width() * count / 32.0, row.center().y)
}

fn click_at(harness: &mut Driven, at: Pos2) {
    harness.hover_at(at);
    harness.run();
    harness.drag_at(at);
    harness.run();
    harness.drop_at(at);
    harness.run();
}

fn focused(harness: &Driven) -> String {
    let mut all = harness.root().children_recursive();
    let focused = all.find(|node| node.accesskit_node().is_focused());
    focused.and_then(|node| node.accesskit_node().label()).unwrap_or_default()
}

#[track_caller]
fn focus(harness: &mut Driven, label: &str) {
    harness.get_by_label(label).focus();
    harness.run();
    assert_eq!(focused(harness), label);
}

#[test]
fn a_click_puts_a_tap_in_for_the_chosen_dancer_and_for_all_where_nobody_is() {
    let mut harness = window(sticks());
    let place = at(&harness, 6.1);
    click_at(&mut harness, place);
    assert_eq!(
        strikes(&harness),
        [Strike::new(6.0, Striker::Place(PlaceNumber(1)), StrikeEnd::Tip, Struck::Partner)]
    );
    assert_eq!(
        (count(&harness), undo_name(&harness).as_str()),
        (6.0, "put in the tap at bar 2:3 of Tapping")
    );
    harness.get_by_label("tap, bar 2 count 3, 1's tip on 2's tip");
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    let place = at(&harness, 12.0);
    click_at(&mut harness, place);
    assert_eq!(strikes(&harness)[1].by, Striker::Odds);
    harness.get_by_label("tap, bar 4 count 1, odds tip on partner");
    take(&mut harness, Ask::Undo);
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), sticks());
}

/// The words at the head of the floor hold: those who are ringed tap as well.
#[test]
fn who_follows_on_the_floor_taps_as_well() {
    let by = |harness: &Driven| strikes(harness).iter().map(|strike| strike.by).collect::<Vec<_>>();
    let places = |numbers: &[u32]| {
        numbers.iter().map(|number| Striker::Place(PlaceNumber(*number))).collect::<Vec<_>>()
    };
    for (chosen, together, wanted, said) in [
        (1, Together::Same, vec![Striker::Odds], "odds tip on partner"),
        (4, Together::Same, vec![Striker::Evens], "evens tip on partner"),
        (3, Together::JustMe, places(&[3]), "3 tip on partner"),
        // A pair meets once.
        (3, Together::Mirror(Mirror::Across), places(&[3]), "3 tip on partner"),
        (1, Together::Mirror(Mirror::EndForEnd), places(&[1, 5]), "1 tip on partner; 5 tip on partner"),
        (1, Together::Mirror(Mirror::HalfTurn), places(&[1, 6]), "1 tip on partner; 6 tip on partner"),
        (2, Together::BothMirrors, places(&[2, 6]), "2 tip on partner; 6 tip on partner"),
    ] {
        let mut harness = window(sticks());
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(chosen - 1)))));
        take(&mut harness, Ask::Draw(DrawAsk::Together(together)));
        let place = at(&harness, 2.1);
        harness.hover_at(place);
        harness.run_steps(60);
        let hint = format!("Click: a new one at bar 1:3, {said}; right click for more");
        assert!(harness.query_by_label_contains(&hint).is_some(), "{together:?} of {chosen}: {hint}");
        click_at(&mut harness, place);
        assert_eq!(by(&harness), wanted, "{together:?} of {chosen}");
        take(&mut harness, Ask::Undo);
        assert_eq!(dance(&harness), sticks());
    }
    // With a middle picked as well, all three couples do.
    let mut harness = window(sticks());
    take(&mut harness, Ask::View(ViewAsk::Pick(vec![Dancer(0), Dancer(2)])));
    take(&mut harness, Ask::Draw(DrawAsk::Together(Together::BothMirrors)));
    let place = at(&harness, 2.1);
    click_at(&mut harness, place);
    assert_eq!(by(&harness), [Striker::Odds]);
}

#[test]
fn a_tap_is_dragged_in_time_by_quarters_within_the_figure() {
    let first = written("bar 2: count 3, odds tip on partner");
    let mut harness = window(first.clone());
    let name = "tap, bar 2 count 3, 1's tip on 2's tip";
    for (by, wanted) in [(1.1, 7.0), (-0.4, 5.5), (40.0, 31.75), (-40.0, 0.0)] {
        let from = harness.get_by_label(name).rect().center();
        let by = vec2(at(&harness, by).x - at(&harness, 0.0).x, 0.0);
        drag(&mut harness, from, from + by);
        assert_eq!(strikes(&harness)[0].at, wanted);
        assert_eq!(undo_name(&harness), "move the tap at bar 2:3 of Tapping");
        take(&mut harness, Ask::Undo);
        assert_eq!(dance(&harness), first);
    }
    // Held and let go where it is, nothing moves; and Escape puts it back.
    let from = harness.get_by_label(name).rect().center();
    click_at(&mut harness, from);
    assert_eq!((dance(&harness), count(&harness)), (first.clone(), 6.0));
    driven::pull(&mut harness, from, from + vec2(80.0, 0.0));
    assert_ne!(dance(&harness), first);
    press(&mut harness, Key::Escape);
    assert_eq!(dance(&harness), first);
}

#[test]
fn its_menu_says_whom_with_what_how_high_and_who_follows() {
    let first = written("bar 1: count 3, 1 tip on partner");
    let mut harness = window(first.clone());
    let choose = |harness: &mut Driven, menu: &str, item: &str| {
        let place = harness.get_by_label_contains("tap, bar 1 count 3").rect().center();
        right_click(harness, place);
        click(harness, menu);
        click(harness, item);
        strikes(harness)
    };
    let all = choose(&mut harness, "They answer with: the same", "Butt");
    assert_eq!(all[0].their, Some(StrikeEnd::Butt));
    harness.get_by_label("tap, bar 1 count 3, 1's tip on 2's butt");
    assert_eq!(choose(&mut harness, "With: tip", "Middle")[0].end, StrikeEnd::Middle);
    assert_eq!(choose(&mut harness, "Whom: partner", "Opposite")[0].on, Struck::Opposite);
    let all = choose(&mut harness, "Who follows: nobody", "Odds, then evens a bar later");
    assert_eq!((all.len(), all[1].by, all[1].at), (2, Striker::Evens, 6.0));
    let all = choose(&mut harness, "Who follows: odds, then evens a bar later", "All odds");
    assert_eq!((all.len(), all[0].by), (1, Striker::Odds));
    assert_eq!(choose(&mut harness, "Again in bars", "bar 3")[0].again, [10.0]);
    // The menu stays for another bar, and Escape puts it away.
    press(&mut harness, Key::Escape);
    press(&mut harness, Key::Escape);
    let all = choose(&mut harness, "Copy bar 1 to", "bar 5");
    assert_eq!((all.len(), all[1].at), (2, 18.0));
    assert_eq!(choose(&mut harness, "Self", "Overhead")[0].part, Some(StrikePart::Overhead));
    let place = harness.get_by_label_contains("tap, bar 1 count 3").rect().center();
    right_click(&mut harness, place);
    click(&mut harness, "Take it away every time");
    assert_eq!(strikes(&harness).len(), 1);
    while desk(&harness).undo_name().is_some() {
        take(&mut harness, Ask::Undo);
    }
    assert_eq!(dance(&harness), first);
}

/// Of two sticks the one that answers is chosen there too; where a hand answers, or nobody, it is not offered. A knee has no height to choose.
#[test]
fn its_menu_offers_what_does_something_and_nothing_else() {
    let mut harness = window(written("bar 1: count 3, 1 tip on partner, at 1.4 m"));
    let open = |harness: &mut Driven, menu: &str| {
        let place = harness.get_by_label_contains("bar 1 count 3").rect().center();
        right_click(harness, place);
        click(harness, menu);
    };
    open(&mut harness, "They answer with: the same");
    click(&mut harness, "Of the left stick");
    assert_eq!(strikes(&harness)[0].their_hand, Some(bellpad::dance::Foot::Left));
    open(&mut harness, "They answer with: the same");
    click(&mut harness, "Right hand");
    assert_eq!(strikes(&harness)[0].their_hand, None);
    open(&mut harness, "They answer with: right hand");
    assert!(harness.query_by_label("Of the left stick").is_none());
    press(&mut harness, Key::Escape);
    press(&mut harness, Key::Escape);
    assert_eq!(strikes(&harness)[0].height, Some(1.4));
    open(&mut harness, "Self");
    click(&mut harness, "On right knee");
    assert_eq!(strikes(&harness)[0].height, None);
    let place = harness.get_by_label_contains("bar 1 count 3").rect().center();
    right_click(&mut harness, place);
    assert!(harness.get_by_label("How high: where the knee is").accesskit_node().is_disabled());
}

/// Two strikes that say the same from either side are one meeting, and each star says it of those who dance in their places.
#[test]
fn a_meeting_that_is_said_twice_is_told_of_who_dances_there() {
    let mut dance = sticks();
    let half_hey =
        bellpad::figures::named_figure("half-hey", bellpad::dance::Extra::new(), &dance.set).unwrap();
    dance.figures.insert(0, half_hey);
    let taps = "bar 1: count 3, 1 tip on 2; 2 tip on 1";
    dance.figures[1].strikes = read_taps(taps, &dance.bar_counts(&dance.figures[1]), 6).unwrap();
    let mut harness = window(dance);
    let begin = desk(&harness).motion().spans()[1].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin)));
    // After the half hey 5 and 6 are at the top [MB1].
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(4)))));
    assert_eq!(harness.query_all_by_label("tap, bar 1 count 3, 5's tip on 6's tip").count(), 2);
}

#[test]
fn every_tap_is_reached_moved_and_taken_away_by_keys() {
    let mut harness = window(written(
        "bar 1: count 3, odds tip on partner\nbar 2: count 1, all tip on ground; count 4, 1 tip on 3",
    ));
    let names = [
        "tap, bar 1 count 3, 1's tip on 2's tip",
        "tap, bar 2 count 1, 1's tip on the ground",
        "tap, bar 2 count 4, 1's tip on 3's tip",
    ];
    focus(&mut harness, names[0]);
    for name in &names[1..] {
        press(&mut harness, Key::ArrowRight);
        assert_eq!(focused(&harness), *name);
    }
    press(&mut harness, Key::ArrowRight);
    assert_eq!(focused(&harness), names[2], "there is none after it");
    press(&mut harness, Key::ArrowLeft);
    assert_eq!((focused(&harness).as_str(), count(&harness)), (names[1], 0.0));
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    assert_eq!(strikes(&harness)[1].at, 4.5);
    assert_eq!(undo_name(&harness), "move tap 2 of Tapping in time");
    // Enter opens what the menu key does, and it is gone through by keys.
    press(&mut harness, Key::Enter);
    harness.get_by_label("Take it away every time");
    press(&mut harness, Key::Escape);
    assert!(harness.query_by_label_contains("Take it away").is_none());
    press(&mut harness, Key::Delete);
    assert_eq!(strikes(&harness).len(), 2);
    // Enter on the bare row puts one in at the playhead.
    focus(&mut harness, "Row of taps");
    press(&mut harness, Key::Enter);
    assert_eq!(strikes(&harness)[0].at, 0.0);
}

#[test]
fn two_in_one_count_stand_apart() {
    let harness = window(written(
        "bar 1: count 1, 1 tip on 2; 3 tip on 4; 5 tip on 6\nbar 3: count 1, all tip on ground",
    ));
    let all: Vec<_> = harness
        .get_all_by_role(Role::Button)
        .filter(|node| node.accesskit_node().label().is_some_and(|label| label.starts_with("tap, bar 1")))
        .map(|node| node.rect().center())
        .collect();
    assert_eq!(all.len(), 3);
    for (index, one) in all.iter().enumerate() {
        for other in &all[index + 1..] {
            assert!((*one - *other).length() > 5.0, "{one} {other}");
        }
    }
}

#[test]
fn the_pattern_is_written_and_a_mistake_keeps_the_focus_and_its_place() {
    let mut harness = window(sticks());
    let place = at(&harness, 20.0);
    right_click(&mut harness, place);
    click(&mut harness, "Write them all…");
    write(
        &mut harness,
        "bars 1 and 3: count 3, odds tip on partner's but\nbar 2: count 3, evens tip on partner's butt",
    );
    harness.get_by_label(
        "Line 1: \"but\" is one word too many; expected a comma, a semicolon or the end of the line",
    );
    click(&mut harness, "Done");
    assert!(desk(&harness).question().is_some(), "it stays to be put right");
    assert_eq!(strikes(&harness).len(), 0);
    // What is typed next takes the place of the word that is wrong.
    write(&mut harness, "butt");
    press_with(&mut harness, Modifiers::COMMAND, Key::Enter);
    assert!(desk(&harness).question().is_none());
    let all = strikes(&harness);
    assert_eq!(
        (all.len(), all[0].again.as_slice(), all[0].their),
        (2, [10.0].as_slice(), Some(StrikeEnd::Butt))
    );
    assert_eq!(undo_name(&harness), "write the taps of Tapping");
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), sticks());
    // From the card of the figure as well.
    driven::open_tab(&mut harness, "Figure");
    click(&mut harness, "Taps: 0, to write");
    click(&mut harness, "Cancel");
}

#[test]
fn the_row_is_there_where_sticks_are_or_something_is_struck_and_can_be_put_away() {
    let mut plain = sticks();
    plain.holding = Holding::Handkerchiefs;
    let mut harness = window(plain);
    assert!(harness.query_by_label("Row of taps").is_none());
    take(&mut harness, Ask::Strike(StrikeAsk::Add { figure: 0, at: 2.0, place: None }));
    harness.get_by_label("Row of taps");
    harness.get_by_label("clap, bar 1 count 3, 1's right hand on 2's right hand");
    // Its place among what is shown is remembered.
    let place = harness.get_by_label("View").rect().center();
    click_at(&mut harness, place);
    harness.get_by_role_and_label(Role::CheckBox, "Taps").click();
    harness.run();
    assert!(desk(&harness).settings().arrangement.hidden.taps);
    assert!(harness.query_by_role_and_label(Role::Button, "Row of taps").is_none());
}

#[test]
fn who_is_to_clap_has_the_row_at_once() {
    let mut empty = sticks();
    empty.holding = Holding::Nothing;
    let mut harness = window(empty);
    let place = at(&harness, 2.0);
    let clap = "clap, bar 1 count 3, 1's right hand on 2's right hand";
    click_at(&mut harness, place);
    harness.get_by_label(clap);
}

/// K goes to the row of taps: where there is none it says why, and where it was put away it brings it back.
#[test]
fn without_a_row_the_key_says_so() {
    let mut plain = sticks();
    plain.holding = Holding::Handkerchiefs;
    let mut harness = window(plain);
    press(&mut harness, Key::K);
    harness.run();
    let said = desk(&harness).notice().unwrap().to_owned();
    assert!(said.contains("right click") && said.contains("bar"), "{said}");
    take(&mut harness, Ask::Strike(StrikeAsk::Add { figure: 0, at: 2.0, place: None }));
    let mut arrangement = desk(&harness).settings().arrangement;
    arrangement.hidden.taps = true;
    take(&mut harness, Ask::Keep(bellpad::desk::KeepAsk::Arrange(arrangement)));
    assert!(harness.query_by_label("Row of taps").is_none());
    press(&mut harness, Key::K);
    harness.run();
    harness.run();
    assert_eq!(focused(&harness), "Row of taps");
}

#[test]
fn the_grip_is_chosen_beside_what_is_held() {
    let mut harness = window(sticks());
    take(&mut harness, Ask::About(bellpad::desk::AboutAsk::Show));
    click(&mut harness, "by one end");
    assert_eq!(dance(&harness).grip, bellpad::dance::Grip::End);
    assert_eq!(undo_name(&harness), "change how the sticks are held");
    click(&mut harness, "handkerchiefs");
    assert!(harness.get_by_label("by the middle").accesskit_node().is_disabled());
}

#[test]
fn what_was_put_in_or_dragged_has_the_focus_and_delete_takes_it_away() {
    let mut harness = window(sticks());
    let place = at(&harness, 6.0);
    click_at(&mut harness, place);
    harness.run();
    assert_eq!(focused(&harness), "tap, bar 2 count 3, 1's tip on 2's tip");
    let by = vec2(at(&harness, 5.0).x - at(&harness, 0.0).x, 0.0);
    press(&mut harness, Key::Escape);
    assert_eq!(focused(&harness), "");
    drag(&mut harness, place, place + by);
    harness.run();
    assert_eq!(focused(&harness), "tap, bar 3 count 4, 1's tip on 2's tip");
    press(&mut harness, Key::Delete);
    assert_eq!(strikes(&harness), []);
    harness.run();
    assert_eq!(focused(&harness), "Row of taps", "none is left");
}

/// While one is dragged the floor shows them meet: the playhead goes along.
#[test]
fn the_playhead_goes_along_with_a_tap_that_is_dragged() {
    let mut harness = window(written("bar 2: count 3, odds tip on partner"));
    let from = harness.get_by_label("tap, bar 2 count 3, 1's tip on 2's tip").rect().center();
    let by = vec2(at(&harness, 5.0).x - at(&harness, 0.0).x, 0.0);
    driven::pull(&mut harness, from, from + by);
    assert_eq!((strikes(&harness)[0].at, count(&harness)), (11.0, 11.0));
    driven::let_go(&mut harness, from + by);
    assert_eq!(count(&harness), 11.0);
}

/// Its menu says that Delete takes it away: once the menu is shut it does. What can be done stands where it stood, in a tap that is struck once
/// and in one that is struck again.
#[test]
fn delete_does_what_the_menu_said() {
    let mut places = Vec::new();
    for text in ["bar 2: count 3, odds tip on partner", "bars 2 and 4: count 3, odds tip on partner"] {
        let mut harness = window(written(text));
        let place = harness.get_by_label("tap, bar 2 count 3, 1's tip on 2's tip").rect().center();
        right_click(&mut harness, place);
        places.push(harness.get_by_label("Write them all…").rect());
        press(&mut harness, Key::Escape);
        harness.run();
        assert!(harness.query_by_label("Write them all…").is_none());
        assert_eq!(focused(&harness), "tap, bar 2 count 3, 1's tip on 2's tip");
        let before = strikes(&harness);
        press(&mut harness, Key::Delete);
        assert_ne!(strikes(&harness), before);
    }
    assert_eq!(places[0], places[1]);
}

#[test]
fn dragged_past_its_other_time_it_keeps_the_focus() {
    let mut harness = window(written("bars 1 and 2: count 1, 1 tip on partner"));
    let by = vec2(at(&harness, 6.0).x - at(&harness, 0.0).x, 0.0);
    let place = at(&harness, 0.0);
    drag(&mut harness, place, place + by);
    harness.run();
    assert_eq!(focused(&harness), "tap, bar 2 count 3, 1's tip on 2's tip");
}

#[test]
fn by_keys_alone_taps_are_put_in_along_the_row() {
    let mut harness = window(sticks());
    press(&mut harness, Key::K);
    harness.run();
    assert_eq!(focused(&harness), "Row of taps");
    for _ in 0..2 {
        press(&mut harness, Key::ArrowRight);
    }
    assert_eq!((count(&harness), focused(&harness).as_str()), (2.0, "Row of taps"));
    press(&mut harness, Key::Enter);
    harness.run();
    let first = "tap, bar 1 count 3, 1's tip on 2's tip";
    assert_eq!(focused(&harness), first);
    press(&mut harness, Key::K);
    harness.run();
    assert_eq!(focused(&harness), "Row of taps");
    // Where there is one already Enter opens what can be done with it.
    press(&mut harness, Key::Enter);
    harness.run();
    harness.get_by_label("Take it away every time");
    assert_eq!((strikes(&harness).len(), desk(&harness).notice()), (1, None));
    press(&mut harness, Key::Escape);
    press(&mut harness, Key::Escape);
    press(&mut harness, Key::K);
    harness.run();
    assert_eq!(focused(&harness), first, "the one at the playhead");
    press(&mut harness, Key::K);
    harness.run();
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowRight);
    assert_eq!((count(&harness), focused(&harness).as_str()), (6.0, "Row of taps"));
    press(&mut harness, Key::Enter);
    harness.run();
    assert_eq!(strikes(&harness).len(), 2);
}

#[test]
fn how_long_they_stay_together_is_told() {
    let mut harness =
        window(written("bar 1: count 3, odds tip on partner, stay\nbar 3: count 2, all tip on ground"));
    let label = "tap, bar 1 count 3, 1's tip on 2's tip, together until bar 3:2";
    let place = harness.get_by_label(label).rect().center();
    right_click(&mut harness, place);
    harness.get_by_label("Stay together, until bar 3:2");
}

#[test]
fn the_same_of_each_pair_is_one_card_and_who_taps_is_not_told_to_begin() {
    let mut dance = sticks();
    dance.set = Set::longways(6, 2.4, 1.8);
    let mut harness = window(dance);
    assert!(harness.query_by_label_contains("Nobody moves yet").is_some());
    let text =
        "bar 1: count 3, odds tip on partner; count 4, 1 tip on 2, at 1 m; count 4, 3 tip on 4, at 1.4 m";
    let bars = dance_bars(&harness);
    take(
        &mut harness,
        Ask::Strike(StrikeAsk::Write { figure: 0, strikes: read_taps(text, &bars, 6).unwrap() }),
    );
    assert!(harness.query_by_label_contains("Nobody moves yet").is_none());
    driven::open_tab(&mut harness, "Faults");
    harness.run();
    let cards: Vec<String> = harness
        .get_all_by_role(Role::Button)
        .filter_map(|node| node.accesskit_node().label())
        .filter(|label| label.contains("too far apart") && !label.starts_with("Fault:"))
        .collect();
    assert_eq!(cards.len(), 2, "{cards:#?}");
    assert!(cards[0].starts_with("3 faults, of 1 with 2, 3 with 4 and 5 with 6: "), "{cards:#?}");
    assert!(
        cards[0].ends_with("They are 0.53 m too far apart for tip on tip: bring them nearer by that"),
        "{cards:#?}"
    );
}

/// Where nobody is chosen those two are seen at eye level who tap in the bar, and what they tap is told.
#[test]
fn who_tap_are_seen_at_eye_level_where_nobody_is_chosen() {
    let mut harness = window(written("bar 4: count 1, 1 tip on 3; count 3, odds tip on partner, stay"));
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    take(&mut harness, Ask::View(ViewAsk::ToggleEyeLevel));
    for (count, wanted) in [
        (0.0, "1 and 2 at eye level, from the side: bar 1:1 "),
        (12.0, "1 and 3 at eye level, from the side: bar 4:1 "),
        (13.0, "1 and 3 at eye level, from the side: bar 4:2 "),
        (14.0, "1 and 2 at eye level, from the side: bar 4:3 "),
    ] {
        take(&mut harness, Ask::Play(PlayAsk::Seek(count)));
        harness.run();
        let told: Vec<String> = harness
            .get_all_by_role(Role::Image)
            .filter_map(|node| node.accesskit_node().label())
            .filter(|label| label.contains("at eye level"))
            .collect();
        assert!(!told.is_empty() && told.iter().all(|told| told.starts_with(wanted)), "{told:?}");
        let taps = match count as u32 {
            12 => "; 1's tip on 3's tip",
            14 => "; 1's tip on 2's tip",
            _ => "",
        };
        assert!(
            told.iter().all(|told| told.ends_with(taps) && (told.contains("tip") != taps.is_empty())),
            "{told:?}"
        );
    }
}

fn dance_bars(harness: &Driven) -> bellpad::dance::BarCounts {
    let dance = dance(harness);
    dance.bar_counts(&dance.figures[0])
}

/// What is tapped is told on two lines of the card, whole, in the window of a usual laptop; in a lower one it is cut on one, within the card.
#[test]
fn what_is_tapped_is_told_within_the_card() {
    for size in [[1366.0, 768.0], [1366.0, 740.0], [1280.0, 700.0], [1280.0, 680.0]] {
        let dance = bellpad::dance::read(&std::fs::read("dances/kettle-bridge.dance.json").unwrap()).unwrap();
        let mut harness = show_dance(dance, size);
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
        take(&mut harness, Ask::Play(PlayAsk::Seek(64.0)));
        harness.run();
        let words = painted::words(&harness);
        let said =
            words.iter().find(|words| words.text.starts_with("in bar 2: tap 2, tip on butt, ")).unwrap();
        assert!(
            said.place.right() <= size[0] && said.seen.width() >= said.place.width() - 0.5,
            "{:?}",
            said.place
        );
        assert!(said.place.height() > 20.0 || size[1] < 740.0, "{size:?}: {} {:?}", said.text, said.place);
        let under = harness.get_by_label("Lead").rect();
        assert!(said.place.bottom() <= under.top() + 3.0, "{size:?}: {:?} {under:?}", said.place);
    }
}

#[test]
fn a_new_dance_is_asked_what_is_held() {
    let mut harness = window(sticks());
    take(&mut harness, Ask::File(bellpad::desk::FileAsk::AskNew));
    harness.get_by_label("In the hands");
    click(&mut harness, "sticks");
    click(&mut harness, "Make it");
    assert_eq!(dance(&harness).holding, Holding::Sticks);
    harness.get_by_label("Row of taps");
}

/// A new dance with sticks is offered measures at which partners and ranks reach one another, 1.2 m, and one to clap 0.9 m (from memory);
/// what somebody has chosen stays.
#[test]
fn a_new_dance_is_offered_measures_in_reach() {
    let measures = |choices: &[&str]| {
        let mut harness = window(sticks());
        take(&mut harness, Ask::File(bellpad::desk::FileAsk::AskNew));
        for choice in choices {
            click(&mut harness, choice);
        }
        click(&mut harness, "Make it");
        let set = dance(&harness).set;
        (set.across, set.along)
    };
    assert_eq!(measures(&[]), (2.4, 1.8));
    assert_eq!(measures(&["sticks"]), (1.2, 1.2));
    assert_eq!(measures(&["nothing, to clap"]), (0.9, 0.9));
    assert_eq!(measures(&["sticks", "nothing, to clap", "handkerchiefs"]), (2.4, 1.8));
    let mut new = bellpad::desk::NewDance { across: 1.5, ..bellpad::desk::NewDance::default() };
    new.hold(Holding::Sticks);
    assert_eq!((new.across, new.along), (1.5, 1.2));
}
