//! Carrying what was drawn of one dancer over to another who has a drawing of their own: only the path or the turn that was
//! changed, and only where the other did the same there before.

use super::others_kept::same_turns;
use super::redraw::own_part;
use super::settled::{amounts_settled, ways_settled};
use crate::dance::{Dancer, Leg, Part, Turn};
use crate::motion::Span;
use std::ops::Range;

/// Metres within which two places are the same, and counts within which two moments are.
const NEAR: f64 = 0.02;
/// Degrees within which two turns go as far.
const AS_FAR: f64 = 0.6;

/// What was drawn of a dancer in a span.
pub(super) struct Drawn<'a> {
    pub dancer: Dancer,
    /// Who is to follow.
    pub mate: Dancer,
    /// What the dancer did before.
    pub old: &'a Part,
    /// What they do now.
    pub new: &'a Part,
    /// Whether left and right change about between the two.
    pub swaps: bool,
}

/// Whether the mate did all that the dancer did before it was drawn, as the image of it.
pub(super) fn does_the_same(span: &Span, drawn: &Drawn, image: impl Fn(&Part) -> Option<Part>) -> bool {
    let (Some(mut old), Some(own)) =
        (image(&ways_settled(drawn.old.clone(), span)), own_part(span, drawn.mate))
    else {
        return false;
    };
    if !span.plan().is_drawn(span.place(drawn.mate)) {
        // Whoever dances as the figure is named has no feet of their own.
        (old.leads, old.lead, old.phrase) = (own.leads.clone(), own.lead, own.phrase.clone());
    }
    let turns = own.turns.len() == old.turns.len()
        && (0..own.turns.len()).all(|index| turns_alike(span, drawn, (index, index)));
    let legs = own.legs.len() == old.legs.len()
        && own.legs.iter().zip(&old.legs).all(|(own, old)| legs_alike(own, old));
    turns && legs && feet(&own) == feet(&old)
}

/// What a part says of the feet.
fn feet(part: &Part) -> (&[crate::dance::Lead], Option<crate::dance::LeadRule>, &str) {
    (&part.leads, part.lead, &part.phrase)
}

/// The part of the mate with what was drawn; nothing where they do otherwise there.
pub(super) fn carried(span: &Span, drawn: &Drawn, image: impl Fn(&Part) -> Option<Part>) -> Option<Part> {
    let mut part = own_part(span, drawn.mate)?;
    let old = image(&ways_settled(drawn.old.clone(), span))?;
    let new = image(&amounts_settled(ways_settled(drawn.new.clone(), span), span))?;
    if feet(drawn.old) != feet(drawn.new) {
        if feet(&part) != feet(&old) {
            return None;
        }
        (part.leads, part.lead, part.phrase) = (new.leads.clone(), new.lead, new.phrase.clone());
    }
    let (was, is) = changed_legs(&drawn.old.legs, &drawn.new.legs);
    let (was, is) = (old.legs.get(was)?, new.legs.get(is)?);
    put(&mut part.legs, |legs| run_of(legs, was, legs_alike), (was.len(), is), |leg| (leg.begin, leg.end))?;
    let (was, is) = changed_turns(span, drawn)?;
    let danced = span.track(drawn.mate)?.turns();
    for (turn, danced) in part.turns.iter().zip(danced).filter(|_| !is.is_empty()) {
        // Their own turns are in the way at the times at which they are danced.
        if (turn.begin, turn.end) != (danced.begin, danced.end)
            && meets_any(danced, new.turns.get(is.clone())?)
        {
            return None;
        }
    }
    let same =
        |from: usize| was.clone().enumerate().all(|(at, old)| turns_alike(span, drawn, (old, from + at)));
    let run = |turns: &[Turn]| (0..=turns.len().checked_sub(was.len())?).find(|from| same(*from));
    put(&mut part.turns, run, (was.len(), new.turns.get(is)?), |turn| (turn.begin, turn.end))?;
    Some(part)
}

fn meets_any(turn: &Turn, others: &[Turn]) -> bool {
    let same = |other: &Turn| (other.begin - turn.begin).abs() < NEAR;
    others.iter().any(|other| !same(other) && other.begin < turn.end - 1e-6 && turn.begin < other.end - 1e-6)
}

/// Puts some things in the place of so many others, which `find` finds; or of none, where there is time for them. Gives nothing
/// where they are not found, or there is no time.
fn put<T: Clone>(
    list: &mut Vec<T>,
    find: impl Fn(&[T]) -> Option<usize>,
    (gone, new): (usize, &[T]),
    times: impl Fn(&T) -> (f64, f64),
) -> Option<()> {
    if gone == 0 && new.is_empty() {
        return Some(());
    }
    let from = if gone > 0 {
        find(list)?
    } else {
        let begin = times(new.first()?).0;
        list.iter().take_while(|known| times(known).0 < begin - 1e-6).count()
    };
    list.splice(from..from + gone, new.iter().cloned());
    let apart = list.windows(2).all(|pair| match pair {
        [one, next] => times(one).1 <= times(next).0 + 1e-6,
        _ => true,
    });
    apart.then_some(())
}

/// Where some legs lie among others, one after another.
fn run_of(legs: &[Leg], wanted: &[Leg], alike: impl Fn(&Leg, &Leg) -> bool) -> Option<usize> {
    legs.windows(wanted.len()).position(|run| run.iter().zip(wanted).all(|(one, other)| alike(one, other)))
}

/// Which legs were changed: of the old ones, and what is in their place.
fn changed_legs(old: &[Leg], new: &[Leg]) -> (Range<usize>, Range<usize>) {
    let most = old.len().min(new.len());
    let first = old.iter().zip(new).take_while(|(old, new)| old == new).count();
    let last = old.iter().rev().zip(new.iter().rev()).take(most - first);
    let last = last.take_while(|(old, new)| old == new).count();
    (first..old.len() - last, first..new.len() - last)
}

/// Which turns of the dancer were changed: of the old ones, and what is in their place.
fn changed_turns(span: &Span, drawn: &Drawn) -> Option<(Range<usize>, Range<usize>)> {
    let (old, new) = (&drawn.old.turns, &drawn.new.turns);
    let same = same_turns(old, span.track(drawn.dancer)?, new);
    let first = same.iter().enumerate().take_while(|(index, pair)| **pair == (*index, *index)).count();
    let last = same.len() - first;
    Some((first..old.len() - last, first..new.len() - last))
}

/// Whether a turn of the dancer and one of the mate, by their places among theirs, are danced at the same time, one as the image
/// of the other.
fn turns_alike(span: &Span, drawn: &Drawn, (turn, of_mate): (usize, usize)) -> bool {
    let danced = |dancer: Dancer, index: usize| {
        let track = span.track(dancer)?;
        let turn = track.turns().get(index)?;
        Some((turn.begin, turn.end, *track.amounts().get(index)?))
    };
    let pair = danced(drawn.dancer, turn).zip(danced(drawn.mate, of_mate));
    pair.is_some_and(|(one, other)| {
        let through = if drawn.swaps { -one.2 } else { one.2 };
        (one.0 - other.0).abs() < NEAR && (one.1 - other.1).abs() < NEAR && (through - other.2).abs() < AS_FAR
    })
}

fn legs_alike(one: &Leg, other: &Leg) -> bool {
    let near = |one: f64, other: f64| (one - other).abs() < NEAR;
    let points = one.through.len() == other.through.len()
        && one.through.iter().zip(&other.through).all(|(one, other)| {
            near(one.x, other.x) && near(one.y, other.y) && (one.at.is_some() == other.at.is_some())
        });
    points
        && near(one.begin, other.begin)
        && near(one.end, other.end)
        && near(one.to.x, other.to.x)
        && near(one.to.y, other.to.y)
        && (one.shape, one.facing) == (other.shape, other.facing)
        && one.sweep.is_some() == other.sweep.is_some()
}
