//! A figure in a line.

use super::once::{other_way, who_words};
use super::short;
use super::small::{capital, way_word};
use super::telling::Telling;
use crate::words::alike::Alike;
use crate::words::gist::{Gist, as_short};
use crate::words::{CourseSaid, Facing, Going, Image, PlaceSaid};

/// A phrase of it: `cross by the right, turn left`.
#[must_use]
pub fn phrase(to: &Telling, said: &[Gist]) -> String {
    let mut parts: Vec<String> = Vec::new();
    let mut before: Option<&Gist> = None;
    for gist in said {
        match (before, gist, parts.last_mut()) {
            // Whom one goes round is passed.
            (
                Some(Gist::Go(Going { to: Some(PlaceSaid::BackToBack(number)), .. })),
                Gist::Pass(passes),
                Some(last),
            ) if matches!(passes.as_slice(), [pass] if pass.number == *number) => {
                let shoulder = passes.first().map_or("", |pass| way_word(pass.shoulder));
                *last += &format!(" by the {shoulder}");
            }
            _ => parts.push(words(to, gist)),
        }
        before = Some(gist);
    }
    parts.retain(|words| !words.is_empty());
    parts.join(", ")
}

/// One thing of it.
#[must_use]
pub fn words(to: &Telling, gist: &Gist) -> String {
    match gist {
        Gist::Cross(pass, home) => {
            let go = if *home { "home" } else { "cross" };
            let whom = if to.partner == Some(pass.number) {
                String::new()
            } else {
                format!(" past {}", pass.number)
            };
            format!("{go}{whom} by the {}", way_word(pass.shoulder))
        }
        Gist::Facing(Facing::Down) => "down".to_owned(),
        Gist::Facing(_) => "up".to_owned(),
        Gist::Turn(way) => format!("turn {}", way_word(*way)),
        Gist::Go(going) => going_words(to, going),
        other => as_short(other).map_or_else(String::new, |short| short::words(to, &short)),
    }
}

fn going_words(to: &Telling, going: &Going) -> String {
    let plain = Going { beside: None, set_off: 0.0, ..going.clone() };
    match (going.course, going.to) {
        (CourseSaid::Straight(0, _), Some(PlaceSaid::FaceToFace(number))) => {
            format!("meet {}", to.who_short(number))
        }
        (CourseSaid::Straight(0, _), Some(PlaceSaid::Beside(number, way, line))) => {
            let into = if line { "into line" } else { "beside" };
            let whom = if line && to.partner == Some(number) {
                String::new()
            } else if line {
                format!(" with {}", to.who_short(number))
            } else {
                format!(" {}", to.who_short(number))
            };
            format!("{into}{whom} by the {}", way_word(way))
        }
        // Half-way round says where to.
        (CourseSaid::Round(..), Some(PlaceSaid::Spot(_))) => {
            short::going_words(to, &Going { to: None, ..plain })
        }
        (CourseSaid::Straight(0, _), Some(PlaceSaid::BackToBack(number))) => {
            format!("back to back with {}", to.who_short(number))
        }
        (CourseSaid::Straight(4, _), Some(PlaceSaid::Home)) => "back home".to_owned(),
        (CourseSaid::Straight(..) | CourseSaid::Turning, Some(PlaceSaid::Home)) => "home".to_owned(),
        _ => short::going_words(to, &plain),
    }
}

/// Phrases in a line; one that is the one before it again, or that with left for right, is said to be so.
#[must_use]
pub fn joined(parts: &[String]) -> String {
    let mut said: Vec<String> = Vec::new();
    for (index, part) in parts.iter().enumerate().filter(|(_, part)| !part.is_empty()) {
        let before = index.checked_sub(1).and_then(|before| parts.get(before));
        said.push(match before {
            Some(before) if before == part && part.split_whitespace().count() > 2 => {
                "the same again".to_owned()
            }
            Some(before) if before == part => continue,
            Some(before) if *part == other_way(before, true, false, 0) => "then left for right".to_owned(),
            _ => part.clone(),
        });
    }
    said.join("; ")
}

/// It as a sentence.
#[must_use]
pub fn sentence(line: &str) -> String {
    if line.is_empty() { String::new() } else { format!("{}.", capital(line)) }
}

/// What everybody does, those together who do the same.
#[must_use]
pub fn side(groups: &[Alike<String>], dancers: usize) -> String {
    let alone = groups.len() == 1;
    let said = groups.iter().map(|group| {
        let who = group.those(Image::Same);
        let all = alone && who.len() == dancers;
        let lead = if all { String::new() } else { format!("{}: ", capital(&who_words(&who, dancers))) };
        let line = if all { capital(&group.told) } else { group.told.clone() };
        let others = [Image::Mirror, Image::About].map(|image| others(group, image, dancers));
        let others: Vec<String> = others.into_iter().flatten().collect();
        let others = if others.is_empty() { String::new() } else { format!(" ({})", others.join("; ")) };
        format!("{lead}{line}{others}.")
    });
    said.collect::<Vec<_>>().join(" ")
}

/// Those of a group whose part is an image of what is told: `evens mirror`.
#[must_use]
pub fn others<T>(group: &Alike<T>, image: Image, dancers: usize) -> Option<String> {
    let who = group.those(image);
    if who.is_empty() {
        return None;
    }
    let verb = if who.len() == 1 { "mirrors" } else { "mirror" };
    let who = who_words(&who, dancers);
    Some(match image {
        Image::Mirror => format!("{who} {verb}"),
        _ => format!("{who} the same, turned half about"),
    })
}

/// Over what is told to those of a group: `All`, `Odds (evens mirror)`, `1 and 3 (2 and 4 mirror)`.
#[must_use]
pub fn heading<T>(group: &Alike<T>, dancers: usize) -> String {
    let who = group.those(Image::Same);
    if who.len() == dancers && dancers > 1 {
        return "All".to_owned();
    }
    let others = [Image::Mirror, Image::About].map(|image| others(group, image, dancers));
    let others: Vec<String> = others.into_iter().flatten().collect();
    let others = if others.is_empty() { String::new() } else { format!(" ({})", others.join("; ")) };
    format!("{}{others}", capital(&who_words(&who, dancers)))
}
