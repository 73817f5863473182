//! What there is to watch for stands on handouts as `bellpad watch` prints it: on sheets, on a dancer's page and crib, in the notebook and on
//! the practice page; and nothing where there is nothing.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, Set, read};
use bellpad::figures::motion_of;
use bellpad::handout::page::{page, page_with};
use bellpad::handout::{Handout, Page, SheetChoice, dancer_page, figure_sheet, first_span, notebook, sheets};
use bellpad::motion::Motion;
use bellpad::picture::Mark;
use common::samples;
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::Command;

fn bellpad(verb: &str, file: &Path, options: &[&str]) -> String {
    let mut command = Command::new(env!("CARGO_BIN_EXE_bellpad"));
    let said = command.arg(verb).arg(file).args(options).env_remove("DISPLAY").output().unwrap();
    assert!(said.status.success(), "{}", String::from_utf8_lossy(&said.stderr));
    String::from_utf8(said.stdout).unwrap()
}

/// The sentences that `bellpad watch` prints, figure by figure: of a figure that goes otherwise later, those of its first time.
fn watched(file: &Path, options: &[&str]) -> Vec<(String, Vec<String>)> {
    let mut figures: Vec<(String, Vec<String>)> = Vec::new();
    let text = bellpad("watch", file, options);
    for line in text.lines().filter(|line| !line.is_empty()) {
        match line.strip_prefix("  ") {
            None => figures.push((line.to_owned(), Vec::new())),
            Some(said) => {
                let other = said.starts_with("Nothing that takes little")
                    || said.ends_with("to mend first: bellpad check")
                    || said.starts_with("bar ")
                    || said.starts_with("bars ")
                    || said.starts_with("may be ");
                if !other {
                    figures.last_mut().unwrap().1.push(said.to_owned());
                }
            }
        }
    }
    let caution = figures.pop().unwrap();
    assert!(caution.0.starts_with("Keep clear floor"), "{caution:?}");
    figures
}

fn of_figure<'a>(all: &'a [(String, Vec<String>)], name: &str) -> &'a [String] {
    &all.iter().find(|(known, _)| known == name).unwrap_or_else(|| panic!("{name} in {all:?}")).1
}

/// The words of a page in the order in which they were written.
fn words(page: &Page) -> String {
    let texts = page.marks.iter().filter_map(|mark| match mark {
        Mark::Words { text, .. } => Some(text.as_str()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ")
}

fn all_words(handout: &Handout) -> String {
    handout.pages.iter().map(words).collect::<Vec<_>>().join(" ")
}

fn opened() -> Vec<(std::path::PathBuf, Dance, Motion)> {
    let read_one = |path: std::path::PathBuf| {
        let dance = read(&fs::read(&path).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        (path, dance, motion)
    };
    samples().into_iter().map(read_one).collect()
}

#[test]
fn sheets_tell_what_the_verb_tells() {
    let (mut told, mut without) = (0, 0);
    for (path, dance, motion) in opened() {
        let all = watched(&path, &[]);
        let (mut headed, every) = (0, sheets(&dance, &motion, &SheetChoice::default(), &mut |_, _| true));
        let every = all_words(&every);
        for (index, figure) in dance.figures.iter().enumerate() {
            let Some(span) = first_span(&motion, index) else { continue };
            let said = of_figure(&all, &figure.name);
            let sheet = all_words(&figure_sheet(&dance, &motion, span, &SheetChoice::default()));
            let after = sheet.split_once("Watch for ").map(|(_, after)| after);
            assert!(said.len() <= 3, "{said:?}");
            if said.is_empty() {
                assert!(after.is_none(), "{}: {after:?}", figure.name);
                without += 1;
                continue;
            }
            let after =
                after.unwrap_or_else(|| panic!("{} in {}: nothing is said", figure.name, dance.title));
            let whole = said.join(" ");
            let rest = after.strip_prefix(whole.as_str()).unwrap_or_else(|| panic!("{after} is not {whole}"));
            // And nothing more: what comes next is another part of the sheet.
            let next = ["Notes", "Each number in words", "Warm up"];
            assert!(next.iter().any(|next| rest.trim_start().starts_with(next)), "{rest}");
            assert!(every.contains(&format!("Watch for {whole}")), "{}: {whole}", figure.name);
            (told, headed) = (told + said.len(), headed + 1);
        }
        assert_eq!(every.matches("Watch for ").count(), headed, "{}", dance.title);
        let none = SheetChoice { watch: false, ..SheetChoice::default() };
        let none = sheets(&dance, &motion, &none, &mut |_, _| true);
        assert!(!all_words(&none).contains("Watch for"));
    }
    assert!(told > 40 && without >= 3, "{told} sentences, {without} figures without");
}

#[test]
fn a_notebook_tells_it_once_a_figure() {
    let all = opened();
    let dances: Vec<(Dance, Motion)> =
        all.iter().map(|(_, dance, motion)| (dance.clone(), motion.clone())).collect();
    let book = all_words(&notebook(&dances, &SheetChoice::default(), &mut |_, _| true));
    let mut figures = 0;
    for (path, dance, motion) in &all {
        let watched = watched(path, &[]);
        for (index, figure) in dance.figures.iter().enumerate() {
            let said = of_figure_danced(&watched, motion, index, &figure.name);
            if !said.is_empty() {
                figures += 1;
                assert!(book.contains(&format!("Watch for {}", said.join(" "))), "{}", figure.name);
            }
        }
    }
    assert_eq!(book.matches("Watch for ").count(), figures);
    let none = SheetChoice { watch: false, ..SheetChoice::default() };
    assert!(!all_words(&notebook(&dances, &none, &mut |_, _| true)).contains("Watch for"));
}

fn of_figure_danced<'a>(
    all: &'a [(String, Vec<String>)],
    motion: &Motion,
    index: usize,
    name: &str,
) -> &'a [String] {
    if first_span(motion, index).is_some() { of_figure(all, name) } else { &[] }
}

/// A dancer's own page and crib have the first of their own sentences, without their own number before it.
#[test]
fn a_dancer_is_told_their_own() {
    let (mut told, mut without) = (0, 0);
    for (path, dance, motion) in opened() {
        for dancer in Dancer::all(motion.dancers()).take(3) {
            let number = dancer.to_string();
            let all = watched(&path, &["--dancer", &number]);
            let page = all_words(&dancer_page(&dance, &motion, None, dancer, &SheetChoice::default()));
            let crib = bellpad("crib", &path, &["--dancer", &number]);
            let bars = bellpad("crib", &path, &["--dancer", &number, "--bars"]);
            let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
            let (crib, bars) = (flat(&crib), flat(&bars));
            let mut lines = 0;
            for (index, figure) in dance.figures.iter().enumerate() {
                let own = of_figure_danced(&all, &motion, index, &figure.name);
                let Some(first) = own.first() else {
                    without += 1;
                    continue;
                };
                let line =
                    format!("Watch for: {}.", first.strip_prefix(&format!("{number}: ")).unwrap_or(first));
                assert!(page.contains(&line), "{number}, {}: {line} in {page}", figure.name);
                assert!(crib.contains(&line), "{number}, {}: {line} in {crib}", figure.name);
                assert!(bars.contains(&line), "{number}, {}: {line} in {bars}", figure.name);
                (told, lines) = (told + 1, lines + 1);
            }
            assert_eq!(page.matches("Watch for").count(), lines, "{}, {number}", dance.title);
            let none = SheetChoice { watch: false, ..SheetChoice::default() };
            let none = dancer_page(&dance, &motion, None, dancer, &none);
            assert!(!all_words(&none).contains("Watch for"));
            let none = bellpad("crib", &path, &["--dancer", &number, "--no-watch"]);
            assert!(!none.contains("Watch for"));
        }
    }
    assert!(told > 60 && without >= 3, "{told} lines, {without} figures without");
}

fn data_of(page: &str) -> Value {
    let (_, data) = page.split_once("<script type=\"application/json\" id=\"dance\">").unwrap();
    serde_json::from_str(data.split_once("</script>").unwrap().0).unwrap()
}

#[test]
fn the_practice_page_holds_the_same_sentences() {
    let mut told = 0;
    for (path, dance, motion) in opened() {
        let data = data_of(&page(&dance, &motion).unwrap());
        let side = watched(&path, &[]);
        let texts = |indices: &Value| -> Vec<String> {
            let indices = indices.as_array().unwrap().iter();
            indices
                .map(|index| data["texts"][index.as_u64().unwrap() as usize].as_str().unwrap().to_owned())
                .collect()
        };
        for (index, figure) in dance.figures.iter().enumerate() {
            let Some(span) = first_span(&motion, index) else { continue };
            let kind = data["spans"][span.index()]["played"].as_u64().unwrap() as usize;
            let watch = &data["played"][kind]["watch"];
            assert_eq!(texts(&watch["side"]), of_figure(&side, &figure.name), "{}", figure.name);
            told += texts(&watch["side"]).len();
            for dancer in Dancer::all(motion.dancers()).take(2) {
                let number = dancer.to_string();
                let own = watched(&path, &["--dancer", &number]);
                let first = of_figure(&own, &figure.name).first();
                let first =
                    first.map(|text| text.strip_prefix(&format!("{number}: ")).unwrap_or(text).to_owned());
                assert_eq!(texts(&watch["own"][dancer.index()]), Vec::from_iter(first), "{}", figure.name);
            }
        }
        let none = data_of(&page_with(&dance, &motion, false).unwrap());
        for kind in none["played"].as_array().unwrap() {
            assert_eq!(kind["watch"]["side"], serde_json::json!([]));
            assert_eq!(kind["watch"]["own"].as_array().unwrap().len(), motion.dancers());
        }
    }
    assert!(told > 40, "{told}");
}

/// The sentences stand on the page of the diagrams: a sheet has no page more for them.
#[test]
fn a_sheet_is_no_longer_for_them() {
    let mut looked = 0;
    for (_, dance, motion) in opened() {
        for index in 0..dance.figures.len() {
            let Some(span) = first_span(&motion, index) else { continue };
            let pages = |watch: bool| {
                let choice = SheetChoice { watch, words: false, ..SheetChoice::default() };
                figure_sheet(&dance, &motion, span, &choice).pages.len()
            };
            assert_eq!(pages(true), pages(false), "{}, {}", dance.figures[index].name, dance.title);
            looked += 1;
        }
    }
    assert!(looked > 20, "{looked}");
}

/// A set for which it is not worked out has handouts all the same.
#[test]
fn a_large_set_has_handouts_without() {
    let mut dance = Dance::new("Many", Set::longways(26, 2.4, 1.8));
    let figure =
        bellpad::figures::named_figure("foot-up-and-down", bellpad::dance::Extra::new(), &dance.set).unwrap();
    dance.figures.push(figure);
    let motion = motion_of(&dance, None).unwrap();
    let sheet = sheets(&dance, &motion, &SheetChoice::default(), &mut |_, _| true);
    assert!(!sheet.pages.is_empty() && !all_words(&sheet).contains("Watch for"));
    assert!(!page(&dance, &motion).unwrap().contains("\"side\":[1"));
}
