//! Tunes of ours, one for each rule of the ABC standard 2.1 (abcnotation.com, December 2011; its section stands in each), held note for
//! note against what Debian's abcmidi makes of them. What that made is kept beside them, a line a note: onset and length in ticks, of
//! which a crotchet has 480, and key. `.ci/run` asks for the test that runs it again; `BELLPAD_TUNES=write` writes what it makes.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/other_reader.rs"]
#[allow(dead_code)]
mod other_reader;

use bellpad::dance::{PlayedTune, Score, Tune};
use other_reader::{Told, as_the_other_reads, as_we_read, difference};
use std::fs;
use std::path::{Path, PathBuf};

/// Tunes that the other reader has otherwise than the standard does. Beside each of these stands the same tune written out with
/// nothing of what it is about, which both read alike.
const OTHERWISE: [(&str, &str); 6] = [
    ("chord-lengths", "4.17: of the lengths in and after a chord it takes one, not both"),
    ("endings-of-parts", "4.10: it plays all endings each time that the part is played"),
    ("five-in-three-four", "4.13: it takes 3/4 for a compound metre"),
    ("remarks", "2.2.5: it takes a remark for notes"),
    ("repeat-from-double-bar", "4.8: it repeats from the start of the tune"),
    ("three-times", "4.8: it plays what is between |:: and ::| once or twice"),
];

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/tunes")
}

/// Every tune with its name, in order.
fn tunes() -> Vec<(String, String)> {
    let files = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path());
    let mut tunes: Vec<(String, String)> = files
        .filter(|path| path.extension().is_some_and(|ending| ending == "abc"))
        .map(|path| {
            (path.file_stem().unwrap().to_str().unwrap().to_owned(), fs::read_to_string(&path).unwrap())
        })
        .collect();
    tunes.sort();
    tunes
}

fn own(name: &str, abc: &str) -> Vec<Told> {
    as_we_read(&PlayedTune::read(abc).unwrap_or_else(|error| panic!("{name}: {error}")))
}

fn written_out(name: &str) -> String {
    fs::read_to_string(folder().join("written-out").join(format!("{name}.abc"))).unwrap()
}

/// What is kept of the other reader.
fn kept(name: &str) -> Vec<Told> {
    let path = folder().join(format!("{name}.notes"));
    let text = fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let number = |word: &str| word.parse::<u32>().unwrap();
    let line = |line: &str| match line.split(' ').collect::<Vec<_>>()[..] {
        [begin, length, key] => (number(begin), number(length), number(key) as u8),
        _ => panic!("{name}: {line}"),
    };
    text.lines().map(line).collect()
}

fn is_otherwise(name: &str) -> bool {
    OTHERWISE.iter().any(|(other, _)| *other == name)
}

#[test]
fn every_rule_is_read_note_for_note_as_another_reader_has_it() {
    let tunes = tunes();
    assert!(tunes.len() >= 60, "{}", tunes.len());
    let mut differ = Vec::new();
    for (name, abc) in &tunes {
        assert!(abc.contains("% ABC 2.1, "), "{name} names its section");
        assert!(abc.contains("C:Quillow Ferry Morris") || name == "no-order-of-fields", "{name}");
        let told = difference(&own(name, abc), &kept(name));
        if is_otherwise(name) {
            assert!(told.is_some(), "{name} is read alike now, and is none that is read otherwise");
        } else {
            differ.extend(told.map(|told| format!("{name}: {told}")));
        }
    }
    assert!(differ.is_empty(), "{differ:#?}");
}

/// What the other reader has otherwise than the standard, held against the same tune written out.
#[test]
fn what_another_reader_has_otherwise_is_as_the_standard_says() {
    for (name, why) in OTHERWISE {
        let (abc, plain) =
            (fs::read_to_string(folder().join(format!("{name}.abc"))).unwrap(), written_out(name));
        assert_eq!(difference(&own(name, &abc), &own(name, &plain)), None, "{name}: {why}");
        let kept = kept(&format!("written-out/{name}"));
        assert_eq!(difference(&own(name, &plain), &kept), None, "{name}, written out");
    }
}

/// What is heard can be drawn, and nothing is said to be wrong with a tune that keeps the rules.
#[test]
fn tunes_that_keep_the_rules_are_drawn_and_nothing_odd_is_told_of_them() {
    for (name, abc) in tunes() {
        let score = Score::read(&abc).unwrap();
        assert!(!score.bars.is_empty());
        let lines = abc.lines().count();
        let told = Tune::read(&abc).unwrap().told;
        assert!(told.iter().all(|remark| (1..=lines).contains(&remark.line)), "{name}");
        // Tunes about what does not add up are odd.
        let odd: Vec<_> =
            told.iter().filter(|remark| remark.is_odd && !remark.said.contains("as it stands")).collect();
        assert!(odd.is_empty(), "{name}: {odd:?}");
    }
}

#[test]
#[ignore = "needs abcmidi; .ci/run asks for it"]
fn the_other_reader_still_says_what_is_kept_of_it() {
    let scratch = tempfile::tempdir().unwrap();
    let writes = std::env::var_os("BELLPAD_TUNES").is_some_and(|what| what == "write");
    let plain = OTHERWISE.iter().map(|(name, _)| (format!("written-out/{name}"), written_out(name)));
    let (mut seen, mut differ) = (0, Vec::new());
    for (name, abc) in tunes().into_iter().chain(plain) {
        let other = as_the_other_reads(&abc, scratch.path()).unwrap_or_else(|| panic!("{name} is not read"));
        if writes {
            let lines = other.iter().map(|(begin, length, key)| format!("{begin} {length} {key}\n"));
            fs::write(folder().join(format!("{name}.notes")), lines.collect::<String>()).unwrap();
        }
        assert_eq!(other, kept(&name), "{name}");
        if !is_otherwise(&name) {
            differ.extend(difference(&own(&name, &abc), &other).map(|told| format!("{name}: {told}")));
        }
        seen += 1;
    }
    assert!(differ.is_empty(), "{differ:#?}");
    println!(
        "{seen} tunes are as abc2midi has them, but for {} that it has otherwise than the standard",
        OTHERWISE.len()
    );
    assert!(seen >= 65, "{seen}");
}
