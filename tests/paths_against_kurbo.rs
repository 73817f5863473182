//! The lines that legs follow over the floor, against the same curves built and measured with kurbo.
//!
//! Straight legs must be straight, a smooth leg is the spline of P. J. Barry and R. N. Goldman, "A recursive
//! evaluation algorithm for a class of Catmull-Rom splines" (1988), with chordal spacing, and an arc is the
//! SVG 1.1 arc between the same ends (W3C, 2011, section 8.3.8).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Leg, Shape};
use bellpad::motion::{Course, OnCourse};
use kurbo::{
    Arc, CubicBez, ParamCurve, ParamCurveArclen, ParamCurveDeriv, PathSeg, Point, Shape as _, SvgArc, Vec2,
};
use proptest::prelude::*;
use proptest::test_runner::RngSeed;

/// The most that a place or a length may differ, metres.
const CLOSE: f64 = 0.001;
/// How exactly kurbo is asked to measure, metres.
const EXACT: f64 = 1e-6;

/// A chain of kurbo curves with the length of each.
struct Chain(Vec<(PathSeg, f64)>);

impl Chain {
    fn of(segments: impl IntoIterator<Item = PathSeg>) -> Self {
        Self(segments.into_iter().map(|segment| (segment, segment.arclen(EXACT))).collect())
    }

    fn length(&self) -> f64 {
        self.0.iter().map(|(_, length)| length).sum()
    }

    fn at(&self, metres: f64) -> Point {
        let mut left = metres;
        for (segment, length) in &self.0 {
            if left <= *length {
                return segment.eval(segment.inv_arclen(left, EXACT));
            }
            left -= length;
        }
        self.0.last().expect("a chain has segments").0.end()
    }

    /// How far the direction turns from one end to the other, degrees clockwise, summed over small steps.
    fn turned(&self) -> f64 {
        let mut total = 0.0;
        let mut before: Option<f64> = None;
        for (segment, _) in &self.0 {
            let PathSeg::Cubic(curve) = segment else { continue };
            for step in 0..=2000 {
                let along = curve.deriv().eval(f64::from(step) / 2000.0).to_vec2();
                let heading = along.x.atan2(along.y).to_degrees();
                if let Some(before) = before {
                    total += (heading - before + 180.0).rem_euclid(360.0) - 180.0;
                }
                before = Some(heading);
            }
        }
        total
    }
}

/// The spline through points: at each point the direction is that of the parabola through it and the points
/// beside it, at parameters that are chord lengths apart; at the ends the second derivative along the first and
/// last curve follows from the chord (the end tangent is 3/2 of the chord less half the next tangent).
fn spline(points: &[Point]) -> Chain {
    let spacing: Vec<f64> = points.windows(2).map(|pair| (pair[1] - pair[0]).hypot()).collect();
    let slope = |index: usize| (points[index + 1] - points[index]) / spacing[index];
    let inner = |index: usize| -> Vec2 {
        let (before, after) = (spacing[index - 1], spacing[index]);
        (slope(index - 1) * after + slope(index) * before) / (before + after)
    };
    let last = points.len() - 1;
    let tangent = |index: usize| -> Vec2 {
        if index == 0 {
            1.5 * slope(0) - 0.5 * inner(1)
        } else if index == last {
            1.5 * slope(last - 1) - 0.5 * inner(last - 1)
        } else {
            inner(index)
        }
    };
    Chain::of((0..last).map(|index| {
        let third = spacing[index] / 3.0;
        let (from, to) = (points[index], points[index + 1]);
        PathSeg::Cubic(CubicBez::new(
            from,
            from + tangent(index) * third,
            to - tangent(index + 1) * third,
            to,
        ))
    }))
}

fn smooth(points: &[(f64, f64)]) -> (Course, Chain) {
    let (start, rest) = points.split_first().expect("a start");
    let (end, through) = rest.split_last().expect("an end");
    let leg = Leg::smooth(0.0, 8.0, through, end.0, end.1);
    let places: Vec<Point> = points.iter().map(|&place| place.into()).collect();
    (Course::of(&leg, *start), spline(&places))
}

fn arc(start: (f64, f64), end: (f64, f64), sweep: f64) -> (Course, Chain) {
    let mut leg = Leg::straight(0.0, 8.0, end.0, end.1);
    leg.shape = Shape::Arc;
    leg.sweep = Some(sweep);
    // A chord of a circle is 2 r sin(half the angle). SVG counts angles from x towards y: on a floor with y up
    // that is anticlockwise, so a clockwise sweep is SVG's negative one.
    let chord = (end.0 - start.0).hypot(end.1 - start.1);
    let radius = chord / 2.0 / (sweep.abs().to_radians() / 2.0).sin();
    let drawn = Arc::from_svg_arc(&SvgArc {
        from: start.into(),
        to: end.into(),
        radii: Vec2::new(radius, radius),
        x_rotation: 0.0,
        large_arc: sweep.abs() > 180.0,
        sweep: sweep < 0.0,
    })
    .expect("an arc");
    (Course::of(&leg, start), Chain::of(drawn.path_segments(1e-6)))
}

fn assert_same(course: &Course, chain: &Chain) -> Result<(), TestCaseError> {
    let (length, wanted) = (course.length(), chain.length());
    prop_assert!((length - wanted).abs() < CLOSE, "{length} m long, kurbo has {wanted} m");
    for step in 0..=50 {
        let metres = wanted * f64::from(step) / 50.0;
        let (here, there) = (course.at(metres), chain.at(metres));
        let off = (here.x - there.x).hypot(here.y - there.y);
        prop_assert!(off < CLOSE, "{off} m apart after {metres} of {wanted} m");
    }
    let boxes = chain.0.iter().map(|(segment, _)| segment.bounding_box());
    let whole = boxes.reduce(|one, other| one.union(other)).expect("a chain has segments");
    for (here, there) in course.bounds().into_iter().zip([whole.x0, whole.y0, whole.x1, whole.y1]) {
        // kurbo draws an arc as cubics that are close to a millionth.
        prop_assert!((here - there).abs() < 1e-5, "keeps within {here}, kurbo within {there}");
    }
    // Between the lengths at which it turns it goes only one way across, and only one way along.
    for pair in course.turning_lengths().windows(2) {
        let at = |part: u32| course.at(pair[0] + (pair[1] - pair[0]) * f64::from(part) / 16.0);
        let (first, last) = (at(0), at(16));
        for part in 0..16 {
            let (here, there) = (at(part), at(part + 1));
            prop_assert!((there.x - here.x) * (last.x - first.x).signum() > -1e-6);
            prop_assert!((there.y - here.y) * (last.y - first.y).signum() > -1e-6);
        }
    }
    Ok(())
}

/// Any places on a floor of sixteen metres, each at least a hand's breadth from the one before.
fn anywhere() -> impl Strategy<Value = Vec<(f64, f64)>> {
    prop::collection::vec((-8.0f64..8.0, -8.0f64..8.0), 3..9)
        .prop_filter("places on top of each other", |list| {
            list.windows(2).all(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1) > 0.1)
        })
}

/// Places that a dancer could be led through: strides of a given length that bend by up to 100 degrees.
fn danced() -> impl Strategy<Value = Vec<(f64, f64)>> {
    let stride = (0.3f64..4.0, -100.0f64..100.0);
    ((-5.0f64..5.0, -5.0f64..5.0), -180.0f64..180.0, prop::collection::vec(stride, 2..12)).prop_map(
        |(start, first, strides)| {
            let mut places = vec![start];
            let (mut x, mut y) = start;
            let mut heading: f64 = first;
            for (length, bend) in strides {
                heading += bend;
                x += length * heading.to_radians().sin();
                y += length * heading.to_radians().cos();
                places.push((x, y));
            }
            places
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, failure_persistence: None, rng_seed: RngSeed::Fixed(1907), ..ProptestConfig::default() })]

    #[test]
    fn smooth_legs_are_the_spline(places in anywhere()) {
        let (course, chain) = smooth(&places);
        assert_same(&course, &chain)?;
    }

    #[test]
    fn smooth_legs_that_are_danced_are_the_spline(places in danced()) {
        let (course, chain) = smooth(&places);
        assert_same(&course, &chain)?;
        let (start, end) = (course.at(0.0), course.at(course.length()));
        prop_assert_eq!((start.x, start.y), places[0]);
        prop_assert_eq!((end.x, end.y), places[places.len() - 1]);
    }

    #[test]
    fn points_on_the_way_are_passed_where_the_course_says(places in danced()) {
        let (course, chain) = smooth(&places);
        let lengths = course.point_lengths();
        prop_assert_eq!(lengths.len(), places.len() - 2);
        let mut metres = 0.0;
        for ((length, place), (_, piece)) in lengths.iter().zip(&places[1..]).zip(&chain.0) {
            metres += piece;
            prop_assert!((length - metres).abs() < CLOSE);
            let here = course.at(*length);
            prop_assert!((here.x - place.0).hypot(here.y - place.1) < 1e-9);
        }
    }

    #[test]
    fn arcs_are_svg_arcs(
        start in (-10.0f64..10.0, -10.0f64..10.0),
        way in 0.0f64..std::f64::consts::TAU,
        chord in 0.05f64..15.0,
        sweep in prop_oneof![-300.0f64..-1.0, 1.0f64..300.0],
    ) {
        let end = (start.0 + chord * way.sin(), start.1 + chord * way.cos());
        let (course, chain) = arc(start, end, sweep);
        assert_same(&course, &chain)?;
        let turned = course.at(course.length()).heading - course.at(0.0).heading;
        prop_assert!((turned - sweep).abs() < 1e-6, "turned {turned}, swept {sweep}");
    }

    #[test]
    fn straight_legs_are_exactly_straight(
        places in prop::collection::vec((-30.0f64..30.0, -30.0f64..30.0), 2..6),
        share in 0.0f64..1.0,
    ) {
        let (start, rest) = places.split_first().unwrap();
        let (end, through) = rest.split_last().unwrap();
        let mut leg = Leg::smooth(0.0, 8.0, through, end.0, end.1);
        leg.shape = Shape::Straight;
        let course = Course::of(&leg, *start);
        let chords: Vec<f64> =
            places.windows(2).map(|pair| (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1)).collect();
        prop_assert!((course.length() - chords.iter().sum::<f64>()).abs() < 1e-9);
        let mut before = 0.0;
        for (pair, chord) in places.windows(2).zip(&chords) {
            let (from, to) = (pair[0], pair[1]);
            for part in [share, 0.25, 0.5, 0.999_999] {
                let here = course.at(before + chord * part);
                // The distance from the line, by the area of the triangle, and how far along it.
                let (dx, dy) = ((to.0 - from.0) / chord, (to.1 - from.1) / chord);
                let off = (here.x - from.0) * dy - (here.y - from.1) * dx;
                let along = (here.x - from.0) * dx + (here.y - from.1) * dy;
                prop_assert!(off.abs() < 1e-9, "{off} m off the line");
                prop_assert!((along - chord * part).abs() < 1e-9);
            }
            before += chord;
        }
    }

    /// A dancer never jumps nor spins between two moments: a millionth of a metre on, the place is that far on
    /// and the heading, counted on past whole turns, is all but the same.
    #[test]
    fn smooth_legs_run_on(places in danced(), shares in prop::collection::vec(0.0f64..1.0, 64)) {
        const STEP: f64 = 1e-6;
        let (course, chain) = smooth(&places);
        let length = course.length();
        let joints = course.point_lengths().to_vec();
        for metres in shares.iter().map(|share| share * length).chain(joints) {
            let (before, after) = (course.at(metres - STEP), course.at(metres + STEP));
            let moved = (after.x - before.x).hypot(after.y - before.y);
            prop_assert!(moved < 2.5 * STEP, "jumped {moved} m at {metres}");
            let turned = after.heading - before.heading;
            prop_assert!(turned.abs() < 0.1, "spun {turned} degrees at {metres} m");
        }
        let turned = course.at(length).heading - course.at(0.0).heading;
        let wanted = chain.turned();
        prop_assert!((turned - wanted).abs() < 0.5, "turned {turned} in all, kurbo turns {wanted}");
    }

    /// The heading is the way the dancer goes.
    #[test]
    fn headings_point_along_the_path(places in danced(), share in 0.01f64..0.99) {
        let (course, chain) = smooth(&places);
        let metres = course.length() * share;
        let (before, after) = (chain.at(metres - 5e-4), chain.at(metres + 5e-4));
        let along = after - before;
        let off = (course.at(metres).heading - along.x.atan2(along.y).to_degrees() + 180.0).rem_euclid(360.0) - 180.0;
        prop_assert!(off.abs() < 10.0, "{off} degrees off at {metres} m");
    }
}

#[test]
fn a_leg_of_no_length_stays_where_it_is() {
    for shape in [Shape::Straight, Shape::Smooth, Shape::Arc] {
        let mut leg = Leg::straight(0.0, 4.0, 1.0, 2.0);
        leg.shape = shape;
        leg.sweep = (shape == Shape::Arc).then_some(90.0);
        let course = Course::of(&leg, (1.0, 2.0));
        assert_eq!(course.length(), 0.0);
        assert_eq!(course.at(3.0), OnCourse { x: 1.0, y: 2.0, heading: 0.0 });
    }
}

/// There and back again over the same floor: the curve has a point where it stops and turns about.
#[test]
fn a_leg_that_turns_back_on_itself_goes_through_its_points() {
    let (course, chain) = smooth(&[(0.0, 0.0), (0.0, 3.0), (0.0, 0.0)]);
    assert!((course.length() - chain.length()).abs() < CLOSE);
    for step in 0..=600 {
        let metres = course.length() * f64::from(step) / 600.0;
        let (here, there) = (course.at(metres), chain.at(metres));
        assert!((here.x - there.x).hypot(here.y - there.y) < CLOSE, "at {metres} m");
        assert!(here.heading.is_finite());
    }
}
