use super::{
    found::Found,
    hurried_jump::Feet,
    look::Look,
    stretch::{Stretch, join},
};
use crate::dance::{Dancer, FaultKind};
use crate::motion::{Clock, Footfall, Span, SpanIndex, Track, Weight};

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
        let mut runs = long_steps(track, look.limits.step());
        let before = before_jumps(look, span, track);
        runs.extend(before.filter(|jump| runs_apart(&runs, jump)).collect::<Vec<_>>());
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
            found.push(run.told(dancer, (x, y)));
        }
    }
}

/// Steps over the end of a figure: where nothing lands on the first count of the next one, the feet are still where they were.
pub(super) fn find_between(look: &Look, found: &mut Vec<(SpanIndex, Found)>) {
    let spans: Vec<(SpanIndex, &Span)> = look.motion.indexed_spans().collect();
    for pair in spans.windows(2) {
        let &[(index, span), (_, next)] = pair else { continue };
        for dancer in Dancer::all(look.motion.dancers()) {
            let (Some(track), Some(after)) = (span.track(dancer), next.track(dancer)) else { continue };
            let (falls, later) = (track.footing().falls(), after.footing().falls());
            let stands = |fall: &&Footfall| fall.weight == Weight::Both;
            let [before, on] =
                [falls.iter().rev().take_while(stands).count(), later.iter().take_while(stands).count()];
            let stand = before > 0 && on > 0 && span.hop(dancer).is_none();
            if later.first().is_none_or(lands) && !stand {
                continue;
            }
            // From the last landing of the one to the first of the other.
            let (from, to) = if stand {
                (falls.len() - before, on)
            } else {
                let from = falls.iter().rposition(lands).unwrap_or(0);
                (from, later.iter().position(lands).unwrap_or(later.len()))
            };
            let caper = later.get(to).is_some_and(|fall| matches!(fall.weight, Weight::Left | Weight::Right))
                && to
                    .checked_sub(1)
                    .and_then(|air| later.get(air))
                    .is_some_and(|fall| fall.weight == Weight::Air);
            let step = look.limits.step();
            let (begin, end) = (from as f64, span.end() - span.begin());
            let limit = match (caper, stand) {
                (true, _) => step * CAPER,
                (_, true) => step.min(STANDING),
                _ => step,
            };
            let places = [track.stand(begin), track.stand(end), after.stand(to as f64)];
            let length = |from: usize, to: usize| match (places.get(from), places.get(to)) {
                (Some((x0, y0, _)), Some((x1, y1, _))) => (x1 - x0).hypot(y1 - y0),
                _ => 0.0,
            };
            // What is too long in one of the two is told there.
            if length(0, 2) <= limit + 1e-6 || length(0, 1).max(length(1, 2)) > limit {
                continue;
            }
            let until = end + to as f64;
            let run = LongSteps {
                begin,
                end: until,
                at: begin,
                length: length(0, 2),
                limit,
                caper,
                standing: stand,
            };
            let (x, y, _) = track.stand(begin);
            found.push((index, run.told(dancer, (x, y))));
        }
    }
}

/// The way to where a jump leaves the floor, where that is longer than a step: to slow music that is some while after the count in the air.
fn before_jumps<'a>(
    look: &'a Look,
    span: &'a Span,
    track: &'a Track,
) -> impl Iterator<Item = LongSteps> + 'a {
    let falls = track.footing().falls();
    let travels = !track.moves().is_empty() && falls.iter().any(|fall| fall.weight == Weight::Air);
    let falls = if travels { falls } else { &[] };
    // Where nothing lands on the first count the feet have been there since then at the least.
    let jumps = Feet::planted(span.begin()).dance(falls, look.motion.known(), span.begin());
    let limit = look.limits.step();
    let since = since_when(falls);
    jumps.into_iter().filter_map(move |jump| {
        let floor = jump.from() - span.begin();
        let down = since.get(floor.max(0.0) as usize).copied().flatten();
        let begin = down.map_or(floor, |down| floor.min(down as f64));
        let end = look.clock.counts(jump.flight(look.clock).begin) - span.begin();
        let ((x0, y0, _), (x1, y1, _)) = (track.stand(begin), track.stand(end));
        let length = (x1 - x0).hypot(y1 - y0);
        let length = if begin < floor { length.max(reach(track, begin, end)) } else { length };
        (length > limit + 1e-6).then_some(LongSteps {
            begin,
            end,
            at: begin,
            length,
            limit,
            caper: false,
            standing: begin < floor,
        })
    })
}

/// Whether none of some runs is told where another is.
fn runs_apart(runs: &[LongSteps], other: &LongSteps) -> bool {
    runs.iter().all(|run| run.end <= other.begin + 1e-6 || run.begin >= other.end - 1e-6)
}

/// Whether a foot lands.
fn lands(fall: &Footfall) -> bool {
    fall.weight != Weight::Air && !fall.stays
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

impl LongSteps {
    /// As it is told of a dancer who is then in a place.
    fn told(&self, dancer: Dancer, spot: (f64, f64)) -> Found {
        let how = match (self.caper, self.standing) {
            (true, _) => "in one caper",
            (_, true) => "on feet that stand",
            _ => "in one step",
        };
        Found {
            kind: FaultKind::OverLong,
            at: self.at,
            lasts: (self.begin, self.end),
            dancers: vec![dancer],
            value: self.length,
            limit: self.limit,
            text: format!("{dancer} has to cover {:.2} m {how}", self.length),
            spot: Some(spot),
        }
    }
}

/// The runs of steps longer than a length, metres. One step between that is not so long, as a hop is, does not part
/// them.
fn long_steps(track: &Track, limit: f64) -> Vec<LongSteps> {
    let falls = track.footing().falls();
    let fastest = track.moves().iter().map(|leg| leg.pace.fastest()).fold(0.0, f64::max);
    let mut runs: Vec<LongSteps> = Vec::new();
    let (mut from, mut last) = (0, 0.0);
    let mut down = Down::default();
    for count in 1..=falls.len() {
        // The last landing of a figure is the first of the next one.
        if falls.get(count).is_some_and(|fall| fall.weight == Weight::Air || fall.stays) {
            continue;
        }
        let stood = down.lands(falls, count).filter(|since| *since < from);
        let (begin, end, before) = (from as f64, count as f64, last);
        let caper = is_caper(falls, from, count);
        // Where nothing lands the feet are still where they were.
        let standing = stands(falls, count);
        if !standing {
            (from, last) = (count, begin);
        }
        let usual = limit;
        let limit = match (caper, standing) {
            (true, _) => limit * CAPER,
            (_, true) => limit.min(STANDING),
            _ => limit,
        };
        // A foot that was down before the landing before, as feet are that stood between, has been there for all of that way.
        if let Some(since) = stood
            && fastest * (end - since as f64) > usual
        {
            let begin = since as f64;
            let length = reach(track, begin, end);
            if length > usual + 1e-6 && runs.last().is_none_or(|run| run.end <= begin + 1e-6) {
                runs.push(LongSteps {
                    begin,
                    end,
                    at: begin,
                    length,
                    limit: usual,
                    caper: false,
                    standing: true,
                });
                continue;
            }
        }
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
        let stays = falls.get(begin as usize..count).unwrap_or_default().iter().any(|fall| fall.stays);
        let length = (x1 - x0).hypot(y1 - y0);
        let length = if stays { length.max(reach(track, begin, end)) } else { length };
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

/// Since which count each foot, left and right, has been down; the beginning of a figure is as early as is looked.
#[derive(Default)]
struct Down([Option<usize>; 2]);

/// For each count of a figure since when a foot has been down that stands on it, the one that has been for longer.
fn since_when(falls: &[Footfall]) -> Vec<Option<usize>> {
    let mut down = Down::default();
    let mut since = Vec::with_capacity(falls.len());
    for (count, fall) in falls.iter().enumerate() {
        if lands(fall) {
            down.lands(falls, count);
        }
        since.push(down.0.into_iter().flatten().min());
    }
    since
}

impl Down {
    /// Puts down what lands on a count: gives since when a foot was down that is lifted then, the one that was down for longer. One that
    /// steps anew after standing is lifted as well.
    fn lands(&mut self, falls: &[Footfall], count: usize) -> Option<usize> {
        let Some(fall) = falls.get(count) else { return self.0.into_iter().flatten().min() };
        // What flew came down anew; the way to where a jump leaves the floor is looked at by itself.
        let before = count.checked_sub(1).and_then(|before| falls.get(before));
        let hopped = self.0.into_iter().flatten().min().filter(|_| fall.hop);
        if fall.hop || before.is_some_and(|before| before.weight == Weight::Air) {
            self.0 = [None; 2];
        }
        let lands = [fall.weight != Weight::Right, fall.weight != Weight::Left];
        let both = lands == [true; 2];
        let lifted = self.0.into_iter().flatten().min().filter(|_| !both);
        self.0 = [0, 1].map(|side: usize| {
            let (down, lands) = (*self.0.get(side)?, *lands.get(side)?);
            if both { down.or(Some(count)) } else { lands.then_some(count) }
        });
        lifted.or(hopped)
    }
}

/// How far somebody gets from a foot that stays between two counts, out and back as well: twice the farthest from half-way, where it is.
fn reach(track: &Track, begin: f64, end: f64) -> f64 {
    let ((x0, y0, _), (x1, y1, _)) = (track.stand(begin), track.stand(end));
    let middle = (f64::midpoint(x0, x1), f64::midpoint(y0, y1));
    let looks = ((end - begin) * 4.0) as u32;
    let off = |look: u32| {
        let (x, y, _) = track.stand(begin + f64::from(look) / 4.0);
        2.0 * (x - middle.0).hypot(y - middle.1)
    };
    (0..=looks).map(off).fold(0.0, f64::max)
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
