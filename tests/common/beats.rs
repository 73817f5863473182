//! Music to play in tests: a strong beat each half second.

use bellpad::dance::{Metre, Music};
use bellpad::motion::Clock;
use bellpad::sound::{Performance, Sound, sounds};

/// A strong beat each half second, so that a count lasts a quarter; with these sounds, or clicks alone.
pub fn performance(counts: f64, notes: Option<Vec<Sound>>) -> Performance {
    let clock = Clock::of(&Music { metre: Metre::FourFour, speed: 120.0, ..Music::default() });
    let sounds = notes.unwrap_or_else(|| sounds(None, &[], &clock, (0.0, counts)));
    Performance {
        sounds: sounds.into(),
        clock,
        from: 0.0,
        end: counts,
        round: None,
        speed: 1.0,
        counted_in: 0,
    }
}
