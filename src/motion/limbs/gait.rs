use super::arms::{HandKey, hand_from_shoulder};
use super::swing::Swing;
use super::two_bones::joint;
use super::{Contact, Flight, HEIGHT, InSpace, LEG, Limbs};
use crate::dance::{Dancer, FreeFoot, FreePlace};
use crate::motion::cubics::ease;
use crate::motion::{Clock, Footfall, Motion, Weight};

/// What a step says of a count, as the dancer does it.
#[derive(Clone, Debug)]
struct Key {
    /// When it is, seconds from the start of the dance.
    time: f64,
    weight: Weight,
    hop: bool,
    rise: f64,
    free: Option<FreeFoot>,
    hands: [HandKey; 2],
}

/// The height of the hips at a moment at which a foot lands or leaves, and what is between it and the next.
#[derive(Clone, Copy, Debug)]
struct Node {
    time: f64,
    height: f64,
    /// How much higher the hips would be by the feet alone, here from then on and at the next one before it, metres.
    above: [f64; 2],
    flies: bool,
}

/// How a dancer goes through the dance on their feet.
#[derive(Clone, Debug)]
pub struct Gait {
    dancer: Dancer,
    keys: Vec<Key>,
    contacts: [Vec<Contact>; 2],
    swings: [Vec<Swing>; 2],
    flights: Vec<Flight>,
    nodes: Vec<Node>,
}

/// Before the dance and after it everybody stands for so long, seconds.
const STANDS: f64 = 10.0;
/// How far aside of the middle a foot is planted, and a joint of the hips and of the shoulders is, metres (from memory).
const FOOT_ASIDE: f64 = 0.08;
const HIP_ASIDE: f64 = 0.09;
const SHOULDER_ASIDE: f64 = 0.2;
/// From the hips to the shoulders, and how high the hips of somebody who stands are, metres (from memory).
const TRUNK: f64 = 0.48;
const REACH: f64 = LEG - 0.02;
/// How far the trunk leans forward, degrees (common practice, no source).
const LEAN: f64 = 3.0;
/// How much the knees bend as a jump lands, a share of its height (common practice, no source).
const BENDS: f64 = 0.2;
/// The hips are not lower than this, metres, however far the feet are away.
const LOWEST: f64 = 0.6;
/// Thigh and shin, upper arm and forearm, metres (from memory).
const LEG_BONES: [f64; 2] = [0.46, 0.49];
const ARM_BONES: [f64; 2] = [0.31, 0.345];

/// Left, then right: to which side of the middle each is.
const SIDES: [f64; 2] = [-1.0, 1.0];

impl Gait {
    /// How a dancer goes through a dance.
    #[must_use]
    pub fn of(motion: &Motion, clock: &Clock, dancer: Dancer) -> Self {
        let keys = keys(motion, clock, dancer);
        let end = clock.seconds(motion.counts());
        let (times, flights) = on_the_floor(&keys, end);
        let mut gait = Self {
            dancer,
            keys,
            contacts: [Vec::new(), Vec::new()],
            swings: [Vec::new(), Vec::new()],
            flights,
            nodes: Vec::new(),
        };
        let walk = Walk { motion, clock, dancer, end };
        for (side, times) in times.iter().enumerate() {
            gait.contacts[side] =
                times.iter().map(|&(begin, end)| walk.plant(SIDES[side], begin, end)).collect();
        }
        gait.nodes = gait.nodes(&walk);
        for side in 0..2 {
            gait.swings[side] = gait.swings_of(side, &walk);
        }
        gait
    }

    /// When and where each foot, left and right, is planted, in order of time.
    #[must_use]
    pub fn contacts(&self) -> [&[Contact]; 2] {
        [&self.contacts[0], &self.contacts[1]]
    }

    /// The hops and jumps, in order of time.
    #[must_use]
    pub fn flights(&self) -> &[Flight] {
        &self.flights
    }

    /// The body at a count of the dance whose gait it is.
    #[must_use]
    pub fn limbs(&self, motion: &Motion, clock: &Clock, count: f64) -> Limbs {
        let walk = Walk { motion, clock, dancer: self.dancer, end: clock.seconds(motion.counts()) };
        let time = clock.seconds(count.clamp(0.0, motion.counts()));
        let (middle, facing) = walk.stand(time);
        let rise = self.rise(time);
        let height = self.hips(&walk, time);
        let at = |aside: f64, front: f64, up: f64| {
            middle + InSpace::new(aside, front, 0.0).of_body(facing) + InSpace::new(0.0, 0.0, up)
        };
        let hips = SIDES.map(|side| at(side * HIP_ASIDE, 0.0, height));
        let (sin, cos) = LEAN.to_radians().sin_cos();
        let shoulders = SIDES.map(|side| at(side * SHOULDER_ASIDE, TRUNK * sin, height + TRUNK * cos));
        let crown = at(0.0, TRUNK * sin, height + HEIGHT - REACH + 0.01);
        let front = InSpace::new(0.0, 1.0, 0.0).of_body(facing);
        let (mut feet, mut toes, mut planted) = ([InSpace::default(); 2], [facing; 2], [false; 2]);
        for side in 0..2 {
            (feet[side], toes[side], planted[side]) = self.foot(side, time, (middle, facing), (hips[side], rise));
        }
        let hands = self.hands(time);
        let palms = [0, 1].map(|side| {
            let InSpace { x, y, z } = hands[side];
            shoulders[side] + InSpace::new(SIDES[side] * x, y, 0.0).of_body(facing) + InSpace::new(0.0, 0.0, z)
        });
        let elbow = |side: usize| {
            let out = InSpace::new(SIDES[side] * 0.6, -1.0, -0.5).of_body(facing);
            joint(shoulders[side], palms[side], ARM_BONES, out)
        };
        Limbs {
            hips,
            knees: [0, 1].map(|side| joint(hips[side], feet[side], LEG_BONES, front)),
            feet,
            toes,
            shoulders,
            elbows: [0, 1].map(elbow),
            hands: palms,
            crown,
            lean: LEAN,
            planted,
        }
    }

    /// How high the body has risen in a hop or a jump, metres.
    fn rise(&self, time: f64) -> f64 {
        let next = self.flights.partition_point(|flight| flight.end < time);
        self.flights.get(next).map_or(0.0, |flight| flight.rise(time))
    }

    /// Where a foot is, which way it points, and whether it is planted.
    fn foot(
        &self,
        side: usize,
        time: f64,
        (middle, facing): (InSpace, f64),
        (hip, rise): (InSpace, f64),
    ) -> (InSpace, f64, bool) {
        let contacts = &self.contacts[side];
        let begun = contacts.partition_point(|contact| contact.begin <= time).max(1) - 1;
        let Some(contact) = contacts.get(begun) else { return (middle, facing, false) };
        if contact.holds(time) || time < contact.begin {
            return (contact.place, contact.facing, true);
        }
        let Some(swing) = self.swings[side].get(begun) else { return (contact.place, contact.facing, true) };
        let place = swing.at(time);
        let there = middle + place.of_body(facing) + InSpace::new(0.0, 0.0, rise);
        let mut within = hip + (there - hip).within(LEG);
        within.z = within.z.max(0.0);
        (there.toward(within, swing.kept_within(time)), facing, false)
    }

    /// Where the hands are from their shoulders: each to its own side, to the front, and up.
    fn hands(&self, time: f64) -> [InSpace; 2] {
        let next = self.keys.partition_point(|key| key.time <= time);
        let last = self.keys.last();
        let from = next.checked_sub(1).and_then(|index| self.keys.get(index)).or(self.keys.first());
        let to = self.keys.get(next).or(last);
        let (Some(from), Some(to)) = (from, to) else { return [InSpace::default(); 2] };
        let share = ((time - from.time) / (to.time - from.time).max(1e-9)).clamp(0.0, 1.0);
        [0, 1].map(|side| hand_from_shoulder(from.hands[side], to.hands[side], share))
    }

    /// How high the hips are, metres.
    fn hips(&self, walk: &Walk, time: f64) -> f64 {
        let next = self.nodes.partition_point(|node| node.time <= time).clamp(1, self.nodes.len().max(2) - 1);
        let Some([from, to]) = self.nodes.get(next - 1..=next) else { return REACH };
        let share = ((time - from.time) / (to.time - from.time).max(1e-9)).clamp(0.0, 1.0);
        if from.flies {
            return from.height + (to.height - from.height) * share + self.rise(time);
        }
        let [here, there] = from.above;
        self.by_feet(walk, time, f64::midpoint(from.time, to.time))
            - here * (1.0 - ease(share))
            - there * ease(share)
    }

    /// How high the hips would be at a time over the feet that are planted at another.
    fn by_feet(&self, walk: &Walk, time: f64, planted: f64) -> f64 {
        let (middle, facing) = walk.stand(time);
        let mut height = REACH;
        for (side, contacts) in self.contacts.iter().enumerate() {
            let begun = contacts.partition_point(|contact| contact.begin <= planted);
            let held = begun.checked_sub(1).and_then(|index| contacts.get(index));
            if let Some(contact) = held.filter(|contact| contact.holds(planted)) {
                let hip = middle + InSpace::new(SIDES[side] * HIP_ASIDE, 0.0, 0.0).of_body(facing);
                let across = (hip - contact.place).across();
                height = height.min((REACH * REACH - across * across).max(LOWEST * LOWEST).sqrt());
            }
        }
        height
    }

    /// The moments at which a foot lands or leaves, with how high the hips are then.
    fn nodes(&self, walk: &Walk) -> Vec<Node> {
        let ends = self.contacts.iter().flatten().flat_map(|contact| [contact.begin, contact.end]);
        let mut times: Vec<f64> = ends.collect();
        times.sort_by(f64::total_cmp);
        times.dedup_by(|one, other| (*one - *other).abs() < 1e-9);
        let flies = |middle: f64| {
            let next = self.flights.partition_point(|flight| flight.end < middle);
            self.flights.get(next).is_some_and(|flight| flight.begin < middle)
        };
        // Between each and the next: whether it is in the air, and how high the feet would have the hips at both ends.
        let stretches: Vec<(bool, [f64; 2])> = times
            .windows(2)
            .map(|pair| {
                let (begin, end) = (pair[0], pair[1]);
                let middle = f64::midpoint(begin, end);
                if flies(middle) {
                    (true, [REACH; 2])
                } else {
                    (false, [begin, end].map(|time| self.by_feet(walk, time, middle)))
                }
            })
            .collect();
        let mut nodes: Vec<Node> = Vec::with_capacity(times.len());
        for (index, &time) in times.iter().enumerate() {
            let before = index.checked_sub(1).and_then(|before| stretches.get(before));
            let after = stretches.get(index);
            let by_feet = before.map_or(REACH, |(_, [_, end])| *end).min(after.map_or(REACH, |(_, [begin, _])| *begin));
            let landed = self.flights.binary_search_by(|flight| flight.end.total_cmp(&time)).ok();
            let bend = landed.and_then(|index| self.flights.get(index)).map_or(0.0, |flight| BENDS * flight.height);
            nodes.push(Node {
                time,
                height: by_feet - bend,
                above: [0.0; 2],
                flies: after.is_some_and(|(flies, _)| *flies),
            });
        }
        for index in 0..stretches.len() {
            let (_, [begin, end]) = stretches[index];
            nodes[index].above = [begin - nodes[index].height, end - nodes[index + 1].height];
        }
        nodes
    }

    /// The ways of a foot between where it is planted and where it is planted next.
    fn swings_of(&self, side: usize, walk: &Walk) -> Vec<Swing> {
        let pairs = self.contacts[side].windows(2);
        pairs
            .map(|pair| {
                let (lifted, lands) = (&pair[0], &pair[1]);
                let as_body_has_it = |time: f64, place: InSpace| {
                    let (middle, facing) = walk.stand(time);
                    (time, (place - middle).as_body_has_it(facing))
                };
                let mut knots = vec![as_body_has_it(lifted.end, lifted.place)];
                let first = self.keys.partition_point(|key| key.time <= lifted.end + 1e-6);
                for key in self.keys.iter().skip(first).take_while(|key| key.time < lands.begin - 1e-6) {
                    // In the air a foot goes with the body.
                    if let Some(free) = key.free.as_ref().filter(|_| key.weight != Weight::Air) {
                        let hip = InSpace::new(SIDES[side] * HIP_ASIDE, 0.0, self.hips(walk, key.time));
                        knots.push((key.time, hip + (free_place(free, SIDES[side]) - hip).within(LEG)));
                    }
                }
                knots.push(as_body_has_it(lands.begin, lands.place));
                Swing { knots }
            })
            .collect()
    }
}

/// Where a free foot is, as the body has it, on a side.
fn free_place(free: &FreeFoot, side: f64) -> InSpace {
    let (aside, front) = match free.at {
        // Its heel is a foot's length, 0.27 m, before the other toe [MB1]: two feet's lengths from sole to sole.
        FreePlace::Front => (FOOT_ASIDE, 0.54),
        FreePlace::Beside => (FOOT_ASIDE + 0.04, 0.0),
        FreePlace::CrossedBefore => (-0.1, 0.22),
        FreePlace::CrossedBehind => (-0.1, -0.2),
        FreePlace::Shin => (0.0, 0.12),
    };
    InSpace::new(side * aside, front, free.height)
}

/// Where a dancer's middle is on the floor.
struct Walk<'a> {
    motion: &'a Motion,
    clock: &'a Clock,
    dancer: Dancer,
    /// The end of the dance, seconds.
    end: f64,
}

impl Walk<'_> {
    /// The middle and the facing at a time.
    fn stand(&self, time: f64) -> (InSpace, f64) {
        let pose = self.motion.pose(self.dancer, self.clock.counts(time.clamp(0.0, self.end)));
        (InSpace::new(pose.x, pose.y, 0.0), pose.facing)
    }

    /// A foot on a side that is planted between two times: half-way between where the body is then.
    fn plant(&self, side: f64, begin: f64, end: f64) -> Contact {
        let ((from, _), (to, _)) = (self.stand(begin), self.stand(end));
        let (_, facing) = self.stand(f64::midpoint(begin.max(0.0), end.min(self.end)));
        let place = from.toward(to, 0.5) + InSpace::new(side * FOOT_ASIDE, 0.0, 0.0).of_body(facing);
        Contact { begin, end, place, facing }
    }
}

/// What each count of the dance says, and its end.
fn keys(motion: &Motion, clock: &Clock, dancer: Dancer) -> Vec<Key> {
    let mut keys = Vec::new();
    for span in motion.spans() {
        let (mut inside, mut last) = (0, None);
        for (index, fall) in span.falls(dancer).iter().enumerate() {
            inside = if fall.begins || last != Some(fall.step) { 0 } else { inside + 1 };
            last = Some(fall.step);
            keys.push(key(motion, fall, inside, clock.seconds(span.begin() + index as f64)));
        }
    }
    if let Some(last) = keys.last().cloned() {
        // At the end everybody stands.
        let end = clock.seconds(motion.counts());
        keys.push(Key { time: end, weight: Weight::Both, hop: false, rise: 0.0, free: None, ..last });
    }
    keys
}

fn key(motion: &Motion, fall: &Footfall, inside: usize, time: f64) -> Key {
    let step = motion.known().get(fall.step);
    let rise = step.and_then(|step| step.rise.get(inside)).copied().unwrap_or(0.0);
    let hands = [0, 1].map(|side| HandKey {
        height: fall.hands[side],
        forward: step.and_then(|step| step.forward[side].get(inside)).copied().unwrap_or(0.0),
        circles: step.and_then(|step| step.circles.get(inside)).copied().unwrap_or(0.0),
    });
    let free = step.and_then(|step| step.free.get(inside)).cloned();
    Key { time, weight: fall.weight, hop: fall.hop, rise, free, hands }
}

/// When each foot is on the floor, from and to, and the flights between.
type OnFloor = ([Vec<(f64, f64)>; 2], Vec<Flight>);

fn on_the_floor(keys: &[Key], end: f64) -> OnFloor {
    let mut times = [Vec::new(), Vec::new()];
    let mut flights = Vec::new();
    let mut since = [Some(-STANDS); 2];
    let (mut floor, mut air): (f64, Option<(f64, f64)>) = (-STANDS, None);
    let mut lift = |since: &mut [Option<f64>; 2], side: usize, at: f64| {
        if let Some(begin) = since[side].take() {
            times[side].push((begin, at.max(begin)));
        }
    };
    for key in keys {
        if key.weight == Weight::Air {
            air = Some(air.map_or((key.time, key.rise), |(first, rise)| (first, rise.max(key.rise))));
            continue;
        }
        let lands = match key.weight {
            Weight::Left => [true, false],
            Weight::Right => [false, true],
            Weight::Both | Weight::Air => [true, true],
        };
        let hop = key.hop && key.rise > 0.0 && key.time > floor;
        if air.is_some() || hop {
            let asked = air.map_or(key.rise, |(_, rise)| rise);
            let flight = Flight::landing(key.time, floor, air.map(|(first, _)| first), asked);
            (0..2).for_each(|side| lift(&mut since, side, flight.begin));
            flights.push(flight);
            (floor, air) = (key.time, None);
        }
        for side in 0..2 {
            if lands[side] && since[side].is_none() {
                since[side] = Some(key.time);
                floor = key.time;
            } else if !lands[side] {
                lift(&mut since, side, key.time);
            }
        }
    }
    (0..2).for_each(|side| lift(&mut since, side, end + STANDS));
    (times, flights)
}
