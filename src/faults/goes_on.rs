use std::cell::{Cell, RefCell};

/// Whether a search is to go on.
pub(super) trait Goes {
    /// Asks, and gives whether it is to go on.
    fn asked(&self) -> bool;

    /// Two dancers are looked at; gives whether it is to go on.
    fn looked(&self) -> bool;

    /// Whether it was stopped. What has been found by then is not all.
    fn stopped(&self) -> bool;
}

/// Whether a search is to go on: asked again and again while it does, since somebody may want it no longer.
pub(super) struct GoesOn<'a> {
    ask: RefCell<&'a mut dyn FnMut() -> bool>,
    stopped: Cell<bool>,
    /// Looks at two dancers since it was last asked.
    looks: Cell<u32>,
}

/// Looks at two dancers between two times that it is asked: a tenth of a millisecond or so.
const OFTEN: u32 = 256;

impl<'a> GoesOn<'a> {
    pub fn new(ask: &'a mut dyn FnMut() -> bool) -> Self {
        Self { ask: RefCell::new(ask), stopped: Cell::new(false), looks: Cell::new(0) }
    }
}

impl Goes for GoesOn<'_> {
    fn asked(&self) -> bool {
        if !self.stopped.get() && !self.ask.try_borrow_mut().is_ok_and(|mut ask| ask()) {
            self.stopped.set(true);
        }
        !self.stopped.get()
    }

    fn looked(&self) -> bool {
        let looks = self.looks.get() + 1;
        self.looks.set(looks % OFTEN);
        if looks == OFTEN { self.asked() } else { !self.stopped.get() }
    }

    fn stopped(&self) -> bool {
        self.stopped.get()
    }
}
