use super::Step;
use crate::dance::Landing::Lead;

/// The single step, step-hop: R R, then L L (the 4/2 and 6/2 step of [MB1]).
///
/// The hands are low on the step (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in("ss", "single step", &[Lead, Lead], &[1.0, 0.7], &[0.1, 0.4])
        .free_in_front(&[1], super::heights::ORDINARY)
        .hands_forward(&[-0.2, 0.35])
}
