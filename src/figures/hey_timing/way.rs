//! A role's way over the floor, and what its speeds make of it.

use super::role::Role;
use crate::motion::Course;

/// Moments looked at in each half count.
pub(super) const LOOKS: usize = 4;
/// Half counts of a half hey in which anybody travels.
pub(super) const HALVES: usize = 24;
/// Moments looked at: each eighth of a count, from the start of the half hey to where the jump begins.
pub(super) const MOMENTS: usize = HALVES * LOOKS + 1;
/// Entries in the table of each way.
const TABLE: usize = 256;
/// Half a count, in counts.
const HALF: f64 = 0.5;

/// A way that is travelled at speeds given for each half count between setting off and arriving, evenly changing in
/// between.
pub(super) struct Way {
    /// Metres.
    pub length: f64,
    /// The half count of the half hey at which it is set off on.
    pub begin: usize,
    /// The half count at which it ends.
    pub end: usize,
    /// Places at equal lengths.
    table: Vec<[f64; 2]>,
}

/// Where somebody is: the place, and how it changes for each metre of their way.
#[derive(Clone, Copy)]
pub(super) struct Spot {
    pub place: [f64; 2],
    pub along: [f64; 2],
}

impl Way {
    pub(super) fn of(role: &Role) -> Self {
        let course = Course::of(role.leg, role.start);
        let length = course.length();
        let table = (0..=TABLE)
            .map(|entry| {
                let place = course.at(length * entry as f64 / TABLE as f64);
                [place.x, place.y]
            })
            .collect();
        let half = |count: f64| ((count / HALF).round().max(0.0) as usize).min(HALVES);
        let begin = half(role.leg.begin).min(HALVES - 2);
        Self { length, begin, end: half(role.leg.end).max(begin + 2), table }
    }

    /// How many speeds it has: one at each half count on the way.
    pub(super) fn speeds(&self) -> usize {
        self.end - self.begin - 1
    }

    /// Counts from setting off to arriving.
    pub(super) fn counts(&self) -> f64 {
        (self.end - self.begin) as f64 * HALF
    }

    /// Metres a count, over all of it.
    pub(super) fn mean(&self) -> f64 {
        self.length / self.counts()
    }

    /// The speed that makes an even way of it, setting off and stopping taken off: metres a count.
    pub(super) fn even(&self) -> f64 {
        self.length / (self.counts() - HALF)
    }

    /// Writes how many metres are done at each moment.
    pub(super) fn travel(&self, speeds: &[f64], done: &mut [f64]) {
        let mut metres = 0.0;
        let mut speeds = speeds.iter().copied();
        let mut from = 0.0;
        for (half, moments) in done.chunks_mut(LOOKS).enumerate() {
            if half < self.begin || half >= self.end {
                moments.fill(metres);
                continue;
            }
            let to = speeds.next().unwrap_or(0.0);
            for (look, moment) in moments.iter_mut().enumerate() {
                let share = look as f64 / LOOKS as f64;
                *moment = metres + HALF * share * (from + (to - from) * share / 2.0);
            }
            metres += HALF * f64::midpoint(from, to);
            from = to;
        }
    }

    /// Adds to the slopes of the speeds what follows from the slopes of the metres done at each moment.
    pub(super) fn trace_back(&self, of_done: &[f64], slopes: &mut [f64]) {
        let mut later: f64 = of_done.iter().skip(self.end * LOOKS).sum();
        for half in (self.begin..self.end).rev() {
            let (mut before, mut after) = (HALF / 2.0 * later, HALF / 2.0 * later);
            for look in 0..LOOKS {
                let slope = of_done.get(half * LOOKS + look).copied().unwrap_or(0.0);
                let share = look as f64 / LOOKS as f64;
                before += slope * HALF * share * (1.0 - share / 2.0);
                after += slope * HALF * share * share / 2.0;
                later += slope;
            }
            let index = half - self.begin;
            if let Some(slope) = slopes.get_mut(index) {
                *slope += after;
            }
            if let Some(slope) = index.checked_sub(1).and_then(|index| slopes.get_mut(index)) {
                *slope += before;
            }
        }
    }

    /// Where somebody is who has done so many metres.
    pub(super) fn spot(&self, metres: f64) -> Spot {
        let each = self.length.max(1e-9) / TABLE as f64;
        let at = (metres / each).clamp(0.0, TABLE as f64);
        let index = (at as usize).min(TABLE - 1);
        match self.table.get(index..index + 2) {
            Some(&[[x0, y0], [x1, y1]]) => {
                let (inside, dx, dy) = (at - index as f64, x1 - x0, y1 - y0);
                Spot { place: [x0 + dx * inside, y0 + dy * inside], along: [dx / each, dy / each] }
            }
            _ => Spot { place: [0.0; 2], along: [0.0; 2] },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::Leg;

    fn way() -> Way {
        let leg = Leg::smooth(1.0, 9.0, &[(1.0, 0.5), (1.5, 1.5)], 0.0, 2.0);
        Way::of(&Role { start: (0.0, 0.0), leg: &leg })
    }

    #[test]
    fn even_speeds_bring_it_to_its_end() {
        let way = way();
        let mut done = [0.0; MOMENTS];
        way.travel(&vec![way.even(); way.speeds()], &mut done);
        assert_eq!(done[2 * LOOKS], 0.0, "it sets off with count 1");
        assert!((done[18 * LOOKS] - way.length).abs() < 1e-9 && done[MOMENTS - 1] == done[18 * LOOKS]);
        assert!(done.windows(2).all(|pair| pair[0] <= pair[1]));
    }

    /// The slopes are those of small changes.
    #[test]
    fn slopes_are_traced_back_to_speeds() {
        let way = way();
        let weights: Vec<f64> = (0..MOMENTS).map(|moment| ((moment * 37) % 11) as f64 - 5.0).collect();
        let value = |speeds: &[f64]| {
            let mut done = [0.0; MOMENTS];
            way.travel(speeds, &mut done);
            done.iter().zip(&weights).map(|(done, weight)| done * weight).sum::<f64>()
        };
        let speeds: Vec<f64> = (0..way.speeds()).map(|index| 0.3 + 0.02 * index as f64).collect();
        let mut slopes = vec![0.0; way.speeds()];
        way.trace_back(&weights, &mut slopes);
        for index in 0..speeds.len() {
            let mut moved = speeds.clone();
            moved[index] += 1e-4;
            let slope = (value(&moved) - value(&speeds)) / 1e-4;
            assert!((slope - slopes[index]).abs() < 1e-6, "{index}: {slope} and {}", slopes[index]);
        }
    }
}
