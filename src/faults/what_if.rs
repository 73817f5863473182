use super::body::Body;
use super::place_words::place_words;
use crate::dance::{Dancer, FaultLimits};
use crate::motion::{Ground, Moment, Span, Track};

/// Stretches are not halved below this, counts.
const FINEST: f64 = 1.0 / 128.0;

/// Parts of a count, as they are said, by eighths.
const EIGHTHS: [&str; 8] = [
    "",
    "an eighth",
    "a quarter",
    "three eighths",
    "half",
    "five eighths",
    "three quarters",
    "seven eighths",
];

/// One dancer who is not as drawn in a figure, while all others are.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct WhatIf {
    /// So many counts late; early below 0.
    pub late: f64,
    /// Their whole way in the figure is short by such a share of it, 0 to 1.
    pub short: f64,
}

/// Whom they would meet.
#[derive(Clone, Debug, PartialEq)]
pub struct WouldMeet {
    pub other: Dancer,
    /// The first count of the figure at which they touch.
    pub at: f64,
    /// Where, metres right and up.
    pub spot: (f64, f64),
    /// Where, as a dancer says it.
    pub place: String,
}

impl WouldMeet {
    /// Whom they meet, when and where, as it is said: `3 meets 5 at bar 2 count 3, at the middle of the set`.
    #[must_use]
    pub fn words(&self, dancer: Dancer, span: &Span) -> String {
        let moment = Moment::at(span.bar_counts(), (self.at * 4.0).round() / 4.0);
        format!("{dancer} meets {} at bar {} count {}, {}", self.other, moment.bar, moment.count, self.place)
    }
}

impl WhatIf {
    /// Whether they are as drawn.
    #[must_use]
    pub fn is_nothing(self) -> bool {
        self.late == 0.0 && self.short == 0.0
    }

    /// How much out of time, as it is said: `half a count late`, `one and a quarter counts early`, `in time`.
    #[must_use]
    pub fn late_words(self) -> String {
        let way = if self.late < 0.0 { "early" } else { "late" };
        let eighths = (self.late.abs() * 8.0).round() as usize;
        let part = EIGHTHS.get(eighths % 8).copied().unwrap_or_default();
        match (eighths / 8, part) {
            (0, "") => "in time".to_owned(),
            (0, "half") => format!("half a count {way}"),
            (0, part) => format!("{part} of a count {way}"),
            (1, "") => format!("a count {way}"),
            (1, "half") => format!("one and a half counts {way}"),
            (1, part) => format!("one and {part} counts {way}"),
            (whole, _) => format!("{whole} counts {way}"),
        }
    }

    /// How short their way is, as it is said: `10 % short`, `the whole way`.
    #[must_use]
    pub fn short_words(self) -> String {
        let percent = (self.short * 100.0).round();
        if percent > 0.0 { format!("{percent} % short") } else { "the whole way".to_owned() }
    }

    /// Where they would be at a count of a figure that takes so many, and which way they would face: metres right and up, degrees.
    #[must_use]
    pub fn stand(self, track: &Track, count: f64, counts: f64) -> (f64, f64, f64) {
        let (x0, y0, _) = track.stand(0.0);
        let (x, y, facing) = track.stand((count - self.late).clamp(0.0, counts));
        let share = 1.0 - self.short;
        (x0 + (x - x0) * share, y0 + (y - y0) * share, facing)
    }

    /// The first count between two at which they would touch another, proved: a stretch is clear where the space in its middle is more than
    /// either can go and turn in it.
    #[must_use]
    pub fn first_touch(self, body: Body, (own, other): (&Track, &Track), counts: f64) -> Option<f64> {
        let whole = |count: u32| (f64::from(count), (f64::from(count) + 1.0).min(counts));
        let mut stack: Vec<(f64, f64)> = (0..counts.ceil() as u32).rev().map(whole).collect();
        let mut first = None;
        while let Some((from, to)) = stack.pop() {
            let at = f64::midpoint(from, to);
            let (x, y, facing) = self.stand(own, at, counts);
            let (ox, oy, their) = other.stand(at);
            let way = (ox - x, oy - y);
            let shifted = |count: f64| (count - self.late).clamp(0.0, counts);
            let room = room(body, own, [from, at, to].map(shifted), 1.0 - self.short)
                + room(body, other, [from, at, to], 1.0);
            if way.0.hypot(way.1) - 2.0 * body.reach() > room {
                continue;
            }
            let (space, _) = body.space(way, facing, their);
            if space > room {
                continue;
            }
            if space < 0.0 {
                // What is later does not matter any more; they may touch sooner.
                first = Some(at);
                stack.clear();
            }
            if to - from > FINEST {
                if space >= 0.0 {
                    stack.push((at, to));
                }
                stack.push((from, at));
            }
        }
        first
    }

    /// Everybody whom a dancer would meet in a figure and does not meet as drawn, in order of time.
    #[must_use]
    pub fn would_meet(
        self,
        limits: &FaultLimits,
        ground: &Ground,
        span: &Span,
        dancer: Dancer,
    ) -> Vec<WouldMeet> {
        let (body, counts) = (Body::of(limits), span.end() - span.begin());
        let Some(own) = span.track(dancer) else { return Vec::new() };
        let others = Dancer::all(ground.dancers()).filter(|other| *other != dancer);
        let mut met: Vec<WouldMeet> = others
            .filter_map(|other| {
                let track = span.track(other)?;
                let at = self.first_touch(body, (own, track), counts)?;
                if Self::default().first_touch(body, (own, track), counts).is_some() {
                    return None;
                }
                let ((x, y, _), (ox, oy, _)) = (self.stand(own, at, counts), track.stand(at));
                let spot = (f64::midpoint(x, ox), f64::midpoint(y, oy));
                Some(WouldMeet { other, at, spot, place: place_words(ground, spot.0, spot.1) })
            })
            .collect();
        met.sort_by(|one, two| one.at.total_cmp(&two.at).then(one.other.cmp(&two.other)));
        met
    }
}

/// How far one can go in a stretch, a share of their way, and reach farther by turning, from its middle, metres.
pub(super) fn room(body: Body, track: &Track, [from, at, to]: [f64; 3], share: f64) -> f64 {
    let gone = track.travelled(at);
    let (least, most) = track.facings(from, to);
    share * (gone - track.travelled(from)).max(track.travelled(to) - gone)
        + body.change() * (most - least).to_radians()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_late_and_how_short_is_said_in_words() {
        let late = |late: f64| WhatIf { late, short: 0.0 }.late_words();
        for (counts, said) in [
            (0.0, "in time"),
            (0.125, "an eighth of a count late"),
            (0.5, "half a count late"),
            (-0.75, "three quarters of a count early"),
            (1.0, "a count late"),
            (-1.5, "one and a half counts early"),
            (1.625, "one and five eighths counts late"),
            (-2.0, "2 counts early"),
        ] {
            assert_eq!(late(counts), said);
        }
        let short = |short: f64| WhatIf { late: 0.0, short }.short_words();
        assert_eq!([short(0.0), short(0.15)], ["the whole way", "15 % short"]);
    }
}
