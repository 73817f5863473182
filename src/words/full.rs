//! A figure in full sentences: what goes for all of it once, then what is danced, phrase by phrase.

use super::alike::{Alike, alike};
use super::facts::{Fact, Going, PhraseFacts, PlaceSaid};
use super::gather::facts;
use super::mirrored::Image;
use super::phrases::{self, Telling, once, sheet};
use super::tell::{Told, partner};
use crate::dance::{BarCounts, Dance, Dancer, Foot, Number};
use crate::motion::{Motion, SpanIndex};
use std::collections::BTreeSet;

/// A figure in full sentences.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct FigureTold {
    /// The steps, the hands, and how it ends: sentences for all of the figure, with what is otherwise somewhere after it.
    pub once: Vec<String>,
    /// What is danced, phrase by phrase; those that are alike together.
    pub phrases: Vec<Told>,
}

/// What a dancer does in a span (index) of a motion, in full sentences: no sentence twice.
#[must_use]
pub fn figure_told(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Dancer) -> FigureTold {
    let bars = motion.span(span).map(|span| span.bar_counts().clone()).unwrap_or_default();
    let facts = facts(dance, motion, span, dancer);
    let mut told = figure_words(&Telling { bars: &bars, partner: partner(motion, dancer) }, &facts);
    let hops: Vec<(f64, Vec<(Dancer, Foot)>)> =
        hops(&facts).map(|(end, foot)| (end, vec![(dancer, foot)])).collect();
    let at = told.once.len().min(1);
    if let Some(said) = once::hops(&bars, &hops, 1) {
        told.once.insert(at, said);
    }
    told
}

/// What everybody does in a span (index) of a motion in full sentences, those together who do the same; before it the sentences that
/// go for all of them. Of hops on the upbeat nothing is said: they follow from the foot that starts next. A half that is the one
/// before it with left for right is told as that.
#[must_use]
pub fn side_told(dance: &Dance, motion: &Motion, span: SpanIndex) -> (Vec<String>, Vec<Alike<FigureTold>>) {
    let bars = motion.span(span).map(|span| span.bar_counts().clone()).unwrap_or_default();
    let all: Vec<Vec<PhraseFacts>> =
        Dancer::all(motion.dancers()).map(|dancer| facts(dance, motion, span, dancer)).collect();
    let mut groups = alike(motion.dancers(), |dancer, image| {
        let (facts, partner) = seen_as(motion, dancer, image, all.get(dancer.index())?)?;
        let to = Telling { bars: &bars, partner };
        let mut told = figure_words(&to, &facts);
        told.phrases = folded(&to, &facts).unwrap_or(told.phrases);
        // The reason for a foot is given once.
        let reason = told.phrases.first().and_then(|first| once::reason(&first.text)).map(str::to_owned);
        for phrase in told.phrases.iter_mut().skip(1) {
            if let Some(reason) = &reason {
                phrase.text = phrase.text.replacen(reason.as_str(), "", 1);
            }
        }
        Some(told)
    });
    let mut common: Vec<String> = groups.first().map(|group| group.told.once.clone()).unwrap_or_default();
    common.retain(|said| groups.iter().all(|group| group.told.once.contains(said)));
    for group in &mut groups {
        group.told.once.retain(|said| !common.contains(said));
    }
    (common, groups)
}

/// What there is to say of a dancer as their image would be told it, and who is that one's partner.
#[must_use]
pub(super) fn seen_as(
    motion: &Motion,
    dancer: Dancer,
    image: Image,
    phrases: &[PhraseFacts],
) -> Option<(Vec<PhraseFacts>, Option<Number>)> {
    let ground = motion.ground();
    let with = match partner(motion, dancer) {
        Some(number) => Some(image.number(ground, number)?),
        None => None,
    };
    let mut seen = Vec::with_capacity(phrases.len());
    for phrase in phrases {
        let facts = phrase.facts.iter().map(|fact| image.of(ground, fact)).collect::<Option<Vec<Fact>>>()?;
        seen.push(PhraseFacts { begin: phrase.begin, end: phrase.end, facts });
    }
    Some((seen, with))
}

/// The hops on the upbeat that end phrases, and the counts at which those end.
fn hops(facts: &[PhraseFacts]) -> impl Iterator<Item = (f64, Foot)> {
    facts.iter().filter_map(|phrase| {
        phrase.facts.iter().find_map(|fact| match fact {
            Fact::Steps(_, hop) => Some((phrase.end, (*hop)?)),
            _ => None,
        })
    })
}

/// The sentences of a figure, without the hops on the upbeat.
fn figure_words(to: &Telling, facts: &[PhraseFacts]) -> FigureTold {
    let bars = |phrase: &PhraseFacts| sheet::phrase_bars(to.bars, phrase.begin, phrase.end).to_lowercase();
    let (mut steps, mut hands, mut ends) = (Vec::new(), Vec::new(), Vec::new());
    let mut said: BTreeSet<String> = BTreeSet::new();
    let mut told: Vec<Told> = Vec::new();
    for phrase in facts {
        let mut sentences: Vec<String> = Vec::new();
        for fact in &phrase.facts {
            match fact {
                Fact::Steps(runs, _) => steps.push((bars(phrase), once::steps(runs))),
                Fact::Hands(holding, runs) => hands.push((bars(phrase), once::hands(*holding, runs))),
                Fact::End(place, facing) => ends.push((bars(phrase), (*place, *facing))),
                fact => sentences.push(phrases::words(to, fact)),
            }
        }
        let text = sentences.join(" ");
        if let Some(last) = told.last_mut().filter(|last| last.text == text) {
            last.end = phrase.end;
            continue;
        }
        for sentence in &mut sentences {
            if !said.insert(sentence.clone()) {
                *sentence = format!("{} again in {}.", sentence.trim_end_matches('.'), bars(phrase));
                said.insert(sentence.clone());
            }
        }
        told.push(Told { begin: phrase.begin, end: phrase.end, text: sentences.join(" ") });
    }
    let mut sentences = Vec::new();
    sentences.extend(once::steps_line(&steps, facts.len()));
    sentences.extend(once::hands_line(&hands));
    sentences.extend(once::ends_line(to, &ends));
    FigureTold { once: sentences, phrases: told }
}

/// Two halves of which the second is the first with left for right, or also up for down, told so; nothing where it is not.
fn folded(to: &Telling, facts: &[PhraseFacts]) -> Option<Vec<Told>> {
    let [first, second] = facts else { return None };
    let sentences = |phrase: &PhraseFacts, starts: bool| -> Vec<String> {
        let last = phrase.facts.iter().rposition(|fact| matches!(fact, Fact::Go(_)));
        let told = phrase.facts.iter().enumerate().filter_map(|(index, fact)| {
            let fact = match fact {
                Fact::Steps(..) | Fact::Hands(..) | Fact::End(..) => return None,
                // Where the half ends is said of all of the figure.
                Fact::Go(going) if Some(index) == last && going.to.is_some_and(PlaceSaid::is_spot) => {
                    Fact::Go(Going { to: None, ..going.clone() })
                }
                fact => fact.clone(),
            };
            (matches!(fact, Fact::Start(_)) == starts).then(|| phrases::words(to, &fact))
        });
        told.collect()
    };
    let from = to.bars.at(second.begin).0;
    let (one, other) = (sentences(first, false).join(" "), sentences(second, false).join(" "));
    if one.split_whitespace().count() < 12 {
        return None;
    }
    let how = once::turned_into(&one, &other, from)?;
    let full = |phrase: &PhraseFacts, rest: String| {
        let mut text = sentences(phrase, true);
        text.push(rest);
        Told { begin: phrase.begin, end: phrase.end, text: text.join(" ") }
    };
    let bars = sheet::phrase_bars(to.bars, first.begin, first.end).to_lowercase();
    Some(vec![full(first, one), full(second, once::rest_as(&bars, how))])
}

/// The bars of a figure in words: `Bars 1 to 4`, of what is told in it.
#[must_use]
pub fn told_bars(bars: &BarCounts, told: &Told) -> String {
    sheet::phrase_bars(bars, told.begin, told.end)
}
