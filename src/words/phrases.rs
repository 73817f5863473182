//! Every word that is said of a fact. To say it all in another language, write this file again, and those under it.
//! Begin with [`words`].

mod amounts;
pub mod gist;
mod going;
pub(super) mod met;
pub mod once;
mod places;
pub mod sheet;
pub mod short;
mod small;
mod start;
mod steps;
pub(super) mod taps;
mod telling;

pub use amounts::{PACE, distance, turn_words};
pub use going::set_off_words;
pub use places::{facing_words, place_words};
pub use small::list;
pub use steps::named;
pub use telling::Telling;

use super::facts::{Fact, TurnWhen, Turning};
use crate::dance::Holding;
use going::going_words;
use places::face_words;
use small::{bar_of, capital, during_words, foot_word, until_words, way_word};
use start::start_words;
use steps::{run_words, steps_words};

/// A fact of a figure as a sentence.
#[must_use]
pub fn words(to: &Telling, fact: &Fact) -> String {
    let bars = to.bars;
    match fact {
        Fact::Start(start) => start_words(bars, start),
        Fact::Stand(None) => "Stand still.".to_owned(),
        Fact::Stand(Some(until)) => format!("Stand still {}.", until_words(bars, *until)),
        Fact::OnTheSpot(None) => "Dance on the spot.".to_owned(),
        Fact::OnTheSpot(Some(until)) => format!("Dance on the spot {}.", until_words(bars, *until)),
        Fact::Go(going) => going_words(to, going),
        Fact::Turn(turn) => turn_sentence(to, turn),
        Fact::Passed(pass) => {
            let side = way_word(pass.shoulder);
            let who = capital(&to.who(pass.number));
            format!("{who} passes you on your {side} in bar {}.", bar_of(bars, pass.at))
        }
        Fact::End(place, facing) => format!("End {}, {}.", place_words(to, place), facing_words(*facing)),
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

fn turn_sentence(to: &Telling, turn: &Turning) -> String {
    let bars = to.bars;
    let when = match &turn.when {
        TurnWhen::Start if turn.begin < 1e-6 => "as you start".to_owned(),
        TurnWhen::Start => format!("as you start bar {}", bar_of(bars, turn.begin)),
        TurnWhen::Hop => format!("on the hop of bar {}", bar_of(bars, turn.begin)),
        TurnWhen::Steps(run) => format!("on {} of bar {}", steps_words(run), bar_of(bars, turn.begin)),
        TurnWhen::Counts => during_words(bars, turn.begin, turn.end),
    };
    let said = matches!(turn.when, TurnWhen::Start | TurnWhen::Hop);
    let moving = if turn.moving && !said { ", as you go" } else { "" };
    let facing = turn.to.map_or_else(String::new, |facing| format!(", to {}", face_words(facing)));
    format!("{} {when}{moving}{facing}.", turn_words(turn.way, turn.degrees))
}
