//! The voice of the tune: a plain reed, made of a few partials.

use std::f64::consts::TAU;
use std::sync::OnceLock;

/// How loud each partial is, the lowest first. A free reed has strong low partials that fall away (chosen by ear for this
/// program).
const PARTIALS: [f64; 9] = [1.0, 0.55, 0.42, 0.22, 0.16, 0.09, 0.06, 0.04, 0.02];
/// How loud all partials would be together at their tops, of the whole that a sample can be: a note is less, as they do not meet.
const LOUD: f32 = 0.56;
/// Samples of one period.
const PERIOD: usize = 2048;
/// No partial is above this share of the samples a second: nothing is folded down.
const HIGHEST: f64 = 0.45;
/// Seconds in which a note is there, and in which it is gone.
const ATTACK: f64 = 0.012;
const RELEASE: f64 = 0.045;
/// How much of a note's length is left silent before the next, so that two of one key are two; and the most of it, seconds.
const APART: f64 = 0.12;
const MOST_APART: f64 = 0.03;

/// The key to which others are tuned, and how often it swings in a second: A above middle C at 440 (ISO 16:1975).
const TUNED: (u8, f64) = (69, 440.0);

/// One period of the voice at each key, made when it first sounds.
pub(super) struct Reed {
    rate: f64,
    periods: Vec<OnceLock<Vec<f32>>>,
}

/// A note that sounds.
#[derive(Clone, Copy)]
pub(super) struct ReedNote {
    key: u8,
    /// Where in its period it is, in samples of that; and how far it goes on with each sample.
    at: f64,
    step: f64,
    /// Samples that it has sounded, and after which it is let go.
    done: f64,
    held: f64,
}

/// How often a key swings in a second, with equal temperament.
pub(super) fn frequency(key: u8) -> f64 {
    TUNED.1 * 2.0_f64.powf((f64::from(key) - f64::from(TUNED.0)) / 12.0)
}

impl ReedNote {
    /// It comes to its end now, if it has not.
    pub(super) fn let_go(&mut self) {
        self.held = self.held.min(self.done);
    }

    /// What is left of it until it is let go lasts so many times as long.
    pub(super) fn stretch(&mut self, times: f64) {
        if self.held > self.done {
            self.held = self.done + (self.held - self.done) * times;
        }
    }
}

impl Reed {
    /// For so many samples a second.
    pub(super) fn new(rate: f64) -> Self {
        Self { rate, periods: (0..=u8::MAX).map(|_| OnceLock::new()).collect() }
    }

    /// A note of so many seconds.
    pub(super) fn note(&self, key: u8, seconds: f64) -> ReedNote {
        let held = (seconds - (seconds * APART).min(MOST_APART)).max(ATTACK);
        let step = frequency(key) / self.rate * PERIOD as f64;
        ReedNote { key, at: 0.0, step, done: 0.0, held: held * self.rate }
    }

    /// Adds the next samples of a note; whether it goes on after them.
    pub(super) fn add(&self, note: &mut ReedNote, level: f32, out: &mut [f32]) -> bool {
        let period = self.period(note.key);
        let (attack, release) = (ATTACK * self.rate, RELEASE * self.rate);
        for sample in out {
            let left = note.held + release - note.done;
            if left <= 0.0 {
                return false;
            }
            let index = note.at as usize;
            let inside = (note.at - index as f64) as f32;
            if let (Some(here), Some(next)) = (period.get(index), period.get(index + 1)) {
                let swell = (note.done / attack).min(1.0) * (left / release).min(1.0);
                *sample +=
                    (here + (next - here) * inside) * (swell * swell * (3.0 - 2.0 * swell)) as f32 * level;
            }
            note.done += 1.0;
            note.at += note.step;
            if note.at >= PERIOD as f64 {
                note.at %= PERIOD as f64;
            }
        }
        note.done < note.held + release
    }

    /// One period at a key, with its first sample again at its end; empty where even the lowest partial is too high.
    fn period(&self, key: u8) -> &[f32] {
        self.periods.get(usize::from(key)).map_or(&[], |slot| {
            slot.get_or_init(|| {
                let low = frequency(key);
                let heard: Vec<(f64, f64)> = PARTIALS
                    .iter()
                    .enumerate()
                    .map(|(index, loud)| (index as f64 + 1.0, *loud))
                    .filter(|(times, _)| low * times < HIGHEST * self.rate)
                    .collect();
                let most: f64 = PARTIALS.iter().sum();
                let sample = |index: usize| {
                    let turn = index as f64 / PERIOD as f64 * TAU;
                    let sum: f64 = heard.iter().map(|(times, loud)| loud * (turn * times).sin()).sum();
                    (sum / most) as f32 * LOUD
                };
                (0..=PERIOD).map(sample).collect()
            })
        })
    }
}
