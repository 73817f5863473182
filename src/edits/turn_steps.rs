//! The steps that a turn can be danced on.

use super::redraw::EditError;
use crate::dance::{Dancer, Part, Turn, TurnOn};
use crate::motion::steps::Step;
use crate::motion::{Motion, Phrase, Span, fill_phrase, hops, turn_times_on};

/// Whether a turn of a dancer, by its place among theirs, can be danced on steps.
///
/// # Errors
/// When there are no such steps about it, or other turns are in the way.
pub fn can_turn_on(
    motion: &Motion,
    span: &Span,
    (dancer, index): (Dancer, usize),
    on: &TurnOn,
) -> Result<(), EditError> {
    let part = span.part(dancer).ok_or(EditError::NoFigure)?;
    times_on(motion, span, (part, dancer, index), on).map(|_| ())
}

/// The counts of a figure between which a turn of a part would be danced on steps. It stays between the turns beside it.
///
/// # Errors
/// When there are no such steps about it, or other turns are in the way.
pub(super) fn times_on(
    motion: &Motion,
    span: &Span,
    (part, dancer, index): (&Part, Dancer, usize),
    on: &TurnOn,
) -> Result<(f64, f64), EditError> {
    let turns = span.track(dancer).ok_or(EditError::NoFigure)?.turns();
    let danced = turns.get(index).ok_or(EditError::NoTurn)?;
    let plan = span.plan();
    let phrase = if part.phrase.is_empty() { &plan.phrase } else { &part.phrase };
    let phrase = fill_phrase(phrase, motion.known(), plan.counts() as usize);
    let phrase = phrase.map_err(|_| EditError::NoSteps)?;
    let before = index.checked_sub(1).and_then(|before| turns.get(before)).map_or(0.0, |turn| turn.end);
    let after = turns.get(index + 1).map_or(span.end() - span.begin(), |turn| turn.begin);
    if *on == TurnOn::Hop {
        let free = |hop: &f64| before <= hop + 1e-6 && hop + 1.0 <= after + 1e-6;
        return nearest_hop(hops(&phrase, motion.known()).filter(free), (danced.begin, danced.end))
            .map(|hop| (hop, hop + 1.0))
            .ok_or(EditError::NoHop);
    }
    let wanted =
        Turn { begin: first_step(motion, &phrase, on, danced.begin), ..danced.clone() }.on(on.clone());
    let (begin, end) = turn_times_on(&wanted, &phrase, motion.known()).ok_or(EditError::NoSteps)?;
    let meets = |other: &Turn| other.begin < end - 1e-6 && begin + 1e-6 < other.end;
    if turns.iter().enumerate().any(|(other, turn)| other != index && meets(turn)) {
        return Err(EditError::TurnsMeet);
    }
    if begin < before - 1e-6 || after + 1e-6 < end { Err(EditError::TurnBetween) } else { Ok((begin, end)) }
}

/// Of hops, the one whose middle is nearest to that of a turn; the later one of two that are as near.
fn nearest_hop(hops: impl Iterator<Item = f64>, (begin, end): (f64, f64)) -> Option<f64> {
    let away = |hop: f64| (hop + 0.5 - f64::midpoint(begin, end)).abs();
    hops.fold(None, |best: Option<f64>, hop| match best {
        Some(best) if away(best) < away(hop) - 1e-9 => Some(best),
        _ => Some(hop),
    })
}

/// Where to look for steps from, so that those under way at a count are found: their first one's beginning.
fn first_step(motion: &Motion, phrase: &Phrase, on: &TurnOn, begin: f64) -> f64 {
    let is_single = |step: usize| motion.known().get(step).is_some_and(Step::is_single_step);
    let Some(under_way) = phrase.steps.iter().rposition(|(at, _)| *at as f64 <= begin + 1e-6) else {
        return begin;
    };
    let steps = phrase.steps.get(..=under_way).unwrap_or_default();
    let first = match on {
        TurnOn::SingleSteps => steps.iter().rev().take_while(|(_, step)| is_single(*step)).last(),
        TurnOn::Start => steps.last(),
        // The step under way at the count, where it is that one.
        TurnOn::Step(short) => steps
            .last()
            .filter(|(_, step)| motion.known().get(*step).is_some_and(|step| step.short == *short)),
        TurnOn::Hop => None,
    };
    first.map_or(begin, |(at, _)| *at as f64)
}
