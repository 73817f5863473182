use super::Step;
use super::heights::ORDINARY;
use crate::dance::{
    FreePlace,
    Landing::{Lead, Other},
};

/// The open sidestep, 1-2-3-hop to the side: the leading foot goes to its side, the other closes behind it. The leading hand is high (common
/// practice, no source).
pub(super) fn step() -> Step {
    Step::built_in(
        "os",
        "open sidestep",
        &[Lead, Other, Lead, Lead],
        &[1.0, 1.0, 1.0, 0.7],
        &[0.3, 0.3, 0.3, 0.3],
    )
    .leading_hand(&[0.7, 0.9, 0.9, 0.7])
    .free(&[
        (0, FreePlace::CrossedBehind, 0.1),
        (1, FreePlace::Beside, 0.12),
        (2, FreePlace::CrossedBehind, 0.12),
        (3, FreePlace::Front, ORDINARY),
    ])
}
