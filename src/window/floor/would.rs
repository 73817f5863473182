//! Where the chosen dancer would be, and whom they would meet, were they not as drawn.

use super::Floor;
use crate::dance::{Dancer, FaultLimits};
use crate::desk::Desk;
use crate::faults::{WhatIf, WouldMeet};
use crate::picture::{Frame, MeetingSeen, what_if_marks};
use crate::window::what_if;

/// Whom they would meet, and of what that was worked out: it stays while the dance goes on through a figure.
#[derive(Default)]
pub struct Would {
    of: Option<Asked>,
    meet: Vec<WouldMeet>,
}

#[derive(PartialEq)]
struct Asked {
    what_if: WhatIf,
    dancer: Dancer,
    figure: u64,
    limits: FaultLimits,
}

impl Floor {
    /// Whom the chosen dancer would meet in the figure at the playhead, in order of time.
    #[must_use]
    pub fn would_meet(&self) -> &[WouldMeet] {
        &self.would.meet
    }

    /// Draws the chosen dancer as they would be, and the meetings that would be near the playhead.
    pub(super) fn show_would(&mut self, desk: &Desk, frame: &Frame) {
        self.would.look(desk);
        let (Some(dancer), Some(span)) = (desk.chosen(), desk.span_here()) else { return };
        let drawn = self.poses.get(dancer.index());
        let (Some(drawn), Some(would)) = (drawn, desk.would_stand(dancer)) else { return };
        if !what_if::is_shown(desk) {
            return;
        }
        let meetings = self.would.meet.iter().map(|meet| MeetingSeen {
            away: span.begin() + meet.at - desk.player().count,
            spot: meet.spot,
            other: meet.other,
        });
        let meetings: Vec<MeetingSeen> = meetings.collect();
        what_if_marks(&mut self.marks, frame, &desk.ink(), (drawn, would), &meetings);
    }
}

impl Would {
    fn look(&mut self, desk: &Desk) {
        let asked = || {
            let (what_if, dancer) = (desk.what_if()?, desk.chosen()?);
            let figure = desk.span_here()?.identity();
            Some(Asked { what_if, dancer, figure, limits: desk.dance().limits.clone() })
        };
        let asked = asked();
        if self.of != asked {
            (self.of, self.meet) = (asked, desk.would_meet());
        }
    }
}
