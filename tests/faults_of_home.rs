//! Not-home: small dances with exactly the faults expected. A dance can only end with 1 back at the top left: C. J. Sharp
//! and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907. How far and how much off is common practice, no source.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use bellpad::dance::{Dance, Entry, FaultKind, Figure, Leg, Part, Set, Turn, Way};
use bellpad::faults::{Fault, find_faults};
use bellpad::figures::{motion_of, named_figure};
use serde_json::Map;

fn drawn(parts: Vec<Part>) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(4, 3.0, 2.5));
    let mut figure = Figure::drawn("stray", "Stray", 4);
    figure.parts = parts;
    dance.figures.push(figure);
    dance
}

fn part(place: u32, legs: Vec<Leg>, turns: Vec<Turn>) -> Part {
    Part { legs, turns, ..Part::still(place) }
}

fn faults(dance: &Dance) -> Vec<Fault> {
    find_faults(dance, &motion_of(dance, None).unwrap())
}

#[track_caller]
fn expect(dance: &Dance, expected: &[(&[u32], u32, f64, f64, &str)]) {
    let found = faults(dance);
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (fault, (dancers, bar, value, limit, said)) in found.iter().zip(expected) {
        assert_eq!(fault.kind, FaultKind::NotHome);
        assert_eq!(fault.dancers.as_slice(), *dancers);
        let told = (fault.bar, fault.count, fault.value, fault.limit, fault.said.as_str());
        assert_eq!(told, (*bar, 1.0, *value, *limit, *said));
    }
}

#[test]
fn a_dancer_who_ends_away_from_the_spot() {
    let away = |metres: f64| drawn(vec![part(1, vec![Leg::straight(0.0, 4.0, -1.5 - metres, 1.25)], vec![])]);
    expect(&away(0.6), &[(&[1], 5, 0.6, 0.15, "1 ends the figure 0.60 m from their spot")]);
    expect(&away(0.16), &[(&[1], 5, 0.16, 0.15, "1 ends the figure 0.16 m from their spot")]);
    expect(&away(0.14), &[]);
    let mut strict = away(0.14);
    strict.limits.home = Some(0.1);
    expect(&strict, &[(&[1], 5, 0.14, 0.1, "1 ends the figure 0.14 m from their spot")]);
}

#[test]
fn a_dancer_who_ends_turned_away() {
    let turned = |degrees: f64| {
        drawn(vec![part(4, vec![], vec![Turn::to_face(0.0, 2.0, Way::Right, 270.0 + degrees)])])
    };
    expect(&turned(40.0), &[(&[4], 5, 40.0, 15.0, "4 ends the figure facing 40 degrees off")]);
    expect(&turned(16.0), &[(&[4], 5, 16.0, 15.0, "4 ends the figure facing 16 degrees off")]);
    expect(&turned(14.0), &[]);
}

#[test]
fn two_who_change_places_and_stay_there() {
    // Round each other, well apart, and not back: each is in the other's spot, which is fault of both.
    let one = Leg::smooth(0.0, 7.0, &[(-2.6, 0.4), (-2.6, -0.8)], -1.5, -1.25);
    let three = Leg::smooth(0.0, 7.0, &[(-0.6, -0.4), (-0.6, 0.8)], -1.5, 1.25);
    let dance = drawn(vec![part(1, vec![one], vec![]), part(3, vec![three], vec![])]);
    expect(
        &dance,
        &[
            (&[1], 5, 2.5, 0.15, "1 ends the figure 2.50 m from their spot"),
            (&[3], 5, 2.5, 0.15, "3 ends the figure 2.50 m from their spot"),
        ],
    );
}

#[test]
fn a_dance_that_ends_turned_over() {
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    for name in ["cross-over", "half-hey"] {
        dance.figures.push(named_figure(name, Map::new(), &dance.set).unwrap());
    }
    let ends: Vec<(&[u32], u32, f64, f64, String)> = [&[1][..], &[2], &[5], &[6]]
        .into_iter()
        .map(|who| (who, 13, 3.6, 0.15, format!("{} ends the dance 3.60 m from their spot", who[0])))
        .collect();
    let ends: Vec<_> =
        ends.iter().map(|(who, bar, far, limit, said)| (*who, *bar, *far, *limit, said.as_str())).collect();
    expect(&dance, &ends);
    // Danced twice it is all right; and a file of the half hey alone is a study of it, not a dance.
    dance.order = ["cross-over", "half-hey", "half-hey"].map(Entry::of).to_vec();
    expect(&dance, &[]);
    dance.order = vec![Entry::of("half-hey")];
    expect(&dance, &[]);
}
