//! How a hey goes: that everyone moves all the time and evenly, faces where they go, keeps apart, and weaves in the order of
//! the book.
//!
//! Sources: [MB1] C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907; [CALC] worked out from the
//! geometry of the set with another minimiser, in another language.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::needless_range_loop
)]

use bellpad::dance::{Dance, Dancer, Entry, FaultKind, Set};
use bellpad::faults::find_faults;
use bellpad::figures::{motion_of, named_figure};
use bellpad::motion::{Motion, Track, wrap_half};
use proptest::prelude::*;
use serde_json::{Map, json};

/// A dance of one figure by name, danced so often, with tops inside or outside first.
fn dance(name: &str, times: usize, dancers: u32, (across, along): (f64, f64), tops: &str) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(dancers, across, along));
    let with = Map::from_iter([("tops".to_owned(), json!(tops))]);
    dance.figures.push(named_figure(name, with, &dance.set).unwrap());
    dance.order = vec![Entry::of(&dance.figures[0].id.clone()); times];
    dance
}

fn danced(dancers: u32, size: (f64, f64), tops: &str) -> Motion {
    motion_of(&dance("hey", 1, dancers, size, tops), None).unwrap()
}

/// Those of the left file, from the top, in the first half of a hey.
fn left_file(motion: &Motion) -> Vec<&Track> {
    Dancer::all(motion.dancers()).step_by(2).map(|dancer| motion.spans()[0].track(dancer).unwrap()).collect()
}

/// Counts of a half hey in which anybody travels.
const TRAVEL: f64 = 12.0;

/// Moments of a half hey, so many in each count.
fn moments(each: u32) -> impl Iterator<Item = f64> {
    (0..=12 * each).map(move |moment| f64::from(moment) / f64::from(each))
}

/// Metres done between two counts of the first half.
fn metres(track: &Track, from: f64, to: f64) -> f64 {
    track.travelled(to.clamp(0.0, TRAVEL)) - track.travelled(from.clamp(0.0, TRAVEL))
}

/// Metres done in each of the three bars.
fn bars(track: &Track) -> [f64; 3] {
    [0.0, 4.0, 8.0].map(|bar| metres(track, bar, bar + 4.0))
}

/// The counts of setting off and arriving, and the mean speed between them.
fn way(track: &Track) -> (f64, f64, f64) {
    let leg = &track.moves()[0];
    (leg.begin, leg.end, leg.course.length() / (leg.end - leg.begin))
}

/// The least distance between two of the left file.
fn least_distance(motion: &Motion) -> f64 {
    let file = left_file(motion);
    let mut least = f64::INFINITY;
    for count in moments(32) {
        for (index, one) in file.iter().enumerate() {
            for other in &file[index + 1..] {
                let ((x0, y0, _), (x1, y1, _)) = (one.stand(count), other.stand(count));
                least = least.min((x0 - x1).hypot(y0 - y1));
            }
        }
    }
    least
}

/// The least share of their own mean that anybody covers in a bar, and in a full count on the way; and the most by which the
/// metres of two counts that follow each other differ, from each half count, on the way and at its ends.
fn evenness(track: &Track) -> (f64, f64, f64, f64) {
    let (begin, end, mean) = way(track);
    let mut worst = (f64::INFINITY, f64::INFINITY, 0.0_f64, 0.0_f64);
    for bar in [0.0_f64, 4.0, 8.0] {
        let (from, to) = (bar.max(begin), (bar + 4.0).min(end));
        worst.0 = worst.0.min(metres(track, from, to) / (mean * (to - from)));
    }
    for count in moments(4) {
        if count >= begin + 1.0 && count + 1.0 <= end - 1.0 {
            worst.1 = worst.1.min(metres(track, count, count + 1.0) / mean);
        }
        let change = (metres(track, count, count + 1.0) - metres(track, count - 1.0, count)).abs();
        if (count * 2.0).fract() != 0.0 {
            continue;
        }
        if count - 1.0 >= begin + 1.0 && count + 1.0 <= end - 1.0 {
            worst.2 = worst.2.max(change);
        } else {
            worst.3 = worst.3.max(change);
        }
    }
    worst
}

/// The most that anybody's facing changes in a quarter of a count while no turn is under way, degrees. The little that is put
/// right in the last half count as the way ends is looked at as well.
fn swing(track: &Track) -> f64 {
    let turning = |count: f64| {
        let turns = track.turns().iter().filter(|turn| turn.end - turn.begin > 0.6);
        turns.clone().any(|turn| turn.begin < count + 0.25 - 1e-9 && turn.end > count + 1e-9)
    };
    moments(32)
        .filter(|count| !turning(*count) && count + 0.25 <= TRAVEL)
        .map(|count| (track.stand(count + 0.25).2 - track.stand(count).2).abs())
        .fold(0.0, f64::max)
}

/// [CALC]: metres in bars 1 to 3 of tops, middles and bottoms at five sizes, where everyone moves as evenly as can be 0.9 m
/// apart; by another minimiser.
#[test]
fn six_cover_in_each_bar_what_was_worked_out() {
    for (size, worked_out) in [
        ((2.4, 1.8), [[1.94, 1.96, 1.03], [1.66, 1.87, 1.40], [0.32, 2.32, 2.28]]),
        ((2.3, 1.75), [[1.91, 1.89, 0.96], [1.60, 1.80, 1.37], [0.31, 2.26, 2.19]]),
        ((3.0, 1.9), [[2.06, 2.21, 1.28], [1.91, 2.15, 1.50], [0.37, 2.58, 2.60]]),
        ((3.66, 1.83), [[2.18, 2.40, 1.41], [2.07, 2.32, 1.60], [0.42, 2.83, 2.75]]),
        ((2.0, 1.5), [[1.74, 1.56, 0.83], [1.34, 1.52, 1.27], [0.26, 1.98, 1.89]]),
    ] {
        let motion = danced(6, size, "in");
        for (track, worked_out) in left_file(&motion).into_iter().zip(worked_out) {
            let bars = bars(track);
            println!("{size:?}: {bars:.2?}, worked out {worked_out:.2?}");
            for (metres, worked_out) in bars.iter().zip(worked_out) {
                assert!((metres - worked_out).abs() < 0.08, "{size:?}: {bars:.2?}, worked out {worked_out}");
            }
        }
        let least = least_distance(&motion);
        assert!((0.9..0.95).contains(&least), "{size:?}: {least}");
    }
}

/// [CALC]: at 2.4 by 1.8 m the metres of each count, and nobody above 0.72 m a count.
#[test]
fn six_go_count_by_count_as_was_worked_out() {
    let motion = danced(6, (2.4, 1.8), "in");
    for (track, worked_out) in left_file(&motion).into_iter().zip([
        [0.32, 0.53, 0.54, 0.55, 0.55, 0.54, 0.51, 0.36, 0.29, 0.29, 0.28, 0.17],
        [0.27, 0.45, 0.47, 0.47, 0.47, 0.47, 0.47, 0.47, 0.48, 0.55, 0.36, 0.0],
        [0.0, 0.0, 0.0, 0.32, 0.53, 0.55, 0.57, 0.68, 0.70, 0.64, 0.59, 0.36],
    ]) {
        for (count, worked_out) in (0..12).map(f64::from).zip(worked_out) {
            let metres = metres(track, count, count + 1.0);
            assert!((metres - worked_out).abs() < 0.04, "count {count}: {metres}, worked out {worked_out}");
        }
        for count in moments(32) {
            let speed = metres(track, count, count + 0.01) / 0.01;
            assert!(speed < 0.72 + 0.02, "{speed} at {count}");
        }
    }
}

/// [MB1]: at the end of bar 2, 5 is at the middle, 1 has passed it and 3 is still coming; and 1 always turns outwards first,
/// where tops go outside first, 3 following 1 and 5 following 3 on one track, in both halves.
#[test]
fn one_leads_and_three_and_five_follow() {
    let motion = danced(6, (2.4, 1.8), "out");
    let at = |dancer: u32, count: f64| motion.pose(Dancer(dancer as usize), count);
    for (second, sign) in [(0.0, 1.0), (16.0, -1.0)] {
        let y = |dancer: u32, count: f64| sign * at(dancer, second + count).y;
        assert!(y(0, 8.0) < -0.5 && y(2, 8.0) > 0.5 && y(4, 8.0).abs() < 0.5, "{}", y(4, 8.0));
        assert!(at(0, second + 2.5).x < -1.5 && at(1, second + 2.5).x > 1.5, "1 and 2 go outside first");
        // Everyone is somewhere on the way that 1 goes in the whole hey, and goes along it as 1 does.
        let ones: Vec<(f64, f64, f64)> = (0..32 * 32)
            .map(|step| f64::from(step) / 32.0)
            .map(|count| (at(0, count), at(0, count + 0.01)))
            .map(|(here, next)| (here.x, here.y, (next.x - here.x).atan2(next.y - here.y).to_degrees()))
            .collect();
        for follower in [2, 4] {
            for count in (16..44).map(|step| second + f64::from(step) / 4.0) {
                let (here, next) = (at(follower, count), at(follower, count + 0.01));
                if (next.x - here.x).hypot(next.y - here.y) < 1e-3 {
                    continue;
                }
                let heading = (next.x - here.x).atan2(next.y - here.y).to_degrees();
                let near = ones.iter().any(|(x, y, ones)| {
                    (x - here.x).hypot(y - here.y) < 0.06 && wrap_half(ones - heading).abs() < 25.0
                });
                assert!(near, "{} at {count} is not where 1 goes", follower + 1);
            }
        }
    }
    let usual = danced(6, (2.4, 1.8), "in");
    assert!(usual.pose(Dancer(0), 2.5).x > -0.6, "the usual way is inside first");
    let poses = usual.poses(8.0);
    assert!(poses[0].y < -0.9 && poses[4].y.abs() < 0.2 && poses[2].y > 0.9);
}

/// How fast anybody may still go who faces so far off where they go as they come home, degrees and shares of their mean: of six and
/// of eight. [CALC] Measured over 120 sizes, where at the most it was 0.60, 0.37 and 0.20 of six, 0.72, 0.43 and 0.23 of eight.
const TURNED_AWAY: [(f64, [f64; 2]); 3] = [(45.0, [0.65, 0.75]), (60.0, [0.4, 0.45]), (90.0, [0.22, 0.25])];

/// Nobody comes home sideways or backwards: while they travel in the last bar they face where they go, and the turn to face, which
/// begins a little before they have arrived, turns them away from it only as they slow down.
#[test]
fn they_arrive_forwards_and_then_turn() {
    for tops in ["in", "out"] {
        for (dancers, size) in
            [(6, (2.4, 1.8)), (6, (3.66, 1.83)), (6, (1.8, 1.2)), (8, (2.4, 1.5)), (8, (3.66, 1.2))]
        {
            let motion = danced(dancers, size, tops);
            for (rank, track) in left_file(&motion).into_iter().enumerate() {
                for count in moments(32).filter(|count| (8.0..TRAVEL - 0.02).contains(count)) {
                    let ((x0, y0, facing), (x1, y1, _)) = (track.stand(count), track.stand(count + 0.01));
                    let speed = (x1 - x0).hypot(y1 - y0) / 0.01;
                    let off = wrap_half(facing - (x1 - x0).atan2(y1 - y0).to_degrees()).abs();
                    let share = speed / way(track).2;
                    let known = TURNED_AWAY
                        .iter()
                        .all(|(far, most)| off < *far || share < most[dancers as usize / 2 - 3]);
                    assert!(
                        known,
                        "{dancers} at {size:?}, tops {tops}: rank {rank} goes {speed:.2} m a count at {count}, {off:.0} off"
                    );
                }
            }
        }
    }
}

/// With four in a file as well: [CALC] the share of the mean was 0.85 there with tops who turn as they arrive.
#[test]
fn eight_go_evenly_too() {
    for size in [(2.4, 1.5), (2.6, 1.6), (2.4, 1.8)] {
        let motion = danced(8, size, "in");
        assert!(least_distance(&motion) >= 0.65);
        for track in left_file(&motion) {
            let (bar, count, change, at_ends) = evenness(track);
            assert!(
                at_ends < 0.55_f64.max(0.95 * way(track).2),
                "{size:?}: {at_ends} m between two counts at an end"
            );
            println!("{size:?}: {bar:.2} {count:.2} {change:.2}, swing {:.0}", swing(track));
            assert!(bar > 0.65 && count > 0.7 && change < 0.2 && swing(track) < 45.0, "{size:?}");
        }
    }
}

/// [CALC]: metres in bars 1 to 3 of those at the ends of a file of four, by another minimiser; those between turn to face a count
/// earlier here, and so are no less even, but not as there.
#[test]
fn eight_cover_in_each_bar_what_was_worked_out() {
    for (size, top, bottom) in [
        ((2.4, 1.5), [2.12, 2.44, 2.43], [1.88, 2.13, 2.20]),
        ((2.6, 1.6), [2.32, 2.65, 2.60], [2.01, 2.27, 2.30]),
    ] {
        let motion = danced(8, size, "in");
        for (rank, worked_out) in [(0, top), (3, bottom)] {
            let bars = bars(left_file(&motion)[rank]);
            for (metres, worked_out) in bars.iter().zip(worked_out) {
                assert!(
                    (metres - worked_out).abs() < 0.17,
                    "{size:?}, {rank}: {bars:.2?}, worked out {worked_out}"
                );
            }
        }
    }
}

/// At the usual size nothing is wrong with any hey, whole or half, danced either way.
#[test]
fn a_usual_hey_has_no_faults() {
    for dancers in [6, 8] {
        for (name, times) in [("hey", 1), ("half-hey", 2)] {
            for tops in ["in", "out"] {
                let dance = dance(name, times, dancers, (2.4, 1.8), tops);
                assert_eq!(
                    find_faults(&dance, &motion_of(&dance, None).unwrap()),
                    [],
                    "{dancers} {name} {tops}"
                );
            }
        }
    }
}

/// Parts that each way is cut into to look for the timing that keeps three farthest apart.
const PARTS: usize = 32;

/// How far apart three in a file can be kept at all, metres, going their ways in any timing whatever: of all ways through the moments
/// at which each is some part along theirs, the one on which they never come nearer than that. [CALC] The widest way through a
/// lattice, found cell by cell.
fn farthest_apart(motion: &Motion) -> f64 {
    let courses: Vec<_> = left_file(motion).into_iter().map(|track| &track.moves()[0].course).collect();
    let at = |role: usize, part: usize| {
        let place = courses[role].at(courses[role].length() * part as f64 / PARTS as f64);
        (place.x, place.y)
    };
    let apart = |one: usize, here: usize, other: usize, there: usize| {
        let ((x0, y0), (x1, y1)) = (at(one, here), at(other, there));
        (x0 - x1).hypot(y0 - y1)
    };
    let mut widest = vec![0.0_f64; (PARTS + 1).pow(3)];
    let cell = |a: usize, b: usize, c: usize| (a * (PARTS + 1) + b) * (PARTS + 1) + c;
    for a in 0..=PARTS {
        for b in 0..=PARTS {
            for c in 0..=PARTS {
                let here = apart(0, a, 1, b).min(apart(0, a, 2, c)).min(apart(1, b, 2, c));
                let before = (1..8_usize)
                    .map(|step| [step & 1, step >> 1 & 1, step >> 2])
                    .filter(|[i, j, k]| *i <= a && *j <= b && *k <= c)
                    .map(|[i, j, k]| widest[cell(a - i, b - j, c - k)])
                    .fold(if a + b + c == 0 { f64::INFINITY } else { 0.0 }, f64::max);
                widest[cell(a, b, c)] = here.min(before);
            }
        }
    }
    widest[cell(PARTS, PARTS, PARTS)]
}

/// In a set too small for 0.9 m those in a file come as far apart as they can, before all else: to within a tenth of what any timing
/// could have. Where that is too little, it is told.
#[test]
fn a_set_too_small_to_keep_apart_is_told() {
    let mut told = false;
    for (along, tops) in [1.0, 0.7, 0.5, 0.4].into_iter().flat_map(|along| [(along, "in"), (along, "out")]) {
        let mut dance = dance("hey", 1, 6, (2.0, along), tops);
        let motion = motion_of(&dance, None).unwrap();
        let (faults, least) = (find_faults(&dance, &motion), least_distance(&motion));
        let most = farthest_apart(&motion);
        assert!(least > 0.9 * most.min(1.0), "{least} m at {along}, tops {tops}, where {most} can be had");
        dance.figures[0].named.as_mut().unwrap().with.insert("timing".to_owned(), json!("even"));
        let even = least_distance(&motion_of(&dance, None).unwrap());
        println!("{along} m along: {least:.3} m, {even:.3} in even steps, {} faults", faults.len());
        assert!(least > even + 0.2, "{least} m, {even} in even steps");
        assert!(least < 0.9 || faults.is_empty());
        told |= faults.iter().any(|fault| matches!(fault.kind, FaultKind::Tight | FaultKind::Clash));
    }
    assert!(told);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// At every size that a side dances at, those in a file keep apart and everyone moves in every bar, evenly, and faces
    /// where they go without spinning. Bodies never come too close.
    #[test]
    fn a_hey_flows_at_every_size(
        eight in any::<bool>(),
        out in any::<bool>(),
        across in 1.6..3.66_f64,
        along in 1.2..2.0_f64,
    ) {
        let (dancers, tops) = (if eight { 8 } else { 6 }, if out { "out" } else { "in" });
        let dance = dance("hey", 1, dancers, (across, along), tops);
        let motion = motion_of(&dance, None).unwrap();
        let apart = if eight { 0.65 } else if across > 1.8 { 0.9 } else { 0.8 };
        let least = least_distance(&motion);
        prop_assert!(least >= apart - 0.005, "{least}");
        for track in left_file(&motion) {
            let (bar, count, change, at_ends) = evenness(track);
            prop_assert!(bar >= 0.6, "{bar} of the mean in a bar");
            prop_assert!(count >= 0.5, "{count} of the mean in a count");
            prop_assert!(change <= 0.35, "{change} m between two counts");
            // Ways of eight in a large set are too long for that: they set off and stop within their mean.
            let most = if eight { (0.95 * way(track).2).max(0.55) } else { 0.55 };
            prop_assert!(at_ends <= most, "{at_ends} m between two counts at an end, not {most}");
            prop_assert!(swing(track) <= 60.5, "{} degrees in a quarter of a count", swing(track));
        }
        if !eight {
            let poses = motion.poses(8.0);
            prop_assert!(poses[0].y < poses[4].y - 0.2 && poses[4].y < poses[2].y - 0.4, "1, then 5, then 3");
        }
        let mut faults = find_faults(&dance, &motion);
        // [CALC] On a long way of eight the least that can be gone at the most, but for setting off and stopping, is its length
        // over the counts less one and a half; a hey keeps to 1.06 of that, which is what it is told by.
        let hardly = |track: &Track| track.moves()[0].course.length() / (way(track).1 - way(track).0 - 1.5);
        let most = left_file(&motion).into_iter().map(hardly).fold(0.0, f64::max);
        faults.retain(|fault| fault.kind != FaultKind::OverLong || !eight || fault.value > 1.06 * most);
        prop_assert_eq!(faults, []);
    }
}
