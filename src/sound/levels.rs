use super::SoundKind;

/// How loud each of what sounds is: 0 is silent, 1 the loudest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Levels {
    /// The tune.
    pub tune: f32,
    /// The click: strong beats, and counts more softly.
    pub click: f32,
    /// Sticks and hands that meet.
    pub taps: f32,
}

impl Default for Levels {
    /// The tune, taps, and a click that does not cover them.
    fn default() -> Self {
        Self { tune: 1.0, click: 0.6, taps: 0.8 }
    }
}

impl Levels {
    /// The tune alone.
    pub const TUNE: Self = Self { tune: 1.0, click: 0.0, taps: 0.0 };

    /// How loud a kind of sound is.
    #[must_use]
    pub fn of(&self, kind: SoundKind) -> f32 {
        match kind {
            SoundKind::Note(_) => self.tune,
            SoundKind::Beat | SoundKind::Count => self.click,
            SoundKind::Tap(_) | SoundKind::Dib(_) | SoundKind::Clap(_) => self.taps,
        }
    }
}
