use super::{
    caption::{bars_of, who_words},
    flow::{Flow, line_height, text_height},
};
use crate::dance::Dance;
use crate::motion::Motion;
use crate::picture::{Anchor, PAPER};
use crate::words::tell;

/// Sets larger than this have words on the dancers' own pages only.
const MOST_TOLD: usize = 40;
/// The size of the words, points.
const SIZE: f32 = 9.5;
/// How wide the column of numbers is, points.
const NUMBERS: f32 = 44.0;

/// A dancer's words for a figure, a paragraph for each phrase.
pub(super) fn told_lines(dance: &Dance, motion: &Motion, span: usize, dancer: usize) -> Vec<String> {
    let told = tell(dance, motion, span, dancer);
    told.iter().map(|told| format!("{}: {}", bars_of(told.begin, told.end), told.text.trim())).collect()
}

/// Each number in words, those who do the same together.
pub(super) fn put_told(flow: &mut Flow, dance: &Dance, motion: &Motion, span: usize) {
    let [left, right] = flow.edges();
    if motion.dancers() > MOST_TOLD {
        flow.text(
            "The words of a number are on that dancer's own page.",
            (SIZE, false),
            [left, right],
            PAPER.words,
        );
        return;
    }
    let mut groups: Vec<(Vec<String>, Vec<usize>)> = Vec::new();
    for dancer in 0..motion.dancers() {
        let lines = told_lines(dance, motion, span, dancer);
        match groups.iter_mut().find(|(other, _)| *other == lines) {
            Some((_, who)) => who.push(dancer),
            None => groups.push((lines, vec![dancer])),
        }
    }
    groups.retain(|(lines, _)| !lines.is_empty());
    let Some((first, _)) = groups.first() else { return };
    let inside = [left + NUMBERS, right];
    let high = |lines: &[String]| -> f32 {
        lines.iter().map(|line| text_height(line, SIZE, inside[1] - inside[0])).sum()
    };
    flow.heading("Each number in words", high(first).min(120.0));
    for (lines, who) in &groups {
        // A dancer's words stay together where a page holds them.
        flow.need(high(lines).min(240.0));
        let mut all = who_words(who, motion.dancers());
        if who.len() == motion.dancers() && who.len() > 1 {
            "all".clone_into(&mut all);
        }
        let names = super::flow::wrapped(&all, SIZE, NUMBERS - 6.0);
        let top = flow.y;
        for (row, name) in names.iter().enumerate() {
            let y = top + line_height(SIZE) * (row as f32 + 0.5);
            flow.words([left, y], (SIZE, true), Anchor::Left, name, PAPER.words);
        }
        let page = flow.pages.len();
        for line in lines {
            flow.text(line, (SIZE, false), inside, PAPER.words);
        }
        if flow.pages.len() == page {
            flow.y = flow.y.max(top + line_height(SIZE) * names.len() as f32);
        }
        flow.y += 4.0;
    }
}
