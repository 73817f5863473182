//! When turns that are tied to steps are danced, which way and how far.

use super::{leads::LeadMade, phrase::Phrase, steps::Step, track::Track};
use crate::dance::{Foot, Landing, Part, Turn, TurnOn};

/// A part whose turns have the times of the steps they are danced on. Turns that would then overlap keep the times
/// they are written with.
#[must_use]
pub fn with_turn_times(part: &Part, phrase: &Phrase, known: &[Step]) -> Part {
    let mut timed = part.clone();
    for turn in &mut timed.turns {
        if let Some((begin, end)) = turn_times_on(turn, phrase, known) {
            (turn.begin, turn.end) = (begin, end);
        }
    }
    let apart = timed.turns.windows(2).all(|pair| match pair {
        [before, after] => before.end <= after.begin + 1e-9,
        _ => true,
    });
    if apart { timed } else { part.clone() }
}

/// A part whose turns go the way of the foot that led their half, where they say so.
#[must_use]
pub fn with_turn_ways(part: &Part, leads: &[LeadMade], starts: &[usize]) -> Part {
    let mut turned = part.clone();
    for turn in turned.turns.iter_mut().filter(|turn| turn.by_lead) {
        let start = starts.iter().rev().find(|&&at| at as f64 <= turn.begin + 1e-9);
        if let Some(made) = start.and_then(|at| leads.iter().find(|made| made.at == *at))
            && made.foot.way() != turn.way
        {
            *turn = turn.clone().other_way();
        }
    }
    turned
}

/// A part whose turns say how far they go, as they do on a track of it: those that say which way to finish facing have
/// that amount from here on, and keep it whatever is changed about how the dancer comes to them. Those that go the
/// shorter way still do.
#[must_use]
pub fn with_amounts(part: &Part, track: &Track) -> Part {
    let mut settled = part.clone();
    let danced = track.turns().iter().zip(track.amounts());
    for (turn, (danced, amount)) in settled.turns.iter_mut().zip(danced) {
        if turn.face.is_some() && !turn.is_shorter() {
            *turn = with_amount(turn, danced, *amount);
        }
    }
    settled
}

/// A turn to a direction that says how far it goes (degrees, clockwise positive), as it is danced.
#[must_use]
pub fn with_amount(turn: &Turn, danced: &Turn, amount: f64) -> Turn {
    let goes_back = amount * danced.way.sign() < 0.0;
    let (way, by) = match (goes_back, turn.by_lead) {
        // The way that follows the foot is not the way it goes: what was chosen stays.
        (true, true) => (danced.way, danced.by),
        (true, false) => (danced.way.other(), Some(thousandths(amount.abs()))),
        (false, _) => (danced.way, Some(thousandths(amount.abs()))),
    };
    Turn { way, by, spins: if by == danced.by { danced.spins } else { 0 }, ..turn.clone() }
}

fn thousandths(degrees: f64) -> f64 {
    (degrees * 1000.0).round() / 1000.0
}

/// The counts at which halves start: the first step, and those after a step that leaves either foot free.
#[must_use]
pub fn half_starts(phrase: &Phrase, known: &[Step]) -> Vec<usize> {
    let mut starts = Vec::new();
    let mut free = true;
    for &(at, step) in &phrase.steps {
        if free {
            starts.push(at);
        }
        free = known.get(step).is_some_and(|step| step.next_lead(Foot::Left).is_none());
    }
    starts
}

/// The counts of a figure at which a turn is danced that is tied to steps; nothing where it is not, or there are no such
/// steps from where it begins.
#[must_use]
pub fn turn_times_on(turn: &Turn, phrase: &Phrase, known: &[Step]) -> Option<(f64, f64)> {
    times(turn.on.as_ref()?, turn, phrase, known)
}

/// The counts of a figure at which a step hops: the foot that carries the weight lands again.
pub fn hops(phrase: &Phrase, known: &[Step]) -> impl Iterator<Item = f64> {
    let steps = phrase.steps.iter().filter_map(|(at, step)| Some((*at, known.get(*step)?)));
    steps.flat_map(|(at, step)| hops_of(step).map(move |count| (at + count) as f64))
}

/// The counts of a step, from 0, on which it hops; where nothing lands the weight stays.
fn hops_of(step: &Step) -> impl Iterator<Item = usize> {
    let lands = step.feet.iter().enumerate().filter(|(_, landing)| **landing != Landing::Stay);
    let again = |landing: Landing, before: Option<Landing>| {
        matches!(landing, Landing::Lead | Landing::Other) && before == Some(landing)
    };
    let hop = move |before: &mut Option<Landing>, (count, landing): (usize, &Landing)| {
        let hops = again(*landing, before.replace(*landing));
        Some(hops.then_some(count))
    };
    lands.scan(None, hop).flatten()
}

fn times(on: &TurnOn, turn: &Turn, phrase: &Phrase, known: &[Step]) -> Option<(f64, f64)> {
    let is = |step: usize, kind: fn(&Step) -> bool| known.get(step).is_some_and(kind);
    let mut later = phrase.steps.iter().filter(|(at, _)| *at as f64 >= turn.begin.floor() - 1e-9);
    match on {
        TurnOn::Step(short) => {
            let step = later.find_map(|(at, step)| {
                Some((*at, known.get(*step)?)).filter(|(_, step)| step.short == *short)
            });
            step.map(|(at, step)| (at as f64, (at + step.counts()) as f64))
        }
        TurnOn::Start => later.next().map(|(at, _)| (*at as f64, *at as f64 + 1.0)),
        TurnOn::Hop => {
            if let Some(hop) = hops(phrase, known).find(|hop| (hop - turn.begin).abs() < 1e-6) {
                return Some((hop, hop + 1.0));
            }
            // The double step that is under way at `begin`, or else the next one; any other step that hops where it is under way then.
            let double = |(at, step): &&(usize, usize)| {
                is(*step, Step::is_double_step) && *at as f64 + 4.0 > turn.begin
            };
            let other = phrase.steps.iter().find_map(|(at, step)| {
                let (at, step) = (*at as f64, known.get(*step)?);
                let under_way = (at..at + step.counts() as f64).contains(&turn.begin);
                let other = under_way && !step.is_single_step() && !step.is_double_step();
                let hop = hops_of(step).next().filter(|_| other)?;
                Some((at + hop as f64, at + hop as f64 + 1.0))
            });
            if other.is_some() {
                return other;
            }
            let step = phrase.steps.iter().find(double)?;
            Some((step.0 as f64 + 3.0, step.0 as f64 + 4.0))
        }
        TurnOn::SingleSteps => {
            let (first, _) = later.find(|(_, step)| is(*step, Step::is_single_step))?;
            let run = phrase
                .steps
                .iter()
                .skip_while(|(at, _)| at < first)
                .take_while(|(_, step)| is(*step, Step::is_single_step))
                .count();
            // Finished a count before the jump leaves the ground.
            Some((*first as f64, (first + 2 * run - 1) as f64))
        }
    }
}
