//! A limit on the size of files (`ulimit -f`), beyond which Linux ends a program that does not listen.

use super::names_in;
use super::worker::worker;
use bellpad::dance::{Dance, Extra, Set};
use bellpad::store::{self, AutosaveThread, Home, StoreError};
use std::ffi::OsStr;
use std::fs::{self, File};
use std::os::unix::process::ExitStatusExt;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::sync::Arc;
use std::time::Duration;

/// A command that may write no file larger than 8 KiB or 16, as the shell counts: blocks of 512 bytes or 1,024.
fn limited(command: &Command) -> Command {
    let mut limited = Command::new("sh");
    limited
        .args(["-c", r#"ulimit -f 16 && exec "$0" "$@""#])
        .arg(command.get_program())
        .args(command.get_args());
    for (name, value) in command.get_envs() {
        match value {
            Some(value) => limited.env(name, value),
            None => limited.env_remove(name),
        };
    }
    limited
}

fn bellpad<A: AsRef<OsStr>>(arguments: impl IntoIterator<Item = A>, out: Stdio) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_bellpad"));
    limited(program.args(arguments)).stdout(out).stderr(Stdio::piped()).output().unwrap()
}

#[track_caller]
fn assert_told(output: &Output, words: &[&str]) {
    assert_eq!(output.status.signal(), None, "it is not ended by the system");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr.clone()).unwrap();
    assert_eq!(said.lines().count(), 1, "{said}");
    for word in words {
        assert!(said.contains(word), "{said:?} lacks {word:?}");
    }
}

/// A dance whose file is larger than the limit.
fn large() -> Dance {
    let mut dance = Dance::new("Large", Set::longways(6, 2.4, 1.8));
    let mut extra = Extra::new();
    extra.insert("filling".to_owned(), "words ".repeat(10_000).into());
    dance.extra = extra;
    dance
}

#[test]
fn a_verb_beyond_it_says_so_and_leaves_what_was_there() {
    let folder = tempfile::tempdir().unwrap();
    let sample = Path::new(env!("CARGO_MANIFEST_DIR")).join("dances/nine-geese-home.dance.json");
    for name in ["out.png", "out.svg", "out.html", "out.pdf", "out.gif"] {
        let out = folder.path().join(name);
        fs::write(&out, "what was there").unwrap();
        let more: &[&str] = match name {
            "out.html" => &["page"],
            "out.gif" => &["moving", "--figure", "hey"],
            _ => &["sheet", "--figure", "hey"],
        };
        let arguments = more.iter().map(OsStr::new);
        let arguments = arguments.chain([sample.as_os_str(), OsStr::new("-o"), out.as_os_str()]);
        let ran = bellpad(arguments, Stdio::piped());
        assert_told(&ran, &[name, "too large", "nothing was changed"]);
        assert_eq!(fs::read_to_string(&out).unwrap(), "what was there", "{name}");
    }
    assert_eq!(names_in(folder.path()).len(), 5, "no part of a file is left: {:?}", names_in(folder.path()));
    let told = folder.path().join("poses.json");
    let ran = bellpad(
        [OsStr::new("pose"), sample.as_os_str(), OsStr::new("--every"), OsStr::new("1")],
        File::create(&told).unwrap().into(),
    );
    assert_told(&ran, &["standard output: cannot be written"]);
    // What is within the limit is done.
    let ran = bellpad([OsStr::new("check"), sample.as_os_str()], Stdio::piped());
    assert!(ran.status.code() < Some(2), "{ran:?}");
}

#[test]
fn a_save_beyond_it_fails_and_the_program_lives_on() {
    let folder = tempfile::tempdir().unwrap();
    let output = limited(&worker("limit", folder.path())).output().unwrap();
    assert!(output.status.success(), "{output:?}");
    let said = String::from_utf8_lossy(&output.stdout);
    assert!(said.contains("all of it was refused"), "{said}");
}

/// What a window does, in a process of its own that may write no large file.
pub fn loses_nothing(folder: &Path) {
    store::outlive_file_limit();
    let home = Home::at(&folder.join("state"));
    let path = folder.join("a.dance.json");
    let small = super::small(1);
    let saved = home.save_checked(&path, &small, None).unwrap();
    match home.save_checked(&path, &large(), Some(&saved.stamp)) {
        Err(error @ StoreError::Save { .. }) => assert!(error.to_string().contains("too large")),
        other => panic!("{other:?}"),
    }
    assert_eq!(store::open(&path).unwrap(), small);
    let autosave = AutosaveThread::begin(&home, Some(&path), Some(&saved.stamp)).unwrap();
    autosave.hand(Arc::new(large()));
    let mut said = None;
    super::within(Duration::from_secs(20), "it is told", || {
        said = autosave.try_recv();
        said.is_some()
    });
    assert!(said.unwrap().unwrap_err().to_string().contains("too large"));
    // What is small enough is still kept.
    assert!(home.save_checked(&path, &super::small(2), Some(&saved.stamp)).is_ok());
    println!("all of it was refused");
}
