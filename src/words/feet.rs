use super::facts::{Start, StartTurn};
use super::look::OneDancer;
use crate::dance::{Foot, Landing};
use crate::motion::steps::Step;
use crate::motion::{Footing, LeadFrom, LeadMade, Weight};

/// The foot that lands first in the step that begins on a count of a figure, and the count on which it does: a caper
/// springs off a count before. Nothing where the step lands on no foot of its own, as a jump does not.
#[must_use]
pub fn first_foot(known: &[Step], footing: &Footing, at: usize) -> Option<(Foot, usize)> {
    let falls = footing.falls().get(at..)?;
    let step = known.get(falls.first()?.step)?;
    let landings = step.feet.iter().zip(falls).enumerate();
    landings.into_iter().find_map(|(count, (landing, fall))| {
        // What lands is the step's own: the hop of an upbeat belongs to the step after it.
        let foot = match (landing, fall.weight) {
            (Landing::Lead | Landing::Other, Weight::Left) => Foot::Left,
            (Landing::Lead | Landing::Other, Weight::Right) => Foot::Right,
            _ => return None,
        };
        Some((foot, at + count))
    })
}

/// The starts in a phrase: its own, and those after a step that leaves either foot free.
pub(super) fn starts(look: &OneDancer, begin: f64, end: f64) -> Vec<Start> {
    let (known, footing) = (look.motion.known(), look.track.footing());
    let halves = halves(known, footing);
    let mut starts: Vec<Start> = Vec::new();
    let leads = footing.leads();
    let first = leads.partition_point(|made| (made.at as f64) < begin);
    for made in leads.iter().skip(first) {
        let at = made.at as f64;
        if at >= end {
            break;
        }
        if !(begin..end).contains(&at) || (made.at as f64 > begin && made.from == LeadFrom::Step) {
            continue;
        }
        let Some((foot, lands)) = first_foot(known, footing, made.at) else { continue };
        let turn = match starts.last() {
            _ if at <= begin => StartTurn::First,
            Some(before) if before.foot == foot => StartTurn::Again,
            _ => StartTurn::Fresh,
        };
        starts.push(Start {
            at,
            turn,
            foot,
            at_once: lands == made.at,
            half: half(&halves, look, made),
            from: made.from,
            rule: made.rule,
            facing: made.facing,
        });
    }
    starts
}

/// The counts at which a rule speaks: the first step, and those after a step that leaves either foot free.
fn halves(known: &[Step], footing: &Footing) -> Vec<usize> {
    let mut halves = Vec::new();
    let mut free = true;
    for made in footing.leads() {
        // Of more than two none is a half.
        if halves.len() > 2 {
            break;
        }
        if free {
            halves.push(made.at);
        }
        let step = footing.falls().get(made.at).and_then(|fall| known.get(fall.step));
        free = step.is_none_or(|step| step.next_lead(made.foot).is_none());
    }
    halves
}

/// Which half of its figure a start begins, 0 or 1, where the figure starts twice, the second time at its half.
fn half(halves: &[usize], look: &OneDancer, made: &LeadMade) -> Option<u8> {
    let middle = (look.span.end() - look.span.begin()) / 2.0;
    match halves {
        [only] if *only == made.at => Some(0),
        [first, second] if *second as f64 == middle => {
            if *first == made.at {
                Some(0)
            } else {
                (*second == made.at).then_some(1)
            }
        }
        _ => None,
    }
}
