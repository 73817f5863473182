//! What `README.md` lists, and what the program has: neither more nor less.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::FaultKind;
use bellpad::figures::all;
use bellpad::motion::known_steps;
use bellpad::verbs::{CommandLine, VERBS};
use bellpad::window::KEYS;
use clap::CommandFactory;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

fn here() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// The text of it, with each run of spaces and ends of lines as one space.
fn readme() -> String {
    fs::read_to_string(here().join("README.md")).unwrap().split_whitespace().collect::<Vec<_>>().join(" ")
}

/// What lies between two pieces of a text.
fn between<'a>(text: &'a str, from: &str, to: &str) -> &'a str {
    let (_, after) = text.split_once(from).unwrap_or_else(|| panic!("there is no {from:?}"));
    after.split_once(to).unwrap_or_else(|| panic!("there is no {to:?} after {from:?}")).0
}

/// What stands between accents grave.
fn in_accents(text: &str) -> Vec<&str> {
    text.split('`').skip(1).step_by(2).collect()
}

#[test]
fn the_named_figures_are_listed() {
    let text = readme();
    assert_eq!(
        in_accents(between(&text, "The named figures are ", ". Sides")),
        all().map(|figure| figure.name)
    );
}

#[test]
fn the_steps_are_listed_with_their_names() {
    let text = readme();
    let listed = between(&text, "The steps are ", "; `left`");
    let mut rest = listed;
    for step in known_steps(&[]) {
        let said = format!("{} ({}", step.short, step.name);
        let (before, after) = rest.split_once(&said).unwrap_or_else(|| panic!("no {said} in {rest:?}"));
        assert!(before.len() <= ") and ".len(), "{before:?} before {said}");
        rest = after.split_once(')').unwrap().1;
    }
    assert_eq!(rest, "");
}

#[test]
fn the_verbs_are_listed() {
    let whole = fs::read_to_string(here().join("README.md")).unwrap();
    let block = between(&whole, "```text\n", "```");
    let lines = block.lines().filter_map(|line| line.strip_prefix("bellpad ")?.split(' ').next());
    let listed: BTreeSet<&str> = lines.filter(|word| !word.starts_with('[')).collect();
    let command = CommandLine::command();
    let verbs: BTreeSet<&str> = command.get_subcommands().map(clap::Command::get_name).collect();
    assert_eq!(listed, verbs);
    assert_eq!(VERBS.split(", ").collect::<BTreeSet<_>>(), verbs, "what messages list");
    // Each option of each verb, and no other.
    for verb in command.get_subcommands() {
        let line =
            block.lines().find(|line| line.starts_with(&format!("bellpad {}", verb.get_name()))).unwrap();
        let words = line.split([' ', '[', ']', '(', ')', '|']).filter_map(|word| word.strip_prefix("--"));
        let long = verb.get_arguments().filter_map(clap::Arg::get_long);
        assert_eq!(words.collect::<BTreeSet<_>>(), long.collect::<BTreeSet<_>>(), "{line}");
    }
}

/// Each kind as it is put there; the compiler asks for a new one.
fn fault_words(kind: FaultKind) -> &'static str {
    match kind {
        FaultKind::Clash => "bodies that touch",
        FaultKind::Tight => "or come close",
        FaultKind::WrongFoot => "wrong feet",
        FaultKind::LateTurn => "late,",
        FaultKind::HurriedTurn => "hurried,",
        FaultKind::HurriedJump => "jumps without time",
        FaultKind::NeedlessTurn => "needless",
        FaultKind::Stuck => "being stuck in mid-way",
        FaultKind::Wrench => "or thrown round",
        FaultKind::WrongWay => "and wrong turns",
        FaultKind::CurvedHome => "curving home",
        FaultKind::NotHome => "not home",
        FaultKind::OverLong => "steps too long or too fast",
        FaultKind::OutOfReach => "sticks and hands out of reach",
        FaultKind::OneSided => "one-sided",
        FaultKind::TwoPlaces => "or asked to be in two places",
        FaultKind::NearHead => "and as a caution a stick near a head",
        FaultKind::Music => "music that does not fit",
        FaultKind::Room => "no room on the floor",
    }
}

#[test]
fn the_kinds_of_fault_are_listed() {
    let text = readme();
    let mut left = between(&text, "between the counts as well as on them: ", ". Each is marked").to_owned();
    for kind in FaultKind::ALL {
        let words = fault_words(kind);
        assert!(left.contains(words), "{words:?} in {left:?}");
        left = left.replacen(words, "", 1);
    }
    assert_eq!(left.replace([',', ' '], ""), "", "and no other");
}

/// The keys of a cell: `Ctrl+Z, Ctrl+Shift+Z` are two, `1 to 9` is one.
fn keys_of(cell: &str) -> impl Iterator<Item = &str> {
    cell.split(", ").flat_map(|keys| keys.split(" and ")).map(str::trim)
}

#[test]
fn the_keys_are_those_of_the_help() {
    let whole = fs::read_to_string(here().join("README.md")).unwrap();
    let table = between(&whole, "| keys | |\n| --- | --- |\n", "\n\n");
    let listed: BTreeSet<&str> =
        table.lines().flat_map(|line| keys_of(line.split('|').nth(1).unwrap())).collect();
    let told: BTreeSet<&str> = KEYS.iter().flat_map(|(keys, _)| keys_of(keys)).collect();
    assert_eq!(listed, told);
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    entries.flat_map(|path| if path.is_dir() { sources(&path) } else { vec![path] }).collect()
}

/// What egui calls a key, as people are told of it; nothing where it is another way to what is told.
fn said(key: &str) -> Option<&str> {
    Some(match key {
        "ArrowLeft" => "Left",
        "ArrowRight" => "Right",
        "ArrowUp" => "Up",
        "ArrowDown" => "Down",
        "OpenBracket" => "[",
        "CloseBracket" => "]",
        "Minus" => "-",
        "Equals" => "=",
        digit if digit.starts_with("Num") => "1 to 9",
        // The key of = with Shift, and Ctrl+Y for redo.
        "Plus" | "Y" => return None,
        key => key,
    })
}

/// Every key that the sources of the window name is told of, and every key that is told of is named there.
#[test]
fn the_keys_of_the_help_are_those_that_do_something() {
    let mut used: BTreeSet<String> = BTreeSet::new();
    for path in sources(&here().join("src/window")) {
        let text = fs::read_to_string(path).unwrap();
        for after in text.split("Key::").skip(1) {
            let key = after.split(|letter: char| !letter.is_ascii_alphanumeric()).next().unwrap();
            used.extend(said(key).map(str::to_owned));
        }
    }
    let mut told: BTreeSet<String> = BTreeSet::new();
    for key in KEYS.iter().flat_map(|(keys, _)| keys_of(keys)) {
        // Sizes of text are egui's own keys.
        if ["Ctrl++", "Ctrl+-", "Ctrl+0"].contains(&key) {
            continue;
        }
        let key = key.rsplit('+').next().unwrap();
        // Held with others, which are told beside them.
        if !["Shift", "Ctrl", "Alt", "arrows"].contains(&key) {
            told.insert(key.to_owned());
        }
    }
    assert_eq!(used, told);
}
