use crate::dance::Air;
use crate::motion::{Blow, BlowOn, Clock};

/// What sounds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SoundKind {
    /// A note of the tune: semitones, 60 for middle C.
    Note(u8),
    /// The click on a strong beat.
    Beat,
    /// The click on a count between two.
    Count,
    /// So many pairs of sticks that meet.
    Tap(u8),
    /// So many sticks that strike the ground.
    Dib(u8),
    /// So many pairs of hands that meet, or hands that strike a knee.
    Clap(u8),
}

impl SoundKind {
    /// Whether sticks or hands make it.
    #[must_use]
    pub fn is_of_taps(self) -> bool {
        matches!(self, Self::Tap(_) | Self::Dib(_) | Self::Clap(_))
    }
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
/// has begun already, and does not sound. `blows` are the taps and claps of the whole dance; all of a kind that meet at one
/// moment are one sound.
#[must_use]
pub fn sounds(air: Option<&Air>, blows: &[Blow], clock: &Clock, (from, to): (f64, f64)) -> Vec<Sound> {
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
    let heard = blows.iter().filter(|blow| (from - SAME..to - SAME).contains(&blow.count));
    sounds.extend(met(heard).into_iter().map(|(count, kind)| Sound {
        begin: clock.seconds(count) - start,
        length: 0.0,
        kind,
    }));
    sounds.sort_by(|one, other| one.begin.total_cmp(&other.begin));
    sounds
}

/// What is heard of taps and claps in order of time: the count of each sound, and what it is.
fn met<'a>(blows: impl Iterator<Item = &'a Blow>) -> Vec<(f64, SoundKind)> {
    let mut found: Vec<(f64, SoundKind)> = Vec::new();
    for blow in blows {
        let one = match (blow.on, blow.is_of_wood()) {
            (BlowOn::Nobody(_), _) => continue,
            (BlowOn::Ground, true) => SoundKind::Dib(1),
            (_, true) => SoundKind::Tap(1),
            (_, false) => SoundKind::Clap(1),
        };
        let moment = found.iter_mut().rev().take_while(|(count, _)| blow.count - count < SAME);
        let same = moment
            .map(|(_, kind)| kind)
            .find(|kind| std::mem::discriminant(*kind) == std::mem::discriminant(&one));
        match same {
            Some(SoundKind::Tap(many) | SoundKind::Dib(many) | SoundKind::Clap(many)) => {
                *many = many.saturating_add(1);
            }
            _ => found.push((blow.count, one)),
        }
    }
    found
}
