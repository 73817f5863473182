use super::found::Found;
use super::struck::{SAME, Struck};
use crate::dance::{FaultKind, StrikePart};
use crate::motion::limbs::{InSpace, Limbs, meeting_at, on_side, short_by};
use crate::motion::{Blow, BlowHand, BlowOn, Span};
use crate::words::strike_end_words;

/// Nearer than this the two ends meet, metres.
pub(super) const MEET: f64 = 0.01;

/// A hand on a knee is so far over the joint, and who claps under one has that foot's sole so far under the hips at the most, metres.
const OVER_A_KNEE: f64 = 0.07;
const UNDER: f64 = 0.6;

/// Those who stayed together part so long before the next strike, counts.
const PARTS: f64 = 0.5;

/// Ends that do not come to where they should meet: how far is missing, metres, with arms straight. Upright bodies reach each other at
/// 1.86 m with sticks held by the middle, at 2.37 m tip to tip held by the end, at 1.24 m hand to hand [CALC, `motion::limbs::reach`].
pub(super) fn find(struck: &Struck, span: &Span, blows: &[Blow], found: &mut Vec<Found>) {
    for blow in blows {
        let by = blow.by;
        // Who do not meet at all are told of that.
        let worse = |known: Gap, next: Gap| {
            let tells = known.1 >= next.1 - MEET || (known.0 == blow.count && known.1 > MEET);
            if tells { known } else { next }
        };
        let worst = match blow.on {
            // A hand that is in another is told of that alone.
            BlowOn::Other(_) | BlowOn::Ground if !makes_both(blows, blow) => None,
            BlowOn::Other(other) => {
                let gap = |count: f64| {
                    let end = struck.limbs(by.dancer, count).end(by.hand, by.end);
                    let their = struck.limbs(other.dancer, count).end(other.hand, other.end);
                    let apart = short_by(struck.look.motion, blow, count).unwrap_or(0.0);
                    (count, apart.max((end - their).length()), apart > 0.0, end)
                };
                looks(blow).map(gap).reduce(worse)
            }
            BlowOn::Ground => {
                let gap = |count: f64| {
                    let end = struck.limbs(by.dancer, count).end(by.hand, by.end);
                    (count, (end.z - blow.height.unwrap_or(0.0)).abs(), false, end)
                };
                looks(blow).map(gap).reduce(worse)
            }
            BlowOn::Own(part) => {
                let body = struck.limbs(by.dancer, blow.count);
                let end = body.end(by.hand, by.end);
                let height =
                    blow.height.filter(|_| part.is_of_hands()).map_or(0.0, |height| (end.z - height).abs());
                Some((blow.count, height.max(on_oneself(&body, blow, part)), false, end))
            }
            BlowOn::Nobody(_) => None,
        };
        let Some((count, short, apart, _)) = worst else { continue };
        let (dancers, text) = match blow.on {
            BlowOn::Other(other) => {
                let ends = format!("{} on {}", strike_end_words(by.end), strike_end_words(other.end));
                let (one, two) = (by.dancer, other.dancer);
                let text = match (apart, count > blow.count) {
                    (true, false) => format!(
                        "{one} and {two} are {short:.2} m too far apart for {ends}: bring them nearer by that"
                    ),
                    (true, true) => {
                        format!(
                            "{one} and {two} go {short:.2} m too far apart to stay together, {ends}: have them part sooner"
                        )
                    }
                    (false, _) => format!(
                        "{one} and {two} miss each other by {short:.2} m, {ends}: have them face each other, or strike at another height"
                    ),
                };
                (vec![one, two], text)
            }
            _ => {
                let ends = strike_end_words(by.end);
                let text = match blow.on {
                    BlowOn::Own(part) if blow.height.is_none() || !part.is_of_hands() => {
                        let (what, why) = missed(part);
                        format!("{} is {short:.2} m short of {what}: {why}", by.dancer)
                    }
                    _ => {
                        let (what, mend) = if blow.height.is_some() {
                            ("the height that is asked", "ask for one within reach")
                        } else {
                            ("the ground", "have them stand on both feet, with more time to stoop")
                        };
                        format!("{} comes {short:.2} m short of {what} with the {ends}: {mend}", by.dancer)
                    }
                };
                (vec![by.dancer], text)
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

/// How far apart what meets on oneself is, metres: both hands, or a hand and a knee. Under a knee the foot has to be off the floor, and is
/// told by how much it is too low where it is not.
fn on_oneself(body: &Limbs, blow: &Blow, part: StrikePart) -> f64 {
    let BlowHand { dancer, hand, end } = blow.by;
    let place = body.end(hand, end);
    let other =
        || blow.end_of(dancer, 1 - hand).map_or(0.0, |end| (place - body.end(1 - hand, end)).length());
    let under = |side: usize| {
        let planted = on_side(body.planted, side);
        let low = on_side(body.hips, side).z - UNDER - on_side(body.feet, side).z;
        if planted { low.max(other()) } else { other() }
    };
    let on = |side: usize| ((on_side(body.knees, side) - place).length() - OVER_A_KNEE).max(0.0);
    match part {
        StrikePart::Hands | StrikePart::Behind | StrikePart::Overhead => other(),
        StrikePart::LeftKnee => on(0),
        StrikePart::RightKnee => on(1),
        StrikePart::UnderLeftKnee => under(0),
        StrikePart::UnderRightKnee => under(1),
    }
}

/// What is missed on oneself, why, and what there is to do about it.
fn missed(part: StrikePart) -> (&'static str, &'static str) {
    let apart = "the hands do not come together";
    let straight = "legs are straight in a jump; clap it where that foot is free or where you stand";
    let carries =
        "that foot carries the weight, or jumps; clap it where that foot is free or where you stand";
    match part {
        StrikePart::Hands => ("the other hand", apart),
        StrikePart::Behind => ("the other hand behind", apart),
        StrikePart::Overhead => ("the other hand overhead", apart),
        StrikePart::LeftKnee => ("the left knee", straight),
        StrikePart::RightKnee => ("the right knee", straight),
        StrikePart::UnderLeftKnee => ("clapping under the left knee", carries),
        StrikePart::UnderRightKnee => ("clapping under the right knee", carries),
    }
}

/// A count of the dance, how far two ends are apart then, metres, whether that is by where the bodies are, and where the first end is.
type Gap = (f64, f64, bool, InSpace);

/// When a strike is looked at: what stays is, each half count, as long as it does.
fn looks(blow: &Blow) -> impl Iterator<Item = f64> {
    let (count, until) = (blow.count, (blow.until - PARTS).max(blow.count));
    let looks = ((until - count) * 2.0).ceil() as usize;
    (0..=looks).map(move |look| (count + look as f64 / 2.0).min(until))
}

/// Whether the hands of a strike are in no other that comes before it at that moment: a hand is in one place, and what it is asked to do
/// besides is told as such.
fn makes_both(blows: &[Blow], blow: &Blow) -> bool {
    let from = blows.partition_point(|other| other.count < blow.count - SAME);
    let moment = blows.iter().skip(from).take_while(|other| other.count <= blow.count + SAME);
    let first = |hand: BlowHand| moment.clone().find(|other| other.end_of(hand.dancer, hand.hand).is_some());
    blow.hands().into_iter().flatten().all(|hand| first(hand).is_none_or(|first| std::ptr::eq(first, blow)))
}
