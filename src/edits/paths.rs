//! Working on a drawn path: its points, its legs, and when each is danced. Each function takes a dancer's part in a span
//! and gives the dance with it changed.

use super::redraw::{EditError, millimetres, own_part, with_part};
use crate::dance::{Dance, Dancer, Leg, LegFacing, Part, Shape, Waypoint};
use crate::motion::{Move, Span};

/// The shortest that a leg may be, counts.
pub const SHORTEST: f64 = 0.25;

/// A moment of a path that can be moved in time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TimePoint {
    /// Where a leg begins, if it does not follow another at once.
    Begin(usize),
    /// A point on the way: leg and point.
    Through(usize, usize),
    /// Where a leg ends.
    End(usize),
}

/// What is done to a leg as a whole.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LegChange {
    /// Straight to its end, with no points on the way.
    Straighten,
    /// One smooth curve through its points, or a gentle bow where it has none.
    Smooth,
    /// Part of a circle, bowing to the side it bows to now.
    Arc,
    /// Facing on it as it was before, not with the path.
    Held,
    /// Facing the way it goes.
    Forwards,
    /// Facing away from the way it goes.
    Backwards,
    /// The leg taken away.
    Remove,
}

fn part_and_move(span: &Span, dancer: Dancer, leg: usize) -> Result<(Part, &Move), EditError> {
    let part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let danced = span.track(dancer).and_then(|track| track.moves().get(leg)).ok_or(EditError::NoPoint)?;
    if leg < part.legs.len() { Ok((part, danced)) } else { Err(EditError::NoPoint) }
}

/// The leg under way at a count from the start of the dance, or else the last one begun.
#[must_use]
pub fn leg_at(span: &Span, dancer: Dancer, count: f64) -> Option<usize> {
    let local = count - span.begin();
    let legs = &span.part(dancer)?.legs;
    let begun = legs.iter().rposition(|leg| leg.begin <= local + 1e-6)?;
    Some(begun)
}

/// Changes a leg as a whole.
///
/// # Errors
/// When there is no such leg.
pub fn change_leg(
    dance: &Dance,
    span: &Span,
    dancer: Dancer,
    index: usize,
    change: LegChange,
) -> Result<Dance, EditError> {
    let (mut part, danced) = part_and_move(span, dancer, index)?;
    if change == LegChange::Remove {
        part.legs.remove(index);
        return Ok(with_part(dance, span.figure, part));
    }
    let length = danced.course.length();
    let middle = danced.course.at(length / 2.0);
    let start = danced.course.at(0.0);
    let Some(leg) = part.legs.get_mut(index) else { return Err(EditError::NoPoint) };
    let (across, along) = (leg.to.x - start.x, leg.to.y - start.y);
    let chord = across.hypot(along);
    // How far the middle of the way lies to the left of the straight line.
    let bow = if chord > 1e-6 {
        ((middle.y - start.y) * across - (middle.x - start.x) * along) / chord
    } else {
        0.0
    };
    match change {
        LegChange::Straighten => {
            (leg.shape, leg.sweep) = (Shape::Straight, None);
            leg.through.clear();
        }
        LegChange::Smooth => {
            if leg.through.is_empty() && leg.shape != Shape::Arc && chord > 1e-6 {
                // A straight line bows a little to the left, so that there is something to drag.
                let by = 0.15 * chord;
                leg.through.push(Waypoint::new(
                    millimetres(start.x + across / 2.0 - along / chord * by),
                    millimetres(start.y + along / 2.0 + across / chord * by),
                ));
            } else if leg.shape == Shape::Arc {
                leg.through = [0.25, 0.5, 0.75]
                    .map(|share| danced.course.at(length * share))
                    .map(|place| Waypoint::new(millimetres(place.x), millimetres(place.y)))
                    .to_vec();
            }
            (leg.shape, leg.sweep) = (Shape::Smooth, None);
        }
        LegChange::Arc => {
            leg.through.clear();
            leg.shape = Shape::Arc;
            // Going round with the bow on the left of the chord is clockwise; a straight line becomes a quarter.
            let half = if bow.abs() < 0.02 {
                45.0
            } else {
                2.0 * (2.0 * bow.abs() / chord.max(1e-6)).atan().to_degrees()
            };
            let sweep = (2.0 * half).clamp(5.0, 350.0);
            leg.sweep = Some(if bow < -0.02 { -sweep } else { sweep }.round());
        }
        LegChange::Held => leg.facing = LegFacing::Held,
        LegChange::Forwards => leg.facing = LegFacing::Forwards,
        LegChange::Backwards => leg.facing = LegFacing::Backwards,
        LegChange::Remove => {}
    }
    Ok(with_part(dance, span.figure, part))
}

/// Puts a point into the path where the dancer is at a count; the path keeps its line as nearly as a smooth one can.
///
/// # Errors
/// When the dancer is not on the way then.
pub fn insert_point(dance: &Dance, span: &Span, dancer: Dancer, count: f64) -> Result<Dance, EditError> {
    let local = count - span.begin();
    let index = leg_at(span, dancer, count).ok_or(EditError::NoPoint)?;
    let (mut part, danced) = part_and_move(span, dancer, index)?;
    let leg = part.legs.get_mut(index).ok_or(EditError::NoPoint)?;
    if local <= leg.begin + 1e-3 || local >= leg.end - 1e-3 {
        return Err(EditError::NoPoint);
    }
    let metres = danced.pace.at(local);
    let place = danced.course.at(metres);
    if leg.shape == Shape::Arc {
        let length = danced.course.length();
        leg.through = [0.25, 0.5, 0.75]
            .map(|share| danced.course.at(length * share))
            .map(|place| Waypoint::new(millimetres(place.x), millimetres(place.y)))
            .to_vec();
        (leg.shape, leg.sweep) = (Shape::Smooth, None);
    }
    let lengths = danced.course.point_lengths();
    let before = if lengths.len() == leg.through.len() {
        lengths.iter().filter(|length| **length < metres).count()
    } else {
        leg.through.len() / 2
    };
    if leg.shape == Shape::Straight && leg.through.is_empty() {
        leg.shape = Shape::Smooth;
    }
    leg.through.insert(before, Waypoint::new(millimetres(place.x), millimetres(place.y)));
    Ok(with_part(dance, span.figure, part))
}

/// Makes two legs of the one under way at a count: it ends where the dancer is then, and the next goes on from there.
///
/// # Errors
/// When the dancer is not well on the way then.
pub fn split_leg(dance: &Dance, span: &Span, dancer: Dancer, count: f64) -> Result<Dance, EditError> {
    let local = ((count - span.begin()) * 1000.0).round() / 1000.0;
    let index = leg_at(span, dancer, count).ok_or(EditError::NoPoint)?;
    let (mut part, danced) = part_and_move(span, dancer, index)?;
    let leg = part.legs.get(index).cloned().ok_or(EditError::NoPoint)?;
    if local < leg.begin + SHORTEST || local > leg.end - SHORTEST {
        return Err(EditError::NoPoint);
    }
    let metres = danced.pace.at(local);
    let place = danced.course.at(metres);
    let share = metres / danced.course.length().max(1e-9);
    let lengths = danced.course.point_lengths();
    let cut = lengths.iter().filter(|length| **length < metres - 1e-6).count();
    let (mut first, mut second) = (leg.clone(), leg.clone());
    first.end = local;
    (first.to.x, first.to.y) = (millimetres(place.x), millimetres(place.y));
    second.begin = local;
    first.through.truncate(cut);
    second.through = leg.through.iter().skip(cut).cloned().collect();
    // A point just where it is cut has become the end.
    if second.through.first().is_some_and(|point| (point.x - place.x).hypot(point.y - place.y) < 0.02) {
        second.through.remove(0);
    }
    if let Some(sweep) = leg.sweep {
        first.sweep = Some((sweep * share * 10.0).round() / 10.0).filter(|sweep| sweep.abs() >= 0.1);
        second.sweep = Some((sweep * (1.0 - share) * 10.0).round() / 10.0).filter(|sweep| sweep.abs() >= 0.1);
        for half in [&mut first, &mut second] {
            if half.sweep.is_none() {
                half.shape = Shape::Straight;
            }
        }
    }
    // Each half keeps the way in which it was paced.
    if !leg.pace.is_empty() {
        first.pace = pace_between(danced, leg.begin, local, first.end - first.begin);
        second.pace = pace_between(danced, local, leg.end, second.end - second.begin);
    }
    part.legs.splice(index..=index, [first, second]);
    Ok(with_part(dance, span.figure, part))
}

/// The shares of the way done by the end of each half count between two counts.
fn pace_between(danced: &Move, from: f64, to: f64, counts: f64) -> Vec<f64> {
    let (first, last) = (danced.pace.at(from), danced.pace.at(to));
    let parts = (counts * 2.0).round().max(1.0);
    let way = last - first;
    if way < 1e-6 {
        return Vec::new();
    }
    (1..=parts as u32)
        .map(|part| {
            let at = from + (to - from) * f64::from(part) / parts;
            if f64::from(part) >= parts {
                1.0
            } else {
                ((danced.pace.at(at) - first) / way * 1e4).round() / 1e4
            }
        })
        .collect()
}

/// Makes one leg of one and the next: the place between them becomes a point on the way.
///
/// # Errors
/// When there is no next leg.
pub fn join_legs(dance: &Dance, span: &Span, dancer: Dancer, index: usize) -> Result<Dance, EditError> {
    let (mut part, danced) = part_and_move(span, dancer, index)?;
    if index + 1 >= part.legs.len() {
        return Err(EditError::NoPoint);
    }
    let second = part.legs.remove(index + 1);
    let arcs = second.shape == Shape::Arc;
    let leg = part.legs.get_mut(index).ok_or(EditError::NoPoint)?;
    let straight = leg.shape == Shape::Straight && second.shape == Shape::Straight;
    let on = |danced: &Move| {
        let length = danced.course.length();
        [0.25, 0.5, 0.75]
            .map(|share| danced.course.at(length * share))
            .map(|place| Waypoint::new(millimetres(place.x), millimetres(place.y)))
            .to_vec()
    };
    if leg.shape == Shape::Arc {
        leg.through = on(danced);
    }
    let mut middle = Waypoint::new(leg.to.x, leg.to.y);
    // The dancer is there when they were, or when they set out again.
    middle.at = Some(f64::midpoint(leg.end, second.begin)).filter(|at| *at > leg.begin && *at < second.end);
    leg.through.push(middle);
    if arcs && let Some(danced) = span.track(dancer).and_then(|track| track.moves().get(index + 1)) {
        leg.through.extend(on(danced));
    } else {
        leg.through.extend(second.through);
    }
    (leg.to, leg.end, leg.sweep) = (second.to, second.end, None);
    leg.pace.clear();
    leg.shape = if straight { Shape::Straight } else { Shape::Smooth };
    Ok(with_part(dance, span.figure, part))
}

/// The moments of a path that can be moved in time, with their counts from the start of the dance.
#[must_use]
pub fn time_points(span: &Span, dancer: Dancer) -> Vec<(TimePoint, f64)> {
    let (Some(part), Some(track)) = (span.part(dancer), span.track(dancer)) else {
        return Vec::new();
    };
    let mut points = Vec::new();
    let mut before = f64::NEG_INFINITY;
    for (index, (leg, danced)) in part.legs.iter().zip(track.moves()).enumerate() {
        if leg.begin > before + 1e-6 {
            points.push((TimePoint::Begin(index), span.begin() + leg.begin));
        }
        for (point, (waypoint, metres)) in leg.through.iter().zip(danced.course.point_lengths()).enumerate() {
            let at = waypoint.at.unwrap_or_else(|| danced.pace.when(*metres));
            points.push((TimePoint::Through(index, point), span.begin() + at));
        }
        points.push((TimePoint::End(index), span.begin() + leg.end));
        before = leg.end;
    }
    points
}

/// Moves a moment of a path to another count from the start of the dance, as far as its neighbours let it. Where one leg
/// follows another at once, both keep to it.
///
/// # Errors
/// When there is no such moment.
pub fn retime(
    dance: &Dance,
    span: &Span,
    dancer: Dancer,
    point: TimePoint,
    count: f64,
) -> Result<Dance, EditError> {
    let local = ((count - span.begin()) * 1000.0).round() / 1000.0;
    let counts = span.end() - span.begin();
    let mut part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let neighbours = |legs: &[Leg], index: usize| {
        let before = index.checked_sub(1).and_then(|index| legs.get(index)).map_or(0.0, |leg| leg.end);
        let after = legs.get(index + 1).map_or(counts, |leg| leg.begin);
        (before, after)
    };
    match point {
        TimePoint::Begin(index) => {
            let (before, _) = neighbours(&part.legs, index);
            let leg = part.legs.get_mut(index).ok_or(EditError::NoPoint)?;
            let first = leg.through.iter().filter_map(|point| point.at).fold(leg.end, f64::min);
            leg.begin = local.clamp(before, (first - SHORTEST).max(before));
        }
        TimePoint::End(index) => {
            let (_, after) = neighbours(&part.legs, index);
            let next_end = part
                .legs
                .get(index + 1)
                .map(|next| next.through.iter().filter_map(|point| point.at).fold(next.end, f64::min));
            let leg = part.legs.get_mut(index).ok_or(EditError::NoPoint)?;
            let follows = (after - leg.end).abs() < 1e-6 && next_end.is_some();
            let last = leg.through.iter().filter_map(|point| point.at).fold(leg.begin, f64::max);
            let most = if follows { next_end.map_or(counts, |end| end - SHORTEST) } else { after };
            let least = (last + SHORTEST).min(most);
            leg.end = local.clamp(least, most);
            let end = leg.end;
            if follows && let Some(next) = part.legs.get_mut(index + 1) {
                next.begin = end;
            }
        }
        TimePoint::Through(index, point) => {
            let leg = part.legs.get_mut(index).ok_or(EditError::NoPoint)?;
            let (begin, end) = (leg.begin, leg.end);
            let before = leg.through.iter().take(point).filter_map(|point| point.at).fold(begin, f64::max);
            let after = leg.through.iter().skip(point + 1).filter_map(|point| point.at).fold(end, f64::min);
            let waypoint = leg.through.get_mut(point).ok_or(EditError::NoPoint)?;
            if after - before < 2.0 * TIMED {
                return Err(EditError::NoPoint);
            }
            waypoint.at = Some(local.clamp(before + TIMED, after - TIMED));
        }
    }
    Ok(with_part(dance, span.figure, part))
}

/// The least between two points that have times of their own, counts.
const TIMED: f64 = 0.05;
