use super::{facts::Pass, look::OneDancer, look::side_of};
use crate::dance::{Dancer, Number};
use crate::motion::{Motion, SpanIndex, Track, wrap_half};

/// Those whose middles come no nearer than this do not pass, metres.
const PASS: f64 = 1.3;
/// Whoever passes as near as this is always minded, metres.
const NEAR: f64 = 1.0;
/// How often they are looked at, in a count.
const LOOKS: f64 = 16.0;
/// How far round one has gone by the other on the floor when they have passed, degrees; and on either side of the
/// moment when they are nearest.
const ROUND: (f64, f64) = (75.0, 25.0);
/// One who is less than the first of these from straight ahead is ahead, and more than the second, behind, degrees.
const LEVEL: (f64, f64) = (60.0, 120.0);

/// Everyone whom the dancer passes, or who passes them, between two counts, in order of time.
pub(super) fn passes(look: &OneDancer, begin: f64, end: f64) -> Vec<Pass> {
    let mut found = Vec::new();
    let own = OwnWay::of(look.track, (begin, end));
    let gone = |track: &Track| {
        if track.moves().is_empty() { 0.0 } else { track.travelled(end) - track.travelled(begin) }
    };
    let gone_own = gone(look.track);
    for (other, track) in look.others() {
        if gone_own + gone(track) > 0.3 && own.comes_near(track, &mut 0) {
            pair(look, other.number(), track, &own, &mut found);
        }
    }
    found.sort_by(|one: &Pass, other| one.at.total_cmp(&other.at));
    // Of two at once only the near one is minded, where the other is farther than within an arm.
    let near: Vec<Pass> = found.clone();
    found.retain(|pass| {
        let nearer = |other: &Pass| (other.at - pass.at).abs() <= 1.0 && other.apart < 0.75 * pass.apart;
        pass.apart <= NEAR || !near.iter().any(nearer)
    });
    found
}

/// Everyone whom a dancer passes in the figure danced in a line of the running order between two of its counts, in order of time.
#[must_use]
pub fn passes_between(
    motion: &Motion,
    index: SpanIndex,
    dancer: Dancer,
    (from, to): (f64, f64),
) -> Vec<Pass> {
    let Some((span, track)) = motion.span(index).and_then(|span| Some((span, span.track(dancer)?))) else {
        return Vec::new();
    };
    let look = OneDancer { ground: motion.ground(), motion, span, dancer, track };
    // Those who pass at an edge are seen from before it until after it.
    let (begin, end) = ((from - 2.0).max(0.0), (to + 2.0).min(span.bar_counts().counts()));
    let mut found = passes(&look, begin, end);
    found.retain(|pass| (from..to).contains(&pass.at));
    found
}

/// Where the dancer is at each look between two counts, worked out once for all whom they may pass.
struct OwnWay {
    /// The count of each look.
    counts: Vec<f64>,
    /// Metres right and up, and those travelled.
    places: Vec<(f64, f64, f64)>,
}

impl OwnWay {
    fn of(track: &Track, (begin, end): (f64, f64)) -> Self {
        let steps = ((end - begin) * LOOKS).ceil().max(1.0) as usize;
        let counts: Vec<f64> =
            (0..=steps).map(|step| begin + (end - begin) * step as f64 / steps as f64).collect();
        let places = counts.iter().map(|count| place(track, *count)).collect();
        Self { counts, places }
    }

    /// The count of a look, and where the dancer is.
    fn at(&self, look: usize) -> Option<(f64, (f64, f64, f64))> {
        Some((*self.counts.get(look)?, *self.places.get(look)?))
    }

    /// Whether another comes nearer than those who pass at any of the looks: from how far apart they are it follows how
    /// far they have to travel for that, and until then they need not be looked at. `looks` counts on how often it is
    /// worked out where the other is.
    fn comes_near(&self, other: &Track, looks: &mut u32) -> bool {
        self.steps_near(other, looks).unwrap_or(false)
    }

    fn steps_near(&self, other: &Track, looks: &mut u32) -> Option<bool> {
        let last = self.counts.len().checked_sub(1)?;
        let all = self.at(last)?.1.2 + other.travelled(self.at(last)?.0);
        let mut here = 0;
        let (count, mut own) = self.at(here)?;
        let mut theirs = place(other, count);
        let mut stride = 16;
        loop {
            *looks += 1;
            let wanted = (theirs.0 - own.0).hypot(theirs.1 - own.1) - PASS;
            let gone = own.2 + theirs.2;
            if wanted <= 0.0 {
                return Some(true);
            }
            if here == last || all - gone < wanted {
                return Some(false);
            }
            loop {
                let next = (here + stride).min(last);
                let (count, mine) = self.at(next)?;
                let there = place(other, count);
                // From one look to the next there is nothing to leave out.
                if stride == 1 || mine.2 + there.2 - gone < wanted {
                    (here, own, theirs) = (next, mine, there);
                    stride *= 2;
                    break;
                }
                *looks += 1;
                stride /= 2;
            }
        }
    }
}

/// Where someone is, metres right and up, and the metres they have travelled in the figure.
fn place(track: &Track, count: f64) -> (f64, f64, f64) {
    let ((x, y, _), travelled) = track.stand_and_travelled(count);
    (x, y, travelled)
}

/// The times that two pass.
fn pair(look: &OneDancer, number: Number, other: &Track, own: &OwnWay, found: &mut Vec<Pass>) {
    // The count of each look, how far the other is, metres, and which way, degrees clockwise from up.
    let looks = own.counts.iter().zip(&own.places);
    let samples: Vec<(f64, f64, f64)> = looks
        .map(|(&count, (x, y, _))| {
            let (to_x, to_y, _) = other.stand(count);
            (count, (to_x - x).hypot(to_y - y), (to_x - x).atan2(to_y - y).to_degrees())
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Dance, Dancer, Extra, Set};
    use crate::figures::{motion_of, named_figure};
    use crate::motion::Motion;

    fn danced(figure: &str, dancers: u32) -> Motion {
        let mut dance = Dance::new("Test", Set::longways(dancers, 2.4, 1.8));
        dance.figures.push(named_figure(figure, Extra::new(), &dance.set).unwrap());
        motion_of(&dance, None).unwrap()
    }

    /// Held against each of the looks: nobody is left out who comes near at any, and nobody else is taken.
    #[test]
    fn whoever_comes_near_is_looked_at() {
        let (mut near, mut far) = (0, 0);
        for figure in ["whole-rounds", "hey", "back-to-back", "cross-over", "half-hey"] {
            let motion = danced(figure, 8);
            let span = &motion.spans()[0];
            for (one, other) in (0..8).flat_map(|one| (0..8).map(move |other| (one, other))) {
                let (Some(a), Some(b)) = (span.track(Dancer(one)), span.track(Dancer(other))) else {
                    continue;
                };
                for part in 0..(span.end() as u32 / 8) {
                    let (begin, end) = (f64::from(part) * 8.0, f64::from(part) * 8.0 + 8.0);
                    let apart = |count: f64| {
                        let ((x, y, _), (to_x, to_y, _)) = (a.stand(count), b.stand(count));
                        (to_x - x).hypot(to_y - y)
                    };
                    let least = (0..=128)
                        .map(|look| apart(begin + f64::from(look) / LOOKS))
                        .fold(f64::INFINITY, f64::min);
                    let comes_near = OwnWay::of(a, (begin, end)).comes_near(b, &mut 0);
                    assert_eq!(comes_near, least <= PASS, "{figure} {one} {other}: {least}");
                    (near, far) = (near + usize::from(comes_near), far + usize::from(!comes_near));
                }
            }
        }
        assert!(near > 200 && far > 200, "{near} {far}");
    }

    /// In rounds everybody travels far, yet most pairs stay far from each other: a few looks tell so, not one for each
    /// sixteenth of a count.
    #[test]
    fn a_large_round_takes_few_looks_at_each_pair() {
        let motion = danced("whole-rounds", 100);
        let span = &motion.spans()[0];
        let (mut looks, mut pairs, mut near) = (0, 0, 0);
        for one in 0..100 {
            let own = OwnWay::of(span.track(Dancer(one)).unwrap(), (0.0, 16.0));
            for other in (0..100).filter(|other| *other != one) {
                near += u32::from(own.comes_near(span.track(Dancer(other)).unwrap(), &mut looks));
                pairs += 1;
            }
        }
        // 256 moments of each pair would be looked at otherwise.
        assert!(looks < 80 * pairs, "{looks} looks at {pairs} pairs");
        assert!(near < pairs / 8, "{near} of {pairs}");
    }
}
