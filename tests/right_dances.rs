//! Dances that are right are not called wrong, and what comes near them and is wrong is told.
//!
//! Sources: [MB1] C. J. Sharp and H. C. `MacIlwaine`, The Morris Book, Part I, Novello, 1907; [CP] common practice, no
//! source.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Allow, Dance, Ends, EndsIn, FaultKind, Stance, Turn, Way, read};
use bellpad::faults::{Fault, find_faults};
use bellpad::figures::motion_of;

fn case(name: &str) -> Dance {
    let path = format!("{}/tests/cases/{name}.dance.json", env!("CARGO_MANIFEST_DIR"));
    read(&std::fs::read(path).unwrap()).unwrap()
}

fn faults(dance: &Dance) -> Vec<Fault> {
    find_faults(dance, &motion_of(dance, None).unwrap())
}

/// What is told that the side does not mean.
fn told(dance: &Dance) -> Vec<(FaultKind, Vec<u32>, String)> {
    let unmeant = faults(dance).into_iter().filter(|fault| fault.allowed.is_none());
    unmeant
        .map(|fault| (fault.kind, fault.dancers.iter().map(|number| number.get()).collect(), fault.said))
        .collect()
}

/// [CP]: round your partner facing them all the way. The facing goes with the path, so no way of turning is wrong, whether it
/// is drawn with turns or not and whatever the rule of the half.
#[test]
fn a_drawn_gip_turns_no_wrong_way() {
    for name in ["gip-with-turns", "gip-with-the-path"] {
        assert_eq!(told(&case(name)), [], "{name}");
    }
}

/// One who turns their back on the partner on the way turns the wrong way as before.
#[test]
fn a_gip_danced_the_other_way_about_is_told() {
    let mut dance = case("gip-with-turns");
    // The path goes to the left, and the turn, which the rule has to the left as well, goes on to the right twice as far.
    dance.figures[0].parts[0].turns[0].by = Some(720.0);
    let wrong = told(&dance);
    assert!(
        wrong.iter().any(|(kind, dancers, _)| *kind == FaultKind::WrongWay && dancers == &[1]),
        "{wrong:?}"
    );
    // Without the way round, as well.
    let mut dance = case("gip-with-turns");
    dance.figures[0].parts[0].legs.clear();
    let wrong = told(&dance);
    assert!(
        wrong.iter().any(|(kind, dancers, _)| *kind == FaultKind::WrongWay && dancers == &[1]),
        "{wrong:?}"
    );
}

/// One who stands and turns by less than faces the partner all the way goes round nobody: the rule of the half holds.
#[test]
fn a_small_turn_on_the_spot_against_the_rule_is_told() {
    let mut dance = case("gip-with-turns");
    for part in &mut dance.figures[0].parts[..2] {
        part.legs.clear();
        part.turns.clear();
    }
    // From a little to one side of the partner to a little to the other.
    dance.figures[0].parts[0].turns = vec![
        Turn { by: Some(30.0), ..Turn::to_face(0.0, 1.0, Way::Left, 60.0) },
        Turn { by: Some(60.0), ..Turn::to_face(1.0, 3.0, Way::Right, 120.0) },
    ];
    let wrong = told(&dance);
    assert!(
        wrong.iter().any(|(kind, dancers, _)| *kind == FaultKind::WrongWay && dancers == &[1]),
        "{wrong:?}"
    );
}

/// [CP]: in a processional everyone goes forward off the spot. Where the figure says that it ends anywhere nothing is wrong;
/// where it does not, that is one thing to say and not six.
#[test]
fn a_processional_is_none_or_one() {
    let mut dance = case("processional");
    assert_eq!(told(&dance), []);
    dance.figures[0].ends = Ends { spots: None, stance: Some(Stance::Column) };
    let one = told(&dance);
    assert_eq!(one.len(), 1, "{one:?}");
    assert_eq!((one[0].0, one[0].1.as_slice()), (FaultKind::NotHome, &[1, 2, 3, 4, 5, 6][..]));
    assert_eq!(one[0].2, "everyone ends the figure 12.00 m from their spot, all the same way");
    let all = faults(&dance);
    assert!((all[0].value - 12.0).abs() < 1e-6);
    // What the side means of some of them is theirs, and only the others are told.
    let mut meant: Allow = serde_json::from_value(serde_json::json!({
        "kind": "not-home", "places": [1, 2, 3], "reason": "the first three lead on"
    }))
    .unwrap();
    dance.figures[0].allow.push(meant.clone());
    let rest: Vec<Vec<u32>> = told(&dance).into_iter().map(|(_, dancers, _)| dancers).collect();
    assert_eq!(rest, [[4], [5], [6]]);
    meant.places.clear();
    dance.figures[0].allow[0] = meant;
    assert_eq!(told(&dance), []);
}

/// One who stops short of the others is told apart from them; and where it ends anywhere it is taken at its word.
#[test]
fn one_who_falls_behind_a_processional_is_told() {
    let mut dance = case("processional");
    dance.figures[0].ends = Ends { spots: Some(EndsIn::Home), stance: Some(Stance::Column) };
    dance.figures[0].parts[4].legs[0].to.y -= 0.4;
    let two = told(&dance);
    assert_eq!(
        two.iter().map(|(_, dancers, said)| (dancers.as_slice(), said.as_str())).collect::<Vec<_>>(),
        [
            (
                &[1, 2, 3, 4, 6][..],
                "1, 2, 3, 4 and 6 end the figure 12.00 m from their spots, all the same way"
            ),
            (&[5][..], "5 ends the figure 11.60 m from their spot"),
        ]
    );
    dance.figures[0].ends.spots = Some(EndsIn::Anywhere);
    assert_eq!(told(&dance), []);
}

/// [MB1]: one pair of opposites changes while the others stand. This side turns in the jump and says so in the file.
#[test]
fn a_turn_in_the_jump_that_is_meant_is_no_fault() {
    let dance = case("one-pair-of-corners");
    assert_eq!(told(&dance), []);
    let meant: Vec<_> = faults(&dance).into_iter().filter(|fault| fault.allowed.is_some()).collect();
    assert_eq!(meant.iter().map(|fault| fault.kind).collect::<Vec<_>>(), [FaultKind::LateTurn; 2]);
}

/// Who is not meant, or turns farther than is meant, is told.
#[test]
fn a_turn_in_the_jump_that_is_not_meant_is_told() {
    let mut dance = case("one-pair-of-corners");
    dance.figures[0].allow[0].places.pop();
    let late =
        |dance: &Dance| told(dance).into_iter().map(|(kind, dancers, _)| (kind, dancers)).collect::<Vec<_>>();
    assert_eq!(late(&dance), [(FaultKind::LateTurn, vec![6])]);
    let mut dance = case("one-pair-of-corners");
    dance.figures[0].allow[0].up_to = Some(40.0);
    assert_eq!(late(&dance), [(FaultKind::LateTurn, vec![1]), (FaultKind::LateTurn, vec![6])]);
    dance.figures[0].allow[0].up_to = Some(60.0);
    assert_eq!(late(&dance), []);
    // What is meant is of that kind alone.
    dance.figures[0].parts[0].turns[2] = Turn::to_face(30.0, 32.0, Way::Left, 240.0);
    assert_eq!(late(&dance).last(), Some(&(FaultKind::NotHome, vec![1])));
}

/// Two who stand nearer than bodies are do not come to be right by being in a gip.
#[test]
fn a_gip_too_near_is_told() {
    let mut dance = case("gip-with-the-path");
    dance.set.across = 0.25;
    for part in &mut dance.figures[0].parts {
        for leg in &mut part.legs {
            leg.to.x = 0.125 * leg.to.x.signum();
        }
    }
    assert!(told(&dance).iter().any(|(kind, _, _)| *kind == FaultKind::Clash));
}
