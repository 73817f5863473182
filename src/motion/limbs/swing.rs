use super::circling::{comes_round, round_at, speeds};
use super::contacts::Contact;
use super::flight::Flight;
use super::in_space::InSpace;
use super::on_count::OnCount;
use super::sizes::{FOOT_ASIDE, HIP_ASIDE, LEG, ON_ITS_WAY, REACH, SIDES};
use super::walk::Walk;
use crate::dance::{FreeFoot, FreePlace};
use crate::motion::Weight;
use crate::motion::cubics::ease;

/// How high a foot is lifted on its way where the step says nothing of it, metres (common practice, no source).
const STEP_OVER: f64 = 0.09;
/// A foot lower than this on both ends of a stretch is lifted between them.
const LOW: f64 = 0.06;

/// How far each foot is in front of the body and behind it where the legs are parted in the air, metres (common practice, no source).
const PARTED: f64 = 0.35;
/// They part so far, and come together again, in a flight of so many seconds and longer ones (common practice, no source).
const PARTS: f64 = 0.25;
/// The radius of a circle of the lower leg, metres: a small one (common practice, no source).
const CIRCLE: f64 = 0.08;

/// The way of a foot through the air from where it was planted to where it is planted next, as the body has it: to the right, to the front and
/// over the floor, metres.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Swing {
    /// When and where, in order of time: it is lifted with the first and lands with the last.
    knots: Vec<Knot>,
    /// Whether it leaves the floor and lands with the body, in a hop or a jump.
    pub flies: bool,
    /// Where it was lifted before a jump that both feet land from: when that begins, and when the leg is straight and beside the other [MB1].
    joins: Option<[f64; 2]>,
}

/// At its beginning and end so much of a swing is as it is; between, it keeps well within the leg's reach.
const ENDS: f64 = 0.2;

/// A place of a foot on its way.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Knot {
    time: f64,
    place: InSpace,
    /// How many circles it makes from here to the next, to the right.
    circles: f64,
    /// How far round it is already, a share of a circle.
    round: f64,
    /// How fast it goes round here and at the next, circles over the stretch between.
    goes: [f64; 2],
    /// In this share of the stretch it goes round, and then it comes back to where it lands.
    within: f64,
}

impl Knot {
    fn new(time: f64, place: InSpace, circles: f64) -> Self {
        Self { time, place, circles, round: 0.0, goes: [0.0; 2], within: 1.0 }
    }

    /// How far from its place it is by going round, at a share of the stretch.
    fn circle(&self, share: f64) -> InSpace {
        if self.circles == 0.0 && self.round == 0.0 {
            return InSpace::default();
        }
        let (sin, cos) = round_at((self.round, self.circles), self.goes, (share / self.within).min(1.0));
        // From one that is not closed the foot comes back.
        let begins = if self.circles == 0.0 { 0.0 } else { self.within };
        let wide =
            if begins < 1.0 { CIRCLE * (1.0 - ease((share - begins) / (1.0 - begins))) } else { CIRCLE };
        InSpace::new(wide * sin, wide * (cos - 1.0), 0.0)
    }
}

/// A circle that is not closed as the foot is to land is gone round in this share of the time, and in the rest the foot comes back.
const HOME: f64 = 0.7;

/// Has the circles go on from knot to knot.
fn go_round(knots: &mut [Knot]) {
    let mut round = 0.0;
    let stretches = knots.len().saturating_sub(1);
    for (index, knot) in knots.iter_mut().enumerate().take(stretches) {
        knot.round = round;
        round = comes_round((round, knot.circles));
        let open = knot.circles != 0.0 && (1e-9..1.0 - 1e-9).contains(&round);
        knot.within = if open && index + 1 == stretches { HOME } else { 1.0 };
    }
    let parts = knots.windows(2).filter_map(<[Knot]>::first_chunk::<2>);
    let parts: Vec<_> = parts.map(|[from, to]| (from.within * (to.time - from.time), from.circles)).collect();
    for (knot, goes) in knots.iter_mut().zip(speeds(&parts)) {
        knot.goes = goes;
    }
}

impl Swing {
    /// Bytes that it holds beside itself.
    pub fn bytes(&self) -> usize {
        size_of_val(self.knots.as_slice())
    }

    /// How much it keeps well within reach at a time: not at all where it is lifted and lands, nor in a jump.
    pub fn kept_within(&self, time: f64) -> f64 {
        let (Some(first), Some(last)) = (self.knots.first(), self.knots.last()) else { return 0.0 };
        // Legs are straight in the air [MB1].
        if self.flies {
            return 0.0;
        }
        let share = (time - first.time) / (last.time - first.time).max(1e-9);
        let straight = self.joins.map_or(0.0, |[from, to]| ease((time - from) / (to - from).max(1e-9)));
        ease(share / ENDS) * ease((1.0 - share) / ENDS) * (1.0 - straight)
    }

    /// Where it is at a time.
    pub fn at(&self, time: f64) -> InSpace {
        let next = self.knots.partition_point(|knot| knot.time <= time).clamp(1, self.knots.len().max(2) - 1);
        match self.knots.get(next - 1..=next) {
            Some(&[from, to]) => {
                let share = ((time - from.time) / (to.time - from.time).max(1e-9)).clamp(0.0, 1.0);
                let mut place = from.place.toward(to.place, ease(share));
                let joined = self.joins.is_some_and(|[_, straight]| from.time > straight - 1e-9);
                if !self.flies && !joined && from.place.z < LOW && to.place.z < LOW {
                    let over = share * (1.0 - share);
                    place.z += STEP_OVER * 16.0 * over * over;
                }
                place + from.circle(share)
            }
            _ => self.knots.first().map(|knot| knot.place).unwrap_or_default(),
        }
    }
}

/// The ways of a foot between where it is planted and where it is planted next.
pub(super) fn swings_of(
    side: usize,
    contacts: &[Contact],
    (keys, flights): (&[OnCount], &[Flight]),
    walk: &Walk,
    hips: &dyn Fn(f64) -> f64,
) -> Vec<Swing> {
    let sign = SIDES.get(side).copied().unwrap_or(1.0);
    let way = |pair: &[Contact]| {
        let [lifted, lands] = pair else { return Swing { knots: Vec::new(), flies: false, joins: None } };
        let planted = |time: f64, contact: &Contact| {
            let body = walk.stand(time);
            Knot::new(time, body.own(contact.place(&body)), 0.0)
        };
        let mut knots = vec![planted(lifted.end, lifted)];
        let first = keys.partition_point(|key| key.time <= lifted.end + 1e-6);
        let flight = flight_from(lifted.end, flights);
        // What is said of the count on which it is lifted is reached on its way.
        let leaves = first.checked_sub(1).and_then(|index| keys.get(index));
        if let (Some(key), Some(next)) = (leaves.filter(|key| lifted.end - key.time < 1e-6), keys.get(first))
            && let Some(free) = key.free.as_ref().filter(|_| key.weight != Weight::Air)
        {
            let time = key.time + ON_ITS_WAY * (next.time - key.time);
            let hip = InSpace::new(sign * HIP_ASIDE, 0.0, hips(time));
            let place = hip + (free_place(free, sign) - hip).within(LEG, REACH);
            knots.push(Knot::new(time, place, sign * free.circles));
        }
        // To slow music a jump springs off a little after its counts in the air.
        let waits = keys.get(..first).unwrap_or_default().iter().rev();
        let waits =
            waits.take_while(|key| key.weight == Weight::Air).count().min(usize::from(flight.is_some()));
        let first = first - waits;
        // The count in the air on which the legs are parted.
        let mut parts: Option<usize> = None;
        let between =
            keys.iter().enumerate().skip(first).take_while(|(_, key)| key.time < lands.begin - 1e-6);
        for (index, key) in between {
            let Some(free) = &key.free else { continue };
            let (mut time, mut circles) = (key.time, sign * free.circles);
            let place = if key.weight == Weight::Air {
                // In the air a foot goes with the body, unless the legs are parted: that is widest at the top.
                let Some(front) = parted(side, free, keys.get(index..).unwrap_or_default()) else { continue };
                let next = flights.partition_point(|flight| flight.end <= time + 1e-6);
                let Some(flight) = flights.get(next) else { continue };
                // A little hop has no time for it: then they part, and are lifted, so much less, and nothing goes round.
                let share = ((flight.end - flight.begin) / PARTS).min(1.0);
                if share < 1.0 {
                    circles = 0.0;
                }
                time = flight.top();
                parts = Some(index);
                InSpace::new(sign * FOOT_ASIDE, front * share, free.height * share * share)
            } else {
                // Lifted in a spring just before, or parted in one, it is there as far into the count as one that is lifted on it.
                let springs = knots.len() == 1 || (parts.is_some() && index.checked_sub(1) == parts);
                if let (Some(last), Some(next)) = (knots.last().filter(|_| springs), keys.get(index + 1)) {
                    time = time.max(last.time + ON_ITS_WAY * (next.time - key.time));
                }
                let hip = InSpace::new(sign * HIP_ASIDE, 0.0, hips(time));
                hip + (free_place(free, sign) - hip).within(LEG, REACH)
            };
            if knots.last().is_none_or(|knot| knot.time < time - 1e-6) {
                knots.push(Knot::new(time, place, circles));
            }
        }
        let joins = joined(keys, flights, lands).filter(|[begin, _]| lifted.end < begin - 1e-6);
        if let Some([begin, top]) = joins {
            knots.retain(|knot| knot.time < begin + 1e-6);
            knots.push(Knot::new(top, InSpace::new(sign * FOOT_ASIDE, 0.0, 0.0), 0.0));
        }
        let flies = knots.len() == 1 && flight.is_some_and(|flight| flight.end <= lands.begin + 1e-6);
        knots.push(planted(lands.begin, lands));
        go_round(&mut knots);
        Swing { knots, flies, joins }
    };
    contacts.windows(2).map(way).collect()
}

/// The flight that begins as a foot is lifted at a time, or a little later: it goes up with the body.
fn flight_from(lifted: f64, flights: &[Flight]) -> Option<&Flight> {
    let next = flights.partition_point(|flight| flight.begin < lifted - 1e-6);
    flights.get(next).filter(|flight| flight.begin < lifted + 1e-6)
}

/// When a jump begins from which a foot lands with the other one, and when it is at its top.
fn joined(keys: &[OnCount], flights: &[Flight], lands: &Contact) -> Option<[f64; 2]> {
    let key = keys.iter().find(|key| key.time > lands.begin - 1e-6)?;
    let near = |flight: &&Flight| flight.is_jump && (flight.end - lands.begin).abs() < 1e-6;
    let flight = flights.iter().find(near).filter(|_| key.weight == Weight::Both)?;
    Some([flight.begin, flight.top()])
}

/// How far in front of the body a foot is in the air where the legs are parted there: the one that lands next is in front, the other behind.
/// Both landing, the right one is in front.
fn parted(side: usize, free: &FreeFoot, keys: &[OnCount]) -> Option<f64> {
    if free.at != FreePlace::Front {
        return None;
    }
    let lands = keys.iter().find(|key| key.weight != Weight::Air)?;
    let front = side == usize::from(lands.weight != Weight::Left);
    Some(if front { PARTED } else { -PARTED })
}

/// Where a free foot is, as the body has it, on a side.
fn free_place(free: &FreeFoot, side: f64) -> InSpace {
    let (aside, front) = match free.at {
        // The leg is straightened [MB1]: 0.16 m up its heel is a foot's length, 0.27 m, before the other toe.
        FreePlace::Front => (FOOT_ASIDE, (LEG * LEG - (REACH - free.height).powi(2)).max(0.0).sqrt()),
        FreePlace::Beside => (FOOT_ASIDE + 0.04, 0.0),
        FreePlace::CrossedBefore => (-0.1, 0.22),
        FreePlace::CrossedBehind => (-0.1, -0.2),
        FreePlace::Shin => (0.0, 0.12),
    };
    InSpace::new(side * aside, front, free.height)
}
