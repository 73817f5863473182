use super::contacts::Contact;
use super::flight::{Flight, rise};
use super::frame::Frame;
use super::in_space::InSpace;
use super::sizes::{HIP_ASIDE, REACH, SIDES};
use super::walk::Walk;
use crate::motion::cubics::ease;

/// The height of the hips at a moment at which a foot lands or leaves, and what is between it and the next.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    pub time: f64,
    height: f64,
    /// How much higher the hips would be by the feet alone, here from then on and at the next one before it, metres.
    above: [f64; 2],
    flies: bool,
}

/// How much the knees bend as a jump lands, a share of its height (common practice, no source).
const BENDS: f64 = 0.2;
/// Those who stand, and those who land, bend their knees until the hips are so low, metres, and no lower.
const SINKS: f64 = 0.85;
/// The hips are not lower than this, metres, however far the feet are away: half of a step of 0.8 m aside of a foot over which the body turns
/// by 60 degrees before and after, 0.09 m more, would have them 0.81 m high [CALC]. Farther away no foot is planted that is not told as
/// over-long (`tests/limbs.rs`): then a leg is drawn longer.
const LOWEST: f64 = 0.78;

/// How high the hips are at a time, metres, while the body is so.
pub(super) fn hips(
    nodes: &[Node],
    contacts: &[Vec<Contact>; 2],
    flights: &[Flight],
    body: &Frame,
    time: f64,
) -> f64 {
    let next = nodes.partition_point(|node| node.time <= time).clamp(1, nodes.len().max(2) - 1);
    let Some([from, to]) = nodes.get(next - 1..=next) else { return REACH };
    let share = ((time - from.time) / (to.time - from.time).max(1e-9)).clamp(0.0, 1.0);
    if from.flies {
        // The legs are straight in the air [MB1], and bend as they land.
        let lands = (2.0 * share - 1.0).max(0.0).powi(3);
        return from.height + (to.height - from.height) * lands + rise(flights, time);
    }
    let [here, there] = from.above;
    let eased = ease(share);
    by_feet(contacts, body, f64::midpoint(from.time, to.time)) - here * (1.0 - eased) - there * eased
}

/// How high the hips of a body would be over the feet that are planted at a time.
fn by_feet(contacts: &[Vec<Contact>; 2], body: &Frame, planted: f64) -> f64 {
    let mut height = REACH;
    for (side, contacts) in SIDES.into_iter().zip(contacts) {
        let begun = contacts.partition_point(|contact| contact.begin <= planted);
        let held = begun.checked_sub(1).and_then(|index| contacts.get(index));
        if let Some(contact) = held.filter(|contact| contact.holds(planted)) {
            let hip = body.place(InSpace::new(side * HIP_ASIDE, 0.0, 0.0));
            let across = (hip - contact.place(body)).across();
            height = height.min((REACH * REACH - across * across).max(LOWEST * LOWEST).sqrt());
        }
    }
    height
}

/// The moments at which a foot lands or leaves, with how high the hips are then.
pub(super) fn nodes(walk: &Walk, contacts: &[Vec<Contact>; 2], flights: &[Flight]) -> Vec<Node> {
    let ends = contacts.iter().flatten().flat_map(|contact| [contact.begin, contact.end]);
    let mut times: Vec<f64> = ends.collect();
    times.sort_by(f64::total_cmp);
    times.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
    let flies = |middle: f64| {
        let next = flights.partition_point(|flight| flight.end < middle);
        flights.get(next).is_some_and(|flight| flight.begin < middle)
    };
    // Between each and the next: whether it is in the air, and how high the feet would have the hips at both ends.
    let stretches: Vec<(bool, [f64; 2])> = times
        .windows(2)
        .filter_map(|pair| <[f64; 2]>::try_from(pair).ok())
        .map(|[begin, end]| {
            let middle = f64::midpoint(begin, end);
            if flies(middle) {
                (true, [REACH; 2])
            } else {
                (false, [begin, end].map(|time| by_feet(contacts, &walk.stand(time), middle)))
            }
        })
        .collect();
    let mut nodes: Vec<Node> = Vec::with_capacity(times.len());
    for (index, &time) in times.iter().enumerate() {
        let before = index.checked_sub(1).and_then(|before| stretches.get(before));
        let after = stretches.get(index);
        let by_feet =
            before.map_or(REACH, |(_, [_, end])| *end).min(after.map_or(REACH, |(_, [begin, _])| *begin));
        let landed = flights.binary_search_by(|flight| flight.end.total_cmp(&time)).ok();
        let bend = landed.and_then(|index| flights.get(index)).map_or(0.0, |flight| BENDS * flight.height);
        nodes.push(Node {
            time,
            height: by_feet - bend.min((by_feet - SINKS).max(0.0)),
            above: [0.0; 2],
            flies: after.is_some_and(|(flies, _)| *flies),
        });
    }
    for (index, (_, [begin, end])) in stretches.iter().enumerate() {
        let there = nodes.get(index + 1).map_or(REACH, |node| node.height);
        if let Some(node) = nodes.get_mut(index) {
            node.above = [begin - node.height, end - there];
        }
    }
    nodes
}
