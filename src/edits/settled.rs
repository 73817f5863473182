//! Parts and turns that say themselves what else would follow from the steps, the feet or where one comes from.

use super::redraw::part_with_amounts;
use crate::dance::{Part, PlaceNumber, Turn};
use crate::motion::{LeadMade, Span};

/// Gives a turn the times and the way that it is danced with, for its own.
pub(super) fn settle(turn: &mut Turn, danced: &Turn) {
    (turn.begin, turn.end, turn.on) = (danced.begin, danced.end, None);
    if turn.by_lead {
        // The foot that led has chosen its way, and with it how far.
        (turn.way, turn.by) = (danced.way, danced.by);
    } else if turn.face.is_none() || turn.is_shorter() {
        turn.way = danced.way;
    }
    turn.by_lead = false;
}

/// A part whose turns go the way that they are danced in a span, whichever foot leads: the image of one that follows the foot would go
/// by the foot of whoever dances it, and that need not be the other one.
pub(super) fn ways_settled(mut part: Part, span: &Span) -> Part {
    let danced =
        span.dancer_in(part.place).and_then(|dancer| Some((span.part(dancer)?, span.track(dancer)?)));
    let Some((written, track)) = danced else { return part };
    for turn in part.turns.iter_mut().filter(|turn| turn.by_lead) {
        let is_it = |other: &&(&Turn, &Turn)| (&other.0.on, other.0.begin) == (&turn.on, turn.begin);
        let mut known = written.turns.iter().zip(track.turns());
        if known.find(|pair| is_it(&pair)).is_some_and(|(_, danced)| danced.way != turn.way) {
            *turn = turn.clone().other_way();
        }
        turn.by_lead = false;
    }
    part
}

/// A part of which those turns that are as a span has them say how far they go there.
pub(super) fn amounts_settled(mut part: Part, span: &Span) -> Part {
    let danced = span.dancer_in(part.place).and_then(|dancer| {
        Some((ways_settled(span.part(dancer)?.clone(), span), part_with_amounts(span, dancer)?))
    });
    let Some((written, own)) = danced else { return part };
    let own = ways_settled(own, span);
    for turn in &mut part.turns {
        let mut known = written.turns.iter().zip(&own.turns);
        if let Some((_, own)) = known.find(|(written, _)| **written == *turn) {
            turn.clone_from(own);
        }
    }
    part
}

/// The leads with which the part of a place is danced.
pub(super) fn leads_of(span: &Span, place: PlaceNumber) -> &[LeadMade] {
    let track = span.dancer_in(place).and_then(|dancer| span.track(dancer));
    track.map_or(&[], |track| track.footing().leads())
}
