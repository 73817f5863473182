//! Where a dancer is and what they face.

use super::amounts::distance;
use super::small::way_word;
use super::telling::Telling;
use crate::words::{Facing, Lane, Level, PlaceSaid};

/// Where a phrase ends, such as `in your partner's place`.
#[must_use]
pub fn place_words(to: &Telling, place: &PlaceSaid) -> String {
    match *place {
        PlaceSaid::Home => "home".to_owned(),
        PlaceSaid::Spot(place) => format!("in {}", to.place(place)),
        PlaceSaid::Beside(number, way, line) => {
            let line = if line { " on the middle line" } else { "" };
            let who = to.who(number);
            format!("side by side with {who}{line}, {} shoulders together", way_word(way))
        }
        PlaceSaid::BackToBack(number) => format!("back to back with {}", to.who(number)),
        PlaceSaid::FaceToFace(number) => format!("face to face with {}", to.who(number)),
        PlaceSaid::Middle => "at the middle of the set".to_owned(),
        PlaceSaid::Lane(lane, level) => {
            let lane = match lane {
                Lane::Middle => "on the middle line",
                Lane::Inside => "inside the file",
                Lane::File => "in the file",
                Lane::Outside => "outside the file",
            };
            format!("{lane}, {}", level_words(level))
        }
        PlaceSaid::FromHome(metres, eighth) => {
            let way = match eighth % 8 {
                0 => "above",
                1 => "up and to the right of",
                2 => "to the right of",
                3 => "down and to the right of",
                4 => "below",
                5 => "down and to the left of",
                6 => "to the left of",
                _ => "up and to the left of",
            };
            format!("{} {way} your place", distance(metres))
        }
    }
}

pub(super) fn level_words(level: Level) -> String {
    match level {
        Level::Above => "above the set".to_owned(),
        Level::Below => "below the set".to_owned(),
        Level::With(one, other) => format!("level with the places of {one} and {other}"),
        Level::Between(one, other) => format!("between the places of {one} and {other}"),
    }
}

/// What a dancer faces, such as `facing your partner`.
#[must_use]
pub fn facing_words(facing: Facing) -> String {
    format!("facing {}", towards(facing))
}

pub(super) fn face_words(facing: Facing) -> String {
    format!("face {}", towards(facing))
}

pub(super) fn towards(facing: Facing) -> String {
    match facing {
        Facing::Partner => "your partner".to_owned(),
        Facing::Number(number) => number.to_string(),
        Facing::Up => "up".to_owned(),
        Facing::Down => "down".to_owned(),
        Facing::In => "in".to_owned(),
        Facing::Out => "out, away from the set".to_owned(),
        Facing::Eighth(eighth) => match eighth % 8 {
            0 => "up",
            1 => "up and to the right",
            2 => "right, looking from below",
            3 => "down and to the right",
            4 => "down",
            5 => "down and to the left",
            6 => "left, looking from below",
            _ => "up and to the left",
        }
        .to_owned(),
    }
}
