//! The named figures against what the trade says of them.
//!
//! Sources: [MB1] C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907; [CP] common
//! practice, no source; [CALC] worked out from the geometry of the set.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Dance, Set};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Motion, Pose, Weight};
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
        assert_eq!(motion.pose(0, 0.0).weight, Weight::Left);
        assert_eq!(motion.pose(0, 16.0).weight, Weight::Right);
        let (one, two) = (motion.pose(0, 2.0), motion.pose(1, 2.0));
        assert!(two.y < one.y - 0.5, "1 faces right, so its right side is down the set");
    }
}

/// [CP]: outside foot, away from your partner, the long way, to finish facing them.
#[test]
fn foot_up_turns_the_long_way() {
    let motion = danced("foot-up-and-down", 6);
    let (odd, even) = (motion.pose(2, 8.0), motion.pose(3, 8.0));
    faces(&odd, 0.0);
    faces(&even, 0.0);
    assert!((odd.y - 1.0).abs() < 1e-6);
    let (odd_after, even_after) = (motion.pose(2, 12.0), motion.pose(3, 12.0));
    assert!((odd_after.facing - odd.facing + 270.0).abs() < 1e-6, "odds turn left 270");
    assert!((even_after.facing - even.facing - 270.0).abs() < 1e-6, "evens turn right 270");
    assert_eq!(motion.pose(0, 0.0).weight, Weight::Left);
    assert_eq!(motion.pose(1, 0.0).weight, Weight::Right);
    assert_eq!(motion.pose(0, 16.0).weight, Weight::Right);
    assert_eq!(motion.pose(1, 16.0).weight, Weight::Left);
    let (odd_down, odd_home) = (motion.pose(2, 24.0), motion.pose(2, 28.0));
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
        assert_eq!(motion.pose(dancer, 0.0).weight, Weight::Right);
        assert_eq!(motion.pose(dancer, 16.0).weight, Weight::Right);
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

/// [CALC]: with the timing solved nobody in a file comes within 1 m, where even timing has ends meet.
#[test]
fn the_hey_keeps_a_file_apart() {
    let motion = danced("hey", 6);
    let mut least = f64::INFINITY;
    let mut fastest: f64 = 0.0;
    for step in 0..=32 * 64 {
        let count = f64::from(step) / 64.0;
        let poses = motion.poses(count);
        for (a, b) in [(0, 2), (0, 4), (2, 4), (1, 3), (1, 5), (3, 5)] {
            least = least.min((poses[a].x - poses[b].x).hypot(poses[a].y - poses[b].y));
        }
        let next = motion.poses(count + 1.0 / 64.0);
        for (a, b) in poses.iter().zip(&next) {
            fastest = fastest.max((a.x - b.x).hypot(a.y - b.y) * 64.0);
        }
    }
    println!("least {least:.3} m, fastest {fastest:.3} m a count");
    assert!(least > 1.0, "least {least}");
    assert!(fastest < 0.80, "fastest {fastest}");
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
            let mut before = motion.pose(dancer, 0.0);
            for step in 1..=motion.bars() * 4 * 256 {
                let pose = motion.pose(dancer, f64::from(step) / 256.0);
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
                                    least = (gap, count, one.number, other.number);
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
