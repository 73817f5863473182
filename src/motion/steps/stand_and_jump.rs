use super::Step;
use crate::dance::Landing::{Air, Both};

/// Standing for the first half of a bar and the jump on its last half-bar: whoever is about to move jumps on the half-bar
/// before [MB1].
pub(super) fn step() -> Step {
    Step::built_in("sj", "stand and jump", &[Both, Both, Air, Both], &[0.0; 4], &[0.0, 0.0, 1.0, 0.5])
}
