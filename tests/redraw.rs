//! What a drag on the floor does to a dance: the dancer is where they were put, at the count they were put
//! there, and nobody else moves.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

mod common;

use bellpad::dance::{Dance, Dancer, check_rules, read};
use bellpad::edits::{
    EditError, LegPoint, PointOf, RingTurn, TIME_STEP, drag_dancer, drag_point, drag_ring, drop_point,
    leg_points, restore_named,
};
use bellpad::figures::motion_of;
use bellpad::motion::{Motion, Span};
use proptest::prelude::*;
use proptest::sample::Index;
use proptest::test_runner::RngSeed;
use std::fs;

/// The text of a dance's file.
fn write(dance: &Dance) -> String {
    bellpad::dance::write(dance).unwrap()
}

/// The most that a place may differ, metres.
const CLOSE: f64 = 0.001;

fn open(name: &str) -> (Dance, Motion) {
    let dance = read(&fs::read(common::sample(name)).unwrap()).unwrap();
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

fn either() -> impl Strategy<Value = &'static str> {
    prop_oneof![Just("nine-geese-home"), Just("low-water")]
}

/// A place on or near the floor of a set, to the millimetre.
fn somewhere() -> impl Strategy<Value = (f64, f64)> {
    (-3000i32..3000, -3000i32..3000).prop_map(|(x, y)| (f64::from(x) / 1000.0, f64::from(y) / 1000.0))
}

/// A count of a motion, to the thousandth that a drag keeps, by a share of the whole.
fn count_in(motion: &Motion, share: f64) -> f64 {
    (motion.counts() * share * 1000.0).round() / 1000.0
}

fn span_at(motion: &Motion, count: f64) -> &Span {
    motion.span_under(count).unwrap()
}

/// The moment that a drag at a count is taken for: the end of a leg, or the start of one that has just begun,
/// where one is within [`TIME_STEP`]; otherwise the count itself.
fn taken_for(motion: &Motion, dancer: usize, count: f64) -> f64 {
    let span = span_at(motion, count);
    let legs = &span.part(Dancer(dancer)).unwrap().legs;
    let local = count - span.begin();
    let ends = legs.iter().map(|leg| leg.end).find(|end| (end - local).abs() <= TIME_STEP + 1e-9);
    let begun =
        legs.iter().map(|leg| leg.begin).find(|begin| (0.0..TIME_STEP - 1e-9).contains(&(local - begin)));
    ends.or(begun).map_or(count, |moment| span.begin() + moment)
}

/// Everybody but one stands where they stood, all through.
fn assert_others_are_still(before: &Motion, after: &Motion, dancer: usize) -> Result<(), TestCaseError> {
    for step in 0..=(before.counts() * 2.0) as u32 {
        let count = f64::from(step) / 2.0;
        for (one, other) in before.poses(count).iter().zip(after.poses(count)) {
            if one.number != Dancer(dancer).number() {
                prop_assert_eq!(one, &other);
            }
        }
    }
    Ok(())
}

/// The dance keeps to its rules, survives being written, and its dancer never jumps: not between legs, not
/// between figures, not anywhere.
fn assert_sound(dance: &Dance, motion: &Motion, dancer: usize) -> Result<(), TestCaseError> {
    const STEP: f64 = 1e-6;
    let rules = check_rules(dance);
    prop_assert!(rules.is_ok(), "{rules:?}");
    let again = read(write(dance).as_bytes());
    prop_assert_eq!(again.as_ref(), Ok(dance));
    let joints = motion.spans().iter().flat_map(|span| {
        let legs = span.part(Dancer(dancer)).map(|part| part.legs.as_slice()).unwrap_or_default();
        let points = leg_points(span, Dancer(dancer)).into_iter().map(|point| point.count);
        legs.iter()
            .flat_map(|leg| [leg.begin, leg.end])
            .map(|at| at + span.begin())
            .chain(points)
            .chain([span.end()])
    });
    let between = (0..(motion.counts() * 8.0) as u32).map(|step| (f64::from(step) + 0.37) / 8.0);
    for count in joints.chain(between) {
        let (before, after) =
            (motion.pose(Dancer(dancer), count - STEP), motion.pose(Dancer(dancer), count + STEP));
        let moved = (after.x - before.x).hypot(after.y - before.y);
        prop_assert!(moved < CLOSE, "{} jumps {moved} m at {count}", dancer + 1);
        prop_assert!([after.x, after.y, after.facing].iter().all(|number| number.is_finite()));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 96,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(1907),
        max_shrink_iters: 300,
        ..ProptestConfig::default()
    })]

    #[test]
    fn a_dragged_dancer_is_where_they_were_put(
        name in either(), who in any::<Index>(), share in 0.0f64..=1.0, (x, y) in somewhere(),
    ) {
        let (dance, motion) = open(name);
        let (dancer, count) = (who.index(motion.dancers()), count_in(&motion, share));
        match drag_dancer(&dance, &motion, Dancer(dancer), count, x, y) {
            Err(error) => {
                prop_assert_eq!(error, EditError::Start);
                let begin = span_at(&motion, count).begin();
                prop_assert!(count - begin < TIME_STEP, "{count} is not at a start");
            }
            Ok(dragged) => {
                let after = motion_of(&dragged, Some(&motion)).unwrap();
                let moment = taken_for(&motion, dancer, count);
                let pose = after.pose(Dancer(dancer), moment);
                let off = (pose.x - x).hypot(pose.y - y);
                prop_assert!(off < CLOSE, "{} at {count}: {off} m from {x}, {y}", dancer + 1);
                assert_others_are_still(&motion, &after, dancer)?;
                assert_sound(&dragged, &after, dancer)?;
                // Only the one figure is drawn anew.
                let pairs = dance.figures.iter().zip(&dragged.figures);
                prop_assert!(pairs.filter(|(one, other)| one != other).count() <= 1);
                let mut same = dragged.clone();
                same.figures.clone_from(&dance.figures);
                prop_assert_eq!(&same, &dance, "nothing but the figure has changed");
            }
        }
    }

    /// A second drag at the same count moves the same point: it does not pile up points.
    #[test]
    fn dragging_on_moves_the_same_point(
        name in either(),
        who in any::<Index>(),
        share in 0.0f64..=1.0,
        first in somewhere(),
        second in somewhere(),
    ) {
        let (dance, motion) = open(name);
        let (dancer, count) = (who.index(motion.dancers()), count_in(&motion, share));
        let Ok(once) = drag_dancer(&dance, &motion, Dancer(dancer), count, first.0, first.1) else { return Ok(()) };
        let moved = motion_of(&once, Some(&motion)).unwrap();
        let twice = drag_dancer(&once, &moved, Dancer(dancer), count, second.0, second.1).unwrap();
        let after = motion_of(&twice, Some(&moved)).unwrap();
        let points = |motion: &Motion| leg_points(span_at(motion, count), Dancer(dancer)).len();
        prop_assert_eq!(points(&after), points(&moved));
        let pose = after.pose(Dancer(dancer), taken_for(&moved, dancer, count));
        prop_assert!((pose.x - second.0).hypot(pose.y - second.1) < CLOSE);
    }

    #[test]
    fn the_start_of_a_figure_cannot_be_dragged(
        name in either(),
        who in any::<Index>(),
        which in any::<Index>(),
        late in 0.0f64..0.124,
        place in somewhere(),
    ) {
        let (dance, motion) = open(name);
        let begin = motion.spans()[which.index(motion.spans().len())].begin();
        let dancer = who.index(motion.dancers());
        let said = drag_dancer(&dance, &motion, Dancer(dancer), begin + late, place.0, place.1);
        prop_assert_eq!(said, Err(EditError::Start));
    }

    #[test]
    fn a_dragged_point_is_where_it_was_put(
        name in either(),
        who in any::<Index>(),
        span in any::<Index>(),
        point in any::<Index>(),
        (x, y) in somewhere(),
    ) {
        let (dance, motion) = open(name);
        let dancer = who.index(motion.dancers());
        let span = span.index(motion.spans().len());
        let points = leg_points(&motion.spans()[span], Dancer(dancer));
        if points.is_empty() {
            return Ok(());
        }
        let index = point.index(points.len());
        let LegPoint { of, .. } = points[index];
        let dragged = drag_point(&dance, &motion.spans()[span], Dancer(dancer), of, x, y).unwrap();
        let after = motion_of(&dragged, Some(&motion)).unwrap();
        let found = leg_points(&after.spans()[span], Dancer(dancer));
        prop_assert_eq!(found.len(), points.len());
        prop_assert_eq!((found[index].x, found[index].y), (x, y));
        for (other, (one, same)) in points.iter().zip(&found).enumerate() {
            if other != index {
                prop_assert_eq!((one.x, one.y), (same.x, same.y), "the other points stay");
            }
        }
        // The dancer goes through the point at the count that it gives.
        let pose = after.pose(Dancer(dancer), found[index].count.min(after.counts()));
        prop_assert!((pose.x - x).hypot(pose.y - y) < CLOSE, "{pose:?} for {:?}", found[index]);
        assert_others_are_still(&motion, &after, dancer)?;
        assert_sound(&dragged, &after, dancer)?;
    }

    #[test]
    fn a_dropped_point_is_gone(
        name in either(), who in any::<Index>(), span in any::<Index>(), point in any::<Index>(),
    ) {
        let (dance, motion) = open(name);
        let dancer = who.index(motion.dancers());
        let span = span.index(motion.spans().len());
        let points = leg_points(&motion.spans()[span], Dancer(dancer));
        if points.is_empty() {
            return Ok(());
        }
        let LegPoint { of, .. } = points[point.index(points.len())];
        let dropped = drop_point(&dance, &motion.spans()[span], Dancer(dancer), of).unwrap();
        let after = motion_of(&dropped, Some(&motion)).unwrap();
        let left = leg_points(&after.spans()[span], Dancer(dancer));
        let gone = if of.point.is_some() { 1 } else { points.iter().filter(|point| point.of.leg == of.leg).count() };
        prop_assert_eq!(left.len(), points.len() - gone);
        assert_others_are_still(&motion, &after, dancer)?;
        assert_sound(&dropped, &after, dancer)?;
        // A point that is not there says so and changes nothing.
        let missing = drag_point(&dropped, &after.spans()[span], Dancer(dancer), PointOf::end(999), 0.0, 0.0);
        prop_assert_eq!(missing, Err(EditError::NoPoint));
        let missing = drop_point(&dropped, &after.spans()[span], Dancer(dancer), PointOf::through(of.leg, 999));
        prop_assert_eq!(missing, Err(EditError::NoPoint));
    }

    /// The facing is counted on past whole turns: 200 degrees to the right is not 160 to the left.
    #[test]
    fn a_dancer_is_turned_by_as_much_as_was_asked(
        name in either(), who in any::<Index>(), share in 0.0f64..=1.0, degrees in -400.0f64..400.0,
    ) {
        let (dance, motion) = open(name);
        let (dancer, count) = (who.index(motion.dancers()), count_in(&motion, share));
        let span = span_at(&motion, count);
        let local = count - span.begin();
        // A figure danced before is turned there too; and where a turn begins it is the turn that is changed.
        let mut earlier = motion.spans().iter().take_while(|other| other.begin() < span.begin());
        let again = earlier.any(|other| other.figure == span.figure);
        let turns = span.track(Dancer(dancer)).unwrap().turns();
        let begins = turns.iter().any(|turn| (turn.begin - local).abs() <= TIME_STEP);
        if again || begins || local < TIME_STEP {
            return Ok(());
        }
        let turned = drag_ring(&dance, &motion, Dancer(dancer), count, degrees).unwrap();
        let after = motion_of(&turned, Some(&motion)).unwrap();
        // In the midst of a turn it is its end that is dragged, and so it is close to it: a path may turn the dancer on from
        // there.
        let ends = turns.iter().map(|turn| turn.end);
        let near = ends.clone().find(|end| (end - local).abs() <= TIME_STEP + 1e-9);
        let finish = RingTurn::at(span, Dancer(dancer), local).filter(|ring| ring.under_way);
        let end = near.or(finish.map(|ring| ends.clone().nth(ring.turn).unwrap()));
        let moment = end.map_or(count, |end| span.begin() + end - 1e-6);
        let by = after.pose(Dancer(dancer), moment).facing - motion.pose(Dancer(dancer), moment).facing;
        prop_assert!((by - degrees).abs() < 0.1, "{} at {count} turns {by}, not {degrees}", dancer + 1);
        let (was, is) = (motion.pose(Dancer(dancer), count), after.pose(Dancer(dancer), count));
        prop_assert_eq!((was.x, was.y), (is.x, is.y), "a turn moves nobody");
        assert_others_are_still(&motion, &after, dancer)?;
        assert_sound(&turned, &after, dancer)?;
    }

    /// Wherever a facing is dragged, the dance keeps to its rules.
    #[test]
    fn a_facing_can_be_dragged_at_any_count(
        name in either(),
        who in any::<Index>(),
        span in any::<Index>(),
        turn in any::<Index>(),
        late in -300i32..300,
        degrees in -400.0f64..400.0,
    ) {
        let (dance, motion) = open(name);
        let dancer = who.index(motion.dancers());
        let span = &motion.spans()[span.index(motion.spans().len())];
        let turns = &span.part(Dancer(dancer)).unwrap().turns;
        let near = if turns.is_empty() { 0.0 } else { turns[turn.index(turns.len())].begin };
        let count = (span.begin() + near + f64::from(late) / 1000.0).clamp(0.0, motion.counts());
        let turned = drag_ring(&dance, &motion, Dancer(dancer), count, degrees).unwrap();
        let after = motion_of(&turned, Some(&motion)).unwrap();
        assert_others_are_still(&motion, &after, dancer)?;
        assert_sound(&turned, &after, dancer)?;
    }

    #[test]
    fn restoring_gives_the_dance_back(
        name in either(),
        who in any::<Index>(),
        share in 0.0f64..=1.0,
        (x, y) in somewhere(),
        degrees in -400.0f64..400.0,
    ) {
        let (dance, motion) = open(name);
        let (dancer, count) = (who.index(motion.dancers()), count_in(&motion, share));
        let span = span_at(&motion, count);
        let place = span.place(Dancer(dancer));
        if dance.figures[span.figure].part(place).is_some() {
            return Ok(());
        }
        let turned = drag_ring(&dance, &motion, Dancer(dancer), count, degrees).unwrap();
        prop_assert!(turned.figures[span.figure].part(place).is_some(), "the dancer is drawn now");
        prop_assert_eq!(&restore_named(&turned, span.figure, place), &dance);
        if let Ok(dragged) = drag_dancer(&dance, &motion, Dancer(dancer), count, x, y) {
            prop_assert_ne!(&dragged, &dance);
            prop_assert_eq!(&restore_named(&dragged, span.figure, place), &dance);
        }
    }
}

/// One edit, as random numbers choose it.
#[derive(Clone, Debug)]
enum Edit {
    Dancer(Index, f64, (f64, f64)),
    Point(Index, Index, Index, (f64, f64)),
    Drop(Index, Index, Index),
    Facing(Index, f64, f64),
    Restore(Index, Index),
}

fn edit() -> impl Strategy<Value = Edit> {
    prop_oneof![
        4 => (any::<Index>(), 0.0f64..=1.0, somewhere())
            .prop_map(|(who, share, to)| Edit::Dancer(who, share, to)),
        2 => (any::<Index>(), any::<Index>(), any::<Index>(), somewhere())
            .prop_map(|(who, span, point, to)| Edit::Point(who, span, point, to)),
        1 => (any::<Index>(), any::<Index>(), any::<Index>())
            .prop_map(|(who, span, point)| Edit::Drop(who, span, point)),
        3 => (any::<Index>(), 0.0f64..=1.0, -400.0f64..400.0)
            .prop_map(|(who, share, degrees)| Edit::Facing(who, share, degrees)),
        1 => (any::<Index>(), any::<Index>()).prop_map(|(figure, place)| Edit::Restore(figure, place)),
    ]
}

/// The dancer that an edit is for and the dance after it; nothing where there is nothing to edit.
fn edited(dance: &Dance, motion: &Motion, edit: &Edit) -> Option<(usize, Dance)> {
    let pick = |who: &Index| who.index(motion.dancers());
    let point_of = |who: &Index, span: &Index, point: &Index| {
        let (dancer, span) = (pick(who), &motion.spans()[span.index(motion.spans().len())]);
        let points = leg_points(span, Dancer(dancer));
        (!points.is_empty()).then(|| {
            let LegPoint { of, .. } = points[point.index(points.len())];
            (dancer, span, of)
        })
    };
    match edit {
        Edit::Dancer(who, share, (x, y)) => {
            match drag_dancer(dance, motion, Dancer(pick(who)), motion.counts() * share, *x, *y) {
                Ok(dance) => Some((pick(who), dance)),
                Err(error) => {
                    assert_eq!(error, EditError::Start);
                    None
                }
            }
        }
        Edit::Point(who, span, point, (x, y)) => {
            let (dancer, span, point) = point_of(who, span, point)?;
            Some((dancer, drag_point(dance, span, Dancer(dancer), point, *x, *y).unwrap()))
        }
        Edit::Drop(who, span, point) => {
            let (dancer, span, point) = point_of(who, span, point)?;
            Some((dancer, drop_point(dance, span, Dancer(dancer), point).unwrap()))
        }
        Edit::Facing(who, share, degrees) => {
            let dancer = pick(who);
            Some((
                dancer,
                drag_ring(dance, motion, Dancer(dancer), motion.counts() * share, *degrees).unwrap(),
            ))
        }
        Edit::Restore(figure, place) => {
            let (figure, dancer) = (figure.index(dance.figures.len()), pick(place));
            Some((dancer, restore_named(dance, figure, Dancer(dancer).home())))
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 8,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(1907),
        max_shrink_iters: 100,
        ..ProptestConfig::default()
    })]

    #[test]
    fn fifty_edits_leave_a_dance(name in either(), edits in prop::collection::vec(edit(), 50)) {
        let (mut dance, mut motion) = open(name);
        for edit in &edits {
            let Some((dancer, next)) = edited(&dance, &motion, edit) else { continue };
            let moved = motion_of(&next, Some(&motion)).unwrap();
            let fresh = motion_of(&next, None).unwrap();
            for count in [0.0, 50.3, 101.5] {
                prop_assert_eq!(moved.poses(count), fresh.poses(count), "what is shared is the same");
            }
            let sound = assert_sound(&next, &moved, dancer);
            prop_assert!(sound.is_ok(), "{edit:?}: {sound:?}");
            (dance, motion) = (next, moved);
        }
    }
}

#[test]
fn a_dance_of_no_figures_has_nothing_to_drag() {
    let dance = Dance::new("Empty", bellpad::dance::Set::longways(6, 2.4, 1.8));
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(drag_dancer(&dance, &motion, Dancer(0), 0.0, 0.0, 0.0), Err(EditError::NoFigure));
    assert_eq!(drag_ring(&dance, &motion, Dancer(0), 0.0, 90.0), Err(EditError::NoFigure));
}

/// Keys that are not known stay with the dancer that is redrawn.
#[test]
fn a_drag_keeps_keys_that_are_not_known() {
    let (mut dance, _) = open("nine-geese-home");
    let lanterns = dance.figure_index("lanterns").unwrap();
    let part = &mut dance.figures[lanterns].parts[0];
    part.extra.insert("later".to_owned(), 1.into());
    part.legs[0].extra.insert("later".to_owned(), 2.into());
    part.turns[0].extra.insert("later".to_owned(), 3.into());
    let motion = motion_of(&dance, None).unwrap();
    let begin = motion.spans().iter().find(|span| span.figure == lanterns).unwrap().begin();
    let dragged = drag_dancer(&dance, &motion, Dancer(0), begin + 2.0, -0.5, 1.0).unwrap();
    let motion = motion_of(&dragged, None).unwrap();
    let turned = drag_ring(&dragged, &motion, Dancer(0), begin + 11.0, 30.0).unwrap();
    let part = &turned.figures[lanterns].parts[0];
    assert_eq!((&part.extra["later"], &part.legs[0].extra["later"]), (&1.into(), &2.into()));
    assert_eq!(part.turns[0].extra["later"], 3);
}

/// 200 degrees to the right stays so, and does not become 160 to the left, through writing and reading.
#[test]
fn a_long_way_round_stays_the_long_way_round() {
    let (dance, _) = open("low-water");
    let motion = motion_of(&dance, None).unwrap();
    for degrees in [200.0, -200.0, 359.0, -359.0, 540.0] {
        let turned = drag_ring(&dance, &motion, Dancer(0), 20.0, degrees).unwrap();
        let after = motion_of(&read(write(&turned).as_bytes()).unwrap(), None).unwrap();
        let by = after.pose(Dancer(0), 20.0).facing - motion.pose(Dancer(0), 20.0).facing;
        assert!((by - degrees).abs() < 0.1, "turned {by}, not {degrees}");
        let half_way = after.pose(Dancer(0), 19.0).facing - motion.pose(Dancer(0), 19.0).facing;
        assert!((half_way - degrees / 2.0).abs() < 0.1, "half-way in time is half-way round: {half_way}");
    }
}
