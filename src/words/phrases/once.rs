//! What goes for all of a figure, said once, and what is otherwise in it after that.

use super::places::{facing_words, place_words};
use super::small::{foot_word, list};
use super::steps::{run_words, steps_words};
use super::telling::Telling;
use crate::dance::{BarCounts, Dancer, Foot, Holding};
use crate::words::{Facing, PlaceSaid, StepRun};

/// `two double steps, two single steps, jump`.
#[must_use]
pub fn steps(runs: &[StepRun]) -> String {
    runs.iter().map(run_words).collect::<Vec<_>>().join(", ")
}

/// `Hands high on the jump`.
#[must_use]
pub fn hands(holding: Holding, runs: &[StepRun]) -> String {
    let what = if holding == Holding::Sticks { "Stick" } else { "Hands" };
    let runs: Vec<String> = runs.iter().map(steps_words).collect();
    format!("{what} high on {}", list(&runs))
}

/// The steps of phrases, given by their bars: `Steps, each half: two double steps, two single steps, jump.`
#[must_use]
pub fn steps_line(said: &[(String, String)], phrases: usize) -> Option<String> {
    let main = commonest(said)?;
    let all = said.iter().all(|(_, what)| what == main) && said.len() == phrases;
    let each = match phrases {
        2 if all => ", each half",
        3.. if all => ", each time",
        _ => "",
    };
    if said.len() < phrases && said.iter().all(|(_, what)| what == main) {
        let bars: Vec<String> = said.iter().map(|(bars, _)| bars.clone()).collect();
        return Some(format!("Steps in {}: {main}.", list(&bars)));
    }
    Some(format!("Steps{each}: {main}{}.", exceptions(said, main)))
}

/// `Hands high on the jump; in bars 5 to 8 hands high on the plain capers.`
#[must_use]
pub fn hands_line(said: &[(String, String)]) -> Option<String> {
    let main = commonest(said)?;
    Some(format!("{main}{}.", exceptions(said, main).replace(" Hands ", " ").replace(" Stick ", " ")))
}

/// Where phrases end and which way is faced: `End each half home, facing your partner.`
#[must_use]
pub fn ends_line(to: &Telling, said: &[(String, (PlaceSaid, Facing))]) -> Option<String> {
    let (_, (place, facing)) = said.first()?;
    let same_place = said.iter().all(|(_, (other, _))| other == place);
    let same_facing = said.iter().all(|(_, (_, other))| other == facing);
    let (here, faced) = (place_words(to, place), facing_words(*facing));
    let each = match said.len() {
        1 => "",
        2 => " each half",
        _ => " each time",
    };
    if same_place && same_facing {
        return Some(format!("End{each} {here}, {faced}."));
    }
    if let ([(_, (one, facing)), (_, (other, then))], true) = (said, said.len() == 2) {
        let faced = |facing: Facing| format!(", {}", facing_words(facing));
        let middle = if same_facing { String::new() } else { faced(*facing) };
        let (one, other) = (place_words(to, one), place_words(to, other));
        return Some(format!("End {one}{middle}, then {other}{}.", faced(*then)));
    }
    let parts = said.iter().map(|(bars, (place, facing))| {
        let faced = if same_facing { String::new() } else { format!(", {}", facing_words(*facing)) };
        format!("{bars} {}{faced}", place_words(to, place))
    });
    let parts = parts.collect::<Vec<_>>().join("; ");
    let faced = if same_facing { format!("; {faced} each time") } else { String::new() };
    Some(format!("End {parts}{faced}."))
}

/// Who hops on which foot at the end of phrases, by the count at which each ends: `Hop on the upbeat: left in bar 4, odds right and evens
/// left in bar 8.`
#[must_use]
pub fn hops(bars: &BarCounts, said: &[(f64, Vec<(Dancer, Foot)>)], dancers: usize) -> Option<String> {
    let parts = said.iter().map(|(end, who)| {
        let those = |foot: Foot| -> Vec<Dancer> {
            who.iter().filter(|(_, other)| *other == foot).map(|(dancer, _)| *dancer).collect()
        };
        let words = [Foot::Left, Foot::Right].into_iter().filter_map(|foot| {
            let those = those(foot);
            match those.len() {
                0 => None,
                all if all == dancers => Some(foot_word(foot).to_owned()),
                _ => Some(format!("{} {}", who_words(&those, dancers), foot_word(foot))),
            }
        });
        format!("{} in bar {}", list(&words.collect::<Vec<_>>()), bars.at(end - 0.5).0 + 1)
    });
    let parts: Vec<String> = parts.collect();
    (!parts.is_empty()).then(|| format!("Hop on the upbeat: {}.", parts.join("; ")))
}

/// `odds`, `evens`, or numbers: `1, 3 and 4`.
#[must_use]
pub fn who_words(who: &[Dancer], dancers: usize) -> String {
    let file =
        |even: bool| Dancer::all(dancers).filter(|dancer| dancer.is_even() == even).eq(who.iter().copied());
    match () {
        () if dancers > 2 && file(false) => "odds".to_owned(),
        () if dancers > 2 && file(true) => "evens".to_owned(),
        () => list(&who.iter().map(ToString::to_string).collect::<Vec<_>>()),
    }
}

/// How the second of two texts follows from the first, so many bars later.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Follows {
    Same,
    LeftForRight,
    LeftForRightAndUpForDown,
    UpForDown,
}

/// How it follows; nothing where it does not.
#[must_use]
pub fn turned_into(first: &str, second: &str, bars: u32) -> Option<Follows> {
    use Follows::{LeftForRight, LeftForRightAndUpForDown, Same, UpForDown};
    [
        (Same, false, false),
        (LeftForRight, true, false),
        (LeftForRightAndUpForDown, true, true),
        (UpForDown, false, true),
    ]
    .into_iter()
    .find(|(_, sides, ends)| other_way(first, *sides, *ends, bars) == second)
    .map(|(how, ..)| how)
}

/// `The rest as in bars 1 to 4, left for right.`
#[must_use]
pub fn rest_as(bars: &str, how: Follows) -> String {
    let how = match how {
        Follows::Same => "",
        Follows::LeftForRight => ", left for right",
        Follows::LeftForRightAndUpForDown => ", left for right and up for down",
        Follows::UpForDown => ", up for down",
    };
    format!("The rest as in {bars}{how}.")
}

/// Words with left for right, and up for down, so many bars later.
#[must_use]
pub fn other_way(text: &str, sides: bool, ends: bool, bars: u32) -> String {
    let mut before = "";
    let each = text.split(' ').map(|word| {
        let plain = word.trim_end_matches([',', '.', ';']);
        let mark = word.get(plain.len()..).unwrap_or("");
        let other = match plain {
            "left" if sides => "right".to_owned(),
            "right" if sides => "left".to_owned(),
            "clockwise" if sides => "anticlockwise".to_owned(),
            "anticlockwise" if sides => "clockwise".to_owned(),
            "up" if ends => "down".to_owned(),
            "down" if ends => "up".to_owned(),
            "Up" if ends => "Down".to_owned(),
            "Down" if ends => "Up".to_owned(),
            plain => match (before, plain.parse::<u32>()) {
                ("bar" | "bars", Ok(bar)) => (bar + bars).to_string(),
                _ => plain.to_owned(),
            },
        };
        before = plain;
        format!("{other}{mark}")
    });
    each.collect::<Vec<_>>().join(" ")
}

/// What stands in brackets first in a text, with them and the space before.
#[must_use]
pub fn reason(text: &str) -> Option<&str> {
    let (from, to) = (text.find(" (")?, text.find(')')?);
    text.get(from..=to)
}

/// What is said of the most phrases, the first of those where it is more than one.
fn commonest(said: &[(String, String)]) -> Option<&str> {
    let many = |what: &str| said.iter().filter(|(_, other)| other == what).count();
    let most = said.iter().map(|(_, what)| many(what)).max()?;
    said.iter().map(|(_, what)| what.as_str()).find(|what| many(what) == most)
}

fn exceptions(said: &[(String, String)], main: &str) -> String {
    let mut text = String::new();
    for (bars, what) in said.iter().filter(|(_, what)| what != main) {
        text += &format!("; in {bars} {what}");
    }
    text
}
