use super::own_turns::own_turns;
use crate::dance::{BarCounts, Dancer};
use crate::motion::{Motion, Span, Track};

/// The most diagrams that a figure may have.
pub const MOST_DIAGRAMS: usize = 4_000;

/// The bars of half a usual figure.
pub(super) const HALF: u32 = 4;
/// Two moments are at least so far apart, counts.
const APART: f64 = 1.0;
/// Sets larger than this have a diagram a bar and no more.
const MANY: usize = 40;

/// The counts of a figure of these bars at which there is a diagram: its start, then once in so many counts or else at the start of
/// each bar, and its end.
#[must_use]
pub fn diagram_times(bars: &BarCounts, every: Option<f64>) -> Vec<f64> {
    let counts = bars.counts();
    let Some(every) = every else {
        return (0..bars.bars()).map(|bar| bars.begin_of(bar)).chain(std::iter::once(counts)).collect();
    };
    let steps = ((counts - 1e-6) / every.max(0.01)).ceil().max(0.0) as u32;
    (0..steps).map(|step| f64::from(step) * every).chain(std::iter::once(counts)).collect()
}

/// The counts of a figure between which each of its diagrams shows the ways, its start (twice the same count) first: bar by bar,
/// or once in so many counts; bars in which nobody goes, turns or taps go with the one before, and a bar in which someone comes
/// back the way they went, or turns one way and then the other, has a diagram of each.
#[must_use]
pub fn moments(motion: &Motion, span: &Span, every: Option<f64>) -> Vec<(f64, f64)> {
    let bars = span.bar_counts();
    let times = diagram_times(bars, every);
    let mut all: Vec<(f64, f64)> = vec![(0.0, 0.0)];
    for pair in times.windows(2).take(MOST_DIAGRAMS) {
        let [from, to] = *pair else { continue };
        if is_still(motion, span, (from, to))
            && let Some((since, until)) = all.last_mut()
            && since < until
        {
            *until = to;
            continue;
        }
        let mut begin = from;
        if every.is_none() {
            for count in changes(motion, span, (from, to)) {
                all.push((begin, count));
                begin = count;
            }
        }
        all.push((begin, to));
    }
    all
}

/// The counts at which the halves of a figure begin: its first, and the fifth bar of those that have eight or more.
#[must_use]
pub fn halves(bars: &BarCounts) -> Vec<f64> {
    (0..bars.bars()).step_by(HALF as usize).map(|bar| bars.begin_of(bar)).collect()
}

/// Whether nobody goes or turns, or taps, between two counts of a figure.
pub(super) fn is_still(motion: &Motion, span: &Span, (from, to): (f64, f64)) -> bool {
    if !motion.blows_between(span.begin() + from, span.begin() + to).is_empty() {
        return false;
    }
    Dancer::all(motion.dancers()).filter_map(|dancer| span.track(dancer)).all(|track| {
        let (one, other) = (track.stand(from), track.stand(to - 1e-6));
        let within = |begin: f64, end: f64| begin < to - 1e-6 && end > from + 1e-6;
        let gone = track.travelled(to) - track.travelled(from);
        gone < 0.02
            && (one.2 - other.2).abs() < 2.0
            && !track.turns().iter().any(|turn| within(turn.begin, turn.end))
    })
}

/// The whole counts inside a bar at which someone comes back the way they went, or begins to turn the other way about.
fn changes(motion: &Motion, span: &Span, (from, to): (f64, f64)) -> Vec<f64> {
    if motion.dancers() > MANY {
        return Vec::new();
    }
    let mut counts: Vec<f64> = Vec::new();
    for track in Dancer::all(motion.dancers()).filter_map(|dancer| span.track(dancer)) {
        let turns = own_turns(track, (from, to));
        let other_way = turns.windows(2).filter_map(|pair| match pair {
            [one, other] if one.amount * other.amount < 0.0 => Some(f64::midpoint(one.end, other.begin)),
            _ => None,
        });
        for count in other_way.chain(comes_back(track, (from, to))) {
            let whole = count.round();
            let clear = whole >= from + APART
                && whole <= to - APART
                && counts.iter().all(|other| (other - whole).abs() >= APART);
            if clear {
                counts.push(whole);
            }
        }
    }
    counts.sort_by(f64::total_cmp);
    counts
}

/// The counts at which a leg ends and the next goes back the way it came.
fn comes_back(track: &Track, (from, to): (f64, f64)) -> Vec<f64> {
    let way = |one: f64, other: f64| {
        let ((x, y, _), (a, b, _)) = (track.stand(one), track.stand(other));
        (a - x, b - y)
    };
    let ends = track.moves().iter().map(|leg| leg.end).filter(|end| *end > from && *end < to);
    ends.filter(|end| {
        let (before, after) = (way(end - 1.0, *end), way(*end, end + 1.0));
        let lengths = before.0.hypot(before.1) * after.0.hypot(after.1);
        lengths > 0.04 && (before.0 * after.0 + before.1 * after.1) / lengths < -0.8
    })
    .collect()
}
