//! Inputs that nobody thought of: dances, tunes, steppings, taps, speeds, cells, choices and command lines with slips of every kind.
//! Each is taken or refused in one line: no panic, no number that is none, no stop.
//!
//! A plain `cargo test` replays what once failed (`tests/corpus`, a folder for each target) and tries so many new inputs of each
//! target. The long campaign, ten minutes a target, is
//! `cargo test --release --test fuzzed -- --ignored campaign --nocapture`. `BELLPAD_MINUTES` says how long, `BELLPAD_TARGETS` which
//! targets, and `BELLPAD_SEED` where to begin. Every input is tried in a process of its own, with 1 GiB of memory; what takes more
//! than 2 s of the processor (`BELLPAD_LIMIT`, milliseconds), or panics, is made as small as it goes and kept in the corpus.
#![cfg(unix)]
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::needless_for_each,
    clippy::assigning_clones,
    clippy::items_after_statements
)]

#[path = "../common/any_dance.rs"]
mod any_dance;
#[path = "../common/any_text.rs"]
mod any_text;
mod changed;
#[path = "../common/draws.rs"]
mod draws;
mod smaller;
mod targets;
#[path = "../common/whole_work.rs"]
mod whole_work;
mod worker;

use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};
use targets::TARGETS;
use worker::{Account, Inputs, Order, run, work};

/// No run of a plain `cargo test` lasts this long: it is bounded by its inputs.
const LONG: Duration = Duration::from_mins(30);

fn corpus(target: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/corpus").join(target)
}

/// What once failed and is kept, in order.
fn kept(target: &str) -> Vec<PathBuf> {
    let Ok(folder) = fs::read_dir(corpus(target)) else { return Vec::new() };
    let mut files: Vec<PathBuf> = folder.map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

/// What is kept of a target, and so many inputs more, the same in each run.
fn replay_and_try(target: &str, inputs: u64) {
    let folder = tempfile::tempdir().unwrap();
    for path in kept(target) {
        let inputs = Inputs::File(&path);
        let account = run(&Order { target, folder: folder.path(), inputs, until: LONG });
        assert!(account.failed.is_empty(), "{}: {}", path.display(), account.failed[0].1);
        assert_eq!(account.tried, 1, "{}", path.display());
    }
    let seeds = Inputs::Seeds(0, inputs);
    let account = run(&Order { target, folder: folder.path(), inputs: seeds, until: LONG });
    for (input, why) in &account.failed {
        println!("{why}\n{input}\n");
    }
    assert!(account.failed.is_empty(), "{} of {} failed", account.failed.len(), account.tried);
    assert_eq!(account.tried, inputs);
    println!("{target}: {account:?}");
}

macro_rules! tries {
    ($($test:ident, $target:literal, $inputs:literal;)*) => {
        $(#[test]
        fn $test() {
            replay_and_try($target, $inputs);
        })*

        /// No target is left out.
        #[test]
        fn every_target_is_tried() {
            assert_eq!(TARGETS.map(|target| target.name), [$($target),*]);
        }
    };
}

tries! {
    whole_dances_are_gone_through, "whole", 8;
    dances_with_changes_are_danced_or_refused, "dance", 40;
    tunes_with_slips_are_read_or_refused, "tune", 1000;
    steppings_with_slips_are_read_or_refused, "phrase", 2000;
    taps_with_slips_are_read_or_refused, "taps", 300;
    speeds_with_slips_are_read_or_refused, "speeds", 2000;
    cells_with_slips_are_read_or_refused, "cell", 2000;
    choices_at_random_are_taken_or_refused, "choices", 60;
    command_lines_with_slips_are_done_or_refused, "commands", 60;
}

#[test]
#[ignore = "the others run it in a process of its own"]
fn a_worker() {
    work();
}

#[test]
#[ignore = "takes ten minutes a target"]
fn campaign() {
    let said = |name: &str| std::env::var(name).ok();
    let minutes: f64 = said("BELLPAD_MINUTES").map_or(10.0, |minutes| minutes.parse().unwrap());
    let first: u64 = said("BELLPAD_SEED").map_or(1_000_000, |seed| seed.parse().unwrap());
    let wanted = said("BELLPAD_TARGETS");
    // The workers ask for it.
    let limit = said("BELLPAD_LIMIT").unwrap_or_else(|| "2000".to_owned());
    let mut failed = 0;
    for target in &TARGETS {
        if wanted.as_ref().is_some_and(|wanted| !wanted.split(',').any(|name| name == target.name)) {
            continue;
        }
        failed += campaign_of(target.name, first, Duration::from_secs_f64(minutes * 60.0), &limit);
    }
    assert_eq!(failed, 0, "kept in tests/corpus");
}

fn campaign_of(target: &str, first: u64, long: Duration, limit: &str) -> usize {
    let folder = tempfile::tempdir().unwrap();
    let begun = Instant::now();
    let (mut all, mut next) = (Account::default(), first);
    let mut seen: Vec<String> = Vec::new();
    while let Some(left) = long.checked_sub(begun.elapsed()).filter(|left| left.as_millis() > 500) {
        let account = worker::run_with(
            &Order { target, folder: folder.path(), inputs: Inputs::Seeds(next, u64::MAX >> 1), until: left },
            limit,
        );
        next = account.next.max(next + 1);
        all.tried += account.tried;
        all.memory = all.memory.max(account.memory);
        for (part, (took, seed)) in account.worst {
            let known = all.worst.entry(part).or_default();
            if took > known.0 {
                *known = (took, seed);
            }
        }
        for (input, why) in account.failed {
            // One of each place is enough.
            let place = smaller::place_of(&why);
            println!("{target}: {}", why.chars().take(400).collect::<String>());
            if seen.contains(&place) {
                continue;
            }
            let small = smaller::smaller(target, &input, limit, &place);
            let path = corpus(target).join(format!("{:08x}.txt", crc(&small)));
            fs::create_dir_all(corpus(target)).unwrap();
            fs::write(&path, &small).unwrap();
            println!("  kept as {} ({} letters of {})", path.display(), small.len(), input.len());
            seen.push(place);
        }
    }
    println!(
        "{target}: {} inputs in {:.0} s, at most {} MiB, {} kinds of failure",
        all.tried,
        begun.elapsed().as_secs_f64(),
        all.memory / 1024,
        seen.len()
    );
    for (part, (took, seed)) in &all.worst {
        println!("  {part}: at most {took} ms (seed {seed})");
    }
    seen.len()
}

fn crc(text: &str) -> u32 {
    crc32fast::hash(text.as_bytes())
}
