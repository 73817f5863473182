use super::{found::Found, look::Look};
use crate::dance::{Dancer, FaultKind};
use crate::motion::limbs::Flight;
use crate::motion::steps::Step;
use crate::motion::{Footfall, Span, Weight};
use std::collections::{BTreeMap, btree_map::Entry};

/// Under this share of what the step asks for a jump is no longer that jump (chosen for this program).
const LEAST: f64 = 0.5;
/// A hop or a spring onto a foot that is to be so high, metres, is held to it too; the usual hop gives way to the tempo.
const HIGH_HOP: f64 = 0.1;

/// Jumps for which the tempo leaves no time for half of the height that the step asks for, h = g t^2 / 8 [CALC], and those that would have
/// a body in the air for longer than anybody jumps.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    let mut told: Vec<Found> = Vec::new();
    let mut known: BTreeMap<(usize, u64), usize> = BTreeMap::new();
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        for jump in jumps(track.footing().falls(), look.motion.known()) {
            let seconds = |count: usize| look.clock.seconds(span.begin() + count as f64);
            let air = jump.air.map(seconds);
            let flight = Flight::landing(
                seconds(jump.lands),
                (seconds(jump.floor), seconds(jump.stays)),
                air,
                jump.asked,
            );
            let late = air.is_some_and(|air| flight.begin > air + 1e-6);
            if flight.height >= LEAST * jump.asked && !late {
                continue;
            }
            // Those who jump together are told together.
            let known = known.entry((jump.lands, flight.height.to_bits()));
            if let Entry::Occupied(known) = known {
                if let Some(same) = told.get_mut(*known.get()) {
                    same.dancers.push(dancer);
                }
                continue;
            }
            known.or_insert(told.len());
            let (x, y, _) = track.stand(jump.lands as f64);
            let text = if late {
                format!(
                    "to be in the air for {:.1} seconds, and nobody jumps so high",
                    flight.end - air.unwrap_or(flight.begin)
                )
            } else {
                format!(
                    "time for a jump of {:.2} m only, where the step asks for {:.2} m",
                    flight.height, jump.asked
                )
            };
            told.push(Found {
                kind: FaultKind::HurriedJump,
                at: jump.air.unwrap_or(jump.lands) as f64,
                lasts: (jump.floor as f64, jump.lands as f64),
                dancers: vec![dancer],
                value: flight.height,
                limit: LEAST * jump.asked,
                text,
                spot: Some((x, y)),
            });
        }
    }
    found.extend(told.into_iter().map(|mut jump| {
        jump.text = match jump.dancers.as_slice() {
            [one] => format!("{one} has {}", jump.text),
            all if all.len() == look.motion.dancers() => format!("everybody has {}", jump.text),
            some => format!("{} have {}", numbers(some), jump.text),
        };
        jump
    }));
}

/// A jump: the count of the floor before it, its first count in the air if it has one, and the count on which it lands.
struct Jump {
    floor: usize,
    /// The last count on which the weight stayed on it, or that of the floor.
    stays: usize,
    air: Option<usize>,
    lands: usize,
    /// How high the step asks for it, metres.
    asked: f64,
}

/// The jumps of a figure, and the hops that are to be high.
fn jumps(falls: &[Footfall], known: &[Step]) -> Vec<Jump> {
    let mut jumps = Vec::new();
    let (mut floor, mut stays, mut air): (usize, usize, Option<(usize, f64)>) = (0, 0, None);
    let (mut inside, mut last) = (0, None);
    for (index, fall) in falls.iter().enumerate() {
        inside = if fall.begins || last != Some(fall.step) { 0 } else { inside + 1 };
        last = Some(fall.step);
        let rise = || known.get(fall.step).and_then(|step| step.rise.get(inside)).copied().unwrap_or(0.0);
        if fall.weight == Weight::Air {
            air =
                Some(air.map_or((index, rise()), |(first, asked): (usize, f64)| (first, asked.max(rise()))));
            continue;
        }
        if fall.stays {
            stays = index;
            continue;
        }
        if let Some((first, asked)) = air.take() {
            jumps.push(Jump { floor, stays, air: Some(first), lands: index, asked });
        } else if index > 0 && rise() >= HIGH_HOP {
            jumps.push(Jump { floor, stays, air: None, lands: index, asked: rise() });
        }
        floor = index;
    }
    jumps
}

/// The numbers of some dancers, as they are said.
fn numbers(dancers: &[Dancer]) -> String {
    let mut said: Vec<String> = dancers.iter().map(|dancer| dancer.number().to_string()).collect();
    match (said.pop(), said.is_empty()) {
        (Some(last), false) => format!("{} and {last}", said.join(", ")),
        (last, _) => last.unwrap_or_default(),
    }
}
