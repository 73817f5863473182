use super::contacts::Contact;
use super::frame::Frame;
use super::in_space::InSpace;
use super::sides::on_side;
use super::sizes::{FOOT_ASIDE, SIDES};
use crate::dance::Dancer;
use crate::motion::{Clock, Motion};

/// How far a body turns over a foot that stays where it is, degrees: half of it before, half of it after (common practice, no source).
const OVER_A_FOOT: f64 = 120.0;

/// A foot that stands on while the body goes farther than this, metres, steps where it can: half of it is how far somebody gets who stands.
const STAYS: f64 = 0.42;
/// It is off the floor for so long then, seconds, or for half of the time that both have stood (chosen for this program).
const STEPS: f64 = 0.3;

/// Where a dancer is throughout a dance.
pub(super) struct Walk<'a> {
    pub motion: &'a Motion,
    pub clock: &'a Clock,
    pub dancer: Dancer,
    /// The end of the dance, seconds.
    pub end: f64,
}

impl Walk<'_> {
    /// Where the dancer is and faces at a time, seconds.
    pub fn stand(&self, time: f64) -> Frame {
        let pose = self.motion.pose(self.dancer, self.clock.counts(time.clamp(0.0, self.end)));
        Frame::new(InSpace::new(pose.x, pose.y, 0.0), pose.facing)
    }

    /// The times in which a foot, left (0) or right (1), is planted. Where it would stay too far behind, it steps anew where the step has it
    /// do so, the other one standing meanwhile.
    pub fn planted(&self, side: usize, times: &[(f64, f64)], again: &[(f64, f64)]) -> Vec<Contact> {
        let aside = on_side(SIDES, side);
        let mut planted = Vec::with_capacity(times.len());
        for &(begin, end) in times {
            let far = (self.stand(end).middle - self.stand(begin).middle).across() > STAYS;
            let mut from = begin;
            for &(at, before) in again.iter().filter(|(at, _)| far && *at > begin && *at < end) {
                let lifts = at - STEPS.min((at - before) / 2.0);
                if lifts > from {
                    planted.push(self.plant(aside, from, lifts));
                    from = at;
                }
            }
            planted.push(self.plant(aside, from, end));
        }
        planted
    }

    /// A foot on a side, -1 for the left, 1 for the right, that is planted between two times: half-way between where the body is then.
    pub fn plant(&self, side: f64, begin: f64, end: f64) -> Contact {
        let (from, to) = (self.stand(begin), self.stand(end));
        let between = Frame::new(
            from.middle.toward(to.middle, 0.5),
            self.stand(f64::midpoint(begin.max(0.0), end.min(self.end))).facing,
        );
        let aside = side * FOOT_ASIDE;
        Contact {
            begin,
            end,
            place: between.place(InSpace::new(aside, 0.0, 0.0)),
            middle: between.middle,
            aside,
            turns: (to.facing - from.facing).abs() > OVER_A_FOOT,
        }
    }
}
