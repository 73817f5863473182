//! How what to watch for is said.

use super::figure_look::FigureLook;
use crate::dance::Dancer;
use crate::faults::numbers::numbers;
use crate::faults::watched::{WatchKind, Watched};

/// Counts rounded down to a sixteenth, but for what a search leaves open: one number for one thing, and never more than there is.
fn down(counts: f64) -> f64 {
    ((counts + 1.0 / 256.0) * 16.0).floor() / 16.0
}

/// Some counts in figures, rounded down: `1.37`, `0.5`, `2`.
pub(super) fn figures(counts: f64) -> String {
    let said = format!("{:.2}", (down(counts) * 100.0 + 1e-6).floor() / 100.0);
    said.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Some counts, as they are said: `half a count`, `0.31 of a count`, `1.25 counts`.
pub(super) fn counts_words(counts: f64) -> String {
    let sixteenths = (down(counts) * 16.0).round() as i64;
    match sixteenths {
        ..=0 => "less than a sixteenth of a count".to_owned(),
        4 => "a quarter of a count".to_owned(),
        8 => "half a count".to_owned(),
        16 => "a count".to_owned(),
        1..16 => format!("{} of a count", figures(counts)),
        _ => format!("{} counts", figures(counts)),
    }
}

/// Somebody beside a dancer, as that dancer calls them: `your partner`, or nothing, and they are named.
pub(super) fn called(look: &FigureLook, dancer: Dancer, other: Dancer) -> &'static str {
    let partner = look.motion.ground().pair(look.span.place(dancer));
    let is_partner = partner.and_then(|place| look.span.dancer_in(place)) == Some(other);
    if is_partner { "your partner" } else { "{other}" }
}

/// A place as a dancer calls it, with the files as theirs and the other.
pub(super) fn own_place(look: &FigureLook, dancer: Dancer, place: &str) -> String {
    let even = look.span.place(dancer).get().is_multiple_of(2);
    let [own, other] =
        if even { ["the evens' file", "the odds' file"] } else { ["the odds' file", "the evens' file"] };
    let home = format!("at {}'s spot", look.span.place(dancer));
    place.replace(own, "your file").replace(other, "the other file").replace(&home, "at your own spot")
}

/// What is to be watched, with its sentence.
pub(super) fn watched(
    look: &FigureLook,
    kind: WatchKind,
    (at, slack): (f64, f64),
    dancers: Vec<Dancer>,
    said: String,
) -> Watched {
    let mut watched = Watched {
        kind,
        span: look.index,
        at,
        dancers,
        who: 1,
        slack,
        of_blow: false,
        said,
        text: String::new(),
    };
    speak(&mut watched, look.motion.dancers());
    watched
}

/// Says it anew, in a set of so many.
pub(super) fn speak(watched: &mut Watched, many: usize) {
    let (who, others) = watched.dancers.split_at_checked(watched.who).unwrap_or_default();
    // A partner of one's own is one for each.
    let one = others.len() == 1 || !watched.said.contains("{other}");
    let head = who_words(who, many);
    let text = watched
        .said
        .replace("{other}", &numbers(others))
        .replace("{is}", if one { "is" } else { "are" })
        .replace("{meets}", if who.len() == 1 { "meets" } else { "meet" });
    watched.text = format!("{head}: {text}");
}

/// Those who have to watch it: `everybody`, `odds`, `evens`, or their numbers.
fn who_words(who: &[Dancer], many: usize) -> String {
    let all = |even: bool| {
        Dancer::all(many).filter(|dancer| dancer.is_even() == even).all(|dancer| who.contains(&dancer))
    };
    let of = |even: bool| who.iter().all(|dancer| dancer.is_even() == even);
    if who.len() == many && many > 2 {
        "everybody".to_owned()
    } else if who.len() > 1 && of(false) && all(false) {
        "odds".to_owned()
    } else if who.len() > 1 && of(true) && all(true) {
        "evens".to_owned()
    } else {
        numbers(who)
    }
}

/// Whether two say the same, of others of their own: one of them touches none of those who have to watch it.
pub(super) fn alike(known: &Watched, other: &Watched) -> bool {
    let named = known.said.contains("{other}");
    let theirs = |one: &Watched| one.dancers.get(one.who..).unwrap_or_default().to_vec();
    let apart =
        |one: &Watched, two: &Watched| theirs(one).iter().all(|dancer| !two.watchers().contains(dancer));
    let own = known.kind != WatchKind::Turn || theirs(known) == theirs(other);
    known.kind == other.kind
        && known.said == other.said
        && (known.slack - other.slack).abs() < 0.05
        && (known.at - other.at).abs() < 0.2
        && (!named || (own && apart(known, other) && apart(other, known)))
}

/// Tells what another says of a mate together with it, in a set of so many.
pub(super) fn join(known: &mut Watched, other: &Watched, many: usize) {
    if other.watchers().iter().any(|who| known.watchers().contains(who)) {
        return;
    }
    for &who in other.watchers() {
        known.dancers.insert(known.who, who);
        known.who += 1;
    }
    if let Some((watchers, others)) = known.dancers.split_at_mut_checked(known.who) {
        watchers.sort_unstable();
        others.sort_unstable();
    }
    for dancer in other.dancers.iter().skip(other.who) {
        if !known.dancers.contains(dancer) {
            known.dancers.push(*dancer);
        }
    }
    // Partners of one another have to watch it, all of them.
    let watchers = known.watchers().to_vec();
    let others: Vec<Dancer> =
        known.dancers.iter().skip(known.who).copied().filter(|dancer| !watchers.contains(dancer)).collect();
    known.dancers = [watchers, others].concat();
    speak(known, many);
}
