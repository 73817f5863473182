use super::Levels;
use serde::{Deserialize, Serialize};
use std::ops::RangeInclusive;

/// What a person has chosen about what is heard in play.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct SoundChoice {
    /// The tune.
    pub tune: Voice,
    /// The click.
    pub click: Voice,
    /// Sticks and hands that meet.
    pub taps: Voice,
    /// Whether a bar is counted in.
    pub counts_in: bool,
    /// How fast, in hundredths of the tune's own speed.
    pub speed: u32,
    /// How much later than the machine says its loudspeakers sound, thousandths of a second.
    pub delay: u32,
}

/// How loud one of the voices is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub struct Voice {
    /// In hundredths of the loudest.
    pub volume: u32,
    /// Whether it is silent all the same.
    pub muted: bool,
}

impl Default for Voice {
    fn default() -> Self {
        Self { volume: 100, muted: false }
    }
}

impl Default for SoundChoice {
    fn default() -> Self {
        // Neither the click nor the taps cover the tune.
        let click = Voice { volume: 60, muted: false };
        let taps = Voice { volume: 80, muted: false };
        Self { tune: Voice::default(), click, taps, counts_in: false, speed: 100, delay: 0 }
    }
}

impl SoundChoice {
    /// The slowest and the fastest, in hundredths of the tune's own speed.
    pub const SPEEDS: RangeInclusive<u32> = 30..=130;
    /// The least and the most that loudspeakers lag, thousandths of a second.
    pub const DELAYS: RangeInclusive<u32> = 0..=500;

    /// The nearest that there is.
    #[must_use]
    pub fn sane(self) -> Self {
        let sane = |voice: Voice| Voice { volume: voice.volume.min(100), ..voice };
        Self {
            tune: sane(self.tune),
            click: sane(self.click),
            taps: sane(self.taps),
            counts_in: self.counts_in,
            speed: self.speed.clamp(*Self::SPEEDS.start(), *Self::SPEEDS.end()),
            delay: self.delay.clamp(*Self::DELAYS.start(), *Self::DELAYS.end()),
        }
    }

    /// How loud each is.
    #[must_use]
    pub fn levels(&self) -> Levels {
        let level = |voice: Voice| if voice.muted { 0.0 } else { voice.volume as f32 / 100.0 };
        Levels { tune: level(self.tune), click: level(self.click), taps: level(self.taps) }
    }
}
