//! Moving a turn in time.

use super::others_kept::others_kept;
use super::paths::SHORTEST;
use super::redraw::{EditError, own_part, with_part};
use super::spoken::spoken;
use crate::dance::{Dance, Dancer, Turn};
use crate::motion::{Motion, Span};

/// What of a turn is moved in time.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum TurnTime {
    /// All of it, as long as it is.
    Whole,
    /// Where it begins.
    Begin,
    /// Where it ends.
    End,
}

/// Moves a turn of a dancer, by its place among theirs, to a count from the start of the dance: its beginning, or its end where
/// that is what is moved. It goes no farther than the turns beside it and the figure let it, and is danced on no steps any more.
/// Where it is there already the dance stays as it is.
///
/// # Errors
/// When there is no such turn.
pub fn retime_turn(
    dance: &Dance,
    motion: &Motion,
    span: &Span,
    (dancer, index): (Dancer, usize),
    (of, count): (TurnTime, f64),
) -> Result<Dance, EditError> {
    let mut part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let track = span.track(dancer).ok_or(EditError::NoFigure)?;
    let turns = track.turns();
    let danced = turns.get(index).ok_or(EditError::NoTurn)?;
    let local = ((count - span.begin()) * 1000.0).round() / 1000.0;
    let least = turns.iter().take(index).map(|turn| turn.end).fold(0.0, f64::max);
    let most = turns.iter().skip(index + 1).map(|turn| turn.begin).fold(span.end() - span.begin(), f64::min);
    let long = danced.end - danced.begin;
    let (begin, end) = match of {
        TurnTime::Begin => (local.clamp(least, (danced.end - SHORTEST).max(least)), danced.end),
        TurnTime::End => (danced.begin, local.clamp((danced.begin + SHORTEST).min(most), most)),
        TurnTime::Whole => {
            let begin = local.clamp(least, (most - long).max(least));
            (begin, (((begin + long) * 1000.0).round() / 1000.0).min(most))
        }
    };
    if (begin - danced.begin).abs() < 1e-6 && (end - danced.end).abs() < 1e-6 {
        return Ok(dance.clone());
    }
    let turn = part.turns.get_mut(index).ok_or(EditError::NoTurn)?;
    let amount = track.amounts().get(index).copied().ok_or(EditError::NoTurn)?;
    *turn = Turn { begin, end, on: None, by_lead: false, ..spoken(turn, danced, amount) };
    Ok(with_part(dance, span.figure, others_kept(part, motion, span, dancer)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Part, Set, Turn, TurnOn, Way};
    use crate::figures::motion_of;

    /// 1 turns left 270 in the second bar, right 90 on the single steps of the third, and left 90 in the fifth.
    fn turning() -> Dance {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("turn", "Turn", 8);
        let mut part = Part::still(1);
        part.turns.push(Turn { by: Some(270.0), ..Turn::to_face(4.0, 7.0, Way::Left, 180.0) });
        part.turns.push(
            Turn { by: Some(90.0), ..Turn::to_face(8.0, 9.0, Way::Right, 270.0) }.on(TurnOn::SingleSteps),
        );
        part.turns.push(Turn { by: Some(90.0), ..Turn::to_face(16.0, 18.0, Way::Left, 180.0) });
        figure.parts.push(part);
        dance.figures.push(figure);
        dance
    }

    #[test]
    fn a_turn_is_moved_as_far_as_its_neighbours_let_it_and_keeps_its_amount() {
        let dance = turning();
        let motion = motion_of(&dance, None).unwrap();
        let span = &motion.spans()[0];
        for (index, of, count, times) in [
            (0, TurnTime::Begin, 2.0, (2.0, 7.0)),
            (0, TurnTime::Begin, 9.0, (6.75, 7.0)),
            (0, TurnTime::Begin, -3.0, (0.0, 7.0)),
            (0, TurnTime::End, 5.5, (4.0, 5.5)),
            (0, TurnTime::End, 12.0, (4.0, 8.0)),
            (0, TurnTime::Whole, 1.5, (1.5, 4.5)),
            (0, TurnTime::Whole, 30.0, (5.0, 8.0)),
            // In `2 ds, 2 ss, ftj` the single steps are counts 8 to 11.
            (1, TurnTime::Whole, 9.5, (9.5, 12.5)),
            (1, TurnTime::End, 40.0, (8.0, 16.0)),
            (2, TurnTime::End, 99.0, (16.0, 32.0)),
        ] {
            let moved = retime_turn(&dance, &motion, span, (Dancer(0), index), (of, count)).unwrap();
            let turn = &moved.figures[0].parts[0].turns[index];
            assert_eq!(((turn.begin, turn.end), &turn.on), (times, &None), "{index} {of:?} {count}");
            let after = motion_of(&moved, None).unwrap();
            assert_eq!(
                after.spans()[0].track(Dancer(0)).unwrap().amounts(),
                [-270.0, 90.0, -90.0],
                "{index} {of:?} {count}"
            );
        }
        // One whose way the leading foot has chosen goes that way, and as far as it did.
        let mut led = turning();
        led.lead = Some(crate::dance::LeadRule::Right);
        led.figures[0].parts[0].turns[0].by_lead = true;
        let motion = motion_of(&led, None).unwrap();
        let amount = |motion: &crate::motion::Motion| {
            motion.spans()[0].track(Dancer(0)).unwrap().amounts().first().copied()
        };
        let moved =
            retime_turn(&led, &motion, &motion.spans()[0], (Dancer(0), 0), (TurnTime::End, 6.0)).unwrap();
        assert_eq!(amount(&motion_of(&moved, None).unwrap()), amount(&motion));
        assert!(amount(&motion).is_some_and(|amount| amount > 0.0), "the right foot turns it right");
        let still = retime_turn(&dance, &motion, span, (Dancer(0), 1), (TurnTime::End, 11.0)).unwrap();
        assert_eq!(still, dance, "it is on its steps as long as it stays where they are");
        let gone = retime_turn(&dance, &motion, span, (Dancer(0), 3), (TurnTime::End, 11.0));
        assert_eq!(gone, Err(EditError::NoTurn));
    }
}
