mod of_figures;
mod of_strikes;
mod of_underlays;
mod ranges;

use super::limits::{
    ARM, CLOSEST, EARLIEST_CALL, FARTHEST, HEIGHTS, HIGHEST_FOOT, HIGHEST_RISE, MOST_BARS, MOST_CIRCLES,
    MOST_DANCERS, MOST_FIGURES, SPEEDS,
};
use super::{BarCounts, Dance, DanceError, OwnStep, Set, SetKind, are_letters_of_a_step, quoted, shown_list};
use of_figures::check_figure;
use of_underlays::check_underlays;
use ranges::{Checked, check_place, check_range, check_speeds, check_text};
use std::collections::BTreeSet;

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
    check_range("height", dance.height, HEIGHTS[0], HEIGHTS[1], "metres")?;
    check_set(&dance.set)?;
    check_floor(dance)?;
    check_music(dance)?;
    let mut letters = BTreeSet::new();
    for (index, step) in dance.steps.iter().enumerate() {
        let path = format!("steps[{index}]");
        check_step(&path, step)?;
        if !letters.insert(step.short.as_str()) {
            let text =
                format!("{} is the short name of an earlier step; each needs its own", quoted(&step.short));
            return Err(DanceError::key(format!("{path}.short"), text));
        }
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
        check_figure(&path, figure, dance.bar_counts(figure).counts(), dance.set.dancers)?;
    }
    check_order(dance)?;
    check_underlays(dance)?;
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
    for (index, before) in
        dance.order.iter().enumerate().filter_map(|(i, entry)| Some((i, entry.call_before?)))
    {
        check_range(&format!("order[{index}].call_before"), before, 0.0, EARLIEST_CALL, "bars")?;
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
        if !person.number.is_in(dance.set.dancers) {
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
    check_range("music.speed", dance.music.speed, SPEEDS[0], SPEEDS[1], "strong beats a minute")?;
    let (upbeat, most) = (dance.music.upbeat, BarCounts::MOST);
    if upbeat > most {
        return Err(DanceError::key("music.upbeat", format!("{upbeat} counts; an upbeat has 0 to {most}")));
    }
    for (index, strain) in dance.music.strains.iter().enumerate() {
        if strain.bars == 0 || strain.bars > MOST_BARS {
            return Err(DanceError::key(
                format!("music.strains[{index}].bars"),
                format!("{} bars; a strain has 1 to {MOST_BARS}", strain.bars),
            ));
        }
        check_speeds(&format!("music.strains[{index}]"), &strain.speeds)?;
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
    if !are_letters_of_a_step(&step.short) {
        return Err(DanceError::key(
            format!("{path}.short"),
            format!(
                "{} is not a short name; use letters and figures only, the first of them a letter, and none of left, right, start and hop",
                quoted(&step.short)
            ),
        ));
    }
    if step.feet.is_empty() || step.feet.len() > 64 {
        return Err(DanceError::key(
            format!("{path}.feet"),
            format!("{} counts; a step has 1 to 64", step.feet.len()),
        ));
    }
    let one_each = |name: &str, many: usize| {
        if many == 0 || many == step.feet.len() {
            return Ok(());
        }
        let text = format!("{many} values for {} counts; give one for each count", step.feet.len());
        Err(DanceError::key(format!("{path}.{name}"), text))
    };
    for (name, list, [least, most], unit) in [
        ("travels", &step.travels, [0.0, 100.0], ""),
        ("hands", &step.hands, [0.0, 1.0], ""),
        ("left_hand", &step.left_hand, [0.0, 1.0], ""),
        ("right_hand", &step.right_hand, [0.0, 1.0], ""),
        ("rise", &step.rise, [0.0, HIGHEST_RISE], "metres"),
        ("left_forward", &step.left_forward, [-ARM, ARM], "metres"),
        ("right_forward", &step.right_forward, [-ARM, ARM], "metres"),
        ("circles", &step.circles, [-MOST_CIRCLES, MOST_CIRCLES], "circles"),
    ] {
        one_each(name, list.len())?;
        for (index, value) in list.iter().enumerate() {
            check_range(&format!("{path}.{name}[{index}]"), *value, least, most, unit)?;
        }
    }
    one_each("free", step.free.len())?;
    for (index, free) in step.free.iter().enumerate() {
        check_range(&format!("{path}.free[{index}].height"), free.height, 0.0, HIGHEST_FOOT, "metres")?;
        let key = format!("{path}.free[{index}].circles");
        check_range(&key, free.circles, -MOST_CIRCLES, MOST_CIRCLES, "circles")?;
    }
    Ok(())
}
