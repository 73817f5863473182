//! Tunes with slips of every kind: each is read or refused, never with a panic, and whatever is said names a line that there is.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{CleanedTunes, Score, Tune};
use proptest::prelude::*;
use proptest::sample::select;
use proptest::test_runner::RngSeed;

/// Tunes of ours that between them use what tunes are made of.
const TUNES: [&str; 4] = [
    "X:1\nT:The Reeds\nM:6/8\nL:1/8\nQ:3/8=104\nK:G\nD|:\"G\"GAB d2B|\"C\"cBA G2A|[1 B2A A2D:|[2 A2G G3|]\n",
    "X:2\nT:Ferry Stairs\nC:ours\nM:4/4\nL:1/8\nP:AABB\nK:D\nP:A\n|:d2>f2 (3agf e2|{g}a2A2 d4:|\nP:B\n|:.d.e~f^g =g_b!trill!a2|[DFA]4 z2 x2:|\n",
    "X:3\nM:C|\nL:1/4\nK:Amix\nV:1\nA B-|B c & E F|\nV:2\nA,2|A,2|\nw:la la_ la\n",
    "X:4\nM:9/8\nQ:3/8=90\nK:Em\nM:6/8\ne3 f3|[Q:3/8=60]g6|\nM:9/8\n\\\ne9|[K:G]g9|]\n%%text end\n",
];

/// A slip: at a share of the text, something is put in, taken out, doubled or swapped.
#[derive(Clone, Debug)]
enum Slip {
    In(f64, &'static str),
    Out(f64, usize),
    Twice(f64, usize),
    Swap(f64, f64),
}

fn slip() -> impl Strategy<Value = Slip> {
    let bits = select(vec![
        "|",
        ":",
        "|:",
        ":|",
        "::",
        "[",
        "]",
        "[1",
        "(",
        ")",
        "(3",
        "(0",
        "{",
        "}",
        "-",
        ">",
        "<<",
        "^",
        "_",
        "=",
        "/",
        "//",
        "99999999999",
        "0",
        "\"",
        "!",
        "+",
        "&",
        "%",
        "\\",
        "\n",
        "\n\n",
        "\r",
        "X:",
        "K:",
        "M:0/0",
        "M:1/128",
        "L:0",
        "V:2\n",
        "P:",
        "Q:",
        "w:",
        "z",
        "Z4096",
        "C,,,,,,,,,,",
        "c''",
        "\u{2603}",
        "\u{202e}",
        "\u{0}",
        " ",
    ]);
    let share = || 0.0..1.0_f64;
    prop_oneof![
        4 => (share(), bits).prop_map(|(at, bit)| Slip::In(at, bit)),
        2 => (share(), 1..12_usize).prop_map(|(at, many)| Slip::Out(at, many)),
        1 => (share(), 1..40_usize).prop_map(|(at, many)| Slip::Twice(at, many)),
        1 => (share(), share()).prop_map(|(one, other)| Slip::Swap(one, other)),
    ]
}

fn slipped(text: &str, slip: &Slip) -> String {
    let mut letters: Vec<char> = text.chars().collect();
    let place = |at: f64, letters: &[char]| ((letters.len() as f64 * at) as usize).min(letters.len());
    match slip {
        Slip::In(at, bit) => {
            let at = place(*at, &letters);
            letters.splice(at..at, bit.chars());
        }
        Slip::Out(at, many) => {
            let at = place(*at, &letters);
            letters.drain(at..(at + many).min(letters.len()));
        }
        Slip::Twice(at, many) => {
            let at = place(*at, &letters);
            let part = letters[at..(at + many).min(letters.len())].to_vec();
            letters.splice(at..at, part);
        }
        Slip::Swap(one, other) => {
            let (one, other) = (place(*one, &letters), place(*other, &letters));
            if one < letters.len() && other < letters.len() {
                letters.swap(one, other);
            }
        }
    }
    letters.into_iter().collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 2_000, failure_persistence: None, rng_seed: RngSeed::Fixed(1883), ..ProptestConfig::default() })]

    #[test]
    fn a_tune_with_slips_is_read_or_refused_by_line(
        which in 0..TUNES.len(),
        slips in prop::collection::vec(slip(), 1..8),
    ) {
        let text = slips.iter().fold(TUNES[which].to_owned(), |text, slip| slipped(&text, slip));
        let lines = text.lines().count().max(1);
        match Tune::read(&text) {
            Ok(tune) => {
                prop_assert!(!tune.strains.is_empty());
                for remark in &tune.told {
                    prop_assert!((1..=lines).contains(&remark.line) && !remark.said.is_empty(), "{remark} of {lines}");
                }
                let times = tune.strains.iter().flat_map(|strain| std::iter::once(&strain.notes).chain(&strain.again));
                for note in times.flatten() {
                    prop_assert!(note.begin.is_finite() && note.length.is_finite() && note.length > 0.0);
                }
                for strain in &tune.strains {
                    prop_assert!(strain.again.iter().all(|notes| notes.is_sorted_by_key(|note| note.begin)));
                    let (counts, speeds) = (strain.bar_counts().counts(), &strain.speeds);
                    prop_assert!(speeds.iter().all(|change| (0.0..counts).contains(&change.count)));
                    prop_assert!(speeds.iter().is_sorted_by(|one, other| one.count < other.count));
                }
                prop_assert!(tune.speed.is_none_or(|speed| speed.is_finite() && speed > 0.0));
            }
            Err(error) => prop_assert!((1..=lines).contains(&error.line) && !error.wrong.is_empty(), "{error} of {lines}"),
        }
        let _ = Score::read(&text);
        // What is cleaned is cleaned once and for all.
        for tune in CleanedTunes::of(&text).tunes {
            let again = CleanedTunes::of(&tune).tunes;
            prop_assert_eq!(again.first(), Some(&tune));
        }
    }
}
