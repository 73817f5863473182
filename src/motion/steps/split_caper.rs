use super::Step;
use crate::dance::{
    FreePlace,
    Landing::{Air, Lead},
};

/// The split caper: a spring with the legs parted in the air, one before and one behind, down on the leading foot (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in("pl", "split caper", &[Air, Lead], &[0.5, 0.5], &[1.0, 0.5])
        .free(&[(0, FreePlace::Front, 0.05), (1, FreePlace::Beside, 0.15)])
        .rises(&[0.2, 0.0])
}
