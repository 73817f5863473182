use super::Step;
use crate::dance::Landing::Both;

/// Standing for a bar, on both feet, hands down.
pub(super) fn step() -> Step {
    Step::built_in("st", "stand", &[Both; 4], &[0.0; 4], &[0.0; 4])
}
