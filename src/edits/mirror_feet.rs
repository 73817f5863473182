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
    use super::with_other_feet;

    #[test]
    fn what_is_written_stays_but_for_the_feet() {
        assert_eq!(with_other_feet("left, 2 ds ,right,  ss,"), "right, 2 ds ,left,  ss,");
        assert_eq!(with_other_feet(""), "");
    }
}
