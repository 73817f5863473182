use super::{
    Dance, DanceError, Figure, Leg, OwnStep, Part, Set, SetKind, Shape, Turn,
    limits::{
        CLOSEST, FARTHEST, LONGEST_TEXT, MOST_BARS, MOST_DANCERS, MOST_FIGURES, MOST_LEGS, MOST_POINTS,
    },
    quoted, shown_list,
};
use std::collections::BTreeSet;

type Checked = Result<(), DanceError>;

/// Checks what types alone cannot: ranges, order in time, and names that must exist.
///
/// # Errors
/// The first thing wrong, with the path of its key.
pub fn check_rules(dance: &Dance) -> Checked {
    for (path, text) in [
        ("title", &dance.title),
        ("side", &dance.side),
        ("tradition", &dance.tradition),
        ("author", &dance.author),
    ] {
        check_text(path, text)?;
    }
    check_set(&dance.set)?;
    check_floor(dance)?;
    check_music(dance)?;
    for (index, step) in dance.steps.iter().enumerate() {
        check_step(&format!("steps[{index}]"), step)?;
    }
    if dance.figures.len() > MOST_FIGURES {
        return Err(DanceError::key(
            "figures",
            format!("{} figures; a dance holds at most {MOST_FIGURES}", dance.figures.len()),
        ));
    }
    let mut ids = BTreeSet::new();
    for (index, figure) in dance.figures.iter().enumerate() {
        let path = format!("figures[{index}]");
        if figure.id.trim().is_empty() {
            return Err(DanceError::key(format!("{path}.id"), "a figure needs an id that is not empty"));
        }
        if !ids.insert(figure.id.as_str()) {
            return Err(DanceError::key(
                format!("{path}.id"),
                format!("{} is the id of an earlier figure; each needs its own", quoted(&figure.id)),
            ));
        }
        check_figure(&path, figure, dance.set.dancers)?;
    }
    check_order(dance)?;
    check_people(dance)
}

fn check_order(dance: &Dance) -> Checked {
    if dance.order.len() > MOST_BARS as usize {
        return Err(DanceError::key(
            "order",
            format!(
                "{} lines; a dance has at most {MOST_BARS} bars, so no more lines than that",
                dance.order.len()
            ),
        ));
    }
    let ids: BTreeSet<&str> = dance.figures.iter().map(|figure| figure.id.as_str()).collect();
    for (index, entry) in dance.order.iter().enumerate() {
        if !ids.contains(entry.figure.as_str()) {
            let known = shown_list(dance.figures.iter().map(|figure| figure.id.as_str()));
            return Err(DanceError::key(
                format!("order[{index}].figure"),
                format!("no figure has the id {}; the ids are: {known}", quoted(&entry.figure)),
            ));
        }
    }
    let bars: u64 = dance
        .danced()
        .iter()
        .filter_map(|&index| dance.figures.get(index))
        .map(|figure| u64::from(figure.bars))
        .sum();
    if bars > u64::from(MOST_BARS) {
        return Err(DanceError::key(
            "order",
            format!("the running order takes {bars} bars; a dance has at most {MOST_BARS}"),
        ));
    }
    Ok(())
}

fn check_people(dance: &Dance) -> Checked {
    let mut numbers = BTreeSet::new();
    for (index, person) in dance.people.iter().enumerate() {
        check_text(&format!("people[{index}].name"), &person.name)?;
        if person.number == 0 || person.number > dance.set.dancers {
            return Err(DanceError::key(
                format!("people[{index}].number"),
                format!("{} is not a number in a set of {}", person.number, dance.set.dancers),
            ));
        }
        if !numbers.insert(person.number) {
            return Err(DanceError::key(
                format!("people[{index}].number"),
                format!("number {} is given to two people", person.number),
            ));
        }
    }
    Ok(())
}

fn check_set(set: &Set) -> Checked {
    if set.dancers == 0 || set.dancers > MOST_DANCERS {
        return Err(DanceError::key(
            "set.dancers",
            format!("{} dancers; a set has 1 to {MOST_DANCERS}", set.dancers),
        ));
    }
    check_range("set.across", set.across, CLOSEST, FARTHEST, "metres")?;
    check_range("set.along", set.along, CLOSEST, FARTHEST, "metres")?;
    if let Some(radius) = set.radius {
        check_range("set.radius", radius, CLOSEST, FARTHEST, "metres")?;
    }
    match set.kind {
        SetKind::Longways if set.dancers > 1 && !set.dancers.is_multiple_of(2) => Err(DanceError::key(
            "set.dancers",
            format!("{} dancers cannot stand in two files; use an even number, or one", set.dancers),
        )),
        SetKind::Spots if set.spots.len() != set.dancers as usize => Err(DanceError::key(
            "set.spots",
            format!("{} spots for {} dancers; give one for each", set.spots.len(), set.dancers),
        )),
        _ => {
            for (index, spot) in set.spots.iter().enumerate() {
                let path = format!("set.spots[{index}]");
                check_place(&path, spot.x, spot.y)?;
                check_range(&format!("{path}.facing"), spot.facing, -36_000.0, 36_000.0, "degrees")?;
            }
            Ok(())
        }
    }
}

fn check_floor(dance: &Dance) -> Checked {
    for (key, value, least, most, unit) in dance.limits.given() {
        if let Some(value) = value {
            check_range(&format!("limits.{key}"), value, least, most, unit)?;
        }
    }
    if let Some(floor) = &dance.floor {
        check_range("floor.across", floor.across, CLOSEST, 2.0 * FARTHEST, "metres")?;
        check_range("floor.along", floor.along, CLOSEST, 2.0 * FARTHEST, "metres")?;
        check_place("floor", floor.x, floor.y)?;
    }
    Ok(())
}

fn check_music(dance: &Dance) -> Checked {
    check_range("music.speed", dance.music.speed, 10.0, 400.0, "strong beats a minute")?;
    if dance.music.upbeat > 4 {
        return Err(DanceError::key(
            "music.upbeat",
            format!("{} counts; an upbeat has 0 to 4", dance.music.upbeat),
        ));
    }
    for (index, strain) in dance.music.strains.iter().enumerate() {
        if strain.bars == 0 || strain.bars > MOST_BARS {
            return Err(DanceError::key(
                format!("music.strains[{index}].bars"),
                format!("{} bars; a strain has 1 to {MOST_BARS}", strain.bars),
            ));
        }
    }
    for (index, name) in dance.music.played.iter().enumerate() {
        if dance.music.strains.iter().all(|strain| strain.name != *name) {
            let known = shown_list(dance.music.strains.iter().map(|strain| strain.name.as_str()));
            return Err(DanceError::key(
                format!("music.played[{index}]"),
                format!("no strain is called {}; the strains are: {known}", quoted(name)),
            ));
        }
    }
    Ok(())
}

fn check_step(path: &str, step: &OwnStep) -> Checked {
    if step.short.is_empty() || !step.short.chars().all(char::is_alphanumeric) {
        return Err(DanceError::key(
            format!("{path}.short"),
            format!("{} is not a short name; use letters and figures only", quoted(&step.short)),
        ));
    }
    if step.feet.is_empty() || step.feet.len() > 64 {
        return Err(DanceError::key(
            format!("{path}.feet"),
            format!("{} counts; a step has 1 to 64", step.feet.len()),
        ));
    }
    for (name, list, most) in [
        ("travels", &step.travels, 100.0),
        ("hands", &step.hands, 1.0),
        ("left_hand", &step.left_hand, 1.0),
        ("right_hand", &step.right_hand, 1.0),
    ] {
        if !list.is_empty() && list.len() != step.feet.len() {
            return Err(DanceError::key(
                format!("{path}.{name}"),
                format!("{} values for {} counts; give one for each count", list.len(), step.feet.len()),
            ));
        }
        for (index, value) in list.iter().enumerate() {
            check_range(&format!("{path}.{name}[{index}]"), *value, 0.0, most, "")?;
        }
    }
    Ok(())
}

fn check_figure(path: &str, figure: &Figure, dancers: u32) -> Checked {
    check_text(&format!("{path}.name"), &figure.name)?;
    if figure.bars == 0 || figure.bars > MOST_BARS {
        return Err(DanceError::key(
            format!("{path}.bars"),
            format!("{} bars; a figure has 1 to {MOST_BARS}", figure.bars),
        ));
    }
    let mut places = BTreeSet::new();
    for (index, part) in figure.parts.iter().enumerate() {
        let path = format!("{path}.parts[{index}]");
        if part.place == 0 || part.place > dancers {
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
        check_part(&path, part, figure.counts())?;
    }
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
        if let Some(place) = allow.places.iter().find(|place| **place == 0 || **place > dancers) {
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

fn check_place(path: &str, x: f64, y: f64) -> Checked {
    check_range(&format!("{path}.x"), x, -FARTHEST, FARTHEST, "metres")?;
    check_range(&format!("{path}.y"), y, -FARTHEST, FARTHEST, "metres")
}

fn check_range(path: &str, value: f64, least: f64, most: f64, unit: &str) -> Checked {
    if value.is_finite() && (least..=most).contains(&value) {
        return Ok(());
    }
    let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
    // A number far out is written with its power of ten, not in hundreds of figures.
    let value = if value.abs() < 1e9 { value.to_string() } else { format!("{value:e}") };
    Err(DanceError::key(path, format!("{value} is out of range; expected {least} to {most}{unit}")))
}

fn check_text(path: &str, text: &str) -> Checked {
    let length = text.chars().count();
    if length > LONGEST_TEXT {
        return Err(DanceError::key(path, format!("{length} characters; a name has at most {LONGEST_TEXT}")));
    }
    Ok(())
}
