use super::paths::{SHORTEST, split_leg};
use super::redraw::{EditError, own_part, with_part};
use crate::dance::{Dance, Dancer, Leg};
use crate::motion::Span;

/// Has a dancer stand from one count of a figure to a later one, where they are at the first: a leg under way ends there,
/// one that goes on beyond sets out from there when the time is over, and those between go.
///
/// # Errors
/// Where there is no figure, or no time between the two.
pub fn stand(
    dance: &Dance,
    span: &Span,
    dancer: Dancer,
    (from, until): (f64, f64),
) -> Result<Dance, EditError> {
    let part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    if until - from < SHORTEST {
        return Err(EditError::NoTime);
    }
    let begun = part.legs.iter().position(|leg| leg.begin + 1e-6 < from && from < leg.end - 1e-6);
    // The leg under way is cut in two where they are: what is left of it may go on later.
    let cut = match begun.and_then(|index| part.legs.get(index)) {
        Some(leg) if from - leg.begin >= SHORTEST && leg.end - from >= SHORTEST => {
            let split = split_leg(dance, span, dancer, span.begin() + from)?;
            let place = part.place;
            split.figures.get(span.figure).and_then(|figure| figure.part(place)).cloned()
        }
        _ => None,
    };
    let mut part = cut.unwrap_or(part);
    let begun_before = |leg: &Leg| leg.begin < from - SHORTEST + 1e-6;
    part.legs.retain(|leg| begun_before(leg) || leg.end - until >= SHORTEST);
    for leg in part.legs.iter_mut().filter(|leg| !begun_before(leg) && leg.begin < until) {
        leg.begin = until;
        leg.through.retain(|point| point.at.is_none_or(|at| at > until + SHORTEST));
        // How it was paced was for the time that it had.
        leg.pace.clear();
    }
    Ok(with_part(dance, span.figure, part))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Part, Set};
    use crate::figures::motion_of;

    /// 1 goes in for two bars, on for one, and home in the fifth and sixth.
    fn walking() -> Dance {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("walk", "Walk", 8);
        let mut part = Part::still(1);
        part.legs = vec![
            Leg::straight(0.0, 8.0, -0.4, 0.0),
            Leg::straight(8.0, 12.0, -0.4, 0.6),
            Leg::straight(16.0, 24.0, -1.2, 0.0),
        ];
        figure.parts.push(part);
        dance.figures.push(figure);
        dance
    }

    #[test]
    fn whoever_stands_does_not_travel_until_then() {
        let dance = walking();
        let motion = motion_of(&dance, None).unwrap();
        let span = &motion.spans()[0];
        for (from, until, legs) in
            [(4.0, 8.0, 3), (4.0, 10.0, 3), (4.0, 16.0, 2), (10.0, 18.0, 3), (12.0, 16.0, 3)]
        {
            let stood = stand(&dance, span, Dancer(0), (from, until)).unwrap();
            let after = motion_of(&stood, None).unwrap();
            let (here, place) = (motion.pose(Dancer(0), from), |count: f64| after.pose(Dancer(0), count));
            for count in [from, f64::midpoint(from, until), until] {
                let there = place(count);
                let off = (there.x - here.x).hypot(there.y - here.y);
                assert!(off < 2e-3, "{from} to {until}: {off} m at {count}");
            }
            // What came before is danced as before, and they are home at the end.
            let (before, was) = (place(from / 2.0), motion.pose(Dancer(0), from / 2.0));
            assert!(
                (before.x - was.x).hypot(before.y - was.y) < 0.02,
                "{from} to {until}: {before:?} {was:?}"
            );
            assert!((place(24.0).x + 1.2).hypot(place(24.0).y) < 1e-6);
            assert_eq!(stood.figures[0].parts[0].legs.len(), legs, "{from} to {until}");
        }
        assert_eq!(stand(&dance, span, Dancer(0), (4.0, 4.0)), Err(EditError::NoTime));
    }
}
