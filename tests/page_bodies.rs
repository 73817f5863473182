//! The bodies that the practice page shows at eye level: read back as the page's own script reads them, and held beside the
//! movement engine.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;
#[path = "common/practice.rs"]
mod practice;

use bellpad::dance::{Dance, Dancer, read};
use bellpad::figures::motion_of;
use bellpad::handout::page::{BODY_FINEST, page};
use bellpad::motion::limbs::{Gait, InSpace, Limbs};
use bellpad::motion::{Clock, Motion, Weight};
use common::{sample, samples};
use practice::{data_of, from_base64, number};
use serde_json::Value;
use std::fs;
use std::path::Path;

/// How far the tip of a stick is from the palm at the most, metres.
const TIP: f64 = 0.55;

/// `BodyCell` in assets/practice/types.d.ts.
struct Cell {
    head: i64,
    /// Of a trunk, after how many parts of the count it is in the air.
    flies: f64,
    ways: Vec<Vec<f64>>,
}

/// The page's bodies, unpacked as assets/practice/bodies.js does.
struct Bodies {
    data: Value,
    cells: Vec<Cell>,
    passages: Vec<Vec<usize>>,
    /// How many numbers each group has.
    groups: Vec<usize>,
}

impl Bodies {
    fn of(data: &Value) -> Self {
        let data = data["bodies"].clone();
        let numbers_of: Vec<usize> = serde_json::from_value(data["groups"].clone()).unwrap();
        let bytes = from_base64(data["passages"].as_str().unwrap());
        let (mut at, mut passages) = (0, Vec::new());
        while at < bytes.len() {
            let length = number(&bytes, &mut at) as usize;
            passages.push((0..length).map(|_| number(&bytes, &mut at) as usize).collect::<Vec<_>>());
        }
        let mut groups = Vec::new();
        for (index, &cell) in passages.iter().flat_map(|passage| passage.iter().enumerate()) {
            groups.resize(groups.len().max(cell + 1), 0);
            groups[cell] = index % numbers_of.len();
        }
        let bytes = from_base64(data["cells"].as_str().unwrap());
        let mut at = 0;
        let cells = groups
            .into_iter()
            .map(|group| {
                let head = match group {
                    0 => number(&bytes, &mut at) as i64,
                    1 | 2 => {
                        at += 1;
                        i64::from(bytes[at - 1])
                    }
                    _ => 0,
                };
                let flies = if group == 0 { number(&bytes, &mut at) } else { 0.0 };
                let numbers = numbers_of[group];
                let levels: Vec<u8> = bytes[at..at + numbers.div_ceil(2)]
                    .iter()
                    .flat_map(|pair| [pair & 15, pair >> 4])
                    .take(numbers)
                    .collect();
                at += numbers.div_ceil(2);
                let ways = levels.into_iter().map(|level| {
                    let mut way = vec![0.0];
                    for _ in 0..if level == 0 { 0 } else { 1 << (level - 1) } {
                        way.push(way[way.len() - 1] + number(&bytes, &mut at));
                    }
                    way
                });
                let ways = ways.collect();
                Cell { head, flies, ways }
            })
            .collect();
        assert_eq!(at, bytes.len(), "every byte is used");
        Self { data, cells, passages, groups: numbers_of }
    }

    fn size(&self, key: &str) -> f64 {
        self.data[key].as_f64().unwrap()
    }

    /// The cells of each count of a dancer, and the numbers at its beginning.
    fn way(&self, dancer: usize, bars: usize) -> Vec<(Vec<&Cell>, Vec<f64>)> {
        let bytes = from_base64(self.data["ways"][dancer].as_str().unwrap());
        let mut at = 0;
        let mut values: Vec<f64> = (0..self.groups.iter().sum()).map(|_| number(&bytes, &mut at)).collect();
        let mut counts = Vec::new();
        for _ in 0..bars {
            for count in self.passages[number(&bytes, &mut at) as usize].chunks(self.groups.len()) {
                let cells: Vec<&Cell> = count.iter().map(|cell| &self.cells[*cell]).collect();
                counts.push((cells.clone(), values.clone()));
                for (value, way) in values.iter_mut().zip(cells.iter().flat_map(|cell| &cell.ways)) {
                    *value += way[way.len() - 1];
                }
            }
        }
        assert_eq!(at, bytes.len(), "every byte is used");
        counts
    }

    /// A body's places as it has itself, in the order of `places`, and which feet carry the weight.
    fn body(&self, (cells, values): &(Vec<&Cell>, Vec<f64>), share: f64) -> (Vec<InSpace>, [bool; 2]) {
        let parts = self.size("parts");
        let numbers: Vec<f64> = cells
            .iter()
            .flat_map(|cell| &cell.ways)
            .zip(values)
            .map(|(way, value)| {
                let places = way.len() - 1;
                let part = ((share * places as f64).floor() as usize).min(places.saturating_sub(1));
                let change = match way.get(part + 1) {
                    None => way[0],
                    Some(next) => way[part] + (next - way[part]) * (share * places as f64 - part as f64),
                };
                (value + change) / parts
            })
            .collect();
        let place = |first: usize, from: InSpace, out: f64| {
            from + InSpace::new(numbers[first] * out, numbers[first + 1], numbers[first + 2])
        };
        let beside = |from: InSpace, key: &str, out: f64| from + InSpace::new(out * self.size(key), 0.0, 0.0);
        let nought = InSpace::default();
        let middle = place(0, nought, 1.0);
        let chest = place(3, middle, 1.0);
        let mut places = vec![place(6, chest, 1.0)];
        for (side, out) in [(0, -1.0), (1, 1.0)] {
            let shoulder = beside(chest, "shoulder", out);
            places.extend([
                beside(middle, "hip", out),
                place(9 + 3 * side, nought, out),
                shoulder,
                place(15 + 6 * side, shoulder, out),
                place(18 + 6 * side, shoulder, out),
            ]);
        }
        if self.groups.len() > 5 {
            places.extend([(27, -1.0), (30, 1.0)].map(|(first, out)| place(first, nought, out) * TIP));
        }
        let carries = [1, 2].map(|group| {
            let head = cells[group].head;
            let first = head % 2 == 1;
            if share * (BODY_FINEST as f64) < (head / 2) as f64 { first } else { !first }
        });
        (places, carries)
    }
}

/// The places of a body in the order of `Bodies::body`.
fn places(limbs: &Limbs) -> Vec<InSpace> {
    let mut all = vec![limbs.crown];
    for side in 0..2 {
        all.extend([
            limbs.hips[side],
            limbs.feet[side],
            limbs.shoulders[side],
            limbs.hands[side],
            limbs.elbows[side],
        ]);
    }
    all
}

fn dance_of(path: &Path) -> (Dance, Motion) {
    let dance = read(&fs::read(path).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

/// The page's bodies beside those of the engine: how far off the farthest place is on whole counts and between them, metres, as
/// bodies have themselves; and in how many of the looks between counts other feet carry the weight, of how many.
fn compare(dance: &Dance, motion: &Motion) -> (f64, f64, usize, usize) {
    let clock = Clock::of_dance(dance, motion);
    let bodies = Bodies::of(&data_of(&page(dance, motion).unwrap()));
    let (mut on_counts, mut between, mut other_feet, mut looks) = (0.0_f64, 0.0_f64, 0, 0);
    for dancer in Dancer::all(motion.dancers()) {
        let gait = Gait::of(motion, &clock, dancer);
        let way = bodies.way(dancer.0, motion.bars() as usize);
        assert_eq!(way.len() as f64, motion.counts());
        for (count, at) in way.iter().enumerate() {
            let whole = count as f64;
            let top = at.0[0].head as f64 / bodies.size("topParts");
            assert!((gait.top_at(&clock, whole) - whole - top).abs() < 0.01, "{dancer} at {count}: {top}");
            // Not where the sixteenths meet: there a foot may give up the weight.
            for share in [0.0, 0.11, 0.28, 0.41, 0.53, 0.72, 0.85, 0.97, 1.0] {
                let limbs = gait.limbs(motion, &clock, whole + share);
                let pose = motion.pose(dancer, whole + share);
                let stands = InSpace::new(pose.x, pose.y, 0.0);
                let (kept, kept_feet) = bodies.body(at, share);
                let sticks = limbs
                    .sticks
                    .map(|stick| stands + stick.map_or(InSpace::default(), |stick| stick.along * TIP));
                for (kept, place) in kept.iter().zip(places(&limbs).into_iter().chain(sticks)) {
                    let off = (*kept - (place - stands).as_body_has_it(limbs.facing)).length();
                    let most = if share == 0.0 || share == 1.0 { &mut on_counts } else { &mut between };
                    *most = most.max(off);
                }
                if share > 0.0 && share < 1.0 {
                    let flies = share * bodies.size("topParts") > at.0[0].flies;
                    let air = gait.weight(&clock, whole + share) == Weight::Air;
                    let begins = (share - at.0[0].flies / bodies.size("topParts")).abs();
                    assert!(flies == air || begins < 0.01, "{dancer} at {count} {share}: {flies}");
                    looks += 2;
                    let carries = gait.carries(&clock, whole + share);
                    other_feet += usize::from(kept_feet[0] != carries[0]);
                    other_feet += usize::from(kept_feet[1] != carries[1]);
                }
            }
        }
    }
    (on_counts, between, other_feet, looks)
}

/// On whole counts what the page keeps is within half a centimetre, so that with the place of the body, within 3 mm, and its
/// facing, within a degree, the page is within a centimetre of what `bellpad pose` prints.
#[test]
fn the_page_has_the_bodies_that_the_engine_has() {
    for path in samples() {
        let (dance, motion) = dance_of(&path);
        let (on_counts, between, other_feet, looks) = compare(&dance, &motion);
        println!(
            "{}: {:.2} mm on counts, {:.2} mm between, {other_feet} of {looks} feet",
            path.display(),
            on_counts * 1e3,
            between * 1e3
        );
        assert!(on_counts > 0.0 && on_counts <= 0.005, "{}: {on_counts}", path.display());
        assert!(between <= 0.015, "{}: {between}", path.display());
        // A foot gives up the weight within a sixteenth of a count of when it is.
        assert!(other_feet * 50 <= looks, "{}: {other_feet} of {looks}", path.display());
    }
}

/// Who strikes has their trunk, arms and sticks as they are, in that hand too which holds a second one.
#[test]
fn strikes_have_their_bodies() {
    let text = r#"{"bellpad": 2, "title": "Taps", "holding": "sticks", "grip": "end",
        "set": {"kind": "longways", "dancers": 4, "across": 1.2, "along": 1.2},
        "figures": [{"id": "on", "name": "On", "bars": 4, "phrase": "2 st, 2 ds", "strikes": [
            {"at": 0, "by": "all", "with": "tip", "on": "ground", "again": [2]},
            {"at": 4, "by": "odds", "with": "tip", "on": "partner", "their": "butt", "again": [5, 12]},
            {"at": 6, "by": 3, "with": "tip", "hand": "left", "on": "partner", "stay": true}]}]}"#;
    let dance = read(text.as_bytes()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let (on_counts, between, other_feet, looks) = compare(&dance, &motion);
    // A stick is swung round in less than a count.
    assert!(on_counts > 0.0 && on_counts <= 0.005 && between <= 0.03, "{on_counts} {between}");
    assert!(other_feet * 50 <= looks, "{other_feet} of {looks}");
}

/// Tall and short dancers have theirs, and the page has room for the hands of the tall ones in their jump.
#[test]
fn tall_and_short_dancers_have_their_bodies() {
    // Hands of tall ones go farther in a count, and between two counts the page has them less exactly.
    for (tall, room, finest) in [(1.4, 2.2, 0.015), (2.1, 2.2 + 2.1 - 1.72, 0.03)] {
        let (mut dance, _) = dance_of(&sample("nine-geese-home"));
        dance.height = tall;
        let motion = motion_of(&dance, None).unwrap();
        let (on_counts, between, other_feet, looks) = compare(&dance, &motion);
        assert!(on_counts > 0.0 && on_counts <= 0.005 && between <= finest, "{tall}: {on_counts} {between}");
        assert!(other_feet * 50 <= looks, "{other_feet} of {looks}");
        let eye = data_of(&page(&dance, &motion).unwrap())["eye"]["tall"].as_f64().unwrap();
        assert!((eye - room).abs() < 1e-9, "{tall}: {eye}");
    }
}

/// Six counts in a bar, other metres within the dance, and a speed that changes.
#[test]
fn other_metres_and_speeds_have_their_bodies() {
    let text = r#"{"bellpad": 2, "title": "Metres", "set": {"kind": "longways", "dancers": 2, "across": 2.4, "along": 1.8},
        "music": {"metre": "6/8", "speed": 100},
        "figures": [{"id": "on", "name": "On", "bars": 4, "phrase": "9 ss", "metres": {"2": "9/8"}},
            {"id": "slow", "name": "Slow", "bars": 4, "phrase": "sc", "speeds": [{"count": 0, "speed": 60}, {"count": 8, "speed": 90, "ease": true}]}],
        "order": [{"figure": "on"}, {"figure": "slow"}]}"#;
    let dance = read(text.as_bytes()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let (on_counts, between, other_feet, looks) = compare(&dance, &motion);
    assert!(on_counts > 0.0 && on_counts <= 0.005 && between <= 0.015, "{on_counts} {between}");
    assert!(other_feet * 50 <= looks, "{other_feet} of {looks}");
}

/// Bodies make the page of the demo dance no more than three fifths larger, and what is danced again is kept once.
#[test]
fn bodies_are_small() {
    for path in samples() {
        let (dance, motion) = dance_of(&path);
        let page = page(&dance, &motion).unwrap();
        let bodies = data_of(&page)["bodies"].to_string().len();
        println!("{}: {bodies} of {}", path.display(), page.len());
        assert!(bodies * 8 <= page.len() * 3, "{}: {bodies} of {}", path.display(), page.len());
    }
    let (dance, motion) = dance_of(&sample("nine-geese-home"));
    let bodies = Bodies::of(&data_of(&page(&dance, &motion).unwrap()));
    let bars = motion.bars() as usize * motion.dancers();
    assert!(bodies.passages.len() * 2 < bars, "{} of {bars}", bodies.passages.len());
}

/// Too many bodies for a phone are left out, and the page is made all the same.
#[test]
fn a_crowd_has_no_bodies_on_its_page() {
    let text = r#"{"bellpad": 2, "title": "Crowd", "set": {"kind": "longways", "dancers": 400, "across": 2.4, "along": 1.8},
        "figures": [{"id": "on", "name": "On", "bars": 64, "phrase": "st"}], "order": [{"figure": "on"}]}"#;
    let dance = read(text.as_bytes()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    let page = page(&dance, &motion).unwrap();
    assert!(data_of(&page)["bodies"].is_null());
}
