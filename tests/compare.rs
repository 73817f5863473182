//! Two versions of a dance beside each other.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{
    Dance, Dancer, Entry, Extra, Figure, Foot, Lead, LeadRule, Leg, Part, PlaceNumber, Set, Turn, Way, read,
};
use bellpad::edits::{drag_dancer, drag_ring, with_choice, with_figure, with_part, with_set, without_entry};
use bellpad::figures::{motion_of, named_figure};
use bellpad::motion::Motion;
use bellpad::versions::{
    APART, ASKEW, Comparison, TakeError, WholeDifference, compare, with_figure_of, with_part_of,
};
use std::sync::Arc;

fn sample() -> Dance {
    read(include_bytes!("../dances/nine-geese-home.dance.json")).unwrap()
}

fn motion(dance: &Dance) -> Arc<Motion> {
    Arc::new(motion_of(dance, None).unwrap())
}

fn beside(dance: &Dance, other: &Dance) -> Comparison {
    compare((dance, &motion(dance)), (other, &motion(other)), None)
}

/// A figure of eight bars in double steps in which nobody goes anywhere but place 3, as `part` says.
fn drawn(part: Option<Part>) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    let mut figure = Figure::drawn("stand", "Stand", 8);
    "ds".clone_into(&mut figure.phrase);
    figure.parts.extend(part);
    dance.figures.push(figure);
    dance
}

/// Place, bars, and what differs, of each part.
fn told(comparison: &Comparison) -> Vec<(u32, Vec<u32>, bool, bool, bool)> {
    let parts = comparison.parts.iter();
    parts.map(|p| (p.place.get(), p.bars.clone(), p.apart > APART, p.askew > ASKEW, p.foot)).collect()
}

#[test]
fn the_bars_are_exact_for_places_facings_and_feet() {
    // 3 stands at (-1.2, 0) facing across. Out in bar 2, back in bar 4.
    let mut part = Part::still(3);
    part.legs = vec![Leg::straight(4.0, 8.0, -1.2, 0.5), Leg::straight(12.0, 16.0, -1.2, 0.0)];
    for leg in &mut part.legs {
        leg.facing = bellpad::dance::LegFacing::Held;
    }
    let alike = drawn(None);
    assert_eq!(told(&beside(&alike, &drawn(Some(part.clone())))), [(3, vec![2, 3, 4], true, false, false)]);
    // Turned aside in the last quarter count of bar 6 and back in the first quarter count of bar 7.
    let mut turned = Part::still(3);
    turned.turns =
        vec![Turn::to_face(23.0, 24.0, Way::Right, 120.0), Turn::to_face(24.0, 24.25, Way::Left, 90.0)];
    let comparison = beside(&alike, &drawn(Some(turned.clone())));
    assert_eq!(told(&comparison), [(3, vec![6, 7], false, true, false)]);
    assert!((comparison.parts[0].askew - 30.0).abs() < 1e-3);
    // A double step begun on the left at bar 7 changes the foot of every count from there (a double step ends on the
    // foot that led and frees the other, so that leads alternate) [MB1].
    let mut left = Part::still(3);
    left.leads = vec![Lead { at: 24.0, foot: Foot::Left, extra: Extra::new() }];
    let mine = motion(&alike);
    let right_leads = mine.pose(Dancer(2), 24.0).weight.word() == "right";
    assert!(right_leads, "bar 7 of double steps from the right");
    assert_eq!(told(&beside(&alike, &drawn(Some(left)))), [(3, vec![7, 8], false, false, true)]);
}

#[test]
fn what_is_within_the_limits_is_not_told() {
    for (aside, differs) in [(0.049, false), (0.051, true)] {
        let mut part = Part::still(3);
        part.legs = vec![Leg::straight(4.0, 8.0, -1.2, aside)];
        part.legs[0].facing = bellpad::dance::LegFacing::Held;
        assert_eq!(!beside(&drawn(None), &drawn(Some(part))).alike(), differs, "{aside}");
    }
    for (degrees, differs) in [(94.9, false), (95.1, true)] {
        let mut part = Part::still(3);
        part.turns = vec![Turn::to_face(4.0, 8.0, Way::Right, degrees)];
        assert_eq!(!beside(&drawn(None), &drawn(Some(part))).alike(), differs, "{degrees}");
    }
    assert!(beside(&sample(), &sample()).alike());
}

/// Beside a look through whole poses at each 32nd of a count, which knows nothing of figures, places or tracks.
#[test]
fn drags_are_found_where_brute_force_finds_them() {
    let dance = sample();
    let before = motion(&dance);
    for (dancer, count, x, y) in [
        (2, 5.0 * 32.0 + 6.0, -0.4, 0.3),
        (0, 3.0 * 32.0 + 9.0, 0.4, 1.2),
        (5, 32.0 + 13.0, 1.9, -2.2),
        (3, 9.0 * 32.0 + 5.5, 0.9, 0.1),
    ] {
        let other = drag_dancer(&dance, &before, Dancer(dancer), count, x, y).unwrap();
        let there = motion(&other);
        let comparison = compare((&dance, &before), (&other, &there), None);
        let mut bars = std::collections::BTreeSet::new();
        for step in 0..(before.bars() * 128) {
            let at = f64::from(step) / 32.0;
            let (one, two) = (before.pose(Dancer(dancer), at), there.pose(Dancer(dancer), at));
            let askew = (one.facing - two.facing + 180.0).rem_euclid(360.0) - 180.0;
            let foot = step % 32 == 0 && one.weight != two.weight;
            if (one.x - two.x).hypot(one.y - two.y) > APART || askew.abs() > ASKEW || foot {
                let span = before.span_under(at).unwrap();
                bars.insert((span.figure, ((at - span.begin()) / 4.0) as u32 + 1));
            }
        }
        let mine: std::collections::BTreeSet<_> = comparison
            .parts
            .iter()
            .inspect(|part| assert_eq!(part.dancer, Dancer(dancer)))
            .flat_map(|part| part.bars.iter().map(|bar| (part.figure, *bar)))
            .collect();
        assert_eq!(mine, bars, "{dancer} at {count}");
        // Where it sends people, there is something to see.
        for part in &comparison.parts {
            let (one, two) =
                (before.pose(Dancer(dancer), part.count), there.pose(Dancer(dancer), part.count));
            let askew = (one.facing - two.facing + 180.0).rem_euclid(360.0) - 180.0;
            let apart = (one.x - two.x).hypot(one.y - two.y);
            assert!(apart > APART || askew.abs() > ASKEW || one.weight != two.weight);
        }
    }
}

#[test]
fn words_say_which_bars() {
    let dance = drawn(None);
    let mut comparison = beside(
        &dance,
        &drawn(Some(Part {
            leads: vec![Lead { at: 24.0, foot: Foot::Left, extra: Extra::new() }],
            ..Part::still(3)
        })),
    );
    let part = &mut comparison.parts[0];
    for (bars, said) in [
        (vec![2], "bar 2"),
        (vec![2, 3, 4], "bars 2 to 4"),
        (vec![1, 3], "bars 1 and 3"),
        (vec![1, 3, 4, 7], "bars 1, 3 to 4 and 7"),
    ] {
        part.bars = bars;
        assert_eq!(part.bars_words(), said);
    }
    assert_eq!(part.much_words(), "on the other foot");
}

#[test]
fn what_differs_in_the_whole_is_told_plainly() {
    let dance = sample();
    let eight = with_set(&dance, Set::longways(8, 2.4, 1.8)).unwrap();
    let comparison = beside(&dance, &eight);
    assert_eq!(comparison.whole, [WholeDifference::Dancers { here: 6, there: 8 }]);
    assert_eq!(comparison.whole[0].to_string(), "6 dancers here, 8 there; their parts are not compared");
    assert!(comparison.parts.is_empty());
    let wider = with_set(&dance, Set::longways(6, 2.6, 1.8)).unwrap();
    let comparison = beside(&dance, &wider);
    let said = comparison.whole[0].to_string();
    assert!(said.contains("2.4 m across") && said.contains("2.6 m across"), "{said}");
    assert!(!comparison.parts.is_empty(), "they stand 0.1 m elsewhere");
    // Figures in one only, and running orders.
    let corners = with_figure(&dance, "corners", 2).unwrap();
    let comparison = beside(&dance, &corners);
    let said: Vec<String> = comparison.whole.iter().map(ToString::to_string).collect();
    assert_eq!(
        said,
        [
            "Corners is only in the other",
            "The running order differs from line 3: here Chorus: lanterns, there Corners"
        ]
    );
    let said: Vec<String> = beside(&corners, &dance).whole.iter().map(ToString::to_string).collect();
    assert_eq!(said[0], "Corners is only here");
    let shorter = without_entry(&dance, dance.order.len() - 1);
    let last = beside(&dance, &shorter).whole.last().unwrap().to_string();
    assert_eq!(last, "The running order differs from line 17: here Whole rounds, all in, there nothing");
    // Other lengths, with the bars that both have compared.
    let mut longer = drawn(None);
    longer.figures[0].bars = 12;
    assert_eq!(beside(&drawn(None), &longer).whole[0].to_string(), "Stand takes 8 bars here, 12 there");
}

#[test]
fn figures_are_matched_by_id_and_then_by_name() {
    let dance = sample();
    let mut renamed = dance.clone();
    let hey = renamed.figure_index("hey").unwrap();
    renamed.figures[hey].id = "the-hey".to_owned();
    for entry in &mut renamed.order {
        if entry.figure == "hey" {
            *entry = Entry { figure: "the-hey".to_owned(), ..entry.clone() };
        }
    }
    assert!(beside(&dance, &renamed).alike(), "found by its name");
    renamed.figures[hey].name = "Reel".to_owned();
    let said: Vec<String> = beside(&dance, &renamed).whole.iter().map(ToString::to_string).collect();
    assert_eq!(said[..2], ["Hey is only here".to_owned(), "Reel is only in the other".to_owned()]);
}

#[test]
fn an_edit_looks_only_at_what_changed_and_says_the_same() {
    let dance = sample();
    let (mine, other) = (motion(&dance), with_choice(&dance, 4, "inside", 0.45.into()).unwrap());
    let there = motion(&other);
    let first = compare((&dance, &mine), (&other, &there), None);
    assert_eq!(first.parts.len(), 6);
    let edited = drag_dancer(&dance, &mine, Dancer(1), 3.0 * 32.0 + 9.0, 0.2, 1.2).unwrap();
    let moved = Arc::new(motion_of(&edited, Some(&mine)).unwrap());
    let again = compare((&edited, &moved), (&other, &there), Some(&first));
    let afresh = compare((&edited, &moved), (&other, &there), None);
    assert_eq!(again.parts, afresh.parts);
    assert!(again.parts.len() > first.parts.len());
}

/// Takes every part that differs and gives the dance that is left with nothing to take.
fn take_all(dance: &Dance, other: &Dance) -> Dance {
    let mut dance = dance.clone();
    for _ in 0..60 {
        let comparison = beside(&dance, other);
        let Some(difference) = comparison.parts.first() else { return dance };
        let taken = with_part_of(&dance, comparison.here(), other, &comparison, difference).unwrap();
        assert_ne!(taken, dance);
        // Nobody else's part of any figure changes.
        for (figure, before) in taken.figures.iter().zip(&dance.figures) {
            for place in PlaceNumber::all(6).filter(|place| *place != difference.place) {
                assert_eq!(figure.part(place), before.part(place));
            }
        }
        dance = taken;
    }
    panic!("it never ends: {:?}", beside(&dance, other).parts);
}

#[test]
fn a_part_that_is_drawn_there_is_taken_as_it_is() {
    let dance = sample();
    let mine = motion(&dance);
    let count = 5.0 * 32.0 + 6.0;
    let other = drag_dancer(&dance, &mine, Dancer(2), count, -0.4, 0.3).unwrap();
    let taken = take_all(&dance, &other);
    assert_eq!(taken, other, "nothing else differed");
    // And the other way round: over the same named figure it is simply named again.
    assert_eq!(take_all(&other, &dance), dance);
}

#[test]
fn a_named_part_is_taken_over_another_figure() {
    let dance = sample();
    let hey = dance.figure_index("hey").unwrap();
    let cross = dance.figure_index("cross").unwrap();
    // Another choice, another stepping, another rule for the lead, and another figure under the same id.
    let mut phrase = dance.clone();
    phrase.figures[cross].phrase = "4 ds".to_owned();
    let mut lead = dance.clone();
    lead.figures[cross].lead = Some(LeadRule::Left);
    let mut figure = dance.clone();
    figure.figures[cross].named = named_figure("go-and-come", Extra::new(), &dance.set).unwrap().named;
    let inside = with_choice(&dance, hey, "inside", 0.45.into()).unwrap();
    for (what, other) in [("phrase", phrase), ("lead", lead), ("figure", figure), ("inside", inside)] {
        assert!(!beside(&dance, &other).parts.is_empty(), "{what}");
        for (to, from) in [(&dance, &other), (&other, &dance)] {
            let taken = take_all(to, from);
            assert!(beside(&taken, from).alike(), "{what}");
            assert_eq!(taken.figures[cross].phrase, to.figures[cross].phrase);
        }
    }
}

#[test]
fn leads_of_the_named_figure_are_left_to_it_where_that_is_enough() {
    let dance = sample();
    let hey = dance.figure_index("hey").unwrap();
    let other = with_choice(&dance, hey, "inside", 0.45.into()).unwrap();
    let comparison = beside(&dance, &other);
    let taken = with_part_of(&dance, comparison.here(), &other, &comparison, &comparison.parts[0]).unwrap();
    let part = taken.figures[hey].part(comparison.parts[0].place).unwrap();
    assert!(part.leads.is_empty() && part.phrase.is_empty(), "{part:?}");
    assert!(!part.legs.is_empty());
}

#[test]
fn turns_are_taken_too() {
    let dance = sample();
    let mine = motion(&dance);
    let other = drag_ring(&dance, &mine, Dancer(3), 4.0 * 32.0 - 10.0, 90.0).unwrap();
    // What comes after goes on from where the turn ends, and so differs as well.
    let comparison = beside(&dance, &other);
    let taken = |part| with_part_of(&dance, comparison.here(), &other, &comparison, part);
    let is_other = comparison.parts.iter().any(|part| taken(part).is_ok_and(|taken| taken == other));
    assert!(is_other, "the turn is taken");
}

#[test]
fn a_figure_is_taken_whole_and_keeps_its_place_in_the_order() {
    let dance = sample();
    let cross = dance.figure_index("cross").unwrap();
    let mut other = with_choice(&dance, cross, "first", "left".into()).unwrap();
    other.figures[cross].id = "crossing".to_owned();
    for entry in &mut other.order {
        if entry.figure == "cross" {
            entry.figure = "crossing".to_owned();
        }
    }
    let comparison = beside(&dance, &other);
    let part = &comparison.parts[0];
    let taken = with_figure_of(&dance, part.figure, &other, part.other_figure).unwrap();
    assert_eq!(taken.order, dance.order);
    assert!(beside(&taken, &other).alike());
}

#[test]
fn what_cannot_be_taken_says_why() {
    let (dance, mut longer) = (drawn(None), drawn(None));
    longer.figures[0].bars = 12;
    let mut part = Part::still(3);
    part.legs = vec![Leg::straight(4.0, 8.0, -1.2, 0.5)];
    longer = with_part(&longer, 0, part);
    let comparison = beside(&dance, &longer);
    let made = with_part_of(&dance, comparison.here(), &longer, &comparison, &comparison.parts[0]);
    let name = "Stand".to_owned();
    assert_eq!(made.unwrap_err(), TakeError::Bars { name, here: 8, there: 12 });
    let taken = with_figure_of(&dance, 0, &longer, 0).unwrap();
    assert!(beside(&taken, &longer).alike());
    assert_eq!(with_figure_of(&dance, 0, &longer, 9), Err(TakeError::Gone));
}

#[test]
fn a_step_of_the_others_own_comes_with_its_part() {
    let mut other = drawn(None);
    other.steps = serde_json::from_value(serde_json::json!([
        {"name": "stamp and wait", "short": "sw", "feet": ["lead", "both", "lead", "both"]}
    ]))
    .unwrap();
    let unused = other.clone();
    let mut part = Part::still(3);
    "sw".clone_into(&mut part.phrase);
    other = with_part(&other, 0, part);
    let taken = take_all(&drawn(None), &other);
    assert_eq!(taken.steps, other.steps);
    assert!(beside(&drawn(None), &unused).alike(), "a step that nobody dances is no difference");
}
