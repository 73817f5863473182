use super::Step;
use crate::dance::Landing::{Air, Both};

/// The feet-together jump: in the air, then both feet. It does not travel, and afterwards either foot is
/// free (common practice, no source). The landing is on the last half-bar [MB1]. The hands are highest
/// as the jump goes up.
pub(super) fn step() -> Step {
    Step::built_in("ftj", "feet-together jump", &[Air, Air, Both, Both], &[0.0; 4], &[0.9, 1.0, 0.7, 0.3])
}
