//! What is told to watch for, applied as told: the dance is changed so, and what `bellpad check` looks for is looked for in it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{
    Dance, Dancer, Extra, FaultKind, Figure, Lead, Leg, Part, Set, SetKind, Spot, Turn, Way, read,
};
use bellpad::faults::{Fault, ToWatch, WatchKind, Watched, find_faults, watch_dance};
use bellpad::figures::{all, motion_of, named_figure};
use bellpad::motion::{Motion, Span, SpanIndex, Track};
use common::samples;
use rayon::prelude::*;
use std::collections::HashSet;
use std::fs;
use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

/// A way is drawn anew in so many legs a count.
const PARTS: u32 = 16;
/// A sixteenth of a count.
const BIT: f64 = 1.0 / 16.0;

struct Whole {
    dance: Dance,
    motion: Motion,
    lists: Vec<Arc<ToWatch>>,
}

/// The samples, and each named figure of 4 to 12.
fn dances() -> Vec<Whole> {
    let mut dances: Vec<Dance> =
        samples().iter().map(|path| read(&fs::read(path).unwrap()).unwrap()).collect();
    for figure in all() {
        for dancers in [4, 6, 8, 10, 12] {
            let mut dance = Dance::new(figure.title, Set::longways(dancers, 2.4, 1.8));
            let Ok(named) = named_figure(figure.name, Extra::new(), &dance.set) else { continue };
            dance.figures.push(named);
            dances.push(dance);
        }
    }
    dances.into_iter().map(whole_of).collect()
}

fn whole_of(dance: Dance) -> Whole {
    let motion = motion_of(&dance, None).unwrap();
    let lists = watch_dance(&dance, &motion, &mut || true).unwrap();
    Whole { dance, motion, lists }
}

/// What is told of every figure of a dance, each figure once.
fn told(whole: &Whole) -> Vec<Watched> {
    let mut seen = HashSet::new();
    let spans = whole.motion.spans().iter().zip(&whole.lists);
    spans.filter(|(span, _)| seen.insert(span.identity())).flat_map(|(_, list)| list.all.clone()).collect()
}

/// What is wrong of all that is told of some kinds, and how much is told.
fn wrong_of(
    wanted: impl Fn(&Watched) -> bool + Sync,
    wrong: impl Fn(&Whole, &Watched) -> Result<(), String> + Sync,
) -> (usize, Vec<String>) {
    wrong_in(&dances(), wanted, wrong)
}

fn wrong_in(
    dances: &[Whole],
    wanted: impl Fn(&Watched) -> bool + Sync,
    wrong: impl Fn(&Whole, &Watched) -> Result<(), String> + Sync,
) -> (usize, Vec<String>) {
    let all: Vec<(&Whole, Watched)> =
        dances.iter().flat_map(|whole| told(whole).into_iter().map(move |one| (whole, one))).collect();
    let all: Vec<_> = all.into_iter().filter(|(_, one)| wanted(one)).collect();
    let found = all.par_iter().filter_map(|(whole, one)| {
        wrong(whole, one).err().map(|wrong| format!("{}: {}: {wrong}", whole.dance.title, one.text))
    });
    (all.len(), found.collect())
}

/// A way through a figure drawn leg by leg, as it is asked to be at each count, from where it begins.
fn drawn(number: u32, counts: f64, stand: impl Fn(f64) -> (f64, f64, f64), jumps: bool) -> Part {
    let mut part = Part::still(number);
    let mut at = stand(0.0);
    if jumps {
        part.legs.push(Leg::straight(0.0, 1.0 / 64.0, at.0, at.1));
    }
    for look in 0..(counts * f64::from(PARTS)) as u32 {
        let (from, to) = (f64::from(look) / f64::from(PARTS), f64::from(look + 1) / f64::from(PARTS));
        let from = if jumps && look == 0 { 1.0 / 64.0 } else { from };
        let next = stand(to);
        if (next.0 - at.0).hypot(next.1 - at.1) > 1e-9 {
            let mut leg = Leg::straight(from, to, next.0, next.1);
            leg.pace = vec![0.5, 1.0];
            part.legs.push(leg);
        }
        if (next.2 - at.2).abs() > 1e-9 {
            let way = if next.2 < at.2 { Way::Left } else { Way::Right };
            part.turns.push(Turn::to_face(from, to, way, next.2));
        }
        at = next;
    }
    part
}

/// A figure by itself of two, the first of whom is otherwise than drawn, the other as drawn: no more than where both are.
fn changed(
    whole: &Whole,
    span: &Span,
    (who, other): (Dancer, Dancer),
    stand: &dyn Fn(&Track, f64) -> (f64, f64, f64),
) -> Dance {
    let counts = span.end() - span.begin();
    let mut set = Set::longways(2, 2.0, 2.0);
    (set.kind, set.dancers) = (SetKind::Spots, 2);
    let mut figure = Figure::drawn("changed", "Changed", (counts / 4.0).ceil() as u32);
    for (number, dancer) in [(1, who), (2, other)] {
        let track = span.track(dancer).unwrap();
        let stand = |count: f64| if dancer == who { stand(track, count) } else { track.stand(count) };
        let (x, y, facing) = stand(0.0);
        set.spots.push(Spot { x, y, facing, extra: Extra::new() });
        figure.parts.push(drawn(number, counts, stand, false));
    }
    let mut dance = Dance::new("Changed", set);
    dance.limits = whole.dance.limits.clone();
    dance.figures.push(figure);
    dance
}

/// The counts at which `check` finds that two clash in a dance of theirs.
fn clashes(dance: &Dance) -> Vec<f64> {
    let motion = motion_of(dance, None).unwrap();
    let faults = find_faults(dance, &motion);
    faults.iter().filter(|fault| fault.kind == FaultKind::Clash).map(Fault::counts).collect()
}

fn shifted(whole: &Whole, span: &Span, pair: (Dancer, Dancer), by: f64) -> Dance {
    let counts = span.end() - span.begin();
    changed(whole, span, pair, &|track, count| track.stand((count - by).clamp(0.0, counts)))
}

/// Somebody out of time by what is told and a sixteenth more clashes, at the count that the sentence names and as much later or earlier as is
/// told; and by a sixteenth less does not. Where the two are together for less than a sixteenth of a count it may be with less than that more:
/// of no more than one sentence in fifty.
#[test]
fn who_is_out_of_time_by_what_is_told_clashes_and_by_less_does_not() {
    let timed = |one: &Watched| matches!(one.kind, WatchKind::Late | WatchKind::Early) && !one.of_blow;
    let brief = AtomicUsize::new(0);
    let (told, wrong) = wrong_of(timed, |whole, one| {
        let span = whole.motion.span(one.span).unwrap();
        let late = one.kind == WatchKind::Late;
        let sign = if late { 1.0 } else { -1.0 };
        let pair = (one.dancers[0], one.dancers[one.who]);
        let due = told_at(span, &one.text, if late { " by " } else { " before " });
        let at = due + sign * one.slack;
        let found = |by: f64| clashes(&shifted(whole, span, pair, sign * by));
        let there = |by: f64| found(by).iter().any(|clash| (clash - at).abs() < 0.75);
        if !there(one.slack + BIT) {
            if ![BIT / 2.0, BIT / 4.0, BIT / 8.0].into_iter().any(|more| there(one.slack + more)) {
                return Err(format!("nothing by so much at {at}: {:?}", found(one.slack + BIT)));
            }
            brief.fetch_add(1, Ordering::Relaxed);
        }
        let less = found((one.slack - BIT).max(0.0));
        if less.is_empty() { Ok(()) } else { Err(format!("by less too: {less:?}")) }
    });
    assert!(wrong.is_empty(), "{} of {told}: {wrong:#?}", wrong.len());
    assert!(told > 250, "{told}");
    let brief = brief.into_inner();
    assert!(brief * 50 <= told, "{brief} of {told} are together for a moment only");
}

/// One who goes four metres and stands there, and another who then goes by across the way, six tenths of a metre before where they stand: in
/// every direction.
fn short_of_a_crossing() -> Vec<Whole> {
    let dances = (0..24).map(|turn| {
        let (sin, cos) = (f64::from(turn) * 15.0_f64).to_radians().sin_cos();
        let spot = |along: f64, aside: f64| (along * sin + aside * cos, along * cos - aside * sin);
        let mut set = Set::longways(2, 2.0, 2.0);
        (set.kind, set.dancers) = (SetKind::Spots, 2);
        let (x, y) = spot(3.4, -2.0);
        set.spots = vec![
            Spot { x: 0.0, y: 0.0, facing: 0.0, extra: Extra::new() },
            Spot { x, y, facing: 0.0, extra: Extra::new() },
        ];
        let mut dance = Dance::new("A tenth short", set);
        let mut figure = Figure::drawn("short", "Short", 4);
        let mut parts = [Part::still(1), Part::still(2)];
        let (x, y) = spot(4.0, 0.0);
        parts[0].legs.push(Leg::straight(0.0, 4.0, x, y));
        let (x, y) = spot(3.4, 2.0);
        let begin = 5.0 + f64::from(turn % 4);
        parts[1].legs.push(Leg::straight(begin, begin + 4.0, x, y));
        figure.parts.extend(parts);
        dance.figures.push(figure);
        whole_of(dance)
    });
    dances.collect()
}

/// Who takes the whole way a tenth short clashes with whom it is told, not before it is told; and as drawn does not.
#[test]
fn who_is_a_tenth_short_clashes() {
    let is_short = |one: &Watched| one.kind == WatchKind::Short;
    let wrong = |whole: &Whole, one: &Watched| {
        let span = whole.motion.span(one.span).unwrap();
        let pair = (one.dancers[0], one.dancers[one.who]);
        let found = |short: f64| {
            clashes(&changed(whole, span, pair, &|track, count| {
                let ((x0, y0, _), (x, y, facing)) = (track.stand(0.0), track.stand(count));
                (x - short * (x - x0), y - short * (y - y0), facing)
            }))
        };
        let at = told_at(span, &one.text, " at ");
        let (drawn, short) = (found(0.0), found(0.1));
        let is_so = drawn.is_empty() && short.iter().any(|clash| *clash > at - 0.25 && *clash < at + 2.0);
        if is_so { Ok(()) } else { Err(format!("{drawn:?} and {short:?}, not {at}")) }
    };
    let (told, found) = wrong_in(&short_of_a_crossing(), is_short, wrong);
    assert!(found.is_empty(), "{} of {told}: {found:#?}", found.len());
    assert_eq!(told, 24, "each of them is told, once");
    let (_, found) = wrong_of(is_short, wrong);
    assert!(found.is_empty(), "{found:#?}");
}

/// A dance of one figure of another, with some parts otherwise.
fn with_parts(whole: &Whole, index: SpanIndex, parts: Vec<Part>) -> Dance {
    let span = whole.motion.span(index).unwrap();
    let mut dance = whole.dance.clone();
    for part in parts {
        let all = &mut dance.figures[span.figure].parts;
        all.retain(|known| known.place != part.place);
        all.push(part);
        all.sort_by_key(|part| part.place);
    }
    dance
}

/// The faults of a kind in the span that are told, by their count in it, of one dancer or of two.
fn found_in(dance: &Dance, index: SpanIndex, kind: FaultKind, dancers: &[Dancer]) -> Vec<f64> {
    let motion = motion_of(dance, None).unwrap();
    let begin = motion.span(index).unwrap().begin();
    let numbers: Vec<u32> = dancers.iter().map(|dancer| dancer.number().0).collect();
    let faults = find_faults(dance, &motion);
    let here = faults.iter().filter(|fault| fault.span == index && fault.kind == kind);
    let mut counts: Vec<f64> = here
        .filter(|fault| numbers.iter().all(|number| fault.dancers.iter().any(|one| one.0 == *number)))
        .map(|fault| fault.counts() - begin)
        .collect();
    counts.sort_by(f64::total_cmp);
    counts
}

/// Ends miss for whoever is out of time by what is told and a sixteenth more, and by a sixteenth less they do not.
#[test]
fn who_is_out_of_time_by_what_is_told_misses() {
    let (told, wrong) = wrong_of(
        |one| one.of_blow,
        |whole, one| {
            let span = whole.motion.span(one.span).unwrap();
            let (counts, pair) = (span.end() - span.begin(), [one.dancers[0], one.dancers[1]]);
            let sign = if one.kind == WatchKind::Late { 1.0 } else { -1.0 };
            let misses = |by: f64| {
                let parts = one.watchers().iter().map(|dancer| {
                    let track = span.track(*dancer).unwrap();
                    let stand = |count: f64| track.stand((count - sign * by).clamp(0.0, counts));
                    let mut part = span.part(*dancer).unwrap().clone();
                    let anew = drawn(part.place.get(), counts, stand, sign < 0.0);
                    (part.legs, part.turns) = (anew.legs, anew.turns);
                    part
                });
                let dance = with_parts(whole, one.span, parts.collect());
                !found_in(&dance, one.span, FaultKind::OutOfReach, &pair).is_empty()
            };
            match (misses(one.slack + BIT), misses(one.slack - BIT)) {
                (true, false) => Ok(()),
                other => Err(format!("{other:?}")),
            }
        },
    );
    assert!(wrong.is_empty(), "{} of {told}: {wrong:#?}", wrong.len());
    assert!(told > 10, "{told}");
}

/// Begun on the wrong foot, the foot that is told is not free where it is told: with that first lead changed, and where all that follows would
/// go with it, with the lead of that step kept as well.
#[test]
fn the_foot_is_not_free_where_it_is_told() {
    let (told, wrong) = wrong_of(
        |one| one.kind == WatchKind::Foot,
        |whole, one| {
            let span = whole.motion.span(one.span).unwrap();
            let dancer = one.dancers[0];
            let leads = span.track(dancer).unwrap().footing().leads();
            let first = leads.iter().find(|made| (made.at as f64 - one.at).abs() < 0.5).unwrap();
            let said = one.text.rsplit_once("bar ").unwrap().1;
            let (bar, count) = said.split_once(" count ").unwrap();
            let shows = span.bar_counts().begin_of(bar.parse::<u32>().unwrap() - 1)
                + count.parse::<f64>().unwrap()
                - 1.0;
            let as_led = |more: bool| {
                let mut part = span.part(dancer).unwrap().clone();
                let keep = leads.iter().find(|made| (made.at as f64 - shows).abs() < 0.5).filter(|_| more);
                let led = keep.map(|made| (made.at, made.foot)).into_iter();
                for (at, foot) in led.chain([(first.at, first.foot.other())]) {
                    part.leads.retain(|lead| (lead.at - at as f64).abs() > 0.5);
                    part.leads.push(Lead { at: at as f64, foot, extra: Extra::new() });
                }
                part.leads.sort_by(|one, two| one.at.total_cmp(&two.at));
                let dance = with_parts(whole, one.span, vec![part]);
                let found = found_in(&dance, one.span, FaultKind::WrongFoot, &[dancer]);
                found.into_iter().find(|at| *at > first.at as f64 + 0.5)
            };
            let alone = as_led(false);
            if alone.is_some_and(|at| (at - shows).abs() < 0.01) {
                return Ok(());
            }
            // What is found in another half is no matter of this one.
            let kept = as_led(true);
            if kept.is_some_and(|at| (at - shows).abs() < 0.01) && alone.is_none_or(|at| at > shows) {
                return Ok(());
            }
            Err(format!("{alone:?} and {kept:?}, not {shows}"))
        },
    );
    assert!(wrong.is_empty(), "{} of {told}: {wrong:#?}", wrong.len());
    assert!(told > 30, "{told}");
}

/// How many late turns `check` finds of the dancer of whom it is told, where the turn is so many counts later.
fn late_turns(whole: &Whole, one: &Watched, by: f64) -> usize {
    let span = whole.motion.span(one.span).unwrap();
    let dancer = one.dancers[0];
    let track = span.track(dancer).unwrap();
    let mut part = span.part(dancer).unwrap().clone();
    part.turns = track.turns().to_vec();
    for (turn, amount) in part.turns.iter_mut().zip(track.amounts()) {
        (turn.on, turn.by_lead, turn.face, turn.spins) = (None, false, None, 0);
        turn.by = Some(amount.abs());
        turn.way = if *amount < 0.0 { Way::Left } else { Way::Right };
        if (turn.begin - one.at).abs() < 1e-6 {
            (turn.begin, turn.end) = (turn.begin + by, turn.end + by);
        }
    }
    let dance = with_parts(whole, one.span, vec![part]);
    found_in(&dance, one.span, FaultKind::LateTurn, &[dancer]).len()
}

/// A turn that has to be done by the jump may be so much later, and a sixteenth of a count more is told as late.
#[test]
fn a_turn_is_late_for_the_jump_by_what_is_told() {
    let (told, wrong) = wrong_of(
        |one| one.kind == WatchKind::Turn && one.text.contains("turn done by the jump"),
        |whole, one| {
            let late = |by: f64| late_turns(whole, one, by);
            let as_drawn = late(0.0);
            match (late(one.slack + BIT) > as_drawn, late((one.slack - BIT).max(0.0)) > as_drawn) {
                (true, false) => Ok(()),
                other => Err(format!("{other:?}, slack {}, as drawn {as_drawn}", one.slack)),
            }
        },
    );
    assert!(wrong.is_empty(), "{} of {told}: {wrong:#?}", wrong.len());
    assert!(told > 30, "{told}");
}

/// The count of the figure that a sentence names after some words: `bar 2 count 1.25`.
fn told_at(span: &Span, text: &str, after: &str) -> f64 {
    let said = text.split_once(after).unwrap().1.split_once("bar ").unwrap().1;
    let said = said.split([',', ';']).next().unwrap();
    let (bar, count) = said.split_once(" count ").unwrap();
    span.bar_counts().begin_of(bar.parse::<u32>().unwrap() - 1) + count.parse::<f64>().unwrap() - 1.0
}

/// Whoever is told to be past is nearest when it is told, ahead before it and behind after it; the turn begins so much later. Where there is a
/// jump after it as well, a turn as much later as is told is in time, and with a sixteenth of a count more it is late where the jump is what is
/// near.
#[test]
fn whoever_is_to_be_past_is_past_then() {
    let (told, wrong) = wrong_of(
        |one| one.kind == WatchKind::Turn && one.text.contains(" past, "),
        |whole, one| {
            let span = whole.motion.span(one.span).unwrap();
            let (dancer, other) = (one.dancers[0], one.dancers[1]);
            let (own, their) = (span.track(dancer).unwrap(), span.track(other).unwrap());
            let at = told_at(span, &one.text, " past, ");
            let way = |count: f64| {
                let ((x, y, _), (ox, oy, _)) = (own.stand(count), their.stand(count));
                (ox - x, oy - y)
            };
            let apart = |count: f64| way(count).0.hypot(way(count).1);
            let looks = (-64..=64).map(|look| at + f64::from(look) / 64.0);
            let nearest = looks.min_by(|one, two| apart(*one).total_cmp(&apart(*two))).unwrap();
            // Said to a quarter of a count.
            if (nearest - at).abs() > 0.125 + 2.0 * BIT {
                return Err(format!("nearest at {nearest}, not at {at}"));
            }
            let (before, after) = (way(nearest - 1.0), way(nearest + 1.0));
            let other_way = before.0 * after.0 + before.1 * after.1
                < 0.5 * before.0.hypot(before.1) * after.0.hypot(after.1);
            if !other_way {
                return Err(format!("{before:?} and {after:?}: not past"));
            }
            if one.at < nearest - 2.0 * BIT || one.slack > one.at - nearest + 2.0 * BIT {
                return Err(format!("turned at {}, {} to spare after {nearest}", one.at, one.slack));
            }
            if !one.text.contains("before the jump, ") {
                let exact = (one.slack - (one.at - nearest)).abs() < 2.0 * BIT;
                return if exact { Ok(()) } else { Err(format!("{} and {nearest}", one.at)) };
            }
            let as_drawn = late_turns(whole, one, 0.0);
            let jump_is_near = one.slack < one.at - nearest - 2.0 * BIT;
            let late = |by: f64| late_turns(whole, one, by) > as_drawn;
            match (late(one.slack + BIT), late((one.slack - BIT).max(0.0))) {
                (_, true) => Err("late by less".to_owned()),
                (false, _) if jump_is_near => Err("not late by more".to_owned()),
                _ => Ok(()),
            }
        },
    );
    assert!(wrong.is_empty(), "{} of {told}: {wrong:#?}", wrong.len());
    assert!(told > 10, "{told}");
}

/// A sentence of several is true of each of them by themselves.
#[test]
fn what_is_told_of_several_is_told_of_each() {
    let (mut many, mut wrong) = (0, Vec::new());
    for whole in &dances() {
        for list in &whole.lists {
            for joined in list.for_side().iter().filter(|joined| joined.who > 1) {
                many += 1;
                wrong.extend(joined.watchers().iter().filter_map(|dancer| {
                    let own = |one: &&Watched| {
                        let others = &one.dancers[one.who..];
                        one.kind == joined.kind
                            && one.watchers().contains(dancer)
                            && (one.slack - joined.slack).abs() < 0.1
                            && (one.at - joined.at).abs() < 0.4
                            && others.iter().all(|other| joined.dancers.contains(other))
                    };
                    let is_told = list.all.iter().any(|one| own(&one));
                    (!is_told).then(|| format!("{}: {}: not {dancer}", whole.dance.title, joined.text))
                }));
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {many}: {wrong:#?}", wrong.len());
    assert!(many > 30, "{many}");
}
