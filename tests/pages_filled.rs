//! Pages that are well used: filled before new ones begin, with what belongs together on one page.
//!
//! Source: ISO 216:2007 for A4; 8.5 by 11 inches for Letter (from memory).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Entry, Extra, Set, read};
use bellpad::figures::{motion_of, named_figure};
use bellpad::handout::{
    Handout, Page, Paper, PaperSize, Role, SheetChoice, figure_sheet, notebook, page_to_rgb, sheets,
};
use bellpad::motion::{Motion, SpanIndex};
use bellpad::picture::{Face, Mark, words_width};
use common::samples;
use std::fs;

/// The foot of a page, points: its words of caution and its number.
const FOOT: f32 = 20.0;

fn dances() -> Vec<(Dance, Motion)> {
    let read = |file: &std::path::PathBuf| {
        let dance = read(&fs::read(file).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        (dance, motion)
    };
    samples().iter().map(read).collect()
}

fn papers() -> [SheetChoice; 2] {
    [PaperSize::A4, PaperSize::Letter]
        .map(|size| SheetChoice { paper: Paper { size, landscape: false }, ..SheetChoice::default() })
}

fn book(dances: &[(Dance, Motion)], choice: &SheetChoice) -> Handout {
    notebook(dances, choice, &mut |_, _| true)
}

/// The boxes of what is on a page over its foot: left, top, right, bottom, points.
fn boxes(page: &Page) -> Vec<[f32; 4]> {
    let round = |points: &[[f32; 2]]| {
        points.iter().fold([f32::MAX, f32::MAX, f32::MIN, f32::MIN], |edge, [x, y]| {
            [edge[0].min(*x), edge[1].min(*y), edge[2].max(*x), edge[3].max(*y)]
        })
    };
    let mut all: Vec<[f32; 4]> = page
        .marks
        .iter()
        .map(|mark| match mark {
            Mark::Words { at, size, anchor, text, heavy, .. } => {
                let wide = words_width(text, *size, Face::of(*heavy));
                let left = anchor.left_end(at[0], wide);
                [left, at[1] - size * 0.5, left + wide, at[1] + size * 0.5]
            }
            Mark::Line { points, .. } | Mark::Area { points, .. } => round(points),
            Mark::Outline { loops, .. } => round(&loops.concat()),
            Mark::Oval { at, radii, .. } | Mark::Block { at, radii, .. } => {
                [at[0] - radii[0], at[1] - radii[1], at[0] + radii[0], at[1] + radii[1]]
            }
        })
        .collect();
    all.extend(page.parts.iter().filter_map(|part| match &part.role {
        Role::Picture(_, area) => Some(*area),
        _ => None,
    }));
    let bottom = page.paper.inside()[3] - FOOT;
    all.retain(|edges| edges[3] <= bottom + 2.0);
    all
}

/// How far down a page is filled, as a share.
fn depth(page: &Page) -> f64 {
    let [_, top, _, bottom] = page.paper.inside();
    let lowest = boxes(page).iter().map(|edges| edges[3]).fold(top, f32::max);
    f64::from((lowest - top) / (bottom - FOOT - top))
}

/// How much of a page has something on it, as a share: of squares of a quarter of an inch; a diagram is full as far as
/// its frame goes.
fn covered(page: &Page) -> f64 {
    const CELL: f32 = 18.0;
    let [left, top, right, bottom] = page.paper.inside();
    let (across, down) = (((right - left) / CELL) as usize, ((bottom - FOOT - top) / CELL) as usize);
    let mut cells = vec![false; across * down];
    for [l, t, r, b] in boxes(page) {
        let cell = |at: f32, from: f32| ((at - from) / CELL).max(0.0) as usize;
        for row in cell(t, top)..=cell(b, top).min(down - 1) {
            for column in cell(l, left)..=cell(r, left).min(across - 1) {
                cells[row * across + column] = true;
            }
        }
    }
    cells.iter().filter(|cell| **cell).count() as f64 / cells.len() as f64
}

fn average(pages: &[Page], of: impl Fn(&Page) -> f64) -> f64 {
    pages.iter().map(of).sum::<f64>() / pages.len() as f64
}

#[test]
fn the_notebook_of_all_samples_fills_its_pages() {
    let dances = dances();
    for choice in papers() {
        let book = book(&dances, &choice);
        let (deep, full) = (average(&book.pages, depth), average(&book.pages, covered));
        let low: Vec<String> = book
            .pages
            .iter()
            .enumerate()
            .map(|(index, page)| (index + 1, depth(page), covered(page), &page.title))
            .filter(|(_, deep, full, _)| *deep < 0.8 || *full < 0.6)
            .map(|(index, deep, full, title)| format!("{index} {deep:.2} {full:.2} {title}"))
            .collect();
        let size = choice.paper.size;
        println!(
            "{size:?}: {} pages, {deep:.3} down, {full:.3} covered\n{}",
            book.pages.len(),
            low.join("\n")
        );
        assert!(deep > 0.85, "{size:?}: pages are filled to {deep:.3}");
        assert!(full > 0.7, "{size:?}: {full:.3} of the pages is used");
    }
}

/// What the boxes say of a page is what is on it.
#[test]
fn the_boxes_are_where_the_ink_is() {
    let dances = dances();
    let book = book(&dances, &papers()[0]);
    for page in book.pages.iter().skip(3).step_by(9) {
        let [across, down] = page.paper.points();
        let size = (across as u32, down as u32);
        let rgb = page_to_rgb(page, size).unwrap();
        let [_, top, _, bottom] = page.paper.inside();
        let rows = rgb.chunks(size.0 as usize * 3).take((bottom - FOOT) as usize);
        let lowest =
            rows.enumerate().filter(|(_, row)| row.iter().any(|of| *of < 200)).map(|(y, _)| y).max().unwrap();
        let ink = f64::from((lowest as f32 - top) / (bottom - FOOT - top));
        assert!(
            (ink - depth(page)).abs() < 0.02,
            "{}: ink to {ink:.3}, boxes to {:.3}",
            page.title,
            depth(page)
        );
    }
}

/// The names of the figures that begin on a page: headings as deep as theirs that are figures' names.
fn begins<'a>(page: &Page, dance: &'a Dance) -> Vec<&'a str> {
    let heads = page.parts.iter().filter(|part| matches!(part.role, Role::Heading(_)));
    let said: Vec<&str> = heads
        .filter_map(|part| match page.marks.get(part.begin) {
            Some(Mark::Words { text, .. }) => Some(text.as_str()),
            _ => None,
        })
        .collect();
    let names = dance.figures.iter().map(|figure| figure.name.as_str());
    names.filter(|name| said.contains(name)).collect()
}

/// A figure in which all stand is no page of its own.
#[test]
fn no_page_is_of_people_standing() {
    for (dance, motion) in dances() {
        for choice in papers() {
            let all = sheets(&dance, &motion, &choice, &mut |_, _| true);
            for handout in [book(&[(dance.clone(), motion.clone())], &choice), all] {
                let page =
                    handout.pages.iter().find(|page| begins(page, &dance).contains(&"Once to yourself"));
                let page = page.unwrap();
                assert_ne!(page.title, "Once to yourself", "{}", dance.title);
            }
        }
    }
}

/// A figure's notes are on the page of its first diagram.
#[test]
fn notes_stand_with_the_diagrams() {
    let mut seen = 0;
    for (dance, motion) in dances() {
        for choice in papers() {
            let book = book(&[(dance.clone(), motion.clone())], &choice);
            for figure in dance.figures.iter().filter(|figure| !figure.notes.trim().is_empty()) {
                let start = figure.notes.split_whitespace().take(4).collect::<Vec<_>>().join(" ");
                let with = |page: &&Page| {
                    // Its name over them, and a diagram of its start under them.
                    let name = page.text().find(&figure.name);
                    let notes = page.text().find(&start);
                    let diagram = notes.and_then(|notes| page.text()[notes..].find("\nStart\n"));
                    name.zip(notes).is_some_and(|(name, notes)| name < notes) && diagram.is_some()
                };
                let page = book.pages.iter().find(with);
                assert!(page.is_some(), "{}: {start:?} is not with {}", dance.title, figure.name);
                seen += 1;
            }
        }
    }
    assert!(seen > 4, "{seen}");
}

/// A table that goes on says its heads again.
#[test]
fn the_heads_of_a_long_running_order_are_on_each_of_its_pages() {
    let mut dance = Dance::new("Long", Set::longways(6, 2.4, 1.8));
    dance.figures.push(named_figure("hey", Extra::new(), &dance.set).unwrap());
    dance.order = (0..120).map(|_| Entry::of("hey")).collect();
    let motion = motion_of(&dance, None).unwrap();
    let book = book(&[(dance, motion)], &SheetChoice::default());
    let words = |page: &Page, wanted: &str| page.text().lines().filter(|line| *line == wanted).count();
    let with: Vec<&Page> = book.pages.iter().filter(|page| words(page, "Hey") > 8).collect();
    assert!(with.len() > 1, "{}", with.len());
    for page in with {
        for head in ["Line", "Figure", "Strain", "Bars"] {
            assert_eq!(words(page, head), 1, "{head} on {}", page.title);
        }
    }
}

/// Rounds for twelve: at most three pages, with the numbers on the dancers.
#[test]
fn rounds_for_twelve_are_at_most_three_pages() {
    let mut dance = Dance::new("Twelve", Set::longways(12, 2.4, 1.8));
    dance.figures.push(named_figure("whole-rounds", Extra::new(), &dance.set).unwrap());
    let motion = motion_of(&dance, None).unwrap();
    for choice in papers() {
        let sheet = figure_sheet(&dance, &motion, SpanIndex(0), &choice);
        assert!(sheet.pages.len() <= 3, "{:?}: {} pages", choice.paper.size, sheet.pages.len());
        let words = sheet.pages.iter().map(Page::text).collect::<Vec<_>>().join("\n");
        let diagrams = words.lines().filter(|line| *line == "12").count();
        assert!(diagrams > 4, "12 is on {diagrams} heads");
    }
}
