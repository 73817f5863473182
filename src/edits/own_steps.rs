//! The steps of a dance's own: made from a copy of a known one, changed, taken away. Steps count from 0.

use crate::dance::{
    Dance, DanceError, Foot, FreeFoot, FreePlace, InFile, Landing, OwnStep, Part, Turn, TurnOn,
    are_letters_of_a_step, check_rules, quoted, shown_name,
};
use crate::figures::motion_of;
use crate::motion::known_steps;
use crate::motion::steps::{LIFTED, Step, built_in, usual_rise};
use thiserror::Error;

/// Why a step cannot be made or be so.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum StepError {
    /// There is no such step.
    #[error("the dance has no step {}", quoted(.0))]
    Unknown(String),
    /// The dance has no step of its own by that number.
    #[error("the dance has no step {} of its own", .0 + 1)]
    NoStep(usize),
    /// A name of nothing.
    #[error("a step needs a name")]
    Nameless,
    /// A phrase could not tell these letters from a number or a foot.
    #[error(
        "{} cannot be the letters of a step; letters and figures, the first of them a letter, and none of left, right, start and hop",
        quoted(.0)
    )]
    Letters(String),
    /// Another step of the dance's own has them.
    #[error("{} are the letters of {} already", quoted(short), quoted(name))]
    Taken {
        /// The letters.
        short: String,
        /// The name of the one that has them.
        name: String,
    },
    /// It is danced.
    #[error("{} is danced in {}; write another step there first", quoted(short), shown_name(figure))]
    Danced {
        /// The letters.
        short: String,
        /// The figure whose stepping has it.
        figure: String,
    },
    /// A figure cannot be danced with it.
    #[error("in {}: {}", shown_name(figure), error.message)]
    InFigure {
        /// The figure's name.
        figure: String,
        /// What is wrong there.
        error: DanceError,
    },
    /// What a dance cannot be.
    #[error("{}", .0.message)]
    Cannot(DanceError),
}

/// The dance with a step of its own more: a copy of a known one, by its letters. It has letters and a name of its own, and comes after the
/// others.
///
/// # Errors
/// When no such step is known.
pub fn copy_step(dance: &Dance, short: &str) -> Result<Dance, StepError> {
    let known = known_steps(&dance.steps);
    let step =
        known.iter().find(|step| step.short == short).ok_or_else(|| StepError::Unknown(short.to_owned()))?;
    let own = dance.steps.iter().rfind(|own| own.short == short);
    let mut copy = own.cloned().unwrap_or_else(|| OwnStep::from(step));
    let stem = short.trim_end_matches(|letter: char| letter.is_ascii_digit());
    let stem = if stem.is_empty() { "step" } else { stem };
    let free = |short: &String| known.iter().all(|other| other.short != *short);
    let number = (2..u32::MAX).find(|number| free(&format!("{stem}{number}"))).unwrap_or(2);
    copy.short = format!("{stem}{number}");
    let plain = step.name.strip_prefix("our ").unwrap_or(&step.name);
    let plain = plain.trim_end_matches(|letter: char| letter.is_ascii_digit()).trim_end();
    let called = |name: &str| dance.steps.iter().any(|own| own.name == name);
    copy.name = format!("our {}", if plain.is_empty() { &step.name } else { plain });
    if called(&copy.name) {
        copy.name = format!("{} {number}", copy.name);
    }
    let mut made = dance.clone();
    made.steps.push(copy);
    danceable(made)
}

/// The dance with a step of its own changed. Where its letters change, the phrases that name it have the new ones.
///
/// # Errors
/// When there is no such step, its letters are another's or none that a phrase can have, or a figure cannot be danced with it.
pub fn set_step(dance: &Dance, index: usize, step: OwnStep) -> Result<Dance, StepError> {
    let before = dance.steps.get(index).ok_or(StepError::NoStep(index))?;
    // What a file has is left as it is, until it is changed.
    if (&before.name, &before.short) != (&step.name, &step.short) {
        check_names(dance, index, &step.name, &step.short)?;
    }
    let (old, new) = (before.short.clone(), step.short.clone());
    let mut made = dance.clone();
    if let Some(slot) = made.steps.get_mut(index) {
        *slot = step;
    }
    if old != new {
        for figure in &mut made.figures {
            figure.phrase = renamed(&figure.phrase, &old, &new);
            for part in &mut figure.parts {
                part.phrase = renamed(&part.phrase, &old, &new);
                for turn in part.turns.iter_mut().filter(|turn| is_on(turn, &old)) {
                    turn.on = Some(TurnOn::Step(new.clone()));
                }
            }
        }
    }
    danceable(made)
}

/// Whether a step of the dance's own can have this name and these letters.
///
/// # Errors
/// When it is no name, or the letters are another's or none that a phrase can have.
pub fn check_names(dance: &Dance, index: usize, name: &str, short: &str) -> Result<(), StepError> {
    if name.trim().is_empty() {
        return Err(StepError::Nameless);
    }
    if !are_letters_of_a_step(short) {
        return Err(StepError::Letters(short.to_owned()));
    }
    let mut others = dance.steps.iter().enumerate().filter(|(other, _)| *other != index);
    match others.find(|(_, other)| other.short == short) {
        Some((_, other)) => Err(StepError::Taken { short: short.to_owned(), name: other.name.clone() }),
        None => Ok(()),
    }
}

/// The dance without a step of its own. One that took the place of a built-in step gives it back.
///
/// # Errors
/// When there is no such step, or a figure is danced to it.
pub fn take_step_away(dance: &Dance, index: usize) -> Result<Dance, StepError> {
    let step = dance.steps.get(index).ok_or(StepError::NoStep(index))?;
    let mut made = dance.clone();
    made.steps.remove(index);
    let built_in = built_in().iter().any(|known| known.short == step.short);
    if let Some(figure) = danced_in(dance, &step.short).filter(|_| !built_in) {
        return Err(StepError::Danced { short: step.short.clone(), figure: figure.to_owned() });
    }
    danceable(made)
}

/// The first figure whose stepping, or a turn of it, names a step by its letters.
#[must_use]
pub fn danced_in<'a>(dance: &'a Dance, short: &str) -> Option<&'a str> {
    let names = |phrase: &str| phrase.split(',').any(|part| word_of(part).1 == short);
    let figures = dance.figures.iter();
    let named = |part: &Part| names(&part.phrase) || part.turns.iter().any(|turn| is_on(turn, short));
    let mut figures = figures.filter(|figure| names(&figure.phrase) || figure.parts.iter().any(named));
    figures.next().map(|figure| figure.name.as_str())
}

/// Whether a turn is tied to a step by its letters.
fn is_on(turn: &Turn, short: &str) -> bool {
    turn.on.as_ref().and_then(TurnOn::step) == Some(short)
}

/// The step with something of it changed, all of it written as it then is.
#[must_use]
pub fn with_change(own: &OwnStep, change: impl FnOnce(&mut Step)) -> OwnStep {
    let mut step = Step::from(own);
    change(&mut step);
    OwnStep { extra: own.extra.clone(), ..OwnStep::from(&step) }
}

/// The step with so many counts. Those that are added are steps from foot to foot, as at its end.
#[must_use]
pub fn with_counts(own: &OwnStep, counts: usize) -> OwnStep {
    with_change(own, |step| {
        while step.feet.len() < counts {
            let last =
                step.feet.iter().rev().find(|landing| matches!(landing, Landing::Lead | Landing::Other));
            let next = if last == Some(&Landing::Lead) { Landing::Other } else { Landing::Lead };
            step.feet.push(next);
        }
        step.feet.truncate(counts);
        let usual = FreeFoot::new(FreePlace::Beside, LIFTED);
        step.free.resize(counts, usual);
        step.travels.resize(counts, 1.0);
        let heights = [&mut step.left_hand, &mut step.right_hand];
        for (height, forward) in heights.into_iter().zip(&mut step.forward) {
            let last = (height.last().copied().unwrap_or(0.0), forward.last().copied().unwrap_or(0.0));
            height.resize(counts, last.0);
            forward.resize(counts, last.1);
        }
        step.circles.resize(counts, 0.0);
        let known = step.rise.len().min(counts);
        step.rise.truncate(known);
        let more: Vec<f64> = (known..counts).map(|count| usual_rise(&step.feet, count)).collect();
        step.rise.extend(more);
    })
}

/// The step with hands that go with the foot that leads, or no longer. Led by a foot it is danced with the same hands as before.
#[must_use]
pub fn with_hands_following(own: &OwnStep, follow: bool, lead: Foot) -> OwnStep {
    with_change(own, |step| {
        let before = step.hands_as_written(lead);
        step.hands_follow_lead = follow;
        if step.hands_as_written(lead) != before {
            std::mem::swap(&mut step.left_hand, &mut step.right_hand);
            step.forward.swap(0, 1);
        }
    })
}

fn danceable(dance: Dance) -> Result<Dance, StepError> {
    check_rules(&dance).and_then(|()| motion_of(&dance, None).map(drop)).map_err(|error| match figure_of(
        &dance, &error,
    ) {
        Some(figure) => StepError::InFigure { figure, error },
        None => StepError::Cannot(error),
    })?;
    Ok(dance)
}

/// The name of the figure in which something is wrong, where it is in one.
fn figure_of(dance: &Dance, error: &DanceError) -> Option<String> {
    let InFile::Key { path, .. } = &error.place else { return None };
    let (index, _) = path.strip_prefix("figures[")?.split_once(']')?;
    let figure = dance.figures.get(index.parse::<usize>().ok()?)?;
    Some(figure.name.clone()).filter(|name| !name.trim().is_empty())
}

/// What stands between two commas of a phrase: what is before its last word, and that word.
fn word_of(part: &str) -> (&str, &str) {
    let trimmed = part.trim_end();
    let at = trimmed.rfind(char::is_whitespace).map_or(0, |at| {
        at + trimmed.get(at..).and_then(|rest| rest.chars().next()).map_or(1, char::len_utf8)
    });
    (trimmed.get(..at).unwrap_or_default(), trimmed.get(at..).unwrap_or_default())
}

/// A phrase with the letters of a step changed.
fn renamed(phrase: &str, old: &str, new: &str) -> String {
    let parts = phrase.split(',').map(|part| match word_of(part) {
        (before, word) if word == old => format!("{before}{new}"),
        _ => part.to_owned(),
    });
    parts.collect::<Vec<_>>().join(",")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Set};

    fn two() -> Dance {
        let mut dance = Dance::new("Test", Set::longways(2, 2.0, 2.0));
        let mut figure = Figure::drawn("one", "One", 4);
        figure.phrase = "2 ds, 2 ss,ftj".to_owned();
        dance.figures.push(figure);
        dance
    }

    /// Nothing of a known step is lost in its copy, and nothing is written that goes without saying.
    #[test]
    fn a_copy_of_each_known_step_is_danced_as_that() {
        for known in built_in() {
            let made = copy_step(&two(), &known.short).unwrap();
            let copy = Step::from(&made.steps[0]);
            assert_eq!(Step { name: known.name.clone(), short: known.short.clone(), ..copy.clone() }, known);
            assert_ne!(copy.short, known.short);
            assert_ne!(copy.name, known.name);
        }
        assert_eq!(copy_step(&two(), "dz").unwrap_err(), StepError::Unknown("dz".to_owned()));
    }

    /// Hands that are one high and one low stay so with the foot that leads when they are to go with it, and come the other way round with
    /// the other foot; and back again.
    #[test]
    fn hands_that_are_to_go_with_the_foot_stay_as_they_are_seen() {
        let own = with_change(&copy_step(&two(), "ds").unwrap().steps[0], |step| {
            (step.left_hand, step.right_hand) = (vec![0.1; 4], vec![0.9; 4]);
            step.forward = [vec![0.2; 4], vec![-0.1; 4]];
        });
        let seen = |own: &OwnStep, lead: Foot| {
            let step = Step::from(own);
            let [left, right] = step.hands_as_written(lead);
            let of =
                |hand: usize| ([&step.left_hand, &step.right_hand][hand].clone(), step.forward[hand].clone());
            [of(left), of(right)]
        };
        for lead in [Foot::Left, Foot::Right] {
            let made = with_hands_following(&own, true, lead);
            assert!(made.hands_follow_lead);
            assert_eq!(seen(&made, lead), seen(&own, lead));
            let [left, right] = seen(&own, lead);
            assert_eq!(seen(&made, lead.other()), [right, left]);
            assert_eq!(with_hands_following(&made, false, lead), own);
        }
    }

    #[test]
    fn copies_of_copies_have_letters_of_their_own() {
        let mut dance = two();
        for short in ["ds", "ds", "ds2"] {
            dance = copy_step(&dance, short).unwrap();
        }
        let shorts: Vec<&str> = dance.steps.iter().map(|step| step.short.as_str()).collect();
        assert_eq!(shorts, ["ds2", "ds3", "ds4"]);
        let names: Vec<&str> = dance.steps.iter().map(|step| step.name.as_str()).collect();
        assert_eq!(names, ["our double step", "our double step 3", "our double step 4"]);
    }

    #[test]
    fn new_letters_go_into_the_phrases() {
        let mut dance = copy_step(&two(), "ds").unwrap();
        dance.figures[0].phrase = "left, 2 ds2, 2 ss,ds2 ".to_owned();
        let mut step = dance.steps[0].clone();
        step.short = "our".to_owned();
        let made = set_step(&dance, 0, step.clone()).unwrap();
        assert_eq!(made.figures[0].phrase, "left, 2 our, 2 ss,our");
        // One that takes the place of a built-in step, and gives it back.
        step.short = "ds".to_owned();
        let made = set_step(&dance, 0, step.clone()).unwrap();
        assert!(take_step_away(&made, 0).unwrap().steps.is_empty());
        let danced = take_step_away(&dance, 0).unwrap_err();
        assert_eq!(danced.to_string(), "\"ds2\" is danced in One; write another step there first");
        for (short, said) in
            [("", "cannot be"), ("2x", "cannot be"), ("left", "cannot be"), ("a b", "cannot be")]
        {
            let error = set_step(&dance, 0, OwnStep { short: short.to_owned(), ..step.clone() }).unwrap_err();
            assert!(error.to_string().contains(said), "{error}");
        }
        let nameless = set_step(&dance, 0, OwnStep { name: " ".to_owned(), ..step.clone() }).unwrap_err();
        assert_eq!(nameless, StepError::Nameless);
        let dance = copy_step(&dance, "ss").unwrap();
        step.short = "ss2".to_owned();
        assert_eq!(
            set_step(&dance, 0, step.clone()).unwrap_err().to_string(),
            "\"ss2\" are the letters of \"our single step\" already"
        );
        // A step that no longer fills its figure is refused with the phrase.
        step.short = "ds2".to_owned();
        let longer = with_counts(&step, 5);
        assert_eq!((longer.feet.len(), with_counts(&longer, 4)), (5, with_change(&step, |_| {})));
        let error = set_step(&dance, 0, longer).unwrap_err().to_string();
        assert!(error.starts_with("in One: phrase \"left, 2 ds2, 2 ss,ds2"), "{error}");
    }
}
