//! How late or early a dancer may be before two bodies touch, proved.
//!
//! One of two is shifted in time, the other dances as drawn: for a way of `s` counts late the pairs of moments are (u, u + s), the one's
//! own and the other's. A stretch of both is clear where the space in its middle is more than what either can go and turn in it
//! (a body's reach along any direction changes by no more than [`Body::change`] for each radian). What is not is halved, the least
//! shift first; so the first touch is found, and none is missed that is deeper than a graze. Of two who go side by side a whole stretch at one
//! shift is looked at as evenly gone, as for clashes. Where even so there is no end to it, it is told up to where it was proved, and that more
//! was not worked out.

use super::between::{BodyMark, Both, EvenStretch};
use super::body::Body;
use super::what_if::room;
use crate::dance::Dancer;
use crate::motion::{Span, Track};
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// The most that somebody is shifted, counts.
pub const MOST_SHIFT: f64 = 2.0;
/// In a set of more than this nobody can watch everybody: it is not worked out.
pub const MOST_WATCHED: usize = 24;
/// Those who come no nearer than this do not meet, metres from middle to middle.
pub(super) const MEETS: f64 = 1.2;
/// Stretches are not halved below this, counts.
const FINEST: f64 = 1.0 / 1024.0;
/// How well a shift is found, counts.
const FOUND: f64 = 1.0 / 512.0;
/// Who overlap by no more than this just graze one another: it may be passed over, metres.
const GRAZE: f64 = 0.001;
/// After so many stretches of two who are near throughout they are looked at as evenly gone.
const HARD: u32 = 1500;
/// After so many the search is given up; and while somebody waits for it.
const MOST_LOOKS: u32 = 40_000;
/// The same of all pairs of a figure together: more than the 15 of six dancers share it.
const MOST_OF_ALL: usize = 15 * MOST_LOOKS as usize;
const MOST_LOOKS_WAITED: u32 = 3000;
/// So often a long search asks whether it is to go on.
const ASKS: u32 = 512;
/// How often two are looked at for when they are nearest, in a count.
const LOOKS: f64 = 4.0;

/// How far out of time a dancer may be before they touch another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slack {
    /// Who is out of time.
    pub dancer: Dancer,
    /// Whom they touch.
    pub other: Dancer,
    /// After how many counts: late above 0, early below.
    pub counts: f64,
    /// The count of the figure at which they touch.
    pub at: f64,
    /// The count of the figure at which whoever is out of time should have been where they are then.
    pub due: f64,
    /// The count of the figure at which the two have parted for this time, as drawn.
    pub until: f64,
    /// Whether they then touch; where not, so much is proved, and more was not worked out: `at` and `due` are then `until`.
    pub met: bool,
}

/// What a search for the first touch came to.
pub(super) struct Touch {
    /// The least shift at which two were found to touch, with the count at which.
    pub found: Option<(f64, f64)>,
    /// With less than this they do not touch, counts: as much as was found, or was asked, where it was searched to the end.
    pub proved: f64,
}

impl Touch {
    /// Whether it was searched to the end.
    pub fn is_whole(&self, most: f64) -> bool {
        self.proved >= self.found.map_or(most, |(by, _)| by) - 2.0 * FOUND
    }
}

/// A stretch of one dancer's counts and of shifts.
#[derive(Clone, Copy)]
struct Cell {
    from: f64,
    to: f64,
    least: f64,
    most: f64,
}

impl PartialEq for Cell {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Cell {}

impl PartialOrd for Cell {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Cell {
    /// The least shift is looked at first.
    fn cmp(&self, other: &Self) -> Ordering {
        other.least.total_cmp(&self.least).then(other.from.total_cmp(&self.from))
    }
}

/// Two dancers in a figure, the first of whom is late by some shift.
pub(super) struct Shifted<'a> {
    pub body: Body,
    /// Whoever is late, and the other.
    pub tracks: (&'a Track, &'a Track),
    pub counts: f64,
    /// After so many stretches it is given up.
    pub most_looks: u32,
}

/// What the middle of a stretch of counts and shifts says of it.
enum Seen {
    /// Nobody touches in it.
    Clear,
    /// They touch at its middle, at that count.
    Touch(f64),
    /// It may be that they do.
    Open,
}

impl Shifted<'_> {
    /// The least shift at which they touch between two counts of the other's, from a count on of whoever is late: nothing found where it is more
    /// than the most. Nought is no shift: whoever touches as drawn is told as a clash.
    pub fn first_touch(
        &self,
        (begin, end): (f64, f64),
        since: f64,
        most: f64,
        goes_on: &mut dyn FnMut() -> bool,
    ) -> Touch {
        let mut heap = BinaryHeap::new();
        let mut from = since.max(begin - most).max(0.0);
        while from < end.min(self.counts) {
            let to = (from.floor() + 1.0).min(self.counts);
            let mut least = (begin - to).max(0.0).floor();
            while least < most && from + least < end {
                heap.push(Cell { from, to, least, most: (least + 1.0).min(most) });
                least += 1.0;
            }
            from = to;
        }
        let mut best: Option<(f64, f64)> = None;
        let mut looks = 0;
        while let Some(cell) = heap.pop() {
            if best.is_some_and(|(shift, _)| cell.least >= shift - FOUND) {
                break;
            }
            looks += 1;
            if looks > self.most_looks || (looks.is_multiple_of(ASKS) && !goes_on()) {
                return Touch { found: best, proved: cell.least };
            }
            let Cell { from, to, least, most } = cell;
            let (own, shift) = (f64::midpoint(from, to), f64::midpoint(least, most));
            let (wide, high) = (to - from, most - least);
            let seen = self.look(&cell, (begin, end));
            if let Seen::Touch(there) = seen {
                best = Some((shift, there));
            }
            let high_first = match seen {
                Seen::Clear => continue,
                _ if wide.max(high) < FINEST => continue,
                // There is nothing more to find above a touch.
                Seen::Touch(_) => {
                    heap.push(Cell { most: shift, ..cell });
                    continue;
                }
                Seen::Open if looks > HARD => match self.look_evenly(&cell) {
                    None => continue,
                    Some(high_first) => (high_first && high >= FINEST) || wide < FINEST,
                },
                Seen::Open => wide < high,
            };
            if high_first {
                heap.push(Cell { most: shift, ..cell });
                heap.push(Cell { least: shift, ..cell });
            } else {
                heap.push(Cell { to: own, ..cell });
                heap.push(Cell { from: own, ..cell });
            }
        }
        Touch { found: best, proved: best.map_or(most, |(shift, _)| shift) }
    }

    /// Looks at the middle of a stretch.
    fn look(&self, cell: &Cell, (begin, end): (f64, f64)) -> Seen {
        let Cell { from, to, least, most } = *cell;
        let (own, shift) = (f64::midpoint(from, to), f64::midpoint(least, most));
        let there = (own + shift).min(self.counts);
        let one = BodyMark::of(self.tracks.0, own);
        let two = BodyMark::of(self.tracks.1, there);
        let others = [(from + least).min(there), there, (to + most).min(self.counts)];
        let room = room(self.body, self.tracks.0, [from, own, to], 1.0)
            + room(self.body, self.tracks.1, others, 1.0);
        let (x, y) = one.to(&two);
        let apart = (x * x + y * y).sqrt();
        if apart - 2.0 * self.body.reach() > room {
            return Seen::Clear;
        }
        // There is no less space than what lies along the way to each other, which is sooner worked out.
        if apart > 0.0 && Both::along(self.body, (&one, &two), (x / apart, y / apart)) > room - GRAZE {
            return Seen::Clear;
        }
        let (space, _) = Both::space(self.body, (&one, &two));
        let within = (begin - 1e-9..=end + 1e-9).contains(&(own + shift)) && shift > 0.0;
        match () {
            () if space > room - GRAZE => Seen::Clear,
            () if space < 0.0 && within => Seen::Touch(there),
            () => Seen::Open,
        }
    }

    /// The same of two who go as evenly as each other through a stretch: nothing where it is clear, or whether it is the shifts that leave
    /// it open.
    fn look_evenly(&self, cell: &Cell) -> Option<bool> {
        let Cell { from, to, least, most } = *cell;
        let shift = f64::midpoint(least, most);
        let usual = Some(to - from < most - least);
        if to + most > self.counts {
            return usual;
        }
        let mark =
            |count: f64| (BodyMark::of(self.tracks.0, count), BodyMark::of(self.tracks.1, count + shift));
        let (begin, end) = (mark(from), mark(to));
        let one = EvenStretch::of(self.body, self.tracks.0, (from, &begin.0), (to, &end.0));
        let two = EvenStretch::of(self.body, self.tracks.1, (from + shift, &begin.1), (to + shift, &end.1));
        let both =
            Both { body: self.body, from: (&begin.0, &begin.1), to: (&end.0, &end.1), between: (&one, &two) };
        let gaps = [&begin, &end].map(|(one, two)| Both::space(self.body, (one, two)));
        let [first, last] = &gaps;
        let floor = both.floor(first, last);
        // What the other goes and turns from the middle shift to the ends.
        let theirs = self.tracks.1;
        let (early, late) = (from + least, to + most);
        let fastest = theirs.moves().iter().filter(|leg| leg.begin < late && leg.end > early);
        let fastest = fastest.map(|leg| leg.pace.fastest()).fold(0.0, f64::max);
        let gone = (fastest * (most - shift)).min(theirs.travelled(late) - theirs.travelled(early));
        let (low, high) = theirs.facings(early, late);
        let room = gone + self.body.change() * (high - low).to_radians();
        if floor > room - GRAZE {
            return None;
        }
        let along = first.0.min(last.0) - floor;
        Some(room > along)
    }
}

/// The stretches of a figure about each time that two come near each other: counts between the moments at which they are farthest apart.
pub(super) fn meetings(tracks: (&Track, &Track), counts: f64) -> Vec<(f64, f64)> {
    let looks = (counts * LOOKS) as usize;
    let apart: Vec<f64> = (0..=looks)
        .map(|look| {
            let count = look as f64 / LOOKS;
            let ((ax, ay, _), (bx, by, _)) = (tracks.0.stand(count), tracks.1.stand(count));
            (ax - bx).hypot(ay - by)
        })
        .collect();
    let mut ends = vec![0.0];
    // From one time they are near to the next, the moment at which they are farthest apart.
    let mut farthest: Option<(usize, f64)> = None;
    let mut met = false;
    for (look, &metres) in apart.iter().enumerate() {
        if metres < MEETS {
            if let (true, Some((far, _))) = (met, farthest.take()) {
                ends.push(far as f64 / LOOKS);
            }
            (met, farthest) = (true, None);
        } else if met && farthest.is_none_or(|(_, known)| metres > known) {
            farthest = Some((look, metres));
        }
    }
    ends.push(counts);
    ends.windows(2).filter_map(|pair| <[f64; 2]>::try_from(pair).ok()).map(|[from, to]| (from, to)).collect()
}

/// How far out of time each dancer may be in a figure before they touch somebody, both ways up to [`MOST_SHIFT`] counts, for each time that
/// two come near each other; in the order of dancers, of others, and of time. What was not worked out to the end is told up to where it was.
#[must_use]
pub fn slacks(body: Body, span: &Span, dancers: usize, goes_on: &mut dyn FnMut() -> bool) -> Vec<Slack> {
    let counts = span.end() - span.begin();
    let mut found = Vec::new();
    // Of a crowd each pair has less of the work.
    let pairs = (dancers * dancers.saturating_sub(1) / 2).max(1);
    let most_looks = MOST_LOOKS.min((MOST_OF_ALL / pairs) as u32);
    for late in Dancer::all(dancers) {
        for other in Dancer::all(dancers).filter(|other| *other != late) {
            let (Some(one), Some(two)) = (span.track(late), span.track(other)) else { continue };
            if !goes_on() {
                return found;
            }
            // Who stand throughout never touch later than they do at once.
            if one.moves().is_empty() && two.moves().is_empty() {
                continue;
            }
            let shifted = Shifted { body, tracks: (one, two), counts, most_looks };
            for window @ (_, until) in meetings((one, two), counts) {
                let touch = shifted.first_touch(window, 0.0, MOST_SHIFT, goes_on);
                let whole = touch.is_whole(MOST_SHIFT);
                let met = touch.found.map(|(by, at)| (by, at - by, at, true));
                let open = (!whole).then_some((touch.proved, until, until, false));
                for (by, due, at, met) in met.into_iter().chain(open) {
                    found.push(Slack { dancer: late, other, counts: by, at, due, until, met });
                    // One of two who is late leaves the other early.
                    found.push(Slack {
                        dancer: other,
                        other: late,
                        counts: -by,
                        at: due,
                        due: at,
                        until,
                        met,
                    });
                }
            }
        }
    }
    found.sort_by(|one, two| {
        (one.dancer, one.other).cmp(&(two.dancer, two.other)).then(one.at.total_cmp(&two.at))
    });
    found
}

/// How late (first) and how early a dancer may be who is so only from a count of a figure on, and of each whether more was not worked out: by
/// what is known of all of the figure, and of those who met before that count but have not parted, looked at anew.
pub(super) fn from_on(
    body: Body,
    span: &Span,
    (dancer, count): (Dancer, f64),
    known: &[Slack],
) -> [(f64, bool); 2] {
    let mut band = [(MOST_SHIFT, false); 2];
    let own = known.iter().filter(|slack| slack.dancer == dancer && slack.until > count);
    let (still, past): (Vec<&Slack>, Vec<&Slack>) = own.partition(|slack| {
        // Who is late stands on from the count; who is early is ahead of it from then on.
        let since = if slack.counts < 0.0 && slack.met { slack.at } else { slack.due };
        since >= count - 1e-6
    });
    for slack in &still {
        let [late, early] = &mut band;
        let side = if slack.counts < 0.0 { early } else { late };
        if slack.counts.abs() < side.0 {
            *side = (slack.counts.abs(), !slack.met);
        }
    }
    for slack in past {
        let [late, early] = &mut band;
        let (who, whom, side) = if slack.counts > 0.0 {
            (slack.dancer, slack.other, late)
        } else {
            (slack.other, slack.dancer, early)
        };
        let (Some(one), Some(two)) = (span.track(who), span.track(whom)) else { continue };
        let counts = span.end() - span.begin();
        let shifted = Shifted { body, tracks: (one, two), counts, most_looks: MOST_LOOKS_WAITED };
        let most = side.0;
        let touch = shifted.first_touch((count, slack.until), count, most, &mut || true);
        if !touch.is_whole(most) {
            *side = (touch.proved, true);
        } else if let Some((by, _)) = touch.found {
            *side = (by, false);
        }
    }
    band
}
