//! What everybody does in a figure, named or drawn or both.

use super::kept_plans::kept_plan;
use super::laid_over::laid_over;
use super::{Choices, FigureError, find};
use crate::dance::{BarCounts, DanceError, Extra, Figure, Named, Part, Set};
use crate::motion::steps::Step;
use crate::motion::{Ground, PhraseError, Plan, USUAL_PHRASE, known_steps, track_of, with_amounts};
use std::sync::Arc;

/// A figure of a dance that is a named one, with a side's choices, for a set.
///
/// # Errors
/// When there is no such figure, a choice is not one of its own or has a value it cannot have, or the set cannot
/// dance it.
pub fn named_figure(name: &str, with: Extra, set: &Set) -> Result<Figure, FigureError> {
    let found = find(name)?;
    let named = Named { figure: found.name.to_owned(), with, extra: Extra::new() };
    let plan = plan_named(&named, &Ground::of(set))?;
    let title = found.title_with(&Choices::of(found, &named.with)?, &[]);
    let mut figure = Figure::drawn(found.name, &title, plan.bars);
    figure.named = Some(named);
    Ok(figure)
}

/// What everybody does in a named figure.
///
/// # Errors
/// When the figure, its choices or the set do not fit.
pub fn plan_named(named: &Named, ground: &Ground) -> Result<Plan, FigureError> {
    kept_plan(named, ground, || make_plan(named, ground)).map(Arc::unwrap_or_clone)
}

fn make_plan(named: &Named, ground: &Ground) -> Result<Plan, FigureError> {
    let found = find(&named.figure)?;
    let choices = Choices::of(found, &named.with)?;
    let mut plan = (found.plan)(ground, &choices)?;
    // Points on the way are whole micrometres: a sine can differ in its last place from build to build, and what a
    // file then says of a dancer who is redrawn would as well.
    let whole = |metres: f64| (metres * 1e6).round() / 1e6;
    for point in plan.parts.iter_mut().flat_map(|part| &mut part.legs).flat_map(|leg| &mut leg.through) {
        (point.x, point.y) = (whole(point.x), whole(point.y));
    }
    settle_turns(&mut plan, ground);
    Ok(plan)
}

/// Gives the turns of a named figure the amounts that they have when it is danced from home, so that they keep them
/// wherever its dancers come from.
fn settle_turns(plan: &mut Plan, ground: &Ground) {
    let (known, counts) = (known_steps(&[]), plan.counts() as usize);
    for (part, stand) in plan.parts.iter_mut().zip(&ground.stands) {
        if part.turns.iter().any(|turn| turn.by.is_none())
            && let Ok(track) = track_of(part, stand, &plan.phrase, &known, counts)
        {
            *part = with_amounts(part, &track);
        }
    }
}

/// What everybody does in a figure of a dance: the named one where there is one, and over it the dancers that
/// are drawn. Its counts fall into `bars`.
///
/// # Errors
/// When the named figure, its choices or the set do not fit; `index` gives the place for the message.
pub fn plan_of(
    figure: &Figure,
    (index, bars): (usize, BarCounts),
    ground: &Ground,
    known: &[Step],
) -> Result<Plan, DanceError> {
    let mut plan = match &figure.named {
        Some(named) => {
            let plan = plan_named(named, ground)
                .map_err(|error| DanceError::key(format!("figures[{index}].named"), error.to_string()))?;
            if plan.bars != figure.bars {
                return Err(DanceError::key(
                    format!("figures[{index}].bars"),
                    format!("{} takes {} bars, not {}", named.figure, plan.bars, figure.bars),
                ));
            }
            plan
        }
        None => Plan::still(figure.bars, &usual_phrase(figure.bars), ground.dancers()),
    };
    plan = plan.in_bars(bars, known);
    if !figure.phrase.is_empty() {
        plan.phrase.clone_from(&figure.phrase);
        let counts = plan.counts() as usize;
        let laid = |part: &Part| laid_over(&part.phrase, &figure.phrase, known, counts);
        let laid: Result<Vec<String>, PhraseError> = plan.parts.iter().map(laid).collect();
        // What cannot be cut where somebody's turn begins is stepped by everyone, as in files of version 1.
        let laid = laid.unwrap_or_else(|_| vec![String::new(); plan.parts.len()]);
        for (part, phrase) in plan.parts.iter_mut().zip(laid) {
            part.phrase = phrase;
        }
    }
    if let Some(stance) = figure.ends.stance {
        plan.ends = stance;
    }
    if let Some(spots) = figure.ends.spots {
        plan.spots = spots;
        // Home is each dancer's own spot, wherever the named figure would have left them.
        plan.ends_in = ground.places().collect();
    }
    plan.lead = figure.lead;
    plan.strikes.clone_from(&figure.strikes);
    plan.straight_home |= figure.straight_home;
    plan.named_leads = plan.parts.iter().map(|part| part.leads.clone()).collect();
    plan.named_parts = vec![None; plan.parts.len()];
    for part in &figure.parts {
        let index = part.place.index();
        if let (Some(slot), Some(beneath)) = (plan.parts.get_mut(index), plan.named_parts.get_mut(index)) {
            let made = std::mem::replace(slot, part.clone());
            *beneath = figure.named.is_some().then_some(made);
            if let Some(drawn) = plan.drawn.get_mut(index) {
                *drawn = true;
            }
        }
    }
    Ok(plan)
}

/// The everyday phrase where it fits the bars, and double steps where it does not.
fn usual_phrase(bars: u32) -> String {
    if bars.is_multiple_of(4) { USUAL_PHRASE.to_owned() } else { "ds".to_owned() }
}
