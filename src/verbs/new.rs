//! `bellpad new`: a dance of named figures.

use super::{Outcome, Said, VerbError, print_to_stderr};
use crate::dance::{
    Dance, Entry, Extra, LeadRule, Set, check_rules, did_you_mean, quoted, shown_name, shown_text,
};
use crate::edits::put_figure;
use crate::figures::{motion_of, named_figure};
use crate::store;
use clap::Args;
use serde_json::Value;
use std::path::PathBuf;

/// Write a new dance.
#[derive(Debug, Args)]
pub struct New {
    /// The file to write
    pub out: PathBuf,
    /// The title
    #[arg(long, default_value = "New dance")]
    pub title: String,
    /// How many dancers
    #[arg(long, default_value_t = 6, allow_negative_numbers = true)]
    pub dancers: u32,
    /// Metres between the files
    #[arg(long, default_value_t = Set::DEFAULT_ACROSS, allow_negative_numbers = true)]
    pub across: f64,
    /// Metres from rank to rank
    #[arg(long, default_value_t = Set::DEFAULT_ALONG, allow_negative_numbers = true)]
    pub along: f64,
    /// A figure by name, with choices: NAME[:key=value,...]; give it once for each figure
    #[arg(long = "figure", value_name = "NAME[:key=value,...]")]
    pub figures: Vec<String>,
}

pub(super) fn make_new(new: &New) -> Said<Outcome> {
    let mut dance = Dance::new(&new.title, Set::longways(new.dancers, new.across, new.along));
    // The set is checked before any figure is worked out for it.
    check_rules(&dance)?;
    for figure in &new.figures {
        let (name, choices) = figure.split_once(':').unwrap_or((figure, ""));
        let asked = &shown_name(figure);
        let wrong = |wrong: String| VerbError::Choice { asked: asked.clone(), wrong };
        let mut with = read_choices(choices).map_err(wrong)?;
        // The stepping belongs to the figure, not to what it is named for; commas part choices, so its steps are
        // joined by +.
        let phrase = match with.shift_remove("phrase") {
            None => String::new(),
            Some(Value::String(phrase)) => phrase.replace('+', ", "),
            Some(other) => {
                let phrase = shown_text(&other.to_string());
                return Err(wrong(format!("phrase is {phrase}; write steps, such as 2 ds+2 ss+ftj")));
            }
        };
        let lead = match with.shift_remove("lead") {
            None => None,
            Some(word) => {
                Some(LeadRule::ALL.into_iter().find(|rule| word.as_str() == Some(rule.key())).ok_or_else(
                    || {
                        let known = LeadRule::ALL.map(LeadRule::key);
                        let meant = did_you_mean(word.as_str().unwrap_or_default(), known);
                        let (word, known) = (shown_text(&word.to_string()), known.join(", "));
                        wrong(format!("lead is {word}{meant}; expected one of {known}"))
                    },
                )?)
            }
        };
        let mut figure = named_figure(name, with, &dance.set)
            .map_err(|source| VerbError::Figure { asked: asked.clone(), source })?;
        (figure.phrase, figure.lead) = (phrase, lead);
        let id = put_figure(&mut dance, figure);
        dance.order.push(Entry::of(&id));
    }
    check_rules(&dance)?;
    motion_of(&dance, None)?;
    let old = store::keep_old(&new.out)?;
    store::save(&new.out, &dance)?;
    if let Some(old) = old {
        print_to_stderr(&format!("the file that was there is kept as {}", old.display()));
    }
    Ok(Outcome::Fine)
}

/// Reads the choices of a figure, or says which of them cannot be read.
fn read_choices(choices: &str) -> Result<Extra, String> {
    let mut with = Extra::new();
    for choice in choices.split(',').map(str::trim).filter(|choice| !choice.is_empty()) {
        let (key, value) = choice
            .split_once('=')
            .ok_or_else(|| format!("{} is not a choice; write key=value", quoted(choice)))?;
        let value = value.trim();
        let value = value
            .parse::<f64>()
            .ok()
            .filter(|number| number.is_finite())
            .map_or_else(|| Value::from(value), Value::from);
        if with.insert(key.trim().to_owned(), value).is_some() {
            return Err(format!("{} is given twice", quoted(key.trim())));
        }
    }
    Ok(with)
}
