use super::{found::Found, look::Look};
use crate::dance::{Dancer, FaultKind};
use crate::motion::{Move, Span, Track};

/// How long a stop in mid-way may be, counts: one that is a count long, or longer, is a fault.
const LIMIT: f64 = 1.0;
/// Slower than this share of the mean speed of the leg is standing (chosen for this program).
const STANDING: f64 = 0.1;
/// Nobody has set off, and everybody has arrived, who is nearer to that end of the way than this, metres.
const MID_WAY: f64 = 0.05;
/// Looks in a count.
const LOOKS: f64 = 16.0;

/// Stops of a count or more in the middle of a way: a dancer travels, stands, and goes on in what is one way. Standing
/// that the stepping asks for, as a jump does, is no such stop, and legs that are apart in time are meant so. The value
/// is in counts.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        for way in ways(track) {
            for (begin, end) in stops(track, way) {
                let (x, y, _) = track.stand(begin);
                found.push(Found {
                    kind: FaultKind::Stuck,
                    at: begin,
                    lasts: (begin, end),
                    dancers: vec![dancer],
                    value: end - begin,
                    limit: LIMIT,
                    text: format!("{dancer} stands still for {:.1} counts in mid-way", end - begin),
                    spot: Some((x, y)),
                });
            }
        }
    }
}

/// The legs of a track by the ways they make: those that follow each other at once are one way. A leg that goes nowhere
/// is standing that is meant.
fn ways(track: &Track) -> impl Iterator<Item = &[Move]> {
    let goes = |leg: &Move| leg.course.length() > 1e-6;
    track
        .moves()
        .chunk_by(move |leg, next| next.begin <= leg.end + 1e-6 && goes(leg) && goes(next))
        .filter(move |way| way.iter().any(goes))
}

/// The stops of a way, counts.
fn stops(track: &Track, way: &[Move]) -> Vec<(f64, f64)> {
    let (Some(first), Some(last)) = (way.first(), way.last()) else { return Vec::new() };
    let length = last.before + last.course.length() - first.before;
    let stands = |from: f64, to: f64, metres: f64| track.travelled(to) - track.travelled(from) <= metres;
    // Standing still for a count has a look of half a count in it, or of what of one lies in either leg, which is quick to
    // find.
    let slow = || {
        way.iter().any(|leg| {
            let halves = ((leg.end - leg.begin) * 2.0).ceil() as usize;
            let mut before = 0.0;
            (1..=halves).any(|half| {
                let from = leg.begin + (half - 1) as f64 / 2.0;
                let to = (from + 0.5).min(leg.end);
                let done = if to >= leg.end { leg.course.length() } else { leg.pace.at(to) };
                done - std::mem::replace(&mut before, done) <= standing(leg) * (to - from)
            })
        })
    };
    if last.end - first.begin <= LIMIT || !slow() {
        return Vec::new();
    }
    let mut stops: Vec<(f64, f64)> = Vec::new();
    let mut stop: Option<(f64, f64)> = None;
    for leg in way {
        let looks = ((leg.end - leg.begin) * LOOKS).ceil() as usize;
        for look in 0..looks {
            let from = leg.begin + look as f64 / LOOKS;
            let to = (from + 1.0 / LOOKS).min(leg.end);
            let done = |count: f64| track.travelled(count) - first.before;
            let mid_way = done(from) > MID_WAY && done(to) < length - MID_WAY;
            let steps_travel = track.footing().fall(from).is_none_or(|fall| fall.travel > 0.0);
            if mid_way && steps_travel && stands(from, to, standing(leg) * (to - from)) {
                stop = Some((stop.map_or(from, |(begin, _)| begin), to));
            } else {
                stops.extend(stop.take());
            }
        }
    }
    stops.extend(stop);
    stops.retain(|(begin, end)| end - begin >= LIMIT - 1e-6);
    stops
}

/// The speed below which a dancer stands on a leg, metres a count.
fn standing(leg: &Move) -> f64 {
    leg.course.length() / (leg.end - leg.begin) * STANDING
}
