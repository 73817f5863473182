//! When each dancer of a hey is where: solved, so that those in a file keep apart and each of them goes evenly.
//!
//! With even speeds tops and bottoms of three would meet at the middle. What is looked for is each role's speed at every
//! half count, so that changes of speed and what is beside the even speed come to the least, while everyone keeps apart
//! and moves in every bar (`demands.rs`). It begins with even speeds, with a low price on what is missing and then with
//! higher ones, goes down the slopes (`descent.rs`), and comes to where 1 leads through the middle, then 5, then 3 [MB1]. It uses no
//! chance and nothing but sums, products and roots, which are the same on every machine: the same set gives the same hey.

mod demands;
mod descent;
mod role;
mod way;

use demands::Demands;
use std::sync::Mutex;
use way::{LOOKS, MOMENTS, Way};

pub(super) use role::Role;

/// What a missing metre costs, squared, in one round after another.
const WEIGHTS: [f64; 3] = [1e2, 1e3, 1e4];
/// What a metre between two costs that is still missing then: that they keep apart comes before all else.
const LAST_WEIGHT: f64 = 1e6;
/// Steps of a round at the most.
const STEPS: usize = 80;
/// How much farther apart is asked for than has to be had, metres.
const MARGIN: f64 = 0.015;
/// Entries of a pace in each count.
const ENTRIES: usize = 4;
/// How many solutions are kept.
const KEPT: usize = 64;

/// The pace of each role: the share of its way done by the end of each quarter of a count.
type Paces = Vec<Vec<f64>>;

/// Solutions already found, by the bits of the numbers that they depend on.
static FOUND: Mutex<Vec<(Vec<u64>, Paces)>> = Mutex::new(Vec::new());

/// The pace of each role, with those in a file as far apart as is asked for (metres) where that can be.
pub(super) fn solve(roles: &[Role], apart: f64) -> Paces {
    let key: Vec<u64> = roles
        .iter()
        .flat_map(|role| {
            let (x, y) = role.start;
            let points = role.leg.through.iter().flat_map(|point| [point.x, point.y]);
            points.chain([role.leg.to.x, role.leg.to.y, x, y, role.leg.begin, role.leg.end])
        })
        .chain([apart])
        .map(f64::to_bits)
        .collect();
    if let Ok(found) = FOUND.lock()
        && let Some((_, paces)) = found.iter().find(|(known, _)| *known == key)
    {
        return paces.clone();
    }
    let ways: Vec<Way> = roles.iter().map(Way::of).collect();
    let paces = paces(&ways, &solved(&ways, apart).speeds);
    if let Ok(mut found) = FOUND.lock() {
        if found.len() >= KEPT {
            found.remove(0);
        }
        found.push((key, paces.clone()));
    }
    paces
}

/// What was found.
struct Solved {
    /// Metres a count at each half count on the way, those of one role after those of another.
    speeds: Vec<f64>,
    /// How often the price of speeds was looked at.
    #[cfg_attr(not(test), allow(dead_code))]
    looks: usize,
}

fn solved(ways: &[Way], apart: f64) -> Solved {
    let mut speeds: Vec<f64> = ways.iter().flat_map(|way| vec![way.even(); way.speeds()]).collect();
    let mut demands = Demands::new(ways, apart + MARGIN);
    let mut looks = 0;
    for weight in WEIGHTS {
        demands.weights = (weight, weight);
        looks += descent::descend(&mut speeds, STEPS, |at, slopes| demands.look(at, slopes));
    }
    let mut slopes = vec![0.0; speeds.len()];
    demands.look(&speeds, &mut slopes);
    if demands.nearest() < apart + MARGIN / 2.0 {
        demands.weights.0 = LAST_WEIGHT;
        looks += descent::descend(&mut speeds, STEPS, |at, slopes| demands.look(at, slopes));
    }

    Solved { speeds, looks }
}

/// The share of each way done by the end of each quarter of a count on it.
fn paces(ways: &[Way], speeds: &[f64]) -> Paces {
    let mut rest = speeds;
    let mut paces = Vec::with_capacity(ways.len());
    for way in ways {
        let (own, others) = rest.split_at(way.speeds().min(rest.len()));
        rest = others;
        let mut done = [0.0; MOMENTS];
        way.travel(own, &mut done);
        let (begin, end) = (way.begin * LOOKS, way.end * LOOKS);
        let mut before = 0.0_f64;
        let each = 2 * LOOKS / ENTRIES;
        let pace = (begin + each..=end).step_by(each).map(|moment| {
            let share = done.get(moment).map_or(1.0, |metres| metres / way.length.max(1e-9));
            before = before.max((share * 1e5).round() / 1e5).min(1.0);
            if moment == end { 1.0 } else { before }
        });
        paces.push(pace.collect());
    }
    paces
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Leg;

    /// The left file of three on a small track of two loops: those who go down, those who go round from the middle, and
    /// those who go up after three counts.
    fn legs(across: f64, along: f64) -> Vec<((f64, f64), Leg)> {
        let place = |angle: f64| {
            let wave = (2.0 * angle.to_radians()).sin();
            (wave * if wave > 0.0 { across / 2.0 - 0.31 } else { 0.5 }, along * angle.to_radians().cos())
        };
        [(0.0, 0.0, 12.0), (270.0, 0.0, 11.0), (180.0, 3.0, 12.0)]
            .map(|(from, begin, end)| {
                let points: Vec<(f64, f64)> =
                    (1..12).map(|point| place(from + 15.0 * f64::from(point))).collect();
                let (x, y) = place(from + 180.0);
                (place(from), Leg::smooth(begin, end, &points, x, y))
            })
            .to_vec()
    }

    fn ways(legs: &[((f64, f64), Leg)]) -> Vec<Way> {
        legs.iter().map(|(start, leg)| Way::of(&Role { start: *start, leg })).collect()
    }

    /// It takes so few looks that a set can follow while its size is dragged.
    #[test]
    fn few_looks_are_enough() {
        for (across, along) in [(2.4, 1.8), (1.85, 1.2), (3.66, 2.0), (6.0, 6.0), (1.8, 0.4)] {
            let solved = solved(&ways(&legs(across, along)), 0.9);
            println!("{across} by {along}: {} looks", solved.looks);
            assert!(solved.looks <= 250, "{across} by {along}: {} looks", solved.looks);
        }
    }

    /// What is asked for can be had there, and everyone comes to the end of their way.
    #[test]
    fn everyone_keeps_apart_and_arrives() {
        let ways = ways(&legs(2.4, 1.8));
        let solved = solved(&ways, 0.9);
        let mut demands = Demands::new(&ways, 0.9);
        demands.look(&solved.speeds, &mut vec![0.0; solved.speeds.len()]);
        assert!(demands.nearest() >= 0.9, "{}", demands.nearest());
        for (way, pace) in ways.iter().zip(paces(&ways, &solved.speeds)) {
            assert_eq!(pace.len(), (way.counts() * 4.0) as usize);
            assert!(pace.windows(2).all(|pair| pair[0] <= pair[1]) && pace.last() == Some(&1.0));
            let before = pace[pace.len() - 2];
            assert!(before > 0.97 && before < 1.0, "it stops without a jump: {before}");
        }
    }

    /// The slopes that the price comes with are those of small changes, each way kept as long as it is.
    #[test]
    fn the_price_comes_with_its_slopes() {
        let ways = ways(&legs(2.4, 1.8));
        let mut demands = Demands::new(&ways, 1.2);
        demands.weights = (1e3, 1e2);
        let speeds: Vec<f64> = ways.iter().flat_map(|way| vec![way.even(); way.speeds()]).collect();
        let mut slopes = vec![0.0; speeds.len()];
        demands.look(&speeds, &mut slopes);
        let mut unused = slopes.clone();
        for index in 1..ways[0].speeds() {
            let mut price = |by: f64| {
                let mut moved = speeds.clone();
                moved[index] += by;
                moved[index - 1] -= by;
                demands.look(&moved, &mut unused)
            };
            let slope = (price(1e-5) - price(-1e-5)) / 2e-5;
            let said = slopes[index] - slopes[index - 1];
            assert!((slope - said).abs() < 0.02 * (1.0 + slope.abs()), "{index}: {slope} and {said}");
        }
    }

    /// A set that has been asked for is not solved again, and gives the same.
    #[test]
    fn what_was_found_is_kept() {
        let legs = legs(2.4, 1.77);
        let roles: Vec<Role> = legs.iter().map(|(start, leg)| Role { start: *start, leg }).collect();
        let first = solve(&roles, 0.9);
        let kept = || FOUND.lock().unwrap().iter().filter(|(_, paces)| *paces == first).count();
        assert_eq!(kept(), 1);
        assert_eq!(solve(&roles, 0.9), first);
        assert_eq!(kept(), 1);
        assert_eq!(paces(&ways(&legs), &solved(&ways(&legs), 0.9).speeds), first);
    }
}
