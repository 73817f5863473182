//! Changing a turn that is there.

use super::facings::{drag_facing, drop_hold};
use super::others_kept::others_kept;
use super::redraw::{EditError, find, own_part, with_part};
use super::ring_turn::RingTurn;
use super::spoken::{spoken, way_danced};
use super::turn_steps::times_on;
use crate::dance::{Dance, Dancer, Turn, TurnOn, Way};
use crate::motion::{Motion, Span};

/// What is done to a turn.
#[derive(Clone, Debug, PartialEq)]
pub enum TurnEdit {
    /// The other way to finish as it does: right 90 for left 270.
    OtherWay,
    /// So far round, degrees, the way that it goes.
    By(f64),
    /// On steps, or at the counts that it has.
    On(Option<TurnOn>),
    /// Taken away.
    Remove,
}

/// Changes a turn of a dancer's part in a span, by its place among them.
///
/// # Errors
/// When there is no such turn, or no such steps, or another turn is danced on them.
pub fn change_turn(
    dance: &Dance,
    motion: &Motion,
    span: &Span,
    (dancer, index): (Dancer, usize),
    edit: TurnEdit,
) -> Result<Dance, EditError> {
    let mut part = own_part(span, dancer).ok_or(EditError::NoFigure)?;
    let track = span.track(dancer).ok_or(EditError::NoFigure)?;
    let danced = track.turns().get(index).ok_or(EditError::NoTurn)?;
    let amount = track.amounts().get(index).copied().ok_or(EditError::NoTurn)?;
    let before = part.turns.clone();
    let turn = part.turns.get_mut(index).ok_or(EditError::NoTurn)?;
    // What is edited says how far it goes, and nothing beside that.
    let said = spoken(turn, danced, amount);
    match edit {
        TurnEdit::OtherWay => *turn = the_other_way(said),
        TurnEdit::By(degrees) => {
            let same = |other: f64| (other - degrees).abs() < 0.05;
            if same(amount.abs()) && turn.by.is_none_or(same) {
                return Ok(dance.clone());
            }
            *turn = gone(said, way_danced(danced, amount).sign() * degrees.max(0.0));
        }
        TurnEdit::On(on) => {
            if danced.on == on {
                return Ok(dance.clone());
            }
            let (begin, end) = match on {
                None => (danced.begin, danced.end),
                Some(ref on) => times_on(motion, span, (&part, dancer, index), on)?,
            };
            if let Some(turn) = part.turns.get_mut(index) {
                *turn = Turn { begin, end, on, ..said };
            }
        }
        TurnEdit::Remove => {
            part.turns.remove(index);
        }
    }
    // Whoever is asked for what they do already goes on as they were, named as well.
    if part.turns == before {
        return Ok(dance.clone());
    }
    Ok(with_part(dance, span.figure, others_kept(part, motion, span, dancer)))
}

/// A turn the other way, to finish as it does: right 90 for left 270, with as many whole turns.
fn the_other_way(turn: Turn) -> Turn {
    // A way that is chosen follows no foot any more.
    let by = turn.by.map(|by| if by % 360.0 > 0.0 { by + 360.0 - 2.0 * (by % 360.0) } else { by });
    Turn { way: turn.way.other(), by, by_lead: false, ..turn }
}

/// How far a turn of a dancer would go that is danced [the other way](TurnEdit::OtherWay), degrees, clockwise positive; nothing
/// where there is no such turn.
#[must_use]
pub fn other_way_amount(span: &Span, dancer: Dancer, index: usize) -> Option<f64> {
    let track = span.track(dancer)?;
    let (danced, through) = (track.turns().get(index)?, *track.amounts().get(index)?);
    let other = the_other_way(spoken(danced, danced, through));
    Some(other.way.sign() * other.by?)
}

/// A turn that goes so far, degrees clockwise, and says nothing beside that. One that goes nowhere holds the facing.
fn gone(turn: Turn, amount: f64) -> Turn {
    let by = ((amount.abs() * 10.0).round() / 10.0).min(36_000.0);
    let way = match amount {
        0.0 => turn.way,
        left if left < 0.0 => Way::Left,
        _ => Way::Right,
    };
    // A way that is chosen follows no foot any more.
    Turn { by: Some(by), face: None, spins: 0, by_lead: turn.by_lead && way == turn.way, way, ..turn }
}

/// Turns a dancer at a count from the start of the dance by degrees (clockwise positive) as the ring about them does: a turn
/// under way goes so much farther, or less far, in the time that it has; else it is as [`drag_facing`] has it.
///
/// # Errors
/// Where there is no figure.
pub fn drag_ring(
    dance: &Dance,
    motion: &Motion,
    dancer: Dancer,
    count: f64,
    degrees: f64,
) -> Result<Dance, EditError> {
    let found = find(motion, dancer, count)?;
    let Some(ring) = RingTurn::at(found.span, dancer, found.local).filter(|ring| ring.under_way) else {
        return drag_facing(dance, motion, dancer, count, degrees);
    };
    let mut part = own_part(found.span, dancer).ok_or(EditError::NoFigure)?;
    let danced = found.track.turns().get(ring.turn).ok_or(EditError::NoTurn)?;
    let turn = part.turns.get_mut(ring.turn).ok_or(EditError::NoTurn)?;
    *turn = gone(spoken(turn, danced, ring.amount), ring.amount + degrees);
    drop_hold(&mut part, ring.turn);
    let part = others_kept(part, motion, found.span, dancer);
    Ok(with_part(dance, found.span.figure, part))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dance::{Figure, Leg, LegFacing, Part, Set};
    use crate::figures::motion_of;

    /// 1 faces 90; turns left 270 in the second bar, to face 180, and right 90 in the third half-bar of the next half.
    fn turning() -> Dance {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("turn", "Turn", 8);
        let mut part = Part::still(1);
        part.turns.push(Turn { by: Some(270.0), ..Turn::to_face(4.0, 7.0, Way::Left, 180.0) });
        part.turns.push(Turn { by: Some(90.0), ..Turn::to_face(20.0, 22.0, Way::Right, 270.0) });
        figure.parts.push(part);
        dance.figures.push(figure);
        dance
    }

    fn changed(edit: TurnEdit, index: usize) -> Result<(Dance, Motion), EditError> {
        let dance = turning();
        let motion = motion_of(&dance, None).unwrap();
        let made = change_turn(&dance, &motion, &motion.spans()[0], (Dancer(0), index), edit)?;
        let danced = motion_of(&made, None).unwrap();
        Ok((made, danced))
    }

    fn amounts(motion: &Motion) -> Vec<f64> {
        motion.spans()[0].track(Dancer(0)).unwrap().amounts().to_vec()
    }

    #[test]
    fn a_turn_goes_the_other_way_so_far_or_not_at_all() {
        let (dance, other) = changed(TurnEdit::OtherWay, 0).unwrap();
        assert_eq!(amounts(&other), [90.0, 90.0], "it finishes as it did, and the next is as it was");
        let next = |dance: &Dance| dance.figures[0].parts[0].turns[1].clone();
        assert_eq!(next(&dance), next(&turning()), "and as it is written");
        for degrees in [90.0, 180.0, 270.0, 360.0] {
            let (dance, danced) = changed(TurnEdit::By(degrees), 0).unwrap();
            assert_eq!(amounts(&danced), [-degrees, 90.0], "the next goes as far as it did, from elsewhere");
            let turns = &dance.figures[0].parts[0].turns;
            let said = |turn: &Turn| (turn.way, turn.by);
            assert_eq!(
                (said(&turns[0]), said(&turns[1])),
                ((Way::Left, Some(degrees)), (Way::Right, Some(90.0)))
            );
            assert_eq!(turns[0].face, if degrees == 270.0 { Some(180.0) } else { None }, "it says one thing");
        }
        let (dance, _) = changed(TurnEdit::Remove, 0).unwrap();
        assert_eq!(dance.figures[0].parts[0].turns.len(), 1);
        assert_eq!(changed(TurnEdit::Remove, 2).unwrap_err(), EditError::NoTurn);
    }

    /// A turn whose amount nobody chose goes the shorter way: asked for the other, it goes the rest of the whole turn.
    #[test]
    fn a_turn_that_nobody_chose_goes_the_other_way_too() {
        let mut dance = turning();
        dance.figures[0].parts[0].turns[0] = Turn::shorter(4.0, 7.0, Way::Right, 180.0);
        let motion = motion_of(&dance, None).unwrap();
        assert_eq!(amounts(&motion)[0], 90.0);
        let other = |dance: &Dance| {
            let motion = motion_of(dance, None).unwrap();
            let turned = change_turn(dance, &motion, &motion.spans()[0], (Dancer(0), 0), TurnEdit::OtherWay);
            let turned = turned.unwrap();
            let danced = motion_of(&turned, None).unwrap();
            assert!((danced.pose(Dancer(0), 7.5).facing.rem_euclid(360.0) - 180.0).abs() < 1e-6);
            (amounts(&danced)[0], turned)
        };
        let (amount, turned) = other(&dance);
        assert_eq!(amount, -270.0);
        assert_eq!(other(&turned).0, 90.0);
    }

    /// Whoever is asked for what they do already is not drawn over for it.
    #[test]
    fn what_is_so_already_changes_nothing() {
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let with = crate::dance::Extra::new();
        dance.figures.push(crate::figures::named_figure("cross-and-turn", with, &dance.set).unwrap());
        let motion = motion_of(&dance, None).unwrap();
        let span = &motion.spans()[0];
        let track = span.track(Dancer(0)).unwrap();
        let mut seen = 0;
        for (index, amount) in track.amounts().iter().enumerate().filter(|(_, amount)| amount.abs() > 1.0) {
            let edit = TurnEdit::By((amount.abs() * 10.0).round() / 10.0);
            let same = change_turn(&dance, &motion, span, (Dancer(0), index), edit).unwrap();
            assert_eq!(same, dance, "turn {index}");
            seen += 1;
        }
        assert!(seen >= 4, "{seen}");
    }

    /// In the midst of a turn the ring has its finish in hand: there is one turn still, and what comes after it is as it was.
    #[test]
    fn the_ring_in_the_midst_of_a_turn_changes_that_turn() {
        let dance = turning();
        let motion = motion_of(&dance, None).unwrap();
        for (count, degrees, amount) in [(5.0, -30.0, -300.0), (6.5, 90.0, -180.0), (5.5, 300.0, 30.0)] {
            let dragged = drag_ring(&dance, &motion, Dancer(0), count, degrees).unwrap();
            let danced = motion_of(&dragged, None).unwrap();
            assert_eq!(dragged.figures[0].parts[0].turns.len(), 2);
            assert_eq!(amounts(&danced)[0], amount, "{count} {degrees}");
            let (was, is) = (&dance.figures[0].parts[0].turns, &dragged.figures[0].parts[0].turns);
            assert_eq!((is[0].begin, is[0].end, is[0].face), (was[0].begin, was[0].end, None));
            assert_eq!(amounts(&danced)[1], 90.0, "the next goes as far as it did");
        }
        // Dragged to nothing there is none left, while it goes on and at its end, unless the path would turn them then.
        for (count, degrees) in [(5.5, 270.0), (7.0, 270.0)] {
            let dragged = drag_ring(&dance, &motion, Dancer(0), count, degrees).unwrap();
            let turns = &dragged.figures[0].parts[0].turns;
            assert_eq!((turns.len(), turns[0].begin), (1, 20.0), "{count}");
            let mut walks = dance.clone();
            let leg = Leg { facing: LegFacing::Forwards, ..Leg::straight(4.0, 8.0, -1.2, 2.6) };
            walks.figures[0].parts[0].legs.push(leg);
            let walking = motion_of(&walks, None).unwrap();
            let by = -walking.spans()[0].track(Dancer(0)).unwrap().amounts()[0];
            let dragged = drag_ring(&walks, &walking, Dancer(0), count, by).unwrap();
            assert_eq!(dragged.figures[0].parts[0].turns.len(), 2, "{count}: they face as they did, walking");
        }
        // At its end, and where there is none, it is as ever.
        for count in [7.0, 12.0] {
            let dragged = drag_ring(&dance, &motion, Dancer(0), count, 20.0).unwrap();
            assert_eq!(dragged, drag_facing(&dance, &motion, Dancer(0), count, 20.0).unwrap());
        }
    }

    /// In `2 ds, 2 ss, ftj` the single steps are the third bar, finished a count before the jump leaves the ground; the
    /// hop of the double step is its last count.
    #[test]
    fn a_turn_is_danced_on_steps() {
        let times = |edit: TurnEdit, index: usize| -> Result<(f64, f64), EditError> {
            let (dance, danced) = changed(edit, index)?;
            let turn = danced.spans()[0].track(Dancer(0)).unwrap().turns()[index].clone();
            assert_eq!(dance.figures[0].parts[0].turns[index].on, turn.on);
            Ok((turn.begin, turn.end))
        };
        assert_eq!(times(TurnEdit::On(Some(TurnOn::SingleSteps)), 0), Ok((8.0, 11.0)));
        assert_eq!(times(TurnEdit::On(Some(TurnOn::Hop)), 0), Ok((7.0, 8.0)));
        assert_eq!(times(TurnEdit::On(Some(TurnOn::Start)), 0), Ok((4.0, 5.0)));
        assert_eq!(times(TurnEdit::On(Some(TurnOn::SingleSteps)), 1), Ok((24.0, 27.0)));
        assert_eq!(times(TurnEdit::On(None), 1), Ok((20.0, 22.0)));
        // In the middle of the single steps it is those that are meant, not the next ones.
        let mut dance = turning();
        dance.figures[0].parts[0].turns.truncate(1);
        (dance.figures[0].parts[0].turns[0].begin, dance.figures[0].parts[0].turns[0].end) = (9.5, 12.0);
        let motion = motion_of(&dance, None).unwrap();
        let on = TurnEdit::On(Some(TurnOn::SingleSteps));
        let made = change_turn(&dance, &motion, &motion.spans()[0], (Dancer(0), 0), on.clone()).unwrap();
        let turn = &made.figures[0].parts[0].turns[0];
        assert_eq!((turn.begin, turn.end), (8.0, 11.0));
        // Where another turn is danced on them it says so.
        let mut dance = turning();
        (dance.figures[0].parts[0].turns[1].begin, dance.figures[0].parts[0].turns[1].end) = (10.0, 11.0);
        let motion = motion_of(&dance, None).unwrap();
        let refused = change_turn(&dance, &motion, &motion.spans()[0], (Dancer(0), 0), on);
        assert_eq!(refused, Err(EditError::TurnsMeet));
    }
}
