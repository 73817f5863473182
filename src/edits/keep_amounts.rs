//! Turns that keep their amount while something else changes.

use crate::dance::{Dance, Turn};
use crate::motion::{Moment, Motion, Span, with_amounts};

/// A turn that comes out otherwise after a change.
#[derive(Clone, Debug, PartialEq)]
pub struct TurnChange {
    /// The index, from 0.
    pub dancer: usize,
    /// The count from the start of the dance at which it begins.
    pub at: f64,
    /// How far it went, degrees, clockwise positive.
    pub was: f64,
    /// How far it goes now.
    pub is: f64,
}

impl TurnChange {
    /// In words: `1 then turns right 379 in bar 7 (right 354 before)`.
    #[must_use]
    pub fn words(&self) -> String {
        let amount = |degrees: f64| match degrees {
            none if none.abs() < 0.5 => "not at all".to_owned(),
            left if left < 0.0 => format!("left {:.0}", -left),
            right => format!("right {right:.0}"),
        };
        let bar = Moment::at(self.at).bar;
        format!(
            "{} then turns {} in bar {bar} ({} before)",
            self.dancer + 1,
            amount(self.is),
            amount(self.was)
        )
    }
}

/// The turns that differ by so many degrees or more between two motions of the same running order.
#[must_use]
pub fn turn_changes(before: &Motion, after: &Motion, least: f64) -> Vec<TurnChange> {
    let mut changes = Vec::new();
    for (was, is) in before.spans().iter().zip(after.spans()) {
        for dancer in 0..before.dancers() {
            let (Some(old), Some(new)) = (was.track(dancer), is.track(dancer)) else { continue };
            let pairs = old.turns().iter().zip(old.amounts()).zip(new.amounts());
            for ((turn, was_through), through) in pairs {
                if (through - was_through).abs() >= least {
                    let at = was.begin() + turn.begin;
                    changes.push(TurnChange { dancer, at, was: *was_through, is: *through });
                }
            }
        }
    }
    changes
}

/// A change to a dance, in which drawn turns that say which way to finish facing are given the amount that they had
/// before, where they would otherwise be half a turn or more from it. `motion` is that of the dance before, and
/// `made` works out the one of a dance.
#[must_use]
pub fn keep_amounts(
    before: &Dance,
    motion: &Motion,
    after: Dance,
    made: impl Fn(&Dance) -> Option<Motion>,
) -> Dance {
    let to_a_facing = |turn: &Turn| turn.face.is_some() && !turn.is_shorter();
    let any =
        after.figures.iter().flat_map(|figure| &figure.parts).flat_map(|part| &part.turns).any(to_a_facing);
    if !any {
        return after;
    }
    let Some(changed) = made(&after) else { return after };
    let mut kept = after.clone();
    for (index, figure) in kept.figures.iter_mut().enumerate() {
        let danced = |motion: &Motion, index: usize| -> Option<Span> {
            motion.spans().iter().find(|span| span.figure == index).cloned()
        };
        let was = before.figure_index(&figure.id).and_then(|index| danced(motion, index));
        let (Some(was), Some(is)) = (was, danced(&changed, index)) else { continue };
        for part in &mut figure.parts {
            let place = (part.place as usize).saturating_sub(1);
            let tracks = was
                .dancer_in(place)
                .and_then(|dancer| was.track(dancer))
                .zip(is.dancer_in(place).and_then(|dancer| is.track(dancer)));
            let Some((old, new)) = tracks else { continue };
            // What was done to the turn itself is meant.
            let same = old.turns().len() == part.turns.len()
                && was
                    .dancer_in(place)
                    .and_then(|dancer| was.part(dancer))
                    .is_some_and(|old| old.turns == part.turns);
            let jumps =
                old.amounts().iter().zip(new.amounts()).any(|(one, other)| (one - other).abs() >= 180.0);
            if same && jumps {
                *part = with_amounts(part, old);
            }
        }
    }
    kept
}
