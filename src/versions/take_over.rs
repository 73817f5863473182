use super::compare::unlikeness;
use super::compare::{Comparison, PartDifference};
use crate::dance::{Dance, DanceError, Figure, Lead, Part, PlaceNumber, check_rules, shown_name};
use crate::edits::{part_as_it_is, restore_named, with_part};
use crate::figures::{by_numbers, motion_of};
use crate::motion::{Motion, Span, known_steps};
use thiserror::Error;

/// Why something cannot be taken from another version.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum TakeError {
    /// The figure has another length there.
    #[error(
        "{} takes {here} bars here and {there} there; take the figure, or make them as long",
        shown_name(name)
    )]
    Bars { name: String, here: u32, there: u32 },
    /// It is no longer there.
    #[error("that is no longer there to take")]
    Gone,
    /// The dance would not be one with it.
    #[error("that cannot be danced here: {}", .0.message)]
    Cannot(DanceError),
}

/// The dance with a place of a figure danced as it is there.
///
/// Where the named figure beneath already gives it, the place is as it is named again. Otherwise it is drawn: with the
/// leads of the named figure if those fall on the same feet here, and with leads and stepping of its own if not.
///
/// # Errors
/// When the figure has another length there, or the dance would not be one with it.
pub fn with_part_of(
    dance: &Dance,
    here: &Motion,
    other: &Dance,
    comparison: &Comparison,
    difference: &PartDifference,
) -> Result<Dance, TakeError> {
    let (figure, place) = (difference.figure, difference.place);
    let mine = dance.figures.get(figure).ok_or(TakeError::Gone)?;
    let theirs = other.figures.get(difference.other_figure).ok_or(TakeError::Gone)?;
    if mine.bars != theirs.bars {
        let (name, here, there) = (mine.name.clone(), mine.bars, theirs.bars);
        return Err(TakeError::Bars { name, here, there });
    }
    let beside = comparison.there().span(difference.other_span).ok_or(TakeError::Gone)?;
    let parts = parts_to_try(beside, place);
    let base = with_steps(dance, other, parts.iter().map(|part| part.phrase.as_str()));
    let named = |figure: &Figure| figure.named.as_ref().map(|named| named.figure.clone());
    let mut tries = Vec::new();
    if theirs.part(place).is_none() && named(mine) == named(theirs) {
        tries.push(restore_named(&base, figure, place));
    }
    tries.extend(parts.into_iter().map(|part| with_part(&base, figure, part)));
    let mut best: Option<(f64, Dance)> = None;
    let mut wrong = None;
    for made in tries {
        match check_rules(&made).and_then(|()| motion_of(&made, Some(here))) {
            Ok(motion) => {
                let span = motion.span(difference.span).ok_or(TakeError::Gone)?;
                let unlike = unlikeness(place, span, beside);
                // What is drawn has to be better than what is named, and not only as good.
                if best.as_ref().is_none_or(|(least, _)| unlike < *least - 1e-6) {
                    best = Some((unlike, made));
                }
            }
            Err(error) => wrong = Some(TakeError::Cannot(error)),
        }
    }
    best.map(|(_, dance)| dance).ok_or_else(|| wrong.unwrap_or(TakeError::Gone))
}

/// The part of a place as it is there, with less and less of it left to the figure that it is put into.
fn parts_to_try(beside: &Span, place: PlaceNumber) -> Vec<Part> {
    let Some(dancer) = beside.dancer_in(place) else { return Vec::new() };
    let Some(part) = part_as_it_is(beside, dancer) else { return Vec::new() };
    let mut own_phrase = part.clone();
    if own_phrase.phrase.is_empty() {
        own_phrase.phrase.clone_from(&beside.plan().phrase);
    }
    let leads: Vec<Lead> = beside
        .track(dancer)
        .map(|track| track.footing().leads())
        .unwrap_or_default()
        .iter()
        .map(|made| Lead { at: made.at as f64, foot: made.foot, extra: crate::dance::Extra::new() })
        .collect();
    let with_leads = |part: &Part| Part { leads: leads.clone(), ..part.clone() };
    vec![part.clone(), own_phrase.clone(), with_leads(&part), with_leads(&own_phrase)]
}

/// The dance with a figure as it is there, all of it. It keeps its id, so that the running order still finds it, and its
/// notes where there are none there.
///
/// # Errors
/// When the dance would not be one with it.
pub fn with_figure_of(
    dance: &Dance,
    figure: usize,
    other: &Dance,
    other_figure: usize,
) -> Result<Dance, TakeError> {
    let theirs = other.figures.get(other_figure).ok_or(TakeError::Gone)?;
    let parts = theirs.parts.iter().map(|part| part.phrase.as_str());
    let mut made = with_steps(dance, other, parts.chain([theirs.phrase.as_str()]));
    let mine = made.figures.get_mut(figure).ok_or(TakeError::Gone)?;
    let mut taken = Figure { id: mine.id.clone(), ..theirs.clone() };
    if taken.notes.is_empty() {
        taken.notes.clone_from(&mine.notes);
    }
    // Somebody who is called by a name that nobody has here is told by their number.
    if let Some(named) = &taken.named
        && by_numbers(named, &dance.people).is_err()
        && let Ok(told) = by_numbers(named, &other.people)
    {
        taken.named = Some(told.into_owned());
    }
    *mine = taken;
    check_rules(&made).and_then(|()| motion_of(&made, None)).map_err(TakeError::Cannot)?;
    Ok(made)
}

/// The dance with the taps and claps of a figure as they are there.
///
/// # Errors
/// When the figure has another length there, or the dance would not be one with them.
pub fn with_strikes_of(
    dance: &Dance,
    figure: usize,
    other: &Dance,
    other_figure: usize,
) -> Result<Dance, TakeError> {
    let theirs = other.figures.get(other_figure).ok_or(TakeError::Gone)?;
    let mut made = dance.clone();
    let mine = made.figures.get_mut(figure).ok_or(TakeError::Gone)?;
    if mine.bars != theirs.bars {
        let (name, here, there) = (mine.name.clone(), mine.bars, theirs.bars);
        return Err(TakeError::Bars { name, here, there });
    }
    mine.strikes.clone_from(&theirs.strikes);
    check_rules(&made).map_err(TakeError::Cannot)?;
    Ok(made)
}

/// The dance with the steps of the other's own that some phrases name and that are not known here.
fn with_steps<'a>(dance: &Dance, other: &Dance, phrases: impl Iterator<Item = &'a str>) -> Dance {
    let mut made = dance.clone();
    let words: Vec<String> = phrases
        .flat_map(|phrase| phrase.split(|letter: char| letter.is_whitespace() || letter == ','))
        .map(str::to_lowercase)
        .collect();
    for step in &other.steps {
        let short = step.short.to_lowercase();
        let known = known_steps(&made.steps).iter().any(|known| known.short.to_lowercase() == short);
        if words.contains(&short) && !known {
            made.steps.push(step.clone());
        }
    }
    made
}
