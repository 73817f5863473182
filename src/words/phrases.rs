//! Every word that is said of a fact. To say it all in another language, write this file again, and those under it.

use super::facts::{
    Along, CourseSaid, Facing, Fact, Going, Lane, Level, Pass, Place, Start, StartTurn, StepRun, TurnWhen,
    Turning,
};
use crate::dance::{COUNTS_PER_BAR, Foot, Holding, LeadRule, Way};
use crate::motion::{LeadFrom, wrap_half};

mod steps;

pub use steps::named;
use steps::{run_words, steps_words};

/// A pace, metres: chosen for this program.
pub const PACE: f64 = 0.75;

/// A fact as a sentence.
#[must_use]
pub fn words(fact: &Fact) -> String {
    match fact {
        Fact::Start(start) => start_words(start),
        Fact::Stand(None) => "Stand still.".to_owned(),
        Fact::Stand(Some(until)) => format!("Stand still {}.", until_words(*until)),
        Fact::OnTheSpot(None) => "Dance on the spot.".to_owned(),
        Fact::OnTheSpot(Some(until)) => format!("Dance on the spot {}.", until_words(*until)),
        Fact::Go(going) => going_words(going),
        Fact::Turn(turn) => turn_sentence(turn),
        Fact::Passed(pass) => {
            let side = way_word(pass.shoulder);
            format!("{} passes you on your {side} in bar {}.", pass.number, bar_of(pass.at))
        }
        Fact::End(place, facing) => format!("End {}, {}.", place_words(place), facing_words(*facing)),
        Fact::Steps(runs, hop) => {
            let hop = hop.map(|foot| format!("hop {}", foot_word(foot)));
            let runs: Vec<String> = runs.iter().map(run_words).chain(hop).collect();
            format!("Steps: {}.", runs.join(", "))
        }
        Fact::Hands(holding, runs) => {
            let what = if *holding == Holding::Sticks { "Stick" } else { "Hands" };
            let runs: Vec<String> = runs.iter().map(steps_words).collect();
            format!("{what} high on {}.", list(&runs))
        }
    }
}

fn start_words(start: &Start) -> String {
    let foot = foot_word(start.foot);
    let again = match start.turn {
        StartTurn::First => String::new(),
        StartTurn::Fresh => format!(" {}", start_moment(start.at)),
        StartTurn::Again => format!(" again {}", start_moment(start.at)),
    };
    let rule = start.rule.map(|rule| match (rule, start.foot) {
        (LeadRule::OutsideFoot, _) => "outside foot",
        (LeadRule::LeftThenRight, Foot::Left) if start.half == Some(0) => "left in the first half",
        (LeadRule::LeftThenRight, Foot::Right) if start.half == Some(1) => "right in the second half",
        (LeadRule::LeftThenRight, _) => "left and right by turns",
        (LeadRule::SameWay, _) => "the same foot in both halves",
        (LeadRule::Left, _) => "always left",
        (LeadRule::Right, _) => "always right",
        (LeadRule::ByNumber, Foot::Left) => "odds start left",
        (LeadRule::ByNumber, Foot::Right) => "evens start right",
    });
    let why = match (start.from, rule) {
        (LeadFrom::Step, _) => "the foot that is free".to_owned(),
        (LeadFrom::Usual, _) => "as usual".to_owned(),
        (LeadFrom::Phrase, _) => "as the stepping says".to_owned(),
        (LeadFrom::Dancer, None) => "as drawn".to_owned(),
        (LeadFrom::Dancer, Some(rule)) => format!("{rule}, for you"),
        (LeadFrom::Named | LeadFrom::Figure | LeadFrom::Dance, None) => "as the figure goes".to_owned(),
        (LeadFrom::Named, Some(rule)) => rule.to_owned(),
        (LeadFrom::Figure, Some(rule)) => format!("{rule}, in this figure"),
        (LeadFrom::Dance, Some(rule)) => format!("{rule}, in this dance"),
    };
    // Up and down are what the outside foot is told by; across the set the facing says nothing.
    let facing = match start.facing.map(|facing| wrap_half(facing).abs()) {
        Some(off) if off <= 22.5 => ", as you face up",
        Some(off) if off >= 157.5 => ", as you face down",
        _ => "",
    };
    if start.at_once {
        format!("Start {foot}{again} ({why}{facing}).")
    } else {
        // It springs off, or stands, before a foot lands.
        let foot = if start.foot == Foot::Left { "Left" } else { "Right" };
        format!("{foot} foot first{again} ({why}{facing}).")
    }
}

/// `in bar 2`, or where it is not the bar's first count, `on count 3 of bar 2`.
fn start_moment(count: f64) -> String {
    let inside = count.rem_euclid(f64::from(COUNTS_PER_BAR)).round() as u64;
    match inside {
        0 => format!("in bar {}", bar_of(count)),
        inside => format!("on count {} of bar {}", inside + 1, bar_of(count)),
    }
}

fn going_words(going: &Going) -> String {
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
        CourseSaid::Turning if going.to == Some(Place::Home) => "Straight home".to_owned(),
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
        said += &format!(", shoulder to shoulder with {number} on your {}", way_word(way));
    }
    if !going.passes.is_empty() {
        said += &format!(", passing {}", pass_words(&going.passes));
    }
    let passed = |number: u32| going.passes.iter().any(|pass| pass.number == number);
    let to = match going.to {
        None => String::new(),
        Some(Place::Home) if going.course == CourseSaid::Turning => String::new(),
        Some(Place::Home) => ", home".to_owned(),
        Some(Place::Spot(number)) if passed(number) && going.passes.len() == 1 => {
            ", into their place".to_owned()
        }
        Some(Place::Spot(number)) => format!(", into {number}'s place"),
        Some(Place::FaceToFace(number)) => format!(" to meet {number} face to face"),
        Some(place) => format!(", until you are {}", place_words(&place)),
    };
    let after = !going.passes.is_empty()
        || going.beside.is_some()
        || matches!(going.course, CourseSaid::Round(..) | CourseSaid::Straight(_, Some(_)));
    let long = matches!(going.to, Some(Place::Beside(..) | Place::BackToBack(_)));
    let pause = if long || to.is_empty() && after { "," } else { "" };
    format!("{said}{to}{pause} {}.", by_words(going.end))
}

/// A turn with which a stretch of travelling starts, such as `Turning left a quarter`; nothing where there is none.
#[must_use]
pub fn set_off_words(going: &Going) -> Option<String> {
    let way = if going.set_off < 0.0 { Way::Left } else { Way::Right };
    let turned = turn_words(way, going.set_off.abs());
    (going.set_off.abs() > 30.0).then(|| turned.replacen("Turn", "Turning", 1))
}

fn pass_words(passes: &[Pass]) -> String {
    let said: Vec<String> = passes
        .iter()
        .enumerate()
        .map(|(index, pass)| {
            let shoulder = if index == 0 { " shoulder" } else { "" };
            format!("{} by the {}{shoulder}", pass.number, way_word(pass.shoulder))
        })
        .collect();
    list(&said)
}

fn turn_sentence(turn: &Turning) -> String {
    let when = match &turn.when {
        TurnWhen::Start => "as you start".to_owned(),
        TurnWhen::Hop => format!("on the hop of bar {}", bar_of(turn.begin)),
        TurnWhen::Steps(run) => format!("on {}", steps_words(run)),
        TurnWhen::Counts => during_words(turn.begin, turn.end),
    };
    let said = matches!(turn.when, TurnWhen::Start | TurnWhen::Hop);
    let moving = if turn.moving && !said { ", as you go" } else { "" };
    let to = turn.to.map_or_else(String::new, |facing| format!(", to {}", face_words(facing)));
    format!("{} {when}{moving}{to}.", turn_words(turn.way, turn.degrees))
}

/// A turn's way and amount, such as `Turn left three quarters`.
#[must_use]
pub fn turn_words(way: Way, degrees: f64) -> String {
    let amount = match eighths(degrees) {
        4 => "half round".to_owned(),
        many => amount(many),
    };
    format!("Turn {} {amount}", way_word(way))
}

/// Where a phrase ends, such as `in 2's place`.
#[must_use]
pub fn place_words(place: &Place) -> String {
    match *place {
        Place::Home => "home".to_owned(),
        Place::Spot(number) => format!("in {number}'s place"),
        Place::Beside(number, way, line) => {
            let line = if line { " on the middle line" } else { "" };
            format!("side by side with {number}{line}, {number} at your {} shoulder", way_word(way))
        }
        Place::BackToBack(number) => format!("back to back with {number}"),
        Place::FaceToFace(number) => format!("face to face with {number}"),
        Place::Middle => "at the middle of the set".to_owned(),
        Place::Lane(lane, level) => {
            let lane = match lane {
                Lane::Middle => "on the middle line",
                Lane::Inside => "inside the file",
                Lane::File => "in the file",
                Lane::Outside => "outside the file",
            };
            format!("{lane}, {}", level_words(level))
        }
        Place::FromHome(metres, eighth) => {
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

fn level_words(level: Level) -> String {
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

fn face_words(facing: Facing) -> String {
    format!("face {}", towards(facing))
}

fn towards(facing: Facing) -> String {
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

/// A distance in paces and half paces, or in metres where it is short.
#[must_use]
pub fn distance(metres: f64) -> String {
    if metres < PACE / 2.0 {
        return format!("{metres:.1} m");
    }
    let halves = (metres / PACE * 2.0).round().max(1.0) as u64;
    match (halves / 2, halves % 2) {
        (0, _) => "half a pace".to_owned(),
        (1, 0) => "one pace".to_owned(),
        (many, 0) => format!("{} paces", number_word(many)),
        (many, _) => format!("{} and a half paces", number_word(many)),
    }
}

/// Eighths of a turn, for amounts.
fn eighths(degrees: f64) -> u32 {
    (degrees.abs() / 45.0).round() as u32
}

/// An amount in eighths of a whole turn.
fn amount(eighths: u32) -> String {
    let (whole, rest) = (eighths / 8, eighths % 8);
    let part = match rest {
        0 => "",
        1 => "an eighth",
        2 => "a quarter",
        3 => "three eighths",
        4 => "a half",
        5 => "five eighths",
        6 => "three quarters",
        _ => "seven eighths",
    };
    let times = match whole {
        1 => "once".to_owned(),
        2 => "twice".to_owned(),
        many => format!("{} times", number_word(u64::from(many))),
    };
    match (whole, rest) {
        (0, 0) => "a little".to_owned(),
        (0, _) => part.to_owned(),
        (1, 0) => "once round".to_owned(),
        (_, 0) => format!("{times} round"),
        _ => format!("{times} and {part}"),
    }
}

/// `by the end of bar 2`, `by half-way through bar 2`, `by count 4 of bar 2`.
fn by_words(count: f64) -> String {
    format!("by {}", moment_words(count))
}

fn until_words(count: f64) -> String {
    format!("until {}", moment_words(count))
}

fn moment_words(count: f64) -> String {
    let per_bar = u64::from(COUNTS_PER_BAR);
    let whole = count.round().max(0.0) as u64;
    let (bar, inside) = (whole / per_bar, whole % per_bar);
    match inside {
        0 if bar == 0 => "the start".to_owned(),
        0 => format!("the end of bar {bar}"),
        2 => format!("half-way through bar {}", bar + 1),
        inside => format!("count {} of bar {}", inside + 1, bar + 1),
    }
}

fn during_words(begin: f64, end: f64) -> String {
    let per_bar = f64::from(COUNTS_PER_BAR);
    let (first, last) = (bar_of(begin), (end / per_bar - 1e-6).max(0.0) as u64 + 1);
    match last.saturating_sub(first) {
        0 if begin % per_bar >= 1.0 && end % per_bar < 0.01 => format!("at the end of bar {first}"),
        0 => format!("in bar {first}"),
        1 => format!("in bars {first} and {last}"),
        _ => format!("in bars {first} to {last}"),
    }
}

/// The bar, from 1, in which a count lies.
fn bar_of(count: f64) -> u64 {
    (count.max(0.0) / f64::from(COUNTS_PER_BAR) + 1e-6) as u64 + 1
}

/// A number in a word, as far as twelve.
fn number_word(number: u64) -> String {
    const WORDS: [&str; 13] = [
        "no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
        "twelve",
    ];
    WORDS.get(number as usize).map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

/// `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn list(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

fn way_word(way: Way) -> &'static str {
    match way {
        Way::Left => "left",
        Way::Right => "right",
    }
}

fn foot_word(foot: Foot) -> &'static str {
    match foot {
        Foot::Left => "left",
        Foot::Right => "right",
    }
}

/// The words around what each number does, on paper.
pub mod sheet {
    use super::{COUNTS_PER_BAR, Foot};

    /// The bars of a figure in its dance, counted from 0, and how many there are.
    #[must_use]
    pub fn bars(first: u32, many: u32) -> String {
        match many {
            1 => format!("bar {}", first + 1),
            _ => format!("bars {} to {}", first + 1, first + many),
        }
    }

    /// The bars of a phrase in its figure, from its counts.
    #[must_use]
    pub fn phrase_bars(begin: f64, end: f64) -> String {
        let per_bar = f64::from(COUNTS_PER_BAR);
        let (first, last) = ((begin / per_bar) as u32 + 1, (end / per_bar) as u32);
        if first >= last { format!("Bar {first}") } else { format!("Bars {first} to {last}") }
    }

    /// The heading over a number.
    #[must_use]
    pub fn number(number: u32, name: Option<&str>, standing: &str) -> String {
        let name = name.map_or_else(String::new, |name| format!(", {name}"));
        let standing = if standing.is_empty() { String::new() } else { format!(" ({standing})") };
        format!("Number {number}{name}{standing}")
    }

    /// What the foreman calls.
    #[must_use]
    pub fn call(call: &str) -> String {
        format!("call: {call}")
    }

    /// The hop on the upbeat that ends a figure danced before, where it is on the other foot this time.
    #[must_use]
    pub fn hop_instead(foot: Foot) -> String {
        format!("Here hop {} at the end.", super::foot_word(foot))
    }

    /// What a figure danced before is said to be.
    #[must_use]
    pub fn again(first: u32, many: u32) -> String {
        format!("As in {}.", bars(first, many))
    }

    /// What a phrase is said to be that is danced just as the one before it.
    #[must_use]
    pub fn same() -> &'static str {
        "The same again."
    }

    /// What is said of a dance with no figures.
    #[must_use]
    pub fn empty() -> &'static str {
        "No figures yet."
    }
}
