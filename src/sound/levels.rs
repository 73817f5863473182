/// How loud each of what sounds is: 0 is silent, 1 the loudest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Levels {
    /// The tune.
    pub tune: f32,
    /// The click: strong beats, and counts more softly.
    pub click: f32,
}

impl Default for Levels {
    /// The tune, and a click that does not cover it.
    fn default() -> Self {
        Self { tune: 1.0, click: 0.6 }
    }
}

impl Levels {
    /// The tune alone.
    pub const TUNE: Self = Self { tune: 1.0, click: 0.0 };
}
