use super::arms::HandAt;
use super::sides::{of_side, on_side};
use crate::dance::{Dancer, FreeFoot, Landing};
use crate::motion::{Clock, Footfall, Motion, Weight};

/// What a step says of a count, as the dancer does it.
#[derive(Clone, Debug, PartialEq)]
pub struct OnCount {
    /// When it is, seconds from the start of the dance.
    pub time: f64,
    /// What lands.
    pub weight: Weight,
    /// Whether the dancer hops onto it.
    pub hop: bool,
    /// Whether nothing lands, and the weight stays where it was.
    pub stays: bool,
    /// How high the body rises in the spring that lands here, or in the jump that is in the air, metres.
    pub rise: f64,
    /// The foot that carries no weight.
    pub free: Option<FreeFoot>,
    /// The left and the right hand.
    pub hands: [HandAt; 2],
}

/// What each count of the dance says, and its end.
pub(super) fn keys(motion: &Motion, clock: &Clock, dancer: Dancer) -> Vec<OnCount> {
    let mut keys: Vec<OnCount> = Vec::new();
    for span in motion.spans() {
        let (mut inside, mut last) = (0, None);
        for (index, fall) in span.falls(dancer).iter().enumerate() {
            inside = if fall.begins || last != Some(fall.step) { 0 } else { inside + 1 };
            last = Some(fall.step);
            let made = key(motion, (fall, keys.last()), inside, clock.seconds(span.begin() + index as f64));
            keys.push(made);
        }
    }
    if let Some(last) = keys.last().cloned() {
        // At the end everybody stands, with the hands where they have come to.
        let time = clock.seconds(motion.counts());
        let hands = last.hands.map(|hand| HandAt { circles: 0.0, round: hand.comes_round(), ..hand });
        keys.push(OnCount {
            time,
            weight: Weight::Both,
            hop: false,
            stays: false,
            rise: 0.0,
            free: None,
            hands,
        });
    }
    keys
}

fn key(motion: &Motion, (fall, before): (&Footfall, Option<&OnCount>), inside: usize, time: f64) -> OnCount {
    let step = motion.known().get(fall.step);
    // A side that does not hop on the upbeat stands there.
    let stands =
        step.and_then(|step| step.feet.get(inside)) == Some(&Landing::Upbeat) && !fall.upbeat && !fall.hop;
    let rise = step.and_then(|step| step.rise.get(inside)).filter(|_| !stands && !fall.stays);
    let hands = [0, 1].map(|side| HandAt {
        height: on_side(fall.hands, side),
        forward: step
            .and_then(|step| of_side(&step.forward, on_side(fall.as_written, side)).get(inside))
            .copied()
            .unwrap_or(0.0),
        circles: step.and_then(|step| step.circles.get(inside)).copied().unwrap_or(0.0),
        round: before.map_or(0.0, |before| on_side(before.hands, side).comes_round()),
    });
    let free = step.and_then(|step| step.free.get(inside)).cloned();
    OnCount {
        time,
        weight: fall.weight,
        hop: fall.hop,
        stays: fall.stays,
        rise: rise.copied().unwrap_or(0.0),
        free,
        hands,
    }
}
