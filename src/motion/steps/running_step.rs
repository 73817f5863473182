use super::Step;
use crate::dance::Landing::Lead;

/// The running step: R, then L (the 4/1 and 6/1 step of [MB1]).
pub(super) fn step() -> Step {
    Step::built_in("rs", "running step", &[Lead], &[1.0], &[0.2])
}
