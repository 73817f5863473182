use super::{
    found::Found,
    halves::{halves, is_drawn},
    look::Look,
    stretch::{Stretch, join},
};
use crate::dance::{Dancer, FaultKind, Foot, Landing};
use crate::motion::steps::Step;
use crate::motion::{Span, Track};

/// Turns at the wrong time: still going on when a jump leaves the ground, or begun before dancers are back to back
/// (common practice, no source). The value is in degrees.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    let back_to_back = look
        .figure(span)
        .and_then(|figure| figure.named.as_ref())
        .is_some_and(|named| named.figure.eq_ignore_ascii_case("back-to-back"));
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        at_jumps(look, span, dancer, track, found);
        if back_to_back && is_drawn(span, dancer) {
            too_early(look, span, dancer, track, found);
        }
    }
}

/// The counts between which each jump is off the ground and lands: steps with the air in them that leave either
/// foot free.
pub(super) fn jumps(known: &[Step], track: &Track) -> Vec<(f64, f64)> {
    let falls = track.footing().falls();
    let mut jumps = Vec::new();
    for (at, fall) in falls.iter().enumerate().filter(|(_, fall)| fall.begins) {
        let Some(step) = known.get(fall.step) else { continue };
        let frees = step.next_lead(Foot::Left).is_none();
        if let Some(up) = step.feet.iter().position(|landing| *landing == Landing::Air).filter(|_| frees) {
            // The feet come together to jump: what is not done by then is late.
            let gathered = step.feet.iter().take(up).rev().take_while(|landing| **landing == Landing::Both);
            jumps.push(((at + up - gathered.count()) as f64, (at + step.counts()) as f64));
        }
    }
    jumps
}

/// How far a dancer turns between two counts from the facing at the first, at the most, degrees.
fn turned(track: &Track, begin: f64, end: f64) -> f64 {
    let turns = track.turns().iter().map(|turn| (turn.begin, turn.end)).chain(track.followed());
    if !turns.into_iter().any(|(from, to)| from < end - 1e-6 && to > begin + 1e-6) {
        return 0.0;
    }
    let first = track.stand(begin).2;
    let steps = ((end - begin) * 2.0).ceil() as usize;
    (1..=steps)
        .map(|step| (track.stand((begin + step as f64 / 2.0).min(end)).2 - first).abs())
        .fold(0.0, f64::max)
}

/// Whether a track turns in a jump only by turns that are danced in it, as named figures do that turn about as they
/// jump.
fn turns_in_the_jump(track: &Track, begin: f64, end: f64) -> bool {
    let meets = |from: f64, to: f64| from < end - 1e-6 && to > begin + 1e-6;
    let mut any = false;
    let within = track.turns().iter().filter(|turn| meets(turn.begin, turn.end)).all(|turn| {
        any = true;
        turn.begin >= begin - 1e-6 && turn.end <= end + 1e-6
    });
    any && within
}

fn at_jumps(look: &Look, span: &Span, dancer: Dancer, track: &Track, found: &mut Vec<Found>) {
    let limit = look.limits.jump_turn();
    let mut late = Vec::new();
    for (begin, end) in jumps(look.motion.known(), track) {
        let value = turned(track, begin, end);
        if value <= limit + 1e-6 {
            continue;
        }
        // A turn that the named figure dances in the jump itself is meant.
        let named = span.named_track(dancer, look.motion.known());
        let meant = match (&named, is_drawn(span, dancer)) {
            (Some(named), _) => turns_in_the_jump(named, begin, end) && turns_in_the_jump(track, begin, end),
            (None, false) => turns_in_the_jump(track, begin, end),
            (None, true) => false,
        };
        if !meant {
            join(&mut late, Stretch { begin, end, at: begin, value });
        }
    }
    for jump in late {
        let (x, y, _) = track.stand(jump.at);
        let (number, value) = (dancer, jump.value);
        let going = track.turns().iter().any(|turn| turn.begin < jump.at - 1e-6 && turn.end > jump.at + 1e-6)
            || track.followed().any(|(from, to)| from < jump.at - 1e-6 && to > jump.at + 1e-6);
        let text = if going {
            format!("{number} is still turning when the jump leaves the ground: {value:.0} degrees to go")
        } else {
            format!("{number} turns in the jump: {value:.0} degrees to go when it leaves the ground")
        };
        found.push(Found {
            kind: FaultKind::LateTurn,
            at: jump.at,
            lasts: (jump.begin, jump.end),
            dancers: vec![dancer],
            value,
            limit,
            text,
            spot: Some((x, y)),
        });
    }
}

/// The first turn of each half that begins before the dancer has passed behind the partner: looked at as they are on
/// the line across the set.
fn too_early(look: &Look, span: &Span, dancer: Dancer, track: &Track, found: &mut Vec<Found>) {
    let limit = look.limits.jump_turn();
    let place = span.place(dancer);
    let ground = look.motion.ground();
    let Some(other) = ground.partner(place) else { return };
    let (Some(home), Some(away)) = (ground.stand(place), ground.stand(other)) else { return };
    let across = (away.x - home.x).signum();
    let Some(partner) = span.dancer_in(other).and_then(|partner| span.track(partner)) else { return };
    let passed = |count: f64| (track.stand(count).0 - partner.stand(count).0) * across > 0.0;
    for half in halves(look, span, track) {
        for turn in track.turns().iter().filter(|turn| turn.begin >= half.begin && turn.begin < half.end) {
            let amount = track.stand(turn.end).2 - track.stand(turn.begin).2;
            if amount.abs() <= limit + 1e-6 {
                continue;
            }
            let looks = ((turn.begin - half.begin) * 2.0).ceil() as usize;
            if (0..=looks).any(|look| passed((half.begin + look as f64 / 2.0).min(turn.begin))) {
                break;
            }
            let (x, y, _) = track.stand(turn.begin);
            found.push(Found {
                kind: FaultKind::LateTurn,
                at: turn.begin,
                lasts: (turn.begin, turn.end),
                dancers: vec![dancer],
                value: amount.abs(),
                limit,
                text: format!(
                    "{} turns before being back to back: {:.0} degrees too early",
                    dancer,
                    amount.abs()
                ),
                spot: Some((x, y)),
            });
            break;
        }
    }
}
