//! `bellpad crib`: what each number does, in words, in a line, in clauses or fully.

use super::{Outcome, Said, VerbError, opening::open_motion, printing::print};
use crate::dance::{Dance, Dancer, Holding, Number};
use crate::faults::{MOST_WATCHED, ToWatch, watch_dance};
use crate::motion::{Motion, Span, SpanIndex};
use crate::words::{
    CallSaid, FigureTold, Image, STICK_CAUTION, all_steps_told, calls_said, clauses, figure_told, gist,
    phrases::{gist::heading as who, once::who_words, sheet},
    side_clauses, side_told, standing, steps_of, taps_told, told_bars,
};
use clap::Args;
use std::path::PathBuf;
use std::sync::Arc;

/// Write out what each number does.
#[derive(Debug, Args)]
pub struct Crib {
    /// The dance file
    pub file: PathBuf,
    /// Only this number, with nothing folded
    #[arg(long, value_name = "N")]
    pub dancer: Option<u32>,
    /// Only this figure, by id or name; bars are then its own
    #[arg(long)]
    pub figure: Option<String>,
    /// A line for each figure
    #[arg(long, conflicts_with = "bars")]
    pub gist: bool,
    /// A clause for each bar
    #[arg(long)]
    pub bars: bool,
    /// Leave people's names out
    #[arg(long)]
    pub no_names: bool,
    /// With --dancer, leave out what that number has to watch for in each figure
    #[arg(long)]
    pub no_watch: bool,
}

/// Letters in a line.
const WIDTH: usize = 80;

/// How much is told.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Level {
    Gist,
    Bars,
    Full,
}

/// What is written out.
struct Page<'a> {
    dance: &'a Dance,
    motion: &'a Motion,
    level: Level,
    /// Of whom; nobody means everybody, folded.
    dancer: Option<Dancer>,
    called: Vec<Option<CallSaid>>,
    /// What there is to watch for, line by line of the running order; nothing where it is not wanted.
    watch: Vec<Arc<ToWatch>>,
}

/// Writes the words.
pub(super) fn run(asked: &Crib) -> Said<Outcome> {
    let (dance, motion, figure) = open_motion(&asked.file, asked.figure.as_deref())?;
    let dancers = motion.dancers();
    let dancer = match asked.dancer {
        None => None,
        Some(number) if Number(number).is_in(dancers as u32) => Some(Number(number).dancer()),
        Some(number) => {
            return Err(VerbError::NoDancer { path: asked.file.clone(), number, last: dancers });
        }
    };
    let level = match (asked.gist, asked.bars) {
        (true, _) => Level::Gist,
        (_, true) => Level::Bars,
        _ => Level::Full,
    };
    let called = if figure.is_some() { Vec::new() } else { calls_said(&dance, &motion) };
    let wanted = dancer.is_some() && level != Level::Gist && !asked.no_watch && dancers <= MOST_WATCHED;
    let watch = wanted.then(|| watch_dance(&dance, &motion, &mut || true)).flatten().unwrap_or_default();
    let page = Page { dance: &dance, motion: &motion, level, dancer, called, watch };
    let mut text = wrapped(&heading(&dance), "");
    if dance.holding == Holding::Sticks && !motion.blows().is_empty() && level != Level::Gist {
        text += &wrapped(STICK_CAUTION, "");
    }
    text += "\n";
    let names = !asked.no_names;
    match dancer {
        Some(dancer) => text += &number(&dance, &motion, dancer, names, true),
        None if level != Level::Gist => {
            for dancer in Dancer::all(dancers) {
                text += &number(&dance, &motion, dancer, names, false);
            }
        }
        None => {}
    }
    text += &page.text();
    print(&text)?;
    Ok(Outcome::Fine)
}

fn heading(dance: &Dance) -> String {
    match dance.side.as_str() {
        "" => dance.title.clone(),
        side => format!("{}: {side}", dance.title),
    }
}

/// Who a number is.
fn number(dance: &Dance, motion: &Motion, dancer: Dancer, names: bool, ruled: bool) -> String {
    let number = dancer.number();
    let name = dance.person(number).filter(|_| names);
    let head =
        sheet::number(number, name, &if ruled { standing(motion.ground(), dancer) } else { String::new() });
    let mut text = wrapped(&head, "");
    if ruled {
        text += &format!("{}\n", "=".repeat(head.chars().count().min(WIDTH)));
    }
    text
}

impl Page<'_> {
    fn text(&self) -> String {
        let mut text = String::new();
        if self.motion.spans().is_empty() {
            return wrapped(sheet::empty(), "");
        }
        if self.level == Level::Full {
            let steps = match self.dancer {
                Some(dancer) => steps_of(self.motion, dancer),
                None => all_steps_told(self.motion),
            };
            if !steps.is_empty() {
                text += &format!("\n{}\n", sheet::steps());
            }
            for line in steps {
                text += &wrapped(&line, "  ");
            }
            let hops =
                |span: &Span| Dancer::all(self.motion.dancers()).any(|dancer| span.hop(dancer).is_some());
            if self.dancer.is_none() && self.motion.spans().iter().any(hops) {
                text += &wrapped(sheet::upbeats(), "  ");
            }
        }
        let mut figures = String::new();
        let mut earlier = Vec::new();
        for (index, span) in self.motion.indexed_spans() {
            figures += &self.figure(index, span, &mut earlier);
        }
        if self.dancer.is_none() && self.level != Level::Gist {
            // Lines may end within what is looked for.
            let said = figures.split_whitespace().collect::<Vec<_>>().join(" ");
            let (mirror, about) = (said.contains("mirror"), said.contains("turned half about"));
            let key = sheet::images(mirror, about);
            if !key.is_empty() {
                text += "\n";
                text += &wrapped(&key, "");
            }
        }
        text + &figures
    }

    fn figure(&self, index: SpanIndex, span: &Span, earlier: &mut Vec<String>) -> String {
        let (dance, motion) = (self.dance, self.motion);
        let Some(figure) = dance.figures.get(span.figure) else { return String::new() };
        let mut title = format!("{}, {}", figure.name, sheet::bars(span.first_bar, span.bars));
        let mut text = String::from("\n");
        let before = motion.spans().iter().take(index.index()).find(|before| before.repeats(span));
        if self.level == Level::Gist {
            title += ": ";
            title += &match before {
                Some(_) => sheet::as_before().to_owned(),
                None => gist(dance, motion, index, self.dancer),
            };
            return wrapped(&title, "");
        }
        if let Some(call) = self.called.get(index.index()).and_then(Option::as_ref) {
            title += &format!(" ({})", call.words());
        }
        text += &wrapped(&title, "");
        if let Some(before) = before {
            let again = sheet::again(before.first_bar, before.bars);
            // Hops on the upbeat are a rule where everybody is told, and clauses say nothing of them.
            let told = self.dancer.is_some() && self.level == Level::Full;
            let hops = if told { self.hops_here(span, before) } else { String::new() };
            return text + &wrapped(&format!("{again}{hops}"), "  ");
        }
        match (self.level, self.dancer) {
            (Level::Bars, Some(dancer)) => text += &in_bars(&clauses(dance, motion, index, dancer), "  "),
            (Level::Bars, None) => {
                for group in side_clauses(dance, motion, index) {
                    text += &wrapped(&format!("{}:", who(&group, motion.dancers())), "  ");
                    text += &in_bars(&group.told, "    ");
                }
            }
            (_, Some(dancer)) => {
                text += &fully(span, &figure_told(dance, motion, index, dancer), "  ");
                for told in taps_told(motion, index, dancer) {
                    text += &wrapped(&told.line(), "  ");
                }
            }
            (_, None) => text += &self.everybody(index, span, earlier),
        }
        let watch = self.dancer.and_then(|dancer| self.watch.get(index.index())?.line_for(dancer));
        text + &watch.map_or_else(String::new, |line| wrapped(&sheet::watch(line), "  "))
    }

    /// Everybody's part in full, those together who do the same.
    fn everybody(&self, index: SpanIndex, span: &Span, earlier: &mut Vec<String>) -> String {
        let dancers = self.motion.dancers();
        let (common, groups) = side_told(self.dance, self.motion, index);
        let mut text = String::new();
        // The steps and hands of the figure told before are not told again.
        let ends = |said: &String| said.starts_with("End ");
        let steps: Vec<String> = common.iter().filter(|said| !ends(said)).cloned().collect();
        let mut said: Vec<&str> = Vec::new();
        if !steps.is_empty() && steps == *earlier {
            said.push(sheet::once_again());
        } else {
            said.extend(steps.iter().map(String::as_str));
        }
        said.extend(common.iter().filter(|said| ends(said)).map(String::as_str));
        if !said.is_empty() {
            text += &wrapped(&said.join(" "), "  ");
        }
        *earlier = steps;
        for group in groups {
            let all = group.those(Image::Same).len() == dancers;
            if !all {
                text += &wrapped(&format!("{}:", who(&group, dancers)), "  ");
            }
            text += &fully(span, &group.told, if all { "  " } else { "    " });
        }
        let mut taps: Vec<(Vec<String>, Vec<Dancer>)> = Vec::new();
        for dancer in Dancer::all(dancers) {
            let lines: Vec<String> =
                taps_told(self.motion, index, dancer).iter().map(crate::words::TapsTold::line).collect();
            match taps.iter_mut().find(|(known, _)| *known == lines) {
                Some((_, who)) => who.push(dancer),
                None => taps.push((lines, vec![dancer])),
            }
        }
        for (lines, who) in taps.iter().filter(|(lines, _)| !lines.is_empty()) {
            text += &wrapped(&sheet::taps_of(&who_words(who, dancers)), "  ");
            for line in lines {
                text += &wrapped(line, "    ");
            }
        }
        text
    }

    /// Who hops otherwise at the end than when a figure was danced before.
    fn hops_here(&self, span: &Span, before: &Span) -> String {
        let mut text = String::new();
        let dancers = self.motion.dancers();
        for foot in [crate::dance::Foot::Left, crate::dance::Foot::Right] {
            let other =
                |dancer: &Dancer| span.hop(*dancer) == Some(foot) && before.hop(*dancer) != Some(foot);
            let who: Vec<Dancer> = match self.dancer {
                Some(dancer) => [dancer].into_iter().filter(other).collect(),
                None => Dancer::all(dancers).filter(other).collect(),
            };
            if who.is_empty() {
                continue;
            }
            let all = self.dancer.is_some() || who.len() == dancers;
            let who = if all { String::new() } else { who_words(&who, dancers) };
            text += &format!(" {}", sheet::hop_instead(&who, foot));
        }
        text
    }
}

/// A figure in full sentences.
fn fully(span: &Span, told: &FigureTold, indent: &str) -> String {
    let mut text = String::new();
    if !told.once.is_empty() {
        text += &wrapped(&told.once.join(" "), indent);
    }
    for phrase in told.phrases.iter().filter(|phrase| !phrase.text.is_empty()) {
        let bars = told_bars(span.bar_counts(), phrase);
        text += &wrapped(&format!("{bars}: {}", phrase.text), indent);
    }
    text
}

/// Bars and their clauses, a line each.
fn in_bars(clauses: &[(u32, String)], indent: &str) -> String {
    let lines =
        clauses.iter().map(|(bar, said)| wrapped(&format!("{}: {said}", sheet::bars(*bar, 1)), indent));
    lines.collect()
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
