//! Helpers that the tests of the whole program share.
#![allow(dead_code, clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::ffi::OsStr;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// What a run of the program left behind.
#[derive(Debug)]
pub struct Ran {
    /// The exit code; nothing when a signal ended it, which a panic with abort or a full stack would do.
    pub code: Option<i32>,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

impl From<Output> for Ran {
    fn from(output: Output) -> Self {
        Self {
            code: output.status.code(),
            out: String::from_utf8(output.stdout).expect("standard output is UTF-8"),
            err: String::from_utf8(output.stderr).expect("standard error is UTF-8"),
        }
    }
}

/// The program, ready to be given arguments, with no display to open a window on.
pub fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_bellpad"));
    for display in ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"] {
        command.env_remove(display);
    }
    command
}

/// Runs the program.
pub fn bellpad<A: AsRef<OsStr>>(arguments: impl IntoIterator<Item = A>) -> Ran {
    program().args(arguments).output().expect("the program runs").into()
}

/// Runs the program, which must do what it was asked, and gives what it printed.
#[track_caller]
pub fn done<A: AsRef<OsStr>>(arguments: impl IntoIterator<Item = A>) -> String {
    let ran = bellpad(arguments);
    assert_eq!((ran.code, ran.err.as_str()), (Some(0), ""), "{}", ran.out);
    ran.out
}

/// Checks that a run was refused: exit 2, one line that names each of the words of
/// the place, and nothing on standard output.
#[track_caller]
pub fn assert_refused(ran: &Ran, words: &[&str]) {
    assert_eq!(ran.code, Some(2), "{ran:?}");
    assert_eq!(ran.out, "", "nothing is printed");
    let line = ran.err.strip_suffix('\n').unwrap_or_else(|| panic!("the line ends: {ran:?}"));
    assert!(!line.contains(['\n', '\r']), "one line: {ran:?}");
    assert!(line.starts_with("bellpad: "), "{line}");
    for word in words {
        assert!(line.contains(word), "{word:?} is not named in: {line}");
    }
    assert!(line.chars().count() < 500, "a line that a person can read: {line}");
}

/// The dances that come with the program.
pub fn samples() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("dances");
    let mut files: Vec<PathBuf> = fs::read_dir(folder)
        .expect("the folder of dances")
        .map(|entry| entry.expect("an entry").path())
        .filter(|path| path.to_string_lossy().ends_with(".dance.json"))
        .collect();
    files.sort();
    assert!(files.len() >= 2, "the sample dances are there: {files:?}");
    files
}

/// One of the dances that come with the program, by the start of its file name.
pub fn sample(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("dances").join(format!("{name}.dance.json"))
}

/// The names and bytes of every file in a folder, to see that nothing changed.
pub fn contents(folder: &Path) -> Vec<(String, Vec<u8>)> {
    let mut files: Vec<_> = fs::read_dir(folder)
        .expect("the folder")
        .map(|entry| {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            (name, if path.is_dir() { Vec::new() } else { fs::read(&path).expect("a file") })
        })
        .collect();
    files.sort();
    files
}

/// Text of a path.
pub fn text(path: &Path) -> &str {
    path.to_str().expect("a path of plain letters")
}

/// Two pictures, each pixel red, green, blue and opacity, drawn by two rasterisers that weigh the edges of a shape
/// each in its own way: nothing but edges may differ, and those by little.
pub fn assert_alike(one: &[u8], other: &[u8]) {
    assert_eq!(one.len(), other.len(), "the pictures are of one size");
    let apart: Vec<u8> = one.iter().zip(other).map(|(one, other)| one.abs_diff(*other)).collect();
    let most = apart.iter().copied().max().unwrap();
    let mean = apart.iter().map(|apart| f64::from(*apart)).sum::<f64>() / apart.len() as f64;
    let beyond = apart.iter().filter(|apart| **apart > 32).count() as f64 / apart.len() as f64;
    // A shape that is missing, moved by a pixel or in another colour is further off than any edge, also than where the edges
    // of several shapes cross in one pixel.
    assert!(most <= 112, "a pixel is {most} of 255 apart");
    assert!(mean <= 0.3 && beyond <= 0.001, "mean {mean:.4} of 255, {beyond:.6} of them beyond an eighth");
}
