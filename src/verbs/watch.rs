//! `bellpad watch`: where each figure goes wrong first.

use super::{Outcome, Said, VerbError, opening::open_motion, printing::print};
use crate::dance::{Dance, Dancer, Number, rounded, shown_name};
use crate::faults::{Faults, MOST_WATCHED, SPACE_CAUTION, ToWatch, Watched, watch_dance};
use crate::motion::{Moment, Motion, SpanIndex};
use clap::Args;
use serde_json::{Value, json};
use std::collections::HashSet;
use std::path::PathBuf;

/// Tell what to watch for.
#[derive(Debug, Args)]
pub struct WatchFor {
    /// The dance file
    pub file: PathBuf,
    /// Only this figure, by id or name
    #[arg(long)]
    pub figure: Option<String>,
    /// What this number alone has to watch
    #[arg(long, value_name = "N")]
    pub dancer: Option<u32>,
    /// Print a JSON list
    #[arg(long)]
    pub json: bool,
}

/// Tells it.
pub(super) fn run(asked: &WatchFor) -> Said<Outcome> {
    let (dance, motion, _) = open_motion(&asked.file, asked.figure.as_deref())?;
    let dancers = motion.dancers();
    let dancer = match asked.dancer {
        None => None,
        Some(number) if Number(number).is_in(dancers as u32) => Some(Number(number).dancer()),
        Some(number) => {
            return Err(VerbError::NoDancer { path: asked.file.clone(), number, last: dancers });
        }
    };
    if dancers > MOST_WATCHED {
        return Err(VerbError::TooMany { path: asked.file.clone(), dancers, most: MOST_WATCHED });
    }
    let lists = watch_dance(&dance, &motion, &mut || true).unwrap_or_default();
    let faults = Faults::of(&dance, &motion);
    let (mut text, mut values) = (String::new(), Vec::new());
    let mut told: HashSet<u64> = HashSet::new();
    for ((index, span), list) in motion.indexed_spans().zip(&lists) {
        // A figure that is danced again goes wrong alike.
        if !told.insert(span.identity()) {
            continue;
        }
        let name = dance.figures.get(span.figure).map_or("", |figure| figure.name.as_str());
        text += &format!("{}{}\n", if text.is_empty() { "" } else { "\n" }, shown_name(name));
        let watched = match dancer {
            Some(dancer) => list.own_list(dancer),
            None => list.for_side(),
        };
        for one in &watched {
            text += &format!("  {}\n", one.text);
            values.push(value(&dance, &motion, index, one));
        }
        let (many, _) = faults.in_span(index);
        if many > 0 {
            let faults = if many == 1 { "1 fault".to_owned() } else { format!("{many} faults") };
            text += &format!("  {faults} to mend first: bellpad check\n");
        } else if watched.is_empty() {
            text += "  Nothing that takes little: keep to the figure\n";
        }
        if let Some(dancer) = dancer {
            text += &eyes(&motion, index, list, dancer);
        }
    }
    if asked.json {
        print(&(serde_json::to_string_pretty(&values).unwrap_or_default() + "\n"))?;
    } else {
        print(&format!("{text}\n{SPACE_CAUTION}\n"))?;
    }
    Ok(Outcome::Fine)
}

/// Whom a dancer should have an eye on, a line a phrase.
fn eyes(motion: &Motion, index: SpanIndex, list: &ToWatch, dancer: Dancer) -> String {
    let Some(span) = motion.span(index) else { return String::new() };
    let own = list.eyes.iter().filter(|eyes| eyes.dancer == dancer);
    let lines: Vec<String> = own
        .map(|eyes| {
            let [first, last] =
                [eyes.phrase.0, eyes.phrase.1 - 1.0].map(|count| Moment::at(span.bar_counts(), count).bar);
            let bars = if first == last { format!("bar {first}") } else { format!("bars {first} to {last}") };
            format!("  {bars}: {}\n", eyes.words())
        })
        .collect();
    let room = [list.band_words(dancer), list.aside_words(dancer, span.bar_counts())];
    let room = room.into_iter().flatten().map(|words| format!("  {words}\n"));
    lines.into_iter().chain(room).collect()
}

fn value(dance: &Dance, motion: &Motion, index: SpanIndex, watched: &Watched) -> Value {
    let span = motion.span(index);
    let moment = span.map(|span| Moment::at(span.bar_counts(), watched.at));
    let figure = span.and_then(|span| dance.figures.get(span.figure)).map(|figure| figure.name.as_str());
    json!({
        "figure": figure,
        "bar": moment.map(|moment| moment.bar),
        "count": moment.map(|moment| rounded(moment.count, 1e3)),
        "dancers": watched.dancers.iter().map(|dancer| dancer.number()).collect::<Vec<_>>(),
        "kind": watched.kind.name(),
        "slack": rounded(watched.slack, 1e3),
        "unit": watched.unit(),
        "text": watched.text,
    })
}
