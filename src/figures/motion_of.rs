//! The motion of a dance: the plan of each figure in the running order, joined.

use super::{FigureError, by_numbers, plan_of};
use crate::dance::{Dance, DanceError, Figure, Person, TurnOn, did_you_mean, quoted, shown_list};
use crate::motion::steps::Step;
use crate::motion::{Ground, Held, Motion, PhraseError, Plan, fill_phrase, known_steps};
use std::borrow::Cow;
use std::sync::Arc;

/// The motion of a whole dance; `before` is the motion of an earlier state of it, to share what is the same.
///
/// # Errors
/// When a figure cannot be worked out, with the path of its key.
pub fn motion_of(dance: &Dance, before: Option<&Motion>) -> Result<Motion, DanceError> {
    motion_of_figures(dance, &dance.danced(), before, |_| None)
}

/// The motion of a dance that was made from another: figures that are as they were are not looked at again.
///
/// # Errors
/// When a figure cannot be worked out, with the path of its key.
pub fn motion_after(dance: &Dance, before: (&Dance, &Motion)) -> Result<Motion, DanceError> {
    let (old, motion) = before;
    let alike =
        dance.set == old.set && dance.steps == old.steps && (dance.lead, dance.hops) == (old.lead, old.hops);
    if !alike {
        return motion_of(dance, Some(motion));
    }
    let mut plans: Vec<Option<&Arc<Plan>>> = vec![None; old.figures.len()];
    for span in motion.spans() {
        if let Some(plan) = plans.get_mut(span.figure) {
            *plan = Some(span.shared_plan());
        }
    }
    motion_of_figures(dance, &dance.danced(), Some(motion), |index| {
        let plan = plans.get(index).copied().flatten()?;
        let (figure, other) = (dance.figures.get(index)?, old.figures.get(index)?);
        let alike = figure == other
            && dance.metre_of(figure) == old.metre_of(other)
            && names_the_same(figure, &dance.people, &old.people);
        alike.then(|| Arc::clone(plan))
    })
}

/// The motion of one figure of a dance, begun with everyone at home.
///
/// # Errors
/// When the figure cannot be worked out, with the path of its key.
pub fn motion_of_figure(dance: &Dance, figure: usize) -> Result<Motion, DanceError> {
    motion_of_figures(dance, &[figure], None, |_| None)
}

/// `known_plan` gives the plan of a figure (index) where it is known already.
fn motion_of_figures(
    dance: &Dance,
    danced: &[usize],
    before: Option<&Motion>,
    known_plan: impl Fn(usize) -> Option<Arc<Plan>>,
) -> Result<Motion, DanceError> {
    let ground = Ground::of(&dance.set);
    let known = known_steps(&dance.steps);
    let mut made: Vec<Option<Arc<Plan>>> = vec![None; dance.figures.len()];
    let mut plans = Vec::with_capacity(danced.len());
    for &index in danced {
        let (Some(figure), Some(slot)) = (dance.figures.get(index), made.get_mut(index)) else { continue };
        let plan = match slot {
            Some(plan) => Arc::clone(plan),
            None => {
                let plan = match known_plan(index) {
                    Some(plan) => plan,
                    None => new_plan(dance, figure, index, (&ground, &known))?,
                };
                *slot = Some(Arc::clone(&plan));
                plan
            }
        };
        plans.push((index, plan));
    }
    Motion::compile(&ground, &dance.steps, &plans, before)
        .map(|motion| motion.holding(Held::of(dance)))
        .map_err(|error| DanceError::key("figures", error.to_string()))
}

fn new_plan(
    dance: &Dance,
    figure: &Figure,
    index: usize,
    (ground, known): (&Ground, &[Step]),
) -> Result<Arc<Plan>, DanceError> {
    let told = with_numbers(figure, &dance.people)
        .map_err(|error| DanceError::key(format!("figures[{index}].named"), error.to_string()))?;
    let mut plan = plan_of(&told, (index, dance.bar_counts(figure)), ground, known)?;
    plan.dance_lead = dance.lead;
    plan.hops = dance.hops;
    check_turns(figure, index, known)?;
    check_phrases(&plan, known)
        .map_err(|error| DanceError::key(format!("figures[{index}].phrase"), error.to_string()))?;
    Ok(Arc::new(plan))
}

/// A figure with the dancers that it names told by their numbers.
fn with_numbers<'a>(figure: &'a Figure, people: &[Person]) -> Result<Cow<'a, Figure>, FigureError> {
    let Some(named) = &figure.named else { return Ok(Cow::Borrowed(figure)) };
    Ok(match by_numbers(named, people)? {
        Cow::Borrowed(_) => Cow::Borrowed(figure),
        Cow::Owned(named) => Cow::Owned(Figure { named: Some(named), ..figure.clone() }),
    })
}

/// Whether the names that a figure says are of the same numbers.
fn names_the_same(figure: &Figure, people: &[Person], before: &[Person]) -> bool {
    let told = |people: &[Person]| figure.named.as_ref().map(|named| by_numbers(named, people));
    people == before || told(people) == told(before)
}

/// Reads the phrases of a plan, so that what is wrong in one is told with the place of its figure.
fn check_phrases(plan: &Plan, known: &[Step]) -> Result<(), PhraseError> {
    let counts = plan.counts() as usize;
    fill_phrase(&plan.phrase, known, counts)?;
    for part in plan.parts.iter().filter(|part| !part.phrase.is_empty()) {
        fill_phrase(&part.phrase, known, counts)?;
    }
    Ok(())
}

/// Looks whether the steps that turns are tied to by their letters are known.
fn check_turns(figure: &Figure, index: usize, known: &[Step]) -> Result<(), DanceError> {
    let shorts = || known.iter().map(|step| step.short.as_str());
    for (part, turn, on) in turns_on(figure) {
        if shorts().all(|short| short != on) {
            let meant = did_you_mean(on, shorts().chain(TurnOn::WORDS));
            let text = format!(
                "{} is not a step{meant}; a turn is danced on {}, or on a step: {}",
                quoted(on),
                TurnOn::WORDS.join(", "),
                shown_list(shorts())
            );
            return Err(DanceError::key(format!("figures[{index}].parts[{part}].turns[{turn}].on"), text));
        }
    }
    Ok(())
}

/// The turns of a figure that name a step: of which part (index), which of its turns (index), and the letters.
fn turns_on(figure: &Figure) -> impl Iterator<Item = (usize, usize, &str)> {
    figure.parts.iter().enumerate().flat_map(|(at, part)| {
        let turns = part.turns.iter().enumerate();
        turns.filter_map(move |(turn, said)| Some((at, turn, said.on.as_ref()?.step()?)))
    })
}

/// The name of the figure danced at a count of a motion of the whole dance.
#[must_use]
pub fn figure_name_at(dance: &Dance, motion: &Motion, count: f64) -> String {
    motion
        .span_under(count)
        .and_then(|span| dance.figures.get(span.figure))
        .map(|figure| figure.name.clone())
        .unwrap_or_default()
}
