use super::Step;
use crate::dance::{FreePlace, Landing::Lead};

/// The hook-leg: a step and a hop with the free foot drawn across before the supporting shin. The body turns half about: that is a turn tied to
/// this step (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in("hl", "hook-leg", &[Lead, Lead], &[0.0, 0.0], &[0.3, 0.6])
        .free(&[(0, FreePlace::CrossedBefore, 0.25), (1, FreePlace::CrossedBefore, 0.35)])
}
