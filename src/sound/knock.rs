//! Short knocks, as of wood on wood: the click, and sticks that meet.

use super::{Levels, SoundKind};
use std::f64::consts::TAU;

/// A knock: how it rings and how loud.
#[derive(Clone, Copy)]
pub(super) struct Knock {
    /// Swings in a second of its two partials.
    rings: [f64; 2],
    /// Seconds in which it falls to a third.
    dies: f64,
    /// Of the whole that a sample can be.
    loud: f32,
}

/// Higher and louder on the strong beats, low and soft on the counts between (chosen by ear for this program).
const BEAT: Knock = Knock { rings: [1_568.0, 3_450.0], dies: 0.012, loud: 0.5 };
const COUNT: Knock = Knock { rings: [1_047.0, 2_300.0], dies: 0.008, loud: 0.16 };

/// Sticks of ash or willow have more body than the click, ring longer and lie lower, and the ground lower still (chosen by ear for
/// this program).
const TAP: Knock = Knock { rings: [740.0, 1_910.0], dies: 0.022, loud: 0.5 };
const DIB: Knock = Knock { rings: [415.0, 1_130.0], dies: 0.03, loud: 0.5 };

/// How much louder so many are that meet at once than one: each time as many again add a little, up to that of some six dozen.
pub(super) fn louder(many: u8) -> f32 {
    1.0 + 0.08 * f32::from(many.max(1)).log2().min(6.0)
}

/// After so many times that in which it falls to a third nothing of it is heard.
const GONE: f64 = 9.0;

/// A knock that sounds.
#[derive(Clone, Copy)]
pub(super) struct KnockSounding {
    knock: Knock,
    kind: SoundKind,
    /// Samples that it has sounded.
    done: f64,
}

impl KnockSounding {
    /// The knock of a kind of sound; nothing where that is a note or a clap.
    pub(super) fn of(kind: SoundKind) -> Option<Self> {
        let knock = match kind {
            SoundKind::Beat => BEAT,
            SoundKind::Count => COUNT,
            SoundKind::Tap(many) => Knock { loud: TAP.loud * louder(many), ..TAP },
            SoundKind::Dib(many) => Knock { loud: DIB.loud * louder(many), ..DIB },
            SoundKind::Note(_) | SoundKind::Clap(_) => return None,
        };
        Some(Self { knock, kind, done: 0.0 })
    }

    /// Adds its next samples; whether it goes on after them.
    pub(super) fn add(&mut self, rate: f64, levels: &Levels, out: &mut [f32]) -> bool {
        let level = levels.of(self.kind);
        let Knock { rings: [low, high], dies, loud } = self.knock;
        for sample in out {
            let time = self.done / rate;
            if time > dies * GONE {
                return false;
            }
            let ring = (TAU * low * time).sin() + 0.5 * (TAU * high * time).sin();
            // It is there at once, but for a quarter of a thousandth of a second, so that nothing cracks.
            let swell = (time / 0.000_25).min(1.0);
            *sample += (ring / 1.5 * swell * (-time / dies).exp()) as f32 * loud * level;
            self.done += 1.0;
        }
        true
    }
}
