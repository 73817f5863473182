//! The feet of what is copied in a mirror: by a dancer's own rule, and by what is written in their own stepping.

use crate::dance::{Extra, Foot, Lead, LeadRule, Part};
use crate::motion::{LeadFrom, LeadMade};

/// Has a part that is the mirror image of another begin on the other feet by its own rule and its own stepping as well. `leads` are
/// those with which the other is danced, and `changes_file` is whether the one who dances the image has the other parity: odd for even.
pub(super) fn swap_feet(image: &mut Part, leads: &[LeadMade], changes_file: bool) {
    image.phrase = with_other_feet(&image.phrase);
    let Some(rule) = image.lead else { return };
    let ruled = || {
        let own = |made: &&LeadMade| made.from == LeadFrom::Dancer && made.rule == Some(rule);
        leads.iter().filter(own)
    };
    match rule {
        LeadRule::Left => image.lead = Some(LeadRule::Right),
        LeadRule::Right | LeadRule::SameWay => image.lead = Some(LeadRule::Left),
        // The foot farther from the partner is that in the mirror too.
        LeadRule::OutsideFoot => {}
        LeadRule::ByNumber if changes_file => {}
        LeadRule::ByNumber => {
            if let Some(made) = ruled().next() {
                image.lead = Some(if made.foot == Foot::Left { LeadRule::Right } else { LeadRule::Left });
            }
        }
        // No rule says right and then left.
        LeadRule::LeftThenRight => {
            if ruled().next().is_some() {
                image.lead = None;
            }
            for made in ruled() {
                lead_with(image, made.at as f64, made.foot.other());
            }
        }
    }
}

/// Has a step of a part begin on a foot, unless one is drawn there.
pub(super) fn lead_with(part: &mut Part, at: f64, foot: Foot) {
    if part.leads.iter().any(|lead| (lead.at - at).abs() < 0.5) {
        return;
    }
    part.leads.push(Lead { at, foot, extra: Extra::new() });
    part.leads.sort_by(|one, other| one.at.total_cmp(&other.at));
}

/// A phrase with left for right in what it says of feet; all else as it is written.
fn with_other_feet(phrase: &str) -> String {
    let swapped = phrase.split(',').map(|item| match item.trim() {
        "left" => item.replace("left", "right"),
        "right" => item.replace("right", "left"),
        _ => item.to_owned(),
    });
    swapped.collect::<Vec<_>>().join(",")
}

#[cfg(test)]
mod tests {
    use super::super::{SecondHalf, Together, copy_half, copy_to_mates};
    use super::*;
    use crate::dance::{Dance, Dancer, Figure, Leg, Set, Turn, Way};
    use crate::figures::{Mirror, motion_of};
    use crate::motion::Motion;

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

    #[test]
    fn what_is_written_stays_but_for_the_feet() {
        assert_eq!(with_other_feet("left, 2 ds ,right,  ss,"), "right, 2 ds ,left,  ss,");
        assert_eq!(with_other_feet(""), "");
    }
}
