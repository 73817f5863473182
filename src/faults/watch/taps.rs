use super::figure_look::FigureLook;
use super::spoken::{called, counts_words, watched};
use crate::dance::Dancer;
use crate::faults::out_of_reach::MEET;
use crate::faults::slack::MOST_SHIFT;
use crate::faults::watched::{WatchKind, Watched};
use crate::motion::limbs::{parted_by, shoulder_aside};
use crate::motion::{Blow, BlowOn, Track};

/// Two who are both late are told up to so many counts, a bar (chosen for this program): one of them in is often enough.
const MOST_BOTH: f64 = 4.0;
/// A shift is found as well as this, counts.
const FOUND: f64 = 1.0 / 256.0;
/// Less than this is as good as out of reach as drawn, counts.
const AS_DRAWN: f64 = 1.0 / 32.0;

/// Who of two that strike is out of time.
#[derive(Clone, Copy, PartialEq)]
enum Out {
    One,
    Both,
}

/// Who must be in by a tap or a clap, and stay in for it: how late or early they may be until the ends miss. Where one of the two may be as
/// late as they like, it is told how late both may be.
pub(super) fn find(look: &FigureLook, goes_on: &mut dyn FnMut() -> bool) -> Vec<Watched> {
    let blows = look.motion.blows_between(look.span.begin(), look.span.end());
    let mut found: Vec<Watched> = Vec::new();
    let mut keep = |new: Watched| {
        let same = |known: &&mut Watched| known.kind == new.kind && known.dancers == new.dancers;
        match found.iter_mut().find(same) {
            Some(known) if known.slack <= new.slack + FOUND => {}
            Some(known) => *known = new,
            None => found.push(new),
        }
    };
    for blow in blows {
        let BlowOn::Other(other) = blow.on else { continue };
        if !goes_on() {
            break;
        }
        let pair = (blow.by.dancer, other.dancer);
        for early in [false, true] {
            let mut alone = false;
            for (late, second) in [pair, (pair.1, pair.0)] {
                if let Some(slack) = misses(look, blow, (late, Out::One), early, MOST_SHIFT) {
                    alone = true;
                    keep(told(look, blow, (late, second, Out::One), early, slack));
                }
            }
            if !alone && let Some(slack) = misses(look, blow, (pair.0, Out::Both), early, MOST_BOTH) {
                let (low, high) = (pair.0.min(pair.1), pair.0.max(pair.1));
                keep(told(look, blow, (low, high, Out::Both), early, slack));
            }
        }
    }
    found
}

/// After how many counts late, or early, the ends of a blow miss; nothing where they do not up to the most, or miss as drawn.
fn misses(look: &FigureLook, blow: &Blow, (out, who): (Dancer, Out), early: bool, most: f64) -> Option<f64> {
    let BlowOn::Other(other) = blow.on else { return None };
    let (one, two) = (look.span.track(blow.by.dancer)?, look.span.track(other.dancer)?);
    let at = blow.count - look.span.begin();
    let sign = if early { -1.0 } else { 1.0 };
    let shifts = |dancer: Dancer| who == Out::Both || dancer == out;
    let count = |dancer: Dancer, by: f64| {
        if shifts(dancer) { (at - sign * by).clamp(0.0, look.counts()) } else { at }
    };
    let counts = |by: f64| (count(blow.by.dancer, by), count(other.dancer, by));
    let short = |by: f64| {
        let (own, their) = counts(by);
        parted_by(blow, look.motion.held().grip, one.stand(own), two.stand(their))
            .map_or(f64::NEG_INFINITY, |short| short - MEET)
    };
    // How much the ways of the shoulders leave open between two shifts.
    let room = |track: &Track, from: f64, at: f64, to: f64| {
        let (from, to) = (from.min(to), from.max(to));
        let gone = track.travelled(at);
        let (least, most) = track.facings(from, to);
        (gone - track.travelled(from)).max(track.travelled(to) - gone)
            + shoulder_aside() * (most - least).to_radians()
    };
    if short(AS_DRAWN.min(at)) > 0.0 || short(0.0) > 0.0 {
        return None;
    }
    let mut stack = vec![(0.0, most)];
    while let Some((from, to)) = stack.pop() {
        let middle = f64::midpoint(from, to);
        let [(a, b), (c, d), (e, f)] = [counts(from), counts(middle), counts(to)];
        let here = short(middle);
        if here + room(one, a, c, e) + room(two, b, d, f) <= 0.0 {
            continue;
        }
        if to - from < FOUND {
            if here > 0.0 {
                return Some(middle);
            }
            continue;
        }
        stack.push((middle, to));
        stack.push((from, middle));
    }
    None
}

fn told(
    look: &FigureLook,
    blow: &Blow,
    (dancer, other, out): (Dancer, Dancer, Out),
    early: bool,
    slack: f64,
) -> Watched {
    let at = blow.count - look.span.begin();
    let (what, misses) =
        if blow.is_of_wood() { ("tapping", "the sticks miss") } else { ("clapping", "the hands miss") };
    let moment = look.moment(at);
    let with =
        if out == Out::Both { String::new() } else { format!(" with {}", called(look, dancer, other)) };
    let (kind, way) = if early { (WatchKind::Early, "early") } else { (WatchKind::Late, "late") };
    let when = if early {
        format!("in for the {what}{with} until {moment}")
    } else {
        format!("in for the {what}{with} by {moment}")
    };
    let both = if out == Out::Both { "both of a pair " } else { "" };
    let said = format!("{when}; {both}{} {way} {misses}", counts_words(slack));
    let mut watched = watched(look, kind, (at, slack), vec![dancer, other], said);
    watched.of_blow = true;
    if out == Out::Both {
        watched.who = 2;
        super::spoken::speak(&mut watched, look.motion.dancers());
    }
    watched
}
