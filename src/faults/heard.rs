use crate::dance::{Air, KnownTune};
use crate::motion::Clock;

/// What is known of how a dance is heard before its faults are looked for: its tune is read once.
#[derive(Clone, Copy)]
pub struct Heard<'a> {
    /// The tune as its text has it.
    pub tune: &'a KnownTune,
    /// The tune as the dance plays it.
    pub air: Option<&'a Air>,
    /// Counts to seconds.
    pub clock: &'a Clock,
}
