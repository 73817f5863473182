//! Travelling, as a dancer would say it: legs split where the way of going changes.

use super::facts::{Along, CourseSaid, Going, Lane, PlaceSaid};
use super::look::{OneDancer, eighth, lane, side_of, way_of};
use super::round::{round, round_partner};
use crate::dance::{Number, SetKind, Way};
use crate::motion::{Track, wrap_half, wrap_whole};

/// How often a leg is looked at, in a count.
const LOOKS: f64 = 8.0;
/// Less than this is not worth saying, metres.
const LEAST: f64 = 0.25;
/// A stretch of one kind shorter than this belongs to the one beside it, metres; and one of going forward, aside or
/// backwards.
const SHORT: (f64, f64) = (0.3, 0.15);
/// A leg whose ends are so far apart, as a share of its length, is straight or nearly.
const STRAIGHT: f64 = 0.88;

/// A moment on the way.
#[derive(Clone, Copy)]
pub(super) struct WayMoment {
    pub count: f64,
    /// Metres to the right of the middle.
    pub x: f64,
    /// Metres up.
    pub y: f64,
    pub facing: f64,
    /// Metres gone since the leg began.
    gone: f64,
    /// Degrees clockwise from up, unwrapped.
    pub heading: f64,
}

/// The stretches of travelling between two counts. `turns` are those of the dancer's own: begin, end, degrees.
pub(super) fn goings(look: &OneDancer, begin: f64, end: f64, turns: &[(f64, f64, f64)]) -> Vec<Going> {
    let mut found = Vec::new();
    for leg in look.track.moves() {
        let (from, to) = (leg.begin.max(begin), leg.end.min(end));
        if to - from < 1e-6 {
            continue;
        }
        // Where a facing that was held begins to follow the way, the manner of going changes.
        let free = |count: f64| turns.iter().all(|turn| turn.1 <= from + 1e-6 || turn.0 >= count - 1e-6);
        let cut = look
            .track
            .followed()
            .map(|(begin, _)| begin)
            .find(|&begin| begin > from + 0.75 && begin < to - 0.75 && free(begin))
            .filter(|&begin| look.track.travelled(begin) - look.track.travelled(from) >= LEAST);
        let parts = match cut {
            Some(cut) => vec![(from, cut), (cut, to)],
            None => vec![(from, to)],
        };
        for (from, to) in parts {
            let steps = steps(look, from, to);
            if steps.last().is_some_and(|step| step.gone >= LEAST) {
                split(look, &steps, turns, &mut found);
            }
        }
    }
    // Where one is still, and then again, is said when it is over.
    let places: Vec<Option<PlaceSaid>> = found.iter().skip(1).map(|going| going.to).collect();
    for (going, next) in found.iter_mut().zip(places) {
        going.to = going.to.filter(|place| Some(*place) != next);
    }
    found
}

/// The leg looked at every so often.
fn steps(look: &OneDancer, from: f64, to: f64) -> Vec<WayMoment> {
    let many = ((to - from) * LOOKS).ceil().clamp(1.0, 20_000.0) as usize;
    let mut steps: Vec<WayMoment> = Vec::with_capacity(many + 1);
    for index in 0..=many {
        let count = from + (to - from) * index as f64 / many as f64;
        let (x, y, facing) = look.stand(count);
        let mut step = WayMoment { count, x, y, facing, gone: 0.0, heading: f64::NAN };
        if let Some(before) = steps.last() {
            let (dx, dy) = (x - before.x, y - before.y);
            step.gone = before.gone + dx.hypot(dy);
            let heading = dx.atan2(dy).to_degrees();
            step.heading = match before.heading {
                _ if dx.hypot(dy) < 1e-3 => before.heading,
                earlier if earlier.is_nan() => heading,
                earlier => earlier + wrap_half(heading - earlier),
            };
        }
        steps.push(step);
    }
    // What comes before the first movement goes the same way.
    let first = steps.iter().map(|step| step.heading).find(|heading| !heading.is_nan()).unwrap_or(0.0);
    for step in steps.iter_mut().take_while(|step| step.heading.is_nan()) {
        step.heading = first;
    }
    steps
}

fn split(look: &OneDancer, steps: &[WayMoment], turns: &[(f64, f64, f64)], found: &mut Vec<Going>) {
    let (Some(first), Some(last)) = (steps.first(), steps.last()) else { return };
    let chord = (last.x - first.x).hypot(last.y - first.y);
    let starts = |turn: &&(f64, f64, f64)| turn.1 <= first.count + 1.6 && turn.0 <= first.count + 1e-6;
    let ends = |turn: &&(f64, f64, f64)| turn.0 >= last.count - 2.1;
    let inside = |turn: &&(f64, f64, f64)| turn.0 < last.count - 1e-6 && turn.1 > first.count + 1e-6;
    let turning: f64 = turns
        .iter()
        .filter(inside)
        .filter(|turn| !starts(turn) && !ends(turn))
        .map(|turn| turn.2.abs())
        .sum();
    // The way faced is that after a turn with which the leg starts.
    let faced = turns.iter().filter(inside).find(starts).map_or(first.count, |turn| turn.1);
    let bend = last.heading - first.heading;
    let followed = followed(look, first.count, last.count);
    if chord >= STRAIGHT * last.gone && (followed < 40.0 || bend.abs() < 50.0) {
        let facing = if followed > 20.0 { middle_facing(steps) } else { look.stand(faced).2 };
        let heading = (last.x - first.x).atan2(last.y - first.y).to_degrees();
        let course = if turning > 60.0 {
            CourseSaid::Turning
        } else {
            CourseSaid::Straight(eighth(heading - facing), bearing(steps, heading, facing))
        };
        found.push(going(look, steps, course));
        return;
    }
    if let Some(round) = round_partner(look, steps).or_else(|| round(look, steps)) {
        found.push(going(look, steps, round));
        return;
    }
    if followed < 40.0 && turning < 60.0 {
        // Quarters of a turn clockwise from forward.
        let manner = |step: &WayMoment| (wrap_whole(step.heading - step.facing + 45.0) / 90.0) as u8 % 4;
        let mut stretches = runs(steps, SHORT.1, manner);
        let length = |run: &[WayMoment]| {
            run.last().map_or(0.0, |step| step.gone) - run.first().map_or(0.0, |step| step.gone)
        };
        // A short swerve as a leg ends is no stretch of its own.
        if stretches.len() > 1 && stretches.last().is_some_and(|run| length(run) < SHORT.0) {
            stretches.pop();
            let before: usize = stretches.iter().rev().skip(1).map(|run| run.len() - 1).sum();
            if let (Some(last), Some(rest)) = (stretches.last_mut(), steps.get(before..)) {
                *last = rest;
            }
        }
        for run in stretches {
            let at = run.get(run.len() / 2).map_or(0, manner);
            found.push(going(look, run, CourseSaid::Straight(at * 2, None)));
        }
        return;
    }
    let longways = look.ground.kind == SetKind::Longways && look.ground.ranks() > 2;
    let along = steps
        .iter()
        .map(|step| step.y)
        .fold((f64::INFINITY, f64::NEG_INFINITY), |range, y| (range.0.min(y), range.1.max(y)));
    if longways && along.1 - along.0 > look.ground.along * 0.8 {
        // Going across, and in the file itself, belong to what is before them, or to what is first after them.
        let mut lanes: Vec<Option<(Along, Lane)>> = steps.iter().map(|step| lane_of(look, step)).collect();
        let mut now = lanes.iter().copied().flatten().next();
        for lane in &mut lanes {
            now = lane.or(now);
            *lane = now;
        }
        let at = |step: &WayMoment| {
            let index = steps.partition_point(|other| other.count < step.count);
            lanes.get(index).copied().flatten()
        };
        for run in runs(steps, SHORT.0, at) {
            let (along, lane) = run.get(run.len() / 2).and_then(at).unwrap_or((Along::Across, Lane::Inside));
            found.push(going(look, run, CourseSaid::Lane(along, lane)));
        }
        return;
    }
    let bends: Vec<i8> = steps
        .iter()
        .enumerate()
        .map(|(index, step)| {
            let next = steps.get(index + 1).map_or(0.0, |next| next.heading - step.heading);
            if next.abs() < 0.3 { 0 } else { next.signum() as i8 }
        })
        .collect();
    let at = |step: &WayMoment| {
        let index = steps.partition_point(|other| other.count < step.count);
        // A straight piece belongs to the bend before it.
        bends.iter().take(index + 1).rev().find(|bend| **bend != 0).copied().unwrap_or(0)
    };
    for run in runs(steps, SHORT.0, at) {
        let (Some(one), Some(other)) = (run.first(), run.last()) else { continue };
        let degrees = other.heading - one.heading;
        found.push(going(
            look,
            run,
            if degrees.abs() < 30.0 {
                CourseSaid::Straight(eighth(middle_heading(run) - middle_facing(run)), None)
            } else {
                CourseSaid::Curve(way_of(degrees), degrees.abs())
            },
        ));
    }
}

/// Degrees, without sign, that the way itself turns the dancer.
fn followed(look: &OneDancer, from: f64, to: f64) -> f64 {
    look.track
        .followed()
        .map(|(begin, end)| (begin.max(from), end.min(to)))
        .filter(|(begin, end)| end - begin > 0.25)
        .map(|(begin, end)| {
            let (least, most) = look.track.facings(begin, end);
            (most - least).max(21.0)
        })
        .sum()
}

fn middle_facing(steps: &[WayMoment]) -> f64 {
    steps.get(steps.len() / 2).map_or(0.0, |step| step.facing)
}

fn middle_heading(steps: &[WayMoment]) -> f64 {
    steps.get(steps.len() / 2).map_or(0.0, |step| step.heading)
}

/// The side to which a nearly straight stretch bows, as the dancer faces.
fn bearing(steps: &[WayMoment], heading: f64, facing: f64) -> Option<Way> {
    let first = steps.first()?;
    let (sin, cos) = heading.to_radians().sin_cos();
    let off = |step: &WayMoment| (step.x - first.x) * cos - (step.y - first.y) * sin;
    let most = steps.iter().map(off).max_by(|one, other| one.abs().total_cmp(&other.abs()))?;
    let rel = heading - facing;
    if most.abs() > 0.15 {
        return Some(side_of(rel + 90.0 * most.signum()));
    }
    // Going forward or backwards, and somewhat aside.
    let aside = rel.to_radians().sin();
    (eighth(rel).is_multiple_of(4) && aside.abs() > 0.15).then(|| side_of(aside))
}

/// The lane in which a moment goes along the set; nothing where it goes across or is on a file.
fn lane_of(look: &OneDancer, step: &WayMoment) -> Option<(Along, Lane)> {
    let cos = step.heading.to_radians().cos();
    let along = if cos > 0.0 { Along::Up } else { Along::Down };
    let lane = match lane(look.ground, step.x) {
        Lane::Middle | Lane::Inside => Lane::Inside,
        Lane::Outside => Lane::Outside,
        Lane::File => return None,
    };
    (cos.abs() > 0.35).then_some((along, lane))
}

/// Runs of one kind; those too short to say go with what is before them, or after them where nothing is.
fn runs<K: PartialEq>(steps: &[WayMoment], least: f64, kind: impl Fn(&WayMoment) -> K) -> Vec<&[WayMoment]> {
    let mut parts: Vec<(usize, usize)> = Vec::new();
    for (index, step) in steps.iter().enumerate() {
        match parts.last_mut() {
            Some(part) if steps.get(part.0).is_some_and(|first| kind(first) == kind(step)) => part.1 = index,
            _ => parts.push((index, index)),
        }
    }
    let gone = |index: usize| steps.get(index).map_or(0.0, |step| step.gone);
    while parts.len() > 1 {
        // A stretch goes on to the first moment of the next one.
        let length = |index: usize| {
            let (from, to) = parts.get(index).copied().unwrap_or_default();
            gone(parts.get(index + 1).map_or(to, |next| next.0)) - gone(from)
        };
        let Some(short) = (0..parts.len())
            .min_by(|one, other| length(*one).total_cmp(&length(*other)))
            .filter(|index| length(*index) < least)
        else {
            break;
        };
        let gone = parts.remove(short);
        // It goes with what is before it, or with what is after it where nothing is.
        match short.checked_sub(1) {
            Some(before) => {
                if let Some(part) = parts.get_mut(before) {
                    part.1 = gone.1;
                }
            }
            None => {
                if let Some(part) = parts.first_mut() {
                    part.0 = gone.0;
                }
            }
        }
    }
    let mut at = 0;
    while at + 1 < parts.len() {
        let same = matches!((parts.get(at), parts.get(at + 1)), (Some(one), Some(other))
            if middle(steps, *one).zip(middle(steps, *other)).is_some_and(|(a, b)| kind(a) == kind(b)));
        if same {
            let other = parts.remove(at + 1);
            if let Some(part) = parts.get_mut(at) {
                part.1 = other.1;
            }
        } else {
            at += 1;
        }
    }
    let ends: Vec<usize> = parts
        .iter()
        .skip(1)
        .map(|next| next.0)
        .chain(std::iter::once(steps.len().saturating_sub(1)))
        .collect();
    parts.iter().zip(ends).filter_map(|((from, _), to)| steps.get(*from..=to)).collect()
}

fn middle(steps: &[WayMoment], (from, to): (usize, usize)) -> Option<&WayMoment> {
    steps.get(usize::midpoint(from, to))
}

fn going(look: &OneDancer, steps: &[WayMoment], course: CourseSaid) -> Going {
    let (begin, end) =
        (steps.first().map_or(0.0, |step| step.count), steps.last().map_or(0.0, |step| step.count));
    let gone = |step: Option<&WayMoment>| step.map_or(0.0, |step| step.gone);
    let chord = match (steps.first(), steps.last()) {
        (Some(first), Some(last)) => (last.x - first.x).hypot(last.y - first.y),
        _ => 0.0,
    };
    // A small bow makes nothing longer that a dancer would pace out.
    let metres = match course {
        CourseSaid::Straight(..) | CourseSaid::Turning => chord,
        _ => gone(steps.last()) - gone(steps.first()),
    };
    // What is reached long before the leg is over is reached then.
    let there =
        steps.iter().find(|step| gone(steps.last()) - step.gone < 0.02).map_or(end, |step| step.count);
    let end = if there < end - 1.5 { there.ceil() } else { end };
    let bend = steps.last().map_or(0.0, |step| step.heading) - steps.first().map_or(0.0, |step| step.heading);
    let to = match look.place(end) {
        PlaceSaid::Lane(..) | PlaceSaid::FromHome(..) => None,
        place => Some(place),
    };
    Going {
        begin,
        end,
        course,
        metres,
        passes: Vec::new(),
        beside: beside(look, begin, end, matches!(course, CourseSaid::Round(..))),
        to,
        turned: 0.0,
        set_off: 0.0,
        bend,
    }
}

/// Who is alongside for most of a count or more; of those who go round the middle, for half of the way, since whoever
/// is before or behind them in the round is beside them for a moment as they join it.
fn beside(look: &OneDancer, begin: f64, end: f64, round: bool) -> Option<(Number, Way)> {
    const NEAR: f64 = 1.1;
    // At each moment: when it is, where the dancer is, and where they were just before.
    let moments: Vec<_> = (0..=((end - begin) * 4.0) as u32)
        .map(|index| begin + f64::from(index) / 4.0)
        .map(|count| (count, look.stand(count), look.stand(count - 0.2)))
        .collect();
    let least = if round { moments.len().div_ceil(2).max(3) } else { 3 };
    let gone = |track: &Track| track.travelled(end) - track.travelled(begin);
    for (other, track) in look.others() {
        // Most are too far away for it, whatever way they go.
        let (here, there) = (look.stand(begin), track.stand(begin));
        if (there.0 - here.0).hypot(there.1 - here.1) - gone(look.track) - gone(track) >= NEAR {
            continue;
        }
        let sides: Vec<Way> = moments
            .iter()
            .filter_map(|&(count, (x, y, facing), earlier)| {
                let (to_x, to_y, theirs) = track.stand(count);
                if (to_x - x).hypot(to_y - y) >= NEAR {
                    return None;
                }
                let bearing = wrap_half((to_x - x).atan2(to_y - y).to_degrees() - facing);
                // Going together: what is between them changes less than where they are.
                let before = track.stand(count - 0.2);
                let gone = (x - earlier.0).hypot(y - earlier.1);
                let between =
                    ((to_x - before.0) - (x - earlier.0)).hypot((to_y - before.1) - (y - earlier.1));
                let aside = (45.0..=135.0).contains(&bearing.abs());
                (aside && between < gone && wrap_half(theirs - facing).abs() < 75.0).then(|| side_of(bearing))
            })
            .collect();
        if sides.len() >= least && sides.windows(2).all(|pair| pair.first() == pair.last()) {
            return sides.first().map(|side| (other.number(), *side));
        }
    }
    None
}
