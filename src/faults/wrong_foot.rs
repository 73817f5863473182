use super::{
    found::Found,
    halves::{Half, HalfStart, StartBy, halves, has_a_foot, next_lead, side, start},
    look::Look,
};
use crate::dance::{Dancer, FaultKind, Foot, LeadRule, shown_name};
use crate::motion::{LeadFrom, Span, Track};

/// Steps that begin on the wrong foot. Inside a phrase that is the foot which already carries the weight; at a start,
/// where either foot is free, it is a lead drawn against the rule that governs there. What the side writes in its
/// stepping or rules is what it means. The value is 1 and the limit 0: a foot is right or it is not.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        in_phrase(look, dancer, track, found);
        for half in halves(look, span, track) {
            let drawn = half.made.from == LeadFrom::Dancer && half.made.rule.is_none();
            if !drawn || !has_a_foot(look.motion.known(), track, half.made) {
                continue;
            }
            if let Some(expected) = start(look, span, dancer, track, &half)
                && expected.foot != half.made.foot
                && let Some(why) = why(look, span, dancer, &half, &expected)
            {
                let text = format!("{} starts {}; {why}", dancer, side(half.made.foot));
                let until = step_end(track, half.made.at);
                found.push(wrong(dancer, track, (half.begin, until), text));
            }
        }
    }
}

/// Steps inside a phrase that begin on the foot that carries the weight; steps in a row make one fault.
fn in_phrase(look: &Look, dancer: Dancer, track: &Track, found: &mut Vec<Found>) {
    let mut free: Option<Foot> = None;
    let mut before: Option<(f64, f64)> = None;
    for made in track.footing().leads() {
        let meant = made.from == LeadFrom::Phrase;
        let expected =
            free.filter(|foot| *foot != made.foot && !meant && has_a_foot(look.motion.known(), track, made));
        free = next_lead(look.motion.known(), track, made);
        if let Some(expected) = expected {
            let (begin, end) = (made.at as f64, step_end(track, made.at));
            match (before, found.last_mut()) {
                (Some((_, last)), Some(fault)) if (last - begin).abs() < 1e-6 => fault.lasts.1 = end,
                _ => {
                    let text = format!(
                        "{} steps {} with the weight already on it; the {} foot is free",
                        dancer,
                        side(made.foot),
                        side(expected)
                    );
                    found.push(wrong(dancer, track, (begin, end), text));
                }
            }
            before = Some((begin, end));
        }
    }
}

/// The count at which the step that begins at a count ends.
fn step_end(track: &Track, at: usize) -> f64 {
    let falls = track.footing().falls();
    let more = falls.iter().skip(at + 1).take_while(|fall| !fall.begins).count();
    (at + 1 + more) as f64
}

fn wrong(dancer: Dancer, track: &Track, lasts: (f64, f64), text: String) -> Found {
    let (x, y, _) = track.stand(lasts.0);
    Found {
        kind: FaultKind::WrongFoot,
        at: lasts.0,
        lasts,
        dancers: vec![dancer],
        value: 1.0,
        limit: 0.0,
        text,
        spot: Some((x, y)),
    }
}

/// Why another foot was expected; nothing where the rule does not speak after all.
fn why(look: &Look, span: &Span, dancer: Dancer, half: &Half, start: &HalfStart) -> Option<String> {
    let foot = side(start.foot);
    if start.by == StartBy::Phrase {
        return Some(format!("the stepping says {foot}"));
    }
    if start.by == StartBy::Named && !(start.rule == Some(LeadRule::OutsideFoot) && start.along) {
        let name =
            look.figure(span).map_or_else(|| "the figure".to_owned(), |figure| shown_name(&figure.name));
        return Some(format!("{name} starts {foot} in {}", half.name()));
    }
    match start.rule? {
        // Facing across the set neither foot is farther from the partner.
        LeadRule::OutsideFoot => start.along.then(|| format!("the outside foot is the {foot}")),
        LeadRule::LeftThenRight => Some(format!("{} starts {foot}", half.name())),
        LeadRule::SameWay => Some(format!("both halves start {foot}")),
        LeadRule::Left | LeadRule::Right => Some(format!("the rule is always {foot}")),
        LeadRule::ByNumber if !dancer.is_even() => Some(format!("odd numbers start {foot}")),
        LeadRule::ByNumber => Some(format!("even numbers start {foot}")),
    }
}
