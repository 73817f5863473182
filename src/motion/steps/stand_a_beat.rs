use super::Step;
use crate::dance::Landing::Both;

/// Standing for a strong beat, half a bar of two or a third of one of three, on both feet, hands down.
pub(super) fn step() -> Step {
    Step::built_in("sb", "stand a beat", &[Both; 2], &[0.0; 2], &[0.0; 2])
}
