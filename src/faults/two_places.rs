use super::found::Found;
use super::struck::{SAME, Struck};
use crate::dance::{Dancer, FaultKind};
use crate::motion::{Blow, BlowOn, Span};
use crate::words::{strike_end_words, strike_part_words};

/// Hands that are asked to be in two places at one moment: by who strikes with one hand twice, or by two who strike the same hand of one who
/// strikes neither.
pub(super) fn find(struck: &Struck, span: &Span, blows: &[Blow], found: &mut Vec<Found>) {
    let motion = struck.look.motion;
    for moment in blows.chunk_by(|one, next| next.count - one.count < SAME) {
        let mut told: Vec<(Dancer, usize)> = Vec::new();
        for own in moment.iter().flat_map(|blow| blow.hands().into_iter().flatten()) {
            let (dancer, hand) = (own.dancer, own.hand);
            if told.contains(&(dancer, hand)) {
                continue;
            }
            let in_it = |blow: &&Blow| blow.end_of(dancer, hand).is_some();
            let all: Vec<&Blow> = moment.iter().filter(in_it).collect();
            let strikes = all.iter().filter(|blow| blow.by.dancer == dancer).count();
            // Who strikes one and is struck by others is told by those: their strikes are one-sided.
            let own = all.iter().find(|blow| blow.by.dancer == dancer);
            let elsewhere = own.is_some_and(|own| {
                all.iter().all(|blow| blow.by.dancer == dancer || !own.has(blow.by.dancer))
            });
            if all.len() < 2 || (strikes == 1 && elsewhere) {
                continue;
            }
            told.push((dancer, hand));
            let places: Vec<String> = all.iter().map(|blow| place_of(blow, dancer)).collect();
            let at = all.first().map_or(0.0, |blow| blow.count) - span.begin();
            let pose = motion.pose(dancer, at + span.begin());
            let side = if hand == 0 { "left" } else { "right" };
            found.push(Found {
                kind: FaultKind::TwoPlaces,
                at,
                lasts: (at, at),
                dancers: vec![dancer],
                value: all.len() as f64,
                limit: 1.0,
                text: format!(
                    "{dancer}'s {side} hand is asked to be in {} places: {}; have one at a time",
                    all.len(),
                    places.join(" and ")
                ),
                spot: Some((pose.x, pose.y)),
            });
        }
    }
}

/// Where a strike asks a dancer's hand to be, as it is said.
fn place_of(blow: &Blow, dancer: Dancer) -> String {
    match blow.on {
        BlowOn::Other(other) => {
            let own = blow.by.dancer == dancer;
            let (with, end) = if own { (other.dancer, blow.by.end) } else { (blow.by.dancer, other.end) };
            format!("{} with {with}", strike_end_words(end))
        }
        BlowOn::Ground => "on the ground".to_owned(),
        BlowOn::Own(part) => strike_part_words(part).to_owned(),
        BlowOn::Nobody(_) => "with nobody".to_owned(),
    }
}
