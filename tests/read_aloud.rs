//! Handouts as those hear them who cannot see them: each is written with the writer's own validation of PDF/UA-1, which refuses
//! what does not hold to it, and nothing but the feet of pages and headings said again is left out of what is read.
//!
//! Source: ISO 14289-1:2014 (PDF/UA-1), as the writer of PDF checks it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, read};
use bellpad::figures::motion_of;
use bellpad::handout::{
    Handout, Paper, PaperSize, Role, SheetChoice, Starts, accessible_pdf, dancer_page, notebook, pocket_page,
    sheets, stepping, tapping, whole_sheet, without_names,
};
use bellpad::motion::Motion;
use bellpad::picture::Mark;
use common::samples;
use std::fs;

fn dances() -> Vec<(Dance, Motion)> {
    let read = |file: &std::path::PathBuf| {
        let dance = read(&fs::read(file).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        (dance, motion)
    };
    samples().iter().map(read).collect()
}

/// Every handout of a dance on paper of a size.
fn every_handout(dance: &Dance, motion: &Motion, paper: Paper) -> Vec<(String, Handout)> {
    let choice = SheetChoice { paper, ..SheetChoice::default() };
    let one = [(dance.clone(), motion.clone())];
    let mut all = vec![
        ("sheets".to_owned(), sheets(dance, motion, &choice, &mut |_, _| true)),
        ("notebook".to_owned(), notebook(&one, &choice, &mut |_, _| true)),
        ("one sheet".to_owned(), whole_sheet(dance, motion, &choice)),
        ("stepping".to_owned(), stepping(dance, motion, None, paper)),
    ];
    all.extend(tapping(dance, motion, None, paper).map(|made| ("tapping".to_owned(), made)));
    for dancer in Dancer::all(motion.dancers()) {
        all.push((format!("pocket page of {dancer}"), pocket_page(dance, motion, dancer, paper)));
        all.push((format!("page of {dancer}"), dancer_page(dance, motion, None, dancer, &choice)));
    }
    all
}

/// The words of a page in the parts that are read, and those that are not.
fn heard(handout: &Handout) -> (String, Vec<String>) {
    let (mut read, mut unread) = (String::new(), Vec::new());
    for page in &handout.pages {
        for (index, mark) in page.marks.iter().enumerate() {
            let Mark::Words { text, .. } = mark else { continue };
            let part = page.parts.iter().rfind(|part| part.begin <= index);
            match part.map(|part| &part.role) {
                None | Some(Role::Aside) => unread.push(text.clone()),
                Some(_) => read += &format!("{text} "),
            }
        }
    }
    (read, unread)
}

#[test]
fn every_handout_of_every_sample_holds_to_pdf_ua() {
    for (dance, motion) in dances() {
        for size in [PaperSize::A4, PaperSize::Letter] {
            for (name, handout) in every_handout(&dance, &motion, Paper { size, landscape: false }) {
                let made = accessible_pdf(&handout);
                assert!(made.is_ok(), "{name} of {}: {}", dance.title, made.err().unwrap());
            }
        }
    }
}

#[test]
fn nothing_is_left_unread_but_feet_and_what_is_said_again() {
    for (dance, motion) in dances() {
        for (name, handout) in every_handout(&dance, &motion, Paper::default()) {
            let (read, unread) = heard(&handout);
            assert!(read.split_whitespace().count() > 20, "{name} of {} reads {read:?}", dance.title);
            for text in unread {
                let foot =
                    text.starts_with("page ") || text.starts_with("Land with") || text.starts_with("Warm up");
                let again = text.ends_with(", continued") || read.contains(&text);
                assert!(foot || again, "{name} of {}: nobody hears {text:?}", dance.title);
            }
        }
    }
}

/// Headings begin with the first depth and never skip one; tables have as many cells in each row; pictures have words.
#[test]
fn headings_tables_and_pictures_are_whole() {
    for (dance, motion) in dances() {
        for (name, handout) in every_handout(&dance, &motion, Paper::default()) {
            let name = format!("{name} of {}", dance.title);
            let mut depth = 0;
            let mut rows: Vec<usize> = Vec::new();
            for part in handout.pages.iter().flat_map(|page| &page.parts) {
                match &part.role {
                    Role::Heading(to) if !part.goes_on => {
                        assert!(*to <= depth + 1 && *to > 0, "{name}: a heading of depth {to} after {depth}");
                        depth = *to;
                    }
                    Role::Picture(words, [left, top, right, bottom]) => {
                        assert!(words.len() > 10 && left < right && top < bottom, "{name}: {words:?}");
                    }
                    Role::Cell(Starts::Table, _) => rows = vec![1],
                    Role::Cell(Starts::Row, _) => {
                        if let [.., one, other] = rows[..] {
                            assert_eq!(one, other, "{name}");
                        }
                        rows.push(1);
                    }
                    Role::Cell(..) => *rows.last_mut().unwrap() += 1,
                    _ => {}
                }
            }
        }
    }
}

/// The words of a handout are no smaller than 8 points, those in drawings apart, which are said in words beside them.
fn least_size(handout: &Handout) -> f32 {
    let sizes = handout.pages.iter().flat_map(|page| &page.marks).filter_map(|mark| match mark {
        Mark::Words { size, .. } => Some(*size),
        _ => None,
    });
    sizes.fold(f32::MAX, f32::min)
}

#[test]
fn a_dance_stands_on_one_sheet_with_all_that_is_danced() {
    for (dance, motion) in dances() {
        for size in [PaperSize::A4, PaperSize::Letter] {
            let choice = SheetChoice { paper: Paper { size, landscape: false }, ..SheetChoice::default() };
            let sheet = whole_sheet(&dance, &motion, &choice);
            assert_eq!(sheet.pages.len(), 1, "{}, {size:?}", dance.title);
            assert!(least_size(&sheet) >= 8.0, "{}: {}", dance.title, least_size(&sheet));
            let (read, _) = heard(&sheet);
            for entry in &dance.order {
                let figure = dance.figures.iter().find(|figure| figure.id == entry.figure).unwrap();
                assert!(read.contains(&figure.name), "{}: {} is not on its sheet", dance.title, figure.name);
            }
            for head in ["Running order", "Stepping", "Before you dance", "Figures", "Tune"] {
                assert!(read.contains(head), "{}: no {head}", dance.title);
            }
            for page in &sheet.pages {
                let [_, _, right, bottom] = page.paper.inside();
                for mark in &page.marks {
                    if let Mark::Words { at: [x, y], .. } = mark {
                        assert!(*x <= right && *y <= bottom, "{}: words outside the page", dance.title);
                    }
                }
            }
        }
    }
}

#[test]
fn a_numbers_part_fits_the_pocket() {
    for (dance, motion) in dances() {
        for dancer in Dancer::all(motion.dancers()) {
            let letter = Paper { size: PaperSize::Letter, landscape: false };
            let sides = [Paper::default(), letter]
                .map(|paper| pocket_page(&dance, &motion, dancer, paper).pages.len());
            assert_eq!(sides, [1, 1], "{dancer} of {}", dance.title);
            let page = pocket_page(&dance, &motion, dancer, Paper::default());
            assert!(least_size(&page) >= 8.0);
            let [wide, high] = page.pages[0].paper.points();
            for mark in &page.pages[0].marks {
                let Mark::Words { at: [x, y], .. } = mark else { continue };
                // Nothing lies on a fold.
                assert!(
                    (x - wide / 2.0).abs() > 10.0 && (y - high / 2.0).abs() > 10.0,
                    "{dancer} of {}",
                    dance.title
                );
            }
        }
    }
}

#[test]
fn nobody_is_named_on_handouts_without_names() {
    let (mut dance, motion) = dances().remove(0);
    dance.author = "Wendeline Quarrybank".to_owned();
    for number in 1..=dance.set.dancers {
        dance.people.retain(|person| person.number.get() != number);
        let person = format!(r#"{{"number":{number},"name":"Zebedee Ozzle{number}"}}"#);
        dance.people.push(serde_json::from_str(&person).unwrap());
    }
    let named = |handout: &Handout| {
        let mut said = String::new();
        for page in &handout.pages {
            said += &format!("{} {} {}", page.text(), page.words, page.title);
        }
        let all = format!("{said} {} {} {:?}", handout.title, handout.author, handout.bookmarks);
        all.contains("Zebedee") || all.contains("Wendeline")
    };
    let with = every_handout(&dance, &motion, Paper::default());
    assert!(with.iter().filter(|(_, handout)| named(handout)).count() > 3);
    let dance = without_names(dance);
    for (name, handout) in every_handout(&dance, &motion, Paper::default()) {
        assert!(!named(&handout), "{name} names somebody");
    }
}
