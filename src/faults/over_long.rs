use super::{
    found::Found,
    look::Look,
    stretch::{Stretch, join},
};
use crate::dance::{Dancer, FaultKind};
use crate::motion::{Clock, Footfall, Span, Track, Weight};

/// How many steps' length a caper may cover: a spring and a landing, as long as two steps (chosen for this program).
const CAPER: f64 = 2.0;

/// How far somebody gets who stands, metres: hips sink to 0.85 m over legs of 0.95 m, 0.42 m aside of the feet [CALC].
const STANDING: f64 = 0.42;

/// The counts of a strong beat. Two counts in a row take as long as one, whatever the metre: 6/8 halves its bar too.
const BEAT: f64 = 2.0;

/// Steps that cover too much ground, and travelling that is too fast at the speed of the tune. A landing covers the ground from the landing before it, so that counts in the
/// air go with the landing that ends them. Down and back, 3.66 m in 8 counts [MB1], is well within it.
pub(super) fn find(look: &Look, span: &Span, found: &mut Vec<Found>) {
    for dancer in Dancer::all(look.motion.dancers()) {
        let Some(track) = span.track(dancer) else { continue };
        let runs = long_steps(track, look.limits.step());
        // Where a step is too long for the count already, the tempo is no fault of its own.
        let fast = fast_beats(track, span, look.clock, look.limits.speed());
        for fast in fast {
            if runs.iter().any(|run| run.begin < fast.end - 1e-6 && run.end > fast.begin + 1e-6) {
                continue;
            }
            let (x, y, _) = track.stand(fast.at);
            found.push(Found {
                kind: FaultKind::OverLong,
                at: fast.at,
                lasts: (fast.begin, fast.end),
                dancers: vec![dancer],
                value: fast.value,
                limit: look.limits.speed(),
                text: format!(
                    "{dancer} has to travel {:.1} metres a second at the speed of the tune",
                    fast.value
                ),
                spot: Some((x, y)),
            });
        }
        for run in runs {
            let (x, y, _) = track.stand(run.at);
            let how = match (run.caper, run.standing) {
                (true, _) => "in one caper",
                (_, true) => "on feet that stand",
                _ => "in one step",
            };
            found.push(Found {
                kind: FaultKind::OverLong,
                at: run.at,
                lasts: (run.begin, run.end),
                dancers: vec![dancer],
                value: run.length,
                limit: run.limit,
                text: format!("{dancer} has to cover {:.2} m {how}", run.length),
                spot: Some((x, y)),
            });
        }
    }
}

/// The stretches in which a dancer travels faster over a strong beat than a limit, metres a second, looked at from each
/// half count, at the speed that the music has there.
fn fast_beats(track: &Track, span: &Span, clock: &Clock, limit: f64) -> Vec<Stretch> {
    let counts = span.end() - span.begin();
    let seconds = |begin: f64| {
        let begin = span.begin() + begin;
        clock.seconds(begin + BEAT) - clock.seconds(begin)
    };
    let mut fast = Vec::new();
    // Nobody who is never that fast at a moment is it over a beat.
    let fastest = track.moves().iter().map(|leg| leg.pace.fastest()).fold(0.0, f64::max);
    let quickest = clock.fastest(span.begin(), span.end());
    if fastest * BEAT * quickest / 60.0 <= limit {
        return fast;
    }
    for leg in track.moves() {
        let looks = ((leg.end - leg.begin) * 2.0).ceil() as usize;
        for look in 0..=looks {
            let begin = (leg.begin + look as f64 / 2.0).min(counts - BEAT);
            let value = (track.travelled(begin + BEAT) - track.travelled(begin)) / seconds(begin);
            if value > limit + 1e-6 {
                join(&mut fast, Stretch { begin, end: begin + BEAT, at: begin, value });
            }
        }
    }
    fast
}

/// A run of steps that are too long, and the longest.
struct LongSteps {
    begin: f64,
    end: f64,
    /// The count from which the longest goes.
    at: f64,
    length: f64,
    limit: f64,
    caper: bool,
    /// Whether both feet stand meanwhile.
    standing: bool,
}

/// The runs of steps longer than a length, metres. One step between that is not so long, as a hop is, does not part
/// them.
fn long_steps(track: &Track, limit: f64) -> Vec<LongSteps> {
    let falls = track.footing().falls();
    let fastest = track.moves().iter().map(|leg| leg.pace.fastest()).fold(0.0, f64::max);
    let mut runs: Vec<LongSteps> = Vec::new();
    let (mut from, mut last) = (0, 0.0);
    for count in 1..=falls.len() {
        // The last landing of a figure is the first of the next one.
        if falls.get(count).is_some_and(|fall| fall.weight == Weight::Air || fall.stays) {
            continue;
        }
        let (begin, end, before) = (from as f64, count as f64, last);
        let caper = is_caper(falls, from, count);
        // Where nothing lands the feet are still where they were.
        let standing = stands(falls, count);
        if !standing {
            (from, last) = (count, begin);
        }
        let limit = match (caper, standing) {
            (true, _) => limit * CAPER,
            (_, true) => limit.min(STANDING),
            _ => limit,
        };
        // No straight way is longer than what is done at the fastest, nor than the way over the floor: both are quick to
        // find.
        if fastest * (end - begin) <= limit {
            continue;
        }
        let way: f64 = track
            .moves()
            .iter()
            .filter(|leg| leg.begin < end && leg.end > begin)
            .map(|leg| leg.pace.at(end) - leg.pace.at(begin))
            .sum();
        if way <= limit + 1e-6 {
            continue;
        }
        let ((x0, y0, _), (x1, y1, _)) = (track.stand(begin), track.stand(end));
        let length = (x1 - x0).hypot(y1 - y0);
        if length <= limit + 1e-6 {
            continue;
        }
        match runs.last_mut().filter(|run| run.end >= before - 1e-6) {
            Some(run) => {
                run.end = end;
                if length - limit > run.length - run.limit {
                    (run.at, run.length, run.limit) = (begin, length, limit);
                    (run.caper, run.standing) = (caper, standing);
                }
            }
            None => runs.push(LongSteps { begin, end, at: begin, length, limit, caper, standing }),
        }
    }
    runs
}

/// Whether nothing lands on a count: both feet stand there already.
fn stands(falls: &[Footfall], count: usize) -> bool {
    let both = |count: usize| falls.get(count).is_some_and(|fall| fall.weight == Weight::Both);
    count > 0 && both(count) && both(count - 1)
}

/// Whether the landing on a count ends a spring from another: through the air onto one foot.
fn is_caper(falls: &[Footfall], from: usize, to: usize) -> bool {
    to > from + 1
        && falls.get(to - 1).is_some_and(|fall| fall.weight == Weight::Air)
        && falls.get(to).is_some_and(|fall| matches!(fall.weight, Weight::Left | Weight::Right))
}
