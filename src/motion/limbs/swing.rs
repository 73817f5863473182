use super::contacts::Contact;
use super::in_space::InSpace;
use super::on_count::OnCount;
use super::sizes::{FOOT_ASIDE, HIP_ASIDE, LEG, ON_ITS_WAY, REACH, SIDES};
use super::walk::Walk;
use crate::dance::{FreeFoot, FreePlace};
use crate::motion::Weight;
use crate::motion::cubics::ease;
use std::f64::consts::TAU;

/// How high a foot is lifted on its way where the step says nothing of it, metres (common practice, no source).
const STEP_OVER: f64 = 0.09;
/// A foot lower than this on both ends of a stretch is lifted between them.
const LOW: f64 = 0.06;

/// How far each foot is in front of the body and behind it where the legs are parted in the air, metres (common practice, no source).
const PARTED: f64 = 0.35;
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
}

/// At its beginning and end so much of a swing is as it is; between, it keeps well within the leg's reach.
const ENDS: f64 = 0.2;

/// A place of a foot on its way.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Knot {
    time: f64,
    place: InSpace,
    /// How many circles it makes from here to the next, to the right; whole ones, or it would not arrive.
    circles: f64,
}

impl Swing {
    /// Bytes that it holds beside itself.
    pub fn bytes(&self) -> usize {
        size_of_val(self.knots.as_slice())
    }

    /// How much it keeps well within reach at a time: not at all where it is lifted and lands.
    pub fn kept_within(&self, time: f64) -> f64 {
        let (Some(first), Some(last)) = (self.knots.first(), self.knots.last()) else { return 0.0 };
        let share = (time - first.time) / (last.time - first.time).max(1e-9);
        ease(share / ENDS) * ease((1.0 - share) / ENDS)
    }

    /// Where it is at a time.
    pub fn at(&self, time: f64) -> InSpace {
        let next = self.knots.partition_point(|knot| knot.time <= time).clamp(1, self.knots.len().max(2) - 1);
        match self.knots.get(next - 1..=next) {
            Some(&[from, to]) => {
                let share = ((time - from.time) / (to.time - from.time).max(1e-9)).clamp(0.0, 1.0);
                let eased = ease(share);
                let mut place = from.place.toward(to.place, eased);
                if !self.flies && from.place.z < LOW && to.place.z < LOW {
                    let over = share * (1.0 - share);
                    place.z += STEP_OVER * 16.0 * over * over;
                }
                if from.circles != 0.0 {
                    let (sin, cos) = (TAU * from.circles.round() * eased).sin_cos();
                    place = place + InSpace::new(CIRCLE * sin, CIRCLE * (cos - 1.0), 0.0);
                }
                place
            }
            _ => self.knots.first().map(|knot| knot.place).unwrap_or_default(),
        }
    }
}

/// The ways of a foot between where it is planted and where it is planted next.
pub(super) fn swings_of(
    side: usize,
    contacts: &[Contact],
    keys: &[OnCount],
    walk: &Walk,
    hips: &dyn Fn(f64) -> f64,
) -> Vec<Swing> {
    let sign = SIDES.get(side).copied().unwrap_or(1.0);
    let way = |pair: &[Contact]| {
        let [lifted, lands] = pair else { return Swing { knots: Vec::new(), flies: false } };
        let planted = |time: f64, contact: &Contact| {
            let body = walk.stand(time);
            Knot { time, place: body.own(contact.place(&body)), circles: 0.0 }
        };
        let mut knots = vec![planted(lifted.end, lifted)];
        let first = keys.partition_point(|key| key.time <= lifted.end + 1e-6);
        // What is said of the count on which it is lifted is reached on its way.
        let leaves = first.checked_sub(1).and_then(|index| keys.get(index));
        if let (Some(key), Some(next)) = (leaves.filter(|key| lifted.end - key.time < 1e-6), keys.get(first))
            && let Some(free) = key.free.as_ref().filter(|_| key.weight != Weight::Air)
        {
            let time = key.time + ON_ITS_WAY * (next.time - key.time);
            let hip = InSpace::new(sign * HIP_ASIDE, 0.0, hips(time));
            let place = hip + (free_place(free, sign) - hip).within(LEG, REACH);
            knots.push(Knot { time, place, circles: sign * free.circles });
        }
        let between =
            keys.iter().enumerate().skip(first).take_while(|(_, key)| key.time < lands.begin - 1e-6);
        for (index, key) in between {
            let Some(free) = &key.free else { continue };
            let mut time = key.time;
            let place = if key.weight == Weight::Air {
                // In the air a foot goes with the body, unless the legs are parted: that is widest at the top.
                let Some((front, lands)) = parted(side, free, keys.get(index..).unwrap_or_default()) else {
                    continue;
                };
                time = f64::midpoint(time, lands);
                InSpace::new(sign * FOOT_ASIDE, front, free.height)
            } else {
                let hip = InSpace::new(sign * HIP_ASIDE, 0.0, hips(key.time));
                hip + (free_place(free, sign) - hip).within(LEG, REACH)
            };
            knots.push(Knot { time, place, circles: sign * free.circles });
        }
        let flies = knots.len() == 1 && between_flights(lifted, lands, keys);
        knots.push(planted(lands.begin, lands));
        Swing { knots, flies }
    };
    contacts.windows(2).map(way).collect()
}

/// Whether a foot is off the floor for less than from one count to the next, or with the body.
fn between_flights(lifted: &Contact, lands: &Contact, keys: &[OnCount]) -> bool {
    let landing = keys.partition_point(|key| key.time < lands.begin - 1e-9);
    keys.get(landing).is_some_and(|key| key.rise > 0.0)
        || landing
            .checked_sub(1)
            .and_then(|before| keys.get(before))
            .is_some_and(|key| key.weight == Weight::Air && key.time > lifted.end)
}

/// How far in front of the body a foot is in the air where the legs are parted there, and when the flight ends: the one that lands next is in
/// front, the other behind. Both landing, the right one is in front.
fn parted(side: usize, free: &FreeFoot, keys: &[OnCount]) -> Option<(f64, f64)> {
    if free.at != FreePlace::Front {
        return None;
    }
    let lands = keys.iter().find(|key| key.weight != Weight::Air)?;
    let front = side == usize::from(lands.weight != Weight::Left);
    Some((if front { PARTED } else { -PARTED }, lands.time))
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
