//! How a leg is paced that travels as its steps do: as evenly as they let it, with a short time to set off and to stop.

use crate::dance::Leg;
use crate::motion::{Course, EndSpeed, Footing, Pace};

/// How much faster than its mean a way may be, as long as its steps are even: the time to set off and to stop is as long as
/// that lets it be (chosen for this program).
const FASTEST: f64 = 1.18;
/// The longest and, where the steps leave no time, the shortest that setting off and stopping take, counts; the shortest is no
/// more than a share of the way's time (chosen for this program).
const LONGEST: f64 = 0.75;
const SHORTEST: f64 = 0.15;
const SHORTEST_SHARE: f64 = 0.15;
/// A division shorter than this at the end of a way goes with the one beside it, counts.
const SCRAP: f64 = 0.5;
/// Metres a count that are no travelling at all.
const NOTHING: f64 = 1e-9;

/// The time between two counts in which the steps travel alike.
#[derive(Clone, Copy)]
struct Division {
    begin: f64,
    end: f64,
    /// Metres a count.
    rate: f64,
    /// Whether it begins at a point that has a time of its own.
    pinned: bool,
}

impl Division {
    fn counts(&self) -> f64 {
        self.end - self.begin
    }

    fn metres(&self) -> f64 {
        self.rate * self.counts()
    }

    /// Whether anybody travels in it.
    fn goes(&self) -> bool {
        self.rate > NOTHING
    }

    /// Makes one of it and what lies beside it.
    fn join(&mut self, other: &Self) {
        let metres = self.metres() + other.metres();
        (self.begin, self.end) = (self.begin.min(other.begin), self.end.max(other.end));
        self.rate = metres / self.counts();
    }
}

/// The pace of a leg that has none of its own: through its points that have a time of their own, and in between count by
/// count as the steps travel. Where it sets off from standing, or comes to stand, at its ends or before and after steps that
/// do not travel, it has a short time for that, and the rest is so much faster.
pub(super) fn by_steps(
    leg: &Leg,
    course: &Course,
    footing: &Footing,
    first: EndSpeed,
    last: EndSpeed,
) -> Pace {
    let mut divisions = divisions(leg, course, footing);
    let mut knots = Knots(Vec::with_capacity(divisions.len() + 5));
    let (mut begin, mut done, mut from) = (0, 0.0, first);
    while let Some(now) = divisions.get(begin).copied() {
        // A way on which nothing stops, between two points at most that have a time of their own.
        let rest = divisions.iter().skip(begin + 1);
        let end = begin + 1 + rest.take_while(|next| next.goes() == now.goes() && !next.pinned).count();
        let before = end.checked_sub(1).and_then(|index| divisions.get(index)).map_or(0.0, |last| last.rate);
        let to = match divisions.get(end) {
            Some(next) if next.goes() && now.goes() => EndSpeed::Running(between(before, next.rate)),
            Some(_) => EndSpeed::Still,
            None => last,
        };
        let run = divisions.get_mut(begin..end).unwrap_or_default();
        let metres: f64 = run.iter().map(Division::metres).sum();
        let stop = run.last().map_or(leg.end, |last| last.end);
        if now.goes() {
            knots.run(run, (done, metres), from, to);
        } else {
            knots.put(now.begin, done, 0.0);
        }
        done += metres;
        knots.put(stop, done, 0.0);
        (begin, from) = (end, to);
    }
    Pace::with_speeds(knots.0)
}

/// The speed where two divisions meet: that of the faster, so that the slower one alone dips, as a hop does, unless it is much
/// slower.
fn between(one: f64, other: f64) -> f64 {
    one.max(other).min(2.0 * one.min(other))
}

/// Count, metres, and metres a count, in order of time.
struct Knots(Vec<[f64; 3]>);

impl Knots {
    /// Puts one, unless there is one at that count.
    fn put(&mut self, at: f64, metres: f64, speed: f64) {
        if self.0.last().is_none_or(|last| at > last[0] + 1e-6) {
            self.0.push([at, metres, speed]);
        }
    }

    /// Puts a way on which nothing stops, from so many metres along for so many; its ends are at a speed or at rest.
    fn run(&mut self, run: &mut [Division], (mut along, metres): (f64, f64), from: EndSpeed, to: EndSpeed) {
        let done = along;
        let (sets_off, stops) = (from == EndSpeed::Still, to == EndSpeed::Still);
        let run = without_scraps(run, sets_off, stops);
        let fastest = run.iter().map(|division| division.rate).fold(0.0, f64::max);
        raise_ends(run, sets_off, stops);
        let (Some(&first), Some(&last)) = (run.first(), run.last()) else { return };
        let counts = last.end - first.begin;
        let evenly: f64 = run.iter().map(Division::metres).sum();
        // What setting off and stopping may lose, and what they lose in a count of either, metres. Where there is only one of
        // them, that has no more time.
        let room = evenly - fastest * counts / FASTEST;
        let losing = f64::midpoint(first.rate, last.rate);
        let shortest = SHORTEST.min(SHORTEST_SHARE * counts);
        let time = (room / losing).clamp(shortest, LONGEST);
        let share = if run.len() == 1 && sets_off && stops { 0.5 } else { 1.0 };
        let off = if sets_off { time.min(first.counts() * share) } else { 0.0 };
        let stop = if stops { time.min(last.counts() * share) } else { 0.0 };
        let faster = metres / (evenly - f64::midpoint(first.rate * off, last.rate * stop));
        let running = |end: EndSpeed, own: f64| match end {
            EndSpeed::Running(speed) => speed.clamp(0.0, 2.0 * own * faster),
            EndSpeed::Still => 0.0,
        };
        self.put(first.begin, along, running(from, first.rate));
        if sets_off {
            along += faster * first.rate * off / 2.0;
            self.put(first.begin + off, along, faster * first.rate);
        }
        for (index, division) in run.iter().enumerate() {
            let begin = if index == 0 { division.begin + off } else { division.begin };
            let next = run.get(index + 1);
            let end = if next.is_none() { division.end - stop } else { division.end };
            along += faster * division.rate * (end - begin);
            match next {
                Some(next) => self.put(end, along, faster * between(division.rate, next.rate)),
                None if stops => self.put(end, along, faster * division.rate),
                None => {}
            }
        }
        self.put(last.end, done + metres, running(to, last.rate));
    }
}

/// A way in which what is too short to set off or to stop in goes with what lies beside it.
fn without_scraps(run: &mut [Division], sets_off: bool, stops: bool) -> &mut [Division] {
    let mut run = run;
    if sets_off
        && let [first, second, ..] = &mut *run
        && first.counts() < SCRAP
    {
        second.join(first);
        run = run.get_mut(1..).unwrap_or_default();
    }
    if stops
        && let [.., before, last] = &mut *run
        && last.counts() < SCRAP
    {
        before.join(last);
        let kept = run.len() - 1;
        run = run.get_mut(..kept).unwrap_or_default();
    }
    run
}

/// Where the first or the last count has a hop, which travels less, setting off or coming to stand is what it travels less
/// for.
fn raise_ends(run: &mut [Division], sets_off: bool, stops: bool) {
    if let (true, [first, second, ..]) = (sets_off, &mut *run) {
        first.rate = first.rate.max(second.rate);
    }
    if let (true, [.., before, last]) = (stops, &mut *run) {
        last.rate = last.rate.max(before.rate);
    }
}

/// A leg count by count, as the steps travel between its points that have a time of their own.
fn divisions(leg: &Leg, course: &Course, footing: &Footing) -> Vec<Division> {
    let mut pins = vec![(leg.begin, 0.0)];
    for (waypoint, metres) in leg.through.iter().zip(course.point_lengths()) {
        if let Some(at) = waypoint.at
            && pins.last().is_some_and(|last| at > last.0 + 1e-6)
            && at < leg.end - 1e-6
        {
            pins.push((at, *metres));
        }
    }
    pins.push((leg.end, course.length()));
    let mut divisions = Vec::with_capacity((leg.end - leg.begin).ceil() as usize + pins.len());
    for pair in pins.windows(2) {
        let [(t0, s0), (t1, s1)] = *pair else { continue };
        let (p0, p1) = (footing.travelled(t0), footing.travelled(t1));
        let share = |count: f64| {
            if p1 - p0 > NOTHING {
                (footing.travelled(count) - p0) / (p1 - p0)
            } else {
                (count - t0) / (t1 - t0)
            }
        };
        let (mut begin, mut pinned) = (t0, true);
        while begin < t1 - 1e-6 {
            let next = (begin + 1e-6).floor() + 1.0;
            let end = if next > t1 - 1e-6 { t1 } else { next };
            let rate = (s1 - s0).max(0.0) * (share(end) - share(begin)) / (end - begin);
            divisions.push(Division { begin, end, rate, pinned });
            (begin, pinned) = (end, false);
        }
    }
    divisions
}
