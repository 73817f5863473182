//! When each picture is shown, and for how long.

use super::{MovingChoice, MovingError, RATES, SIZES, SPEEDS};
use crate::dance::Dance;
use crate::motion::{Clock, Motion};

/// How long the end stays, seconds, before the figure begins again.
const REST: f64 = 0.8;

/// The most pixels in all, over every picture.
const MOST_PIXELS: u64 = 400_000_000;

/// The most pictures: eight bars at a tenth of their speed, thirty a second.
const MOST_PICTURES: u64 = 3_000;

/// When each picture is shown: counts, one for each picture.
///
/// # Errors
/// When a choice is not within its limits, or together they ask for too much.
pub fn picture_counts(
    dance: &Dance,
    motion: &Motion,
    choice: &MovingChoice,
) -> Result<Vec<f64>, MovingError> {
    for (name, value, [least, most], unit) in [
        ("size", choice.size, SIZES, "pixels"),
        ("speed", choice.speed, SPEEDS, "percent"),
        ("fps", choice.rate, RATES, "pictures a second"),
    ] {
        if !(least..=most).contains(&value) {
            return Err(MovingError::Range { name, value, least, most, unit });
        }
    }
    if motion.bars() == 0 {
        return Err(MovingError::Empty);
    }
    let clock = Clock::of_dance(dance, motion);
    let speed = f64::from(choice.speed) / 100.0;
    let seconds = clock.seconds(motion.counts()) / speed;
    let pictures = (seconds * f64::from(choice.rate)).ceil().max(1.0) as u64 + 1;
    if pictures > MOST_PICTURES || pictures * u64::from(choice.size) * u64::from(choice.size) > MOST_PIXELS {
        return Err(MovingError::Large { pictures, size: choice.size });
    }
    Ok((0..pictures)
        .map(|index| clock.counts(index as f64 / f64::from(choice.rate) * speed).min(motion.counts()))
        .collect())
}

/// How long a picture stays, hundredths of a second: the last one rests, and rounding never adds up.
pub(super) fn delay(index: usize, of: usize, rate: u32) -> u16 {
    if index + 1 == of {
        return (REST * 100.0) as u16;
    }
    let at = |index: usize| (index as f64 * 100.0 / f64::from(rate)).round();
    (at(index + 1) - at(index)) as u16
}
