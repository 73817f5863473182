use super::Step;
use super::heights::HIGH_STEP;
use crate::dance::{FreePlace, Landing::Lead};

/// The half caper: a step, and a high hop on the same foot with the other straightened before (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in("hc", "half caper", &[Lead, Lead], &[1.0, 0.5], &[0.2, 0.8])
        .free(&[(1, FreePlace::Front, HIGH_STEP)])
        .rises(&[0.0, 0.08])
}
