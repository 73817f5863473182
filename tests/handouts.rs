//! Handouts: sheets, a dancer's own page and the notebook, as SVG, PNG and PDF.
//!
//! Sources: ISO 216:2007 for the size of A4; the PNG specification (W3C, third edition, 2025) for its chunks; ISO
//! 32000-1:2008 for the `MediaBox`, in points of 1/72 inch. The size of Letter, 8.5 by 11 inches, is from memory. The
//! SVG is read by roxmltree and drawn by resvg, the PNG by the png and image crates. What poppler makes of the PDF is
//! in `tests/real_pdf.rs`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{BarCounts, Dance, Dancer, Entry, Extra, Figure, Leg, Metre, Part, Set, read};
use bellpad::figures::{motion_of, named_figure};
use bellpad::handout::{
    Bookmark, EVEN_DASH, Handout, Paper, PaperSize, SheetChoice, Shown, dancer_page, diagram_marks,
    diagram_times, figure_sheet, handout_to_pdf, moments, notebook, page_to_png, page_to_svg,
    path_line_marks, sheets,
};
use bellpad::motion::{Motion, SpanIndex};
use bellpad::picture::{Face, Frame, Mark, PAPER, words_width};
use bellpad::words::{CAUTIONS, tell};
use common::{assert_refused, bellpad, done, sample, samples, text};
use resvg::{tiny_skia, usvg};
use std::fs;
use std::path::Path;

fn opened(path: &Path) -> (Dance, Motion) {
    let dance = read(&fs::read(path).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

fn all_samples() -> Vec<(Dance, Motion)> {
    samples().iter().map(|path| opened(path)).collect()
}

fn geese() -> (Dance, Motion) {
    opened(&sample("nine-geese-home"))
}

fn papers() -> [SheetChoice; 4] {
    [(PaperSize::A4, false), (PaperSize::A4, true), (PaperSize::Letter, false), (PaperSize::Letter, true)]
        .map(|(size, landscape)| SheetChoice { paper: Paper { size, landscape }, ..SheetChoice::default() })
}

fn quiet() -> impl FnMut(usize, usize) -> bool {
    |_, _| true
}

/// A text with any space as one, so that it can be looked for across the ends of lines.
fn joined(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// The sizes of the pages of a PDF, points, as its bytes say.
fn media_boxes(pdf: &[u8]) -> Vec<[f64; 2]> {
    let text = String::from_utf8_lossy(pdf);
    let boxes = text.split("/MediaBox[").skip(1).map(|rest| {
        let numbers: Vec<f64> = rest
            .split(']')
            .next()
            .unwrap()
            .split_whitespace()
            .map(|number| number.parse().unwrap())
            .collect();
        assert_eq!(numbers[..2], [0.0, 0.0]);
        [numbers[2], numbers[3]]
    });
    boxes.collect()
}

#[test]
fn pages_are_as_large_as_the_paper_they_are_for() {
    let (dance, motion) = geese();
    let wanted = [[210.0, 297.0], [297.0, 210.0], [215.9, 279.4], [279.4, 215.9]];
    for (choice, wanted) in papers().iter().zip(wanted) {
        let sheet = figure_sheet(&dance, &motion, SpanIndex(5), choice);
        let boxes = media_boxes(&handout_to_pdf(&sheet).unwrap());
        assert_eq!(boxes.len(), sheet.pages.len());
        for [across, down] in boxes {
            let size = [across, down].map(|points| points / 72.0 * 25.4);
            assert!((size[0] - wanted[0]).abs() < 0.1 && (size[1] - wanted[1]).abs() < 0.1, "{size:?}");
        }
        let svg = page_to_svg(&sheet.pages[0]);
        let xml = usvg::roxmltree::Document::parse(&svg).unwrap();
        let root = xml.root_element();
        let length = |name| root.attribute(name).unwrap().strip_suffix("mm").unwrap().parse::<f64>().unwrap();
        assert_eq!([length("width"), length("height")].map(|mm| (mm * 10.0).round() / 10.0), wanted);
    }
}

#[test]
fn a_png_says_what_it_is_and_the_svg_draws_the_same() {
    let (dance, motion) = geese();
    let sheet = figure_sheet(&dance, &motion, SpanIndex(5), &SheetChoice::default());
    let page = &sheet.pages[0];
    let bytes = page_to_png(page).unwrap();
    let reader = png::Decoder::new(std::io::Cursor::new(&bytes)).read_info().unwrap();
    let info = reader.info();
    assert!(info.srgb.is_some(), "it is marked as sRGB");
    let title = info.utf8_text.iter().find(|chunk| chunk.keyword == "Title").expect("a title");
    assert_eq!(title.get_text().unwrap(), page.title);
    assert!(page.title.contains("Hey"), "{}", page.title);
    // 200 pixels to the inch: 210 mm are 1654 pixels, and an inch is 25.4 mm.
    assert_eq!((info.width, info.height), (1654, 2339));
    let per_metre = info.pixel_dims.unwrap();
    assert_eq!((per_metre.xppu, per_metre.yppu, per_metre.unit), (7874, 7874, png::Unit::Meter));
    let drawn = image::load_from_memory(&bytes).unwrap().to_rgb8();
    let tree = usvg::Tree::from_str(&page_to_svg(page), &usvg::Options::default()).unwrap();
    let mut pixels = tiny_skia::Pixmap::new(1654, 2339).unwrap();
    let scale = (1654.0 / tree.size().width(), 2339.0 / tree.size().height());
    resvg::render(&tree, tiny_skia::Transform::from_scale(scale.0, scale.1), &mut pixels.as_mut());
    let with_opacity: Vec<u8> =
        drawn.pixels().flat_map(|pixel| [pixel[0], pixel[1], pixel[2], 255]).collect();
    common::assert_alike(pixels.data(), &with_opacity);
    let ink = drawn.pixels().filter(|pixel| pixel.0 != [255; 3]).count();
    assert!(ink > 100_000, "only {ink} pixels are not paper");
}

/// What a reader of the SVG is told, and what the page itself says.
#[test]
fn every_figure_and_every_number_are_in_the_text() {
    for (dance, motion) in all_samples() {
        let handout = sheets(&dance, &motion, &SheetChoice::default(), &mut quiet());
        let mut seen = 0;
        for figure in &dance.figures {
            let pages = handout.pages.iter().filter(|page| {
                // A page that has room for more than one figure is called by all of them.
                let name = &figure.name;
                let (first, last, between) =
                    (format!("{name}, "), format!(", {name}"), format!(", {name}, "));
                page.title == *name
                    || page.title.starts_with(&first)
                    || page.title.ends_with(&last)
                    || page.title.contains(&between)
            });
            let mut labels = Vec::new();
            let mut whole = String::new();
            for page in pages {
                whole += &format!(" {}", page.text());
                let svg = page_to_svg(page);
                let xml = usvg::roxmltree::Document::parse(&svg).expect("well-formed SVG");
                let of = |node: usvg::roxmltree::Node| node.attribute("aria-label").map(str::to_owned);
                labels.extend(xml.descendants().filter_map(of));
                assert_eq!(xml.descendants().filter(|node| node.has_tag_name("title")).count(), 1);
            }
            assert!(labels.contains(&figure.name), "{} is not on its sheet", figure.name);
            assert!(labels.contains(&dance.side) || dance.side.is_empty());
            for number in 1..=dance.set.dancers {
                let times = labels.iter().filter(|label| **label == number.to_string()).count();
                let bars =
                    labels.iter().filter(|label| label.starts_with("Bar") && !label.contains(':')).count();
                assert!(times > bars, "{number} is in {times} diagrams of {}", figure.name);
            }
            // Bars in which all stand still have one diagram: Bars 1–7.
            let is_shown = |bar: u32| {
                labels.iter().any(|label| {
                    let ends = label.strip_prefix("Bars ").and_then(|bars| bars.split(',').next());
                    let ends = ends.and_then(|bars| bars.split_once('\u{2013}'));
                    let ends = ends.and_then(|(one, other)| {
                        Some((one.parse::<u32>().ok()?, other.parse::<u32>().ok()?))
                    });
                    *label == format!("Bar {bar}")
                        || label.starts_with(&format!("Bar {bar}, count"))
                        || ends.is_some_and(|(one, other)| (one..=other).contains(&bar))
                })
            };
            for bar in 1..=figure.bars {
                assert!(is_shown(bar), "bar {bar} of {}", figure.name);
            }
            let span =
                motion.spans().iter().position(|span| dance.figures[span.figure].id == figure.id).unwrap();
            for dancer in 0..motion.dancers() {
                for told in tell(&dance, &motion, SpanIndex(span), Dancer(dancer)) {
                    assert!(joined(&whole).contains(&joined(&told.text)), "{} of {}", told.text, figure.name);
                }
            }
            seen += 1;
        }
        assert!(seen > 3);
    }
}

#[test]
fn nothing_is_too_small_to_read_or_off_the_paper() {
    let dances = all_samples();
    for choice in papers() {
        let mut handouts = vec![notebook(&dances, &choice, &mut quiet())];
        for (dance, motion) in &dances {
            handouts.push(dancer_page(dance, motion, None, Dancer(motion.dancers() - 1), &choice));
        }
        let [across, down] = choice.paper.points();
        // 5 mm is what printers leave free (from memory).
        let least = 5.0 / 25.4 * 72.0;
        let inside = |[x, y]: [f32; 2], what: &str, page: &str| {
            let inside = x >= least && y >= least && x <= across - least && y <= down - least;
            assert!(inside, "{what} at {x}, {y} of {page}");
        };
        for page in handouts.iter().flat_map(|handout| &handout.pages) {
            for mark in &page.marks {
                match mark {
                    Mark::Words { at, size, anchor, text, heavy, .. } => {
                        assert!(*size >= 8.5, "{text:?} is {size} points high on {}", page.title);
                        let wide = words_width(text, *size, Face::of(*heavy));
                        let left = match anchor {
                            bellpad::picture::Anchor::Left => at[0],
                            bellpad::picture::Anchor::Middle => at[0] - wide / 2.0,
                            bellpad::picture::Anchor::Right => at[0] - wide,
                        };
                        inside([left, at[1] - size / 2.0], text, &page.title);
                        inside([left + wide, at[1] + size / 2.0], text, &page.title);
                    }
                    Mark::Line { points, .. } | Mark::Area { points, .. } => {
                        for point in points {
                            inside(*point, "a line", &page.title);
                        }
                    }
                    Mark::Outline { loops, .. } => {
                        for point in loops.iter().flatten() {
                            inside(*point, "an outline", &page.title);
                        }
                    }
                    Mark::Oval { at, .. } | Mark::Block { at, .. } => inside(*at, "a shape", &page.title),
                }
            }
        }
    }
}

/// A print in black and white: with every colour taken away, odds and evens still differ, in body and in path.
#[test]
fn odds_and_evens_stay_apart_without_colour() {
    let mut dance = Dance::new("Grey", Set::longways(2, 2.4, 1.8));
    dance.figures.push(named_figure("cross-over", Extra::new(), &dance.set).unwrap());
    let motion = motion_of(&dance, None).unwrap();
    let frame = Frame::fit([-2.0, -2.0, 2.0, 2.0], [0.0, 0.0, 200.0, 200.0], 0.0);
    let paths = |dancer: usize| {
        let mut marks = Vec::new();
        let track = motion.spans()[0].track(Dancer(dancer)).unwrap();
        path_line_marks(&mut marks, &frame, &PAPER, (track, Dancer(dancer)), (0.0, 8.0), 1.5);
        let lines = marks.iter().filter_map(|mark| match mark {
            Mark::Line { dash, .. } => Some(*dash),
            _ => None,
        });
        let lines: Vec<_> = lines.collect();
        let heads = marks.iter().filter(|mark| matches!(mark, Mark::Area { .. })).count();
        assert_eq!((lines.len(), heads), (1, 1), "one line with one arrowhead");
        lines[0]
    };
    assert_eq!((paths(0), paths(1)), (None, Some(EVEN_DASH)));
    let mut marks = Vec::new();
    let shown = Shown { span: SpanIndex(0), counts: (0.0, 8.0), own: None, holding: dance.holding };
    diagram_marks(&mut marks, &motion, &shown, [0.0, 0.0, 200.0, 200.0], &frame);
    let bodies = |wanted| {
        let fills = marks.iter().filter(|mark| match mark {
            Mark::Oval { fill, .. } if wanted == PAPER.odd => *fill == Some(wanted),
            Mark::Block { fill, .. } if wanted == PAPER.even => *fill == Some(wanted),
            _ => false,
        });
        fills.count()
    };
    assert_eq!((bodies(PAPER.odd), bodies(PAPER.even)), (1, 1), "odds are round, evens are square");
}

/// An arrow ends just short of its dancer, on the way that they went, and points along it.
#[test]
fn arrows_point_where_dancers_went() {
    let mut dance = Dance::new("Arrow", Set::longways(2, 4.0, 1.8));
    let mut figure = Figure::drawn("go", "Go", 2);
    let mut part = Part::still(1);
    part.legs.push(Leg::straight(0.0, 4.0, -2.0, 2.0));
    figure.parts.push(part);
    dance.figures.push(figure);
    let motion = motion_of(&dance, None).unwrap();
    let frame = Frame::fit([-3.0, -3.0, 3.0, 3.0], [0.0, 0.0, 600.0, 600.0], 0.0);
    let marks_of = |dancer: usize, counts: (f64, f64)| {
        let mut marks = Vec::new();
        let track = motion.spans()[0].track(Dancer(dancer)).unwrap();
        path_line_marks(&mut marks, &frame, &PAPER, (track, Dancer(dancer)), counts, 1.5);
        marks
    };
    let marks = marks_of(0, (0.0, 4.0));
    let Some(Mark::Area { points, .. }) = marks.last() else { panic!("an arrowhead: {marks:?}") };
    // 100 points are a metre here; the dancer ends at 2 m left and 2 m up, which is 100, 100.
    assert!((points[0][0] - 100.0).abs() < 0.1, "straight up: {points:?}");
    assert!((points[0][1] - 100.0) > 20.0 && (points[0][1] - 100.0) < 45.0, "short of the body: {points:?}");
    assert!(points[1][1] > points[0][1] && points[2][1] > points[0][1], "it points up: {points:?}");
    assert!(marks_of(0, (4.0, 8.0)).is_empty(), "who stands has no path");
    assert!(marks_of(1, (0.0, 4.0)).is_empty());
}

#[test]
fn there_is_a_diagram_for_each_bar_or_as_often_as_asked() {
    assert_eq!(
        diagram_times(&BarCounts::usual(8), Some(4.0)),
        (0..=8).map(|bar| f64::from(bar) * 4.0).collect::<Vec<_>>()
    );
    assert_eq!(diagram_times(&BarCounts::usual(2), None), [0.0, 4.0, 8.0]);
    assert_eq!(diagram_times(&BarCounts::of(2, Metre::NineEight), None), [0.0, 6.0, 12.0]);
    assert_eq!(diagram_times(&BarCounts::usual(2), Some(2.0)), [0.0, 2.0, 4.0, 6.0, 8.0]);
    assert_eq!(diagram_times(&BarCounts::usual(2), Some(3.0)), [0.0, 3.0, 6.0, 8.0]);
    assert_eq!(diagram_times(&BarCounts::usual(2), Some(100.0)), [0.0, 8.0]);
    let (dance, motion) = geese();
    let span = motion.span(SpanIndex(5)).unwrap();
    for (every, most) in [(4.0, 9), (2.0, 17), (16.0, 3)] {
        let diagrams = moments(&motion, span, Some(every)).len();
        assert!(diagrams <= most && diagrams * 2 > most, "{diagrams} of {most}");
        let choice = SheetChoice { every: Some(every), ..SheetChoice::default() };
        let sheet = figure_sheet(&dance, &motion, SpanIndex(5), &choice);
        // The number stands once in each diagram, on a head.
        let on_head = |mark: &&Mark| matches!(mark, Mark::Words { text, colour, .. } if text == "1" && *colour == PAPER.number);
        let times = sheet.pages.iter().flat_map(|page| &page.marks).filter(on_head).count();
        assert_eq!(times, diagrams, "each {every}");
    }
}

/// All the lines of an outline, in order.
fn each(bookmarks: &[Bookmark], seen: &mut Vec<(usize, String)>) {
    for bookmark in bookmarks {
        seen.push((bookmark.page, bookmark.text.clone()));
        each(&bookmark.inside, seen);
    }
}

/// The notes are what is danced to; the text of them is for whoever copies it.
#[test]
fn the_notebook_has_the_text_of_a_tune_only_when_asked() {
    let dances = all_samples();
    for abc in [false, true] {
        let book = notebook(&dances, &SheetChoice { abc, ..SheetChoice::default() }, &mut quiet());
        let whole = joined(&book.pages.iter().map(|page| page.text() + "\n").collect::<String>());
        let mut seen = 0;
        for (dance, _) in &dances {
            for line in dance.music.abc.lines().filter(|line| line.contains('|')) {
                assert_eq!(whole.contains(&joined(line)), abc, "{line}");
                seen += 1;
            }
        }
        assert!(seen > 4, "{seen}");
    }
}

#[test]
fn links_and_bookmarks_lead_where_they_say() {
    let dances = all_samples();
    let book = notebook(&dances, &SheetChoice::default(), &mut quiet());
    let page_says = |page: usize, text: &str| {
        let page = &book.pages[page];
        assert!(joined(&page.text()).contains(&joined(text)), "{text:?} is not on {}", page.title);
    };
    let links: Vec<_> = book.pages.iter().flat_map(|page| &page.links).collect();
    let lines: usize = dances
        .iter()
        .map(|(dance, motion)| {
            let taps = usize::from(!motion.blows().is_empty());
            dance.figures.len() + motion.spans().len() + 4 + taps
        })
        .sum();
    assert_eq!(links.len(), lines + 1, "the contents and the running orders");
    for link in links {
        page_says(link.page, &link.words);
    }
    let mut marks = Vec::new();
    each(&book.bookmarks, &mut marks);
    assert!(marks.windows(2).all(|pair| pair[0].0 <= pair[1].0), "they go on through the pages: {marks:?}");
    for (page, text) in &marks {
        page_says(*page, text);
    }
    for (index, page) in book.pages.iter().enumerate() {
        assert!(page.text().contains(&format!("page {} of {}", index + 1, book.pages.len())));
    }
    let whole = joined(&book.pages.iter().map(|page| page.text() + "\n").collect::<String>());
    for (dance, _) in &dances {
        for text in dance.figures.iter().map(|figure| &figure.notes).chain([&dance.notes]) {
            assert!(whole.contains(&joined(text)), "{text}");
        }
        for entry in &dance.order {
            assert!(whole.contains(&entry.call));
        }
    }
    for caution in CAUTIONS.split(". ") {
        assert!(whole.contains(&joined(caution)), "{caution}");
    }
}

#[test]
fn a_pdf_has_its_title_its_language_and_its_outline() {
    let dances = [geese()];
    let book = notebook(&dances, &SheetChoice::default(), &mut quiet());
    let pdf = handout_to_pdf(&book).unwrap();
    assert_eq!(pdf, handout_to_pdf(&book).unwrap(), "the same bytes every time");
    assert_eq!(media_boxes(&pdf).len(), book.pages.len());
    let said = String::from_utf8_lossy(&pdf);
    assert!(said.starts_with("%PDF-1."));
    for wanted in ["/Lang(en-GB)", "/Title(Nine Geese Home)", "/Type/Outlines", "/Title(Hey)", "/FontFile2"] {
        assert!(said.contains(wanted), "{wanted}");
    }
}

#[test]
fn a_dancers_page_has_their_own_way_heavy_and_their_words() {
    let (dance, motion) = geese();
    let page = dancer_page(&dance, &motion, None, Dancer(2), &SheetChoice::default());
    let whole = joined(&page.pages.iter().map(|page| page.text() + "\n").collect::<String>());
    assert!(whole.contains("Number 3"));
    for figure in &dance.figures {
        assert!(whole.contains(&figure.name), "{}", figure.name);
    }
    for told in tell(&dance, &motion, SpanIndex(5), Dancer(2)) {
        assert!(whole.contains(&joined(&told.text)), "{}", told.text);
    }
    let mut marks = Vec::new();
    let frame = Frame::fit([-2.0, -3.0, 2.0, 3.0], [0.0, 0.0, 200.0, 300.0], 0.0);
    let shown =
        Shown { span: SpanIndex(5), counts: (0.0, 16.0), own: Some(Dancer(2)), holding: dance.holding };
    diagram_marks(&mut marks, &motion, &shown, [0.0, 0.0, 200.0, 300.0], &frame);
    let widths = |colour| {
        let lines = marks.iter().filter_map(move |mark| match mark {
            Mark::Line { stroke, points, .. } if stroke.colour == colour && points.len() > 4 => {
                Some(stroke.width)
            }
            _ => None,
        });
        lines.collect::<Vec<f32>>()
    };
    let (odd, even) = (widths(PAPER.odd), widths(PAPER.even));
    assert_eq!(odd.iter().filter(|width| **width > 2.0).count(), 1, "only 3 is heavy: {odd:?}");
    assert!(even.len() == 3 && even.iter().all(|width| *width < 1.0), "{even:?}");
}

/// Dances that are odd in some way are still drawn, on pages that can be read back.
#[test]
fn odd_dances_are_drawn_all_the_same() {
    let mut dances = Vec::new();
    for dancers in [1, 2, 3, 40, 400] {
        let mut dance = Dance::new("", Set::longways(dancers, 2.4, 1.8));
        dance.figures.push(Figure::drawn("a", "", 3));
        dances.push(dance);
    }
    let mut dance = Dance::new(&"long ".repeat(400), Set::longways(6, 2.4, 1.8));
    dance.side = "s".repeat(600);
    dance.notes = "W".repeat(4_000);
    dance.figures.push(Figure::drawn("long", &"x".repeat(3_000), 1));
    dance.figures.push(Figure::drawn("many", "Many \u{1f600} <&> \u{0}", 300));
    dance.order = vec![Entry::of("long"), Entry::of("many"), Entry::of("long")];
    dance.order[0].call = "call ".repeat(800);
    dances.push(dance);
    for dance in dances {
        let motion = motion_of(&dance, None).unwrap();
        let book = notebook(&[(dance, motion)], &SheetChoice::default(), &mut quiet());
        let pdf = handout_to_pdf(&book).unwrap();
        assert_eq!(media_boxes(&pdf).len(), book.pages.len());
        for page in book.pages.iter().take(12) {
            usvg::roxmltree::Document::parse(&page_to_svg(page)).expect("well-formed SVG");
        }
    }
    let empty = Dance::new("Empty", Set::longways(6, 2.4, 1.8));
    let motion = motion_of(&empty, None).unwrap();
    assert!(handout_to_pdf(&notebook(&[(empty, motion)], &SheetChoice::default(), &mut quiet())).is_ok());
    assert!(Handout::default().pages.is_empty());
}

// The verbs.

#[test]
fn sheet_writes_what_it_is_asked_for() {
    let folder = tempfile::tempdir().unwrap();
    let out = |name: &str| folder.path().join(name);
    let file = sample("low-water");
    let (dance, _) = opened(&file);
    let pdf = out("all.pdf");
    assert_eq!(done(["sheet", text(&file), "-o", text(&pdf)]), "");
    let pages = media_boxes(&fs::read(&pdf).unwrap()).len();
    assert!(pages > 1 && pages <= dance.figures.len());
    // One file a page, and it says which.
    let said = done(["sheet", text(&file), "-o", text(&out("all.svg"))]);
    let named: Vec<&str> = said.lines().collect();
    assert_eq!(named.len(), pages);
    for (index, name) in named.iter().enumerate() {
        let page = if index == 0 { "all.svg".to_owned() } else { format!("all-{}.svg", index + 1) };
        assert_eq!(Path::new(name), out(&page));
        let svg = fs::read_to_string(name).unwrap();
        usvg::roxmltree::Document::parse(&svg).unwrap();
    }
    let png = out("one.PNG");
    let asked = ["--paper", "letter", "--landscape", "--every", "16", "--figure", "cross and turn"];
    let said = done(["sheet", text(&file), "-o", text(&png)].iter().chain(&asked));
    assert_eq!(said, "", "one page is one file");
    let drawn = image::load_from_memory(&fs::read(&png).unwrap()).unwrap();
    assert_eq!((drawn.width(), drawn.height()), (2200, 1700));
    let own = out("own.pdf");
    done(["sheet", text(&file), "--dancer", "2", "-o", text(&own)]);
    assert!(!media_boxes(&fs::read(&own).unwrap()).is_empty());
    let book = out("book.pdf");
    let files = samples();
    let names: Vec<&str> = files.iter().map(|file| text(file)).collect();
    let mut arguments = vec!["notebook"];
    arguments.extend(&names);
    arguments.extend(["-o", text(&book), "--paper", "a4"]);
    assert_eq!(done(&arguments), "");
    assert!(media_boxes(&fs::read(&book).unwrap()).len() > 20);
}

#[test]
fn what_cannot_be_handed_out_is_refused_in_a_line() {
    let folder = tempfile::tempdir().unwrap();
    let file = sample("low-water");
    let out = folder.path().join("out.pdf");
    let sheet = |more: &[&str]| bellpad(["sheet", text(&file), "-o", text(&out)].iter().chain(more));
    assert_refused(&sheet(&["--every", "0"]), &["--every 0", "0.25"]);
    assert_refused(&sheet(&["--every", "-3"]), &["--every -3"]);
    assert_refused(&sheet(&["--every", "NaN"]), &["--every NaN"]);
    assert_refused(&sheet(&["--dancer", "0"]), &["--dancer 0", "1 to 4"]);
    assert_refused(&sheet(&["--dancer", "5"]), &["--dancer 5", "1 to 4"]);
    assert_refused(&sheet(&["--figure", "polka"]), &["low-water", "polka", "the figures are"]);
    assert_refused(&sheet(&["--paper", "a5"]), &["a5", "a4"]);
    for wrong in ["out.jpg", "out", "out.pdf.txt"] {
        let wrong = folder.path().join(wrong);
        assert_refused(
            &bellpad(["sheet", text(&file), "-o", text(&wrong)]),
            &[text(&wrong), ".png, .svg or .pdf"],
        );
    }
    let png = folder.path().join("book.png");
    assert_refused(&bellpad(["notebook", text(&file), "-o", text(&png)]), &["book.png", ".pdf"]);
    let none = folder.path().join("none.dance.json");
    assert_refused(&bellpad(["notebook", text(&file), text(&none), "-o", text(&out)]), &["none.dance.json"]);
    let lost = folder.path().join("no folder").join("out.pdf");
    assert_refused(&bellpad(["sheet", text(&file), "-o", text(&lost)]), &["no folder"]);
    let empty = folder.path().join("empty.dance.json");
    done(["new", text(&empty)]);
    assert_refused(&bellpad(["sheet", text(&empty), "-o", text(&out)]), &["empty.dance.json", "no figures"]);
    assert!(!out.exists(), "nothing is written when it is refused");
}
