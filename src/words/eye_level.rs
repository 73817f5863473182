use crate::dance::{FreeFoot, FreePlace};
use crate::motion::limbs::{Gait, HandAt, OnCount};
use crate::motion::{Clock, Weight};

/// What a body does on a count, as it is seen at eye level, such as `hop on the left, the right foot in front 16 cm up, hands half up in front`.
#[must_use]
pub fn body_words(on: &OnCount) -> String {
    let mut said = vec![landing_words(on).to_owned()];
    if let (Weight::Left | Weight::Right, Some(free)) = (on.weight, &on.free) {
        let foot = if on.weight == Weight::Left { "right" } else { "left" };
        said.push(format!("the {foot} foot {}", free_words(free)));
    }
    said.push(hands_at_words(on.hands));
    said.join(", ")
}

/// What a body does between two counts: what it stands on, and from where to where the hands go. On a count itself it is told as
/// [`body_words`] does.
#[must_use]
pub fn between_words(gait: &Gait, clock: &Clock, count: f64) -> String {
    let mut said = vec![standing_words(gait.weight(clock, count)).to_owned()];
    let hands = |count: usize| gait.on_count(count).map(|on| hands_at_words(on.hands));
    match (hands(count as usize), hands(count as usize + 1)) {
        (Some(from), Some(to)) if from != to => said.push(format!("{from}, then {to}")),
        (hands, _) => said.extend(hands),
    }
    said.join(", ")
}

/// What a body stands on.
#[must_use]
pub fn standing_words(weight: Weight) -> &'static str {
    match weight {
        Weight::Left => "on the left",
        Weight::Right => "on the right",
        Weight::Both => "on both feet",
        Weight::Air => "in the air",
    }
}

/// What lands.
#[must_use]
pub fn landing_words(on: &OnCount) -> &'static str {
    match (on.weight, on.stays, on.hop) {
        (Weight::Left, true, _) => "stay on the left",
        (Weight::Right, true, _) => "stay on the right",
        (Weight::Left, _, true) => "hop on the left",
        (Weight::Right, _, true) => "hop on the right",
        (Weight::Left, _, _) => "step left",
        (Weight::Right, _, _) => "step right",
        (Weight::Both, _, _) => "both feet",
        (Weight::Air, _, _) => "in the air",
    }
}

/// Where a free foot is.
#[must_use]
pub fn free_words(free: &FreeFoot) -> String {
    let at = match free.at {
        FreePlace::Front => "in front",
        FreePlace::Beside => "beside the other",
        FreePlace::CrossedBefore => "crossed before the other",
        FreePlace::CrossedBehind => "crossed behind the other",
        FreePlace::Shin => "at the other shin",
    };
    let circles = match free.circles {
        0.0 => String::new(),
        outwards if outwards > 0.0 => ", circling outwards".to_owned(),
        _ => ", circling inwards".to_owned(),
    };
    format!("{at} {:.0} cm up{circles}", free.height * 100.0)
}

/// Where the hands are: both at once where they are alike.
#[must_use]
pub(super) fn hands_at_words([left, right]: [HandAt; 2]) -> String {
    let (of_left, of_right) = (hand_words(left), hand_words(right));
    if of_left == of_right {
        format!("hands {of_left}")
    } else {
        format!("left hand {of_left} and right hand {of_right}")
    }
}

/// Hands are before the body or behind it from here on, metres.
const APART: f64 = 0.15;

fn hand_words(hand: HandAt) -> String {
    let height = match hand.height {
        height if height >= 0.85 => "high",
        height if height >= 0.4 => "half up",
        height if height >= 0.2 => "low",
        _ => "down",
    };
    let way = match hand.forward {
        forward if forward >= APART && hand.height < 0.85 => " in front",
        forward if forward <= -APART => " and back",
        _ => "",
    };
    let circles = match hand.circles {
        0.0 => "",
        inwards if inwards > 0.0 => " circling inwards",
        _ => " circling outwards",
    };
    format!("{height}{way}{circles}")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Between two counts it is told what carries the weight there, and not what the count before it says: half a count before a double step's
    /// hop lands the body is in the air.
    #[test]
    fn between_counts_is_told_what_is_seen_there() {
        use crate::dance::{Dance, Dancer, Figure, Set};
        let mut dance = Dance::new("Test", Set::longways(2, 2.4, 1.8));
        let mut figure = Figure::drawn("one", "One", 4);
        figure.phrase = "2 ds, 2 ss, ftj".to_owned();
        dance.figures.push(figure);
        let motion = crate::figures::motion_of(&dance, None).unwrap();
        let clock = Clock::of_dance(&dance, &motion);
        let gait = Gait::of(&motion, &clock, Dancer(0));
        let said = |count: f64| between_words(&gait, &clock, count);
        assert!(said(0.5).starts_with("on the "), "{}", said(0.5));
        assert!(said(13.5).starts_with("in the air, hands "), "{}", said(13.5));
        // The jump that is in the air on count 3 leaves the floor before it: there nobody is on both feet any more.
        let flight = gait.flights().iter().find(|flight| flight.is_jump).unwrap();
        let before = clock.counts(flight.begin + 0.02);
        assert!(before.floor() == 12.0 && said(before).starts_with("in the air"), "{}", said(before));
        let all: Vec<String> = (0..15).map(|count| said(f64::from(count) + 0.5)).collect();
        assert!(all.iter().any(|said| said.contains(", then hands ")), "{all:?}");
    }

    #[test]
    fn a_body_is_told() {
        let hand = HandAt { height: 0.5, forward: 0.3, circles: 0.0, round: 0.0 };
        let hop = OnCount {
            time: 0.0,
            weight: Weight::Left,
            hop: true,
            stays: false,
            rise: 0.03,
            free: Some(FreeFoot::new(FreePlace::Front, 0.16)),
            hands: [hand, hand],
        };
        assert_eq!(
            body_words(&hop),
            "hop on the left, the right foot in front 16 cm up, hands half up in front"
        );
        let jump = OnCount {
            weight: Weight::Air,
            hop: false,
            free: None,
            hands: [HandAt { height: 1.0, ..hand }, hand],
            ..hop
        };
        assert_eq!(body_words(&jump), "in the air, left hand high and right hand half up in front");
    }
}
