use super::Step;
use crate::dance::Landing::{Lead, Stay};

/// The running step to the beat: one step to each strong beat, R, then L (the 6/1 step of [MB1]). The weight stays on the
/// count between.
pub(super) fn step() -> Step {
    Step::built_in("rb", "running step to the beat", &[Lead, Stay], &[1.0, 1.0], &[0.2, 0.2])
}
