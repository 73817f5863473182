use super::Step;

/// The steps that every dance knows.
#[must_use]
pub fn built_in() -> Vec<Step> {
    vec![
        super::double_step::step(),
        super::single_step::step(),
        super::running_step::step(),
        super::running_step_to_the_beat::step(),
        super::step_and_hops::step(),
        super::feet_together_jump::step(),
        super::plain_caper::step(),
        super::half_bar_jump::step(),
        super::half_caper::step(),
        super::split_caper::step(),
        super::slow_caper::step(),
        super::open_sidestep::step(),
        super::closed_sidestep::step(),
        super::galley::step(),
        super::hook_leg::step(),
        super::stand::step(),
        super::stand_a_beat::step(),
        super::stand_and_jump::step(),
    ]
}
