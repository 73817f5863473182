//! The short words of pages that tell everybody what meets.

use super::small::list;
use super::taps::{ends, own_words};
use crate::dance::{Dancer, StrikeEnd};
use crate::words::met::Met;

pub(in crate::words) const ALL: &str = "all";
pub(in crate::words) const ODDS: &str = "odds";
pub(in crate::words) const EVENS: &str = "evens";
pub(in crate::words) const PARTNERS: &str = "partners";

/// `odds on evens`.
pub(in crate::words) fn on(one: &str, other: &str) -> String {
    format!("{one} on {other}")
}

/// `1, 3 and 5`.
pub(in crate::words) fn numbers(who: &[Dancer]) -> String {
    list(&who.iter().map(ToString::to_string).collect::<Vec<_>>())
}

/// `1 on 3`, or where neither is the one who strikes `1 and 3`.
pub(in crate::words) fn pairs(pairs: &[(Dancer, Option<Dancer>)], even_handed: bool) -> String {
    let between = if even_handed { "with" } else { "on" };
    let each = pairs.iter().map(|(by, other)| match other {
        Some(other) => format!("{by} {between} {other}"),
        None => by.to_string(),
    });
    each.collect::<Vec<_>>().join(", ")
}

/// What meets what: `tip on butt`, `dib, tip`, `own hands behind`.
pub(in crate::words) fn how(met: Met) -> String {
    match met {
        Met::Ends(one, other) => ends(one, other, ""),
        Met::BothHands => "both hands".to_owned(),
        Met::Ground(StrikeEnd::Tip) => "dib, tip".to_owned(),
        Met::Ground(StrikeEnd::Butt) => "dib, butt".to_owned(),
        Met::Ground(StrikeEnd::Middle) => "dib, middle".to_owned(),
        Met::Ground(_) => "slap the ground".to_owned(),
        Met::Own(end, part) => own_words(end, part).trim_start_matches("clap ").to_owned(),
    }
}
