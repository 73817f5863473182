//! How often the window is painted while it plays: as often as the screen is, where that costs little. Where a frame takes
//! long to paint, as without a graphics card, less often, so that playing leaves most of the machine to others.

use std::time::Duration;

/// A frame that takes less of a processor than this is painted as often as the screen is.
const CHEAP: Duration = Duration::from_millis(5);
/// So many times what a frame takes lies between one and the next: a quarter of a processor, as long as that is not longer than
/// the longest.
const SPARE: u32 = 4;
/// But never longer than this: twenty pictures a second still look like moving.
const LONGEST: Duration = Duration::from_millis(50);

/// How long to wait for the next frame.
#[derive(Default)]
pub struct Pace {
    /// What the program had taken of the processors at the frame before.
    before: Option<Duration>,
    /// What a frame takes, of late.
    each: Duration,
}

impl Pace {
    /// Nothing plays: what is done until it does is no frame of it.
    pub fn rest(&mut self) {
        self.before = None;
    }

    /// How long after this frame the next one is to be.
    pub fn next(&mut self) -> Duration {
        let now = taken();
        if let Some((now, before)) = now.zip(self.before) {
            // A frame here and there does more, such as one in which a dance is worked out.
            let cost = now.saturating_sub(before).min(Duration::from_millis(100));
            self.each = (self.each * 7 + cost) / 8;
        }
        self.before = now;
        wait(self.each)
    }
}

/// How long to wait where a frame takes so long.
fn wait(each: Duration) -> Duration {
    if each < CHEAP { Duration::ZERO } else { (each * SPARE).min(LONGEST) }
}

/// What this program has taken of the processors since it began, on all of its threads; nothing where the system does not
/// say.
#[cfg(unix)]
fn taken() -> Option<Duration> {
    let time = rustix::time::clock_gettime(rustix::time::ClockId::ProcessCPUTime);
    Some(Duration::new(u64::try_from(time.tv_sec).ok()?, u32::try_from(time.tv_nsec).ok()?))
}

#[cfg(not(unix))]
fn taken() -> Option<Duration> {
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cheap_frames_are_painted_with_the_screen_and_dear_ones_leave_most_of_the_time() {
        let millis = Duration::from_millis;
        assert_eq!(wait(millis(1)), Duration::ZERO);
        for each in 5..=12 {
            assert!(wait(millis(each)) >= millis(4 * each), "{each}");
        }
        assert_eq!(wait(millis(60)), LONGEST);
    }
}
