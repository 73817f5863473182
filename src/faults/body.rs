//! Bodies seen from above and the space between two of them.

use crate::dance::FaultLimits;

/// A body seen from above: an ellipse, broad across the shoulders and less deep from front to back. Half sizes, metres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Body {
    breadth: f64,
    depth: f64,
}

/// A direction on the floor, of length 1.
pub type Direction = (f64, f64);

/// Steps of the search for the direction between two bodies.
const STEPS: usize = 24;
/// How well the direction is found, radians: the space is then out by the square of it.
const ENOUGH: f64 = 1e-6;

impl Body {
    /// The body that a dance's limits give.
    #[must_use]
    pub fn of(limits: &FaultLimits) -> Self {
        Self { breadth: limits.breadth() / 2.0, depth: limits.depth() / 2.0 }
    }

    /// How far the body reaches from its middle at the most, metres.
    #[must_use]
    pub fn reach(self) -> f64 {
        self.breadth.max(self.depth)
    }

    /// How much its reach in any one direction can change for each radian that it turns, metres.
    #[must_use]
    pub fn change(self) -> f64 {
        (self.breadth - self.depth).abs()
    }

    /// How far it reaches in a direction when it faces another.
    fn support(self, (x, y): Direction, (fx, fy): Direction) -> f64 {
        let (ahead, aside) = (x * fx + y * fy, x * fy - y * fx);
        (self.depth * ahead).hypot(self.breadth * aside)
    }

    /// How far it reaches in a direction at the most while its facing goes over a range, degrees.
    #[must_use]
    pub fn most(self, direction: Direction, (from, to): (f64, f64)) -> f64 {
        if to - from >= 180.0 {
            return self.reach();
        }
        // The facing in which the longer axis lies along the direction.
        let bearing = direction.0.atan2(direction.1).to_degrees();
        let longest = if self.breadth >= self.depth { bearing + 90.0 } else { bearing };
        let first = longest + ((from - longest) / 180.0).ceil() * 180.0;
        if first <= to {
            return self.reach();
        }
        let at = |facing: f64| self.support(direction, unit(facing));
        at(from).max(at(to))
    }

    /// The space between two such bodies, metres, and the direction from the first to the second in which it is: the
    /// second is `(x, y)` from the first, and they face these ways, degrees. Below nought they overlap, by the
    /// least distance that would part them.
    ///
    /// It is the most, over all directions n, of n·d − h1(n) − h2(n), with d from middle to middle and h the reach of
    /// each body in a direction (the separating axis of two convex shapes); found by Newton's method on the angle,
    /// where the second derivative is the sum of the radii of curvature.
    #[must_use]
    pub fn space(self, (x, y): (f64, f64), one: f64, other: f64) -> (f64, Direction) {
        let facings = (unit(one), unit(other));
        let apart = x.hypot(y);
        if apart > 2.0 * self.reach() {
            return self.climb((x, y), facings, (x / apart, y / apart));
        }
        // Close together there may be more than one top to climb.
        let mut best = (f64::NEG_INFINITY, (0.0, 1.0));
        for step in 0..12 {
            let start = unit(f64::from(step) * 30.0);
            let tried = self.climb((x, y), facings, start);
            if tried.0 > best.0 {
                best = tried;
            }
        }
        best
    }

    fn climb(
        self,
        d: (f64, f64),
        (one, other): (Direction, Direction),
        start: Direction,
    ) -> (f64, Direction) {
        let mut n = start;
        let mut value = self.value(d, n, one, other);
        for _ in 0..STEPS {
            // n turned a quarter clockwise is the way in which the angle grows.
            let (slope_one, curve_one) = self.slope_and_curve(n, one);
            let (slope_other, curve_other) = self.slope_and_curve(n, other);
            let slope = d.0 * n.1 - d.1 * n.0 - slope_one - slope_other;
            let curve = value + curve_one + curve_other;
            let mut step = if curve > 1e-9 { (slope / curve).clamp(-0.6, 0.6) } else { 0.3 * slope.signum() };
            if step.abs() < ENOUGH {
                break;
            }
            let mut better = false;
            for _ in 0..12 {
                let (sin, cos) = step.sin_cos();
                let turned = (n.0 * cos + n.1 * sin, n.1 * cos - n.0 * sin);
                let there = self.value(d, turned, one, other);
                if there > value {
                    (n, value, better) = (turned, there, true);
                    break;
                }
                step /= 2.0;
            }
            if !better {
                break;
            }
        }
        (value, n)
    }

    fn value(self, d: (f64, f64), n: Direction, one: Direction, other: Direction) -> f64 {
        n.0 * d.0 + n.1 * d.1 - self.support(n, one) - self.support(n, other)
    }

    /// How the reach changes as the direction turns clockwise, and the radius of curvature of the body there.
    fn slope_and_curve(self, (x, y): Direction, (fx, fy): Direction) -> (f64, f64) {
        let (ahead, aside) = (x * fx + y * fy, x * fy - y * fx);
        let (b2, d2) = (self.breadth * self.breadth, self.depth * self.depth);
        let reach = (d2 * ahead * ahead + b2 * aside * aside).sqrt().max(1e-12);
        ((b2 - d2) * ahead * aside / reach, b2 * d2 / (reach * reach * reach))
    }
}

/// The direction of a facing, degrees clockwise from up.
fn unit(facing: f64) -> Direction {
    facing.to_radians().sin_cos()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn body() -> Body {
        Body::of(&FaultLimits::default())
    }

    /// Ellipses of 0.50 by 0.28 m: shoulder to shoulder, front to front, and on one another (worked out by hand).
    #[test]
    fn space_in_plain_cases() {
        for (d, one, other, space) in [
            ((0.6, 0.0), 0.0, 0.0, 0.1),
            ((0.6, 0.0), 90.0, 270.0, 0.32),
            ((0.0, 1.0), 0.0, 90.0, 1.0 - 0.14 - 0.25),
            ((0.0, 0.0), 0.0, 0.0, -0.28),
            ((0.3, 0.0), 0.0, 0.0, -0.2),
        ] {
            let found = body().space(d, one, other).0;
            // The last overlaps by less one way than the other.
            assert!((found - space).abs() < 1e-9 || (d == (0.3, 0.0) && found >= space), "{d:?}: {found}");
        }
    }

    proptest! {
        /// Against the best of a thousand directions.
        #[test]
        fn no_direction_parts_them_more(x in -1.5f64..1.5, y in -1.5f64..1.5, one in 0.0f64..360.0, other in 0.0f64..360.0) {
            let body = body();
            let (space, n) = body.space((x, y), one, other);
            let value = |n: Direction| body.value((x, y), n, unit(one), unit(other));
            prop_assert!((value(n) - space).abs() < 1e-12);
            let best = (0..1000).map(|step| value(unit(f64::from(step) * 0.36))).fold(f64::NEG_INFINITY, f64::max);
            prop_assert!(space >= best - 1e-9, "{space} {best}");
            prop_assert!(space <= best + 1e-4, "{space} {best}");
        }

        #[test]
        fn the_most_is_the_most(bearing in 0.0f64..360.0, from in -720.0f64..720.0, over in 0.0f64..200.0) {
            let body = body();
            let most = body.most(unit(bearing), (from, from + over));
            let sampled = (0..=2000)
                .map(|step| body.support(unit(bearing), unit(from + over * f64::from(step) / 2000.0)))
                .fold(0.0, f64::max);
            prop_assert!(most >= sampled - 1e-12 && most <= sampled + 1e-5, "{most} {sampled}");
        }
    }
}
