//! What is put in where somebody says no more than when something is to be struck, and of whom.

use crate::dance::{Dance, Holding, PlaceNumber, Strike, StrikeEnd, Striker, Struck};
use crate::motion::Ground;

/// The strike that somebody means who says no more than when: whoever dances in a place with their partner, or without a place all odds
/// with theirs; with the tips of their sticks, or by a clap of right hands.
#[must_use]
pub fn usual_strike(dance: &Dance, at: f64, place: Option<PlaceNumber>) -> Strike {
    let ground = Ground::of(&dance.set);
    let sticks = dance.holding == Holding::Sticks;
    let end = if sticks { StrikeEnd::Tip } else { StrikeEnd::Right };
    let alone = if sticks { Struck::Ground } else { Struck::Own };
    let (by, on) = match place {
        Some(place) if ground.pair(place).is_some() => (Striker::Place(place), Struck::Partner),
        Some(place) => (Striker::Place(place), alone),
        None if ground.pair(PlaceNumber(1)).is_some() => (Striker::Odds, Struck::Partner),
        None => (Striker::All, alone),
    };
    let end = if on == Struck::Own { StrikeEnd::Both } else { end };
    Strike::new(at, by, end, on)
}

/// The strikes that somebody means who says when, and in which places those dance who are to do it: the first of them, and the others on
/// their side before those across. A pair meets once; where it is all odds, all evens or everybody, it is said so. Without places it is
/// [`usual_strike`] of nobody.
#[must_use]
pub fn usual_strikes(dance: &Dance, at: f64, places: &[PlaceNumber]) -> Vec<Strike> {
    let Some(&first) = places.first() else { return vec![usual_strike(dance, at, None)] };
    let ground = Ground::of(&dance.set);
    let across = |place: &PlaceNumber| Striker::Odds.has(*place) != Striker::Odds.has(first);
    let mut order = places.to_vec();
    order.sort_by_key(across);
    let mut by: Vec<PlaceNumber> = Vec::new();
    for place in order {
        let meets = ground.pair(place).is_some_and(|pair| by.contains(&pair));
        if !meets && !by.contains(&place) {
            by.push(place);
        }
    }
    let mut strikes: Vec<Strike> = by.iter().map(|place| usual_strike(dance, at, Some(*place))).collect();
    let on = strikes.first().map(|strike| strike.on);
    if by.len() > 1 && strikes.iter().all(|strike| Some(strike.on) == on) {
        let all = |who: Striker| {
            ground.places().filter(|place| who.has(*place)).count() == by.len()
                && by.iter().all(|place| who.has(*place))
        };
        if let Some(who) = [Striker::All, Striker::Odds, Striker::Evens].into_iter().find(|who| all(*who)) {
            strikes.truncate(1);
            for strike in &mut strikes {
                strike.by = who;
            }
        }
    }
    strikes
}
