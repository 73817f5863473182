//! The stepping page: what is on it, that nothing is left out without being said, and its files.
//!
//! Sources: ISO 216:2007 for A4, 8.5 by 11 inches for Letter (from memory).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, Figure, Landing, OwnStep, Set};
use bellpad::figures::motion_of;
use bellpad::handout::{Handout, Paper, PaperSize, stepping};
use bellpad::picture::Mark;
use common::{done, text};
use std::fs;

fn danced(phrase: &str, bars: u32, dancers: u32) -> Dance {
    let mut dance = Dance::new("Nine Geese Home", Set::longways(dancers, 2.4, 1.8));
    let mut figure = Figure::drawn("one", "One", bars);
    phrase.clone_into(&mut figure.phrase);
    dance.figures.push(figure);
    dance
}

fn page_of(dance: &Dance, paper: Paper) -> Handout {
    stepping(dance, &motion_of(dance, None).unwrap(), None, paper)
}

/// The words of each page, one after the other.
fn words(handout: &Handout) -> Vec<Vec<String>> {
    let of = |marks: &[Mark]| {
        let words = marks.iter().filter_map(|mark| match mark {
            Mark::Words { text, .. } => Some(text.clone()),
            _ => None,
        });
        words.collect::<Vec<_>>()
    };
    handout.pages.iter().map(|page| of(&page.marks)).collect()
}

/// How many rows each page has: each has a count 1.
fn rows(handout: &Handout) -> Vec<usize> {
    words(handout).iter().map(|page| page.iter().filter(|word| *word == "1").count()).collect()
}

/// A running step at the head of a long dance has every step after it begin off the bar: bars that are the same are drawn once.
#[test]
fn bars_that_are_the_same_are_drawn_once() {
    let handout = page_of(&danced("rs, 499 ds, 3 rs", 500, 2), Paper::default());
    assert_eq!(rows(&handout), [3], "the first, those between, and the last");
    let said = words(&handout).concat();
    assert!(said.iter().any(|word| word == "and 497 more bars the same"), "{said:?}");
    // Nothing is said where nothing is left out.
    let said = words(&page_of(&danced("2 ds, 2 ss, ftj", 4, 2), Paper::default())).concat();
    assert!(!said.iter().any(|word| word.contains("more")), "{said:?}");
}

/// Of too many steps and too many dancers it is said how many more there are.
#[test]
fn what_is_left_out_is_said() {
    let mut dance = danced("", 230, 2);
    let short = |index: u32| format!("q{index}");
    dance.steps = (0..230)
        .map(|index| OwnStep {
            short: short(index),
            name: format!("step {index}"),
            feet: vec![Landing::Lead, Landing::Other, Landing::Lead, Landing::Lead],
            ..OwnStep::default()
        })
        .collect();
    dance.figures[0].phrase = (0..230).map(short).collect::<Vec<_>>().join(", ");
    let handout = page_of(&dance, Paper::default());
    assert_eq!(rows(&handout).iter().sum::<usize>(), 200);
    let said = words(&handout).concat();
    assert!(said.iter().any(|word| word == "and 30 more bars of other steps"), "{said:?}");
    let handout = page_of(&danced("2 ds, 2 ss, ftj", 4, 46), Paper::default());
    let said = words(&handout).concat();
    assert!(said.iter().any(|word| word == "and 6 more dancers, whose steps are not looked at"), "{said:?}");
}

/// No row is left alone on the last page, on any paper; the bodies are as high as there is room for.
#[test]
fn rows_are_shared_out_among_the_pages() {
    let phrases = ["ds", "ds, 2 ss", "ds, 2 ss, ftj", "ds, 2 ss, ftj, sh", "ds, 2 ss, ftj, sh, 4 rs"];
    for size in [PaperSize::A4, PaperSize::Letter] {
        for landscape in [false, true] {
            let mut high = Vec::new();
            for (phrase, many) in phrases.iter().zip(1..) {
                let handout = page_of(&danced(phrase, many, 2), Paper { size, landscape });
                let rows = rows(&handout);
                assert_eq!(rows.iter().sum::<usize>(), many as usize, "{phrase}: {rows:?}");
                let (most, least) = (rows.iter().max().unwrap(), rows.iter().min().unwrap());
                assert!(most - least <= 1, "{size:?} {landscape}: {rows:?}");
                // All that is drawn is on the page, over its foot.
                let [_, _, _, bottom] = handout.pages[0].paper.inside();
                for mark in handout.pages.iter().flat_map(|page| &page.marks) {
                    if let Mark::Block { at, radii, .. } = mark {
                        assert!(at[1] + radii[1] < bottom - 20.0, "{phrase} {size:?} {landscape}: {at:?}");
                        high.push(radii[1]);
                    }
                }
            }
            assert!(high.iter().fold(0.0_f32, |a, b| a.max(*b)) > 80.0, "{size:?} {landscape}");
        }
    }
}

/// Each page but the last is full, on its side as well, and no foot goes out over the line that its row stands on.
#[test]
fn pages_are_full_and_feet_within_their_rows() {
    for dance in [danced("ds, 2 ss, ftj, sh, 4 rs", 5, 2), danced("4 pc, pc, hj, 2 hc", 8, 2)] {
        for (size, landscape) in [(PaperSize::A4, false), (PaperSize::A4, true), (PaperSize::Letter, true)] {
            let handout = page_of(&dance, Paper { size, landscape });
            let rows = rows(&handout);
            let most = *rows.iter().max().unwrap();
            assert!(
                rows[..rows.len() - 1].iter().all(|rows| *rows == most),
                "{size:?} {landscape}: {rows:?}"
            );
            let [_, _, right, _] = handout.pages[0].paper.inside();
            for mark in handout.pages.iter().flat_map(|page| &page.marks) {
                if let Mark::Line { points, .. } = mark {
                    let out = points.iter().map(|point| point[0]).fold(0.0_f32, f32::max);
                    assert!(out < right + 1.0, "{size:?} {landscape}: {out} of {right}");
                }
            }
        }
    }
}

/// The verb writes PDF, SVG and PNG, on A4 and on Letter.
#[test]
fn the_verb_writes_each_kind_of_file() {
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("one.dance.json");
    fs::write(&file, serde_json::to_string(&danced("2 ds, 2 ss, ftj", 4, 2)).unwrap()).unwrap();
    // Points, and pixels or points of a picture: 210 by 297 mm and 8.5 by 11 inches are as 0.707 and 0.773.
    for (paper, wide, shape) in [("a4", 595.3, 210.0 / 297.0), ("letter", 612.0, 8.5 / 11.0)] {
        let out = |ending: &str| folder.path().join(format!("{paper}.{ending}"));
        for ending in ["pdf", "svg", "png"] {
            done(["stepping", text(&file), "-o", text(&out(ending)), "--paper", paper]);
        }
        let pdf = fs::read(out("pdf")).unwrap();
        assert!(pdf.starts_with(b"%PDF-") && pdf.len() > 5_000);
        let svg = fs::read_to_string(out("svg")).unwrap();
        for word in ["double step", "single step", "feet-together jump", "hop L", "in the air", "25 cm"] {
            assert!(svg.contains(word), "{word} in the SVG");
        }
        let tree = resvg::usvg::Tree::from_str(&svg, &resvg::usvg::Options::default()).unwrap();
        let size = tree.size();
        assert!((size.width() / size.height() - shape as f32).abs() < 0.003, "{paper}: {size:?}");
        assert!(size.width() >= wide as f32 - 1.0 || size.width() > 200.0);
        let png = fs::read(out("png")).unwrap();
        let picture = png::Decoder::new(std::io::Cursor::new(&png)).read_info().unwrap();
        let (across, down) = (picture.info().width, picture.info().height);
        assert!((f64::from(across) / f64::from(down) - shape).abs() < 0.003, "{paper}: {across} by {down}");
        assert!(across > 1000);
    }
}

/// One dancer's page says whose it is.
#[test]
fn a_dancers_page_says_whose_it_is() {
    let dance = danced("2 ds, 2 ss, ftj", 4, 2);
    let handout = stepping(&dance, &motion_of(&dance, None).unwrap(), Some(Dancer(1)), Paper::default());
    assert!(words(&handout).concat().iter().any(|word| word.contains("number 2")));
}

/// The hands of a count are drawn where it has them, and not on their way to those of the next: two steps that differ in the hands of
/// count 4 alone, onto which they hop, have the same hands on count 3.
#[test]
fn hands_are_drawn_where_their_count_has_them() {
    let column = |last: f64| {
        let mut dance = danced("4 fk", 4, 2);
        let hands = |last: f64| vec![0.55, 0.55, 0.55, last];
        dance.steps.push(OwnStep {
            short: "fk".to_owned(),
            name: "ferry kick".to_owned(),
            feet: vec![Landing::Lead, Landing::Other, Landing::Lead, Landing::Lead],
            rise: vec![0.0, 0.0, 0.0, 0.08],
            left_hand: hands(last),
            right_hand: hands(0.1),
            left_forward: vec![0.35, 0.35, 0.35, -0.3],
            right_forward: vec![0.35; 4],
            ..OwnStep::default()
        });
        let handout = page_of(&dance, Paper::default());
        let marks = &handout.pages[0].marks;
        let at = |number: &str| {
            let found = marks.iter().find_map(|mark| match mark {
                Mark::Words { text, at, .. } if text == number => Some(*at),
                _ => None,
            });
            found.unwrap()
        };
        let (x, wide) = (at("3")[0], at("4")[0] - at("3")[0]);
        // Arms are lines of three points; the legs are too, and further down.
        let floor = at("3")[1] - 9.0;
        let arms = marks.iter().filter_map(|mark| match mark {
            Mark::Line { points, .. } if points.len() == 3 => Some(points.clone()),
            _ => None,
        });
        let inside =
            |points: &Vec<[f32; 2]>| points.iter().all(|at| (at[0] - x).abs() < wide / 2.0 && at[1] < floor);
        arms.filter(inside).collect::<Vec<_>>()
    };
    let (high, low) = (column(1.0), column(0.0));
    assert!(high.len() >= 4, "{high:?}");
    assert_eq!(high, low);
}

/// A stick in a jump with the hands up stays under the line below the title.
#[test]
fn a_stick_in_the_jump_stays_under_the_title() {
    for landscape in [false, true] {
        let mut dance = danced("ftj, 2 ds, ftj", 4, 2);
        dance.holding = bellpad::dance::Holding::Sticks;
        let handout = page_of(&dance, Paper { size: PaperSize::A4, landscape });
        for page in &handout.pages {
            let [left, ..] = page.paper.inside();
            let lines = || {
                page.marks.iter().filter_map(|mark| match mark {
                    Mark::Line { points, stroke, .. } => Some((points, stroke)),
                    _ => None,
                })
            };
            let rule = lines().find(|(points, _)| points[0][0] == left).unwrap().0[0][1];
            let wood = lines().filter(|(_, stroke)| stroke.colour == bellpad::picture::PAPER.linen);
            let tops: Vec<f32> = wood.flat_map(|(points, _)| points.iter().map(|at| at[1])).collect();
            assert!(tops.len() > 8);
            let top = tops.iter().copied().fold(f32::INFINITY, f32::min);
            assert!(top > rule + 1.0, "landscape {landscape}: {top} over {rule}");
        }
    }
}

/// Hands that go round say so under the count on which they begin.
#[test]
fn circles_of_the_hands_are_on_the_page() {
    let mut dance = danced("4 ci", 4, 2);
    dance.steps.push(OwnStep {
        short: "ci".to_owned(),
        name: "circles".to_owned(),
        feet: vec![Landing::Lead, Landing::Other, Landing::Lead, Landing::Lead],
        hands: vec![0.9; 4],
        circles: vec![1.0, 0.0, -1.0, 0.0],
        ..OwnStep::default()
    });
    let said = words(&page_of(&dance, Paper::default())).concat();
    for word in [", hands circle in", ", hands circle out"] {
        assert!(said.iter().any(|other| other.ends_with(word)), "{word}: {said:?}");
    }
}
