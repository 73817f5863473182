use super::abc::{Event, ReadTune, Sounded, read_events};
use super::length::Length;
use super::passages::in_playing_order;
use super::tempo::Tempo;
use super::{TuneError, TuneRemark};

/// A tune played through once as it is written: with its repeats and endings, its parts in the order that its head gives.
///
/// ```
/// let tune = bellpad::dance::PlayedTune::read("X:1\nM:4/4\nL:1/4\nK:C\n|:C2|[1 D2:|[2 E2|]\n").unwrap();
/// let keys: Vec<u8> = tune.notes.iter().map(|note| note.key).collect();
/// assert_eq!(keys, [60, 62, 60, 64]);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct PlayedTune {
    /// Its notes in the order in which they begin.
    pub notes: Vec<PlayedNote>,
    /// Where each bar begins, and its metre: beats in a bar, and which part of a whole note each is.
    pub bars: Vec<(Length, (u64, u64))>,
    /// Where the speed changes, and what to: whole notes a minute; nothing where it comes back to bars of which none is said. A bar
    /// goes as fast each time as the text before it has it.
    pub speeds: Vec<(Length, Option<f64>)>,
    /// How long all of it is.
    pub length: Length,
    /// What is odd in it or was left out, in the order of its lines.
    pub told: Vec<TuneRemark>,
}

/// A note of a tune that is played through; times are whole notes from its start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PlayedNote {
    /// When it begins.
    pub begin: Length,
    /// How long it lasts.
    pub length: Length,
    /// Its key: semitones, 60 for middle C.
    pub key: u8,
}

/// The most notes that are played: hours of the fastest.
const MOST_NOTES: usize = 200_000;

impl PlayedTune {
    /// Reads the first tune of an ABC text.
    ///
    /// # Errors
    /// When the text is no tune; or repeats make it longer than anybody plays.
    pub fn read(abc: &str) -> Result<Self, TuneError> {
        let ReadTune { order, events, told, .. } = read_events(abc)?;
        let last = events.last().map_or(1, |(line, _)| *line);
        let too_long =
            || TuneError { line: last, wrong: "played through, the tune is beyond reading".into() };
        let mut playing = Playing::default();
        let mut now = None;
        for index in in_playing_order(&events, &order) {
            if let Some((_, Event::Bar(bar))) = events.get(index) {
                playing.bars.push((playing.at, bar.metre));
                let inside = bar.tempos.iter().map(|(begin, tempo)| (*begin, Some(*tempo)));
                for (begin, tempo) in std::iter::once((Length::NOTHING, bar.tempo)).chain(inside) {
                    if std::mem::replace(&mut now, tempo) != tempo {
                        let at = playing.at.plus(begin).ok_or_else(too_long)?;
                        playing.speeds.push((at, tempo.map(wholes_a_minute)));
                    }
                }
                playing.bar(&bar.sounded, bar.length).ok_or_else(too_long)?;
            }
        }
        let Playing { mut notes, bars, speeds, at: length, .. } = playing;
        if bars.is_empty() {
            return Err(TuneError { line: last, wrong: "the tune has not one whole bar".to_owned() });
        }
        notes.sort_by(|one, other| one.begin.partial_cmp(&other.begin).unwrap_or(std::cmp::Ordering::Equal));
        Ok(Self { notes, bars, speeds, length, told })
    }
}

fn wholes_a_minute(tempo: Tempo) -> f64 {
    tempo.length * tempo.a_minute
}

/// What has been played so far.
struct Playing {
    at: Length,
    notes: Vec<PlayedNote>,
    bars: Vec<(Length, (u64, u64))>,
    speeds: Vec<(Length, Option<f64>)>,
    /// The notes that a tie carries on, by their places, with where they end.
    tied: Vec<(usize, Length)>,
}

impl Default for Playing {
    fn default() -> Self {
        Self {
            at: Length::NOTHING,
            notes: Vec::new(),
            bars: Vec::new(),
            speeds: Vec::new(),
            tied: Vec::new(),
        }
    }
}

impl Playing {
    /// Plays a bar; nothing where the numbers grow too large.
    fn bar(&mut self, sounded: &[Sounded], length: Length) -> Option<()> {
        for note in sounded {
            let begin = self.at.plus(note.begin)?;
            let end = begin.plus(note.length)?;
            let is_carried = |(place, until): &(usize, Length)| {
                *until == begin && self.notes.get(*place).is_some_and(|earlier| earlier.key == note.key)
            };
            let carried = self.tied.iter().position(is_carried).map(|tie| self.tied.swap_remove(tie).0);
            let place = carried.unwrap_or(self.notes.len());
            match self.notes.get_mut(place) {
                Some(earlier) => earlier.length = end.less(earlier.begin)?,
                None => self.notes.push(PlayedNote { begin, length: note.length, key: note.key }),
            }
            if note.tied {
                // One that found no note of its key binds nothing.
                self.tied.retain(|(_, until)| *until >= begin);
                self.tied.push((place, end));
            }
        }
        self.at = self.at.plus(length)?;
        (self.notes.len() <= MOST_NOTES).then_some(())
    }
}
