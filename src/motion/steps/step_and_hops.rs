use super::Step;
use crate::dance::Landing::Lead;

/// A step and three hops: R R R R, then L L L L (the 4/4 step of [MB1]).
pub(super) fn step() -> Step {
    Step::built_in("sh", "step and three hops", &[Lead; 4], &[1.0, 0.5, 0.5, 0.5], &[0.1, 0.35, 0.5, 0.35])
        .free_in_front(&[1, 2, 3], super::heights::ORDINARY)
}
