use super::{facts::Pass, look::Look, look::side_of};
use crate::motion::{Track, wrap_half};

/// Those whose middles come no nearer than this do not pass, metres.
const PASS: f64 = 1.3;
/// How often they are looked at, in a count.
const LOOKS: f64 = 16.0;
/// How far round one has gone by the other on the floor when they have passed, degrees; and on either side of the
/// moment when they are nearest.
const ROUND: (f64, f64) = (75.0, 25.0);
/// One who is less than the first of these from straight ahead is ahead, and more than the second, behind, degrees.
const LEVEL: (f64, f64) = (60.0, 120.0);

/// Everyone whom the dancer passes, or who passes them, between two counts, in order of time.
pub(super) fn passes(look: &Look, begin: f64, end: f64) -> Vec<Pass> {
    let mut found = Vec::new();
    for (other, track) in look.others() {
        let start = apart(look.track, track, begin).0;
        let gone = |track: &Track| track.travelled(end) - track.travelled(begin);
        if start - gone(look.track) - gone(track) < PASS && gone(look.track) + gone(track) > 0.3 {
            pair(look, other as u32 + 1, track, (begin, end), &mut found);
        }
    }
    found.sort_by(|one: &Pass, other| one.at.total_cmp(&other.at));
    // Of two at once only the near one is minded.
    let near: Vec<Pass> = found.clone();
    found.retain(|pass| {
        !near.iter().any(|other| (other.at - pass.at).abs() <= 1.0 && other.apart < 0.75 * pass.apart)
    });
    found
}

/// How far the second is from the first, metres, and which way, degrees clockwise from up.
fn apart(one: &Track, other: &Track, count: f64) -> (f64, f64) {
    let ((x, y, _), (to_x, to_y, _)) = (one.stand(count), other.stand(count));
    ((to_x - x).hypot(to_y - y), (to_x - x).atan2(to_y - y).to_degrees())
}

/// The times that two pass.
fn pair(look: &Look, number: u32, other: &Track, (begin, end): (f64, f64), found: &mut Vec<Pass>) {
    let steps = ((end - begin) * LOOKS).ceil().max(1.0) as usize;
    let samples: Vec<(f64, f64, f64)> = (0..=steps)
        .map(|step| {
            let count = begin + (end - begin) * step as f64 / steps as f64;
            let (far, way) = apart(look.track, other, count);
            (count, far, way)
        })
        .collect();
    // The way on the floor from one to the other, unwrapped.
    let mut ways = Vec::with_capacity(samples.len());
    for (_, _, way) in &samples {
        let before = ways.last().copied().unwrap_or(*way);
        ways.push(before + wrap_half(way - before));
    }
    let far = |index: usize| samples.get(index).map_or(f64::INFINITY, |sample| sample.1);
    let way = |index: usize| ways.get(index).copied().unwrap_or(0.0);
    let mut add = |index: usize| {
        let Some((at, apart, there)) = samples.get(index).copied() else { return };
        let bearing = wrap_half(there - look.stand(at).2);
        let turning = (look.stand(at + 0.5).2 - look.stand(at - 0.5).2).abs();
        let told = found.iter().any(|pass| pass.number == number && (pass.at - at).abs() < 2.0);
        if apart < PASS && (35.0..=145.0).contains(&bearing.abs()) && turning < 60.0 && !told {
            found.push(Pass { number, shoulder: side_of(bearing), at, apart });
        }
    };
    for (from, nearest, to) in valleys(&samples.iter().map(|sample| sample.1).collect::<Vec<_>>()) {
        let (before, after) = (way(nearest) - way(from), way(to) - way(nearest));
        let clear = before.signum() == after.signum() && before.abs().min(after.abs()) >= ROUND.1;
        if far(nearest) > 0.05 && clear && (before + after).abs() >= ROUND.0 {
            add(nearest);
        }
    }
    // Those who stay near each other when they have passed are nearest later: there the moment is when one who was
    // ahead is level, on the way to being behind, or the other way about.
    let bearing = |index: usize| {
        samples.get(index).map_or(0.0, |(count, _, there)| wrap_half(there - look.stand(*count).2).abs())
    };
    let (mut last_ahead, mut last_behind) = (None, None);
    for index in 0..samples.len() {
        let crossed = match bearing(index) {
            ahead if ahead <= LEVEL.0 => {
                last_ahead = Some(index);
                last_behind.take()
            }
            behind if behind >= LEVEL.1 => {
                last_behind = Some(index);
                last_ahead.take()
            }
            _ => None,
        };
        if let Some(from) = crossed {
            // Turning round, or being gone round, is no passing.
            let turned = samples
                .get(from)
                .zip(samples.get(index))
                .map_or(0.0, |(before, after)| (look.stand(after.0).2 - look.stand(before.0).2).abs());
            if turned > 45.0 || (way(index) - way(from)).abs() < 45.0 {
                continue;
            }
            let level = (from..=index)
                .min_by(|one, other| (bearing(*one) - 90.0).abs().total_cmp(&(bearing(*other) - 90.0).abs()));
            level.into_iter().for_each(&mut add);
        }
    }
}

/// The stretches in which a distance falls and rises again: where each begins, is least, and ends.
fn valleys(far: &[f64]) -> Vec<(usize, usize, usize)> {
    /// Less than this is no rise, metres.
    const RISE: f64 = 0.1;
    let mut found = Vec::new();
    let (mut top, mut bottom) = ((0, f64::NEG_INFINITY), (0, f64::INFINITY));
    let mut falling = true;
    let mut begin = 0;
    for (index, &value) in far.iter().enumerate() {
        if falling {
            if value > top.1 && bottom.1 == f64::INFINITY {
                top = (index, value);
                begin = index;
            }
            if value < bottom.1 {
                bottom = (index, value);
            }
            if value > bottom.1 + RISE {
                falling = false;
                top = (index, value);
            }
        } else {
            if value > top.1 {
                top = (index, value);
            }
            if value < top.1 - RISE {
                found.push((begin, bottom.0, top.0));
                begin = top.0;
                bottom = (index, value);
                falling = true;
            }
        }
    }
    if !falling {
        found.push((begin, bottom.0, top.0));
    }
    found
}
