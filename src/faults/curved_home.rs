use super::{
    found::Found,
    halves::{Half, falls_to_nought, halves, is_drawn},
    look::Look,
};
use crate::dance::{Dancer, FaultKind};
use crate::motion::{Span, Track};

/// Coming home round a curve in a figure whose way home is straight (common practice, no source). The value is how
/// far the way strays from the straight line between its ends, metres.
///
/// A named figure that says so of itself comes as straight as it can, so only what is drawn over it is looked at; one
/// that the side calls straight is looked at whole.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    if !span.plan().straight_home {
        return;
    }
    let side_says = look.figure(span).is_some_and(|figure| figure.straight_home);
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        let drawn = is_drawn(span, dancer);
        // Legs that are drawn just as the named figure has them are its own.
        let beneath = span.plan().named_part(span.place(dancer));
        let own = beneath.zip(span.part(dancer)).is_some_and(|(beneath, part)| beneath.legs == part.legs);
        if (!drawn || own) && !side_says {
            continue;
        }
        for half in halves(look, span, track) {
            let Some(mut window) = way_home(look, track, &half) else { continue };
            let mut limit = look.limits.bow();
            let (mut far, mut at) = stray(track, window);
            if far > limit + 1e-6 && drawn {
                // Where the named figure has to bend round the partner, it is as straight as can be once past them.
                let named = span.named_track(dancer, look.motion.known());
                if let Some(named) = named.filter(|named| stray(named, window).0 > limit)
                    && let Some(past) = passed(look, span, dancer, track, window)
                {
                    window.0 = past;
                    (far, at) = stray(track, window);
                    limit += stray(&named, window).0;
                }
            }
            if far > limit + 1e-6 {
                let (x, y, _) = track.stand(at);
                found.push(Found {
                    kind: FaultKind::CurvedHome,
                    at,
                    lasts: window,
                    dancers: vec![dancer],
                    value: far,
                    limit,
                    text: format!("{dancer} comes home {far:.2} m out of the straight"),
                    spot: Some((x, y)),
                });
            }
        }
    }
}

/// The counts of the way home in a half: from the single steps that end it, or from where its last leg begins. A way
/// out that is still going on at the single steps is not part of it.
fn way_home(look: &Look, track: &Track, half: &Half) -> Option<(f64, f64)> {
    let legs =
        || track.moves().iter().filter(|leg| leg.begin < half.end - 1e-6 && leg.end > half.begin + 1e-6);
    let last = legs().next_back()?;
    let Some(single) = single_steps(look, track, half) else {
        return Some((last.begin.max(half.begin), half.end));
    };
    let out = legs().filter(|leg| leg.begin < single - 1e-6 && leg.end < last.end - 1e-6).map(|leg| leg.end);
    let begin = out.fold(single, f64::max);
    (last.end > begin + 1e-6).then_some((begin, half.end))
}

/// The count at which the single steps begin that are the last travelling steps of a half.
fn single_steps(look: &Look, track: &Track, half: &Half) -> Option<f64> {
    let falls = track.footing().falls();
    let mut begin = None;
    for (at, fall) in falls.iter().enumerate().take(half.end as usize).skip(half.begin as usize) {
        if !fall.begins {
            continue;
        }
        let Some(step) = look.motion.known().get(fall.step) else { continue };
        if step.is_single_step() {
            begin = begin.or(Some(at as f64));
        } else if step.travels.iter().any(|travel| *travel > 0.0) {
            begin = None;
        }
    }
    begin
}

/// How far the way between two counts strays from the straight line between its ends, and when.
fn stray(track: &Track, (begin, end): (f64, f64)) -> (f64, f64) {
    let ((x0, y0, _), (x1, y1, _)) = (track.stand(begin), track.stand(end));
    let (dx, dy) = (x1 - x0, y1 - y0);
    let square = dx * dx + dy * dy;
    let looks = ((end - begin) * 4.0).ceil() as usize;
    let mut worst = (0.0, begin);
    for count in (1..looks).map(|look| begin + look as f64 / 4.0) {
        let (x, y, _) = track.stand(count);
        let share =
            if square > 1e-9 { (((x - x0) * dx + (y - y0) * dy) / square).clamp(0.0, 1.0) } else { 0.0 };
        let far = (x - x0 - dx * share).hypot(y - y0 - dy * share);
        if far > worst.0 + 1e-9 {
            worst = (far, count);
        }
    }
    worst
}

/// The count between two at which a dancer comes past the partner, on the line across the set.
fn passed(look: &Look, span: &Span, dancer: Dancer, track: &Track, (begin, end): (f64, f64)) -> Option<f64> {
    let other = look.motion.ground().partner(span.place(dancer))?;
    let partner = span.track(span.dancer_in(other)?)?;
    let right = |count: f64| track.stand(count).0 - partner.stand(count).0;
    let first = right(begin);
    let ahead = |count: f64| right(count) * first;
    let looks = ((end - begin) * 4.0).ceil() as usize;
    let past = (1..=looks).map(|look| begin + look as f64 / 4.0).find(|count| ahead(*count) <= 0.0)?;
    Some(falls_to_nought(ahead, past - 0.25, past))
}
