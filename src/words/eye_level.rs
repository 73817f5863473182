use crate::dance::{FreeFoot, FreePlace};
use crate::motion::Weight;
use crate::motion::limbs::{HandAt, OnCount};

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
