use super::{
    found::Found,
    halves::{Half, falls_to_nought, is_drawn, side},
    look::Look,
};
use crate::dance::{Dancer, FaultKind, Foot};
use crate::motion::{Span, Track, wrap_half};

/// Partners whose middles come no nearer than this do not pass each other, metres, unless they change sides.
const PASS: f64 = 1.2;
/// How often they are looked at, in a count.
const LOOKS: f64 = 2.0;

/// Partners who pass by the wrong shoulder in a half by the left-then-right rule: going to your own left past a facing
/// partner puts right shoulders together (worked out from the geometry). `foot` leads the half. A pair is told of once,
/// with the lower of its drawn numbers. The value is how far round from straight ahead the partner is, degrees, when
/// nearest.
pub(super) fn find(
    look: &Look,
    span: &Span,
    dancer: Dancer,
    track: &Track,
    half: &Half,
    foot: Foot,
    found: &mut Vec<Found>,
) {
    let place = span.place(dancer);
    let Some(partner) =
        look.motion.ground().partner(place).and_then(|place| span.dancer_in(place)).filter(|partner| {
            // Each pair once.
            !(*partner < dancer && is_drawn(span, *partner))
        })
    else {
        return;
    };
    let Some(other) = span.track(partner) else { return };
    let Some(passed) = passing(track, other, half.begin, half.speaks_until(span.bar_counts())) else {
        return;
    };
    let wanted = foot.other();
    if passed.shoulder == wanted {
        return;
    }
    // What the named figure beneath does too is right.
    let known = look.motion.known();
    let (own_named, other_named) = (span.named_track(dancer, known), span.named_track(partner, known));
    if own_named.is_some() {
        let named = passing(
            own_named.as_ref().unwrap_or(track),
            other_named.as_ref().unwrap_or(other),
            half.begin,
            half.speaks_until(span.bar_counts()),
        );
        if named.is_some_and(|named| named.shoulder == passed.shoulder) {
            return;
        }
    }
    let (x, y, facing) = track.stand(passed.count);
    let (to_x, to_y, _) = other.stand(passed.count);
    let mut dancers = vec![dancer, partner];
    dancers.sort_unstable();
    let numbers = dancers.iter().map(ToString::to_string).collect::<Vec<_>>().join(" and ");
    found.push(Found {
        kind: FaultKind::WrongWay,
        at: passed.count,
        lasts: (passed.count, passed.count),
        dancers,
        value: wrap_half((to_x - x).atan2(to_y - y).to_degrees() - facing).abs(),
        limit: 0.0,
        text: format!(
            "{numbers} pass {} shoulders; {} passes {}",
            side(passed.shoulder),
            half.name(),
            side(wanted)
        ),
        spot: Some((f64::midpoint(x, to_x), f64::midpoint(y, to_y))),
    });
}

struct Passed {
    count: f64,
    /// The side on which the first dancer has the other.
    shoulder: Foot,
}

/// How two who face each other across the set at a count first pass after it, if they do: where they change sides, or
/// are nearest side by side.
fn passing(one: &Track, other: &Track, begin: f64, end: f64) -> Option<Passed> {
    let apart = |count: f64| {
        let ((x0, y0, _), (x1, y1, _)) = (one.stand(count), other.stand(count));
        (x1 - x0, y1 - y0)
    };
    let across = apart(begin).0.signum();
    let faces = |track: &Track, sign: f64| track.stand(begin).2.to_radians().sin() * sign > 0.7;
    if !faces(one, across) || !faces(other, -across) {
        return None;
    }
    let shoulder = |dy: f64| if dy * across < 0.0 { Foot::Right } else { Foot::Left };
    let looks = ((end - begin) * LOOKS).ceil() as usize;
    let mut nearest: Option<(f64, f64, f64)> = None;
    for count in (1..=looks).map(|look| (begin + look as f64 / LOOKS).min(end)) {
        let (dx, dy) = apart(count);
        if dx * across < 0.0 {
            let count = falls_to_nought(|count| apart(count).0 * across, count - 1.0 / LOOKS, count);
            let dy = apart(count).1;
            return Some(Passed { count, shoulder: shoulder(dy) });
        }
        let far = dx.hypot(dy);
        // Side by side, and not yet going away again.
        match nearest {
            Some((least, _, _)) if far > least + 1e-6 => {}
            _ if far < PASS && dy.abs() >= dx.abs() => nearest = Some((far, count, dy)),
            _ => {}
        }
        if let Some((_, count, dy)) = nearest.filter(|(least, _, _)| far > *least + 0.2) {
            return Some(Passed { count, shoulder: shoulder(dy) });
        }
    }
    nearest.map(|(_, count, dy)| Passed { count, shoulder: shoulder(dy) })
}
