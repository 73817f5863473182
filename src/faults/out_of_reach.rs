use super::found::Found;
use super::struck::{SAME, Struck};
use crate::dance::{FaultKind, StrikePart};
use crate::motion::limbs::{InSpace, meeting_at, short_by};
use crate::motion::{Blow, BlowHand, BlowOn, Span};
use crate::words::strike_end_words;

/// Nearer than this the two ends meet, metres.
pub(super) const MEET: f64 = 0.01;

/// Those who stayed together part so long before the next strike, counts.
const PARTS: f64 = 0.5;

/// Ends that do not come to where they should meet: how far is missing, metres, with arms straight. Upright bodies reach each other at
/// 1.86 m with sticks held by the middle, at 2.37 m tip to tip held by the end, at 1.24 m hand to hand [CALC, `motion::limbs::reach`].
pub(super) fn find(struck: &Struck, span: &Span, blows: &[Blow], found: &mut Vec<Found>) {
    for blow in blows {
        let by = blow.by;
        let worst = match blow.on {
            BlowOn::Other(other) if makes_both(blows, blow) => {
                // Those who stay together are looked at as long as they do.
                let until = (blow.until - PARTS).max(blow.count);
                let looks = ((until - blow.count) * 2.0).ceil() as usize;
                let gap = |count: f64| {
                    let end = struck.limbs(by.dancer, count).end(by.hand, by.end);
                    let their = struck.limbs(other.dancer, count).end(other.hand, other.end);
                    let apart = short_by(struck.look.motion, blow, count).unwrap_or(0.0);
                    (count, apart.max((end - their).length()), apart > 0.0, end)
                };
                let gaps = (0..=looks).map(|look| gap((blow.count + look as f64 / 2.0).min(until)));
                gaps.fold(None, |worst: Option<(f64, f64, bool, InSpace)>, next| match worst {
                    // Who do not meet at all are told of that.
                    Some(known) if known.1 >= next.1 - MEET || (known.0 == blow.count && known.1 > MEET) => {
                        Some(known)
                    }
                    _ => Some(next),
                })
            }
            BlowOn::Ground => {
                let end = struck.limbs(by.dancer, blow.count).end(by.hand, by.end);
                Some((blow.count, (end.z - blow.height.unwrap_or(0.0)).abs(), false, end))
            }
            BlowOn::Own(StrikePart::Hands | StrikePart::Behind | StrikePart::Overhead) => {
                blow.height.map(|height| {
                    let end = struck.limbs(by.dancer, blow.count).end(by.hand, by.end);
                    (blow.count, (end.z - height).abs(), false, end)
                })
            }
            BlowOn::Other(_) | BlowOn::Own(_) | BlowOn::Nobody(_) => None,
        };
        let Some((count, short, apart, _)) = worst else { continue };
        let (dancers, text) = match blow.on {
            BlowOn::Other(other) => {
                let ends = format!("{} on {}", strike_end_words(by.end), strike_end_words(other.end));
                let (one, two) = (by.dancer, other.dancer);
                let text = match (apart, count > blow.count) {
                    (true, false) => format!("{one} and {two} are {short:.2} m too far apart for {ends}"),
                    (true, true) => {
                        format!("{one} and {two} go {short:.2} m too far apart to stay together, {ends}")
                    }
                    (false, _) => format!(
                        "{one} and {two} miss each other by {short:.2} m, {ends}: too high, too low, or too much to the side"
                    ),
                };
                (vec![one, two], text)
            }
            _ => {
                let what = if blow.height.is_some() { "the height that is asked" } else { "the ground" };
                (
                    vec![by.dancer],
                    format!(
                        "{} comes {short:.2} m short of {what} with the {}",
                        by.dancer,
                        strike_end_words(by.end)
                    ),
                )
            }
        };
        if short <= MEET {
            continue;
        }
        let (at, looked, count) = (count - span.begin(), count, blow.count);
        found.push(Found {
            kind: FaultKind::OutOfReach,
            at,
            lasts: (count - span.begin(), (blow.until - span.begin()).max(at)),
            dancers,
            value: short,
            limit: 0.0,
            text,
            spot: Some(meeting_at(struck.look.motion, blow, looked)),
        });
    }
}

/// Whether the hands of a strike are in no other that comes before it at that moment: a hand is in one place, and what it is asked to do
/// besides is told as such.
fn makes_both(blows: &[Blow], blow: &Blow) -> bool {
    let from = blows.partition_point(|other| other.count < blow.count - SAME);
    let moment = blows.iter().skip(from).take_while(|other| other.count <= blow.count + SAME);
    let first = |hand: BlowHand| moment.clone().find(|other| other.end_of(hand.dancer, hand.hand).is_some());
    blow.hands().into_iter().flatten().all(|hand| first(hand).is_none_or(|first| std::ptr::eq(first, blow)))
}
