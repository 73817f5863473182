use super::{found::Found, look::Look};
use crate::dance::{Dancer, FaultKind};
use crate::motion::{Course, Span, Track};

/// How far beyond an edge is a fault, metres: a millimetre is nothing on grass.
const LEAST: f64 = 0.001;

/// What each edge is called, in the order of [`ClearFloor::edges`](crate::dance::ClearFloor::edges).
const EDGES: [&str; 4] = ["on the left", "at the bottom", "on the right", "at the top"];

/// Dancers whose arms or sticks go beyond the floor that there is. Between two nodes of a way a dancer only goes
/// left or right and only up or down, so the farthest is at a node and nothing is missed between.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    let Some(floor) = &look.dance.floor else { return };
    let reach = look.limits.reach(look.dance.holding);
    let [left, bottom, right, top] = floor.edges();
    // Where the middle of a body may be.
    let room = [left + reach, bottom + reach, right - reach, top - reach];
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        let (x, y, _) = track.stand(0.0);
        let fits = worst(&room, x, y).1 <= LEAST && track.moves().iter().all(|leg| holds(&room, &leg.course));
        if fits {
            continue;
        }
        let nodes = nodes(track, &room, span.end() - span.begin());
        for lasts in stretches(track, &room, &nodes) {
            let inside = nodes.iter().filter(|node| node.at >= lasts.0 - 1e-6 && node.at <= lasts.1 + 1e-6);
            let mut farthest: Option<(&RoomNode, usize, f64)> = None;
            for node in inside {
                let (edge, beyond) = worst(&room, node.x, node.y);
                if farthest.is_none_or(|(_, _, most)| beyond > most + 1e-9) {
                    farthest = Some((node, edge, beyond));
                }
            }
            let Some((node, edge, beyond)) = farthest else { continue };
            // Never less than it takes, as far as half a millimetre.
            let metres = (beyond * 100.0 - 0.05).ceil() / 100.0;
            let edge = EDGES.get(edge).copied().unwrap_or_default();
            found.push(Found {
                kind: FaultKind::Room,
                at: node.at,
                lasts,
                dancers: vec![dancer],
                value: beyond,
                limit: 0.0,
                text: format!("{dancer} needs {metres:.2} m more floor {edge}"),
                spot: Some((node.x, node.y)),
            });
        }
    }
}

/// A dancer at a moment of a figure.
#[derive(Clone, Copy)]
struct RoomNode {
    at: f64,
    x: f64,
    y: f64,
}

/// Whether a whole course has room.
fn holds(room: &[f64; 4], course: &Course) -> bool {
    let [left, bottom, right, top] = course.bounds();
    worst(room, left, bottom).1.max(worst(room, right, top).1) <= LEAST
}

/// The moments between which a dancer has room, or goes only one way across and one way along.
fn nodes(track: &Track, room: &[f64; 4], end: f64) -> Vec<RoomNode> {
    let (x, y, _) = track.stand(0.0);
    let mut nodes = vec![RoomNode { at: 0.0, x, y }];
    for leg in track.moves() {
        let turns = if holds(room, &leg.course) { vec![0.0] } else { leg.course.turning_lengths() };
        nodes.extend(turns.into_iter().map(|metres| {
            let place = leg.course.at(metres);
            let at = if metres <= 0.0 { leg.begin } else { leg.pace.when(metres) };
            RoomNode { at, x: place.x, y: place.y }
        }));
        let (x, y) = leg.course.end();
        nodes.push(RoomNode { at: leg.end, x, y });
    }
    let (x, y, _) = track.end();
    nodes.push(RoomNode { at: end, x, y });
    nodes
}

/// How far beyond each edge a place is, metres.
fn beyond(room: &[f64; 4], x: f64, y: f64) -> [f64; 4] {
    [room[0] - x, room[1] - y, x - room[2], y - room[3]]
}

/// The edge that a place is farthest beyond, and how far.
fn worst(room: &[f64; 4], x: f64, y: f64) -> (usize, f64) {
    let mut worst = (0, f64::NEG_INFINITY);
    for (edge, beyond) in beyond(room, x, y).into_iter().enumerate() {
        if beyond > worst.1 {
            worst = (edge, beyond);
        }
    }
    worst
}

/// When a dancer is beyond an edge, from count to count.
fn stretches(track: &Track, room: &[f64; 4], nodes: &[RoomNode]) -> Vec<(f64, f64)> {
    let mut times: Vec<(f64, f64)> = Vec::new();
    for pair in nodes.windows(2) {
        let [from, to] = pair else { continue };
        let before = beyond(room, from.x, from.y);
        let after = beyond(room, to.x, to.y);
        for (edge, (before, after)) in before.into_iter().zip(after).enumerate() {
            let is_out = |at: f64| {
                let (x, y, _) = track.stand(at);
                beyond(room, x, y).get(edge).is_some_and(|beyond| *beyond > LEAST)
            };
            match (before > LEAST, after > LEAST) {
                (true, true) => times.push((from.at, to.at)),
                (true, false) => times.push((from.at, change(from.at, to.at, |at| !is_out(at)))),
                (false, true) => times.push((change(from.at, to.at, is_out), to.at)),
                (false, false) => {}
            }
        }
    }
    times.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut merged: Vec<(f64, f64)> = Vec::new();
    for (begin, end) in times {
        match merged.last_mut() {
            Some(last) if begin <= last.1 + 1e-6 => last.1 = last.1.max(end),
            _ => merged.push((begin, end)),
        }
    }
    merged
}

/// The count between two at which something begins to be so.
fn change(mut before: f64, mut after: f64, is_so: impl Fn(f64) -> bool) -> f64 {
    for _ in 0..30 {
        let middle = f64::midpoint(before, after);
        if is_so(middle) {
            after = middle;
        } else {
            before = middle;
        }
    }
    after
}
