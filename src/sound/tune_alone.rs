use super::midi::{CLICK, CROTCHET, SLOWEST, clicked, signature, struck, voices_written};
use super::{Levels, Sound, SoundError, SoundKind, wav::wav_of};
use crate::dance::{Length, Metre, Music, PlayedTune};
use midly::num::u24;
use midly::{MetaMessage, TrackEventKind};

/// A tune by itself, played through as it is written, at the speeds that it gives.
pub struct TuneAlone<'a> {
    tune: &'a PlayedTune,
    title: &'a str,
    /// Where each speed begins, whole notes; when, seconds; and the speed, whole notes a minute.
    speeds: Vec<(Length, f64, f64)>,
}

impl<'a> TuneAlone<'a> {
    /// A tune that says nothing of its speed goes as a dance does that says nothing of it.
    #[must_use]
    pub fn of(tune: &'a PlayedTune, title: &'a str) -> Self {
        let metre = tune.bars.first().map(|(_, metre)| *metre);
        let beats = metre.and_then(Metre::as_written).map_or(2.0, Metre::strong_beats);
        let bar = metre.map_or(1.0, |(beats, each)| beats as f64 / each as f64);
        let unsaid = Music::default().speed * bar / beats;
        let mut speeds = vec![(Length::NOTHING, 0.0, unsaid)];
        for (at, speed) in &tune.speeds {
            let speed = speed.unwrap_or(unsaid);
            if let Some((before, seconds, old)) = speeds.last().copied() {
                let seconds = seconds + (at.wholes() - before.wholes()) * 60.0 / old;
                speeds.push((*at, seconds, speed));
            }
        }
        Self { tune, title, speeds }
    }

    fn seconds(&self, at: f64) -> f64 {
        let after = self.speeds.partition_point(|(from, _, _)| from.wholes() <= at + 1e-9);
        let now = after.checked_sub(1).and_then(|index| self.speeds.get(index));
        now.map_or(0.0, |(from, seconds, speed)| seconds + (at - from.wholes()) * 60.0 / speed)
    }

    /// Where the counts fall, whole notes, and whether each is a strong beat. A first bar that is not full is the end of one, and a
    /// part of a bar goes on with the next; where nobody dances the metre, each of its beats is a count.
    fn counts(&self) -> Vec<(f64, bool)> {
        let mut counts = Vec::new();
        // How much of a bar has been played before.
        let mut open = 0.0;
        for (index, (begin, (beats, each))) in self.tune.bars.iter().enumerate() {
            let begin = begin.wholes();
            let full = *beats as f64 / *each as f64;
            let end = self.tune.bars.get(index + 1).map_or(self.tune.length, |(next, _)| *next).wholes();
            let length = end - begin;
            let from = match () {
                () if index == 0 && length < full - 1e-9 => full - length,
                () if open + length <= full + 1e-9 => open,
                () => 0.0,
            };
            let shares = Metre::as_written((*beats, *each)).map(Metre::shares);
            let even: Vec<f64> = (0..=*beats).map(|beat| beat as f64 / *beats as f64).collect();
            let falls = shares.unwrap_or(&even).iter().map(|share| share * full).enumerate();
            let here = falls.filter(|(_, at)| *at > from - 1e-9 && *at < (from + length).min(full) - 1e-9);
            let is_strong =
                |count: usize| if shares.is_some() { count.is_multiple_of(2) } else { count == 0 };
            counts.extend(here.map(|(count, at)| (begin + at - from, is_strong(count))));
            open = if from + length < full - 1e-9 { from + length } else { 0.0 };
        }
        counts
    }

    /// All that sounds, in the order in which it begins, in seconds from the start.
    #[must_use]
    pub fn sounds(&self) -> Vec<Sound> {
        let sound = |begin: f64, end: f64, kind| {
            let begin = self.seconds(begin);
            Sound { begin, length: self.seconds(end) - begin, kind }
        };
        let note = |note: &crate::dance::PlayedNote| {
            let begin = note.begin.wholes();
            sound(begin, begin + note.length.wholes(), SoundKind::Note(note.key))
        };
        let mut sounds: Vec<Sound> = self.tune.notes.iter().map(note).collect();
        sounds.extend(
            self.counts()
                .into_iter()
                .map(|(at, strong)| sound(at, at, if strong { SoundKind::Beat } else { SoundKind::Count })),
        );
        sounds.sort_by(|one, other| one.begin.total_cmp(&other.begin));
        sounds
    }

    /// Seconds from its start to its end.
    #[must_use]
    pub fn seconds_in_all(&self) -> f64 {
        self.seconds(self.tune.length.wholes())
    }

    /// The bytes of a WAV file; `speed` is the share of the tune's own speed.
    ///
    /// # Errors
    /// When it would last too long, or there is nothing to hear.
    pub fn wav(&self, levels: Levels, speed: f64) -> Result<Vec<u8>, SoundError> {
        wav_of(self.sounds(), self.seconds_in_all(), levels, speed)
    }

    /// The bytes of a MIDI file; `speed` is the share of the tune's own speed.
    ///
    /// # Errors
    /// When there is nothing to hear, or it would be slower than such a file can say.
    pub fn midi(&self, levels: Levels, speed: f64) -> Result<Vec<u8>, SoundError> {
        let ticks = |wholes: f64| wholes * 4.0 * f64::from(CROTCHET);
        let mut tempo = vec![(0, TrackEventKind::Meta(MetaMessage::TrackName(self.title.as_bytes())))];
        let mut before = None;
        for (at, metre) in &self.tune.bars {
            if let Some(danced) = Metre::as_written(*metre).filter(|_| before != Some(*metre)) {
                tempo.push((ticks(at.wholes()).round() as u32, TrackEventKind::Meta(signature(danced))));
            }
            before = Some(*metre);
        }
        for (at, _, wholes) in &self.speeds {
            // Microseconds of a crotchet.
            let micros = (60e6 / (wholes * 4.0 * speed)).round();
            if micros > SLOWEST {
                return Err(SoundError::TooSlow { seconds: micros / 1e6 });
            }
            let event = MetaMessage::Tempo(u24::new(micros as u32));
            tempo.push((ticks(at.wholes()).round() as u32, TrackEventKind::Meta(event)));
        }
        let (mut notes, mut clicks) = (Vec::new(), Vec::new());
        if levels.tune > 0.0 {
            for note in &self.tune.notes {
                let begin = ticks(note.begin.wholes());
                notes.extend(struck((begin, begin + ticks(note.length.wholes())), (0, note.key, 90)));
            }
        }
        if levels.click > 0.0 {
            for (at, strong) in self.counts() {
                clicks.extend(clicked((ticks(at), ticks(at) + CLICK), strong));
            }
        }
        voices_written(tempo, notes, clicks, Vec::new())
    }
}
