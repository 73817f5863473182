use super::Step;
use crate::dance::Landing::{Air, Lead};

/// The plain caper: spring off, then land on the lead (common practice, no source).
pub(super) fn step() -> Step {
    Step::built_in("pc", "plain caper", &[Air, Lead], &[1.0, 1.0], &[0.9, 0.5])
        .free_in_front(&[1], super::heights::HIGH_STEP)
        .rises(&[0.15, 0.0])
}
