//! What is in sight stays so: the floor is fitted only when that is asked for, edges keep the place that they are drawn to, names are
//! shortened so that they can be told apart, words of a row stand on one line, and the count of faults is there at every size.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/painted.rs"]
mod painted;

use bellpad::dance::{Dance, Dancer, Figure, Leg, Part};
use bellpad::desk::{Ask, Desk, DrawAsk, FileAsk, KeepAsk, OrderAsk, PlayAsk, ViewAsk};
use bellpad::motion::Span;
use bellpad::picture::{FloorLook, Frame, Mark, SLATE, dancer_marks, path_marks};
use bellpad::store::{Home, Recent};
use driven::{
    Driven, carry, dance, desk, drag, frame, open_shelf, open_tab, press, show, show_dance, show_sample, six,
    take,
};
use egui::{Key, Pos2, Rect, Shape, pos2, vec2};
use egui_kittest::kittest::{NodeT, Queryable};
use painted::{SCREENS, TEXTS, Words, words};

/// How the floor lies: what a metre is and where the middle is, points.
fn lies(harness: &mut Driven) -> (f64, (f64, f64), [f32; 2]) {
    let frame = frame(harness);
    (frame.scale, frame.centre, frame.middle)
}

#[test]
fn the_floor_is_fitted_only_when_that_is_asked_or_another_dance_comes() {
    let mut harness = show_dance(six_who_stand(), [1366.0, 768.0]);
    let first = lies(&mut harness);
    // 1 goes six metres out, which a floor that is fitted would have to show.
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
    take(&mut harness, Ask::Play(PlayAsk::Seek(8.0)));
    take(&mut harness, Ask::Draw(DrawAsk::PlaceAt { dancer: Dancer(0), x: -6.0, y: 1.8 }));
    assert_eq!(lies(&mut harness), first, "what is drawn moves nothing");
    for count in 0..32 {
        take(&mut harness, Ask::Play(PlayAsk::Seek(f64::from(count))));
        assert_eq!(lies(&mut harness), first, "at {count}");
    }
    take(&mut harness, Ask::Undo);
    take(&mut harness, Ask::Redo);
    harness.state_mut().desk.apply(Ask::Play(PlayAsk::Toggle));
    for frame in 0..60 {
        harness.step();
        assert_eq!(lies(&mut harness), first, "in play, frame {frame}");
    }
    harness.state_mut().desk.apply(Ask::Play(PlayAsk::Toggle));
    take(&mut harness, Ask::Order(OrderAsk::SetHops(false)));
    assert_eq!(lies(&mut harness), first);
    // Moved and made larger by hand it stays so as well.
    take(&mut harness, Ask::View(ViewAsk::Pan([30.0, -20.0])));
    let by_hand = lies(&mut harness);
    assert_ne!(by_hand, first);
    take(&mut harness, Ask::Play(PlayAsk::Seek(12.0)));
    assert_eq!(lies(&mut harness), by_hand);
    press(&mut harness, Key::F);
    let fitted = lies(&mut harness);
    assert!(fitted.1.0 < first.1.0 - 1.0, "F shows whoever is far out: {fitted:?} after {first:?}");
    take(&mut harness, Ask::File(FileAsk::OpenSample(0)));
    if desk(&harness).question().is_some() {
        take(&mut harness, Ask::File(FileAsk::GoOnUnsaved));
    }
    assert_ne!(lies(&mut harness), fitted, "another dance has a floor of its own");
}

fn six_who_stand() -> Dance {
    let mut dance = six();
    dance.figures.push(Figure::drawn("figure-1", "Figure 1", 8));
    dance
}

/// A window of a person with a home, who is not welcomed any more.
fn at_home(home: &Home, size: [f32; 2]) -> Driven {
    show(Desk::with_sample(Recent::default()).at_home(home.clone()), size)
}

#[test]
fn edges_are_dragged_and_are_there_again_the_next_time() {
    let folder = tempfile::tempdir().unwrap();
    let home = Home::at(folder.path());
    let size = [1366.0, 900.0];
    let mut harness = at_home(&home, size);
    open_shelf(&mut harness);
    let edges = |harness: &Driven| {
        let floor = harness.state().floor_rect;
        let shelf = harness.get_by_label("Figure shelf").rect().top();
        [floor.left(), floor.right(), floor.bottom(), shelf]
    };
    let before = edges(&harness);
    let middle = harness.state().floor_rect.center();
    for (edge, by) in [(before[0], 40.0), (before[1], -50.0)] {
        let grip = grip(&mut harness, pos2(edge, middle.y), vec2(1.0, 0.0));
        drag(&mut harness, grip, grip + vec2(by, 0.0));
    }
    // Lower: where all rows have room it is no higher than they are.
    let strip = harness.get_by_label("Height of the bars").rect().center();
    drag(&mut harness, strip, strip + vec2(0.0, 60.0));
    let shelf = edges(&harness)[3];
    let grip = grip(&mut harness, pos2(100.0, shelf), vec2(0.0, -1.0));
    drag(&mut harness, grip, grip - vec2(0.0, 30.0));
    let now = edges(&harness);
    let by: Vec<f32> = before.iter().zip(now).map(|(was, is)| is - was).collect();
    assert!((by[0] - 40.0).abs() < 2.0, "the left side: {by:?}");
    assert!((by[1] + 50.0).abs() < 2.0, "the right side: {by:?}");
    assert!(by[2] > 30.0, "the bars: {by:?}");
    let heights = [before[3] - before[2], now[3] - now[2]];
    assert!(heights[1] < heights[0] - 20.0, "the shelf: {heights:?}");
    // Another window of the same person.
    drop(harness);
    let mut harness = at_home(&home, size);
    harness.run_steps(4);
    let again = edges(&harness);
    for (now, again) in now.iter().zip(again) {
        assert!((now - again).abs() < 2.0, "{again:?} after {now:?}");
    }
}

/// Where near a place an edge can be dragged: there the pointer says so.
#[track_caller]
fn grip(harness: &mut Driven, near: Pos2, along: egui::Vec2) -> Pos2 {
    use egui::CursorIcon::{ResizeColumn, ResizeEast, ResizeHorizontal, ResizeNorth, ResizeRow, ResizeSouth};
    use egui::CursorIcon::{ResizeVertical, ResizeWest};
    let all =
        (0..24).map(|step| near + along * if step % 2 == 0 { step as f32 / 2.0 } else { -step as f32 / 2.0 });
    let found = all.into_iter().find(|at| {
        driven::hover(harness, *at);
        matches!(
            harness.output().platform_output.cursor_icon,
            ResizeColumn
                | ResizeEast
                | ResizeHorizontal
                | ResizeNorth
                | ResizeRow
                | ResizeSouth
                | ResizeVertical
                | ResizeWest
        )
    });
    found.unwrap_or_else(|| panic!("there is no edge to drag at {near}"))
}

#[test]
fn a_card_of_the_shelf_is_dragged_into_the_running_order() {
    let mut harness = show_sample([1366.0, 1000.0]);
    open_shelf(&mut harness);
    let names = |harness: &Driven| -> Vec<String> {
        let spans = desk(harness).motion().spans();
        spans.iter().map(|span| desk(harness).dance().figures[span.figure].name.clone()).collect()
    };
    let before = names(&harness);
    let card = harness.get_by_label("Put in Down and back").rect().center();
    let line = harness.get_all_by_label_contains("3. ").next().unwrap().rect();
    let to = line.center() + vec2(0.0, line.height() * 0.3);
    carry(&mut harness, card, to);
    harness.drop_at(to);
    harness.run_ok();
    let mut wanted = before;
    wanted.insert(3, "Down and back".to_owned());
    assert_eq!(names(&harness), wanted);
    take(&mut harness, Ask::Undo);
    assert_eq!(names(&harness).len() + 1, wanted.len(), "as one step");
}

/// The middles of discs: a letter or a number in one stands in its middle.
fn discs(harness: &Driven) -> Vec<Pos2> {
    let shapes = harness.output().shapes.iter().filter_map(|shape| {
        let rect = shape.shape.visual_bounding_rect();
        let round = match &shape.shape {
            Shape::Circle(_) => true,
            Shape::Rect(shape) => f32::from(shape.corner_radius.nw) * 2.0 >= shape.rect.height() - 1.0,
            Shape::Path(path) => path.closed && path.points.len() > 8,
            _ => false,
        };
        (round && (rect.width() - rect.height()).abs() < 12.0 && rect.height() < 26.0).then(|| rect.center())
    });
    shapes.collect()
}

/// Words beside one another in a row, with next to nothing between them, stand on one line, whatever frame is round them.
#[test]
fn labels_and_chips_of_a_row_stand_on_one_line() {
    for text in TEXTS {
        let mut harness = show_sample([1366.0 / text, 768.0 / text]);
        take(&mut harness, Ask::Keep(KeepAsk::ShutWelcome(true)));
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
        let wide = ["Order", "Set", "Dancer", "Figure", "Faults"];
        let narrow = ["Order", "Shelf", "Set", "Dancer", "Figure", "Faults"];
        let tabs: &[&str] = if 1366.0 / text < 1100.0 { &narrow } else { &wide };
        let (mut seen, mut wrong) = (0, Vec::new());
        for tab in tabs {
            open_tab(&mut harness, tab);
            let floor = harness.state().floor_rect;
            let bars = harness.get_by_label("Bars").rect();
            // On the floor and on the bars words stand where what they are of is; rows of the window are elsewhere, and at the
            // head and the foot of the floor.
            let in_rows = |words: &&Words| {
                let at = words.place.center();
                let on_floor =
                    floor.contains(at) && at.y > floor.top() + 40.0 && at.y < floor.bottom() - 40.0;
                !on_floor && !bars.contains(at) && at.y < bars.top()
            };
            let all = words(&harness);
            let discs = discs(&harness);
            let in_disc = |words: &&Words| discs.iter().any(|at| (*at - words.place.center()).length() < 1.5);
            let all: Vec<&Words> = all.iter().filter(in_rows).filter(|words| !in_disc(words)).collect();
            for one in &all {
                for other in &all {
                    let gap = other.place.left() - one.place.right();
                    let high = one.place.intersect(other.place.translate(vec2(-gap - 1.0, 0.0))).height();
                    let low = one.place.height().min(other.place.height());
                    if !(0.0..30.0).contains(&gap) || high < 0.6 * low {
                        continue;
                    }
                    seen += 1;
                    let off = (one.baseline - other.baseline).abs();
                    if off > 1.0 {
                        wrong.push(format!(
                            "{tab}: {:?} {:?} {off:.1} off {:?} {:?}",
                            one.text, one.place, other.text, other.place
                        ));
                    }
                }
            }
        }
        assert_eq!(wrong, [] as [String; 0], "text {text}");
        assert!(seen > 20, "text {text}: {seen} pairs");
    }
}

#[test]
fn captions_of_the_shelf_are_of_one_size_and_within_their_cards() {
    let mut harness = show_sample([1366.0, 1000.0]);
    open_shelf(&mut harness);
    let cards: Vec<Rect> = harness
        .get_all_by_label_contains("Put in ")
        .map(|node| node.rect())
        .filter(Rect::is_positive)
        .collect();
    // What is under the edge of the shelf is to be scrolled to.
    let edge = harness.get_by_label("+ Figure").rect().top();
    let cards: Vec<Rect> = cards.into_iter().filter(|card| card.bottom() < edge - 8.0).collect();
    let all = words(&harness);
    let mut sizes = Vec::new();
    for card in &cards {
        let foot = Rect::from_min_max(pos2(card.left(), card.bottom() - 20.0), card.max);
        for caption in
            all.iter().filter(|words| foot.contains(words.seen.center()) && words.seen.height() > 8.0)
        {
            assert!(card.expand(0.5).contains_rect(caption.place), "{:?} leaves its card", caption.text);
            sizes.push(caption.size);
        }
    }
    assert!(sizes.len() >= 4, "{} captions", sizes.len());
    assert!(sizes.iter().all(|size| (size - sizes[0]).abs() < 0.01), "{sizes:?}");
}

/// Names that begin alike are told apart by their end, and the whole name is told of what the pointer is on.
#[test]
fn names_in_the_bars_are_shortened_in_the_middle_and_whole_under_the_pointer() {
    for (width, least) in [(1024.0, 5), (1366.0, 5), (1920.0, 1)] {
        let mut harness = show_sample([width, 768.0]);
        let whole = harness.get_by_label("Whole dance").rect();
        let spans: Vec<(f64, f64, String)> = {
            let desk = desk(&harness);
            let name = |span: &Span| desk.dance().figures[span.figure].name.clone();
            desk.motion().spans().iter().map(|span| (span.begin(), span.end(), name(span))).collect()
        };
        let counts = desk(&harness).motion().counts();
        let x = |count: f64| whole.left() + whole.width() * (count / counts) as f32;
        let all = words(&harness);
        let (mut cut, mut seen) = (0, 0);
        for (begin, end, name) in &spans {
            let block = Rect::from_min_max(pos2(x(*begin), whole.top()), pos2(x(*end), whole.bottom()));
            let Some(shown) = all.iter().find(|words| block.contains(words.place.center())) else { continue };
            seen += 1;
            assert!(block.contains_rect(shown.place.shrink(0.5)), "{:?} leaves its block", shown.text);
            if shown.text == *name {
                continue;
            }
            cut += 1;
            let (first, last) = shown.text.split_once('…').expect("what is left out is marked");
            assert!(!first.is_empty() && !last.is_empty(), "{:?} of {name}", shown.text);
            assert!(name.starts_with(first) && name.ends_with(last), "{:?} of {name}", shown.text);
        }
        assert!(seen >= 10 && cut >= least, "{width}: {cut} of {seen} are shortened");
        let (begin, end, name) = spans.iter().find(|(_, _, name)| name.chars().count() > 16).unwrap();
        driven::hover(&mut harness, pos2(x(f64::midpoint(*begin, *end)), whole.center().y));
        harness.run_steps(8);
        assert!(words(&harness).iter().any(|words| words.text.contains(name.as_str())), "{name} is told");
    }
}

/// Whether a place lies in what a mark fills.
fn covers(mark: &Mark, [x, y]: [f32; 2]) -> bool {
    let (Mark::Oval { at, radii, turn, .. } | Mark::Block { at, radii, turn, .. }) = mark else {
        return false;
    };
    let (sin, cos) = turn.to_radians().sin_cos();
    let (dx, dy) = (x - at[0], y - at[1]);
    let (across, along) = (dx * cos + dy * sin, dy * cos - dx * sin);
    let Mark::Block { corner, .. } = mark else { return (across / radii[0]).hypot(along / radii[1]) < 1.0 };
    let beyond =
        [(across, radii[0]), (along, radii[1])].map(|(off, radius)| (off.abs() - radius + corner).max(0.0));
    beyond[0].hypot(beyond[1]) < *corner
}

#[test]
fn the_number_of_a_spot_is_never_under_a_body() {
    let desk = Desk::with_sample(Recent::default());
    let motion = desk.motion();
    let look = FloorLook { chosen: None, holding: desk.dance().holding, trails: false, least_number: 10.0 };
    for scale in [50.0, 110.0, 180.0] {
        let frame = Frame { centre: (0.0, 0.0), middle: [500.0, 400.0], scale, up: 0.0 };
        let (mut shown, mut asked) = (0, 0);
        let mut count = 0.0;
        while count < motion.counts() {
            let (mut ground, mut bodies) = (Vec::new(), Vec::new());
            path_marks(&mut ground, &frame, &SLATE, motion, count, look);
            for pose in motion.poses(count) {
                dancer_marks(
                    &mut bodies,
                    &frame,
                    &SLATE,
                    &pose,
                    (false, look.holding),
                    look.least_number,
                    [None; 2],
                );
            }
            asked += 6;
            for mark in &ground {
                let Mark::Words { at, text, size, .. } = mark else { continue };
                let Ok(number) = text.parse::<u32>() else { continue };
                shown += 1;
                // The middle of the figure, and a little round it.
                for (right, down) in [(0.0, 0.0), (0.25, 0.0), (-0.25, 0.0), (0.0, 0.3), (0.0, -0.3)] {
                    let place = [at[0] + right * size, at[1] + down * size];
                    let over = bodies.iter().find(|mark| covers(mark, place));
                    assert!(
                        over.is_none(),
                        "the {number} of a spot at {count}, scale {scale}: under {over:?}"
                    );
                }
            }
            count += 1.5;
        }
        assert!(shown * 10 > asked * 9, "{shown} of {asked} numbers are shown at {scale}");
    }
}

/// 1 goes as far as 2 and back: a clash, and more that is wrong.
fn wrong() -> Dance {
    let mut dance = six();
    let mut figure = Figure::drawn("meet", "Meet", 8);
    let mut part = Part::still(1);
    part.legs = vec![Leg::straight(4.0, 8.0, 1.1, 1.8), Leg::straight(12.0, 16.0, -0.9, 1.5)];
    figure.parts.push(part);
    dance.figures.push(figure);
    dance
}

#[test]
fn the_count_of_faults_is_in_sight_at_every_size_in_every_tab() {
    for screen in SCREENS {
        for text in TEXTS {
            let size = screen.map(|pixels: f32| pixels / text);
            let mut harness = show_dance(wrong(), size);
            take(&mut harness, Ask::Keep(KeepAsk::ShutWelcome(true)));
            let many = desk(&harness).fault_count();
            assert!(many > 1);
            let wide = ["Order", "Set", "Dancer", "Figure", "Faults"];
            let narrow = ["Order", "Shelf", "Set", "Dancer", "Figure", "Faults"];
            let tabs: &[&str] = if size[0] < 1100.0 { &narrow } else { &wide };
            let look = |harness: &Driven, tab: &str| {
                let button = harness.get_by_label(&format!("{many} faults in the dance")).rect();
                let window = Rect::from_min_size(Pos2::ZERO, size.into());
                assert!(window.contains_rect(button), "{screen:?} at {text}, {tab}: {button:?}");
                let all = words(harness);
                let said = format!("{many} faults");
                let painted = all.iter().filter(|words| words.text == said);
                let whole = painted.filter(|words| words.seen.contains_rect(words.place.shrink(0.5)));
                assert!(
                    whole.into_iter().any(|words| button.contains_rect(words.place)),
                    "{screen:?} at {text}, {tab}: it is painted and not cut"
                );
            };
            for tab in tabs {
                open_tab(&mut harness, tab);
                look(&harness, tab);
            }
            // With the sides folded away as well.
            let before = desk(&harness).settings().arrangement;
            let folded = bellpad::store::Arrangement { left_folded: true, right_folded: true, ..before };
            take(&mut harness, Ask::Keep(KeepAsk::Arrange(folded)));
            look(&harness, "folded");
            assert_eq!(dance(&harness), wrong());
        }
    }
}

/// The card's picture has room for a body at eye level at the size of a small laptop, and nothing under it moves while it is danced.
#[test]
fn the_picture_of_the_card_has_room_for_a_body_at_eye_level() {
    // A window of 768 with the bar of its title and without.
    for (screen, least) in [([1366.0, 731.0], 110.0), ([1366.0, 768.0], 110.0), ([1920.0, 1080.0], 180.0)] {
        // A window without a screen is shown with a margin of 8 points.
        let size = screen.map(|points: f32| points + 16.0);
        let mut harness = show_sample(size);
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
        let picture = harness.get_by_label_contains("3 at eye level").rect();
        assert!(picture.height() >= least, "{size:?}: {picture:?}");
        // All of the card is over the faults.
        let foot = harness.get_by_label("Make room").rect().top();
        for button in ["Path", "Copy", "Place…", "As named"] {
            let rect = harness.get_by_label(button).rect();
            assert!(
                rect.top() > picture.bottom() && rect.bottom() < foot - 50.0,
                "{size:?}: {button} {rect:?}"
            );
        }
    }
}

/// A caution is in sight on the card of whoever is chosen at every size of window, cut where there is no room, and then whole under the
/// pointer.
#[test]
fn a_caution_is_in_sight_on_the_card() {
    for size in SCREENS {
        let mut harness = show_sample(size);
        press(&mut harness, Key::Num3);
        open_tab(&mut harness, "Dancer");
        let begins = "Warm up first";
        let place = {
            let words = words(&harness);
            let caution = words.iter().find(|words| words.text.contains(begins));
            let caution = caution.unwrap_or_else(|| panic!("{size:?}: no caution"));
            assert!(caution.seen.height() > 0.9 * caution.place.height(), "{size:?}");
            caution.seen
        };
        harness.event(egui::Event::PointerMoved(place.center()));
        harness.run();
        harness.run();
        let whole = "Warm up first, and walk a new figure before you dance it";
        let is_whole =
            words(&harness).iter().any(|words| words.text.contains(whole) && words.seen.width() > 250.0);
        assert!(is_whole, "{size:?}: it is not whole under the pointer");
    }
}

/// The note of the tune that sounds at the playhead is lit.
#[test]
fn the_note_that_sounds_is_lit() {
    let mut harness = show_sample([1366.0, 768.0]);
    let well = egui::Color32::from_rgb(SLATE.well.0, SLATE.well.1, SLATE.well.2);
    let lit = |harness: &Driven| -> Vec<f32> {
        let row = harness.get_by_label("Notes of the tune").rect();
        let heads = harness.output().shapes.iter().filter_map(|shape| match &shape.shape {
            Shape::Path(path)
                if path.fill == well || path.stroke.color == egui::epaint::ColorMode::Solid(well) =>
            {
                Some(path.points.iter().map(|point| point.x).sum::<f32>() / path.points.len() as f32)
            }
            _ => None,
        });
        heads.filter(|x| row.x_range().contains(*x)).collect()
    };
    let begin = desk(&harness).motion().spans()[2].begin();
    let mut before = f32::NEG_INFINITY;
    let mut seen = 0;
    for count in 0..32 {
        take(&mut harness, Ask::Play(PlayAsk::Seek(begin + f64::from(count))));
        let now = lit(&harness);
        assert!(now.len() <= 2, "{now:?} at {count}");
        if let Some(x) = now.first() {
            assert!(*x >= before, "it goes on with the playhead");
            (before, seen) = (*x, seen + 1);
        }
    }
    assert!(seen > 20, "{seen} of 32 counts have a note");
}

/// Large over the floor the body has keys of its own: from where it is seen, the bar again and again, and Escape back to the floor, which
/// has a name all the while.
#[test]
fn the_large_body_has_keys_and_escape_leaves_it() {
    use bellpad::picture::EyeSide;
    let mut harness = show_sample([1440.0, 900.0]);
    press(&mut harness, Key::S);
    assert_eq!(desk(&harness).eye_side(), EyeSide::Side, "over the floor S does nothing");
    press(&mut harness, Key::Num3);
    press(&mut harness, Key::E);
    assert!(desk(&harness).eye_level());
    harness.get_by_label("Floor, with the body at eye level");
    for side in [EyeSide::Front, EyeSide::Behind, EyeSide::Side] {
        press(&mut harness, Key::S);
        assert_eq!(desk(&harness).eye_side(), side);
    }
    let loops = |harness: &Driven| {
        // On the card as well as large.
        let buttons: Vec<_> = harness.get_all_by_label("loop bar").collect();
        assert_eq!(buttons.len(), 2);
        buttons.iter().all(|button| button.accesskit_node().toggled() == Some(egui::accesskit::Toggled::True))
    };
    assert!(!loops(&harness));
    // It goes on moving: a frame and no more.
    harness.key_press(Key::R);
    harness.run_steps(3);
    assert!(loops(&harness));
    harness.key_press(Key::R);
    harness.run_steps(3);
    assert!(!loops(&harness));
    press(&mut harness, Key::Escape);
    assert!(!desk(&harness).eye_level(), "Escape leads back to the floor");
    harness.get_by_label("Floor, seen from above");
}

/// What is painted within a part of the window by a painter of its own, and nothing that stands in front of it.
fn painted_in(harness: &Driven, place: Rect) -> String {
    let near = |clip: Rect| (clip.min - place.min).length() < 1.5 && (clip.max - place.max).length() < 1.5;
    let shapes = harness.output().shapes.iter().filter(|shape| near(shape.clip_rect));
    shapes.map(|shape| format!("{:?}", shape.shape)).collect::<Vec<_>>().join("\n")
}

/// The card's picture is another one from the side, from the front and from behind, and says which; each is there again when it is chosen again.
#[test]
fn the_picture_of_the_card_is_another_from_each_side() {
    use bellpad::picture::EyeSide;
    let mut harness = show_sample([1920.0, 1080.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    take(&mut harness, Ask::Play(PlayAsk::Seek(18.0)));
    let mut seen = Vec::new();
    for side in [EyeSide::Side, EyeSide::Front, EyeSide::Behind, EyeSide::Side] {
        take(&mut harness, Ask::View(ViewAsk::EyeSide(side)));
        let picture = harness.get_by_label_contains(&format!("3 at eye level, {}: ", side.words())).rect();
        let painted = painted_in(&harness, picture);
        assert!(painted.len() > 2000, "{side:?}: {} letters", painted.len());
        seen.push(painted);
    }
    assert_eq!(seen[0], seen[3]);
    for (one, other) in [(0, 1), (0, 2), (1, 2)] {
        assert_ne!(seen[one], seen[other], "{one} {other}");
    }
}

/// The words under the picture say the bar, the count and what is done on it: of a dancer what lands, the free foot and the hands; of two what lands.
#[test]
fn the_caption_says_what_is_done_on_the_count() {
    let mut dance = six();
    dance.holding = bellpad::dance::Holding::Handkerchiefs;
    let mut figure = Figure::drawn("one", "One", 8);
    figure.phrase = "left, 2 ds, 2 ss, ftj".to_owned();
    dance.figures.push(figure);
    let mut harness = show_dance(dance, [1920.0, 1080.0]);
    // A double step led by the left foot, and a feet-together jump (common practice, no source).
    for (count, at, lands) in [
        (0.0, "bar 1:1", "step left"),
        (1.0, "bar 1:2", "step right"),
        (3.0, "bar 1:4", "hop on the left"),
        (4.0, "bar 2:1", "step right"),
        (12.0, "bar 4:1", "both feet"),
        (13.0, "bar 4:2", "in the air"),
    ] {
        take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
        take(&mut harness, Ask::Play(PlayAsk::Seek(count)));
        let one = format!("{at} · {lands}, ");
        assert_eq!(harness.query_all_by_label_contains(&one).count(), 2, "{one}: the picture and the words");
        let hands = harness.query_all_by_label_contains(&one).all(|node| {
            let said = node.accesskit_node().label().or_else(|| node.accesskit_node().value());
            said.is_some_and(|said| said.contains("hand"))
        });
        assert!(hands, "{one}");
        take(&mut harness, Ask::View(ViewAsk::Choose(None)));
        let two = format!("{at} · 1 {lands}; 2 {lands}");
        assert_eq!(harness.query_all_by_label_contains(&two).count(), 2, "{two}");
    }
}

/// With nobody chosen the pair is looked at that is nearest as the bar begins: partners, until two others come within reach; whatever
/// their numbers are.
#[test]
fn with_nobody_chosen_the_nearest_pair_is_looked_at() {
    use bellpad::dance::{PlaceNumber, Set};
    let go = |part: &mut Part, begin: f64, to: (f64, f64)| {
        part.legs.push(Leg::straight(begin, begin + 4.0, to.0, to.1));
    };
    let mut dance = six();
    let mut figure = Figure::drawn("one", "One", 8);
    // 5 and 6 come together in bar 1; 1 and 3 come within reach in bar 2, and farther off again than 5 and 6 in bar 3.
    let (mut three, mut five, mut six) = (Part::still(3), Part::still(5), Part::still(6));
    go(&mut five, 0.0, (-0.8, -1.8));
    go(&mut six, 0.0, (0.8, -1.8));
    go(&mut three, 4.0, (-1.2, 0.9));
    go(&mut three, 8.0, (-1.2, 0.0));
    figure.parts = vec![three, five, six];
    dance.figures.push(figure);
    let mut harness = show_dance(dance, [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    for (count, pair) in
        [(0.0, "1 and 2"), (3.0, "1 and 2"), (4.0, "5 and 6"), (8.0, "1 and 3"), (12.0, "5 and 6")]
    {
        take(&mut harness, Ask::Play(PlayAsk::Seek(count)));
        let said = format!("{pair} at eye level, from the side: ");
        assert!(harness.query_by_label_contains(&said).is_some(), "at {count}: {pair}");
    }
    // The last of a hundred are as good as the first.
    let mut dance = Dance::new("Many", Set::longways(100, 2.4, 1.8));
    let mut figure = Figure::drawn("one", "One", 8);
    let mut last = Part::still(PlaceNumber(99));
    go(&mut last, 0.0, (0.2, -44.1));
    figure.parts = vec![last];
    dance.figures.push(figure);
    let mut harness = show_dance(dance, [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(None)));
    take(&mut harness, Ask::Play(PlayAsk::Seek(4.0)));
    assert!(harness.query_by_label_contains("99 and 100 at eye level").is_some());
}

/// The bar goes round by itself, at its slow speed, while the playhead stays: a bar of 100 strong beats a minute lasts 1.2 seconds, and 3 at 40 %.
#[test]
fn the_bar_goes_round_slowly_and_the_playhead_stays() {
    let mut harness = show_dance(six_who_stand(), [1366.0, 768.0]);
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    take(&mut harness, Ask::Play(PlayAsk::Seek(9.0)));
    let shown = |harness: &Driven| {
        let node = harness.get_by_label_contains("3 at eye level");
        let said = node.accesskit_node().label().unwrap();
        let (_, at) = said.split_once(": bar ").unwrap();
        at.split(' ').next().unwrap().to_owned()
    };
    assert_eq!(shown(&harness), "3:2");
    harness.get_by_label("loop bar").click();
    harness.run_steps(2);
    let now = |harness: &Driven| harness.ctx.input(|input| input.time);
    let (mut before, mut rounds, mut seen) = (shown(&harness), Vec::new(), Vec::new());
    let begun = now(&harness);
    while now(&harness) < begun + 10.0 {
        harness.step();
        let at = shown(&harness);
        if at != before {
            if at == "3:1" {
                rounds.push(now(&harness));
            }
            seen.push(at.clone());
            before = at;
        }
    }
    assert!(seen.iter().all(|at| at.starts_with("3:")), "this bar alone: {seen:?}");
    assert!(rounds.len() >= 3, "{rounds:?}");
    for two in rounds.windows(2) {
        assert!((two[1] - two[0] - 3.0).abs() < 0.3, "a round takes 3 seconds: {rounds:?}");
    }
    let first = seen.iter().position(|at| at == "3:1").unwrap();
    let order: Vec<&str> = seen[first..].iter().map(String::as_str).collect();
    for (index, at) in order.iter().enumerate() {
        assert_eq!(*at, ["3:1", "3:2", "3:3", "3:4"][index % 4], "{order:?}");
    }
    assert_eq!(desk(&harness).player().count, 9.0, "the playhead stays");
    harness.get_by_label("loop bar").click();
    harness.run_steps(3);
    assert_eq!(shown(&harness), "3:2", "and the picture goes with it again");
}
