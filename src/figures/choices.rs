use super::{FigureError, NamedFigure};
use crate::dance::{BarCounts, Extra, did_you_mean, limits::MOST_DANCERS};
use serde_json::Value;

/// Something that a side can choose about a named figure.
pub struct Choice {
    /// The key that files and the command line use.
    pub key: &'static str,
    /// What it is called where a person chooses it.
    pub label: &'static str,
    /// What it means, in a line.
    pub help: &'static str,
    /// What it may be.
    pub kind: Kind,
}

/// What a choice may be.
pub enum Kind {
    /// A number in a unit, from a least to a most.
    Number {
        /// Used where the side says nothing.
        usual: f64,
        least: f64,
        most: f64,
        /// The unit, such as `m`.
        unit: &'static str,
    },
    /// A dancer by number, or by the name of one of the people of the dance; 0, which is usual, for nobody alone.
    Dancer {
        /// What 0 means, such as `each in turn`.
        nobody: &'static str,
        /// What the figure of one is called, to go before the name or the number, such as `Solo of`.
        title: &'static str,
    },
    /// One of a few words; the first is used where the side says nothing.
    Word(&'static [&'static str]),
}

/// Choices that are the number of a pair.
const NUMBERS: [&str; 1] = ["pair"];

impl Choice {
    /// Whether it is a whole number.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        NUMBERS.contains(&self.key)
    }
}

/// A side's choices for a figure, checked, with the usual ones filled in.
pub struct Choices {
    /// The keys that the side has chosen for itself.
    given: Vec<&'static str>,
    numbers: Vec<(&'static str, f64)>,
    words: Vec<(&'static str, &'static str)>,
}

impl Choices {
    /// Checks choices against what a figure has.
    ///
    /// # Errors
    /// When a key is not the figure's or a value is not one it can have.
    pub fn of(figure: &'static NamedFigure, with: &Extra) -> Result<Self, FigureError> {
        let all = || figure.choices.iter();
        if let Some(key) = with.keys().find(|key| all().all(|choice| choice.key != **key)) {
            let known: Vec<_> = all().map(|choice| choice.key).collect();
            return Err(FigureError::NoChoice {
                figure: figure.name,
                key: key.clone(),
                known: if known.is_empty() { "none".to_owned() } else { known.join(", ") },
            });
        }
        let given = all().map(|choice| choice.key).filter(|key| with.contains_key(*key)).collect();
        let mut choices = Self { given, numbers: Vec::new(), words: Vec::new() };
        for choice in all() {
            let given = with.get(choice.key);
            let wrong = |value: &Value, wanted: String| FigureError::Value {
                figure: figure.name,
                key: choice.key,
                value: value.to_string(),
                wanted,
            };
            match choice.kind {
                Kind::Number { usual, least, most, unit } => {
                    let value = match given {
                        None => usual,
                        Some(value) => {
                            value.as_f64().filter(|number| (least..=most).contains(number)).ok_or_else(
                                || wrong(value, format!("{least} to {most} {unit}").trim_end().to_owned()),
                            )?
                        }
                    };
                    choices.numbers.push((choice.key, value));
                }
                Kind::Dancer { .. } => {
                    // Names are told by their numbers before: see `by_numbers`.
                    let wanted =
                        || format!("0 to {MOST_DANCERS}, or the name of one of the people of the dance");
                    let number = |value: &Value| {
                        let number =
                            value.as_f64().filter(|number| (0.0..=f64::from(MOST_DANCERS)).contains(number));
                        number.ok_or_else(|| wrong(value, wanted()))
                    };
                    choices.numbers.push((choice.key, given.map_or(Ok(0.0), number)?));
                }
                Kind::Word(words) => {
                    let value = match given {
                        None => words.first().copied().unwrap_or_default(),
                        Some(value) => value
                            .as_str()
                            .and_then(|text| words.iter().find(|word| **word == text))
                            .copied()
                            .ok_or_else(|| {
                                let meant =
                                    did_you_mean(value.as_str().unwrap_or_default(), words.iter().copied());
                                wrong(value, format!("one of {}{meant}", words.join(", ")))
                            })?,
                    };
                    choices.words.push((choice.key, value));
                }
            }
        }
        Ok(choices)
    }

    /// Whether the side has chosen this for itself, and not left it as it usually is.
    #[must_use]
    pub fn is_given(&self, key: &str) -> bool {
        self.given.contains(&key)
    }

    /// A number of bars, in counts: a named figure is made for bars of the usual counts.
    #[must_use]
    pub fn counts_of_bars(&self, key: &str) -> f64 {
        self.number(key) * f64::from(BarCounts::default().in_bar(0))
    }

    /// The number chosen for a key; 0 if the figure has no such number.
    #[must_use]
    pub fn number(&self, key: &str) -> f64 {
        self.numbers.iter().find(|(known, _)| *known == key).map_or(0.0, |(_, value)| *value)
    }

    /// The word chosen for a key; empty if the figure has no such word.
    #[must_use]
    pub fn word(&self, key: &str) -> &'static str {
        self.words.iter().find(|(known, _)| *known == key).map_or("", |(_, value)| value)
    }
}
