//! A strain with endings of its own for each time ends as it is written, each time that it is played (ABC standard 2.1, 4.8 and
//! 4.10).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Air, BarCounts, Dance, Entry, Figure, Set, Tune, TuneStrain};

const G: u8 = 67;

fn tune(notes: &str) -> Tune {
    Tune::read(&format!("X:1\nM:4/4\nL:1/4\nK:C\n{notes}\n")).unwrap()
}

/// The keys of the last bar of a strain of two, time by time.
fn ends(tune: &Tune, times: u32) -> Vec<u8> {
    let last = |time| tune.strains[0].notes_after(time).iter().rfind(|note| note.begin >= 1.0).unwrap().key;
    (0..times).map(last).collect()
}

#[test]
fn each_time_has_its_ending() {
    assert_eq!(ends(&tune("|:G4|[1 A4:|[2 B4|]"), 4), [69, 71, 69, 71]);
    assert_eq!(ends(&tune("|:G4|1,3 A4:|2,4 B4:|"), 4), [69, 71, 69, 71]);
    assert_eq!(ends(&tune("|:G4|[1-3 A4:|[4 c4|]"), 5), [69, 69, 69, 72, 69]);
    assert_eq!(ends(&tune("|:G4|A4:|"), 3), [69, 69, 69]);
    let tune = tune("|:G4|[1 A4:|[2 B4|]");
    assert_eq!((tune.strains.len(), tune.strains[0].bars, tune.strains[0].repeated), (1, 2, true));
    for time in 0..2 {
        let notes = tune.strains[0].notes_after(time);
        assert_eq!((notes.len(), notes[0].key, notes[1].begin), (2, G, 1.0));
    }
}

/// A note tied into both endings rings on in both.
#[test]
fn what_is_tied_into_an_ending_rings_on() {
    let tune = tune("|:G4-|[1 G2 A2:|[2 G2 B2|]");
    for (time, last) in [(0, 69), (1, 71)] {
        let notes = tune.strains[0].notes_after(time);
        let told: Vec<(u8, f64, f64)> =
            notes.iter().map(|note| (note.key, note.begin, note.length)).collect();
        assert_eq!(told, [(G, 0.0, 1.5), (last, 1.5, 0.5)]);
    }
}

/// Each ending has its own of what is tied into it, though the other has none, or a longer one (4.11, and 4.9).
#[test]
fn a_tie_into_one_ending_is_none_into_the_other() {
    for (notes, lengths) in [
        ("|:G4-|[1 A4:|[2 G2 B2|]", [1.0, 1.5]),
        ("|:G4-|[1 G2 A2:|[2 B4|]", [1.5, 1.0]),
        ("|:G4-|[1 G A3:|[2 G3 B|]", [1.25, 1.75]),
    ] {
        let tune = tune(notes);
        let first = |time| tune.strains[0].notes_after(time)[0];
        assert_eq!(
            [0, 1].map(|time| (first(time).key, first(time).length)),
            lengths.map(|length| (G, length))
        );
    }
}

/// What stands between `|::` and `::|` is played three times (4.8), in the dance as well.
#[test]
fn a_strain_is_played_as_often_as_its_signs_have_it() {
    let of = |notes: &str| tune(notes).strains.iter().map(TuneStrain::times).collect::<Vec<_>>();
    assert_eq!(of("|::G4|A4::|B4|"), [3, 1]);
    assert_eq!(of("|:G4|A4:|:B4|c4:|"), [2, 2]);
    assert_eq!(of("|:G4|[1-3 A4:|[4 c4||B4|"), [4, 1]);
    // A double bar line within a repeat parts nothing, but after its endings it does.
    assert_eq!(of("|:G4||A4:|"), [2]);
    assert_eq!(of("|:G4|1 A4:|2 B4||c4|"), [2, 1]);
}

/// In the dance the times are counted for as long as the strain goes on, over lines of the order too.
#[test]
fn the_dance_plays_the_endings_in_turn() {
    let mut dance = Dance::new("", Set::longways(2, 2.4, 1.8));
    dance.music.abc = "X:1\nM:4/4\nL:1/4\nK:C\nP:A\n|:G4|[1 A4:|[2 B4|]\nP:B\nc4|d4|\n".to_owned();
    dance.figures.push(Figure::drawn("four", "Four", 4));
    dance.figures.push(Figure::drawn("two", "Two", 2));
    let line = |(id, strain): (&str, &str)| Entry { strain: strain.to_owned(), ..Entry::of(id) };
    dance.order = [("four", "A"), ("two", "A"), ("two", "B"), ("two", "A")].map(line).into();
    let air = Air::of(&dance, &BarCounts::usual(10), [(0, 4), (4, 2), (6, 2), (8, 2)]).unwrap();
    let keys: Vec<u8> = air.notes(0.0, 10.0).map(|sounded| sounded.note.key).collect();
    assert_eq!(keys, [67, 69, 67, 71, 67, 69, 72, 74, 67, 69]);
}
