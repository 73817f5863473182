//! When each dancer of a hey is where: solved, so that the three in a file stay as far apart as they can.
//!
//! With even timing tops and bottoms would meet at the middle. What is made low is the sum, over the whole half
//! hey, of an inverse power of every distance. First one role's whole timing at a time is solved exactly on a
//! grid of moments and places while the others keep theirs (dynamic programming: R. Bellman, Dynamic
//! Programming, 1957), role after role until nothing changes. Then the timing at each count is polished by
//! moving one count at a time by shrinking steps. The start of the search has 1 leading through the middle,
//! then 5, then 3 [MB1], and the search stays there. It uses no chance: the same set gives the same hey.

use crate::dance::Leg;
use crate::motion::{Course, EndSpeed, Pace};
use std::sync::Mutex;

/// Counts of travelling, and knots of each role's progress.
const COUNTS: usize = 12;
/// Moments looked at in each count.
const SAMPLES: usize = 4;
/// Entries in the table of each course.
const TABLE: usize = 512;
/// The most that anybody travels from one count to the next, metres, where the set is small enough for it.
const TOP_SPEED: f64 = 0.58;
/// Counts for which the bottoms stay on their spots, turning.
const BOTTOMS_WAIT: usize = 2;
/// Places on each role's way in the grid.
const CELLS: usize = 120;
/// Moments in each count of the grid.
const PER_COUNT: usize = 2;
/// How much uneven speed costs against closeness.
const EVENNESS: f64 = 0.02;
/// Times that each role is solved at the most.
const ROUNDS: usize = 8;
/// How many solutions are kept.
const KEPT: usize = 32;

type Fractions = [f64; COUNTS + 1];
/// The pace of tops, middles and bottoms.
type Paces = [Vec<f64>; 3];
type Places = [(f64, f64); COUNTS * SAMPLES + 1];

/// Solutions already found, by the bits of the numbers that they depend on.
static FOUND: Mutex<Vec<(Vec<u64>, Paces)>> = Mutex::new(Vec::new());

/// The pace of each role (tops, middles, bottoms): the share of its way done by the end of each count.
pub(super) fn solve(starts: &[(f64, f64); 3], legs: &[&[Leg]; 3]) -> Paces {
    let key: Vec<u64> = legs
        .iter()
        .flat_map(|legs| legs.iter())
        .flat_map(|leg| leg.through.iter().flat_map(|point| [point.x, point.y]).chain([leg.to.x, leg.to.y]))
        .map(f64::to_bits)
        .collect();
    if let Ok(found) = FOUND.lock()
        && let Some((_, paces)) = found.iter().find(|(known, _)| *known == key)
    {
        return paces.clone();
    }
    let courses: Vec<Course> = starts
        .iter()
        .zip(legs)
        .filter_map(|(start, legs)| legs.first().map(|leg| Course::of(leg, *start)))
        .collect();
    let paces = match <[Course; 3]>::try_from(courses) {
        Ok(courses) => Search::new(&courses).run(),
        Err(_) => [Vec::new(), Vec::new(), Vec::new()],
    };
    if let Ok(mut found) = FOUND.lock() {
        if found.len() >= KEPT {
            found.remove(0);
        }
        found.push((key, paces.clone()));
    }
    paces
}

struct Search {
    lengths: [f64; 3],
    tables: [Vec<(f64, f64)>; 3],
    fractions: [Fractions; 3],
    places: [Places; 3],
}

impl Search {
    fn new(courses: &[Course; 3]) -> Self {
        let tables = courses.each_ref().map(|course| {
            (0..=TABLE)
                .map(|entry| {
                    let place = course.at(course.length() * entry as f64 / TABLE as f64);
                    (place.x, place.y)
                })
                .collect()
        });
        let ramp = |wait: f64, bend: f64| -> Fractions {
            std::array::from_fn(|count| {
                let share = ((count as f64 - wait) / (COUNTS as f64 - wait)).clamp(0.0, 1.0);
                share + bend * share * (1.0 - share)
            })
        };
        let mut search = Self {
            lengths: courses.each_ref().map(Course::length),
            tables,
            fractions: [ramp(0.0, 0.5), ramp(0.0, -0.2), ramp(BOTTOMS_WAIT as f64, 0.0)],
            places: [[(0.0, 0.0); COUNTS * SAMPLES + 1]; 3],
        };
        for role in 0..3 {
            if let (Some(places), Some(slot)) = (search.danced(role), search.places.get_mut(role)) {
                *slot = places;
            }
        }
        search
    }

    fn run(mut self) -> Paces {
        for _ in 0..ROUNDS {
            let before = self.fractions;
            for role in [2, 0, 1] {
                self.solve_role(role);
            }
            if self.fractions == before {
                break;
            }
        }
        let mut best = self.cost();
        let mut step = 0.06;
        while step > 0.002 {
            let mut better = false;
            for role in 0..3 {
                let first = if role == 2 { BOTTOMS_WAIT + 1 } else { 1 };
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
        self.fractions.map(|row| row.iter().skip(1).map(|share| (share * 1e4).round() / 1e4).collect())
    }

    /// Gives a role the best timing on the grid while the others keep theirs.
    fn solve_role(&mut self, role: usize) -> Option<()> {
        const STEPS: usize = COUNTS * PER_COUNT;
        let length = *self.lengths.get(role)?;
        let cell = length / CELLS as f64;
        let wait = if role == 2 { BOTTOMS_WAIT * PER_COUNT } else { 0 };
        let reach = (top_speed(role, length) / PER_COUNT as f64 / cell).floor() as usize;
        let even = CELLS as f64 / STEPS as f64;
        let table = self.tables.get(role)?;
        let cells: Vec<(f64, f64)> =
            (0..=CELLS).filter_map(|index| table.get(index * TABLE / CELLS).copied()).collect();
        let mut cost = vec![f64::INFINITY; CELLS + 1];
        *cost.first_mut()? = 0.0;
        let mut came: Vec<Vec<usize>> = Vec::with_capacity(STEPS);
        for step in 1..=STEPS {
            let others: Vec<(f64, f64)> = (0..3)
                .filter(|other| *other != role)
                .filter_map(|other| self.places.get(other)?.get(step * SAMPLES / PER_COUNT).copied())
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
                    let total = sum + near + EVENNESS * speed * speed;
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
        *self.fractions.get_mut(role)? = row;
        *self.places.get_mut(role)? = self.danced(role)?;
        Some(())
    }

    /// Moves a knot; keeps it and gives the new cost if that is lower and the speeds are allowed.
    fn try_change(&mut self, role: usize, knot: usize, change: f64, best: f64) -> Option<f64> {
        let length = *self.lengths.get(role)?;
        let row = self.fractions.get_mut(role)?;
        let before = *row.get(knot)?;
        let (low, high) = (*row.get(knot - 1)?, *row.get(knot + 1)?);
        let after = (before + change).clamp(low, high);
        let most = top_speed(role, length) / length;
        let worse = |reach: f64, old: f64| reach > most && reach > old;
        if (after - before).abs() < 1e-9
            || worse(after - low, before - low)
            || worse(high - after, high - before)
        {
            return None;
        }
        *row.get_mut(knot)? = after;
        let places = self.danced(role)?;
        let old = std::mem::replace(self.places.get_mut(role)?, places);
        let cost = self.cost();
        if cost < best - 1e-9 {
            return Some(cost);
        }
        *self.fractions.get_mut(role)?.get_mut(knot)? = before;
        *self.places.get_mut(role)? = old;
        None
    }

    /// Where a role is at each sampled moment.
    fn danced(&self, role: usize) -> Option<Places> {
        let (row, table) = (self.fractions.get(role)?, self.tables.get(role)?);
        let knots: [(f64, f64); COUNTS + 1] =
            std::array::from_fn(|count| (count as f64, row.get(count).copied().unwrap_or(1.0)));
        let pace = Pace::through(&knots, EndSpeed::Still, EndSpeed::Still);
        Some(std::array::from_fn(|sample| {
            let place = pace.at(sample as f64 / SAMPLES as f64).clamp(0.0, 1.0) * TABLE as f64;
            let index = (place as usize).min(TABLE - 1);
            match table.get(index..index + 2) {
                Some(&[(x0, y0), (x1, y1)]) => {
                    let inside = place - index as f64;
                    (x0 + (x1 - x0) * inside, y0 + (y1 - y0) * inside)
                }
                _ => (0.0, 0.0),
            }
        }))
    }

    /// Lower when everyone is farther apart and speeds are even.
    fn cost(&self) -> f64 {
        let [top, middle, bottom] = &self.places;
        let mut cost = 0.0;
        for ((t, m), b) in top.iter().zip(middle).zip(bottom) {
            cost += closeness(t, m) + closeness(t, b) + closeness(m, b);
        }
        let uneven: f64 = self
            .fractions
            .iter()
            .flat_map(|row| row.windows(3))
            .map(|knots| match *knots {
                [a, b, c] => (a - 2.0 * b + c).powi(2),
                _ => 0.0,
            })
            .sum();
        cost + 2.0 * uneven
    }
}

/// The most that a role travels in a count: more only where its way is too long for that.
fn top_speed(role: usize, length: f64) -> f64 {
    let counts = COUNTS - if role == 2 { BOTTOMS_WAIT } else { 0 };
    TOP_SPEED.max(1.2 * length / counts as f64)
}

/// An inverse power of the distance between two places.
fn closeness((x0, y0): &(f64, f64), (x1, y1): &(f64, f64)) -> f64 {
    let square = (x0 - x1).powi(2) + (y0 - y1).powi(2) + 1e-6;
    let third = square * square * square;
    1.0 / (third * third * third)
}
