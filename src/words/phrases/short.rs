//! The few words of a bar's clause and of a gist.

use super::amounts::{amount, eighths};
use super::places::face_words;
use super::small::{foot_word, list, way_word};
use super::steps::steps_words;
use super::telling::Telling;
use crate::words::clauses::{MOST_WORDS, Short};
use crate::words::taps::Tapping;
use crate::words::{Along, CourseSaid, Going, Lane, Pass, PlaceSaid, TurnWhen, Turning};

/// All of it, with commas between.
#[must_use]
pub fn line(to: &Telling, said: &[Short]) -> String {
    let mut parts = Vec::new();
    let mut crossed = false;
    for (index, short) in said.iter().enumerate() {
        if std::mem::take(&mut crossed) {
            continue;
        }
        let next = said.get(index + 1);
        let cross = next.and_then(|next| crossing(to, short, next));
        crossed = cross.is_some();
        parts.push(cross.unwrap_or_else(|| words(to, short)));
    }
    parts.retain(|words| !words.is_empty());
    parts.join(", ")
}

/// Changing places with one's partner in a bar, or coming home from it: `cross by the right`.
fn crossing(to: &Telling, short: &Short, next: &Short) -> Option<String> {
    let (Short::Go(going), Short::Pass(passes)) = (short, next) else { return None };
    let [pass] = passes.as_slice() else { return None };
    if to.partner != Some(pass.number) || going.course != CourseSaid::Straight(0, going_side(going)) {
        return None;
    }
    let go = match going.to? {
        PlaceSaid::Home => "home",
        PlaceSaid::Spot(place) if place.first_dancer().number() == pass.number => "cross",
        _ => return None,
    };
    Some(format!("{go} by the {}", way_word(pass.shoulder)))
}

fn going_side(going: &Going) -> Option<crate::dance::Way> {
    if let CourseSaid::Straight(_, side) = going.course { side } else { None }
}

/// The same with passes told as `pass 3 right, 5 left`; nothing where that is too long too.
#[must_use]
pub(in crate::words) fn tight_line(to: &Telling, said: &[Short]) -> Option<String> {
    let each = said.iter().map(|short| match short {
        Short::Pass(passes) => {
            let each = passes
                .iter()
                .map(|pass| format!("{} {}", to.who_short(pass.number), way_word(pass.shoulder)));
            format!("pass {}", each.collect::<Vec<_>>().join(", "))
        }
        short => words(to, short),
    });
    let text = each.filter(|words| !words.is_empty()).collect::<Vec<_>>().join(", ");
    (text.split_whitespace().count() <= MOST_WORDS).then_some(text)
}

/// One thing in short: `left foot`, `pass 3 by the right`, `left about on the single steps, face partner`.
#[must_use]
pub fn words(to: &Telling, short: &Short) -> String {
    match short {
        Short::Foot(foot) => format!("{} foot", foot_word(*foot)),
        Short::Go(going) => going_words(to, going),
        Short::Pass(passes) => format!("pass {}", passes_words(to, passes)),
        Short::Arrive(place) => place_words(to, *place),
        Short::Turn(turn) => turn_words(turn),
        Short::Face(facing) => face(*facing),
        Short::Tap(taps) => {
            // Tip on tip and butt on tip are both a tap.
            let mut said: Vec<String> = Vec::new();
            for tap in taps.iter().map(|what| tap_words(to, *what)) {
                if !said.contains(&tap) {
                    said.push(tap);
                }
            }
            list(&said)
        }
        Short::Step(run) => steps_words(run).trim_start_matches("the ").to_owned(),
        Short::GoOn => "go on".to_owned(),
        Short::Stand => "stand".to_owned(),
        Short::OnTheSpot => "on the spot".to_owned(),
    }
}

fn passes_words(to: &Telling, passes: &[Pass]) -> String {
    let each =
        passes.iter().map(|pass| format!("{} by the {}", to.who_short(pass.number), way_word(pass.shoulder)));
    each.collect::<Vec<_>>().join(", ")
}

/// Setting off: `forward`, `down the inside beside partner`.
#[must_use]
pub fn going_words(to: &Telling, going: &Going) -> String {
    let mut said = match going.course {
        CourseSaid::Straight(eighth, _) => match eighth % 8 {
            0 => "forward",
            1 => "forward to the right",
            2 => "to the right",
            3 => "back to the right",
            4 => "backwards",
            5 => "back to the left",
            6 => "to the left",
            _ => "forward to the left",
        }
        .to_owned(),
        CourseSaid::Turning => "straight on".to_owned(),
        CourseSaid::Round(way, degrees) => {
            let clock = if way == crate::dance::Way::Right { "clockwise" } else { "anticlockwise" };
            match eighths(degrees) {
                4 => format!("half-way round {clock}"),
                8 => format!("right round {clock}"),
                _ => format!("round {clock}"),
            }
        }
        CourseSaid::RoundOther(way, degrees, number) => {
            let part = match eighths(degrees) {
                4 => "half-way round",
                8 => "right round",
                _ => "round",
            };
            format!("{part} {} to the {}, facing", to.who_short(number), way_word(way.other()))
        }
        CourseSaid::Curve(way, _) => format!("curve {}", way_word(way)),
        CourseSaid::Lane(along, lane) => {
            let way = match along {
                Along::Up => "up",
                Along::Down => "down",
                Along::Across => return "across".to_owned(),
            };
            let lane = match lane {
                Lane::Middle => "the middle",
                Lane::Inside => "the inside",
                Lane::File => "the file",
                Lane::Outside => "the outside",
            };
            format!("{way} {lane}")
        }
    };
    if going.set_off.abs() > 30.0 {
        let way = if going.set_off < 0.0 { "left" } else { "right" };
        said = format!("turning {way} {said}");
    }
    if let Some((number, _)) = going.beside {
        said += &format!(" beside {}", to.who_short(number));
    }
    let round = matches!(going.course, CourseSaid::RoundOther(..));
    match going.to {
        Some(PlaceSaid::FaceToFace(_)) if round => {}
        Some(PlaceSaid::Home) if matches!(going.course, CourseSaid::Turning) => {
            "straight home".clone_into(&mut said);
        }
        Some(PlaceSaid::Home) => said += " home",
        Some(PlaceSaid::Spot(place)) => {
            said += &format!(" to {}'s place", to.who_short(place.first_dancer().number()));
        }
        Some(PlaceSaid::FaceToFace(number)) => said += &format!(" to meet {}", to.who_short(number)),
        Some(place) => {
            let place = place_words(to, place);
            if !place.is_empty() {
                said += &format!(", {place}");
            }
        }
        None => {}
    }
    said
}

/// A place in short; nothing where it needs many words.
#[must_use]
pub fn place_words(to: &Telling, place: PlaceSaid) -> String {
    match place {
        PlaceSaid::Home => "home".to_owned(),
        PlaceSaid::Spot(place) => format!("in {}'s place", to.who_short(place.first_dancer().number())),
        PlaceSaid::Beside(number, way, _) => {
            format!("{} shoulders with {}", way_word(way), to.who_short(number))
        }
        PlaceSaid::BackToBack(number) => format!("back to back with {}", to.who_short(number)),
        PlaceSaid::FaceToFace(number) => format!("facing {}", to.who_short(number)),
        PlaceSaid::Middle => "in the middle".to_owned(),
        PlaceSaid::Lane(..) | PlaceSaid::FromHome(..) => String::new(),
    }
}

fn turn_words(turn: &Turning) -> String {
    let many = match eighths(turn.degrees) {
        4 => "about".to_owned(),
        many => amount(many),
    };
    let when = match &turn.when {
        TurnWhen::Hop => " on the hop".to_owned(),
        TurnWhen::Steps(run) => format!(" on {}", steps_words(run)),
        TurnWhen::Start | TurnWhen::Counts => String::new(),
    };
    let to = turn.to.map_or_else(String::new, |facing| format!(", {}", face(facing)));
    format!("{} {many}{when}{to}", way_word(turn.way))
}

/// `face partner`, `face up`.
#[must_use]
pub fn face(facing: crate::words::Facing) -> String {
    match facing {
        crate::words::Facing::Partner => "face partner".to_owned(),
        crate::words::Facing::Out => "face out".to_owned(),
        other => face_words(other).replace(", looking from below", ""),
    }
}

fn tap_words(to: &Telling, what: Tapping) -> String {
    match what {
        Tapping::On(number, end, other) | Tapping::By(number, end, other) => {
            let wood = end.is_of_stick() || other.is_of_stick();
            format!("{} {}", if wood { "tap" } else { "clap" }, to.who_short(number))
        }
        Tapping::BothHands(number) => format!("clap {}", to.who_short(number)),
        Tapping::Ground(end) => if end.is_of_stick() { "dib" } else { "slap the ground" }.to_owned(),
        Tapping::Own(end, part) => super::taps::own_words(end, part),
    }
}
