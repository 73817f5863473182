//! Turns keep the way and the amount that they were given, and those that nobody asked for take the shorter way.
//!
//! Sources: [CP] common practice, no source.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::indexing_slicing,
    clippy::panic,
    clippy::doc_markdown
)]

use bellpad::dance::Dancer;
use bellpad::dance::{
    Dance, Entry, Extra, FaultKind, Figure, Leg, LegFacing, Number, Part, PlaceNumber, Set, Turn, Way, read,
};
use bellpad::desk::{Ask, Desk, DrawAsk, FaultAsk, Grip, PlayAsk};
use bellpad::edits::{
    Together, Toward, TurnEdit, TurnTime, change_turn, drag_dancer, drag_ring, keep_amounts, make_room,
    other_way_amount, own_part, turn_changes, with_part, with_set,
};
use bellpad::faults::find_faults;
use bellpad::figures::{Mirror, mirrored, motion_of, named_figure};
use bellpad::motion::{Moment, Motion, amount};
use bellpad::store::Recent;
use bellpad::words::now;
use proptest::prelude::*;
use serde_json::{Value, json};
use std::cell::{Cell, RefCell};

fn with(choices: &[(&str, Value)]) -> Extra {
    choices.iter().map(|(key, value)| ((*key).to_owned(), value.clone())).collect()
}

fn dance_of(set: Set, figures: &[(&str, Extra)]) -> Dance {
    let mut dance = Dance::new("Test", set);
    for (name, with) in figures {
        dance.figures.push(named_figure(name, with.clone(), &dance.set).unwrap());
    }
    dance
}

/// Rounds of 2 to 12, both ways round, in five sizes, from front and from column: nobody turns more than half about to
/// finish a half, and exactly half about goes on the way of the round. Worked out here from the facings alone.
#[test]
fn rounds_finish_by_the_shorter_way() {
    let mut looked = 0;
    for dancers in (2..=12).step_by(2) {
        for (across, along) in [(2.4, 1.8), (2.0, 1.5), (3.0, 1.9), (3.66, 1.83), (1.6, 1.2)] {
            for way in ["clockwise", "anticlockwise"] {
                for rounds in ["whole-rounds", "half-rounds"] {
                    let set = || Set::longways(dancers, across, along);
                    let round = (rounds, with(&[("way", json!(way))]));
                    // Whole rounds end in column, so that danced again they are begun from there.
                    let mut twice = dance_of(set(), std::slice::from_ref(&round));
                    twice.order = vec![bellpad::dance::Entry::of(rounds); 2];
                    for dance in [dance_of(set(), &[round]), twice] {
                        let motion = motion_of(&dance, None).unwrap();
                        for span in motion.spans() {
                            for dancer in 0..motion.dancers() {
                                let track = span.track(Dancer(dancer)).unwrap();
                                for turn in track.turns().iter().filter(|turn| turn.begin % 16.0 > 9.0) {
                                    let by = track.stand(turn.end).2 - track.stand(turn.begin).2;
                                    let said = format!(
                                        "{rounds} {way} of {dancers}, {across} by {along}, {}: {by}",
                                        dancer + 1
                                    );
                                    assert!(by.abs() <= 180.0 + 1e-6, "{said}");
                                    // Of exactly half about too, though nobody of these comes to it so; half
                                    // rounds come back the other way.
                                    let back = rounds == "half-rounds" && turn.begin > 16.0;
                                    let sign = if (way == "clockwise") == back { -1.0 } else { 1.0 };
                                    let half = amount(turn, turn.face.unwrap() + 180.0);
                                    assert!((half - 180.0 * sign).abs() < 1e-6, "{said}, half {half}");
                                    looked += 1;
                                }
                            }
                        }
                    }
                }
            }
        }
    }
    assert!(looked > 2000, "{looked}");
}

/// The samples: no turn that finishes a half of rounds goes more than half about.
#[test]
fn samples_finish_rounds_by_the_shorter_way() {
    let mut looked = 0;
    for (name, text) in bellpad::desk::SAMPLES {
        let dance = read(text.as_bytes()).unwrap();
        let motion = motion_of(&dance, None).unwrap();
        for span in motion.spans() {
            let named = dance.figures[span.figure].named.as_ref().map_or("", |named| &named.figure);
            if !named.ends_with("rounds") {
                continue;
            }
            for dancer in 0..motion.dancers() {
                let track = span.track(Dancer(dancer)).unwrap();
                for turn in track.turns().iter().filter(|turn| turn.begin % 16.0 > 9.0) {
                    let by = track.stand(turn.end).2 - track.stand(turn.begin).2;
                    assert!(by.abs() <= 180.0 + 1e-6, "{name}, {}: {by}", dancer + 1);
                    looked += 1;
                }
            }
        }
    }
    assert!(looked >= 8, "{looked}");
}

/// With an amount and a direction, the amount is the nearest one that finishes there, the way it goes counted.
#[test]
fn a_turn_keeps_the_amount_nearest_to_its_own() {
    let turn = |way, by, face| Turn { by: Some(by), ..Turn::to_face(0.0, 4.0, way, face) };
    for (way, by, face, from, wanted) in [
        (Way::Right, 354.0, 90.0, 96.0, 354.0),
        (Way::Right, 354.0, 90.0, 71.0, 379.0),
        (Way::Right, 354.0, 90.0, 120.0, 330.0),
        (Way::Left, 270.0, 90.0, 0.0, -270.0),
        (Way::Left, 270.0, 90.0, 30.0, -300.0),
        (Way::Left, 90.0, 0.0, 90.0, -90.0),
        // Already beyond the direction: back the other way where that is nearer than going on round.
        (Way::Left, 10.0, 0.0, -20.0, 20.0),
        (Way::Left, 90.0, 0.0, 300.0, 60.0),
        (Way::Left, 90.0, 0.0, 275.0, 85.0),
        (Way::Left, 90.0, 0.0, 270.0, -270.0),
        (Way::Left, 90.0, 0.0, 265.0, -265.0),
        (Way::Right, 720.0, 0.0, 350.0, 730.0),
        // Nobody chose an amount: the shorter way, and at half a turn the way it says.
        (Way::Left, 0.0, 90.0, 80.0, 10.0),
        (Way::Left, 0.0, 90.0, 99.0, -9.0),
        (Way::Left, 0.0, 90.0, 270.0, -180.0),
        (Way::Right, 0.0, 90.0, 270.0, 180.0),
        (Way::Right, 0.0, 90.0, 270.0 + 1e-9, 180.0),
    ] {
        let found = amount(&turn(way, by, face), from);
        assert!((found - wanted).abs() < 1e-6, "{way:?} {by} to {face} from {from}: {found}, not {wanted}");
    }
}

/// A close hey with its ends redrawn, in a file that only says which way to finish facing: room is made for 1 and 5, and
/// nobody loses or gains half a turn by it. What is proposed says which turns it changes.
#[test]
fn making_room_loses_no_spin() {
    let dance = read(include_bytes!("cases/close-hey-redrawn.dance.json")).unwrap();
    let hey = motion_of(&dance, None).unwrap();
    let mut part = own_part(&hey.spans()[0], Dancer(0)).unwrap();
    part.turns[0] = Turn::to_face(part.turns[0].begin, part.turns[0].end, Way::Right, 90.0);
    let mut dance = with_part(&dance, 0, part);
    // A later figure in which everyone turns to a facing that they have all but got.
    let hey = motion_of(&dance, None).unwrap();
    let mut later = Figure::drawn("later", "Later", 4);
    for dancer in 0..hey.dancers() {
        let facing = hey.pose(Dancer(dancer), hey.counts()).facing;
        let face = (facing.rem_euclid(360.0) * 10.0).round() / 10.0 + 0.1;
        let turns = vec![Turn::to_face(4.0, 8.0, Way::Right, face)];
        later.parts.push(Part { turns, ..Part::still(hey.spans()[0].place(Dancer(dancer))) });
    }
    dance.figures.push(later);
    let motion = motion_of(&dance, None).unwrap();
    let spun = motion.spans()[0].track(Dancer(0)).unwrap().amounts().iter().any(|amount| *amount > 350.0);
    assert!(spun, "number 1 turns once round in this file");
    let mut mended = 0;
    for fault in find_faults(&dance, &motion) {
        if !matches!(fault.kind, FaultKind::Clash | FaultKind::Tight) {
            continue;
        }
        let Ok(mend) = make_room(&dance, &motion, &fault) else { continue };
        mended += 1;
        assert_eq!(turn_changes(&motion, &mend.motion, 180.0), [], "{}", mend.text);
        for change in &mend.turns {
            assert!(mend.text.contains(&change.words()), "{} in {}", change.words(), mend.text);
        }
        assert_eq!(turn_changes(&motion, &mend.motion, 15.0), mend.turns);
        // What is proposed is what is taken.
        let made = |dance: &Dance| motion_of(dance, None).ok();
        assert_eq!(keep_amounts(&dance, &motion, mend.dance.clone(), made).dance, mend.dance);
        let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
        let index = desk.faults().iter().position(|other| *other == fault).unwrap();
        desk.apply(Ask::Fault(FaultAsk::MakeRoom(index)));
        assert_eq!(desk.proposed().map(|shown| shown.text.clone()), Some(mend.text));
        desk.apply(Ask::Fault(FaultAsk::TakeMend));
        assert_eq!(*desk.dance(), mend.dance);
    }
    assert!(mended > 0, "nothing was mended");
}

/// Two dancers: a figure in which number 1 ends facing a direction, and another with turns of theirs in it.
fn arriving(facing: f64, turns: &[Turn]) -> Dance {
    let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
    let mut arrive = Figure::drawn("arrive", "Arrive", 4);
    arrive.parts.push(Part { turns: vec![Turn::shorter(8.0, 11.0, Way::Left, facing)], ..Part::still(1) });
    let mut then = Figure::drawn("then", "Then", 4);
    then.parts.push(Part { turns: turns.to_vec(), ..Part::still(1) });
    dance.figures = vec![arrive, then];
    dance
}

fn with_by(turn: Turn, by: f64) -> Turn {
    Turn { by: Some(by), ..turn }
}

/// How far the turns of number 1 go in a span.
fn in_span(motion: &Motion, span: usize) -> Vec<f64> {
    motion.spans()[span].track(Dancer(0)).unwrap().amounts().to_vec()
}

/// "Left 90 to face up" is never left out: number 1 faces up when it is done, wherever they come from, and the card says
/// the way that they really turn.
#[test]
fn a_turn_to_a_facing_always_gets_there() {
    let quarter = with_by(Turn::to_face(4.0, 6.0, Way::Left, 0.0), 90.0);
    for facing in (0..360).step_by(5) {
        let dance = arriving(f64::from(facing), std::slice::from_ref(&quarter));
        let motion = motion_of(&dance, None).unwrap();
        let pose = motion.pose(Dancer(0), 23.0);
        assert!(
            (pose.facing / 360.0 - (pose.facing / 360.0).round()).abs() < 1e-6,
            "from {facing}: {pose:?}"
        );
        let next = now(&motion, Dancer(0), 17.0, None)
            .into_iter()
            .find(|(key, _)| *key == "Next")
            .map(|(_, words)| words);
        let wanted = match in_span(&motion, 1)[0] {
            left if left < -1e-6 => Some("turn left, at bar 2:1"),
            right if right > 1e-6 => Some("turn right, at bar 2:1"),
            _ => None,
        };
        assert_eq!(next.as_deref(), wanted, "from {facing}");
    }
}

/// Number 1 turns to 84 and then right to 90, in a file that says no amounts: dragging the first turn on to 96 leaves the
/// second where it ends, without sending it once round.
#[test]
fn turning_a_dancer_by_hand_leaves_the_other_turns_of_their_part() {
    let turns = [Turn::to_face(2.0, 4.0, Way::Right, 84.0), Turn::to_face(8.0, 12.0, Way::Right, 90.0)];
    let dance = arriving(0.0, &turns);
    let motion = motion_of(&dance, None).unwrap();
    assert_eq!(in_span(&motion, 1), [84.0, 6.0]);
    let dragged = drag_ring(&dance, &motion, Dancer(0), 20.0, 12.0).unwrap();
    let made = |dance: &Dance| motion_of(dance, None).ok();
    let kept = keep_amounts(&dance, &motion, dragged, made).dance;
    assert_eq!(in_span(&made(&kept).unwrap(), 1), [96.0, -6.0]);
    // And so through what the window does for a drag, and for a number that is typed.
    for asks in [
        vec![
            Ask::Draw(DrawAsk::BeginDrag(Grip::Facing(Dancer(0)))),
            Ask::Draw(DrawAsk::DragBy(5.0)),
            Ask::Draw(DrawAsk::DragBy(12.0)),
            Ask::Draw(DrawAsk::EndDrag),
        ],
        vec![Ask::Draw(DrawAsk::FaceAt { dancer: Dancer(0), degrees: 96.0 })],
    ] {
        let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
        desk.apply(Ask::Play(PlayAsk::Seek(20.0)));
        for ask in asks {
            desk.apply(ask);
        }
        assert_eq!(in_span(desk.motion(), 1), [96.0, -6.0]);
    }
}

/// In the midst of a turn a facing that is chosen or typed is where that turn finishes, as by a drag of the ring: it is one turn
/// still, in the time that it has, and what comes after it is as it was.
#[test]
fn a_facing_asked_for_in_the_midst_of_a_turn_is_its_finish() {
    // Left 270 to face down in the second bar, then right 90.
    let turns =
        [with_by(Turn::to_face(4.0, 8.0, Way::Left, 180.0), 270.0), with_by(Turn::hold(10.0, 12.0), 90.0)];
    let dance = arriving(90.0, &turns);
    let one = Dancer(0);
    for (count, ask, wanted) in [
        (21.0, DrawAsk::FaceAt { dancer: one, degrees: 150.0 }, -300.0),
        (23.5, DrawAsk::FaceAt { dancer: one, degrees: 225.0 }, -225.0),
        (22.0, DrawAsk::FaceAt { dancer: one, degrees: 180.0 }, -270.0),
        (22.0, DrawAsk::Face { dancer: one, toward: Toward::Out }, -180.0),
        (22.0, DrawAsk::Face { dancer: one, toward: Toward::Partner }, -360.0),
        (22.0, DrawAsk::Face { dancer: one, toward: Toward::Down }, -270.0),
        (22.0, DrawAsk::TurnBy { dancer: one, degrees: -30.0 }, -300.0),
    ] {
        let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
        desk.apply(Ask::Play(PlayAsk::Seek(count)));
        desk.apply(Ask::Draw(ask.clone()));
        assert_eq!(in_span(desk.motion(), 1), [wanted, 90.0], "{ask:?} at {count}");
        let (was, is) = (&dance.figures[1].parts[0].turns, &desk.dance().figures[1].parts[0].turns);
        assert_eq!(
            (is[0].begin, is[0].end, &is[1]),
            (was[0].begin, was[0].end, &was[1]),
            "{ask:?} at {count}"
        );
    }
    // Letter by letter it is where the number ends that counts, from where the turn finished before.
    let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
    desk.apply(Ask::Play(PlayAsk::Seek(22.0)));
    for degrees in [2.0, 20.0, 200.0] {
        desk.apply(Ask::Draw(DrawAsk::FaceAt { dancer: one, degrees }));
    }
    assert_eq!(in_span(desk.motion(), 1), [-250.0, 90.0]);
    desk.apply(Ask::Undo);
    assert_eq!(*desk.dance(), dance, "one step");
}

/// An old file's turn that only says which way to finish facing stays as it is written whatever else of its dancer is drawn, moved,
/// turned or followed; edited, it says how far it goes.
#[test]
fn a_turn_that_only_says_where_to_face_stays_so_until_it_is_edited() {
    let turns = [
        Turn::to_face(4.0, 6.0, Way::Left, 180.0),
        Turn { spins: 1, ..Turn::to_face(8.0, 12.0, Way::Right, 90.0) },
    ];
    let mut dance = arriving(90.0, &turns);
    // 2 does the same in a mirror.
    let mirror = mirrored(&dance.figures[1].parts[0], Mirror::Across, PlaceNumber(2));
    dance.figures[1].parts[0].legs.push(Leg::straight(0.0, 4.0, -0.8, 0.5));
    dance.figures[1].parts.push(mirror);
    let (one, span) = (Dancer(0), bellpad::motion::SpanIndex(1));
    let change = |turn: usize, edit: TurnEdit| DrawAsk::ChangeTurn { span, dancer: one, turn, edit };
    let follow = DrawAsk::Together(Together::Mirror(Mirror::Across));
    let written = |desk: &Desk, part: usize| desk.dance().figures[1].parts[part].turns.clone();
    for (ask, edited) in [
        (DrawAsk::PlaceAt { dancer: one, x: -0.5, y: 0.3 }, None),
        (DrawAsk::SplitLeg(one), None),
        (DrawAsk::TurnBy { dancer: one, degrees: 20.0 }, None),
        (change(1, TurnEdit::By(400.0)), Some(1)),
        (change(0, TurnEdit::OtherWay), Some(0)),
        (change(0, TurnEdit::On(None)), None),
        (DrawAsk::NudgeTurn { span, dancer: one, turn: 0, of: TurnTime::End, counts: 1.0 }, Some(0)),
    ] {
        let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
        desk.apply(Ask::Draw(follow.clone()));
        desk.apply(Ask::Play(PlayAsk::Seek(18.0)));
        desk.apply(Ask::Draw(ask.clone()));
        for part in [0, 1] {
            for (index, turn) in dance.figures[1].parts[part].turns.iter().enumerate() {
                let stays = written(&desk, part).contains(turn);
                assert_eq!(
                    stays,
                    edited != Some(index),
                    "{ask:?}, {part}: turn {index} of {:?}",
                    written(&desk, part)
                );
            }
        }
        let said = written(&desk, 0).iter().filter(|turn| turn.by.is_none()).count();
        assert_eq!(said, if edited.is_some() { 1 } else { 2 }, "{ask:?}");
        // Whoever follows goes as far the other way.
        let amounts =
            |dancer: usize| desk.motion().spans()[1].track(Dancer(dancer)).unwrap().amounts().to_vec();
        for (one, two) in amounts(0).iter().zip(amounts(1)) {
            assert!((one + two).abs() < 0.01, "{ask:?}: {:?} and {:?}", amounts(0), amounts(1));
        }
    }
}

/// What the menu says beforehand of the other way is what comes of it, a turn all but whole or hardly begun among them.
#[test]
fn the_other_way_is_as_it_was_said() {
    let mut looked = 0;
    let mut dances: Vec<Dance> = ["foot-up-and-down", "whole-rounds", "hey", "corners", "solos"]
        .map(|name| dance_of(Set::longways(6, 2.4, 1.8), &[(name, Extra::new())]))
        .to_vec();
    for (by, face) in [(359.6, 359.6), (0.4, 0.4), (360.0, 0.0), (719.8, 359.8), (90.0, 120.0)] {
        let to_face = with_by(Turn::to_face(0.0, 4.0, Way::Right, face), by);
        let turns = [
            to_face,
            Turn { face: None, ..with_by(Turn::hold(8.0, 9.0), by) },
            Turn::to_face(10.0, 12.0, Way::Left, 0.0),
        ];
        let mut dance = arriving(0.0, &[]);
        dance.figures[1].parts[0].turns = turns.to_vec();
        dances.push(dance);
    }
    for dance in &dances {
        let motion = motion_of(dance, None).unwrap();
        for span in motion.spans() {
            for dancer in Dancer::all(motion.dancers()) {
                let track = span.track(dancer).unwrap();
                for (index, amount) in track.amounts().iter().enumerate() {
                    let said = other_way_amount(span, dancer, index).unwrap();
                    let turned =
                        change_turn(dance, &motion, span, (dancer, index), TurnEdit::OtherWay).unwrap();
                    let danced = motion_of(&turned, Some(&motion)).unwrap();
                    let at = danced.spans().iter().find(|other| other.begin() == span.begin()).unwrap();
                    let is = at.track(dancer).unwrap().amounts()[index];
                    assert!((is - said).abs() < 0.02, "{amount} becomes {is}, said {said}");
                    // They finish facing as they did.
                    let finish = (is - amount).rem_euclid(360.0);
                    let bare = track.turns()[index].face.is_none();
                    assert!(bare || finish.min(360.0 - finish) < 0.02, "{amount} becomes {is}");
                    assert!(is * amount < 1e-9, "{amount} becomes {is}");
                    looked += 1;
                }
            }
        }
    }
    assert!(looked > 60, "{looked}");
}

/// Somebody who keeps their facing though the path curves is turned at a count, and keeps the new facing from there.
#[test]
fn a_facing_that_is_held_is_held_on_after_a_turn_by_hand() {
    let mut dance = arriving(90.0, &[Turn::hold(0.0, 12.0)]);
    dance.figures[1].parts[0].legs =
        vec![Leg::smooth(0.0, 12.0, &[(0.0, 1.0), (1.0, 0.0)], 0.0, -1.0).facing(LegFacing::Forwards)];
    for count in [16.5, 20.0, 24.0] {
        let mut desk = Desk::new(dance.clone(), None, Recent::default()).unwrap();
        desk.apply(Ask::Play(PlayAsk::Seek(count)));
        desk.apply(Ask::Draw(DrawAsk::FaceAt { dancer: Dancer(0), degrees: 150.0 }));
        for look in (0..=14).map(|half| 16.0 + f64::from(half) / 2.0).chain([27.9]) {
            let facing = desk.motion().pose(Dancer(0), look).facing.rem_euclid(360.0);
            let known = if look >= count { facing == 150.0 } else { (90.0..150.0).contains(&facing) };
            assert!(known, "{count}: {facing} at {look}");
        }
    }
}

/// The figure before is changed by hand so that number 1 arrives facing 96 and not 84: in a later figure they turn on
/// from there to 90 the short way, as they did, and not once round. While the hand still drags as well as when it lets go.
#[test]
fn a_drag_keeps_the_turns_of_later_figures() {
    let dance = arriving(84.0, &[Turn::to_face(8.0, 12.0, Way::Right, 90.0)]);
    let mut desk = Desk::new(dance, None, Recent::default()).unwrap();
    assert_eq!(in_span(desk.motion(), 1), [6.0]);
    desk.apply(Ask::Play(PlayAsk::Seek(11.0)));
    desk.apply(Ask::Draw(DrawAsk::BeginDrag(Grip::Facing(Dancer(0)))));
    desk.apply(Ask::Draw(DrawAsk::DragBy(12.0)));
    assert_eq!(in_span(desk.motion(), 1), [-6.0], "while it is dragged");
    desk.apply(Ask::Draw(DrawAsk::DragBy(3.0)));
    assert_eq!(in_span(desk.motion(), 1), [3.0], "back before it, nothing is left of the drag");
    desk.apply(Ask::Draw(DrawAsk::DragBy(12.0)));
    desk.apply(Ask::Draw(DrawAsk::EndDrag));
    assert_eq!(in_span(desk.motion(), 1), [-6.0]);
    desk.apply(Ask::Undo);
    assert_eq!(in_span(desk.motion(), 1), [6.0]);
}

/// One turn of a part is changed and comes to finish elsewhere: the next, which only says where to face, keeps its amount.
#[test]
fn a_changed_turn_leaves_its_neighbours() {
    let turns =
        |first: f64| [Turn::to_face(2.0, 4.0, Way::Right, first), Turn::to_face(8.0, 12.0, Way::Right, 90.0)];
    let dance = arriving(0.0, &turns(84.0));
    let motion = motion_of(&dance, None).unwrap();
    let changed = arriving(0.0, &turns(96.0));
    let kept = keep_amounts(&dance, &motion, changed, |dance| motion_of(dance, None).ok()).dance;
    assert_eq!(in_span(&motion_of(&kept, None).unwrap(), 1), [96.0, -6.0]);
    assert_eq!(kept.figures[1].parts[0].turns[0], turns(96.0)[0], "what was changed is left as it is");
}

/// What is worked out to see how far turns go is what is danced then: a change is worked out once, and where a turn was given
/// its amount only the figure that it is in once more.
#[test]
fn a_change_is_worked_out_once() {
    for (arrival, given) in [(85.0, false), (96.0, true)] {
        let dance = arriving(84.0, &[Turn::to_face(8.0, 12.0, Way::Right, 90.0)]);
        let motion = motion_of(&dance, None).unwrap();
        let changed = arriving(arrival, &[Turn::to_face(8.0, 12.0, Way::Right, 90.0)]);
        let (asked, first) = (Cell::new(0), RefCell::new(None));
        let kept = keep_amounts(&dance, &motion, changed.clone(), |dance| {
            asked.set(asked.get() + 1);
            let made = motion_of(dance, Some(&motion)).ok();
            first.borrow_mut().clone_from(&made);
            made
        });
        let (first, after) = (first.take().unwrap(), kept.motion.unwrap());
        assert_eq!((asked.get(), kept.dance != changed), (1, given));
        let shared = |span: usize| after.spans()[span].repeats(&first.spans()[span]);
        assert_eq!([shared(0), shared(1)], [true, !given]);
        let afresh = motion_of(&kept.dance, None).unwrap();
        assert_eq!([0, 1].map(|span| in_span(&after, span)), [0, 1].map(|span| in_span(&afresh, span)));
    }
}

/// A figure danced twice, and another between that changes: the second time is minded as well as the first.
#[test]
fn a_figure_danced_again_keeps_its_turns_each_time() {
    let with_arrival = |facing: f64| {
        let mut dance = arriving(facing, &[Turn::to_face(8.0, 12.0, Way::Right, 90.0)]);
        dance.order = ["then", "arrive", "then"].map(Entry::of).to_vec();
        dance
    };
    let dance = with_arrival(84.0);
    let motion = motion_of(&dance, None).unwrap();
    let (first, second) = (in_span(&motion, 0), in_span(&motion, 2));
    assert_eq!(second, [6.0]);
    let kept = keep_amounts(&dance, &motion, with_arrival(96.0), |dance| motion_of(dance, None).ok()).dance;
    let after = motion_of(&kept, None).unwrap();
    assert_eq!((in_span(&after, 0), in_span(&after, 2)), (first, vec![-6.0]));
}

/// A foot up and down, a figure with legs that turn their dancers and the turn, which is danced twice with another figure
/// between, and a last one with the same turn and one to face front after it.
fn dance_with(turn: &Turn, dancers: u32) -> Dance {
    let mut dance = dance_of(Set::longways(dancers, 2.4, 1.8), &[("foot-up-and-down", Extra::new())]);
    for (id, legs) in [("own", true), ("later", false)] {
        let mut figure = Figure::drawn(id, id, 8);
        for place in 1..=dancers {
            let mut part = Part::still(place);
            if legs {
                part.legs.push(Leg::smooth(0.0, 8.0, &[(0.3, 0.4), (0.2, -0.3)], -1.0, 0.5));
                part.legs[0].facing = LegFacing::Forwards;
            } else {
                part.turns.push(Turn { begin: 2.0, end: 4.0, ..turn.clone() });
            }
            part.turns.push(turn.clone());
            if !legs {
                part.turns.push(Turn::to_face(20.0, 24.0, Way::Right, 90.0));
            }
            figure.parts.push(part);
        }
        dance.figures.push(figure);
    }
    dance.order = ["foot-up-and-down", "own", "foot-up-and-down", "own", "later"].map(Entry::of).to_vec();
    dance
}

/// The facing after each turn that says where to face is that one; and no turn that is not at one of the counts
/// (of the dance, dancer by index) that were meant to change goes more than half about otherwise than before.
fn assert_kept(before: &Motion, after: &Motion, meant: &[(usize, f64)]) -> Result<(), TestCaseError> {
    let mut looked = 0;
    for (was, is) in before.spans().iter().zip(after.spans()) {
        for dancer in 0..before.dancers() {
            let (old, new) = (was.track(Dancer(dancer)).unwrap(), is.track(Dancer(dancer)).unwrap());
            for (turn, amount) in new.turns().iter().zip(new.amounts()) {
                if let Some(face) = turn.face {
                    let off = new.stand(turn.begin).2 + amount - face;
                    prop_assert!((off / 360.0 - (off / 360.0).round()).abs() < 1e-6, "unfaced by {}", off);
                }
                let begin = is.begin() + turn.begin;
                if meant
                    .iter()
                    .any(|(who, at)| *who == dancer && (begin..=is.begin() + turn.end).contains(at))
                {
                    continue;
                }
                // A named figure's turns are nearest to what they are from home.
                if !is.plan().is_drawn(is.place(Dancer(dancer))) {
                    continue;
                }
                let index = old.turns().iter().position(|known| known.begin == turn.begin);
                let Some(through) = index.map(|index| old.amounts()[index]) else { continue };
                let bar = Moment::at(after.bar_counts(), begin);
                prop_assert!(
                    (through - amount).abs() <= 180.0 + 1e-6,
                    "{} at {}: {} became {}",
                    dancer + 1,
                    bar,
                    through,
                    amount
                );
                looked += 1;
            }
        }
    }
    prop_assert!(looked > before.dancers(), "{looked}");
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Wherever it begins, a turn with an amount and a direction gets there by the amount nearest to its own, and one that
    /// only says the direction gets there its way within a turn.
    #[test]
    fn no_turn_stays_unfaced_or_goes_a_turn_too_far(
        left in any::<bool>(),
        by in 0.0..900.0_f64,
        face in -720.0..720.0_f64,
        from in -2000.0..2000.0_f64,
    ) {
        let way = if left { Way::Left } else { Way::Right };
        let turn = Turn::to_face(0.0, 4.0, way, face);
        let gets_there = |through: f64| {
            let off = (from + through - face) / 360.0;
            (off - off.round()).abs() < 1e-6
        };
        let chosen = amount(&with_by(turn.clone(), by), from);
        prop_assert!(gets_there(chosen), "{}", chosen);
        prop_assert!((chosen - way.sign() * by).abs() <= 180.0 + 1e-6, "{} for {}", chosen, way.sign() * by);
        let only = amount(&turn, from);
        prop_assert!(gets_there(only) && (0.0..360.0).contains(&(only * way.sign())), "{}", only);
    }

    /// Whatever is redrawn, turned, mended, copied, mirrored or resized, or danced before it: a turn that nobody touched
    /// keeps its amount, to half a turn, and gets to where it says; in every figure, each time that it is danced. In
    /// files that only say which way to finish facing as well as in those that say how far.
    #[test]
    fn any_change_keeps_turns(
        left in any::<bool>(),
        by in 0.0..900.0_f64,
        face in 0.0..360.0_f64,
        only_facing in any::<bool>(),
        at in 1.0..7.5_f64,
        (x, y) in (-2.0..2.0_f64, -2.0..2.0_f64),
        degrees in -200.0..200.0_f64,
        along in 1.0..2.6_f64,
        dancer in 0..6_usize,
    ) {
        let way = if left { Way::Left } else { Way::Right };
        let turn = Turn::to_face(8.0, 12.0, way, face);
        let turn = if only_facing { turn } else { with_by(turn, (by * 10.0).round() / 10.0 + 0.1) };
        let dance = dance_with(&turn, 6);
        let before = motion_of(&dance, None).unwrap();
        let made = |dance: &Dance| motion_of(dance, None).ok();
        let desk = || Desk::new(dance.clone(), None, Recent::default()).unwrap();
        let begin = before.spans()[1].begin();

        // A dancer dragged to another place, by itself and as the window does it.
        let moved = drag_dancer(&dance, &before, Dancer(dancer), begin + at, x, y).unwrap();
        let own = made(&keep_amounts(&dance, &before, moved, made).dance).unwrap();
        let was = before.spans()[1].track(Dancer(dancer)).unwrap().amounts()[0];
        prop_assert!((was - own.spans()[1].track(Dancer(dancer)).unwrap().amounts()[0]).abs() <= 180.0 + 1e-6);
        let mut shown = desk();
        let drag = [Ask::Draw(DrawAsk::BeginDrag(Grip::Dancer(Dancer(dancer)))), Ask::Draw(DrawAsk::DragTo { x: -y, y: x, reach: 0.0 }), Ask::Draw(DrawAsk::DragTo { x, y, reach: 0.0 })];
        shown.apply(Ask::Play(PlayAsk::Seek(begin + at)));
        for ask in drag {
            shown.apply(ask);
            assert_kept(&before, shown.motion(), &[])?;
        }
        shown.apply(Ask::Draw(DrawAsk::EndDrag));
        assert_kept(&before, shown.motion(), &[])?;

        // Turned by hand within a turn and where there was none, by dragging and by typing.
        for count in [begin + 10.0, begin + at, begin + 14.0] {
            let turned = drag_ring(&dance, &before, Dancer(dancer), count, degrees).unwrap();
            let kept = keep_amounts(&dance, &before, turned, made).dance;
            let again = before.spans()[3].begin() - begin;
            let meant: Vec<(usize, f64)> =
                [count, count + again].into_iter().map(|count| (dancer, count)).collect();
            assert_kept(&before, &made(&kept).unwrap(), &meant)?;
            let mut shown = desk();
            shown.apply(Ask::Play(PlayAsk::Seek(count)));
            shown.apply(Ask::Draw(DrawAsk::BeginDrag(Grip::Facing(Dancer(dancer)))));
            for by in [degrees / 2.0, degrees] {
                shown.apply(Ask::Draw(DrawAsk::DragBy(by)));
                assert_kept(&before, shown.motion(), &meant)?;
            }
            shown.apply(Ask::Draw(DrawAsk::EndDrag));
            assert_kept(&before, shown.motion(), &meant)?;
            let mut typed = desk();
            typed.apply(Ask::Play(PlayAsk::Seek(count)));
            typed.apply(Ask::Draw(DrawAsk::FaceAt { dancer: Dancer(dancer), degrees: face + degrees }));
            assert_kept(&before, typed.motion(), &meant)?;
        }

        // The set made another size, and the figure before it another one.
        let resized = with_set(&dance, Set::longways(6, 3.0, along)).unwrap();
        let resized = keep_amounts(&dance, &before, resized, made).dance;
        assert_kept(&before, &made(&resized).unwrap(), &[])?;
        let mut after_rounds = dance.clone();
        after_rounds.figures[0] = named_figure("whole-rounds", Extra::new(), &dance.set).unwrap();
        after_rounds.figures[0].id.clone_from(&dance.figures[0].id);
        let after_rounds = keep_amounts(&dance, &before, after_rounds, made).dance;
        let danced = made(&after_rounds).unwrap();
        for (old, new) in [1, 3, 4].map(|span| (&before.spans()[span], &danced.spans()[span])) {
            for dancer in 0..6 {
                let (old, new) = (old.track(Dancer(dancer)).unwrap(), new.track(Dancer(dancer)).unwrap());
                for (was, is) in old.amounts().iter().zip(new.amounts()) {
                    prop_assert!((was - is).abs() <= 180.0 + 1e-6, "{} became {}", was, is);
                }
            }
        }

        // Copied to the mate under each symmetry, left and right change but for the half turn.
        let part = own_part(&before.spans()[1], Dancer(0)).unwrap();
        for (mirror, mate, swaps) in
            [(Mirror::Across, 2, true), (Mirror::EndForEnd, 5, true), (Mirror::HalfTurn, 6, false)]
        {
            let copied = with_part(&dance, 1, mirrored(&part, mirror, PlaceNumber(mate)));
            let motion = made(&copied).unwrap();
            let image = motion.spans()[1].track(Number(mate).dancer()).unwrap().amounts()[0];
            let wanted = if swaps { -was_of(&before) } else { was_of(&before) };
            prop_assert!((wanted - image).abs() <= 180.0 + 1e-6, "{:?}: {} became {}", mirror, wanted, image);
        }

        // A turn that nothing jumps by stays as it is written.
        if only_facing {
            let same = keep_amounts(&dance, &before, dance.clone(), made).dance;
            prop_assert_eq!(&same, &dance);
        }
    }
}

/// How far number 1 goes by the first turn of the second figure.
fn was_of(motion: &Motion) -> f64 {
    motion.spans()[1].track(Dancer(0)).unwrap().amounts()[0]
}
