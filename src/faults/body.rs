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

/// A body so many times as broad as it is deep, or deeper, is slender.
const SLENDER: f64 = 3.0;
/// Steps of the search for the direction between two bodies.
const STEPS: usize = 24;
/// The last step of it, radians: after a step as short as this the direction is out by about its square, and the space
/// by the square of that.
const ENOUGH: f64 = 1e-4;
/// The directions that are looked at first where bodies are close, as sines and cosines of the angle from the one
/// ahead: each sixth of half a turn, and the two ends of it.
const AROUND: [(f64, f64); 7] = [
    (-1.0, 0.0),
    (-0.866_025_403_784_438_6, 0.5),
    (-0.5, 0.866_025_403_784_438_6),
    (0.0, 1.0),
    (0.5, 0.866_025_403_784_438_6),
    (0.866_025_403_784_438_6, 0.5),
    (1.0, 0.0),
];

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

    /// How far it reaches in every direction, metres.
    #[must_use]
    pub fn core(self) -> f64 {
        self.breadth.min(self.depth)
    }

    /// How much its reach in any one direction can change for each radian that it turns, metres.
    #[must_use]
    pub fn change(self) -> f64 {
        (self.breadth - self.depth).abs()
    }

    /// How far its reach in a direction can be from what goes evenly between two facings so many radians apart, metres.
    ///
    /// The second derivative of the reach is the radius of curvature less the reach, and both are known at the ends of
    /// the axes; and no chord of a curve is farther from it than half its length times the steepest slope.
    pub(super) fn off_even(self, turned: f64) -> f64 {
        let (long, short) = (self.reach(), self.core());
        let most = (long * long - short * short) / short;
        (most * turned * turned / 8.0).min(self.change() * turned / 2.0)
    }

    /// How far it reaches in a direction when it faces another.
    pub(super) fn support(self, (x, y): Direction, (fx, fy): Direction) -> f64 {
        let (ahead, aside) = (self.depth * (x * fx + y * fy), self.breadth * (x * fy - y * fx));
        (ahead * ahead + aside * aside).sqrt()
    }

    /// The space between two such bodies, metres, and the direction from the first to the second in which it is: the
    /// second is `(x, y)` from the first, and they face these ways, degrees. Below nought they overlap, by the
    /// least distance that would part them.
    ///
    /// It is the most, over all directions n, of n·d − h1(n) − h2(n), with d from middle to middle and h the reach of
    /// each body in a direction (the separating axis of two convex shapes); found by Newton's method on the angle,
    /// where the second derivative is the sum of the radii of curvature.
    #[must_use]
    pub fn space(self, d: (f64, f64), one: f64, other: f64) -> (f64, Direction) {
        self.space_facing(d, unit(one), unit(other))
    }

    /// The same for facings given as directions.
    pub(super) fn space_facing(self, d: (f64, f64), one: Direction, other: Direction) -> (f64, Direction) {
        let (x, y) = d;
        let apart = (x * x + y * y).sqrt();
        let ahead = if apart > 0.0 { (x / apart, y / apart) } else { (0.0, 1.0) };
        if apart > 2.0 * self.reach() {
            return self.climb(d, one, other, ahead);
        }
        // Close together there may be more than one top to climb: one begins at each of the directions looked at that
        // beats its neighbours. The best is never more than a quarter of a turn from the way to the other.
        let turned = AROUND.map(|(sin, cos)| (ahead.0 * cos + ahead.1 * sin, ahead.1 * cos - ahead.0 * sin));
        let values = turned.map(|n| self.value(d, n, one, other));
        let mut best = (f64::NEG_INFINITY, ahead);
        for (index, (n, value)) in turned.into_iter().zip(values).enumerate() {
            let before = index.checked_sub(1).and_then(|before| values.get(before));
            let beats = |other: Option<&f64>| other.is_none_or(|other| value >= *other);
            if beats(before) && beats(values.get(index + 1)) {
                let tried = self.climb(d, one, other, n);
                if tried.0 > best.0 {
                    best = tried;
                }
            }
        }
        // Slender bodies have tops too narrow for these: they part best in the way that one of them faces, or near it.
        let is_slender = SLENDER * self.core() < self.reach();
        for (fx, fy) in [one, other] {
            let aside = if self.breadth >= self.depth { (fx, fy) } else { (fy, -fx) };
            let n = if aside.0 * x + aside.1 * y < 0.0 { (-aside.0, -aside.1) } else { aside };
            if is_slender || self.value(d, n, one, other) > best.0 {
                let tried = self.climb(d, one, other, n);
                if tried.0 > best.0 {
                    best = tried;
                }
            }
        }
        best
    }

    fn climb(self, d: (f64, f64), one: Direction, other: Direction, start: Direction) -> (f64, Direction) {
        let mut n = start;
        let mut value = self.value(d, n, one, other);
        for _ in 0..STEPS {
            // n turned a quarter clockwise is the way in which the angle grows.
            let (slope_one, curve_one) = self.slope_and_curve(n, one);
            let (slope_other, curve_other) = self.slope_and_curve(n, other);
            let slope = d.0 * n.1 - d.1 * n.0 - slope_one - slope_other;
            let curve = value + curve_one + curve_other;
            let mut step = if curve > 1e-9 { (slope / curve).clamp(-0.6, 0.6) } else { 0.3 * slope.signum() };
            let mut better = false;
            for _ in 0..12 {
                // Turned by the angle whose tangent the step is.
                let scale = 1.0 / (1.0 + step * step).sqrt();
                let turned = ((n.0 + n.1 * step) * scale, (n.1 - n.0 * step) * scale);
                let there = self.value(d, turned, one, other);
                if there > value {
                    (n, value, better) = (turned, there, true);
                    break;
                }
                step /= 2.0;
                if step.abs() < ENOUGH {
                    break;
                }
            }
            if !better || step.abs() < ENOUGH {
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
pub(super) fn unit(facing: f64) -> Direction {
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

    /// A case that was found by chance: what parts these best is near the way that one of them faces, and not there.
    #[test]
    fn slender_bodies_that_overlap_are_parted_best() {
        let body = Body { breadth: 2.295_759_266_714_382_5, depth: 0.232_997_188_439_306_6 };
        let (d, one, other) = (
            (-0.219_652_147_389_052_87, 0.778_228_395_874_223_7),
            136.823_386_216_965_6,
            198.999_427_237_559_22,
        );
        let best = (0..36_000)
            .map(|step| body.value(d, unit(f64::from(step) * 0.01), unit(one), unit(other)))
            .fold(f64::NEG_INFINITY, f64::max);
        assert!(body.space(d, one, other).0 >= best - 1e-9);
    }

    /// Another one, of bodies four times as broad as deep, nearly on one another.
    #[test]
    fn bodies_on_one_another_are_parted_best() {
        let body = Body { breadth: 1.989_777_664_004_851, depth: 0.502_757_986_152_459 };
        let (d, one, other) = (
            (0.068_688_168_569_434_9, -0.044_355_383_957_334_52),
            100.109_554_338_639_3,
            346.443_546_837_538_2,
        );
        let best = (0..36_000)
            .map(|step| body.value(d, unit(f64::from(step) * 0.01), unit(one), unit(other)))
            .fold(f64::NEG_INFINITY, f64::max);
        let space = body.space(d, one, other).0;
        assert!(space >= best - 1e-9, "{space} {best}");
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

        /// Against a thousand facings between the two.
        #[test]
        fn the_reach_between_two_facings_is_as_even_as_is_said(
            bearing in 0.0f64..360.0, from in -720.0f64..720.0, over in 0.0f64..200.0, slender in 0.02f64..1.0
        ) {
            let body = Body { breadth: 0.25, depth: 0.25 * slender };
            let support = |share: f64| body.support(unit(bearing), unit(from + over * share));
            let allowed = body.off_even(over.to_radians());
            for step in 0..=1000 {
                let share = f64::from(step) / 1000.0;
                let even = support(0.0) + (support(1.0) - support(0.0)) * share;
                prop_assert!((support(share) - even).abs() <= allowed + 1e-12, "{share}");
            }
        }

        /// The slender ones that a dance's own limits allow, too.
        #[test]
        fn slender_bodies_are_parted_as_well(
            x in -6f64..6.0, y in -6f64..6.0, one in 0.0f64..360.0, other in 0.0f64..360.0,
            breadth in 0.025f64..2.5, depth in 0.025f64..2.5
        ) {
            let body = Body { breadth, depth };
            let space = body.space((x, y), one, other).0;
            let best = (0..36_000)
                .map(|step| body.value((x, y), unit(f64::from(step) * 0.01), unit(one), unit(other)))
                .fold(f64::NEG_INFINITY, f64::max);
            prop_assert!(space >= best - 1e-9, "{space} {best}");
        }
    }
}
