//! Drawing in the window: mates, picks, catching, nudges, legs, times, copies; a figure made from an empty set; and
//! undo of everything.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/chance.rs"]
mod chance;
#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Dance, Dancer, Figure, Foot, LegFacing, PlaceNumber, Set, Shape, read};
use bellpad::desk::{Ask, Desk, DrawAsk, Grip, OrderAsk, PlayAsk, ViewAsk};
use bellpad::edits::{Guide, LegChange, PointOf, SecondHalf, TimePoint, Together};
use bellpad::figures::Mirror;
use bellpad::motion::{SpanIndex, passing};
use bellpad::store::{self, Recent};
use chance::Chance;
use driven::{
    Driven, activate, at, click, desk, drag, hover, let_go, place, press, press_with, pull, sample,
    show_dance, six, take, type_path, where_is,
};
use egui::{Event, Key, Modifiers, PointerButton, Pos2, vec2};
use egui_kittest::kittest::Queryable;

/// The text of a dance's file.
fn write(dance: &Dance) -> String {
    bellpad::dance::write(dance).unwrap()
}

fn window(dance: Dance) -> Driven {
    show_dance(dance, [1280.0, 900.0])
}

/// Six who have nothing to do for eight bars.
fn empty() -> Dance {
    let mut dance = six();
    dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
    dance
}

/// Several at once, with no frame between: a drag that no pointer holds ends with the next frame.
fn take_all(harness: &mut Driven, asks: impl IntoIterator<Item = Ask>) {
    for ask in asks {
        harness.state_mut().desk.apply(ask);
    }
    harness.run();
}

#[track_caller]
fn is_at(harness: &Driven, dancer: usize, x: f64, y: f64) {
    let (px, py) = where_is(harness, dancer);
    assert!((px - x).hypot(py - y) < 0.012, "{} is at {px:.3}, {py:.3}, not {x}, {y}", dancer + 1);
}

/// Drags a dancer from where they are to a place on the floor.
fn drag_dancer(harness: &mut Driven, dancer: usize, x: f64, y: f64) {
    let (from, to) = (place(harness, dancer), at(harness, x, y));
    drag(harness, from, to);
}

fn choose_from(harness: &mut Driven, menu: &str, item: &str) {
    activate(harness, menu);
    activate(harness, item);
}

#[test]
fn mates_follow_while_the_drag_is_under_way() {
    for (item, mate, x, y) in [
        ("across the set", 1, 0.5, 1.4),
        ("end for end", 4, -0.5, -1.4),
        ("the opposite, turned about", 5, 0.5, -1.4),
        ("everyone the same", 3, 1.9, -0.4),
    ] {
        let mut harness = window(empty());
        take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
        choose_from(&mut harness, "who follows: nobody", item);
        let (from, to) = (at(&mut harness, -1.2, 1.8), at(&mut harness, -0.5, 1.4));
        pull(&mut harness, from, to);
        assert!(desk(&harness).held().is_some(), "{item}: not let go");
        is_at(&harness, 0, -0.5, 1.4);
        is_at(&harness, mate, x, y);
        let_go(&mut harness, to);
        is_at(&harness, mate, x, y);
        assert_eq!(desk(&harness).undo_name(), Some("move 1 at bar 2"));
        take(&mut harness, Ask::Undo);
        assert_eq!(*desk(&harness).dance(), empty(), "{item}: one step");
    }
}

/// Left and right, feet and shoulders swap under a mirror and not under a half turn (design of the program).
#[test]
fn a_mirror_swaps_turns_and_feet() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    for (mirror, mate, swaps) in [(Mirror::Across, 1, true), (Mirror::HalfTurn, 5, false)] {
        take(&mut harness, Ask::Draw(DrawAsk::Together(Together::Mirror(mirror))));
        take_all(
            &mut harness,
            [
                Ask::Draw(DrawAsk::BeginDrag(Grip::Facing(Dancer(0)))),
                Ask::Draw(DrawAsk::DragBy(-90.0)),
                Ask::Draw(DrawAsk::EndDrag),
            ],
        );
        let turned = |dancer: usize| {
            let motion = desk(&harness).motion();
            motion.pose(Dancer(dancer), 4.0).facing - motion.pose(Dancer(dancer), 0.0).facing
        };
        assert!((turned(0) + 90.0).abs() < 1e-6);
        assert!((turned(mate) - if swaps { 90.0 } else { -90.0 }).abs() < 1e-6, "{mirror:?}");
        take(&mut harness, Ask::Undo);
    }
    let mut part = bellpad::dance::Part::still(1);
    part.leads.push(bellpad::dance::Lead { at: 0.0, foot: Foot::Left, extra: bellpad::dance::Extra::new() });
    assert_eq!(bellpad::figures::mirrored(&part, Mirror::Across, PlaceNumber(2)).leads[0].foot, Foot::Right);
    assert_eq!(bellpad::figures::mirrored(&part, Mirror::HalfTurn, PlaceNumber(6)).leads[0].foot, Foot::Left);
}

#[test]
fn those_picked_move_together() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    choose_from(&mut harness, "pick", "All odds");
    assert_eq!(desk(&harness).picked(), [Dancer(0), Dancer(2), Dancer(4)]);
    drag_dancer(&mut harness, 2, -0.7, 0.25);
    for (dancer, x, y) in [(0, -0.7, 2.05), (2, -0.7, 0.25), (4, -0.7, -1.55), (1, 1.2, 1.8)] {
        is_at(&harness, dancer, x, y);
    }
    assert_eq!(desk(&harness).undo_name(), Some("move 1, 3 and 5 at bar 2"));
    take(&mut harness, Ask::Undo);
    assert_eq!(*desk(&harness).dance(), empty());
    assert_eq!(desk(&harness).picked(), [Dancer(0), Dancer(2), Dancer(4)], "who was picked comes back");
    choose_from(&mut harness, "pick", "Middles");
    assert_eq!(desk(&harness).picked(), [Dancer(2), Dancer(3)]);
}

#[test]
fn a_frame_picks_and_shift_adds() {
    let mut harness = window(empty());
    let (from, to) = (at(&mut harness, -1.9, 2.3), at(&mut harness, -0.4, -0.7));
    drag(&mut harness, from, to);
    assert_eq!(desk(&harness).picked(), [Dancer(0), Dancer(2)]);
    press_with(&mut harness, Modifiers::SHIFT, Key::Num6);
    assert_eq!(desk(&harness).picked(), [Dancer(0), Dancer(2), Dancer(5)]);
    press_with(&mut harness, Modifiers::SHIFT, Key::Num1);
    assert_eq!(desk(&harness).picked(), [Dancer(2), Dancer(5)]);
    // As a real keyboard has it: with Shift the key of 1 is an exclamation mark on many.
    for sign in [Key::Exclamationmark, Key::Quote] {
        for pressed in [true, false] {
            harness.event_modifiers(
                Event::Key {
                    key: sign,
                    physical_key: Some(Key::Num1),
                    pressed,
                    repeat: false,
                    modifiers: Modifiers::SHIFT,
                },
                Modifiers::SHIFT,
            );
        }
        harness.run();
        assert_eq!(desk(&harness).picked().contains(&Dancer(0)), sign == Key::Exclamationmark);
    }
    press_with(&mut harness, Modifiers::COMMAND, Key::A);
    assert_eq!(desk(&harness).picked().len(), 6);
    press(&mut harness, Key::Num4);
    assert_eq!(desk(&harness).picked(), [Dancer(3)]);
    // A frame round nobody lets go of everyone; the middle button moves the floor.
    let (from, to) = (at(&mut harness, -2.3, 2.4), at(&mut harness, -1.9, 2.2));
    drag(&mut harness, from, to);
    assert_eq!((desk(&harness).picked(), desk(&harness).chosen()), (&[][..], None));
    for (pressed, place) in [(true, from), (false, from + vec2(40.0, 0.0))] {
        harness.event(Event::PointerMoved(place));
        harness.run();
        harness.event(Event::PointerButton {
            pos: place,
            button: PointerButton::Middle,
            pressed,
            modifiers: Modifiers::NONE,
        });
        harness.event(Event::PointerMoved(place + vec2(0.0, 1.0)));
        harness.run();
    }
    assert_eq!(
        desk(&harness).pan(),
        [40.0, 0.0],
        "as far as the pointer, with what it moved before it was a drag"
    );
}

#[test]
fn a_drag_catches_and_alt_or_ctrl_lets_it_go_free() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    let near = at(&mut harness, 1.17, 0.03);
    let from = at(&mut harness, -1.2, 1.8);
    pull(&mut harness, from, near);
    assert_eq!(desk(&harness).guides(), [Guide::Spot(3)]);
    let (x, y) = where_is(&harness, 0);
    assert!((x - 1.2).abs() < 1e-9 && y.abs() < 1e-9, "just on the spot: {x} {y}");
    let line = at(&mut harness, 0.03, 0.9);
    // Some desktops keep Alt with the mouse for themselves.
    for free in [Modifiers::ALT, Modifiers::CTRL] {
        hover(&mut harness, line);
        assert_eq!(desk(&harness).guides(), [Guide::Upright(0.0)]);
        harness.event_modifiers(Event::PointerMoved(line + vec2(1.0, 0.0)), free);
        harness.run();
        assert_eq!(desk(&harness).guides(), []);
        let (x, _) = where_is(&harness, 0);
        assert!(x.abs() > 0.005, "free of the line: {x}");
    }
    let_go(&mut harness, line);
}

#[test]
fn arrows_nudge() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    for _ in 0..2 {
        press_with(&mut harness, Modifiers::COMMAND, Key::ArrowRight);
    }
    press_with(&mut harness, Modifiers::COMMAND | Modifiers::SHIFT, Key::ArrowUp);
    is_at(&harness, 0, -1.1, 1.81);
    assert_eq!(desk(&harness).undo_name(), Some("nudge 1 at bar 2"));
    // From the musicians' side right is left.
    take(&mut harness, Ask::View(ViewAsk::See(bellpad::desk::Seen::FromTop)));
    press_with(&mut harness, Modifiers::COMMAND, Key::ArrowRight);
    is_at(&harness, 0, -1.15, 1.81);
    assert_eq!(desk(&harness).player().count, 4.0, "arrows with Ctrl do not scrub");
    take(&mut harness, Ask::Undo);
    assert_eq!(*desk(&harness).dance(), empty(), "nudges join to one step");
    // What has the focus is nudged by arrows alone.
    take(&mut harness, Ask::View(ViewAsk::See(bellpad::desk::Seen::FromBottom)));
    harness.get_by_label("Dancer 4").focus();
    harness.run();
    press(&mut harness, Key::ArrowDown);
    is_at(&harness, 3, 1.2, -0.05);
    harness.get_by_label("Path 1 end of 4").focus();
    harness.run();
    press_with(&mut harness, Modifiers::SHIFT, Key::ArrowLeft);
    is_at(&harness, 3, 1.19, -0.05);
    press(&mut harness, Key::Escape);
    press(&mut harness, Key::ArrowRight);
    assert_eq!(desk(&harness).player().count, 5.0, "with no focus they scrub again");
}

/// Quick fingers on a slow machine.
#[test]
fn a_key_pressed_more_than_once_in_a_frame_counts_each_time() {
    let mut harness = window(empty());
    let press = |harness: &mut Driven, key: Key, modifiers: Modifiers, times: usize| {
        for pressed in [true, false].repeat(times) {
            let event = Event::Key { key, physical_key: None, pressed, repeat: false, modifiers };
            harness.input_mut().events.push(event);
        }
        harness.run();
    };
    press(&mut harness, Key::M, Modifiers::NONE, 3);
    assert_eq!(desk(&harness).together(), Together::Mirror(Mirror::HalfTurn));
    press(&mut harness, Key::V, Modifiers::NONE, 2);
    assert_eq!(desk(&harness).seen(), bellpad::desk::Seen::OwnFacing);
    press(&mut harness, Key::Minus, Modifiers::NONE, 4);
    assert!((desk(&harness).player().tempo - 0.8).abs() < 1e-6);
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    for metres in [0.1, 0.2, 0.3] {
        take(&mut harness, Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(0), x: metres, y: 1.0 }));
        harness.state_mut().desk.apply(Ask::Draw(DrawAsk::PartSteps));
    }
    press(&mut harness, Key::Z, Modifiers::COMMAND, 2);
    is_at(&harness, 0, 0.1, 1.0);
    press(&mut harness, Key::Z, Modifiers::COMMAND | Modifiers::SHIFT, 2);
    is_at(&harness, 0, 0.3, 1.0);
}

#[test]
fn legs_are_shaped_split_and_joined_from_the_card() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(8.0)));
    drag_dancer(&mut harness, 0, -0.4, 2.3);
    take(&mut harness, Ask::Play(PlayAsk::Seek(6.0)));
    let leg = |harness: &Driven, index: usize| desk(harness).dance().figures[0].parts[0].legs[index].clone();
    let many = |harness: &Driven| desk(harness).dance().figures[0].parts[0].legs.len();
    assert_eq!(leg(&harness, 0).shape, Shape::Straight);
    choose_from(&mut harness, "Path", "Smooth");
    assert_eq!((leg(&harness, 0).shape, leg(&harness, 0).through.len()), (Shape::Smooth, 1));
    choose_from(&mut harness, "Path", "Point here");
    assert_eq!(leg(&harness, 0).through.len(), 2);
    choose_from(&mut harness, "Path", "Arc");
    assert_eq!(leg(&harness, 0).shape, Shape::Arc);
    let before = where_is(&harness, 0);
    choose_from(&mut harness, "Path", "Split here");
    assert_eq!(many(&harness), 2);
    is_at(&harness, 0, before.0, before.1);
    take(&mut harness, Ask::Play(PlayAsk::Seek(5.0)));
    choose_from(&mut harness, "Path", "Join with the next");
    assert_eq!((many(&harness), leg(&harness, 0).end), (1, 8.0));
    choose_from(&mut harness, "Path", "Straight");
    assert_eq!((leg(&harness, 0).shape, leg(&harness, 0).through.len()), (Shape::Straight, 0));
    choose_from(&mut harness, "Path", "Facing the way they go");
    assert_eq!(leg(&harness, 0).facing, LegFacing::Forwards);
    choose_from(&mut harness, "Path", "Take this path away");
    assert_eq!(many(&harness), 0);
    for _ in 0..9 {
        take(&mut harness, Ask::Undo);
    }
    assert_eq!(*desk(&harness).dance(), empty());
}

#[test]
fn a_point_is_dragged_in_time_along_the_bars() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(8.0)));
    drag_dancer(&mut harness, 0, -0.4, 2.3);
    let bars = harness.get_by_label("Bars").rect();
    let width = (bars.width() - 16.0) / 32.0;
    let end = harness.get_by_label("End of path 1, at bar 3:1").rect().center();
    drag(&mut harness, end, end + vec2(width * 2.0, 0.0));
    let leg = &desk(&harness).dance().figures[0].parts[0].legs[0];
    assert_eq!((leg.begin, leg.end), (4.0, 10.0));
    let begin = harness.get_by_label("Start of path 1, at bar 2:1").rect().center();
    drag(&mut harness, begin, begin - vec2(width * 1.5, 0.0));
    let leg = &desk(&harness).dance().figures[0].parts[0].legs[0];
    assert_eq!((leg.begin, leg.end), (2.5, 10.0));
    assert_eq!(desk(&harness).undo_name(), Some("move a point of 1 in time"));
    // A point on the way gets a time of its own.
    take(&mut harness, Ask::Play(PlayAsk::Seek(6.0)));
    take(
        &mut harness,
        Ask::Draw(DrawAsk::ChangeLeg { dancer: Dancer(0), leg: 0, change: LegChange::Smooth }),
    );
    let point = Grip::Time { span: SpanIndex(0), dancer: Dancer(0), point: TimePoint::Through(0, 0) };
    take_all(
        &mut harness,
        [
            Ask::Draw(DrawAsk::BeginDrag(point)),
            Ask::Draw(DrawAsk::DragToCount(4.0)),
            Ask::Draw(DrawAsk::EndDrag),
        ],
    );
    assert_eq!(desk(&harness).dance().figures[0].parts[0].legs[0].through[0].at, Some(4.0));
    // It goes no farther than its neighbours let it.
    let point = Grip::Time { span: SpanIndex(0), dancer: Dancer(0), point: TimePoint::Through(0, 0) };
    take_all(
        &mut harness,
        [
            Ask::Draw(DrawAsk::BeginDrag(point)),
            Ask::Draw(DrawAsk::DragToCount(30.0)),
            Ask::Draw(DrawAsk::EndDrag),
        ],
    );
    let at = desk(&harness).dance().figures[0].parts[0].legs[0].through[0].at.unwrap();
    assert!(at < 10.0 && at > 9.0, "{at}");
}

#[test]
fn exact_places_are_typed() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    activate(&mut harness, "Place…");
    take(&mut harness, Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(0), x: -0.333, y: 1.5 }));
    is_at(&harness, 0, -0.333, 1.5);
    take(&mut harness, Ask::Draw(DrawAsk::FaceAt { dancer: Dancer(0), degrees: 200.0 }));
    let facing = desk(&harness).motion().pose(Dancer(0), 4.0).facing;
    assert!((facing.rem_euclid(360.0) - 200.0).abs() < 0.05, "{facing}");
    assert_eq!(desk(&harness).undo_name(), Some("face 1 at bar 2"));
    take(&mut harness, Ask::Undo);
    let turned = |harness: &Driven| {
        let motion = desk(harness).motion();
        motion.pose(Dancer(0), 4.0).facing - motion.pose(Dancer(0), 0.0).facing
    };
    // Typed letter by letter or at once, it is the shorter way from where they faced: 90 degrees.
    for typed in [&[2.0, 20.0, 200.0][..], &[200.0]] {
        harness.state_mut().desk.apply(Ask::Draw(DrawAsk::PartSteps));
        take_all(
            &mut harness,
            typed.iter().map(|degrees| Ask::Draw(DrawAsk::FaceAt { dancer: Dancer(0), degrees: *degrees })),
        );
        assert!((turned(&harness) - 110.0).abs() < 0.05, "{typed:?}: {}", turned(&harness));
        take(&mut harness, Ask::Undo);
        assert!(turned(&harness).abs() < 1e-6, "one step");
    }
    // Dragged on by little, it goes past half a turn.
    harness.state_mut().desk.apply(Ask::Draw(DrawAsk::PartSteps));
    take_all(
        &mut harness,
        (1..=25).map(|step| {
            Ask::Draw(DrawAsk::FaceAt { dancer: Dancer(0), degrees: 90.0 + 10.0 * f64::from(step) })
        }),
    );
    assert!((turned(&harness) - 250.0).abs() < 0.05, "{}", turned(&harness));
}

#[test]
fn a_part_is_copied_to_another() {
    let mut harness = window(empty());
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    drag_dancer(&mut harness, 0, -0.5, 1.4);
    choose_from(&mut harness, "Copy", "6 (the opposite, turned about)");
    is_at(&harness, 5, 0.5, -1.4);
    is_at(&harness, 1, 1.2, 1.8);
    choose_from(&mut harness, "Copy", "2 (across the set)");
    is_at(&harness, 1, 0.5, 1.4);
    take(
        &mut harness,
        Ask::Draw(DrawAsk::CopyPart { dancer: Dancer(0), together: Together::Same, other: Dancer(2) }),
    );
    is_at(&harness, 2, -0.5, -0.4);
}

/// Clicks on the bars of the figure at one of its counts.
fn click_bars(harness: &mut Driven, count: f32) {
    let bars = harness.get_by_label("Bars").rect().shrink2(vec2(8.0, 0.0));
    let place = Pos2::new(bars.left() + bars.width() * count / 32.0, bars.top() + 26.0);
    hover(harness, place);
    harness.drag_at(place);
    let_go(harness, place);
}

/// A figure from an empty set: new, six dancers, 1 through a cross with its mate by half turn, the second half mirrored,
/// check clear, save. Twelve gestures at the most, each a click, a key or a drag.
#[test]
fn a_figure_is_made_in_twelve_gestures() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("cross.dance.json");
    let mut harness = window(sample(0));
    let mut gestures = 0;
    let mut done = || {
        gestures += 1;
        gestures
    };
    press_with(&mut harness, Modifiers::COMMAND, Key::N);
    done();
    // Six in two files is what the dialog has at first.
    click(&mut harness, "Make it");
    done();
    click(&mut harness, "who follows: nobody");
    done();
    click(&mut harness, "the opposite, turned about");
    done();
    assert_eq!(desk(&harness).together(), Together::Mirror(Mirror::HalfTurn));
    click_bars(&mut harness, 8.0);
    done();
    drag_dancer(&mut harness, 0, 1.18, -1.77);
    done();
    is_at(&harness, 0, 1.2, -1.8);
    is_at(&harness, 5, -1.2, 1.8);
    click_bars(&mut harness, 4.0);
    done();
    // To their own left of the straight line, so that 1 and 6 pass right shoulders, and clear of 3 and 4.
    drag_dancer(&mut harness, 0, 0.28, 0.22);
    done();
    click(&mut harness, "Copy");
    done();
    click(&mut harness, "Mirrored");
    done();
    assert_eq!(desk(&harness).fault_count(), 0, "{:#?}", desk(&harness).faults());
    harness.get_by_label_contains("All clear");
    press_with(&mut harness, Modifiers::COMMAND, Key::S);
    done();
    type_path(&mut harness, &path);
    let gestures = done();
    assert!(gestures <= 12, "{gestures} gestures");
    let saved = store::open(&path).unwrap();
    let motion = bellpad::figures::motion_of(&saved, None).unwrap();
    assert_eq!(passing(&motion, Dancer(0), Dancer(5), 0.0, 8.0).shoulder, bellpad::dance::Way::Right);
    assert_eq!(passing(&motion, Dancer(0), Dancer(5), 16.0, 24.0).shoulder, bellpad::dance::Way::Left);
    for dancer in 0..6 {
        let (home, end) = (motion.pose(Dancer(dancer), 0.0), motion.pose(Dancer(dancer), 32.0));
        assert!((home.x - end.x).hypot(home.y - end.y) < 0.01);
    }
}

/// A number of metres, 2 either way.
fn metres(chance: &mut Chance) -> f64 {
    chance.below(400) as f64 / 100.0 - 2.0
}

/// Something that a hand could do, by chance.
fn any_edit(chance: &mut Chance, desk: &Desk) -> Vec<Ask> {
    let dancer = chance.below(desk.motion().dancers());
    let legs = desk.leg_here(Dancer(dancer)).map_or(1, |(_, _, legs)| legs.max(1));
    let leg = chance.below(legs);
    let span = desk.span().unwrap_or(SpanIndex(0));
    let changes = [
        LegChange::Straighten,
        LegChange::Smooth,
        LegChange::Arc,
        LegChange::Held,
        LegChange::Forwards,
        LegChange::Backwards,
        LegChange::Remove,
    ];
    match chance.below(20) {
        0..=3 => vec![
            Ask::Draw(DrawAsk::BeginDrag(Grip::Dancer(Dancer(dancer)))),
            Ask::Draw(DrawAsk::DragTo { x: metres(chance), y: metres(chance), reach: 0.1 }),
            Ask::Draw(DrawAsk::DragTo { x: metres(chance), y: metres(chance), reach: 0.1 }),
            Ask::Draw(DrawAsk::EndDrag),
        ],
        4 => vec![
            Ask::Draw(DrawAsk::BeginDrag(Grip::Facing(Dancer(dancer)))),
            Ask::Draw(DrawAsk::DragBy(chance.below(720) as f64 - 360.0)),
            Ask::Draw(DrawAsk::EndDrag),
        ],
        5 => vec![
            Ask::Draw(DrawAsk::BeginDrag(Grip::Time {
                span,
                dancer: Dancer(dancer),
                point: TimePoint::End(leg),
            })),
            Ask::Draw(DrawAsk::DragToCount(desk.player().count + metres(chance))),
            Ask::Draw(DrawAsk::EndDrag),
        ],
        6 => vec![
            Ask::Draw(DrawAsk::BeginDrag(Grip::Point {
                span,
                dancer: Dancer(dancer),
                point: PointOf::end(leg),
            })),
            Ask::Draw(DrawAsk::DragTo { x: metres(chance), y: metres(chance), reach: 0.1 }),
            Ask::Draw(DrawAsk::EndDrag),
        ],
        7 => {
            vec![Ask::Draw(DrawAsk::ChangeLeg {
                dancer: Dancer(dancer),
                leg,
                change: changes[chance.below(changes.len())],
            })]
        }
        8 => vec![Ask::Draw(DrawAsk::InsertPoint(Dancer(dancer)))],
        9 => vec![Ask::Draw(DrawAsk::SplitLeg(Dancer(dancer)))],
        10 => vec![Ask::Draw(DrawAsk::JoinLegs { dancer: Dancer(dancer), leg })],
        11 => vec![Ask::Draw(DrawAsk::CopyHalf(if chance.below(2) == 0 {
            SecondHalf::Mirrored
        } else {
            SecondHalf::Same
        }))],
        12 => {
            vec![Ask::Draw(DrawAsk::CopyPart {
                dancer: Dancer(dancer),
                together: Together::Same,
                other: Dancer(chance.below(desk.motion().dancers())),
            })]
        }
        13 => vec![
            Ask::Draw(DrawAsk::Together(Together::ALL[chance.below(Together::ALL.len())])),
            Ask::Draw(DrawAsk::Nudge { right: 0.05, up: -0.01 }),
        ],
        14 => {
            vec![Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(dancer), x: metres(chance), y: metres(chance) })]
        }
        15 => vec![Ask::Draw(DrawAsk::FaceAt { dancer: Dancer(dancer), degrees: chance.below(360) as f64 })],
        16 => {
            vec![Ask::Order(OrderAsk::NamePerson(
                Dancer(dancer).number(),
                format!("Name {}", chance.below(1000)),
            ))]
        }
        17 => vec![
            Ask::Order(OrderAsk::PutIn(["go-and-come", "cross-over", "into-line"][chance.below(3)], None)),
            Ask::Order(OrderAsk::TakeOut(0)),
        ],
        18 => vec![Ask::Draw(DrawAsk::DropPoint { span, dancer: Dancer(dancer), point: PointOf::end(leg) })],
        _ => vec![
            Ask::Play(PlayAsk::Seek(chance.below(16 * desk.motion().spans().len().max(1)) as f64)),
            Ask::View(ViewAsk::Pick(vec![Dancer(dancer), Dancer(chance.below(6))])),
        ],
    }
}

#[test]
fn ten_thousand_edits_are_undone_and_redone_to_the_byte() {
    let mut chance = Chance(0x0BAD_5EED_CAFE_F00D);
    let mut done = 0;
    while done < 10_000 {
        // A small set, so that so many are quick.
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        dance.figures.push(Figure::drawn("figure-1", "Figure 1", 4));
        let mut desk = Desk::new(dance, None, Recent::default()).unwrap();
        let first = write(desk.dance());
        for _ in 0..500 {
            for ask in any_edit(&mut chance, &desk) {
                desk.apply(ask);
            }
            // An edit never joins one that another control made.
            desk.apply(Ask::Draw(DrawAsk::PartSteps));
            done += 1;
        }
        let last = write(desk.dance());
        assert_ne!(first, last);
        read(last.as_bytes()).unwrap();
        let mut steps = 0;
        while desk.undo_name().is_some() {
            desk.apply(Ask::Undo);
            steps += 1;
        }
        assert!(steps > 100, "{steps} steps");
        assert_eq!(write(desk.dance()), first);
        while desk.redo_name().is_some() {
            desk.apply(Ask::Redo);
        }
        assert_eq!(write(desk.dance()), last);
    }
}
