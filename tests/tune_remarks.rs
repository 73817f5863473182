//! Whatever a tune has (ABC 2.1, whose sections stand beside) is played, or drawn, or told by its line.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{PlayedTune, Score, Tune, TuneRemark};

/// A tune whose sixth line is this one, and whose head has something more.
fn tune(more: &str, notes: &str) -> String {
    format!("X:1\n{more}\nM:2/4\nL:1/8\nK:G\n{notes}\n")
}

fn told(more: &str, notes: &str) -> Vec<TuneRemark> {
    Tune::read(&tune(more, notes)).unwrap().told
}

/// What is in order and is neither played nor drawn.
#[test]
fn what_is_left_out_is_told_by_line_and_is_nothing_odd() {
    for (section, notes, said) in [
        ("4.12", "GB {cd}dB|cA G2|]", "grace notes"),
        ("4.11", "(GB d)B|cA G2|]", "slurs"),
        ("4.14", ".G.B dB|cA G2|]", "staccato"),
        ("4.14", "GB dB|cA HG2|]", "fermatas"),
        ("4.14", "GB ~d2|cA G2|]", "rolls"),
        ("4.14", "GB Td2|cA G2|]", "trills"),
        ("4.14", "uGvB dB|cA G2|]", "bows"),
        ("4.14", "GB !trill!dB|cA G2|]", "trill"),
        ("4.14", "GB +fermata+dB|cA G2|]", "fermata"),
        ("4.19", "\"^slowly\"GB dB|cA G2|]", "annotations"),
        ("7.4", "GB dB & G4|cA G2|]", "what & lays over a bar"),
        ("7", "GB dB|cA G2|]\nV:2\nG,4|D4|]", "the voice 2"),
        ("7.3", "[V:1] GB dB|cA G2|]\n[V:low] G,4|D4|]", "the voice low"),
        ("5.1", "GB dB|cA G2|]\nw:la la", "words under the notes"),
        ("5.1", "GB dB|cA G2|]\nW:la la", "words after the tune"),
        ("4.15", "GB dB|cA G2|]\ns:!f! *", "a line of signs"),
        ("3.1.8", "GB dB|[Q:1/4=60]cA G2|]", "change of speed"),
        ("4.6", "[K:G clef=bass]GB dB|cA G2|]", "clef=bass"),
        ("4.16", "GB dB|cA G2|]\nU:T=!trill!", "U:"),
    ] {
        let told = told("T:Told", notes);
        let line = 6 + usize::from(notes.contains('\n'));
        let found = told.iter().filter(|remark| remark.said.contains(said)).collect::<Vec<_>>();
        assert_eq!(found.len(), 1, "{section} {notes}: {told:?}");
        assert_eq!((found[0].line, found[0].is_odd), (line, false), "{section} {notes}: {told:?}");
        assert_eq!(told.len(), 1, "{section} {notes}: {told:?}");
    }
}

/// Several of one line are one remark.
#[test]
fn what_a_line_has_is_told_together() {
    let told = told("T:Told", "{c}(GB) .dB|~c2 {B}G2|]");
    assert_eq!(told.len(), 1);
    assert_eq!(told[0].to_string(), "line 6: not played or drawn: grace notes, slurs, staccato and rolls");
}

/// What is odd is told as that.
#[test]
fn what_is_wrong_is_told_as_odd() {
    for (notes, said) in [
        ("GB dB|c^|G4|]", "accidental"),
        ("GB dB|cA >G2|]\n: G4|]", "stands by itself"),
        ("GB dB|cA G|G4|]", "too short"),
        ("GB dB|cA G2A|G4|]", "too long"),
        ("GB dB|(0cA G2|]", "no tuplet"),
        ("GB {cd dB|cA G2|]", "has no }"),
        ("M:soon\nGB dB|cA G2|]", "no metre"),
        ("GB dB\u{2603}|cA G2|]", "not part of a tune"),
    ] {
        let told = told("T:Told", notes);
        let found = told.iter().find(|remark| remark.said.contains(said));
        assert!(found.is_some_and(|remark| remark.is_odd && remark.line >= 6), "{notes}: {told:?}");
    }
}

/// What is played or drawn is not told.
#[test]
fn what_is_played_or_drawn_is_not_told() {
    for (section, more, notes) in [
        ("3.1.9", "P:AAB", "P:A\nGB dB|cA G2|]\nP:B\ndB GB|c2 G2|]"),
        ("4.10", "T:Endings", "|:GB dB|[1,3 cA F2:|[2,4 cA G2:|"),
        ("4.18", "T:Chords", "\"G\"GB \"D7\"dB|\"C\"cA \"G\"G2|]"),
        ("3.1.6", "T:Metre", "GB dB|[M:3/4]cA G2 F2|[M:2/4]G4|]"),
        ("3.1.14", "T:Key", "GB dB|[K:D]cA F2|D4|]"),
        ("3.1.7", "T:Unit", "GB dB|[L:1/4]cA|G2|]"),
        ("4.11", "T:Ties", "GB d2-|dA G2|]"),
        ("4.13", "T:Tuplets", "(3GAB dB|cA G2|]"),
        ("4.17", "T:Chords", "[GB]2 dB|cA G2|]"),
        ("4.5", "T:Rests", "Gz x2|Z|G4|]"),
        ("6.1.2", "T:Room", "GB y dB|cA G2|]"),
    ] {
        assert_eq!(told(more, notes), [], "{section} {notes}");
    }
    let keys = |more: &str, notes: &str| -> Vec<u8> {
        PlayedTune::read(&tune(more, notes)).unwrap().notes.iter().map(|note| note.key).collect()
    };
    assert_eq!(keys("P:ABA", "P:A\nG4|]\nP:B\nd4|]"), [67, 74, 67]);
    assert_eq!(keys("T:Ends", "|:G4|[1,3 A4:|[2,4 B4:|"), [67, 69, 67, 71, 67, 69, 67, 71]);
    let score = Score::read(&tune("T:Drawn", "\"Em\"GB dB|[K:D][M:3/4]cA F2 D2|]")).unwrap();
    assert_eq!((score.bars[0].items[0].chord.as_str(), score.bars[0].sharps), ("Em", 1));
    assert_eq!((score.bars[1].metre, score.bars[1].sharps), ((3, 4), 2));
}

/// An accidental is for its letter in all octaves (11.3), and on a stave for its own alone: there it is written again.
#[test]
fn an_accidental_in_another_octave_is_written_where_it_sounds() {
    let score = Score::read(&tune("T:Octaves", "^cC =c2|Cc c'2|]")).unwrap();
    let signs: Vec<Option<i32>> =
        score.bars.iter().flat_map(|bar| &bar.items).map(|item| item.heads[0].accidental).collect();
    assert_eq!(signs, [Some(1), Some(1), Some(0), None, None, None]);
    // A tie carries its accidental over the bar line, without a second sign, and no further.
    let score = Score::read(&tune("T:Tied", "G2 ^c2-|c2 c2|]")).unwrap();
    let tied: Vec<Option<i32>> = score.bars[1].items.iter().map(|item| item.heads[0].accidental).collect();
    assert_eq!(tied, [None, None]);
    let keys: Vec<u8> = PlayedTune::read(&tune("T:Tied", "G2 ^c2-|c2 c2|]"))
        .unwrap()
        .notes
        .iter()
        .map(|note| note.key)
        .collect();
    assert_eq!(keys, [67, 73, 72]);
}
