use super::found::Found;
use super::struck::{Struck, end_words};
use crate::dance::FaultKind;
use crate::motion::limbs::short_by;
use crate::motion::{Blow, BlowOn, Span};

/// Nearer than this the two ends meet, metres.
const MEET: f64 = 0.01;

/// Ends that do not come to where they should meet: how far is missing, metres, with arms straight. Upright bodies reach each other at
/// 1.86 m with sticks held by the middle, at 2.37 m tip to tip held by the end, at 1.24 m hand to hand [CALC, `motion::limbs::reach`].
pub(super) fn find(struck: &Struck, span: &Span, blows: &[Blow], found: &mut Vec<Found>) {
    for blow in blows {
        let (by, count) = (blow.by, blow.count);
        let own = struck.limbs(by.dancer, count);
        let end = own.end(by.hand, by.end);
        let (short, dancers, text) = match blow.on {
            BlowOn::Other(other) => {
                let their = struck.limbs(other.dancer, count).end(other.hand, other.end);
                let short =
                    short_by(struck.look.motion, blow, count).unwrap_or(0.0).max((end - their).length());
                let text = format!(
                    "{} and {} are {short:.2} m too far apart for {} on {}",
                    by.dancer,
                    other.dancer,
                    end_words(by.end),
                    end_words(other.end)
                );
                (short, vec![by.dancer, other.dancer], text)
            }
            BlowOn::Ground => {
                let short = (end.z - blow.height.unwrap_or(0.0)).abs();
                let text = format!(
                    "{} comes {short:.2} m short of the ground with the {}",
                    by.dancer,
                    end_words(by.end)
                );
                (short, vec![by.dancer], text)
            }
            BlowOn::Own(_) | BlowOn::Nobody(_) => continue,
        };
        if short <= MEET {
            continue;
        }
        let at = count - span.begin();
        found.push(Found {
            kind: FaultKind::OutOfReach,
            at,
            lasts: (at, (blow.until - span.begin()).max(at)),
            dancers,
            value: short,
            limit: 0.0,
            text,
            spot: Some((end.x, end.y)),
        });
    }
}
