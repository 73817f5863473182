//! Another stepping of a figure.

use crate::dance::{Dance, TurnOn};
use crate::motion::{Motion, Phrase, USUAL_PHRASE, fill_phrase, turn_times_on};

/// Has a figure (index) danced to another stepping; the motion is of the dance as it is. A turn tied to a step by its letters goes with what is
/// danced in the place of that step where that is new in the stepping and as long, such as a copy of it with other letters.
#[must_use]
pub fn set_phrase(dance: &Dance, motion: &Motion, index: usize, phrase: String) -> Dance {
    let mut made = dance.clone();
    let Some(figure) = made.figures.get_mut(index) else { return made };
    let was = std::mem::replace(&mut figure.phrase, phrase);
    // What the figure is danced to, where it says nothing of its own.
    let span = motion.spans().iter().find(|span| span.figure == index);
    let usual = span.map_or(USUAL_PHRASE, |span| span.plan().phrase.as_str());
    let counts = dance.bar_counts(figure).counts() as usize;
    let read = |phrase: &str| {
        fill_phrase(if phrase.is_empty() { usual } else { phrase }, motion.known(), counts).ok()
    };
    let Some((old, new)) = read(&was).zip(read(&figure.phrase)) else { return made };
    let at = |phrase: &Phrase, begin: f64| {
        let step = phrase.steps.iter().find(|(at, _)| (*at as f64 - begin).abs() < 1e-6)?.1;
        Some((step, motion.known().get(step)?))
    };
    let parts = figure.parts.iter_mut().filter(|part| part.phrase.is_empty());
    for turn in parts.flat_map(|part| &mut part.turns) {
        if turn.on.as_ref().and_then(TurnOn::step).is_none() {
            continue;
        }
        let Some((begin, _)) = turn_times_on(turn, &old, motion.known()) else { continue };
        let (Some((_, before)), Some((put, now))) = (at(&old, begin), at(&new, begin)) else { continue };
        let is_new = old.steps.iter().all(|(_, step)| *step != put);
        if is_new && now.counts() == before.counts() {
            turn.on = Some(TurnOn::Step(now.short.clone()));
        }
    }
    made
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Part, Set, Turn, Way};
    use crate::edits::copy_step;
    use crate::figures::motion_of;

    #[test]
    fn a_turn_tied_to_a_step_goes_with_the_copy_that_takes_its_place() {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("one", "One", 4);
        figure.phrase = "2 ds, 2 ss, ftj".to_owned();
        let mut part = Part::still(1);
        let turn = Turn { by: Some(90.0), face: None, ..Turn::to_face(4.0, 8.0, Way::Right, 0.0) };
        part.turns.push(turn.on(TurnOn::Step("ds".to_owned())));
        figure.parts.push(part);
        dance.figures.push(figure);
        let dance = copy_step(&dance, "ds").unwrap();
        let motion = motion_of(&dance, None).unwrap();
        let on = |phrase: &str| {
            let made = set_phrase(&dance, &motion, 0, phrase.to_owned());
            assert_eq!(made.figures[0].phrase, phrase);
            made.figures[0].parts[0].turns[0].on.clone().and_then(|on| on.step().map(ToOwned::to_owned))
        };
        assert_eq!(on("2 ds2, 2 ss, ftj").as_deref(), Some("ds2"));
        assert_eq!(on("ds, ds2, 2 ss, ftj").as_deref(), Some("ds2"));
        // Only the step before it is another.
        assert_eq!(on("ds2, ds, 2 ss, ftj").as_deref(), Some("ds"));
        // What was danced already elsewhere, and what cannot be read, changes nothing.
        assert_eq!(on("ds, 2 ss, ds, ftj").as_deref(), Some("ds"));
        assert_eq!(on("2 ds2, hm").as_deref(), Some("ds"));
    }
}
