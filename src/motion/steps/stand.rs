use super::Step;
use crate::dance::Landing::Both;

/// The short name of standing.
pub const STAND: &str = "st";

/// Standing for a bar, on both feet, hands down.
pub(super) fn step() -> Step {
    Step::built_in(STAND, "stand", &[Both; 4], &[0.0; 4], &[0.0; 4])
}
