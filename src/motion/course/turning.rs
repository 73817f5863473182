//! How far a curve turns, found from its control points and not from samples of it.

use crate::motion::cubics::roots;
use lyon::geom::{CubicBezierSegment, Vector};

/// How the heading of a curve differs from the one at its start, degrees, clockwise positive.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turning {
    /// At its end.
    pub whole: f64,
    /// The least and the most of it.
    pub least: f64,
    pub most: f64,
}

/// Which way a curve goes, as a quadratic curve in the plane of directions.
type Going = [Vector<f64>; 3];

/// How often a curve is halved to see how far it turns; one that stops and turns back turns there by half a turn, and
/// halving it would not end.
const HALVINGS: u32 = 24;

/// How far a curve turns. Between the parameters at which it bends to neither side it only turns one way.
pub(super) fn turning(curve: &CubicBezierSegment<f64>) -> Turning {
    let going = [curve.ctrl1 - curve.from, curve.ctrl2 - curve.ctrl1, curve.to - curve.ctrl2];
    let [first, second, third] = going;
    // Half the cross product of the direction and its change is itself a quadratic curve, with these.
    let (a, b, c) = (first.cross(second), first.cross(third), second.cross(third));
    let mut bends = roots(a - b + c, b - 2.0 * a, a);
    bends.sort_by(f64::total_cmp);
    let mut turning = Turning { whole: 0.0, least: 0.0, most: 0.0 };
    let (mut rest, mut done) = (going, 0.0);
    for parameter in bends.into_iter().filter(|parameter| *parameter > 0.0 && *parameter < 1.0) {
        let share = ((parameter - done) / (1.0 - done)).clamp(0.0, 1.0);
        let (before, after) = split(rest, share);
        turning.add(sweep(before, HALVINGS));
        (rest, done) = (after, parameter);
    }
    turning.add(sweep(rest, HALVINGS));
    turning
}

impl Turning {
    fn add(&mut self, degrees: f64) {
        self.whole += degrees;
        self.least = self.least.min(self.whole);
        self.most = self.most.max(self.whole);
    }
}

/// The angle through which directions go, degrees, clockwise positive. Where the three control points do not lie about
/// nothing, the curve between them does not either, and it goes the short way.
fn sweep(going: Going, halvings: u32) -> f64 {
    let [first, second, third] = going;
    // Within a quarter of a turn of each other they do not lie about nothing.
    if first.dot(second) > 0.0 && second.dot(third) > 0.0 && first.dot(third) > 0.0 {
        return angle(first, third);
    }
    let (one, two, back) = (angle(first, second), angle(second, third), angle(third, first));
    if halvings == 0 || (one + two + back).abs() < 1.0 {
        return angle(first, third);
    }
    let (before, after) = split(going, 0.5);
    sweep(before, halvings - 1) + sweep(after, halvings - 1)
}

fn split([first, second, third]: Going, share: f64) -> (Going, Going) {
    let (one, two) = (first.lerp(second, share), second.lerp(third, share));
    let middle = one.lerp(two, share);
    ([first, one, middle], [middle, two, third])
}

/// From one direction to another, degrees, clockwise positive; nought where either is none.
fn angle(one: Vector<f64>, other: Vector<f64>) -> f64 {
    (-one.cross(other)).atan2(one.dot(other)).to_degrees()
}

#[cfg(test)]
mod tests {
    use super::*;
    use lyon::geom::point;
    use proptest::prelude::*;

    fn curve(c: [f64; 8]) -> CubicBezierSegment<f64> {
        CubicBezierSegment {
            from: point(c[0], c[1]),
            ctrl1: point(c[2], c[3]),
            ctrl2: point(c[4], c[5]),
            to: point(c[6], c[7]),
        }
    }

    proptest! {
        /// Against the headings at many places, each unwrapped from the one before.
        #[test]
        fn a_curve_turns_as_its_samples_do(c in prop::array::uniform8(-3.0f64..3.0)) {
            let curve = curve(c);
            let turning = turning(&curve);
            let (mut turned, mut least, mut most, mut jump) = (0.0_f64, 0.0_f64, 0.0_f64, 0.0_f64);
            let mut before = curve.derivative(0.0);
            for step in 1..=4000 {
                let here = curve.derivative(f64::from(step) / 4000.0);
                let by = angle(before, here);
                (turned, jump, before) = (turned + by, jump.max(by.abs()), here);
                (least, most) = (least.min(turned), most.max(turned));
            }
            // Where it turns back all but on the spot the samples do not say which way.
            prop_assume!(jump < 90.0);
            prop_assert!((turning.whole - turned).abs() < 1e-6, "{turning:?} {turned}");
            prop_assert!(turning.least <= least + 1e-6 && turning.least > least - 1.0, "{turning:?} {least}");
            prop_assert!(turning.most >= most - 1e-6 && turning.most < most + 1.0, "{turning:?} {most}");
        }
    }

    #[test]
    fn a_curve_that_stops_and_goes_back_turns_half_about() {
        for c in [[0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0, 0.0], [0.0, 0.0, 2.0, 0.0, -1.0, 0.0, 1.0, 0.0]] {
            let turning = turning(&curve(c));
            assert!((turning.whole / 180.0).fract().abs() < 1e-9, "{turning:?}");
        }
        let nowhere = turning(&curve([1.0; 8]));
        assert_eq!((nowhere.whole, nowhere.least, nowhere.most), (0.0, 0.0, 0.0));
    }
}
