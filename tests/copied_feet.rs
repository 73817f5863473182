//! The feet of what is copied: to a mate, and to the second half.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, clippy::panic)]

use bellpad::dance::{Dance, Dancer, Figure, Foot, LeadRule, Leg, Part, Set, Turn, Way};
use bellpad::edits::{SecondHalf, Together, copy_half, copy_to_mates};
use bellpad::figures::{Mirror, motion_of};
use bellpad::motion::Motion;

/// 1 goes out and home in the first half, by a rule and a phrase of their own.
fn led(rule: Option<LeadRule>, phrase: &str) -> (Dance, Motion) {
    let mut dance = Dance::new("Test", Set::longways(6, 2.4, 1.8));
    let mut figure = Figure::drawn("out", "Out", 8);
    let mut part = Part::still(1);
    part.legs = vec![Leg::straight(0.0, 4.0, -1.8, 1.8), Leg::straight(8.0, 12.0, -1.2, 1.8)];
    // Whoever faces their partner has no foot farther from them.
    part.turns.push(Turn { by: Some(90.0), ..Turn::to_face(0.0, 1.0, Way::Left, 0.0) });
    (part.lead, part.phrase) = (rule, phrase.to_owned());
    figure.parts.push(part);
    dance.figures.push(figure);
    let motion = motion_of(&dance, None).unwrap();
    (dance, motion)
}

/// The foot on which each step of a dancer begins.
fn feet(dance: &Dance, dancer: usize) -> Vec<Foot> {
    let motion = motion_of(dance, None).unwrap();
    let track = motion.spans()[0].track(Dancer(dancer)).unwrap();
    track.footing().leads().iter().map(|made| made.foot).collect()
}

fn others(feet: &[Foot]) -> Vec<Foot> {
    feet.iter().map(|foot| foot.other()).collect()
}

const PHRASE: &str = "left, 2 ds, 2 ss, ftj, right, 2 ds, 2 ss, ftj";

/// A mirror swaps left and right, with feet (design of the program); half a turn does not. Both mates of 1 by a mirror are looked
/// at: 2, who is even, and 5, who is odd as well.
#[test]
fn a_mirrored_copy_begins_on_the_other_feet_whatever_chose_them() {
    let rules = LeadRule::ALL.into_iter().map(Some).chain([None]);
    for (rule, phrase) in rules.flat_map(|rule| ["", PHRASE].map(|phrase| (rule, phrase))) {
        if rule.is_none() && phrase.is_empty() {
            // Nothing of their own: the figure has everybody on the same foot.
            continue;
        }
        let (dance, motion) = led(rule, phrase);
        let own = feet(&dance, 0);
        for (mirror, mate, swaps) in
            [(Mirror::Across, 1, true), (Mirror::EndForEnd, 4, true), (Mirror::HalfTurn, 5, false)]
        {
            let together = Together::Mirror(mirror);
            let copied = copy_to_mates(&dance, &motion, &motion.spans()[0], Dancer(0), together).unwrap();
            let wanted = if swaps { others(&own) } else { own.clone() };
            // By number it is the number of the one who dances it that counts.
            if rule == Some(LeadRule::ByNumber) && !swaps {
                continue;
            }
            assert_eq!(feet(&copied, mate), wanted, "{rule:?} {phrase:?} {mirror:?}");
            assert_eq!(feet(&copied, 0), own, "{rule:?} {phrase:?}: 1 is as before");
        }
    }
}

#[test]
fn a_second_half_is_danced_on_the_feet_that_it_says() {
    for (rule, phrase) in [
        (Some(LeadRule::Left), ""),
        (Some(LeadRule::LeftThenRight), ""),
        (Some(LeadRule::ByNumber), ""),
        (None, PHRASE),
        (None, "left, 2 ds, 2 ss, ftj"),
    ] {
        let (dance, motion) = led(rule, phrase);
        for second in [SecondHalf::Mirrored, SecondHalf::Same] {
            let copied = copy_half(&dance, &motion, &motion.spans()[0], Dancer(0), second).unwrap();
            let danced = feet(&copied, 0);
            let (first, later) = danced.split_at(danced.len() / 2);
            let wanted = if second == SecondHalf::Mirrored { others(first) } else { first.to_vec() };
            assert_eq!(later, wanted, "{rule:?} {phrase:?} {second:?}");
            let again = motion_of(&copied, None).unwrap();
            let again = copy_half(&copied, &again, &again.spans()[0], Dancer(0), second).unwrap();
            assert_eq!(again, copied, "done again it changes nothing");
        }
    }
}
