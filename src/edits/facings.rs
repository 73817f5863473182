//! Redrawing which way a dancer faces.

use super::others_kept::others_kept;
use super::redraw::{DancerAt, EditError, TIME_STEP, find, own_part, part_with_amounts, with_part};
use super::settled::settle;
use crate::dance::{Dance, Dancer, Extra, Leg, LegFacing, Part, Turn, Way};
use crate::motion::Motion;

/// The longest that a newly drawn turn takes, counts.
const NEW_TURN: f64 = 2.0;

/// Turns a dancer at a count by a number of degrees (clockwise positive) from what they face there now, where no turn is under
/// way: one that ends there goes on by that much, or one is made that ends at that count. A facing that is held there, or a
/// turn that goes nowhere, is held before it and after it.
///
/// # Errors
/// Where there is no figure.
pub(super) fn drag_facing(
    dance: &Dance,
    motion: &Motion,
    dancer: Dancer,
    count: f64,
    degrees: f64,
) -> Result<Dance, EditError> {
    let found: DancerAt = find(motion, dancer, count)?;
    let written = own_part(found.span, dancer).ok_or(EditError::NoFigure)?.turns;
    // A turn drawn by hand has a time and a way of its own from here on, and so has another of the part that is in its way.
    let mut part = part_with_amounts(found.span, dancer).ok_or(EditError::NoFigure)?;
    for (turn, danced) in part.turns.iter_mut().zip(found.track.turns()) {
        settle(turn, danced);
    }
    let settled = part.turns.clone();
    let local = (found.local * 1000.0).round() / 1000.0;
    let facing = |at: f64| found.track.stand(at).2;
    let under_way =
        part.turns.iter().position(|turn| turn.begin + TIME_STEP < local && local < turn.end + TIME_STEP);
    let before = part.turns.iter().map(|turn| turn.end).filter(|&end| end <= local).fold(0.0, f64::max);
    // A turn that has only just begun is not under way yet: the new one ends where it begins.
    let begins = part.turns.iter().map(|turn| turn.begin);
    let end = begins.filter(|&begin| begin >= before && begin <= local).fold(local, f64::min);
    let has_room = end - before >= TIME_STEP;
    // At the start of a figure there is no time before the count: a turn that begins there is the one to
    // change.
    let beginning = || part.turns.iter().position(|turn| turn.begin <= local + TIME_STEP && turn.end > local);
    if let Some(index) = under_way.or_else(|| if has_room { None } else { beginning() }) {
        if let Some(turn) = part.turns.get_mut(index) {
            let from = facing(turn.begin);
            // The end of a turn is seen just before it, so that a leg that follows does not count.
            let total = facing(turn.end - 1e-6) - from;
            if under_way.is_some() && local < turn.end - TIME_STEP {
                let begin =
                    if local - NEW_TURN < turn.begin + TIME_STEP { turn.begin } else { local - NEW_TURN };
                let (held, after) = (turn.begin, turn.end);
                let total = facing(local) - facing(begin) + degrees;
                *turn = turned(begin, local, total, turn.extra.clone());
                part.turns.insert(index + 1, Turn::hold(local, after));
                drop_hold(&mut part, index + 1);
                if held < begin {
                    part.turns.insert(index, Turn::hold(held, begin));
                    drop_hold(&mut part, index);
                }
            } else {
                *turn = turned(turn.begin, turn.end, total + degrees, turn.extra.clone());
                drop_hold(&mut part, index);
            }
        }
    } else {
        let (begin, end) = if has_room {
            (before.max(end - NEW_TURN), end)
        } else {
            let next = part
                .turns
                .iter()
                .map(|turn| turn.begin)
                .filter(|&begin| begin > local)
                .fold(f64::INFINITY, f64::min);
            (local, (local + 1.0).min(next).min(found.span.end() - found.span.begin()))
        };
        if end - begin < 1e-3 {
            return Err(EditError::NoTime);
        }
        let from = facing(begin);
        let target = facing(local.min(end)) + degrees;
        part.turns.push(turned(begin, end, target - from, Extra::new()));
        part.turns.sort_by(|one, other| one.begin.total_cmp(&other.begin));
    }
    leave_others(&mut part.turns, &written, &settled);
    let part = others_kept(part, motion, found.span, dancer);
    Ok(with_part(dance, found.span.figure, part))
}

/// Leaves those turns as they are written, on their steps and by the foot that leads, that were only given times and ways of their own
/// to draw another; where the written times of one are in the way of the next, as it is danced.
fn leave_others(turns: &mut [Turn], written: &[Turn], settled: &[Turn]) {
    for index in 0..turns.len() {
        let before = index.checked_sub(1).and_then(|before| turns.get(before)).map_or(0.0, |turn| turn.end);
        let after = turns.get(index + 1).map_or(f64::INFINITY, |turn| turn.begin);
        let Some(slot) = turns.get_mut(index) else { return };
        let own = settled.iter().position(|turn| turn == slot).and_then(|own| written.get(own));
        if let Some(own) = own.filter(|own| before <= own.begin && own.end <= after) {
            slot.clone_from(own);
        }
    }
}

/// Takes a turn away that has come to go nowhere, unless it holds the facing of somebody who would turn with their path: what
/// is seen nowhere must not be in the way of other turns.
pub(super) fn drop_hold(part: &mut Part, index: usize) {
    let goes = |turn: &Turn| turn.by != Some(0.0) || turn.face.is_some();
    let Some(turn) = part.turns.get(index).filter(|turn| !goes(turn)) else { return };
    let meets = |leg: &Leg| leg.begin < turn.end && turn.begin < leg.end;
    if part.legs.iter().filter(|leg| meets(leg)).all(|leg| leg.facing == LegFacing::Held) {
        part.turns.remove(index);
    }
}

/// A turn through an amount, degrees clockwise positive.
pub(super) fn turned(begin: f64, end: f64, amount: f64, extra: Extra) -> Turn {
    let way = if amount < 0.0 { Way::Left } else { Way::Right };
    let by = ((amount.abs() * 10.0).round() / 10.0).min(36_000.0);
    let way = if by == 0.0 { Way::Right } else { way };
    Turn { extra, way, by: Some(by), ..Turn::hold(begin, end) }
}
