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
}

impl<'a> Struck<'a> {
    pub fn of(look: &'a Look<'a>) -> Self {
        Self { look, gaits: RefCell::default() }
    }

    /// The body of a dancer at a count of the dance.
    pub fn limbs(&self, dancer: Dancer, count: f64) -> Limbs {
        let Look { motion, clock, .. } = self.look;
        let mut gaits = self.gaits.borrow_mut();
        let gait = gaits.entry(dancer).or_insert_with(|| Rc::new(Gait::of(motion, clock, dancer)));
        let gait = Rc::clone(gait);
        drop(gaits);
        gait.limbs(motion, clock, count)
    }
}

/// How near two counts are the same moment.
pub(super) const SAME: f64 = 1e-6;
