//! Music as a Standard MIDI File (MIDI Manufacturers Association, 1996, RP-001): format 1, the tune, the click and
//! the taps on a track each.

use super::knock::louder;
use super::{Levels, MusicOf, SoundError, SoundKind};
use crate::dance::{BarCounts, Metre};
use midly::num::{u4, u7, u15, u24, u28};
use midly::{Format, Header, MetaMessage, MidiMessage, Smf, Timing, Track, TrackEvent, TrackEventKind};

/// Ticks of a crotchet: all that a tune divides it into comes out whole.
pub(super) const CROTCHET: u16 = 960;
/// Accordion and, of the percussion of channel 10, a high and a low wood block for the click; for sticks on sticks claves, for
/// sticks on the ground the side stick, and the hand clap (General MIDI Level 1, percussion map; MIDI Manufacturers Association,
/// 1991).
const ACCORDION: u8 = 21;
const HIGH_WOOD: u8 = 76;
const LOW_WOOD: u8 = 77;
const CLAVES: u8 = 75;
const SIDE_STICK: u8 = 37;
const HAND_CLAP: u8 = 39;
const PERCUSSION: u8 = 9;
/// The longest crotchet that a file can say, microseconds.
pub(super) const SLOWEST: f64 = 16_777_215.0;
/// Ticks that a click lasts.
pub(super) const CLICK: f64 = 120.0;

/// The bytes of a MIDI file; `speed` is the share of the tune's own speed at which it is played.
///
/// # Errors
/// When there is nothing to hear, or it would be slower than such a file can say.
pub fn midi(music: &MusicOf, levels: Levels, speed: f64) -> Result<Vec<u8>, SoundError> {
    let (clock, sounds) = (music.clock(), music.sounds());
    let ticks_of_bars = TicksOfBars::of(music.bars());
    // In the tune's own ticks, so that a note on a beat is on it to the tick whatever its speed.
    let tick_of_count = |count: f64| ticks_of_bars.at(clock.bars_of_counts(count));
    let (begun, start) = (clock.seconds(music.counts.0), tick_of_count(music.counts.0));
    let ticks = |seconds: f64| tick_of_count(clock.counts(begun + seconds)) - start;
    let first = sounds.first().map_or(0.0, |sound| ticks(sound.begin).min(0.0));
    let mut tempo = vec![(0, TrackEventKind::Meta(MetaMessage::TrackName(music.dance.title.as_bytes())))];
    let mut before: Option<(Metre, f64)> = None;
    let (mut count, end) = (music.counts.0, music.counts.1);
    while count < end {
        let metre = music.bars().metre(music.bars().at(count).0);
        // Microseconds of a crotchet.
        let ticks_a_second = ticks_of_beat(metre) * clock.speed(count) / 60.0 * speed;
        let micros = (1e6 * f64::from(CROTCHET) / ticks_a_second).round();
        if micros > SLOWEST {
            return Err(SoundError::TooSlow { seconds: micros / 1e6 });
        }
        // What sounds before the first count goes as that does.
        let tick = if before.is_none() { 0 } else { (tick_of_count(count) - start - first).round() as u32 };
        if before.is_none_or(|(known, _)| known != metre) {
            tempo.push((tick, TrackEventKind::Meta(signature(metre))));
        }
        if before.is_none_or(|(_, known)| known != micros) {
            tempo.push((tick, TrackEventKind::Meta(MetaMessage::Tempo(u24::new(micros as u32)))));
        }
        before = Some((metre, micros));
        count = count.floor() + 1.0;
    }
    let (mut notes, mut clicks, mut taps) = (Vec::new(), Vec::new(), Vec::new());
    for sound in sounds.iter().filter(|sound| levels.of(sound.kind) > 0.0) {
        let begin = ticks(sound.begin) - first;
        match sound.kind {
            SoundKind::Note(key) => {
                let end = ticks(sound.begin + sound.length) - first;
                notes.extend(struck((begin, end), (0, key, 90)));
            }
            SoundKind::Beat | SoundKind::Count => {
                clicks.extend(clicked((begin, begin + CLICK), sound.kind == SoundKind::Beat));
            }
            SoundKind::Tap(many) => taps.extend(tapped(begin, CLAVES, many)),
            SoundKind::Dib(many) => taps.extend(tapped(begin, SIDE_STICK, many)),
            SoundKind::Clap(many) => taps.extend(tapped(begin, HAND_CLAP, many)),
        }
    }
    voices_written(tempo, notes, clicks, taps)
}

/// The bytes of a file with a track of speeds and metres, one each of notes, clicks and taps, as far as there are some.
pub(super) fn voices_written<'a>(
    tempo: Vec<AtTick<'a>>,
    notes: Vec<AtTick<'a>>,
    clicks: Vec<AtTick<'a>>,
    taps: Vec<AtTick<'a>>,
) -> Result<Vec<u8>, SoundError> {
    if notes.is_empty() && clicks.is_empty() && taps.is_empty() {
        return Err(SoundError::Nothing);
    }
    let voice = (0, message(0, MidiMessage::ProgramChange { program: u7::new(ACCORDION) }));
    let mut tracks = vec![track(tempo)];
    if !notes.is_empty() {
        tracks.push(track(std::iter::once(voice).chain(notes)));
    }
    tracks.extend([clicks, taps].into_iter().filter(|voice| !voice.is_empty()).map(track));
    let timing = Timing::Metrical(u15::new(CROTCHET));
    let mut bytes = Vec::new();
    let file = Smf { header: Header { format: Format::Parallel, timing }, tracks };
    file.write_std(&mut bytes).map_err(SoundError::Midi)?;
    Ok(bytes)
}

/// Ticks of a bar, as it is written.
fn ticks_of_bar(metre: Metre) -> f64 {
    let (beats, of) = metre.written();
    f64::from(beats) / f64::from(of) * 4.0 * f64::from(CROTCHET)
}

/// Ticks of a strong beat.
fn ticks_of_beat(metre: Metre) -> f64 {
    ticks_of_bar(metre) / metre.strong_beats()
}

/// A metre as the format says it: how long a strong beat is it counts in parts of a crotchet, of which it has 24.
pub(super) fn signature(metre: Metre) -> MetaMessage<'static> {
    let (beats, of) = metre.written();
    let clocks = (ticks_of_beat(metre) / f64::from(CROTCHET) * 24.0).round() as u8;
    MetaMessage::TimeSignature(beats, of.trailing_zeros() as u8, clocks, 8)
}

/// Bars to ticks, from the start of a dance.
struct TicksOfBars {
    /// Where each bar begins, and the end.
    begins: Vec<f64>,
    /// Of a bar before the first, and after the last.
    around: [f64; 2],
}

impl TicksOfBars {
    fn of(bars: &BarCounts) -> Self {
        let mut begins = vec![0.0];
        let mut end = 0.0;
        for bar in 0..bars.bars() {
            end += ticks_of_bar(bars.metre(bar));
            begins.push(end);
        }
        Self { begins, around: [0, u32::MAX].map(|bar| ticks_of_bar(bars.metre(bar))) }
    }

    fn at(&self, bars: f64) -> f64 {
        let [before, after] = self.around;
        if bars < 0.0 {
            return bars * before;
        }
        match self.begins.get(bars as usize..).and_then(<[_]>::first_chunk::<2>) {
            Some([from, to]) => from + (to - from) * bars.fract(),
            None => {
                self.begins.last().copied().unwrap_or(0.0) + (bars - (self.begins.len() - 1) as f64) * after
            }
        }
    }
}

/// A message at a tick.
pub(super) type AtTick<'a> = (u32, TrackEventKind<'a>);

fn meta(message: MetaMessage) -> TrackEvent {
    TrackEvent { delta: u28::new(0), kind: TrackEventKind::Meta(message) }
}

fn message<'a>(channel: u8, message: MidiMessage) -> TrackEventKind<'a> {
    TrackEventKind::Midi { channel: u4::new(channel), message }
}

/// A key that goes down and comes up between two ticks: its channel, itself and how hard.
pub(super) fn struck<'a>((begin, end): (f64, f64), (channel, key, hard): (u8, u8, u8)) -> [AtTick<'a>; 2] {
    let key = u7::new(key.min(127));
    let begin = begin.round().max(0.0);
    let down = message(channel, MidiMessage::NoteOn { key, vel: u7::new(hard) });
    let up = message(channel, MidiMessage::NoteOff { key, vel: u7::new(0) });
    [(begin as u32, down), (end.round().max(begin + 1.0) as u32, up)]
}

/// A click between two ticks.
pub(super) fn clicked<'a>(between: (f64, f64), is_strong: bool) -> [AtTick<'a>; 2] {
    let (key, hard) = if is_strong { (HIGH_WOOD, 110) } else { (LOW_WOOD, 50) };
    struck(between, (PERCUSSION, key, hard))
}

/// A tap or a clap from a tick on, with how many meet at once: many are harder.
fn tapped<'a>(begin: f64, key: u8, many: u8) -> [AtTick<'a>; 2] {
    struck((begin, begin + CLICK), (PERCUSSION, key, (100.0 * louder(many)).round().min(127.0) as u8))
}

/// A track of messages, in the order of their ticks; of those at one tick, keys come up before others go down.
fn track<'a>(messages: impl IntoIterator<Item = AtTick<'a>>) -> Track<'a> {
    let mut messages: Vec<AtTick> = messages.into_iter().collect();
    let goes_down = |kind: &TrackEventKind| {
        matches!(kind, TrackEventKind::Midi { message: MidiMessage::NoteOn { .. }, .. })
    };
    messages.sort_by_key(|(tick, kind)| (*tick, goes_down(kind)));
    let mut before = 0;
    let mut events: Track = messages
        .into_iter()
        .map(|(tick, kind)| {
            let delta = u28::new(tick - before);
            before = tick;
            TrackEvent { delta, kind }
        })
        .collect();
    events.push(meta(MetaMessage::EndOfTrack));
    events
}
