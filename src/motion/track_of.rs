use super::steps::Step;
use super::{Footing, PhraseError, Stand, Track, fill_phrase, turn_times};
use crate::dance::Part;

/// The way of a part from a stand, danced to a phrase, with nobody's feet on it.
///
/// # Errors
/// When the phrase cannot be read or does not fill the time.
pub fn track_of(
    part: &Part,
    stand: &Stand,
    phrase: &str,
    known: &[Step],
    counts: usize,
) -> Result<Track, PhraseError> {
    let phrase = fill_phrase(if part.phrase.is_empty() { phrase } else { &part.phrase }, known, counts)?;
    let timed = turn_times::with_turn_times(part, &phrase, known);
    Ok(Track::of(&timed, (stand.x, stand.y, stand.facing), Footing::of(&phrase, known)))
}
