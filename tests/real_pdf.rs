//! What poppler, a reader of PDF that is no part of the program, makes of the notebook. `.ci/run` asks for these.
//!
//! Sources: ISO 216:2007 for A4; poppler's own tools for what is in the file.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::read;
use common::{done, samples, text};
use std::fs;
use std::path::Path;
use std::process::Command;

/// What one of poppler's tools prints; it must have nothing to complain of.
#[track_caller]
fn poppler(tool: &str, arguments: &[&str]) -> String {
    String::from_utf8(poppler_bytes(tool, arguments)).unwrap()
}

fn poppler_bytes(tool: &str, arguments: &[&str]) -> Vec<u8> {
    let ran = Command::new(tool).args(arguments).output().unwrap_or_else(|error| panic!("{tool}: {error}"));
    assert!(ran.status.success(), "{tool}: {}", String::from_utf8_lossy(&ran.stderr));
    // Poppler takes a mark of PDF/UA that says no (ISO 32000-1, 14.7.1: Suspects, a boolean) for one of a wrong type.
    let said = String::from_utf8_lossy(&ran.stderr)
        .replace("Syntax Error: Suspects object is wrong type (boolean)\n", "");
    assert_eq!(said, "", "{tool} complains");
    ran.stdout
}

fn notebook(folder: &Path) -> String {
    let book = folder.join("book.pdf");
    let files = samples();
    let mut arguments = vec!["notebook"];
    arguments.extend(files.iter().map(|file| text(file)));
    arguments.extend(["-o", text(&book)]);
    done(&arguments);
    text(&book).to_owned()
}

#[test]
#[ignore = "needs poppler; .ci/run asks for it"]
fn poppler_finds_a4_pages_with_a_title() {
    let folder = tempfile::tempdir().unwrap();
    let said = poppler("pdfinfo", &[&notebook(folder.path())]);
    let line = |name: &str| said.lines().find_map(|line| line.strip_prefix(name)).unwrap_or_default().trim();
    assert_eq!(line("Title:"), "Quillow Ferry Morris: notebook");
    assert!(line("Page size:").ends_with("(A4)"), "{said}");
    assert!(line("Pages:").parse::<u32>().unwrap() > 20, "{said}");
}

#[test]
#[ignore = "needs poppler; .ci/run asks for it"]
fn poppler_finds_every_figure_and_every_number_in_the_text() {
    let folder = tempfile::tempdir().unwrap();
    let said = poppler("pdftotext", &[&notebook(folder.path()), "-"]);
    let pages: Vec<String> =
        said.split('\u{c}').map(|page| page.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
    for file in samples() {
        let dance = read(&fs::read(&file).unwrap()).unwrap();
        for figure in &dance.figures {
            let head = format!("{} {}", figure.name, dance.side);
            let page = pages.iter().find(|page| {
                page.contains(&figure.name)
                    && page.contains(&format!("{} ·", dance.title))
                    && page.contains("Start")
            });
            let page = page.unwrap_or_else(|| panic!("no page is headed {head}"));
            for number in 1..=dance.set.dancers {
                let there = page.split(' ').any(|word| word == number.to_string());
                assert!(there, "{number} is not on the sheet of {}", figure.name);
            }
        }
        assert!(pages.iter().any(|page| page.contains("Running order") && page.contains(&dance.title)));
    }
}

#[test]
#[ignore = "needs poppler; .ci/run asks for it"]
fn poppler_finds_every_font_inside() {
    let folder = tempfile::tempdir().unwrap();
    let said = poppler("pdffonts", &[&notebook(folder.path())]);
    let mut lines = said.lines();
    let head = lines.next().unwrap();
    let column = head.find("emb").expect("a column that says whether it is inside");
    let fonts: Vec<&str> = lines.skip(1).collect();
    assert!(!fonts.is_empty());
    for font in fonts {
        assert_eq!(font.get(column..column + 3), Some("yes"), "{font}");
    }
}

/// The stepping page on both sizes of paper: each count, what lands on it, and the caution are text.
#[test]
#[ignore = "needs poppler; .ci/run asks for it"]
fn poppler_finds_the_text_of_the_stepping() {
    let folder = tempfile::tempdir().unwrap();
    for (paper, size) in [("a4", "(A4)"), ("letter", "(letter)")] {
        let page = folder.path().join(format!("{paper}.pdf"));
        done(["stepping", text(&samples()[0]), "-o", text(&page), "--paper", paper]);
        let said = poppler("pdfinfo", &[text(&page)]);
        assert!(said.lines().any(|line| line.starts_with("Page size:") && line.ends_with(size)), "{said}");
        let said = poppler("pdftotext", &[text(&page), "-"]);
        let words = said.split_whitespace().collect::<Vec<_>>().join(" ");
        for wanted in [
            "The stepping",
            "double step",
            "hop L",
            "in the air",
            "25 cm",
            "the filled foot carries the weight",
            "Land with bent knees",
        ] {
            assert!(words.contains(wanted), "{paper}: no {wanted} in {words}");
        }
    }
}

/// The tapping page on both sizes of paper: who, how and on which count are text.
#[test]
#[ignore = "needs poppler; .ci/run asks for it"]
fn poppler_finds_the_text_of_the_tapping() {
    let folder = tempfile::tempdir().unwrap();
    for paper in ["a4", "letter"] {
        let page = folder.path().join(format!("{paper}.pdf"));
        done(["tapping", text(&common::sample("thimble-row")), "-o", text(&page), "--paper", paper]);
        let said = poppler("pdftotext", &["-layout", text(&page), "-"]);
        for wanted in [
            "The tapping",
            "Chorus: clapping",
            "own hands",
            "partners",
            "right on right",
            "4, 8",
            "both hands",
        ] {
            assert!(said.contains(wanted), "{paper}: {wanted:?} is not in {said}");
        }
    }
}

/// What a reader aloud is given: headings, sentences and the words of drawings, in the order of the page.
#[test]
#[ignore = "needs poppler; .ci/run asks for it"]
fn poppler_reads_headings_sentences_and_drawings_in_order() {
    let folder = tempfile::tempdir().unwrap();
    let sheet = folder.path().join("whole.pdf");
    done(["sheet", text(&common::sample("nine-geese-home")), "--whole", "-o", text(&sheet)]);
    for (file, wanted) in [
        (
            notebook(folder.path()),
            vec![
                "H1 \"Quillow Ferry Morris: notebook\"",
                "Figure",
                "H2 \"Contents\"",
                "LI (block)",
                "Link",
                "H3 \"Before you dance\"",
                "Warm up first.",
                "H3 \"Running order\"",
                "Table",
                "TH",
                "TD",
                "H3 \"Tune\"",
                "H3 \"The stepping\"",
            ],
        ),
        (
            text(&sheet).to_owned(),
            vec![
                "H1 \"Nine Geese Home\"",
                "Running order",
                "Table",
                "Stepping",
                "Figures",
                "Figure",
                "Tune",
                "Before you dance",
            ],
        ),
    ] {
        // Poppler prints structure byte by byte, and not all of it as UTF-8.
        let tree = poppler_bytes("pdfinfo", &["-struct-text", &file]);
        let tree = String::from_utf8_lossy(&tree);
        let mut rest = &*tree;
        for wanted in wanted {
            let Some(at) = rest.find(wanted) else { panic!("no {wanted:?} in order in {file}") };
            rest = &rest[at..];
        }
        let attributes = poppler_bytes("pdfinfo", &["-struct", &file]);
        let attributes = String::from_utf8_lossy(&attributes);
        assert!(attributes.contains("Figure"), "{file}");
        let said = poppler("pdfinfo", &[&file]);
        assert!(said.lines().any(|line| line.starts_with("Tagged:") && line.ends_with("yes")), "{said}");
        let bytes = fs::read(&file).unwrap();
        let meta = String::from_utf8_lossy(&bytes);
        assert!(meta.contains("pdfuaid:part"), "{file} does not say that it is PDF/UA");
    }
}
