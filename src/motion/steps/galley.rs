use super::Step;
use crate::dance::{FreePlace, Landing::Lead};

/// The galley: a step and a hop while the free lower leg makes two small circles outwards. The body turns away from it: that is a turn tied to
/// this step (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in("ga", "galley", &[Lead, Lead], &[0.0, 0.0], &[0.3, 0.5])
        .free(&[(0, FreePlace::Beside, 0.35), (1, FreePlace::Beside, 0.35)])
        .circling_leg(&[1.0, 1.0])
}
