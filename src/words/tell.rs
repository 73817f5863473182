use crate::dance::Dance;
use crate::motion::Motion;

/// What a dancer does in one phrase of a figure, in plain sentences.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// The count of the figure, from 0, at which the phrase begins.
    pub begin: f64,
    /// The count at which it ends.
    pub end: f64,
    /// The sentences.
    pub text: String,
}

/// What a dancer (index from 0) does in a span (index) of a motion, phrase by phrase.
#[must_use]
pub fn tell(_dance: &Dance, motion: &Motion, span: usize, dancer: usize) -> Vec<Told> {
    let Some(span) = motion.spans().get(span) else { return Vec::new() };
    let text =
        super::now(motion, dancer, span.begin()).into_iter().map(|(name, value)| format!("{name}: {value}."));
    vec![Told { begin: 0.0, end: span.end() - span.begin(), text: text.collect::<Vec<_>>().join(" ") }]
}
