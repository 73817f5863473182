//! Music as a WAV file (RIFF, Microsoft and IBM 1991): 16 bits, one channel.

use super::{Levels, Mixer, MusicOf, Sound};
use hound::{SampleFormat, WavSpec, WavWriter};
use std::io::Cursor;
use thiserror::Error;

/// Samples a second.
pub const SAMPLE_RATE: u32 = 44_100;

/// Seconds after the last count in which the last note dies away.
const TAIL: f64 = 0.5;
/// Samples that are made at once where nothing begins.
const BLOCK: usize = 4096;
/// The longest, seconds: no dance lasts an hour, and it is put together in memory, which is 320 MB then.
const LONGEST: f64 = 3600.0;

/// Why music cannot be written.
#[derive(Debug, Error)]
pub enum SoundError {
    /// It lasts longer than anybody dances.
    #[error("it would last {hours:.1} hours at that speed; expected {most:.0} at the most", most = LONGEST / 3600.0)]
    TooLong {
        /// Of sound.
        hours: f64,
    },
    /// It is slower than a MIDI file can say.
    #[error("a crotchet would last {seconds:.1} s at that speed; notes are written with 16.7 s at the most")]
    TooSlow {
        /// Of a crotchet.
        seconds: f64,
    },
    /// There is no note, click or tap in it.
    #[error(
        "there is nothing to hear: it has no tune that can be read and no taps, and no click was asked for"
    )]
    Nothing,
    /// The file cannot be put together.
    #[error("the sound cannot be written: {0}")]
    Wav(#[from] hound::Error),
    /// The notes cannot be put together.
    #[error("the notes cannot be written: {0}")]
    Midi(std::io::Error),
}

/// The bytes of a WAV file; `speed` is the share of the tune's own speed at which it is played.
///
/// # Errors
/// When it would last too long, or there is nothing to hear.
pub fn wav(music: &MusicOf, levels: Levels, speed: f64) -> Result<Vec<u8>, SoundError> {
    wav_of(music.sounds(), music.seconds(), levels, speed)
}

/// The bytes of a WAV file of sounds in the order in which they begin, and of what lasts so many seconds from 0 on.
pub(super) fn wav_of(
    mut sounds: Vec<Sound>,
    seconds: f64,
    levels: Levels,
    speed: f64,
) -> Result<Vec<u8>, SoundError> {
    sounds.retain(|sound| levels.of(sound.kind) > 0.0);
    let first = sounds.first().ok_or(SoundError::Nothing)?.begin.min(0.0);
    let seconds = (seconds - first) / speed;
    if seconds > LONGEST {
        return Err(SoundError::TooLong { hours: seconds / 3600.0 });
    }
    let rate = f64::from(SAMPLE_RATE);
    let spec = WavSpec {
        channels: 1,
        sample_rate: SAMPLE_RATE,
        bits_per_sample: 16,
        sample_format: SampleFormat::Int,
    };
    let mut bytes = Cursor::new(Vec::new());
    let mut writer = WavWriter::new(&mut bytes, spec)?;
    let mut mixer = Mixer::new(SAMPLE_RATE, levels);
    let mut block = vec![0.0; BLOCK];
    let mut done = 0;
    let mut next = sounds.iter().peekable();
    let all = ((seconds + TAIL) * rate).ceil() as usize;
    while done < all {
        let starts = |begin: f64| ((begin - first) / speed * rate).round() as usize;
        while let Some(sound) = next.next_if(|sound| starts(sound.begin) <= done) {
            mixer.begin(sound, speed);
        }
        let until = next.peek().map_or(all, |sound| starts(sound.begin).min(all));
        let long = (until - done).min(BLOCK);
        let Some(samples) = block.get_mut(..long) else { break };
        mixer.fill(samples);
        for sample in samples {
            writer.write_sample((*sample * f32::from(i16::MAX)).round() as i16)?;
        }
        done += long;
    }
    writer.finalize()?;
    Ok(bytes.into_inner())
}
