use super::figure_look::FigureLook;
use super::spoken::watched;
use crate::dance::{Dancer, Foot};
use crate::faults::halves::{has_a_foot, next_lead};
use crate::faults::watched::{WatchKind, Watched};
use crate::motion::{LeadFrom, LeadMade, Track};

/// What a wrong first foot does: the first step whose foot is then not free, as the faults tell it when that first lead is changed and no
/// other; and where every later foot would follow from it, the first step that goes another way, or turns, whose foot is wanted as it is. After
/// a jump either foot is free again (common practice, no source).
pub(super) fn find(look: &FigureLook, goes_on: &mut dyn FnMut() -> bool) -> Vec<Watched> {
    look.tracks()
        .take_while(|_| goes_on())
        .flat_map(|(dancer, track)| of_dancer(look, dancer, track))
        .collect()
}

fn of_dancer(look: &FigureLook, dancer: Dancer, track: &Track) -> Vec<Watched> {
    let mut left = track.footing().leads();
    let mut found = Vec::new();
    while let Some(first) = left.first() {
        let last = left.iter().position(|made| next_lead(look.motion.known(), track, made).is_none());
        let (half, rest) = left.split_at(last.map_or(left.len(), |last| last + 1));
        left = rest;
        let shows = not_free(look, track, half).or_else(|| {
            let steps = half.iter().skip(1).filter(|made| has_a_foot(look.motion.known(), track, made));
            steps.map(|made| (made, step_words(track, made.at as f64))).find(|(_, what)| !what.is_empty())
        });
        let Some((made, what)) = shows else { continue };
        let what = if what.is_empty() { "for the step" } else { what };
        let said = format!(
            "start on the {} foot at {}; on the wrong one, the {} is not free {what} at {}",
            word(first.foot),
            look.moment(first.at as f64),
            word(made.foot),
            look.moment(made.at as f64)
        );
        found.push(watched(look, WatchKind::Foot, (first.at as f64, 1.0), vec![dancer], said));
    }
    found
}

fn word(foot: Foot) -> &'static str {
    if foot == Foot::Left { "left" } else { "right" }
}

/// The first step of a half whose foot is not free when the half is begun on the other foot: its foot does not follow from the step before.
fn not_free<'a>(
    look: &FigureLook,
    track: &Track,
    half: &'a [LeadMade],
) -> Option<(&'a LeadMade, &'static str)> {
    let known = look.motion.known();
    let mut free: Option<Foot> = None;
    for made in half {
        let follows = made.from == LeadFrom::Step;
        let foot = match free {
            None => made.foot.other(),
            Some(free) if follows => free,
            Some(_) => made.foot,
        };
        let wrong = free.is_some_and(|free| free != foot) && made.from != LeadFrom::Phrase;
        if wrong && has_a_foot(known, track, made) {
            return Some((made, step_words(track, made.at as f64)));
        }
        free = next_lead(known, track, &LeadMade { foot, ..made.clone() });
    }
    None
}

/// What is done with the step at a count: nothing where it goes on as before.
fn step_words(track: &Track, at: f64) -> &'static str {
    let turns = track
        .turns()
        .iter()
        .zip(track.amounts())
        .any(|(turn, amount)| (turn.begin - at).abs() < 0.5 && amount.abs() > 45.0);
    let goes = track.moves().iter().any(|leg| (leg.begin - at).abs() < 0.5 && leg.course.length() > 0.3);
    match (turns, goes) {
        (true, true) => "to step off turning",
        (true, false) => "to turn",
        (false, true) => "to step off",
        (false, false) => "",
    }
}
