//! What a figure and its parts have to keep to.

use super::of_strikes::check_strikes;
use super::ranges::{Checked, check_place, check_range, check_speeds, check_text};
use crate::dance::limits::{FARTHEST, MOST_BARS, MOST_LEGS, MOST_POINTS};
use crate::dance::{DanceError, Figure, Leg, Part, Shape, Turn};
use std::collections::BTreeSet;

/// A figure at `path` that takes so many counts.
pub(super) fn check_figure(path: &str, figure: &Figure, counts: f64, dancers: u32) -> Checked {
    check_text(&format!("{path}.name"), &figure.name)?;
    if figure.bars == 0 || figure.bars > MOST_BARS {
        return Err(DanceError::key(
            format!("{path}.bars"),
            format!("{} bars; a figure has 1 to {MOST_BARS}", figure.bars),
        ));
    }
    check_speeds(path, &figure.speeds)?;
    if let Some(bar) = figure.metres.keys().find(|bar| !(1..=MOST_BARS).contains(*bar)) {
        return Err(DanceError::key(
            format!("{path}.metres"),
            format!("bar {bar}; the bars of a figure are 1 to {MOST_BARS}"),
        ));
    }
    let mut places = BTreeSet::new();
    for (index, part) in figure.parts.iter().enumerate() {
        let path = format!("{path}.parts[{index}]");
        if !part.place.is_in(dancers) {
            return Err(DanceError::key(
                format!("{path}.place"),
                format!("{} is not a place in a set of {dancers}", part.place),
            ));
        }
        if !places.insert(part.place) {
            return Err(DanceError::key(
                format!("{path}.place"),
                format!("place {} is drawn twice in this figure", part.place),
            ));
        }
        check_part(&path, part, counts)?;
    }
    check_strikes(path, &figure.strikes, counts, dancers)?;
    if figure.allow.len() > MOST_LEGS {
        return Err(DanceError::key(
            format!("{path}.allow"),
            format!("{} of them; a figure allows at most {MOST_LEGS}", figure.allow.len()),
        ));
    }
    for (index, allow) in figure.allow.iter().enumerate() {
        let path = format!("{path}.allow[{index}]");
        if allow.reason.trim().is_empty() {
            return Err(DanceError::key(
                format!("{path}.reason"),
                "say in a few words why the side means it",
            ));
        }
        check_text(&format!("{path}.reason"), &allow.reason)?;
        if let Some(place) = allow.places.iter().find(|place| !place.is_in(dancers)) {
            return Err(DanceError::key(
                format!("{path}.places"),
                format!("{place} is not a place in a set of {dancers}"),
            ));
        }
        if let Some(up_to) = allow.up_to {
            check_range(&format!("{path}.up_to"), up_to, -FARTHEST, 36_000.0, "")?;
        }
    }
    Ok(())
}

fn check_part(path: &str, part: &Part, counts: f64) -> Checked {
    for (name, length) in
        [("legs", part.legs.len()), ("turns", part.turns.len()), ("leads", part.leads.len())]
    {
        if length > MOST_LEGS {
            return Err(DanceError::key(
                format!("{path}.{name}"),
                format!("{length} of them; a part has at most {MOST_LEGS}"),
            ));
        }
    }
    let mut before = 0.0;
    for (index, leg) in part.legs.iter().enumerate() {
        let path = format!("{path}.legs[{index}]");
        check_times(&path, leg.begin, leg.end, before, counts, "leg")?;
        check_leg(&path, leg)?;
        before = leg.end;
    }
    before = 0.0;
    for (index, turn) in part.turns.iter().enumerate() {
        let path = format!("{path}.turns[{index}]");
        check_times(&path, turn.begin, turn.end, before, counts, "turn")?;
        check_turn(&path, turn)?;
        before = turn.end;
    }
    for (index, lead) in part.leads.iter().enumerate() {
        check_range(&format!("{path}.leads[{index}].at"), lead.at, 0.0, counts, "counts")?;
    }
    Ok(())
}

fn check_times(path: &str, begin: f64, end: f64, before: f64, counts: f64, what: &str) -> Checked {
    check_range(&format!("{path}.begin"), begin, 0.0, counts, "counts")?;
    check_range(&format!("{path}.end"), end, 0.0, counts, "counts")?;
    if end <= begin {
        return Err(DanceError::key(
            format!("{path}.end"),
            format!("the {what} ends at count {end}, not after it begins at {begin}"),
        ));
    }
    if begin < before {
        return Err(DanceError::key(
            format!("{path}.begin"),
            format!("the {what} begins at count {begin}, before the one before it ends at {before}"),
        ));
    }
    Ok(())
}

fn check_leg(path: &str, leg: &Leg) -> Checked {
    if leg.through.len() > MOST_POINTS {
        return Err(DanceError::key(
            format!("{path}.through"),
            format!("{} points; a leg has at most {MOST_POINTS}", leg.through.len()),
        ));
    }
    check_place(&format!("{path}.to"), leg.to.x, leg.to.y)?;
    let mut before = leg.begin;
    for (index, point) in leg.through.iter().enumerate() {
        let path = format!("{path}.through[{index}]");
        check_place(&path, point.x, point.y)?;
        if let Some(at) = point.at {
            let path = format!("{path}.at");
            check_range(&path, at, leg.begin, leg.end, "counts")?;
            if at <= before || at >= leg.end {
                return Err(DanceError::key(
                    path,
                    format!("count {at} is out of order; expected between {before} and {}", leg.end),
                ));
            }
            before = at;
        }
    }
    match (leg.shape, leg.sweep) {
        (Shape::Arc, None) => {
            return Err(DanceError::key(
                format!("{path}.sweep"),
                "an arc needs its sweep, degrees, clockwise positive",
            ));
        }
        (Shape::Arc, Some(sweep)) => {
            let path = format!("{path}.sweep");
            check_range(&path, sweep, -359.0, 359.0, "degrees")?;
            if sweep.abs() < 0.1 {
                return Err(DanceError::key(path, "an arc of no sweep; make it straight instead"));
            }
            if !leg.through.is_empty() {
                return Err(DanceError::key(
                    format!("{}.through", path.trim_end_matches(".sweep")),
                    "an arc has no points on the way; make it smooth instead",
                ));
            }
        }
        (_, Some(_)) => {
            return Err(DanceError::key(format!("{path}.sweep"), "only an arc has a sweep"));
        }
        (_, None) => {}
    }
    if leg.pace.len() > MOST_POINTS {
        return Err(DanceError::key(
            format!("{path}.pace"),
            format!("{} values; a pace has at most {MOST_POINTS}", leg.pace.len()),
        ));
    }
    let mut before = 0.0;
    for (index, &share) in leg.pace.iter().enumerate() {
        let path = format!("{path}.pace[{index}]");
        check_range(&path, share, 0.0, 1.0, "of the way")?;
        if share < before {
            return Err(DanceError::key(path, format!("{share} comes after {before}; a pace only rises")));
        }
        before = share;
    }
    if !leg.pace.is_empty() && before < 1.0 {
        return Err(DanceError::key(
            format!("{path}.pace"),
            format!("the last value is {before}; it must be 1, the end of the leg"),
        ));
    }
    Ok(())
}

fn check_turn(path: &str, turn: &Turn) -> Checked {
    match (turn.by, turn.face) {
        (Some(by), face) => {
            check_range(&format!("{path}.by"), by, 0.0, 36_000.0, "degrees")?;
            if let Some(face) = face {
                check_range(&format!("{path}.face"), face, -36_000.0, 36_000.0, "degrees")?;
            }
            if turn.spins > 0 {
                return Err(DanceError::key(
                    format!("{path}.spins"),
                    "whole turns to add go with `face` alone; `by` has them in it",
                ));
            }
            Ok(())
        }
        (None, Some(face)) => {
            check_range(&format!("{path}.face"), face, -36_000.0, 36_000.0, "degrees")?;
            if turn.spins > 100 {
                return Err(DanceError::key(
                    format!("{path}.spins"),
                    format!("{} whole turns; at most 100", turn.spins),
                ));
            }
            Ok(())
        }
        (None, None) => {
            Err(DanceError::key(path, "a turn needs `by` (degrees) or `face` (the direction to finish in)"))
        }
    }
}
