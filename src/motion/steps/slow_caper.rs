use super::Step;
use super::heights::HIGH_STEP;
use crate::dance::{
    FreePlace,
    Landing::{Lead, Stay},
};

/// The slow caper: a step on which the arms go back, then a high spring on the same foot with the other straightened before. It takes
/// twice as long as the plain one, and the music slows for it (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in(
        "sc",
        "slow caper",
        &[Lead, Stay, Lead, Stay],
        &[1.0, 0.5, 0.5, 0.5],
        &[0.15, 0.6, 1.0, 0.5],
    )
    .hands_forward(&[-0.447, 0.3, 0.1, 0.3])
    .free(&[(2, FreePlace::Front, HIGH_STEP), (3, FreePlace::Beside, 0.15)])
    .rises(&[0.0, 0.0, 0.25, 0.0])
}
