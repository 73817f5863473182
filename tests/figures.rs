//! The named figures against what the trade says of them.
//!
//! Sources: [MB1] C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907; [CP] common
//! practice, no source; [CALC] worked out from the geometry of the set.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::needless_range_loop
)]

use bellpad::dance::{Dance, Dancer, Entry, FaultKind, Figure, Set, Way};
use bellpad::faults::find_faults;
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Motion, Pose, Weight, passing};
use kurbo::{BezPath, ParamCurveNearest, Point};
use proptest::prelude::*;
use serde_json::{Map, json};

fn danced(name: &str, dancers: u32) -> Motion {
    danced_in(name, Set::longways(dancers, 2.4, 1.8))
}

fn danced_in(name: &str, set: Set) -> Motion {
    let mut dance = Dance::new("Test", set);
    dance.figures.push(named_figure(name, Map::new(), &dance.set).unwrap());
    motion_of(&dance, None).unwrap()
}

fn facing(pose: &Pose) -> f64 {
    pose.facing.rem_euclid(360.0)
}

#[track_caller]
fn at(pose: &Pose, x: f64, y: f64) {
    let off = (pose.x - x).hypot(pose.y - y);
    assert!(off < 1e-3, "{} is at {:.3}, {:.3}, not {x}, {y}", pose.number, pose.x, pose.y);
}

#[track_caller]
fn faces(pose: &Pose, degrees: f64) {
    let off = (pose.facing - degrees + 180.0).rem_euclid(360.0) - 180.0;
    assert!(off.abs() < 0.5, "{} faces {:.1}, not {degrees}", pose.number, facing(pose));
}

/// [CP] and [CALC]: cross and turn.
#[test]
fn cross_and_turn_changes_partners_places() {
    for dancers in [2, 4, 6, 8] {
        let motion = danced("cross-and-turn", dancers);
        let home = motion.poses(0.0);
        let eight = motion.poses(8.0);
        for (index, pose) in eight.iter().enumerate() {
            faces(pose, if index % 2 == 0 { 0.0 } else { 180.0 });
        }
        let half = motion.poses(16.0);
        for (index, pose) in half.iter().enumerate() {
            let partner = home[index ^ 1];
            at(pose, partner.x, partner.y);
            faces(pose, partner.facing);
        }
        for (pose, home) in motion.poses(32.0).iter().zip(&home) {
            at(pose, home.x, home.y);
            faces(pose, home.facing);
        }
        // Left first, right in the second half [CP], and right shoulders in the first: the partner is on the
        // right when nearest.
        assert_eq!(motion.pose(Dancer(0), 0.0).weight, Weight::Left);
        assert_eq!(motion.pose(Dancer(0), 16.0).weight, Weight::Right);
        let (one, two) = (motion.pose(Dancer(0), 2.0), motion.pose(Dancer(1), 2.0));
        assert!(two.y < one.y - 0.5, "1 faces right, so its right side is down the set");
    }
}

/// [CP]: outside foot, away from your partner, the long way, to finish facing them.
#[test]
fn foot_up_turns_the_long_way() {
    let motion = danced("foot-up-and-down", 6);
    let (odd, even) = (motion.pose(Dancer(2), 8.0), motion.pose(Dancer(3), 8.0));
    faces(&odd, 0.0);
    faces(&even, 0.0);
    assert!((odd.y - 1.0).abs() < 1e-6);
    let (odd_after, even_after) = (motion.pose(Dancer(2), 12.0), motion.pose(Dancer(3), 12.0));
    assert!((odd_after.facing - odd.facing + 270.0).abs() < 1e-6, "odds turn left 270");
    assert!((even_after.facing - even.facing - 270.0).abs() < 1e-6, "evens turn right 270");
    assert_eq!(motion.pose(Dancer(0), 0.0).weight, Weight::Left);
    assert_eq!(motion.pose(Dancer(1), 0.0).weight, Weight::Right);
    assert_eq!(motion.pose(Dancer(0), 16.0).weight, Weight::Right);
    assert_eq!(motion.pose(Dancer(1), 16.0).weight, Weight::Left);
    let (odd_down, odd_home) = (motion.pose(Dancer(2), 24.0), motion.pose(Dancer(2), 28.0));
    faces(&odd_down, 180.0);
    assert!((odd_home.facing - odd_down.facing - 270.0).abs() < 1e-6, "facing down it is the other way");
}

/// [CALC]: half-way round, 1 stands where 6 stood, 3 where 4, 5 where 2. [CP]: finish facing up.
#[test]
fn whole_rounds_go_half_way_and_home() {
    let motion = danced("whole-rounds", 6);
    let home = motion.poses(0.0);
    let half = motion.poses(16.0);
    for (number, other) in [(1, 6), (3, 4), (5, 2), (2, 5), (4, 3), (6, 1)] {
        at(&half[number - 1], home[other - 1].x, home[other - 1].y);
        faces(&half[number - 1], home[other - 1].facing);
    }
    for (pose, home) in motion.poses(32.0).iter().zip(&home) {
        at(pose, home.x, home.y);
        faces(pose, 0.0);
    }
    for dancer in 0..6 {
        assert_eq!(motion.pose(Dancer(dancer), 0.0).weight, Weight::Right);
        assert_eq!(motion.pose(Dancer(dancer), 16.0).weight, Weight::Right);
    }
}

/// [MB1]: ends change and middles come home; at the end of bar 2, 5 is nearest the middle, 1 has passed it and 3
/// has not reached it; the second half undoes the first.
#[test]
fn the_hey_changes_the_ends_and_back() {
    let motion = danced("hey", 6);
    let home = motion.poses(0.0);
    let bar_two = motion.poses(8.0);
    for (one, three, five) in [(0, 2, 4), (1, 3, 5)] {
        assert!(bar_two[one].y < -0.5, "1 has passed the middle: {}", bar_two[one].y);
        assert!(bar_two[three].y > 0.5, "3 is still coming: {}", bar_two[three].y);
        assert!(bar_two[five].y.abs() < 0.5, "5 is at the middle: {}", bar_two[five].y);
    }
    let half = motion.poses(16.0);
    for (number, other) in [(1, 5), (5, 1), (3, 3), (2, 6), (6, 2), (4, 4)] {
        at(&half[number - 1], home[other - 1].x, home[other - 1].y);
        faces(&half[number - 1], home[other - 1].facing);
    }
    for (pose, home) in motion.poses(32.0).iter().zip(&home) {
        at(pose, home.x, home.y);
        faces(pose, home.facing);
    }
}

#[test]
fn positions_never_jump() {
    for name in all().map(|figure| figure.name) {
        let motion = danced(name, 6);
        assert_smooth(name, &motion, 1.2);
        let motion = danced_in(name, Set::longways(6, 6.0, 6.0));
        assert_smooth(name, &motion, 4.0);
    }
}

fn assert_smooth(name: &str, motion: &Motion, fastest: f64) {
    {
        for dancer in 0..6 {
            let mut before = motion.pose(Dancer(dancer), 0.0);
            for step in 1..=motion.bars() * 4 * 256 {
                let pose = motion.pose(Dancer(dancer), f64::from(step) / 256.0);
                let moved = (pose.x - before.x).hypot(pose.y - before.y);
                assert!(moved < fastest / 256.0, "{name}: {moved} at step {step}");
                assert!((pose.facing - before.facing).abs() < 3.0, "{name}: turned at step {step}");
                before = pose;
            }
        }
    }
}

#[test]
fn a_figure_that_does_not_fit_says_why() {
    let six = Set::longways(6, 2.4, 1.8);
    let mut dance = Dance::new("Test", Set::longways(4, 2.4, 1.8));
    dance.figures.push(named_figure("hey", Map::new(), &six).unwrap());
    let said = motion_of(&dance, None).unwrap_err().to_string();
    assert!(said.contains("three or four in each of two files") && said.contains("figures[0]"), "{said}");
    let said = named_figure("gallop", Map::new(), &six).unwrap_err().to_string();
    assert!(said.contains("foot-up-and-down, down-and-back, into-line"), "{said}");
    let with = Map::from_iter([("inside".to_owned(), json!(9))]);
    let said = named_figure("hey", with, &six).unwrap_err().to_string();
    assert!(said.contains("0.15 to 2"), "{said}");
    let with = Map::from_iter([("sideways".to_owned(), json!(1))]);
    let said = named_figure("hey", with, &six).unwrap_err().to_string();
    assert!(said.contains("inside, outside"), "{said}");
}

/// Points round a body seen from above: the ellipse of trade practice, 0.50 by 0.28 m (from memory; compare the
/// ANSUR II survey, 2012).
fn outline(pose: &Pose) -> Vec<(f64, f64)> {
    let (sin, cos) = pose.facing.to_radians().sin_cos();
    (0..48)
        .map(|step| {
            let (s, c) = (f64::from(step) / 48.0 * std::f64::consts::TAU).sin_cos();
            let (right, front) = (0.25 * c, 0.14 * s);
            (pose.x + right * cos + front * sin, pose.y - right * sin + front * cos)
        })
        .collect()
}

/// Metres between two bodies; 0 where they touch.
fn gap(one: &Pose, other: &Pose) -> f64 {
    let (sin, cos) = other.facing.to_radians().sin_cos();
    let inside = |(x, y): &(f64, f64)| {
        let (dx, dy) = (x - other.x, y - other.y);
        let (right, front) = (dx * cos - dy * sin, dx * sin + dy * cos);
        (right / 0.25).powi(2) + (front / 0.14).powi(2) <= 1.0
    };
    let (one, theirs) = (outline(one), outline(other));
    if one.iter().any(inside) {
        return 0.0;
    }
    let apart =
        |(x, y): &(f64, f64)| theirs.iter().map(|(u, v)| (x - u).hypot(y - v)).fold(f64::INFINITY, f64::min);
    one.iter().map(apart).fold(f64::INFINITY, f64::min)
}

/// No two bodies touch in any named figure at its usual choices, in a set of the usual size, in a square of twelve
/// feet [MB1] and in a small set.
#[test]
fn bodies_never_touch() {
    let mut worst = Vec::new();
    for (across, along) in [(2.4, 1.8), (3.66, 1.83), (2.0, 1.5)] {
        for dancers in [2, 4, 6, 8, 10, 12] {
            let set = Set::longways(dancers, across, along);
            for figure in all() {
                let Ok(made) = named_figure(figure.name, Map::new(), &set) else { continue };
                let mut dance = Dance::new("Test", set.clone());
                dance.figures.push(made);
                let motion = motion_of(&dance, None).unwrap();
                let mut least = (f64::INFINITY, 0.0, 0, 0);
                for step in 0..=motion.bars() * 4 * 16 {
                    let count = f64::from(step) / 16.0;
                    let poses = motion.poses(count);
                    for (index, one) in poses.iter().enumerate() {
                        for other in &poses[index + 1..] {
                            if (one.x - other.x).hypot(one.y - other.y) < 0.8 {
                                let gap = gap(one, other);
                                if gap < least.0 {
                                    least = (gap, count, one.number.get(), other.number.get());
                                }
                            }
                        }
                    }
                }
                if least.0 < 0.095 {
                    worst.push(format!("{} for {dancers} at {across} by {along}: {least:.2?}", figure.name));
                }
            }
        }
    }
    assert!(worst.is_empty(), "{worst:#?}");
}

/// The shoulder with which partners 1 and 2 pass in a stretch of counts, checked with kurbo's nearest point: both
/// tracks are drawn as kurbo paths and, where they come nearest, the side is read from those alone.
#[track_caller]
fn pass(motion: &Motion, from: f64, to: f64) -> Way {
    let found = passing(motion, Dancer(0), Dancer(1), from, to);
    let (one, two) = (motion.pose(Dancer(0), found.count), motion.pose(Dancer(1), found.count));
    let mut track = BezPath::new();
    for step in 0..=256 {
        let pose = motion.pose(Dancer(1), from + (to - from) * f64::from(step) / 256.0);
        let at = Point::new(pose.x, pose.y);
        if step == 0 { track.move_to(at) } else { track.line_to(at) }
    }
    // Where 2 is when nearest lies on 2's own track.
    let near = track
        .segments()
        .map(|segment| segment.nearest(Point::new(two.x, two.y), 1e-9).distance_sq)
        .fold(f64::INFINITY, f64::min);
    assert!(near.sqrt() < 0.005, "{near}");
    let (sin, cos) = one.facing.to_radians().sin_cos();
    let right = (two.x - one.x) * cos - (two.y - one.y) * sin;
    let way = if right > 0.0 { Way::Right } else { Way::Left };
    assert_eq!(way, found.shoulder);
    for step in 0..=64 {
        let count = from + (to - from) * f64::from(step) / 64.0;
        let (a, b) = (motion.pose(Dancer(0), count), motion.pose(Dancer(1), count));
        assert!((a.x - b.x).hypot(a.y - b.y) >= found.apart - 1e-6, "nobody is nearer at another count");
    }
    way
}

/// [MB1]: in column the file goes forward exactly its own length by the end of bar 2, and backs to place; twice.
/// Reversed, it turns about for the second half.
#[test]
fn down_and_back_goes_the_length_of_the_file() {
    for (dancers, along) in [(4, 1.8), (6, 1.83), (6, 1.5), (8, 1.8), (12, 1.8)] {
        // Backwards in six counts nobody goes farther than 4 m in steps of 0.8 m [CALC].
        let length = (along * f64::from(dancers / 2 - 1)).min(4.0);
        let set = Set::longways(dancers, 2.4, along);
        let motion = danced_in("down-and-back", set.clone());
        let home = motion.poses(0.0);
        for (count, up) in [(8.0, length), (14.0, 0.0), (24.0, length), (32.0, 0.0)] {
            for (pose, home) in motion.poses(count).iter().zip(&home) {
                at(pose, home.x, home.y + up);
            }
        }
        for count in [2.0, 8.0, 12.0, 14.0, 20.0, 24.0, 29.0] {
            motion.poses(count).iter().for_each(|pose| faces(pose, 0.0));
        }
        let with = Map::from_iter([("second".to_owned(), json!("reversed"))]);
        let mut dance = Dance::new("Test", set.clone());
        dance.figures.push(named_figure("down-and-back", with, &set).unwrap());
        let motion = motion_of(&dance, None).unwrap();
        for (pose, home) in motion.poses(24.0).iter().zip(&home) {
            at(pose, home.x, home.y - length);
            faces(pose, 180.0);
        }
    }
    // Twelve feet: 3.66 m [MB1].
    let motion = danced_in("down-and-back", Set::longways(6, 3.66, 1.83));
    assert!((motion.pose(Dancer(0), 8.0).y - motion.pose(Dancer(0), 0.0).y - 3.66).abs() < 1e-9);
}

/// [MB1]: bars 1-2 change places by the right shoulder, bars 3-4 right about on the spot; then the same again, right
/// shoulders again.
#[test]
fn cross_over_passes_right_both_times() {
    let motion = danced("cross-over", 6);
    let home = motion.poses(0.0);
    assert_eq!(pass(&motion, 0.0, 8.0), Way::Right);
    assert_eq!(pass(&motion, 16.0, 24.0), Way::Right);
    for (index, pose) in motion.poses(8.0).iter().enumerate() {
        let partner = home[index ^ 1];
        at(pose, partner.x, partner.y);
        assert_eq!(pose.facing, home[index].facing, "no turning on the way");
    }
    for (pose, home) in motion.poses(16.0).iter().zip(&home) {
        assert!((pose.facing - home.facing - 180.0).abs() < 1e-6, "right about is 180 clockwise");
    }
    for (pose, home) in motion.poses(32.0).iter().zip(&home) {
        at(pose, home.x, home.y);
        assert!((pose.facing - home.facing - 360.0).abs() < 1e-6);
    }
}

/// [MB1]: change places by the right, straight back backwards; the same by the left; no turning.
#[test]
fn go_and_come_never_turns() {
    let motion = danced("go-and-come", 6);
    let home = motion.poses(0.0);
    assert_eq!(pass(&motion, 0.0, 8.0), Way::Right);
    assert_eq!(pass(&motion, 8.0, 14.0), Way::Right);
    assert_eq!(pass(&motion, 16.0, 24.0), Way::Left);
    assert_eq!(pass(&motion, 24.0, 30.0), Way::Left);
    for step in 0..=32 * 8 {
        for (pose, home) in motion.poses(f64::from(step) / 8.0).iter().zip(&home) {
            assert_eq!(pose.facing, home.facing);
        }
    }
    for count in [8.0, 24.0] {
        for (index, pose) in motion.poses(count).iter().enumerate() {
            at(pose, home[index ^ 1].x, home[index ^ 1].y);
        }
    }
    for (pose, home) in motion.poses(16.0).iter().zip(&home) {
        at(pose, home.x, home.y);
    }
}

/// [MB1]: forward by the right shoulder, behind your partner, backwards home by the left; then the mirror.
#[test]
fn backing_back_to_back_passes_right_going_and_left_coming() {
    let motion = danced("back-to-back-backing", 6);
    let home = motion.poses(0.0);
    // Behind each other half-way along the round, backs together.
    let behind = (0..=14 * 16)
        .map(|step| f64::from(step) / 16.0)
        .max_by(|a, b| motion.pose(Dancer(0), *a).x.total_cmp(&motion.pose(Dancer(0), *b).x))
        .unwrap();
    assert!(motion.pose(Dancer(0), behind).x > motion.pose(Dancer(1), behind).x + 0.5);
    assert_eq!(pass(&motion, 0.0, behind - 1.0), Way::Right);
    assert_eq!(pass(&motion, behind + 1.0, 14.0), Way::Left);
    assert_eq!(pass(&motion, 16.0, 16.0 + behind - 1.0), Way::Left);
    assert_eq!(pass(&motion, 16.0 + behind + 1.0, 30.0), Way::Right);
    for step in 0..=32 * 8 {
        for (pose, home) in motion.poses(f64::from(step) / 8.0).iter().zip(&home) {
            assert_eq!(pose.facing, home.facing, "nobody turns");
        }
    }
}

/// How far off the straight line between its ends a stretch is danced, metres.
fn off_straight(motion: &Motion, dancer: usize, from: f64, to: f64) -> f64 {
    let (start, end) = (motion.pose(Dancer(dancer), from), motion.pose(Dancer(dancer), to));
    let (dx, dy) = (end.x - start.x, end.y - start.y);
    (0..=64)
        .map(|step| {
            let pose = motion.pose(Dancer(dancer), from + (to - from) * f64::from(step) / 64.0);
            ((pose.x - start.x) * dy - (pose.y - start.y) * dx).abs() / dx.hypot(dy)
        })
        .fold(0.0, f64::max)
}

/// [CP]: side by side on the middle line by the end of the first double step, right shoulders together; a quarter
/// turn left on the hop of the second; straight home, turning left on the single steps. The second half by the right.
#[test]
fn into_line_meets_on_the_middle_line_and_comes_straight_home() {
    let motion = danced("into-line", 6);
    let home = motion.poses(0.0);
    for (half, side, way) in [(0.0, 1.0, -1.0), (16.0, -1.0, 1.0)] {
        for dancer in 0..6 {
            let (met, on_spot) =
                (motion.pose(Dancer(dancer), half + 4.0), motion.pose(Dancer(dancer), half + 7.0));
            assert!(met.x.abs() < 1e-9 && on_spot.x.abs() < 1e-9);
            faces(&on_spot, home[dancer].facing);
            faces(&motion.pose(Dancer(dancer), half + 8.0), home[dancer].facing + 90.0 * way);
            let begun = motion.pose(Dancer(dancer), half);
            let done = motion.pose(Dancer(dancer), half + 12.0);
            at(&done, home[dancer].x, home[dancer].y);
            assert!((done.facing - begun.facing - 360.0 * way).abs() < 1e-6, "all the way round");
            assert!(off_straight(&motion, dancer, half + 8.0, half + 12.0) < 0.001);
        }
        // The partner is at the right shoulder in the first half, at the left in the second.
        let (one, two) = (motion.pose(Dancer(0), half + 4.0), motion.pose(Dancer(1), half + 4.0));
        assert!((one.y - two.y) * side > 0.5);
    }
    assert_eq!(motion.pose(Dancer(0), 0.0).weight, Weight::Left);
    assert_eq!(motion.pose(Dancer(0), 16.0).weight, Weight::Right);
}

/// [CP]: past and behind your partner, backs together, before any turn begins; then straight home.
#[test]
fn back_to_back_turns_only_after_both_backs_have_passed() {
    let motion = danced("back-to-back", 6);
    let home = motion.poses(0.0);
    for half in [0.0, 16.0] {
        let turned = (0..=16 * 64)
            .map(|step| half + f64::from(step) / 64.0)
            .find(|&count| {
                (motion.pose(Dancer(0), count).facing - motion.pose(Dancer(0), half).facing).abs() > 1e-9
            })
            .unwrap();
        assert!((half + 7.0..half + 8.0).contains(&turned), "the quarter turn is on the hop: {turned}");
        let (one, two) = (motion.pose(Dancer(0), turned), motion.pose(Dancer(1), turned));
        assert!(one.x > two.x + 0.3, "1 is beyond 2, each behind the other");
        let (one, two) = (motion.pose(Dancer(0), half + 4.0), motion.pose(Dancer(1), half + 4.0));
        assert!(one.x > two.x + 0.3 && (one.y - two.y).abs() < 1e-6, "backs together");
        for dancer in 0..6 {
            assert!(off_straight(&motion, dancer, half + 8.0, half + 12.0) < 0.001);
            at(&motion.pose(Dancer(dancer), half + 12.0), home[dancer].x, home[dancer].y);
            faces(&motion.pose(Dancer(dancer), half + 12.0), home[dancer].facing);
        }
    }
    assert_eq!(pass(&motion, 0.0, 3.0), Way::Right);
    assert_eq!(pass(&motion, 16.0, 19.0), Way::Left);
}

/// [CP]: half-way round, and back the way you came.
#[test]
fn half_rounds_go_back_the_way_they_came() {
    let motion = danced("half-rounds", 6);
    let home = motion.poses(0.0);
    for (pose, opposite) in motion.poses(16.0).iter().zip(home.iter().rev()) {
        at(pose, opposite.x, opposite.y);
        faces(pose, opposite.facing);
    }
    for (pose, home) in motion.poses(32.0).iter().zip(&home) {
        at(pose, home.x, home.y);
        faces(pose, home.facing);
    }
    let middle = motion.pose(Dancer(0), 6.0);
    let back = (16 * 16..28 * 16)
        .map(|step| motion.pose(Dancer(0), f64::from(step) / 16.0))
        .map(|pose| (pose.x - middle.x).hypot(pose.y - middle.y))
        .fold(f64::INFINITY, f64::min);
    assert!(back < 0.05, "the same track: {back}");
}

/// [MB1]: half a hey reverses the ends and brings the middles home, in four bars; danced again from there it undoes
/// itself. With four in a file all change with the one as far from the other end [CALC].
#[test]
fn a_half_hey_reverses_the_ends() {
    for dancers in [6, 8] {
        let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
        dance.figures.push(named_figure("half-hey", Map::new(), &dance.set).unwrap());
        dance.order = vec![Entry::of("half-hey"), Entry::of("half-hey")];
        let motion = motion_of(&dance, None).unwrap();
        assert_eq!(motion.bars(), 8);
        let home = motion.poses(0.0);
        let ranks = dancers as usize / 2;
        for (index, pose) in motion.poses(16.0).iter().enumerate() {
            let end = 2 * (ranks - 1 - index / 2) + index % 2;
            at(pose, home[end].x, home[end].y);
            faces(pose, home[end].facing);
        }
        for (pose, home) in motion.poses(32.0).iter().zip(&home) {
            at(pose, home.x, home.y);
        }
        assert_eq!(bellpad::faults::find_faults(&dance, &motion), []);
    }
}

/// [MB1]: a half hey may end in column reversed, the tops at the bottom and all facing down, so that they lead it; or in column.
#[test]
fn a_half_hey_can_end_in_column_or_in_column_reversed() {
    for (finish, facing) in [("column", 0.0), ("reversed", 180.0)] {
        for (tops, dancers) in [("in", 6), ("out", 6), ("in", 8), ("out", 8)] {
            let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
            let with =
                Map::from_iter([("finish".to_owned(), json!(finish)), ("tops".to_owned(), json!(tops))]);
            dance.figures.push(named_figure("half-hey", with.clone(), &dance.set).unwrap());
            let mut front = named_figure("half-hey", Map::new(), &dance.set).unwrap();
            "back".clone_into(&mut front.id);
            dance.figures.push(front);
            let motion = motion_of(&dance, None).unwrap();
            let home = motion.poses(0.0);
            let ranks = dancers as usize / 2;
            for (index, pose) in motion.poses(16.0).iter().enumerate() {
                let end = 2 * (ranks - 1 - index / 2) + index % 2;
                at(pose, home[end].x, home[end].y);
                faces(pose, facing);
                let quarter = pose.facing - motion.pose(Dancer(index), 14.0).facing;
                let right = (index % 2 == 0) == (finish == "reversed");
                assert!((quarter - if right { 90.0 } else { -90.0 }).abs() < 1e-6, "{finish}: {quarter}");
            }
            let front = motion.pose(Dancer(0), 16.0);
            let ahead =
                motion.poses(16.0).iter().all(|pose| (pose.y - front.y) * facing.to_radians().cos() < 1e-6);
            assert_eq!(ahead, finish == "reversed", "1 and 2 lead the column reversed");
            assert_eq!(find_faults(&dance, &motion), [], "{finish} {tops} {dancers}");
        }
    }
}

/// [CP] and [MB1]: files mirror each other; the inside strand brings partners 0.6 m apart; bottoms turn on the spot
/// first, middles back away outward first; nobody's speed jumps.
#[test]
fn the_hey_is_danced_as_it_is_taught() {
    let motion = danced("hey", 6);
    let mut nearest = f64::INFINITY;
    for step in 0..=32 * 32 {
        let poses = motion.poses(f64::from(step) / 32.0);
        for pair in poses.chunks(2) {
            assert!((pair[0].x + pair[1].x).abs() < 1e-9 && (pair[0].y - pair[1].y).abs() < 1e-9);
            faces(&pair[1], -pair[0].facing);
            nearest = nearest.min(pair[1].x - pair[0].x);
        }
    }
    assert!((nearest - 0.6).abs() < 0.02, "partners shoulder to shoulder: {nearest}");
    let (five, turned) = (motion.pose(Dancer(4), 0.0), motion.pose(Dancer(4), 2.0));
    assert!((five.x - turned.x).hypot(five.y - turned.y) < 0.02, "5 is on the spot");
    assert!((turned.facing - five.facing).abs() > 90.0, "and turning");
    let three = motion.pose(Dancer(2), 2.0);
    assert!(three.x < motion.pose(Dancer(2), 0.0).x - 0.1 && three.y > 0.1, "3 goes out and up");
    faces(&three, 90.0);
    // Through the middle: tops, then bottoms, then middles [MB1].
    let when = |dancer: usize, past: fn(f64) -> bool| {
        (1..=12 * 32)
            .map(|step| f64::from(step) / 32.0)
            .find(|count| past(motion.pose(Dancer(dancer), *count).y))
            .unwrap()
    };
    let (one, five) = (when(0, |y| y < 0.0), when(4, |y| y > 0.0));
    let three = (4 * 32..=12 * 32)
        .map(|step| f64::from(step) / 32.0)
        .find(|count| motion.pose(Dancer(2), *count).y < 0.05)
        .unwrap();
    assert!(one + 1.0 < five && five + 1.0 < three, "{one}, {five}, {three}");
    for dancer in 0..6 {
        let speed = |count: f64| {
            let (a, b) = (motion.pose(Dancer(dancer), count), motion.pose(Dancer(dancer), count + 0.001));
            (a.x - b.x).hypot(a.y - b.y) / 0.001
        };
        for step in 1..32 * 32 {
            let count = f64::from(step) / 32.0;
            assert!((speed(count) - speed(count + 0.01)).abs() < 0.05, "{dancer} at {count}");
        }
    }
}

/// [MB1] names the opposites 1-6, 2-5, 3-4; that they change in turn with capers while the others stand is common
/// practice, no source.
#[test]
fn corners_change_in_turn() {
    let motion = danced("corners", 6);
    let home = motion.poses(0.0);
    for (pair, one) in [(0, 0), (1, 1), (2, 2)] {
        let (begin, other) = (16.0 * f64::from(pair), 5 - one);
        for dancer in (0..6).filter(|dancer| *dancer != one && *dancer != other) {
            let (a, b) = (motion.pose(Dancer(dancer), begin), motion.pose(Dancer(dancer), begin + 8.0));
            assert_eq!((a.x, a.y), (b.x, b.y), "{dancer} stands while {one} and {other} change");
            assert_eq!(motion.known()[b.step].short, "st");
        }
        let end = begin + 16.0;
        at(&motion.pose(Dancer(one), end), home[other].x, home[other].y);
        at(&motion.pose(Dancer(other), end), home[one].x, home[one].y);
        assert_eq!(motion.known()[motion.pose(Dancer(one), begin + 12.0).step].short, "pc");
    }
    for (pose, home) in motion.poses(motion.counts()).iter().zip(&home) {
        at(pose, home.x, home.y);
        faces(pose, home.facing);
    }
}

fn danced_with(name: &str, dancers: u32, with: &[(&str, serde_json::Value)]) -> (Dance, Motion) {
    let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
    let with = with.iter().map(|(key, value)| ((*key).to_owned(), value.clone())).collect();
    dance.figures.push(named_figure(name, with, &dance.set).unwrap());
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

/// [CP]: round your partner facing them all the way: whole, all round and home; half, to the other side and back. By the
/// right shoulder first, and then by the left.
#[test]
fn a_gip_faces_the_partner_all_the_way() {
    for (name, round) in [("whole-gip", 360.0), ("half-gip", 180.0)] {
        for (across, along) in [(2.0, 1.5), (2.4, 1.8), (3.66, 1.83), (0.8, 1.5)] {
            let motion = danced_in(name, Set::longways(6, across, along));
            let home = motion.poses(0.0);
            let mut farthest: [f64; 2] = [0.0, 0.0];
            for count in (0..=32 * 16).map(|step| f64::from(step) / 16.0) {
                let poses = motion.poses(count);
                for (index, pose) in poses.iter().enumerate() {
                    let other = poses[index ^ 1];
                    let bearing = (other.x - pose.x).atan2(other.y - pose.y).to_degrees();
                    faces(pose, bearing);
                }
                let half = usize::from(count > 16.0);
                let turned = poses[0].facing - home[0].facing;
                farthest[half] = if turned.abs() > farthest[half].abs() { turned } else { farthest[half] };
            }
            // Clockwise seen from above, which is to the left past who is faced: right shoulders.
            assert!((farthest[0] - round).abs() < 0.5, "{name}: {farthest:?}");
            let second = if round == 360.0 { 360.0 } else { -180.0 };
            assert!((farthest[1] - second).abs() < 0.5, "{name}: {farthest:?}");
            for count in [16.0, 32.0] {
                for (pose, home) in motion.poses(count).iter().zip(&home) {
                    at(pose, home.x, home.y);
                    faces(pose, home.facing);
                }
            }
        }
        assert_eq!(pass(&danced(name, 6), 0.0, 6.0), Way::Right);
    }
}

/// [CP]: foot up twice: the second half is up again, by the same foot and the same way about.
#[test]
fn foot_up_can_be_danced_twice() {
    let (_, motion) = danced_with("foot-up-and-down", 6, &[("second", json!("up"))]);
    for dancer in 0..6 {
        let at = |count: f64| motion.pose(Dancer(dancer), count);
        for count in (0..=16 * 8).map(|step| f64::from(step) / 8.0) {
            let (first, second) = (at(count), at(count + 16.0));
            assert!((first.x - second.x).hypot(first.y - second.y) < 1e-9, "{dancer} at {count}");
            faces(&second, first.facing);
        }
        assert!((at(24.0).y - at(0.0).y - 1.0).abs() < 1e-9);
        assert_eq!(at(0.0).weight, at(16.0).weight);
    }
}

/// [MB1], its notation of *Laudnum Bunches*: eight bars for a pair of opposites, 1 and 6, then 2 and 5, then 3 and 4: across to each
/// other's place in bars 1 to 3, turn about in bar 4, to the centre face to face in 5 and 6, back in 7 and 8; 4/3 in bars 1 to 6,
/// 4/2 in 7 and 8, and a jump on the half-bar of bar 8. [MB1], of the jump: whoever is about to move jumps on the half-bar before,
/// the pair whose turn it is or in the end the whole side.
#[test]
fn corners_of_the_book_take_eight_bars_a_pair() {
    let book = [("form", json!("book")), ("times", json!("once"))];
    let (dance, motion) = danced_with("corners", 6, &book);
    assert_eq!(motion.bars(), 24);
    let home = motion.poses(0.0);
    for (turn, one) in [(0, 0), (1, 1), (2, 2)] {
        let (begin, other) = (32.0 * turn as f64, 5 - one);
        let apart = |count: f64| {
            let (a, b) = (motion.pose(Dancer(one), begin + count), motion.pose(Dancer(other), begin + count));
            (a.x - b.x).hypot(a.y - b.y)
        };
        let there = |count: f64| {
            at(&motion.pose(Dancer(one), begin + count), home[other].x, home[other].y);
            at(&motion.pose(Dancer(other), begin + count), home[one].x, home[one].y);
        };
        there(12.0);
        there(16.0);
        assert!((0.7..0.9).contains(&apart(24.0)), "they meet: {}", apart(24.0));
        there(30.0);
        // They face each other as they meet, and back away so.
        for count in [16.0, 24.0, 27.0] {
            let (a, b) = (motion.pose(Dancer(one), begin + count), motion.pose(Dancer(other), begin + count));
            faces(&a, (b.x - a.x).atan2(b.y - a.y).to_degrees());
        }
        let turned =
            motion.pose(Dancer(one), begin + 16.0).facing - motion.pose(Dancer(one), begin + 12.0).facing;
        assert!((turned - 180.0).abs() < 1.0, "right about in bar 4: {turned}");
        for dancer in [one, other] {
            let step =
                |count: f64| motion.known()[motion.pose(Dancer(dancer), begin + count).step].short.clone();
            for count in 0..32 {
                let wanted = match count {
                    0..24 => "ds",
                    24..30 => "ss",
                    _ => "hj",
                };
                assert_eq!(step(f64::from(count)), wanted, "{count}");
            }
            // About to the right, all of it in bar 4, and not a degree on the way over.
            let facing = |count: f64| motion.pose(Dancer(dancer), begin + count).facing;
            assert!((facing(11.9) - facing(2.0)).abs() < 1e-6);
            // The way over bends one way, never back: it does not weave.
            let at = |look: u32| motion.pose(Dancer(dancer), begin + 0.5 + f64::from(look) / 4.0);
            let heading = |look: u32| (at(look + 1).x - at(look).x).atan2(at(look + 1).y - at(look).y);
            let bends: Vec<f64> = (0..42).map(|look| heading(look + 1) - heading(look)).collect();
            assert!(bends.iter().all(|bend| *bend > -1e-3), "{dancer} weaves: {bends:?}");
        }
        for waits in (0..6).filter(|dancer| *dancer != one && *dancer != other) {
            // Their own spot, or the opposite's where they have danced already.
            let spot = &home[if waits < turn || 5 - waits < turn { 5 - waits } else { waits }];
            for look in 0..=32 * 8 {
                let pose = motion.pose(Dancer(waits), begin + f64::from(look) / 8.0);
                assert!((pose.x - spot.x).hypot(pose.y - spot.y) < 1e-6, "{waits} stands");
            }
            for count in 0..32 {
                let pose = motion.pose(Dancer(waits), begin + f64::from(count));
                let next = turn == 2 || waits == one + 1 || waits == 5 - (one + 1);
                let jumps = pose.weight == Weight::Air;
                assert_eq!(jumps, next && count == 30, "{waits} at {count}");
            }
        }
    }
    for (index, pose) in motion.poses(96.0).iter().enumerate() {
        at(pose, home[5 - index].x, home[5 - index].y);
        faces(pose, home[5 - index].facing);
    }
    assert_eq!(bellpad::faults::find_faults(&dance, &motion), []);
    // One pair alone, and back again.
    for (pair, one) in [(1, 0), (2, 1), (3, 2)] {
        let with = [("form", json!("book")), ("times", json!("once")), ("pair", json!(pair))];
        let (dance, motion) = danced_with("corners", 6, &with);
        assert_eq!(motion.bars(), 8);
        for dancer in 0..6 {
            let to = if dancer == one || dancer == 5 - one { 5 - dancer } else { dancer };
            at(&motion.pose(Dancer(dancer), 32.0), home[to].x, home[to].y);
        }
        assert_eq!(bellpad::faults::find_faults(&dance, &motion), []);
    }
    for wrong in [4.0, 1.5] {
        let with = Map::from_iter([("pair".to_owned(), json!(wrong))]);
        let said = named_figure("corners", with, &Set::longways(6, 2.4, 1.8)).unwrap_err().to_string();
        assert!(said.contains(&format!("3 pairs of opposites, from 1 to 3, and pair is {wrong}")), "{said}");
    }
}

/// [CP]: in a jig one dances while the others stand; each in turn, or one by number.
#[test]
fn soloists_dance_in_turn() {
    let (dance, motion) = danced_with("solos", 4, &[]);
    assert_eq!(motion.bars(), 32);
    let home = motion.poses(0.0);
    for count in (0..=128 * 4).map(|step| f64::from(step) / 4.0) {
        let soloist = (count / 32.0) as usize;
        for (index, (pose, home)) in motion.poses(count).iter().zip(&home).enumerate() {
            if index != soloist {
                at(pose, home.x, home.y);
                faces(pose, home.facing);
            }
        }
    }
    for soloist in 0..4 {
        let pose = motion.pose(Dancer(soloist), 32.0 * soloist as f64 + 8.0);
        at(&pose, home[soloist].x, home[soloist].y + 0.8);
        faces(&pose, 0.0);
    }
    assert_eq!(bellpad::faults::find_faults(&dance, &motion), []);
    let (dance, motion) = danced_with("solos", 6, &[("who", json!(5))]);
    assert_eq!((motion.bars(), dance.figures[0].name.as_str()), (8, "Solo of 5"));
    let moved =
        |dancer: usize| (motion.pose(Dancer(dancer), 8.0).y - motion.pose(Dancer(dancer), 0.0).y).abs();
    assert!((0..6).all(|dancer| (moved(dancer) > 0.1) == (dancer == 4)));
    let said = |who: f64| {
        let with = Map::from_iter([("who".to_owned(), json!(who))]);
        named_figure("solos", with, &Set::longways(6, 2.4, 1.8)).unwrap_err().to_string()
    };
    assert!(said(7.0).contains("the set has 6 dancers") && said(1.5).contains("no number of a dancer"));
    let with = Map::from_iter([("who".to_owned(), json!(2))]);
    let alone = named_figure("solos", with, &Set::longways(1, 2.4, 1.8)).unwrap_err().to_string();
    assert!(alone.contains("the set has one dancer"), "{alone}");
}

/// [CP]: what is danced facing up begins on the outside foot, odds left and evens right; [MB1]: with the right where nothing else is
/// said, as for one alone.
#[test]
fn soloists_lead_as_they_face_up() {
    let (_, motion) = danced_with("solos", 4, &[]);
    for soloist in 0..4 {
        let wanted = if soloist % 2 == 0 { Weight::Left } else { Weight::Right };
        for half in [0.0, 16.0] {
            assert_eq!(
                motion.pose(Dancer(soloist), 32.0 * soloist as f64 + half).weight,
                wanted,
                "{soloist}"
            );
        }
    }
    let motion = danced("solos", 1);
    assert_eq!(
        (motion.pose(Dancer(0), 0.0).weight, motion.pose(Dancer(0), 16.0).weight),
        (Weight::Right, Weight::Right)
    );
}

/// Gips and solos leave room to others where the set is close, sticks' distance or nearer [MEM]; and a soloist who is to go far goes
/// by who stands there, and not through them.
#[test]
fn close_sets_have_room_for_gips_and_solos() {
    for (dancers, across, along) in
        [(2, 1.2, 1.2), (4, 1.2, 1.2), (6, 1.2, 1.2), (8, 1.2, 1.2), (12, 1.2, 1.2), (6, 1.3, 1.5)]
    {
        for (name, with) in [
            ("whole-gip", json!({})),
            ("half-gip", json!({})),
            ("whole-gip", json!({"first": "left"})),
            ("solos", json!({})),
            ("solos", json!({"who": dancers})),
            ("solos", json!({"who": dancers, "distance": 2.4})),
        ] {
            let mut dance = Dance::new("Test", Set::longways(dancers, across, along));
            let with = with.as_object().unwrap().clone();
            let told = format!("{name} {with:?}, {dancers} at {across} by {along}");
            dance.figures.push(named_figure(name, with, &dance.set).unwrap());
            let motion = motion_of(&dance, None).unwrap();
            let found: Vec<String> =
                find_faults(&dance, &motion).into_iter().map(|fault| fault.said).collect();
            assert!(found.is_empty(), "{told}: {found:#?}");
        }
    }
    let (_, motion) = danced_with("solos", 6, &[("who", json!(5)), ("distance", json!(4))]);
    let home = motion.poses(0.0);
    for count in (0..=32 * 16).map(|look| f64::from(look) / 16.0) {
        let soloist = motion.pose(Dancer(4), count);
        for other in [0, 2] {
            let far = (soloist.x - home[other].x).hypot(soloist.y - home[other].y);
            assert!(far > 0.59, "5 is {far} m from {} at {count}", other + 1);
        }
    }
    assert!((motion.pose(Dancer(4), 8.0).y - home[4].y - 4.0).abs() < 1e-9, "as far as they are to go");
    // What a side has said itself is danced, however close.
    let mut dance = Dance::new("Test", Set::longways(4, 1.2, 1.2));
    let with = Map::from_iter([("apart".to_owned(), json!(1.0))]);
    dance.figures.push(named_figure("whole-gip", with, &dance.set).unwrap());
    let motion = motion_of(&dance, None).unwrap();
    assert!(find_faults(&dance, &motion).iter().any(|fault| fault.kind == FaultKind::Clash));
}

/// A figure's own stepping is danced by whoever dances: those who wait stand, and jump before their turn [MB1].
#[test]
fn whoever_waits_stands_whatever_the_figure_is_stepped_to() {
    for (name, with, phrase) in [
        ("solos", json!({}), "4 sh, 2 ss, ftj, 2 ds"),
        ("solos", json!({}), "left, 3 ds, ftj"),
        ("corners", json!({"form": "book"}), "7 sh, sj"),
        ("corners", json!({}), "2 sh, 4 pc"),
        ("corners", json!({}), "4 ds, 4 sh"),
    ] {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        let with = with.as_object().unwrap().clone();
        dance.figures.push(named_figure(name, with, &dance.set).unwrap());
        let own = motion_of(&dance, None).unwrap();
        phrase.clone_into(&mut dance.figures[0].phrase);
        let motion = motion_of(&dance, None).unwrap();
        let (mut waited, mut danced) = (0, 0);
        for dancer in (0..6).map(Dancer) {
            for count in (0..own.counts() as u32).map(f64::from) {
                let step = |motion: &Motion| motion.known()[motion.pose(dancer, count).step].short.clone();
                let (before, after) = (step(&own), step(&motion));
                if ["st", "sj"].contains(&before.as_str()) {
                    assert_eq!(after, before, "{name} {phrase}: {dancer} at {count}");
                    waited += 1;
                } else {
                    assert!(phrase.contains(&after), "{name} {phrase}: {dancer} at {count} {after}");
                    danced += usize::from(after != before);
                }
            }
        }
        assert!(waited > 300 && danced > 30, "{name} {phrase}: {waited} {danced}");
    }
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    dance.figures.push(named_figure("solos", Map::new(), &dance.set).unwrap());
    "3 ds".clone_into(&mut dance.figures[0].phrase);
    assert!(motion_of(&dance, None).is_ok(), "cut where a turn begins");
    dance.steps =
        serde_json::from_value(json!([{"name": "long", "short": "long", "feet": ["lead", "other", "lead"]}]))
            .unwrap();
    "64 long".clone_into(&mut dance.figures[0].phrase);
    let motion = motion_of(&dance, None).unwrap();
    let steps = |motion: &Motion| motion.known()[motion.pose(Dancer(5), 0.0).step].short.clone();
    assert_eq!(steps(&motion), "long", "what cannot be cut where a turn begins is stepped by everyone");
    "63 long".clone_into(&mut dance.figures[0].phrase);
    let said = motion_of(&dance, None).unwrap_err().to_string();
    assert!(said.contains("figures[0].phrase") && said.contains("do not fill 192"), "{said}");
}

/// A figure that is danced otherwise is called so, as long as nobody has called it something of their own.
#[test]
fn foot_up_twice_is_called_so() {
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    let with = Map::from_iter([("second".to_owned(), json!("up"))]);
    assert_eq!(named_figure("foot-up-and-down", with, &dance.set).unwrap().name, "Foot up twice");
    dance.figures.push(named_figure("foot-up-and-down", Map::new(), &dance.set).unwrap());
    let chosen =
        |dance: &Dance, word: &str| bellpad::edits::with_choice(dance, 0, "second", json!(word)).unwrap();
    let twice = chosen(&dance, "up");
    assert_eq!(twice.figures[0].name, "Foot up twice");
    assert_eq!(chosen(&twice, "down").figures[0].name, "Foot up and down");
    // Two of one name could not be told apart by it: the second keeps its own.
    let mut two = twice.clone();
    two.figures.push(named_figure("foot-up-and-down", Map::new(), &two.set).unwrap());
    let two = bellpad::edits::with_choice(&two, 1, "second", json!("up")).unwrap();
    assert_eq!(two.figures[1].named.as_ref().unwrap().with["second"], "up");
    assert_eq!([0, 1].map(|index| two.figures[index].name.as_str()), ["Foot up twice", "Foot up and down"]);
    "Our foot up".clone_into(&mut dance.figures[0].name);
    assert_eq!(chosen(&dance, "up").figures[0].name, "Our foot up");
}

/// A hand on the floor is whose it is nearest to, and nobody's where bodies are too small to have any.
#[test]
fn a_hand_on_the_floor_is_whose_it_is_nearest_to() {
    use bellpad::picture::{Frame, hand_near};
    let mut dance = Dance::new("Close", Set::longways(4, 0.7, 1.8));
    dance.figures.push(Figure::drawn("stand", "Stand", 4));
    let poses = motion_of(&dance, None).unwrap().poses(0.0);
    let frame = |scale: f64| Frame { centre: (0.0, 0.0), middle: [0.0, 0.0], scale, up: 0.0 };
    for (index, pose) in poses.iter().enumerate() {
        let (sin, cos) = pose.facing.to_radians().sin_cos();
        // Beside the right shoulder.
        let (x, y) = (pose.x + 0.33 * cos, pose.y - 0.33 * sin);
        assert_eq!(hand_near(&frame(100.0), &poses, (x, y), 0.15), Some(index));
        assert_eq!(hand_near(&frame(4.0), &poses, (x, y), 0.15), None, "a dot has no hands");
    }
    // Between the hands of two, nearer to that of the second.
    let mut close = poses.clone();
    (close[1].x, close[1].y, close[1].facing) = (close[0].x + 0.1, close[0].y, close[0].facing);
    let (sin, cos) = close[1].facing.to_radians().sin_cos();
    let hand = (close[1].x + 0.33 * cos, close[1].y - 0.33 * sin);
    assert_eq!(hand_near(&frame(100.0), &close, hand, 0.15), Some(1));
}

/// After a figure that ends facing up whoever dances with a partner turns to face them as they start, and goes forward, not
/// sideways.
#[test]
fn partners_turn_to_each_other_after_facing_up() {
    for name in ["cross-over", "cross-and-turn", "into-line", "back-to-back", "go-and-come", "whole-gip"] {
        let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
        for name in ["whole-rounds", name] {
            dance.figures.push(named_figure(name, Map::new(), &dance.set).unwrap());
        }
        let motion = motion_of(&dance, None).unwrap();
        let home = motion.poses(0.0);
        for dancer in 0..6 {
            faces(&motion.pose(Dancer(dancer), 32.0), 0.0);
            faces(&motion.pose(Dancer(dancer), 33.0), home[dancer].facing);
            let turned = motion.pose(Dancer(dancer), 33.0).facing - motion.pose(Dancer(dancer), 32.0).facing;
            let quarter = if dancer % 2 == 0 { 90.0 } else { -90.0 };
            assert!((turned - quarter).abs() < 1e-6, "{name}: column to front [MB1]: {turned}");
        }
        assert_eq!(bellpad::faults::find_faults(&dance, &motion), [], "{name}");
    }
}

/// [MB1]: from column to front the odds turn a quarter to the right and the evens a quarter to the left, and back again the
/// reverse; with the column facing down both are reversed.
#[test]
fn column_and_front_are_a_quarter_apart() {
    for (second, home) in [("same", 90.0), ("reversed", -90.0)] {
        let (_, motion) = danced_with("down-and-back", 6, &[("second", json!(second))]);
        for dancer in 0..6 {
            let odd = if dancer % 2 == 0 { 1.0 } else { -1.0 };
            let facing = |count: f64| motion.pose(Dancer(dancer), count).facing;
            assert!((facing(1.0) - facing(0.0) + 90.0 * odd).abs() < 1e-6, "front to column, facing up");
            assert!((facing(32.0) - facing(30.0) - home * odd).abs() < 1e-6, "column to front, {second}");
        }
    }
}

/// [MB1]: a figure may end in column, or in column reversed, where everyone faces down with the bottoms in front; from column to front
/// the odds turn a quarter to the right and the evens a quarter to the left, from column reversed the other way about. Whoever turns
/// about for it turns away from their partner, as for the second half.
#[test]
fn down_and_back_can_end_in_column_or_in_column_reversed() {
    for (finish, facing) in [("front", None), ("column", Some(0.0)), ("reversed", Some(180.0))] {
        for (second, before) in [("same", 0.0), ("reversed", 180.0)] {
            let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
            let with =
                Map::from_iter([("finish".to_owned(), json!(finish)), ("second".to_owned(), json!(second))]);
            dance.figures.push(named_figure("down-and-back", with, &dance.set).unwrap());
            dance.figures.push(named_figure("cross-over", Map::new(), &dance.set).unwrap());
            let motion = motion_of(&dance, None).unwrap();
            let home = motion.poses(0.0);
            for (index, (pose, home)) in motion.poses(32.0).iter().zip(&home).enumerate() {
                at(pose, home.x, home.y);
                faces(pose, facing.unwrap_or(home.facing));
                let odd = if index % 2 == 0 { 1.0 } else { -1.0 };
                let turned = pose.facing - motion.pose(Dancer(index), 30.0).facing;
                let wanted = match facing {
                    None => odd * if before == 0.0 { 90.0 } else { -90.0 },
                    Some(facing) if facing == before => 0.0,
                    Some(180.0) => -180.0 * odd,
                    Some(_) => 180.0 * odd,
                };
                assert!((turned - wanted).abs() < 1e-6, "{finish} {second}, {}: {turned}", index + 1);
                // On to front, as the next figure begins.
                let to_front = motion.pose(Dancer(index), 34.0).facing - pose.facing;
                let quarter = facing.map_or(0.0, |facing| odd * if facing == 0.0 { 90.0 } else { -90.0 });
                assert!((to_front - quarter).abs() < 1e-6, "{finish}, {}: {to_front}", index + 1);
            }
            assert_eq!(find_faults(&dance, &motion), [], "{finish} {second}");
        }
    }
}

/// [CP]: whole rounds finish facing up, or all in: in a ring in which everyone faces the middle; [MB1] has a ring for the end of a
/// dance. Those who stand in a ring come home to it; two files make one, in the order in which they stand round the middle.
#[test]
fn rounds_can_finish_all_in() {
    for kind in [bellpad::dance::SetKind::Longways, bellpad::dance::SetKind::Ring] {
        for way in ["clockwise", "anticlockwise"] {
            let mut set = Set::longways(6, 2.4, 1.8);
            set.kind = kind;
            let mut dance = Dance::new("Test", set);
            let with = Map::from_iter([("finish".to_owned(), json!("in")), ("way".to_owned(), json!(way))]);
            for (name, with) in [("cross-over", Map::new()), ("whole-rounds", with)] {
                dance.figures.push(named_figure(name, with, &dance.set).unwrap());
            }
            let motion = motion_of(&dance, None).unwrap();
            let (home, end) = (motion.poses(0.0), motion.poses(motion.counts()));
            let far: Vec<f64> = end.iter().map(|pose| pose.x.hypot(pose.y)).collect();
            let angle = |pose: &Pose| pose.x.atan2(pose.y).to_degrees();
            for (pose, home) in end.iter().zip(&home) {
                faces(pose, angle(pose) + 180.0);
                let moved = (angle(pose) - angle(home) + 180.0).rem_euclid(360.0) - 180.0;
                assert!(moved.abs() < 30.0, "{} is {moved} degrees from where they began", pose.number);
                if kind == bellpad::dance::SetKind::Ring {
                    at(pose, home.x, home.y);
                }
            }
            assert!(far.iter().all(|each| (each - far[0]).abs() < 1e-6), "a circle: {far:?}");
            let mut angles: Vec<f64> = end.iter().map(|pose| angle(pose).rem_euclid(360.0)).collect();
            angles.sort_by(f64::total_cmp);
            assert!(
                angles.windows(2).all(|pair| (pair[1] - pair[0] - 60.0).abs() < 1e-3),
                "evenly: {angles:?}"
            );
            assert_eq!(find_faults(&dance, &motion), []);
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every figure at every size that can dance it ends where it must, without a fault; and where both sides do the
    /// same it is its own image: end for end for the ones that face a partner, half a turn for rounds and crossings.
    #[test]
    fn every_figure_ends_where_it_must(
        which in 0..all().len(),
        ranks in 1..7_u32,
        across in 1.9..4.0_f64,
        along in 1.4..2.2_f64,
    ) {
        let figure = all()[which];
        let set = Set::longways(ranks * 2, across, along);
        let Ok(made) = named_figure(figure.name, Map::new(), &set) else {
            let refused = match figure.name {
                "hey" | "half-hey" => !(3..=4).contains(&ranks),
                "corners" => !(2..=4).contains(&ranks),
                _ => false,
            };
            prop_assert!(refused, "{} is refused by {}", figure.name, ranks * 2);
            return Ok(());
        };
        let mut dance = Dance::new("Test", set);
        dance.figures.push(made);
        dance.order = vec![Entry::of(&dance.figures[0].id.clone()); if figure.name == "half-hey" { 2 } else { 1 }];
        let motion = motion_of(&dance, None).unwrap();
        // A large set has farther to go in the same time, and ten or twelve who stand close come close: faults of their
        // steps and of their room, not of the figure. Up to eight keep apart whatever the set, and nobody ever clashes.
        let mut faults = bellpad::faults::find_faults(&dance, &motion);
        faults.retain(|fault| {
            fault.kind != bellpad::faults::FaultKind::OverLong
                && (fault.kind != bellpad::faults::FaultKind::Tight || ranks <= 4)
        });
        prop_assert_eq!(faults, []);
        let last = motion.dancers() - 1;
        let half_turn = ["into-line", "back-to-back", "back-to-back-backing", "cross-over", "cross-and-turn",
            "go-and-come", "half-rounds", "corners", "whole-gip", "half-gip"].contains(&figure.name);
        for step in 0..=motion.bars() * 16 {
            let poses = motion.poses(f64::from(step) / 4.0);
            for (index, one) in poses.iter().enumerate() {
                if half_turn {
                    let other = poses[last - index];
                    prop_assert!((one.x + other.x).abs() < 1e-6 && (one.y + other.y).abs() < 1e-6);
                    let off = (one.facing - other.facing).rem_euclid(360.0);
                    prop_assert!((off - 180.0).abs() < 1e-3, "{}: {index} at {step}: {off}", figure.name);
                } else if ["foot-up-and-down", "hey", "half-hey", "down-and-back"].contains(&figure.name) {
                    let other = poses[index ^ 1];
                    prop_assert!((one.x + other.x).abs() < 1e-6 && (one.y - other.y).abs() < 1e-6);
                }
            }
        }
    }

    /// A ring of any number and one alone can dance round, and come home.
    #[test]
    fn rings_and_one_alone_go_round(number in 1..30_u32, ring in any::<bool>()) {
        let mut set = Set::longways(if ring { number } else { 1 }, 2.4, 1.8);
        if ring {
            set.kind = bellpad::dance::SetKind::Ring;
        }
        for name in ["whole-rounds", "half-rounds", "down-and-back", "foot-up-and-down"] {
            let mut dance = Dance::new("Test", set.clone());
            dance.figures.push(named_figure(name, Map::new(), &set).unwrap());
            let motion = motion_of(&dance, None).unwrap();
            let home = motion.poses(0.0);
            for (pose, home) in motion.poses(32.0).iter().zip(&home) {
                prop_assert!((pose.x - home.x).hypot(pose.y - home.y) < 1e-6);
            }
        }
        // Where they come in pairs 1 dances with 2, 3 with 4; where one is left over nobody does (common practice, no source).
        for name in ["cross-over", "into-line", "whole-gip", "go-and-come", "back-to-back", "cross-and-turn"] {
            let made = named_figure(name, Map::new(), &set);
            if set.dancers % 2 == 1 {
                let said = made.err().map(|error| error.to_string());
                prop_assert!(said.is_some_and(|said| said.contains("no pairs")));
                continue;
            }
            let mut dance = Dance::new("Test", set.clone());
            dance.figures.push(made.unwrap());
            let motion = motion_of(&dance, None).unwrap();
            let home = motion.poses(0.0);
            let met = name == "cross-over" || name == "cross-and-turn";
            for (index, (pose, there)) in motion.poses(16.0).iter().zip(&home).enumerate() {
                let there = if met { home[index ^ 1] } else { *there };
                prop_assert!((pose.x - there.x).hypot(pose.y - there.y) < 1e-6, "{name}");
            }
            for (pose, home) in motion.poses(32.0).iter().zip(&home) {
                prop_assert!((pose.x - home.x).hypot(pose.y - home.y) < 1e-6);
                prop_assert!((pose.facing - home.facing + 180.0).rem_euclid(360.0) - 180.0 < 1e-6, "{name}");
            }
        }
    }
}

/// As far apart as the book has it [MB1] nobody crosses in one bar, and so the way over takes two; a side that says one has one,
/// and is told if that is too far. What a side has chosen before opens as before.
#[test]
fn what_a_side_has_chosen_is_danced() {
    let crossed = |with: serde_json::Value| {
        let mut dance = Dance::new("", Set::longways(6, 3.66, 1.83));
        let with = with.as_object().unwrap().clone();
        dance.figures.push(named_figure("cross-and-turn", with, &dance.set).unwrap());
        let motion = motion_of(&dance, None).unwrap();
        motion.pose(Dancer(0), 4.0).x
    };
    assert!((crossed(serde_json::json!({"bars": 1})) - 1.83).abs() < 1e-6);
    assert!(crossed(serde_json::json!({})) < 0.5);
    let set = Set::longways(6, 2.4, 1.8);
    let with = serde_json::json!({"outside": 0.1}).as_object().unwrap().clone();
    let mut dance = Dance::new("", set);
    dance.figures.push(named_figure("hey", with, &dance.set).unwrap());
    assert!(
        find_faults(&dance, &motion_of(&dance, None).unwrap())
            .iter()
            .all(|fault| fault.kind != FaultKind::Wrench)
    );
}
