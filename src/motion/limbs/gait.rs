use super::circling::speeds;
use super::contacts::Contact;
use super::flight::Flight;
use super::node::{Node, hips as hips_over, nodes};
use super::on_count::{OnCount, keys};
use super::on_floor::{OnFloor, on_the_floor};
use super::sides::of_side;
use super::struck::{HandBlow, hand_blows};
use super::swing::{Swing, swings_of};
use super::walk::Walk;
use crate::dance::{Dancer, Holding};
use crate::motion::{Clock, Motion, Weight};

/// How a dancer goes through the dance on their feet.
#[derive(Clone, Debug)]
pub struct Gait {
    pub(super) dancer: Dancer,
    /// What each count says, one after the other, and the end.
    pub(super) keys: Vec<OnCount>,
    pub(super) contacts: [Vec<Contact>; 2],
    /// From each contact of a foot to its next.
    pub(super) swings: [Vec<Swing>; 2],
    pub(super) flights: Vec<Flight>,
    /// How fast the hands go round on each count and on the next, circles in the time between.
    pub(super) goes: Vec<[f64; 2]>,
    pub(super) nodes: Vec<Node>,
    /// What each hand strikes, in order of time.
    pub(super) blows: [Vec<HandBlow>; 2],
    /// Which hands hold a stick.
    pub(super) sticks: [bool; 2],
}

impl Gait {
    /// How a dancer goes through a dance.
    #[must_use]
    pub fn of(motion: &Motion, clock: &Clock, dancer: Dancer) -> Self {
        let keys = keys(motion, clock, dancer);
        let end = clock.seconds(motion.counts());
        let OnFloor { times, again, flights } = on_the_floor(&keys, end);
        let walk = Walk { motion, clock, dancer, end };
        let contacts = [0, 1].map(|side| {
            walk.planted(side, of_side(&times, side).as_slice(), of_side(&again, side).as_slice())
        });
        let nodes = nodes(&walk, &contacts, &flights);
        let swings = [0, 1].map(|side| {
            let hips = |time: f64| hips_over(&nodes, &contacts, &flights, &walk.stand(time), time);
            swings_of(side, of_side(&contacts, side).as_slice(), (&keys, &flights), &walk, &hips)
        });
        // Both hands circle alike.
        let circles = |key: &OnCount| key.hands[0].circles;
        let parts = keys.windows(2).filter_map(<[OnCount]>::first_chunk::<2>);
        let parts: Vec<_> = parts.map(|[from, to]| (to.time - from.time, circles(from))).collect();
        let blows = hand_blows(motion, dancer);
        let held = motion.held();
        let sticks = [0, 1].map(|hand| {
            let strikes = of_side(&blows, hand).iter().any(|own| own.end.is_of_stick());
            held.holding == Holding::Sticks && (strikes || held.stick_hand(dancer) == hand)
        });
        Self { dancer, goes: speeds(&parts), keys, contacts, swings, flights, nodes, blows, sticks }
    }

    /// When and where each foot, left and right, is planted, in order of time.
    #[must_use]
    pub fn contacts(&self) -> [&[Contact]; 2] {
        [&self.contacts[0], &self.contacts[1]]
    }

    /// What a count of the dance says, from 0; the last is its end.
    #[must_use]
    pub fn on_count(&self, count: usize) -> Option<&OnCount> {
        self.keys.get(count)
    }

    /// Bytes that it holds beside itself.
    #[must_use]
    pub fn bytes(&self) -> usize {
        let each = |side: usize| {
            size_of_val(of_side(&self.contacts, side).as_slice())
                + of_side(&self.swings, side)
                    .iter()
                    .map(|swing| size_of_val(swing) + swing.bytes())
                    .sum::<usize>()
                + size_of_val(of_side(&self.blows, side).as_slice())
        };
        size_of_val(self.keys.as_slice())
            + size_of_val(self.flights.as_slice())
            + size_of_val(self.nodes.as_slice())
            + size_of_val(self.goes.as_slice())
            + each(0)
            + each(1)
    }

    /// The hop or jump that is under way at a time, seconds.
    #[must_use]
    pub fn flight_at(&self, time: f64) -> Option<&Flight> {
        let next = self.flights.partition_point(|flight| flight.end <= time + 1e-9);
        self.flights.get(next).filter(|flight| flight.begin < time - 1e-9)
    }

    /// What carries the weight at a count of the dance: exactly on a count what its step has there, and between two nothing while a flight
    /// lasts and at no other time.
    #[must_use]
    pub fn weight(&self, clock: &Clock, count: f64) -> Weight {
        let count = count.clamp(0.0, self.keys.len().saturating_sub(1) as f64);
        let until = self.keys.get(..=count as usize).unwrap_or_default();
        match until.last() {
            Some(on) if count.fract() < 1e-9 => on.weight,
            _ if self.flight_at(clock.seconds(count)).is_some() => Weight::Air,
            // Before a jump to slow music the feet are still where they landed.
            _ => until.iter().rev().map(|on| on.weight).find(|on| *on != Weight::Air).unwrap_or(Weight::Both),
        }
    }

    /// Which foot, left and right, carries the weight at a count of the dance, or hops: none in a jump.
    #[must_use]
    pub fn carries(&self, clock: &Clock, count: f64) -> [bool; 2] {
        let hop = self.flight_at(clock.seconds(count)).filter(|flight| !flight.is_jump);
        let lands = hop.and_then(|hop| {
            self.keys.get(self.keys.partition_point(|key| key.time < hop.end - 1e-6)).map(|key| key.weight)
        });
        match lands.unwrap_or_else(|| self.weight(clock, count)) {
            Weight::Left => [true, false],
            Weight::Right => [false, true],
            Weight::Both => [true; 2],
            Weight::Air => [false; 2],
        }
    }

    /// The hops and jumps, in order of time.
    #[must_use]
    pub fn flights(&self) -> &[Flight] {
        &self.flights
    }
}
