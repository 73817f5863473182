use super::facts::{CourseSaid, Fact, Going, PhraseFacts, StepRun, TurnWhen, Turning};
use super::feet::starts;
use super::look::{OneDancer, way_of};
use super::{passes::passes, round::swept, travel::goings};
use crate::dance::{BarCounts, Dance, Dancer, Foot, Holding, Landing, Number};
use crate::motion::{Blow, Footfall, Motion, SpanIndex, Weight, steps::Step};

/// Turns of less than this are not worth saying, degrees.
const LEAST: f64 = 15.0;
/// Standing longer than this between two stretches of travelling is said, counts.
const STAY: f64 = 3.0;
/// Hands as high as this are high, 1 being the highest.
const HIGH: f64 = 0.85;
/// So many counts before and after it a hand is busy with a strike.
const STRIKES: f64 = 0.9;

/// What there is to say of a dancer in a span (index) of a motion, phrase by phrase.
#[must_use]
pub fn facts(dance: &Dance, motion: &Motion, span: SpanIndex, dancer: Dancer) -> Vec<PhraseFacts> {
    let Some(span) = motion.span(span) else { return Vec::new() };
    let Some(track) = span.track(dancer) else { return Vec::new() };
    let look = OneDancer { ground: motion.ground(), motion, span, dancer, track };
    phrases(span.bar_counts()).into_iter().map(|(begin, end)| phrase(dance, &look, begin, end)).collect()
}

/// The counts at which the phrases of a figure begin and end: four bars where it has them, half the figure where it is
/// shorter than two of those, and the whole of a figure of less than six bars.
fn phrases(bar_counts: &BarCounts) -> Vec<(f64, f64)> {
    let mut lengths = Vec::new();
    let bars = bar_counts.bars();
    match bars {
        0 => {}
        1..=5 => lengths.push(bars),
        6 => lengths.extend([3, 3]),
        _ => {
            lengths.extend(std::iter::repeat_n(4, bars as usize / 4));
            match (bars % 4, lengths.last_mut()) {
                (0, _) => {}
                // A bar alone belongs to the phrase before it.
                (1, Some(last)) => *last += 1,
                (rest, _) => lengths.push(rest),
            }
        }
    }
    let mut first = 0;
    lengths
        .into_iter()
        .map(|bars| {
            let from = bar_counts.begin_of(first);
            first += bars;
            (from, bar_counts.begin_of(first))
        })
        .collect()
}

fn phrase(dance: &Dance, look: &OneDancer, begin: f64, end: f64) -> PhraseFacts {
    let turns = turns(look, begin, end);
    let plain: Vec<(f64, f64, f64)> =
        turns.iter().map(|turn| (turn.begin, turn.end, turn.way.sign() * turn.degrees)).collect();
    let mut goings = goings(look, begin, end, &plain);
    for going in &mut goings {
        let facing = |count: f64| look.stand(count).2;
        let mut own = 0.0;
        for turn in &plain {
            let (from, to) = (turn.0.max(going.begin), turn.1.min(going.end));
            if to > from {
                own += facing(to) - facing(from);
            }
        }
        going.turned = facing(going.end) - facing(going.begin) - own;
        if own.abs() < 1.0 && going.turned.abs() > 1.0 {
            going.set_off = going.turned - going.bend;
        }
    }
    let runs = runs(look, begin, end);
    let stands = still_between(look, begin, end);
    // What to say, by when it begins and then by what goes first.
    let mut timed: Vec<(f64, u8, Fact)> = Vec::new();
    for start in starts(look, begin, end) {
        timed.push((start.at, 0, Fact::Start(start)));
    }
    let arrivals = std::iter::once(begin).chain(goings.iter().map(|going| going.end));
    for (arrived, next) in arrivals.zip(&goings) {
        let turned = plain.iter().any(|turn| turn.0 < next.begin - 1.5 && turn.1 > arrived + 1.5);
        if next.begin - arrived >= STAY && !turned {
            let until = Some(next.begin);
            let still = still_between(look, arrived, next.begin);
            timed.push((arrived, 2, if still { Fact::Stand(until) } else { Fact::OnTheSpot(until) }));
        }
    }
    if let Some((arrived, until)) = stays_at_last(&goings, &plain, end) {
        let still = still_between(look, arrived, until);
        let until = Some(until);
        timed.push((arrived, 2, if still { Fact::Stand(until) } else { Fact::OnTheSpot(until) }));
    }
    for pass in passes(look, begin, end) {
        let during = |going: &&mut Going| going.begin - 0.1 <= pass.at && pass.at <= going.end + 0.1;
        match goings.iter_mut().find(during) {
            Some(going) if round_together(look, going, pass.number) => {}
            Some(going) => {
                // Being beside those who are passed is no more than passing them.
                going.beside = going.beside.filter(|(number, _)| *number != pass.number);
                going.passes.push(pass);
            }
            None => timed.push((pass.at, 5, Fact::Passed(pass))),
        }
    }
    if goings.is_empty() && turns.is_empty() {
        // Standing at first is said, and until when.
        let still = |count: &u32| still_between(look, f64::from(*count), f64::from(*count) + 1.0);
        let until = f64::from((begin as u32..end as u32).find(|count| !still(count)).unwrap_or(end as u32));
        let fact = if stands {
            Fact::Stand(None)
        } else if until > begin {
            Fact::Stand(Some(until))
        } else {
            Fact::OnTheSpot(None)
        };
        timed.push((begin, 2, fact));
    }
    timed.extend(goings.into_iter().map(|going| (going.begin, 3, Fact::Go(going))));
    for turn in turns {
        let first = turn.begin <= begin + 1e-6 || turn.when == TurnWhen::Start;
        timed.push((turn.begin, if first { 1 } else { 4 }, Fact::Turn(turn)));
    }
    timed.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    let mut facts: Vec<Fact> = timed.into_iter().map(|(_, _, fact)| fact).collect();
    facts.push(Fact::End(look.place(end), look.facing(end)));
    let high: Vec<StepRun> = runs
        .iter()
        .filter(|(_, from, to)| is_high(dance, look, *from, *to))
        .map(|run| run.0.clone())
        .collect();
    if !stands && !runs.is_empty() {
        facts.push(Fact::Steps(runs.iter().map(|run| run.0.clone()).collect(), hop_at(look, end)));
        if !high.is_empty() && dance.holding != Holding::Nothing {
            facts.push(Fact::Hands(dance.holding, high));
        }
    }
    PhraseFacts { begin, end, facts }
}

/// From when until when a dancer who has travelled stays, where they turn later or have long to stay; `turns` are begin, end,
/// degrees.
fn stays_at_last(goings: &[Going], turns: &[(f64, f64, f64)], end: f64) -> Option<(f64, f64)> {
    let arrived = goings.last()?.end;
    if turns.iter().any(|turn| turn.0 < arrived && turn.1 > arrived + 0.5) {
        return None;
    }
    let next = turns.iter().map(|turn| turn.0).find(|turn| *turn >= arrived - 1e-6);
    match next {
        Some(next) => (next - arrived >= STAY).then_some((arrived, next)),
        None => (end - arrived >= 2.0 * STAY).then_some((arrived, end)),
    }
}

/// Whether somebody goes round the middle of the set in the same round: before or behind, and not passed.
fn round_together(look: &OneDancer, going: &Going, number: Number) -> bool {
    let CourseSaid::Round(way, degrees) = going.course else { return false };
    let track = look.span.track(number.dancer());
    track.is_some_and(|track| swept(track, going.begin, going.end) * way.sign() > degrees / 2.0)
}

/// The foot of the hop on the upbeat that ends at a count.
fn hop_at(look: &OneDancer, end: f64) -> Option<Foot> {
    let fall = look.span.fall(look.dancer, (end as usize).checked_sub(1)?);
    let fall = fall.filter(|fall| fall.upbeat && fall.hop)?;
    match fall.weight {
        Weight::Left => Some(Foot::Left),
        Weight::Right => Some(Foot::Right),
        Weight::Both | Weight::Air => None,
    }
}

/// The turns of the dancer's own, cut to the phrase.
fn turns(look: &OneDancer, begin: f64, end: f64) -> Vec<Turning> {
    let mut found = Vec::new();
    for turn in look.track.turns() {
        let (from, to) = (turn.begin.max(begin), turn.end.min(end));
        if to - from < 1e-6 {
            continue;
        }
        let degrees = look.stand(to).2 - look.stand(from).2;
        if degrees.abs() < LEAST {
            continue;
        }
        let moving = look.track.travelled(to) - look.track.travelled(from) > 0.15;
        let led = look.track.followed().any(|(begin, end)| begin <= to + 0.01 && to + 0.25 < end);
        found.push(Turning {
            begin: from,
            end: to,
            way: way_of(degrees),
            degrees: degrees.abs(),
            when: when(look, begin, from, to),
            moving,
            to: (!led).then(|| look.facing(to)),
        });
    }
    found
}

/// When a turn is danced, by the steps under way.
fn when(look: &OneDancer, phrase: f64, from: f64, to: f64) -> TurnWhen {
    if from <= phrase + 1e-6 && to - from <= 1.6 {
        return TurnWhen::Start;
    }
    let falls = look.track.footing().falls();
    let (first, last) = ((from + 1e-6).max(0.0) as usize, (to - 1e-6).max(0.0) as usize);
    let Some(under) = falls.get(first..=last).filter(|under| !under.is_empty()) else {
        return TurnWhen::Counts;
    };
    let step = under.first().map_or(0, |fall| fall.step);
    if under.iter().any(|fall| fall.step != step) {
        return TurnWhen::Counts;
    }
    if under.len() == 1 && under.iter().all(|fall| fall.hop) {
        return TurnWhen::Hop;
    }
    let begins = falls.iter().take(last + 1).rev().take_while(|fall| fall.step == step).count();
    let start = (last + 1).saturating_sub(begins);
    let run = falls.iter().skip(start).take_while(|fall| fall.step == step);
    let many = run.clone().filter(|fall| fall.begins).count();
    // On most of them.
    if (last + 1 - first) * 2 <= run.count() {
        return TurnWhen::Counts;
    }
    step_run(look, step, many).map_or(TurnWhen::Counts, TurnWhen::Steps)
}

fn step_run(look: &OneDancer, step: usize, many: usize) -> Option<StepRun> {
    let step = look.motion.known().get(step)?;
    Some(StepRun { many, short: step.short.clone(), name: step.name.clone() })
}

/// The steps that begin in a phrase, run by run, and the counts of each run.
fn runs(look: &OneDancer, begin: f64, end: f64) -> Vec<(StepRun, usize, usize)> {
    let mut runs: Vec<(usize, usize, usize, usize)> = Vec::new();
    let (first, last) = (begin.max(0.0).ceil() as usize, end.max(0.0).ceil() as usize);
    for (count, fall) in look.track.footing().falls().iter().enumerate().take(last).skip(first) {
        match runs.last_mut() {
            Some(run) if run.0 == fall.step => {
                run.1 += usize::from(fall.begins);
                run.3 = count + 1;
            }
            _ => runs.push((fall.step, usize::from(fall.begins), count, count + 1)),
        }
    }
    runs.into_iter()
        .filter(|run| run.1 > 0)
        .filter_map(|(step, many, from, to)| Some((step_run(look, step, many)?, from, to)))
        .collect()
}

/// Whether nothing but standing still is danced between two counts.
fn still_between(look: &OneDancer, from: f64, to: f64) -> bool {
    let under_way = look.track.footing().falls().get(from.max(0.0) as usize..(to - 1e-6).ceil() as usize);
    under_way.is_none_or(|falls| {
        falls.iter().all(|fall| look.motion.known().get(fall.step).is_some_and(stands_still))
    })
}

/// Whether a step is standing still: both feet down all through it.
fn stands_still(step: &Step) -> bool {
    step.feet.iter().all(|landing| *landing == Landing::Both)
}

/// Whether the hands that hold something go high between two counts.
fn is_high(dance: &Dance, look: &OneDancer, from: usize, to: usize) -> bool {
    let falls = look.track.footing().falls().get(from..to).unwrap_or_default();
    // A hand that taps or claps then does that.
    let struck = |at: usize| {
        let count = look.span.begin() + at as f64;
        let near = |blow: &Blow| blow.count - STRIKES < count && count < blow.until + STRIKES;
        look.motion.blows().iter().any(|blow| blow.has(look.dancer) && near(blow))
    };
    let mut at = from;
    // Each step by itself: one whose hands tap on a count on which they would be high is not told as high.
    falls.chunk_by(|_, next| !next.begins).any(|step| {
        let counts = at..at + step.len();
        at = counts.end;
        let is_high = |fall: &Footfall| {
            let [left, right] = fall.hands;
            right >= HIGH || (dance.holding == Holding::Handkerchiefs && left >= HIGH)
        };
        let mut high = step.iter().zip(counts).filter(|(fall, _)| is_high(fall)).peekable();
        high.peek().is_some() && high.all(|(_, at)| !struck(at))
    })
}
