//! The tune over the bars of the window.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;
#[path = "common/window.rs"]
mod driven;

use bellpad::dance::{Air, Dance, read};
use bellpad::figures::motion_of;
use bellpad::motion::Clock;
use common::samples;
use driven::{Driven, show_dance};
use egui::{Rect, Shape, vec2};
use egui_kittest::kittest::Queryable;
use std::fs;

fn dance(name: &str) -> Dance {
    let path = samples().into_iter().find(|path| path.to_string_lossy().contains(name)).unwrap();
    read(&fs::read(path).unwrap()).unwrap()
}

/// Where the bars can be scrubbed.
fn bars(harness: &Driven) -> Rect {
    harness.get_by_label("Bars").rect()
}

/// The middles of the heads in the tune's row, which are shapes of ten corners over the bars; and the colour of each.
fn heads(harness: &Driven) -> Vec<(egui::Pos2, egui::Color32)> {
    let row = Rect::from_min_size(bars(harness).min, vec2(bars(harness).width(), 40.0));
    let shapes = &harness.output().shapes;
    let heads = shapes.iter().filter_map(|clipped| match &clipped.shape {
        Shape::Path(path) if path.points.len() == 10 => {
            let middle = Rect::from_points(&path.points).center();
            let hollow = match &path.stroke.color {
                egui::epaint::ColorMode::Solid(colour) => *colour,
                egui::epaint::ColorMode::UV(_) => egui::Color32::TRANSPARENT,
            };
            let colour = if path.fill.a() > 0 { path.fill } else { hollow };
            row.contains(middle).then_some((middle, colour))
        }
        _ => None,
    });
    heads.collect()
}

#[test]
fn the_strip_has_a_row_for_the_tune_only_where_there_is_one() {
    for size in [[900.0, 600.0], [1366.0, 768.0], [1440.0, 900.0]] {
        let with = show_dance(dance("nine-geese"), size);
        let mut silent = dance("nine-geese");
        silent.music.abc = String::new();
        let without = show_dance(silent, size);
        let mut broken = dance("nine-geese");
        broken.music.abc = broken.music.abc.replacen("K:", "Q:", 1);
        let broken = show_dance(broken, size);
        // A low window keeps its floor instead.
        let low = size[1] < 680.0;
        let more = bars(&with).height() - bars(&without).height();
        assert!(if low { more == 0.0 } else { more > 20.0 }, "{more} at {size:?}");
        assert_eq!(bars(&broken).height(), bars(&without).height());
        assert!(heads(&without).is_empty() && heads(&broken).is_empty());
        // The window starts at the first figure that moves, which is danced to A: each of its letters is a note.
        let notes = dance("nine-geese").music.abc;
        let strain = notes.split("|:").nth(1).unwrap().split(":|").next().unwrap().to_owned();
        let letters = strain.chars().filter(char::is_ascii_alphabetic).count();
        assert_eq!(heads(&with).len(), if low { 0 } else { letters }, "{size:?}");
        // The floor keeps room for the dance.
        assert!(with.state().floor_rect.height() > 300.0, "{:?}", with.state().floor_rect);
    }
}

/// In 6/8 the counts fall on quavers 1, 3, 4 and 6 [MB1: C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907,
/// the 6-time step diagrams], so the first, third and fourth quaver stand over counts 1, 2 and 3.
#[test]
fn notes_stand_over_the_counts_on_which_they_are_heard() {
    let harness = show_dance(dance("nine-geese"), [1440.0, 900.0]);
    let area = bars(&harness).shrink2(vec2(8.0, 0.0));
    let count = area.width() / 32.0;
    let heads = heads(&harness);
    // GAB d2B: quavers 1, 2, 3, 4 and 6.
    let places: Vec<f32> = heads[..5].iter().map(|(at, _)| (at.x - heads[0].0.x) / count).collect();
    for (place, wanted) in places.iter().zip([0.0, 0.5, 1.0, 2.0, 3.0]) {
        assert!((place - wanted).abs() < 0.02, "{places:?}");
    }
    // G, A, B and d rise: each is higher than the one before, a space or half of one.
    let heights: Vec<f32> = heads[..4].iter().map(|(at, _)| heads[0].0.y - at.y).collect();
    for (height, wanted) in heights.iter().zip([0.0, 2.0, 4.0, 8.0]) {
        assert!((height - wanted).abs() < 1e-3, "{heights:?}");
    }
}

#[test]
fn the_note_under_the_playhead_is_brighter() {
    let mut harness = show_dance(dance("nine-geese"), [1440.0, 900.0]);
    let begin = harness.state().desk.player().count;
    for (counts, note) in [(0.0, 0), (0.6, 1), (1.2, 2), (2.4, 3)] {
        harness
            .state_mut()
            .desk
            .apply(bellpad::desk::Ask::Play(bellpad::desk::PlayAsk::Seek(begin + counts)));
        harness.run();
        let heads = heads(&harness);
        let loud: Vec<usize> = (0..heads.len()).filter(|index| heads[*index].1 != heads[20].1).collect();
        assert_eq!(loud, [note], "at {counts}");
    }
}

/// The words in the rows over and in the bars, with where each begins.
fn words(harness: &Driven) -> Vec<(String, f32)> {
    let place = bars(harness);
    let shapes = &harness.output().shapes;
    let words = shapes.iter().filter_map(|clipped| match &clipped.shape {
        Shape::Text(text) => place.contains(text.pos).then(|| (text.galley.text().to_owned(), text.pos.x)),
        _ => None,
    });
    words.collect()
}

#[test]
fn strains_are_named_where_they_begin_and_metres_told_where_they_change() {
    let mut dance = dance("nine-geese");
    let figure = dance.figure_index(&dance.order[1].figure).unwrap();
    dance.figures[figure].metres.insert(3, bellpad::dance::Metre::NineEight);
    let strain = dance.order[1].strain.clone();
    let mut harness = show_dance(dance, [1440.0, 900.0]);
    let begin = harness.state().desk.motion().spans()[1].begin();
    harness.state_mut().desk.apply(bellpad::desk::Ask::Play(bellpad::desk::PlayAsk::Seek(begin + 0.5)));
    harness.run();
    let words = words(&harness);
    let at = |wanted: &str| words.iter().find(|(text, _)| text == wanted).map(|(_, at)| *at);
    let first = at(&strain).unwrap_or_else(|| panic!("{strain} is not named: {words:?}"));
    assert!((first - bars(&harness).left()).abs() < 24.0, "{words:?}");
    // The third bar has six counts and says so, and the next one that the metre is the old one again.
    let [two, three, four, five] = ["2", "3  9/8", "4  6/8", "5"]
        .map(|text| at(text).unwrap_or_else(|| panic!("{text} is not told: {words:?}")));
    let count = (three - two) / 4.0;
    assert!((four - three - 6.0 * count).abs() < 0.5 && (five - four - 4.0 * count).abs() < 0.5, "{words:?}");
}

/// What is played when, against the running order: a strain for each line, from its first bar.
#[test]
fn the_air_follows_the_running_order() {
    for path in samples() {
        let dance = read(&fs::read(&path).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        let danced = || motion.spans().iter().map(|span| (span.first_bar, span.bars));
        let air = Air::of(&dance, motion.bar_counts(), danced()).unwrap();
        for (entry, (first, bars)) in dance.order.iter().zip(danced()) {
            let playing = air.playings.iter().find(|playing| playing.first_bar == first).unwrap();
            assert_eq!(air.tune.strains[playing.strain].name, entry.strain);
            // Nothing of another line is heard in it, and every bar has a note.
            let heard: Vec<f64> = air
                .notes(f64::from(first), f64::from(first + bars))
                .map(|sounded| sounded.begin)
                .filter(|begin| *begin >= f64::from(first))
                .collect();
            assert!(heard.is_sorted());
            for bar in first..first + bars {
                assert!(heard.iter().any(|begin| begin.floor() == f64::from(bar)), "{} {bar}", dance.title);
            }
        }
        let clock = Clock::of(&dance.music);
        assert!((clock.counts_of_bars(3.0) - 12.0).abs() < 1e-9);
        let upbeats = air.notes(-1.0, 0.0).count();
        assert!(upbeats > 0, "{} has an upbeat", dance.title);
    }
    let mut silent = dance("low-water");
    silent.music.abc = "  \n".to_owned();
    assert_eq!(Air::of(&silent, &bellpad::dance::BarCounts::usual(8), [(0, 8)]), None);
}
