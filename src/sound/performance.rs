use super::{Sound, sounds};
use crate::motion::Clock;
use std::sync::Arc;

/// What is played: a dance's music, from where, how fast, and round what.
#[derive(Clone)]
pub struct Performance {
    /// All that sounds in the dance, in order, with seconds from its start.
    pub sounds: Arc<[Sound]>,
    /// Counts to seconds at the tune's own speed.
    pub clock: Clock,
    /// The counts at which it begins and ends.
    pub from: f64,
    pub end: f64,
    /// The counts between which it goes round, where it does.
    pub round: Option<(f64, f64)>,
    /// The share of the tune's own speed.
    pub speed: f64,
    /// Counts of clicks before it begins.
    pub counted_in: u32,
}

/// Where the music is, as it is heard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Heard {
    /// Nothing is played.
    Nothing,
    /// The clicks before it; so many counts are still to come.
    CountingIn(f64),
    /// The music at a count of the dance.
    Count(f64),
    /// It has come to its end.
    Ended,
}

/// A round shorter than this, seconds, is none.
pub(super) const SHORTEST: f64 = 0.01;

/// So many clicks before a count, as the bars before it have them: with seconds from the start of the dance.
pub(super) fn clicks(clock: &Clock, from: f64, counts: f64) -> Vec<Sound> {
    // Whole bars later, so that no count is before the start.
    let later = (counts / 4.0).ceil().max(1.0) * 4.0;
    let shift = clock.seconds(later);
    let mut clicks = sounds(None, clock, (from + later - counts, from + later));
    let first = clock.seconds(from + later - counts);
    for click in &mut clicks {
        click.begin += first - shift;
    }
    clicks
}

/// The seconds between which music goes round.
pub(super) fn round(playing: &Performance) -> Option<(f64, f64)> {
    let (from, to) = playing.round?;
    let round = (playing.clock.seconds(from), playing.clock.seconds(to.min(playing.end)));
    Some(round).filter(|(from, to)| to - from > SHORTEST)
}
