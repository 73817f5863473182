use super::{
    found::Found,
    halves::{Half, halves, start},
    look::Look,
};
use crate::dance::{Dancer, FaultKind, Foot, LeadRule, Turn, Way};
use crate::motion::{Span, Track};

/// The most that a turn may go which nobody asked for, degrees: beyond half about, the other way is the shorter.
const LIMIT: f64 = 180.0;
/// How far above its limit a turn may be before it is a fault, degrees: amounts are worked out, not drawn.
const SLACK: f64 = 0.5;
/// A turn may go so much farther than was chosen, degrees, and still be what was chosen: a dancer who comes to it a
/// little otherwise still finishes as it says (chosen for this program).
const FARTHER: f64 = 90.0;

/// Turns of more than half about that nobody asked for. What asks for one is its amount, its spins, or the rule of its
/// half: away from the partner, the long way, by the outside foot; and the way of the half by the others (common
/// practice, no source). The value is in degrees.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        for (turn, amount) in track.turns().iter().zip(track.amounts()) {
            if amount.abs() <= LIMIT + SLACK
                || is_chosen(turn, amount.abs())
                || asked_by_rule(look, span, dancer, track, turn)
                || is_told(found, dancer, turn)
            {
                continue;
            }
            let (x, y, _) = track.stand(turn.begin);
            let (way, other) = if *amount < 0.0 { ("left", "right") } else { ("right", "left") };
            let short = (360.0 - amount.abs().rem_euclid(360.0)).round();
            let instead = match amount.abs() {
                whole if whole >= 360.0 - SLACK => String::new(),
                _ => format!(", where {short:.0} to the {other} would do"),
            };
            found.push(Found {
                kind: FaultKind::NeedlessTurn,
                at: turn.begin,
                lasts: (turn.begin, turn.end),
                dancers: vec![dancer],
                value: amount.abs(),
                limit: LIMIT,
                text: format!(
                    "{dancer} turns {way} {:.0} degrees, which nobody asked for{instead}",
                    amount.abs()
                ),
                spot: Some((x, y)),
            });
        }
    }
}

/// Whether the turn itself says that it goes so far, degrees: by its amount, or by whole turns.
fn is_chosen(turn: &Turn, amount: f64) -> bool {
    turn.spins > 0 || turn.by.is_some_and(|by| amount <= by + FARTHER)
}

/// Whether the rule of the half asks for the way that a turn goes: the rule that governs it now, or the one of the named
/// figure.
fn asked_by_rule(look: &Look, span: &Span, dancer: Dancer, track: &Track, turn: &Turn) -> bool {
    let Some(half) = halves(look, span, track)
        .into_iter()
        .find(|half| turn.begin >= half.begin - 1e-6 && turn.begin < half.end - 1e-6)
    else {
        return false;
    };
    let governs = start(look, span, dancer, track, &half)
        .and_then(|start| Some((start.rule?, start.foot)))
        .is_some_and(|(rule, foot)| asks(track, &half, turn, rule, foot));
    governs || named_rule_asks(span, dancer, track, &half, turn)
}

/// The same for the rule by which the named figure made its leads.
fn named_rule_asks(span: &Span, dancer: Dancer, track: &Track, half: &Half, turn: &Turn) -> bool {
    let (plan, place) = (span.plan(), span.place(dancer));
    let leads = plan.named_leads.get(place.index());
    let lead = leads.and_then(|leads| leads.iter().find(|lead| (lead.at - half.begin).abs() < 0.5));
    plan.named_lead.zip(lead).is_some_and(|(rule, lead)| asks(track, half, turn, rule, lead.foot))
}

/// Whether a rule asks for the way that a turn goes, in a half that starts with a foot.
fn asks(track: &Track, half: &Half, turn: &Turn, rule: LeadRule, foot: Foot) -> bool {
    match rule {
        LeadRule::LeftThenRight => turn.way.foot() == foot,
        LeadRule::OutsideFoot => {
            // Facing across the set, no side is away from the partner.
            let along = track.stand(half.begin + 1.0).2.to_radians().cos().abs() > 0.7;
            along && turn.way.foot() == foot
        }
        LeadRule::SameWay => {
            let first = track.turns().iter().find(|first| first.begin >= half.begin - 1e-6);
            turn.way == Way::Right && first.is_some_and(|first| first.begin >= turn.begin - 1e-6)
        }
        LeadRule::Left | LeadRule::Right | LeadRule::ByNumber => false,
    }
}

/// Whether the turn is told already as going the wrong way, which is the worse of the two.
fn is_told(found: &[Found], dancer: Dancer, turn: &Turn) -> bool {
    found.iter().any(|fault| {
        fault.kind == FaultKind::WrongWay
            && fault.dancers == [dancer]
            && fault.lasts.0 <= turn.begin + 1e-6
            && fault.lasts.1 >= turn.end - 1e-6
    })
}
