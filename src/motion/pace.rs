use super::cubics::{hermite, off_chord};
use super::up_to::up_to;

/// How far along its course a dancer is at each count: rises from 0 to the course's length, never falls, and
/// has no jump in speed.
///
/// Between its knots it is the monotone cubic of F. N. Fritsch and R. E. Carlson, "Monotone piecewise cubic
/// interpolation", SIAM Journal on Numerical Analysis 17 (1980), with the weighted harmonic mean for slopes.
#[derive(Clone, Debug, PartialEq)]
pub struct Pace {
    /// Count, metres, and metres a count.
    knots: Vec<[f64; 3]>,
}

/// How a stretch begins or ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum EndSpeed {
    /// From or to standing still.
    Still,
    /// Running on at a speed, metres a count.
    Running(f64),
}

impl Pace {
    /// A pace through knots of (count, metres), both rising, with the speeds at its two ends.
    #[must_use]
    pub fn through(knots: &[(f64, f64)], first: EndSpeed, last: EndSpeed) -> Self {
        let mut kept: Vec<(f64, f64)> = Vec::with_capacity(knots.len());
        for &(at, metres) in knots {
            match kept.last() {
                Some(&(before, _)) if at <= before + 1e-9 => {}
                Some(&(_, done)) => kept.push((at, metres.max(done))),
                None => kept.push((at, metres)),
            }
        }
        let slopes: Vec<(f64, f64)> = kept
            .windows(2)
            .filter_map(|pair| match *pair {
                [(t0, s0), (t1, s1)] => Some(((s1 - s0) / (t1 - t0), t1 - t0)),
                _ => None,
            })
            .collect();
        let end = |end: EndSpeed, slope: f64| match end {
            EndSpeed::Still => 0.0,
            EndSpeed::Running(speed) => speed.clamp(0.0, 3.0 * slope),
        };
        let mut speeds = Vec::with_capacity(kept.len());
        speeds.push(slopes.first().map_or(0.0, |&(slope, _)| end(first, slope)));
        for pair in slopes.windows(2) {
            if let [(before, d0), (after, d1)] = *pair {
                speeds.push(if before <= 0.0 || after <= 0.0 {
                    0.0
                } else {
                    let (w0, w1) = (2.0 * d1 + d0, d1 + 2.0 * d0);
                    (w0 + w1) / (w0 / before + w1 / after)
                });
            }
        }
        speeds.push(slopes.last().map_or(0.0, |&(slope, _)| end(last, slope)));
        Self { knots: kept.iter().zip(speeds).map(|(&(at, metres), speed)| [at, metres, speed]).collect() }
    }

    /// A pace through knots of count, metres, and metres a count, the counts and the metres rising; a speed is no more than three
    /// times the mean on either side of it.
    #[must_use]
    pub fn with_speeds(knots: Vec<[f64; 3]>) -> Self {
        Self { knots }
    }

    /// Metres along at a count, kept within its ends.
    #[must_use]
    pub fn at(&self, count: f64) -> f64 {
        let index = up_to(&self.knots, count, |knot| knot[0]);
        match (index.checked_sub(1).and_then(|before| self.knots.get(before)), self.knots.get(index)) {
            (Some(&[t0, s0, v0]), Some(&[t1, s1, v1])) => {
                let step = t1 - t0;
                hermite(s0, v0 * step, s1, v1 * step, (count - t0) / step)
            }
            (Some(&[_, metres, _]), None) | (None, Some(&[_, metres, _])) => metres,
            (None, None) => 0.0,
        }
    }

    /// Speed at a count, metres a count.
    #[must_use]
    pub fn speed(&self, count: f64) -> f64 {
        let index = up_to(&self.knots, count, |knot| knot[0]);
        match (index.checked_sub(1).and_then(|before| self.knots.get(before)), self.knots.get(index)) {
            (Some(&[t0, s0, v0]), Some(&[t1, s1, v1])) => {
                let step = t1 - t0;
                let u = (count - t0) / step;
                let rise = (s1 - s0) / step;
                let b = 3.0 * rise - 2.0 * v0 - v1;
                let c = v0 + v1 - 2.0 * rise;
                v0 + u * (2.0 * b + u * 3.0 * c)
            }
            _ => 0.0,
        }
    }

    /// How far, metres, the way done is at the most from what an even speed between two counts would do; nothing where
    /// they do not lie between two knots that follow each other.
    #[must_use]
    pub fn uneven(&self, from: f64, to: f64) -> Option<f64> {
        let index = up_to(&self.knots, from, |knot| knot[0]);
        match (index.checked_sub(1).and_then(|before| self.knots.get(before)), self.knots.get(index)) {
            (Some(&[t0, s0, v0]), Some(&[t1, s1, v1])) if to <= t1 => {
                let step = t1 - t0;
                let (leave, arrive, rise) = (v0 * step, v1 * step, s1 - s0);
                // The cubic that `hermite` is.
                let (square, cube) = (3.0 * rise - 2.0 * leave - arrive, leave + arrive - 2.0 * rise);
                Some(off_chord(square, cube, (from - t0) / step, (to - t0) / step))
            }
            _ => None,
        }
    }

    /// Bytes that it holds beside itself.
    #[must_use]
    pub fn bytes(&self) -> usize {
        size_of_val(self.knots.as_slice())
    }

    /// The fastest that it ever is, metres a count.
    #[must_use]
    pub fn fastest(&self) -> f64 {
        let between = self.knots.windows(2).map(|pair| match *pair {
            [[t0, s0, v0], [t1, s1, v1]] => {
                let rise = (s1 - s0) / (t1 - t0);
                // Half its slope at the start, and a third of what bends it.
                let (b, c) = (3.0 * rise - 2.0 * v0 - v1, v0 + v1 - 2.0 * rise);
                let top = -b / (3.0 * c);
                let most = if top > 0.0 && top < 1.0 { v0 + top * (2.0 * b + top * 3.0 * c) } else { 0.0 };
                most.max(v0).max(v1)
            }
            _ => 0.0,
        });
        between.fold(0.0, f64::max)
    }

    /// The count at which a length is first reached, by bisection; the last count if it never is.
    #[must_use]
    pub fn when(&self, metres: f64) -> f64 {
        let (Some(first), Some(last)) = (self.knots.first(), self.knots.last()) else {
            return 0.0;
        };
        let index = self.knots.partition_point(|knot| knot[1] < metres);
        let (Some(&[t0, s0, v0]), Some(&[t1, s1, v1])) =
            (index.checked_sub(1).and_then(|before| self.knots.get(before)), self.knots.get(index))
        else {
            return if index == 0 { first[0] } else { last[0] };
        };
        let step = t1 - t0;
        let (mut before, mut after) = (0.0, 1.0);
        while after - before > 1e-15 {
            let middle = f64::midpoint(before, after);
            if hermite(s0, v0 * step, s1, v1 * step, middle) < metres {
                before = middle;
            } else {
                after = middle;
            }
        }
        t0 + step * after
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn a_pace_never_goes_back(steps in prop::collection::vec((0.01f64..3.0, 0.0f64..2.0), 1..20), run in 0.0f64..4.0) {
            let mut knots = vec![(0.0, 0.0)];
            for (count, metres) in steps {
                let (t, s) = *knots.last().unwrap();
                knots.push((t + count, s + metres));
            }
            let (end, length) = *knots.last().unwrap();
            let pace = Pace::through(&knots, EndSpeed::Running(run), EndSpeed::Still);
            let mut before = 0.0;
            for index in 0..=400 {
                let metres = pace.at(end * f64::from(index) / 400.0);
                prop_assert!(metres >= before - 1e-9);
                before = metres;
            }
            prop_assert!((pace.at(end) - length).abs() < 1e-9);
            let within = |pair: &[(f64, f64)], index: i32| {
                pace.speed(pair[0].0 + (pair[1].0 - pair[0].0) * f64::from(index) / 201.0)
            };
            let mut fastest = 0.0_f64;
            for pair in knots.windows(2) {
                for index in 0..=200 {
                    fastest = fastest.max(within(pair, index));
                }
            }
            prop_assert!(fastest <= pace.fastest() + 1e-9, "{fastest} {}", pace.fastest());
            prop_assert!(pace.fastest() <= fastest * 1.001 + 1e-9, "{fastest} {}", pace.fastest());
            for share in [0.1, 0.5, 0.9] {
                let when = pace.when(length * share);
                prop_assert!((pace.at(when) - length * share).abs() < 1e-9);
                prop_assert!(when < 1e-9 || pace.at(when - 1e-9) <= length * share);
            }
            for &(at, metres) in &knots {
                prop_assert!((pace.at(at) - metres).abs() < 1e-9);
            }
        }
    }
}
