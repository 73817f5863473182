//! The bodies of the dancers in space, throughout the dance, as packed bytes: what the page shows at eye level.
//!
//! All of it is asked of [`Gait`], and kept so finely that the page needs no rule of its own for how a body moves. A body is
//! kept as it has itself: how far out to its own side, to the front and up from the middle of where it stands; so two who do
//! the same are kept once, wherever they stand and to whichever side.

use super::moves::push_number;
use crate::dance::{Dancer, StrikeEnd};
use crate::motion::limbs::{Gait, InSpace, Limbs, from_palm, on_side};
use crate::motion::{Blow, Clock, Motion};
use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use rayon::prelude::*;
use serde_json::{Value, json};
use std::collections::HashMap;

/// Parts of a metre in which bodies are kept: 2 mm.
pub const BODY_PARTS: f64 = 500.0;
/// The finest part of a count that is kept.
pub const BODY_FINEST: usize = 16;
/// Parts of a count in which it is kept when a hop is at its top.
pub const TOP_PARTS: f64 = 64.0;
/// The most dancers times counts of the dance whose bodies a page holds: some 3 MB.
const MOST_BODIES: usize = 100_000;

/// How near the kept trunk, feet and arms are to the true ones along each axis, metres.
const TRUNK_WITHIN: f64 = 0.003;
const FOOT_WITHIN: f64 = 0.004;
const ARM_WITHIN: f64 = 0.004;

/// What is kept together: the trunk (the middle of the hips; from there the middle of the shoulders; from there the crown), each
/// foot, of each arm the hand and the elbow from the shoulder, and of each stick which way it points. So many numbers each.
const GROUPS: [usize; 7] = [9, 3, 3, 6, 6, 3, 3];
/// As many of them are kept where no stick strikes anything: then it is carried as it always is.
const WITHOUT_STICKS: usize = 5;

/// The bodies as the page has them; nothing where they are too many for a phone.
///
/// A cell is a group through a count. It begins with what goes with the group: for the trunk when a picture of that count
/// alone is to be taken, in sixty-fourths of a count after it, and after how many of those it is in the air until the next count (64 where it
/// is not); for a foot twice how many sixteenths of the count go by before
/// it takes the weight or lets it go (16 where it does not), with one more where it carries it at first; for an arm and a stick nothing. Then half a
/// byte for each number of the group, the first the low half, says how many even parts of the count have a value of their own:
/// 0 none, otherwise 1, 2, 4, 8 or 16 by 1, 2, 3, 4 and 5. Then come the changes, one number's after the other's.
///
/// `passages` is a row for each kind of bar: how many cells it has, then which, count by count in the order of the groups.
/// `ways` is a row for each dancer: the values at the start, then the passage of each bar.
pub(super) fn pack_bodies(motion: &Motion, clock: &Clock) -> Value {
    let counts = motion.counts() as usize;
    if counts * motion.dancers() > MOST_BODIES {
        return Value::Null;
    }
    let dancers: Vec<Dancer> = Dancer::all(motion.dancers()).collect();
    let strikes = motion.blows().iter().any(Blow::is_of_wood);
    let groups = if strikes { &GROUPS[..] } else { GROUPS.get(..WITHOUT_STICKS).unwrap_or_default() };
    let all: Vec<(Limbs, Way)> = dancers
        .par_iter()
        .map(|&dancer| {
            let gait = Gait::of(motion, clock, dancer);
            (gait.limbs(motion, clock, 0.0), Way::of(motion, clock, (dancer, &gait), groups))
        })
        .collect();
    let Some((limbs, _)) = all.first() else { return Value::Null };
    // What is used most has the smallest numbers, which are the shortest.
    let mut used: HashMap<&Cell, usize> = HashMap::new();
    for cell in all.iter().flat_map(|(_, way)| &way.cells) {
        *used.entry(cell).or_default() += 1;
    }
    let mut cells: Vec<(&Cell, usize)> = used.into_iter().collect();
    cells.sort_by(|one, other| other.1.cmp(&one.1).then(one.0.cmp(other.0)));
    let places: HashMap<&Cell, i64> = cells.iter().map(|(cell, _)| *cell).zip(0..).collect();
    let mut passages: Vec<u8> = Vec::new();
    let mut known: HashMap<Vec<i64>, i64> = HashMap::new();
    let bars = motion.bar_counts();
    let ways: Vec<String> = all
        .iter()
        .map(|(_, way)| {
            let mut bytes = Vec::new();
            for value in way.start.into_iter().take(groups.iter().sum()) {
                push_number(&mut bytes, value);
            }
            for bar in 0..motion.bars() {
                let [begin, end] = [bar, bar + 1].map(|bar| bars.begin_of(bar) as usize * groups.len());
                let passage: Vec<i64> = way
                    .cells
                    .get(begin..end.min(way.cells.len()))
                    .unwrap_or_default()
                    .iter()
                    .map(|cell| places.get(cell).copied().unwrap_or_default())
                    .collect();
                let next = i64::try_from(known.len()).unwrap_or(i64::MAX);
                let index = *known.entry(passage).or_insert_with_key(|passage| {
                    push_number(&mut passages, i64::try_from(passage.len()).unwrap_or(i64::MAX));
                    for cell in passage {
                        push_number(&mut passages, *cell);
                    }
                    next
                });
                push_number(&mut bytes, index);
            }
            STANDARD.encode(bytes)
        })
        .collect();
    let apart = |[one, other]: [InSpace; 2]| round((one - other).length(), 1e4);
    let bones = |joints: [InSpace; 3]| {
        let [from, joint, to] = joints;
        [apart([from, joint]), apart([joint, to])]
    };
    let stick = [StrikeEnd::Butt, StrikeEnd::Tip].map(|end| from_palm(end, motion.held().grip));
    json!({
        "parts": BODY_PARTS,
        "topParts": TOP_PARTS,
        "groups": groups,
        // From the palm to the butt and to the tip of a stick, metres.
        "stick": stick,
        // Half the way from hip to hip and from shoulder to shoulder; thigh and shin: metres.
        "hip": round(apart(limbs.hips) / 2.0, 1e4),
        "shoulder": round(apart(limbs.shoulders) / 2.0, 1e4),
        "leg": bones([on_side(limbs.hips, 0), on_side(limbs.knees, 0), on_side(limbs.feet, 0)]),
        "cells": STANDARD.encode(cells.iter().flat_map(|(cell, _)| cell.bytes.iter().copied()).collect::<Vec<u8>>()),
        "passages": STANDARD.encode(passages),
        "ways": ways,
    })
}

fn round(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}

/// How many numbers there are in all.
const NUMBERS: usize = 33;

/// What is kept of a group through a count.
#[derive(PartialEq, Eq, PartialOrd, Ord, Hash)]
struct Cell {
    /// How many numbers the group has: a trunk is never taken for an arm.
    numbers: usize,
    bytes: Vec<u8>,
}

/// A dancer throughout the dance.
struct Way {
    /// In the parts that are kept.
    start: [i64; NUMBERS],
    /// The groups of each count, one after the other.
    cells: Vec<Cell>,
}

impl Way {
    fn of(motion: &Motion, clock: &Clock, (dancer, gait): (Dancer, &Gait), groups: &[usize]) -> Self {
        let at = |count: f64| {
            let pose = motion.pose(dancer, count);
            as_it_has_itself(&gait.limbs(motion, clock, count), InSpace::new(pose.x, pose.y, 0.0))
        };
        let mut last = at(0.0).map(coarse);
        let start = last;
        let counts = motion.counts() as usize;
        let mut cells = Vec::with_capacity(counts * groups.len());
        let mut seen: Vec<[f64; NUMBERS]> = Vec::with_capacity(BODY_FINEST + 1);
        for count in (0..counts).map(|count| count as f64) {
            seen.clear();
            seen.extend((0..=BODY_FINEST).map(|part| at(count + part as f64 / BODY_FINEST as f64)));
            let mut first = 0;
            for (group, numbers) in groups.iter().copied().enumerate() {
                let mut cell = Vec::with_capacity(24);
                match group {
                    0 => {
                        let top = (gait.top_at(clock, count) - count) * TOP_PARTS;
                        push_number(&mut cell, top.round() as i64);
                        push_number(&mut cell, flies_from(gait, clock, count));
                    }
                    1 | 2 => cell.push(carried(gait, clock, group - 1, count)),
                    _ => {}
                }
                let within = [TRUNK_WITHIN, FOOT_WITHIN, FOOT_WITHIN, ARM_WITHIN].get(group);
                let within = within.copied().unwrap_or(ARM_WITHIN);
                put_numbers(&mut cell, &seen, &mut last, first..first + numbers, within);
                first += numbers;
                cells.push(Cell { numbers, bytes: cell });
            }
        }
        Self { start, cells }
    }
}

/// Puts the levels and the changes of some numbers of a body through a count.
fn put_numbers(
    cell: &mut Vec<u8>,
    seen: &[[f64; NUMBERS]],
    last: &mut [i64; NUMBERS],
    numbers: std::ops::Range<usize>,
    within: f64,
) {
    let mut changes = Vec::new();
    let mut levels = Vec::new();
    for number in numbers {
        let Some(last) = last.get_mut(number) else { continue };
        let ways: Vec<f64> = seen.iter().filter_map(|body| body.get(number).copied()).collect();
        let level = level(*last, &ways, within);
        for knot in knots(level) {
            let value = ways.get(knot).map_or(*last, |value| coarse(*value));
            push_number(&mut changes, value - *last);
            *last = value;
        }
        levels.push(level);
    }
    for pair in levels.chunks(2) {
        cell.push(pair.first().copied().unwrap_or(0) | pair.get(1).copied().unwrap_or(0) << 4);
    }
    cell.extend(changes);
}

/// The coarsest level at which everything is near enough, with which even parts of a count go straight.
fn level(last: i64, ways: &[f64], within: f64) -> u8 {
    let fits = |level: u8| {
        let (mut from, mut begin) = (last as f64 / BODY_PARTS, 0);
        if level == 0 {
            return ways.iter().all(|way| (way - from).abs() <= within);
        }
        knots(level).all(|end| {
            let to = ways.get(end).map_or(from, |way| coarse(*way) as f64 / BODY_PARTS);
            let each = (end - begin) as f64;
            let near = |(index, way): (usize, &f64)| {
                (from + (to - from) * (index as f64 / each) - way).abs() <= within
            };
            let near = ways.get(begin..=end).is_some_and(|ways| ways.iter().enumerate().all(near));
            (from, begin) = (to, end);
            near
        })
    };
    (0..FINEST_LEVEL).find(|&level| fits(level)).unwrap_or(FINEST_LEVEL)
}

/// The level at which each finest part has a value of its own.
const FINEST_LEVEL: u8 = 5;

/// Which of the finest parts have a value of their own at a level.
fn knots(level: u8) -> impl Iterator<Item = usize> {
    let number = if level == 0 { 0 } else { 1_usize << (level - 1) };
    let each = BODY_FINEST / number.max(1);
    (1..=number).map(move |part| part * each)
}

fn coarse(value: f64) -> i64 {
    (value * BODY_PARTS).round() as i64
}

/// After how many parts of a count a flight begins that lasts until the next one.
fn flies_from(gait: &Gait, clock: &Clock, count: f64) -> i64 {
    let flight = gait.flight_at(clock.seconds(count + 1.0 - 1e-4));
    let from = flight.map_or(1.0, |flight| (clock.counts(flight.begin) - count).clamp(0.0, 1.0));
    (from * TOP_PARTS).round() as i64
}

/// Whether a foot carries the weight, or hops, as a count begins, and after how many sixteenths that changes.
fn carried(gait: &Gait, clock: &Clock, side: usize, count: f64) -> u8 {
    let holds =
        |part: usize| on_side(gait.carries(clock, count + (part as f64 + 0.5) / BODY_FINEST as f64), side);
    let first = holds(0);
    let changes = (1..BODY_FINEST).find(|&part| holds(part) != first).unwrap_or(BODY_FINEST);
    changes as u8 * 2 + u8::from(first)
}

/// A body's numbers, in the order of the groups: out to its own side, to the front and up, metres.
fn as_it_has_itself(limbs: &Limbs, stands: InSpace) -> [f64; NUMBERS] {
    let middle = limbs.middle();
    let chest = limbs.shoulders[0].toward(limbs.shoulders[1], 0.5);
    let own = |way: InSpace, out: f64| {
        let InSpace { x, y, z } = way.as_body_has_it(limbs.facing);
        [x * out, y, z]
    };
    let foot = |side: usize| own(on_side(limbs.feet, side) - stands, on_side([-1.0, 1.0], side));
    let arm = |side: usize, place: [InSpace; 2]| {
        own(on_side(place, side) - on_side(limbs.shoulders, side), on_side([-1.0, 1.0], side))
    };
    let stick = |side: usize| {
        let along = on_side(limbs.sticks, side).map_or(InSpace::default(), |stick| stick.along);
        own(along, on_side([-1.0, 1.0], side))
    };
    let all = [
        own(middle - stands, 1.0),
        own(chest - middle, 1.0),
        own(limbs.crown - chest, 1.0),
        foot(0),
        foot(1),
        arm(0, limbs.hands),
        arm(0, limbs.elbows),
        arm(1, limbs.hands),
        arm(1, limbs.elbows),
        stick(0),
        stick(1),
    ];
    let mut numbers = [0.0; NUMBERS];
    for (number, value) in numbers.iter_mut().zip(all.into_iter().flatten()) {
        *number = value;
    }
    numbers
}
