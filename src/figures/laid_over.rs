//! A figure's own stepping laid over a named figure in which some wait: whoever dances steps it, and whoever waits stands.

use crate::dance::Foot;
use crate::motion::steps::Step;
use crate::motion::{Phrase, PhraseError, fill_phrase};
use std::ops::Range;

/// What a dancer steps who steps `own` in the named figure, where the figure is to be stepped as `over` says, a phrase that fills
/// its counts: where they stand and wait, with the jump before their turn, they still do. Empty where they never wait, so that
/// they dance what the figure has.
///
/// The phrase begins anew with each turn that it fills; a longer one is danced from where it has got to by then.
///
/// # Errors
/// When the phrase neither fills a turn nor can be cut there between two steps.
pub(super) fn laid_over(own: &str, over: &str, known: &[Step], counts: usize) -> Result<String, PhraseError> {
    let Ok(phrase) = fill_phrase(own, known, counts) else { return Ok(String::new()) };
    let waits = |step: &(usize, usize)| known.get(step.1).is_some_and(Step::is_wait);
    if !phrase.steps.iter().any(waits) {
        return Ok(String::new());
    }
    let mut words = Vec::new();
    for run in phrase.steps.chunk_by(|one, next| waits(one) == waits(next)) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else { continue };
        let end = last.0 + known.get(last.1).map_or(0, Step::counts);
        if waits(first) {
            words.extend(spelt(&phrase, known, first.0..end));
            continue;
        }
        match fill_phrase(over, known, end - first.0) {
            Ok(turn) => words.extend(spelt(&turn, known, 0..end - first.0)),
            Err(wrong) => {
                let whole = fill_phrase(over, known, counts)?;
                let begins = |count: usize| count == counts || whole.steps.iter().any(|(at, _)| *at == count);
                if !begins(first.0) || !begins(end) {
                    return Err(wrong);
                }
                words.extend(spelt(&whole, known, first.0..end));
            }
        }
    }
    Ok(words.join(", "))
}

/// The words of the steps that begin between two counts, with the feet that are named before them.
fn spelt(phrase: &Phrase, known: &[Step], counts: Range<usize>) -> Vec<String> {
    let mut words = Vec::new();
    for (at, step) in phrase.steps.iter().filter(|(at, _)| counts.contains(at)) {
        let named = phrase.leads.iter().filter(|(count, _)| count == at);
        words.extend(named.map(|(_, foot)| foot_word(*foot).to_owned()));
        words.extend(known.get(*step).map(|step| step.short.clone()));
    }
    words
}

/// The word by which a phrase names a foot.
fn foot_word(foot: Foot) -> &'static str {
    match foot {
        Foot::Left => "left",
        Foot::Right => "right",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::motion::known_steps;

    fn laid(own: &str, over: &str, bars: usize) -> Result<String, PhraseError> {
        laid_over(own, over, &known_steps(&[]), bars * 4)
    }

    #[test]
    fn whoever_waits_stands_whatever_is_danced() {
        assert_eq!(laid("2 st, ds, ss, ss", "sh, left, sh", 4).unwrap(), "st, st, sh, left, sh");
        assert_eq!(laid("st, sj, 2 ds", "ds", 4).unwrap(), "st, sj, ds, ds", "and jumps before their turn");
        assert_eq!(laid("4 ds", "sh", 4).unwrap(), "", "nobody waits");
        // Longer than a turn: as far as it has got.
        assert_eq!(laid("2 st, 2 ds", "4 ss, 2 sh", 4).unwrap(), "st, st, sh, sh");
        assert_eq!(laid("2 ds, 2 st", "4 ss, 2 sh", 4).unwrap(), "ss, ss, ss, ss, st, st");
    }

    #[test]
    fn what_cannot_be_cut_is_told() {
        let long = crate::dance::OwnStep {
            short: "long".to_owned(),
            feet: vec![crate::dance::Landing::Lead; 5],
            ..own()
        };
        let known = known_steps(&[long]);
        let said = laid_over("2 st, 2 ds", "long, 3 rs, ds, ds", &known, 16);
        assert!(said.is_ok(), "{said:?}");
        let said = laid_over("st, ds, 2 st", "long, 3 rs, ds, ds", &known, 16).unwrap_err().to_string();
        assert!(said.contains("do not fill 4"), "{said}");
    }

    fn own() -> crate::dance::OwnStep {
        serde_json::from_value(serde_json::json!({"short": "long", "name": "long step", "feet": ["lead"]}))
            .unwrap()
    }
}
