use serde::{Deserialize, Serialize};

/// How large the window was, without what the desktop puts round it. Points here are the desktop's: the size of the text
/// that was chosen in the window does not count.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct WindowSize {
    /// Points from left to right.
    pub across: f32,
    /// Points from top to bottom.
    pub down: f32,
    /// Whether it filled the screen; then the two are what it had before.
    #[serde(default)]
    pub filled: bool,
}

/// How a window opens: its size and the least one that it can be drawn to, points across and down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpenedAt {
    pub size: [f32; 2],
    pub least: [f32; 2],
}

impl WindowSize {
    /// The size of a window that nobody has ever drawn larger or smaller.
    pub const USUAL: Self = Self { across: 1280.0, down: 800.0, filled: false };

    /// How it opens on a screen of so many points: as it was, but within the screen, with room for a title bar and a panel
    /// of the desktop's. `screen` is nothing where the system does not say.
    #[must_use]
    pub fn opened(self, screen: Option<[f32; 2]>) -> OpenedAt {
        let room = screen.map_or([MOST; 2], |[across, down]| [across - AROUND[0], down - AROUND[1]]);
        let within =
            |[across, down]: [f32; 2]| [across.min(room[0]).max(SMALLEST), down.min(room[1]).max(SMALLEST)];
        let least = within(LEAST);
        let [across, down] = within([self.across, self.down]);
        OpenedAt { size: [across.max(least[0]), down.max(least[1])], least }
    }

    /// The size that a window on this screen should have instead, where it does not fit with what is round it: `inner` is
    /// its own size, `outer` that with what the desktop puts round it.
    #[must_use]
    pub fn fitted(inner: [f32; 2], outer: [f32; 2], screen: [f32; 2]) -> Option<[f32; 2]> {
        let mut size = inner;
        for ((size, outer), screen) in size.iter_mut().zip(outer).zip(screen) {
            if screen > SMALLEST && outer > screen + 0.5 {
                *size = (*size - (outer - screen)).max(SMALLEST);
            }
        }
        (size != inner).then_some(size)
    }

    /// The nearest size that a window can have; nothing where it is none.
    #[must_use]
    pub fn sane(self) -> Option<Self> {
        let sane = |points: f32| points.is_finite().then(|| points.round().clamp(SMALLEST, MOST));
        Some(Self { across: sane(self.across)?, down: sane(self.down)?, filled: self.filled })
    }
}

/// A window is drawn no smaller than this, where the screen has room for it, points.
const LEAST: [f32; 2] = [900.0, 600.0];
/// What the desktop puts round a window, with a panel at an edge of the screen, points (title bars are 20 to 40 high,
/// panels 24 to 48; from memory).
const AROUND: [f32; 2] = [16.0, 80.0];
/// No window is smaller or larger than these, points.
const SMALLEST: f32 = 200.0;
const MOST: f32 = 16_000.0;

#[cfg(test)]
mod tests {
    use super::*;

    fn opened(across: f32, down: f32, screen: [f32; 2]) -> OpenedAt {
        WindowSize { across, down, filled: false }.opened(Some(screen))
    }

    #[test]
    fn it_opens_within_the_screen_and_as_it_was() {
        for screen in [
            [1366.0, 768.0],
            [1440.0, 900.0],
            [1024.0, 640.0],
            [1920.0, 1080.0],
            [800.0, 600.0],
            [360.0, 640.0],
        ] {
            for before in [[1280.0, 800.0], [900.0, 600.0], [3840.0, 2160.0], [200.0, 200.0]] {
                let at = opened(before[0], before[1], screen);
                for axis in [0, 1] {
                    assert!(at.size[axis] <= screen[axis] - AROUND[axis], "{at:?} on {screen:?}");
                    assert!(at.least[axis] <= at.size[axis], "{at:?} on {screen:?}");
                    let fits = before[axis] <= screen[axis] - AROUND[axis] && before[axis] >= at.least[axis];
                    assert!(!fits || at.size[axis] == before[axis], "{at:?} was {before:?} on {screen:?}");
                }
            }
        }
        assert_eq!(opened(1280.0, 800.0, [1366.0, 768.0]).size, [1280.0, 688.0]);
        assert_eq!(WindowSize::USUAL.opened(None), OpenedAt { size: [1280.0, 800.0], least: LEAST });
    }

    #[test]
    fn what_is_round_it_is_taken_off_where_it_does_not_fit() {
        let screen = [1366.0, 768.0];
        assert_eq!(WindowSize::fitted([1280.0, 688.0], [1282.0, 713.0], screen), None);
        assert_eq!(WindowSize::fitted([1280.0, 760.0], [1282.0, 785.0], screen), Some([1280.0, 743.0]));
        assert_eq!(WindowSize::fitted([1366.0, 760.0], [1370.0, 785.0], screen), Some([1362.0, 743.0]));
        assert_eq!(WindowSize::fitted([1280.0, 688.0], [1282.0, 713.0], [0.0, 0.0]), None, "no screen");
    }

    #[test]
    fn what_no_window_can_be_is_left() {
        let size = |across, down| WindowSize { across, down, filled: false }.sane();
        assert_eq!(size(f32::NAN, 600.0), None);
        assert_eq!(size(1e9, 3.0), Some(WindowSize { across: MOST, down: SMALLEST, filled: false }));
        assert_eq!(size(1000.4, 700.0).unwrap().across, 1000.0);
    }
}
