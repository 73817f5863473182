//! What the other turns of a dancer say stays while one of theirs is changed: way and amount. Only what is faced in between may
//! be otherwise, and where they do not come home so, that is a fault that is told.

use super::redraw::own_part;
use super::settled::settle;
use super::spoken::spoken;
use crate::dance::{Dancer, Part, Turn};
use crate::motion::{Motion, Span, Track, with_amount};

/// Degrees by which an amount may be off that is written to the thousandth.
const ALIKE: f64 = 0.01;

/// The dance after some turns of a dancer in a span were changed, in which their others go the way and as far as they did. One
/// that says only which way to finish facing stays as it is written. `motion` is that of the span.
#[must_use]
pub(super) fn others_kept(mut part: Part, motion: &Motion, span: &Span, dancer: Dancer) -> Part {
    let (Some(own), Some(track)) = (own_part(span, dancer), span.track(dancer)) else { return part };
    let mut pairs = same_turns(&own.turns, track, &part.turns);
    keep_times(&mut part, motion, (span, dancer, track), &pairs);
    // One that has no direction goes as far as it says, wherever it begins.
    let keeps =
        |index: usize| own.turns.get(index).is_some_and(|turn| turn.by.is_some() && turn.face.is_some());
    pairs.retain(|(old, _)| keeps(*old));
    // Each that is given its amount has those after it begin otherwise: there are no more rounds than turns.
    for _ in 0..pairs.len() {
        let Some(danced) = span.track_with(dancer, &part, motion.known()) else { return part };
        let changed = pairs.iter().position(|(old, new)| {
            let amounts = track.amounts().get(*old).zip(danced.amounts().get(*new));
            amounts.is_some_and(|(was, is)| (was - is).abs() > ALIKE)
        });
        let Some((old, new)) = changed.map(|changed| pairs.remove(changed)) else { return part };
        let written = own.turns.get(old).zip(track.turns().get(old)).zip(track.amounts().get(old));
        let (Some(((turn, as_danced), &was)), Some(slot)) = (written, part.turns.get_mut(new)) else {
            return part;
        };
        // Danced another time from another side, it would go otherwise there.
        if is_alike_elsewhere(motion, span, (dancer, old), was) {
            let said = spoken(turn, as_danced, was);
            *slot = Turn {
                begin: slot.begin,
                end: slot.end,
                on: slot.on.clone(),
                extra: slot.extra.clone(),
                ..said
            };
        }
    }
    part
}

/// Has those turns of a part that would be danced at other times keep theirs: all turns of a dancer are danced on their steps, or none where
/// two would meet on them.
fn keep_times(
    part: &mut Part,
    motion: &Motion,
    (span, dancer, track): (&Span, Dancer, &Track),
    pairs: &[(usize, usize)],
) {
    for _ in 0..pairs.len() {
        let Some(danced) = span.track_with(dancer, part, motion.known()) else { return };
        let moved = pairs.iter().find_map(|(old, new)| {
            let (was, is) = (track.turns().get(*old)?, danced.turns().get(*new)?);
            let far = (was.begin - is.begin).abs().max((was.end - is.end).abs());
            (far > 1e-6).then_some((was, *new))
        });
        let Some((was, new)) = moved else { return };
        let Some(slot) = part.turns.get_mut(new) else { return };
        (slot.begin, slot.end, slot.on) = (was.begin, was.end, None);
    }
}

/// Whether a turn that goes so far, degrees clockwise, is danced about so the other times that its figure is danced.
fn is_alike_elsewhere(motion: &Motion, span: &Span, (dancer, index): (Dancer, usize), amount: f64) -> bool {
    let place = span.place(dancer);
    let others = motion.spans().iter().filter(|other| other.figure == span.figure);
    let amounts =
        others.filter_map(|other| other.track(other.dancer_in(place)?)?.amounts().get(index).copied());
    amounts.into_iter().all(|other| (other - amount).abs() < 180.0 && other * amount > -1e-6)
}

/// Which turns of a dancer are those that they had, by their places among them: the old and the new. `track` is as the old
/// ones are danced. What is neither at the beginning nor at the end was changed, put in or taken away.
#[must_use]
pub(super) fn same_turns(old: &[Turn], track: &Track, new: &[Turn]) -> Vec<(usize, usize)> {
    let is_same = |old_index: usize, new_index: usize| {
        let (Some(old), Some(new)) = (old.get(old_index), new.get(new_index)) else { return false };
        if old == new {
            return true;
        }
        let (Some(danced), Some(amount)) = (track.turns().get(old_index), track.amounts().get(old_index))
        else {
            return false;
        };
        // The same in other words: with the amount that it has, and at the times that it has.
        let settled = |mut turn: Turn| {
            settle(&mut turn, danced);
            turn
        };
        let said = spoken(old, danced, *amount);
        let others =
            [settled(old.clone()), settled(with_amount(old, danced, *amount)), settled(said.clone())];
        said == *new || others.contains(new)
    };
    let most = old.len().min(new.len());
    let first = (0..most).take_while(|index| is_same(*index, *index)).count();
    let last =
        (0..most - first).take_while(|back| is_same(old.len() - 1 - back, new.len() - 1 - back)).count();
    let begins = (0..first).map(|index| (index, index));
    let ends = (0..last).rev().map(|back| (old.len() - 1 - back, new.len() - 1 - back));
    begins.chain(ends).collect()
}
