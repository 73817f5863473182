use super::{Desk, compiled::Compiled, work::Work};
use crate::faults::Faults;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// A search that takes longer than this goes on beside the window: some of the time that a frame has.
const SOON: Duration = Duration::from_millis(5);

/// The search for faults. Of a usual dance it is done before the next frame; of a crowded one it goes on beside the
/// window, and the faults before the edit are told until it is done. The next edit stops it.
impl Desk {
    /// The faults that are known: those of the dance now, or of what it was before while they are looked for.
    #[must_use]
    pub fn faults(&self) -> &Faults {
        static NONE: Faults = Faults::NONE;
        self.looked.faults().unwrap_or(&NONE)
    }

    /// Whether the faults of the dance now are still looked for.
    #[must_use]
    pub fn looks_for_faults(&self) -> bool {
        self.now.faults().is_none()
    }

    /// Finds the faults of the dance now, or begins to.
    pub(super) fn look_for_faults(&mut self) {
        // What was looked for is stopped.
        self.looking = None;
        if self.now.faults().is_some() {
            self.looked = Arc::clone(&self.now);
            return;
        }
        if self.is_quick() {
            let begun = Instant::now();
            let waits = !self.wake.is_there();
            let found = find(&self.now, &mut || waits || begun.elapsed() < SOON);
            self.took = Some(begun.elapsed());
            if let Some(faults) = found {
                self.now.set_faults(faults);
                self.looked = Arc::clone(&self.now);
                return;
            }
        }
        let now = Arc::clone(&self.now);
        self.looking = Some(Work::begin("faults", &self.wake, move |step| {
            find(&now, &mut || step(0, 0)).ok_or_else(|| "It was stopped.".to_owned())
        }));
    }

    /// Whether a search is worth while before the next frame.
    fn is_quick(&self) -> bool {
        !self.wake.is_there() || self.took.is_none_or(|took| took < SOON)
    }

    /// Takes the faults that were found beside the window.
    pub(super) fn hear_of_faults(&mut self) {
        let Some(work) = &self.looking else { return };
        let Some(answer) = work.answer() else { return };
        self.took = Some(work.age());
        self.looking = None;
        match answer {
            Ok(faults) => {
                self.now.set_faults(faults);
                self.looked = Arc::clone(&self.now);
            }
            Err(said) => self.notice = Some(format!("the faults could not be looked for: {said}")),
        }
    }
}

/// Finds the faults of a dance, unless it is to go on no longer.
fn find(compiled: &Compiled, goes_on: &mut dyn FnMut() -> bool) -> Option<Faults> {
    Faults::search_heard((compiled.dance(), compiled.motion()), compiled.heard(), goes_on)
}
