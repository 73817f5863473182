//! What to watch for in the window: what if the chosen dancer were late or short of the way, the band of what they have to spare, and the
//! words of the card and of the list of faults.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/painted.rs"]
mod painted;

use bellpad::dance::{Dance, Dancer, Extra, Set, write};
use bellpad::desk::{Ask, Desk, PlayAsk, ViewAsk};
use bellpad::faults::WhatIf;
use bellpad::figures::named_figure;
use bellpad::store::{Home, Recent};
use driven::{
    Driven, click, count, dance, desk, drag, hover, open_tab, press, show, show_dance, take, undo_name,
};
use egui::accesskit::Role;
use egui::{Key, Pos2, Rect, pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use painted::words;

fn hey() -> Dance {
    let mut dance = Dance::new("Hey", Set::longways(6, 2.4, 1.8));
    dance.figures.push(named_figure("hey", Extra::new(), &dance.set).unwrap());
    dance
}

fn window(size: [f32; 2]) -> Driven {
    let mut harness = show_dance(hey(), size);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(4)))));
    harness
}

fn what_if(harness: &Driven) -> Option<WhatIf> {
    desk(harness).what_if()
}

fn told(harness: &Driven, part: &str) -> bool {
    words(harness).iter().any(|words| words.text.contains(part))
}

fn slider(harness: &Driven, name: &str) -> Rect {
    harness.get_by_role_and_label(Role::Slider, name).rect()
}

fn value_said(harness: &Driven, name: &str) -> String {
    harness.get_by_role_and_label(Role::Slider, name).accesskit_node().value().unwrap_or_default()
}

/// The least late by which somebody is met, in steps of an eighth.
fn meets_at(harness: &mut Driven) -> f64 {
    let late = (1..=16).map(|step| f64::from(step) / 8.0).find(|late| {
        take(harness, Ask::View(ViewAsk::WhatIf(Some(WhatIf { late: *late, short: 0.0 }))));
        !desk(harness).would_meet().is_empty()
    });
    late.expect("in a hey whoever is late meets somebody")
}

/// What is painted within a part of the window, as text that can be compared.
fn painted_in(harness: &Driven, part: Rect) -> String {
    let shapes = harness.output().shapes.iter().filter(|shape| {
        let place = shape.shape.visual_bounding_rect();
        place.is_positive() && part.contains_rect(place)
    });
    shapes.map(|shape| format!("{:?}", shape.shape)).collect::<Vec<_>>().join("\n")
}

#[test]
fn a_key_a_button_and_escape_show_it_and_put_it_away_and_it_changes_nothing() {
    let mut harness = window([1366.0, 768.0]);
    let before = write(&dance(&harness));
    assert!(harness.query_by_role_and_label(Role::Slider, "Late by").is_none());
    press(&mut harness, Key::W);
    assert_eq!(what_if(&harness), Some(WhatIf::default()));
    assert!(told(&harness, "What if 5 is as drawn"));
    press(&mut harness, Key::W);
    assert_eq!(what_if(&harness), None);
    click(&mut harness, "what if");
    assert!(what_if(&harness).is_some());
    press(&mut harness, Key::Escape);
    assert_eq!(what_if(&harness), None);
    click(&mut harness, "what if");
    click(&mut harness, "what if");
    assert_eq!(what_if(&harness), None);
    // Pressed twice in one frame it is as before.
    harness.key_press(Key::W);
    harness.key_press(Key::W);
    harness.run();
    assert_eq!(what_if(&harness), None);
    press(&mut harness, Key::W);
    take(&mut harness, Ask::View(ViewAsk::WhatIf(Some(WhatIf { late: 1.0, short: 0.2 }))));
    take(&mut harness, Ask::Play(PlayAsk::Seek(7.0)));
    assert_eq!((write(&dance(&harness)), undo_name(&harness).as_str()), (before, ""));
    assert!(!desk(&harness).unsaved() || desk(&harness).path().is_none());
}

#[test]
fn with_nobody_chosen_it_says_to_choose() {
    let mut harness = window([1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    press(&mut harness, Key::W);
    assert!(told(&harness, "Choose a dancer to see what if"));
    assert!(harness.query_by_role_and_label(Role::Slider, "Late by").is_none());
    press(&mut harness, Key::Num4);
    assert!(told(&harness, "What if 4 is as drawn"));
}

#[test]
fn the_sliders_go_by_mouse_and_by_keys_and_say_it_in_words() {
    let mut harness = window([1366.0, 768.0]);
    press(&mut harness, Key::W);
    let place = slider(&harness, "Late by");
    assert_eq!(value_said(&harness, "Late by"), "in time");
    drag(&mut harness, place.center(), pos2(place.right() - 1.0, place.center().y));
    assert_eq!(what_if(&harness).unwrap().late, 2.0);
    assert_eq!(value_said(&harness, "Late by"), "2 counts late");
    drag(&mut harness, pos2(place.right() - 6.0, place.center().y), place.left_center() + vec2(1.0, 0.0));
    assert_eq!(what_if(&harness).unwrap().late, -2.0);
    assert!(told(&harness, "What if 5 is 2 counts early"));
    click(&mut harness, "as drawn");
    assert_eq!(what_if(&harness), Some(WhatIf::default()));
    harness.get_by_role_and_label(Role::Slider, "Late by").focus();
    harness.run();
    let before = count(&harness);
    for _ in 0..4 {
        press(&mut harness, Key::ArrowRight);
    }
    assert_eq!((what_if(&harness).unwrap().late, count(&harness)), (0.5, before));
    assert_eq!(value_said(&harness, "Late by"), "half a count late");
    press(&mut harness, Key::ArrowLeft);
    assert_eq!(what_if(&harness).unwrap().late, 0.375);
    harness.get_by_role_and_label(Role::Slider, "Short by").focus();
    harness.run();
    for _ in 0..10 {
        press(&mut harness, Key::ArrowRight);
    }
    assert!((what_if(&harness).unwrap().short - 0.1).abs() < 1e-9);
    assert_eq!(value_said(&harness, "Short by"), "10 % short");
    let place = slider(&harness, "Short by");
    drag(&mut harness, place.center(), pos2(place.right() + 30.0, place.center().y));
    assert!((what_if(&harness).unwrap().short - 0.3).abs() < 1e-9);
}

#[test]
fn whom_they_would_meet_is_told_and_its_mark_and_the_ghost_are_on_the_floor() {
    let mut harness = window([1366.0, 768.0]);
    let late = meets_at(&mut harness);
    let first = desk(&harness).would_meet()[0].clone();
    let said = format!("5 meets {} at bar ", first.other);
    assert!(told(&harness, &said) && told(&harness, &first.place), "{said}");
    // With less nobody is met.
    let less = WhatIf { late: late - 0.125, short: 0.0 };
    take(&mut harness, Ask::View(ViewAsk::WhatIf(Some(less))));
    assert_eq!(told(&harness, "nobody is met"), !less.is_nothing());
    let floor = harness.state().floor_rect;
    let spot: Pos2 = driven::frame(&mut harness).to_picture(first.spot.0, first.spot.1).into();
    let round = Rect::from_center_size(spot, vec2(34.0, 34.0));
    // The ring of a meeting is there within a count of it, and not before.
    let ring = |harness: &mut Driven, count: f64, late: f64| {
        take(harness, Ask::Play(PlayAsk::Seek(count)));
        take(harness, Ask::View(ViewAsk::WhatIf(Some(WhatIf { late, short: 0.0 }))));
        painted_in(harness, floor)
    };
    let (far, near) = ((first.at - 2.0).max(0.0), first.at - 0.5);
    let numbers = |harness: &Driven| {
        let all = words(harness);
        let of = all.iter().filter(|words| words.text == first.other.to_string());
        of.filter(|words| round.expand(14.0).intersects(words.place)).count()
    };
    ring(&mut harness, near, 0.0);
    let without = numbers(&harness);
    ring(&mut harness, near, late);
    assert!(numbers(&harness) > without, "whoever is met has their number at the mark");
    // The ghost: as drawn there is none, and late it stands beside them.
    for at in [far, near] {
        let drawn = ring(&mut harness, at, 0.0);
        let would = ring(&mut harness, at, late);
        let (x, y, _) = desk(&harness).would_stand(Dancer(4)).unwrap();
        let pose = desk(&harness).motion().pose(Dancer(4), at);
        assert_eq!(drawn != would, (pose.x - x).hypot(pose.y - y) > 0.02 || at == near, "at {at}");
    }
    take(&mut harness, Ask::Play(PlayAsk::Seek(near)));
    let before = painted_in(&harness, floor);
    press(&mut harness, Key::Escape);
    assert_ne!(painted_in(&harness, floor), before, "put away, it is not drawn");
}

#[test]
fn it_goes_on_while_the_dance_is_played_and_nothing_else_moves_or_is_covered() {
    for size in [[1366.0, 768.0], [1024.0, 640.0], [585.0, 366.0]] {
        let mut harness = window(size);
        let others = ["Play", "fit", "Order", "Dancer"];
        let places = |harness: &Driven| -> Vec<Rect> {
            others.iter().map(|name| harness.get_by_label(name).rect()).collect()
        };
        let before = places(&harness);
        press(&mut harness, Key::W);
        take(&mut harness, Ask::View(ViewAsk::WhatIf(Some(WhatIf { late: 1.5, short: 0.3 }))));
        assert_eq!(places(&harness), before, "{size:?}");
        let [late, short] = ["Late by", "Short by"].map(|name| slider(&harness, name));
        let floor = harness.state().floor_rect;
        for (name, place) in [("late", late), ("short", short)] {
            assert!(floor.contains_rect(place) && place.width() > 50.0, "{size:?}: {name} {place:?}");
        }
        let button = harness.get_by_label("as drawn").rect();
        assert!(floor.contains_rect(button) && !button.intersects(short), "{size:?}: {button:?} {short:?}");
        for name in others {
            let place = harness.get_by_label(name).rect();
            assert!(!place.intersects(late) && !place.intersects(short), "{size:?}: {name}");
        }
        // Through the whole figure the sliders keep their place, and no dancer is under them.
        harness.state_mut().desk.apply(Ask::Play(PlayAsk::Toggle));
        for _ in 0..40 {
            harness.step();
            assert_eq!(slider(&harness, "Late by"), late, "{size:?}");
            for dancer in 0..6 {
                let at = driven::place(&mut harness, dancer);
                assert!(
                    !late.union(short).expand(4.0).contains(at),
                    "{size:?}: {} at {at} is under {late} {floor}",
                    dancer + 1
                );
            }
        }
        // Taken hold of while it plays.
        harness.drag_at(late.center());
        harness.step();
        harness.hover_at(late.left_center());
        harness.step();
        harness.drop_at(late.left_center());
        harness.step();
        assert_eq!(what_if(&harness).unwrap().late, -2.0, "{size:?}");
    }
}

/// Nobody of the set is under it, in the smallest window with the largest text either; and as drawn it says how late they may be from here on.
#[test]
fn it_covers_no_dancer_in_the_smallest_window_with_the_largest_text() {
    let mut harness = window([512.0, 320.0]);
    press(&mut harness, Key::W);
    harness.run_steps(8);
    let [late, short] = ["Late by", "Short by"].map(|name| slider(&harness, name));
    let covered = late.union(short).expand2(vec2(40.0, 22.0));
    for dancer in 0..6 {
        let at = driven::place(&mut harness, dancer);
        assert!(!covered.contains(at), "{} at {at} is under {covered}", dancer + 1);
    }
    let said = words(&harness).into_iter().find(|words| words.text.starts_with("from here on "));
    let said = said.expect("how late from here on");
    assert!(covered.contains(said.place.left_center()), "{:?} {covered}", said.place);
    // It is worked there.
    drag(&mut harness, late.center(), late.right_center());
    assert!(what_if(&harness).unwrap().late > 1.0);
}

#[test]
fn words_of_it_lie_over_no_others_at_any_size() {
    for screen in painted::SCREENS {
        for text in painted::TEXTS {
            let mut harness = window(screen.map(|pixels| pixels / text));
            meets_at(&mut harness);
            take(&mut harness, Ask::View(ViewAsk::WhatIf(Some(WhatIf { late: 1.625, short: 0.3 }))));
            let place = harness.get_by_role_and_label(Role::Slider, "Late by").rect();
            let all = words(&harness);
            let said = all.iter().find(|words| words.text.starts_with("What if 5 is")).unwrap();
            let right = place.right() + 12.0;
            assert!(said.seen.right() <= right, "{screen:?} at {text}: {:?} {place:?}", said.place);
            assert!(said.place.bottom() <= place.top() + 1.0, "{screen:?} at {text}: {:?}", said.place);
            let floor = harness.state().floor_rect;
            let over = floor.contains(place.center());
            let whom = |words: &&painted::Words| {
                floor.contains(words.place.center()) == over && words.text.contains(" meets ")
            };
            let whom = all.iter().find(whom).map(|words| words.seen);
            let whom = whom.unwrap_or_else(|| panic!("{screen:?} at {text}: nobody is met"));
            assert!(whom.right() <= right, "{screen:?} at {text}: {whom:?}");
            assert!(
                whom.top() + 1.0 >= slider(&harness, "Short by").bottom(),
                "{screen:?} at {text}: {whom:?}"
            );
        }
    }
}

#[test]
fn the_band_is_behind_the_feet_and_the_pointer_is_told_how_late_they_may_be() {
    let mut harness = window([1366.0, 768.0]);
    let row = harness.get_by_label("Feet").rect();
    let said = desk(&harness).to_watch().unwrap().band_words(Dancer(4)).unwrap();
    hover(&mut harness, pos2(row.left() + 40.0, row.center().y));
    harness.run_steps(8);
    assert!(told(&harness, &said), "{said}");
    // As broad as it is safe.
    let mut broad = Vec::new();
    for dancer in 0..6 {
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(dancer)))));
        let [late, early] = desk(&harness).to_watch().unwrap().bands[dancer];
        let row = harness.get_by_label("Feet").rect();
        let bands = harness.output().shapes.iter().filter_map(|shape| match &shape.shape {
            egui::Shape::Rect(shape) => Some(shape.rect),
            _ => None,
        });
        let bands: Vec<Rect> = bands
            .filter(|rect| row.expand(6.0).contains_rect(*rect) && rect.width() > row.width() - 2.0)
            .collect();
        assert_eq!(bands.len(), 1, "{dancer}");
        broad.push((late + early, bands[0].height()));
    }
    for (one, other) in broad.iter().zip(&broad[1..]) {
        assert!((one.0 - other.0) * f64::from(one.1 - other.1) >= -0.3, "{broad:?}");
    }
}

#[test]
fn the_card_has_a_row_where_there_is_room_and_says_it_in_its_line_where_there_is_none() {
    for (size, row) in [([1366.0, 1000.0], true), ([1366.0, 768.0], false), ([1280.0, 680.0], false)] {
        let mut harness = window(size);
        open_tab(&mut harness, "Dancer");
        let said = desk(&harness).to_watch().unwrap().words_for(Dancer(4), 0.0).unwrap();
        let all = words(&harness);
        let named = all.iter().any(|words| words.text == "Watch");
        assert_eq!(named, row, "{size:?}");
        let line = if row { said.clone() } else { format!("· Watch: {said}") };
        assert!(all.iter().any(|words| words.text.contains(&line)), "{size:?}: {line}");
    }
}

#[test]
fn beside_the_faults_stands_what_the_side_should_watch_for() {
    let mut harness = window([1366.0, 768.0]);
    open_tab(&mut harness, "Faults");
    let own = desk(&harness).to_watch().unwrap().words_for(Dancer(4), 0.0).unwrap();
    assert!(told(&harness, "Watch for in ") && told(&harness, &format!("5: {own}")));
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    let side = desk(&harness).to_watch().unwrap().for_side();
    assert!(!side.is_empty() && side.len() <= 3);
    for watched in side {
        assert!(told(&harness, &watched.text), "{}", watched.text);
    }
}

#[test]
fn the_card_of_the_first_minute_gives_way_to_it() {
    let folder = tempfile::tempdir().unwrap();
    let desk = Desk::with_sample(Recent::default()).at_home(Home::at(folder.path()));
    let mut harness = show(desk, [1366.0, 768.0]);
    assert!(harness.query_by_label("Put away").is_some());
    press(&mut harness, Key::W);
    assert!(harness.query_by_label("Put away").is_none());
    press(&mut harness, Key::W);
    assert!(harness.query_by_label("Put away").is_some());
    press(&mut harness, Key::W);
    assert!(told(&harness, "What if ") || told(&harness, "Choose a dancer"));
}
