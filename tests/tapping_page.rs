//! The tapping page: what is on it, how it folds, and its files.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    Dance, Entry, Figure, Holding, Metre, PlaceNumber, Set, Strike, StrikeEnd, Striker, Struck, read, write,
};
use bellpad::figures::motion_of;
use bellpad::handout::{Handout, Paper, PaperSize, SheetChoice, figure_sheet, notebook, tapping};
use bellpad::motion::SpanIndex;
use bellpad::picture::Mark;
use common::{assert_refused, bellpad, done, sample, text};

fn page(dance: &Dance) -> Option<Handout> {
    tapping(dance, &motion_of(dance, None).unwrap(), None, Paper::default())
}

fn words(handout: &Handout) -> String {
    handout.pages.iter().map(|page| page.text() + "\n").collect()
}

/// Dibbing as [MB1] (C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, 1907) has it, twice: its sixth bar is in 9/8.
fn dibbing() -> Dance {
    let mut dance = Dance::new("Dibs", Set::longways(6, 1.2, 1.2));
    (dance.holding, dance.music.metre) = (Holding::Sticks, Metre::SixEight);
    let mut figure = Figure::drawn("dib", "Dibbing", 12);
    figure.metres = [(6, Metre::NineEight), (12, Metre::NineEight)].into();
    let again = |at: f64| vec![at + 26.0];
    let one = |at: f64, by: u32, on: u32| Strike {
        again: again(at),
        ..Strike::new(at, Striker::Place(PlaceNumber(by)), StrikeEnd::Tip, Struck::Place(PlaceNumber(on)))
    };
    let all = |at: f64, on: Struck| Strike {
        again: again(at),
        ..Strike::new(at, Striker::All, StrikeEnd::Tip, on)
    };
    figure.strikes = vec![
        all(0.0, Struck::Ground),
        all(2.0, Struck::Ground),
        Strike { stay: true, ..all(4.0, Struck::Partner) },
        all(8.0, Struck::Ground),
        all(10.0, Struck::Ground),
        all(12.0, Struck::Partner),
        one(14.0, 1, 3),
        one(16.0, 3, 5),
        one(18.0, 5, 6),
        one(20.0, 6, 4),
        one(22.0, 4, 2),
        all(24.0, Struck::Partner),
    ];
    dance.figures.push(figure);
    // Nothing meets in this one.
    dance.figures.push(Figure::drawn("walk", "Walking on", 4));
    dance.order = vec![Entry::of("walk"), Entry::of("dib")];
    dance
}

#[test]
fn a_row_is_a_bar_and_alike_bars_are_one() {
    let handout = page(&dibbing()).unwrap();
    let said = words(&handout);
    let page = &handout.pages[0];
    assert!(!said.contains("Walking on"), "what has no strikes is left out");
    // Six rows: the second six bars are as the first.
    for bars in ["\n1, 3, 7, 9\n", "\n2, 8\n", "\n4, 10\n", "\n5, 11\n", "\n6, 12\n"] {
        assert!(said.contains(bars), "{bars:?}: {said}");
    }
    // The bar of 9/8 has six counts, and a head of its own.
    let heads: Vec<&str> =
        said.lines().filter(|line| ["1", "2", "3", "4", "5", "6"].contains(line)).collect();
    assert_eq!(heads, ["1", "2", "3", "4", "1", "2", "3", "4", "5", "6"]);
    assert!(
        page.words.contains("Bars 6, 12: count 1: 6 with 4, tip on tip; count 3: 4 with 2, tip on tip; count 5: partners, tip on tip."),
        "{}",
        page.words
    );
    assert!(
        page.words.contains("Bars 2, 8: count 1: partners, tip on tip, stay 4 counts."),
        "{}",
        page.words
    );
    assert!(page.words.contains("count 1: all, dib, tip; count 3: all, dib, tip."), "{}", page.words);
    assert_eq!(said.matches("Sticks: sound wood").count(), 1);
    assert_eq!(handout.bookmarks.len(), 1);
}

/// Counts are as far apart whether something meets on them or not: the beats are seen.
#[test]
fn counts_are_as_far_apart_as_each_other() {
    let mut one = dibbing();
    one.figures[0].strikes = vec![Strike::new(2.0, Striker::Odds, StrikeEnd::Tip, Struck::Partner)];
    for dance in [dibbing(), one] {
        let handout = page(&dance).unwrap();
        let mut heads: Vec<(f32, f32)> = Vec::new();
        for mark in &handout.pages[0].marks {
            let Mark::Words { at, size, text, .. } = mark else { continue };
            if *size > 13.0 && ["1", "2", "3", "4", "5", "6"].contains(&text.as_str()) && at[0] > 100.0 {
                heads.push((at[1], at[0]));
            }
        }
        assert!(heads.len() >= 4, "{heads:?}");
        for row in heads.chunk_by(|one, other| (one.0 - other.0).abs() < 0.5) {
            let apart: Vec<f32> = row.windows(2).map(|pair| pair[1].1 - pair[0].1).collect();
            assert!(apart.iter().all(|apart| *apart > 40.0), "{apart:?}");
            assert!(apart.iter().all(|one| (one - apart[0]).abs() < 0.5), "{apart:?}");
        }
    }
}

/// Nothing is too small to be read at arm's length, or off the paper, or over another, on either paper and either side of it.
#[test]
fn it_can_be_read_at_arms_length() {
    let mut large = dibbing();
    large.set = Set::longways(40, 1.2, 1.2);
    // Many pairs that no short word holds, and as many figures as take some pages.
    for number in 1..8 {
        let mut more = large.figures[0].clone();
        (more.id, more.name) = (format!("dib{number}"), format!("Dibbing {number}"));
        large.order.push(Entry::of(&more.id));
        large.figures.push(more);
    }
    for dance in [dibbing(), large, read(&std::fs::read(sample("thimble-row")).unwrap()).unwrap()] {
        let motion = motion_of(&dance, None).unwrap();
        for (size, landscape) in [(PaperSize::A4, false), (PaperSize::A4, true), (PaperSize::Letter, false)] {
            let paper = Paper { size, landscape };
            let handout = tapping(&dance, &motion, None, paper).unwrap();
            let [left, top, right, bottom] = paper.inside();
            for page in &handout.pages {
                let mut cells = 0;
                let rows: Vec<(f32, f32)> = page
                    .marks
                    .iter()
                    .filter_map(|mark| match mark {
                        Mark::Words { at, size, heavy: true, text, .. }
                            if *size >= 12.0 && text.contains(['1', 'p', 'a']) =>
                        {
                            Some((at[0], at[1]))
                        }
                        _ => None,
                    })
                    .collect();
                for mark in &page.marks {
                    let Mark::Words { at, size, text, anchor, .. } = mark else { continue };
                    cells += usize::from(*size >= 12.0);
                    let from = anchor.left_end(
                        at[0],
                        bellpad::picture::words_width(text, *size, bellpad::picture::Face::Bold),
                    );
                    let to = from + bellpad::picture::words_width(text, *size, bellpad::picture::Face::Bold);
                    assert!(from > left - 1.0 && to < right + 1.0, "{text:?} from {from} to {to}");
                    assert!(at[1] > top && at[1] < bottom + 1.0, "{text:?}");
                }
                assert!(cells > 8 && !rows.is_empty(), "a page with next to nothing on it: {}", page.text());
            }
        }
    }
}

#[test]
fn the_verb_writes_it_and_says_where_there_is_none() {
    let folder = tempfile::tempdir().unwrap();
    let out = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    for ending in ["pdf", "svg", "png"] {
        done(["tapping", text(&sample("kettle-bridge")), "-o", &out(&format!("taps.{ending}"))]);
        assert!(std::fs::metadata(out(&format!("taps.{ending}"))).unwrap().len() > 1_000);
    }
    done([
        "tapping",
        text(&sample("kettle-bridge")),
        "--figure",
        "tap",
        "-o",
        &out("one.pdf"),
        "--paper",
        "letter",
    ]);
    let run = |arguments: &[&str]| bellpad(arguments.iter().copied());
    let none = sample("low-water");
    assert_refused(
        &run(&["tapping", text(&none), "-o", &out("none.pdf")]),
        &["low-water", "No sticks or hands meet"],
    );
    let kettle = sample("kettle-bridge");
    assert_refused(
        &run(&["tapping", text(&kettle), "--figure", "hey", "-o", &out("none.pdf")]),
        &["kettle-bridge", "No sticks or hands meet in Hey for four"],
    );
    assert_refused(
        &run(&["tapping", text(&kettle), "--figure", "polka", "-o", &out("none.pdf")]),
        &["polka", "the figures are"],
    );
    assert_refused(
        &run(&["tapping", text(&kettle), "-o", &out("none.txt")]),
        &["none.txt", ".pdf, .svg or .png"],
    );
    assert!(!folder.path().join("none.pdf").exists());
    // A figure that is not in the running order is shown as it would be danced from home.
    let mut alone = dibbing();
    alone.order.truncate(1);
    std::fs::write(out("alone.dance.json"), write(&alone).unwrap()).unwrap();
    done(["tapping", &out("alone.dance.json"), "--figure", "dib", "-o", &out("alone.svg")]);
    assert!(std::fs::read_to_string(out("alone.svg")).unwrap().contains("partners"));
}

/// It is in the notebook, with a line in the contents, where something meets.
#[test]
fn the_notebook_has_it() {
    let of = |dance: Dance| {
        let motion = motion_of(&dance, None).unwrap();
        words(&notebook(&[(dance, motion)], &SheetChoice::default(), &mut |_, _| true))
    };
    let with = of(dibbing());
    assert!(with.matches("The tapping").count() >= 2, "in the contents and over the page");
    let mut without = dibbing();
    without.figures[0].strikes.clear();
    assert!(!of(without).contains("The tapping"));
}

/// On a sheet what meets is a mark half-way between the two in the diagram of its bar, and told under it; nothing is marked elsewhere.
#[test]
fn a_sheet_marks_what_meets() {
    let mut dance = dibbing();
    let figure = &mut dance.figures[0];
    figure.strikes = vec![
        Strike::new(6.0, Striker::Odds, StrikeEnd::Tip, Struck::Partner),
        Strike::new(8.0, Striker::Place(PlaceNumber(3)), StrikeEnd::Right, Struck::Partner),
    ];
    let sheet = |dance: &Dance| {
        let motion = motion_of(dance, None).unwrap();
        figure_sheet(dance, &motion, SpanIndex(1), &SheetChoice { words: false, ..SheetChoice::default() })
    };
    let with = sheet(&dance);
    let said = words(&with).replace('\n', " ");
    assert!(said.contains("partners, tip on tip, on the second beat"), "{said}");
    assert!(said.contains("3 with 4, right on right, on the first beat"), "{said}");
    assert!(
        with.pages[0]
            .words
            .contains("Bar 2: double step · first foot left · partners, tip on tip, on the second beat."),
        "{}",
        with.pages[0].words
    );
    // A star has eight corners: of sticks the first is straight to the right, of hands aslant.
    let stars = |handout: &Handout, wood: bool| {
        let marks = handout.pages.iter().flat_map(|page| &page.marks);
        marks
            .filter(|mark| match mark {
                Mark::Outline { loops, fill }
                    if loops.len() == 1 && loops[0].len() == 8 && *fill == bellpad::picture::PAPER.words =>
                {
                    let [first, across] = [loops[0][0], loops[0][4]];
                    ((first[1] - across[1]).abs() < 0.01) == wood
                }
                _ => false,
            })
            .count()
    };
    assert_eq!((stars(&with, true), stars(&with, false)), (3, 1), "three of sticks, and one of hands");
    dance.figures[0].strikes.clear();
    let without = sheet(&dance);
    assert_eq!((stars(&without, true), stars(&without, false)), (0, 0));
}
