//! What the finders of taps and claps share.

use super::look::Look;
use crate::dance::Dancer;
use crate::motion::limbs::{Gait, Limbs};
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// What the finders of taps and claps look at: the bodies that make them.
pub(super) struct Struck<'a> {
    pub look: &'a Look<'a>,
    gaits: RefCell<HashMap<Dancer, Rc<Gait>>>,
    /// Those of this figure that were looked at, by the bits of the count.
    known: RefCell<HashMap<(Dancer, u64), Limbs>>,
}

impl<'a> Struck<'a> {
    pub fn of(look: &'a Look<'a>) -> Self {
        Self { look, gaits: RefCell::default(), known: RefCell::default() }
    }

    /// The body of a dancer at a count of the dance.
    pub fn limbs(&self, dancer: Dancer, count: f64) -> Limbs {
        let key = (dancer, count.to_bits());
        if let Some(known) = self.known.borrow().get(&key) {
            return *known;
        }
        let Look { motion, clock, .. } = self.look;
        let mut gaits = self.gaits.borrow_mut();
        let gait = gaits.entry(dancer).or_insert_with(|| Rc::new(Gait::of(motion, clock, dancer)));
        let gait = Rc::clone(gait);
        drop(gaits);
        let limbs = gait.limbs(motion, clock, count);
        self.known.borrow_mut().insert(key, limbs);
        limbs
    }

    /// Lets go of what was looked at: another figure has other counts.
    pub fn next_figure(&self) {
        self.known.borrow_mut().clear();
    }
}

/// How near two counts are the same moment.
pub(super) const SAME: f64 = 1e-6;
