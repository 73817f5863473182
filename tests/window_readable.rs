//! What is written in the window can be read at every size of screen and text: the dancers' numbers are never too small, words do
//! not lie over other words of their row, and what has no room is named.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

#[path = "common/window.rs"]
mod driven;
#[path = "common/painted.rs"]
mod painted;

use bellpad::dance::{Dance, Dancer, Figure, Part, Turn, Way};
use bellpad::desk::{Ask, KeepAsk, PlayAsk, ViewAsk};
use driven::{Driven, activate, dance, desk, frame, show_dance, show_sample, six, take};
use egui::Shape;
use egui_kittest::kittest::Queryable;
use painted::{SCREENS, TEXTS, Words, words};

/// The window of a screen with text of a size, with a dancer chosen, at the start of a figure with turns.
fn window(screen: [f32; 2], text: f32) -> Driven {
    let mut harness = show_sample(screen.map(|pixels| pixels / text));
    take(&mut harness, Ask::Keep(KeepAsk::ShutWelcome(true)));
    take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(2)))));
    let begin = desk(&harness).motion().spans()[1].begin();
    take(&mut harness, Ask::Play(PlayAsk::Seek(begin + 2.0)));
    harness
}

#[test]
fn every_number_on_the_floor_can_be_read_and_larger_text_leaves_the_dancers_most_of_their_size() {
    for screen in SCREENS {
        let mut scales = Vec::new();
        for text in TEXTS {
            let mut harness = window(screen, text);
            let floor = harness.state().floor_rect;
            scales.push(frame(&mut harness).scale * f64::from(text));
            let all = words(&harness);
            for number in 1..=6 {
                let number = number.to_string();
                let largest = all
                    .iter()
                    .filter(|words| words.text == number && floor.contains(words.place.center()))
                    .max_by(|one, other| one.size.total_cmp(&other.size))
                    .unwrap_or_else(|| panic!("{screen:?} at {text}: no number {number} on the floor"));
                let pixels = largest.size * text;
                assert!(pixels >= 9.4 * text, "{screen:?} at {text}: {number} is {pixels:.1} pixels");
                assert!(floor.contains_rect(largest.place), "{screen:?} at {text}: {number} is cut");
            }
        }
        // Larger text takes some of the floor, and the music and the views give way for it first.
        let shares: Vec<f64> = scales.iter().map(|scale| scale / scales[0]).collect();
        assert!(shares[1] > 0.78 && shares[2] > 0.6, "{screen:?}: {shares:?} of {:.0} a metre", scales[0]);
    }
}

/// A figure that turns at every bar, left and right, far and a little.
fn turning() -> Dance {
    let mut dance = six();
    let mut figure = Figure::drawn("figure-1", "Figure 1", 16);
    let mut part = Part::still(1);
    for bar in 0..16_u32 {
        let begin = f64::from(bar) * 4.0;
        let way = if bar % 3 == 0 { Way::Left } else { Way::Right };
        let long = if bar % 2 == 0 { 1.0 } else { 4.0 };
        part.turns.push(Turn { by: Some(360.0), ..Turn::to_face(begin, begin + long, way, 90.0) });
    }
    figure.parts.push(part);
    dance.figures.push(figure);
    dance
}

#[test]
fn words_over_the_turns_lie_neither_over_one_another_nor_outside_the_bars() {
    let mut seen = 0;
    for screen in SCREENS {
        for text in TEXTS {
            let mut harness = show_dance(turning(), screen.map(|pixels| pixels / text));
            take(&mut harness, Ask::View(ViewAsk::Choose(Some(Dancer(0)))));
            let Some(row) = harness.query_by_label("Turns") else { continue };
            let row = row.rect();
            seen += 1;
            let all: Vec<Words> = words(&harness)
                .into_iter()
                .filter(|words| words.text.ends_with('°') && row.expand(3.0).contains(words.place.center()))
                .collect();
            assert!(all.len() >= 4, "{screen:?} at {text}: {} say how far", all.len());
            for (index, one) in all.iter().enumerate() {
                assert!(row.expand(3.0).contains_rect(one.place), "{screen:?} at {text}: {:?}", one.place);
                for other in &all[index + 1..] {
                    let common = one.place.intersect(other.place);
                    let over = common.width() > 0.5 && common.height() > 0.5;
                    assert!(!over, "{screen:?} at {text}: {} over {}", one.text, other.text);
                }
            }
        }
    }
    // Some windows have no room for the row.
    assert!(seen >= 8, "{seen} windows had a row of turns");
}

/// Rows of the bars that a window has no room for are named, with a way to them; where all are shown nothing is said.
#[test]
fn no_row_of_the_bars_goes_without_a_word() {
    let (mut cramped, mut roomy) = (0, 0);
    for screen in SCREENS {
        for text in TEXTS {
            let mut harness = window(screen, text);
            let bars = harness.get_by_label("Bars").rect();
            let painted: Vec<String> = {
                let names = words(&harness).into_iter();
                let names = names.filter(|words| {
                    words.place.right() < bars.left() && words.place.top() > bars.top() - 60.0
                });
                names.map(|words| words.text).collect()
            };
            let rows = ["tune", "path", "feet", "turn", "hands"];
            let missing: Vec<&str> =
                rows.into_iter().filter(|row| !painted.iter().any(|name| name == row)).collect();
            let many = missing.len();
            let label = format!("no room for {many} {}…", if many == 1 { "row" } else { "rows" });
            let named = harness.query_by_label(&label).is_some();
            assert_eq!(named, many > 0, "{screen:?} at {text}: {missing:?} are not there");
            if !named {
                roomy += 1;
                assert!(harness.query_all_by_label_contains("no room for").next().is_none());
                continue;
            }
            cramped += 1;
            activate(&mut harness, &label);
            for row in rows {
                let title: String = row[..1].to_uppercase() + &row[1..];
                let told = harness.query_by_label(&format!("{title} · no room")).is_some();
                assert_eq!(told, missing.contains(&row), "{screen:?} at {text}: {row} of {missing:?}");
            }
        }
    }
    assert!(cramped >= 3 && roomy >= 3, "{cramped} cramped, {roomy} roomy");
}

/// In every tab at every size no words lie over others, and what every dancer and every dance has is not cut short: only the title of
/// the dance is, where the window is narrow, and a caution where it is low.
#[test]
fn no_words_lie_over_others_and_none_are_cut_that_need_not_be() {
    for screen in SCREENS {
        for text in TEXTS {
            let size = screen.map(|pixels: f32| pixels / text);
            let mut harness = window(screen, text);
            let wide = ["Order", "Set", "Dancer", "Figure", "Faults"];
            let narrow = ["Order", "Shelf", "Set", "Dancer", "Figure", "Faults"];
            let tabs: &[&str] = if size[0] < 1100.0 { &narrow } else { &wide };
            for tab in tabs {
                driven::open_tab(&mut harness, tab);
                for shape in &harness.output().shapes {
                    if let Shape::Text(shape) = &shape.shape {
                        // The one side of a narrow window has no room for why a foot leads.
                        let narrow = size[0] < 1100.0 && *tab == "Dancer";
                        let whole = shape.galley.text();
                        // The caution at the end of a line gives way to what is said of the dancer.
                        // What to watch for is a sentence: in a row it is cut, and whole under the pointer.
                        let watch = desk(&harness).to_watch().and_then(|list| list.words_for(Dancer(2), 2.0));
                        let may_be = narrow
                            || whole == dance(&harness).title
                            || whole.contains(" · Warm up first")
                            || watch.as_deref() == Some(whole);
                        let cut = shape.galley.elided && !may_be;
                        assert!(!cut, "{screen:?} at {text}, {tab}: {:?} is cut", shape.galley.text());
                    }
                }
                let all = words(&harness);
                for (index, one) in all.iter().enumerate() {
                    for other in &all[index + 1..] {
                        // A heavy number is painted three times in one place.
                        let common = one.seen.intersect(other.seen);
                        let over = common.width() > 2.0 && common.height() > 3.0 && one.text != other.text;
                        assert!(!over, "{screen:?} at {text}, {tab}: {:?} over {:?}", one.text, other.text);
                    }
                }
            }
        }
    }
}
