//! When each dancer of a hey is where: solved, so that those in a file stay as far apart as they can.
//!
//! With even timing tops and bottoms of three would meet at the middle. What is made low is the sum, over the whole
//! half hey, of an inverse power of every distance, with a price on speed above a limit and on unevenness. First one
//! role's whole timing at a time is solved exactly on a grid of moments and places while the others keep theirs
//! (dynamic programming: R. Bellman, Dynamic Programming, 1957), role after role until nothing changes. Then the
//! timing at each count is polished by moving one count at a time by shrinking steps. The start of the search has 1
//! leading through the middle, then 5, then 3 [MB1], and the search stays there. It uses no chance: the same set
//! gives the same hey.

use crate::dance::Leg;
use crate::motion::{Course, EndSpeed, Pace};
use std::sync::Mutex;

/// Counts of travelling, and knots of each role's progress.
const COUNTS: usize = 12;
/// Moments looked at in each count.
const SAMPLES: usize = 4;
/// Entries in the table of each course.
const TABLE: usize = 512;
/// The speed above which there is a price, metres a count, where the set is small enough for it.
const TOP_SPEED: f64 = 0.70;
/// Places on each role's way in the grid.
const CELLS: usize = 120;
/// Moments in each count of the grid.
const PER_COUNT: usize = 2;
/// How much uneven speed costs against closeness, on the grid and in the polish.
const EVENNESS: (f64, f64) = (0.02, 2.0);
/// How much speed above the limit costs.
const HASTE: f64 = 600.0;
/// Times that each role is solved at the most.
const ROUNDS: usize = 8;
/// How many solutions are kept.
const KEPT: usize = 64;

type Fractions = [f64; COUNTS + 1];
type Places = [(f64, f64); COUNTS * SAMPLES + 1];
/// The pace of each role: the share of its way done by the end of each count.
type Paces = Vec<Vec<f64>>;

/// A role in the search: its way, and where its timing starts from.
pub(super) struct Role<'a> {
    /// Where it begins.
    pub start: (f64, f64),
    /// The line it follows, with its counts.
    pub leg: &'a Leg,
    /// Counts for which it stays where it is.
    pub wait: usize,
    /// How much sooner than evenly it is under way to begin with.
    pub bend: f64,
}

/// Solutions already found, by the bits of the numbers that they depend on.
static FOUND: Mutex<Vec<(Vec<u64>, Paces)>> = Mutex::new(Vec::new());

/// The pace of each role.
pub(super) fn solve(roles: &[Role]) -> Paces {
    let key: Vec<u64> = roles
        .iter()
        .flat_map(|role| {
            let (x, y) = role.start;
            let points = role.leg.through.iter().flat_map(|point| [point.x, point.y]);
            points.chain([role.leg.to.x, role.leg.to.y, x, y, role.wait as f64, role.bend])
        })
        .map(f64::to_bits)
        .collect();
    if let Ok(found) = FOUND.lock()
        && let Some((_, paces)) = found.iter().find(|(known, _)| *known == key)
    {
        return paces.clone();
    }
    let paces = TimingSearch::new(roles).run();
    if let Ok(mut found) = FOUND.lock() {
        if found.len() >= KEPT {
            found.remove(0);
        }
        found.push((key, paces.clone()));
    }
    paces
}

struct TimingSearch {
    roles: Vec<Sought>,
}

/// A role as it is now.
struct Sought {
    length: f64,
    table: Vec<(f64, f64)>,
    wait: usize,
    fractions: Fractions,
    places: Places,
    /// The price of its speeds.
    haste: f64,
}

impl Sought {
    fn new(role: &Role) -> Self {
        let course = Course::of(role.leg, role.start);
        let table = (0..=TABLE)
            .map(|entry| {
                let place = course.at(course.length() * entry as f64 / TABLE as f64);
                (place.x, place.y)
            })
            .collect();
        let wait = role.wait as f64;
        let fractions = std::array::from_fn(|count| {
            let share = ((count as f64 - wait) / (COUNTS as f64 - wait)).clamp(0.0, 1.0);
            share + role.bend * share * (1.0 - share)
        });
        let mut sought = Self {
            length: course.length(),
            table,
            wait: role.wait,
            fractions,
            places: [(0.0, 0.0); COUNTS * SAMPLES + 1],
            haste: 0.0,
        };
        sought.dance();
        sought
    }

    /// The speed above which it pays: more only where its way is too long for that.
    fn top_speed(&self) -> f64 {
        TOP_SPEED.max(1.18 * self.length / (COUNTS - self.wait) as f64)
    }

    /// Works out where it is at each sampled moment, and the price of its speeds.
    fn dance(&mut self) {
        let row = &self.fractions;
        let knots: [(f64, f64); COUNTS + 1] =
            std::array::from_fn(|count| (count as f64, row.get(count).copied().unwrap_or(1.0)));
        let pace = Pace::through(&knots, EndSpeed::Still, EndSpeed::Still);
        let shares: [f64; COUNTS * SAMPLES + 1] =
            std::array::from_fn(|sample| pace.at(sample as f64 / SAMPLES as f64).clamp(0.0, 1.0));
        let top = self.top_speed() / self.length.max(1e-9);
        let speeds = shares.windows(2).map(|pair| match *pair {
            [before, after] => (after - before) * SAMPLES as f64,
            _ => 0.0,
        });
        let over: f64 = speeds.map(|speed| (speed - top).max(0.0).powi(2)).sum();
        let uneven: f64 = row
            .windows(3)
            .map(|knots| match *knots {
                [a, b, c] => (a - 2.0 * b + c).powi(2),
                _ => 0.0,
            })
            .sum();
        self.haste = HASTE * over * self.length * self.length + EVENNESS.1 * uneven;
        for (share, place) in shares.iter().zip(&mut self.places) {
            let at = share * TABLE as f64;
            let index = (at as usize).min(TABLE - 1);
            if let Some(&[(x0, y0), (x1, y1)]) = self.table.get(index..index + 2) {
                let inside = at - index as f64;
                *place = (x0 + (x1 - x0) * inside, y0 + (y1 - y0) * inside);
            }
        }
    }
}

impl TimingSearch {
    fn new(roles: &[Role]) -> Self {
        Self { roles: roles.iter().map(Sought::new).collect() }
    }

    fn run(mut self) -> Paces {
        let order: Vec<usize> = (0..self.roles.len()).rev().collect();
        for _ in 0..ROUNDS {
            let before: Vec<Fractions> = self.roles.iter().map(|role| role.fractions).collect();
            for &role in &order {
                self.solve_role(role);
            }
            if self.roles.iter().zip(&before).all(|(role, before)| role.fractions == *before) {
                break;
            }
        }
        self.polish();
        self.roles
            .iter()
            .map(|role| role.fractions.iter().skip(1).map(|share| (share * 1e4).round() / 1e4).collect())
            .collect()
    }

    fn polish(&mut self) {
        let mut best = self.cost();
        let mut step = 0.04;
        while step > 0.001 {
            let mut better = false;
            for role in 0..self.roles.len() {
                let first = self.roles.get(role).map_or(1, |role| role.wait + 1);
                for knot in first..COUNTS {
                    for change in [step, -step] {
                        if let Some(cost) = self.try_change(role, knot, change, best) {
                            best = cost;
                            better = true;
                            break;
                        }
                    }
                }
            }
            if !better {
                step *= 0.5;
            }
        }
    }

    /// Gives a role the best timing on the grid while the others keep theirs.
    fn solve_role(&mut self, role: usize) -> Option<()> {
        const STEPS: usize = COUNTS * PER_COUNT;
        let sought = self.roles.get(role)?;
        let cell = sought.length / CELLS as f64;
        let wait = sought.wait * PER_COUNT;
        // A pace that goes through knots is faster than its mean between them, so the grid is held back.
        let reach = (sought.top_speed() * 0.84 / PER_COUNT as f64 / cell.max(1e-9)).floor() as usize;
        // However long the way, it has to be possible to get to its end.
        let reach = reach.max(CELLS.div_ceil(STEPS - wait) + 1);
        let even = CELLS as f64 / (STEPS - wait) as f64;
        let cells: Vec<(f64, f64)> =
            (0..=CELLS).filter_map(|index| sought.table.get(index * TABLE / CELLS).copied()).collect();
        let mut cost = vec![f64::INFINITY; CELLS + 1];
        *cost.first_mut()? = 0.0;
        let mut came: Vec<Vec<usize>> = Vec::with_capacity(STEPS);
        for step in 1..=STEPS {
            let others: Vec<(f64, f64)> = self
                .roles
                .iter()
                .enumerate()
                .filter(|(other, _)| *other != role)
                .filter_map(|(_, other)| other.places.get(step * SAMPLES / PER_COUNT).copied())
                .collect();
            let mut next = vec![f64::INFINITY; CELLS + 1];
            let mut from = vec![0; CELLS + 1];
            for (index, place) in cells.iter().enumerate() {
                if step <= wait && index > 0 {
                    break;
                }
                let near: f64 = others.iter().map(|other| closeness(place, other)).sum();
                let (Some(best), Some(back)) = (next.get_mut(index), from.get_mut(index)) else { continue };
                for (before, sum) in cost.iter().enumerate().take(index + 1).skip(index.saturating_sub(reach))
                {
                    let speed = (index - before) as f64 / even - 1.0;
                    let total = sum + near + EVENNESS.0 * speed * speed;
                    if total < *best {
                        (*best, *back) = (total, before);
                    }
                }
            }
            cost = next;
            came.push(from);
        }
        let mut index = CELLS;
        let mut row = [0.0; COUNTS + 1];
        for step in (0..=STEPS).rev() {
            if step % PER_COUNT == 0 {
                *row.get_mut(step / PER_COUNT)? = index as f64 / CELLS as f64;
            }
            if step > 0 {
                index = *came.get(step - 1)?.get(index)?;
            }
        }
        let sought = self.roles.get_mut(role)?;
        sought.fractions = row;
        sought.dance();
        Some(())
    }

    /// Moves a knot; keeps it and gives the new cost if that is lower.
    fn try_change(&mut self, role: usize, knot: usize, change: f64, best: f64) -> Option<f64> {
        let sought = self.roles.get_mut(role)?;
        let before = *sought.fractions.get(knot)?;
        let (low, high) = (*sought.fractions.get(knot - 1)?, *sought.fractions.get(knot + 1)?);
        let after = (before + change).clamp(low, high);
        if (after - before).abs() < 1e-9 {
            return None;
        }
        let (old_places, old_haste) = (sought.places, sought.haste);
        *sought.fractions.get_mut(knot)? = after;
        sought.dance();
        let cost = self.cost();
        if cost < best - 1e-9 {
            return Some(cost);
        }
        let sought = self.roles.get_mut(role)?;
        *sought.fractions.get_mut(knot)? = before;
        (sought.places, sought.haste) = (old_places, old_haste);
        None
    }

    /// Lower when everyone is farther apart and speeds are low and even.
    fn cost(&self) -> f64 {
        let mut cost: f64 = self.roles.iter().map(|role| role.haste).sum();
        for (index, one) in self.roles.iter().enumerate() {
            for other in self.roles.iter().skip(index + 1) {
                cost += one.places.iter().zip(&other.places).map(|(a, b)| closeness(a, b)).sum::<f64>();
            }
        }
        cost
    }
}

/// An inverse power of the distance between two places.
fn closeness((x0, y0): &(f64, f64), (x1, y1): &(f64, f64)) -> f64 {
    let square = (x0 - x1).powi(2) + (y0 - y1).powi(2) + 1e-6;
    let third = square * square * square;
    1.0 / (third * third * third)
}
