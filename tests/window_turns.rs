//! Turns drawn by hand: dragged in time on the bars, turned farther by the ring on the floor, changed by menu and by keys.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Extra, Figure, Leg, Part, Turn, TurnOn, Way};
use bellpad::desk::{Ask, DrawAsk, PlayAsk};
use bellpad::edits::Together;
use bellpad::figures::{Mirror, named_figure};
use driven::{
    Driven, activate, dance, desk, drag, hold, hover, let_go, notice, place, press, press_with, pull,
    right_click, show_dance, six, take, undo_name, write,
};
use egui::accesskit::Role;
use egui::{Event, Key, Modifiers, Pos2, pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};

/// 1 turns left 270 in the seventh bar of eight, to face down.
fn turning() -> Dance {
    let mut dance = six();
    let mut figure = Figure::drawn("figure-1", "Figure 1", 8);
    let mut part = Part::still(1);
    part.turns.push(Turn { by: Some(270.0), ..Turn::to_face(24.0, 27.0, Way::Left, 180.0) });
    figure.parts.push(part);
    dance.figures.push(figure);
    dance
}

fn window() -> Driven {
    show_dance(turning(), [1280.0, 900.0])
}

const WHOLE: &str = "Turn 1, left 270°, bar 7:1 to 7:4";
const BEGIN: &str = "Start of turn 1, at bar 7:1";
const END: &str = "End of turn 1, at bar 7:4";

fn turns(harness: &Driven) -> Vec<Turn> {
    dance(harness).figures[0].part(1).map_or_else(Vec::new, |part| part.turns.clone())
}

fn times(harness: &Driven) -> (f64, f64) {
    let turns = turns(harness);
    assert_eq!(turns.len(), 1, "{turns:?}");
    (turns[0].begin, turns[0].end)
}

fn amounts(harness: &Driven, dancer: usize) -> Vec<f64> {
    desk(harness).motion().spans()[0].track(Dancer(dancer)).unwrap().amounts().to_vec()
}

#[track_caller]
fn middle(harness: &Driven, label: &str) -> Pos2 {
    harness.get_by_label(label).rect().center()
}

/// So many counts of the eight bars, in points.
fn counts(harness: &Driven, counts: f32) -> egui::Vec2 {
    vec2((harness.get_by_label("Bars").rect().width() - 16.0) / 32.0 * counts, 0.0)
}

/// Undoes one step, after which the dance is as it was.
#[track_caller]
fn undo_to_first(harness: &mut Driven) {
    assert_ne!(dance(harness), turning(), "something was changed");
    take(harness, Ask::Undo);
    assert_eq!(dance(harness), turning(), "it is one step");
}

#[test]
fn a_turn_is_dragged_whole_and_by_either_end() {
    let mut harness = window();
    for (label, by, wanted) in [
        (END, 2.0, (24.0, 29.0)),
        (END, -1.4, (24.0, 25.5)),
        (END, -20.0, (24.0, 24.25)),
        (BEGIN, -1.5, (22.5, 27.0)),
        (BEGIN, 1.1, (25.0, 27.0)),
        (WHOLE, 3.0, (27.0, 30.0)),
        (WHOLE, -10.3, (13.75, 16.75)),
        // No farther than the figure goes.
        (WHOLE, 7.0, (29.0, 32.0)),
    ] {
        let (from, by_points) = (middle(&harness, label), counts(&harness, by));
        drag(&mut harness, from, from + by_points);
        assert_eq!(times(&harness), wanted, "{label} by {by}");
        assert_eq!(amounts(&harness, 0), [-270.0], "{label} by {by}");
        assert_eq!(undo_name(&harness), "move a turn of 1 in time");
        undo_to_first(&mut harness);
    }
}

#[test]
fn alt_or_ctrl_lets_a_turn_go_between_the_quarters_of_a_count() {
    let mut harness = window();
    for free in [Modifiers::ALT, Modifiers::CTRL] {
        let (from, by) = (middle(&harness, END), counts(&harness, 1.1));
        pull(&mut harness, from, from + by);
        harness.event_modifiers(Event::PointerMoved(from + by + vec2(1.0, 0.0)), free);
        harness.run();
        let (_, end) = times(&harness);
        assert!((end * 4.0 - (end * 4.0).round()).abs() > 0.02 && (end - 28.1).abs() < 0.06, "{end}");
        let_go(&mut harness, from + by);
        undo_to_first(&mut harness);
    }
}

#[test]
fn escape_puts_a_turn_back_where_it_was() {
    let mut harness = window();
    for (label, by) in [(END, vec2(60.0, 0.0)), (WHOLE, vec2(-90.0, 0.0))] {
        let from = middle(&harness, label);
        pull(&mut harness, from, from + by);
        assert_ne!(dance(&harness), turning());
        press(&mut harness, Key::Escape);
        assert_eq!(dance(&harness), turning());
        hover(&mut harness, from + by * 1.2);
        let_go(&mut harness, from + by * 1.2);
        assert_eq!((dance(&harness), undo_name(&harness)), (turning(), String::new()));
    }
    // The ring as well.
    take(&mut harness, Ask::Play(PlayAsk::Seek(25.5)));
    let ring = middle(&harness, "Facing of 1");
    pull(&mut harness, ring, ring + vec2(40.0, -40.0));
    assert_ne!(dance(&harness), turning());
    press(&mut harness, Key::Escape);
    assert_eq!(dance(&harness), turning());
    let_go(&mut harness, ring);
    assert_eq!(dance(&harness), turning());
}

#[test]
fn a_mate_turns_when_they_do() {
    let mut harness = window();
    take(&mut harness, Ask::Draw(DrawAsk::Together(Together::Mirror(Mirror::Across))));
    let (from, by) = (middle(&harness, WHOLE), counts(&harness, -4.0));
    drag(&mut harness, from, from + by);
    assert_eq!((times(&harness), amounts(&harness, 1)), ((20.0, 23.0), vec![270.0]));
    undo_to_first(&mut harness);
}

/// Where the ring about the first dancer is for a facing, in the window.
fn on_ring(harness: &mut Driven, facing: f32) -> Pos2 {
    let frame = driven::frame(harness);
    let (sin, cos) = facing.to_radians().sin_cos();
    let radius = frame.length(bellpad::picture::RING_RADIUS);
    place(harness, 0) + vec2(sin, -cos) * radius
}

/// What the ring says to whoever hears the window.
fn said(harness: &Driven) -> Option<String> {
    harness.get_by_label("Facing of 1").accesskit_node().value()
}

#[test]
fn the_ring_in_the_midst_of_a_turn_changes_that_turn_and_says_how_far() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(25.0)));
    // It stands where the turn finishes: facing down.
    let (from, left) = (on_ring(&mut harness, 180.0), on_ring(&mut harness, 150.0));
    assert!(middle(&harness, "Facing of 1").distance(from) < 2.0);
    assert_eq!(said(&harness).as_deref(), Some("left 270°"));
    hold(&mut harness, from);
    for (step, degrees) in [(0.5, 285.0), (1.0, 300.0)] {
        hover(&mut harness, from + (left - from) * step);
        assert_eq!(said(&harness), Some(format!("left {degrees}°")), "while it is dragged");
    }
    let_go(&mut harness, left);
    assert_eq!((amounts(&harness, 0), times(&harness)), (vec![-300.0], (24.0, 27.0)));
    assert_eq!(undo_name(&harness), "turn 1 at bar 7");
    undo_to_first(&mut harness);
    // Back beyond where it began it goes the other way.
    let from = on_ring(&mut harness, 180.0);
    hold(&mut harness, from);
    for facing in (180..=480).step_by(20) {
        let to = on_ring(&mut harness, facing as f32);
        hover(&mut harness, to);
    }
    let to = on_ring(&mut harness, 480.0);
    let_go(&mut harness, to);
    assert_eq!(amounts(&harness, 0), [30.0]);
    undo_to_first(&mut harness);
    // At its end it is the same turn; where there is none one is made.
    for (count, wanted) in [(27.0, vec![-300.0]), (12.0, vec![-30.0, -270.0])] {
        take(&mut harness, Ask::Play(PlayAsk::Seek(count)));
        let facing = if count > 20.0 { 180.0 } else { 90.0 };
        let (from, to) = (on_ring(&mut harness, facing), on_ring(&mut harness, facing - 30.0));
        drag(&mut harness, from, to);
        assert_eq!(amounts(&harness, 0), wanted, "at {count}");
        undo_to_first(&mut harness);
    }
}

/// Gives something the focus and presses keys, each press a frame.
#[track_caller]
fn press_on(harness: &mut Driven, label: &str, keys: &[(Modifiers, Key)]) {
    harness.get_by_label(label).focus();
    harness.run();
    for (modifiers, key) in keys {
        press_with(harness, *modifiers, *key);
    }
}

#[test]
fn the_arrows_move_a_turn_that_has_the_focus() {
    let (plain, shift) = (Modifiers::NONE, Modifiers::SHIFT);
    let (left, right) = (Key::ArrowLeft, Key::ArrowRight);
    for (label, keys, wanted) in [
        (WHOLE, vec![(plain, left), (plain, left), (plain, right)], (23.5, 26.5)),
        (WHOLE, vec![(shift, right), (shift, right)], (24.0, 28.0)),
        (WHOLE, vec![(plain, right), (shift, left)], (24.5, 27.0)),
        (BEGIN, vec![(plain, left), (shift, left)], (23.0, 27.0)),
        (END, vec![(plain, left), (shift, right), (plain, right)], (24.0, 27.5)),
    ] {
        let mut harness = window();
        press_on(&mut harness, label, &keys);
        assert_eq!(times(&harness), wanted, "{label}");
        assert_eq!(desk(&harness).player().count, 0.0, "the playhead stays");
        undo_to_first(&mut harness);
    }
    let mut harness = window();
    press_on(&mut harness, WHOLE, &[(plain, Key::Delete)]);
    assert_eq!(turns(&harness), []);
    undo_to_first(&mut harness);
    // Enter goes there, Escape lets go of it, and then the arrows are for the playhead again.
    press_on(&mut harness, WHOLE, &[(plain, Key::Enter), (plain, Key::Escape), (plain, right)]);
    assert_eq!(desk(&harness).player().count, 25.0);
    assert_eq!(dance(&harness), turning());
}

#[test]
fn a_right_click_on_any_part_of_a_turn_and_on_its_ring_says_what_can_be_done_with_it() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(25.0)));
    for label in [WHOLE, BEGIN, END, "Facing of 1"] {
        for (item, amount, on) in [
            ("The other way: right 90°", 90.0, None),
            ("A quarter", -90.0, None),
            ("Half about", -180.0, None),
            ("A whole turn", -360.0, None),
            ("On the single steps", -270.0, Some(TurnOn::SingleSteps)),
            ("On the first count", -270.0, Some(TurnOn::Start)),
            ("On the feet-together jump", -270.0, Some(TurnOn::Step("ftj".to_owned()))),
        ] {
            let at = middle(&harness, label);
            right_click(&mut harness, at);
            activate(&mut harness, item);
            assert_eq!(
                (amounts(&harness, 0), turns(&harness)[0].on.clone()),
                (vec![amount], on),
                "{label}: {item}"
            );
            undo_to_first(&mut harness);
        }
        // By the menu key, and a number of degrees that is typed: one step, however many letters it has.
        press_on(&mut harness, label, &[(Modifiers::NONE, Key::Menu)]);
        harness.get_by_label("By degrees").focus();
        harness.run();
        press_with(&mut harness, Modifiers::COMMAND, Key::A);
        for letter in ["2", "2", "5"] {
            write(&mut harness, letter);
        }
        press(&mut harness, Key::Enter);
        assert_eq!(amounts(&harness, 0), [-225.0], "{label}");
        press(&mut harness, Key::Escape);
        undo_to_first(&mut harness);
        press_on(&mut harness, label, &[(Modifiers::NONE, Key::Menu)]);
        activate(&mut harness, "Take it away");
        assert_eq!(turns(&harness), []);
        undo_to_first(&mut harness);
    }
}

#[test]
fn pointing_at_a_turn_says_what_it_is_and_how_it_is_changed() {
    let mut harness = window();
    for label in [WHOLE, BEGIN, END] {
        let at = middle(&harness, label);
        hover(&mut harness, at);
        harness.run_steps(30);
        let said = |words: &str| harness.query_all_by_label_contains(words).next().is_some();
        assert!(said("1 turns left 270°, bar 7:1 to 7:4, then facing down"), "{label}");
        assert!(said("arrows move it half a count"), "{label}");
        hover(&mut harness, pos2(5.0, 5.0));
        harness.run_steps(4);
    }
    // A click goes to where it is, as in the whole row.
    let at = middle(&harness, WHOLE);
    hold(&mut harness, at);
    let_go(&mut harness, at);
    assert_eq!(desk(&harness).player().count, 25.5);
    assert_eq!(dance(&harness), turning());
}

/// Two turns one after the other at once: an end of one can be taken hold of without the other's.
#[test]
fn turns_that_meet_have_ends_of_their_own() {
    let mut dance = turning();
    let next = Turn { by: Some(90.0), ..Turn::to_face(27.0, 28.0, Way::Right, 270.0) };
    dance.figures[0].parts[0].turns.push(next);
    let mut harness = show_dance(dance.clone(), [1280.0, 900.0]);
    for (label, by, wanted) in [
        ("End of turn 1, at bar 7:4", -1.0, [(24.0, 26.0), (27.0, 28.0)]),
        ("Start of turn 2, at bar 7:4", 0.5, [(24.0, 27.0), (27.5, 28.0)]),
        ("End of turn 1, at bar 7:4", 2.0, [(24.0, 27.0), (27.0, 28.0)]),
    ] {
        let (from, by) = (middle(&harness, label), counts(&harness, by));
        drag(&mut harness, from, from + by);
        let all: Vec<(f64, f64)> = turns(&harness).iter().map(|turn| (turn.begin, turn.end)).collect();
        assert_eq!(all, wanted, "{label}");
        if desk(&harness).undo_name().is_some() {
            take(&mut harness, Ask::Undo);
        }
        assert_eq!(driven::dance(&harness), dance);
    }
}

/// In the midst of a turn the field for the facing has the facing in which that turn finishes, and what is typed there is its finish.
#[test]
fn a_facing_typed_in_the_midst_of_a_turn_is_its_finish() {
    let mut harness = window();
    take(&mut harness, Ask::Play(PlayAsk::Seek(25.0)));
    activate(&mut harness, "Place…");
    let field = |harness: &Driven| {
        let field = harness.get_by_role_and_label(Role::SpinButton, "facing");
        field.value().unwrap_or_default()
    };
    assert!(field(&harness).starts_with("180"), "{}", field(&harness));
    harness.get_by_role_and_label(Role::SpinButton, "facing").focus();
    harness.run();
    write(&mut harness, "150");
    press(&mut harness, Key::Enter);
    assert_eq!((times(&harness), amounts(&harness, 0)), ((24.0, 27.0), vec![-300.0]));
    assert!(field(&harness).starts_with("150"), "{}", field(&harness));
    undo_to_first(&mut harness);
}

/// Six who dance foot up and down, with 1 chosen.
fn foot_up() -> Dance {
    let mut dance = six();
    dance.figures.push(named_figure("foot-up-and-down", Extra::new(), &dance.set).unwrap());
    dance
}

/// The label of a turn of the one who is chosen, by its place among theirs.
fn label(harness: &Driven, turn: usize) -> String {
    let begins = format!("Turn {}, ", turn + 1);
    let node = harness
        .query_all_by_label_contains(&begins)
        .find(|node| node.accesskit_node().label().is_some_and(|label| label.starts_with(&begins)));
    node.and_then(|node| node.accesskit_node().label()).unwrap()
}

fn danced(harness: &Driven, dancer: usize) -> Vec<(f64, f64, f64)> {
    let track = desk(harness).motion().spans()[0].track(Dancer(dancer)).unwrap().clone();
    let all = track.turns().iter().zip(track.amounts());
    all.map(|(turn, amount)| (turn.begin, turn.end, (amount * 100.0).round() / 100.0)).collect()
}

/// Opens the menu of a turn and chooses from it.
fn choose(harness: &mut Driven, turn: usize, item: &str) {
    let label = label(harness, turn);
    let at = middle(harness, &label);
    right_click(harness, at);
    activate(harness, item);
}

/// In `2 ds, 2 ss, ftj` there are hops at counts 3, 7, 9 and 11 of each half: the last of a double step and the second of a single
/// step.
#[test]
fn a_turn_is_put_on_the_hop_nearest_to_it_and_nothing_else_changes() {
    for (turn, hop) in [(1, 9.0), (3, 25.0), (2, 19.0)] {
        let mut harness = show_dance(foot_up(), [1280.0, 900.0]);
        let (before, first) = (danced(&harness, 0), dance(&harness));
        choose(&mut harness, turn, "On the hop");
        let mut wanted = before.clone();
        (wanted[turn].0, wanted[turn].1) = (hop, hop + 1.0);
        assert_eq!(danced(&harness, 0), wanted, "turn {turn}");
        assert_eq!(turns(&harness)[turn].on, Some(TurnOn::Hop));
        take(&mut harness, Ask::Undo);
        assert_eq!(dance(&harness), first, "it is one step");
    }
    // What cannot be is grey, and says why: another turn is danced on those single steps.
    let mut harness = show_dance(foot_up(), [1280.0, 900.0]);
    let at = middle(&harness, &label(&harness, 2));
    right_click(&mut harness, at);
    let item = harness.get_by_label("On the single steps");
    assert!(item.accesskit_node().is_disabled());
    let at = item.rect().center();
    hover(&mut harness, at);
    harness.run_steps(40);
    assert!(harness.query_all_by_label_contains("Another turn is danced then").next().is_some());
}

/// Whatever is made of one turn, the others of the dancer go the way and as far as they did, and the one says its amount alone.
#[test]
fn the_turns_beside_one_that_is_changed_stay() {
    for (item, amount) in [
        ("A quarter", -90.0),
        ("Half about", -180.0),
        ("A whole turn", -360.0),
        ("The other way: right 90°", 90.0),
    ] {
        let mut harness = show_dance(foot_up(), [1280.0, 900.0]);
        let before = danced(&harness, 0);
        choose(&mut harness, 1, item);
        let mut wanted = before.clone();
        wanted[1].2 = amount;
        assert_eq!(danced(&harness, 0), wanted, "{item}");
        let turn = turns(&harness)[1].clone();
        assert_eq!((turn.way.sign() * turn.by.unwrap(), turn.face), (amount, None), "{item}");
    }
}

/// A number of degrees comes to the same however it is typed, by a fast hand or a slow one, and is one step. The next turn is one
/// of an old file, that says only where to face.
#[test]
fn degrees_typed_letter_by_letter_come_to_the_same() {
    let mut of = turning();
    of.figures[0].parts[0].turns[0].begin = 8.0;
    of.figures[0].parts[0].turns[0].end = 11.0;
    of.figures[0].parts[0].turns.push(Turn::to_face(16.0, 18.0, Way::Right, 185.0));
    let typed = |letters: &[&str]| {
        let mut harness = show_dance(of.clone(), [1280.0, 900.0]);
        let at = middle(&harness, &label(&harness, 0));
        right_click(&mut harness, at);
        harness.get_by_label("By degrees").focus();
        harness.run();
        press_with(&mut harness, Modifiers::COMMAND, Key::A);
        for letter in letters {
            write(&mut harness, letter);
        }
        press(&mut harness, Key::Enter);
        let made = dance(&harness);
        press(&mut harness, Key::Escape);
        take(&mut harness, Ask::Undo);
        assert_eq!(dance(&harness), of, "{letters:?}: one step");
        made
    };
    for (slow, fast) in
        [(vec!["1", "2", "0"], "120"), (vec!["2", "6", "5"], "265"), (vec!["9", "9", "9"], "999")]
    {
        assert_eq!(typed(&slow), typed(&[fast]), "{fast}");
    }
}

/// A follower who has a drawing of their own keeps it: only the turn that was changed is carried over.
#[test]
fn who_follows_keeps_what_is_drawn_of_them() {
    let across = Together::Mirror(Mirror::Across);
    let mut of = foot_up();
    let mut harness = show_dance(of.clone(), [1280.0, 900.0]);
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    take(&mut harness, Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(1), x: 1.9, y: 2.4 }));
    of.clone_from(&dance(&harness));
    let (legs, own) = (of.figures[0].part(2).unwrap().legs.clone(), danced(&harness, 1));
    take(&mut harness, Ask::Draw(DrawAsk::Together(across)));
    take(&mut harness, Ask::View(bellpad::desk::ViewAsk::Choose(Some(Dancer(0)))));
    choose(&mut harness, 1, "Half about");
    let mut wanted = own.clone();
    wanted[1].2 = 180.0;
    assert_eq!(danced(&harness, 1), wanted, "as in the mirror");
    assert_eq!(dance(&harness).figures[0].part(2).unwrap().legs, legs, "the path of 2 stays");
    assert!(desk(&harness).notice().is_none());
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), of, "one step");
    // A drag of it as well.
    let end = "End of turn 2, at bar 3:4";
    let from = middle(&harness, end);
    let by = counts(&harness, 1.0);
    drag(&mut harness, from, from + by);
    assert_eq!((danced(&harness, 0)[1].1, danced(&harness, 1)[1].1), (12.0, 12.0));
    assert_eq!(dance(&harness).figures[0].part(2).unwrap().legs, legs, "the path of 2 stays");
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), of, "one step");
    // Their path is another there: it stays, and that is said.
    take(&mut harness, Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(0), x: -1.4, y: 2.6 }));
    let made = dance(&harness);
    assert_eq!(
        (made.figures[0].part(2), notice(&harness).contains("2 does otherwise")),
        (of.figures[0].part(2), true)
    );
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), of, "one step");
}

/// Where the one who follows does not do the same in the figure, nothing of theirs is changed for a turn that they have not got.
#[test]
fn who_dances_another_part_of_the_figure_keeps_it() {
    let mut harness = show_dance(foot_up(), [1280.0, 900.0]);
    take(&mut harness, Ask::Draw(DrawAsk::Together(Together::Mirror(Mirror::EndForEnd))));
    let before = danced(&harness, 4);
    choose(&mut harness, 1, "The other way: right 90°");
    assert_eq!((danced(&harness, 0)[1].2, danced(&harness, 4)), (90.0, before));
    assert!(dance(&harness).figures[0].part(5).is_none(), "5 is not drawn");
    assert!(notice(&harness).contains("5 does otherwise"), "{}", notice(&harness));
    take(&mut harness, Ask::Undo);
    assert_eq!(dance(&harness), foot_up());
}

/// A path that is put in beside what a follower has of their own is put in beside it.
#[test]
fn a_new_path_is_carried_over_beside_what_is_drawn() {
    let mut of = six();
    let mut figure = Figure::drawn("figure-1", "Figure 1", 8);
    for (place, x, y) in [(1, -1.6, 2.0), (2, 2.2, 1.0)] {
        let mut part = Part::still(place);
        part.legs.push(Leg::straight(0.0, 4.0, x, y));
        figure.parts.push(part);
    }
    of.figures.push(figure);
    let mut harness = show_dance(of.clone(), [1280.0, 900.0]);
    take(&mut harness, Ask::Draw(DrawAsk::Together(Together::Mirror(Mirror::Across))));
    take(&mut harness, Ask::Play(PlayAsk::Seek(12.0)));
    take(&mut harness, Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(0), x: -1.0, y: 2.5 }));
    let legs = dance(&harness).figures[0].part(2).unwrap().legs.clone();
    assert_eq!(legs[0], of.figures[0].parts[1].legs[0]);
    assert_eq!((legs.len(), legs[1].to.x, legs[1].to.y), (2, 1.0, 2.5));
}

/// A click on a turn gives it the focus: then the arrows move it, and Delete takes it away.
#[test]
fn a_click_on_a_turn_gives_it_the_focus() {
    for (label, wanted) in [(WHOLE, (23.5, 26.5)), (BEGIN, (23.5, 27.0)), (END, (24.0, 26.5))] {
        let mut harness = window();
        let at = middle(&harness, label);
        hold(&mut harness, at);
        let_go(&mut harness, at);
        let count = desk(&harness).player().count;
        press(&mut harness, Key::ArrowLeft);
        assert_eq!((times(&harness), desk(&harness).player().count), (wanted, count), "{label}");
        undo_to_first(&mut harness);
        // Space plays, with a turn in hand as without.
        harness.key_press(Key::Space);
        harness.run_steps(2);
        assert!(desk(&harness).player().playing, "{label}");
        harness.key_press(Key::Space);
        harness.run();
        assert!(!desk(&harness).player().playing, "{label}");
        press(&mut harness, Key::Delete);
        assert_eq!(turns(&harness), [], "{label}");
        undo_to_first(&mut harness);
    }
}
