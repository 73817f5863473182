//! Music as a Standard MIDI File (MIDI Manufacturers Association, 1996, RP-001): format 1, the tune on one track and the click on
//! another.

use super::{Levels, MusicOf, SoundError, SoundKind};
use midly::num::{u4, u7, u15, u24, u28};
use midly::{Format, Header, MetaMessage, MidiMessage, Smf, Timing, Track, TrackEvent, TrackEventKind};

/// Ticks of a crotchet: all that a tune divides it into comes out whole.
const CROTCHET: u16 = 960;
/// Accordion and, of the percussion of channel 10, a high and a low wood block (General MIDI 1, 1991).
const ACCORDION: u8 = 21;
const HIGH_WOOD: u8 = 76;
const LOW_WOOD: u8 = 77;
const PERCUSSION: u8 = 9;
/// The longest crotchet that a file can say, microseconds.
const SLOWEST: f64 = 16_777_215.0;
/// Ticks that a click lasts.
const CLICK: f64 = 120.0;

/// The bytes of a MIDI file; `speed` is the share of the tune's own speed at which it is played.
///
/// # Errors
/// When there is nothing to hear, or it would be slower than such a file can say.
pub fn midi(music: &MusicOf, levels: Levels, speed: f64) -> Result<Vec<u8>, SoundError> {
    let tune = &music.dance.music;
    // Two strong beats make a bar, whatever they are written as.
    let (beats, of) = tune.metre.written();
    let bar = f64::from(beats) / f64::from(of) * 4.0 * f64::from(CROTCHET);
    // Microseconds of a crotchet where there are so many strong beats a minute.
    let crotchet = |beats: f64| {
        let ticks_a_second = bar / 2.0 * beats / 60.0 * speed;
        (1e6 * f64::from(CROTCHET) / ticks_a_second).round()
    };
    // A strong beat is half a bar; the format counts it in parts of a crotchet, of which it has 24.
    let clocks = (bar / 2.0 / f64::from(CROTCHET) * 24.0).round() as u8;
    let clock = music.clock();
    let sounds = music.sounds();
    // In the tune's own ticks, so that a note on a beat is on it to the tick whatever its speed.
    let start = clock.bars_of_counts(music.counts.0);
    let ticks = |seconds: f64| {
        let from = clock.seconds(music.counts.0);
        (clock.bars_of_counts(clock.counts(from + seconds)) - start) * bar
    };
    let first = sounds.first().map_or(0.0, |sound| ticks(sound.begin).min(0.0));
    let mut tempo = vec![
        (0, TrackEventKind::Meta(MetaMessage::TrackName(music.dance.title.as_bytes()))),
        (0, TrackEventKind::Meta(MetaMessage::TimeSignature(beats, of.trailing_zeros() as u8, clocks, 8))),
    ];
    let mut before = 0.0;
    let (mut count, end) = (music.counts.0, music.counts.1);
    while count < end {
        let micros = crotchet(clock.speed(count));
        if micros > SLOWEST {
            return Err(SoundError::TooSlow { seconds: micros / 1e6 });
        }
        if micros != before {
            // What sounds before the first count goes at its speed.
            let tick = if before == 0.0 { 0.0 } else { (clock.bars_of_counts(count) - start) * bar - first };
            tempo.push((
                tick.round() as u32,
                TrackEventKind::Meta(MetaMessage::Tempo(u24::new(micros as u32))),
            ));
            before = micros;
        }
        count = count.floor() + 1.0;
    }
    let (mut notes, mut clicks) = (Vec::new(), Vec::new());
    for sound in &sounds {
        let begin = ticks(sound.begin) - first;
        match sound.kind {
            SoundKind::Note(key) if levels.tune > 0.0 => {
                let end = ticks(sound.begin + sound.length) - first;
                notes.extend(struck((begin, end), (0, key, 90)));
            }
            SoundKind::Beat if levels.click > 0.0 => {
                clicks.extend(struck((begin, begin + CLICK), (PERCUSSION, HIGH_WOOD, 110)));
            }
            SoundKind::Count if levels.click > 0.0 => {
                clicks.extend(struck((begin, begin + CLICK), (PERCUSSION, LOW_WOOD, 50)));
            }
            SoundKind::Note(_) | SoundKind::Beat | SoundKind::Count => {}
        }
    }
    if notes.is_empty() && clicks.is_empty() {
        return Err(SoundError::Nothing);
    }
    let voice = (0, message(0, MidiMessage::ProgramChange { program: u7::new(ACCORDION) }));
    let mut tracks = vec![track(tempo)];
    if !notes.is_empty() {
        tracks.push(track(std::iter::once(voice).chain(notes)));
    }
    if !clicks.is_empty() {
        tracks.push(track(clicks));
    }
    let timing = Timing::Metrical(u15::new(CROTCHET));
    let mut bytes = Vec::new();
    let file = Smf { header: Header { format: Format::Parallel, timing }, tracks };
    file.write_std(&mut bytes).map_err(SoundError::Midi)?;
    Ok(bytes)
}

/// A message at a tick.
type AtTick<'a> = (u32, TrackEventKind<'a>);

fn meta(message: MetaMessage) -> TrackEvent {
    TrackEvent { delta: u28::new(0), kind: TrackEventKind::Meta(message) }
}

fn message<'a>(channel: u8, message: MidiMessage) -> TrackEventKind<'a> {
    TrackEventKind::Midi { channel: u4::new(channel), message }
}

/// A key that goes down and comes up between two ticks: its channel, itself and how hard.
fn struck<'a>((begin, end): (f64, f64), (channel, key, hard): (u8, u8, u8)) -> [AtTick<'a>; 2] {
    let key = u7::new(key.min(127));
    let begin = begin.round().max(0.0);
    let down = message(channel, MidiMessage::NoteOn { key, vel: u7::new(hard) });
    let up = message(channel, MidiMessage::NoteOff { key, vel: u7::new(0) });
    [(begin as u32, down), (end.round().max(begin + 1.0) as u32, up)]
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
