use super::contacts::Contact;
use super::flight::Flight;
use super::node::{Node, hips as hips_over, nodes};
use super::on_count::{OnCount, keys};
use super::on_floor::on_the_floor;
use super::sides::of_side;
use super::swing::{Swing, swings_of};
use super::walk::Walk;
use crate::dance::Dancer;
use crate::motion::{Clock, Motion};

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
    pub(super) nodes: Vec<Node>,
}

impl Gait {
    /// How a dancer goes through a dance.
    #[must_use]
    pub fn of(motion: &Motion, clock: &Clock, dancer: Dancer) -> Self {
        let keys = keys(motion, clock, dancer);
        let end = clock.seconds(motion.counts());
        let (times, flights) = on_the_floor(&keys, end);
        let walk = Walk { motion, clock, dancer, end };
        let [left, right] = times;
        let plant = |side: f64, times: Vec<(f64, f64)>| -> Vec<Contact> {
            times.into_iter().map(|(begin, end)| walk.plant(side, begin, end)).collect()
        };
        let contacts = [plant(-1.0, left), plant(1.0, right)];
        let nodes = nodes(&walk, &contacts, &flights);
        let swings = [0, 1].map(|side| {
            let hips = |time: f64| hips_over(&nodes, &contacts, &flights, &walk.stand(time), time);
            swings_of(side, of_side(&contacts, side).as_slice(), &keys, &walk, &hips)
        });
        Self { dancer, keys, contacts, swings, flights, nodes }
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
        };
        size_of_val(self.keys.as_slice())
            + size_of_val(self.flights.as_slice())
            + size_of_val(self.nodes.as_slice())
            + each(0)
            + each(1)
    }

    /// The hops and jumps, in order of time.
    #[must_use]
    pub fn flights(&self) -> &[Flight] {
        &self.flights
    }
}
