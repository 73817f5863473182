use super::{Sound, sounds};
use crate::dance::{Air, BarCounts, Dance};
use crate::motion::{Blow, Clock, Motion};

/// The music of a dance, or of a stretch of it.
pub struct MusicOf<'a> {
    /// The dance that it is danced to.
    pub dance: &'a Dance,
    clock: Clock,
    bars: BarCounts,
    /// The tune, where there is one that can be read.
    pub air: Option<Air>,
    blows: Vec<Blow>,
    /// Counts from the start of the dance between which it is played.
    pub counts: (f64, f64),
}

impl<'a> MusicOf<'a> {
    /// The music of a whole dance.
    #[must_use]
    pub fn whole(dance: &'a Dance, motion: &Motion) -> Self {
        let lines = motion.spans().iter().map(|span| (span.first_bar, span.bars));
        Self {
            dance,
            clock: Clock::of_dance(dance, motion),
            bars: motion.bar_counts().clone(),
            air: Air::of(dance, motion.bar_counts(), lines),
            blows: motion.blows().to_vec(),
            counts: (0.0, motion.counts()),
        }
    }

    /// The music of a figure (index in the dance) where it is first danced; nothing where it is not danced.
    #[must_use]
    pub fn figure(dance: &'a Dance, motion: &Motion, figure: usize) -> Option<Self> {
        let span = motion.spans().iter().find(|span| span.figure == figure)?;
        Some(Self { counts: (span.begin(), span.end()), ..Self::whole(dance, motion) })
    }

    /// Counts to seconds.
    #[must_use]
    pub fn clock(&self) -> &Clock {
        &self.clock
    }

    /// The bars of the whole dance.
    #[must_use]
    pub fn bars(&self) -> &BarCounts {
        &self.bars
    }

    /// All that sounds, in order.
    #[must_use]
    pub fn sounds(&self) -> Vec<Sound> {
        sounds(self.air.as_ref(), &self.blows, &self.clock, self.counts)
    }

    /// Seconds from the first of its counts to the last, at the tune's own speed.
    #[must_use]
    pub fn seconds(&self) -> f64 {
        let clock = &self.clock;
        clock.seconds(self.counts.1) - clock.seconds(self.counts.0)
    }
}
