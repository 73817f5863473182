use super::{
    FaultKind, Found, Look,
    body::Body,
    near::{Meeting, meetings},
    place_words,
};
use crate::motion::{Ground, Span};

/// Bodies that touch, whichever way they face, and those that come nearer than they should (values from memory; see
/// [`FaultLimits`](crate::dance::FaultLimits)).
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    let body = Body::of(look.limits);
    let apart = look.limits.apart();
    for meeting in meetings(body, apart, span, |_, _| true) {
        found.push(tell(look.motion.ground(), span, meeting, apart));
    }
}

fn tell(ground: &Ground, span: &Span, meeting: Meeting, apart: f64) -> Found {
    let Meeting { one, other, lasts, at, space } = meeting;
    let place = |dancer: usize| {
        span.track(dancer).map_or((0.0, 0.0), |track| {
            let (x, y, _) = track.stand(at);
            (x, y)
        })
    };
    let ((ax, ay), (bx, by)) = (place(one), place(other));
    let (x, y) = (f64::midpoint(ax, bx), f64::midpoint(ay, by));
    // Nought as exactly as it is told.
    let clash = space < 0.000_05;
    let who = who(ground, span, one, other);
    let place = place_words(ground, x, y);
    let text = if clash {
        let middles = (bx - ax).hypot(by - ay);
        format!("{who} meet {place}: only {middles:.2} m between their middles")
    } else {
        format!("{who} come close {place}: {space:.2} m between them")
    };
    Found {
        kind: if clash { FaultKind::Clash } else { FaultKind::Tight },
        at,
        lasts,
        dancers: vec![one, other],
        value: space,
        limit: if clash { 0.0 } else { apart },
        text,
        spot: Some((x, y)),
    }
}

/// Two dancers, with what they are in the set: `1 and 5 (top and bottom)`.
fn who(ground: &Ground, span: &Span, one: usize, other: usize) -> String {
    let names = (ground.rank_name(span.place(one)), ground.rank_name(span.place(other)));
    let numbers = format!("{} and {}", one + 1, other + 1);
    match names {
        ("", _) | (_, "") => numbers,
        (name, same) if name == same => format!("{numbers} ({name}s)"),
        (name, another) => format!("{numbers} ({name} and {another})"),
    }
}
