//! Redrawing a dancer: what a drag on the floor does to the dance. Each function takes a dance and gives a
//! new one; the dancer it touches becomes drawn in that figure and the others stay as they were.

use super::{LegFrom, PointOf};
use crate::dance::{Dance, Dancer, Leg, Part, PlaceNumber, Shape, Waypoint, limits::FARTHEST, rounded};
use crate::motion::{Motion, Span, Track, with_amounts};
use thiserror::Error;

/// Two counts closer than this are the same moment to a drag.
pub const TIME_STEP: f64 = 0.125;
/// How far along the path a drag pulls the points beside it, metres.
const PULL: f64 = 0.6;
/// How long a newly drawn straight leg takes, counts, unless it goes so far that it needs longer.
const NEW_LEG: f64 = 4.0;
/// Metres a count that a newly drawn leg goes at the most, as long as there is time: well within a step.
const EASY: f64 = 0.55;

/// Why a drag cannot be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum EditError {
    /// At the very start of a figure.
    #[error("a figure begins where the one before it ended; move on a count and drag there")]
    Start,
    /// There is no figure at this moment.
    #[error("there is no figure here to draw in")]
    NoFigure,
    /// There is no time between two moments.
    #[error("there is no time for that here; choose a later moment")]
    NoTime,
    /// There is no such point.
    #[error("that point is no longer there")]
    NoPoint,
    /// A figure without two halves of whole counts.
    #[error("this figure has no second half to copy to")]
    NoHalf,
    /// Something that goes on from the first half into the second.
    #[error("a path or turn of the first half goes on into the second; end it at the half first")]
    OverHalf,
    /// Nothing in the first half.
    #[error("nothing is drawn in the first half")]
    EmptyHalf,
    /// There is no such turn.
    #[error("that turn is no longer there")]
    NoTurn,
    /// A turn that is to be danced on steps that do not come.
    #[error("no such step comes in this figure from there on")]
    NoSteps,
    /// No hop between the turns beside one.
    #[error("there is no hop in the stepping between the turns beside it")]
    NoHop,
    /// Steps that lie beyond the turn beside one.
    #[error("another turn comes between it and those steps; move or take that one away first")]
    TurnBetween,
    /// A turn that would be danced while another is.
    #[error("another turn is danced then; move or take that one away first")]
    TurnsMeet,
    /// Nobody is where a symmetry of the set has a place.
    #[error("nobody is a mate that way")]
    NoMates,
    /// Nothing to face.
    #[error("there is nobody to face, or they are in the same place")]
    NobodyThere,
}

/// One of the points that a dancer's path is drawn with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LegPoint {
    /// Which it is.
    pub of: PointOf,
    /// Metres to the right.
    pub x: f64,
    /// Metres up.
    pub y: f64,
    /// The count from the start of the dance at which the dancer is there.
    pub count: f64,
}

/// Where in a dance a dancer is at a count.
pub(super) struct DancerAt<'a> {
    pub span: &'a Span,
    pub track: &'a Track,
    /// Counts from the start of the figure.
    pub local: f64,
}

pub(super) fn find(motion: &Motion, dancer: Dancer, count: f64) -> Result<DancerAt<'_>, EditError> {
    let span = motion.span_under(count).ok_or(EditError::NoFigure)?;
    let track = span.track(dancer).ok_or(EditError::NoFigure)?;
    Ok(DancerAt { span, track, local: (count - span.begin()).clamp(0.0, span.end() - span.begin()) })
}

/// A copy of the part that a dancer dances, to change. What is drawn stays as it is written: whoever changes a turn of it gives
/// that one its amount first, and [`keep_amounts`](super::keep_amounts) the others where they would come out otherwise. The
/// turns of a named figure say how far they go from here on.
#[must_use]
pub fn own_part(span: &Span, dancer: Dancer) -> Option<Part> {
    let drawn = span.plan().is_drawn(span.place(dancer));
    if drawn { part_as_it_is(span, dancer) } else { part_with_amounts(span, dancer) }
}

/// A copy of the part that a dancer dances, all of whose turns say how far they go, so that they keep that wherever it is
/// copied to: as somebody chose it, or else as they are danced.
#[must_use]
pub(super) fn part_with_amounts(span: &Span, dancer: Dancer) -> Option<Part> {
    let part = part_as_it_is(span, dancer)?;
    let mut own = with_amounts(&part, span.track(dancer)?);
    for (turn, written) in own.turns.iter_mut().zip(part.turns).filter(|(_, written)| written.by.is_some()) {
        *turn = written;
    }
    Some(own)
}

/// A copy of the part that a dancer dances, as it is written. The leads that a named figure made are left to it, so that
/// they still follow what the side chooses.
#[must_use]
pub fn part_as_it_is(span: &Span, dancer: Dancer) -> Option<Part> {
    let mut part = span.part(dancer)?.clone();
    if !span.plan().is_drawn(span.place(dancer)) {
        part.leads.clear();
    }
    Some(part)
}

/// The dance with a part put into a figure, in the place of the one that was there or that it was named for.
#[must_use]
pub fn with_part(dance: &Dance, figure: usize, part: Part) -> Dance {
    let mut dance = dance.clone();
    if let Some(figure) = dance.figures.get_mut(figure) {
        match figure.parts.binary_search_by_key(&part.place, |known| known.place) {
            Ok(index) => {
                if let Some(slot) = figure.parts.get_mut(index) {
                    *slot = part;
                }
            }
            Err(_) => {
                figure.parts.retain(|known| known.place != part.place);
                figure.parts.push(part);
                figure.parts.sort_by_key(|part| part.place);
            }
        }
    }
    dance
}

/// Puts a dancer at a place (metres right, metres up) at a count from the start of the dance:
/// a point of the path there is moved, or one is made.
///
/// # Errors
/// At the start of a figure, or where there is no figure.
pub fn drag_dancer(
    dance: &Dance,
    motion: &Motion,
    dancer: Dancer,
    count: f64,
    x: f64,
    y: f64,
) -> Result<Dance, EditError> {
    let found = find(motion, dancer, count)?;
    go_by(dance, found.span, dancer, found.local, (x, y), LegFrom::Usual)
}

/// Puts a dancer at a place (metres right, metres up) by a count of a figure, which may be its end. Where a new leg is
/// made, `from` says where it begins.
///
/// # Errors
/// At the start of the figure.
pub fn go_by(
    dance: &Dance,
    span: &Span,
    dancer: Dancer,
    local: f64,
    (x, y): (f64, f64),
    from: LegFrom,
) -> Result<Dance, EditError> {
    let track = span.track(dancer).ok_or(EditError::NoFigure)?;
    let mut part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let (x, y) = (millimetres(x), millimetres(y));
    let local = (local.clamp(0.0, span.end() - span.begin()) * 1000.0).round() / 1000.0;
    if local < TIME_STEP {
        return Err(EditError::Start);
    }
    let under_way =
        part.legs.iter().position(|leg| leg.begin + TIME_STEP <= local && local < leg.end - TIME_STEP);
    if let Some(leg) = part.legs.iter_mut().find(|leg| (leg.end - local).abs() <= TIME_STEP) {
        (leg.to.x, leg.to.y) = (x, y);
    } else if let Some(index) = under_way {
        let (Some(leg), Some(danced)) = (part.legs.get_mut(index), track.moves().get(index)) else {
            return Err(EditError::NoPoint);
        };
        let (was_x, was_y, _) = track.stand(local);
        pull(leg, danced, local, (was_x, was_y), (x, y));
    } else {
        let ends = part.legs.iter().map(|leg| leg.end).filter(|&end| end <= local).fold(0.0, f64::max);
        let (was_x, was_y, _) = track.stand(local);
        let needs = ((x - was_x).hypot(y - was_y) / EASY).ceil();
        let begin = from.begin(span.bar_counts(), ends, local, needs.max(NEW_LEG));
        // A leg that has only just begun is not under way yet: the new one ends where it begins.
        let end = part.legs.iter().map(|leg| leg.begin).filter(|&next| next >= begin).fold(local, f64::min);
        if end - begin < TIME_STEP {
            return Err(EditError::Start);
        }
        part.legs.push(Leg::straight(begin, end, x, y));
        part.legs.sort_by(|one, other| one.begin.total_cmp(&other.begin));
    }
    Ok(with_part(dance, span.figure, part))
}

/// Bends a leg so that its dancer is at `to` at a count, taking the free points beside it along.
fn pull(leg: &mut Leg, danced: &crate::motion::Move, count: f64, from: (f64, f64), to: (f64, f64)) {
    if leg.shape == Shape::Arc {
        let course = &danced.course;
        leg.through = [0.25, 0.5, 0.75]
            .map(|share| course.at(course.length() * share))
            .map(|place| Waypoint::new(millimetres(place.x), millimetres(place.y)))
            .to_vec();
        leg.sweep = None;
    }
    // What each point on the way is: metres along, and the count at which it is passed.
    let lengths: Vec<f64> = if danced.course.point_lengths().len() == leg.through.len() {
        danced.course.point_lengths().to_vec()
    } else {
        let share = danced.course.length() / (leg.through.len() + 1) as f64;
        (1..=leg.through.len()).map(|index| share * index as f64).collect()
    };
    leg.shape = Shape::Smooth;
    let here = danced.pace.at(count);
    let near = leg
        .through
        .iter()
        .zip(&lengths)
        .map(|(point, metres)| (point.at.unwrap_or_else(|| danced.pace.when(*metres)) - count).abs())
        .enumerate()
        .filter(|(_, away)| *away < 2.0 * TIME_STEP)
        .min_by(|(_, one), (_, other)| one.total_cmp(other))
        .map(|(index, _)| index);
    let index = near.unwrap_or_else(|| {
        // By time, since points that the dancer waits between lie at one place.
        let before = leg
            .through
            .iter()
            .zip(&lengths)
            .filter(|(point, metres)| point.at.unwrap_or_else(|| danced.pace.when(**metres)) < count)
            .count();
        leg.through.insert(before, Waypoint::new(0.0, 0.0));
        before
    });
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let mut lengths = lengths;
    if near.is_none() {
        lengths.insert(index, here);
    }
    for (other, (point, metres)) in leg.through.iter_mut().zip(&lengths).enumerate() {
        if other == index {
            (point.x, point.y) = to;
            // A point that has a time already keeps the moment that the drag is at.
            point.at = Some(count);
        } else if point.at.is_none() {
            let share = (-((metres - here) / PULL).powi(2)).exp();
            if share > 0.01 {
                point.x = millimetres(point.x + dx * share);
                point.y = millimetres(point.y + dy * share);
            }
        }
    }
}

/// The points that a dancer's path through a span is drawn with.
#[must_use]
pub fn leg_points(span: &Span, dancer: Dancer) -> Vec<LegPoint> {
    let (Some(part), Some(track)) = (span.part(dancer), span.track(dancer)) else {
        return Vec::new();
    };
    let mut points = Vec::new();
    for (index, (leg, danced)) in part.legs.iter().zip(track.moves()).enumerate() {
        for (point, (waypoint, metres)) in leg.through.iter().zip(danced.course.point_lengths()).enumerate() {
            points.push(LegPoint {
                of: PointOf::through(index, point),
                x: waypoint.x,
                y: waypoint.y,
                count: span.begin() + waypoint.at.unwrap_or_else(|| danced.pace.when(*metres)),
            });
        }
        points.push(LegPoint {
            of: PointOf::end(index),
            x: leg.to.x,
            y: leg.to.y,
            count: span.begin() + leg.end,
        });
    }
    points
}

/// Moves one of a path's points to a place.
///
/// # Errors
/// When there is no such point.
pub fn drag_point(
    dance: &Dance,
    span: &Span,
    dancer: Dancer,
    point: PointOf,
    x: f64,
    y: f64,
) -> Result<Dance, EditError> {
    let mut part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let leg = part.legs.get_mut(point.leg).ok_or(EditError::NoPoint)?;
    let (x, y) = (millimetres(x), millimetres(y));
    match point.point {
        Some(index) => {
            let waypoint = leg.through.get_mut(index).ok_or(EditError::NoPoint)?;
            (waypoint.x, waypoint.y) = (x, y);
        }
        None => (leg.to.x, leg.to.y) = (x, y),
    }
    Ok(with_part(dance, span.figure, part))
}

/// Takes one of a path's points away; taking a leg's end away takes the leg.
///
/// # Errors
/// When there is no such point.
pub fn drop_point(dance: &Dance, span: &Span, dancer: Dancer, point: PointOf) -> Result<Dance, EditError> {
    let mut part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let leg = part.legs.get_mut(point.leg).ok_or(EditError::NoPoint)?;
    match point.point {
        Some(index) if index < leg.through.len() => {
            leg.through.remove(index);
            if leg.through.is_empty() && leg.shape == Shape::Smooth {
                leg.shape = Shape::Straight;
            }
        }
        Some(_) => return Err(EditError::NoPoint),
        None => {
            part.legs.remove(point.leg);
        }
    }
    Ok(with_part(dance, span.figure, part))
}

/// The dance with one place of a figure as its named figure has it again.
#[must_use]
pub fn restore_named(dance: &Dance, figure: usize, place: PlaceNumber) -> Dance {
    let mut dance = dance.clone();
    if let Some(figure) = dance.figures.get_mut(figure) {
        figure.parts.retain(|part| part.place != place);
    }
    dance
}

/// Metres to the nearest millimetre.
pub(super) fn millimetres(metres: f64) -> f64 {
    rounded(metres.clamp(-FARTHEST, FARTHEST), 1000.0)
}
