use super::Step;
use crate::dance::Landing::Both;

/// The short name of standing for a strong beat.
pub(super) const STAND_A_BEAT: &str = "sb";

/// Standing for a strong beat, half a bar of two or a third of one of three, on both feet, hands down.
pub(super) fn step() -> Step {
    Step::built_in(STAND_A_BEAT, "stand a beat", &[Both; 2], &[0.0; 2], &[0.0; 2])
}
