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

use bellpad::dance::{Dance, Extra, FaultKind, Figure, Part, Set, Turn, Way, read};
use bellpad::edits::make_room;
use bellpad::edits::{drag_dancer, keep_amounts, own_part, turn_changes, with_part, with_set};
use bellpad::faults::find_faults;
use bellpad::figures::{Mirror, mirrored, motion_of, named_figure};
use bellpad::motion::{Motion, amount};
use proptest::prelude::*;
use serde_json::{Value, json};

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
                                let track = span.track(dancer).unwrap();
                                for turn in track.turns().iter().filter(|turn| turn.begin % 16.0 > 9.0) {
                                    let by = track.stand(turn.end).2 - track.stand(turn.begin).2;
                                    let said = format!(
                                        "{rounds} {way} of {dancers}, {across} by {along}, {}: {by}",
                                        dancer + 1
                                    );
                                    assert!(by.abs() <= 180.0 + 1e-6, "{said}");
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
                let track = span.track(dancer).unwrap();
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

/// With an amount and a direction, the amount is the nearest one that finishes there, and never goes the other way.
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
        // Already beyond: it goes no way at all rather than the other way.
        (Way::Left, 10.0, 0.0, -20.0, 0.0),
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
    let mut part = own_part(&hey.spans()[0], 0).unwrap();
    part.turns[0] = Turn::to_face(part.turns[0].begin, part.turns[0].end, Way::Right, 90.0);
    let dance = with_part(&dance, 0, part);
    let motion = motion_of(&dance, None).unwrap();
    let spun = motion.spans()[0].track(0).unwrap().amounts().iter().any(|amount| *amount > 350.0);
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
    }
    assert!(mended > 0, "nothing was mended");
}

fn hey_of(turn: &Turn, dancers: u32) -> Dance {
    let mut dance = dance_of(Set::longways(dancers, 2.4, 1.8), &[("foot-up-and-down", Extra::new())]);
    let mut figure = Figure::drawn("own", "Own", 8);
    for place in 1..=dancers {
        let mut part = Part::still(place);
        part.legs.push(bellpad::dance::Leg::smooth(0.0, 8.0, &[(0.3, 0.4), (0.2, -0.3)], -1.0, 0.5));
        part.legs[0].facing = bellpad::dance::LegFacing::Forwards;
        part.turns.push(turn.clone());
        figure.parts.push(part);
    }
    dance.figures.push(figure);
    dance
}

/// How far every turn of the second figure goes.
fn amounts(motion: &Motion) -> Vec<f64> {
    let span = &motion.spans()[1];
    (0..motion.dancers()).flat_map(|dancer| span.track(dancer).unwrap().amounts().to_vec()).collect()
}

fn assert_kept(before: &[f64], after: &[f64]) -> Result<(), TestCaseError> {
    prop_assert_eq!(before.len(), after.len());
    for (was, is) in before.iter().zip(after) {
        prop_assert!((was - is).abs() <= 180.0 + 1e-6, "{} became {}", was, is);
        prop_assert!(was * is >= 0.0, "{} became {}", was, is);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever is redrawn, copied, mirrored or resized, or danced before it: a turn that nobody touched keeps its way
    /// and its amount, to half a turn. In files that only say which way to finish facing as well as in those that say
    /// how far.
    #[test]
    fn any_change_keeps_turns(
        left in any::<bool>(),
        by in 0.0..900.0_f64,
        face in 0.0..360.0_f64,
        only_facing in any::<bool>(),
        at in 1.0..7.5_f64,
        (x, y) in (-2.0..2.0_f64, -2.0..2.0_f64),
        along in 1.0..2.6_f64,
    ) {
        let way = if left { Way::Left } else { Way::Right };
        let turn = Turn::to_face(8.0, 12.0, way, face);
        let turn = if only_facing { turn } else { Turn { by: Some((by * 10.0).round() / 10.0 + 0.1), ..turn } };
        let dance = hey_of(&turn, 6);
        let motion = motion_of(&dance, None).unwrap();
        let was = amounts(&motion);
        let made = |dance: &Dance| motion_of(dance, None).ok();

        // A dancer dragged.
        let moved = drag_dancer(&dance, &motion, 0, motion.spans()[1].begin() + at, x, y).unwrap();
        assert_kept(&was, &amounts(&made(&moved).unwrap()))?;

        // The set made another size, and the figure before it another one.
        let resized = with_set(&dance, Set::longways(6, 3.0, along)).unwrap();
        let resized = keep_amounts(&dance, &motion, resized, made);
        assert_kept(&was, &amounts(&made(&resized).unwrap()))?;
        let mut after_rounds = dance.clone();
        after_rounds.figures[0] = named_figure("whole-rounds", Extra::new(), &dance.set).unwrap();
        after_rounds.figures[0].id.clone_from(&dance.figures[0].id);
        let after_rounds = keep_amounts(&dance, &motion, after_rounds, made);
        assert_kept(&was, &amounts(&made(&after_rounds).unwrap()))?;

        // Copied across the set to the mate, left and right change.
        let part = own_part(&motion.spans()[1], 0).unwrap();
        let copied = with_part(&dance, 1, mirrored(&part, Mirror::Across, 2));
        let (own, image) = (was[0], amounts(&made(&copied).unwrap())[1]);
        prop_assert!((own + image).abs() <= 180.0 + 1e-6, "{} became {}", own, image);

        // An old turn that nothing jumps by stays as it is written.
        if only_facing {
            let same = keep_amounts(&dance, &motion, dance.clone(), made);
            prop_assert_eq!(&same, &dance);
        }
    }
}
