use super::Step;
use crate::dance::Landing::{Air, Both, Upbeat};

/// The feet-together jump: together on the first strong beat, up, down on both on the second, and the hop on the upbeat
/// to what follows. It does not travel, and afterwards either foot is free (common practice, no source).
///
/// It leaves the ground half-way through its first count, so that it is one and a half counts in the air: 0.45 s at 100
/// strong beats a minute, the time of a jump of 0.25 m, 2 sqrt(2 h / g) with g = 9.81 m/s². The hands are highest as the
/// jump goes up.
pub(super) fn step() -> Step {
    Step::built_in("ftj", "feet-together jump", &[Both, Air, Both, Upbeat], &[0.0; 4], &[0.9, 1.0, 0.7, 0.3])
        .free_in_front(&[3], super::heights::ORDINARY)
}
