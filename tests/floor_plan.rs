//! The floor plan: which room may use which, read from the sources themselves.
//!
//! A room is a folder of `src`. An arrow (one file using another) only ever points down the list of [`ROOMS`]; only
//! `window` knows egui; no more than two files go round in a circle; a file is not longer than a reader holds in mind.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

/// The rooms from the top down. `main.rs` and `lib.rs` stand outside them.
const ROOMS: [&str; 14] = [
    "window", "verbs", "desk", "store", "handout", "picture", "sound", "versions", "edits", "faults",
    "words", "figures", "motion", "dance",
];

/// The most lines of a file.
const MOST_LINES: usize = 400;

/// Longer files, each with the reason why it is one.
const LONGER: [(&str, &str); 0] = [];

/// A source file: its path below `src`, with `/` between, and its text.
type Source = (String, String);

fn sources() -> Vec<Source> {
    fn gather(folder: &Path, root: &Path, found: &mut Vec<Source>) {
        let mut entries: Vec<_> = fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
        entries.sort();
        for path in entries {
            if path.is_dir() {
                gather(&path, root, found);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let name = path.strip_prefix(root).unwrap().components();
                let name: Vec<_> = name.map(|part| part.as_os_str().to_str().unwrap()).collect();
                found.push((name.join("/"), fs::read_to_string(&path).unwrap()));
            }
        }
    }
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut found = Vec::new();
    gather(&root, &root, &mut found);
    found
}

/// A text without its comments and what stands in quotation marks.
fn code(text: &str) -> String {
    let mut code = String::with_capacity(text.len());
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        match letter {
            '/' if letters.peek() == Some(&'/') => {
                for letter in letters.by_ref() {
                    if letter == '\n' {
                        code.push('\n');
                        break;
                    }
                }
            }
            '"' => {
                code.push('"');
                while let Some(letter) = letters.next() {
                    match letter {
                        '\\' => drop(letters.next()),
                        '"' => break,
                        _ => {}
                    }
                }
                code.push('"');
            }
            '\'' => {
                // A character, such as '"'; a lifetime has no second mark.
                let ahead: String = letters.clone().take(3).collect();
                let within = if ahead.starts_with('\\') { ahead.find('\'').map(|at| at + 1) } else { None };
                let within = within.or_else(|| (ahead.chars().nth(1) == Some('\'')).then_some(2));
                for _ in 0..within.unwrap_or(0) {
                    letters.next();
                }
            }
            other => code.push(other),
        }
    }
    code
}

/// The paths that a `use` names, each as its names in order: `a::{b, c::{self, d}}` is a b, a c, a c d.
fn leaves(tree: &str) -> Vec<Vec<String>> {
    let tree = tree.trim();
    if let Some(inside) = tree.strip_prefix('{').and_then(|rest| rest.strip_suffix('}')) {
        let mut found = Vec::new();
        let (mut depth, mut begin) = (0, 0);
        for (at, letter) in inside.char_indices() {
            match letter {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 0 => {
                    found.extend(leaves(&inside[begin..at]));
                    begin = at + 1;
                }
                _ => {}
            }
        }
        found.extend(leaves(&inside[begin..]));
        return found.into_iter().filter(|path| !path.is_empty()).collect();
    }
    let plain = tree.split_once(" as ").map_or(tree, |(path, _)| path).trim();
    match plain.find("::") {
        Some(at) => leaves(&plain[at + 2..])
            .into_iter()
            .map(|rest| {
                let rest = rest.into_iter().filter(|name| name != "self");
                std::iter::once(plain[..at].trim().to_owned()).chain(rest).collect()
            })
            .collect(),
        None if plain.is_empty() => Vec::new(),
        None => vec![vec![plain.to_owned()]],
    }
}

/// Every path that a text uses: those of `use`, and those written out where they stand that begin in this crate.
fn paths(text: &str) -> Vec<Vec<String>> {
    let code = code(text);
    let mut found = Vec::new();
    let is_name = |letter: char| letter.is_alphanumeric() || letter == '_';
    for (at, _) in code.match_indices("use ") {
        if code[..at].chars().next_back().is_none_or(|before| !is_name(before))
            && let Some(end) = code[at..].find(';')
        {
            found.extend(leaves(&code[at + 4..at + end]));
        }
    }
    for begin in ["crate::", "super::"] {
        for (at, _) in code.match_indices(begin) {
            if code[..at].ends_with("::") || code[..at].chars().next_back().is_some_and(is_name) {
                continue;
            }
            let rest: String =
                code[at..].chars().take_while(|&letter| is_name(letter) || letter == ':').collect();
            let names: Vec<String> =
                rest.split("::").filter(|name| !name.is_empty()).map(str::to_owned).collect();
            if names.len() > 1 {
                found.push(names);
            }
        }
    }
    found
}

/// The names of the module that a file is: `motion/steps/mod.rs` is motion steps.
fn module(file: &str) -> Vec<String> {
    let path = file.trim_end_matches(".rs");
    let path = path.strip_suffix("/mod").unwrap_or(path);
    path.split('/').map(str::to_owned).collect()
}

/// The arrows of some sources: from a file to each file of another module that it uses. A name that a room's door only
/// hands on belongs to the file that has it.
fn arrows(sources: &[Source]) -> BTreeMap<String, BTreeSet<String>> {
    let files: BTreeMap<Vec<String>, &str> =
        sources.iter().map(|(file, _)| (module(file), file.as_str())).collect();
    // What a module's own file hands on: name to path.
    let mut handed: BTreeMap<(Vec<String>, String), Vec<String>> = BTreeMap::new();
    for (file, text) in sources {
        let code = code(text);
        for (at, _) in code.match_indices("pub use ").chain(code.match_indices("pub(crate) use ")) {
            let Some(end) = code[at..].find(';') else { continue };
            let tree = code[at..at + end].split_once("use ").map_or("", |(_, tree)| tree);
            for path in leaves(tree) {
                let own = module(file);
                if let (Some(name), false) = (path.last(), ["crate", "super"].contains(&path[0].as_str())) {
                    let full = own.iter().cloned().chain(path.iter().filter(|name| *name != "self").cloned());
                    handed.insert((own.clone(), name.clone()), full.collect());
                }
            }
        }
    }
    let mut arrows: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (file, text) in sources {
        let own = module(file);
        let is_door = |path: &[String]| {
            files.contains_key(&own[..].iter().chain(&path[..1]).cloned().collect::<Vec<_>>())
        };
        for path in paths(text) {
            let mut full: Vec<String> = match path[0].as_str() {
                "crate" => path[1..].to_vec(),
                "super" | "self" => {
                    let ups = path.iter().take_while(|name| *name == "super").count();
                    // Within a module of tests, `super` is the file itself.
                    let kept = own.len().saturating_sub(ups);
                    own[..kept]
                        .iter()
                        .chain(path.iter().skip_while(|name| *name == "super" || *name == "self"))
                        .cloned()
                        .collect()
                }
                _ if is_door(&path) => own.iter().chain(&path).cloned().collect(),
                _ => continue,
            };
            // Follow what doors hand on.
            for _ in 0..4 {
                let next = (1..full.len()).find_map(|at| {
                    let (module, rest) = full.split_at(at);
                    let to = handed.get(&(module.to_vec(), rest[0].clone()))?;
                    Some(to.iter().chain(&rest[1..]).cloned().collect::<Vec<_>>())
                });
                match next {
                    Some(next) if next != full => full = next,
                    _ => break,
                }
            }
            let used = (1..=full.len()).rev().find_map(|length| files.get(&full[..length]));
            if let Some(used) = used.filter(|used| **used != file.as_str()) {
                arrows.entry(file.clone()).or_default().insert((*used).to_owned());
            }
        }
    }
    arrows
}

fn room(file: &str) -> Option<usize> {
    let name = file.split(['/', '.']).next()?;
    ROOMS.iter().position(|room| *room == name)
}

/// What is wrong with the arrows of some sources.
fn wrong_arrows(sources: &[Source]) -> Vec<String> {
    let mut wrong = Vec::new();
    for (file, text) in sources {
        let Some(from) = room(file) else {
            if !["main.rs", "lib.rs"].contains(&file.as_str()) {
                wrong.push(format!("{file} is in no room of the plan"));
            }
            continue;
        };
        for path in paths(text) {
            if path[0] == "crate"
                && let Some(to) = ROOMS.iter().position(|room| Some(*room) == path.get(1).map(String::as_str))
                && to < from
            {
                wrong.push(format!("{file} uses {}, which is above {}", ROOMS[to], ROOMS[from]));
            }
        }
        if ROOMS[from] != "window" && names_egui(text) {
            wrong.push(format!("{file} knows egui, which only window may"));
        }
    }
    wrong
}

/// Whether a text names egui or eframe outside its comments.
fn names_egui(text: &str) -> bool {
    let code = code(text);
    ["egui", "eframe"].iter().any(|library| {
        code.match_indices(library).any(|(at, _)| {
            let after = &code[at + library.len()..];
            (after.starts_with("::") || after.starts_with(';') || after.starts_with(" as "))
                && !code[..at].ends_with(|letter: char| letter.is_alphanumeric() || letter == '_')
        })
    })
}

/// The circles of more than two files: those of each can all be reached from one another, without going back the way one
/// came.
fn circles(arrows: &BTreeMap<String, BTreeSet<String>>) -> Vec<Vec<String>> {
    let none = BTreeSet::new();
    let to = |file: &String| arrows.get(file).unwrap_or(&none);
    let mut found: BTreeSet<Vec<String>> = BTreeSet::new();
    for begin in arrows.keys() {
        // The shortest way round from each arrow that leaves it, the first file in the alphabet standing for all.
        for first in to(begin) {
            let mut before: BTreeMap<&String, &String> = BTreeMap::new();
            let mut row = vec![first];
            while let Some(here) = row.first().copied() {
                row.remove(0);
                if here == begin {
                    break;
                }
                for next in to(here) {
                    // Straight back is a circle of two.
                    if !(here == first && next == begin) && next != first && !before.contains_key(next) {
                        before.insert(next, here);
                        row.push(next);
                    }
                }
            }
            let mut circle = vec![begin.clone()];
            let mut here = begin;
            while let Some(from) = before.get(here) {
                circle.push((*from).clone());
                here = from;
                if here == first || circle.len() > arrows.len() {
                    break;
                }
            }
            if circle.len() > 2 {
                circle.sort();
                circle.dedup();
                found.insert(circle);
            }
        }
    }
    found.into_iter().collect()
}

#[test]
fn arrows_point_down() {
    let wrong = wrong_arrows(&sources());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_more_than_two_files_go_round_in_a_circle() {
    let circles: Vec<String> = circles(&arrows(&sources())).iter().map(|circle| circle.join(", ")).collect();
    assert!(circles.is_empty(), "{} circles:\n{}", circles.len(), circles.join("\n"));
}

#[test]
fn files_are_of_a_size_to_read() {
    let mut long = Vec::new();
    for (file, text) in sources() {
        let lines = text.lines().count();
        let listed = LONGER.iter().any(|(name, _)| *name == file);
        if lines > MOST_LINES && !listed {
            long.push(format!("{file} has {lines} lines"));
        }
        if lines <= MOST_LINES && listed {
            long.push(format!("{file} is listed as long and has {lines} lines"));
        }
    }
    assert!(long.is_empty(), "{}", long.join("\n"));
}

/// Every room begins with a page on what it is for and what it may use.
#[test]
fn rooms_open_with_a_page() {
    let sources = sources();
    for room in ROOMS {
        let door = sources.iter().find(|(file, _)| *file == format!("{room}/mod.rs"));
        let Some((file, text)) = door else { continue };
        let page = text.lines().take_while(|line| line.starts_with("//!")).count();
        assert!(page >= 4, "{file} opens with {page} lines on what it is for");
    }
}

fn made_up(files: &[(&str, &str)]) -> Vec<Source> {
    files.iter().map(|(file, text)| ((*file).to_owned(), (*text).to_owned())).collect()
}

#[test]
fn a_wrong_arrow_is_found() {
    let fine = [
        ("desk/mod.rs", "//! See crate::window.\nmod play;\npub use play::Play;"),
        ("desk/play.rs", "use crate::{dance::Dance, motion::{Motion, Clock}}; // use crate::window::Floor;"),
        (
            "window/mod.rs",
            "use crate::desk::Play; use egui::Ui; pub fn words() -> &'static str { \"egui::\" }",
        ),
    ];
    assert_eq!(wrong_arrows(&made_up(&fine)), Vec::<String>::new());
    for (text, said) in [
        ("use crate::window;", "uses window, which is above desk"),
        ("use crate::window::Floor;", "uses window"),
        ("use crate::{dance::Dance, verbs::{self, Check}};", "uses verbs"),
        ("fn look() -> crate::window::Floor { todo!() }", "uses window"),
        ("use egui::Context;", "knows egui"),
        ("fn ask(ctx: &egui::Context) {}", "knows egui"),
    ] {
        let mut files = fine.to_vec();
        files[1].1 = text;
        let wrong = wrong_arrows(&made_up(&files));
        assert!(wrong.iter().any(|line| line.contains(said)), "{text}: {wrong:?}");
    }
    let stray = wrong_arrows(&made_up(&[("attic/mod.rs", "")]));
    assert_eq!(stray, ["attic/mod.rs is in no room of the plan"]);
}

#[test]
fn a_circle_is_found() {
    let of = |files: &[(&str, &str)]| circles(&arrows(&made_up(files)));
    let two = [
        ("dance/a.rs", "use super::b::B;"),
        ("dance/b.rs", "use super::a::A;"),
        ("dance/mod.rs", "pub use a::A;"),
    ];
    assert_eq!(of(&two), Vec::<Vec<String>>::new());
    let three = [
        ("dance/a.rs", "use super::b::B;"),
        ("dance/b.rs", "use crate::dance::C;"),
        ("dance/c.rs", "fn see() { super::a::look() }"),
        ("dance/mod.rs", "pub use c::C;"),
    ];
    assert_eq!(of(&three), [["dance/a.rs", "dance/b.rs", "dance/c.rs"]]);
    // A door that has something of its own is a file like another.
    let door = [
        ("dance/mod.rs", "use a::A; pub struct Own;"),
        ("dance/a.rs", "use super::b::B;"),
        ("dance/b.rs", "use super::Own;"),
    ];
    assert_eq!(of(&door), [["dance/a.rs", "dance/b.rs", "dance/mod.rs"]]);
}
