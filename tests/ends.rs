//! How a figure ends: at home, in new places or anywhere; what its file says of it, what is then a fault, and who dances on
//! from where.
//!
//! Sources: [MB1] C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907; [CP] common practice, no
//! source; [CALC] worked out from the geometry of the set.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    Dance, Dancer, Ends, EndsIn, Entry, FaultKind, Figure, Leg, Number, Part, PlaceNumber, Set, Stance, Turn,
    Way, read, schema, write,
};
use bellpad::edits::set_ends;
use bellpad::faults::{Fault, find_faults};
use bellpad::figures::{motion_of, named_figure};
use bellpad::motion::SpanIndex;
use bellpad::words::tell;
use common::{assert_refused, bellpad, text};
use serde_json::{Map, Value, json};
use std::fs;

const PLACES: Ends = Ends { spots: Some(EndsIn::Places), stance: None };
const ANYWHERE: Ends = Ends { spots: Some(EndsIn::Anywhere), stance: None };
const HOME: Ends = Ends { spots: Some(EndsIn::Home), stance: None };

fn not_home(dance: &Dance) -> Vec<Fault> {
    let motion = motion_of(dance, None).unwrap();
    find_faults(dance, &motion).into_iter().filter(|fault| fault.kind == FaultKind::NotHome).collect()
}

fn said(dance: &Dance) -> Vec<String> {
    not_home(dance).into_iter().map(|fault| fault.text).collect()
}

/// [MB1]: one pair of opposites, 1 and 6, change places and turn to face in; the others stand.
fn corner() -> Figure {
    let mut figure = Figure::drawn("corner", "First corners", 8);
    "8 st".clone_into(&mut figure.phrase);
    for (place, x, y, face) in [(1, 1.5, -1.83, 270.0), (6, -1.5, 1.83, 90.0)] {
        let mut part = Part::still(place);
        let (by_x, by_y) = if place == 1 { (0.31, 0.25) } else { (-0.31, -0.25) };
        part.legs.push(Leg::smooth(0.0, 16.0, &[(by_x, by_y)], x, y));
        part.turns.push(Turn::to_face(20.0, 24.0, Way::Right, face));
        "8 ds".clone_into(&mut part.phrase);
        figure.parts.push(part);
    }
    figure
}

fn six(figures: &[Figure]) -> Dance {
    let mut dance = Dance::new("Corners", Set::longways(6, 3.0, 1.83));
    dance.figures = figures.to_vec();
    dance
}

#[test]
fn a_corner_that_only_two_dance_ends_in_new_places() {
    let mut dance = six(&[corner(), named_figure("cross-over", Map::new(), &six(&[]).set).unwrap()]);
    dance.order = ["corner", "cross-over", "corner"].map(Entry::of).to_vec();
    // [CALC]: from 1 to 6 it is 3.00 m across and 3.66 m along, 4.73 m.
    let before = said(&dance);
    assert_eq!(before.len(), 2, "{before:?}");
    assert!(before[0].contains("1 ends the figure 4.73 m from their spot"), "{before:?}");
    dance.figures[0].ends = PLACES;
    assert_eq!(said(&dance), [""; 0], "and the second time they are home again");
    // The figure after it is danced by place: 6 crosses from 1's place, past 2.
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(
        (motion.spans()[1].place(Dancer(0)), motion.spans()[1].place(Dancer(5))),
        (PlaceNumber(6), PlaceNumber(1))
    );
    let six = &tell(&dance, &motion, SpanIndex(1), Dancer(5))[0].text;
    assert!(six.contains("passing 2 by the right shoulder"), "{six}");
    assert!(
        tell(&dance, &motion, SpanIndex(0), Dancer(0))[1].text.contains("End in 6's place"),
        "the words say where it ends"
    );
}

/// [MB1]: a dance can only end with 1 back at the top left, whatever its last figure says; a file of one figure is a study.
#[test]
fn a_dance_still_ends_at_home() {
    let mut dance = six(&[corner(), named_figure("cross-over", Map::new(), &six(&[]).set).unwrap()]);
    dance.figures[0].ends = PLACES;
    let over = said(&dance);
    assert_eq!(
        over,
        [
            "At the end of Cross over: 1 ends the dance 4.73 m from their spot",
            "At the end of Cross over: 6 ends the dance 4.73 m from their spot"
        ]
    );
    dance.order = vec![Entry::of("cross-over"), Entry::of("corner")];
    assert_eq!(said(&dance).len(), 2);
    dance.order = vec![Entry::of("corner")];
    assert_eq!(said(&dance), [""; 0]);
    dance.order = vec![Entry::of("cross-over"), Entry::of("corner")];
    dance.figures[0].ends = ANYWHERE;
    assert_eq!(said(&dance), [""; 0], "a last figure that ends anywhere is taken at its word");
}

#[test]
fn every_place_is_taken_by_one() {
    let dance = |to: [(f64, f64); 2]| {
        let mut figure = Figure::drawn("swap", "Swap", 4);
        figure.ends = PLACES;
        for (place, (x, y)) in [1, 3].into_iter().zip(to) {
            let mut part = Part::still(place);
            part.legs.push(Leg::straight(0.0, 8.0, x, y));
            figure.parts.push(part);
        }
        let mut dance = Dance::new("Swap", Set::longways(4, 3.0, 2.5));
        dance.figures.push(figure);
        not_home(&dance).into_iter().map(|fault| (fault.dancers, fault.value, fault.said)).collect::<Vec<_>>()
    };
    let (one, three) = ((-1.5, 1.25), (-1.5, -1.25));
    assert_eq!(dance([three, one]), []);
    assert_eq!(dance([one, three]), [], "home is some place too");
    // Within the usual 0.15 m, and beyond it.
    assert_eq!(dance([(-1.5, -1.12), one]), []);
    let off = "1 ends the figure 0.40 m from 3's spot, the nearest that is free".to_owned();
    assert_eq!(dance([(-1.5, -0.85), one]), [(vec![Number(1)], 0.4, off)]);
    // Both come to 3's spot: the nearer has it, and 1's is empty.
    let far = "1 ends the figure 2.40 m from their spot".to_owned();
    assert_eq!(dance([(-1.5, -1.15), three]), [(vec![Number(1)], 2.4, far)]);
    let far = "3 ends the figure 2.60 m from 1's spot, the nearest that is free".to_owned();
    assert_eq!(dance([three, (-1.5, -1.35)]), [(vec![Number(3)], 2.6, far)]);
}

/// Whoever has changed places faces as that place does.
#[test]
fn a_new_place_is_faced_from() {
    let mut dance = six(&[corner()]);
    dance.figures[0].ends = PLACES;
    assert_eq!(said(&dance), [""; 0]);
    dance.figures[0].parts[0].turns[0].face = Some(230.0);
    assert_eq!(said(&dance), ["At the end of First corners: 1 ends the figure facing 40 degrees off"]);
    // All facing up instead, and all facing down.
    dance.figures[0].ends = Ends { stance: Some(Stance::Column), ..PLACES };
    assert_eq!(not_home(&dance).len(), 6);
    dance.figures[0].ends = Ends { stance: Some(Stance::Reversed), ..PLACES };
    assert_eq!(not_home(&dance).len(), 6);
}

/// [CP]: a processional goes off up the road. It is no fault of its own; whoever is to be home for the next figure has to
/// come all the way, which is told there.
#[test]
fn a_processional_ends_anywhere() {
    let mut figure = Figure::drawn("p", "Processional", 8);
    figure.phrase = "ds".to_owned();
    for place in 1..=6 {
        let mut part = Part::still(place);
        let (x, y) = (if place % 2 == 1 { -1.5 } else { 1.5 }, 1.83 * (1.0 - f64::from((place - 1) / 2)));
        part.turns.push(Turn::to_face(0.0, 1.0, if place % 2 == 1 { Way::Left } else { Way::Right }, 0.0));
        part.legs.push(Leg::straight(0.0, 32.0, x, y + 12.0));
        figure.parts.push(part);
    }
    let mut dance = six(&[figure, named_figure("foot-up-and-down", Map::new(), &six(&[]).set).unwrap()]);
    assert_eq!(
        said(&dance),
        ["At the end of Processional: everyone ends the figure 12.00 m from their spot, all the same way"]
    );
    dance.figures[0].ends = ANYWHERE;
    assert_eq!(said(&dance), [""; 0]);
    let motion = motion_of(&dance, None).unwrap();
    let places: Vec<PlaceNumber> = (0..6).map(|dancer| motion.spans()[1].place(Dancer(dancer))).collect();
    assert_eq!(places, [1, 2, 3, 4, 5, 6], "everyone keeps the place they had");
    let pose = motion.pose(Dancer(0), 32.0);
    assert!((pose.y - 13.83).abs() < 1e-9, "and begins the next figure where they are: {}", pose.y);
    let found = find_faults(&dance, &motion);
    let dragged: Vec<&Fault> = found.iter().filter(|fault| fault.kind == FaultKind::OverLong).collect();
    assert!(dragged.iter().any(|fault| fault.bar >= 9), "those who have to come back are told: {found:?}");
    assert!(dragged.iter().all(|fault| fault.bar >= 9), "the processional itself is well within a step");
    dance.order = vec![Entry::of("p")];
    assert!(find_faults(&dance, &motion_of(&dance, None).unwrap()).is_empty());
}

/// A named figure ends as it does of itself, unless its file says otherwise.
#[test]
fn a_named_figure_can_say_how_it_ends() {
    let mut dance = six(&[named_figure("half-hey", Map::new(), &six(&[]).set).unwrap()]);
    assert_eq!(said(&dance), [""; 0]);
    dance.figures[0].ends = PLACES;
    assert_eq!(said(&dance), [""; 0]);
    dance.figures[0].ends = HOME;
    let ends = said(&dance);
    assert_eq!(ends.len(), 4, "tops and bottoms are not at home: {ends:?}");
}

#[test]
fn a_file_keeps_how_its_figures_end() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("ends.dance.json");
    let validator = jsonschema::draft202012::new(&schema()).unwrap();
    let file = |ends: Value| {
        json!({"bellpad": 1, "title": "Ends", "set": {"kind": "longways", "dancers": 4, "across": 2.4, "along": 1.8},
            "figures": [{"id": "f", "name": "F", "bars": 4, "ends": ends, "later": [1, 2]}]})
    };
    let good = ["home", "places", "anywhere", "front", "column", "reversed"].map(|word| json!(word));
    for ends in good.into_iter().chain([json!(["places", "column"]), json!(["anywhere", "front"])]) {
        let file = file(ends.clone());
        assert!(validator.is_valid(&file), "{ends}");
        fs::write(&path, file.to_string()).unwrap();
        let written = write(&read(&fs::read(&path).unwrap()).unwrap()).unwrap();
        let again: Value = serde_json::from_str(&written).unwrap();
        assert_eq!(again["figures"][0]["ends"], ends, "as it was");
        assert_eq!(again["figures"][0]["later"], json!([1, 2]), "keys that are not known are kept beside it");
        assert!(validator.is_valid(&again), "{ends}");
    }
    for (ends, wrong) in [
        (json!("hoem"), "unknown word `hoem`"),
        (json!(["places", "anywhere"]), "`anywhere` comes after `places`"),
        (json!([]), "an empty list"),
        (json!(7), "wrong type: integer `7`"),
        (json!({"where": "home"}), "wrong type: an object"),
        (json!("x".repeat(20_000)), "unknown word `xxx"),
    ] {
        assert!(!validator.is_valid(&file(ends.clone())), "{wrong}");
        fs::write(&path, file(ends).to_string()).unwrap();
        let wanted = "expected `home`, `places` or `anywhere`";
        assert_refused(&bellpad(["check", text(&path)]), &["figures[0].ends", wrong, wanted]);
    }
}

/// [MB1]: tops and bottoms have changed ends and the column is reversed, so that 1 and 2 lead it down; whoever faces up is told.
#[test]
fn a_drawn_figure_can_end_in_column_reversed() {
    let mut figure = Figure::drawn("about", "Half hey, reversed", 4);
    figure.ends = Ends { spots: Some(EndsIn::Places), stance: Some(Stance::Reversed) };
    let place =
        |place: u32| (if place % 2 == 1 { -1.5_f64 } else { 1.5 }, 1.83 * (1.0 - f64::from((place - 1) / 2)));
    for (from, to) in [(1, 5), (2, 6), (3, 3), (4, 4), (5, 1), (6, 2)] {
        let mut part = Part::still(from);
        let (x, y) = place(to);
        let aside = if from > 4 { 0.7 } else { 0.0 };
        if from != to {
            part.legs.push(Leg::smooth(0.0, 12.0, &[(x.signum() * (1.5 - aside), 0.0)], x, y));
        }
        part.turns.push(Turn::shorter(10.0, 12.0, if from % 2 == 1 { Way::Right } else { Way::Left }, 180.0));
        figure.parts.push(part);
    }
    let mut dance = six(&[figure, named_figure("half-hey", Map::new(), &six(&[]).set).unwrap()]);
    assert_eq!(said(&dance), [""; 0]);
    let motion = motion_of(&dance, None).unwrap();
    assert!(motion.poses(16.0).iter().all(|pose| pose.facing.rem_euclid(360.0) == 180.0));
    assert_eq!(motion.spans()[1].place(Dancer(0)), PlaceNumber(5), "they dance on from there");
    dance.figures[0].parts[0].turns[0].face = Some(0.0);
    assert_eq!(said(&dance), ["At the end of Half hey, reversed: 1 ends the figure facing 180 degrees off"]);
    dance.figures[0].ends = Ends { stance: Some(Stance::Column), ..PLACES };
    assert_eq!(not_home(&dance).len(), 5);
}

#[test]
fn how_a_figure_ends_is_set_and_unset() {
    let dance = six(&[corner()]);
    let set = set_ends(&dance, 0, PLACES).unwrap();
    assert_eq!(set.figures[0].ends, PLACES);
    assert_eq!(set_ends(&set, 0, Ends::default()).unwrap(), dance);
    assert!(set_ends(&dance, 1, PLACES).unwrap_err().to_string().contains("no figure 2"));
    assert!(!write(&dance).unwrap().contains("\"ends\""), "what is as usual is not written");
}
