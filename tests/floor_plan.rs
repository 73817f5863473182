//! The floor plan: which room may use which, read from the sources themselves.
//!
//! A room is a folder of `src`. An arrow (one file using another) only ever points down the list of [`ROOMS`]; only
//! `window` knows egui; no more than two files go round in a circle; a file is not longer than a reader holds in mind.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]
#![allow(clippy::maybe_infinite_iter)] // every text ends

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

/// A path of names: `crate::dance::Dance` is crate, dance, Dance. A glob ends in `*`.
type Names = Vec<String>;

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

/// The words and signs of a text, without its comments, spaces and lifetimes; what stands in quotation marks is `""`.
/// `::` is one sign, every other is a single letter.
fn signs(text: &str) -> Vec<String> {
    let letters: Vec<char> = text.chars().collect();
    let at = |index: usize| letters.get(index).copied().unwrap_or('\0');
    let is_name = |letter: char| letter.is_alphanumeric() || letter == '_';
    let (mut signs, mut here) = (Vec::new(), 0);
    while here < letters.len() {
        // `r"..."`, `br#"..."#` and the like end at a mark with as many `#`; nothing in them is escaped.
        let raw = usize::from(at(here) == 'b' && at(here + 1) == 'r');
        let hashes = (here + raw + 1..).take_while(|&index| at(index) == '#').count();
        match at(here) {
            '/' if at(here + 1) == '/' => {
                here += (here..letters.len()).take_while(|&index| at(index) != '\n').count();
            }
            '/' if at(here + 1) == '*' => {
                let mut depth = 0;
                while here < letters.len() {
                    match (at(here), at(here + 1)) {
                        ('/', '*') => (depth, here) = (depth + 1, here + 2),
                        ('*', '/') => (depth, here) = (depth - 1, here + 2),
                        _ => here += 1,
                    }
                    if depth == 0 {
                        break;
                    }
                }
            }
            _ if at(here + raw) == 'r' && at(here + raw + 1 + hashes) == '"' => {
                here += raw + 2 + hashes;
                while here < letters.len()
                    && !(at(here) == '"' && (1..=hashes).all(|more| at(here + more) == '#'))
                {
                    here += 1;
                }
                here += 1 + hashes;
                signs.push("\"\"".to_owned());
            }
            '"' => {
                here += 1;
                while here < letters.len() && at(here) != '"' {
                    here += if at(here) == '\\' { 2 } else { 1 };
                }
                here += 1;
                signs.push("\"\"".to_owned());
            }
            '\'' if at(here + 1) == '\\' => {
                here += 3 + (here + 3..letters.len()).take_while(|&index| at(index) != '\'').count() + 1;
            }
            '\'' if at(here + 2) == '\'' => here += 3,
            '\'' => here += 1 + (here + 1..).take_while(|&index| is_name(at(index))).count(),
            'r' if at(here + 1) == '#' && is_name(at(here + 2)) => here += 2,
            ':' if at(here + 1) == ':' => {
                signs.push("::".to_owned());
                here += 2;
            }
            letter if is_name(letter) => {
                let word: String =
                    letters[here..].iter().copied().take_while(|&letter| is_name(letter)).collect();
                here += word.chars().count();
                signs.push(word);
            }
            letter => {
                if !letter.is_whitespace() {
                    signs.push(letter.to_string());
                }
                here += 1;
            }
        }
    }
    signs
}

fn is_word(sign: &str) -> bool {
    sign.starts_with(|letter: char| letter.is_alphabetic() || letter == '_')
}

/// What a `use` says: the path, and the name that it has here (`*` for a glob, `_` for none).
type Use = (Names, String);

/// The paths that a `use` names, `a::{b, c::{self, d as e}}` is a b, a c, a c d (as e); `here` is moved past it.
fn tree(signs: &[String], here: &mut usize, before: &[String], found: &mut Vec<Use>) {
    let mut path = before.to_vec();
    while let Some(sign) = signs.get(*here).map(String::as_str) {
        *here += 1;
        match sign {
            "::" => {}
            "{" => {
                while signs.get(*here).is_some_and(|sign| sign != "}") {
                    tree(signs, here, &path, found);
                    if signs.get(*here).is_some_and(|sign| sign == ",") {
                        *here += 1;
                    }
                }
                *here += 1;
                return;
            }
            "as" => {
                let name = signs.get(*here).cloned().unwrap_or_default();
                *here += 1;
                found.push((path, name));
                return;
            }
            "," | "}" | ";" => {
                *here -= 1;
                break;
            }
            "self" if !path.is_empty() => {}
            name => path.push(name.to_owned()),
        }
    }
    if let Some(name) = path.last().cloned() {
        found.push((path, name));
    }
}

/// What a file says of others.
struct Said {
    /// What each module in it (the file itself, and those written out in it) calls by which name: `use`.
    uses: Vec<(Names, Use)>,
    /// Paths written out where they stand, with the module that they stand in.
    written: Vec<(Names, Names)>,
}

/// Reads what a file says of others.
fn said(file: &str, text: &str) -> Said {
    let signs = signs(text);
    let mut said = Said { uses: Vec::new(), written: Vec::new() };
    // The module that the reader is in, and how deep in brackets each one written out in the file begins.
    let (mut own, mut begun, mut depth) = (module(file), Vec::new(), 0);
    let mut here = 0;
    while let Some(sign) = signs.get(here).map(String::as_str) {
        let next = |more: usize| signs.get(here + more).map_or("", String::as_str);
        match sign {
            "mod" if is_word(next(1)) && next(2) == "{" => {
                own.push(next(1).to_owned());
                begun.push(depth);
                here += 2;
                continue;
            }
            "{" => depth += 1,
            "}" => {
                depth -= 1;
                if begun.last() == Some(&depth) {
                    begun.pop();
                    own.pop();
                }
            }
            // `pub(in super::super)` says who may see it, and uses nothing.
            "pub" if next(1) == "(" => {
                while signs.get(here).is_some_and(|sign| sign != ")") {
                    here += 1;
                }
            }
            // `impl Trait + use<'_>` names no path.
            "use" if next(1) != "<" => {
                here += 1;
                let mut found = Vec::new();
                tree(&signs, &mut here, &[], &mut found);
                said.uses.extend(found.into_iter().map(|one| (own.clone(), one)));
                continue;
            }
            word if is_word(word) && next(1) == "::" => {
                let mut path = vec![word.to_owned()];
                while signs.get(here + 1).is_some_and(|sign| sign == "::")
                    && signs.get(here + 2).is_some_and(|sign| is_word(sign))
                {
                    path.push(signs[here + 2].clone());
                    here += 2;
                }
                said.written.push((own.clone(), path));
            }
            _ => {}
        }
        here += 1;
    }
    said
}

/// The names of the module that a file is: `motion/steps/mod.rs` is motion steps, `lib.rs` none.
fn module(file: &str) -> Names {
    let path = file.trim_end_matches(".rs");
    let path = path.strip_suffix("/mod").unwrap_or(path);
    path.split('/').filter(|name| *name != "lib").map(str::to_owned).collect()
}

/// All the sources read, to follow paths through.
struct Plan {
    said: BTreeMap<String, Said>,
    /// The file of each module.
    files: BTreeMap<Names, String>,
    /// What each module calls by which name, as paths from the crate; globs are under `*`.
    called: BTreeMap<(Names, String), Vec<Names>>,
}

impl Plan {
    fn of(sources: &[Source]) -> Self {
        let files = sources.iter().map(|(file, _)| (module(file), file.clone())).collect();
        let said: BTreeMap<_, _> =
            sources.iter().map(|(file, text)| (file.clone(), said(file, text))).collect();
        let mut plan = Self { said, files, called: BTreeMap::new() };
        // A name can be called by a name that is called by a name; each round follows one more.
        for _ in 0..3 {
            let mut called: BTreeMap<(Names, String), Vec<Names>> = BTreeMap::new();
            for (own, (path, name)) in plan.said.values().flat_map(|said| &said.uses) {
                if let Some(full) = plan.in_crate(own, path) {
                    called.entry((own.clone(), name.clone())).or_default().push(full);
                }
            }
            plan.called = called;
        }
        plan
    }

    /// A path in a module as one from the crate; none when it leads out of it.
    fn in_crate(&self, own: &[String], path: &[String]) -> Option<Names> {
        let first = path.first()?;
        match first.as_str() {
            // A program calls its library by the name of the crate.
            "crate" | "bellpad" => Some(path[1..].to_vec()),
            "self" | "super" => {
                let ups = path.iter().take_while(|name| *name == "super" || *name == "self");
                let up = ups.clone().filter(|name| *name == "super").count();
                let kept = &own[..own.len().saturating_sub(up)];
                Some(kept.iter().chain(&path[ups.count()..]).cloned().collect())
            }
            name => {
                let below: Names = own.iter().chain([first]).cloned().collect();
                if self.files.contains_key(&below) {
                    return Some(below.into_iter().chain(path[1..].iter().cloned()).collect());
                }
                // What a `use` calls by this name, anywhere in the module; else what a glob could bring.
                let full = match self.called.get(&(own.to_vec(), name.to_owned())) {
                    Some(called) => called.first().cloned(),
                    None => self.by_glob(own, name),
                }?;
                Some(full.into_iter().chain(path[1..].iter().cloned()).collect())
            }
        }
    }

    /// What a glob brings into a module by a name, where that is a module or is handed on.
    fn by_glob(&self, own: &[String], name: &str) -> Option<Names> {
        self.called.get(&(own.to_vec(), "*".to_owned()))?.iter().find_map(|glob| {
            let from = &glob[..glob.len().saturating_sub(1)];
            let full: Names = from.iter().cloned().chain([name.to_owned()]).collect();
            let known =
                self.files.contains_key(&full) || self.called.contains_key(&(from.to_vec(), name.to_owned()));
            known.then_some(full)
        })
    }

    /// Where a path from the crate leads in the end, through what modules only hand on.
    fn followed(&self, mut full: Names) -> Names {
        for _ in 0..8 {
            let next = (0..full.len()).find_map(|at| {
                let (module, rest) = full.split_at(at);
                let below = &full[..=at];
                // A function may have the name of a file beside it; a path that goes on means the file.
                if self.files.contains_key(below) && rest.len() > 1 {
                    return None;
                }
                let to =
                    self.called.get(&(module.to_vec(), rest[0].clone())).and_then(|to| to.first().cloned());
                let to = to.or_else(|| self.by_glob(module, &rest[0]))?;
                Some(to.into_iter().chain(rest[1..].iter().cloned()).collect::<Names>())
            });
            match next {
                Some(next) if next != full => full = next,
                _ => break,
            }
        }
        full
    }

    /// Every path in a file that leads somewhere in the crate, as one from the crate.
    fn paths(&self, file: &str) -> Vec<Names> {
        let said = &self.said[file];
        let uses = said.uses.iter().map(|(own, (path, _))| (own, path));
        let written = said.written.iter().map(|(own, path)| (own, path));
        uses.chain(written).filter_map(|(own, path)| self.in_crate(own, path)).collect()
    }

    /// The arrows: from a file to each file of another module that it uses. A name that a room's door only hands on belongs
    /// to the file that has it.
    fn arrows(&self) -> BTreeMap<String, BTreeSet<String>> {
        let mut arrows: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
        for file in self.said.keys() {
            for path in self.paths(file) {
                let full = self.followed(path);
                let used = (1..=full.len()).rev().find_map(|length| self.files.get(&full[..length]));
                if let Some(used) = used.filter(|used| *used != file) {
                    arrows.entry(file.clone()).or_default().insert(used.clone());
                }
            }
        }
        arrows
    }
}

fn room(file: &str) -> Option<usize> {
    let name = file.split(['/', '.']).next()?;
    ROOMS.iter().position(|room| *room == name)
}

/// What is wrong with the arrows of some sources.
fn wrong_arrows(sources: &[Source]) -> Vec<String> {
    let plan = Plan::of(sources);
    let mut wrong = BTreeSet::new();
    for (file, text) in sources {
        let Some(from) = room(file) else {
            if !["main.rs", "lib.rs"].contains(&file.as_str()) {
                wrong.insert(format!("{file} is in no room of the plan"));
            }
            continue;
        };
        for path in plan.paths(file) {
            // Both what is written and what that leads to.
            for path in [plan.followed(path.clone()), path] {
                if path.first().is_none_or(|name| name == "*") {
                    wrong.insert(format!("{file} takes the whole crate by one name, which hides its arrows"));
                } else if let Some(to) = ROOMS.iter().position(|room| *room == path[0])
                    && to < from
                {
                    wrong.insert(format!("{file} uses {}, which is above {}", ROOMS[to], ROOMS[from]));
                }
            }
        }
        if ROOMS[from] != "window" && names_egui(text) {
            wrong.insert(format!("{file} knows egui, which only window may"));
        }
    }
    wrong.into_iter().collect()
}

/// Whether a text names egui, or what it is made of, outside its comments.
fn names_egui(text: &str) -> bool {
    signs(text).iter().any(|sign| {
        ["egui", "eframe", "epaint", "emath", "ecolor"].contains(&sign.as_str()) || sign.starts_with("egui_")
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
    let circles: Vec<String> =
        circles(&Plan::of(&sources()).arrows()).iter().map(|circle| circle.join(", ")).collect();
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
        let lines = text.lines().take(page).map(|line| line.trim_start_matches("//!").trim());
        let page = lines.collect::<Vec<_>>().join(" ");
        for said in ["May use", "Begin with"] {
            assert!(page.contains(said), "{file} does not say: {said} ...");
        }
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
        ("fn look() { let floor = crate::window::Floor::new(); }", "uses window"),
        ("fn look() { crate :: window\n    ::show() }", "uses window"),
        ("use super::super::window::Floor;", "uses window"),
        ("fn look() { super::super::window::show() }", "uses window"),
        ("mod tests { fn look() { super::super::super::window::show() } }", "uses window"),
        ("use crate as bellpad;", "takes the whole crate"),
        ("use crate as house; fn look() { house::window::show() }", "uses window"),
        ("use crate::{self as house, dance::Dance}; fn look() { house::window::show() }", "uses window"),
        ("use super::super as up; use up::window;", "uses window"),
        ("use crate::*; fn look() { window::show() }", "uses window"),
        ("use crate::*;", "takes the whole crate"),
        ("extern crate self as bellpad; fn look() { bellpad::window::show() }", "uses window"),
        ("macro_rules! look { () => { $crate::window::show() } }", "uses window"),
        ("use crate::dance::{self}; pub(crate) use crate::window as dance_floor;", "uses window"),
        (
            "fn a() { let mark = '\\''; } /* '\"' */ fn b() { r#\"\\\"#; crate::window::show() }",
            "uses window",
        ),
        ("use {std::fs, egui::Ui};", "knows egui"),
        ("extern crate egui as shapes;", "knows egui"),
        ("use\n    eframe\n    ::epaint;", "knows egui"),
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
    let of = |files: &[(&str, &str)]| circles(&Plan::of(&made_up(files)).arrows());
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
    // A list that names its entries where they stand uses them, and they use what it hands on from below.
    let list = [
        ("dance/mod.rs", "pub mod list;\npub use list::Kind;"),
        ("dance/list/mod.rs", "mod a; mod b; use b::B; pub struct Kind; fn all() { a::find(); }"),
        ("dance/list/a.rs", "use super::B; fn find() {}"),
        ("dance/list/b.rs", "use crate::dance::Kind as Sort; fn look() -> super::super::Kind {}"),
    ];
    assert_eq!(of(&list), [["dance/list/a.rs", "dance/list/b.rs", "dance/list/mod.rs"]]);
    // In a module of tests `super` is the file itself, and what a room has from below is no file of its own.
    let tests = [
        ("dance/mod.rs", "pub use a::A; pub use b::B; pub use crate::motion::Motion;"),
        ("dance/a.rs", "use super::b::B; mod tests { use super::*; fn look() -> super::super::Motion {} }"),
        ("dance/b.rs", "mod tests { use super::{B}; mod deep { use super::super::*; } }"),
        ("motion/mod.rs", "pub use whole::Motion;"),
        ("motion/whole.rs", "use crate::dance::A;"),
    ];
    assert_eq!(of(&tests), Vec::<Vec<String>>::new());
    let arrows = Plan::of(&made_up(&tests)).arrows();
    assert_eq!(arrows["dance/a.rs"], BTreeSet::from(["dance/b.rs".to_owned(), "motion/whole.rs".to_owned()]));
    // A function may have the name of a file beside it.
    let function = [
        ("dance/mod.rs", "mod a; mod b; mod c; pub use c::a; pub use b::B;"),
        ("dance/a.rs", ""),
        ("dance/b.rs", "use super::a; use super::a::Own;"),
        ("dance/c.rs", "use crate::dance::B; pub fn a(b: &B) {}"),
    ];
    let arrows = Plan::of(&made_up(&function)).arrows();
    assert_eq!(arrows["dance/b.rs"], BTreeSet::from(["dance/a.rs".to_owned(), "dance/c.rs".to_owned()]));
}

/// A door only leads on: what the room is for, its files and what they hand on.
#[test]
fn doors_have_nothing_of_their_own() {
    for (file, text) in sources() {
        // The window's doors show what is behind them; they are held to the circles.
        if !file.ends_with("/mod.rs") || file.starts_with("window/") {
            continue;
        }
        let own = own_of_a_door(&text);
        assert!(own.is_empty(), "{file} has of its own: {}", own.join(", "));
    }
}

/// What a file has beside the names of modules and `use`.
fn own_of_a_door(text: &str) -> Vec<String> {
    let signs = signs(text);
    let items = ["fn", "struct", "enum", "union", "trait", "impl", "const", "static", "type", "macro_rules"];
    let item = |window: &[String]| items.contains(&window[0].as_str()).then(|| window.join(" "));
    let inside = |window: &[String]| (window[0] == "mod" && window[2] == "{").then(|| window.join(" "));
    signs.windows(2).filter_map(item).chain(signs.windows(3).filter_map(inside)).collect()
}

#[test]
fn what_a_door_has_of_its_own_is_found() {
    let door = "//! fn\nmod a; pub mod b; #[cfg(unix)] mod c;\npub use a::{A, B as C}; pub(crate) use crate::x::Y as Z;";
    assert_eq!(own_of_a_door(door), Vec::<String>::new());
    assert_eq!(own_of_a_door("mod a; pub(crate) const MOST: u32 = 3;"), ["const MOST"]);
    assert_eq!(
        own_of_a_door("pub use a::A; impl A {} mod tests { fn b() {} }"),
        ["impl A", "fn b", "mod tests {"]
    );
}
