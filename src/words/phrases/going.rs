//! Travelling: which way, how far, past whom and where to.

use super::amounts::{amount, distance, eighths, turn_words};
use super::places::place_words;
use super::small::{by_words, list, way_word};
use super::telling::Telling;
use crate::dance::{Number, Way};
use crate::words::{Along, CourseSaid, Going, Lane, Pass, PlaceSaid};

pub(super) fn going_words(to: &Telling, going: &Going) -> String {
    let far = distance(going.metres);
    let mut said = match going.course {
        CourseSaid::Straight(eighth, bears) => {
            let way = match eighth % 8 {
                0 => "Forward",
                1 => "Forward and to your right",
                2 => "To your right",
                3 => "Back and to your right",
                4 => "Backwards",
                5 => "Back and to your left",
                6 => "To your left",
                _ => "Forward and to your left",
            };
            let keeps = bears.map_or_else(String::new, |way| format!(", keeping {}", way_word(way)));
            format!("{way} {far}{keeps}")
        }
        CourseSaid::Turning if going.to == Some(PlaceSaid::Home) => "Straight home".to_owned(),
        CourseSaid::Turning => format!("Straight on {far}"),
        CourseSaid::Round(way, degrees) => {
            let clock = if way == Way::Right { "clockwise" } else { "anticlockwise" };
            let amount = match eighths(degrees) {
                4 => "half-way round the set".to_owned(),
                8 => "right round the set".to_owned(),
                many => format!("round the set, {} of the way", amount(many)),
            };
            format!("Go {amount}, {clock}")
        }
        CourseSaid::RoundOther(way, degrees, number) => {
            let who = to.who(number);
            let amount = match eighths(degrees) {
                4 => format!("half-way round {who}"),
                8 => format!("right round {who}"),
                many => format!("round {who}, {} of the way,", amount(many)),
            };
            let faced = if to.partner == Some(number) { "your partner" } else { "them" };
            // Clockwise round whom one faces is to the left.
            format!("Go {amount} to your {}, facing {faced} all the way", way_word(way.other()))
        }
        CourseSaid::Curve(way, degrees) => {
            let amount = match eighths(degrees) {
                0 => "a slight curve".to_owned(),
                4 => "half a circle".to_owned(),
                8 => "a whole circle".to_owned(),
                many @ 1..8 => format!("{} of a circle", amount(many)),
                many => format!("circles, {}", amount(many)),
            };
            format!("Dance {amount} to the {}, {far}", way_word(way))
        }
        CourseSaid::Lane(along, lane) => {
            let way = match along {
                Along::Up => "Up",
                Along::Down => "Down",
                Along::Across => "Across",
            };
            let lane = match (along, lane) {
                (Along::Across, _) => "the set",
                (_, Lane::Middle) => "the middle line",
                (_, Lane::Inside) => "the inside of your file",
                (_, Lane::File) => "your file",
                (_, Lane::Outside) => "the outside of your file",
            };
            format!("{way} {lane}")
        }
    };
    if let Some(turning) = set_off_words(going) {
        let mut letters = said.chars();
        let first: String = letters.next().into_iter().flat_map(char::to_lowercase).collect();
        said = format!("{turning}, {first}{}", letters.as_str());
    }
    if let Some((number, way)) = going.beside {
        said += &format!(", shoulder to shoulder with {} on your {}", to.who(number), way_word(way));
    }
    if !going.passes.is_empty() {
        said += &format!(", passing {}", pass_words(to, &going.passes));
    }
    let passed = |number: Number| going.passes.iter().any(|pass| pass.number == number);
    let is_round =
        |number: Number| matches!(going.course, CourseSaid::RoundOther(_, _, other) if other == number);
    let arrives = match going.to {
        None => String::new(),
        Some(PlaceSaid::Home) if going.course == CourseSaid::Turning => String::new(),
        Some(PlaceSaid::Home) => ", home".to_owned(),
        Some(PlaceSaid::Spot(place)) if passed(place.first_dancer().number()) && going.passes.len() == 1 => {
            ", into their place".to_owned()
        }
        Some(PlaceSaid::Spot(place)) => format!(", into {}", to.place(place)),
        Some(PlaceSaid::FaceToFace(number)) if is_round(number) => String::new(),
        Some(PlaceSaid::FaceToFace(number)) => format!(" to meet {} face to face", to.who(number)),
        Some(place) => format!(", until you are {}", place_words(to, &place)),
    };
    let after = !going.passes.is_empty()
        || going.beside.is_some()
        || matches!(
            going.course,
            CourseSaid::Round(..) | CourseSaid::RoundOther(..) | CourseSaid::Straight(_, Some(_))
        );
    let long = matches!(going.to, Some(PlaceSaid::Beside(..) | PlaceSaid::BackToBack(_)));
    let pause = if long || arrives.is_empty() && after { "," } else { "" };
    format!("{said}{arrives}{pause} {}.", by_words(to.bars, going.end))
}

/// A turn with which a stretch of travelling starts, such as `Turning left a quarter`; nothing where there is none.
#[must_use]
pub fn set_off_words(going: &Going) -> Option<String> {
    let way = if going.set_off < 0.0 { Way::Left } else { Way::Right };
    let turned = turn_words(way, going.set_off.abs());
    (going.set_off.abs() > 30.0).then(|| turned.replacen("Turn", "Turning", 1))
}

pub(super) fn pass_words(to: &Telling, passes: &[Pass]) -> String {
    let said: Vec<String> = passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            let shoulder = if index == 0 { " shoulder" } else { "" };
            format!("{} by the {}{shoulder}", to.who(pass.number), way_word(pass.shoulder))
        })
        .collect();
    list(&said)
}
