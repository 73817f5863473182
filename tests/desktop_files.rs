//! What a desktop is given: every file, its place, and that nothing of the user's own is lost.
//!
//! Sources: the Desktop Entry, Shared MIME-info and Base Directory specifications of freedesktop.org; `desktop-file-validate` and
//! `xdg-mime`, which `.ci/run` brings, read what is installed.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::picture::{icon, to_png, to_svg};
use bellpad::store::{Installed, StoreError};
use bellpad::verbs::{CommandLine, ICON_SIZES, files_for_desktop};
use clap::CommandFactory;
use clap_complete::Shell;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

fn assets() -> std::path::PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/desktop")
}

/// What clap's own crates make of the command line as it is, and the icon as it is drawn, by their paths under `assets/desktop`.
fn made() -> BTreeMap<String, Vec<u8>> {
    let folder = tempfile::tempdir().unwrap();
    clap_mangen::generate_to(CommandLine::command(), folder.path()).unwrap();
    let mut made = BTreeMap::new();
    for page in fs::read_dir(folder.path()).unwrap() {
        let page = page.unwrap();
        made.insert(format!("man/{}", page.file_name().to_str().unwrap()), fs::read(page.path()).unwrap());
    }
    for shell in [Shell::Bash, Shell::Zsh, Shell::Fish] {
        let name = match shell {
            Shell::Bash => "bellpad.bash",
            Shell::Zsh => "_bellpad",
            _ => "bellpad.fish",
        };
        let mut text = Vec::new();
        clap_complete::generate(shell, &mut CommandLine::command(), "bellpad", &mut text);
        made.insert(format!("completions/{name}"), text);
    }
    made.insert("bellpad.svg".to_owned(), to_svg(&icon(256)).into_bytes());
    made.insert("bellpad-128.png".to_owned(), to_png(&icon(128)).unwrap());
    made
}

#[test]
fn manual_completions_and_icon_are_those_of_this_program() {
    let writes = std::env::var("BELLPAD_GOLDEN").is_ok_and(|value| value == "write");
    for (name, bytes) in made() {
        let path = assets().join(&name);
        if writes {
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(&path, &bytes).unwrap();
        }
        assert!(
            fs::read(&path).unwrap_or_default() == bytes,
            "{name} is not as the command line is: BELLPAD_GOLDEN=write cargo test --test desktop_files"
        );
    }
    let pages = fs::read_dir(assets().join("man")).unwrap().count();
    let made = made().keys().filter(|name| name.starts_with("man/")).count();
    assert_eq!(pages, made, "no page of a verb that is gone");
}

#[test]
fn every_page_of_the_manual_is_installed() {
    let installed = files_for_desktop(Path::new("/usr/bin/bellpad")).unwrap();
    for name in made().keys().filter_map(|name| name.strip_prefix("man/")) {
        assert!(installed.iter().any(|(path, _)| *path == format!("man/man1/{name}")), "{name}");
    }
    for size in ICON_SIZES {
        let path = format!("icons/hicolor/{size}x{size}/apps/bellpad.png");
        let (_, bytes) = installed.iter().find(|(there, _)| *there == path).unwrap();
        let picture = image::load_from_memory(bytes).unwrap();
        assert_eq!((picture.width(), picture.height()), (size, size));
    }
}

/// The program's path as a desktop reads it from the entry: the string's escapes first, then the quotes' (Desktop Entry
/// Specification, "The Exec key").
fn as_a_desktop_reads(entry: &str) -> String {
    let line = entry.lines().find_map(|line| line.strip_prefix("Exec=")).unwrap();
    let unescaped = |text: &str, escapes: &dyn Fn(char) -> bool| {
        let (mut out, mut letters) = (String::new(), text.chars().peekable());
        while let Some(letter) = letters.next() {
            match letters.peek() {
                Some(next) if letter == '\\' && escapes(*next) => out.push(letters.next().unwrap()),
                _ => out.push(letter),
            }
        }
        out
    };
    let string = unescaped(line, &|next| next == '\\');
    let quoted = string.strip_prefix('"').unwrap().strip_suffix("\" %f").unwrap();
    unescaped(quoted, &|next| "\"`$\\".contains(next)).replace("%%", "%")
}

#[test]
fn the_entry_runs_the_program_wherever_it_is() {
    for path in ["/usr/bin/bellpad", "/home/a b/100%/bell\"pad", "/x/$HOME/`y`/a\\b/bellpad"] {
        let files = files_for_desktop(Path::new(path)).unwrap();
        let entry = String::from_utf8(files[0].1.clone()).unwrap();
        assert_eq!(as_a_desktop_reads(&entry), path);
    }
}

/// Every file below a folder, with what is in it.
fn all_files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut found = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(&next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().display().to_string();
                found.insert(name, fs::read(&path).unwrap());
            }
        }
    }
    found
}

#[test]
fn what_is_installed_is_taken_away_and_nothing_else_is() {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir_all(folder.path().join("applications")).unwrap();
    fs::write(folder.path().join("applications/other.desktop"), "theirs").unwrap();
    let before = all_files(folder.path());
    let installed = Installed::at(folder.path());
    let files = files_for_desktop(Path::new("/usr/bin/bellpad")).unwrap();
    installed.install(&files, false).unwrap();
    let there = all_files(folder.path());
    assert!(files.iter().all(|(name, bytes)| there.get(name) == Some(bytes)));
    // Again, and as another version has it: without one file, another one changed.
    installed.install(&files, false).unwrap();
    let mut newer = files.clone();
    let gone = newer.pop().unwrap().0;
    newer[0].1.extend_from_slice(b"# new\n");
    installed.install(&newer, false).unwrap();
    assert!(!folder.path().join(&gone).exists());
    let taken = installed.remove().unwrap();
    assert_eq!((taken.gone, taken.left.len()), (newer.len(), 0));
    assert_eq!(all_files(folder.path()), before);
    assert!(!folder.path().join("man").exists(), "no empty folder is left");
    assert_eq!(installed.remove().unwrap().gone, 0);
}

#[test]
fn what_the_user_changed_is_neither_written_over_nor_taken_away() {
    let folder = tempfile::tempdir().unwrap();
    let installed = Installed::at(folder.path());
    let files = files_for_desktop(Path::new("/usr/bin/bellpad")).unwrap();
    let entry = folder.path().join("applications/bellpad.desktop");
    fs::create_dir_all(entry.parent().unwrap()).unwrap();
    fs::write(&entry, "mine").unwrap();
    let refused = installed.install(&files, false).unwrap_err();
    assert!(matches!(&refused, StoreError::NotOurs { path } if *path == entry), "{refused}");
    assert_eq!(all_files(folder.path()).len(), 1, "nothing is written");
    installed.install(&files, true).unwrap();
    fs::write(&entry, "mine again").unwrap();
    let taken = installed.remove().unwrap();
    assert_eq!(taken.left, std::slice::from_ref(&entry));
    assert_eq!(fs::read(&entry).unwrap(), b"mine again");
    assert_eq!(all_files(folder.path()).len(), 1);
}

#[test]
fn a_list_that_leads_out_of_the_folder_takes_nothing_away() {
    let folder = tempfile::tempdir().unwrap();
    let (inside, outside) = (folder.path().join("share"), folder.path().join("theirs"));
    fs::create_dir_all(inside.join("bellpad")).unwrap();
    fs::write(&outside, "").unwrap();
    let files = [("bellpad/x".to_owned(), Vec::new())];
    let installed = Installed::at(&inside);
    installed.install(&files, false).unwrap();
    let list = inside.join("bellpad/installed.json");
    let text = fs::read_to_string(&list).unwrap().replace("bellpad/x", "../theirs");
    fs::write(&list, text).unwrap();
    installed.remove().unwrap();
    assert!(outside.exists());
}
