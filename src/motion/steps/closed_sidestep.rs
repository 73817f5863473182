use super::Step;
use super::heights::ORDINARY;
use crate::dance::{
    FreePlace,
    Landing::{Lead, Other},
};

/// The closed sidestep, 1-2-3-hop to the side: the other foot closes before the leading one and the feet stay close. The leading hand is high
/// (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in(
        "cs",
        "closed sidestep",
        &[Lead, Other, Lead, Lead],
        &[1.0, 1.0, 1.0, 0.7],
        &[0.3, 0.3, 0.3, 0.3],
    )
    .leading_hand(&[0.7, 0.9, 0.9, 0.7])
    .free(&[
        (0, FreePlace::CrossedBefore, 0.1),
        (1, FreePlace::Beside, 0.08),
        (2, FreePlace::CrossedBefore, 0.1),
        (3, FreePlace::Front, ORDINARY),
    ])
}
