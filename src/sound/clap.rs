//! Hands that meet: a short burst of noise, round in tone.

use super::knock::louder;
use std::f64::consts::{PI, TAU};

/// Where the noise is strongest, swings in a second, and how wide it is about that (chosen by ear for this program).
const TONE: f64 = 1_250.0;
const WIDE: f64 = 1_100.0;
/// Seconds in which it falls to a third, and after how many times that nothing of it is heard.
const DIES: f64 = 0.016;
const GONE: f64 = 9.0;
/// How loud one is, of the whole that a sample can be.
const LOUD: f64 = 0.8;

/// A clap that sounds.
#[derive(Clone, Copy)]
pub(super) struct ClapSounding {
    rate: f64,
    loud: f64,
    /// Samples that it has sounded.
    done: f64,
    /// The noise is always the same: where it is.
    noise: u32,
    /// What came out last, and before that.
    last: [f64; 2],
}

impl ClapSounding {
    /// So many at once, for so many samples a second.
    pub(super) fn of(many: u8, rate: f64) -> Self {
        let loud = LOUD * f64::from(louder(many));
        Self { rate, loud, done: 0.0, noise: 0x9e37_79b9, last: [0.0; 2] }
    }

    /// Adds its next samples; whether it goes on after them.
    pub(super) fn add(&mut self, level: f32, out: &mut [f32]) -> bool {
        // A resonance of two poles.
        let near = (-PI * WIDE / self.rate).exp();
        let turn = 2.0 * near * (TAU * TONE / self.rate).cos();
        // So that the noise comes out as strong at any rate: the power of what comes out of two poles for white noise.
        let gain = ((1.0 - near * near) * (1.0 - near)).sqrt();
        for sample in out {
            let time = self.done / self.rate;
            if time > DIES * GONE {
                return false;
            }
            let [one, two] = self.last;
            let now = turn * one - near * near * two + gain * self.next_noise();
            self.last = [now, one];
            *sample += (now * (-time / DIES).exp() * self.loud) as f32 * level;
            self.done += 1.0;
        }
        true
    }

    /// From -1 to 1: the shifts of George Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8 (2003).
    fn next_noise(&mut self) -> f64 {
        self.noise ^= self.noise << 13;
        self.noise ^= self.noise >> 17;
        self.noise ^= self.noise << 5;
        f64::from(self.noise) / f64::from(u32::MAX) * 2.0 - 1.0
    }
}
