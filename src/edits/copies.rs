//! Copying what is drawn: to another dancer, and to the other half of the figure.

use super::{
    mirror_feet::lead_with,
    redraw::{EditError, own_part, part_with_amounts, with_part},
    settled::{leads_of, ways_settled},
    together::Together,
};
use crate::dance::{Dance, Dancer, LeadRule, Part, PlaceNumber, rounded};
use crate::motion::{LeadFrom, LeadMade, Motion, Span, wrap_half};

/// How the second half is danced after the first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SecondHalf {
    /// As in a mirror: left for right, so that what went past the right shoulder goes past the left.
    Mirrored,
    /// The same again, with the same feet and shoulders.
    Same,
}

/// Copies what a dancer does in a span to the place of another, under a symmetry.
///
/// # Errors
/// Where there is no figure, or the other is no mate under it.
pub fn copy_part(
    dance: &Dance,
    motion: &Motion,
    span: &Span,
    dancer: Dancer,
    (together, other): (Together, PlaceNumber),
) -> Result<Dance, EditError> {
    let part = ways_settled(part_with_amounts(span, dancer).ok_or(EditError::NoFigure)?, span);
    let part = (&part, leads_of(span, part.place));
    let image = together.part_of(motion.ground(), part, other).ok_or(EditError::NoFigure)?;
    Ok(with_part(dance, span.figure, image))
}

/// Copies what a dancer does in a span to every mate.
///
/// # Errors
/// Where there is no figure, or nobody is a mate that way.
pub fn copy_to_mates(
    dance: &Dance,
    motion: &Motion,
    span: &Span,
    dancer: Dancer,
    together: Together,
) -> Result<Dance, EditError> {
    let part = ways_settled(part_with_amounts(span, dancer).ok_or(EditError::NoFigure)?, span);
    let mates = together.mates(motion.ground(), span.place(dancer));
    if mates.is_empty() {
        return Err(EditError::NoMates);
    }
    let part = (&part, leads_of(span, part.place));
    mates.into_iter().try_fold(dance.clone(), |dance, mate| {
        let image = together.part_of(motion.ground(), part, mate).ok_or(EditError::NoMates)?;
        Ok(with_part(&dance, span.figure, image))
    })
}

/// Has a dancer do in the second half of a figure what they do in the first. Where the half ends at home it is done again
/// from there, or mirrored in the line that they face along. Where it ends elsewhere it brings them back: turned about,
/// they dance it from there; facing as before, they come back backwards. Mirrored, they pass the other shoulder.
///
/// # Errors
/// Where there is no figure, it has no second half, or nothing is done in the first.
pub fn copy_half(
    dance: &Dance,
    motion: &Motion,
    span: &Span,
    dancer: Dancer,
    second: SecondHalf,
) -> Result<Dance, EditError> {
    let mut part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let track = span.track(dancer).ok_or(EditError::NoFigure)?;
    let half = span.bar_counts().counts() / 2.0;
    if span.bars < 2 || half.fract() != 0.0 {
        return Err(EditError::NoHalf);
    }
    part.legs.retain(|leg| leg.begin < half - 1e-6);
    part.turns.retain(|turn| turn.begin < half - 1e-6);
    part.leads.retain(|lead| lead.at < half - 1e-6);
    if part.legs.iter().any(|leg| leg.end > half + 1e-6)
        || part.turns.iter().any(|turn| turn.end > half + 1e-6)
    {
        return Err(EditError::OverHalf);
    }
    if part.legs.is_empty() && part.turns.is_empty() {
        return Err(EditError::EmptyHalf);
    }
    let (x0, y0, facing) = track.stand(0.0);
    let (x1, y1, turned_to) = track.stand(half - 1e-9);
    let away = (x1 - x0).hypot(y1 - y0);
    let turned_about = wrap_half(turned_to - facing).abs() > 90.0;
    let middle = (f64::midpoint(x0, x1), f64::midpoint(y0, y1));
    let across = Map::Line { through: middle, along: (x1 - x0).atan2(y1 - y0).to_degrees() + 90.0 };
    let swaps = second == SecondHalf::Mirrored;
    let own_line = {
        let (x, y) = motion.ground().stand(span.place(dancer)).map_or((x0, y0), |stand| (stand.x, stand.y));
        Map::Line { through: (x, y), along: facing }
    };
    let (places, faces) = match (away < NEAR, swaps, turned_about) {
        // Back where they began.
        (true, false, _) => (Map::Still, Map::Still),
        (true, true, _) => (own_line, own_line),
        // Over there and turned about, they dance it again from there, in a mirror or not.
        (false, true, true) => (across, across),
        (false, false, true) => (Map::HalfTurn { about: middle }, Map::HalfTurn { about: middle }),
        // Facing as before they come back backwards: along the same line they pass the same shoulder.
        (false, true, false) => (Map::HalfTurn { about: middle }, own_line),
        (false, false, false) => (across, Map::Still),
    };
    let image = Image { places, faces, swaps };
    let mut first = part_with_amounts(span, dancer).ok_or(EditError::NoFigure)?;
    first.turns.retain(|turn| turn.begin < half - 1e-6);
    let later = image.of(&ways_settled(Part { turns: first.turns, ..part.clone() }, span), half);
    part.legs.extend(later.legs);
    part.turns.extend(later.turns);
    part.leads.extend(later.leads);
    // What the dancer's own rule or stepping says of the first half is not what it says of the second.
    let leads = track.footing().leads();
    let own_phrase = !part.phrase.is_empty();
    let ruled = |made: &&LeadMade| match made.from {
        LeadFrom::Dancer => made.rule.is_some_and(|rule| rule != LeadRule::OutsideFoot),
        LeadFrom::Phrase => own_phrase,
        _ => false,
    };
    for made in leads.iter().filter(ruled).filter(|made| (made.at as f64) < half - 1e-6) {
        let foot = if swaps { made.foot.other() } else { made.foot };
        let at = made.at as f64 + half;
        let there = leads.iter().find(|there| (there.at as f64 - at).abs() < 0.5);
        // One that was put there before stays, so that done again it comes to the same.
        if there
            .is_none_or(|there| there.foot != foot || there.from == LeadFrom::Dancer && there.rule.is_none())
        {
            lead_with(&mut part, at, foot);
        }
    }
    Ok(with_part(dance, span.figure, part))
}

/// Nearer to where it began than this a half ends there, metres.
const NEAR: f64 = 0.3;

/// How the floor is mapped onto itself.
#[derive(Clone, Copy)]
enum Map {
    Still,
    /// Mirrored in the line through a place, along a direction in degrees.
    Line {
        through: (f64, f64),
        along: f64,
    },
    /// Half a turn about a place.
    HalfTurn {
        about: (f64, f64),
    },
}

impl Map {
    fn place(self, px: f64, py: f64) -> (f64, f64) {
        let at = |value: f64| rounded(value, 1000.0);
        match self {
            Self::Still => (px, py),
            Self::HalfTurn { about: (x, y) } => (at(2.0 * x - px), at(2.0 * y - py)),
            Self::Line { through: (x, y), along } => {
                let (sin, cos) = along.to_radians().sin_cos();
                let (dx, dy) = (px - x, py - y);
                let along = dx * sin + dy * cos;
                (at(2.0 * (x + along * sin) - px), at(2.0 * (y + along * cos) - py))
            }
        }
    }

    fn facing(self, degrees: f64) -> f64 {
        match self {
            Self::Still => degrees,
            Self::HalfTurn { .. } => (degrees + 180.0).rem_euclid(360.0),
            Self::Line { along, .. } => (2.0 * along - degrees).rem_euclid(360.0),
        }
    }
}

/// How what is done in one half is done in the other.
struct Image {
    places: Map,
    faces: Map,
    /// Whether left and right swap.
    swaps: bool,
}

impl Image {
    /// The image of a part, so many counts later.
    fn of(&self, part: &Part, later: f64) -> Part {
        let mut image = part.clone();
        // A circle bows to the other side of its way where the floor is mirrored.
        let bows = matches!(self.places, Map::Line { .. });
        for leg in &mut image.legs {
            leg.begin += later;
            leg.end += later;
            (leg.to.x, leg.to.y) = self.places.place(leg.to.x, leg.to.y);
            for point in &mut leg.through {
                (point.x, point.y) = self.places.place(point.x, point.y);
                point.at = point.at.map(|at| at + later);
            }
            if bows {
                leg.sweep = leg.sweep.map(|sweep| -sweep);
            }
        }
        for turn in &mut image.turns {
            turn.begin += later;
            turn.end += later;
            turn.face = turn.face.map(|face| (self.faces.facing(face) * 10.0).round() / 10.0);
        }
        for lead in &mut image.leads {
            lead.at += later;
        }
        if self.swaps {
            image.swap_sides();
        }
        image
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Leg, Set, Turn, Way};
    use crate::figures::{Mirror, motion_of};
    use crate::motion::passing;

    /// 1 crosses to 2's spot, bowing to their own left, and turns left to face 2's spot's way; 2 as the half turn of it.
    fn crossing() -> (Dance, Motion) {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("cross", "Cross", 8);
        for (place, side) in [(1, 1.0), (2, -1.0)] {
            let mut part = Part::still(place);
            part.legs.push(Leg::smooth(0.0, 4.0, &[(0.0, 0.35 * side)], 1.2 * side, 0.0));
            part.turns.push(Turn::to_face(8.0, 11.0, Way::Left, 180.0 + 90.0 * side));
            figure.parts.push(part);
        }
        dance.figures.push(figure);
        let motion = motion_of(&dance, None).unwrap();
        (dance, motion)
    }

    /// Worked out on the floor: going to your own left past a facing partner puts right shoulders together, to your
    /// right left shoulders; so a mirrored second half passes the other shoulder, and the same again the same one.
    #[test]
    fn the_second_half_brings_them_home() {
        for (second, shoulder) in [(SecondHalf::Mirrored, Way::Left), (SecondHalf::Same, Way::Right)] {
            let (mut dance, motion) = crossing();
            assert_eq!(passing(&motion, Dancer(0), Dancer(1), 0.0, 4.0).shoulder, Way::Right);
            for dancer in [0, 1] {
                dance = copy_half(&dance, &motion, &motion.spans()[0], Dancer(dancer), second).unwrap();
            }
            let whole = motion_of(&dance, None).unwrap();
            assert_eq!(passing(&whole, Dancer(0), Dancer(1), 16.0, 20.0).shoulder, shoulder, "{second:?}");
            assert!((passing(&whole, Dancer(0), Dancer(1), 16.0, 20.0).apart - 0.7).abs() < 0.02);
            for dancer in [0, 1] {
                let (home, end) = (whole.pose(Dancer(dancer), 0.0), whole.pose(Dancer(dancer), 32.0));
                assert!((home.x - end.x).hypot(home.y - end.y) < 1e-6, "{second:?}: {end:?}");
                assert!((home.facing - end.facing).rem_euclid(360.0) < 1e-6, "{second:?}: {end:?}");
            }
            let turn = whole.pose(Dancer(0), 27.0).facing - whole.pose(Dancer(0), 24.0).facing;
            assert!(turn * if second == SecondHalf::Mirrored { 1.0 } else { -1.0 } > 0.0, "{turn}");
            // Done again it changes nothing.
            let again = copy_half(&dance, &whole, &whole.spans()[0], Dancer(0), second).unwrap();
            assert_eq!(again, dance);
        }
    }

    #[test]
    fn a_half_that_ends_at_home_is_mirrored_in_the_way_they_face() {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("out", "Out", 4);
        let mut part = Part::still(1);
        part.legs = vec![Leg::straight(0.0, 3.0, -0.8, 0.6), Leg::straight(4.0, 7.0, -1.2, 0.0)];
        figure.parts.push(part);
        dance.figures.push(figure);
        let motion = motion_of(&dance, None).unwrap();
        let span = &motion.spans()[0];
        let mirrored = copy_half(&dance, &motion, span, Dancer(0), SecondHalf::Mirrored).unwrap();
        let to = &mirrored.figures[0].parts[0].legs[2].to;
        assert_eq!((to.x, to.y), (-0.8, -0.6));
        let same = copy_half(&dance, &motion, span, Dancer(0), SecondHalf::Same).unwrap();
        let to = &same.figures[0].parts[0].legs[2].to;
        assert_eq!((to.x, to.y), (-0.8, 0.6));
        assert_eq!(copy_half(&dance, &motion, span, Dancer(1), SecondHalf::Same), Err(EditError::EmptyHalf));
        // A leg that goes on into the second half cannot be copied there.
        dance.figures[0].parts[0].legs[1].end = 9.0;
        let motion = motion_of(&dance, None).unwrap();
        let refused = copy_half(&dance, &motion, &motion.spans()[0], Dancer(0), SecondHalf::Same);
        assert_eq!(refused, Err(EditError::OverHalf));
    }

    /// Nobody turns: they come back backwards, past the same shoulder, or mirrored past the other one.
    #[test]
    fn going_back_backwards() {
        for (second, shoulder) in [(SecondHalf::Mirrored, Way::Left), (SecondHalf::Same, Way::Right)] {
            let (mut dance, _) = crossing();
            dance.figures[0].parts.iter_mut().for_each(|part| part.turns.clear());
            let motion = motion_of(&dance, None).unwrap();
            for dancer in [0, 1] {
                dance = copy_half(&dance, &motion, &motion.spans()[0], Dancer(dancer), second).unwrap();
            }
            let whole = motion_of(&dance, None).unwrap();
            assert_eq!(passing(&whole, Dancer(0), Dancer(1), 16.0, 20.0).shoulder, shoulder, "{second:?}");
            let (home, end) = (whole.pose(Dancer(0), 0.0), whole.pose(Dancer(0), 32.0));
            assert!((home.x - end.x).hypot(home.y - end.y) < 1e-6 && home.facing == end.facing);
        }
    }

    #[test]
    fn a_part_is_copied_to_a_mate() {
        let (dance, motion) = crossing();
        let span = &motion.spans()[0];
        let to = (Together::Mirror(Mirror::Across), PlaceNumber(2));
        let copied = copy_part(&dance, &motion, span, Dancer(0), to).unwrap();
        let through = &copied.figures[0].parts[1].legs[0].through[0];
        assert_eq!((through.x, through.y), (0.0, 0.35));
        let all = copy_to_mates(&dance, &motion, span, Dancer(0), Together::Mirror(Mirror::Across)).unwrap();
        assert_eq!(all.figures[0].parts[1], copied.figures[0].parts[1]);
        let nobody = copy_to_mates(&dance, &motion, span, Dancer(0), Together::JustMe);
        assert_eq!(nobody, Err(EditError::NoMates));
    }
}
