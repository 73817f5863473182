use crate::dance::Air;
use crate::motion::Clock;

/// What sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoundKind {
    /// A note of the tune: semitones, 60 for middle C.
    Note(u8),
    /// The click on a strong beat.
    Beat,
    /// The click on a count between two.
    Count,
}

/// Something that sounds at a time.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sound {
    /// Seconds from the moment that is asked about, at the tune's own speed; below nought for an upbeat.
    pub begin: f64,
    /// Seconds.
    pub length: f64,
    /// What it is.
    pub kind: SoundKind,
}

/// How near two moments, in bars or counts, are the same.
const SAME: f64 = 1e-6;

/// A count is half a strong beat.
const COUNTS_OF_A_BEAT: u64 = 2;

/// All that sounds from one count of a dance until before another, in the order in which it begins, in seconds from the first
/// at the tune's own speed. From the start of the dance the upbeat sounds before it; from elsewhere a note that is under way
/// has begun already, and does not sound.
#[must_use]
pub fn sounds(air: Option<&Air>, clock: &Clock, (from, to): (f64, f64)) -> Vec<Sound> {
    let start = clock.seconds(from);
    let (first, last) = (clock.bars_of_counts(from), clock.bars_of_counts(to));
    let seconds = |bars: f64| clock.seconds(clock.counts_of_bars(bars));
    let upbeat = from.abs() < SAME;
    let notes = air.into_iter().flat_map(|air| air.notes(if upbeat { f64::MIN } else { first }, last));
    let begun = notes.filter(|sounded| upbeat || sounded.begin > first - SAME);
    let mut sounds: Vec<Sound> = begun
        .filter(|sounded| sounded.begin < last - SAME)
        .map(|sounded| {
            let [begin, end] = [sounded.begin, sounded.end.min(last)].map(seconds);
            Sound { begin: begin - start, length: end - begin, kind: SoundKind::Note(sounded.note.key) }
        })
        .collect();
    let mut count = (from - SAME).ceil().max(0.0);
    while count < to - SAME {
        let kind =
            if (count as u64).is_multiple_of(COUNTS_OF_A_BEAT) { SoundKind::Beat } else { SoundKind::Count };
        let begin = clock.seconds(count);
        sounds.push(Sound { begin: begin - start, length: clock.seconds(count + 1.0) - begin, kind });
        count += 1.0;
    }
    sounds.sort_by(|one, other| one.begin.total_cmp(&other.begin));
    sounds
}
