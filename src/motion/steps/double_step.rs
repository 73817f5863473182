use super::Step;
use crate::dance::Landing::{Lead, Other};

/// The double step, 1-2-3-hop: R L R R, then L R L L (the 4/3 and 6/3 step of [MB1]).
///
/// The hands are low on its first strong beat and rise once (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in(
        "ds",
        "double step",
        &[Lead, Other, Lead, Lead],
        &[1.0, 1.0, 1.0, 0.7],
        &[0.1, 0.4, 0.55, 0.35],
    )
    .free_in_front(&[3], super::heights::ORDINARY)
    .hands_forward(&[-0.2, 0.15, 0.35, 0.35])
}
