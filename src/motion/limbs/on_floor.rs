use super::flight::Flight;
use super::on_count::OnCount;
use super::sides::{on_side, on_side_mut};
use super::sizes::STANDS;
use crate::motion::Weight;

/// Whoever hops or springs leaves the floor, and rises so much at the least, metres, whatever the step says of it.
const LEAST_HOP: f64 = 0.01;

/// The feet, left and right, on the floor and off it; times are seconds.
#[derive(Default)]
pub(super) struct OnFloor {
    /// From when to when each is down.
    pub times: [Vec<(f64, f64)>; 2],
    /// When each steps that was down already, and since when both have been.
    pub again: [Vec<(f64, f64)>; 2],
    /// The hops and jumps between.
    pub flights: Vec<Flight>,
}

/// When each foot is on the floor, and the flights.
pub(super) fn on_the_floor(keys: &[OnCount], end: f64) -> OnFloor {
    let mut made = OnFloor::default();
    let mut since = [Some(-STANDS); 2];
    let (mut floor, mut stays, mut air): (f64, f64, Option<([f64; 2], f64)>) = (-STANDS, -STANDS, None);
    let lift = |made: &mut OnFloor, since: &mut [Option<f64>; 2], side: usize, at: f64| {
        if let Some(begin) = on_side_mut(since, side).take() {
            on_side_mut(&mut made.times, side).push((begin, at.max(begin)));
        }
    };
    let mut before = -STANDS;
    for key in keys {
        if key.weight == Weight::Air {
            let ([first, _], rise) = air.unwrap_or(([key.time; 2], 0.0));
            air = Some(([first, key.time], rise.max(key.rise)));
            continue;
        }
        let lands = match key.weight {
            Weight::Left => [true, false],
            Weight::Right => [false, true],
            Weight::Both | Weight::Air => [true, true],
        };
        let rise = if key.hop || key.rise > 0.0 { key.rise.max(LEAST_HOP) } else { 0.0 };
        let springs = rise > 0.0 && key.time > floor;
        if air.is_some() || springs {
            let asked = air.map_or(rise, |(_, rise)| if rise > 0.0 { rise.max(LEAST_HOP) } else { 0.0 });
            let flight = Flight::landing(key.time, (floor, stays), air.map(|(counts, _)| counts), asked);
            (0..2).for_each(|side| lift(&mut made, &mut since, side, flight.begin));
            made.flights.push(flight);
            (floor, air) = (key.time, None);
        }
        if key.stays {
            stays = key.time;
        } else {
            floor = key.time;
        }
        let stood = since.iter().all(Option::is_some) && !key.stays && key.weight != Weight::Both;
        for side in 0..2 {
            if on_side(lands, side) {
                if stood {
                    on_side_mut(&mut made.again, side).push((key.time, before));
                }
                on_side_mut(&mut since, side).get_or_insert(key.time);
            } else {
                lift(&mut made, &mut since, side, key.time);
            }
        }
        before = key.time;
    }
    (0..2).for_each(|side| lift(&mut made, &mut since, side, end + STANDS));
    made
}
