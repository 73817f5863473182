//! Dances in which bodies lie on one another: told with little work, and not without end. Work is counted, not timed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    Allow, Dance, Dancer, Extra, FaultKind, Figure, Leg, LegFacing, Part, PlaceNumber, Set, SetKind, Shape,
    Spot, Waypoint, read,
};
use bellpad::faults::{Faults, MOST_OF_A_KIND};
use bellpad::figures::motion_of;
use bellpad::handout::moving::{MovingChoice, MovingKind, moving_and_drawn, picture_counts};
use bellpad::motion::SpanIndex;
use common::{bellpad, sample, text};
use serde_json::Value;
use std::fs;
use std::path::PathBuf;

/// The most looks at two hundred who cross: some fifty for each two of them.
const LOOKS_OF_TWO_HUNDRED: u64 = 1_000_000;

fn crowd(name: &str) -> Dance {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join(format!("tests/crowds/{name}.dance.json"));
    read(&fs::read(path).unwrap()).unwrap()
}

/// So many dancers on one spot, all facing up, for so many bars.
fn heap(dancers: u32, bars: u32) -> Dance {
    let mut set = Set::longways(2, 2.4, 1.8);
    (set.kind, set.dancers) = (SetKind::Spots, dancers);
    set.spots = (0..dancers).map(|_| Spot { x: 0.0, y: 0.0, facing: 0.0, extra: Extra::new() }).collect();
    let mut dance = Dance::new("Heap", set);
    dance.figures.push(Figure::drawn("stand", "Stand", bars));
    dance
}

fn faults(dance: &Dance) -> Faults {
    Faults::of(dance, &motion_of(dance, None).unwrap())
}

fn told(faults: &Faults, kind: FaultKind) -> usize {
    faults.iter().filter(|fault| fault.kind == kind).count()
}

fn more(faults: &Faults, kind: FaultKind) -> usize {
    faults.more().iter().filter(|more| more.kind == kind).map(|more| more.more).sum()
}

/// The sample as it is takes some 200 looks at pairs, and bodies on one another must not make it a thousand times that.
#[test]
fn the_sample_danced_on_top_of_one_another_takes_few_looks() {
    for along in [1.8, 0.5, 0.3, 0.1] {
        let mut dance = read(&fs::read(sample("nine-geese-home")).unwrap()).unwrap();
        dance.set.along = along;
        let faults = faults(&dance);
        println!("{along} m along: {} looks, {} faults", faults.looks(), faults.many());
        assert!(faults.looks() < 30_000, "{along} m along: {} looks", faults.looks());
        assert_eq!(faults.many() > 100, along < 1.0);
    }
}

/// Those who stand are looked at once, however long they stand.
#[test]
fn standing_longer_takes_no_more_looks() {
    let [short, long] = [2, 2000].map(|bars| faults(&heap(40, bars)));
    // 40 · 39 / 2 pairs, and the worst moment of those that are told.
    assert!(short.looks() < 780 + 10 * 500, "{}", short.looks());
    assert!(long.looks() <= short.looks(), "{} {}", long.looks(), short.looks());
    assert_eq!((told(&long, FaultKind::Clash), more(&long, FaultKind::Clash)), (500, 280));
}

/// The two of a thousand broken dances that took longest to check, half a minute each.
#[test]
fn what_took_longest_takes_few_looks() {
    for (name, looks) in [("four-hundred-in-a-heap", 200_000), ("far-across-and-close-along", 30_000)] {
        let faults = faults(&crowd(name));
        println!("{name}: {} looks", faults.looks());
        assert!(faults.looks() < looks, "{name}: {} looks", faults.looks());
        assert!(told(&faults, FaultKind::Clash) > 10);
    }
}

/// Two hundred in two files along two metres, who all cross over at once and back again, and half of them at another
/// time than the others: a large crowd that moves.
#[test]
fn a_large_crowd_on_the_move_takes_few_looks() {
    let crossing = |dancers: u32, late: f64| {
        let mut dance = heap(dancers, 4);
        let each = 2.0 / f64::from(dancers / 2);
        for (index, spot) in dance.set.spots.iter_mut().enumerate() {
            let right = index % 2 == 1;
            (spot.x, spot.y) = (if right { 1.2 } else { -1.2 }, (index / 2) as f64 * each - 1.0);
            spot.facing = if right { 270.0 } else { 90.0 };
        }
        for (index, spot) in dance.set.spots.iter().enumerate() {
            let begin = if index % 4 < 2 { 0.0 } else { late };
            let mut part = Part::still(index as u32 + 1);
            part.legs = vec![
                Leg::straight(begin, begin + 6.0, -spot.x, spot.y),
                Leg::straight(begin + 8.0, begin + 14.0, spot.x, spot.y),
            ];
            dance.figures[0].parts.push(part);
        }
        faults(&dance)
    };
    for late in [0.0, 1.5] {
        let [half, all] = [100, 200].map(|dancers| crossing(dancers, late));
        println!("{late} late: {} and {} looks, {} faults", half.looks(), all.looks(), all.many());
        assert!(all.many() > 5_000 && told(&all, FaultKind::Clash) == MOST_OF_A_KIND, "{}", all.many());
        assert!(all.looks() < LOOKS_OF_TWO_HUNDRED, "{}", all.looks());
        // Twice the dancers are four times the pairs, and no more work for each.
        assert!(all.looks() < 5 * half.looks(), "{} {}", all.looks(), half.looks());
    }
}

/// Four hundred who cross a square of two metres every four counts: the search ends when there are more clashes than are
/// told, so that dancing on costs next to nothing, and says that there may be still more.
#[test]
fn a_crowd_that_goes_on_crossing_is_not_looked_at_to_the_end() {
    let crossing = |dancers: u32, bars: u32| {
        let mut dance = heap(dancers, bars);
        // Places over the square, no two alike: multiples of irrational numbers (H. Weyl, 1916).
        let place = |of: u32| {
            let share = |by: f64| (f64::from(of) * by).fract() * 2.0 - 1.0;
            (share(0.754_877_666), share(0.569_840_291))
        };
        for (index, spot) in dance.set.spots.iter_mut().enumerate() {
            (spot.x, spot.y) = place(index as u32);
        }
        for index in 0..dancers {
            let mut part = Part::still(index + 1);
            part.legs = (0..bars)
                .map(|bar| {
                    let (x, y) = place(index * 7 + (bar + 1) * 4001);
                    Leg::straight(f64::from(bar) * 4.0, f64::from(bar) * 4.0 + 4.0, x, y)
                })
                .collect();
            dance.figures[0].parts.push(part);
        }
        dance
    };
    let [short, long] = [4, 16].map(|bars| faults(&crossing(400, bars)));
    println!("{} and {} looks, {} and {} faults", short.looks(), long.looks(), short.many(), long.many());
    assert!(long.looks() < 2_000_000, "{}", long.looks());
    assert!(long.looks() < short.looks() + short.looks() / 10, "{} {}", long.looks(), short.looks());
    assert_eq!(told(&long, FaultKind::Clash), MOST_OF_A_KIND);
    let cut = long.more().iter().find(|more| more.kind == FaultKind::Clash).unwrap();
    assert!(cut.at_least && cut.more > 10_000, "{cut:?}");
    assert!(cut.words().starts_with("at least "), "{}", cut.words());
    // Few enough are looked at to the end, and told in full.
    let few = faults(&crossing(60, 4));
    assert!(few.more().iter().all(|more| !more.at_least), "{:?}", few.more());
}

/// Two heaps that overlap, and come onto one spot in the next figure: those of two heaps are counted there, where they are
/// closest, and those of one heap where they are first as close as they get; what is left out as well as what is told.
#[test]
fn what_is_told_and_what_is_left_out_is_counted_in_the_same_figure() {
    for dancers in [12_u32, 60] {
        let mut dance = heap(dancers, 2);
        for (index, spot) in dance.set.spots.iter_mut().enumerate() {
            spot.x = if index % 2 == 0 { 0.2 } else { -0.2 };
        }
        let mut together = Figure::drawn("together", "Together", 2);
        for place in 1..=dancers {
            let mut part = Part::still(place);
            part.legs.push(Leg::straight(2.0, 6.0, 0.0, 0.0));
            part.legs[0].facing = LegFacing::Held;
            together.parts.push(part);
        }
        dance.figures.push(together);
        let faults = faults(&dance);
        let half = (dancers / 2) as usize;
        let (within, across) = (half * (half - 1), half * half);
        let others = faults.iter().filter(|fault| fault.kind != FaultKind::Clash).count();
        let (first, second) = (faults.in_span(SpanIndex(0)), faults.in_span(SpanIndex(1)));
        assert_eq!((first.0, second.0), (within, across + others), "{dancers}");
        assert_eq!(first.1 + second.1, (within + across).saturating_sub(MOST_OF_A_KIND), "{dancers}");
        for (span, (many, left)) in [first, second].into_iter().enumerate() {
            assert_eq!(
                faults.iter().filter(|fault| fault.span == SpanIndex(span)).count(),
                many - left,
                "{dancers}"
            );
        }
    }
}

#[test]
fn every_pair_is_counted_and_the_first_are_told() {
    for dancers in [10, 33, 60] {
        let faults = faults(&heap(dancers, 4));
        let pairs = (dancers * (dancers - 1) / 2) as usize;
        assert_eq!(told(&faults, FaultKind::Clash), pairs.min(MOST_OF_A_KIND));
        assert_eq!(more(&faults, FaultKind::Clash), pairs.saturating_sub(MOST_OF_A_KIND));
        assert_eq!(faults.many(), pairs);
        let (all, left) = faults.in_span(SpanIndex(0));
        assert_eq!((all, left), (pairs, pairs.saturating_sub(MOST_OF_A_KIND)));
    }
}

/// What is not meant is told before what is, so that none of it is lost in a cut list.
#[test]
fn what_is_meant_does_not_push_out_what_is_not() {
    let mut dance = heap(60, 4);
    let allow = |kind, places: Vec<u32>| Allow {
        kind,
        places: places.into_iter().map(PlaceNumber).collect(),
        up_to: None,
        reason: "we stand in a heap".to_owned(),
        extra: Extra::new(),
    };
    // All but those of number 60 are meant.
    dance.figures[0].allow = vec![allow(FaultKind::Clash, (1..60).collect())];
    let faults = faults(&dance);
    let meant = faults.iter().filter(|fault| fault.allowed.is_some()).count();
    assert_eq!((faults.many(), meant), (59, MOST_OF_A_KIND - 59));
    let [left] = faults.more() else { panic!("{:?}", faults.more()) };
    assert_eq!((left.more, left.meant), (59 * 58 / 2 - meant, 59 * 58 / 2 - meant));
}

#[test]
fn the_verb_ends_a_long_list_with_how_many_more() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("heap.dance.json");
    fs::write(&path, serde_json::to_vec(&heap(400, 8)).unwrap()).unwrap();
    let out = bellpad(["check", "--json", text(&path)]);
    assert_eq!(out.code, Some(1));
    assert!(out.out.len() < 300_000, "{} bytes", out.out.len());
    let list: Vec<Value> = serde_json::from_str(&out.out).unwrap();
    assert_eq!(list.iter().filter(|fault| fault["kind"] == "clash").count(), 501);
    assert_eq!(*list.last().unwrap(), serde_json::json!({"kind": "clash", "more": 400 * 399 / 2 - 500}));
    let out = bellpad(["check", text(&path)]);
    let words = out.out;
    assert!(words.contains("heap.dance.json: clash: 79300 more like these\n"), "{words}");
    assert_eq!(words.matches(": clash at ").count(), 500);
}

/// A leg of a thousand curves over kilometres, which turn back sharply: what it takes to find a place on a curve is worked
/// out when somebody is looked at there, and not before.
#[test]
fn a_thousand_curves_are_not_measured_closely_before_somebody_looks() {
    let mut dance = heap(2, 8);
    let mut part = Part::still(1);
    let mut leg = Leg::straight(0.0, 32.0, 3.0, 0.0);
    leg.shape = Shape::Smooth;
    leg.facing = LegFacing::Forwards;
    // Places up to a kilometre off, no two alike: multiples of irrational numbers (H. Weyl, 1916).
    let share = |of: u32, by: f64| (f64::from(of) * by).fract() * 2000.0 - 1000.0;
    leg.through =
        (1..=1000).map(|of| Waypoint::new(share(of, 0.754_877_666), share(of, 0.569_840_291))).collect();
    part.legs.push(leg);
    dance.figures[0].parts.push(part);
    let motion = motion_of(&dance, None).unwrap();
    let compiled = motion.bytes_beside(None);
    // What all of them take: the dancer is asked for every few decimetres.
    for step in 0..2_000_000 {
        std::hint::black_box(motion.pose(Dancer(0), f64::from(step) * 32.0 / 2e6));
    }
    let all = motion.bytes_beside(None);
    assert!(compiled < all / 20, "{compiled} of {all}");
}

/// Nobody of the four hundred is large enough for feet and hands to be seen, so all but the line under the floor stays
/// as it is from picture to picture; drawn afresh each time it took half a minute.
#[test]
fn a_moving_picture_draws_only_what_changes() {
    let dance = crowd("four-hundred-on-the-spot");
    let motion = motion_of(&dance, None).unwrap();
    let choice =
        MovingChoice { size: 120, rate: 4, figure: "On the spot".to_owned(), ..MovingChoice::default() };
    let pictures = picture_counts(&dance, &motion, &choice).unwrap().len();
    let (_, drawn) = moving_and_drawn(&dance, &motion, MovingKind::Gif, &choice, &mut |_, _| true).unwrap();
    // 32 bars of 12 seconds, four a second, and the end; the line under the floor changes with each count.
    assert_eq!(pictures, 1537);
    assert!(drawn < 200, "{drawn} parts of {pictures} pictures");
}
