//! The steps that are built in, each in its own file. A new step is one new file, its name here and one line in
//! `built_in.rs`.

mod built_in;
mod closed_sidestep;
mod double_step;
mod feet_together_jump;
mod galley;
mod half_bar_jump;
mod half_caper;
mod heights;
mod hook_leg;
mod kinds;
mod open_sidestep;
mod plain_caper;
mod running_step;
mod running_step_to_the_beat;
mod single_step;
mod slow_caper;
mod split_caper;
mod stand;
mod stand_a_beat;
mod stand_and_jump;
mod step;
mod step_and_hops;

pub use built_in::built_in;
pub use stand::STAND;
pub use step::{LIFTED, Step, swings, usual_rise};
