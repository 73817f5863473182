//! The letters of what is handed out: a regular and a bold cut of one family, and the fallback for what they lack.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, read};
use bellpad::figures::motion_of;
use bellpad::handout::{
    Handout, Page, Paper, PaperSize, SheetChoice, dancer_page, handout_to_pdf, notebook, page_to_svg,
    pocket_page, whole_sheet,
};
use bellpad::motion::Motion;
use bellpad::picture::{Anchor, Face, Mark, PAPER, place_glyphs, words_width};
use common::samples;
use resvg::usvg::roxmltree;
use std::fs;

fn dances() -> Vec<(Dance, Motion)> {
    let read = |file: &std::path::PathBuf| {
        let dance = read(&fs::read(file).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        (dance, motion)
    };
    samples().iter().map(read).collect()
}

/// A page with one line of words on it.
fn said(text: &str, heavy: bool) -> Page {
    let (text, colour, anchor) = (text.to_owned(), PAPER.words, Anchor::Left);
    let marks = vec![Mark::Words { at: [60.0, 60.0], size: 20.0, anchor, text, colour, heavy }];
    let (parts, links) = (Vec::new(), Vec::new());
    let (title, words) = ("Letters".to_owned(), String::new());
    Page { paper: Paper::default(), marks, parts, links, title, words }
}

/// The paths of the letters in the SVG of a line: whether each has a line round it.
fn strokes(page: &Page) -> Vec<bool> {
    let svg = page_to_svg(page);
    let xml = roxmltree::Document::parse(&svg).unwrap();
    let paths = xml.descendants().filter(|node| node.has_tag_name("path"));
    paths.map(|node| node.attribute("stroke").is_some()).collect()
}

#[test]
fn heavy_words_are_of_a_bold_cut_without_a_line_round_them() {
    assert_eq!(strokes(&said("Running order", true)), [false]);
    assert_eq!(strokes(&said("Running order", false)), [false]);
    assert_ne!(page_to_svg(&said("Running order", true)), page_to_svg(&said("Running order", false)));
    assert!(
        words_width("Running order", 10.0, Face::Bold) > words_width("Running order", 10.0, Face::Regular)
    );
    for (heavy, name, other) in
        [(true, "Ubuntu-Bold", "Ubuntu-Regular"), (false, "Ubuntu-Regular", "Ubuntu-Bold")]
    {
        let handout = Handout { pages: vec![said("Foot up", heavy)], ..Handout::default() };
        let pdf = String::from_utf8_lossy(&handout_to_pdf(&handout).unwrap()).into_owned();
        // The file names a font by what PostScript calls it, after six letters and a plus.
        let cut = name.trim_end_matches("-Regular");
        assert!(pdf.contains(&format!("+{cut}")), "{name}");
        assert!(!pdf.contains("+Ubuntu-Light") && (heavy || !pdf.contains(&format!("+{other}"))), "{name}");
    }
}

/// A letter that the bold cut lacks is drawn from another font, with a line round it that makes it heavy.
#[test]
fn what_the_bold_cut_lacks_is_still_drawn() {
    let lacking = ('\u{2190}'..'\u{2700}').find(|letter| {
        let placed = place_glyphs(&letter.to_string(), Face::Bold);
        placed.first().is_some_and(|glyph| Face::Bold.thickens(glyph.font))
    });
    let lacking = lacking.expect("a sign that only the other fonts have");
    assert_eq!(strokes(&said(&format!("a{lacking}b"), true)), [false, true]);
    assert_eq!(strokes(&said(&format!("a{lacking}b"), false)), [false]);
    let placed = place_glyphs(&format!("a{lacking}b"), Face::Bold);
    assert_eq!(placed.len(), 3);
    assert!(placed[0].font == placed[2].font && placed[0].font != placed[1].font);
    let handout = Handout { pages: vec![said(&format!("a{lacking}b"), true)], ..Handout::default() };
    assert!(handout_to_pdf(&handout).is_ok());
}

/// Lines are measured with the letters they are drawn with: none goes over the margin.
#[test]
fn no_line_goes_over_the_margin() {
    let dances = dances();
    for size in [PaperSize::A4, PaperSize::Letter] {
        let choice = SheetChoice { paper: Paper { size, landscape: false }, ..SheetChoice::default() };
        let mut handouts = vec![notebook(&dances, &choice, &mut |_, _| true)];
        for (dance, motion) in &dances {
            handouts.push(whole_sheet(dance, motion, &choice));
            handouts.push(dancer_page(dance, motion, None, Dancer(0), &choice));
            handouts.push(pocket_page(dance, motion, Dancer(0), choice.paper));
        }
        let mut heavy_lines = 0;
        for (index, page) in handouts.iter().flat_map(|handout| &handout.pages).enumerate() {
            let pocket = page.title.starts_with("Number") && page.parts.iter().all(|part| !part.goes_on);
            let [left, _, right, _] = page.paper.inside();
            let edges = if pocket { [12.0, page.paper.points()[0] - 12.0] } else { [left, right] };
            for mark in &page.marks {
                let Mark::Words { at, size, anchor, text, heavy, .. } = mark else { continue };
                let wide = words_width(text, *size, Face::of(*heavy));
                let from = anchor.left_end(at[0], wide);
                let inside = from > edges[0] - 1.0 && from + wide < edges[1] + 1.0;
                assert!(inside, "{text:?} on {}, page {index}", page.title);
                heavy_lines += usize::from(*heavy);
            }
        }
        assert!(heavy_lines > 300, "{heavy_lines}");
    }
}
