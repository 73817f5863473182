//! What is wrong with a dance, each kind of fault in its own file. A new kind is one new file, one line in
//! [`find_faults`] and one name in [`FaultKind`].
//!
//! ```
//! use bellpad::dance::{Dance, Figure, Leg, Part, Set};
//! let mut dance = Dance::new("Strays", Set::longways(2, 2.4, 1.8));
//! let mut figure = Figure::drawn("stray", "Stray", 4);
//! let mut part = Part::still(1);
//! part.legs.push(Leg::straight(0.0, 4.0, -1.2, 1.0));
//! figure.parts.push(part);
//! dance.figures.push(figure);
//! let motion = bellpad::figures::motion_of(&dance, None).unwrap();
//! let faults = bellpad::faults::find_faults(&motion);
//! assert_eq!(faults[0].dancers, [1]);
//! ```

mod not_home;

use crate::motion::{Moment, Motion};
use serde::Serialize;

/// A kind of fault.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum FaultKind {
    /// Not back in the spot at the end of a figure.
    NotHome,
}

impl FaultKind {
    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::NotHome => "not-home",
        }
    }
}

/// Something wrong, where, and by how much.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fault {
    /// The kind.
    pub kind: FaultKind,
    /// The bar, from 1.
    pub bar: u32,
    /// The count in the bar, from 1 to below 5.
    pub count: f64,
    /// The numbers concerned.
    pub dancers: Vec<u32>,
    /// What was measured.
    pub value: f64,
    /// The most that is allowed, in the same unit.
    pub limit: f64,
    /// A sentence that a dancer understands.
    pub text: String,
}

impl Fault {
    /// Counts from the start of the dance.
    #[must_use]
    pub fn counts(&self) -> f64 {
        Moment { bar: self.bar, count: self.count }.counts()
    }
}

/// What may be said where no fault is found: no more than has been looked for.
pub const ALL_CLEAR: &str = "Everyone is home at the end of each figure";

/// Every fault of a motion, in order of time.
#[must_use]
pub fn find_faults(motion: &Motion) -> Vec<Fault> {
    let mut faults = Vec::new();
    not_home::find(motion, &mut faults);
    faults.sort_by(|one, other| {
        one.counts().total_cmp(&other.counts()).then_with(|| one.dancers.cmp(&other.dancers))
    });
    faults
}
