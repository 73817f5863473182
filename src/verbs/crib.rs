//! `bellpad crib`: what each number does, in words.

use super::{Outcome, Said, VerbError, opening::open_motion, printing::print};
use crate::dance::{Dance, Dancer, Holding, Number};
use crate::motion::Motion;
use crate::words::{STICK_CAUTION, calls_said, phrases::sheet, standing, steps_told, taps_told, tell};
use clap::Args;
use std::path::PathBuf;

/// Write out what each number does.
#[derive(Debug, Args)]
pub struct Crib {
    /// The dance file
    pub file: PathBuf,
    /// Only this number
    #[arg(long, value_name = "N")]
    pub dancer: Option<u32>,
    /// Only this figure, by id or name; bars are then its own
    #[arg(long)]
    pub figure: Option<String>,
}

/// Letters in a line.
const WIDTH: usize = 80;

/// Writes the words.
pub(super) fn run(asked: &Crib) -> Said<Outcome> {
    let (dance, motion, figure) = open_motion(&asked.file, asked.figure.as_deref())?;
    let dancers = motion.dancers();
    let asked_for: Vec<Dancer> = match asked.dancer {
        None => Dancer::all(dancers).collect(),
        Some(number) if Number(number).is_in(dancers as u32) => vec![Number(number).dancer()],
        Some(number) => {
            return Err(VerbError::NoDancer { path: asked.file.clone(), number, last: dancers });
        }
    };
    let mut text = wrapped(&heading(&dance), "");
    if dance.holding == Holding::Sticks && !motion.blows().is_empty() {
        text += &wrapped(STICK_CAUTION, "");
    }
    for dancer in asked_for {
        text += "\n";
        text += &number(&dance, &motion, dancer, figure.is_some());
    }
    print(&text)?;
    Ok(Outcome::Fine)
}

fn heading(dance: &Dance) -> String {
    match dance.side.as_str() {
        "" => dance.title.clone(),
        side => format!("{}: {side}", dance.title),
    }
}

/// All that one number does.
fn number(dance: &Dance, motion: &Motion, dancer: Dancer, one_figure: bool) -> String {
    let number = dancer.number();
    let head = sheet::number(number, dance.person(number), &standing(motion.ground(), dancer));
    let mut text = wrapped(&head, "");
    text += &format!("{}\n", "=".repeat(head.chars().count().min(WIDTH)));
    if motion.spans().is_empty() {
        text += &wrapped(sheet::empty(), "");
    }
    let called = if one_figure { Vec::new() } else { calls_said(dance, motion) };
    for (index, span) in motion.indexed_spans() {
        let Some(figure) = dance.figures.get(span.figure) else { continue };
        let mut title = format!("{}, {}", figure.name, sheet::bars(span.first_bar, span.bars));
        if let Some(call) = called.get(index.index()).and_then(Option::as_ref) {
            title += &format!(" ({})", call.words());
        }
        text += "\n";
        text += &wrapped(&title, "");
        let before = motion.spans().iter().take(index.index()).find(|before| before.repeats(span));
        match before {
            Some(before) => {
                let mut again = sheet::again(before.first_bar, before.bars);
                if let Some(foot) = span.hop(dancer).filter(|_| span.hop(dancer) != before.hop(dancer)) {
                    again += &format!(" {}", sheet::hop_instead(foot));
                }
                text += &wrapped(&again, "  ");
            }
            None => {
                for line in steps_told(motion, index, &[dancer]) {
                    text += &wrapped(&line, "  ");
                }
                let mut earlier = String::new();
                for told in tell(dance, motion, index, dancer) {
                    let bars = sheet::phrase_bars(span.bar_counts(), told.begin, told.end);
                    let said = if told.text == earlier { sheet::same() } else { &told.text };
                    text += &wrapped(&format!("{bars}: {said}"), "  ");
                    earlier = told.text;
                }
                for told in taps_told(motion, index, dancer) {
                    text += &wrapped(&told.line(), "  ");
                }
            }
        }
    }
    text
}

/// Text in lines of at most so many letters, each begun with `indent`; a word that is longer stands alone.
fn wrapped(text: &str, indent: &str) -> String {
    let mut lines = String::new();
    let mut line = String::new();
    for word in text.split_whitespace() {
        let letters = indent.chars().count() + line.chars().count() + 1 + word.chars().count();
        if !line.is_empty() && letters > WIDTH {
            lines += &format!("{indent}{line}\n");
            line.clear();
        }
        if !line.is_empty() {
            line.push(' ');
        }
        // What a file says is shown, not obeyed.
        line.extend(word.chars().filter(|letter| !letter.is_control()));
    }
    lines + &format!("{indent}{line}\n")
}
