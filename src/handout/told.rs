use super::{
    SMALLEST,
    caption::{bars_of, who_words},
    flow::{Flow, line_height, text_height},
    reading::Role,
};
use crate::dance::{Dance, Dancer};
use crate::motion::{Motion, SpanIndex};
use crate::picture::{Anchor, PAPER};
use crate::words::{TapsTold, steps_told, taps_told, tell};

/// Sets larger than this have words on the dancers' own pages only.
const MOST_TOLD: usize = 40;
/// The size of the words, points.
const SIZE: f32 = 9.5;
/// The sizes that they may have to save a page, and how near their lines may lie, as a share of what is usual.
const SMALLER: [(f32, f32); 3] = [(9.0, 1.0), (SMALLEST, 1.0), (SMALLEST, 0.92)];
/// What is not higher than this is not parted, points.
const TOGETHER: f32 = 72.0;
/// How wide the column of numbers is, points.
const NUMBERS: f32 = 44.0;

/// A dancer's words for a figure, a paragraph for each phrase, and a line for each bar of taps.
pub(super) fn told_lines(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Dancer) -> Vec<String> {
    let told = tell(dance, motion, span, dancer);
    let bars = motion.span(span).map(|span| span.bar_counts().clone()).unwrap_or_default();
    let said =
        told.iter().map(|told| format!("{}: {}", bars_of(&bars, told.begin, told.end), told.text.trim()));
    said.chain(taps_told(motion, span, dancer).iter().map(TapsTold::line)).collect()
}

/// Words, a paragraph each, and who does as they say.
type Group = (Vec<String>, Vec<Dancer>);

/// The words for each number, those who do the same together.
fn groups(dance: &Dance, motion: &Motion, span: SpanIndex) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for dancer in Dancer::all(motion.dancers()) {
        let lines = told_lines(dance, motion, span, dancer);
        match groups.iter_mut().find(|(other, _)| *other == lines) {
            Some((_, who)) => who.push(dancer),
            None => groups.push((lines, vec![dancer])),
        }
    }
    groups.retain(|(lines, _)| !lines.is_empty());
    groups
}

fn lines_height(lines: &[String], size: f32, wide: f32) -> f32 {
    lines.iter().map(|line| text_height(line, (size, false), wide)).sum()
}

/// The steps of a figure of so many dancers, a line each.
fn step_lines(motion: &Motion, span: SpanIndex) -> Vec<String> {
    let dancers: Vec<Dancer> = Dancer::all(motion.dancers()).collect();
    steps_told(motion, span, &dancers)
}

/// How much room each number in words and the figure's notes take, points.
pub(super) fn told_height(flow: &Flow, dance: &Dance, motion: &Motion, span: SpanIndex) -> f32 {
    let [left, right] = flow.edges();
    let figure = motion.span(span).and_then(|span| dance.figures.get(span.figure));
    let notes = figure.map_or(0.0, |figure| text_height(&figure.notes, (SIZE, false), right - left));
    let notes = if notes > 0.0 { notes + 36.0 } else { 0.0 };
    if motion.dancers() > MOST_TOLD {
        return notes + line_height(SIZE);
    }
    let groups = groups(dance, motion, span);
    let words: f32 =
        groups.iter().map(|(lines, _)| lines_height(lines, SIZE, right - left - NUMBERS) + 4.0).sum();
    let steps = lines_height(&step_lines(motion, span), SIZE, right - left);
    notes + words + steps + 40.0
}

/// Each number in words, those who do the same together; a little smaller where nothing else follows and that saves a page.
pub(super) fn put_told(flow: &mut Flow, dance: &Dance, motion: &Motion, span: SpanIndex, last: bool) {
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
    let (steps, groups) = (step_lines(motion, span), groups(dance, motion, span));
    let pages = |(size, tight): (f32, f32)| {
        let mut trial = flow.trial();
        trial.tight = tight;
        put_groups(&mut trial, (&steps, &groups), motion.dancers(), size);
        trial.pages.len()
    };
    let usual = if last { pages((SIZE, 1.0)) } else { 1 };
    let size = if usual > 1 { SMALLER.into_iter().find(|size| pages(*size) < usual) } else { None };
    let (size, tight) = size.unwrap_or((SIZE, 1.0));
    let usual = std::mem::replace(&mut flow.tight, tight);
    put_groups(flow, (&steps, &groups), motion.dancers(), size);
    flow.tight = usual;
}

fn put_groups(flow: &mut Flow, (steps, groups): (&[String], &[Group]), dancers: usize, size: f32) {
    let [left, right] = flow.edges();
    let Some((first, _)) = groups.first() else { return };
    let inside = [left + NUMBERS, right];
    let tight = flow.tight;
    let high = |lines: &[String]| lines_height(lines, size, inside[1] - inside[0]) * tight;
    let told = lines_height(steps, size, right - left) * tight;
    flow.heading("Each number in words", if told > 0.0 { told.min(60.0) } else { high(first).min(TOGETHER) });
    for line in steps {
        flow.text(line, (size, false), [left, right], PAPER.words);
    }
    flow.y += 4.0;
    for (lines, who) in groups {
        // A dancer's words stay together where that leaves little free.
        let paragraph = |line: &String| text_height(line, (size, false), inside[1] - inside[0]) * tight;
        let whole = high(lines);
        flow.need(if whole <= TOGETHER { whole } else { lines.first().map_or(0.0, paragraph) });
        let mut all = who_words(who, dancers);
        if who.len() == dancers && who.len() > 1 {
            "all".clone_into(&mut all);
        }
        let names = super::flow::wrapped(&all, (size, true), NUMBERS - 6.0);
        let top = flow.y;
        flow.begin(Role::Label);
        for (row, name) in names.iter().enumerate() {
            let y = top + line_height(size) * tight * (row as f32 + 0.5);
            flow.words([left, y], (size, true), Anchor::Left, name, PAPER.words);
        }
        let page = flow.pages.len();
        flow.begin(Role::Item);
        for (row, line) in lines.iter().enumerate() {
            if row > 0 && flow.room_below() < paragraph(line).min(TOGETHER) {
                flow.turn_over_under(names.first().map_or("", String::as_str), (size, true));
            }
            flow.text(line, (size, false), inside, PAPER.words);
        }
        flow.end();
        if flow.pages.len() == page {
            flow.y = flow.y.max(top + line_height(size) * tight * names.len() as f32);
        }
        flow.y += 4.0;
    }
}
