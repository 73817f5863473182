//! Collections of tunes as musicians have typed them, read by this program and by Debian's abcmidi. `.ci/run` asks for it; the folder
//! of the collections is `BELLPAD_COLLECTIONS`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/other_reader.rs"]
mod other_reader;

use bellpad::dance::{CleanedTunes, Metre, PlayedTune, Score, Tune, TuneStrain};
use other_reader::{as_the_other_reads, as_we_read, difference as first_difference, with_repeats_begun};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// Every ABC file of a folder and what is in it.
fn abc_files(folder: &Path) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for entry in fs::read_dir(folder).unwrap_or_else(|error| panic!("{}: {error}", folder.display())) {
        let path = entry.unwrap().path();
        if path.is_dir() {
            found.extend(abc_files(&path));
        } else if path.extension().is_some_and(|ending| ending == "abc") {
            found.push(path);
        }
    }
    found.sort();
    found
}

/// What became of a tune.
enum Became {
    Refused(String),
    /// Bellpad dances no such metre; whether it is equal all the same.
    OtherMetre(String, bool),
    Equal,
    /// Equal where the other reader is told where a repeat begins (4.8).
    EqualRepeats,
    Unequal(String),
    /// The other reader wrote nothing.
    Unread,
}

fn became(abc: &str) -> Became {
    let tune = match Tune::read(abc) {
        Ok(tune) => tune,
        Err(error) => return Became::Refused(error.to_string()),
    };
    let played = match PlayedTune::read(abc) {
        Ok(played) => played,
        Err(error) => return Became::Refused(error.to_string()),
    };
    Score::read(abc).expect("what is heard can be drawn");
    let folder = tempfile::tempdir().unwrap();
    let Some(other) = as_the_other_reads(abc, folder.path()) else { return Became::Unread };
    let own = as_we_read(&played);
    let difference = first_difference(&own, &other);
    if Metre::as_written(tune.metre).is_none() {
        let (beats, each) = tune.metre;
        return Became::OtherMetre(format!("{beats}/{each}"), difference.is_none());
    }
    let Some(what) = difference else { return Became::Equal };
    let told = as_the_other_reads(&with_repeats_begun(abc), folder.path());
    match told.map(|other| first_difference(&own, &other)) {
        Some(None) => Became::EqualRepeats,
        Some(Some(then)) => Became::Unequal(format!("{what}; and told of repeats, {then}")),
        None => Became::Unequal(what),
    }
}

/// Why the other reader has a tune otherwise, as far as its text shows; sections are those of ABC 2.1.
fn reason(abc: &str, what: &str) -> &'static str {
    let is_in_three = abc.lines().any(|line| line.replace(' ', "") == "M:3/4");
    let has_long_tuplet = ["(5", "(7", "(9"].iter().any(|tuplet| abc.contains(tuplet));
    let line_ends_with = |end: &str| abc.lines().any(|line| line.trim_end().ends_with(end));
    let begins_with_ending = abc.lines().any(|line| line.starts_with("1 ") || line.starts_with("|1"));
    match () {
        () if is_in_three && has_long_tuplet => "4.13: it takes 3/4 for a compound metre",
        () if abc.contains("||1") => "4.9: it knows no ending after a double bar line",
        () if what.starts_with("length") && abc.contains(['<', '>']) => {
            "4.4: broken rhythm between notes of unequal lengths, which has no rule"
        }
        () if begins_with_ending && line_ends_with("\\") => {
            "6.1.1: it knows no ending at the start of a joined line"
        }
        () if abc.contains("[V:") && abc.contains("\nP:") => {
            "3.1.9: it repeats nothing in parts of several voices"
        }
        () if line_ends_with(":|") && abc.contains(":|2") => {
            "4.10: it repeats after a last ending that ends with :|"
        }
        () if abc.contains("[\"") => "4.9: a [ before words, which opens neither a chord nor an ending",
        () if abc.lines().any(|line| line.starts_with(": ")) => "4.8: a : by itself, which is no sign",
        () if abc.contains("|:") => "4.8: a repeat that is begun and not ended, which has no rule",
        () => "not known",
    }
}

#[test]
#[ignore = "needs abcmidi and collections of tunes; .ci/run asks for it"]
fn real_collections_are_read_note_for_note() {
    let folder = std::env::var_os("BELLPAD_COLLECTIONS").expect("BELLPAD_COLLECTIONS names a folder");
    let mut tunes = Vec::new();
    for file in abc_files(Path::new(&folder)) {
        let name = file.file_stem().unwrap().to_string_lossy().into_owned();
        let text = String::from_utf8_lossy(&fs::read(&file).unwrap()).into_owned();
        for abc in CleanedTunes::of(&text).tunes {
            let number = abc.lines().next().unwrap_or_default().to_owned();
            tunes.push((format!("{name} {number}"), abc));
        }
    }
    let became: Vec<Became> = tunes.par_iter().map(|(_, abc)| became(abc)).collect();
    let (mut read, mut equal, mut compared, mut repeats) = (0, 0, 0, 0);
    let mut metres: BTreeMap<&str, [u32; 2]> = BTreeMap::new();
    for ((name, abc), became) in tunes.iter().zip(&became) {
        read += u32::from(!matches!(became, Became::Refused(_)));
        match became {
            Became::Refused(why) => println!("{name} is refused: {why}"),
            Became::Unread => println!("{name} is not read by the other reader"),
            Became::OtherMetre(metre, is_equal) => {
                let count = metres.entry(metre).or_default();
                count[0] += 1;
                count[1] += u32::from(*is_equal);
            }
            Became::Equal => (equal, compared) = (equal + 1, compared + 1),
            Became::EqualRepeats => {
                (equal, compared, repeats) = (equal + 1, compared + 1, repeats + 1);
            }
            Became::Unequal(what) => {
                compared += 1;
                println!("{name} differs: {what} ({})", reason(abc, what));
            }
        }
    }
    let all = tunes.len() as u32;
    println!("{all} tunes: {read} are read; of {compared} of metres that are danced {equal} are equal,");
    println!("{repeats} of them where the other reader is told where a repeat begins (4.8)");
    for (metre, [many, equal]) in metres {
        println!("{many} are of {metre}, which is not danced: {equal} of them are equal");
    }
    assert!(all > 4_000, "{all} tunes");
    assert!(read * 100 >= all * 99, "{read} of {all} are read");
    assert!(compared > 4_000 && equal * 100 >= compared * 99, "{equal} of {compared} are equal");
}

/// A dance plays strains and *Listen* the tune as it is written: both play each strain as often, or the tune would be longer by itself.
#[test]
#[ignore = "needs collections of tunes; .ci/run asks for it"]
fn strains_are_played_as_often_as_the_tune_has_them() {
    let folder = std::env::var_os("BELLPAD_COLLECTIONS").expect("BELLPAD_COLLECTIONS names a folder");
    let (mut all, mut otherwise) = (0, Vec::new());
    for file in abc_files(Path::new(&folder)) {
        let text = String::from_utf8_lossy(&fs::read(&file).unwrap()).into_owned();
        for abc in CleanedTunes::of(&text).tunes {
            let (Ok(tune), Ok(played)) = (Tune::read(&abc), PlayedTune::read(&abc)) else { continue };
            all += 1;
            let plays: Vec<&TuneStrain> = if tune.order.is_empty() {
                tune.strains.iter().flat_map(|strain| std::iter::repeat_n(strain, strain.times())).collect()
            } else {
                tune.order.iter().filter_map(|name| tune.strain(name)).collect()
            };
            let whole = |(beats, each): &(u64, u64)| *beats as f64 / *each as f64;
            let danced: f64 = plays.iter().flat_map(|strain| &strain.metres).map(whole).sum();
            let bar = whole(&tune.metre);
            // What is short of a bar at the end of each is made whole in a dance.
            let (least, most) =
                (played.length.wholes() - bar, played.length.wholes() + bar * plays.len() as f64);
            if danced < least - 1e-6 || danced > most + 1e-6 {
                let name = abc.lines().find(|line| line.starts_with("T:")).unwrap_or_default();
                otherwise.push(format!("{name}: {danced} {} {}", played.length.wholes(), tune.strains.len()));
            }
        }
    }
    println!("{} of {all} are otherwise: {otherwise:#?}", otherwise.len());
    // Parts of several strains in an order of their own (3.1.9), and endings of which one has more bars than the other.
    assert!(all > 4_000 && otherwise.len() * 100 < all * 2, "{} of {all}", otherwise.len());
}
