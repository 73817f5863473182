use super::cell_words::{CellError, Words};
use super::step_cells::{LANDINGS, PLACES, StepRow, as_written, carries, landing_of, side};
use crate::dance::{Foot, FreeFoot, FreePlace, Landing, limits};
use crate::motion::steps::{LIFTED, Step, swings, usual_rise};

/// Reads a cell and gives the step with it.
///
/// # Errors
/// When it is none of what the row takes; with the place.
pub fn with_cell(
    step: &Step,
    (lead, row): (Foot, StepRow),
    count: usize,
    text: &str,
) -> Result<Step, CellError> {
    let mut made = step.clone();
    let mut words = Words::of(text);
    let set = |list: &mut Vec<f64>, value: f64| {
        if let Some(slot) = list.get_mut(count) {
            *slot = value;
        }
    };
    match row {
        StepRow::LeftFoot | StepRow::RightFoot => read_foot(&mut made, (lead, side(row)), count, &mut words)?,
        StepRow::Body => {
            let usual = usual_rise(&step.feet, count);
            let rise = if words.is_empty() { usual } else { words.length([0.0, limits::HIGHEST_RISE])? };
            set(&mut made.rise, rise);
        }
        StepRow::Goes => {
            let share = if words.take_any(&["none"]).is_some() {
                0.0
            } else {
                words.share("a share", 100.0, &["none"])?
            };
            set(&mut made.travels, share);
        }
        StepRow::LeftHand | StepRow::RightHand => {
            let written = as_written(step, lead, side(row));
            let height = match words.take_any(&["down", "high"]) {
                Some("down") => 0.0,
                Some(_) => 1.0,
                None => {
                    let height = words.share("down, high or a number", 1.0, &["down", "high"])?;
                    let _ = words.take_any(&["up"]);
                    height
                }
            };
            let forward = read_forward(&mut words)?.unwrap_or_else(|| swings(height));
            set(if written == 0 { &mut made.left_hand } else { &mut made.right_hand }, height);
            if let Some(list) = made.forward.get_mut(written) {
                set(list, forward);
            }
        }
        StepRow::Circles => {
            let circles = if words.is_empty() {
                0.0
            } else {
                let many = words.number("how many circles", [0.0, limits::MOST_CIRCLES])?;
                match words.take_any(&["in", "out"]) {
                    Some("out") => -many,
                    Some(_) => many,
                    None if many == 0.0 => 0.0,
                    None => return Err(words.wanted("in or out", &["in", "out"])),
                }
            };
            set(&mut made.circles, circles);
        }
    }
    words.end()?;
    Ok(made)
}

/// Reads how far forward a hand is, metres, back below 0: `45 cm back`, or `back 45 cm`; nothing where nothing is said of it.
fn read_forward(words: &mut Words) -> Result<Option<f64>, CellError> {
    const WAYS: [&str; 2] = ["forward", "back"];
    let (way, metres) = match words.take_any(&WAYS) {
        Some(way) => (way, words.length([0.0, limits::ARM])?),
        None if !words.is_number() => return Ok(None),
        None => {
            let metres = words.length([0.0, limits::ARM])?;
            (words.take_any(&WAYS).ok_or_else(|| words.wanted("forward or back", &WAYS))?, metres)
        }
    };
    Ok(Some(if way == "back" { -metres } else { metres }))
}

/// Reads what a foot does.
fn read_foot(
    made: &mut Step,
    (lead, side): (Foot, usize),
    count: usize,
    words: &mut Words,
) -> Result<(), CellError> {
    let names: Vec<&str> = LANDINGS.iter().map(|(word, _)| *word).collect();
    let own = landing_of(lead, side);
    let Some(landing) = made.feet.get(count).copied() else { return Ok(()) };
    let wanted = if let Some(word) = words.take_any(&names) {
        let wanted = LANDINGS.iter().find(|(known, _)| *known == word).and_then(|(_, landing)| *landing);
        wanted.unwrap_or(own)
    } else {
        let mut free =
            made.free.get(count).cloned().unwrap_or_else(|| FreeFoot::new(FreePlace::Beside, LIFTED));
        free.at = read_place(words)?;
        if words.is_number() {
            free.height = words.length([0.0, limits::HIGHEST_FOOT])?;
        }
        free.circles = 0.0;
        if words.take_any(&["circle", "circles"]).is_some() {
            let most = limits::MOST_CIRCLES;
            free.circles = words.number("how many circles", [-most, most])?;
        }
        if let Some(slot) = made.free.get_mut(count) {
            *slot = free;
        }
        // The other one carries the weight: it goes on doing so where it does, and otherwise lands.
        let other = landing_of(lead.other(), side);
        if landing == Landing::Stay && carries(made, count) == Some(other) { landing } else { other }
    };
    if wanted != landing {
        land(made, count, wanted);
    }
    Ok(())
}

/// Has something else land on a count. A rise that was the usual one is that of what lands now.
pub fn land(step: &mut Step, count: usize, landing: Landing) {
    let before: Vec<f64> = (0..step.feet.len()).map(|count| usual_rise(&step.feet, count)).collect();
    if let Some(slot) = step.feet.get_mut(count) {
        *slot = landing;
    }
    for (count, before) in before.into_iter().enumerate() {
        let now = usual_rise(&step.feet, count);
        if let Some(rise) = step.rise.get_mut(count).filter(|rise| **rise == before) {
            *rise = now;
        }
    }
}

fn read_place(words: &mut Words) -> Result<FreePlace, CellError> {
    for (name, place) in PLACES {
        let mut parts = name.split(' ');
        let (Some(first), second) = (parts.next(), parts.next()) else { continue };
        let matches =
            words.peek() == Some(first) && second.is_none_or(|second| words.peek_second() == Some(second));
        if matches {
            words.skip(1 + usize::from(second.is_some()));
            return Ok(place);
        }
    }
    // Crossed goes without saying.
    let crossed = PLACES.into_iter().filter_map(|(name, place)| Some((name.split_once(' ')?.1, place)));
    if let Some((_, place)) = crossed.clone().find(|(name, _)| words.peek() == Some(name)) {
        words.skip(1);
        return Ok(place);
    }
    if words.peek() == Some("crossed") {
        words.skip(1);
        return Err(words.wanted("before or behind", &["before", "behind"]));
    }
    let known: Vec<&str> = LANDINGS
        .iter()
        .map(|(word, _)| *word)
        .chain(PLACES.iter().map(|(word, _)| *word))
        .chain(crossed.map(|(name, _)| name))
        .collect();
    Err(words.wanted(
        "lands, hops, both, air, upbeat, stays, front, beside, crossed before, crossed behind or shin",
        &known,
    ))
}

#[cfg(test)]
mod tests {
    use super::super::step_cells::step_cell;
    use super::*;
    use crate::motion::known_steps;
    use proptest::prelude::*;

    fn double() -> Step {
        known_steps(&[]).into_iter().find(|step| step.short == "ds").unwrap()
    }

    fn read(row: StepRow, count: usize, text: &str) -> Result<Step, CellError> {
        with_cell(&double(), (Foot::Left, row), count, text)
    }

    /// What a cell shows is read as what it is, in every known step.
    #[test]
    fn what_is_shown_is_read_as_it_is() {
        for step in known_steps(&[]) {
            for lead in [Foot::Left, Foot::Right] {
                for row in StepRow::ALL {
                    for count in 0..step.counts() {
                        let text = step_cell(&step, lead, row, count);
                        let made = with_cell(&step, (lead, row), count, &text).unwrap();
                        assert_eq!(made, step, "{} {lead:?} {row:?} {count} {text}", step.short);
                    }
                }
            }
        }
    }

    #[test]
    fn a_foot_that_lands_has_the_other_free() {
        let made = read(StepRow::RightFoot, 0, "lands").unwrap();
        assert_eq!(made.feet[0], Landing::Other);
        assert_eq!(step_cell(&made, Foot::Left, StepRow::LeftFoot, 0), "beside 10 cm");
        let made = read(StepRow::LeftFoot, 0, "crossed before 12cm circle -1").unwrap();
        assert_eq!(made.feet[0], Landing::Other);
        assert_eq!(
            (made.free[0].at, made.free[0].height, made.free[0].circles),
            (FreePlace::CrossedBefore, 0.12, -1.0)
        );
        // The other way round where the right foot leads.
        let made = with_cell(&double(), (Foot::Right, StepRow::LeftFoot), 0, "lands").unwrap();
        assert_eq!(made.feet[0], Landing::Other);
        let made = read(StepRow::RightFoot, 2, "both").unwrap();
        assert_eq!((made.feet[2], made.rise[3]), (Landing::Both, 0.0), "the hop on 4 is a step now");
        let made = read(StepRow::LeftFoot, 1, "air").unwrap();
        assert!((made.rise[1] - 0.25).abs() < 1e-9, "[MB1]: about as high as the dancer's own foot");
    }

    #[test]
    fn hands_and_heights() {
        let made = read(StepRow::LeftHand, 1, "0,15 back 45 cm").unwrap();
        assert_eq!((made.left_hand[1], made.forward[0][1]), (0.15, -0.45));
        assert_eq!(step_cell(&made, Foot::Left, StepRow::LeftHand, 1), "15 % up, 45 cm back");
        for same in ["15 % up, 45 cm back", "15% back 45", "0.15 up 45cm back", "0.15, 0.45 m back"] {
            assert_eq!(read(StepRow::LeftHand, 1, same).unwrap(), made, "{same}");
        }
        assert_eq!(step_cell(&made, Foot::Left, StepRow::Goes, 3), "70 %");
        assert_eq!(read(StepRow::Goes, 3, "0.7").unwrap(), double());
        assert_eq!(read(StepRow::Goes, 3, "none").unwrap().travels[3], 0.0);
        assert_eq!(made.right_hand, double().right_hand);
        assert_eq!(read(StepRow::Body, 3, "0.1 m").unwrap().rise[3], 0.1);
        assert_eq!(read(StepRow::Body, 3, "10").unwrap().rise[3], 0.1);
        assert_eq!(read(StepRow::Circles, 0, "0.5 out").unwrap().circles[0], -0.5);
        assert_eq!(read(StepRow::Goes, 0, "0").unwrap().travels[0], 0.0);
    }

    #[test]
    fn what_is_wrong_is_told_with_its_place() {
        for (row, text, said, place) in [
            (StepRow::LeftFoot, "landz", "did you mean lands?", 0..5),
            (StepRow::LeftFoot, "front 130", "out of range; expected centimetres from 0 to 120", 6..9),
            (StepRow::LeftFoot, "front 10 cm up", "one word too many", 12..14),
            (StepRow::LeftFoot, "crossed 4", "before or behind", 8..9),
            (StepRow::Body, "61", "from 0 to 60", 0..2),
            (StepRow::LeftHand, "1.5", "from 0 to 1", 0..3),
            (StepRow::LeftHand, "150 %", "from 0 to 100", 0..3),
            (StepRow::LeftHand, "high up", "one word too many", 5..7),
            (StepRow::Circles, "2 inn", "in or out", 2..5),
            (StepRow::Goes, "all", "from 0 to 100", 0..3),
        ] {
            let error = read(row, 0, text).unwrap_err();
            assert!(error.said.contains(said), "{text}: {error}");
            assert_eq!(error.place, place, "{text}");
        }
        for (row, text) in [
            (StepRow::LeftFoot, ""),
            (StepRow::LeftFoot, "lan"),
            (StepRow::LeftFoot, "crossed be"),
            (StepRow::LeftHand, "0.5 back"),
            (StepRow::LeftHand, "50 % up, 30"),
            (StepRow::LeftHand, "50 % up, 30 cm"),
            (StepRow::Circles, "1"),
        ] {
            assert!(read(row, 0, text).unwrap_err().unfinished, "{text}");
        }
    }

    /// Of a foot that stays free while the weight stays on the other it is said where; no hop is written, and empty is the usual one.
    #[test]
    fn the_free_foot_of_a_stay_and_no_hop_at_all() {
        let stays = read(StepRow::LeftFoot, 1, "stays").unwrap();
        let made = with_cell(&stays, (Foot::Left, StepRow::RightFoot), 1, "front 30 cm").unwrap();
        assert_eq!(
            (made.feet[1], made.free[1].at, made.free[1].height),
            (Landing::Stay, FreePlace::Front, 0.3)
        );
        assert_eq!(step_cell(&made, Foot::Left, StepRow::RightFoot, 1), "front 30 cm");
        assert_eq!(step_cell(&made, Foot::Left, StepRow::LeftFoot, 1), "stays");
        let flat = read(StepRow::Body, 3, "0").unwrap();
        assert_eq!((flat.rise[3], step_cell(&flat, Foot::Left, StepRow::Body, 3)), (0.0, "0 cm".to_owned()));
        let usual = with_cell(&flat, (Foot::Left, StepRow::Body), 3, "").unwrap();
        assert_eq!(usual.rise[3], double().rise[3]);
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

        /// Whatever is typed is read or told of with a place within it, and what was read is shown as it is.
        #[test]
        fn anything_can_be_typed(text in "[a-z0-9 .,\u{2212}-]{0,24}|\\PC{0,12}", row in 0..7_usize, count in 0..4_usize) {
            let row = StepRow::ALL[row];
            match read(row, count, &text) {
                Ok(made) => {
                    let shown = step_cell(&made, Foot::Left, row, count);
                    let again = with_cell(&made, (Foot::Left, row), count, &shown).unwrap();
                    prop_assert_eq!(step_cell(&again, Foot::Left, row, count), shown);
                }
                Err(error) => {
                    prop_assert!(error.place.end <= text.chars().count(), "{}", error);
                    prop_assert!(!error.said.is_empty());
                }
            }
        }
    }
}
