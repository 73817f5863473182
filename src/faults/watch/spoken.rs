//! How what to watch for is said.

use super::super::watched::Watched;
use crate::dance::Dancer;

/// Some counts, as they are said: `half a count`, `0.35 of a count`, `1.25 counts`.
pub(super) fn counts_words(counts: f64) -> String {
    let near = |value: f64| (counts - value).abs() < 0.02;
    if near(0.25) {
        "a quarter of a count".to_owned()
    } else if near(0.5) {
        "half a count".to_owned()
    } else if near(1.0) {
        "a count".to_owned()
    } else if counts < 1.0 {
        format!("{counts:.2} of a count")
    } else {
        format!("{counts:.2} counts")
    }
}

/// Tells what another says of a mate together with it: `3 and 4: ...`.
pub(super) fn join(known: &mut Watched, other: &Watched) {
    let Some(&who) = other.dancers.first() else { return };
    if known.watchers().contains(&who) {
        return;
    }
    let before = list(known.watchers());
    known.dancers.insert(known.who, who);
    known.who += 1;
    for dancer in other.dancers.iter().skip(other.who) {
        if !known.dancers.contains(dancer) {
            known.dancers.push(*dancer);
        }
    }
    if let Some(rest) = known.text.strip_prefix(&before) {
        known.text = format!("{}{rest}", list(known.watchers()));
    }
    // Each of them touches their own: `meets 5` of the first is `meet 5 and 6` of both.
    let met = list(known.dancers.get(known.who..).unwrap_or_default());
    if let Some((head, _)) = known.text.rsplit_once(" meets ").or_else(|| known.text.rsplit_once(" meet ")) {
        known.text = format!("{head} meet {met}");
    }
}

/// Some dancers, as they are said: `1, 3 and 5`.
pub(super) fn list(dancers: &[Dancer]) -> String {
    let mut said: Vec<String> = dancers.iter().map(ToString::to_string).collect();
    match (said.pop(), said.is_empty()) {
        (Some(last), false) => format!("{} and {last}", said.join(", ")),
        (last, _) => last.unwrap_or_default(),
    }
}
