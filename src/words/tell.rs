use super::{gather::facts, phrases, phrases::Telling};
use crate::dance::{Dance, Dancer, Number};
use crate::motion::{Motion, SpanIndex};

/// What a dancer does in one phrase of a figure, in plain sentences.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The count of the figure, from 0, at which the phrase begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    /// Sentences with a space between.
    pub text: String,
}

/// What a dancer (index from 0) does in a span (index) of a motion, phrase by phrase.
#[must_use]
pub fn tell(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Dancer) -> Vec<Told> {
    let bars = motion.span(span).map(|span| span.bar_counts().clone()).unwrap_or_default();
    let to = Telling { bars: &bars, partner: partner(motion, dancer) };
    facts(dance, motion, span, dancer)
        .into_iter()
        .map(|phrase| {
            let sentences: Vec<String> = phrase.facts.iter().map(|fact| phrases::words(&to, fact)).collect();
            Told { begin: phrase.begin, end: phrase.end, text: sentences.join(" ") }
        })
        .collect()
}

/// Whom a dancer has as partner in a set of two files.
#[must_use]
pub fn partner(motion: &Motion, dancer: Dancer) -> Option<Number> {
    Some(motion.ground().partner(dancer.home())?.first_dancer().number())
}
