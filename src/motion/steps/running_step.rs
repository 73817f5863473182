use super::Step;
use crate::dance::Landing::Lead;

/// The running step: a step to each count, R, then L (the 4/1 step of [MB1], four to a bar).
pub(super) fn step() -> Step {
    Step::built_in("rs", "running step", &[Lead], &[1.0], &[0.2])
}
