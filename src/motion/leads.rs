//! Which foot starts, and why.
//!
//! The nearest choice wins: a lead drawn for the dancer; the dancer's own rule; `left` or `right` written in the
//! phrase; the figure's rule; the named figure's own; the dance's; and right where nothing is said [MB1]. A rule speaks
//! where a figure begins and after a jump, which leaves either foot free; in between the lead follows from the steps
//! (common practice, no source).

use super::{Ground, phrase::Phrase, steps::Step, wrap_half};
use crate::dance::{Dancer, Foot, Lead, LeadRule, PlaceNumber};

/// Where a lead was chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeadFrom {
    /// Drawn or ruled for this dancer.
    Dancer,
    /// Written in the phrase.
    Phrase,
    /// The figure, as this side dances it.
    Figure,
    /// The named figure's own rule.
    Named,
    /// The dance's tradition.
    Dance,
    /// Nowhere: the Morris Book leads with the right unless told otherwise [MB1].
    Usual,
    /// The step before it, which left the other foot free.
    Step,
}

/// The lead of a step and why it is so.
#[derive(Clone, Debug, PartialEq)]
pub struct LeadMade {
    /// The count of the figure, from 0, at which the step begins.
    pub at: usize,
    /// The one that lands first.
    pub foot: Foot,
    /// The rule, where one chose it.
    pub rule: Option<LeadRule>,
    /// Where that was chosen.
    pub from: LeadFrom,
    /// The way the dancer faces as they start, degrees clockwise from up, where the rule looks at it.
    pub facing: Option<f64>,
}

/// What there is to choose leads by.
pub struct LeadChoices<'a> {
    /// Who it is.
    pub dancer: Dancer,
    /// The place in which the dancer begins the figure.
    pub place: PlaceNumber,
    /// Leads drawn for this dancer at counts of the figure.
    pub drawn: &'a [Lead],
    /// Leads that a named figure made at counts of the figure.
    pub made: &'a [Lead],
    /// Rules, the nearest first.
    pub rules: &'a [(LeadRule, LeadFrom)],
    /// The rule by which a named figure made its leads.
    pub named: Option<LeadRule>,
    /// The foot that the figure before left free; nothing where either may start.
    pub carried: Option<Foot>,
    /// The spots.
    pub ground: &'a Ground,
    /// Where the dancer is and which way they face at a count: metres right, metres up, degrees.
    pub stand: &'a dyn Fn(f64) -> (f64, f64, f64),
}

/// The lead of each step of a phrase, in order, and the foot that they leave for the next figure.
#[must_use]
pub fn choose_leads(phrase: &Phrase, known: &[Step], choices: &LeadChoices) -> (Vec<LeadMade>, Option<Foot>) {
    let mut made = Vec::with_capacity(phrase.steps.len());
    let mut free: Option<Foot> = None;
    let mut half = 0;
    for (index, &(at, step)) in phrase.steps.iter().enumerate() {
        let Some(known) = known.get(step) else { continue };
        let spoken = phrase.leads.iter().find(|(count, _)| *count == at).map(|(_, foot)| *foot);
        let chosen_in = |leads: &[Lead]| {
            leads.iter().find(|lead| (lead.at - at as f64).abs() < 0.5).map(|lead| lead.foot)
        };
        let chosen = (chosen_in(choices.drawn), chosen_in(choices.made));
        let starts = index == 0 || free.is_none();
        let lead = choose(at, half, starts, chosen, spoken, free, choices);
        if starts {
            half += 1;
        }
        free = known.next_lead(lead.foot);
        made.push(lead);
    }
    (made, free.or(if phrase.steps.is_empty() { choices.carried } else { None }))
}

fn choose(
    at: usize,
    half: usize,
    starts: bool,
    (drawn, by_figure): (Option<Foot>, Option<Foot>),
    spoken: Option<Foot>,
    free: Option<Foot>,
    choices: &LeadChoices,
) -> LeadMade {
    let made = |foot, rule, from, facing| LeadMade { at, foot, rule, from, facing };
    if let Some(foot) = drawn {
        return made(foot, None, LeadFrom::Dancer, None);
    }
    let near =
        |wanted: LeadFrom| choices.rules.iter().find(|(_, from)| *from == wanted).map(|(rule, _)| *rule);
    if starts && let Some(rule) = near(LeadFrom::Dancer) {
        let (foot, facing) = by_rule(rule, at, half, choices);
        return made(foot, Some(rule), LeadFrom::Dancer, facing);
    }
    if let Some(foot) = spoken {
        return made(foot, None, LeadFrom::Phrase, None);
    }
    if starts && let Some(rule) = near(LeadFrom::Figure) {
        let (foot, facing) = by_rule(rule, at, half, choices);
        return made(foot, Some(rule), LeadFrom::Figure, facing);
    }
    if let Some(foot) = by_figure {
        // The facing a count in is why, unless the dancer is then in the middle of a turn that goes on.
        let rule = choices.named.filter(|rule| *rule == LeadRule::OutsideFoot);
        let facing = rule.map(|rule| by_rule(rule, at, half, choices)).filter(|(ruled, _)| *ruled == foot);
        return made(foot, choices.named, LeadFrom::Named, facing.and_then(|(_, facing)| facing));
    }
    if let Some(foot) = free {
        return made(foot, None, LeadFrom::Step, None);
    }
    if let Some(rule) = near(LeadFrom::Dance) {
        let (foot, facing) = by_rule(rule, at, half, choices);
        return made(foot, Some(rule), LeadFrom::Dance, facing);
    }
    match choices.carried.filter(|_| at == 0) {
        Some(foot) => made(foot, None, LeadFrom::Step, None),
        None => made(Foot::Right, None, LeadFrom::Usual, None),
    }
}

/// The foot that a rule gives for a start (the count, and how many starts came before it), and the facing it looked
/// at.
#[must_use]
pub fn by_rule(rule: LeadRule, at: usize, half: usize, choices: &LeadChoices) -> (Foot, Option<f64>) {
    let side = |left: bool| if left { Foot::Left } else { Foot::Right };
    match rule {
        LeadRule::Left => (Foot::Left, None),
        LeadRule::Right | LeadRule::SameWay => (Foot::Right, None),
        LeadRule::LeftThenRight => (side(half.is_multiple_of(2)), None),
        LeadRule::ByNumber => (side(!choices.dancer.is_even()), None),
        LeadRule::OutsideFoot => {
            // A count in, a turn to face up or down has been made.
            let (x, y, facing) = (choices.stand)(at as f64 + 1.0);
            let partner = choices.ground.partner(choices.place).and_then(|place| choices.ground.stand(place));
            // The partner's file is what counts, wherever in it they are.
            let (to_x, to_y) = partner.map_or((0.0, 0.0), |stand| (stand.x, y));
            let bearing = wrap_half((to_x - x).atan2(to_y - y).to_degrees() - facing);
            (side(bearing >= 0.0), Some(facing))
        }
    }
}
