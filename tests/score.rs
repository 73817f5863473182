//! The tune as notes on staves.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Score, read};
use bellpad::picture::{PAPER, System, engrave, marks_to_svg, svg_to_png};
use common::samples;
use std::fs;

/// Every kind of thing that stands on a stave, some of it nasty.
const NASTY: &str = "X:1\nT:Nasty\nM:6/8\nL:1/8\nK:Eb\nP:A\nB,|:\"Eb\"E2G B^c=d|\"Ab\"{g}c>de (3fga g|[EGB]2[FA] [Bc]3|A5-A|1 \"Bb7\"B,C/D/E/F/ Gzz:|2 (5bagfe d3||\n\
P:B\n[K:D]|:[M:3/4]d2 e3/f/ z2|A,4-A,/B,/C/D/|[M:4/4]a'2 c''2 z4|BAGF E2 ^^F2|__B2 =B2 z/c/z/d/ e>f-|f8|z8|[df]2 [eg-]2 [A-g]2 A2|(3:2:2a2b (3c'd'e' x2 z2|D>E F<G A//B//c//d// e//f//g//a// g2|z2 d6-|d2 A4 D2|]\n";

fn show(name: &str, systems: &[System]) {
    let Ok(folder) = std::env::var("BELLPAD_SCREENSHOTS") else { return };
    let wide = 720.0;
    let mut marks = Vec::new();
    let mut y = 20.0;
    for system in systems {
        marks.extend(system.marks.iter().cloned().map(|mark| mark.placed(1.0, [20.0, y])));
        y += system.size[1];
    }
    let high = y + 20.0;
    let size = [wide.to_string(), high.to_string()];
    let svg = marks_to_svg([wide, high], &size, PAPER.floor, &marks, (name, ""));
    let png = svg_to_png(&svg, (wide as u32 * 4, high as u32 * 4), (name, ""), None).unwrap();
    fs::write(format!("{folder}/{name}.png"), png).unwrap();
}

#[test]
fn look() {
    for path in samples() {
        let dance = read(&fs::read(&path).unwrap()).unwrap();
        let score = Score::read(&dance.music.abc).unwrap();
        show(&dance.title, &engrave(&score, 680.0, 6.0, PAPER.words));
    }
    show("nasty", &engrave(&Score::read(NASTY).unwrap(), 680.0, 7.0, PAPER.words));
}
