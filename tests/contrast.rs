//! Whether all that is drawn can be read: the contrast of what is really on the pages, the stills and the window, as
//! WCAG 2.2 (W3C Recommendation, 2023) defines it: 4.5:1 for text (success criterion 1.4.3, AA) and 3:1 for what has
//! to be seen (1.4.11). The practice page is measured in a browser, in `tests/real_page`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::Dancer;
use bellpad::dance::{Dance, read};
use bellpad::desk::{Ask, Desk, ViewAsk};
use bellpad::figures::motion_of;
use bellpad::handout::{SheetChoice, dancer_page, notebook};
use bellpad::motion::Motion;
use bellpad::picture::{Colour, Ink, Mark, PAPER, SLATE, StillChoice, still};
use bellpad::store::Recent;
use bellpad::window::Window;
use egui::{Color32, vec2};
use egui_kittest::Harness;
use std::fs;

/// Relative luminance (WCAG 2.2, definition), written down here anew.
fn luminance(colour: [f64; 3]) -> f64 {
    let [red, green, blue] = colour.map(|value| {
        let value = value / 255.0;
        if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
    });
    0.2126 * red + 0.7152 * green + 0.0722 * blue
}

fn contrast(one: [f64; 3], other: [f64; 3]) -> f64 {
    let (one, other) = (luminance(one), luminance(other));
    (one.max(other) + 0.05) / (one.min(other) + 0.05)
}

/// A colour over what is under it.
fn over(Colour(red, green, blue, opacity): Colour, under: [f64; 3]) -> [f64; 3] {
    let share = f64::from(opacity) / 255.0;
    let mut mixed = under;
    for (channel, own) in mixed.iter_mut().zip([red, green, blue]) {
        *channel += (f64::from(own) - *channel) * share;
    }
    mixed
}

/// What a mark fills, if a place is inside it. Only what words and bodies can stand on counts.
fn fill_at(mark: &Mark, [px, py]: [f32; 2]) -> Option<Colour> {
    match mark {
        Mark::Oval { at, radii, turn, fill, .. } | Mark::Block { at, radii, turn, fill, .. } => {
            let (sin, cos) = (-turn.to_radians()).sin_cos();
            let (dx, dy) = (px - at[0], py - at[1]);
            let (x, y) = ((dx * cos - dy * sin) / radii[0], (dx * sin + dy * cos) / radii[1]);
            let inside = if matches!(mark, Mark::Oval { .. }) {
                x.hypot(y) < 1.0
            } else {
                x.abs() < 1.0 && y.abs() < 1.0
            };
            fill.filter(|_| inside)
        }
        _ => None,
    }
}

fn samples() -> Vec<(Dance, Motion)> {
    let all = common::samples().into_iter().map(|path| {
        let dance = read(&fs::read(path).unwrap()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        (dance, motion)
    });
    all.collect()
}

/// All words on their ground, and all lines that are not only there to part things; gives how many were looked at.
fn check_marks(marks: &[Mark], ink: &Ink, what: &str) -> [usize; 2] {
    let Colour(red, green, blue, _) = ink.floor;
    let ground = [red, green, blue].map(f64::from);
    let mut seen = [0, 0];
    for (index, mark) in marks.iter().enumerate() {
        match mark {
            Mark::Words { at, colour, text, .. } => {
                let under = marks[..index].iter().filter_map(|mark| fill_at(mark, *at));
                let under = under.fold(ground, |under, fill| over(fill, under));
                let found = contrast(over(*colour, under), under);
                assert!(found >= 4.5, "{what}: {text:?} has {found:.2}:1");
                seen[0] += 1;
            }
            // A line of the floor's own colour keeps two others apart where they cross.
            Mark::Line { stroke, .. } if ![ink.faint, ink.floor].contains(&stroke.colour) => {
                let found = contrast(over(stroke.colour, ground), ground);
                assert!(found >= 3.0, "{what}: a line {:?} has {found:.2}:1", stroke.colour);
                seen[1] += 1;
            }
            _ => {}
        }
    }
    seen
}

#[test]
fn what_is_printed_can_be_read() {
    let dances = samples();
    let mut pages = notebook(&dances, &SheetChoice::default(), &mut |_, _| true).pages;
    for (dance, motion) in &dances {
        pages.extend(dancer_page(dance, motion, None, Dancer(0), &SheetChoice::default()).pages);
    }
    let mut seen = [0, 0];
    for (number, page) in pages.iter().enumerate() {
        let [words, lines] = check_marks(&page.marks, &PAPER, &format!("page {}", number + 1));
        seen = [seen[0] + words, seen[1] + lines];
    }
    assert!(seen[0] > 3_000 && seen[1] > 1_000, "{seen:?}");
}

#[test]
fn stills_can_be_read_in_both_looks() {
    for (dance, motion) in samples() {
        for ink in [SLATE, PAPER] {
            let choice =
                StillChoice { trails: true, ink, title: dance.title.clone(), ..StillChoice::default() };
            for step in 0..24 {
                let count = motion.counts() * f64::from(step) / 24.0;
                let picture = still(&motion, count, &choice);
                check_marks(&picture.marks, &ink, &format!("{} at {count}", dance.title));
            }
        }
    }
}

/// In black and white what tells odds from evens is their shape and the stroke of their paths; what tells the foot
/// that carries the weight is that it is filled. Grey is as ITU-R BT.601 weighs it, as printers' drivers do (from
/// memory).
#[test]
fn nothing_is_told_by_colour_alone() {
    let grey = |Colour(red, green, blue, _): Colour| {
        0.299 * f64::from(red) + 0.587 * f64::from(green) + 0.114 * f64::from(blue)
    };
    let page = |ink: &Ink| (grey(ink.floor), grey(ink.odd), grey(ink.even), grey(ink.outline));
    for ink in [SLATE, PAPER] {
        // Every body stands out from the floor and from its outline in grey as well.
        let (floor, odd, even, outline) = page(&ink);
        for body in [odd, even] {
            assert!((body - floor).abs() > 40.0 && (body - outline).abs() > 40.0, "{body} {floor} {outline}");
        }
    }
    for (dance, motion) in samples().into_iter().filter(|(dance, _)| dance.set.dancers > 1) {
        let choice = StillChoice { ink: PAPER, ..StillChoice::default() };
        let marks = still(&motion, 0.0, &choice).marks;
        for mark in &marks {
            match mark {
                Mark::Oval { fill, .. } => assert_ne!(*fill, Some(PAPER.even), "{}", dance.title),
                Mark::Block { fill, .. } => assert_ne!(*fill, Some(PAPER.odd), "{}", dance.title),
                _ => {}
            }
        }
        let bodies = |wanted: Colour| {
            let of = |mark: &&Mark| match mark {
                Mark::Oval { fill, .. } | Mark::Block { fill, .. } => *fill == Some(wanted),
                _ => false,
            };
            marks.iter().filter(of).count()
        };
        let dancers = dance.set.dancers as usize;
        assert_eq!((bodies(PAPER.odd), bodies(PAPER.even)), (dancers.div_ceil(2), dancers / 2));
    }
}

/// The window's own words on what they stand, in every state of a button, in both looks.
#[test]
fn the_windows_words_can_be_read() {
    for paper in [false, true] {
        let window = Window::new(Desk::with_sample(Recent::default()), false);
        let mut harness = Harness::builder()
            .with_size(vec2(1280.0, 800.0))
            .build_ui_state(|ui, window: &mut Window| window.show(ui), window);
        harness.run();
        if paper {
            harness.state_mut().desk.apply(Ask::View(ViewAsk::ToggleTheme));
            harness.run();
        }
        let visuals = harness.ctx.global_style().visuals.clone();
        assert_eq!(visuals.dark_mode, !paper);
        let pairs = |words: Color32, ground: Color32| {
            assert_eq!((words.a(), ground.a()), (255, 255));
            let of = |colour: Color32| [colour.r(), colour.g(), colour.b()].map(f64::from);
            contrast(of(words), of(ground))
        };
        let widgets = &visuals.widgets;
        for state in
            [&widgets.noninteractive, &widgets.inactive, &widgets.hovered, &widgets.active, &widgets.open]
        {
            let found = pairs(state.fg_stroke.color, state.weak_bg_fill);
            assert!(found >= 4.5, "{state:?} has {found:.2}:1");
        }
        for ground in
            [visuals.panel_fill, visuals.window_fill, visuals.extreme_bg_color, visuals.faint_bg_color]
        {
            for words in [
                visuals.text_color(),
                visuals.weak_text_color(),
                visuals.warn_fg_color,
                visuals.error_fg_color,
            ] {
                let found = pairs(words, ground);
                assert!(found >= 4.5, "{words:?} on {ground:?} has {found:.2}:1");
            }
        }
        assert!(pairs(visuals.selection.stroke.color, visuals.selection.bg_fill) >= 4.5);
    }
}
