//! Work is never lost: saves are whole or not at all, what others changed is not overwritten unasked, the last ten
//! versions are kept, and unsaved work outlives the program.
//!
//! What must hold is this project's own promise; that the parts keep it is checked against the system itself:
//! processes killed, disks filled, permissions that the kernel enforces.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod backups;
#[cfg(target_os = "linux")]
mod file_limit;
mod full_disk;
mod kills;
mod recovery;
mod saves;
mod thread;
mod worker;

use bellpad::dance::{Dance, Extra, Set};
use std::fs;
use std::path::Path;
use std::time::{Duration, Instant};

/// A version of a dance: its number is in every part of it, so that a mixture of two is known.
fn numbered(number: u64) -> Dance {
    let mut dance = Dance::new(&format!("Version {number}"), Set::longways(6, 2.4, 1.8));
    // Some are large, so that a kill falls into the middle of a write.
    let times = [10, 2_000, 60_000][(number % 3) as usize];
    let mut extra = Extra::new();
    extra.insert("filling".to_owned(), format!("{number} ").repeat(times).into());
    dance.extra = extra;
    dance
}

/// The number of a version that must be whole.
#[track_caller]
fn number_of(dance: &Dance) -> u64 {
    let number = dance.title.strip_prefix("Version ").unwrap().parse().unwrap();
    assert!(*dance == numbered(number), "version {number} is not whole");
    number
}

/// A small version.
fn small(number: u64) -> Dance {
    Dance::new(&format!("Small {number}"), Set::longways(4, 2.4, 1.8))
}

/// The names in a folder, in order.
fn names_in(folder: &Path) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
        .collect();
    names.sort();
    names
}

/// Waits until something is so, or the time is up; gives how long it took.
#[track_caller]
fn within(limit: Duration, what: &str, mut so: impl FnMut() -> bool) -> Duration {
    let begin = Instant::now();
    while !so() {
        assert!(begin.elapsed() < limit, "{what}: not within {limit:?}");
        std::thread::sleep(Duration::from_millis(5));
    }
    begin.elapsed()
}
