//! How far aside a dancer may be before two bodies touch.
//!
//! Whoever is off their way by less than the space between two bodies, to whichever side, touches nobody; by as much, towards the other, they
//! touch. So it is the least space of each time that two come near each other, found by the same proof as what is tight.

use super::body::Body;
use super::slack::{MEETS, meetings};
use super::worst::Two;
use crate::dance::Dancer;
use crate::motion::{Span, Track, wrap_half};
use std::cell::Cell;

/// How far off their way a dancer may be as two come near each other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Aside {
    /// Who is off their way.
    pub dancer: Dancer,
    /// Whom they then touch.
    pub other: Dancer,
    /// Farther than this, metres.
    pub metres: f64,
    /// The count of the figure at which they are nearest.
    pub at: f64,
    /// To which side of theirs: `to the front`, `to the left`, ...
    pub side: &'static str,
}

/// How far aside each dancer may be in a figure, for each time that two come nearer than 1.2 m, from middle to middle; in the order of dancers,
/// of others, and of time. Of two who touch as drawn nothing is told.
#[must_use]
pub fn asides(body: Body, span: &Span, dancers: usize, goes_on: &mut dyn FnMut() -> bool) -> Vec<Aside> {
    let counts = span.end() - span.begin();
    let looks = Cell::new(0);
    let mut found = Vec::new();
    for dancer in Dancer::all(dancers) {
        for other in Dancer::all(dancers).filter(|other| *other > dancer) {
            let (Some(one), Some(two)) = (span.track(dancer), span.track(other)) else { continue };
            if !goes_on() {
                return found;
            }
            let bodies = Two { body, tracks: (one, two), looks: &looks };
            for (from, to) in meetings((one, two), counts) {
                if !near((one, two), from, to) {
                    continue;
                }
                let (at, metres) = bodies.worst(from, to);
                if metres <= 0.0 {
                    continue;
                }
                let told = |dancer, other, own, their| Aside {
                    dancer,
                    other,
                    metres,
                    at,
                    side: side(own, their, at),
                };
                found.push(told(dancer, other, one, two));
                found.push(told(other, dancer, two, one));
            }
        }
    }
    found.sort_by(|one, two| {
        (one.dancer, one.other).cmp(&(two.dancer, two.other)).then(one.at.total_cmp(&two.at))
    });
    found
}

/// Whether two come near each other between two counts.
fn near((one, two): (&Track, &Track), from: f64, to: f64) -> bool {
    (0..=((to - from) * 4.0).ceil() as u32).any(|look| {
        let count = (from + f64::from(look) / 4.0).min(to);
        let ((ax, ay, _), (bx, by, _)) = (one.stand(count), two.stand(count));
        (ax - bx).hypot(ay - by) < MEETS
    })
}

/// On which side of one another is at a count.
fn side(own: &Track, their: &Track, at: f64) -> &'static str {
    let ((x, y, facing), (ox, oy, _)) = (own.stand(at), their.stand(at));
    match wrap_half((ox - x).atan2(oy - y).to_degrees() - facing) {
        b if b.abs() <= 45.0 => "to the front",
        b if b.abs() >= 135.0 => "to the back",
        b if b > 0.0 => "to the right",
        _ => "to the left",
    }
}
