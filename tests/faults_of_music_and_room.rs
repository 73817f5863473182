//! Faults of music and of room: sets that are known to be bad and give just the faults that they should, sets that
//! only just are not, and the floor that a dance needs against its poses, taken often.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    ClearFloor, Dance, Dancer, Entry, Extra, Figure, Holding, Leg, Metre, Part, Set, Shape, SpeedChange,
    Strain, Tune, Waypoint, check_rules, read,
};
use bellpad::faults::{Fault, FaultKind, SPACE_CAUTION, Space, find_faults, place_words, space_needed};
use bellpad::figures::{motion_of, motion_of_figure};
use bellpad::motion::{Motion, SpanIndex};
use kurbo::{BezPath, Point, Shape as _};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use std::fs;

/// Two dancers 3 m apart, with all that they stand still in: (id, name, bars).
fn still(figures: &[(&str, &str, u32)]) -> Dance {
    let mut dance = Dance::new("Small dance", Set::longways(2, 3.0, 1.8));
    dance.figures = figures.iter().map(|&(id, name, bars)| Figure::drawn(id, name, bars)).collect();
    dance
}

fn order(dance: &mut Dance, lines: &[(&str, &str)]) {
    dance.order =
        lines.iter().map(|&(id, strain)| Entry { strain: strain.to_owned(), ..Entry::of(id) }).collect();
}

fn strains(dance: &mut Dance, strains: &[(&str, u32)]) {
    dance.music.strains = strains
        .iter()
        .map(|&(name, bars)| Strain {
            name: name.to_owned(),
            bars,
            metre: None,
            speeds: Vec::new(),
            extra: Extra::new(),
        })
        .collect();
}

fn faults(dance: &Dance) -> Vec<Fault> {
    check_rules(dance).unwrap();
    find_faults(dance, &motion_of(dance, None).unwrap())
}

/// The faults of a dance of still dancers, which can only be of music: bar, count, value, limit and text.
fn music(dance: &Dance) -> Vec<(u32, f64, f64, f64, String)> {
    faults(dance)
        .into_iter()
        .map(|fault| {
            assert_eq!(fault.kind, FaultKind::Music, "{fault:?}");
            assert!(fault.dancers.is_empty());
            (fault.bar, fault.count, fault.value, fault.limit, fault.said)
        })
        .collect()
}

/// A strain of eight bars, A and B, and figures of 8, 4, 2, 3, 10 and 32 bars.
fn two_strains(lines: &[(&str, &str)]) -> Dance {
    let mut dance = still(&[
        ("foot", "Foot up", 8),
        ("hey", "Hey", 8),
        ("half", "Half hey", 4),
        ("two", "Two bars", 2),
        ("three", "Three bars", 3),
        ("long", "Long hey", 10),
        ("corners", "Corners", 32),
    ]);
    strains(&mut dance, &[("A", 8), ("B", 8)]);
    order(&mut dance, lines);
    dance
}

#[test]
fn music_left_over_is_a_fault_at_its_end() {
    let dance = two_strains(&[("foot", "A"), ("half", "B"), ("foot", "A")]);
    let text = "Half hey takes 4 bars and strain B has 8: 4 bars of music are left over";
    // The half hey is bars 9 to 12.
    assert_eq!(music(&dance), [(13, 1.0, 4.0, 8.0, text.to_owned())]);
    let fault = &faults(&dance)[0];
    assert_eq!((fault.span, fault.lasts), (SpanIndex(1), (48.0, 48.0)));
}

#[test]
fn music_that_runs_out_is_a_fault_where_it_does() {
    let dance = two_strains(&[("foot", "A"), ("long", "B")]);
    let text = "Long hey takes 10 bars and strain B has 8: the music is 2 bars too short";
    assert_eq!(music(&dance), [(17, 1.0, 10.0, 8.0, text.to_owned())]);
    let fault = &faults(&dance)[0];
    assert_eq!((fault.span, fault.lasts), (SpanIndex(1), (64.0, 72.0)));
    // It runs out in the second of two figures that share the strain, at the nearest whole number of times.
    let dance = two_strains(&[("foot", "A"), ("two", "A"), ("hey", "B")]);
    let text = "Foot up and Two bars take 10 bars and strain A has 8: the music is 2 bars too short";
    assert_eq!(music(&dance), [(9, 1.0, 10.0, 8.0, text.to_owned())]);
    assert_eq!(faults(&dance)[0].span, SpanIndex(1));
}

#[test]
fn several_figures_to_one_strain_are_told_together() {
    let dance = two_strains(&[("half", "A"), ("half", "A"), ("half", "A"), ("hey", "B")]);
    let text = "Half hey 3 times takes 12 bars and strain A twice has 16: 4 bars of music are left over";
    assert_eq!(music(&dance), [(13, 1.0, 12.0, 16.0, text.to_owned())]);
    let dance = two_strains(&[("half", "A"), ("three", "A"), ("hey", "B")]);
    let text = "Half hey and Three bars take 7 bars and strain A has 8: 1 bar of music is left over";
    assert_eq!(music(&dance), [(8, 1.0, 7.0, 8.0, text.to_owned())]);
    let dance = two_strains(&[("foot", "A"), ("half", "A"), ("two", "A"), ("three", "A")]);
    let text = "The 4 figures from Foot up to Three bars take 17 bars and strain A twice has 16: \
                the music is 1 bar too short";
    assert_eq!(music(&dance), [(17, 1.0, 17.0, 16.0, text.to_owned())]);
}

#[test]
fn a_strain_that_there_is_not_is_a_fault() {
    let dance = two_strains(&[("foot", "A"), ("half", "C"), ("half", "C"), ("hey", "B")]);
    assert_eq!(music(&dance), [(9, 1.0, 8.0, 0.0, "there is no strain C in the tune".to_owned())]);
    // Where the music lists none, any will do.
    let mut any = dance.clone();
    any.music.strains.clear();
    assert_eq!(music(&any), []);
}

#[test]
fn strains_out_of_turn_are_one_fault() {
    let mut dance = two_strains(&[("foot", "A"), ("hey", "A"), ("foot", "A"), ("hey", "B"), ("hey", "A")]);
    dance.music.played = ["A", "A", "B", "B"].map(str::to_owned).to_vec();
    let text = "the tune plays B here, and Foot up is danced to A";
    assert_eq!(music(&dance), [(17, 1.0, 1.0, 0.0, text.to_owned())]);
    // Danced as it is played, and then from its start again.
    order(&mut dance, &[("foot", "A"), ("hey", "A"), ("corners", "B"), ("hey", "A"), ("hey", "A")]);
    let text = "the tune plays A here, and Corners is danced to B";
    // Corners is 32 bars from bar 17, so the third time through B, at bar 33, is out of turn.
    assert_eq!(music(&dance), [(33, 1.0, 1.0, 0.0, text.to_owned())]);
    order(
        &mut dance,
        &[("half", "A"), ("half", "A"), ("hey", "A"), ("hey", "B"), ("hey", "B"), ("hey", "A")],
    );
    assert_eq!(music(&dance), []);
    // A strain cut short is its own fault and puts nothing else out of turn.
    order(
        &mut dance,
        &[("foot", "A"), ("hey", "A"), ("hey", "B"), ("half", "B"), ("hey", "A"), ("hey", "A")],
    );
    let text = "Hey and Half hey take 12 bars and strain B twice has 16: 4 bars of music are left over";
    assert_eq!(music(&dance), [(29, 1.0, 12.0, 16.0, text.to_owned())]);
}

/// Six bars of 6/8, of which B has two and an upbeat of one quaver.
const JIG: &str =
    "X:1\nT:Jig\nM:6/8\nL:1/8\nK:G\nD|:GAB d2B|cBA B2G|EGE D2E|GAG A2D:|\n|:ded B2d|efe d2B:|\n";

#[test]
fn the_notes_are_held_against_what_the_dance_says() {
    let mut dance = still(&[("foot", "Foot up", 4), ("hey", "Hey", 2)]);
    order(&mut dance, &[("foot", "A"), ("hey", "B")]);
    strains(&mut dance, &[("A", 4), ("B", 2)]);
    dance.music.abc = JIG.to_owned();
    dance.music.metre = Metre::SixEight;
    dance.music.upbeat = 1;
    assert_eq!(music(&dance), []);

    let mut other = dance.clone();
    other.music.metre = Metre::TwoFour;
    let text = "the metre is 2/4 here and 6/8 in the tune";
    assert_eq!(music(&other), [(1, 1.0, 0.5, 0.75, text.to_owned())]);

    let mut other = dance.clone();
    other.music.upbeat = 0;
    let text = "the upbeat is 0 counts here and 1 in the tune";
    assert_eq!(music(&other), [(1, 1.0, 0.0, 1.0, text.to_owned())]);

    let mut other = dance.clone();
    other.music.abc = JIG.replace("|EGE D2E|", "|");
    let text = "strain A is 4 bars here and 3 in the tune";
    assert_eq!(music(&other), [(1, 1.0, 4.0, 3.0, text.to_owned())]);

    let mut other = dance.clone();
    other.music.abc = JIG.replace("efe d2B", "efe d2B{");
    let text = "the tune, line 7: a { has no } after it, and is left out";
    assert_eq!(music(&other), [(1, 1.0, 1.0, 0.0, text.to_owned())]);

    let mut other = dance.clone();
    other.music.abc = JIG.replace("cBA B2G", "cBA B2");
    let text = "the tune, line 6: bar 2 of this strain is too short for 6/8, and is played as it stands";
    assert_eq!(music(&other), [(1, 1.0, 1.0, 0.0, text.to_owned())]);

    let mut other = dance.clone();
    other.music.abc = JIG.replace("K:", "Q:");
    let found = music(&other);
    assert!(found[0].4.starts_with("the tune cannot be read: line "), "{found:?}");

    // The tune slows down in B, and the dance does not, or to another speed, or does.
    let mut other = dance.clone();
    other.music.abc = JIG.replace("efe d2B", "[Q:3/8=80]efe d2B");
    let slow = |here: u32| {
        format!("strain B goes at 80 strong beats a minute from bar 2:1 on in the tune, and at {here} here")
    };
    assert_eq!(music(&other), [(1, 1.0, 100.0, 80.0, slow(100))]);
    other.music.strains[1].speeds = vec![SpeedChange::at(2.0, 90.0)];
    assert_eq!(music(&other), [(1, 1.0, 90.0, 80.0, slow(90))]);
    other.music.strains[1].speeds = vec![SpeedChange::at(4.0, 80.0)];
    assert_eq!(music(&other), []);

    // A dance that lists no strains is held against those of the notes.
    let mut other = dance.clone();
    other.music.strains.clear();
    assert_eq!(music(&other), []);
    order(&mut other, &[("foot", "A"), ("hey", "A")]);
    let text = "Foot up and Hey take 6 bars and strain A twice has 8: 2 bars of music are left over";
    assert_eq!(music(&other), [(7, 1.0, 6.0, 8.0, text.to_owned())]);
}

#[test]
fn music_that_fits_has_no_fault() {
    for lines in [
        &[][..],
        &[("foot", ""), ("long", ""), ("three", "")],
        &[("foot", "A"), ("half", "B"), ("half", "B"), ("corners", "A"), ("hey", "b")],
        &[("half", "A"), ("two", "A"), ("two", "A"), ("long", ""), ("half", "A"), ("half", "A")],
    ] {
        assert_eq!(music(&two_strains(lines)), [], "{lines:?}");
    }
    // One figure looked at by itself is not held against the tune.
    let dance = two_strains(&[("foot", "A"), ("half", "B")]);
    assert_eq!(find_faults(&dance, &motion_of_figure(&dance, 2).unwrap()), []);
}

fn read_tune(abc: &str) -> Tune {
    Tune::read(abc).unwrap_or_else(|error| panic!("{abc}\n{error}"))
}

/// Name, bars and whether it is repeated.
fn strains_of(abc: &str) -> Vec<(String, u32, bool)> {
    read_tune(abc).strains.into_iter().map(|strain| (strain.name, strain.bars, strain.repeated)).collect()
}

#[test]
fn the_tunes_that_come_with_the_program_are_read() {
    for path in common::samples() {
        let dance = read(&fs::read(&path).unwrap()).unwrap();
        let tune = read_tune(&dance.music.abc);
        let strains = [("A".to_owned(), 8, true), ("B".to_owned(), 8, true)];
        assert_eq!(strains_of(&dance.music.abc), strains, "{}", path.display());
        assert_eq!(tune.upbeat_counts(), 1, "{}", path.display());
        let music: Vec<Fault> =
            faults(&dance).into_iter().filter(|fault| fault.kind == FaultKind::Music).collect();
        assert_eq!(music, [], "{}", path.display());
    }
}

/// What bars each piece of notation makes, after the ABC standard 2.1 (abcnotation.com, December 2011), whose
/// section is named beside each.
#[test]
fn tunes_are_read_as_the_standard_says() {
    let head = |notes: &str| format!("X:1\nT:Tune\nM:4/4\nL:1/8\nK:D\n{notes}\n");
    for (notes, bars, what) in [
        ("A8|B8|]", &[2][..], "plain bars"),
        ("A8|B8", &[2], "no bar line at the end"),
        ("A8|A3>B c<d ef|A8|", &[], "broken rhythm that leaves the bar long (4.4)"),
        ("A>B c<d e>>f g<<a|A8|", &[2], "broken rhythm (4.4)"),
        ("(3ABc d2 (3:2:3efg a2|A8|", &[2], "tuplets (4.13)"),
        ("A8|(3:2:4A2Bcd e4|A8|", &[], "a tuplet over four notes that leaves the bar short (4.13)"),
        ("(3:2:4G2A2Bc e4|A8|", &[2], "a tuplet over four notes (4.13)"),
        ("(ABc) (d(3efg) a2|A8|", &[2], "slurs (4.11)"),
        ("[Ace]4 [A2c2e2]2|[DF]8|", &[2], "chords (4.17)"),
        ("{g}A4 {/gag}B4|A8|", &[2], "grace notes (4.12)"),
        ("A8-|A4-A4|", &[2], "ties (4.11)"),
        ("z4 x4|Z|Z2|A8|", &[5], "rests (4.5)"),
        ("A/B/c//d//e3/2f/2f/2 g3 z|A8|", &[2], "parts of the unit (4.3)"),
        ("^A4 _B,4|=c'4 ^^d''2__e2|", &[2], "accidentals and octaves (4.1, 4.2)"),
        (".A4 ~B4|!trill!A4 vBuc TdHe|\"G\"A4 \"^text|:\"B4|", &[3], "decorations, text (4.14, 4.18, 4.19)"),
        ("A8|% B8|\n%%vskip\nB8|", &[2], "comments (2.2.3)"),
        ("A4\\\nB4|c8|", &[2], "a line that goes on (6.1.1)"),
        ("A2 BA`B`c3|y8 A8|", &[2], "beams and spacers (4.7, 6.1.2)"),
        ("A8|[M:2/4]B4|[M:4/4][L:1/4]c4|", &[3], "fields among the notes (3.2)"),
        ("A8|B8||c8|]", &[2, 1], "a double bar (4.8)"),
        ("|:A8|B8:|:c8:|", &[2, 1], "repeats (4.8)"),
        ("|:A8|B8::c8:|", &[2, 1], "repeats, short (4.8)"),
        ("A8||B8|:c8:|", &[1, 1, 1], "a repeat after plain strains (4.8)"),
        ("|:A8||B8:|", &[2], "a double bar inside a repeat (4.8)"),
        ("|:A8|[1B8:|[2c8|]d8|", &[2, 1], "endings (4.9)"),
        ("A8|1B8:|2c8||d8|", &[2, 1], "endings, short (4.9)"),
        ("|:A8|1,3B8:|2-4c8||d8|", &[2, 1], "endings with more numbers (4.10)"),
        ("A2|:B8|c6A2:||:d8|e6:|", &[2, 2], "an upbeat, and a last bar that lacks it"),
        ("|:A2|B8|c6:||:d2|e8|f6:|", &[2, 2], "upbeats inside the repeats"),
        ("A4&c4 B4|d8|", &[2], "a bar that a second voice fills and the first does not is one (7.4)"),
        ("A8|B8&c4d4|", &[2], "voices laid over each other (7.4)"),
        ("V:1\nA8|B8|\nV:2\nc8|d8|\nV:1\ne8|", &[3], "only the first voice (7)"),
    ] {
        let read = Tune::read(&head(notes));
        if bars.is_empty() {
            let told = read.unwrap().told;
            assert_eq!(told.first().map(|remark| remark.line), Some(6), "{what}: {notes}");
            continue;
        }
        let read: Vec<u32> = read
            .unwrap_or_else(|error| panic!("{what}: {notes}: {error}"))
            .strains
            .iter()
            .map(|strain| strain.bars)
            .collect();
        assert_eq!(read, bars, "{what}: {notes}");
    }
}

#[test]
fn parts_name_strains() {
    let abc = "X:1\nM:C|\nL:1/8\nP:AABB\nK:D\nP:A\nA8|B8|\n[P:B]|:c8|d8:|\nP:Tail\ne8|]\n";
    assert_eq!(
        strains_of(abc),
        [("A".to_owned(), 2, false), ("B".to_owned(), 2, true), ("Tail".to_owned(), 1, false)]
    );
    assert_eq!(read_tune(abc).metre, (2, 2));
    assert_eq!(read_tune(&abc.replace("M:C|", "M:C")).metre, (4, 4));
    assert_eq!(read_tune(&abc.replace("M:C|", "M:(2+2)/4").replace('\n', "\r\n")).metre, (4, 4));
    // Without L: a note is an eighth, or a sixteenth where the bar is shorter than 3/4 (3.1.7).
    assert_eq!(strains_of("X:1\nM:2/4\nK:D\nA8|B8||"), [("A".to_owned(), 2, false)]);
    assert_eq!(strains_of("X:1\nM:3/4\nK:D\nA6|B6||"), [("A".to_owned(), 2, false)]);
    // An empty line ends the tune (2.2.1).
    assert_eq!(strains_of("\n\nX:1\nM:2/4\nK:D\nA8|\n\nB8|"), [("A".to_owned(), 1, false)]);
}

#[test]
fn upbeats_are_counted_as_dancers_do() {
    // In 6/8 the counts fall on quavers 1, 3, 4 and 6 of the bar [MB1].
    for (quavers, counts) in [(1, 1), (2, 2), (3, 2), (4, 3), (5, 4)] {
        let tune = read_tune(&format!("X:1\nM:6/8\nL:1/8\nK:G\nD{quavers}|:GAB d2B:|\n"));
        assert_eq!(tune.upbeat_counts(), counts, "{quavers} quavers");
        assert!((tune.upbeat_share - f64::from(quavers) / 6.0).abs() < 1e-12);
    }
    assert_eq!(read_tune("X:1\nM:6/8\nL:1/8\nK:G\nD/|:GAB d2B:|\n").upbeat_counts(), 1);
    // In even time a quarter of a bar is a count, and a shorter note is one too.
    for (metre, upbeat, counts) in [
        ("4/4", "A2", 1),
        ("4/4", "A", 1),
        ("4/4", "A3", 2),
        ("2/4", "A", 1),
        ("2/2", "A6", 3),
        ("4/4", "", 0),
    ] {
        let bar = if metre == "2/4" { 4 } else { 8 };
        let tune = read_tune(&format!("X:1\nM:{metre}\nL:1/8\nK:G\n{upbeat}|:G{bar}:|\n"));
        assert_eq!(tune.upbeat_counts(), counts, "{metre} {upbeat}");
    }
}

#[test]
fn what_is_no_tune_says_why() {
    for (abc, line, part) in [
        ("nonsense", 1, "no key"),
        ("X:1\nM:6/8\n", 2, "no key"),
        ("X:1\nM:6/9x\nK:G\n", 3, "no metre"),
        ("X:1\nK:G\nGAB|", 3, "no metre"),
        ("X:1\nM:6/8\nK:G\n", 1, "not one whole bar"),
    ] {
        let error = Tune::read(abc).expect_err(abc);
        assert_eq!(error.line, line, "{abc:?}: {error}");
        assert!(error.wrong.contains(part), "{abc:?}: {error}");
    }
}

/// When the notes of the first strain begin, in crotchets.
fn crotchets(tune: &Tune) -> Vec<f64> {
    let bar = tune.metre.0 as f64 / tune.metre.1 as f64 * 4.0;
    tune.strains[0].notes.iter().map(|note| (note.begin * bar * 1e6).round() / 1e6).collect()
}

/// Musicians' files are what they are: what is odd is told with its line, and the rest is as it is written.
#[test]
fn what_is_odd_in_a_tune_is_told_and_the_rest_is_read() {
    for (abc, line, part, begins) in [
        (
            "X:1\nM:2/4\nL:1/8\nK:G\nG4|\nG5|\nG4|",
            6,
            "bar 2 of this strain is too long for 2/4",
            &[0.0, 2.0, 4.5][..],
        ),
        (
            "X:1\nM:2/4\nL:1/8\nK:G\nG4|G3|\nG4|",
            5,
            "bar 2 of this strain is too short for 2/4",
            &[0.0, 2.0, 3.5],
        ),
        ("X:1\nM:2/4\nL:1/8\nK:G\nG99999999999999999999999G4|", 5, "beyond reading, and is left out", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\nG1/0G4|", 5, "beyond reading, and is left out", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\n>G4|", 5, "no note before it", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\nG4^|G4|", 5, "no note after it", &[0.0, 2.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\n\"G4|", 5, "has no other", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\nG4|{G4|", 5, "a { has no }", &[0.0, 2.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\n[G4|", 5, "a [ has no ]", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\n[\"End\"G4|]", 5, "a [ has no ]", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\n[§]G4|", 5, "is no chord, and is left out", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\nG4 §|", 5, "'§' is not part of a tune", &[0.0]),
        ("X:1\nM:2/4\nL:1/8\nK:G\nG2:G2|", 5, "a : stands by itself", &[0.0, 1.0]),
        ("X:1\nM:2/4\nL:0/8\nL:1/8\nK:G\nG4|", 3, "L:0/8 is no length", &[0.0]),
        ("X:1\nM:2/4\nM:2x\nL:1/8\nK:G\nG4|", 3, "M:2x is no metre", &[0.0]),
        ("X:1\nmy tune\nM:2/4\nL:1/8\nK:G\nG4|", 2, "notes come after the key", &[0.0]),
        (
            "X:1\nM:2/4\nL:1/8\nK:G\nG4|1G4:|2G4|G4||",
            5,
            "with one ending this strain has 2 bars, and with another 3",
            &[0.0, 2.0],
        ),
    ] {
        let tune = Tune::read(abc).unwrap_or_else(|error| panic!("{abc:?}: {error}"));
        assert_eq!(tune.told.len(), 1, "{abc:?}: {:?}", tune.told);
        assert_eq!(tune.told[0].line, line, "{abc:?}: {}", tune.told[0]);
        assert!(tune.told[0].said.contains(part), "{abc:?}: {}", tune.told[0]);
        assert_eq!(crotchets(&tune), begins, "{abc:?}");
    }
    assert!(Tune::read(JIG).unwrap().told.is_empty());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 512, failure_persistence: None, rng_seed: RngSeed::Fixed(1907), ..ProptestConfig::default() })]

    #[test]
    fn no_text_is_too_odd_for_the_reader_of_tunes(text in "\\PC*", notes in "[A-Gza-g0-9/|:\\[\\](){}<>^_=,'\"!+&%.~\\\\ \n-]{0,60}") {
        let _ = Tune::read(&text);
        let _ = Tune::read(&format!("X:1\nM:4/4\nK:D\n{notes}"));
        let _ = Tune::read(&format!("X:1\nM:{notes}\nL:{text}\nK:D\n{notes}"));
    }

    /// Bars made of notes that fill them are counted, whatever the notes are.
    #[test]
    fn full_bars_are_counted(bars in prop::collection::vec(prop::collection::vec(1u32..7, 1..6), 1..20), upbeat in 0u32..6) {
        let mut notes = if upbeat > 0 { format!("B{upbeat}|:") } else { "|:".to_owned() };
        for bar in &bars {
            let mut left = 6;
            for length in bar {
                let length = (*length).min(left);
                if length > 0 {
                    notes += &format!("c{length} ");
                }
                left -= length;
            }
            notes += &if left > 0 { format!("z{left}|") } else { "|".to_owned() };
        }
        notes.pop();
        let tune = read_tune(&format!("X:1\nM:6/8\nL:1/8\nK:D\n{notes}:|\n"));
        prop_assert_eq!(tune.strains.len(), 1);
        prop_assert_eq!(tune.strains[0].bars as usize, bars.len());
        prop_assert!((tune.upbeat_share - f64::from(upbeat) / 6.0).abs() < 1e-12);
    }
}

fn floor(left: f64, bottom: f64, right: f64, top: f64) -> ClearFloor {
    ClearFloor {
        across: right - left,
        along: top - bottom,
        x: f64::midpoint(left, right),
        y: f64::midpoint(bottom, top),
        extra: Extra::new(),
    }
}

/// Two dancers 3 m apart; 1 dances some legs in a figure of four bars, twice.
fn one_dances(legs: Vec<Leg>) -> Dance {
    let mut dance = still(&[("out", "Out", 4)]);
    let mut part = Part::still(1);
    part.legs = legs;
    dance.figures[0].parts.push(part);
    order(&mut dance, &[("out", ""), ("out", "")]);
    dance
}

/// The faults, which must all be of room: bar, count, dancers, value and text.
fn room(dance: &Dance) -> Vec<(u32, f64, Vec<u32>, f64, String)> {
    faults(dance)
        .into_iter()
        .map(|fault| {
            assert_eq!((fault.kind, fault.limit), (FaultKind::Room, 0.0), "{fault:?}");
            let value = (fault.value * 10_000.0).round() / 10_000.0;
            let dancers = fault.dancers.iter().map(|number| number.get()).collect();
            (fault.bar, fault.count, dancers, value, fault.said)
        })
        .collect()
}

#[test]
fn a_stick_needs_floor_where_a_handkerchief_does_not() {
    let mut dance = one_dances(Vec::new());
    // 1.5 m to the file and 0.8 m of arm, or 1.2 m of stick (common practice, no source).
    dance.floor = Some(floor(-2.5, -2.0, 2.3, 2.0));
    assert_eq!(room(&dance), []);
    dance.holding = Holding::Sticks;
    let text = |number: u32, metres: &str, edge: &str| format!("{number} needs {metres} m more floor {edge}");
    assert_eq!(
        room(&dance),
        [
            (1, 1.0, vec![1], 0.2, text(1, "0.20", "on the left")),
            (1, 1.0, vec![2], 0.4, text(2, "0.40", "on the right")),
            (5, 1.0, vec![1], 0.2, text(1, "0.20", "on the left")),
            (5, 1.0, vec![2], 0.4, text(2, "0.40", "on the right")),
        ]
    );
    let lasts: Vec<(f64, f64)> = faults(&dance).iter().map(|fault| fault.lasts).collect();
    assert_eq!(lasts, [(0.0, 16.0), (0.0, 16.0), (16.0, 32.0), (16.0, 32.0)]);
    dance.limits.stick = Some(0.9);
    dance.floor = Some(floor(-2.4, -2.0, 2.4, 2.0));
    assert_eq!(room(&dance), []);
}

#[test]
fn going_down_too_far_is_one_fault_at_the_farthest() {
    let mut dance =
        one_dances(vec![Leg::straight(0.0, 7.0, -1.5, -2.0), Leg::straight(8.0, 14.0, -1.5, 0.0)]);
    dance.floor = Some(floor(-2.3, -2.38, 2.3, 0.8));
    let bottom = |bar: u32| (bar, 4.0, vec![1], 0.42, "1 needs 0.42 m more floor at the bottom".to_owned());
    assert_eq!(room(&dance), [bottom(2), bottom(6)]);
    let fault = &faults(&dance)[0];
    assert_eq!(fault.spot, Some((-1.5, -2.0)));
    assert!(fault.lasts.0 > 4.0 && fault.lasts.0 < 7.0 && fault.lasts.1 > 8.0 && fault.lasts.1 < 14.0);
    dance.floor = Some(floor(-2.3, -2.8, 2.3, 0.8));
    assert_eq!(room(&dance), []);
    // Half a millimetre is nothing; two are something.
    dance.floor = Some(floor(-2.3, -2.7995, 2.3, 0.8));
    assert_eq!(room(&dance), []);
    dance.floor = Some(floor(-2.3, -2.798, 2.3, 0.8));
    assert_eq!(room(&dance).len(), 2);
}

#[test]
fn out_between_two_counts_on_a_curve_is_found() {
    // Farthest out between its two points and between two counts.
    let mut leg = Leg::smooth(0.0, 4.0, &[(-1.9, 0.2), (-1.9, 0.7)], -1.5, 0.0);
    (leg.through[0].at, leg.through[1].at) = (Some(1.2), Some(1.8));
    let mut dance = one_dances(vec![leg]);
    let motion = motion_of(&dance, None).unwrap();
    let farthest = |times: &mut dyn Iterator<Item = f64>| {
        times.map(|count| motion.pose(Dancer(0), count).x).fold(f64::INFINITY, f64::min)
    };
    let by_count = farthest(&mut (0..=16).map(f64::from));
    let truly = farthest(&mut (0..=160_000).map(|part| f64::from(part) / 10_000.0));
    assert!(by_count - truly > 0.02, "{by_count} {truly}");
    // Each count is inside, and the curve is not.
    dance.floor = Some(floor(by_count - 0.8 - 0.001, -3.0, 3.0, 3.0));
    let found = room(&dance);
    assert_eq!(found.len(), 2, "{found:?}");
    for (index, (bar, count, dancers, value, text)) in found.iter().enumerate() {
        assert_eq!((*bar, dancers.as_slice()), (1 + 4 * index as u32, &[1][..]));
        assert!(count.fract() > 0.01, "{count}");
        assert!((value - (by_count - 0.001 - truly)).abs() < 0.001, "{value}");
        assert!(text.ends_with("more floor on the left"), "{text}");
    }
    dance.floor = Some(floor(truly - 0.8, -3.0, 3.0, 3.0));
    assert_eq!(room(&dance), []);
}

#[test]
fn a_floor_that_is_not_in_the_middle_is_where_it_says() {
    // Up 2 m on the left and back: x from -1.5 to 1.5 and y from 0 to 2, and 0.8 m round it.
    let mut dance = one_dances(vec![Leg::straight(0.0, 8.0, -1.5, 2.0), Leg::straight(8.0, 14.0, -1.5, 0.0)]);
    let just = ClearFloor { across: 4.6, along: 3.6, x: 0.0, y: 1.0, extra: Extra::new() };
    dance.floor = Some(just.clone());
    assert_eq!(room(&dance), []);
    dance.floor = Some(ClearFloor { y: 0.75, ..just.clone() });
    let top = |bar: u32| (bar, 1.0, vec![1], 0.25, "1 needs 0.25 m more floor at the top".to_owned());
    assert_eq!(room(&dance), [top(3), top(7)]);
    dance.floor = Some(ClearFloor { x: -0.1, ..just });
    let right = |bar: u32| (bar, 1.0, vec![2], 0.1, "2 needs 0.10 m more floor on the right".to_owned());
    assert_eq!(room(&dance), [right(1), right(5)]);
}

#[test]
fn two_stretches_are_two_faults_and_two_edges_at_once_are_one() {
    let mut dance = one_dances(vec![
        Leg::straight(0.0, 4.0, -2.1, 0.9),
        Leg::straight(4.0, 6.0, -1.5, 0.0),
        Leg::straight(8.0, 12.0, -1.5, -0.7),
        Leg::straight(12.0, 14.0, -1.5, 0.0),
    ]);
    dance.floor = Some(floor(-2.5, -1.2, 2.5, 1.2));
    let found = room(&dance);
    let texts: Vec<(u32, f64, &str)> =
        found.iter().map(|fault| (fault.0, fault.1, fault.4.as_str())).collect();
    let (top, bottom) = ("1 needs 0.50 m more floor at the top", "1 needs 0.30 m more floor at the bottom");
    assert_eq!(texts, [(2, 1.0, top), (4, 1.0, bottom), (6, 1.0, top), (8, 1.0, bottom)]);
}

/// Every pose of every dancer, 256 times a count.
fn each_place(motion: &Motion, mut place: impl FnMut(usize, f64, f64, f64)) {
    let mut poses = Vec::new();
    for part in 0..=(motion.counts() as u32 * 256) {
        let count = f64::from(part) / 256.0;
        motion.pose_all(count, &mut poses);
        for (dancer, pose) in poses.iter().enumerate() {
            place(dancer, count, pose.x, pose.y);
        }
    }
}

/// Whether a place is as far inside every side of an outline as the dancers reach.
fn is_inside(space: &Space, reach: f64, x: f64, y: f64) -> bool {
    (0..space.outline.len()).all(|index| {
        let ((x0, y0), (x1, y1)) = (space.outline[index], space.outline[(index + 1) % space.outline.len()]);
        let long = (x1 - x0).hypot(y1 - y0);
        long < 1e-6 || ((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0)) / long >= reach - 1e-6
    })
}

/// Checks the space that a dance needs against its poses.
fn check_space(dance: &Dance, motion: &Motion, sharp: f64) -> Space {
    let space = space_needed(dance, motion);
    let reach = dance.limits.reach(dance.holding);
    let mut taken = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    let mut farthest = [f64::NEG_INFINITY; 72];
    let way = |index: usize| (index as f64 * 5.0).to_radians().sin_cos();
    let mut outline = BezPath::new();
    for (index, &(x, y)) in space.outline.iter().enumerate() {
        if index == 0 {
            outline.move_to((x, y));
        } else {
            outline.line_to((x, y));
        }
    }
    outline.close_path();
    let mut last = vec![(f64::NAN, f64::NAN); motion.dancers()];
    each_place(motion, |dancer, _, x, y| {
        if last[dancer] == (x, y) {
            return;
        }
        last[dancer] = (x, y);
        assert!(is_inside(&space, reach, x, y), "{x} {y}");
        taken = [
            taken[0].min(x - reach),
            taken[1].min(y - reach),
            taken[2].max(x + reach),
            taken[3].max(y + reach),
        ];
        for (index, farthest) in farthest.iter_mut().enumerate() {
            let (sin, cos) = way(index);
            *farthest = farthest.max(x * cos + y * sin + reach);
        }
    });
    // No body with its reach lies outside, seen from each of 72 ways and, at each place taken, by kurbo.
    for (index, farthest) in farthest.iter().enumerate() {
        let (sin, cos) = way(index);
        let outer = space.outline.iter().map(|(x, y)| x * cos + y * sin).fold(f64::NEG_INFINITY, f64::max);
        assert!(outer >= farthest - 1e-9, "{index}: {outer} {farthest}");
        assert!(outer <= farthest + 0.006 + sharp, "{index}: {outer} {farthest}");
    }
    let mut seen = 0_u32;
    each_place(motion, |_, count, x, y| {
        seen += 1;
        if seen.is_multiple_of(101) {
            for index in (0..72).step_by(3) {
                let (sin, cos) = way(index);
                let point = Point::new(x + reach * cos, y + reach * sin);
                assert!(outline.winding(point) != 0, "{point} at {count}");
            }
        }
    });
    for (edge, (exact, taken)) in space.edges.iter().zip(taken).enumerate() {
        let outward = if edge < 2 { taken - exact } else { exact - taken };
        assert!((-1e-9..=0.005).contains(&outward), "edge {edge}: {exact} {taken}");
    }
    assert!((space.across - (space.edges[2] - space.edges[0])).abs() < 1e-12);
    assert!((space.along - (space.edges[3] - space.edges[1])).abs() < 1e-12);
    space
}

#[test]
fn the_dances_that_come_with_the_program_need_just_the_space_they_say() {
    for path in common::samples() {
        let mut dance = read(&fs::read(&path).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        let before = find_faults(&dance, &motion);
        let space = check_space(&dance, &motion, 0.0);
        let [left, bottom, right, top] = space.edges;
        dance.floor = Some(floor(left, bottom, right, top));
        check_rules(&dance).unwrap();
        assert_eq!(find_faults(&dance, &motion), before, "{}", path.display());
        assert!(before.iter().all(|fault| fault.kind != FaultKind::Room));
        for (less, edge) in [
            (floor(left + 0.01, bottom, right, top), "on the left"),
            (floor(left, bottom + 0.01, right, top), "at the bottom"),
            (floor(left, bottom, right - 0.01, top), "on the right"),
            (floor(left, bottom, right, top - 0.01), "at the top"),
        ] {
            dance.floor = Some(less);
            let room: Vec<Fault> = find_faults(&dance, &motion)
                .into_iter()
                .filter(|fault| fault.kind == FaultKind::Room)
                .collect();
            assert!(!room.is_empty(), "{} {edge}", path.display());
            for fault in room {
                assert!(fault.said.contains(&format!("0.01 m more floor {edge}")), "{}", fault.said);
                assert!(fault.value > 0.001 && fault.value < 0.0101, "{}", fault.value);
            }
        }
    }
}

#[test]
fn space_is_told_in_words_and_never_too_small() {
    let dance = one_dances(vec![Leg::straight(0.0, 7.0, -1.5, -2.0), Leg::straight(8.0, 14.0, -1.5, 0.0)]);
    let space = check_space(&dance, &motion_of(&dance, None).unwrap(), 0.0);
    assert_eq!(space.words(), "needs a clear floor of 4.6 m across and 3.6 m along");
    let space = Space { across: 4.61, along: 3.59, ..space };
    assert_eq!(space.words(), "needs a clear floor of 4.7 m across and 3.6 m along");
    assert!(SPACE_CAUTION.contains("spectators"));
    // Nobody moves: a stadium round two spots, and a circle round one.
    let mut dance = still(&[("foot", "Foot up", 4)]);
    check_space(&dance, &motion_of(&dance, None).unwrap(), 0.0);
    dance.set = Set::longways(1, 3.0, 1.8);
    let motion = motion_of(&dance, None).unwrap();
    let space = check_space(&dance, &motion, 0.0);
    assert!((space.across - 1.6).abs() < 1e-9 && (space.along - 1.6).abs() < 1e-9);
    let stand = motion.ground().stands[0];
    assert!(space.outline.len() >= 36);
    for (x, y) in space.outline {
        let far = (x - stand.x).hypot(y - stand.y);
        assert!((0.8..0.806).contains(&far), "{far} {}", place_words(motion.ground(), x, y));
    }
}

/// Corners of the outline that all but lie on one line, as two arcs and two straight legs happen to make them: the
/// arithmetic loses which way such a corner turns.
#[test]
fn corners_that_hardly_turn_stay_corners() {
    let mut round = Leg::straight(4.5, 8.0, 0.0, 1.665_438_035_485_587);
    (round.shape, round.sweep) = (Shape::Arc, Some(-293.322_997_650_046_8));
    let mut on = Leg::straight(8.5, 12.0, -2.758_888_083_217_708_5, 0.618_647_357_021_282_4);
    (on.shape, on.sweep) = (Shape::Arc, Some(-28.315_090_699_983_138));
    let first = Leg::straight(0.5, 4.0, 1.880_900_956_987_47, -2.517_237_386_625_686);
    let dance = one_dances(vec![first, round, on, Leg::straight(12.5, 16.0, 0.0, 0.0)]);
    check_space(&dance, &motion_of(&dance, None).unwrap(), 0.0);
    // And here two corners lie on top of each other but for what the arithmetic loses.
    let mut round = Leg::straight(4.5, 8.0, 1.810_296_953_000_110_3, -1.066_329_798_703_983_3);
    (round.shape, round.sweep) = (Shape::Arc, Some(-96.216_122_166_961_26));
    let first = Leg::straight(0.5, 4.0, -2.188_352_145_520_162_7, 1.287_755_584_508_120_6);
    let last = Leg::straight(8.5, 12.0, -1.037_670_092_991_776_8, -2.999_352_458_772_324);
    let dance = one_dances(vec![first, round, last, Leg::straight(12.5, 16.0, 0.0, 0.0)]);
    check_space(&dance, &motion_of(&dance, None).unwrap(), 0.005);
    // And here several lie on one line, at every slope.
    for slope in 1..400 {
        let (from, step) = ((-2.0, -1.0), (-0.01 * f64::from(slope), 0.7));
        let place = |index: f64| (from.0 + step.0 * index, from.1 + step.1 * index);
        let mut leg = Leg::smooth(0.0, 8.0, &[from, place(0.3), place(0.6), place(0.7)], 0.0, 0.0);
        leg.shape = Shape::Straight;
        (leg.to.x, leg.to.y) = place(1.1);
        let dance = one_dances(vec![leg]);
        let motion = motion_of(&dance, None).unwrap();
        let space = space_needed(&dance, &motion);
        for index in 0..=11 {
            let (x, y) = place(0.1 * f64::from(index));
            assert!(is_inside(&space, 0.8, x, y), "slope {slope}");
        }
        assert!(is_inside(&space, 0.8, 1.5, 0.0), "slope {slope}");
    }
}

/// A drawn leg of any shape over four counts, from a place within 3 m of the middle.
fn any_leg(index: usize) -> impl Strategy<Value = Leg> {
    let place = || (-3.0f64..3.0, -3.0f64..3.0);
    let begin = 4.0 * index as f64;
    (place(), prop::collection::vec(place(), 0..4), 0..3, -350.0f64..350.0, 0.5f64..2.0, 0.0f64..1.0)
        .prop_map(move |((x, y), through, shape, sweep, wait, timed)| {
            let mut leg = Leg::straight(begin + wait, begin + 4.0, x, y);
            match shape {
                0 => leg.through = through.iter().map(|&(x, y)| Waypoint::new(x, y)).collect(),
                1 => {
                    leg.shape = Shape::Smooth;
                    leg.through = through.iter().map(|&(x, y)| Waypoint::new(x, y)).collect();
                }
                _ => {
                    leg.shape = Shape::Arc;
                    leg.sweep = Some(sweep);
                }
            }
            if timed > 0.5
                && let [first, ..] = leg.through.as_mut_slice()
            {
                first.at = Some(begin + wait + (4.0 - wait) * (timed - 0.1));
            }
            leg
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, rng_seed: RngSeed::Fixed(1907), ..ProptestConfig::default() })]

    /// What is out of room 256 times a count is told, and what is told is so.
    #[test]
    fn room_is_never_missed_and_never_invented(
        legs in (any_leg(0), any_leg(1), any_leg(2), any_leg(3)),
        (across, along, x, y) in (2.0f64..9.0, 2.0f64..9.0, -1.0f64..1.0, -1.0f64..1.0),
    ) {
        let mut dance = one_dances(vec![legs.0, legs.1, legs.2, legs.3]);
        dance.order.pop();
        prop_assume!(check_rules(&dance).is_ok());
        let motion = motion_of(&dance, None).unwrap();
        // How sharp a corner between two samples can be: the most that is danced in one of them.
        let mut sharp: f64 = 0.0;
        let mut before = motion.pose(Dancer(0), 0.0);
        each_place(&motion, |dancer, _, x, y| if dancer == 0 {
            sharp = sharp.max((x - before.x).hypot(y - before.y));
            (before.x, before.y) = (x, y);
        });
        let reach = dance.limits.reach(dance.holding);
        let edges = ClearFloor { across, along, x, y, extra: Extra::new() };
        dance.floor = Some(edges.clone());
        let [left, bottom, right, top] = edges.edges();
        let out = |x: f64, y: f64| {
            (left + reach - x).max(bottom + reach - y).max(x - right + reach).max(y - top + reach)
        };
        let found: Vec<Fault> = find_faults(&dance, &motion)
            .into_iter()
            .filter(|fault| fault.kind == FaultKind::Room)
            .collect();
        let mut most = vec![f64::NEG_INFINITY; found.len()];
        let mut missed = Vec::new();
        each_place(&motion, |dancer, count, x, y| {
            let out = out(x, y);
            let here = found.iter().position(|fault| {
                fault.dancers == [dancer as u32 + 1]
                    && count >= fault.lasts.0 - 1e-6
                    && count <= fault.lasts.1 + 1e-6
            });
            match here {
                Some(index) => {
                    most[index] = most[index].max(out);
                    if out < 0.001 - 2e-5 {
                        missed.push((dancer, count, out, "told where it is not so"));
                    }
                }
                None if out > 0.001 + 2e-5 => missed.push((dancer, count, out, "not told")),
                None => {}
            }
        });
        prop_assert!(missed.is_empty(), "{:?} {:?}", missed.first(), found);
        for (fault, most) in found.iter().zip(most) {
            prop_assert!(fault.value >= most - 0.000_06, "{most} {fault:?}");
            let dancer = fault.dancers[0].dancer().index();
            let pose = motion.pose(Dancer(dancer), fault.counts());
            // The moment is told to a thousandth of a count.
            let rounded = 0.002 + sharp * 256.0 * 0.001;
            prop_assert!((out(pose.x, pose.y) - fault.value).abs() <= rounded, "{pose:?} {fault:?}");
            let (x, y) = fault.spot.unwrap();
            prop_assert!((out(x, y) - fault.value).abs() < 0.000_06);
        }
    }

    /// The space of a random dance holds it, and is no larger than the sharpest corner may hide.
    #[test]
    fn space_holds_any_dance(legs in (any_leg(0), any_leg(1), any_leg(2), any_leg(3))) {
        let mut dance = one_dances(vec![legs.0, legs.1, legs.2, legs.3]);
        dance.order.pop();
        prop_assume!(check_rules(&dance).is_ok());
        let motion = motion_of(&dance, None).unwrap();
        let space = space_needed(&dance, &motion);
        let [left, bottom, right, top] = space.edges;
        dance.floor = Some(floor(left, bottom, right, top));
        prop_assert!(find_faults(&dance, &motion).iter().all(|fault| fault.kind != FaultKind::Room));
        let reach = dance.limits.reach(dance.holding);
        let mut outside = 0;
        each_place(&motion, |_, _, x, y| {
            if x - reach < left - 1e-9 || x + reach > right + 1e-9 || y - reach < bottom - 1e-9 || y + reach > top + 1e-9 {
                outside += 1;
            }
            if !is_inside(&space, reach, x, y) {
                outside += 1;
            }
        });
        prop_assert_eq!(outside, 0);
    }
}
