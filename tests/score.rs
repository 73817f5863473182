//! The tune as notes on staves: what is kept of the ABC text, how it is beamed, and how it is laid out.
//!
//! Sources: the ABC standard 2.1 (abcnotation.com, December 2011), whose sections are named beside each check; the
//! abc-parser crate as another reader of the same text. Engraving practice is from memory where nothing else is said.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use abc_parser::datatypes::{Accidental, MusicSymbol, Note, TuneLine};
use bellpad::dance::{BarEnd, Head, Length, Score, ScoreBar, ScoreItem, Tune, read};
use bellpad::figures::motion_of;
use bellpad::handout::{SheetChoice, notebook};
use bellpad::picture::{Mark, PAPER, System, beam_groups, engrave, marks_to_rgb, rgb_to_png};
use common::samples;
use proptest::prelude::*;
use std::fs;

/// Every kind of thing that stands on a stave, some of it nasty.
const NASTY: &str = "X:1\nT:Nasty\nM:6/8\nL:1/8\nK:Eb\nP:A\nB,|:\"Eb\"E2G B^c=d|\"Ab\"{g}c>de (3fga g|[EGB]2[FA] [Bc]3|A5-A|1 \"Bb7\"B,C/D/E/F/ Gzz:|2 (5bagfe d3||\n\
P:B\n[K:D]|:[M:3/4]d2 e3/f/ z2|A,4-A,/B,/C/D/|[M:4/4]a'2 c''2 z4|BAGF E2 ^^F2|__B2 =B2 z/c/z/d/ e>f-|f8|z8|[df]2 [eg-]2 [A-g]2 A2|(3:2:2a2b (3c'd'e' x2 z2|D>E F<G A//B//c//d// e//f//g//a// g2|z2 d6-|d2 A4 D2|]\n";

/// The tunes of the dances that come with the program.
fn tunes() -> Vec<(String, String)> {
    let dances = samples().into_iter().map(|path| read(&fs::read(path).unwrap()).unwrap());
    dances.map(|dance| (dance.title, dance.music.abc)).collect()
}

fn score(abc: &str) -> Score {
    Score::read(abc).unwrap_or_else(|error| panic!("{abc}\n{error}"))
}

/// The notes of one bar of a metre.
fn bar_of(metre: &str, notes: &str) -> ScoreBar {
    score(&format!("X:1\nM:{metre}\nL:1/8\nK:C\n{notes}|\n")).bars.remove(0)
}

fn length(top: u64, bottom: u64) -> Length {
    Length::of(top, bottom).unwrap()
}

fn sum(lengths: impl Iterator<Item = Length>) -> Length {
    lengths.fold(Length::NOTHING, |sum, length| sum.plus(length).unwrap())
}

/// Part of a whole note and dots, of each item.
fn values(bar: &ScoreBar) -> Vec<(u64, u32)> {
    bar.items.iter().map(|item| (item.value.part, item.value.dots)).collect()
}

/// The heads of a text as the other reader has them: steps above middle C, and semitones where an accidental is written.
fn other_heads(symbols: &[MusicSymbol], heads: &mut Vec<(i32, Option<i32>)>) {
    for symbol in symbols {
        match symbol {
            MusicSymbol::Note { accidental, note, octave, .. } => {
                let letter = match note {
                    Note::C => 0,
                    Note::D => 1,
                    Note::E => 2,
                    Note::F => 3,
                    Note::G => 4,
                    Note::A => 5,
                    Note::B => 6,
                };
                let semitones = accidental.map(|accidental| match accidental {
                    Accidental::Natural => 0,
                    Accidental::Sharp => 1,
                    Accidental::Flat => -1,
                    Accidental::DoubleSharp => 2,
                    Accidental::DoubleFlat => -2,
                });
                heads.push((7 * (i32::from(*octave) - 1) + letter, semitones));
            }
            MusicSymbol::Chord { notes, .. } => other_heads(notes, heads),
            MusicSymbol::BrokenRhythm { before, after, .. } => {
                other_heads(before, heads);
                other_heads(after, heads);
            }
            _ => {}
        }
    }
}

fn heads(score: &Score) -> impl Iterator<Item = &Head> {
    score.bars.iter().flat_map(|bar| &bar.items).flat_map(|item| &item.heads)
}

/// Letters, octaves and accidentals (4.1, 4.2) as another reader of ABC has them.
#[test]
fn heads_are_where_another_reader_has_them() {
    let more = "X:1\nT:More\nM:4/4\nL:1/8\nK:F\nC,D,,E'f''|^C_D=E^^F __G2 [CEG]2|c>d e<f (3gab c'2|\n";
    let mut all = tunes();
    all.push(("More".to_owned(), more.replace("C,D,,E'f''|", "C,2D,,2E'2f''2|")));
    for (title, abc) in all {
        let book = abc_parser::abc::tune_book(&abc).unwrap();
        let mut other = Vec::new();
        for line in &book.tunes[0].body.as_ref().unwrap().lines {
            if let TuneLine::Music(line) = line {
                other_heads(&line.symbols, &mut other);
            }
        }
        let own: Vec<_> = heads(&score(&abc)).map(|head| (head.step, head.accidental)).collect();
        assert!(own.len() > 15, "{title}");
        assert_eq!(own, other, "{title}");
    }
}

/// What is written, read back as a musician would: the signature, then the accidentals of the bar (4.2, 3.1.14), must
/// give the keys that are sounded.
#[test]
fn what_is_written_sounds_as_what_is_played() {
    const SEMITONES: [i32; 7] = [0, 2, 4, 5, 7, 9, 11];
    let more = "X:1\nM:2/4\nL:1/8\nK:Ab\n^A,A, AD|A,=ddD|[K:E]F^^Ff_F|d__d [Bd^f]2|\n";
    let mut all = tunes();
    all.push(("More".to_owned(), more.to_owned()));
    for (title, abc) in all {
        let score = score(&abc);
        let mut keys = Vec::new();
        for bar in &score.bars {
            let mut held: Vec<(i32, i32)> = Vec::new();
            // Sharps come in the order F C G D A E B, flats the other way.
            let order = "FCGDAEB";
            let order: String = if bar.sharps < 0 { order.chars().rev().collect() } else { order.to_owned() };
            let signed = &order[..bar.sharps.unsigned_abs() as usize];
            for head in bar.items.iter().flat_map(|item| &item.heads) {
                let letter = head.step.rem_euclid(7) as usize;
                let name = ['C', 'D', 'E', 'F', 'G', 'A', 'B'][letter];
                if let Some(semitones) = head.accidental {
                    held.insert(0, (head.step, semitones));
                }
                let of_key = if signed.contains(name) { bar.sharps.signum() } else { 0 };
                let own = held.iter().find(|(step, _)| *step == head.step).map_or(of_key, |(_, own)| *own);
                keys.push(60 + 12 * head.step.div_euclid(7) + SEMITONES[letter] + own);
            }
        }
        let tune = Tune::read(&abc).unwrap();
        let mut played: Vec<(usize, f64, i32)> = Vec::new();
        for (index, strain) in tune.strains.iter().enumerate() {
            played.extend(strain.notes.iter().map(|note| (index, note.begin, i32::from(note.key))));
        }
        assert_eq!(keys, played.iter().map(|(_, _, key)| *key).collect::<Vec<_>>(), "{title}");
    }
}

/// The table of 3.1.14: seven modes for each key signature; and what is drawn of it, which stands in the order in which
/// sharps and flats come, at the usual height under a treble clef (from memory).
#[test]
fn every_key_has_its_signature_and_it_is_drawn() {
    const TABLE: [(i32, &str); 15] = [
        (7, "C# A#m G#Mix D#Dor E#Phr F#Lyd B#Loc"),
        (6, "F# D#m C#Mix G#Dor A#Phr BLyd E#Loc"),
        (5, "B G#m F#Mix C#Dor D#Phr ELyd A#Loc"),
        (4, "E C#m BMix F#Dor G#Phr ALyd D#Loc"),
        (3, "A F#m EMix BDor C#Phr DLyd G#Loc"),
        (2, "D Bm AMix EDor F#Phr GLyd C#Loc"),
        (1, "G Em DMix ADor BPhr CLyd F#Loc"),
        (0, "C Am GMix DDor EPhr FLyd BLoc"),
        (-1, "F Dm CMix GDor APhr BbLyd ELoc"),
        (-2, "Bb Gm FMix CDor DPhr EbLyd ALoc"),
        (-3, "Eb Cm BbMix FDor GPhr AbLyd DLoc"),
        (-4, "Ab Fm EbMix BbDor CPhr DbLyd GLoc"),
        (-5, "Db Bbm AbMix EbDor FPhr GbLyd CLoc"),
        (-6, "Gb Ebm DbMix AbDor BbPhr CbLyd FLoc"),
        (-7, "Cb Abm GbMix DbDor EbPhr FbLyd BbLoc"),
    ];
    for (sharps, keys) in TABLE {
        for key in keys.split(' ') {
            let score = score(&format!("X:1\nM:4/4\nL:1/4\nK:{key}\nGGGG|\n"));
            assert_eq!(score.sharps(), sharps, "{key}");
            let system = engrave(&score, 400.0, 10.0, PAPER.words).remove(0);
            // A clef, the signature, the two figures of the metre, and four heads.
            let drawn = outlines(&system);
            assert_eq!(drawn.len(), 7 + sharps.unsigned_abs() as usize, "{key}");
            let signs = &drawn[1..=sharps.unsigned_abs() as usize];
            assert!(signs.is_sorted_by(|one, other| one[0] < other[0] && one[2] < other[2] + 1.0));
            if sharps > 0 {
                let top = system.stave[1];
                // F5 C5 G5 D5 A4 E5 B4: steps below the top line, which is F5, half a space each.
                for (sign, steps) in signs.iter().zip([0.0, 3.0, -1.0, 2.0, 5.0, 1.0, 4.0]) {
                    let middle = f32::midpoint(sign[1], sign[3]);
                    assert!((middle - top - steps * 5.0).abs() < 0.5, "{key}: {sign:?}");
                }
            }
        }
    }
}

/// The boxes round what a system has of outlines, in the order in which they are drawn.
fn outlines(system: &System) -> Vec<[f32; 4]> {
    let outlines = system.marks.iter().filter_map(|mark| match mark {
        Mark::Outline { loops, .. } => Some(loops.iter().flatten()),
        _ => None,
    });
    let boxes = outlines.map(|points| {
        points.fold([f32::MAX, f32::MAX, f32::MIN, f32::MIN], |edge, [x, y]| {
            [edge[0].min(*x), edge[1].min(*y), edge[2].max(*x), edge[3].max(*y)]
        })
    });
    boxes.collect()
}

/// Lengths (4.3), broken rhythm (4.4), rests (4.5), tuplets (4.13) and ties (4.11).
#[test]
fn lengths_are_written_as_notes_with_dots() {
    assert_eq!(values(&bar_of("4/4", "A/A/AA2A3A")), [(16, 0), (16, 0), (8, 0), (4, 0), (4, 1), (8, 0)]);
    assert_eq!(values(&bar_of("4/4", "A6z3/A//A//")), [(2, 1), (8, 1), (32, 0), (32, 0)]);
    assert_eq!(values(&bar_of("4/4", "A7A")), [(2, 2), (8, 0)]);
    assert_eq!(values(&bar_of("4/4", "A8")), [(1, 0)]);
    assert_eq!(values(&bar_of("2/4", "A>B c<d")), [(8, 1), (16, 0), (16, 0), (8, 1)]);
    assert_eq!(values(&bar_of("2/4", "A>>B c2")), [(8, 2), (32, 0), (4, 0)]);
    // What no note is long enough for is tied, in 6/8 from beat to beat.
    let tied = bar_of("4/4", "A5A3");
    assert_eq!(values(&tied), [(2, 0), (8, 0), (4, 1)]);
    assert_eq!(tied.items.iter().map(|item| item.heads[0].is_tied).collect::<Vec<_>>(), [true, false, false]);
    assert_eq!(values(&bar_of("6/8", "A5A")), [(4, 1), (4, 0), (8, 0)]);
    assert_eq!(values(&bar_of("6/8", "AA5")), [(8, 0), (4, 0), (4, 1)]);
    // Three in the time of two, five of 6/8 in the time of three; the notes keep the shape that is written.
    let three = bar_of("2/4", "(3ABc d2");
    assert_eq!(values(&three), [(8, 0), (8, 0), (8, 0), (4, 0)]);
    assert!(three.items[..3].iter().all(|item| item.length == length(1, 12)));
    let place = |item: &ScoreItem| item.tuplet.map(|place| (place.number, place.is_first, place.is_last));
    let places: Vec<_> = three.items.iter().map(place).collect();
    assert_eq!(
        places,
        [Some((3, true, false)), Some((3, false, false)), Some((3, false, true)), None],
        "the tuplet ends where it is full"
    );
    assert!(bar_of("6/8", "(5ABcde f3").items[..5].iter().all(|item| item.length == length(3, 40)));
    let hidden = bar_of("2/4", "z2x2");
    assert_eq!(hidden.items.iter().map(|item| item.is_hidden).collect::<Vec<_>>(), [false, true]);
    let chord = bar_of("2/4", "\"Am\"[A^c-e]2-\"^loud\"[Ac]2");
    assert_eq!((chord.items[0].chord.as_str(), chord.items[1].chord.as_str()), ("Am", ""));
    let heads: Vec<_> =
        chord.items[0].heads.iter().map(|head| (head.step, head.accidental, head.is_tied)).collect();
    assert_eq!(heads, [(5, None, true), (7, Some(1), true), (9, None, true)]);
    // In a chord each note has its own tie (4.17).
    let own = bar_of("2/4", "[Ac-]2[Ac]2");
    assert_eq!(own.items[0].heads.iter().map(|head| head.is_tied).collect::<Vec<_>>(), [false, true]);
}

/// Bar lines (4.8), endings (4.9, 4.10), parts (3.1.9) and lines of the text (6.1.1).
#[test]
fn bar_lines_endings_and_parts_are_kept() {
    let score = score("X:1\nM:2/4\nL:1/8\nK:C\nP:A\nG2|:A4|B4|1,3 c4:|2 d4||\nP:B\n|:e4|f4::g4|a4|]\n");
    let bars: Vec<_> =
        score.bars.iter().map(|bar| (bar.number, bar.repeats, bar.end, bar.ending.as_deref())).collect();
    assert_eq!(
        bars,
        [
            (0, false, BarEnd::Single, None),
            (1, true, BarEnd::Single, None),
            (2, false, BarEnd::Single, None),
            (3, false, BarEnd::Repeat, Some("1,3")),
            (4, false, BarEnd::Double, Some("2")),
            (5, true, BarEnd::Single, None),
            (6, false, BarEnd::Repeat, None),
            (7, true, BarEnd::Single, None),
            (8, false, BarEnd::Final, None),
        ]
    );
    assert_eq!(score.bars[0].part.as_deref(), Some("A"));
    assert_eq!(score.bars[5].part.as_deref(), Some("B"));
    let breaks: Vec<usize> = (0..9).filter(|index| score.bars[*index].breaks).collect();
    assert_eq!(breaks, [4, 8]);
    // An upbeat stands at the end of the bar that it is part of.
    assert_eq!(score.bars[0].from, length(1, 4));
}

#[test]
fn every_bar_adds_up() {
    let mut all = tunes();
    all.push(("Nasty".to_owned(), NASTY.to_owned()));
    for (title, abc) in all {
        let score = score(&abc);
        let mut sums: Vec<(u32, Length, (u64, u64))> = Vec::new();
        for bar in &score.bars {
            let mut at = Length::NOTHING;
            for item in &bar.items {
                assert_eq!(item.begin, at, "{title}, bar {}", bar.number);
                at = at.plus(item.length).unwrap();
                if item.tuplet.is_none() {
                    assert_eq!(item.value.length(), item.length, "{title}, bar {}", bar.number);
                }
            }
            assert_eq!(at, bar.length, "{title}, bar {}", bar.number);
            match sums.last_mut().filter(|last| last.0 == bar.number) {
                Some(last) => last.1 = last.1.plus(bar.length).unwrap(),
                None => sums.push((bar.number, bar.length, bar.metre)),
            }
        }
        for (number, sum, (beats, each)) in sums {
            let full = length(beats, each);
            assert!(if number == 0 { sum < full } else { sum == full }, "{title}, bar {number}: {sum:?}");
        }
        assert_eq!(score.bars[0].number, 0, "{title} has an upbeat");
    }
}

/// The beams of notes with and without spaces between them (4.7), a beat at a time.
#[test]
fn beams_hold_a_beat() {
    for (metre, notes, groups) in [
        ("6/8", "GAB d2B", vec![vec![0, 1, 2]]),
        ("6/8", "ABcdef", vec![vec![0, 1, 2], vec![3, 4, 5]]),
        ("6/8", "AB cde f", vec![vec![0, 1], vec![3, 4]]),
        ("9/8", "ABcdefgab", vec![vec![0, 1, 2], vec![3, 4, 5], vec![6, 7, 8]]),
        ("3/4", "ABcdef", vec![vec![0, 1], vec![2, 3], vec![4, 5]]),
        ("2/4", "ABcd", vec![vec![0, 1], vec![2, 3]]),
        ("2/4", "A/B/c/d/ef", vec![vec![0, 1, 2, 3], vec![4, 5]]),
        ("4/4", "ABcdefga", vec![vec![0, 1, 2, 3], vec![4, 5, 6, 7]]),
        ("4/4", "AB cd ef ga", vec![vec![0, 1], vec![2, 3], vec![4, 5], vec![6, 7]]),
        ("4/4", "ABc/d/e fgab", vec![vec![0, 1], vec![2, 3, 4], vec![5, 6, 7, 8]]),
        ("4/4", "AzBc d2ef", vec![vec![2, 3], vec![5, 6]]),
        ("4/4", "A3B c4", vec![]),
        // A back quote is no space (4.7).
        ("2/4", "A`B c2", vec![vec![0, 1]]),
        ("2/4", "(3ABcd2", vec![vec![0, 1, 2]]),
    ] {
        let bar = bar_of(metre, notes);
        assert_eq!(beam_groups(&bar), groups, "{metre} {notes}");
    }
}

/// A beam never leaves its beat, holds no rest and no long note, and spans no space.
fn check_beams(score: &Score) {
    for bar in &score.bars {
        let (beats, each) = bar.metre;
        let dotted = beats > 3 && beats % 3 == 0 && each >= 8;
        for group in beam_groups(bar) {
            assert!(group.len() > 1 && group.windows(2).all(|pair| pair[1] == pair[0] + 1), "{group:?}");
            let items: Vec<&ScoreItem> = group.iter().map(|index| &bar.items[*index]).collect();
            assert!(items.iter().all(|item| !item.heads.is_empty() && item.value.part >= 8));
            assert!(items[1..].iter().all(|item| item.is_joined));
            let is_plain = items.iter().all(|item| item.value.part == 8);
            let beat = match (beats, each) {
                _ if dotted => length(3, each),
                (4, 4) | (2, 2) if is_plain => length(1, 2),
                _ => length(1, 4),
            };
            let place = |item: &ScoreItem| (bar.from.plus(item.begin).unwrap().share_of(beat) + 1e-9).floor();
            assert!(items.iter().all(|item| place(item) == place(items[0])), "bar {}: {group:?}", bar.number);
        }
    }
}

#[test]
fn beams_of_the_tunes_never_leave_their_beats() {
    let mut beams = 0;
    for (_, abc) in tunes() {
        let score = score(&abc);
        check_beams(&score);
        beams += score.bars.iter().map(|bar| beam_groups(bar).len()).sum::<usize>();
    }
    assert!(beams > 60, "{beams}");
    check_beams(&score(NASTY));
}

/// Checks that systems fit a width, that nothing on them collides, and that every note is there once.
fn check_layout(score: &Score, systems: &[System], width: f32) -> Result<(), TestCaseError> {
    for (index, system) in systems.iter().enumerate() {
        prop_assert!(system.size[0] <= width + 0.01, "system {} is {} wide", index + 1, system.size[0]);
        if index + 1 < systems.len() {
            // All but the last reach the right edge, where their last bar line stands.
            prop_assert!((system.size[0] - width).abs() < 0.05, "{} of {width}", system.size[0]);
        }
        prop_assert!(system.bar_lines.is_sorted());
        for (place, (bar, item, one)) in system.boxes.iter().enumerate() {
            prop_assert!(one[0] >= -0.01 && one[2] <= system.size[0] + 0.01, "{one:?}");
            prop_assert!(one[1] >= -0.01 && one[3] <= system.size[1] + 0.01, "{one:?}");
            for (other_bar, other_item, other) in &system.boxes[place + 1..] {
                if (bar, item) != (other_bar, other_item) {
                    let apart = one[2] <= other[0] + 0.01
                        || other[2] <= one[0] + 0.01
                        || one[3] <= other[1] + 0.01
                        || other[3] <= one[1] + 0.01;
                    prop_assert!(apart, "bar {bar}: {one:?} and {other:?}");
                }
            }
        }
    }
    let drawn: usize = systems.iter().map(|system| system.boxes.len()).sum();
    let items = || score.bars.iter().flat_map(|bar| &bar.items);
    let rests = items().filter(|item| item.heads.is_empty() && !item.is_hidden).count();
    let accidentals = heads(score).filter(|head| head.accidental.is_some()).count();
    prop_assert_eq!(drawn, heads(score).count() + rests + accidentals);
    Ok(())
}

/// With `BELLPAD_SCREENSHOTS` set to a folder the systems are kept there as a picture.
fn keep_picture(name: &str, systems: &[System], width: f32) {
    let Ok(folder) = std::env::var("BELLPAD_SCREENSHOTS") else { return };
    let (mut marks, mut y) = (Vec::new(), 20.0);
    for system in systems {
        marks.extend(system.marks.iter().cloned().map(|mark| mark.placed(1.0, [20.0, y])));
        y += system.size[1];
    }
    let size = [width + 40.0, y + 20.0];
    let pixels = size.map(|length| length as u32 * 2);
    let rgb = marks_to_rgb(size, pixels.into(), PAPER.floor, &marks).unwrap();
    let png = rgb_to_png(&rgb, pixels.into(), (name, ""), None).unwrap();
    fs::write(format!("{folder}/{name}.png"), png).unwrap();
}

#[test]
fn systems_fit_and_nothing_collides() {
    let mut all = tunes();
    all.push(("Nasty".to_owned(), NASTY.to_owned()));
    for (title, abc) in all {
        let score = score(&abc);
        for (width, space) in [(680.0, 6.0), (516.0, 4.4), (300.0, 6.0), (180.0, 6.0)] {
            let systems = engrave(&score, width, space, PAPER.words);
            check_layout(&score, &systems, width).unwrap_or_else(|error| panic!("{title}, {width}: {error}"));
            keep_picture(&format!("{title} {width}"), &systems, width);
        }
        // Five lines each, so long and so far apart as is said.
        for system in engrave(&score, 680.0, 6.0, PAPER.words) {
            let lines = system.marks.iter().filter(|mark| match mark {
                Mark::Line { points, .. } => points[1][0] - points[0][0] > system.size[0] - 1.0,
                _ => false,
            });
            assert_eq!(lines.count(), 5);
            assert!((system.stave[3] - system.stave[1] - 24.0).abs() < 1e-3);
        }
    }
}

/// The lines of the text are those of the tune where they fit (6.1.1), and bars stay whole where they do not.
#[test]
fn lines_of_the_text_are_kept_where_they_fit() {
    let (_, geese) = tunes().into_iter().find(|(title, _)| title == "Nine Geese Home").unwrap();
    let score = score(&geese);
    let stretches = |width: f32| -> Vec<_> {
        engrave(&score, width, 4.4, PAPER.words).iter().map(|it| it.bars).collect()
    };
    assert_eq!(stretches(516.0), [(0, 5), (5, 9), (9, 13), (13, 17)]);
    let narrow = stretches(220.0);
    assert!(narrow.len() >= 6 && narrow.windows(2).all(|pair| pair[0].1 == pair[1].0), "{narrow:?}");
    assert_eq!((narrow[0].0, narrow.last().unwrap().1), (0, 17));
    // A backslash joins two lines.
    let joined = geese.replace("E2 D2E", "EGE D2E").replace("G3 G2D:|\n|:", "G3 G2D:|\\\n|:");
    assert_ne!(joined, geese);
    let joined = Score::read(&joined).unwrap();
    assert_eq!(joined.bars.iter().filter(|bar| bar.breaks).count(), 3);
}

#[test]
fn the_notebook_has_the_notes_over_the_text() {
    let choice = SheetChoice { abc: true, ..SheetChoice::default() };
    let [left, top, right, bottom] = choice.paper.inside();
    for path in samples() {
        let mut dance = read(&fs::read(&path).unwrap()).unwrap();
        let of = |dance: &bellpad::dance::Dance| {
            let motion = motion_of(dance, None).unwrap();
            notebook(&[(dance.clone(), motion)], &choice, &mut |_, _| true)
        };
        let outlines = |book: &bellpad::handout::Handout| -> usize {
            // The handkerchiefs of the stepping are outlines too.
            let pages = book.pages.iter().filter(|page| !page.title.contains("stepping"));
            let marks = pages.flat_map(|page| &page.marks);
            // So are the stars where sticks and hands meet, of eight corners.
            let star = |loops: &[Vec<[f32; 2]>]| loops.len() == 1 && loops[0].len() == 8;
            marks.filter(|mark| matches!(mark, Mark::Outline { loops, .. } if !star(loops))).count()
        };
        let book = of(&dance);
        assert!(outlines(&book) > 60, "{}", dance.title);
        for page in &book.pages {
            for mark in &page.marks {
                if let Mark::Outline { loops, .. } = mark {
                    for [x, y] in loops.iter().flatten() {
                        assert!(
                            *x >= left - 0.1 && *x <= right + 0.1 && *y >= top && *y <= bottom,
                            "{x} {y}"
                        );
                    }
                }
            }
        }
        let words = |book: &bellpad::handout::Handout| -> String {
            book.pages.iter().map(|page| page.text() + "\n").collect()
        };
        assert!(!words(&book).contains("cannot be drawn"));
        // A tune of many lines goes on over the pages.
        let body: Vec<&str> = dance.music.abc.lines().filter(|line| line.contains('|')).collect();
        let (body, whole) = (body.join("\n") + "\n", dance.music.abc.clone());
        dance.music.abc = whole.replace(&body, &body.repeat(12));
        let long = of(&dance);
        assert!(long.pages.len() > book.pages.len() + 1, "{}", dance.title);
        let pages = long
            .pages
            .iter()
            .filter(|page| page.marks.iter().any(|mark| matches!(mark, Mark::Outline { .. })));
        assert!(pages.count() > 1);
        // What cannot be read is said, and the text is there as it was.
        dance.music.abc = whole.replacen("K:", "Q:", 1);
        let broken = of(&dance);
        assert_eq!(outlines(&broken), 0);
        assert!(words(&broken).contains("The notes cannot be drawn: line "), "{}", words(&broken));
        dance.music.abc = String::new();
        let without = of(&dance);
        assert_eq!(outlines(&without), 0);
        assert!(!words(&without).contains("cannot be drawn"));
    }
}

/// Notes that fill bars of eight units, from a row of numbers.
fn random_tune(numbers: &[u16]) -> String {
    const LETTERS: [&str; 16] =
        ["C,", "G,", "B,", "C", "D", "E", "F", "G", "A", "B", "c", "d", "e", "f", "b", "e''"];
    const MARKS: [&str; 8] = ["", "", "", "", "^", "_", "=", "^^"];
    let mut abc = "X:1\nM:4/4\nL:1/8\nK:Eb\n".to_owned();
    let mut left = 16_u16;
    for (index, number) in numbers.iter().enumerate() {
        let pick = |shift: u32, many: u16| (number >> shift) % many;
        let halves = [1, 1, 2, 2, 3, 4, 6, 8, 16][usize::from(pick(0, 9))].min(left);
        let mark = MARKS[usize::from(pick(4, 8))];
        let letter = LETTERS[usize::from(pick(7, 16))];
        let other = LETTERS[usize::from(pick(5, 16))];
        match pick(11, 8) {
            0 => abc.push('z'),
            1 => abc.push_str(&format!("[{mark}{letter}{other}]")),
            2 => abc.push_str(&format!("\"Gm\"{mark}{letter}")),
            _ => abc.push_str(&format!("{mark}{letter}")),
        }
        abc.push_str(&format!("{halves}/2"));
        abc.push_str(["", " ", "-"][usize::from(pick(13, 3))]);
        left -= halves;
        if left == 0 {
            abc.push('|');
            left = 16;
            if index % 7 == 0 {
                abc.push('\n');
            }
        }
    }
    if left < 16 {
        abc.push_str(&format!("z{left}/2|\n"));
    }
    abc
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_tunes_are_beamed_and_fit(numbers in prop::collection::vec(any::<u16>(), 1..90), wide in 40_u8..160) {
        let abc = random_tune(&numbers);
        let score = Score::read(&abc).unwrap();
        check_beams(&score);
        let width = f32::from(wide) * 5.0;
        check_layout(&score, &engrave(&score, width, 5.0, PAPER.words), width)?;
    }

    #[test]
    fn no_text_is_too_strange(text in "[A-Ga-gzx|:\\[\\]()0-9/,'^_=<>&\"{}\\-\\\\ \nMKLPZ!.~$%1]{0,120}", wide in 0_u16..900) {
        for abc in [text.clone(), format!("X:1\nM:6/8\nL:1/8\nK:D\n{text}\n"), format!("X:1\nM:4/4\nK:C\n|:{text}|\n")] {
            let read = Score::read(&abc);
            prop_assert_eq!(read.is_ok(), Tune::read(&abc).is_ok());
            if let Ok(score) = read {
                let systems = engrave(&score, f32::from(wide), 5.0, PAPER.words);
                for system in &systems {
                    prop_assert!(system.size.iter().all(|length| length.is_finite() && *length > 0.0));
                }
            }
        }
    }

    #[test]
    fn nor_is_any_text_at_all(text in any::<String>()) {
        let _ = Score::read(&text);
        let _ = Score::read(&format!("X:1\nM:2/4\nK:G\n{text}"));
    }
}

#[test]
fn bar_sums_of_random_tunes_are_whole() {
    let numbers: Vec<u16> =
        (0..600_u32).map(|index| (index.wrapping_mul(2_654_435_761) >> 15) as u16).collect();
    let score = score(&random_tune(&numbers));
    assert!(score.bars.len() > 50);
    for bar in &score.bars {
        assert_eq!(sum(bar.items.iter().map(|item| item.length)), length(1, 1), "bar {}", bar.number);
    }
}
