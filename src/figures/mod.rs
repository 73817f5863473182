//! The named figures, each in its own file: choices in, legs and turns out.
//!
//! A new figure is one new file and one line in [`all`]. [`plan_of`] turns a figure of a dance, named or drawn
//! or both, into the plan that the movement engine dances; [`motion_of`] does so for a whole dance.
//!
//! ```
//! use bellpad::dance::{Dance, Set};
//! let mut dance = Dance::new("Small dance", Set::longways(6, 2.4, 1.8));
//! let figure = bellpad::figures::named_figure("cross-and-turn", Default::default(), &dance.set);
//! dance.figures.push(figure.unwrap());
//! let motion = bellpad::figures::motion_of(&dance, None).unwrap();
//! assert_eq!(motion.bars(), 8);
//! ```

mod back_to_back;
mod back_to_back_backing;
mod choices;
mod corners;
mod cross_and_turn;
mod cross_over;
mod down_and_back;
mod foot_up_and_down;
mod go_and_come;
mod half_hey;
mod half_rounds;
mod hey;
mod hey_timing;
mod into_line;
mod mirror;
mod partners;
mod rounds;
mod whole_rounds;

pub use choices::{Choice, Choices, Kind};
pub use mirror::{Mirror, mate, mirrored};

use crate::dance::{Dance, DanceError, Extra, Figure, Named, Set, did_you_mean, quoted, shown_text};
use crate::motion::steps::Step;
use crate::motion::{
    Ground, Motion, PhraseError, Plan, USUAL_PHRASE, fill_phrase, known_steps, track_of, with_amounts,
};
use std::sync::Arc;
use thiserror::Error;

/// A figure that is known by name.
pub struct NamedFigure {
    /// The name that files and the command line use.
    pub name: &'static str,
    /// The name that people read.
    pub title: &'static str,
    /// What it is, in a line.
    pub help: &'static str,
    /// What a side can choose about it.
    pub choices: &'static [Choice],
    plan: fn(&Ground, &Choices) -> Result<Plan, FigureError>,
}

/// Why a figure cannot be worked out.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum FigureError {
    /// No figure has this name.
    #[error("no figure is named {}{}; the figures are {}", quoted(name), meant(name), names())]
    Unknown {
        /// The name asked for.
        name: String,
    },
    /// A choice that the figure does not have.
    #[error("{figure} has no choice {}{}; it has {known}", quoted(key), did_you_mean(key, known.split(", ")))]
    NoChoice {
        /// The figure.
        figure: &'static str,
        /// The key.
        key: String,
        /// The keys that it has.
        known: String,
    },
    /// A choice with a value that it cannot have.
    #[error("{figure}: {key} is {}; expected {wanted}", shown_text(value))]
    Value {
        /// The figure.
        figure: &'static str,
        /// The key.
        key: &'static str,
        /// The value as it was given.
        value: String,
        /// What was expected.
        wanted: String,
    },
    /// A set that cannot dance it.
    #[error("{figure} cannot be danced by this set: {why}")]
    Set {
        /// The figure.
        figure: &'static str,
        /// Why not.
        why: String,
    },
}

/// How far apart partners pass.
const PASS: Choice = Choice {
    key: "pass",
    help: "how far apart partners' middles are as they pass",
    kind: Kind::Number { usual: 0.7, least: 0.4, most: 2.0, unit: "m" },
};

/// How many bars the way out takes, for figures that usually take one.
const ONE_BAR: Choice = Choice {
    key: "bars",
    help: "how many bars they travel out over",
    kind: Kind::Number { usual: 1.0, least: 1.0, most: 2.0, unit: "" },
};

/// How many bars the way out takes, for figures that usually take two.
const TWO_BARS: Choice = Choice {
    key: "bars",
    help: "how many bars they travel out over",
    kind: Kind::Number { usual: 2.0, least: 1.0, most: 2.0, unit: "" },
};

/// Which shoulder first.
const FIRST: Choice = Choice {
    key: "first",
    help: "the shoulder passed in the first half",
    kind: Kind::Word(&["right", "left"]),
};

/// Every named figure, in the order that the shelf shows them.
#[must_use]
pub fn all() -> [&'static NamedFigure; 13] {
    [
        &foot_up_and_down::FIGURE,
        &down_and_back::FIGURE,
        &into_line::FIGURE,
        &back_to_back::FIGURE,
        &back_to_back_backing::FIGURE,
        &cross_over::FIGURE,
        &cross_and_turn::FIGURE,
        &go_and_come::FIGURE,
        &whole_rounds::FIGURE,
        &half_rounds::FIGURE,
        &half_hey::FIGURE,
        &hey::FIGURE,
        &corners::FIGURE,
    ]
}

/// The figure that may have been meant, after an error about a name that is none.
fn meant(name: &str) -> String {
    did_you_mean(name, all().map(|figure| figure.name))
}

/// The names of all named figures, with commas between.
#[must_use]
pub fn names() -> String {
    all().map(|figure| figure.name).join(", ")
}

/// The named figure with a name.
///
/// # Errors
/// When there is none; the error lists those that there are.
pub fn find(name: &str) -> Result<&'static NamedFigure, FigureError> {
    all()
        .into_iter()
        .find(|figure| figure.name.eq_ignore_ascii_case(name.trim()))
        .ok_or_else(|| FigureError::Unknown { name: name.to_owned() })
}

/// A figure of a dance that is a named one, with a side's choices, for a set.
///
/// # Errors
/// When there is no such figure, a choice is not one of its own or has a value it cannot have, or the set cannot
/// dance it.
pub fn named_figure(name: &str, with: Extra, set: &Set) -> Result<Figure, FigureError> {
    let found = find(name)?;
    let named = Named { figure: found.name.to_owned(), with, extra: Extra::new() };
    let plan = plan_named(&named, &Ground::of(set))?;
    let mut figure = Figure::drawn(found.name, found.title, plan.bars);
    figure.named = Some(named);
    Ok(figure)
}

/// What everybody does in a named figure.
///
/// # Errors
/// When the figure, its choices or the set do not fit.
pub fn plan_named(named: &Named, ground: &Ground) -> Result<Plan, FigureError> {
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
/// are drawn.
///
/// # Errors
/// When the named figure, its choices or the set do not fit; `index` gives the place for the message.
pub fn plan_of(figure: &Figure, index: usize, ground: &Ground) -> Result<Plan, DanceError> {
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
    if !figure.phrase.is_empty() {
        plan.phrase.clone_from(&figure.phrase);
        plan.parts.iter_mut().for_each(|part| part.phrase.clear());
    }
    if let Some(stance) = figure.ends.stance {
        plan.ends = stance;
    }
    if let Some(spots) = figure.ends.spots {
        plan.spots = spots;
        // Home is each dancer's own spot, wherever the named figure would have left them.
        plan.ends_in = (0..ground.dancers()).collect();
    }
    plan.lead = figure.lead;
    plan.straight_home |= figure.straight_home;
    plan.named_leads = plan.parts.iter().map(|part| part.leads.clone()).collect();
    plan.named_parts = vec![None; plan.parts.len()];
    for part in &figure.parts {
        let index = (part.place as usize).wrapping_sub(1);
        if let (Some(slot), Some(beneath)) = (plan.parts.get_mut(index), plan.named_parts.get_mut(index)) {
            let made = std::mem::replace(slot, part.clone());
            *beneath = figure.named.is_some().then_some(made);
            if let Some(drawn) = plan.drawn.get_mut(part.place as usize - 1) {
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

/// The motion of a whole dance; `before` is the motion of an earlier state of it, to share what is the same.
///
/// # Errors
/// When a figure cannot be worked out, with the path of its key.
pub fn motion_of(dance: &Dance, before: Option<&Motion>) -> Result<Motion, DanceError> {
    motion_of_figures(dance, &dance.danced(), before)
}

/// The motion of one figure of a dance, begun with everyone at home.
///
/// # Errors
/// When the figure cannot be worked out, with the path of its key.
pub fn motion_of_figure(dance: &Dance, figure: usize) -> Result<Motion, DanceError> {
    motion_of_figures(dance, &[figure], None)
}

fn motion_of_figures(dance: &Dance, danced: &[usize], before: Option<&Motion>) -> Result<Motion, DanceError> {
    let ground = Ground::of(&dance.set);
    let known = known_steps(&dance.steps);
    let mut made: Vec<Option<Arc<Plan>>> = vec![None; dance.figures.len()];
    let mut plans = Vec::with_capacity(danced.len());
    for &index in danced {
        let (Some(figure), Some(slot)) = (dance.figures.get(index), made.get_mut(index)) else { continue };
        let plan = match slot {
            Some(plan) => Arc::clone(plan),
            None => {
                let mut plan = plan_of(figure, index, &ground)?;
                plan.dance_lead = dance.lead;
                plan.hops = dance.hops;
                let plan = Arc::new(plan);
                check_phrases(&plan, &known).map_err(|error| {
                    DanceError::key(format!("figures[{index}].phrase"), error.to_string())
                })?;
                *slot = Some(Arc::clone(&plan));
                plan
            }
        };
        plans.push((index, plan));
    }
    Motion::compile(&ground, &dance.steps, &plans, before)
        .map_err(|error| DanceError::key("figures", error.to_string()))
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

/// The name of the figure danced at a count of a motion of the whole dance.
#[must_use]
pub fn figure_name_at(dance: &Dance, motion: &Motion, count: f64) -> String {
    motion
        .span_at(count)
        .and_then(|index| motion.spans().get(index))
        .and_then(|span| dance.figures.get(span.figure))
        .map(|figure| figure.name.clone())
        .unwrap_or_default()
}
