use super::Step;
use crate::dance::Landing::{Air, Both};

/// The jump on the last half-bar of a travelling figure [MB1]: off the ground, then both feet.
pub(super) fn step() -> Step {
    Step::built_in("hj", "half-bar jump", &[Air, Both], &[0.0; 2], &[1.0, 0.5])
}
