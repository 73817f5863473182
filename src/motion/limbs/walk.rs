use super::contacts::Contact;
use super::frame::Frame;
use super::in_space::InSpace;
use super::sizes::FOOT_ASIDE;
use crate::dance::Dancer;
use crate::motion::{Clock, Motion};

/// How far a body turns over a foot that stays where it is, degrees: half of it before, half of it after (common practice, no source).
const OVER_A_FOOT: f64 = 120.0;

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
