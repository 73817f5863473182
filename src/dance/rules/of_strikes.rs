//! What taps and claps have to keep to.

use super::ranges::{Checked, check_range};
use crate::dance::limits::{HIGHEST_STRIKE, MOST_STRIKES, MOST_STRUCK};
use crate::dance::{DanceError, Strike, Striker, Struck};

/// The strikes of the figure at `path` that takes so many counts.
pub(super) fn check_strikes(path: &str, strikes: &[Strike], counts: f64, dancers: u32) -> Checked {
    if strikes.len() > MOST_STRIKES {
        let text = format!("{} of them; a figure has at most {MOST_STRIKES}", strikes.len());
        return Err(DanceError::key(format!("{path}.strikes"), text));
    }
    let struck: usize = strikes.iter().map(|strike| 1 + strike.again.len()).sum();
    if struck > MOST_STRUCK {
        let text = format!("struck {struck} times in all; in a figure it is at most {MOST_STRUCK}");
        return Err(DanceError::key(format!("{path}.strikes"), text));
    }
    strikes.iter().enumerate().try_for_each(|(index, strike)| {
        check_strike(&format!("{path}.strikes[{index}]"), strike, counts, dancers)
    })
}

fn check_strike(path: &str, strike: &Strike, counts: f64, dancers: u32) -> Checked {
    let key = |name: &str, text: String| Err(DanceError::key(format!("{path}.{name}"), text));
    check_count(&format!("{path}.at"), strike.at, counts)?;
    if strike.again.len() > MOST_STRIKES {
        let text = format!("{} of them; a strike has at most {MOST_STRIKES}", strike.again.len());
        return key("again", text);
    }
    let mut before = strike.at;
    for (index, &count) in strike.again.iter().enumerate() {
        let path = format!("{path}.again[{index}]");
        check_count(&path, count, counts)?;
        if count <= before {
            return Err(DanceError::key(
                path,
                format!("count {count} comes after {before}; they go in order"),
            ));
        }
        before = count;
    }
    if let Striker::Place(place) = strike.by
        && !place.is_in(dancers)
    {
        return key("by", format!("{place} is not a place in a set of {dancers}"));
    }
    match (strike.on, strike.by) {
        (Struck::Place(place), _) if !place.is_in(dancers) => {
            return key("on", format!("{place} is not a place in a set of {dancers}"));
        }
        (Struck::Place(place), Striker::Place(own)) if place == own => {
            return key("on", format!("{place} is who strikes; on oneself it is `self`"));
        }
        _ => {}
    }
    if strike.hand.is_some() && !strike.end.is_of_stick() {
        return key("hand", "only a stick is held in a hand; `with` says which hand strikes".to_owned());
    }
    if strike.their.is_some() && !strike.on.is_somebody() {
        return key("their", "there is nobody to answer: the strike is on no other dancer".to_owned());
    }
    if strike.their_hand.is_some() && !strike.is_on_a_stick() {
        return key("their_hand", "no other's stick answers; `their` says which hand does".to_owned());
    }
    if strike.part.is_some() && strike.on != Struck::Own {
        return key("part", "a part is struck on `self` alone".to_owned());
    }
    if let Some(height) = strike.height {
        if !strike.takes_height() {
            return key("height", "a knee is struck where it is; leave the height out".to_owned());
        }
        check_range(&format!("{path}.height"), height, 0.0, HIGHEST_STRIKE, "metres")?;
    }
    Ok(())
}

fn check_count(path: &str, count: f64, counts: f64) -> Checked {
    check_range(path, count, 0.0, counts, "counts")?;
    if count >= counts {
        let text = format!("count {count} is the end of the figure; a strike is before it");
        return Err(DanceError::key(path, text));
    }
    Ok(())
}
