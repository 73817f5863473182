//! A figure in a line.

use super::alike::alike;
use super::clauses::Short;
use super::facts::{CourseSaid, Facing, Fact, Going, Lane, Pass, PhraseFacts, PlaceSaid, TurnWhen, Turning};
use super::full::seen_as;
use super::gather::facts;
use super::phrases::{Telling, gist as phrases};
use super::tell::partner;
use crate::dance::{BarCounts, Dance, Dancer, Number, Way};
use crate::motion::{Motion, SpanIndex};

/// Turns of less than this are left out of a gist, degrees.
const LEAST_TURN: f64 = 45.0;

/// One thing of a gist.
#[derive(Clone, Debug, PartialEq)]
pub enum Gist {
    /// To the place across, or home from it, past one dancer by a shoulder; whether it leads home.
    Cross(Pass, bool),
    /// A stretch of travelling.
    Go(Going),
    /// Forward or backwards as one faces up or down: which.
    Facing(Facing),
    /// Passing others, where the way says nothing of it.
    Pass(Vec<Pass>),
    /// Turning: all turns of more than 45 degrees of the phrase that go that way and are danced then.
    Turn(Way),
    /// Ending so, where it is not facing the partner.
    Face(Facing),
    /// Standing still.
    Stand,
    /// Dancing on the spot.
    OnTheSpot,
}

/// A span (index) of a motion in a line: what a dancer does, or where none is given what everybody does, those who do the same, or the
/// mirror of it, told once. `Cross by the right, turn left; home by the left, turn right.`
#[must_use]
pub fn gist(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Option<Dancer>) -> String {
    let bars = motion.span(span).map(|span| span.bar_counts().clone()).unwrap_or_default();
    match dancer {
        Some(dancer) => {
            let facts = facts(dance, motion, span, dancer);
            phrases::sentence(&line(&bars, partner(motion, dancer), &facts, true))
        }
        None => side(dance, motion, span, &bars),
    }
}

/// What is said of a dancer in a gist, phrase by phrase.
#[must_use]
pub fn gist_said(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Dancer) -> Vec<Vec<Gist>> {
    facts(dance, motion, span, dancer).iter().map(|phrase| phrase_said(phrase, true)).collect()
}

fn side(dance: &Dance, motion: &Motion, span: SpanIndex, bars: &BarCounts) -> String {
    let all: Vec<Vec<PhraseFacts>> =
        Dancer::all(motion.dancers()).map(|dancer| facts(dance, motion, span, dancer)).collect();
    let groups = |turns: bool| {
        alike(motion.dancers(), |dancer, image| {
            let (facts, partner) = seen_as(motion, dancer, image, all.get(dancer.index())?)?;
            Some(line(bars, partner, &facts, turns))
        })
    };
    let mut found = groups(true);
    if found.len() > 2 {
        // Where only the turns are each one's own they are left to the clauses.
        let plain = groups(false);
        if plain.len() < found.len() {
            found = plain;
        }
    }
    phrases::side(&found, motion.dancers())
}

/// The phrases of a figure in a line.
fn line(bars: &BarCounts, partner: Option<Number>, facts: &[PhraseFacts], turns: bool) -> String {
    let to = Telling { bars, partner };
    let parts: Vec<String> =
        facts.iter().map(|phrase| phrases::phrase(&to, &phrase_said(phrase, turns))).collect();
    let said = phrases::joined(&parts);
    // Where there is only so little of a turn that it is not said.
    if said.is_empty() { phrases::phrase(&to, &[Gist::OnTheSpot]) } else { said }
}

fn phrase_said(phrase: &PhraseFacts, turns: bool) -> Vec<Gist> {
    let own: Vec<&Turning> = phrase
        .facts
        .iter()
        .filter_map(|fact| if let Fact::Turn(turn) = fact { Some(turn) } else { None })
        .collect();
    let large: Vec<&Turning> = own.iter().copied().filter(|turn| turn.degrees > LEAST_TURN).collect();
    let one_way = large.windows(2).all(|pair| matches!(pair, [one, other] if one.way == other.way));
    let mut said: Vec<Gist> = Vec::new();
    let mut faced = None;
    for fact in &phrase.facts {
        match fact {
            Fact::Stand(None) => said.push(Gist::Stand),
            Fact::OnTheSpot(None) => said.push(Gist::OnTheSpot),
            Fact::Go(going) => match faced.take() {
                Some(way) if going.course == CourseSaid::Straight(0, None) && going.to.is_none() => {
                    said.push(Gist::Facing(way));
                }
                _ => said.extend(going_said(going)),
            },
            Fact::Passed(pass) => said.push(Gist::Pass(vec![*pass])),
            Fact::Turn(turn) if turn.degrees > LEAST_TURN => {
                if turn.when == TurnWhen::Start {
                    faced = turn.to.filter(|to| matches!(to, Facing::Up | Facing::Down));
                }
                // Turns that go one way are told with the last of them.
                let last = large.last().is_some_and(|last| std::ptr::eq(*last, turn));
                let told = said.last() == Some(&Gist::Turn(turn.way));
                if turns && !told && (last || !one_way) {
                    said.push(Gist::Turn(turn.way));
                }
            }
            Fact::End(_, facing) if !matches!(facing, Facing::Partner) && turns_or_goes(phrase) => {
                said.push(Gist::Face(*facing));
            }
            _ => {}
        }
    }
    said.dedup();
    round_each_other(said)
}

/// Between passing back to back and coming home one moves aside, which goes without saying.
fn round_each_other(said: Vec<Gist>) -> Vec<Gist> {
    let aside = |gist: &Gist| {
        matches!(gist, Gist::Go(Going { course: CourseSaid::Straight(2 | 6, _), to: None, .. }))
    };
    let back = |gist: &Gist| matches!(gist, Gist::Go(Going { to: Some(PlaceSaid::BackToBack(_)), .. }));
    let mut told: Vec<Gist> = Vec::with_capacity(said.len());
    for gist in said {
        if !(aside(&gist) && told.iter().rev().take(2).any(back)) {
            told.push(gist);
        }
    }
    told
}

fn turns_or_goes(phrase: &PhraseFacts) -> bool {
    phrase.facts.iter().any(|fact| matches!(fact, Fact::Turn(_) | Fact::Go(_)))
}

fn going_said(going: &Going) -> Vec<Gist> {
    let inner = matches!(going.course, CourseSaid::Lane(_, Lane::Inside | Lane::Outside));
    match (going.passes.as_slice(), going.to) {
        ([pass], Some(PlaceSaid::Spot(place)))
            if place == pass.number.dancer().home() && matches!(going.course, CourseSaid::Straight(..)) =>
        {
            vec![Gist::Cross(*pass, false)]
        }
        ([pass], Some(PlaceSaid::Home)) if matches!(going.course, CourseSaid::Straight(0, _)) => {
            vec![Gist::Cross(*pass, true)]
        }
        // In a hey those who are passed are told bar by bar.
        ([], _) => vec![Gist::Go(going.clone())],
        _ if inner => vec![Gist::Go(going.clone())],
        (passes, _) => vec![Gist::Go(going.clone()), Gist::Pass(passes.to_vec())],
    }
}

/// One thing of a gist as one of a clause, where it is one.
pub(super) fn as_short(gist: &Gist) -> Option<Short> {
    match gist {
        Gist::Pass(passes) => Some(Short::Pass(passes.clone())),
        Gist::Face(facing) => Some(Short::Face(*facing)),
        Gist::Go(going) => Some(Short::Go(going.clone())),
        Gist::Stand => Some(Short::Stand),
        Gist::OnTheSpot => Some(Short::OnTheSpot),
        Gist::Cross(..) | Gist::Facing(_) | Gist::Turn(_) => None,
    }
}
