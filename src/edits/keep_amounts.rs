//! Turns that keep their amount while something else changes.

use crate::dance::{Dance, Dancer, Part, PlaceNumber, Turn};
use crate::figures::motion_after;
use crate::motion::{Motion, amount, with_amount};

/// A turn that comes out otherwise after a change.
#[derive(Clone, Debug, PartialEq)]
pub struct TurnChange {
    /// Who turns.
    pub dancer: Dancer,
    /// The count from the start of the dance at which it begins.
    pub at: f64,
    /// The bar of the dance, from 1, in which that is.
    pub bar: u32,
    /// How far it went, degrees, clockwise positive.
    pub was: f64,
    /// How far it goes now.
    pub is: f64,
}

impl TurnChange {
    /// In words: `1 then turns right 379° in bar 7 (right 354° before)`.
    #[must_use]
    pub fn words(&self) -> String {
        let amount = |degrees: f64| match degrees {
            none if none.abs() < 0.5 => "not at all".to_owned(),
            left if left < 0.0 => format!("left {:.0}°", -left),
            right => format!("right {right:.0}°"),
        };
        format!(
            "{} then turns {} in bar {} ({} before)",
            self.dancer,
            amount(self.is),
            self.bar,
            amount(self.was)
        )
    }
}

/// The turns that differ by so many degrees or more between two motions of the same running order.
#[must_use]
pub fn turn_changes(before: &Motion, after: &Motion, least: f64) -> Vec<TurnChange> {
    let mut changes = Vec::new();
    for (was, is) in before.spans().iter().zip(after.spans()) {
        for dancer in Dancer::all(before.dancers()) {
            let (Some(old), Some(new)) = (was.track(dancer), is.track(dancer)) else {
                continue;
            };
            let pairs = old.turns().iter().zip(old.amounts()).zip(new.amounts());
            for ((turn, was_through), through) in pairs {
                if (through - was_through).abs() >= least {
                    let at = was.begin() + turn.begin;
                    let bar = was.moment(at).bar;
                    changes.push(TurnChange { dancer, at, bar, was: *was_through, is: *through });
                }
            }
        }
    }
    changes
}

/// A change to a dance in which turns keep their amounts.
#[derive(Clone, Debug)]
pub struct Kept {
    pub dance: Dance,
    /// Its motion, where that had to be worked out.
    pub motion: Option<Motion>,
}

/// A change to a dance, in which drawn turns that say which way to finish facing are given the amount that they had
/// before, where they would otherwise be more than half a turn from it. `motion` is that of the dance before, and
/// `made` works out the one of a dance, and is asked for no more than one. A turn that was itself changed is meant as it is.
#[must_use]
pub fn keep_amounts(
    before: &Dance,
    motion: &Motion,
    after: Dance,
    made: impl Fn(&Dance) -> Option<Motion>,
) -> Kept {
    if !after.figures.iter().flat_map(|figure| &figure.parts).flat_map(|part| &part.turns).any(to_a_facing) {
        return Kept { dance: after, motion: None };
    }
    let Some(changed) = made(&after) else { return Kept { dance: after, motion: None } };
    match with_kept_amounts(before, motion, &after, &changed) {
        None => Kept { dance: after, motion: Some(changed) },
        Some(kept) => {
            // Only the figures whose turns were given an amount are worked out once more.
            let motion = motion_after(&kept, (&after, &changed)).ok();
            Kept { dance: kept, motion }
        }
    }
}

/// The same where the motion of the change is known: nothing where all turns keep their amounts as it is.
#[must_use]
pub(super) fn with_kept_amounts(
    before: &Dance,
    motion: &Motion,
    after: &Dance,
    changed: &Motion,
) -> Option<Dance> {
    let mut kept: Option<Dance> = None;
    for (index, figure) in after.figures.iter().enumerate() {
        let Some(known) = before.figure_index(&figure.id) else { continue };
        for (at, part) in figure.parts.iter().enumerate() {
            let place = part.place;
            for (which, turn) in part.turns.iter().enumerate().filter(|(_, turn)| to_a_facing(turn)) {
                let was = times_danced(motion, known, place, |part| {
                    part.turns.iter().position(|other| other == turn)
                });
                let was = if was.is_empty() { times_settled(motion, known, place, turn) } else { was };
                let is = times_danced(changed, index, place, |_| Some(which));
                let Some(turn) = kept_turn(turn, &was, &is) else { continue };
                let figure = kept.get_or_insert_with(|| after.clone()).figures.get_mut(index);
                let part = figure.and_then(|figure| figure.parts.get_mut(at));
                if let Some(slot) = part.and_then(|part| part.turns.get_mut(which)) {
                    *slot = turn;
                }
            }
        }
    }
    kept
}

fn to_a_facing(turn: &Turn) -> bool {
    turn.face.is_some() && !turn.is_shorter()
}

/// A turn as it is danced one of the times that its figure is.
struct TimeDanced {
    /// With its times and its way worked out.
    turn: Turn,
    /// How far it goes, degrees, clockwise positive.
    amount: f64,
    /// The facing in which it begins, degrees clockwise from up.
    from: f64,
}

/// A turn of the part in a place, each time that a figure is danced; `find` says which of the part's turns it is.
fn times_danced(
    motion: &Motion,
    figure: usize,
    place: PlaceNumber,
    find: impl Fn(&Part) -> Option<usize>,
) -> Vec<TimeDanced> {
    let spans = motion.spans().iter().filter(|span| span.figure == figure);
    spans
        .filter_map(|span| {
            let dancer = span.dancer_in(place)?;
            let (index, track) = (find(span.part(dancer)?)?, span.track(dancer)?);
            let turn = track.turns().get(index)?.clone();
            let from = track.stand(turn.begin).2;
            Some(TimeDanced { amount: *track.amounts().get(index)?, from, turn })
        })
        .collect()
}

/// The same of a turn that was written with no amount and is now, with the one that it had at one of those times: whoever is
/// redrawn in a named figure has that, and so has a turn that is in the way of another.
fn times_settled(motion: &Motion, figure: usize, place: PlaceNumber, turn: &Turn) -> Vec<TimeDanced> {
    let bare = Turn { by: None, ..turn.clone() };
    let times = times_danced(motion, figure, place, |part| {
        part.turns.iter().position(|other| {
            // One that follows the foot was written with either way.
            let way = if other.by_lead { bare.way } else { other.way };
            Turn { spins: bare.spins, way, ..other.clone() } == bare
        })
    });
    let settles = times.iter().any(|old| with_amount(&bare, &old.turn, old.amount).by == turn.by);
    if settles { times } else { Vec::new() }
}

/// Of a figure that is danced more often than this, only so many times are weighed against each other.
const MOST_TIMES: usize = 24;

/// A turn with the amount that makes the fewest of its times jump: a former one of them, or else one between those that two
/// times need. Nothing where none is any better than leaving it as it is.
fn kept_turn(turn: &Turn, was: &[TimeDanced], is: &[TimeDanced]) -> Option<Turn> {
    // The times are the same ones, unless the running order is another.
    let jumps = |time: usize, amount: f64| {
        let far = |old: &TimeDanced| (old.amount - amount).abs() > 180.0 + 1e-6;
        if was.len() == is.len() {
            was.get(time).is_some_and(far)
        } else {
            was.iter().all(far) && !was.is_empty()
        }
    };
    let as_it_is = is.iter().enumerate().filter(|(time, new)| jumps(*time, new.amount)).count();
    if as_it_is == 0 {
        return None;
    }
    let mut tried: Vec<Turn> = Vec::new();
    let mut add = |settled: Turn| {
        if !tried.contains(&settled) {
            tried.push(settled);
        }
    };
    for old in was {
        add(with_amount(turn, &old.turn, old.amount));
    }
    // Each time there is an amount that is the nearest to the one before, and any within half a turn of that one leads to it: if
    // one leads to several of them, so does the middle between the least and the most of those.
    let nearest: Vec<(&Turn, f64)> = was
        .iter()
        .zip(is)
        .map(|(old, new)| {
            let round = turn.face.map_or(old.amount, |face| face - new.from);
            (&old.turn, round + 360.0 * ((old.amount - round) / 360.0).round())
        })
        .collect();
    for (index, (one, least)) in nearest.iter().enumerate() {
        for (_, most) in nearest.iter().take(MOST_TIMES).skip(index + 1) {
            add(with_amount(turn, one, f64::midpoint(*least, *most)));
        }
    }
    let count = |settled: &Turn| {
        let times = is.iter().enumerate();
        times.filter(|(time, new)| jumps(*time, amount(&led_as(settled, &new.turn), new.from))).count()
    };
    // One that goes nowhere would say no more which way was chosen.
    let best = tried
        .into_iter()
        .map(|settled| (count(&settled), settled))
        .min_by_key(|(jumps, settled)| (*jumps, settled.is_shorter()))?;
    (best.0 < as_it_is).then_some(best.1)
}

/// A turn that follows the lead, the way that it is danced where the lead may be the other.
fn led_as(turn: &Turn, danced: &Turn) -> Turn {
    if turn.by_lead && turn.way != danced.way { turn.clone().other_way() } else { turn.clone() }
}
